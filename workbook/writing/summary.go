package writing

import (
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/reading"
)

const summaryColumns = 11

// group is carcasses whose figures may be averaged together.
type group struct {
	name     string
	kind     kindOfClass
	all      []*grading.Graded // but for those on hold, whose figures cannot be relied on
	placed   int
	held     int
	keys     []measure.ID // that the classes are ranked by, the first deciding first
	firstKey measure.ID   // the first of them that is a number
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
	groups := groupsOf(p.Placings, p.Findings, kind)
	overall := groups[len(groups)-1]
	page.skip(1)
	page.across(strings.ToUpper(kind.words()[:1])+kind.words()[1:], band, 1, summaryColumns)
	averagesTable(page, kind, groups)
	drawn.quality(page, kind, overall)
	p.besideLastYear(page, kind, overall)
	drawn.place(page, kind, overall, p.lastYearOf(kind))
}

// groupsOf gives the classes of a kind, and last all of them together.
func groupsOf(placings grading.Placings, findings []validate.Finding, kind kindOfClass) []group {
	var groups []group
	held := onHold(findings)
	overall := group{name: "All " + string(kind.Species), kind: kind}
	for _, class := range placings.Classes {
		if (kindOfClass{class.Species, class.Basis}) != kind {
			continue
		}
		overall.rankedBy(class.Ranking)
		one := group{name: className(class.Class), kind: kind, placed: len(class.Placed)}
		for _, graded := range everyCarcass(class) {
			if held[graded.Carcass] {
				one.held++
			} else {
				one.all = append(one.all, graded)
			}
		}
		groups = append(groups, one)
		overall.all = append(overall.all, one.all...)
		overall.placed += one.placed
		overall.held += one.held
	}
	return append(groups, overall)
}

// rankedBy adds what a class is ranked by.
func (g *group) rankedBy(ranking rules.Ranking) {
	for _, key := range ranking.Keys {
		definition, _ := measure.Define(key.Measure)
		if g.firstKey == measure.None && definition.Kind == measure.KindNumber && (key.Prefer == rules.Highest || key.Prefer == rules.Lowest) {
			g.firstKey = key.Measure
		}
		g.keys = append(g.keys, key.Measure)
	}
}

// averagedMeasures are the figures averaged for a kind of carcass: the weight, and every computed number.
func averagedMeasures(kind kindOfClass) []measure.ID {
	measures := []measure.ID{measure.HotCarcassWeight}
	for _, column := range grading.Columns(kind.Species, kind.Basis) {
		definition, _ := measure.Define(column.Measure)
		if definition.Kind == measure.KindNumber && column.Measure != measure.WholeYieldGrade && column.Measure != measure.HotCarcassWeight {
			measures = append(measures, column.Measure)
		}
	}
	if len(measures) > summaryColumns-3 {
		measures = append(measures[:summaryColumns-5], measure.Price, measure.CarcassValue)
	}
	return measures
}

func averagesTable(page *page, kind kindOfClass, groups []group) {
	measures, sums := sumsOf(groups, averagedMeasures(kind))
	headings := []entry{{"Averages by class", style{Role: heading, Wrap: true}}, numberHeading("Carcasses"), numberHeading("Placed")}
	for _, id := range measures {
		headings = append(headings, numberHeading(kind.heading(id)))
	}
	page.write(headings...)
	for i, one := range groups {
		of := body
		if i == len(groups)-1 {
			of = total
		}
		row := []entry{{one.name, style{Role: of, Wrap: true}}, countOf(len(one.all)+one.held, of), countOf(one.placed, of)}
		for _, id := range measures {
			row = append(row, averageEntry(sums[id][i], id, of))
		}
		page.write(row...)
	}
	words := "Averages and charts are of every carcass that has the figure, placed or not"
	if held := groups[len(groups)-1].held; held > 0 {
		words += ", without " + plural(held, "carcass", "carcasses") + " on hold"
	}
	page.across(words+".", note, 1, summaryColumns)
}

func countOf(count int, of role) entry { return entry{count, style{Role: of, Format: numberFormat(0)}} }

func averageEntry(figures addedUp, id measure.ID, of role) entry {
	mean, ok := figures.mean()
	if !ok {
		return entry{"–", style{Role: of, Align: "right"}}
	}
	definition, _ := measure.Define(id)
	return entry{mean, style{Role: of, Format: numberFormat(definition.Decimals)}}
}

// sumsOf adds up the measures that some carcass has, for each of the groups; the last group is all the others together.
func sumsOf(groups []group, wanted []measure.ID) (some []measure.ID, sums map[measure.ID][]addedUp) {
	sums = make(map[measure.ID][]addedUp)
	for _, id := range wanted {
		var overall addedUp
		for _, one := range groups[:len(groups)-1] {
			part := sumOf(one.all, id)
			sums[id] = append(sums[id], part)
			overall = addedUp{overall.total.Add(part.total), overall.count + part.count}
		}
		sums[id] = append(sums[id], overall)
		if overall.count > 0 {
			some = append(some, id)
		}
	}
	return some, sums
}
