package fair

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"railbook/grading/placing"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/sheets/kit"
)

// call is one row of the judge's own calls.
type call struct {
	kind, class, tag, asked, what, value, initials, reason, date string
}

// writeCalls writes the ties that the rule leaves to the judge, the calls already made, and blank rows for more. Blank rows alone
// are printed only where the page still has room.
func (p *Writer) writeCalls(page *kit.Page, limits *reviewLimits) {
	const above = 60 // points of blank row, title and note
	calls := p.calls()
	asked := len(calls) > 0
	if p.Status() != record.Signed {
		for range callRows {
			calls = append(calls, call{kind: record.CallRow})
		}
	}
	high := above + roomToWrite*float64(len(calls))
	printed := asked || len(calls) > 0 && page.Fits(high)
	if !printed {
		page.PrintTo(reviewPrinted)
	}
	if len(calls) == 0 {
		return
	}
	if printed {
		page.Keep(high)
	}
	page.Skip(1)
	page.Across("The judge's own calls", kit.Band, 1, reviewPrinted)
	page.Across("Give a quality grade or a dark-cutter lowering of your own, break a tie that the rule leaves to you, or overrule a place "+
		"(a reason is needed and is printed; on paper, write it along the line). Class and tag say which carcass.", kit.Note, 1, reviewPrinted)
	first := page.Row + 1
	for _, call := range calls {
		callRow(page, call)
	}
	if printed {
		page.PrintTo(reviewPrinted)
	}
	limits.useCalls(first, page.Row, p.classNames())
}

func callRow(page *kit.Page, asked call) {
	filled, wrapped, plain := kit.Style{Role: kit.Input}, kit.Style{Role: kit.Input, Wrap: true}, kit.Style{Role: kit.Body, Wrap: true}
	typed := kit.Style{Role: kit.Input, Format: textFormat}
	cells := []kit.Entry{
		{Value: asked.class, Style: wrapped},
		{Value: asked.tag, Style: typed},
		{Value: "", Style: plain},
		{Value: "", Style: plain},
		{Value: "", Style: plain},
		{Value: "", Style: plain},
		{Value: asked.asked, Style: plain},
		{Value: "", Style: plain},
		{Value: asked.what, Style: filled},
		{Value: asked.value, Style: typed},
		{Value: asked.initials, Style: filled},
		{Value: asked.reason, Style: wrapped},
		{Value: asked.date, Style: filled},
		{Value: "", Style: plain},
	}
	if asked.kind == record.TieRow {
		cells[0].Style, cells[1].Style = plain, kit.Style{Role: kit.Strong}
	}
	row := reviewRow{kind: asked.kind, finding: validate.Finding{Class: asked.class, Tag: asked.tag}}
	page.WriteHigh(roomToWrite, append(cells, keyEntries(&row, "", "")...)...)
}

// calls gathers the ties still to be broken and what the judge called before.
func (p *Writer) calls() []call {
	var calls []call
	ruled := make(map[string]bool)
	for _, ruling := range p.Rulings {
		asked := call{
			kind: record.CallRow, class: ruling.Class, tag: ruling.Tag, what: record.PlaceCall, value: strconv.Itoa(ruling.Place),
			initials: ruling.Initials, reason: ruling.Reason, date: ruling.Date, asked: "The place you gave against the rule.",
		}
		if ruling.Reason == "" {
			asked.kind, asked.asked = record.TieRow, "A tie that the rule left to you."
		}
		if why := p.refusedRuling(ruling); why != "" {
			asked.asked = "The place you gave could not be followed: " + why
		}
		ruled[reasonsKey(ruling.Class, ruling.Tag)] = true
		calls = append(calls, asked)
	}
	for _, decision := range p.Decisions {
		if decision.Code == record.JudgesCall {
			calls = append(calls, p.decisionCall(decision))
			if decision.Was == record.TieRow {
				ruled[reasonsKey(decision.Class, decision.Tag)] = true
			}
		}
	}
	for _, class := range p.Placings.Classes {
		for _, placed := range class.Placed {
			if placed.JudgeTie && !ruled[reasonsKey(placed.Carcass.Class, placed.Tag)] {
				calls = append(calls, tieCall(class, placed))
			}
		}
	}
	slices.SortStableFunc(calls, func(a, b call) int {
		return cmp.Or(cmp.Compare(a.class, b.class), compareTags(a.tag, b.tag))
	})
	return calls
}

// refusedRuling says why a ruling could not be followed; empty where it was.
func (p *Writer) refusedRuling(ruling placing.Ruling) string {
	for _, refused := range p.Placings.Refused {
		if refused.Ruling == ruling {
			return refused.Why
		}
	}
	return ""
}

func (p *Writer) decisionCall(decision validate.Decision) call {
	asked := call{
		kind: record.CallRow, class: decision.Class, tag: decision.Tag, what: string(decision.Choice), value: decision.Value,
		initials: decision.Initials, reason: decision.Remark, date: decision.Date, asked: "Your own call.",
	}
	switch {
	case decision.Measure == measure.QualityGrade:
		asked.what = record.QualityCall
	case decision.Measure == measure.DarkCutterLowering:
		asked.what = record.LoweringCall
	case decision.Was == record.TieRow:
		asked.kind = record.TieRow
	}
	if decision.Refused {
		asked.asked = p.refusedWords(decision)
	}
	return asked
}

func tieCall(class placing.ClassPlacing, placed placing.Placed) call {
	var level []string
	for _, other := range class.Placed {
		if other.Place == placed.Place && other.Graded != placed.Graded {
			level = append(level, kit.TagWords(other.Tag))
		}
	}
	return call{
		kind: record.TieRow, class: placed.Carcass.Class, tag: placed.Tag, what: record.PlaceCall,
		asked: fmt.Sprintf("Tied for place %d with tag %s. The rule leaves it to you: give each its place.", placed.Place, phrase.JoinAnd(phrase.Few(level))),
	}
}

// classNames are the classes as the sheets write them, in the order in which they were read.
func (p *Writer) classNames() []string {
	var names []string
	seen := map[string]bool{"": true}
	for _, carcass := range p.Read.Carcasses {
		if !seen[carcass.Class] {
			seen[carcass.Class] = true
			names = append(names, carcass.Class)
		}
	}
	return names
}
