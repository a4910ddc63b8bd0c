package rules

import (
	"slices"
	"strings"
	"time"

	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// line is one line of a rulebook's table, asked for its cells by heading. What cannot be read is a fault at its cell.
type line struct {
	loading *loading
	first   Place
	columns map[string]int // of the table, by heading
	row     Row
	asked   []bool // the columns that were looked at
}

// cell gives the cell under a heading; ok is false where the line has none.
func (n line) cell(heading string) (cell Cell, ok bool) {
	column, ok := n.columns[heading]
	if !ok || column >= len(n.row) {
		return Cell{}, false
	}
	return n.row[column], true
}

func (n line) text(heading string) string {
	cell, ok := n.cell(heading)
	if !ok {
		return ""
	}
	n.asked[n.columns[heading]] = true
	return phrase.SingleSpaced(cell.Text)
}

func (n line) place(heading string) Place {
	if cell, found := n.cell(heading); found {
		return cell.Place
	}
	return n.first
}

func (n line) fault(heading, format string, values ...any) {
	n.loading.fault(n.place(heading), format, values...)
}

func (n line) warn(heading, format string, values ...any) {
	n.loading.warn(n.place(heading), format, values...)
}

// needed gives the text of a cell that may not be blank.
func (n line) needed(heading string) (text string, ok bool) {
	text = n.text(heading)
	if text == "" {
		n.fault(heading, "The column %q is blank on this line. Fill it in, or clear the whole line.", heading)
	}
	return text, text != ""
}

// number reads a number; a blank cell has none.
func (n line) number(heading string) decimal.NullDecimal {
	text := n.text(heading)
	if text == "" {
		return decimal.NullDecimal{}
	}
	number, ok := parseNumber(text)
	if !ok {
		n.fault(heading, "%q under %q is not a number. Write a number such as 12.5, without words.", text, heading)
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(number)
}

// whole reads a whole number from lowest to highest; ok is false for a blank cell or a fault.
func (n line) whole(heading string, lowest, highest int) (number int, ok bool) {
	given := n.number(heading)
	if !given.Valid {
		return 0, false
	}
	least, most := decimal.NewFromInt(int64(lowest)), decimal.NewFromInt(int64(highest))
	if !given.Decimal.IsInteger() || given.Decimal.LessThan(least) || given.Decimal.GreaterThan(most) {
		n.fault(heading, "%s under %q should be a whole number from %d to %d.", n.text(heading), heading, lowest, highest)
		return 0, false
	}
	return int(given.Decimal.IntPart()), true
}

func (n line) yes(heading string, otherwise bool) bool {
	text := n.text(heading)
	if text == "" {
		return otherwise
	}
	switch fold(text) {
	case "yes", "y", "true", "1", "x":
		return true
	case "no", "n", "false", "0":
		return false
	}
	n.fault(heading, "%q under %q should be yes or no.", text, heading)
	return otherwise
}

// saysNo reports whether a cell says no, where that is more than leaving it blank.
func (n line) saysNo(heading string) bool { return n.text(heading) != "" && !n.yes(heading, true) }

// choice reads one of a few words, letter case ignored; a blank cell is the empty string.
func (n line) choice(heading string, words []string) string {
	text := n.text(heading)
	if text == "" {
		return ""
	}
	word, found := among(text, words)
	if !found {
		n.fault(heading, "%q under %q should be %s.", text, heading, phrase.JoinOr(words))
	}
	return word
}

func (n line) species() Species {
	text := n.text("Species")
	if text == "" || fold(text) == "all" {
		return ""
	}
	word, found := among(text, speciesWords)
	if !found {
		n.fault("Species", "%q is no species the program knows. It should be %s.", text, phrase.JoinOr(speciesWords))
	}
	return Species(word)
}

// measure reads the name of a measure that the species has; ok is false for a blank cell or a fault.
func (n line) measure(species Species) (definition measure.Definition, ok bool) {
	return n.measureIn("Measure", species)
}

// measureIn reads a measure from the cell under a heading.
func (n line) measureIn(heading string, species Species) (definition measure.Definition, ok bool) {
	text := n.text(heading)
	if text == "" {
		return measure.Definition{}, false
	}
	table := n.loading.book.Measures
	definition, found := measure.Define(table.ByName(text))
	if !found {
		definition, found = measure.Define(table.ByName(strings.ToLower(text)))
	}
	if found && species != "" && !definition.For(string(species)) {
		if meant := n.loading.byHeading(text, species); len(meant) == 1 {
			definition, found = measure.Define(table.ByName(meant[0])) // hogs' marbling is pork marbling
		}
	}
	if !found {
		meant := n.loading.byHeading(text, n.speciesOfLine(species))
		if len(meant) > 1 {
			n.fault(heading, "%q stands for %s, by the species. Write which of them is meant.", text, phrase.JoinOr(meant))
			return measure.Definition{}, false
		}
		if len(meant) == 1 {
			definition, found = measure.Define(table.ByName(meant[0]))
		}
	}
	if !found {
		n.fault(heading, "%q is no measure the program knows.%s", text, nearestMeasure(text, species, table))
		return measure.Definition{}, false
	}
	if species != "" && !definition.For(string(species)) {
		n.fault(heading, "%s has no %s. Correct the species or the measure of this line.", phrase.Capital(string(species)), definition.ID)
		return measure.Definition{}, false
	}
	return definition, true
}

// speciesOfLine gives the species a line is about: its own, or that of the class it names where all classes of that name are
// of one.
func (n line) speciesOfLine(species Species) Species {
	written, _ := n.cell("Class")
	class := fold(written.Text)
	if species != "" || class == "" {
		return species
	}
	for _, entered := range n.loading.book.Classes {
		switch {
		case fold(entered.Name) != class:
		case entered.Species == "" || species != "" && species != entered.Species:
			return ""
		default:
			species = entered.Species
		}
	}
	return species
}

// byHeading gives the measure that a board calls by one of its accepted headings, such as HCW or REA. A heading of a
// sheet's own figure means the computed one: a rule is about what the program works out. There are several where the heading
// means different measures for the species the line may be about.
func (l *loading) byHeading(text string, species Species) (names []string) {
	table := l.table(HeadingsTable)
	if len(table.Rows) == 0 {
		return nil
	}
	columns := map[string]int{}
	for column, cell := range table.Rows[0] {
		columns[fold(cell.Text)] = column
	}
	measures := l.book.Measures
	for _, own := range l.ownHeadings {
		if foldHeading(own.Text) == foldHeading(text) && (species == "" || own.Species == "" || own.Species == species) && !slices.Contains(names, own.Measure.String()) {
			names = append(names, own.Measure.String())
		}
	}
	textOf := func(row []Cell, heading string) string {
		if at, has := columns[fold(heading)]; has && at < len(row) {
			return fold(row[at].Text)
		}
		return ""
	}
	for _, row := range table.Rows[1:] {
		of := Species(textOf(row, "Species"))
		if species != "" && of != "" && of != species {
			continue
		}
		for _, heading := range strings.Split(textOf(row, "Accepted headings"), ";") {
			if foldHeading(heading) != foldHeading(text) {
				continue
			}
			id := measures.ByName(textOf(row, "Measure"))
			if computed := measures.ByName(strings.TrimPrefix(id.String(), "sheet ")); computed != measure.None {
				id = computed
			}
			if id != measure.None && !slices.Contains(names, id.String()) {
				names = append(names, id.String())
			}
		}
	}
	return names
}

// date reads a date as 2025-08-15; a blank cell is the empty string.
func (n line) date(heading string) string {
	text := n.text(heading)
	if text == "" {
		return ""
	}
	for _, form := range []string{"2006-01-02", "1/2/2006", "January 2, 2006", "Jan 2, 2006", "2 January 2006"} {
		if day, err := time.Parse(form, text); err == nil {
			return day.Format("2006-01-02")
		}
	}
	n.fault(heading, "%q is not a date. Write it as year-month-day, such as 2025-08-15.", text)
	return ""
}

// list reads a cell with semicolons between its items.
func (n line) list(heading string) []string {
	return listOf(n.text(heading))
}

func listOf(text string) (items []string) {
	for _, item := range strings.Split(text, ";") {
		if item = strings.TrimSpace(item); item != "" {
			items = append(items, item)
		}
	}
	return items
}

var numberForm = phrase.NewPattern(`^[+-]?([0-9]{1,12}(\.[0-9]{0,12})?|\.[0-9]{1,12})$`)

// boardsMarks are what boards write into numbers.
var boardsMarks = strings.NewReplacer("−", "-", "–", "-", ",", "", "$", "", " ", "")

// parseNumber reads a number as a board writes it: a dollar or percent sign, commas between thousands, brackets or a
// long minus sign for a discount.
func parseNumber(text string) (decimal.Decimal, bool) {
	if !strings.ContainsAny(text, "0123456789") {
		return decimal.Decimal{}, false
	}
	text = boardsMarks.Replace(text)
	text = strings.TrimSuffix(text, "%")
	if inner, found := strings.CutPrefix(text, "("); found {
		text = "-" + strings.TrimSuffix(inner, ")")
	}
	if !numberForm.MatchString(text) {
		return decimal.Decimal{}, false
	}
	number, err := decimal.NewFromString(strings.TrimSuffix(text, "."))
	return number, err == nil
}

// fold makes words comparable: one letter case, single spaces.
func fold(text string) string {
	return strings.ToLower(phrase.SingleSpaced(text))
}

func among(text string, words []string) (word string, found bool) {
	folded := fold(text)
	for _, word := range words {
		if fold(word) == folded {
			return word, true
		}
	}
	return "", false
}

// nearest suggests the most similar word in a sentence, where one is similar enough to be meant.
func nearest(text string, words []string) string {
	best := phrase.Nearest(fold(text), words)
	if best == "" {
		return ""
	}
	return ` Is "` + best + `" meant?`
}

// nearestMeasure suggests the most similar measure that the species has, with its meaning.
func nearestMeasure(text string, species Species, table *measure.Table) string {
	var names []string
	for _, definition := range table.Definitions() {
		if species == "" || definition.For(string(species)) {
			names = append(names, definition.Name)
		}
	}
	best := phrase.Nearest(fold(text), names)
	for _, name := range names { // a part of a name: "quality"
		if best == "" && slices.Contains(strings.Fields(name), fold(text)) && !strings.HasPrefix(name, "sheet ") {
			best = name
		}
	}
	if best == "" {
		return " The sheet Measures lists those it knows."
	}
	meant, _ := measure.Define(table.ByName(best))
	return ` Is "` + best + `" meant? It is: ` + meant.Meaning
}
