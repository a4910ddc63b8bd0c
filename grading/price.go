package grading

import (
	"slices"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// pricing is the rule of the price in $/cwt of carcass: base + quality + yield + weight + conditions (Oklahoma State
// University Extension, grid pricing sheets), rounded once, to cents. A part for which the grid has no lines at all adds
// nothing; where a part has lines and none fits, there is no price.
type pricing struct {
	quality          measure.ID // the graded measure that quality lines name
	yield            measure.ID // the number that yield bands hold
	yieldWords       string     // what a yield band is called
	weight           measure.ID // the weight that weight bands hold
	insteadOfQuality measure.ID // a condition that takes the place of the quality line
	darkCutter       measure.ID
	lowering         measure.ID
	grades           func() []string // every grade there can be, for the table of what each is paid by
	unlowered        Expression      // what the grade is without the lowering
}

// NoPrice stands in the price column where the grid has no line for the carcass.
const NoPrice = "No price in the grid"

// priced is the lines of the grid that a carcass falls under.
type priced struct {
	quality                               *rules.GridLine
	yield                                 *rules.GridLine
	weight                                *rules.GridLine
	conditions                            []*rules.GridLine
	matrix                                *rules.GridLine
	premiums                              []*rules.GridLine
	wantsQuality, wantsYield, wantsWeight bool // the grid has lines for the part, and it counts for this carcass

	unlowered bool // the quality line is that of the grade without the lowering for dark lean
	assumed   string
	missing   string // a figure that is not there
	unlisted  string // a part of the grid without a line for it
}

// noBasePrice says why there is nothing to price with, in words that tell the board what to do.
func noBasePrice(g *Graded) string {
	if slices.ContainsFunc(g.Book.Grid, func(line rules.GridLine) bool { return line.Species == g.Species }) ||
		slices.ContainsFunc(g.Book.Premiums, func(premium rules.Premium) bool { return premium.Species == g.Species }) ||
		slices.ContainsFunc(g.Book.Matrix, func(line rules.MatrixLine) bool { return line.Species == g.Species }) {
		return "no base price is set in the rulebook"
	}
	return "no published grid: set your own in the rulebook"
}

func (p pricing) figure(g *Graded, _ measure.ID) (Figure, int8) {
	base := g.Book.Settings.BasePrice[g.Species]
	if !base.Valid {
		return Figure{Missing: noBasePrice(g)}, notTaken
	}
	lines := p.lines(g)
	if lines.missing != "" {
		return Figure{Missing: lines.missing, Assumed: lines.assumed}, notTaken
	}
	if lines.unlisted != "" {
		return Figure{
			Value:   measure.Value{Text: NoPrice},
			Missing: "no price in the grid for " + lines.unlisted, Assumed: lines.assumed,
		}, 0
	}
	var total measure.Sum
	total.Add(base.Decimal)
	for _, line := range lines.paid(!g.Book.Settings.ConditionsAdd) {
		total.Add(line.Adjust)
	}
	return Figure{Value: measure.NumberValue(measure.Round(total.Number(), 2)), Assumed: lines.assumed}, 0
}

// PriceSteps says how the price was built up, base first; nil where there is no price.
func (g *Graded) PriceSteps() []PriceStep {
	by, taken := g.ruleOf(measure.Price)
	p, ok := by.(pricing)
	if !ok || taken == notTaken || g.FigureOf(measure.Price).Missing != "" {
		return nil
	}
	lines := p.lines(g)
	return lines.steps(p, g.Book.Settings.BasePrice[g.Species].Decimal, !g.Book.Settings.ConditionsAdd)
}

// lines finds the line of each part.
func (p pricing) lines(g *Graded) (found priced) {
	found.conditions, found.assumed, found.missing = p.conditions(g)
	for at := range g.Book.Grid {
		line := &g.Book.Grid[at]
		if line.Species == g.Species {
			found.wantsQuality = found.wantsQuality || line.Part == rules.QualityPart
			found.wantsYield = found.wantsYield || line.Part == rules.YieldPart
			found.wantsWeight = found.wantsWeight || line.Part == rules.WeightPart
		}
	}
	found.wantsQuality = found.wantsQuality && p.quality != measure.None
	found.wantsYield = found.wantsYield && p.yield != measure.None
	for _, condition := range found.conditions {
		if p.insteadOfQuality != measure.None && condition.Name == p.insteadOfQuality.String() {
			found.wantsQuality = false
		}
	}
	if found.wantsQuality {
		words := ""
		words, found.unlowered = p.qualityWords(g, &found)
		found.quality = qualityLineOf(g.Book, g.Species, words)
		if found.quality == nil {
			found.unlisted = join(found.unlisted, "the grade "+words)
		}
	}
	if found.wantsYield {
		found.yield = p.bandLine(g, &found, rules.YieldPart, p.yield, p.yieldWords)
	}
	if found.wantsWeight {
		found.weight = p.bandLine(g, &found, rules.WeightPart, p.weight, "a carcass of")
	}
	found.matrixLine(g)
	found.premiumLines(g)
	return found
}

// qualityWords gives the grade that is paid for. Where the rulebook lets a dark cutter lose the discount only, it is the
// grade without the lowering.
func (p pricing) qualityWords(g *Graded, found *priced) (words string, unlowered bool) {
	if g.Book.Settings.DarkCutterTakes == rules.DarkCutterDiscount && p.lowering != measure.None && g.marked(p.lowering) {
		missing, _ := lacking(g, p.unlowered.operands())
		grade, problem := measure.Value{}, ""
		if missing == "" {
			grade, problem = p.unlowered.value(g)
		}
		found.missing = join(found.missing, join(missing, problem))
		return grade.Text, true
	}
	lack, _ := g.lacks(p.quality)
	found.missing = join(found.missing, lack)
	return g.FigureOf(p.quality).Value.Text, false
}

func (p pricing) bandLine(g *Graded, found *priced, part rules.Part, id measure.ID, words string) *rules.GridLine {
	if lack, _ := g.lacks(id); lack != "" {
		found.missing = join(found.missing, lack)
		return nil
	}
	value, _ := g.Figure(id)
	for at := range g.Book.Grid {
		line := &g.Book.Grid[at]
		if line.Species == g.Species && line.Part == part && line.Band.Holds(value.Number) {
			return line
		}
	}
	unit := ""
	if definition, ok := measure.Define(id); ok && definition.Unit != "" {
		unit = " " + definition.Unit
	}
	found.unlisted = join(found.unlisted, words+" "+value.Text+unit)
	return nil
}

// conditions gives the condition lines of what the carcass is, and by what sign where that is not its own mark.
func (p pricing) conditions(g *Graded) (lines []*rules.GridLine, assumed, missing string) {
	for at := range g.Book.Grid {
		line := &g.Book.Grid[at]
		if line.Species != g.Species || line.Part != rules.ConditionPart {
			continue
		}
		id := line.Mark
		if id == p.darkCutter && g.Book.Settings.DarkCutterTakes == rules.DarkCutterGrade {
			continue
		}
		condition := g.Condition(id)
		switch {
		case condition.Unread != "":
			missing = join(missing, condition.Unread)
		case condition.Is:
			lines = append(lines, line)
			assumed = join(assumed, condition.assumed())
		case !IsCondition(id) && g.marked(id):
			lines = append(lines, line)
		}
	}
	return lines, assumed, missing
}

// paid gives the lines that are added to the base, in their order.
func (l *priced) paid(largestOnly bool) []*rules.GridLine {
	paid := make([]*rules.GridLine, 0, 8)
	for _, line := range []*rules.GridLine{l.quality, l.yield, l.weight, l.matrix} {
		if line != nil {
			paid = append(paid, line)
		}
	}
	paid = append(paid, l.premiums...)
	if largestOnly && len(l.conditions) > 1 {
		return append(paid, largestDiscount(l.conditions))
	}
	return append(paid, l.conditions...)
}

// steps gives the steps from the base to the price.
func (l *priced) steps(p pricing, base decimal.Decimal, largestOnly bool) []PriceStep {
	steps := []PriceStep{{Words: "base price", Adjust: measure.NumberValue(base)}}
	for _, line := range l.paid(largestOnly) {
		words := line.Name
		switch line {
		case l.yield:
			words = p.yieldWords + " " + BandWords(line.Band, 1, "")
		case l.weight:
			words = BandWords(line.Band, 0, "lb")
		}
		steps = append(steps, PriceStep{line.Part, words, measure.NumberValue(line.Adjust), line})
	}
	return steps
}

func largestDiscount(lines []*rules.GridLine) *rules.GridLine {
	largest := lines[0]
	for _, line := range lines[1:] {
		if line.Adjust.LessThan(largest.Adjust) {
			largest = line
		}
	}
	return largest
}

// qualityLineOf finds the line that a grade is paid by: its own third's where the rulebook prices by thirds and has one,
// else its whole grade's; nil where there is none.
func qualityLineOf(book *rules.Rulebook, species rules.Species, words string) *rules.GridLine {
	var byWhole *rules.GridLine
	whole := rules.WholeGrade(words)
	for at := range book.Grid {
		line := &book.Grid[at]
		if line.Species != species || line.Part != rules.QualityPart {
			continue
		}
		if line.Name == words && book.Settings.PriceByThirds {
			return line
		}
		if line.Name == whole {
			byWhole = line
		}
	}
	return byWhole
}

// BandWords says a band in words, with at least so many decimals: "2.5 up to 3.0", "below 2.0", "over 1050 lb",
// "5.0 and up".
func BandWords(band rules.Band, decimals int32, unit string) string {
	if unit != "" {
		unit = " " + unit
	}
	from, upTo := withDecimals(band.From.Decimal, decimals), withDecimals(band.UpTo.Decimal, decimals)
	switch {
	case band.From.Valid && band.UpTo.Valid:
		return from + " up to " + upTo + unit
	case band.UpTo.Valid:
		return "below " + upTo + unit
	case band.From.Valid && band.FromIsIn:
		return from + unit + " and up"
	case band.From.Valid:
		return "over " + from + unit
	}
	return "any" + unit
}

func withDecimals(number decimal.Decimal, least int32) string {
	if number.Equal(number.Round(least)) {
		return number.StringFixed(least)
	}
	return number.String()
}
