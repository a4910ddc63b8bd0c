package intake

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"github.com/shopspring/decimal"
	"github.com/xrash/smetrics"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/xlsx"
)

// A heading that is not known is asked about by three kinds of evidence together: its words, the species of the sheet, and
// the values below it. What the values cannot be is never suggested, whatever the words.

// suggested gives the accepted heading that a column's own most likely means; ok is false where nothing speaks for one.
func (tr *tableReader) suggested(under *column) (rules.Heading, bool) {
	species := tr.mainSpecies()
	cells := sync.OnceValue(func() columnCells { return tr.someCells(under) })
	var best rules.Heading
	bestScore := 0
	for _, offer := range tr.vocabulary.offers(under.text) {
		heading, ok := offer.meaning.of(species)
		if !ok || tr.hasColumn(heading.Measure) || offer.score <= bestScore || !tr.valuesFit(cells(), heading, species) {
			continue
		}
		best, bestScore = heading, offer.score
	}
	return best, bestScore > 0
}

// offer is what a heading may mean by its words, the higher the score the more of them say so.
type offer struct {
	meaning meaning
	score   int
}

// offers gives the accepted headings whose words are among those of a heading, or the other way round, and those that it
// comes near to letter by letter.
func (v *vocabulary) offers(text string) []offer {
	words, _ := withoutUnit(fold(text))
	words = slices.DeleteFunc(slices.Clone(words), func(word string) bool { return word == "#" || word == "+" })
	if len(words) == 0 || len(text) > longestHeading {
		return nil
	}
	written := strings.Join(words, "")
	var list []offer
	for _, key := range v.keys {
		accepted := v.accepted[key.which[0]].words
		score := 0
		switch reach := reachOf(len(written)); {
		case reach > 0 && len(key.text) >= 4 && abs(len(key.text)-len(written)) <= reach && lettersApart(written, key.text) <= reach:
			if distance := smetrics.WagnerFischer(written, key.text, 1, 1, 1); distance <= reach {
				score = 90 - 10*distance
			}
		}
		switch {
		case len(accepted) > 0 && len(accepted) < len(words) && subset(accepted, words) && (len(accepted[0]) > 1 || len(accepted) > 1):
			score = max(score, 40+10*len(accepted)+min(9, len(key.text)))
		case len(words) < len(accepted) && subset(words, accepted) && len(written) > 2:
			score = max(score, 30+10*len(words)-2*(len(accepted)-len(words)))
		}
		if score > 0 {
			list = append(list, offer{meaning{candidates: v.firstOfEach(key.which)}, score})
		}
	}
	slices.SortStableFunc(list, func(a, b offer) int { return b.score - a.score })
	return list
}

// lettersApart is how many letters of two texts must be changed at the least to make one of the other: those that one of them has
// and the other lacks, wherever they stand.
func lettersApart(a, b string) int {
	var left [256]uint8 // of short texts
	for i := range len(b) {
		left[b[i]]++
	}
	onlyA := 0
	for i := range len(a) {
		if left[a[i]] == 0 {
			onlyA++
		} else {
			left[a[i]]--
		}
	}
	return onlyA + max(0, len(b)-len(a))
}

func abs(number int) int { return max(number, -number) }

func subset(some, all []string) bool {
	return !slices.ContainsFunc(some, func(word string) bool { return !slices.Contains(all, word) })
}

// reachOf is how many letters a heading of a length may be off.
func reachOf(length int) int {
	switch {
	case length >= 12:
		return 3
	case length >= 7:
		return 2
	case length >= 4:
		return 1
	}
	return 0
}

// weakClassHeading is a heading that means the class only where nothing else does and its values repeat.
var weakClassHeading = phrase.NewPattern(`(?i)^\W*(?:type|group|grp)\W*$`)

// takeWeakClass takes a column headed Type or Group for that of the classes, where there is no other and its values are
// neither all different nor species.
func (r *reader) takeWeakClass(t *table) {
	if t.kind != carcassTable || slices.ContainsFunc(t.columns, func(heading column) bool { return heading.meaning.is(measure.ClassName) }) {
		return
	}
	for i := range t.columns {
		column := &t.columns[i]
		if len(column.meaning.candidates) > 0 || !weakClassHeading.MatchString(column.text) {
			continue
		}
		seen, animals := map[string]bool{}, map[rules.Species]bool{}
		filled, animal := 0, 0
		for _, line := range t.page.lines {
			cell := line.at(column.number)
			if line.number <= t.bottom || line.number > t.lastLine || cell.Kind != xlsx.Text || nothing(cell) {
				continue
			}
			filled++
			seen[strings.ToLower(clean(cell.Raw))] = true
			if species := r.species.in(cell.Raw); species != "" && len(fold(cell.Raw)) == 1 {
				animals[species] = true
				animal++
			}
		}
		// Steers and heifers are classes; one word for all, or animals of two species, are the species.
		if filled >= 2 && len(seen) < filled && (animal == 0 || len(animals) == 1 && len(seen) > 1) {
			column.meaning = meaning{candidates: []rules.Heading{{Measure: measure.ClassName, Text: column.text}}, because: "no other column is headed class, and its values repeat"}
			return
		}
	}
}

// maturityByValues takes columns headed Lean and Overall for maturities, where the skeletal maturity stands on the sheet and
// their values are maturities.
func (r *reader) maturityByValues(t *table) {
	for _, known := range []struct {
		heading string
		measure measure.ID
	}{{"lean", measure.LeanMaturity}, {"overall", measure.Maturity}} {
		heading, id := known.heading, known.measure
		if !t.has(measure.SkeletalMaturity) || t.has(id) {
			continue
		}
		for i := range t.columns {
			column := &t.columns[i]
			if len(column.meaning.candidates) == 0 && strings.Join(fold(column.text), " ") == heading && t.allRead(column.number, func(text string) bool {
				_, ok := grading.ParseMaturity(text)
				return ok && hasLetter(text)
			}) {
				column.meaning = meaning{candidates: []rules.Heading{{Measure: id, Text: column.text}}, because: "its values are maturities, beside the skeletal one"}
			}
		}
	}
}

// allRead reports whether something stands in a column, and all of it is what a test says.
func (t *table) allRead(number int, is func(text string) bool) bool {
	filled := 0
	for _, line := range t.page.lines {
		cell := line.at(number)
		if line.number <= t.bottom || line.number > t.lastLine || t.repeated[line.number] || nothing(cell) || formulaText(cell) {
			continue
		}
		if !is(clean(cell.Raw)) {
			return false
		}
		filled++
	}
	return filled > 0
}

// takeFatCover takes a column of fat cover for the score, on sheets of a species that has one, where all its values are those
// of a score: fat of an inch and more is on none of those animals.
func (tr *tableReader) takeFatCover() {
	score, _ := measure.Define(measure.FatCover)
	if !score.For(string(tr.species)) || tr.species == "" {
		return
	}
	for i := range tr.table.columns {
		column := &tr.table.columns[i]
		heading, ok := column.meaning.of(tr.species)
		if !ok || heading.Measure != measure.MeasuredFat || column.meaning.byHand || tr.hasColumn(measure.FatCover) ||
			!slices.Contains(fold(column.text), "cover") {
			continue
		}
		if tr.table.allRead(column.number, func(text string) bool {
			number, err := decimal.NewFromString(text)
			return err == nil && number.GreaterThanOrEqual(decimal.NewFromInt(1))
		}) {
			column.meaning.candidates = []rules.Heading{{Species: tr.species, Measure: measure.FatCover, Text: column.text}}
			column.meaning.because = "its values are those of a score, not of fat in inches"
		}
	}
}

// adjustedNotAdjustment is from which size on a figure beside the fat is an adjusted fat thickness and no adjustment.
var adjustedNotAdjustment = decimal.New(15, -2)

// takeAdjustedFat takes a column headed "Fat adj" for the adjusted fat thickness where its values are those of fat: an
// adjustment that large would double the fat of every carcass.
func (tr *tableReader) takeAdjustedFat() {
	for i := range tr.table.columns {
		column := &tr.table.columns[i]
		heading, ok := column.meaning.of(tr.species)
		if !ok || heading.Measure != measure.FatAdjustment || column.meaning.byHand || tr.hasColumn(measure.AdjustedFat) {
			continue
		}
		p := tr.parserFor(column, heading, tr.species)
		filled, large := 0, 0
		for _, line := range tr.table.page.lines {
			cell := line.at(column.number)
			if line.number <= tr.table.bottom || line.number > tr.table.lastLine || nothing(cell) || formulaText(cell) {
				continue
			}
			parsed := p.read(cell)
			if parsed.problem != "" || parsed.absent {
				continue
			}
			filled++
			if parsed.reading.Value.Number.GreaterThan(adjustedNotAdjustment) {
				large++
			}
		}
		if filled < 2 || large*100 < filled*enoughFit {
			continue
		}
		column.meaning.candidates = []rules.Heading{{Measure: measure.AdjustedFat, Text: column.text}}
		column.meaning.because = "its values are those of fat, not of an adjustment"
		tr.find(validate.Finding{
			Level: validate.Look, Code: "adjusted fat by its values", At: tr.table.page.place(column.at), Measure: measure.AdjustedFat, Read: column.text,
			Message: fmt.Sprintf("The values under %s are too large for an adjustment that is added, so they were read as the adjusted fat thickness. If they are to be added, use --column %s; otherwise accept as is.",
				phrase.Quote(column.text), phrase.Quote("fat adjustment="+column.text)),
		})
	}
}

// fewestTags is how many different values show a column to be that of the tags.
const fewestTags = 3

// tagByValues adds to headings without a tag the leftmost column that has no known heading and holds a different text or
// whole number on every line.
func (f *finder) tagByValues(columns []column) ([]column, bool) {
	weights, measures, bottom := 0, 0, 0
	known := map[int]bool{}
	for _, column := range columns {
		bottom = max(bottom, column.at.line)
		switch {
		case column.meaning.is(tagMeasures...):
			return nil, false
		case column.meaning.is(carcassWeights...):
			weights++
		case column.meaning.measuresCarcass():
			measures++
		}
		known[column.number] = len(column.meaning.candidates) > 0
	}
	if weights == 0 || measures < 2 && !(measures == 1 && named(columns)) {
		return nil, false
	}
	for number := max(1, columns[0].number-1); number <= columns[len(columns)-1].number; number++ {
		if known[number] || !f.allDifferent(number, bottom, columns) {
			continue
		}
		tag := meaning{candidates: []rules.Heading{{Measure: measure.Tag, Text: "tag"}}, because: becauseAllDifferent}
		at := slices.IndexFunc(columns, func(heading column) bool { return heading.number == number })
		if at >= 0 {
			found := slices.Clone(columns)
			found[at].meaning = tag
			return found, true
		}
		unheaded := column{number: number, at: position{bottom, number}, text: "", meaning: tag}
		return append([]column{unheaded}, columns...), number < columns[0].number
	}
	return nil, false
}

// becauseAllDifferent is how a tag was recognised that no heading names.
const becauseAllDifferent = "its values are all different"

// allDifferent reports whether a column holds another text or whole number on every line that has measures.
func (f *finder) allDifferent(number, bottom int, columns []column) bool {
	seen := map[string]bool{}
	for i := range f.page.lines {
		line := &f.page.lines[i]
		if line.number <= bottom {
			continue
		}
		numbers := 0
		for _, under := range columns {
			if cell := line.at(under.number); under.number != number && cell.Kind == xlsx.Number {
				numbers++
			}
		}
		cell := line.at(number)
		text := clean(cell.Raw)
		switch {
		case numbers < 2:
			if nothing(cell) {
				continue
			}
			return len(seen) >= fewestTags
		case nothing(cell), cell.Date, cell.Formula, cell.Kind == xlsx.Number && strings.Contains(text, "."),
			cell.Kind == xlsx.Text && !tagLike(text), seen[text]:
			return false
		}
		seen[text] = true
	}
	return len(seen) >= fewestTags
}

// askTag asks once for a sheet whose tag was known by its values alone.
func (r *reader) askTag(tr *tableReader) {
	for _, column := range tr.table.columns {
		if column.meaning.because != becauseAllDifferent {
			continue
		}
		called := phrase.Quote(column.text)
		if column.text == "" {
			called = "the column without a heading"
		}
		r.find(validate.Finding{
			Level: validate.Look, Code: "tag by its values", At: tr.table.page.place(column.at), Measure: measure.Tag, Read: column.text,
			Message: fmt.Sprintf("No heading says which column is the tag; %s was taken, since its values are all different. If it is another column, write Tag above that one; otherwise accept as is.", called),
		})
	}
}
