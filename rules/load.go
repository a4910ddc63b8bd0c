package rules

import (
	"fmt"
	"sync"

	"railbook/rules/measure"
)

// MeasuresOf gives the measures that a rulebook's tables know: the standard ones, and those they declare.
func MeasuresOf(tables []Table) *measure.Table {
	loading := &loading{book: &Rulebook{Measures: measure.Standard()}}
	loading.book.Tables = loading.complete(tables)
	loading.measures()
	return loading.book.Measures
}

// Load makes a rulebook of tables. The faults come in the order of the sheets; with any that is not a warning the
// rulebook is nil, so that nothing of a faulty rulebook is ever applied. A table that is not among those given is taken
// from the defaults, with a warning.
func Load(tables []Table) (*Rulebook, []Fault) {
	loading := &loading{book: &Rulebook{Measures: measure.Standard()}}
	loading.book.Tables = loading.complete(tables)
	loading.settings()
	loading.measures()
	loading.grid()
	loading.limits()
	loading.shippedLimits()
	loading.premiums()
	loading.matrix()
	loading.points()
	loading.rankings()
	loading.classes()
	loading.awards()
	loading.eligibility()
	loading.groups()
	loading.headings()
	loading.checkOwnHeadings()
	loading.targets()
	if !loading.faulty() { // what follows from a fault is no fault of its own
		loading.checkNothingUnused()
	}
	if loading.faulty() {
		return nil, loading.faults
	}
	loading.book.SHA256 = Digest(loading.book.Tables)
	return loading.book, loading.faults
}

// Shipped gives the rulebook that ships with the program. It is shared, so nobody changes it.
var Shipped = sync.OnceValue(func() *Rulebook { return mustLoad(shippedTables()) })

// Default gives the rulebook that ships with the program. It is loaded afresh each time, so that the caller owns it.
func Default() *Rulebook { return mustLoad(DefaultTables()) }

func mustLoad(shipped []Table) *Rulebook {
	book, faults := Load(shipped)
	if book == nil {
		panic(fmt.Sprintf("rules: the default rulebook: %v: %s", faults[0].Place, faults[0].Message))
	}
	return book
}
