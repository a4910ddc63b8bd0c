package writing

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/reading"
)

// call is one row of the judge's own calls.
type call struct {
	kind, class, tag, asked, what, value, initials, reason, date string
}

// writeCalls writes the ties that the rule leaves to the judge, the calls already made, and blank rows for more.
func (p *press) writeCalls(page *page, limits *reviewLimits) {
	page.skip(1)
	page.across("The judge's own calls", band, 1, reviewVisible)
	page.across("Give a quality grade or a dark-cutter lowering of your own, break a tie that the rule leaves to you, or overrule a place "+
		"(a reason is needed and is printed). Class and tag say which carcass.", note, 1, reviewVisible)
	calls := p.calls()
	for range callRows {
		calls = append(calls, call{kind: reading.CallRow})
	}
	first := page.row + 1
	for _, one := range calls {
		callRow(page, one)
	}
	limits.useCalls(first, page.row, p.classNames())
}

func callRow(page *page, one call) {
	filled, wrapped, plain := style{Role: input}, style{Role: input, Wrap: true}, style{Role: body, Wrap: true}
	typed := style{Role: input, Format: textFormat}
	cells := []entry{
		{one.class, wrapped},
		{one.tag, typed},
		{"", plain},
		{"", plain},
		{"", plain},
		{"", plain},
		{one.asked, plain},
		{"", plain},
		{one.what, filled},
		{one.value, typed},
		{one.initials, filled},
		{one.reason, wrapped},
		{one.date, filled},
	}
	if one.kind == reading.TieRow {
		cells[0].style, cells[1].style = plain, style{Role: strong}
	}
	kind := reviewRow{kind: one.kind, finding: validate.Finding{Class: one.class, Tag: one.tag}}
	page.writeHigh(roomToWrite, append(cells, keyEntries(kind, "", "")...)...)
}

// calls gathers the ties still to be broken and what the judge called before.
func (p *press) calls() []call {
	var calls []call
	ruled := make(map[string]bool)
	for _, ruling := range p.Rulings {
		one := call{
			kind: reading.CallRow, class: ruling.Class, tag: ruling.Tag, what: reading.PlaceCall, value: strconv.Itoa(ruling.Place),
			initials: ruling.Initials, reason: ruling.Reason, date: ruling.Date, asked: "The place you gave against the rule.",
		}
		if ruling.Reason == "" {
			one.kind, one.asked = reading.TieRow, "A tie that the rule left to you."
		}
		if why := p.refusedRuling(ruling); why != "" {
			one.asked = "The place you gave could not be followed: " + why
		}
		ruled[reasonsKey(ruling.Class, ruling.Tag)] = true
		calls = append(calls, one)
	}
	for _, decision := range p.Decisions {
		if decision.Code == reading.JudgesCall {
			calls = append(calls, p.decisionCall(decision))
			if decision.Was == reading.TieRow {
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
func (p *press) refusedRuling(ruling grading.Ruling) string {
	for _, refused := range p.Placings.Refused {
		if refused.Ruling == ruling {
			return refused.Why
		}
	}
	return ""
}

func (p *press) decisionCall(decision validate.Decision) call {
	one := call{
		kind: reading.CallRow, class: decision.Class, tag: decision.Tag, what: string(decision.Choice), value: decision.Value,
		initials: decision.Initials, reason: decision.Remark, date: decision.Date, asked: "Your own call.",
	}
	switch {
	case decision.Measure == measure.QualityGrade:
		one.what = reading.QualityCall
	case decision.Measure == measure.DarkCutterLowering:
		one.what = reading.LoweringCall
	case decision.Was == reading.TieRow:
		one.kind = reading.TieRow
	}
	if decision.Refused {
		one.asked = p.refusedWords(decision)
	}
	return one
}

func tieCall(class grading.ClassPlacing, placed grading.Placed) call {
	var level []string
	for _, other := range class.Placed {
		if other.Place == placed.Place && other.Graded != placed.Graded {
			level = append(level, tagWords(other.Tag))
		}
	}
	return call{
		kind: reading.TieRow, class: placed.Carcass.Class, tag: placed.Tag, what: reading.PlaceCall,
		asked: fmt.Sprintf("Tied for place %d with tag %s. The rule leaves it to you: give each its place.", placed.Place, listWords(level)),
	}
}

// listWords names at most four things of a list.
func listWords(list []string) string {
	const most = 4
	text := ""
	for i, one := range list {
		switch {
		case i == most:
			return fmt.Sprintf("%s and %d more", text, len(list)-most)
		case i == 0:
			text = one
		case i == len(list)-1:
			text += " and " + one
		default:
			text += ", " + one
		}
	}
	return text
}

// classNames are the classes as the sheets write them, in the order in which they were read.
func (p *press) classNames() []string {
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
