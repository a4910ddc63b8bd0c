package record

import (
	"iter"
	"maps"
	"slices"
	"strconv"
	"strings"

	"railbook/rules/address"
	"railbook/rules/measure"
)

// carcassFields is how many fields of a carcass's line stand before its readings: carcass, id, sheet, line, class, tag.
const carcassFields = 6

// readingLines writes a line for each carcass. Before them stand the measures in the order in which the lines have their
// readings, and of each sheet the column that a measure is read from, so that a cell is written only where it is another.
//
// A reading is its value; value~what is written, where that is another text; ~what is written, where it was not understood;
// and then @file@sheet@cell where it does not stand in the sheet's column for its measure. Each reading is sealed on the way.
func readingLines(records iter.Seq[Reading], seal *sealing, yield func(line string)) {
	var measures []measure.ID
	number := make(map[measure.ID]int)
	var sheets []*sheetColumns
	known := make(map[string]int)
	for kept := range records {
		number[kept.Measure] = 0
		if kept.File != "" {
			continue
		}
		at, there := known[kept.Sheet]
		if !there {
			at = len(sheets)
			known[kept.Sheet] = at
			sheets = append(sheets, &sheetColumns{name: kept.Sheet, columns: make(map[measure.ID]string)})
		}
		sheets[at].add(kept)
	}
	names := []string{measuresField}
	for _, id := range slices.SortedFunc(maps.Keys(number), measure.ID.Compare) {
		number[id] = len(measures)
		measures = append(measures, id)
		names = append(names, id.String())
	}
	yield(lineOf(names...))
	for _, sheet := range sheets {
		fields := []string{sheetField, sheet.name}
		for _, id := range measures {
			fields = append(fields, sheet.columns[id])
		}
		yield(lineOf(fields...))
	}
	var carcass []Reading
	for kept := range records {
		seal.reading(&kept)
		if len(carcass) > 0 && !sameCarcass(&carcass[0], &kept) {
			yield(carcassLine(carcass, number, sheets, known))
			carcass = carcass[:0]
		}
		carcass = append(carcass, kept)
	}
	if len(carcass) > 0 {
		yield(carcassLine(carcass, number, sheets, known))
	}
}

func sameCarcass(a, b *Reading) bool {
	return a.Carcass == b.Carcass && a.Class == b.Class && a.Tag == b.Tag && a.Line == b.Line
}

func carcassLine(records []Reading, number map[measure.ID]int, sheets []*sheetColumns, known map[string]int) string {
	own, first := ownSheet(records), records[0]
	sheet, columns := "", (*sheetColumns)(nil) // none of its own: every reading says where it stands
	if of, there := known[own]; there {
		sheet, columns = strconv.Itoa(of+1), sheets[of]
	}
	line := make([]string, carcassFields+len(number))
	copy(line, []string{carcassField, strconv.Itoa(first.Carcass), sheet, escaped(first.Line), escaped(first.Class), escaped(first.Tag)})
	pieces, last := line[carcassFields:], 0
	for _, kept := range records {
		at := number[kept.Measure]
		last = max(last, at+1)
		piece := escaped(kept.Value)
		switch {
		case kept.Value == "":
			piece = "~" + escaped(kept.Written)
		case kept.Written != kept.Value:
			piece += "~" + escaped(kept.Written)
		}
		if kept.File != "" || kept.Sheet != own || !columns.isUsual(&kept) {
			piece += "@" + escaped(kept.File) + "@" + escaped(kept.Sheet) + "@" + escaped(kept.Cell)
		}
		pieces[at] = piece
	}
	return strings.Join(line[:carcassFields+last], "|")
}

// ownSheet is the sheet a carcass stands in: that of its tag, else of its first reading in the workbook itself.
func ownSheet(records []Reading) (own string) {
	for _, kept := range records {
		if kept.File == "" && (own == "" || kept.Measure == measure.Tag) {
			own = kept.Sheet
		}
	}
	return own
}

// sheetColumns is where the measures stand on one sheet: letters name a column, on a sideways sheet a number names a row.
type sheetColumns struct {
	name    string
	columns map[measure.ID]string
}

func (s *sheetColumns) add(kept Reading) {
	if _, known := s.columns[kept.Measure]; known {
		return
	}
	column, row, ok := address.Parse(kept.Cell)
	if !ok {
		return
	}
	switch kept.Line {
	case strconv.Itoa(row):
		s.columns[kept.Measure] = address.Column(column)
	case strconv.Itoa(column):
		s.columns[kept.Measure] = strconv.Itoa(row)
	}
}

// cell gives the cell in which a measure usually stands on a line; empty where it has none.
func (s *sheetColumns) cell(id measure.ID, line string) string {
	column := s.columns[id]
	if column == "" {
		return ""
	}
	if column[0] >= 'A' {
		return column + line
	}
	number, err := strconv.Atoi(line)
	if err != nil {
		return ""
	}
	return address.Column(number) + column
}

// isUsual reports whether a reading stands in the cell in which its measure usually does.
func (s *sheetColumns) isUsual(kept *Reading) bool {
	if s == nil {
		return kept.Cell == ""
	}
	if letters := s.columns[kept.Measure]; letters != "" && letters[0] >= 'A' {
		return len(kept.Cell) == len(letters)+len(kept.Line) && strings.HasPrefix(kept.Cell, letters) && strings.HasSuffix(kept.Cell, kept.Line)
	}
	return kept.Cell == s.cell(kept.Measure, kept.Line)
}

// readingsReader reads the lines that readingLines writes, one after another.
type readingsReader struct {
	table    *measure.Table // of the rulebook in the same record
	measures []measure.ID
	sheets   []*sheetColumns
	records  []Reading
	named    bool // of each carcass only its name is wanted
}

// countPieces is how many readings the lines of carcasses may hold.
func countPieces(lines []string) (count int) {
	for _, line := range lines {
		if strings.HasPrefix(line, carcassField+"|") {
			count += max(0, strings.Count(line, "|")+1-carcassFields)
		}
	}
	return count
}

func (r *readingsReader) read(fields []string) {
	switch fields[0] {
	case measuresField:
		for _, name := range fields[1:] {
			r.measures = append(r.measures, r.table.ByName(name))
		}
	case sheetField:
		sheet := &sheetColumns{name: field(fields, 1), columns: make(map[measure.ID]string)}
		for i, column := range fields[min(2, len(fields)):] {
			if i < len(r.measures) && column != "" {
				sheet.columns[r.measures[i]] = column
			}
		}
		r.sheets = append(r.sheets, sheet)
	}
}

func (r *readingsReader) carcass(line string) {
	var fields [carcassFields]string
	rest, more := line, true
	for i := 0; more && i < carcassFields; i++ {
		fields[i], rest, more = strings.Cut(rest, "|")
		fields[i] = unescaped(fields[i])
	}
	id, _ := strconv.Atoi(fields[1])
	start := Reading{Carcass: id, Line: fields[3], Class: fields[4], Tag: fields[5]}
	var own *sheetColumns
	if number, err := strconv.Atoi(fields[2]); err == nil && number >= 1 && number <= len(r.sheets) {
		own = r.sheets[number-1]
		start.Sheet = own.name
	}
	if r.named {
		start.Measure, start.Written, start.Value = measure.Tag, start.Tag, start.Tag
		r.records = append(r.records, start)
		return
	}
	for i := 0; more && i < len(r.measures); i++ {
		var piece string
		if piece, rest, more = strings.Cut(rest, "|"); piece == "" {
			continue
		}
		kept := start
		kept.Measure = r.measures[i]
		said, place, elsewhere := strings.Cut(piece, "@")
		value, written, other := strings.Cut(said, "~")
		kept.Value = unescaped(value)
		kept.Written = kept.Value
		if other {
			kept.Written = unescaped(written)
		}
		if own != nil {
			kept.Cell = own.cell(kept.Measure, kept.Line)
		}
		if elsewhere {
			if of := strings.Split(place, "@"); len(of) == 3 {
				kept.File, kept.Sheet, kept.Cell = unescaped(of[0]), unescaped(of[1]), unescaped(of[2])
			}
		}
		r.records = append(r.records, kept)
	}
}
