package intake

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"

	"github.com/shopspring/decimal"
)

// coarse reports whether one of two readings is written more coarsely and contains the other: Small and Small 40, Choice
// and Low Choice.
func (c *comparison) coarse(definition measure.Definition, reading, second grading.Reading) bool {
	if reading.Unreadable || second.Unreadable || reading.Value.Number.Equal(second.Value.Number) && reading.Value.Text == second.Value.Text {
		return false
	}
	switch definition.Kind {
	case measure.KindGrade:
		whole := rules.WholeGrade(reading.Value.Text) == reading.Value.Text || rules.WholeGrade(second.Value.Text) == second.Value.Text
		return whole && grading.SameWholeGrade(reading.Value, second.Value)
	case measure.KindMarbling, measure.KindMaturity:
		return within(definition.Kind, reading, second) || within(definition.Kind, second, reading)
	}
	return false
}

// within reports whether a degree written without its place, or with a sign for a third of it, contains a score.
func within(kind measure.Kind, degree, score grading.Reading) bool {
	letters := strings.TrimSpace(degree.Written)
	assumed := false
	if kind == measure.KindMaturity {
		read, ok := grading.ParseMaturity(letters)
		assumed = ok && read.Note != ""
	} else {
		read, ok := grading.ParseMarbling(letters, "")
		assumed = ok && read.How == grading.MarblingAssumed
	}
	hundred := decimal.NewFromInt(100)
	if !assumed || !degree.Value.Number.Div(hundred).Floor().Equal(score.Value.Number.Div(hundred).Floor()) {
		return false
	}
	last, _ := utf8.DecodeLastRuneInString(letters)
	return unicode.IsLetter(last) || degree.Value.Number.Sub(score.Value.Number).Abs().LessThanOrEqual(decimal.NewFromInt(thirdOfDegree))
}

// thirdOfDegree is how far a score of a third of a degree lies from the middle of that third at most.
const thirdOfDegree = 17

// fewestCoarse is how many numbers of a column show that it was written at coarser steps. A single one may be a slip.
const fewestCoarse = 2

// reportCoarser says once a column that one of the entries gives its values more coarsely.
func (c *comparison) reportCoarser() {
	numbers := map[measure.ID][]difference{}
	for _, difference := range c.differing {
		if c.rounded(difference) {
			numbers[difference.measure.ID] = append(numbers[difference.measure.ID], difference)
		}
	}
	for id, cells := range numbers {
		if len(cells) >= fewestCoarse {
			c.coarser[id] = cells
			c.settled(cells)
		}
	}
	for _, id := range slices.SortedFunc(maps.Keys(c.coarser), measure.ID.Compare) {
		cells := c.coarser[id]
		first := cells[0]
		c.findings = append(c.findings, validate.Finding{
			Level: validate.Note, Code: "second entry coarser", At: first.here.Place, Measure: id, Read: first.here.Written,
			Message: first.here.Place.Begin(fmt.Sprintf("%s is written more coarsely in one of the entries, and says the same for %s (%s here, %s in the second entry).",
				id, phrase.Plural(len(cells), "carcass", "carcasses"), phrase.Quote(first.here.Written), phrase.Quote(first.there.Written))),
		})
	}
}

// rounded reports whether a number differs only because one of the entries writes fewer decimals of the measure.
func (c *comparison) rounded(d difference) bool {
	if d.measure.Kind != measure.KindNumber || d.here.Unreadable || d.there.Unreadable {
		return false
	}
	unit := unitOfReading(d.measure, d.here)
	key := placesKey{d.measure.ID, unit.unit}
	ones, twos := c.places[0][key], c.places[1][key]
	if unitOfReading(d.measure, d.there).unit != unit.unit || ones == twos {
		return false
	}
	return d.here.Value.Number.Sub(d.there.Value.Number).Abs().LessThanOrEqual(halfPlace(unit, min(ones, twos)))
}

// settled takes differences out of those that are asked about one by one.
func (c *comparison) settled(cells []difference) {
	c.differing = slices.DeleteFunc(c.differing, func(differing difference) bool {
		return slices.ContainsFunc(cells, func(other difference) bool {
			return other.pair == differing.pair && other.measure.ID == differing.measure.ID
		})
	})
}

// fewestOff is how many cells, each of them equal to its neighbour's in the other entry, are no chance.
const fewestOff = 3

// reportOff names a column, several columns or a line that stand one off in one of the entries, and two columns that stand
// under each other's headings: one question instead of one for each cell.
func (c *comparison) reportOff() {
	c.columnsExchanged()
	c.linesOff()
	for at := range c.pairs {
		c.lineAside(at)
	}
}

// differingIn gives the differences of a measure, by the place of their pair.
func (c *comparison) differingIn(id measure.ID) map[int]difference {
	cells := map[int]difference{}
	for _, difference := range c.differing {
		if difference.measure.ID == id {
			cells[difference.pair] = difference
		}
	}
	return cells
}

func (c *comparison) measuresDiffering() []measure.ID {
	found := map[measure.ID]bool{}
	for _, difference := range c.differing {
		if difference.measure.Kind != measure.KindMark {
			found[difference.measure.ID] = true
		}
	}
	return slices.SortedFunc(maps.Keys(found), measure.ID.Compare)
}

// sameWriting reports whether two cells hold the same, whatever each was read as.
func sameWriting(reading, there grading.Reading) bool {
	if reading.Written == "" {
		return false
	}
	first, err := decimal.NewFromString(reading.Written)
	second, err2 := decimal.NewFromString(there.Written)
	return err == nil && err2 == nil && first.Equal(second) || strings.EqualFold(reading.Written, there.Written)
}

// columnsExchanged asks once about two measures of which each stands under the other's heading.
func (c *comparison) columnsExchanged() {
	measures := c.measuresDiffering()
	for i, id := range measures {
		for _, other := range measures[i+1:] {
			ones, others := c.differingIn(id), c.differingIn(other)
			var cells []difference
			exchanged := 0
			for at, difference := range ones {
				other, both := others[at]
				if both && sameWriting(difference.here, other.there) && sameWriting(other.here, difference.there) {
					cells = append(cells, difference, other)
					exchanged++
				}
			}
			if exchanged < fewestOff || exchanged < len(ones) || exchanged < len(others) {
				continue
			}
			c.askOff("second entry under other headings", cells, fmt.Sprintf("%s and %s stand under each other's headings in one of the entries, for %s",
				id, other, phrase.Plural(exchanged, "carcass", "carcasses")))
		}
	}
}

// linesOff asks once about the columns that stand one line too high or too low in one of the entries.
func (c *comparison) linesOff() {
	type run struct {
		by, first, last int
	}
	columns := map[run][]measure.ID{}
	gathered := map[run][]difference{}
	var order []run
	for _, id := range c.measuresDiffering() {
		cells := c.differingIn(id)
		for _, by := range []int{1, -1} {
			var fitting []int
			for at, difference := range cells {
				if neighbour := at - by; neighbour >= 0 && neighbour < len(c.pairs) && sameWriting(c.pairs[neighbour].first.ReadingOf(id), difference.there) {
					fitting = append(fitting, at)
				}
			}
			if len(fitting) < fewestOff || len(fitting) < len(cells)-1 {
				continue
			}
			slices.Sort(fitting)
			found := run{by, fitting[0], fitting[len(fitting)-1]}
			if columns[found] == nil {
				order = append(order, found)
			}
			columns[found] = append(columns[found], id)
			for _, difference := range cells {
				gathered[found] = append(gathered[found], difference)
			}
			break
		}
	}
	for _, found := range order {
		var names []string
		for _, id := range columns[found] {
			names = append(names, id.String())
		}
		way := "too low"
		if found.by < 0 {
			way = "too high"
		}
		c.askOff("second entry a line off", gathered[found], fmt.Sprintf("%s %s one line %s in the second entry, as if pasted one off",
			strings.Join(names, ", "), phrase.Agreeing(len(names), "stands", "stand"), way))
	}
}

// lineAside asks once about a line whose values stand one column to the left or right in one of the entries.
func (c *comparison) lineAside(at int) {
	byMeasure := map[measure.ID]difference{}
	for _, difference := range c.differing {
		if difference.pair == at {
			byMeasure[difference.measure.ID] = difference
		}
	}
	if len(byMeasure) < fewestOff {
		return
	}
	var order []measure.ID
	for i := range c.second.Blocks {
		block := &c.second.Blocks[i]
		if _, here := block.Line(c.pairs[at].second); here {
			for _, heading := range block.Headings {
				order = append(order, heading.Measure)
			}
		}
	}
	for _, by := range []int{1, -1} {
		fitting := 0
		for column, id := range order {
			difference, differs := byMeasure[id]
			if neighbour := column - by; differs && neighbour >= 0 && neighbour < len(order) && sameWriting(c.pairs[at].first.ReadingOf(order[neighbour]), difference.there) {
				fitting++
			}
		}
		if fitting < fewestOff || fitting < len(byMeasure)-1 {
			continue
		}
		side := "right"
		if by < 0 {
			side = "left"
		}
		c.askOff("second entry a column off", slices.Collect(maps.Values(byMeasure)),
			fmt.Sprintf("the values of tag %s stand one column to the %s in the second entry, as if pasted one off", c.pairs[at].first.Tag, side))
		return
	}
}

// askOff asks one question about many cells.
func (c *comparison) askOff(code string, cells []difference, words string) {
	slices.SortFunc(cells, func(a, b difference) int {
		if a.pair != b.pair {
			return a.pair - b.pair
		}
		return a.measure.ID.Compare(b.measure.ID)
	})
	first := cells[0]
	finding := validate.Finding{
		Level: validate.Hold, Code: code, At: first.here.Place, Measure: first.measure.ID, Read: first.here.Written,
		Message: first.here.Place.Begin(fmt.Sprintf("%s (first %s here, %s there, %s). Look at the cards: if this workbook has it right, accept as is; otherwise correct its cells and grade again.",
			words, phrase.Quote(first.here.Written), phrase.Quote(first.there.Written), first.there.Place)),
	}
	for _, difference := range cells {
		if carcass := c.pairs[difference.pair].first; !slices.Contains(finding.Others, carcass) {
			finding.Others = append(finding.Others, carcass)
		}
	}
	c.settled(cells)
	c.findings = append(c.findings, finding)
}

// ofSecond passes on what was found in the second entry itself. Nothing is graded by it, so that it asks for no decision.
func (c *comparison) ofSecond() {
	for _, finding := range c.second.Findings {
		said := slices.ContainsFunc(c.findings, func(found validate.Finding) bool {
			return finding.At.Cell != "" && strings.Contains(found.Message, "("+finding.At.String()+")")
		})
		if said || finding.Level == validate.Note || finding.Code == "mapped heading not found" {
			continue
		}
		at := finding.At
		at.File = c.file
		c.findings = append(c.findings, validate.Finding{
			Level: validate.Note, Code: "second entry asks", At: at, Tag: finding.Tag, Measure: finding.Measure, Read: finding.Read,
			Message: at.Begin(strings.TrimPrefix(finding.Message, finding.At.Begin(""))),
		})
	}
}

// coverage says what was compared, and what was not and why.
func (c *comparison) coverage() {
	compared := 0
	var not []string
	all := map[measure.ID]bool{}
	for _, columns := range c.columns {
		maps.Copy(all, columns)
	}
	for _, id := range slices.SortedFunc(maps.Keys(all), measure.ID.Compare) {
		definition, _ := measure.Define(id)
		switch {
		case !comparable(definition):
		case c.columns[0][id] && c.columns[1][id]:
			compared++
		case c.columns[0][id]:
			not = append(not, id.String()+" ("+whyAbsent(c.second, id, "the second entry", c.first)+")")
		default:
			not = append(not, id.String()+" ("+whyAbsent(c.first, id, "this workbook", c.second)+")")
		}
	}
	for _, id := range unreadInBoth(c.first, c.second) {
		not = append(not, id.String()+" ("+whyAbsent(c.first, id, "this workbook", c.second)+")")
	}
	message := fmt.Sprintf("Second entry %s, compared: %s of %s; ", phrase.Quote(c.file), phrase.Plural(compared, "measure", "measures"), phrase.Plural(len(c.pairs), "carcass", "carcasses"))
	if len(not) == 0 {
		message += "nothing that either has was left uncompared."
	} else {
		message += "not compared: " + strings.Join(not, ", ") + "."
	}
	c.findings = append(c.findings, validate.Finding{Level: validate.Note, Code: "second entry compared", At: rules.Place{File: c.file}, Message: message})
}

// unreadInBoth gives the measures that both entries may hold under headings that neither was read by.
func unreadInBoth(first, second *Result) (list []measure.ID) {
	for i := range first.Blocks {
		carcasses := first.Blocks[i].Carcasses
		for id := range first.Blocks[i].Unread {
			if len(carcasses) == 0 || !slices.Contains(grading.Needed(carcasses[0].Species, carcasses[0].Basis), id) {
				continue
			}
			unread := slices.ContainsFunc(second.Blocks, func(block Block) bool { return len(block.Unread[id]) > 0 })
			if unread && !slices.Contains(list, id) && !columnsOf(first)[id] && !columnsOf(second)[id] {
				list = append(list, id)
			}
		}
	}
	slices.SortFunc(list, measure.ID.Compare)
	return list
}

// whyAbsent says why an entry has nothing of a measure: a heading that is not known, or no column at all.
func whyAbsent(result *Result, id measure.ID, which string, other *Result) string {
	heading := ""
	for i := range result.Blocks {
		block := &result.Blocks[i]
		for _, finding := range result.Findings {
			if finding.Code == HeadingNotRecognised && finding.Measure == id {
				heading = finding.Read
			}
		}
		if unread := block.Unread[id]; len(unread) > 0 {
			heading = unread[0]
		}
		for _, headed := range block.Headings {
			for k := range other.Blocks {
				for _, same := range other.Blocks[k].Headings {
					if headed.Measure == measure.None && same.Measure == id && sameWords(headed.Text, same.Text) {
						heading = headed.Text
					}
				}
			}
			if headed.Measure == id {
				return which + " has nothing under " + phrase.Quote(headed.Text)
			}
		}
	}
	if heading != "" {
		return "heading " + phrase.Quote(heading) + " of " + which + " not known"
	}
	return which + " has no column of it"
}
