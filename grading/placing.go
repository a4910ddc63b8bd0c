package grading

import "railbook/rules"

// Placings are all classes and awards of a fair.
type Placings struct {
	Classes []ClassPlacing
	Awards  []AwardList
}

// ClassPlacing is one class in order.
type ClassPlacing struct {
	Class   string
	Species rules.Species
	Basis   rules.Basis
	Rule    rules.Class
	Ranking rules.Ranking
	Placed  []Placed
	Left    []Left
}

// Placed is a carcass with its place.
type Placed struct {
	*Graded
	Place     int    // 1 is the best; tied carcasses have the same
	Shared    bool   // others have the same place
	JudgeTie  bool   // the rule leaves the tie to the judge, who has not broken it yet
	Overruled string // the judge's reason for this place against the rule; empty where the rule placed it
	Group     string // "blue"; empty where the rulebook has no groups
	Decider   int    // the index of the ranking's key that put it above the next carcass; -1 where none did (last, or tied)
	Why       string // a sentence: what decided it against the next one
	Reasons   string // draft oral reasons against the next one
	Paid      bool
}

// Left is a carcass that is not placed.
type Left struct {
	*Graded
	Reason string
}

// AwardList is one award and those who have it.
type AwardList struct {
	Award   rules.Award
	Winners []Placed
	Reason  string // why nobody has it, where nobody has
}

// Ruling is what a judge decided about a carcass's place: to break a tie, or against the rule.
type Ruling struct {
	Class, Tag string
	Place      int
	Reason     string // empty for a tie broken where the rule leaves it to the judge
	Initials   string
	Date       string // as a person gave it; empty for none
}

// PlaceClasses places every class. Carcasses in onHold are left out with the reason given there.
func PlaceClasses(graded []*Graded, onHold map[*Graded]string, rulings []Ruling, book *rules.Rulebook) Placings {
	return Placings{}
}
