package fair

import (
	"fmt"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/xlsx"
)

// fewestPairs is how many animals there must be before a mean says anything of what a scan is worth.
const fewestPairs = 5

// scanned is one measure of the animals that were scanned alive and measured on the rail, in the same order.
type scanned struct {
	id         measure.ID
	tags       []string
	scan, rail []decimal.Decimal
}

// scansOf gathers the pairs of a species by measure, without the animals on hold.
func (p *Writer) scansOf(kind result.KindOfClass) (list []scanned) {
	if kind.Basis == rules.LiveScan {
		return nil
	}
	at := map[measure.ID]int{}
	held := func(graded *grading.Graded) bool { return p.Of(graded.Carcass).Status.State == result.OnHold }
	for _, pair := range result.ScanPairs(p.Results) {
		if pair.Rail.Species != kind.Species || held(pair.Rail) || held(pair.Scan) {
			continue
		}
		for _, id := range pair.Measures() {
			known, there := at[id]
			if !there {
				known = len(list)
				at[id] = known
				list = append(list, scanned{id: id})
			}
			scan, _ := pair.Scan.Figure(id)
			rail, _ := pair.Rail.Figure(id)
			animal := &list[known]
			animal.tags, animal.scan, animal.rail = append(animal.tags, pair.Rail.Tag), append(animal.scan, scan.Number), append(animal.rail, rail.Number)
		}
	}
	return list
}

// differences gives the mean of scan less rail, and the mean of its size.
func (s scanned) differences() (mean, size decimal.Decimal) {
	for i, scan := range s.scan {
		mean, size = mean.Add(scan.Sub(s.rail[i])), size.Add(scan.Sub(s.rail[i]).Abs())
	}
	count := decimal.NewFromInt(int64(len(s.scan)))
	return mean.DivRound(count, 6), size.DivRound(count, 6)
}

// orders counts the pairs of animals that differ on the rail, and those of them that the scan put in the same order.
func (s scanned) orders() (agreed, all int) {
	for i := range s.rail {
		for j := range i {
			onTheRail := s.rail[i].Cmp(s.rail[j])
			if onTheRail == 0 {
				continue
			}
			all++
			if s.scan[i].Cmp(s.scan[j]) == onTheRail {
				agreed++
			}
		}
	}
	return agreed, all
}

// scanBesideRail writes how near the scans came to the rail; of few animals the figures alone.
func scanBesideRail(page *kit.Page, list []scanned) {
	if len(list) == 0 {
		return
	}
	page.KeepTogether(len(list) + 7) // its headings are three rows high
	page.Skip(1)
	plain, words := kit.Style{Role: kit.Heading, Wrap: true}, kit.Style{Role: kit.Body, Wrap: true}
	few := true
	for _, scanned := range list {
		few = few && len(scanned.scan) < fewestPairs
	}
	if few {
		page.Write(kit.Entry{Value: "The scan beside the rail", Style: plain}, kit.Entry{Value: "Tag", Style: plain}, kit.NumberHeading("By scan"), kit.NumberHeading("On the rail"), kit.NumberHeading("Difference"))
		for _, scanned := range list {
			format := numberOf(scanned.id)
			for i, tag := range scanned.tags {
				page.Write(kit.Entry{Value: result.HeadingOf(scanned.id), Style: words}, kit.Entry{Value: kit.TagWords(tag), Style: words},
					kit.Entry{Value: scanned.scan[i], Style: format}, kit.Entry{Value: scanned.rail[i], Style: format}, kit.Entry{Value: scanned.scan[i].Sub(scanned.rail[i]), Style: format})
			}
		}
		page.Across(fmt.Sprintf("Fewer than %d animals have both: too few to say what a scan is worth.", fewestPairs), kit.Note, 1, summaryColumns)
		return
	}
	page.Write(kit.Entry{Value: "The scan beside the rail", Style: plain}, kit.NumberHeading("Animals"), kit.NumberHeading("Scan less rail, mean"),
		kit.NumberHeading("Difference, mean size"), kit.NumberHeading("Same order, %"))
	for _, scanned := range list {
		if len(scanned.scan) < fewestPairs {
			continue
		}
		format := numberOf(scanned.id)
		mean, size := scanned.differences()
		agreed, all := scanned.orders()
		order := kit.Entry{Value: "–", Style: kit.Style{Role: kit.Body, Align: "right"}}
		if all > 0 {
			order = kit.Entry{Value: decimal.NewFromInt(int64(100*agreed)).DivRound(decimal.NewFromInt(int64(all)), 0), Style: kit.Style{Role: kit.Body, Format: kit.NumberFormat(0)}}
		}
		page.Write(kit.Entry{Value: result.HeadingOf(scanned.id), Style: words}, CountOf(len(scanned.scan), kit.Body),
			kit.Entry{Value: mean, Style: format}, kit.Entry{Value: size, Style: format}, order)
	}
	page.Across("Same order: of all pairs of animals that differ on the rail, how many the scan put in the same order.", kit.Note, 1, summaryColumns)
}

func numberOf(id measure.ID) kit.Style {
	definition, _ := measure.Define(id)
	return kit.Style{Role: kit.Body, Format: kit.NumberFormat(definition.Decimals)}
}

// scans draws the scan against the rail, with the line on which both are equal.
func (c *chartFigures) scans(kind result.KindOfClass, list []scanned) {
	for _, scanned := range list {
		if len(scanned.scan) < fewestPairs {
			continue
		}
		rail, scan := make([]any, len(scanned.rail)), make([]any, len(scanned.scan))
		for i := range scanned.rail {
			rail[i], scan[i] = scanned.rail[i], scanned.scan[i]
		}
		title := result.HeadingOf(scanned.id) + ": scan against rail, " + kind.Words()
		chart := kit.NewChart(xlsx.DotChart, title, "On the rail", "By scan")
		chart.Series = []xlsx.Series{{Marker: "diamond", Colour: barColour}, {Line: 0.75}}
		both := append(append([]any{}, rail...), scan...)
		chart.Across.Lowest, chart.Across.Highest = ends(axisEnds(both))
		chart.Up.Lowest, chart.Up.Highest = ends(axisEnds(both))
		across := c.add(title, rail)
		c.charts = append(c.charts, pendingChart{chart: chart, across: across, up: c.add("By scan", scan)})
		c.add("Both equal", rail)
	}
}
