package intake

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"

	"github.com/shopspring/decimal"
)

// Differences compares a reading with a second entry of the same carcasses, typed by somebody else, and holds every
// cell in which the two differ. They are joined by tag; layouts, headings and units may differ, and a measure that only
// one of them has is no difference. Numbers in the same unit are compared exactly. Where the two use different units,
// they are the same if they agree within half of the last place of the one written more coarsely. Whatever was found, the
// last finding says what was compared and what was not. The file is the name of the second entry's.
func Differences(first, second *Result, file string) []validate.Finding {
	c := &comparison{
		first: first, second: second, file: file, columns: [2]map[measure.ID]bool{columnsOf(first), columnsOf(second)},
		places: [2]map[placesKey]int32{placesOf(first), placesOf(second)}, coarser: map[measure.ID][]difference{},
	}
	index := indexAnimals(animalsOf(second))
	matched := make([]bool, len(second.Carcasses)) // by Sequence
	var alone []*grading.Carcass
	for _, carcass := range first.Carcasses {
		other := index.find(carcass.Tag, carcass.Class, carcass.Species)
		switch {
		case other != nil && !matched[other.Sequence]:
			matched[other.Sequence] = true
			c.compare(carcass, other.Carcass)
		case other != nil || len(index.loose[sameTag(carcass.Tag)]) > 0:
			c.notCompared(carcass)
			for _, animal := range index.loose[sameTag(carcass.Tag)] {
				matched[animal.Sequence] = true
			}
		default:
			alone = append(alone, carcass)
		}
	}
	c.reportCoarser()
	c.reportOff()
	for _, difference := range c.differing {
		c.report(difference)
	}
	c.unmatched(alone, matched)
	c.ofSecond()
	c.coverage()
	return c.findings
}

// comparison gathers what differs.
type comparison struct {
	first, second *Result
	file          string                 // the second entry's name
	columns       [2]map[measure.ID]bool // the measures that each entry has for any carcass
	places        [2]map[placesKey]int32 // how many decimals each entry writes of a measure in a unit
	pairs         []pair                 // the carcasses that both entries have
	differing     []difference           // the cells in which they differ
	coarser       map[measure.ID][]difference
	findings      []validate.Finding
}

// pair is one carcass in both entries.
type pair struct{ first, second *grading.Carcass }

// difference is one measure of a carcass that the two entries give differently.
type difference struct {
	pair        int // its place among the pairs
	measure     measure.Definition
	here, there grading.Reading
}

func animalsOf(result *Result) []*animal {
	var animals []*animal
	for _, carcass := range result.Carcasses {
		animals = append(animals, &animal{Carcass: carcass})
	}
	return animals
}

func columnsOf(result *Result) map[measure.ID]bool {
	columns := map[measure.ID]bool{}
	for _, carcass := range result.Carcasses {
		for id := range carcass.Readings() {
			columns[id] = true
		}
	}
	return columns
}

// compare compares two entries of one carcass, measure by measure.
func (c *comparison) compare(carcass, other *grading.Carcass) {
	c.pairs = append(c.pairs, pair{carcass, other})
	written := map[measure.ID]bool{}
	for _, both := range []*grading.Carcass{carcass, other} {
		for id := range both.Readings() {
			written[id] = true
		}
	}
	for _, id := range slices.SortedFunc(maps.Keys(written), measure.ID.Compare) {
		definition, _ := measure.Define(id)
		if !comparable(definition) {
			continue
		}
		reading, inFirst := carcass.Written(id)
		second, inSecond := other.Written(id)
		switch {
		case !inFirst && !inSecond, inFirst && inSecond && reading.Unreadable && second.Unreadable: // nothing to hold beside it
		case !inSecond:
			if c.needed(definition, reading) && c.columns[1][id] {
				c.say(validate.Look, carcass, id, reading, "", fmt.Sprintf("%s is %s here and blank in the second entry.", id, phrase.Quote(reading.Written)))
			}
		case !inFirst:
			if c.needed(definition, second) && c.columns[0][id] {
				c.say(validate.Hold, carcass, id, grading.Reading{Place: carcass.Place}, hintOf(second),
					fmt.Sprintf("%s is blank here and %s in the second entry (%s). Write it in, or leave it out.", id, phrase.Quote(second.Written), second.Place))
			}
		case second.Unreadable || reading.Unreadable || !c.same(definition, reading, second):
			c.differing = append(c.differing, difference{len(c.pairs) - 1, definition, reading, second})
		case c.coarse(definition, reading, second):
			c.coarser[id] = append(c.coarser[id], difference{len(c.pairs) - 1, definition, reading, second})
		}
	}
}

// comparable reports whether two entries can differ in a measure: what joins them and what is worked out can't.
func comparable(definition measure.Definition) bool {
	return !definition.Computed && (!isTag(definition.ID) || definition.ID == measure.ElectronicTag) && definition.ID != measure.Remarks
}

// report says of one cell that the entries differ.
func (c *comparison) report(d difference) {
	carcass, id := c.pairs[d.pair].first, d.measure.ID
	if d.there.Unreadable {
		c.say(validate.Look, carcass, id, d.here, "", fmt.Sprintf("%s is %s here; the second entry (%s) can't be read: %s.",
			id, phrase.Quote(d.here.Written), d.there.Place, phrase.Quote(d.there.Written)))
		return
	}
	c.say(levelOfDifference(d.measure), carcass, id, d.here, hintOf(d.there),
		fmt.Sprintf("%s is %s here and %s in the second entry (%s). Look at the card: accept this one, or correct it to the other.",
			id, phrase.Quote(d.here.Written), phrase.Quote(d.there.Written), d.there.Place))
}

// needed reports whether a value that only one entry has says more than a blank does: no adjustment and no mark are as
// good as blank.
func (c *comparison) needed(definition measure.Definition, reading grading.Reading) bool {
	switch definition.Kind {
	case measure.KindText:
		return false
	case measure.KindMark, measure.KindLowering:
		return reading.Unreadable || reading.Value.Number.Sign() != 0
	}
	return definition.ID != measure.FatAdjustment || reading.Value.Number.Sign() != 0
}

// levelOfDifference holds what decides grades and classes; names and the like are worth a look.
func levelOfDifference(definition measure.Definition) validate.Level {
	switch definition.ID {
	case measure.ClassName:
		return validate.Hold
	case measure.Consent, measure.LivePlacing:
		return validate.Look
	}
	if definition.Kind == measure.KindText {
		return validate.Look
	}
	return validate.Hold
}

func hintOf(reading grading.Reading) string {
	if reading.Unreadable {
		return ""
	}
	return reading.Value.Text
}

func (c *comparison) say(level validate.Level, carcass *grading.Carcass, id measure.ID, reading grading.Reading, hint, message string) {
	if reading.Place != (rules.Place{}) {
		message = reading.Place.Begin(phrase.Uncapital(message))
	}
	c.findings = append(c.findings, validate.Finding{
		Level: level, Code: "second entry differs", At: reading.Place, Tag: carcass.Tag, Class: carcass.Class,
		Measure: id, Read: reading.Written, Message: message, Hint: hint, Carcass: carcass,
	})
}

// same reports whether two readings say the same.
func (c *comparison) same(definition measure.Definition, reading, second grading.Reading) bool {
	switch definition.Kind {
	case measure.KindText:
		return strings.Join(fold(reading.Value.Text), " ") == strings.Join(fold(second.Value.Text), " ")
	case measure.KindGrade, measure.KindMarbling, measure.KindMaturity:
		return reading.Value.Number.Equal(second.Value.Number) || c.coarse(definition, reading, second)
	case measure.KindNumber:
		return c.sameNumber(definition, reading, second)
	}
	return reading.Value.Number.Equal(second.Value.Number)
}

func (c *comparison) sameNumber(definition measure.Definition, reading, second grading.Reading) bool {
	if reading.Value.Number.Equal(second.Value.Number) {
		return true
	}
	unitOfOne, unitOfTwo := unitOfReading(definition, reading), unitOfReading(definition, second)
	if unitOfOne.unit == unitOfTwo.unit {
		return false
	}
	coarse := decimal.Max(
		halfPlace(unitOfOne, c.places[0][placesKey{definition.ID, unitOfOne.unit}]),
		halfPlace(unitOfTwo, c.places[1][placesKey{definition.ID, unitOfTwo.unit}]),
	)
	return reading.Value.Number.Sub(second.Value.Number).Abs().LessThanOrEqual(coarse)
}

// halfPlace is half of the last place that is written in a unit, in the base unit, with the rounding of the conversion.
func halfPlace(unit scale, places int32) decimal.Decimal {
	half := decimal.New(5, -places-1)
	return half.Mul(unit.over).DivRound(unit.under, 6).Add(decimal.New(1, -4))
}

// placesKey is a measure in a unit.
type placesKey struct {
	measure measure.ID
	unit    string
}

// placesOf finds how many decimals an entry writes of each measure: 0.4 among 0.35 and 0.55 is 0.40.
func placesOf(result *Result) map[placesKey]int32 {
	places := map[placesKey]int32{}
	for _, carcass := range result.Carcasses {
		for id, reading := range carcass.Readings() {
			definition, known := measure.Define(id)
			if !known || definition.Kind != measure.KindNumber || reading.Unreadable {
				continue
			}
			typed, problem := readNumber(reading.Written, false)
			if problem != "" || typed.fraction {
				continue
			}
			key := placesKey{id, unitOfReading(definition, reading).unit}
			places[key] = max(places[key], -typed.number.Exponent())
		}
	}
	return places
}

// unitOfReading gives the unit in which a reading was written.
func unitOfReading(definition measure.Definition, reading grading.Reading) scale {
	if typed, problem := readNumber(reading.Written, false); problem == "" && typed.hasUnit {
		return typed.unit
	}
	for _, unit := range scales {
		if unit.base == definition.Unit && !unit.own() && reading.Factor == unit.factor() {
			return unit
		}
	}
	return newScale(definition.Unit, definition.Unit, "1", "1")
}

// notCompared says that a tag stands more than once in an entry.
func (c *comparison) notCompared(carcass *grading.Carcass) {
	c.say(validate.Look, carcass, measure.Tag, grading.Reading{Place: carcass.Place, Written: carcass.Tag}, "",
		fmt.Sprintf("Tag %s is not once in each entry, so this carcass was not compared with the second entry. Settle the tags first.", carcass.Tag))
}

// unmatched deals with carcasses that only one entry has: a tag typed differently is known by equal measures, the others
// are listed once.
func (c *comparison) unmatched(alone []*grading.Carcass, matched []bool) {
	var only, missing []string
	for _, carcass := range alone {
		twin := c.twin(carcass, matched)
		if twin == nil {
			missing = append(missing, orNoTag(carcass.Tag))
			continue
		}
		matched[twin.Sequence] = true
		reading := grading.Reading{Place: carcass.Place, Written: carcass.Tag}
		c.say(validate.Hold, carcass, measure.Tag, reading, twin.Tag,
			fmt.Sprintf("the tag is %s here and %s in the second entry (%s), which has the same measures. Look at the card: accept this one, or correct it to the other.", phrase.Quote(carcass.Tag), phrase.Quote(twin.Tag), twin.Place))
	}
	for _, carcass := range c.second.Carcasses {
		if !matched[carcass.Sequence] {
			only = append(only, orNoTag(carcass.Tag))
		}
	}
	c.list(missing, "in this workbook but not in the second entry, so nothing of them was compared", "Enter them there and compare again, or accept as is")
	c.list(only, "in the second entry but not in this workbook", "Enter them here and grade again, or accept as is")
}

func orNoTag(tag string) string {
	if tag == "" {
		return "(no tag)"
	}
	return tag
}

func (c *comparison) list(tags []string, words, advice string) {
	if len(tags) == 0 {
		return
	}
	c.findings = append(c.findings, validate.Finding{
		Level: validate.Look, Code: "second entry incomplete", Measure: measure.Tag,
		Message: phrase.Plural(len(tags), "carcass is", "carcasses are") + " " + words + ": " + strings.Join(tags, ", ") + ". " + advice + ".",
	})
}

// twin gives the one unmatched carcass of the second entry that has the same measures.
func (c *comparison) twin(carcass *grading.Carcass, matched []bool) *grading.Carcass {
	var twins []*grading.Carcass
	for _, other := range c.second.Carcasses {
		if !matched[other.Sequence] && other.Species == carcass.Species && c.sameMeasures(carcass, other) {
			twins = append(twins, other)
		}
	}
	if len(twins) != 1 {
		return nil
	}
	return twins[0]
}

// enoughAlike is how many measures two entries must have in common to be taken for one carcass.
const enoughAlike = 3

func (c *comparison) sameMeasures(carcass, other *grading.Carcass) bool {
	alike := 0
	for id, reading := range carcass.Readings() {
		definition, _ := measure.Define(id)
		second, has := other.Written(id)
		if !has || definition.Kind == measure.KindText || definition.Kind == measure.KindMark || reading.Unreadable || second.Unreadable {
			continue
		}
		if !c.same(definition, reading, second) {
			return false
		}
		alike++
	}
	return alike >= enoughAlike
}
