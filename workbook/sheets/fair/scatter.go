package fair

import (
	"fmt"
	"slices"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

const (
	mostDots    = 2000 // of a scatter chart: more cannot be told apart
	mostClasses = 4    // that get a marker of their own
	dotSize     = 7
	ringSize    = 13 // around the dot of a carcass placed first

	ringColour = "A79C8C"
	aimColour  = "5F5F5F"
)

// The markers of the classes differ in shape and in darkness.
var classMarkers = [mostClasses]struct{ symbol, colour string }{
	{"diamond", "262626"}, {"square", "8C8478"}, {"triangle", "5A2A27"}, {"circle", "C4BEB2"},
}

// scatterPoints are the columns of a scatter chart: where its dots stand across, and for each series how high.
type scatterPoints struct {
	across []any
	names  []string
	up     [][]any
}

// series adds a series and gives its number.
func (s *scatterPoints) series(name string) int {
	s.names, s.up = append(s.names, name), append(s.up, make([]any, len(s.across)))
	return len(s.names) - 1
}

// dot adds a row in which one series has a dot.
func (s *scatterPoints) dot(series int, x, y decimal.Decimal) {
	s.across = append(s.across, x)
	for i := range s.up {
		s.up[i] = append(s.up[i], nil)
	}
	s.up[series][len(s.across)-1] = y
}

// scatter sets fat against muscle, the two measures that a carcass's worth hangs on most: a marker for each class, a ring around
// the carcass placed first in it, and a frame around the rulebook's aim.
func (c *chartFigures) scatter(kind result.KindOfClass, groups []group) {
	overall := groups[len(groups)-1]
	fat, muscle := measureIn(overall, "in", measure.AdjustedFat), measureIn(overall, "sq in", measure.RibeyeArea)
	classes := groups[:len(groups)-1]
	if len(classes) > mostClasses {
		overall.name, classes = "All classes", groups[len(groups)-1:]
	}
	points := &scatterPoints{}
	var markers []xlsx.Series
	first := points.series("First in its class")
	for _, class := range groups[:len(groups)-1] {
		if class.first == nil {
			continue
		}
		if x, y, both := pointOf(class.first, fat, muscle); both {
			points.dot(first, x, y)
		}
	}
	if len(points.across) > 0 {
		markers = append(markers, xlsx.Series{Marker: "circle", Colour: ringColour, Size: ringSize}) // before the dots, so that it lies under them
	} else {
		points = &scatterPoints{}
	}
	step := len(overall.all)/mostDots + 1
	for at, class := range classes {
		series := -1
		for i := 0; i < len(class.all); i += step {
			x, y, both := pointOf(class.all[i], fat, muscle)
			if both && series < 0 {
				series = points.series(class.name)
				markers = append(markers, xlsx.Series{Marker: classMarkers[at].symbol, Colour: classMarkers[at].colour, Size: dotSize})
			}
			if both {
				points.dot(series, x, y)
			}
		}
	}
	if len(points.across) == 0 {
		return
	}
	title := fmt.Sprintf("Fat against muscle, %s", kind.Words())
	if step > 1 {
		title += fmt.Sprintf(" (one carcass in %d drawn)", step)
	}
	chart := kit.NewChart(xlsx.DotChart, title, withUnit(fat), withUnit(muscle))
	chart.Legend = "bottom"
	low, high := axisEnds(points.across)
	bottom, top := axisEnds(slices.Concat(points.up...))
	chart.Across.Lowest, chart.Across.Highest = ends(low, high)
	chart.Up.Lowest, chart.Up.Highest = ends(bottom, top)
	if corners := aimCorners(overall, fat, muscle, low, high, bottom, top); corners != nil {
		aim := points.series("The rulebook's aim")
		for _, corner := range corners {
			points.dot(aim, corner[0], corner[1])
		}
		markers = append(markers, xlsx.Series{Line: 1.5, Dashed: true, Colour: aimColour})
	}
	chart.Series = markers
	at := c.add(withUnit(fat), points.across)
	for i, name := range points.names {
		if column := c.add(name, points.up[i]); i == 0 {
			c.charts = append(c.charts, pendingChart{chart: chart, across: at, up: column})
		}
	}
}

func pointOf(graded *grading.Graded, fat, muscle measure.ID) (x, y decimal.Decimal, both bool) {
	across, hasX := graded.Figure(fat)
	up, hasY := graded.Figure(muscle)
	return across.Number, up.Number, hasX && hasY
}

// aimCorners are those of a frame around the rulebook's aims for fat and muscle, as far as they lie within the axes, from one back
// to the same; nil where the rulebook has none, or only ones that grow with each carcass's weight.
func aimCorners(overall group, fat, muscle measure.ID, low, high, bottom, top decimal.Decimal) [][2]decimal.Decimal {
	left, right, hasX := aimWithin(overall, fat, low, high)
	under, over, hasY := aimWithin(overall, muscle, bottom, top)
	if !hasX && !hasY {
		return nil
	}
	return [][2]decimal.Decimal{{left, under}, {right, under}, {right, over}, {left, over}, {left, under}}
}

// aimWithin gives the ends of the aim for a measure, which an open end takes from the axis; has is false where there is none, or
// none that can be drawn.
func aimWithin(overall group, id measure.ID, low, high decimal.Decimal) (from, to decimal.Decimal, has bool) {
	from, to = low, high
	for _, target := range overall.targets {
		if target.Species != overall.kind.Species || target.Measure != id || !target.From.PerPound.IsZero() || !target.UpTo.PerPound.IsZero() {
			continue
		}
		has = true
		if target.From.Valid {
			from = decimal.Max(from, target.From.Decimal)
		}
		if target.UpTo.Valid {
			to = decimal.Min(to, target.UpTo.Decimal)
		}
	}
	if !has || from.GreaterThan(to) {
		return low, high, false
	}
	return from, to, true
}

// axisEnds frames the values between round numbers, the closer together they lie the finer, so that the dots fill the chart and none
// lies on its edge. Blank values are passed over.
func axisEnds(values []any) (lowest, highest decimal.Decimal) {
	var low, high decimal.NullDecimal
	for _, value := range values {
		if number, is := value.(decimal.Decimal); is {
			if !low.Valid {
				low, high = decimal.NewNullDecimal(number), decimal.NewNullDecimal(number)
			}
			low.Decimal, high.Decimal = decimal.Min(low.Decimal, number), decimal.Max(high.Decimal, number)
		}
	}
	step := decimal.New(1, 2)
	for _, finer := range []struct{ span, step decimal.Decimal }{
		{decimal.New(1, 2), decimal.New(2, 1)}, {decimal.New(2, 1), decimal.New(1, 0)}, {decimal.New(25, -1), decimal.New(5, -1)}, {decimal.New(1, 0), decimal.New(1, -1)},
	} {
		if high.Decimal.Sub(low.Decimal).LessThanOrEqual(finer.span) {
			step = finer.step
		}
	}
	one := decimal.NewFromInt(1)
	lowest = low.Decimal.Div(step).Ceil().Sub(one).Mul(step)
	if !low.Decimal.IsNegative() {
		lowest = decimal.Max(lowest, decimal.Zero)
	}
	return lowest, high.Decimal.Div(step).Floor().Add(one).Mul(step)
}

// ends are the ends of an axis as the library takes them.
func ends(low, high decimal.Decimal) (from, to *float64) {
	lowest, highest := low.InexactFloat64(), high.InexactFloat64()
	return &lowest, &highest
}
