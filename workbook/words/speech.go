package words

import (
	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
)

// speech is how a judge speaks of a figure: of the carcass that is ahead on it, and of the one behind. Both figures
// follow, the speaker's own first.
type speech struct{ ahead, behind string }

// of gives the words of one of them.
func (s speech) of(ahead bool) string {
	if ahead {
		return s.ahead
	}
	return s.behind
}

// spokenHighest and spokenLowest are for keys that put the highest or the lowest first; any other measure is spoken of
// in plain words.
var (
	spokenHighest = map[measure.ID]speech{
		measure.QualityGrade:           {"grades higher, %s to %s", "grades lower, %s to %s"},
		measure.MarblingScore:          {"shows more marbling, a score of %s to %s", "shows less marbling, a score of %s to %s"},
		measure.IntramuscularFat:       {"scans with more fat within the lean, %s to %s", "scans with less fat within the lean, %s to %s"},
		measure.RibeyePerHundredweight: {"is heavier muscled for its weight, %s to %s", "is lighter muscled for its weight, %s to %s"},
		measure.RibeyeArea:             {"has the larger ribeye, %s to %s", "has the smaller ribeye, %s to %s"},
		measure.Cutability:             {"cuts out more, %s to %s", "cuts out less, %s to %s"},
		measure.HotCarcassWeight:       {"is the heavier carcass, %s to %s", "is the lighter carcass, %s to %s"},
		measure.DressingPercent:        {"dresses higher, %s to %s", "dresses lower, %s to %s"},
		measure.Price:                  {"brings the better price, %s to %s", "brings the lower price, %s to %s"},
		measure.CarcassValue:           {"is worth more, %s to %s", "is worth less, %s to %s"},
		measure.Premium:                {"earns the better premium, %s to %s", "earns the smaller premium, %s to %s"},
		measure.LeanPercent:            {"is the leaner carcass, %s to %s", "carries less lean for its weight, %s to %s"},
		measure.LoinMuscleArea:         {"has the larger loin, %s to %s", "has the smaller loin, %s to %s"},
		measure.LeanGainPerDay:         {"put on lean faster, %s to %s", "put on lean slower, %s to %s"},
		measure.AverageDailyGain:       {"gained faster, %s to %s", "gained slower, %s to %s"},
		measure.CarcassWeightPerDay:    {"grew more carcass for its age, %s to %s", "grew less carcass for its age, %s to %s"},
		measure.RetailCutsPerDay:       {"made more retail cuts for its age, %s to %s", "made fewer retail cuts for its age, %s to %s"},
		measure.ValuePerDayOnFeed:      {"made more of each day on feed, %s to %s", "made less of each day on feed, %s to %s"},
		measure.LegScore:               {"is thicker in the leg, a score of %s to %s", "is thinner in the leg, a score of %s to %s"},
	}
	spokenLowest = map[measure.ID]speech{
		measure.YieldGrade:       {"yields more for its weight, yield grade %s to %s", "yields less for its weight, yield grade %s to %s"},
		measure.WholeYieldGrade:  {"stamps a better yield grade, %s to %s", "stamps a poorer yield grade, %s to %s"},
		measure.AdjustedFat:      {"is the trimmer carcass with fat of %s to %s", "is the fatter carcass with fat of %s to %s"},
		measure.HotCarcassWeight: {"is the lighter carcass, %s to %s", "is the heavier carcass, %s to %s"},
		measure.TenthRibFat:      {"is trimmer at the tenth rib, %s to %s", "is fatter at the tenth rib, %s to %s"},
		measure.LastRibFat:       {"is trimmer at the last rib, %s to %s", "is fatter at the last rib, %s to %s"},
	}
)

// seen is how a judge grants what is seen rather than ranked by: the difference follows.
var seen = map[measure.ID]string{
	measure.AdjustedFat:    "is the trimmer carcass by %s of fat",
	measure.TenthRibFat:    "is trimmer by %s at the tenth rib",
	measure.RibeyeArea:     "has the larger ribeye by %s",
	measure.LoinMuscleArea: "has the larger loin by %s",
}

// speechFor gives the words for a key.
func speechFor(key rules.Key) speech {
	spoken, plain := spokenHighest, speech{"is higher in " + grading.KeyWords(key) + ", %s to %s", "is lower in " + grading.KeyWords(key) + ", %s to %s"}
	if key.Prefer == rules.Lowest {
		spoken, plain = spokenLowest, speech{plain.behind, plain.ahead}
	}
	if words, ok := spoken[key.Measure]; ok {
		return words
	}
	return plain
}
