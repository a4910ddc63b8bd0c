package validate

import (
	"maps"
	"math"
	"math/rand/v2"
	"strconv"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// made is what the carcasses of a species are made of: middles and spreads within the usual ranges of its limits, this
// project's own.
type made struct {
	species                  rules.Species
	live, liveSpread         float64
	dressing, dressingSpread float64
	fat                      measure.ID // empty for none
	fatMiddle, fatSpread     float64    // the middle, and the spread of its logarithm
	area                     measure.ID
	areaMiddle, areaSpread   float64
	areaPower                float64 // how the area follows carcass weight
	wall                     float64 // the body wall beyond the fat; 0 for none
	decimals                 int     // of weights
	scanned                  bool    // in the live animal: no carcass weight; the area follows live weight
	within, withinSpread     float64 // intramuscular fat, and the spread of its logarithm; 0 for none
	leg, legSpread           float64 // the leg score, about half of one more for each spread of weight and of fat; 0 for none
}

var madeSpecies = []made{
	{
		species: rules.Swine, live: 268, liveSpread: 18, dressing: 74.5, dressingSpread: 1.6, fat: measure.TenthRibFat, fatMiddle: 0.75, fatSpread: 0.25,
		area: measure.LoinMuscleArea, areaMiddle: 7.3, areaSpread: 0.75, areaPower: 0.5,
	},
	{
		species: rules.Lamb, live: 128, liveSpread: 11, dressing: 53.5, dressingSpread: 2.1, fat: measure.MeasuredFat, fatMiddle: 0.2, fatSpread: 0.3,
		area: measure.RibeyeArea, areaMiddle: 2.9, areaSpread: 0.3, areaPower: 0.5, wall: 0.6, decimals: 1,
		leg: 11.6, legSpread: 0.8,
	},
	{
		species: rules.Goat, live: 80, liveSpread: 12, dressing: 48, dressingSpread: 2,
		area: measure.RibeyeArea, areaMiddle: 1.7, areaSpread: 0.22, areaPower: 0.6, wall: 0.45, decimals: 1,
	},
	{
		species: rules.Beef, live: 1250, liveSpread: 100, dressing: 100, fat: measure.MeasuredFat, fatMiddle: 0.42, fatSpread: 0.34,
		area: measure.RibeyeArea, areaMiddle: 12.6, areaSpread: 1.0, areaPower: 0.5, scanned: true, within: 4.9, withinSpread: 0.25,
	},
}

// name is how a table is headed.
func (m made) name() string {
	if m.scanned {
		return "ultrasound"
	}
	return string(m.species)
}

// sheet makes one sheet of the species.
func (m made) sheet(rng *rand.Rand, count int) *plantedSheet {
	sheet := &plantedSheet{species: m.species, kinds: m.kinds(), scanned: m.scanned}
	written := func(number float64, decimals int) string { return strconv.FormatFloat(number, 'f', decimals, 64) }
	middle := m.live * m.dressing / 100
	for i := range count {
		live := m.live + m.liveSpread*rng.NormFloat64()
		carcass := live * (m.dressing + m.dressingSpread*rng.NormFloat64()) / 100
		area := m.areaMiddle*math.Pow(carcass/middle, m.areaPower) + m.areaSpread*rng.NormFloat64()
		truth := drawn{
			measure.Tag: strconv.Itoa(100 + i), measure.ClassName: "Market",
			measure.LiveWeight: written(live, 0), measure.HotCarcassWeight: written(carcass, m.decimals), m.area: written(area, 2),
		}
		if m.scanned {
			delete(truth, measure.HotCarcassWeight)
			truth[measure.IntramuscularFat] = written(m.within*math.Exp(m.withinSpread*rng.NormFloat64()), 2)
		}
		fat, fatness := 0.0, 0.0
		if m.fat != measure.None {
			fatness = rng.NormFloat64()
			fat = math.Max(0.05, m.fatMiddle*math.Exp(m.fatSpread*fatness))
			truth[m.fat] = written(fat, 2)
		}
		if m.wall > 0 {
			truth[measure.BodyWallThickness] = written(fat+m.wall*math.Exp(0.15*rng.NormFloat64()), 2)
		}
		if m.leg > 0 {
			score := m.leg + 0.5*(live-m.live)/m.liveSpread + 0.5*fatness + m.legSpread*rng.NormFloat64()
			truth[measure.LegScore] = written(math.Max(7, math.Min(15, math.Round(score))), 0)
		}
		sheet.rows = append(sheet.rows, &plantedRow{truth: truth, sheet: maps.Clone(truth)})
	}
	return sheet
}

// kinds are the slips planted in the species.
func (m made) kinds() []slipKindOfTest {
	kinds := []slipKindOfTest{
		inCell("area a hundred times", "loud", m.area, shifted(2), nil),
		inCell("area ten times", "loud", m.area, shifted(1), nil),
		inCell("area a tenth", "loud", m.area, shifted(-1), nil),
		inUnit("area in square centimetres", m.area, "6.4516", 1),
		inUnit("live weight in kilograms", measure.LiveWeight, "0.45359237", 0),
		inCell("live weight, two digits swapped", "silent", measure.LiveWeight, twoSwapped, nil),
		inCell("live weight, a wrong key", "silent", measure.LiveWeight, wrongKey(1), nil),
		inCell("area, two digits swapped", "silent", m.area, twoSwapped, nil),
		inCell("area, a wrong key", "silent", m.area, wrongKey(1), nil),
		likeAbove("live weight of the row above", measure.LiveWeight),
		likeAbove("area of the row above", m.area),
	}
	if m.scanned {
		kinds = append(kinds,
			inCell("intramuscular fat ten times", "loud", measure.IntramuscularFat, shifted(1), nil),
			inCell("intramuscular fat a tenth", "loud", measure.IntramuscularFat, shifted(-1), nil),
			inCell("intramuscular fat, two digits swapped", "silent", measure.IntramuscularFat, twoSwapped, nil))
	} else {
		kinds = append(kinds,
			inUnit("carcass weight in kilograms", measure.HotCarcassWeight, "0.45359237", 1),
			exchanged("live and carcass weight exchanged", measure.LiveWeight, measure.HotCarcassWeight),
			inCell("carcass weight, two digits swapped", "silent", measure.HotCarcassWeight, twoSwapped, nil),
			inCell("carcass weight, a wrong key", "silent", measure.HotCarcassWeight, wrongKey(1), nil),
			likeAbove("carcass weight of the row above", measure.HotCarcassWeight),
			betweenTwo("carcass weights of two rows exchanged", measure.HotCarcassWeight))
	}
	if m.fat != measure.None {
		kinds = append(kinds,
			inCell("fat in tenths", "loud", m.fat, shifted(1), nil),
			inUnit("fat in millimetres", m.fat, "25.4", 0),
			inCell("fat, two digits swapped", "silent", m.fat, twoSwapped, nil),
			inCell("fat, a wrong key", "silent", m.fat, wrongKey(0), nil))
	}
	if m.leg > 0 {
		kinds = append(kinds,
			inCell("leg score without its first digit", "loud", measure.LegScore, tensLost, nil),
			inCell("leg score, two digits swapped", "loud", measure.LegScore, twoSwapped, nil),
			inCell("leg score, a wrong key", "silent", measure.LegScore, wrongKey(0), nil))
	}
	if m.area == measure.LoinMuscleArea {
		kinds = append(kinds, inUnit("loin depth typed as area", m.area, "0.333333333", 1))
	}
	return kinds
}

// tensLost loses the first of the two digits of a score from 11 on.
func tensLost(number decimal.Decimal, _ int32) []decimal.Decimal {
	if lost := number.Sub(decimal.NewFromInt(10)); lost.Sign() > 0 {
		return []decimal.Decimal{lost}
	}
	return nil
}
