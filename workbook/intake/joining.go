package intake

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
)

// rememberSpecies keeps which species the tags on rosters are, for carcass sheets that do not say.
func (r *reader) rememberSpecies(lists []*tableReader) {
	for _, tr := range lists {
		for _, animal := range tr.animals {
			if animal.Species == "" || tr.kind == historyTable {
				continue
			}
			key := sameTag(animal.Tag)
			if known, twice := r.listed[key]; twice && known != animal.Species {
				r.listed[key] = ""
				continue
			}
			r.listed[key] = animal.Species
		}
	}
}

// joinSheets deals with two sheets of the same carcasses: where they measure different things they are one, otherwise
// the first is read and the other is a question.
func (r *reader) joinSheets(tables []*tableReader) []*tableReader {
	var kept []*tableReader
	for _, tr := range tables {
		earlier := r.sameCarcasses(kept, tr)
		other := r.sameTags(kept, tr)
		switch {
		case earlier == nil && other != nil:
			r.passOver(tr, other, "This sheet has the tags of sheet %s with other measures, as last year's sheet would. That one was read; this one was passed over. Delete the sheet that does not count; last year's results can be set beside this year's with --last-year.")
		case earlier == nil:
			kept = append(kept, tr)
		case complementary(earlier, tr):
			r.complete(earlier, tr)
			if len(tr.animals) > 0 {
				kept = append(kept, tr)
			}
		default:
			r.passOver(tr, earlier, "This sheet has the same carcasses as sheet %s, which was read; this one was passed over. Delete the one that does not count, or keep it in a file of its own and compare the two with --second.")
		}
	}
	return kept
}

// passOver leaves a whole sheet unread for another and asks about it.
func (r *reader) passOver(tr, read *tableReader, words string) {
	r.find(validate.Finding{
		Level: validate.Hold, Code: "two sheets of the same carcasses", At: tr.sheetPlace(),
		Message: fmt.Sprintf(words, phrase.Quote(read.table.page.sheet)),
	})
	r.result.Passed = append(r.result.Passed, PassedOver{
		At: tr.sheetPlace(), Written: tr.table.page.sheet, Why: "holds the same carcasses as sheet " + read.table.page.sheet,
	})
	r.dropFindings(tr)
}

// sameTags gives the table already read that has nearly all tags of this one in the same classes, though other measures.
func (r *reader) sameTags(kept []*tableReader, tr *tableReader) *tableReader {
	for _, earlier := range kept {
		if earlier.table.page.sheet == tr.table.page.sheet && earlier.table.page.file == tr.table.page.file || earlier.basis != tr.basis {
			continue
		}
		tags := map[string]bool{}
		for _, animal := range earlier.animals {
			tags[string(animal.Species)+"\t"+sameTag(animal.Tag)] = animal.Tag != ""
		}
		shared := 0
		for _, animal := range tr.animals {
			if tags[string(animal.Species)+"\t"+sameTag(animal.Tag)] {
				shared++
			}
		}
		if shared >= fewestSameTags && shared*5 >= min(len(tr.animals), len(earlier.animals))*4 && !r.differentClasses(earlier, tr) {
			return earlier
		}
	}
	return nil
}

// fewestSameTags is how many equal tags are no slip of the pen.
const fewestSameTags = 3

var yearWord = phrase.NewPattern(`\b(?:19|20)\d\d\b`)

// yearIn gives the year in a sheet's name; empty where there is none.
func yearIn(name string) string { return yearWord.FindString(name) }

// sameCarcasses gives the table already read that has at least half of this one's tags.
func (r *reader) sameCarcasses(kept []*tableReader, tr *tableReader) *tableReader {
	for _, earlier := range kept {
		if earlier.table.page.sheet == tr.table.page.sheet && earlier.table.page.file == tr.table.page.file {
			continue
		}
		tags := map[string]*animal{}
		for _, animal := range earlier.animals {
			if animal.Tag != "" {
				tags[string(animal.Species)+"\t"+sameTag(animal.Tag)] = animal
			}
		}
		shared, alike, unlike := 0, 0, 0
		for _, animal := range tr.animals {
			other := tags[string(animal.Species)+"\t"+sameTag(animal.Tag)]
			if other == nil {
				continue
			}
			shared++
			switch sameAnimal(animal.Carcass, other.Carcass) {
			case 1:
				alike++
			case -1:
				unlike++
			}
		}
		if shared < 2 || shared*2 < min(len(tr.animals), len(earlier.animals)) || unlike*2 > shared {
			continue
		}
		if alike*2 >= shared || !r.differentClasses(earlier, tr) {
			return earlier
		}
	}
	return nil
}

// sameAnimal judges by their weights, or else by most of their numbers, whether two lines of one tag are one animal:
// 1 if they are, -1 if not, 0 where they have no number in common.
func sameAnimal(a, b *grading.Carcass) int {
	for _, weight := range []measure.ID{measure.HotCarcassWeight, measure.ChilledCarcassWeight, measure.LiveWeight} {
		first, has := a.Reading(weight)
		second, too := b.Reading(weight)
		if has && too {
			return balance(first.Value.Number.Equal(second.Value.Number))
		}
	}
	sum := 0
	for id, reading := range a.Readings() {
		definition, _ := measure.Define(id)
		if second, has := b.Written(id); has && definition.Kind == measure.KindNumber {
			sum += balance(reading.Value.Number.Equal(second.Value.Number))
		}
	}
	return cmp.Compare(sum, 0)
}

func balance(equal bool) int {
	if equal {
		return 1
	}
	return -1
}

// differentClasses reports whether two tables name different classes, so that equal tags are different animals.
func (r *reader) differentClasses(a, b *tableReader) bool {
	classes := func(tr *tableReader) map[string]bool {
		found := map[string]bool{}
		for _, animal := range tr.animals {
			class := animal.Class
			if class == "" && r.classLike(tr.class) {
				class = tr.class
			}
			found[strings.Join(fold(yearWord.ReplaceAllString(class, "")), " ")] = true
		}
		return found
	}
	ones := classes(a)
	for class := range classes(b) {
		if class == "" || ones[class] || ones[""] {
			return false
		}
	}
	return true
}

// complementary reports whether two tables measure different things.
func complementary(a, b *tableReader) bool {
	for _, column := range b.table.columns {
		for _, candidate := range column.meaning.candidates {
			definition, _ := measure.Define(candidate.Measure)
			if definition.Kind != measure.KindText && a.hasColumn(candidate.Measure) {
				return false
			}
		}
	}
	return true
}

// complete adds to the carcasses of one table what another table of the same carcasses says of them. Those that only
// the other has stay its own.
func (r *reader) complete(kept, tr *tableReader) {
	index := indexAnimals(kept.animals)
	joined := 0
	var own []*animal
	for _, animal := range tr.animals {
		other := index.find(animal.Tag, "", animal.Species)
		if other == nil {
			own = append(own, animal)
			continue
		}
		other.claims = append(other.claims, claim{entry: animal})
		joined++
	}
	for _, animal := range kept.animals {
		r.settleClaims(animal, animal.claims)
		animal.claims = nil
	}
	tr.animals, tr.class, tr.classWhy, tr.completes = own, kept.class, kept.classWhy, true
	r.find(validate.Finding{
		Level: validate.Note, Code: "sheets joined", At: tr.sheetPlace(),
		Message: fmt.Sprintf("%s of this sheet were joined by tag to those of sheet %s, which measures other things.", phrase.Plural(joined, "carcass", "carcasses"), phrase.Quote(kept.table.page.sheet)),
	})
}

// adopt gives a carcass the readings it lacks.
func adopt(carcass, from *grading.Carcass) {
	for id, reading := range from.Readings() {
		if id == measure.ClassName && carcass.Class != "" {
			continue // the class of a title line stands
		}
		if _, has := carcass.Written(id); !has {
			carcass.SetReading(id, reading)
		}
	}
	if carcass.Class == "" {
		carcass.Class = from.Class
	}
	if carcass.Species == "" {
		carcass.Species = from.Species
	}
}

// moveFindings makes the findings about one carcass those of another.
func (r *reader) moveFindings(from, to *grading.Carcass) {
	for i := range r.result.Findings {
		if r.result.Findings[i].Carcass == from {
			r.result.Findings[i].Carcass = to
		}
	}
	for i := range r.raised {
		if r.raised[i].Carcass == from {
			r.raised[i].Carcass = to
		}
	}
}

// dropFindings forgets what was found about carcasses that are not read after all.
func (r *reader) dropFindings(tr *tableReader) {
	gone := map[int]bool{} // by Sequence
	for _, animal := range tr.animals {
		gone[animal.Sequence] = true
	}
	about := func(finding validate.Finding) bool { return finding.Carcass != nil && gone[finding.Carcass.Sequence] }
	r.result.Findings = slices.DeleteFunc(r.result.Findings, about)
	r.raised = slices.DeleteFunc(r.raised, func(doubt raised) bool { return about(doubt.Finding) })
}

// animalIndex finds animals by tag: as written first, then without what people leave out or add.
type animalIndex struct {
	exact, loose map[string][]*animal
}

func indexAnimals(animals []*animal) animalIndex {
	index := animalIndex{map[string][]*animal{}, map[string][]*animal{}}
	for _, animal := range animals {
		for _, tag := range tagsOf(animal.Carcass) {
			index.exact[tag] = append(index.exact[tag], animal)
			key := sameTag(tag)
			index.loose[key] = append(index.loose[key], animal)
		}
	}
	return index
}

// tagsOf gives the tags by which an animal may be known: its tag and its electronic one.
func tagsOf(carcass *grading.Carcass) []string {
	var tags []string
	if carcass.Tag != "" {
		tags = append(tags, carcass.Tag)
	}
	if reading, ok := carcass.Reading(measure.ElectronicTag); ok && reading.Value.Text != carcass.Tag {
		tags = append(tags, reading.Value.Text)
	}
	return tags
}

// find gives the one animal of this tag; of several it takes the one of the same class or species, and none where that
// does not decide.
func (index animalIndex) find(tag, class string, species rules.Species) *animal {
	if tag == "" {
		return nil
	}
	for _, candidates := range [][]*animal{index.exact[tag], index.loose[sameTag(tag)]} {
		var fitting []*animal
		for _, animal := range candidates {
			if species == "" || animal.Species == "" || animal.Species == species {
				fitting = append(fitting, animal)
			}
		}
		if len(fitting) == 1 {
			return fitting[0]
		}
		var same []*animal
		for _, animal := range fitting {
			if class != "" && strings.EqualFold(animal.Class, class) {
				same = append(same, animal)
			}
		}
		if len(same) == 1 {
			return same[0]
		}
	}
	return nil
}
