package grading

import (
	"maps"
	"slices"
	"strings"
	"unicode"

	"github.com/shopspring/decimal"

	"railbook/rules"
	"railbook/rules/measure"
)

// Condition is a yes or no about a carcass that moves its grade, its price or its place, derived once from every sign of
// it. A condition is set by its own mark, the sex column or the judge's lowering for dark lean; it is never inferred from
// maturity, age or an unsettled remark, which only ask (the trade's grid reports take marks alone).
type Condition struct {
	Measure measure.ID
	Is      bool
	Signs   []Sign // what sets it one way or the other, the mark first
	Unread  string // why nobody can say, in a few words; empty where somebody can
}

// Sign is one thing on the sheet that sets a condition.
type Sign struct {
	Measure measure.ID // the cell it stands in
	Is      bool       // it says that the condition holds
	Words   string     // as in a sentence: "the sex stag", "the mark no", "a lowering of 1/3"
}

// Contradicted reports whether one sign says yes and another no.
func (c Condition) Contradicted() bool {
	return slices.ContainsFunc(c.Signs, func(sign Sign) bool { return sign.Is }) &&
		slices.ContainsFunc(c.Signs, func(sign Sign) bool { return !sign.Is })
}

// assumed says by what the condition holds where it is not by its own mark; empty otherwise.
func (c Condition) assumed() string {
	if !c.Is {
		return ""
	}
	for _, sign := range c.Signs {
		if sign.Measure == c.Measure && sign.Is {
			return ""
		}
	}
	for _, sign := range c.Signs {
		if sign.Is {
			return conditionNames[c.Measure] + ", by " + sign.Words
		}
	}
	return ""
}

// conditionNames are the conditions as a sentence names them.
var conditionNames = map[measure.ID]string{
	measure.DarkCutter:   "a dark cutter",
	measure.Bullock:      "a bullock or stag",
	measure.Bull:         "a bull",
	measure.Cow:          "a cow",
	measure.Hardbone:     "hardbone",
	measure.DairyType:    "of dairy type",
	measure.Over30Months: "over 30 months of age",
	measure.Condemned:    "condemned",
	measure.Retained:     "retained",
	measure.Trimmed:      "trimmed",
	measure.BloodSplash:  "marked for blood splash",
}

// ConditionWords says a condition as a sentence does: "a dark cutter", "hardbone".
func ConditionWords(id measure.ID) string { return conditionNames[id] }

// IsCondition reports whether a measure is one of the conditions.
func IsCondition(id measure.ID) bool { return conditionNames[id] != "" }

// Condition gives what is known of a condition. One without any sign is not there.
func (g *Graded) Condition(id measure.ID) Condition {
	for _, condition := range g.conditions {
		if condition.Measure == id {
			return condition
		}
	}
	return Condition{Measure: id}
}

// Is reports whether a condition holds.
func (g *Graded) Is(id measure.ID) bool { return g.Condition(id).Is }

// marked reports whether a mark is set.
func (g *Graded) marked(id measure.ID) bool {
	mark, ok := g.Reading(id)
	return ok && mark.Value.Number.IsPositive()
}

// Conditions gives every condition there is a sign of, in the order of its mark's table.
func (g *Graded) Conditions() []Condition { return g.conditions }

// eachCondition is the order in which conditions are derived and named.
var eachCondition = []measure.ID{
	measure.DarkCutter, measure.Hardbone, measure.DairyType, measure.Over30Months, measure.Bullock, measure.Bull, measure.Cow,
	measure.Condemned, measure.Retained, measure.Trimmed, measure.BloodSplash,
}

// conditionsOf derives the conditions of a carcass that there is any sign of.
func conditionsOf(carcass *Carcass) []Condition {
	var found []Condition
	text := carcass.ReadingOf(measure.Sex).Value.Text
	sex, written := SexOf(carcass.Species, text), "the sex "+strings.TrimSpace(text)
	for _, id := range eachCondition {
		condition := Condition{Measure: id}
		if mark, read := carcass.Written(id); read && mark.Unreadable {
			condition.Unread = "the " + id.String() + " mark cannot be read"
		} else if read {
			condition.Signs = append(condition.Signs, Sign{id, mark.Value.Number.IsPositive(), "the mark " + mark.Value.Text})
		}
		condition.Signs = append(condition.Signs, otherSigns(carcass, id, sex, written)...)
		if len(condition.Signs) == 0 && condition.Unread == "" {
			continue
		}
		condition.Is = slices.ContainsFunc(condition.Signs, func(sign Sign) bool { return sign.Is })
		found = append(found, condition)
	}
	return found
}

// otherSigns gives the signs of a condition beside its own mark.
func otherSigns(carcass *Carcass, id measure.ID, sex Sex, written string) []Sign {
	switch id {
	case measure.DarkCutter:
		// A lowering of nothing is the judge's word on the grade, not on the lean.
		if lowering, ok := carcass.Reading(measure.DarkCutterLowering); ok && lowering.Value.Number.IsPositive() {
			return []Sign{{measure.DarkCutterLowering, true, "the judge's lowering of its grade"}}
		}
	case measure.Over30Months:
		if mark, ok := carcass.Reading(measure.Under30Months); ok && mark.Value.Number.IsPositive() {
			return []Sign{{measure.Under30Months, false, "the mark under 30 months"}}
		}
	case measure.Bullock:
		switch sex {
		case SexBullock:
			return []Sign{{measure.Sex, true, written}}
		case SexSteer, SexHeifer, SexBull, SexCow:
			return []Sign{{measure.Sex, false, written}}
		}
	case measure.Bull:
		if sex == SexBull {
			return []Sign{{measure.Sex, true, written}}
		}
	case measure.Cow:
		if sex == SexCow {
			return []Sign{{measure.Sex, true, written}}
		}
	}
	return nil
}

// Sex is the sex of an animal as far as a grade, an equation or a rule depends on it.
type Sex string

// The sexes that are told apart.
const (
	SexSteer   Sex = "steer"
	SexHeifer  Sex = "heifer"
	SexBullock Sex = "bullock or stag"
	SexBull    Sex = "bull"
	SexCow     Sex = "cow"
	SexBarrow  Sex = "barrow"
	SexGilt    Sex = "gilt"
	SexSow     Sex = "sow"
	SexBoar    Sex = "boar"
	SexWether  Sex = "wether"
	SexEwe     Sex = "ewe"
	SexRam     Sex = "ram"
	SexDoe     Sex = "doe"
	SexBuck    Sex = "buck"
)

// sexWords are the words for each sex, letters alone. Single letters and clippings as sale barns write them.
var sexWords = map[rules.Species]map[string]Sex{
	rules.Beef: {
		"steer": SexSteer, "str": SexSteer, "st": SexSteer, "s": SexSteer,
		"heifer": SexHeifer, "hfr": SexHeifer, "heif": SexHeifer, "hef": SexHeifer, "hf": SexHeifer, "h": SexHeifer,
		"bullock": SexBullock, "stag": SexBullock, "bullockorstag": SexBullock, "bullockstag": SexBullock, "stagorbullock": SexBullock,
		"stagbullock": SexBullock, "youngbull": SexBullock, "blk": SexBullock, "stg": SexBullock,
		"bull": SexBull, "bl": SexBull, "maturebull": SexBull,
		"cow": SexCow, "cw": SexCow, "maturecow": SexCow, "c": SexCow,
	},
	rules.Swine: {
		"barrow": SexBarrow, "barr": SexBarrow, "bar": SexBarrow, "brw": SexBarrow, "b": SexBarrow,
		"gilt": SexGilt, "glt": SexGilt, "g": SexGilt,
		"sow": SexSow, "boar": SexBoar,
	},
	rules.Lamb: {
		"wether": SexWether, "weth": SexWether, "w": SexWether, "wetherlamb": SexWether,
		"ewe": SexEwe, "e": SexEwe, "ewelamb": SexEwe, "ram": SexRam, "r": SexRam, "ramlamb": SexRam,
	},
	rules.Goat: {
		"wether": SexWether, "weth": SexWether, "w": SexWether, "wetherkid": SexWether,
		"doe": SexDoe, "d": SexDoe, "nanny": SexDoe, "doeling": SexDoe, "doekid": SexDoe, "buck": SexBuck, "billy": SexBuck, "buckling": SexBuck,
	},
}

// SexesOf gives the sexes of a species that the program tells apart, the usual market animals first.
func SexesOf(species rules.Species) (list []string) {
	for _, sex := range []Sex{SexSteer, SexHeifer, SexBarrow, SexGilt, SexWether, SexEwe, SexDoe, SexBullock, SexBull, SexCow, SexSow, SexBoar, SexRam, SexBuck} {
		if slices.Contains(slices.Collect(maps.Values(sexWords[species])), sex) {
			list = append(list, string(sex))
		}
	}
	return list
}

// SexOf understands a sex as people write it: "Steer", "STEERS", "hfr.", "Stag/Bullock". Empty for other words.
func SexOf(species rules.Species, text string) Sex {
	if text == "" {
		return ""
	}
	letters := strings.Map(func(r rune) rune {
		if !unicode.IsLetter(r) {
			return -1
		}
		return unicode.ToLower(r)
	}, text)
	words := sexWords[species]
	if sex, known := words[letters]; known {
		return sex
	}
	if single, plural := strings.CutSuffix(letters, "s"); plural {
		return words[single]
	}
	return ""
}

// ConditionValue gives a condition as a mark, or why nobody can say.
func (g *Graded) ConditionValue(id measure.ID) (value measure.Value, missing string) {
	condition := g.Condition(id)
	switch {
	case condition.Unread != "":
		return value, condition.Unread
	case condition.Is:
		return measure.Value{Number: decimal.NewFromInt(1), Text: "yes"}, ""
	}
	return measure.Value{Text: "no"}, ""
}

// ConditionMatters reports whether anything the rulebook says of this carcass would differ with the condition: its quality
// grade, a line of the grid, or a rule that names it.
func (g *Graded) ConditionMatters(id measure.ID) bool {
	if g.Species == rules.Beef && slices.Contains(gradedBy, id) {
		return true
	}
	for _, line := range g.Book.Grid {
		if line.Species == g.Species && line.Part == rules.ConditionPart && line.Mark == id {
			return true
		}
	}
	named := func(of measure.ID) bool { return of == id }
	for _, premium := range g.Book.Premiums {
		if premium.Species == g.Species && slices.ContainsFunc(premium.Tests, func(test rules.Requirement) bool { return named(test.Measure) }) {
			return true
		}
	}
	return slices.ContainsFunc(g.Book.Eligibility, func(r rules.Requirement) bool { return named(r.Measure) }) ||
		slices.ContainsFunc(g.Book.Groups, func(s rules.Standard) bool { return named(s.Measure) }) ||
		slices.ContainsFunc(g.Book.Points, func(p rules.PointsPart) bool { return named(p.Measure) }) ||
		slices.ContainsFunc(g.Book.Rankings, func(r rules.Ranking) bool {
			return slices.ContainsFunc(r.Keys, func(k rules.Key) bool { return named(k.Measure) })
		})
}

// gradedBy are the conditions that a quality grade of beef depends on.
var gradedBy = []measure.ID{measure.DarkCutter, measure.Bullock, measure.Bull, measure.Cow}
