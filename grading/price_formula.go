package grading

import (
	"strconv"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

func (p pricing) write(f *formula, _ int8, _ int) {
	lines := p.lines(f.graded)
	species := string(f.graded.Species)
	f.add("ROUND(" + f.at.Range(species+gridBase))
	if lines.wantsQuality {
		f.add("+VLOOKUP(VLOOKUP(")
		if lines.unlowered {
			p.unlowered.write(f, loose)
		} else {
			f.words(p.quality)
		}
		f.add("," + f.at.Range(species+gridGrades) + ",2,0)," + f.at.Range(species+gridQuality) + "," + adjustColumn + ",0)")
	}
	if lines.wantsYield {
		p.writeBand(f, p.yield, species+gridYieldFrom, species+gridYieldAdjust)
	}
	if lines.wantsWeight {
		p.writeBand(f, p.weight, species+gridWeightFrom, species+gridWeightAdjust)
	}
	lines.writePremiums(f)
	p.writeConditions(f, lines.conditions)
	f.places(2)
}

// writeBand looks a number up among the beginnings of the bands. Where no band begins at or below it, or the stretch it
// falls into has no line, the formula fails, and that is said as NoPrice.
func (p pricing) writeBand(f *formula, id measure.ID, from, adjust string) {
	f.add("+LOOKUP(")
	f.figure(id, loose)
	f.add("," + f.at.Range(from) + "," + f.at.Range(adjust) + ")")
}

func (p pricing) writeConditions(f *formula, lines []*rules.GridLine) {
	largestOnly := !f.graded.Book.Settings.ConditionsAdd && len(lines) > 1
	if largestOnly {
		f.add("+MIN(")
	}
	for at, line := range lines {
		switch {
		case !largestOnly:
			f.add("+")
		case at > 0:
			f.add(",")
		}
		f.add("VLOOKUP(" + strconv.Quote(line.Name) + "," + f.at.Range(string(line.Species)+gridConditions) + "," + adjustColumn + ",0)")
	}
	if largestOnly {
		f.add(")")
	}
}

func (p pricing) shape(shape []byte, g *Graded, _ int8) []byte {
	lines := p.lines(g)
	if lines.unlowered {
		shape = append(shape, 'u')
	}
	for _, line := range append(lines.premiumsAndMatrix(), lines.conditions...) {
		shape = append(append(shape, line.Name...), ';')
	}
	return shape
}

func (p pricing) ways() [][]measure.ID {
	var needs []measure.ID
	for _, id := range []measure.ID{p.quality, p.yield, p.weight} {
		if id != measure.None {
			needs = append(needs, id)
		}
	}
	return [][]measure.ID{needs}
}

// premium and carcassValue follow from the price.
var (
	basePrice = setting{"base price", func(s *rules.Settings, species rules.Species) decimal.NullDecimal { return s.BasePrice[species] }}

	premium = Arithmetic{{Of: difference{ComputedFigure(measure.Price), basePrice}}}

	// 794 lb at $140.88/cwt are $1,118.59: Mississippi State University Extension P2556.
	carcassValue = Arithmetic{{Of: Quotient{
		Over: product{ComputedFigure(measure.Price), ComputedFigure(measure.HotCarcassWeight)}, Under: linear("100"), Places: 2,
	}}}
)
