package rulebook

import (
	"unicode/utf8"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/xlsx"
)

// choiceLines is how many lines of a sheet have drop-downs, so that a board can add some.
const choiceLines = 300

// addChoices gives the cells that have few right answers a drop-down, and each heading a note that says what its column
// means when the heading is selected.
func (s rulebookSheet) addChoices(p *kit.Page, lines int) {
	first, last := HeadingRow+1, HeadingRow+max(choiceLines, lines+spareLines(s.layout.Name))
	for number, column := range s.layout.Columns {
		s.explain(p, address.Cell(number+1, HeadingRow), column)
		span := address.Span(number+1, first, number+1, last)
		switch column.Holds {
		case rules.HoldsYesNo:
			s.choose(p, span, []string{"yes", "no"})
		case rules.HoldsChoice:
			s.choose(p, span, column.Choices)
		case rules.HoldsSpecies:
			s.choose(p, span, rules.SpeciesNames())
		case rules.HoldsMeasure:
			s.suggest(p, span, s.measures)
		}
	}
	if s.layout.Name == rules.SettingsTable {
		s.chooseSettings(p)
	}
}

// chooseSettings gives each setting that is one of a few words a drop-down of its own.
func (s rulebookSheet) chooseSettings(p *kit.Page) {
	for number, line := range s.lines() {
		for _, setting := range rules.EverySetting() {
			if setting.Name == line[0] && len(setting.Choices) > 0 {
				s.choose(p, address.Cell(3, HeadingRow+1+number), setting.Choices)
			}
		}
	}
}

func (s rulebookSheet) choose(p *kit.Page, span string, choices []string) {
	p.AddRule(xlsx.Rule{
		Cells: span, Choices: choices, Refuse: true,
		ErrorTitle: "Not one of the choices", Error: "Choose a word from the list, or leave the cell blank.",
	})
}

// suggest lists a range's words in a drop-down and lets other words stand, such as points and the name of an index.
func (s rulebookSheet) suggest(p *kit.Page, span, source string) {
	p.AddRule(xlsx.Rule{Cells: span, ListFrom: source})
}

// explain shows what a column means when its heading is selected. A spreadsheet program shows at most 255 characters.
func (s rulebookSheet) explain(p *kit.Page, cell string, column rules.Column) {
	words := column.Meaning
	if utf8.RuneCountInString(words) > 255 {
		words = string([]rune(words)[:254]) + "…"
	}
	p.AddRule(xlsx.Rule{Cells: cell, PromptTitle: column.Heading, Prompt: words})
}
