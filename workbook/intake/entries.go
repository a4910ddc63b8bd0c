package intake

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/names"
)

// claim is a line of a roster that may belong to a carcass.
type claim struct {
	entry  *animal
	shared bool // the line fits another carcass as well
}

func (c claim) exhibitor() string { return nameOf(c.entry.Carcass) }

func nameOf(carcass *grading.Carcass) string {
	reading, _ := carcass.Reading(measure.Exhibitor)
	return reading.Value.Text
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
	carcasses = r.followRailNumbers(lists, carcasses)
	r.followHistory(lists, carcasses)
	index, lines := indexAnimals(carcasses), linesByTag(lists)
	entries := map[string]bool{}
	for _, tr := range lists {
		if tr.kind == listTable {
			r.claimFor(tr, index, entries)
		}
	}
	for _, animal := range carcasses {
		r.settleClaims(animal, lines.known(animal, animal.claims))
	}
	for _, tr := range tables {
		r.speciesOfEntries(tr)
	}
}

// linesByTag counts the lines of all rosters by their tags, as written and in the form in which tags are compared.
func linesByTag(lists []*tableReader) lineCounts {
	counts := lineCounts{map[string]int{}, map[string]int{}}
	for _, tr := range lists {
		if tr.kind == listTable {
			for _, animal := range tr.animals {
				counts.exact[animal.Tag]++
				counts.loose[sameTag(animal.Tag)]++
			}
		}
	}
	return counts
}

type lineCounts struct{ exact, loose map[string]int }

// known takes out the lines without a name that nothing ties to this carcass, where the same tag stands on lines of other
// animals too: what they say may be said of those. Only a refusal of consent stays.
func (c lineCounts) known(carcass *animal, claims []claim) []claim {
	var kept []claim
	for _, claim := range claims {
		all := c.loose[sameTag(claim.entry.Tag)]
		if claim.entry.Tag == carcass.Tag {
			all = c.exact[claim.entry.Tag]
		}
		if claim.exhibitor() != "" || !claim.shared && (all <= len(claims) || claim.namesKind(carcass)) {
			kept = append(kept, claim)
		} else if refuses(claim.entry.Carcass) {
			carcass.SetReading(measure.Consent, noConsent(claim.entry.ReadingOf(measure.Consent)))
		}
	}
	return kept
}

// namesKind reports whether a line says the species or the class of the carcass.
func (c claim) namesKind(carcass *animal) bool {
	return c.entry.Species != "" && c.entry.Species == carcass.Species || c.entry.saysClass(carcass.classNow())
}

// classNow is the class of an animal, or of its table where it names none itself.
func (a *animal) classNow() string {
	if a.Class == "" {
		return a.heading.class
	}
	return a.Class
}

// saysClass reports whether a line names a class, under its own heading or under one that is not known.
func (a *animal) saysClass(class string) bool {
	return class != "" && (sameWords(a.Class, class) || slices.ContainsFunc(a.heading.unknownWords(a.line), func(text string) bool { return sameWords(text, class) }))
}

func sameWords(a, b string) bool {
	return strings.Join(fold(a), " ") == strings.Join(fold(b), " ")
}

// unknownWords gives what stands in words under the headings of a line that are no measure's.
func (tr *tableReader) unknownWords(number int) (texts []string) {
	lines := tr.table.page.lines
	at, found := slices.BinarySearchFunc(lines, number, func(row line, wanted int) int { return row.number - wanted })
	if !found {
		return nil
	}
	for _, column := range tr.table.columns {
		if cell := lines[at].at(column.number); len(column.meaning.candidates) == 0 && !nothing(cell) {
			texts = append(texts, clean(cell.Raw))
		}
	}
	return texts
}

// claimFor finds the carcasses that each line of a roster may belong to, and remembers its entries.
func (r *reader) claimFor(tr *tableReader, index animalIndex, entries map[string]bool) {
	loose := 0
	example := ""
	for _, animal := range tr.animals {
		fitting, shared := index.fitting(animal)
		entry := validate.Entry{
			Tag: animal.Tag, Class: animal.Class, Exhibitor: nameOf(animal.Carcass), Place: animal.Place, Refused: refuses(animal.Carcass),
		}
		for _, carcass := range fitting {
			carcass.claims = append(carcass.claims, claim{animal, shared})
		}
		if len(fitting) == 0 {
			r.softenFindings(animal.Carcass)
		} else {
			if carcass := fitting[0]; animal.Tag != carcass.Tag && sameTag(animal.Tag) == sameTag(carcass.Tag) {
				if loose++; loose == 1 {
					example = fmt.Sprintf("%s here, %s on the rail", animal.Tag, carcass.Tag)
				}
			}
			if !leads(animal, fitting[0]) {
				entry.Tag = fitting[0].Tag
			}
		}
		key := strings.Join([]string{entry.Tag, strings.ToLower(entry.Class), names.Key(entry.Exhibitor), fmt.Sprint(entry.Refused)}, "\t")
		if entry.Tag != "" && !entries[key] {
			entries[key] = true
			r.result.Entries = append(r.result.Entries, entry)
		}
	}
	if loose > 0 {
		r.find(validate.Finding{
			Level: validate.Note, Code: "tags joined", At: tr.sheetPlace(), Measure: measure.Tag,
			Message: phrase.Plural(loose, "entry was", "entries were") + " joined to a carcass whose tag is written otherwise (" + example + ").",
		})
	}
}

// leads reports whether an entry found its carcass by the electronic tag alone, which stands as the tag on the rail.
func leads(entry, carcass *animal) bool {
	reading, ok := entry.Reading(measure.ElectronicTag)
	return ok && reading.Value.Text == carcass.Tag && entry.Tag != carcass.Tag && entry.Tag != ""
}

// fitting gives the carcasses a line may belong to: those of its tags that its species does not rule out. Of several, the
// class or the exhibitor on the rail tells which; shared says that nothing does. A scan and a carcass of one animal are
// not two.
func (index animalIndex) fitting(entry *animal) (fitting []*animal, shared bool) {
	for _, tag := range tagsOf(entry.Carcass) {
		candidates := index.exact[tag]
		if len(candidates) == 0 {
			candidates = index.loose[sameTag(tag)]
		}
		for _, animal := range candidates {
			contrary := entry.Species != "" && animal.Species != "" && animal.Species != entry.Species
			if !contrary && !slices.Contains(fitting, animal) {
				fitting = append(fitting, animal)
			}
		}
	}
	tells := []func(*animal) bool{
		func(entered *animal) bool { return entry.saysClass(entered.classNow()) },
		func(entered *animal) bool {
			return nameOf(entered.Carcass) != "" && names.Same(nameOf(entered.Carcass), nameOf(entry.Carcass))
		},
	}
	for _, tell := range tells {
		if !severalAlike(fitting) {
			break
		}
		signals := slices.DeleteFunc(slices.Clone(fitting), func(entered *animal) bool { return !tell(entered) })
		if len(signals) > 0 && !severalAlike(signals) {
			fitting = signals
		}
	}
	return fitting, severalAlike(fitting)
}

// severalAlike reports whether some of the animals were measured in the same way, so that they are different ones.
func severalAlike(animals []*animal) bool {
	seen := map[rules.Basis]bool{}
	for _, animal := range animals {
		if seen[animal.Basis] {
			return true
		}
		seen[animal.Basis] = true
	}
	return false
}

// settleClaims gives a carcass what the lines of its tag say, where they are one animal's. Where they name different
// children, the carcass keeps its tag and nobody's name.
func (r *reader) settleClaims(carcass *animal, claims []claim) {
	claims = r.bySpeciesAndClass(carcass, claims)
	if len(claims) == 0 {
		return
	}
	own := nameOf(carcass.Carcass)
	if own != "" && own != ToBeSettled {
		named := slices.DeleteFunc(slices.Clone(claims), func(claimed claim) bool { return !names.Same(claimed.exhibitor(), own) })
		if len(named) > 0 {
			claims = slices.DeleteFunc(claims, func(claimed claim) bool {
				other := claimed.exhibitor() != "" && !names.Same(claimed.exhibitor(), own)
				if other {
					r.softenFindings(claimed.entry.Carcass)
				}
				return other
			})
		}
	}
	if doubtful(own, claims) {
		r.doubt(carcass, claims)
		return
	}
	for len(claims) > 0 {
		list := claims[0].entry.heading
		fromList := func(claimed claim) bool { return claimed.entry.heading == list }
		r.joinEntries(carcass, slices.DeleteFunc(slices.Clone(claims), func(claimed claim) bool { return !fromList(claimed) }))
		claims = slices.DeleteFunc(claims, fromList)
	}
}

// joinEntries gives a carcass what the lines of one list say of it: of several, what they agree on.
func (r *reader) joinEntries(carcass *animal, claims []claim) {
	for _, claim := range claims {
		if refuses(claim.entry.Carcass) {
			carcass.SetReading(measure.Consent, noConsent(claim.entry.ReadingOf(measure.Consent)))
		}
	}
	if len(claims) == 1 {
		r.joinEntry(claims[0].entry, carcass)
		return
	}
	adopt(carcass.Carcass, agreed(claims))
	for _, claim := range claims {
		r.moveFindings(claim.entry.Carcass, carcass.Carcass)
	}
}

// bySpeciesAndClass leaves out the lines of another class where one of the lines has the carcass's own.
func (r *reader) bySpeciesAndClass(carcass *animal, claims []claim) []claim {
	class := carcass.classNow()
	if !slices.ContainsFunc(claims, func(claimed claim) bool { return claimed.entry.saysClass(class) }) {
		return claims
	}
	var kept []claim
	for _, claim := range claims {
		if claim.entry.Class != "" && !claim.entry.saysClass(class) {
			r.softenFindings(claim.entry.Carcass)
			continue
		}
		kept = append(kept, claim)
	}
	return kept
}

// doubtful reports whether lines, and the carcass's own, name different children, or whether a line with a name may as
// well be another carcass's.
func doubtful(own string, claims []claim) bool {
	if own == ToBeSettled {
		return true
	}
	named := []string{}
	if own != "" {
		named = append(named, own)
	}
	for _, claim := range claims {
		name := claim.exhibitor()
		if name == "" {
			continue
		}
		if claim.shared && own == "" || slices.ContainsFunc(named, func(other string) bool { return !names.Same(name, other) }) {
			return true
		}
		named = append(named, name)
	}
	return false
}

// agreed gives what several lines say alike. Of what some of them leave blank the others may speak, but consent is only
// what every one of them gives.
func agreed(claims []claim) *grading.Carcass {
	first := claims[0].entry
	all := &grading.Carcass{Class: first.Class, Species: first.Species}
	for _, claim := range claims {
		for id, reading := range claim.entry.Readings() {
			if _, known := all.Written(id); !known && sayAlike(id, reading, claims) {
				all.SetReading(id, reading)
			}
		}
		if !sameWords(claim.entry.Class, all.Class) {
			all.Class = ""
			all.ClearReading(measure.ClassName)
		}
		if claim.entry.Species != all.Species {
			all.Species = ""
		}
	}
	return all
}

func sayAlike(id measure.ID, reading grading.Reading, claims []claim) bool {
	definition, _ := measure.Define(id)
	return !slices.ContainsFunc(claims, func(claimed claim) bool {
		other, has := claimed.entry.Written(id)
		switch {
		case !has:
			return id == measure.Consent
		case id == measure.Exhibitor:
			return !names.Same(other.Value.Text, reading.Value.Text)
		}
		return other.Unreadable != reading.Unreadable || !sameValue(definition.Kind, other.Value, reading.Value)
	})
}

// refuses reports whether consent was answered with anything but a yes.
func refuses(carcass *grading.Carcass) bool {
	reading, answered := carcass.Written(measure.Consent)
	return answered && (reading.Unreadable || !reading.Value.Number.IsPositive())
}

// noConsent is the answer no, at the place of another.
func noConsent(reading grading.Reading) grading.Reading {
	reading.Value, reading.Unreadable, reading.Plain = markValue(false), false, false
	return reading
}

// joinEntry gives a carcass what the roster knows of it. Where the two name different classes the sheet's stands, and
// the judge is told.
func (r *reader) joinEntry(entry, carcass *animal) {
	if entry.heading.kind == listTable && entry.Class != "" && carcass.Class != "" && !sameWords(entry.Class, carcass.Class) {
		r.find(validate.Finding{
			Level: validate.Look, Code: classDiffers, At: carcass.Place, Measure: measure.ClassName, Read: carcass.Class,
			Message: fmt.Sprintf("This carcass stands in class %s, but its entry (%s) says %s. It was left where the carcass sheet has it. If the entry is right, correct the class; otherwise accept as is.", phrase.Quote(carcass.Class), entry.Place, phrase.Quote(entry.Class)),
			Hint:    entry.Class, Carcass: carcass.Carcass,
		})
	}
	if leads(entry, carcass) {
		carcass.Tag = entry.Tag // the electronic tag only led here; the fair knows the animal by its tag
		carcass.SetReading(measure.Tag, entry.ReadingOf(measure.Tag))
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
	r.raised = slices.DeleteFunc(r.raised, func(doubt raised) bool { return doubt.Carcass == entry })
}

// speciesOfEntries gives carcasses without a species that of the class they were entered in.
func (r *reader) speciesOfEntries(tr *tableReader) {
	for _, animal := range tr.animals {
		if animal.Species == "" {
			animal.Species = r.species.in(animal.Class)
		}
	}
}
