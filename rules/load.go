package rules

import "errors"

// Default gives the rulebook that ships with the program.
func Default() *Rulebook { return &Rulebook{} }

// DefaultTables gives the tables the default rulebook is made of, in the order of its sheets.
func DefaultTables() []Table { return nil }

// Load makes a rulebook of tables. With any fault that is not a warning the rulebook is nil.
func Load(tables []Table) (*Rulebook, []Fault) {
	return nil, []Fault{{Message: errors.ErrUnsupported.Error()}}
}
