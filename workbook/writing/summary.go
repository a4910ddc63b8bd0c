package writing

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
	"railbook/workbook/reading"
)

// LastYear is a past year's results to set beside this year's.
type LastYear struct {
	Name     string // "2024", or the file's name
	Placings grading.Placings
}

const summaryColumns = 11

// group is carcasses whose figures may be averaged together.
type group struct {
	name   string
	kind   kindOfClass
	all    []*grading.Graded
	placed int
}

// writeSummary writes counts and averages by class and overall, quality against yield, last year beside this one, and
// the charts.
func (p *press) writeSummary() error {
	widths := append([]float64{26}, slices.Repeat([]float64{11}, summaryColumns-1)...)
	page := p.open(plan{
		Name: reading.SummarySheet, Mark: reading.SummaryMark, Title: "Summary: " + p.status(), Subtitle: p.fairWords(),
		Widths: widths, Landscape: true, RepeatFrom: 1, RepeatTo: 1, FreezeRows: 1, Tab: firstTab,
	})
	page.across(p.statusWords(), body, 1, summaryColumns)
	drawn := &chartFigures{}
	for i, kind := range p.kindsOfClasses() {
		if i > 0 {
			page.breakPage()
		}
		p.summarise(page, kind, drawn)
	}
	writeCautions(page, summaryColumns)
	page.printTo(summaryColumns)
	drawn.write(page)
	return page.close()
}

func (p *press) summarise(page *page, kind kindOfClass, drawn *chartFigures) {
	groups := groupsOf(p.Placings, kind)
	overall := groups[len(groups)-1]
	page.skip(1)
	page.across(sentence(kind.words()), band, 1, summaryColumns)
	averagesTable(page, kind, groups)
	drawn.quality(page, kind, overall)
	if p.LastYear != nil {
		p.besideLastYear(page, kind, overall)
	}
	drawn.place(page, kind, overall)
}

// groupsOf gives the classes of a kind, and last all of them together.
func groupsOf(placings grading.Placings, kind kindOfClass) []group {
	var groups []group
	overall := group{name: "All " + string(kind.Species), kind: kind}
	for _, class := range placings.Classes {
		if (kindOfClass{class.Species, class.Basis}) != kind {
			continue
		}
		all := everyCarcass(class)
		groups = append(groups, group{className(class.Class), kind, all, len(class.Placed)})
		overall.all = append(overall.all, all...)
		overall.placed += len(class.Placed)
	}
	return append(groups, overall)
}

// averagedMeasures are the figures averaged for a kind of carcass: the weight, and every computed number.
func averagedMeasures(kind kindOfClass) []rules.Measure {
	measures := []rules.Measure{rules.HotCarcassWeight}
	for _, column := range grading.Columns(kind.Species, kind.Basis) {
		definition, _ := rules.Define(column.Measure)
		if definition.Kind == rules.KindNumber && column.Measure != rules.WholeYieldGrade && column.Measure != rules.HotCarcassWeight {
			measures = append(measures, column.Measure)
		}
	}
	if len(measures) > summaryColumns-3 {
		measures = append(measures[:summaryColumns-5], rules.Price, rules.CarcassValue)
	}
	return measures
}

func averagesTable(page *page, kind kindOfClass, groups []group) {
	measures := averagedMeasures(kind)
	headings := []string{"Averages by class", "Carcasses", "Placed"}
	for _, measure := range measures {
		headings = append(headings, headingOf(measure))
	}
	page.headings(headings...)
	for i, one := range groups {
		of := body
		if i == len(groups)-1 {
			of = total
		}
		row := []entry{{one.name, style{Role: of, Wrap: true}}, {len(one.all), style{Role: of}}, {one.placed, style{Role: of}}}
		for _, measure := range measures {
			row = append(row, averageEntry(one.all, measure, of))
		}
		page.write(row...)
	}
	page.write(entry{"Averages are of every carcass that has the figure, placed or not.", style{Role: note}})
}

func averageEntry(all []*grading.Graded, measure rules.Measure, of role) entry {
	mean, ok := meanOf(all, measure)
	if !ok {
		return entry{"–", style{Role: of, Align: "right"}}
	}
	definition, _ := rules.Define(measure)
	return entry{mean, style{Role: of, Format: numberFormat(definition.Decimals)}}
}

// meanOf is the mean of a figure over the carcasses that have it.
func meanOf(all []*grading.Graded, measure rules.Measure) (decimal.Decimal, bool) {
	sum, count := decimal.Zero, int64(0)
	for _, one := range all {
		if value, ok := one.Figure(measure); ok {
			sum, count = sum.Add(value.Number), count+1
		}
	}
	if count == 0 {
		return decimal.Zero, false
	}
	return sum.DivRound(decimal.NewFromInt(count), 6), true
}

// besideLastYear sets this year's averages beside last year's.
func (p *press) besideLastYear(page *page, kind kindOfClass, now group) {
	groups := groupsOf(p.LastYear.Placings, kind)
	then := groups[len(groups)-1]
	page.skip(1)
	if len(then.all) == 0 {
		page.across(fmt.Sprintf("%s has no %s to set beside these.", p.LastYear.Name, kind.words()), note, 1, summaryColumns)
		return
	}
	page.headings("Beside last year", "This year", "Last year", "Change")
	page.write(entry{"Carcasses", style{Role: body}}, entry{len(now.all), style{Role: body}}, entry{len(then.all), style{Role: body}},
		entry{len(now.all) - len(then.all), style{Role: body, Format: "+0;-0;0"}})
	for _, measure := range averagedMeasures(kind) {
		lastYearRow(page, measure, now, then)
	}
	page.write(entry{"Last year: " + p.LastYear.Name, style{Role: note}})
}

func lastYearRow(page *page, measure rules.Measure, now, then group) {
	definition, _ := rules.Define(measure)
	format := numberFormat(definition.Decimals)
	row := []entry{{headingOf(measure), style{Role: body}}, averageEntry(now.all, measure, body), averageEntry(then.all, measure, body)}
	a, hasNow := meanOf(now.all, measure)
	b, hasThen := meanOf(then.all, measure)
	if hasNow && hasThen {
		row = append(row, entry{a.Sub(b), style{Role: body, Format: "+" + format + ";-" + format + ";0"}})
	}
	page.write(row...)
}
