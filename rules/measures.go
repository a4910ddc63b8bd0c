package rules

import (
	"slices"
	"strings"

	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// RoleColumn heads what a line of the Measures sheet is about: a measure that the program knows, or one of the board's.
const RoleColumn = "Read or computed"

// What stands under RoleColumn for a measure that the program knows.
const (
	RoleRead     = "read"
	RoleComputed = "computed"
)

// ownMeasures gives the heading row of the Measures sheet and the board's own lines, without those that list what the
// program knows anyhow.
func ownMeasures(rows []Row) []Row {
	if len(rows) == 0 {
		return rows
	}
	role := slices.IndexFunc(rows[0], func(cell Cell) bool { return fold(cell.Text) == fold(RoleColumn) })
	return slices.DeleteFunc(slices.Clone(rows), func(row Row) bool {
		return role >= 0 && role < len(row) && slices.Contains([]string{RoleRead, RoleComputed}, fold(row[role].Text))
	})
}

// listedMeasures looks whether a line that only lists a measure of the program's was given something that would have to count: its
// limits stand on the Limits sheet.
func (l *loading) listedMeasures(rows []Row) {
	if len(rows) == 0 {
		return
	}
	own := ownMeasures(rows)
	for _, row := range rows[1:] {
		if slices.ContainsFunc(own, func(other Row) bool { return len(other) > 0 && len(row) > 0 && &other[0] == &row[0] }) {
			continue
		}
		for column, cell := range row[:min(len(row), len(rows[0]))] {
			heading, counts := among(rows[0][column].Text, ownAlone)
			if counts && strings.TrimSpace(cell.Text) != "" {
				l.fault(cell.Place, "This line only lists what the program knows, so %q does nothing here. Limits stand on the Limits sheet, headings on the Headings sheet; a measure of the board's own has a line with \"own\" under %q.", heading, RoleColumn)
			}
		}
	}
}

// ownAlone are the columns that count on a line of the board's own alone.
var ownAlone = []string{"Accepted headings", "Hold below", "Look below", "Look above", "Hold above", "Adjusts", "To weight", "Changes per lb"}

// measures declares the measures of the board's own, before any other sheet names them.
func (l *loading) measures() {
	for _, line := range l.lines(MeasuresTable) {
		before := len(l.faults)
		name, ok := line.needed("Measure")
		if !ok {
			continue
		}
		own := measure.Definition{
			Name: fold(name), Kind: measure.KindNumber, Unit: line.choice("Unit", ownUnits), Heading: phrase.Capital(name), Meaning: line.text("Meaning"),
		}
		line.choice(RoleColumn, roleWords)
		own.Decimals, _ = line.whole("Decimals", 0, 4)
		own.Species = line.severalSpecies()
		line.nameIsFree(own.Name)
		adjusted := line.adjusts(&own)
		if len(l.faults) > before {
			continue
		}
		table, err := l.book.Measures.With(own)
		if err != nil {
			line.fault("Measure", "%s can't be declared, because %v. Take a line out.", phrase.Capital(own.Name), err)
			continue
		}
		l.book.Measures = table
		id := table.ByName(own.Name)
		line.limitOwn(id, own.Species)
		if adjusted != nil {
			adjusted.Measure = id
			l.book.Adjusted = append(l.book.Adjusted, *adjusted)
			continue
		}
		for _, species := range speciesOrEvery(own.Species) {
			for _, text := range append([]string{own.Name}, line.list("Accepted headings")...) {
				l.ownHeadings = append(l.ownHeadings, Heading{Species: species, Measure: id, Text: text, Place: line.place("Accepted headings")})
			}
		}
	}
	l.book.Headings = append(l.book.Headings, l.ownHeadings...)
}

// severalSpecies reads species with commas between them; none for every species.
func (n line) severalSpecies() (species []string) {
	text := n.text("Species")
	if text == "" || slices.Contains([]string{"all", "every species"}, fold(text)) {
		return nil
	}
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' }) {
		name, found := among(word, speciesWords)
		if !found {
			n.fault("Species", "%q is no species the program knows. It should be %s.", strings.TrimSpace(word), phrase.JoinOr(speciesWords))
			continue
		}
		species = append(species, name)
	}
	return species
}

func speciesOrEvery(names []string) (species []Species) {
	if len(names) == 0 {
		return []Species{""}
	}
	for _, name := range names {
		species = append(species, Species(name))
	}
	return species
}

// nameIsFree looks whether a name is taken: by a measure, or by the word that begins the name of an index.
func (n line) nameIsFree(name string) {
	if taken, found := measure.Define(n.loading.book.Measures.ByName(name)); found {
		n.fault("Measure", "The name %q is taken. It is: %s Give the board's own measure another name.", name, taken.Meaning)
	} else if strings.HasPrefix(name+" ", PointsPrefix) {
		n.fault("Measure", "A name that begins with %q is that of an index of the Points sheet. Give the measure another name.", strings.TrimSpace(PointsPrefix))
	}
}

// adjusts reads what a measure adjusts, and makes it one that is computed; nil for a column that is read.
func (n line) adjusts(own *measure.Definition) *Adjusted {
	if n.text("Adjusts") == "" {
		for _, heading := range []string{"To weight", "Changes per lb"} {
			if n.text(heading) != "" {
				n.fault(heading, "This line adjusts nothing. Name the measure under %q, or clear %q.", "Adjusts", heading)
			}
		}
		return nil
	}
	species := Species("")
	if len(own.Species) == 1 {
		species = Species(own.Species[0])
	}
	definition, ok := n.measureIn("Adjusts", species)
	if !ok {
		return nil
	}
	if definition.Kind != measure.KindNumber {
		n.fault("Adjusts", "%s is %s, which no pound of weight changes. Name a measure that is a number.", phrase.Capital(definition.Name), kindWords[definition.Kind])
	}
	for _, heading := range []string{"To weight", "Changes per lb"} {
		n.needed(heading)
	}
	if n.text("Accepted headings") != "" {
		n.fault("Accepted headings", "This measure is computed from %s and not read. Clear the headings, or %q.", definition.Name, "Adjusts")
	}
	if own.Species == nil {
		own.Species = definition.Species
	}
	if own.Unit != "" && own.Unit != definition.Unit {
		n.fault("Unit", "What is adjusted from %s is in its unit. Clear %q.", definition.Name, "Unit")
	}
	own.Computed, own.Unit = true, definition.Unit
	own.Heading += " (the board's own line)"
	return &Adjusted{Of: definition.ID, ToWeight: n.number("To weight").Decimal, PerPound: n.number("Changes per lb").Decimal, Place: n.place("Measure")}
}

// limitOwn takes the bounds of a measure of the board's own into the limits. A column that is read needs one.
func (n line) limitOwn(id measure.ID, species []string) {
	definition, _ := measure.Define(id)
	limit := Limit{
		Measure: id, HoldBelow: n.number("Hold below"), LookBelow: n.number("Look below"), LookAbove: n.number("Look above"), HoldAbove: n.number("Hold above"),
		Source: n.text("Source"), Place: n.place("Measure"),
	}
	if !slices.ContainsFunc([]decimal.NullDecimal{limit.HoldBelow, limit.LookBelow, limit.LookAbove, limit.HoldAbove}, func(b decimal.NullDecimal) bool { return b.Valid }) {
		if !definition.Computed {
			n.fault("Hold below", "Nothing limits %s, so that a slip of the pen could win a class. Fill in at least one of %s.", id,
				phrase.JoinOr([]string{`"Hold below"`, `"Look below"`, `"Look above"`, `"Hold above"`}))
		}
		return
	}
	n.checkBounds(limit)
	for _, kind := range speciesOrEvery(species) {
		limit.Species = kind
		n.loading.book.Limits = append(n.loading.book.Limits, limit)
	}
}

// checkOwnHeadings looks whether a heading of the board's own column means something else as well.
func (l *loading) checkOwnHeadings() {
	for _, own := range l.ownHeadings {
		for _, other := range l.book.Headings {
			if other.Measure != own.Measure && foldHeading(other.Text) == foldHeading(own.Text) && overlap(other.Species, own.Species) &&
				(other.Measure != measure.SpeciesName || other.Species == "") {
				l.fault(own.Place, "The heading %q stands for %s already, in cell %s of the sheet %s. It can stand for one of them.", own.Text, other.Measure, other.Place.Cell, other.Place.Sheet)
				break
			}
		}
	}
}
