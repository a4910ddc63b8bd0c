package fair

import (
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/xlsx"
)

// The headings of the two columns that no formula fills.
const (
	placeHeading = "Place"
	flagHeading  = "Flag"
)

// columns puts what was computed beside the carcasses it was computed from.
type columns struct {
	*result.Results
	ranges map[string]string // of the Value grid sheet, with the sheet's name
	views  []record.View     // what was written
	common map[lackedColumn]commonLack
}

// writeColumns adds the computed columns to the right of the data they come from: live formulas with their values, so
// that the arithmetic can be read in the cell. Where nothing can stand to the right (a text file, a sheet on its side,
// blocks side by side) they stand on a sheet of their own. It is called before the sheets are added, and marks the
// flagged cells. It gives what it wrote, as the record keeps it.
func writeColumns(results *result.Results) ([]record.View, error) {
	c := newColumns(results)
	var elsewhere []intake.Block
	number := 0
	for _, block := range results.Read.Blocks {
		if len(block.Carcasses) == 0 {
			continue
		}
		if results.Book.Text || block.Sideways || block.Beside {
			elsewhere = append(elsewhere, block)
			continue
		}
		number++
		if err := c.append(block, number); err != nil {
			return nil, err
		}
	}
	if err := c.flagCells(); err != nil {
		return nil, err
	}
	err := c.writeGraded(elsewhere)
	return c.views, err
}

func newColumns(results *result.Results) *columns {
	c := &columns{
		Results: results,
		ranges:  make(map[string]string),
		common:  make(map[lackedColumn]commonLack),
	}
	writer := &Writer{Results: results}
	grid := address.Sheet(results.Book.NameFor(record.ValueGridSheet)) + "!"
	for name, area := range grading.LayOutGrid(results.Rules, writer.gridSpecies()).Ranges {
		c.ranges[name] = grid + area
	}
	return c
}

// flagCells marks the cells that findings are about, on the sheets they stand on.
func (c *columns) flagCells() error {
	flagged := make(map[string][]string)
	for _, finding := range c.Findings {
		if finding.Settled == nil && finding.Level != validate.Note && finding.At.File == "" && finding.At.Cell != "" {
			flagged[finding.At.Sheet] = append(flagged[finding.At.Sheet], finding.At.Cell)
		}
	}
	for _, sheet := range c.Book.Sheets() {
		if err := c.Book.Flag(sheet.Name, flagged[sheet.Name]); err != nil {
			return err
		}
	}
	return nil
}

// kindsIn gives the species and bases among some carcasses, in the order in which they come.
func kindsIn(carcasses []*grading.Carcass) []result.KindOfClass {
	var kinds []result.KindOfClass
	for _, carcass := range carcasses {
		kind := result.KindOfClass{Species: carcass.Species, Basis: carcass.Basis}
		if len(kinds) == 0 || kinds[len(kinds)-1] != kind && !slices.Contains(kinds, kind) {
			kinds = append(kinds, kind)
		}
	}
	return kinds
}

// columnsFor gives the computed columns of every species and basis among some carcasses, each once; those of gain only
// where a carcass has the figure.
func (c *columns) columnsFor(kinds []result.KindOfClass, carcasses []*grading.Carcass) []grading.Column {
	var graded []*grading.Graded
	for _, carcass := range carcasses {
		graded = append(graded, c.Of(carcass).Graded)
	}
	var all []grading.Column
	for _, kind := range kinds {
		at := 0
		for _, column := range grading.ColumnsWith(kind.Species, kind.Basis, graded) {
			known := slices.IndexFunc(all, func(computed grading.Column) bool {
				return computed.Measure == column.Measure && computed.Heading == column.Heading
			})
			if known >= 0 {
				at = known + 1
				continue
			}
			all = slices.Insert(all, at, column)
			at++
		}
	}
	return all
}

// inputsFor gives the measures that the columns of some species are computed from, each once.
func inputsFor(kinds []result.KindOfClass) []measure.ID {
	var all []measure.ID
	for _, kind := range kinds {
		for _, id := range grading.Inputs(kind.Species, kind.Basis) {
			if !slices.Contains(all, id) {
				all = append(all, id)
			}
		}
	}
	return all
}

// flag says in a few words what the judge should know of a carcass, with the cells, and why columns are blank.
func (c *columns) flag(graded *grading.Graded, shown []grading.Column) string {
	carcass := c.Of(graded.Carcass)
	var sentences []string
	for _, level := range []struct {
		validate.Level
		words string
	}{{validate.Hold, "On hold"}, {validate.Look, "Look"}} {
		var found []string
		for _, finding := range carcass.Open() {
			if finding.Level == level.Level {
				found = append(found, briefly(finding, graded.Place.Sheet))
			}
		}
		if len(found) > 0 {
			sentences = append(sentences, level.words+": "+strings.Join(found, ", "))
		}
	}
	sentences = append(sentences, c.whyBlank(carcass, shown)...)
	if notPlaced := carcass.Standing.NotPlaced; notPlaced != nil && !carcass.Doubted() {
		sentences = append(sentences, "Not placed: "+strings.TrimSuffix(notPlaced.Reason, "."))
	}
	if placed := carcass.Standing.Placed; placed != nil && placed.JudgeTie {
		sentences = append(sentences, "Tied: the judge decides")
	}
	return strings.Join(sentences, ". ")
}

// briefly names a finding and its cell.
func briefly(finding *validate.Finding, sheet string) string {
	at := finding.At.Cell
	if finding.At.Sheet != sheet && at != "" {
		at = finding.At.Sheet + " " + at
	}
	if at == "" {
		return finding.Code
	}
	return finding.Code + " (" + at + ")"
}

// formatOf is the number format of a column.
func formatOf(column grading.Column) string {
	definition, _ := measure.Define(column.Measure)
	switch {
	case wordy(column.Measure):
		return ""
	case strings.HasPrefix(definition.Unit, "$"):
		return "#,##0." + strings.Repeat("0", max(column.Decimals, 1)) + apart
	case column.Decimals == 0:
		return "0" + apart
	}
	return "0." + strings.Repeat("0", column.Decimals) + apart
}

// apart keeps a number a little away from the text of the next column.
const apart = "_)"

// ownFormat is the number format of a cell whose figure the column's would lift to the next whole grade: as many
// decimals as it takes not to. 2.996 shows as 2.996, for it is a 2.
func ownFormat(column grading.Column, value measure.Value) string {
	places := column.Decimals
	for grading.RoundsToNextGrade(column.Measure, value.Number, int32(places)) {
		places++
	}
	if places == column.Decimals {
		return ""
	}
	return "0." + strings.Repeat("0", places) + apart
}

// wordy reports whether a measure is shown in words.
func wordy(id measure.ID) bool {
	definition, _ := measure.Define(id)
	return definition.Kind == measure.KindText || definition.Kind == measure.KindGrade
}

// widthOf fits a column to its heading on one line: the heading's row has the height that the user's headings need.
func widthOf(column grading.Column) float64 {
	wide := max(9, len([]rune(column.Heading))+2)
	switch definition, _ := measure.Define(column.Measure); definition.Kind {
	case measure.KindText:
		wide = max(wide, 23)
	case measure.KindGrade:
		wide = max(wide, 17)
	}
	return float64(wide)
}

const (
	placeWidth = 7
	flagWidth  = 48
)

// shown is one computed figure as a cell shows it; ok is false for a blank.
func shown(graded *grading.Graded, column grading.Column) (cell xlsx.NewCell, ok bool) {
	figure, computed := graded.Computed(column.Measure)
	value := figure.Value
	if !computed {
		if value, ok = graded.Figure(column.Measure); !ok {
			return xlsx.NewCell{}, false
		}
	}
	if figure.Missing != "" {
		return xlsx.NewCell{Kind: xlsx.Text, Value: value.Text}, value.Text != ""
	}
	if wordy(column.Measure) {
		return xlsx.NewCell{Kind: xlsx.Text, Value: value.Text}, true
	}
	return xlsx.NewCell{Kind: xlsx.Number, Value: measure.NumberText(value.Number), Format: ownFormat(column, value)}, true
}
