package fair

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/sheets/kit"
)

const runColumns = 6

// writeRunRecord writes how these results came to be: from what file, by what rules, and with what understanding of the
// headings.
func (p *Writer) writeRunRecord() error {
	page := p.open(kit.PageSetup{
		Name: record.RunRecordSheet, Mark: record.RunRecordMark, Title: "Run record: " + p.Status(),
		Subtitle: "How these results came to be", Widths: []float64{22, 11, 30, 26, 14, 42}, Landscape: true,
		RepeatFrom: 1, RepeatTo: 1, FreezeRows: 1, Protected: true, Tab: kit.WorkingTab,
	})
	page.Skip(1)
	p.runLines(page)
	p.headingsRead(page)
	p.assumptions(page)
	p.passedOver(page)
	p.equations(page)
	kit.WriteCautions(page, runColumns)
	return page.CloseHidden()
}

func (p *Writer) runLines(page *kit.Page) {
	for _, line := range [][2]string{
		{record.InputNameLine, p.Run.InputName},
		{record.InputSHALine, p.Run.InputSHA256},
		{record.RevisionLine, strconv.Itoa(p.Run.Revision)},
		{record.VersionLine, p.Run.Version},
		{record.RulebookLine, p.Run.Rulebook},
		{record.RulebookSHALine, p.Run.RulebookSHA},
		{record.OwnRulebookLine, p.Run.OwnRulebookSHA},
		{record.StateLine, p.Run.State},
		{record.StatusLine, p.Run.Status},
		{record.JudgeLine, p.Run.Judge},
		{record.SignedLine, p.Run.Date},
		{record.SealLine, p.Run.Seal},
	} {
		row := page.Write(kit.Entry{Value: line[0], Style: kit.Style{Role: kit.Strong}}, kit.Entry{Value: line[1], Style: kit.Style{Role: kit.Body}})
		page.MergeAcross(row, 2, runColumns)
	}
}

func (p *Writer) headingsRead(page *kit.Page) {
	page.Section("How the headings were read", runColumns, record.SheetColumn, record.CellColumn, "Heading as written", "Read as", "Unit", "Because")
	plain, wrapped := kit.Style{Role: kit.Body}, kit.Style{Role: kit.Body, Wrap: true}
	for _, block := range p.Read.Blocks {
		for _, heading := range block.Headings {
			name, unit := heading.Measure.String(), heading.Unit
			if name == "" {
				name = "not recognised: left alone"
			} else if definition, _ := measure.Define(heading.Measure); unit == "" {
				unit = definition.Unit
			}
			page.Write(kit.Entry{Value: block.Sheet, Style: wrapped}, kit.Entry{Value: heading.Cell, Style: plain}, kit.Entry{Value: heading.Text, Style: wrapped},
				kit.Entry{Value: name, Style: wrapped}, kit.Entry{Value: unit, Style: plain}, kit.Entry{Value: heading.Because, Style: wrapped})
		}
	}
}

// assumption is something that had to be taken for granted, for how many carcasses.
type assumption struct {
	words string
	count int
	tags  []string
}

// assumptions lists what was taken for granted in the figures, each once, and what was noted of whole sheets.
func (p *Writer) assumptions(page *kit.Page) {
	page.Section("What was assumed and noted", runColumns)
	list := p.assumed()
	for _, assumption := range list {
		page.Across(fmt.Sprintf("%s: %s (tag %s).", assumption.words, phrase.Plural(assumption.count, "carcass", "carcasses"), phrase.JoinAnd(phrase.Few(assumption.tags))), kit.Body, 1, runColumns)
	}
	for _, finding := range p.Findings {
		if finding.Carcass == nil && finding.Level == validate.Note && finding.Settled == nil {
			page.Across(finding.Message, kit.Body, 1, runColumns)
			list = append(list, assumption{})
		}
	}
	if len(list) == 0 {
		page.Across("Nothing.", kit.Body, 1, runColumns)
	}
}

func (p *Writer) assumed() []assumption {
	at := make(map[string]int)
	var list []assumption
	for _, graded := range p.Carcasses {
		said := make(map[string]bool)
		for _, figure := range graded.Figures() {
			if figure.Assumed == "" || said[figure.Assumed] {
				continue
			}
			said[figure.Assumed] = true
			i, known := at[figure.Assumed]
			if !known {
				i = len(list)
				at[figure.Assumed] = i
				list = append(list, assumption{words: figure.Assumed})
			}
			list[i].count++
			list[i].tags = append(list[i].tags, kit.TagWords(graded.Tag))
		}
	}
	slices.SortFunc(list, func(a, b assumption) int { return cmp.Compare(a.words, b.words) })
	return list
}

func (p *Writer) passedOver(page *kit.Page) {
	page.Section("What was passed over", runColumns, record.SheetColumn, record.CellColumn, "As written", "Why")
	for _, passed := range p.Read.Passed {
		page.Write(kit.Entry{Value: placeSheet(passed.At), Style: kit.Style{Role: kit.Body, Wrap: true}}, kit.Entry{Value: passed.At.Cell, Style: kit.Style{Role: kit.Body}},
			kit.Entry{Value: shortened(passed.Written), Style: kit.Style{Role: kit.Body, Wrap: true}}, kit.Entry{Value: passed.Why, Style: kit.Style{Role: kit.Body, Wrap: true}})
	}
	if len(p.Read.Passed) == 0 {
		page.Across("Nothing.", kit.Body, 1, runColumns)
	}
}

// shortened keeps a long note from filling a page.
func shortened(text string) string {
	const most = 120
	letters := []rune(strings.Join(strings.Fields(text), " "))
	if len(letters) <= most {
		return string(letters)
	}
	return string(letters[:most-1]) + "…"
}
