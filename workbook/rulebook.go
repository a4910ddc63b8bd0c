package workbook

import (
	"fmt"
	"path/filepath"
	"strings"

	"railbook/grading/whatif"
	"railbook/rules"
	"railbook/rules/phrase"
	"railbook/workbook/intake"
	"railbook/workbook/sheets/rulebook"
	"railbook/workbook/words"
	"railbook/workbook/xlsx"
)

// NewRulebook writes a rulebook for a board to edit: the defaults, or next year's from an old one. A different file that is
// there already is left alone unless the options force it.
func NewRulebook(path, fromPath string, options Options) error {
	tables := rules.DefaultTables()
	if fromPath != "" {
		old, faults, err := LoadRulebook(fromPath, options)
		if err != nil {
			return err
		}
		if old == nil {
			return fmt.Errorf("%s has faults and cannot be carried on; mend them first. %w", filepath.Base(fromPath), faultError(faults))
		}
		tables = rules.NextYear(old.Tables)
	}
	book, err := rulebookWorkbook(path, tables)
	if err != nil {
		return err
	}
	_, err = options.write(book, path, ".xlsx", fromPath)
	return err
}

func rulebookWorkbook(path string, tables []rules.Table) (*xlsx.Book, error) {
	empty, err := rulebook.NewRulebookFile()
	if err != nil {
		return nil, err
	}
	book, err := xlsx.OpenBytes(path, empty, xlsx.OpenOptions{})
	if err != nil {
		return nil, err
	}
	return book, rulebook.WriteRulebook(book, tables)
}

// LoadRulebook reads a rulebook from a workbook: one of its own, or any that carries one. The rulebook is nil where one
// of the faults is not a warning. The error is for a file that cannot be read or holds no rulebook.
func LoadRulebook(path string, options Options) (*rules.Rulebook, []rules.Fault, error) {
	book, err := openBook(path, options)
	if err != nil {
		return nil, nil, err
	}
	tables, err := intake.ReadRulebook(book)
	if err != nil {
		return nil, nil, err
	}
	if tables == nil {
		return nil, nil, fmt.Errorf("%s holds no rulebook; \"railbook rulebook new\" writes one to edit", filepath.Base(path))
	}
	loaded, faults := rules.Load(tables)
	return loaded, faults, nil
}

// CheckRulebook gives every fault and warning of a rulebook, limits that can never decide anything among them.
func CheckRulebook(path string, options Options) ([]rules.Fault, error) {
	book, faults, err := LoadRulebook(path, options)
	if book != nil {
		faults = append(faults, words.LimitFaults(whatif.NeverDecides(book))...)
	}
	return faults, err
}

// faultError is the first fault that is no warning, as an error.
func faultError(faults []rules.Fault) error {
	for _, fault := range faults {
		if !fault.Warning {
			return fmt.Errorf("%v: %s", fault.Place, fault.Message)
		}
	}
	return nil
}

// FaultsReport puts a rulebook's faults in words for the terminal: errors first, each with its cell.
func FaultsReport(path string, faults []rules.Fault) string {
	var text strings.Builder
	errors := 0
	for _, wanted := range []bool{false, true} {
		for _, fault := range faults {
			if fault.Warning != wanted {
				continue
			}
			word := "Warning: "
			if !fault.Warning {
				word = "Fault: "
				errors++
			}
			text.WriteString(Wrapped("- "+word+fault.Place.String()+": "+fault.Message, "  "))
		}
	}
	counts := phrase.Plural(errors, "fault", "faults") + ", " + phrase.Plural(len(faults)-errors, "warning", "warnings")
	if errors > 0 {
		return Wrapped(filepath.Base(path)+": "+counts+". With a fault nothing of a rulebook is used: mend these cells and check again.", "  ") + text.String()
	}
	return Wrapped(filepath.Base(path)+": "+counts+". It can be used: railbook grade --rulebook "+path+" WORKBOOK.", "  ") + text.String()
}
