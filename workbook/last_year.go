package workbook

import (
	"fmt"
	"path/filepath"

	"railbook/workbook/sheets/fair"
	"railbook/workbook/xlsx"
)

// openLastYear takes the figures of the past year named on the command line, else those that the results workbook carries.
// A past workbook that carries no rulebook is graded by the one named for this year.
func (j *job) openLastYear() error {
	if j.options.LastYear == "" {
		if j.previous != nil {
			j.lastYear = j.previous.LastYear
		}
		return nil
	}
	if xlsx.SameFile(j.options.LastYear, j.path) {
		return fmt.Errorf("--last-year names this year's workbook %s itself: name the results of the year before", j.path)
	}
	past, err := Examine(j.options.LastYear, Options{Passwords: j.options.Passwords, Log: j.options.Log, rulebookElse: j.options.Rulebook})
	if err != nil {
		return fmt.Errorf("last year's workbook can't be set beside this year's: %w", err)
	}
	j.lastYear = fair.LastYearLines(filepath.Base(j.options.LastYear), past)
	if len(j.lastYear) == 0 {
		return fmt.Errorf("last year's workbook %s holds no carcass to set beside this year's: name the results of the year before", j.options.LastYear)
	}
	return nil
}
