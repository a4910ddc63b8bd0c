package rules

// Fault is something wrong with a rulebook, in a sentence for the board member who must mend it.
type Fault struct {
	Place   Place
	Message string
	Warning bool // the rulebook can be used; otherwise nothing of it may be applied
}
