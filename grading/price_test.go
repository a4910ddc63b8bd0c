package grading

import (
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// pricedCarcass is a Low Choice carcass of yield grade 3.2 and in-range weight, but for the values given: no premium and
// no discount.
func pricedCarcass(t testing.TB, book *rules.Rulebook, values map[measure.ID]string) *Graded {
	t.Helper()
	all := map[measure.ID]string{
		measure.HotCarcassWeight: "750", measure.AdjustedFat: "0.55", measure.RibeyeArea: "12.46875", measure.InternalFat: "2.3225",
		measure.Marbling: "440", measure.Maturity: "A60",
	}
	for id, value := range values {
		all[id] = value
	}
	return Grade(carcassOf(t, rules.Beef, rules.OnTheRail, all), book)
}

// fatFor gives the adjusted fat that makes the yield grade of a carcass exactly what is wanted.
func fatFor(weight, yieldGrade string) string {
	rest := Exact(yieldGrade).Sub(Exact("2.5")).Sub(Exact("0.5")).Sub(Exact("0.0038").Mul(Exact(weight))).Add(Exact("0.32").Mul(Exact("14")))
	return rest.Div(Exact("2.5")).String()
}

// Base 300.00 and the premiums and discounts of USDA Market News LM_CT155, week of 6 January 2025, simple averages; which
// end of a band counts is our own reading.
func TestPriceOnTheDefaultGrid(t *testing.T) {
	weight := func(weight string) map[measure.ID]string {
		return map[measure.ID]string{
			measure.HotCarcassWeight: weight, measure.AdjustedFat: fatFor(weight, "3.2"), measure.RibeyeArea: "14", measure.InternalFat: "2.5",
		}
	}
	yield := func(yieldGrade string) map[measure.ID]string {
		return map[measure.ID]string{measure.AdjustedFat: fatFor("750", yieldGrade), measure.RibeyeArea: "14", measure.InternalFat: "2.5"}
	}
	mark := func(id measure.ID) map[measure.ID]string { return map[measure.ID]string{id: "yes"} }
	marbling := func(score string) map[measure.ID]string { return map[measure.ID]string{measure.Marbling: score} }
	for _, test := range []struct {
		name   string
		values map[measure.ID]string
		want   string // the price, or words of the reason why there is none
	}{
		{"base", nil, "300"},
		{"Prime", marbling("720"), "317.54"},
		{"Select", marbling("340"), "271.75"},
		{"Standard", marbling("240"), "259.07"},
		{"Utility", marbling("40"), "no price in the grid for the grade Utility"},
		{"Commercial", map[measure.ID]string{measure.Maturity: "C50", measure.Marbling: "550"}, "no price in the grid for the grade Average Commercial"},
		{"dairy type", mark(measure.DairyType), "297.36"},
		{"bullock", mark(measure.Bullock), "258.5"},
		{"hardbone instead of quality", map[measure.ID]string{measure.Hardbone: "yes", measure.Maturity: "C50", measure.Marbling: "550"}, "257.8"},
		{"dark cutter", mark(measure.DarkCutter), "261.25"},
		{"over 30 months", mark(measure.Over30Months), "285.71"},
		{"several marks add", map[measure.ID]string{measure.DairyType: "yes", measure.Over30Months: "yes"}, "283.07"},
		{"a mark that says no", map[measure.ID]string{measure.DarkCutter: "no"}, "300"},
		{"dark cutter with its grade lowered", map[measure.ID]string{measure.DarkCutter: "yes", measure.DarkCutterLowering: "2"}, "233"},
		{"a lowering is a mark", map[measure.ID]string{measure.DarkCutterLowering: "2"}, "233"},
		{"a lowering beside a mark that says no, which is a hold", map[measure.ID]string{measure.DarkCutter: "no", measure.DarkCutterLowering: "2"}, "233"},
		{"yield grade 0.8", yield("0.8"), "303.35"},
		{"yield grade 1.0", yield("1.0"), "303.35"},
		{"yield grade 1.999999", yield("1.999999"), "303.35"},
		{"yield grade 2.0", yield("2"), "301.77"},
		{"yield grade 2.499999", yield("2.499999"), "301.77"},
		{"yield grade 2.5", yield("2.5"), "301.38"},
		{"yield grade 2.999999", yield("2.999999"), "301.38"},
		{"yield grade 3.0", yield("3"), "300"},
		{"yield grade 3.5", yield("3.5"), "300"},
		{"yield grade 3.999999", yield("3.999999"), "300"},
		{"yield grade 4.0", yield("4"), "287.55"},
		{"yield grade 4.999999", yield("4.999999"), "287.55"},
		{"yield grade 5.0", yield("5"), "282.18"},
		{"yield grade 6.5", yield("6.5"), "282.18"},
		{"399.9 lb", weight("399.9"), "no price in the grid for a carcass of 399.9 lb"},
		{"400 lb", weight("400"), "270.71"},
		{"499.9 lb", weight("499.9"), "270.71"},
		{"500 lb", weight("500"), "277.36"},
		{"549.9 lb", weight("549.9"), "277.36"},
		{"550 lb", weight("550"), "288.43"},
		{"599.9 lb", weight("599.9"), "288.43"},
		{"600 lb", weight("600"), "300"},
		{"899.9 lb", weight("899.9"), "300"},
		{"900 lb", weight("900"), "298.93"},
		{"900.1 lb", weight("900.1"), "298.93"},
		{"999.9 lb", weight("999.9"), "298.93"},
		{"1000 lb", weight("1000"), "295"},
		{"1050 lb", weight("1050"), "295"},
		{"1050.1 lb", weight("1050.1"), "284.55"},
	} {
		t.Run(test.name, func(t *testing.T) {
			g := pricedCarcass(t, defaultBook, test.values)
			figure := g.FigureOf(measure.Price)
			if figure.Missing != "" {
				if figure.Missing != test.want || figure.Value.Text != NoPrice || g.FigureOf(measure.CarcassValue).Missing == "" {
					t.Fatalf("no price: %q %q, want %s", figure.Missing, figure.Value.Text, test.want)
				}
				return
			}
			wantNumber(t, g, measure.Price, test.want)
			sum := decimal.Zero
			for _, step := range g.PriceSteps() {
				sum = sum.Add(step.Adjust.Number)
			}
			if !sum.Equal(figure.Value.Number) {
				t.Errorf("the steps %v add up to %s, not to %s", g.PriceSteps(), sum, figure.Value.Text)
			}
		})
	}
}

// variant is the default rulebook with changes.
func variant(change func(*rules.Rulebook)) *rules.Rulebook {
	book := *defaultBook
	change(&book)
	return &book
}

func TestSettingsOfThePrice(t *testing.T) {
	dark := map[measure.ID]string{measure.DarkCutter: "yes", measure.DarkCutterLowering: "2", measure.Over30Months: "yes"}
	for _, test := range []struct {
		name   string
		change func(*rules.Rulebook)
		values map[measure.ID]string
		want   string
	}{
		{"both", func(*rules.Rulebook) {}, dark, "218.71"},
		{"grade only", func(b *rules.Rulebook) { b.Settings.DarkCutterTakes = rules.DarkCutterGrade }, dark, "257.46"},
		{"discount only", func(b *rules.Rulebook) { b.Settings.DarkCutterTakes = rules.DarkCutterDiscount }, dark, "246.96"},
		{"largest only", func(b *rules.Rulebook) { b.Settings.ConditionsAdd = false }, dark, "233"},
		{"by thirds", func(b *rules.Rulebook) {
			b.Settings.PriceByThirds = true
			b.Grid = append([]rules.GridLine{{Species: rules.Beef, Part: rules.QualityPart, Name: "High Choice", Adjust: Exact("6.5")}}, b.Grid...)
		}, map[measure.ID]string{measure.Marbling: "650"}, "306.5"},
		{"a line of a third that is not priced by", func(b *rules.Rulebook) {
			b.Grid = append([]rules.GridLine{{Species: rules.Beef, Part: rules.QualityPart, Name: "High Choice", Adjust: Exact("6.5")}}, b.Grid...)
		}, map[measure.ID]string{measure.Marbling: "650"}, "300"},
		{"a third without a line is paid as its whole grade", func(b *rules.Rulebook) { b.Settings.PriceByThirds = true }, map[measure.ID]string{measure.Marbling: "650"}, "300"},
	} {
		t.Run(test.name, func(t *testing.T) {
			wantNumber(t, pricedCarcass(t, variant(test.change), test.values), measure.Price, test.want)
		})
	}
	open := variant(func(b *rules.Rulebook) { b.Settings.BasePrice = nil })
	if figure := pricedCarcass(t, open, nil).FigureOf(measure.Price); figure.Missing != "no base price is set in the rulebook" {
		t.Errorf("without a base price: %q (%s)", figure.Value.Text, figure.Missing)
	}
}

// 794 lb at $140.88/cwt are $1,118.59: Mississippi State University Extension P2556.
// A cell of a matrix is that of both bands, not of either.
func TestAMatrixPaysByBothOfItsBands(t *testing.T) {
	half := func(text string, from bool) rules.Band {
		if from {
			return rules.Band{From: decimal.NewNullDecimal(Exact(text)), FromIsIn: true}
		}
		return rules.Band{UpTo: decimal.NewNullDecimal(Exact(text))}
	}
	book := variant(func(b *rules.Rulebook) {
		b.Grid = nil
		for i, cell := range []struct{ fat, loin bool }{{false, false}, {false, true}, {true, false}, {true, true}} {
			b.Matrix = append(b.Matrix, rules.MatrixLine{
				GridLine: rules.GridLine{Species: rules.Beef, Part: rules.MatrixPart, Name: "cell", Band: half("0.5", cell.fat), Adjust: decimal.NewFromInt(int64(i + 1))},
				First:    measure.AdjustedFat, Second: measure.RibeyeArea, SecondBand: half("13", cell.loin),
			})
		}
	})
	for values, want := range map[[2]string]string{{"0.49", "12.9"}: "301", {"0.49", "13"}: "302", {"0.50", "12.9"}: "303", {"0.50", "13"}: "304"} {
		wantNumber(t, pricedCarcass(t, book, map[measure.ID]string{measure.AdjustedFat: values[0], measure.RibeyeArea: values[1]}), measure.Price, want)
	}
}

func TestValueOfAPublishedExample(t *testing.T) {
	book := variant(func(b *rules.Rulebook) {
		b.Grid = nil
		b.Settings.BasePrice = map[rules.Species]decimal.NullDecimal{rules.Beef: decimal.NewNullDecimal(Exact("140.88"))}
	})
	wantNumber(t, pricedCarcass(t, book, map[measure.ID]string{measure.HotCarcassWeight: "794"}), measure.CarcassValue, "1118.59")
}

func TestPremiumIsThePriceLessTheBase(t *testing.T) {
	wantNumber(t, pricedCarcass(t, defaultBook, map[measure.ID]string{measure.Marbling: "340"}), measure.Premium, "-28.25")
}

func TestPricesChangeOnlyAtBandEdges(t *testing.T) {
	edges := []decimal.Decimal{Exact("400"), Exact("500"), Exact("550"), Exact("600"), Exact("900"), Exact("1000"), Exact("1050.000001")}
	yieldEdges := []decimal.Decimal{Exact("2"), Exact("2.5"), Exact("3"), Exact("3.5"), Exact("4"), Exact("5")}
	between := func(edges []decimal.Decimal, a, b decimal.Decimal) bool {
		for _, edge := range edges {
			if a.LessThan(edge) != b.LessThan(edge) {
				return true
			}
		}
		return false
	}
	rapid.Check(t, func(r *rapid.T) {
		draw := func(name string) (decimal.Decimal, *Graded) {
			weight := decimal.New(int64(rapid.IntRange(4000, 12000).Draw(r, name)), -1)
			fat := decimal.New(int64(rapid.IntRange(10, 150).Draw(r, name+" fat")), -2)
			return weight, pricedCarcass(t, defaultBook, map[measure.ID]string{measure.HotCarcassWeight: weight.String(), measure.AdjustedFat: fat.String()})
		}
		weight, graded := draw("weight")
		otherWeight, other := draw("other weight")
		yield, otherYield := graded.FigureOf(measure.YieldGrade).Value.Number, other.FigureOf(measure.YieldGrade).Value.Number
		if between(edges, weight, otherWeight) || between(yieldEdges, yield, otherYield) {
			r.Skip("an edge lies between the two")
		}
		if !graded.FigureOf(measure.Price).Value.Number.Equal(other.FigureOf(measure.Price).Value.Number) {
			r.Fatalf("%s lb of yield grade %s brings %s, %s lb of %s brings %s", weight, yield, graded.FigureOf(measure.Price).Value.Text,
				otherWeight, otherYield, other.FigureOf(measure.Price).Value.Text)
		}
	})
}

func TestGridSheetNamesEveryLineAndItsSource(t *testing.T) {
	sheet := LayOutGrid(defaultBook, allSpecies())
	var all strings.Builder
	for _, row := range sheet.Rows {
		for _, cell := range row {
			all.WriteString(cell.Text + "\n")
		}
	}
	for _, line := range defaultBook.Grid {
		if line.Species == rules.Beef && (!strings.Contains(all.String(), line.Adjust.String()+"\n") || !strings.Contains(all.String(), line.Source+"\n")) {
			t.Errorf("the grid sheet lacks the line %+v", line)
		}
	}
}
