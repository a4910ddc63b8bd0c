package rules

import (
	"slices"

	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// gridEntry is a line of the grid with the cells it was read from.
type gridEntry struct {
	GridLine
	line line
}

func (l *loading) grid() {
	var entries []gridEntry
	before := len(l.faults)
	for _, line := range l.lines(GridTable) {
		if grid, ok := l.gridLine(line); ok {
			l.book.Grid = append(l.book.Grid, grid)
			entries = append(entries, gridEntry{grid, line})
		}
	}
	if len(l.faults) > before {
		return // what follows from a faulty line is no fault of its own
	}
	for _, species := range eachSpecies {
		checkBands(linesOf(entries, species, YieldPart), "yield grade")
		checkBands(linesOf(entries, species, WeightPart), "hot carcass weight")
		checkGradesPriced(species, linesOf(entries, species, QualityPart))
		l.checkBasePrice(species)
	}
}

func linesOf(entries []gridEntry, species Species, part Part) []gridEntry {
	var list []gridEntry
	for _, entry := range entries {
		if entry.Species == species && entry.Part == part {
			list = append(list, entry)
		}
	}
	return list
}

func (l *loading) gridLine(line line) (GridLine, bool) {
	before := len(l.faults)
	grid := GridLine{
		Species: line.species(), Part: Part(line.choice("Part", partWords)),
		Source: line.text("Source"), Place: line.place("$/cwt"),
	}
	if grid.Species == "" && len(l.faults) == before {
		line.fault("Species", "A line of the grid is for one species. Name it: %s.", phrase.JoinOr(speciesWords))
	}
	if line.text("Part") == "" {
		line.needed("Part")
	}
	line.adjustment(&grid)
	grid.Band = line.band()
	if len(l.faults) > before {
		return grid, false
	}
	switch grid.Part {
	case QualityPart:
		grid.Name = line.gradeName(grid.Species, l.book.Settings.PriceByThirds)
	case ConditionPart:
		grid.Name = line.conditionName(grid.Species)
		grid.Mark = measure.Standard().ByName(grid.Name)
	case YieldPart, WeightPart:
		line.bandAlone()
		if grid.Part == YieldPart && !hasYield(grid.Species) {
			line.fault("Part", "%s has no yield grade and no percent of lean, so it can have no yield line. Take the line out.", phrase.Capital(string(grid.Species)))
		}
	}
	l.checkTwice(grid, line)
	return grid, len(l.faults) == before
}

// adjustment reads what a line adds to the price: dollars, or percent of the base price.
func (n line) adjustment(grid *GridLine) {
	grid.Adjust, grid.Percent = n.number("$/cwt").Decimal, n.number("% of base")
	base := n.loading.book.Settings.BasePrice[grid.Species]
	switch {
	case n.text("$/cwt") != "" && n.text("% of base") != "":
		n.fault("% of base", "This line has dollars and a percent of the base price. Clear one of the two.")
	case n.text("$/cwt") == "" && n.text("% of base") == "":
		n.fault("$/cwt", "This line of the grid has no price. Write what it adds or, with a minus sign, takes off; 0 for neither.")
	case grid.Percent.Valid && !base.Valid && grid.Species != "":
		n.fault("% of base", "There is no base price of %s that this could be a percent of. Set it on the Settings sheet, or write dollars.", grid.Species)
	case grid.Percent.Valid:
		grid.Adjust = base.Decimal.Mul(grid.Percent.Decimal).Shift(-2)
	}
}

// band reads From and Up to. A blank From counts, a blank Up to does not, where the sheet says nothing of it.
func (n line) band() Band {
	band := Band{From: n.number("From"), UpTo: n.number("Up to")}
	band.FromIsIn = band.From.Valid && n.yes("From counts", true)
	band.UpToIsIn = band.UpTo.Valid && n.yes("Up to counts", false)
	return band
}

// bandAlone checks that a yield or weight line is a band and nothing else.
func (n line) bandAlone() {
	if name := n.text("Name"); name != "" {
		n.fault("Name", "A yield or weight line is known by its band. Clear the name %q.", name)
	}
	band := n.band()
	if !band.From.Valid && !band.UpTo.Valid {
		n.fault("From", "This band has no end on either side. Fill in From or Up to.")
	}
	if !band.From.Valid || !band.UpTo.Valid {
		return
	}
	order := band.From.Decimal.Cmp(band.UpTo.Decimal)
	if order > 0 || order == 0 && !(band.FromIsIn && band.UpToIsIn) {
		n.fault("Up to", "This band ends at %s and begins at %s, so nothing is in it.", band.UpTo.Decimal, band.From.Decimal)
	}
}

// gradeName reads the grade of a quality line.
func (n line) gradeName(species Species, byThirds bool) string {
	n.noBand()
	text, ok := n.needed("Name")
	if !ok {
		return ""
	}
	whole := wholeGrades(species)
	if len(whole) == 0 {
		n.fault("Part", "%s has no quality grades, so it can have no quality line.", phrase.Capital(string(species)))
		return ""
	}
	if name, found := among(text, whole); found {
		return name
	}
	name, found := among(text, GradeWords(species))
	switch {
	case found && byThirds:
		return name
	case found:
		n.fault("Name", "%q is a third of a grade, and the setting \"price by thirds\" is no. Name the whole grade, or change the setting.", text)
	default:
		n.fault("Name", "%q is no grade of %s. It should be %s.", text, species, phrase.JoinOr(whole))
	}
	return ""
}

// conditionName reads the mark of a condition line.
func (n line) conditionName(species Species) string {
	n.noBand()
	text, ok := n.needed("Name")
	if !ok {
		return ""
	}
	var marks []string
	for _, definition := range n.loading.book.Measures.Definitions() {
		if definition.Kind == measure.KindMark && definition.For(string(species)) && definition.ID != measure.Consent {
			marks = append(marks, definition.Name)
		}
	}
	name, found := among(text, marks)
	if !found {
		n.fault("Name", "%q is no mark that a carcass of %s can have. It should be %s.", text, species, phrase.JoinOr(marks))
	}
	return name
}

func (n line) noBand() {
	for _, heading := range []string{"From", "Up to"} {
		if n.text(heading) != "" {
			n.fault(heading, "Only yield and weight lines have a band. Clear %q on this line.", heading)
		}
	}
}

// checkTwice looks for an earlier line of the same grade or mark.
func (l *loading) checkTwice(grid GridLine, line line) {
	if grid.Name == "" {
		return
	}
	for _, earlier := range l.book.Grid {
		if earlier.Species == grid.Species && earlier.Part == grid.Part && earlier.Name == grid.Name {
			line.fault("Name", "%s is priced twice; the first time in cell %s. Keep one of the two lines.", phrase.Capital(grid.Name), earlier.Place.Cell)
		}
	}
}

// checkBands looks for bands out of order, gaps and overlaps.
func checkBands(bands []gridEntry, figure string) {
	for number := 1; number < len(bands); number++ {
		if band := bands[number]; startsBefore(band.Band, bands[number-1].Band) {
			band.line.fault("From", "The %s bands of %s are out of order: this one begins below the one above it. Put them in order of size.", band.Part, band.Species)
			return
		}
	}
	for number := 1; number < len(bands); number++ {
		checkJoint(bands[number-1].Band, bands[number], figure)
	}
}

func startsBefore(a, b Band) bool {
	if !a.From.Valid || !b.From.Valid {
		return b.From.Valid && !a.From.Valid
	}
	return a.From.Decimal.LessThan(b.From.Decimal)
}

// checkJoint looks at where two neighbouring bands meet.
func checkJoint(lower Band, upper gridEntry, figure string) {
	from, upTo := upper.Band.From, lower.UpTo
	if !from.Valid {
		upper.line.fault("From", "This band overlaps the one above it, because it has no lower end. Fill it in.")
		return
	}
	if !upTo.Valid {
		upper.line.fault("From", "This band overlaps the one above it, which has no upper end. Fill in the upper end, or take one of the two out.")
		return
	}
	order := upTo.Decimal.Cmp(from.Decimal)
	switch {
	case order > 0:
		upper.line.fault("From", "This band overlaps the one above it: a %s from %s to %s is in both.", figure, from.Decimal, least(upTo.Decimal, upper.Band.UpTo))
	case order < 0:
		upper.line.fault("From", "There is a gap above this band: a %s between %s and %s is in no band.", figure, upTo.Decimal, from.Decimal)
	case lower.UpToIsIn && upper.Band.FromIsIn:
		upper.line.fault("From counts", "A %s of exactly %s is in this band and in the one above it. Say no under \"From counts\" here or under \"Up to counts\" there.", figure, from.Decimal)
	case !lower.UpToIsIn && !upper.Band.FromIsIn:
		upper.line.fault("From counts", "A %s of exactly %s is in no band. Say yes under \"From counts\" here or under \"Up to counts\" in the line above.", figure, from.Decimal)
	}
}

func least(a decimal.Decimal, b decimal.NullDecimal) decimal.Decimal {
	if b.Valid && b.Decimal.LessThan(a) {
		return b.Decimal
	}
	return a
}

func checkGradesPriced(species Species, lines []gridEntry) {
	if len(lines) == 0 {
		return
	}
	var named []string
	for _, line := range lines {
		named = append(named, line.Name)
	}
	last := lines[len(lines)-1].line
	for _, whole := range mustBePriced(species) {
		all := thirdsOf(species, whole)
		missing := missingFrom(all, named)
		switch {
		case slices.Contains(named, whole) || len(missing) == 0:
		case len(missing) == len(all):
			last.fault("$/cwt", "The grid has no price for %s of %s. Add a quality line for it; 0 adds and takes off nothing.", whole, species)
		default:
			last.fault("$/cwt", "The grid has no price for %s of %s. Add a quality line for it, or price the whole grade.", phrase.JoinAnd(missing), species)
		}
	}
}

func missingFrom(words, named []string) []string {
	var missing []string
	for _, word := range words {
		if !slices.Contains(named, word) {
			missing = append(missing, word)
		}
	}
	return missing
}

// checkBasePrice looks whether a species with a grid has a base price.
func (l *loading) checkBasePrice(species Species) {
	priced := slices.ContainsFunc(l.book.Grid, func(line GridLine) bool { return line.Species == species })
	if !priced || l.book.Settings.BasePrice[species].Valid {
		return
	}
	for _, line := range l.quietly(SettingsTable) {
		if name, _ := among(line.text("Setting"), []string{"base price"}); name != "" && Species(fold(line.text("Species"))) == species {
			if line.text("Value") == "" {
				line.fault("Value", "The base price of %s is missing, and the value grid has premiums and discounts for it. Write the base price in $/cwt of carcass.", species)
			}
			return
		}
	}
}

// quietly gives the lines of a sheet that was gone through already, without its faults a second time.
func (l *loading) quietly(name string) []line {
	aside := &loading{book: l.book}
	lines := aside.lines(name)
	for number := range lines {
		lines[number].loading = l
	}
	return lines
}
