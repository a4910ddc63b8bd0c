package intake

// SealedLine is one fact that a signature covers. The Sealed record sheet of a signed workbook lists them all.
type SealedLine struct {
	Kind  string // reading, decision, ruling, reasons, rulebook, placing, change, signature
	Class string // the class; of a rulebook line the table
	Tag   string // the tag; of a rulebook line the number of the row below the headings, of a change its number
	Item  string // the measure, or what else the value is of
	Value string
}
