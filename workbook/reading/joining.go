package reading

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/validate"
)

// rememberSpecies keeps which species the tags on rosters are, for carcass sheets that do not say.
func (r *reader) rememberSpecies(lists []*tableReader) {
	for _, tr := range lists {
		for _, one := range tr.animals {
			if one.Species == "" || tr.kind == historyTable {
				continue
			}
			key := sameTag(one.Tag)
			if known, twice := r.listed[key]; twice && known != one.Species {
				r.listed[key] = ""
				continue
			}
			r.listed[key] = one.Species
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
			if yearIn(tr.table.page.sheet) > yearIn(other.table.page.sheet) && yearIn(other.table.page.sheet) != "" {
				kept[slices.Index(kept, other)] = tr
				tr, other = other, tr
			}
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
		Message: fmt.Sprintf(words, quote(read.table.page.sheet)),
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
		for _, one := range earlier.animals {
			tags[string(one.Species)+"\t"+sameTag(one.Tag)] = one.Tag != ""
		}
		shared := 0
		for _, one := range tr.animals {
			if tags[string(one.Species)+"\t"+sameTag(one.Tag)] {
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

var yearWord = regexp.MustCompile(`\b(?:19|20)\d\d\b`)

// yearIn gives the year in a sheet's name; empty where there is none.
func yearIn(name string) string { return yearWord.FindString(name) }

// sameCarcasses gives the table already read that has at least half of this one's tags.
func (r *reader) sameCarcasses(kept []*tableReader, tr *tableReader) *tableReader {
	for _, earlier := range kept {
		if earlier.table.page.sheet == tr.table.page.sheet && earlier.table.page.file == tr.table.page.file {
			continue
		}
		tags := map[string]*animal{}
		for _, one := range earlier.animals {
			if one.Tag != "" {
				tags[string(one.Species)+"\t"+sameTag(one.Tag)] = one
			}
		}
		shared, alike, unlike := 0, 0, 0
		for _, one := range tr.animals {
			other := tags[string(one.Species)+"\t"+sameTag(one.Tag)]
			if other == nil {
				continue
			}
			shared++
			switch sameAnimal(one.Carcass, other.Carcass) {
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
func sameAnimal(one, other *grading.Carcass) int {
	for _, weight := range []rules.Measure{rules.HotCarcassWeight, rules.ChilledCarcassWeight, rules.LiveWeight} {
		first, has := one.Reading(weight)
		second, too := other.Reading(weight)
		if has && too {
			return balance(first.Value.Number.Equal(second.Value.Number))
		}
	}
	sum := 0
	for measure, reading := range one.Readings {
		definition, _ := rules.Define(measure)
		if second, has := other.Readings[measure]; has && definition.Kind == rules.KindNumber {
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
func (r *reader) differentClasses(one, other *tableReader) bool {
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
	ones := classes(one)
	for class := range classes(other) {
		if class == "" || ones[class] || ones[""] {
			return false
		}
	}
	return true
}

// complementary reports whether two tables measure different things.
func complementary(one, other *tableReader) bool {
	for _, column := range other.table.columns {
		for _, candidate := range column.meaning.candidates {
			definition, _ := rules.Define(candidate.Measure)
			if definition.Kind != rules.KindText && one.hasColumn(candidate.Measure) {
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
	for _, one := range tr.animals {
		other := index.find(one.Tag, "", one.Species)
		if other == nil {
			own = append(own, one)
			continue
		}
		adopt(other.Carcass, one.Carcass)
		r.moveFindings(one.Carcass, other.Carcass)
		joined++
	}
	tr.animals, tr.class, tr.classWhy = own, kept.class, kept.classWhy
	r.find(validate.Finding{
		Level: validate.Note, Code: "sheets joined", At: tr.sheetPlace(),
		Message: fmt.Sprintf("%s of this sheet were joined by tag to those of sheet %s, which measures other things.", count(joined, "carcass", "carcasses"), quote(kept.table.page.sheet)),
	})
}

// adopt gives a carcass the readings it lacks.
func adopt(carcass, from *grading.Carcass) {
	for measure, reading := range from.Readings {
		if measure == rules.ClassName && carcass.Class != "" {
			continue // the class of a title line stands
		}
		if _, has := carcass.Readings[measure]; !has {
			carcass.Readings[measure] = reading
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
	for i := range r.remarks {
		if r.remarks[i].Carcass == from {
			r.remarks[i].Carcass = to
		}
	}
}

// dropFindings forgets what was found about carcasses that are not read after all.
func (r *reader) dropFindings(tr *tableReader) {
	gone := map[*grading.Carcass]bool{}
	for _, one := range tr.animals {
		gone[one.Carcass] = true
	}
	about := func(finding validate.Finding) bool { return finding.Carcass != nil && gone[finding.Carcass] }
	r.result.Findings = slices.DeleteFunc(r.result.Findings, about)
	r.remarks = slices.DeleteFunc(r.remarks, about)
}

// animalIndex finds animals by tag: as written first, then without what people leave out or add.
type animalIndex struct {
	exact, loose map[string][]*animal
}

func indexAnimals(animals []*animal) animalIndex {
	index := animalIndex{map[string][]*animal{}, map[string][]*animal{}}
	for _, one := range animals {
		for _, tag := range tagsOf(one.Carcass) {
			index.exact[tag] = append(index.exact[tag], one)
			key := sameTag(tag)
			index.loose[key] = append(index.loose[key], one)
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
	if reading, ok := carcass.Reading(rules.ElectronicTag); ok && reading.Value.Text != carcass.Tag {
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
		for _, one := range candidates {
			if species == "" || one.Species == "" || one.Species == species {
				fitting = append(fitting, one)
			}
		}
		if len(fitting) == 1 {
			return fitting[0]
		}
		var same []*animal
		for _, one := range fitting {
			if class != "" && strings.EqualFold(one.Class, class) {
				same = append(same, one)
			}
		}
		if len(same) == 1 {
			return same[0]
		}
	}
	return nil
}

// join brings tag histories and rosters to the carcasses.
func (r *reader) join(lists, tables []*tableReader) {
	if len(lists) == 0 {
		return
	}
	var carcasses []*animal
	for _, tr := range tables {
		carcasses = append(carcasses, tr.animals...)
	}
	r.followHistory(lists, carcasses)
	index := indexAnimals(carcasses)
	entries := map[string]bool{}
	for _, tr := range lists {
		if tr.kind == listTable {
			r.joinList(tr, index, entries)
		}
	}
	for _, tr := range tables {
		r.speciesOfEntries(tr)
	}
}

// followHistory gives carcasses that carry an old tag the tag that took its place.
func (r *reader) followHistory(lists []*tableReader, carcasses []*animal) {
	current := map[string]bool{}
	for _, tr := range lists {
		if tr.kind == listTable {
			for _, one := range tr.animals {
				current[one.Tag] = true
			}
		}
	}
	onRail := map[string]bool{}
	for _, one := range carcasses {
		onRail[one.Tag] = true
	}
	for _, tr := range lists {
		if tr.kind != historyTable {
			continue
		}
		for _, line := range tr.animals {
			old, ok := line.Reading(rules.OldTag)
			if !ok || line.Tag == "" {
				continue
			}
			r.replaceTag(lists, carcasses, old.Value.Text, line.Tag, old.Place, current, onRail)
		}
	}
}

// replaceTag follows one line of a tag history: a carcass with the old tag gets the new one, and an entry made under the
// old tag is looked for under the new.
func (r *reader) replaceTag(lists []*tableReader, carcasses []*animal, old, current string, at rules.Place, entered, onRail map[string]bool) {
	changed := false
	for _, one := range carcasses {
		if sameTag(one.Tag) == sameTag(old) && !onRail[current] {
			one.Tag, changed = current, true
		}
	}
	for _, tr := range lists {
		if tr.kind != listTable {
			continue
		}
		for _, one := range tr.animals {
			if sameTag(one.Tag) == sameTag(old) && !entered[current] {
				one.Tag, changed = current, true
			}
		}
	}
	if changed {
		r.find(validate.Finding{
			Level: validate.Note, Code: "tag replaced", At: at, Tag: current, Measure: rules.Tag, Read: old,
			Message: fmt.Sprintf("By the tag history, tag %s is now %s; its entry and carcass were joined as %s.", old, current, current),
		})
	}
}

// joinList joins one roster to the carcasses.
func (r *reader) joinList(tr *tableReader, index animalIndex, entries map[string]bool) {
	loose := 0
	example := ""
	for _, one := range tr.animals {
		var carcass *animal
		for _, tag := range tagsOf(one.Carcass) {
			if carcass = index.find(tag, one.Class, one.Species); carcass != nil {
				break
			}
		}
		entry := validate.Entry{Tag: one.Tag, Class: one.Class, Exhibitor: one.Readings[rules.Exhibitor].Value.Text, Place: one.Place}
		if carcass == nil {
			r.softenFindings(one.Carcass)
		} else {
			if one.Tag != carcass.Tag && sameTag(one.Tag) == sameTag(carcass.Tag) {
				if loose++; loose == 1 {
					example = fmt.Sprintf("%s here, %s on the rail", one.Tag, carcass.Tag)
				}
			}
			r.joinEntry(one, carcass)
			entry.Tag = carcass.Tag
		}
		if key := entry.Tag + "\t" + strings.ToLower(entry.Class); entry.Tag != "" && !entries[key] {
			entries[key] = true
			r.result.Entries = append(r.result.Entries, entry)
		}
	}
	if loose > 0 {
		r.find(validate.Finding{
			Level: validate.Note, Code: "tags joined", At: tr.sheetPlace(), Measure: rules.Tag,
			Message: count(loose, "entry was", "entries were") + " joined to a carcass whose tag is written otherwise (" + example + ").",
		})
	}
}

// joinEntry gives a carcass what the roster knows of it. Where the two name different classes the sheet's stands, and
// the judge is told.
func (r *reader) joinEntry(entry, carcass *animal) {
	if entry.Class != "" && carcass.Class != "" && strings.Join(fold(entry.Class), " ") != strings.Join(fold(carcass.Class), " ") {
		r.find(validate.Finding{
			Level: validate.Look, Code: "class differs from the roster", At: carcass.Place, Measure: rules.ClassName, Read: carcass.Class,
			Message: fmt.Sprintf("This carcass stands in class %s, but its entry (%s) says %s. It was left where the carcass sheet has it.", quote(carcass.Class), entry.Place, quote(entry.Class)),
			Hint:    entry.Class, Carcass: carcass.Carcass,
		})
	}
	if reading, ok := entry.Reading(rules.ElectronicTag); ok && reading.Value.Text == carcass.Tag && entry.Tag != carcass.Tag && entry.Tag != "" {
		carcass.Tag = entry.Tag // the electronic tag only led here; the fair knows the animal by its tag
		carcass.Readings[rules.Tag] = entry.Readings[rules.Tag]
	}
	adopt(carcass.Carcass, entry.Carcass)
	r.moveFindings(entry.Carcass, carcass.Carcass)
}

// softenFindings keeps what is wrong with an entry that has no carcass from holding anything.
func (r *reader) softenFindings(entry *grading.Carcass) {
	for i := range r.result.Findings {
		finding := &r.result.Findings[i]
		if finding.Carcass != entry {
			continue
		}
		finding.Carcass, finding.Tag, finding.Class = nil, entry.Tag, entry.Class
		if finding.Level == validate.Hold {
			finding.Level = validate.Look
		}
	}
	r.remarks = slices.DeleteFunc(r.remarks, func(finding validate.Finding) bool { return finding.Carcass == entry })
}

// speciesOfEntries gives carcasses without a species that of the class they were entered in.
func (r *reader) speciesOfEntries(tr *tableReader) {
	for _, one := range tr.animals {
		if one.Species == "" {
			one.Species = r.species.in(one.Class)
		}
	}
}
