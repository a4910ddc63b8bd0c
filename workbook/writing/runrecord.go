package writing

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/reading"
)

const runColumns = 6

// writeRunRecord writes how these results came to be: from what file, by what rules, and with what understanding of the
// headings.
func (p *press) writeRunRecord() error {
	page := p.open(plan{
		Name: reading.RunRecordSheet, Mark: reading.RunRecordMark, Title: "Run record: " + p.status(),
		Subtitle: "How these results came to be", Widths: []float64{22, 11, 30, 26, 14, 42}, Landscape: true,
		RepeatFrom: 1, RepeatTo: 1, FreezeRows: 1, Protected: true, Tab: workingTab,
	})
	page.skip(1)
	p.runLines(page)
	p.headingsRead(page)
	p.assumptions(page)
	p.passedOver(page)
	p.equations(page)
	writeCautions(page, runColumns)
	return page.close()
}

func (p *press) runLines(page *page) {
	for _, line := range [][2]string{
		{reading.InputNameLine, p.Run.InputName},
		{reading.InputSHALine, p.Run.InputSHA256},
		{reading.RevisionLine, strconv.Itoa(p.Run.Revision)},
		{reading.VersionLine, p.Run.Version},
		{reading.RulebookLine, p.Run.Rulebook},
		{reading.RulebookSHALine, p.Run.RulebookSHA},
		{reading.OwnRulebookLine, p.Run.OwnRulebookSHA},
		{reading.StateLine, p.Run.State},
		{reading.StatusLine, p.Run.Status},
		{reading.JudgeLine, p.Run.Judge},
		{reading.SignedLine, p.Run.Date},
		{reading.SealLine, p.Run.Seal},
	} {
		row := page.write(entry{line[0], style{Role: strong}}, entry{line[1], style{Role: body}})
		page.mergeAcross(row, 2, runColumns)
	}
}

func (p *press) headingsRead(page *page) {
	page.section("How the headings were read", runColumns, reading.SheetColumn, reading.CellColumn, "Heading as written", "Read as", "Unit", "Because")
	plain, wrapped := style{Role: body}, style{Role: body, Wrap: true}
	for _, block := range p.Read.Blocks {
		for _, heading := range block.Headings {
			name, unit := heading.Measure.String(), heading.Unit
			if name == "" {
				name = "not recognised: left alone"
			} else if definition, _ := measure.Define(heading.Measure); unit == "" {
				unit = definition.Unit
			}
			page.write(entry{block.Sheet, wrapped}, entry{heading.Cell, plain}, entry{heading.Text, wrapped},
				entry{name, wrapped}, entry{unit, plain}, entry{heading.Because, wrapped})
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
func (p *press) assumptions(page *page) {
	page.section("What was assumed and noted", runColumns)
	list := p.assumed()
	for _, one := range list {
		page.across(fmt.Sprintf("%s: %s (tag %s).", one.words, plural(one.count, "carcass", "carcasses"), listWords(one.tags)), body, 1, runColumns)
	}
	for _, finding := range p.Findings {
		if finding.Carcass == nil && finding.Level == validate.Note && finding.Settled == nil {
			page.across(finding.Message, body, 1, runColumns)
			list = append(list, assumption{})
		}
	}
	if len(list) == 0 {
		page.across("Nothing.", body, 1, runColumns)
	}
}

func (p *press) assumed() []assumption {
	at := make(map[string]int)
	var list []assumption
	for _, graded := range p.Graded {
		said := make(map[string]bool)
		for _, figure := range graded.Figures {
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
			list[i].tags = append(list[i].tags, tagWords(graded.Tag))
		}
	}
	slices.SortFunc(list, func(a, b assumption) int { return cmp.Compare(a.words, b.words) })
	return list
}

func (p *press) passedOver(page *page) {
	page.section("What was passed over", runColumns, reading.SheetColumn, reading.CellColumn, "As written", "Why")
	for _, passed := range p.Read.Passed {
		page.write(entry{placeSheet(passed.At), style{Role: body, Wrap: true}}, entry{passed.At.Cell, style{Role: body}},
			entry{shortened(passed.Written), style{Role: body, Wrap: true}}, entry{passed.Why, style{Role: body, Wrap: true}})
	}
	if len(p.Read.Passed) == 0 {
		page.across("Nothing.", body, 1, runColumns)
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
