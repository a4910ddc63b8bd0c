// Package combined writes one workbook of what was found in many, for an office that grades for several fairs at once.
package combined

import (
	"slices"

	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/sheets/fair"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/xlsx"
)

// Workbook is one of the many as the combined workbook shows it.
type Workbook struct {
	Name     string // the input's
	Results  string // where the results workbook is, as a link from the combined one; empty: there is none
	Failure  string // why it could not be graded; empty where it was
	First    string // who stands first in each class
	Findings []validate.Finding

	Carcasses, Placed, OnHold, Holds, Looks, Notes int
}

const (
	workbooksSheet = "Workbooks"
	findingsSheet  = "Findings"
	headingRow     = 3
	stateColumn    = 3 // is not shown where every finding is open
	findingColumns = 12
)

// Sheets are the names of its sheets, in their order.
var Sheets = []string{workbooksSheet, findingsSheet}

// Write gives the combined workbook: a line for each workbook, and a line for each finding, with links to the results.
func Write(workbooks []Workbook) ([]byte, error) {
	draft, err := kit.FreshDraft("Findings")
	if err != nil {
		return nil, err
	}
	look := kit.NewLook(draft, false)
	if err := writeWorkbooks(open(draft, look, kit.PageSetup{
		Name: workbooksSheet, Title: "What was graded together", Subtitle: phrase.Plural(len(workbooks), "workbook", "workbooks"),
		Widths: []float64{28, 10, 8, 8, 8, 10, 8, 60}, FilterTo: headingRow + len(workbooks),
	}), workbooks); err != nil {
		return nil, err
	}
	total, settled := 0, false
	for _, workbook := range workbooks {
		total += len(workbook.Findings)
		settled = settled || slices.ContainsFunc(workbook.Findings, func(finding validate.Finding) bool { return finding.Settled != nil })
	}
	var classes, measures []string
	for _, workbook := range workbooks {
		for _, finding := range workbook.Findings {
			classes, measures = append(classes, finding.Class), append(measures, finding.Measure.String())
		}
	}
	widths := []float64{15, 6, 8, 10, 6, 7, 11, 10, 10, 0, 8, 15}
	kit.FitWords(kit.FreshWidthFor, widths, 10, 98, map[int][]string{7: classes, 8: measures})
	hidden := []int{stateColumn}
	if settled {
		hidden = nil
	}
	if err := writeFindings(open(draft, look, kit.PageSetup{
		Name: findingsSheet, Title: "Findings of all workbooks", Subtitle: phrase.Plural(total, "finding", "findings"),
		Widths: widths, Hidden: hidden, Printed: findingColumns - 1, FilterTo: headingRow + total,
	}), workbooks); err != nil {
		return nil, err
	}
	return draft.Bytes()
}

func open(draft *xlsx.Draft, look *kit.Look, wanted kit.PageSetup) *kit.Page {
	wanted.Status, wanted.Landscape, wanted.Tab = "Together", true, kit.FirstTab
	wanted.RepeatFrom, wanted.RepeatTo, wanted.FreezeRows, wanted.FilterRow = headingRow, headingRow, headingRow, headingRow
	return kit.OpenPage(draft.NewSheet, look, wanted)
}

var (
	plain   = kit.Style{Role: kit.Body}
	wrapped = kit.Style{Role: kit.Body, Wrap: true}
)

func writeWorkbooks(page *kit.Page, workbooks []Workbook) error {
	heading := kit.Style{Role: kit.Heading, Wrap: true}
	page.Write(kit.Entry{Value: "Workbook", Style: heading}, kit.NumberHeading("Carcasses"), kit.NumberHeading("Placed"), kit.NumberHeading("On hold"),
		kit.NumberHeading("Holds"), kit.NumberHeading("To look at"), kit.NumberHeading("Notes"), kit.Entry{Value: "First of each class", Style: kit.Style{Role: kit.Heading, Indent: true}})
	for _, workbook := range workbooks {
		if workbook.Failure != "" {
			page.Write(
				kit.Entry{Value: workbook.Name, Style: wrapped}, kit.Entry{}, kit.Entry{}, kit.Entry{}, kit.Entry{}, kit.Entry{}, kit.Entry{},
				kit.Entry{Value: "Not graded: " + workbook.Failure, Style: kit.Style{Role: kit.Flagged, Wrap: true}},
			)
			continue
		}
		name := linked(workbook)
		page.Write(
			name, kit.Entry{Value: workbook.Carcasses, Style: plain}, kit.Entry{Value: workbook.Placed, Style: plain}, kit.Entry{Value: workbook.OnHold, Style: plain},
			kit.Entry{Value: workbook.Holds, Style: plain}, kit.Entry{Value: workbook.Looks, Style: plain}, kit.Entry{Value: workbook.Notes, Style: plain},
			kit.Entry{Value: workbook.First, Style: kit.Style{Role: kit.Body, Wrap: true, Indent: true}},
		)
		page.LinkFile(1, workbook.Results)
	}
	return page.Close()
}

func writeFindings(page *kit.Page, workbooks []Workbook) error {
	page.Headings("Workbook", "Level", "State", "Sheet", "Cell", "Tag", "Class", "Measure", "As read", "What was found", "Likely value", "Finding")
	for _, workbook := range workbooks {
		for _, level := range []validate.Level{validate.Hold, validate.Look, validate.Note} {
			for _, finding := range workbook.Findings {
				if finding.Level != level {
					continue
				}
				page.Write(findingEntries(workbook, finding)...)
				page.LinkFile(1, workbook.Results)
			}
		}
	}
	page.PrintTo(findingColumns - 1) // the kind of finding is for filters
	return page.Close()
}

func findingEntries(of Workbook, finding validate.Finding) []kit.Entry {
	state := "open"
	if finding.Settled != nil {
		state = "settled"
	}
	entries := []kit.Entry{linked(of), {Value: phrase.Capital(string(finding.Level)), Style: plain}, {Value: state, Style: plain}}
	for _, text := range []string{
		finding.At.Sheet, finding.At.Cell, finding.Tag, finding.Class, finding.Measure.String(), finding.Read, fair.BriefMessage(finding), finding.Hint, finding.Code,
	} {
		entries = append(entries, kit.Entry{Value: text, Style: wrapped})
	}
	return entries
}

// linked is the name of a workbook as a link to its results.
func linked(workbook Workbook) kit.Entry {
	style := kit.Style{Role: kit.Link}
	if workbook.Results == "" {
		style.Role = kit.Body
	}
	return kit.Entry{Value: workbook.Name, Style: style}
}
