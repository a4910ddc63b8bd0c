package cards

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/grading/whatif"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/result"
	"railbook/workbook/sheets/fair"
	"railbook/workbook/sheets/kit"
)

// besideLastYear sets the animal that the same youth, else the same family, had last year beside this one, measure by measure, and
// says in one sentence what moved most against the aims. What is being checked is left out.
func (c *card) besideLastYear() {
	kind := result.KindOfClass{Species: c.class.Species, Basis: c.class.Basis}
	past, found := c.LastYearsAnimal(c.Graded, kind)
	if !found {
		return
	}
	var shown []measure.ID
	checked := c.checked()
	for _, id := range c.AnimalMeasures(kind) {
		_, had := past.Figures[id]
		if _, has := c.Figure(id); had && has && !slices.Contains(checked, id) {
			shown = append(shown, id)
		}
	}
	if len(shown) == 0 {
		return
	}
	c.page.Across("Last year's animal beside this one", kit.Band, 1, cardColumns)
	c.page.Across(c.lastYearWords(past, shown), kit.Body, 1, cardColumns)
	plain, middle := kit.Style{Role: kit.Heading, Wrap: true}, kit.Style{Role: kit.Heading, Align: "center", Wrap: true}
	c.page.Write(kit.Entry{Value: "What was measured", Style: plain}, kit.Entry{Value: c.thisOne(), Style: middle}, kit.Entry{Value: "Last year's", Style: middle},
		kit.Entry{Value: "Change", Style: middle}, kit.Entry{Value: "Aim", Style: middle}, kit.Entry{Value: "", Style: plain})
	body, centred := kit.Style{Role: kit.Body, Wrap: true}, kit.Style{Role: kit.Body, Align: "center", Wrap: true}
	for _, id := range shown {
		now, _ := c.Figure(id)
		then := past.Figures[id]
		before, change := then.Text, "–"
		if then.Number.Valid {
			before, change = grading.SayFigure(id, then.Number.Decimal), changeWords(id, now.Number.Sub(then.Number.Decimal))
		}
		c.page.Write(kit.Entry{Value: c.headingOf(id), Style: body}, kit.Entry{Value: cardFigure(id, now), Style: kit.Style{Role: kit.Strong, Align: "center", Wrap: true}},
			kit.Entry{Value: before, Style: centred}, kit.Entry{Value: change, Style: centred}, kit.Entry{Value: c.aimWords(id), Style: centred}, kit.Entry{Value: "", Style: body})
	}
}

// changeWords say by how much a figure changed: a marbling by points, for its degrees are places on the scale.
func changeWords(id measure.ID, change decimal.Decimal) string {
	definition, _ := measure.Define(id)
	if id == measure.MarblingScore || definition.Kind == measure.KindMarbling {
		return change.String() + " points"
	}
	return grading.SayFigure(id, change)
}

// lastYearWords say which animal it was, and what moved most against the aims.
func (c *card) lastYearWords(past fair.Animal, shown []measure.ID) string {
	words := "Last year's animal"
	if past.Tag != "" {
		words += " was tag " + kit.TagWords(past.Tag)
	}
	if past.Place != "" {
		words += ", place " + past.Place
	}
	if past.Others > 0 {
		words += fmt.Sprintf(", the best placed of %d", past.Others+1)
	}
	return words + ". " + c.movedWords(past, shown)
}

// movedWords says of the measure that moved most, to the size of its aim, whether it moved toward the aim.
func (c *card) movedWords(past fair.Animal, shown []measure.ID) string {
	var most, farther decimal.Decimal
	moved, aims, met := measure.None, 0, 0
	for _, id := range shown {
		then := past.Figures[id]
		aim, has := whatif.Aim(c.Graded, id)
		grows := !aim.From.PerPound.IsZero() || !aim.UpTo.PerPound.IsZero() // with the weight: each animal had another
		if !has || grows || !then.Number.Valid {
			continue
		}
		aims++
		now, _ := c.Figure(id)
		off, offThen := outsideAim(aim, now.Number), outsideAim(aim, then.Number.Decimal)
		if off.IsZero() {
			met++
		}
		change := off.Sub(offThen).Div(sizeOfAim(aim))
		if change.Abs().GreaterThan(most.Abs()) {
			most, moved, farther = change, id, off.Sub(offThen)
		}
	}
	switch {
	case aims == 0:
		return "There is no aim to hold the two against."
	case moved == measure.None && met == aims:
		return "Both meet " + phrase.Plural(aims, "aim", "aims") + "."
	case moved == measure.None:
		return "This one is as near to the aims."
	}
	now, _ := c.Figure(moved)
	direction := "toward the aim"
	if farther.IsPositive() {
		direction = "away from the aim"
	}
	return fmt.Sprintf("What moved most is the %s: from %s to %s, %s.", moved, grading.SayFigure(moved, past.Figures[moved].Number.Decimal), grading.SayFigure(moved, now.Number), direction)
}

// outsideAim is how far a figure lies outside an aim; nothing within it.
func outsideAim(aim rules.Target, figure decimal.Decimal) decimal.Decimal {
	switch {
	case aim.From.Valid && figure.LessThan(aim.From.Decimal):
		return aim.From.Decimal.Sub(figure)
	case aim.UpTo.Valid && figure.GreaterThan(aim.UpTo.Decimal):
		return figure.Sub(aim.UpTo.Decimal)
	}
	return decimal.Zero
}

// sizeOfAim is by which a change is measured, so that pounds and inches can be compared: the end of the aim.
func sizeOfAim(aim rules.Target) decimal.Decimal {
	for _, bound := range []rules.Bound{aim.From, aim.UpTo} {
		if bound.Valid && bound.Decimal.IsPositive() {
			return bound.Decimal
		}
	}
	return decimal.NewFromInt(1)
}
