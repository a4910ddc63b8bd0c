package rules

// Species is a kind of animal that the program can grade: "beef", "swine", "lamb", "goat".
type Species string

// The species that have rules of their own.
const (
	Beef  Species = "beef"
	Swine Species = "swine"
	Lamb  Species = "lamb"
	Goat  Species = "goat"
)

// Basis says what was measured: the carcass on the rail, or the live animal by ultrasound.
// Figures of the two are never ranked together.
type Basis string

// The two bases of measurement.
const (
	OnTheRail Basis = "carcass"
	LiveScan  Basis = "ultrasound"
)
