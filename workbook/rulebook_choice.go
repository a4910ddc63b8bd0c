package workbook

import (
	"fmt"
	"strings"

	"railbook/rules"
	"railbook/workbook/intake"
)

// chooseRules takes the rulebook named on the command line, else the one the workbook carries, else the default, and
// puts in what the command line says instead. A rulebook with an error is refused whole.
func (j *job) chooseRules() error {
	own, err := intake.OwnRulebook(j.book)
	if err != nil {
		return err
	}
	if own != nil {
		j.ownRulebookSHA = rules.Digest(own)
	}
	tables, err := j.rulebookTables()
	if err != nil {
		return err
	}
	if tables == nil && !j.options.saidOfRules() {
		j.rules = rules.Shipped()
	} else if j.rules, j.faults = rules.Load(j.options.withSaid(tables)); j.rules == nil {
		return &rulebookError{j.faults}
	}
	if j.previous != nil {
		j.previous.Under(j.rules.Measures)
	}
	return nil
}

// saidOfRules reports whether the command line says what stands in a rulebook.
func (o Options) saidOfRules() bool {
	return len(o.BasePrices) > 0 || len(o.Columns) > 0 || o.Species != ""
}

// withSaid puts into a rulebook's tables what the command line says; nil tables are those that ship.
func (o Options) withSaid(tables []rules.Table) []rules.Table {
	if tables == nil {
		tables = rules.Shipped().Tables
	}
	for species, price := range o.BasePrices {
		tables = rules.WithBasePrice(tables, species, price)
	}
	for id, heading := range o.Columns {
		tables = rules.WithHeading(tables, id, heading)
	}
	if o.Species != "" {
		tables = rules.WithSpecies(tables, o.Species)
	}
	return tables
}

// rulebookTables gives the tables of the rulebook to grade by; nil for the one that ships.
func (j *job) rulebookTables() ([]rules.Table, error) {
	if j.options.Rulebook != "" {
		return j.tablesOf(j.options.Rulebook)
	}
	if j.previous != nil && j.previous.Rulebook != nil {
		return j.previous.Rulebook, nil
	}
	tables, err := intake.ReadRulebook(j.book)
	switch {
	case err != nil || tables != nil:
		return tables, err
	case j.options.rulebookElse != "":
		return j.tablesOf(j.options.rulebookElse)
	}
	return nil, nil
}

// tablesOf reads the tables of a rulebook workbook.
func (j *job) tablesOf(path string) ([]rules.Table, error) {
	book, err := openBook(path, j.options)
	if err != nil {
		return nil, err
	}
	tables, err := intake.ReadRulebook(book)
	if err == nil && tables == nil {
		err = fmt.Errorf("%s holds no rulebook: make one with \"railbook rulebook new\" and edit that", path)
	}
	return tables, err
}

// rulebookError is the refusal of a rulebook that has errors: each with its cell.
type rulebookError struct{ faults []rules.Fault }

func (r *rulebookError) Error() string {
	var words strings.Builder
	words.WriteString("the rulebook has faults and nothing was graded by it; mend these cells and try again:")
	for _, fault := range r.faults {
		if !fault.Warning {
			fmt.Fprintf(&words, "\n  %s: %s", fault.Place, fault.Message)
		}
	}
	return words.String()
}
