package cards

import (
	"fmt"

	"railbook/rules/measure"
	"railbook/workbook/sheets/kit"
)

// besideScan sets what the live animal's scan said beside what was measured on the rail.
func (c *card) besideScan() {
	pair, scanned := c.scans[c.Sequence]
	if !scanned {
		return
	}
	shown := pair.Measures()
	if len(shown) == 0 {
		return
	}
	title := "The scan beside the rail"
	if days, ok := pair.Days(); ok {
		title += fmt.Sprintf(": scanned %d days before", days)
	}
	plain, middle := kit.Style{Role: kit.Heading, Wrap: true}, kit.Style{Role: kit.Heading, Align: "center", Wrap: true}
	c.page.Write(kit.Entry{Value: title, Style: plain}, kit.Entry{Value: "On the rail", Style: middle}, kit.Entry{Value: "By scan", Style: middle},
		kit.Entry{Value: "Scan less rail", Style: middle}, kit.Entry{Value: "", Style: plain}, kit.Entry{Value: "", Style: plain})
	body, centred := kit.Style{Role: kit.Body, Wrap: true}, kit.Style{Role: kit.Body, Align: "center", Wrap: true}
	for _, id := range shown {
		definition, _ := measure.Define(id)
		scan, _ := pair.Scan.Figure(id)
		rail, _ := pair.Rail.Figure(id)
		c.page.Write(kit.Entry{Value: definition.Heading, Style: body}, kit.Entry{Value: cardFigure(id, rail), Style: kit.Style{Role: kit.Strong, Align: "center", Wrap: true}},
			kit.Entry{Value: cardFigure(id, scan), Style: centred}, kit.Entry{Value: changeWords(id, scan.Number.Sub(rail.Number)), Style: centred})
	}
}
