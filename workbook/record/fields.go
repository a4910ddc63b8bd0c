package record

import "railbook/rules/measure"

// Field is a text that is kept, and shown on a sheet of ours, under a name.
type Field struct {
	Name    string
	Text    *string
	Measure *measure.ID // in place of a text: the measure whose name it is
}

// Value is what the field says.
func (f Field) Value() string {
	if f.Measure != nil {
		return f.Measure.String()
	}
	return *f.Text
}

// Set makes the field say a text; a measure is one of the table.
func (f Field) Set(text string, measures *measure.Table) {
	if f.Measure != nil {
		*f.Measure = measures.ByName(text)
		return
	}
	*f.Text = text
}

// RunFields are the texts of a run that a signature covers.
func RunFields(run *Run) []Field {
	return []Field{
		{Name: JudgeLine, Text: &run.Judge},
		{Name: SignedLine, Text: &run.Date},
		{Name: InputNameLine, Text: &run.InputName},
		{Name: InputSHALine, Text: &run.InputSHA256},
		{Name: VersionLine, Text: &run.Version},
		{Name: RulebookLine, Text: &run.Rulebook},
		{Name: RulebookSHALine, Text: &run.RulebookSHA},
		{Name: OwnRulebookLine, Text: &run.OwnRulebookSHA},
		{Name: StateLine, Text: &run.State},
	}
}

// ChangeFields are the texts of a change.
func ChangeFields(change *Change) []Field {
	return []Field{
		{Name: WhenColumn, Text: &change.When},
		{Name: WhoColumn, Text: &change.Who},
		{Name: ClassColumn, Text: &change.Class},
		{Name: TagColumn, Text: &change.Tag},
		{Name: MeasureColumn, Measure: &change.Measure},
		{Name: SheetColumn, Text: &change.At.Sheet},
		{Name: CellColumn, Text: &change.At.Cell},
		{Name: WasColumn, Text: &change.Was},
		{Name: IsColumn, Text: &change.Is},
		{Name: MovedColumn, Text: &change.Moved},
		{Name: FileColumn, Text: &change.At.File},
	}
}

// LastYearFields are the texts of a past year's figure.
func LastYearFields(line *LastYearLine) []Field {
	return []Field{
		{Name: FileColumn, Text: &line.File},
		{Name: SpeciesColumn, Text: &line.Species},
		{Name: KindColumn, Text: &line.Kind},
		{Name: FigureColumn, Text: &line.Figure},
		{Name: OfColumn, Text: &line.Of},
		{Name: OrderColumn, Text: &line.Order},
		{Name: ValueColumn, Text: &line.Value},
	}
}
