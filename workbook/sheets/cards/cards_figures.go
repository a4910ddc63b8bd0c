package cards

import (
	"slices"
	"strings"

	"railbook/grading"
	"railbook/grading/whatif"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/words"

	"github.com/shopspring/decimal"
)

// measures writes what was measured and computed, each beside its class, its aim and what it means.
func (c *card) measures() {
	plain, middle := kit.Style{Role: kit.Heading, Wrap: true}, kit.Style{Role: kit.Heading, Align: "center", Wrap: true}
	best := "First in class"
	if c.placed != nil && c.class.Placed[0].Graded == c.Graded {
		best = "Second in class"
	}
	c.page.Write(kit.Entry{Value: "What was measured", Style: plain}, kit.Entry{Value: c.thisOne(), Style: middle}, kit.Entry{Value: "Class average", Style: middle}, kit.Entry{Value: best, Style: middle},
		kit.Entry{Value: "Aim", Style: middle}, kit.Entry{Value: "What it means", Style: kit.Style{Role: kit.Heading, Wrap: true, Indent: true}})
	checked := c.checked()
	shown := c.cardMeasures()
	if c.quiet() {
		shown = append(shown, c.saidNowhereElse(shown)...)
	}
	for _, id := range shown {
		value, has := c.Figure(id)
		if slices.Contains(c.doubtful(), id) || has && c.inDoubt(id) {
			words := "being checked"
			if c.leftOut() != nil {
				words = "not counted" // nobody checks it any more
			}
			c.measureRow(id, words, "–", "–")
			continue
		}
		if !has {
			continue
		}
		average, first := c.beside(id)
		words := cardFigure(id, value)
		shows := func(figure measure.ID) bool {
			return figure == id || !slices.Contains(shown, figure) && slices.ContainsFunc(grading.Ways(c.Species, c.Basis, id), func(way []measure.ID) bool { return slices.Contains(way, figure) })
		}
		if slices.ContainsFunc(checked, shows) {
			words += ", being checked"
		}
		if slices.ContainsFunc(c.corrected(), shows) {
			words += ", corrected"
		}
		c.measureRow(id, words, average, first)
	}
	if words := c.correctedWords(); len(words) > 0 {
		c.page.Across(strings.Join(words, " "), kit.Note, 1, cardColumns)
	}
	if also := c.alsoCounted(shown); len(also) > 0 {
		c.page.Across("Also counted: "+strings.Join(also, "; ")+".", kit.Note, 1, cardColumns)
	}
}

// saidNowhereElse gives the grades, the price and the value, which on other cards stand on the back.
func (c *card) saidNowhereElse(shown []measure.ID) (more []measure.ID) {
	for _, id := range append(result.GradesOf(result.KindOfClass{Species: c.class.Species, Basis: c.class.Basis}), measure.Price, measure.CarcassValue) {
		if id != measure.WholeYieldGrade && !slices.Contains(shown, id) {
			more = append(more, id)
		}
	}
	return more
}

// alsoCounted gives what else of the sheet moved a figure of the carcass: weights of the sides, dates, marks.
func (c *card) alsoCounted(shown []measure.ID) (words []string) {
	for _, id := range c.counted() {
		reading, has := c.Reading(id)
		if !has || slices.Contains(shown, id) {
			continue
		}
		definition, _ := measure.Define(id)
		said := reading.Value.Text
		if definition.Kind == measure.KindNumber {
			said = grading.SayFigure(id, reading.Value.Number)
		}
		if c.inDoubt(id) {
			said = "is being checked"
		}
		words = append(words, strings.ToLower(definition.Heading)+" "+said)
	}
	return words
}

// counted gives the measures read from the sheet from which a figure of the carcass was computed, in the order of the
// rulebook's measures.
func (c *card) counted() (counted []measure.ID) {
	under := map[measure.ID]bool{}
	for id, figure := range c.Figures() {
		if figure.Missing == "" {
			under[id] = true
			for _, figure := range whatif.Under(c.Graded, id) {
				under[figure] = true
			}
		}
	}
	for _, definition := range c.Rules.Measures.Definitions() {
		_, read := c.Written(definition.ID)
		mark := definition.Kind == measure.KindMark && definition.ID != measure.Consent
		if read && (under[definition.ID] || mark) && definition.Kind != measure.KindText {
			counted = append(counted, definition.ID)
		}
	}
	return counted
}

func (c *card) measureRow(id measure.ID, own, average, first string) {
	definition, _ := measure.Define(id)
	middle, wrapped := kit.Style{Role: kit.Body, Align: "center", Wrap: true}, kit.Style{Role: kit.Body, Wrap: true}
	c.page.Write(kit.Entry{Value: c.headingOf(id), Style: wrapped}, kit.Entry{Value: own, Style: kit.Style{Role: kit.Strong, Align: "center", Wrap: true}}, kit.Entry{Value: average, Style: middle}, kit.Entry{Value: first, Style: middle},
		kit.Entry{Value: c.aimWords(id), Style: middle}, kit.Entry{Value: c.meaningOf(definition), Style: kit.Style{Role: kit.Body, Wrap: true, Indent: true}})
}

// meaningOf says what a measure means, and by which equation a percent was computed.
func (c *card) meaningOf(definition measure.Definition) string {
	words := definition.Meaning
	if c.class.Basis == rules.LiveScan {
		switch definition.ID {
		case measure.LiveWeight:
			words = "Weight of the live animal when it was scanned."
		case measure.HotCarcassWeight:
			words = "What the carcass would weigh, from the live weight."
		}
	}
	if equation := c.FigureOf(definition.ID).Equation; equation != "" && definition.Unit == "%" {
		words += " Here: " + equation + "."
	}
	return words
}

// thisOne is what the column of the card's own figures is called.
func (c *card) thisOne() string {
	if c.class.Basis == rules.LiveScan {
		return "This animal"
	}
	return "This carcass"
}

// headingOf leaves the unit out of a heading, since the card's figures carry it.
func (c *card) headingOf(id measure.ID) string {
	definition, _ := measure.Define(id)
	if c.class.Basis != rules.LiveScan {
		return definition.Heading
	}
	return strings.TrimSuffix(result.KindOfClass{Species: c.class.Species, Basis: c.class.Basis}.Heading(id), ", "+definition.Unit)
}

// cardMeasures are those of the placings, the live weight, whatever the rulebook has an aim for, and what decided a grade or
// a price: maturity, marks, scores, internal fat. What is read comes first. Marbling is shown once, as its score.
func (c *card) cardMeasures() []measure.ID {
	kind := result.KindOfClass{Species: c.class.Species, Basis: c.class.Basis}
	if c.shown[kind] == nil {
		c.shown[kind] = c.ShownMeasures(kind)
	}
	wanted := append([]measure.ID{measure.LiveWeight}, c.shown[kind]...)
	for _, target := range c.Rules.Targets {
		if target.Species == c.Species {
			wanted = append(wanted, target.Measure)
		}
	}
	for _, id := range c.counted() {
		switch definition, _ := measure.Define(id); definition.Kind {
		case measure.KindMaturity, measure.KindLowering:
			wanted = append(wanted, id)
		case measure.KindMark:
			if mark, ok := c.Reading(id); ok && mark.Value.Number.IsPositive() {
				wanted = append(wanted, id)
			}
		case measure.KindNumber:
			if definition.Unit == "" || id == measure.InternalFat || id == measure.IntramuscularFat {
				wanted = append(wanted, id)
			}
		}
	}
	var read, computed []measure.ID
	for _, definition := range c.Rules.Measures.Definitions() {
		switch {
		case !slices.Contains(wanted, definition.ID):
		case definition.Computed:
			computed = append(computed, definition.ID)
		default:
			read = append(read, definition.ID)
		}
	}
	return append(read, computed...)
}

// cardFigure says a figure with its unit, a grade or marbling in its words.
func cardFigure(id measure.ID, value measure.Value) string {
	definition, _ := measure.Define(id)
	if definition.Kind != measure.KindNumber {
		return value.Text
	}
	return grading.SayFigure(id, value.Number)
}

// beside gives the class's average of a measure and the figure of the carcass placed first. A class of one has neither.
func (c *card) beside(id measure.ID) (average, first string) {
	average, first = "–", "–"
	definition, _ := measure.Define(id)
	if mean, ok := result.MeanOf(c.all, id); ok && len(c.all) > 1 && (definition.Kind == measure.KindNumber || definition.Kind == measure.KindMarbling) {
		average = grading.SayFigure(id, mean)
	}
	if len(c.class.Placed) == 0 {
		return average, first
	}
	best := c.class.Placed[0].Graded
	if best == c.Graded && len(c.class.Placed) > 1 {
		best = c.class.Placed[1].Graded
	}
	if best == c.Graded {
		return average, first
	}
	if value, ok := best.Figure(id); ok {
		first = cardFigure(id, value)
	}
	return average, first
}

// aimWords says what the rulebook's aim for a measure is.
func (c *card) aimWords(id measure.ID) string {
	if aim, ok := whatif.Aim(c.Graded, id); ok {
		return rangeWords(aim)
	}
	return "–"
}

// targetSources says whose the targets are: each source with its measures and, in the board's words, what each aim is.
func (c *card) targetSources() string {
	var sources []string
	measures := make(map[string][]string)
	for _, target := range c.Rules.Targets {
		if _, has := c.Figure(target.Measure); target.Species != c.Species || target.Source == "" || !has {
			continue
		}
		if measures[target.Source] == nil {
			sources = append(sources, target.Source)
		}
		words := target.Measure.String()
		if target.Words != "" {
			words += " (" + target.Words + ")"
		}
		measures[target.Source] = append(measures[target.Source], words)
	}
	for i, source := range sources {
		sources[i] = strings.Join(measures[source], ", ") + ": " + source
	}
	return strings.Join(sources, "; ")
}

func rangeWords(target rules.Target) string {
	switch {
	case target.From.Valid && target.UpTo.Valid:
		definition, _ := measure.Define(target.Measure)
		return strings.TrimSuffix(grading.SayFigure(target.Measure, target.From.Decimal), " "+definition.Unit) + " to " + grading.SayFigure(target.Measure, target.UpTo.Decimal)
	case target.From.Valid:
		return grading.SayFigure(target.Measure, target.From.Decimal) + " or more"
	default:
		return grading.SayFigure(target.Measure, target.UpTo.Decimal) + " or less"
	}
}

// grades says which grades the carcass has and where in them it stands.
func (c *card) grades() {
	for _, id := range result.GradesOf(result.KindOfClass{Species: c.class.Species, Basis: c.class.Basis}) {
		definition, _ := measure.Define(id)
		value, has := c.Figure(id)
		if !has || definition.Kind != measure.KindGrade {
			continue
		}
		said := definition.Heading + ": " + value.Text + "." + c.loweredWords(id) + c.utilityWords(id, value)
		if stretch, ok := whatif.Within(c.Graded, id); ok {
			said += " " + words.Within(stretch)
		} else if assumed := c.FigureOf(id).Assumed; assumed != "" {
			said += " " + phrase.Sentence(assumed)
		}
		c.page.Across(said, kit.Strong, 1, cardColumns)
	}
}

// loweredWords says that the judge lowered a quality grade, which its marbling alone would not explain.
func (c *card) loweredWords(id measure.ID) string {
	lowering, lowered := c.Reading(measure.DarkCutterLowering)
	if id != measure.QualityGrade || !lowered || lowering.Value.Number.IsZero() {
		return ""
	}
	how := lowering.Value.Text + " of a grade"
	if lowering.Value.Text == "full" {
		how = "a full grade"
	}
	return " The judge lowered it by " + how + ", for the lean stayed dark."
}

// utilityWords says which scores made a pork carcass Utility, which its fat alone would not explain.
func (c *card) utilityWords(id measure.ID, grade measure.Value) string {
	if id != measure.PorkGrade || grade.Text != grading.PorkUtility {
		return ""
	}
	if firmness, scored := c.Figure(measure.Firmness); scored && firmness.Number.Equal(decimal.NewFromInt(1)) {
		return " The lean was scored soft, a firmness of 1, and that makes it Utility whatever its fat."
	}
	return " The lean was scored pale and watery, and that makes it Utility whatever its fat."
}

// price writes how the price was built up, step by step, and the value it gives.
func (c *card) price() {
	c.page.Across("How the price was built up", kit.Band, 1, cardColumns)
	price, priced := c.Figure(measure.Price)
	value, valued := c.Figure(measure.CarcassValue)
	if !priced || !valued || len(c.PriceSteps()) == 0 {
		reason := c.FigureOf(measure.Price).Missing
		switch {
		case reason == "":
			reason = "no price is computed for a live animal measured by ultrasound"
		case !c.Rules.Settings.BasePrice[c.Species].Valid:
			reason = "the fair's rulebook sets none for " + string(c.Species)
		}
		c.page.Across("There is no price: "+strings.TrimRight(reason, ".")+".", kit.Body, 1, cardColumns)
		return
	}
	wrapped, amount := kit.Style{Role: kit.Body, Wrap: true}, kit.Style{Role: kit.Body, Align: "right"}
	for i, step := range c.PriceSteps() {
		written := kit.DollarWords(step.Adjust.Number)
		if i > 0 {
			written = signedDollars(step.Adjust.Number)
		}
		c.page.Spanning(0, 3, cardColumns, kit.Entry{Value: phrase.Capital(step.Words), Style: wrapped}, kit.Entry{Value: written + besideText, Style: amount}, kit.Entry{Value: partWords[step.Part], Style: wrapped})
	}
	weight, _ := c.Figure(measure.HotCarcassWeight)
	sum, right := kit.Style{Role: kit.Total, Wrap: true}, kit.Style{Role: kit.Total, Align: "right"}
	c.page.Spanning(0, 3, cardColumns, kit.Entry{Value: "Price per cwt (100 lb)", Style: sum}, kit.Entry{Value: kit.DollarWords(price.Number) + besideText, Style: right},
		kit.Entry{Value: "times " + grading.SayFigure(measure.HotCarcassWeight, weight.Number) + " of carcass, which is " + weight.Number.Div(decimal.NewFromInt(100)).String() + " cwt", Style: sum})
	c.page.Spanning(0, 3, cardColumns, kit.Entry{Value: "Value of the carcass", Style: sum}, kit.Entry{Value: kit.DollarWords(value.Number) + besideText, Style: right}, kit.Entry{Value: "", Style: sum})
}

// partWords say what each step of a price is for.
var partWords = map[rules.Part]string{
	"":                  "what 100 lb of carcass bring before premiums and discounts",
	rules.QualityPart:   "for the quality grade",
	rules.YieldPart:     "for how much lean the carcass yields",
	rules.WeightPart:    "for the weight of the carcass",
	rules.ConditionPart: "for a condition marked by the judge or the plant",
	rules.MatrixPart:    "for two measures together, by the board's price matrix",
	rules.PremiumPart:   "for meeting everything the board asks for it",
}

func signedDollars(amount decimal.Decimal) string {
	if amount.IsPositive() {
		return "+" + kit.DollarWords(amount)
	}
	return kit.DollarWords(amount)
}
