package xlsx

import (
	"strings"

	"github.com/xuri/excelize/v2"
)

// Rule is what may be entered into cells, and what is said of it. Its words are shown up to 255 characters, its titles up to 32.
type Rule struct {
	Cells           string   // "G5:G300 G310"
	Choices         []string // a drop-down of these words; nil: none
	ListFrom        string   // a drop-down of the words in other cells: Lists!$A$2:$A$9
	Lowest, Highest string   // numbers, or formulas, that belong to what may be entered; empty: no bound
	Formula         string   // what must hold, in the words of the first cell
	Refuse          bool     // anything else is refused; else it may be kept
	ErrorTitle      string   // what is said of anything else; empty: it is taken without a word
	Error           string
	PromptTitle     string // what is said when the cell is selected
	Prompt          string
}

// AddRule gives cells a rule.
func (d *Draft) AddRule(sheet string, rule Rule) error {
	made := excelize.NewDataValidation(true)
	made.Sqref = rule.Cells
	if rule.ErrorTitle != "" {
		style := excelize.DataValidationErrorStyleWarning
		if rule.Refuse {
			style = excelize.DataValidationErrorStyleStop
		}
		made.SetError(style, rule.ErrorTitle, rule.Error)
	}
	if rule.PromptTitle != "" {
		made.SetInput(rule.PromptTitle, rule.Prompt)
	}
	if err := rule.limit(made); err != nil {
		return err
	}
	return d.file.AddDataValidation(sheet, made)
}

func (r *Rule) limit(made *excelize.DataValidation) error {
	switch {
	case r.Choices != nil:
		choices := make([]string, len(r.Choices))
		for i, choice := range r.Choices { // the library writes a character that XML does not allow as it stands
			choices[i] = strings.Map(func(c rune) rune {
				if !allowed(c) {
					return -1
				}
				return c
			}, choice)
		}
		return made.SetDropList(choices)
	case r.ListFrom != "":
		made.SetSqrefDropList(r.ListFrom)
	case r.Formula != "":
		made.Type, made.Formula1 = "custom", escape(r.Formula) // the library writes it as it stands
	case r.Lowest != "" && r.Highest != "":
		return made.SetRange(r.Lowest, r.Highest, excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorBetween)
	case r.Lowest != "":
		return made.SetRange(r.Lowest, "", excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorGreaterThanOrEqual)
	case r.Highest != "":
		return made.SetRange(r.Highest, "", excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorLessThanOrEqual)
	}
	return nil
}
