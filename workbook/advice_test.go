package workbook

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"
)

// advised is a workbook with one of its findings, whose advice is to be followed.
type advised struct {
	t       *testing.T
	sheet   adviceSheet
	results *result.Results
	finding validate.Finding
}

// advice is one thing that a finding may say is to be done, and how it is done word for word. A follower gives the workbook
// to be read then, and the options; an empty path is for what can't be done to a file of this kind.
type advice struct {
	words  *regexp.Regexp
	follow func(a *advised, found []string) (path string, options Options)
}

// decides are the words by which a finding leaves it to the judge, whose decisions are run for all findings at once.
var decides = regexp.MustCompile(`(?i)\baccept|leave (?:it|them|the carcass|one|these carcasses) out|in the Judge review sheet|the judge says|The inspector alone decides|Ask the (?:judge|plant)|Look at the card|Confirm (?:it|the mark)\b`)

var columnOption = regexp.MustCompile(`--column ("[^"]*"|'[^']*')`)

var advices = []advice{
	{columnOption, func(a *advised, found []string) (string, Options) {
		options := a.sheet.options
		options.Columns = map[measure.ID]string{}
		maps.Copy(options.Columns, a.sheet.options.Columns)
		for _, option := range columnOption.FindAllStringSubmatch(a.finding.Message, -1) { // all that the sentence names
			name, heading, _ := strings.Cut(strings.Trim(option[1], `"'`), "=")
			id, known := rules.FindMeasure(name)
			if !known {
				a.t.Errorf("--column %s names no measure", option[1])
			}
			if a.finding.Code == "mapped heading not found" {
				heading = a.results.Read.Blocks[0].Headings[1].Text // "as it stands there"
			}
			options.Columns[id] = heading
		}
		return a.sheet.path, options
	}},
	{regexp.MustCompile(`say it with --species`), func(a *advised, _ []string) (string, Options) {
		options := a.sheet.options
		options.Species = rules.Beef
		return a.sheet.path, options
	}},
	{regexp.MustCompile(`name it in the sheet's title, its name or a`), func(a *advised, _ []string) (string, Options) {
		return a.changed(func(file *excelize.File) {
			if err := file.SetSheetName(a.finding.At.Sheet, "Steers"); err != nil {
				a.t.Fatal(err)
			}
		}), a.sheet.options
	}},
	{regexp.MustCompile(`Write it into the heading \(such as "(Chilled weight)"`), func(a *advised, found []string) (string, Options) {
		path := a.typed(map[rules.Place]string{a.finding.At: found[1]})
		parts := partsOfFile(a.t, path)
		for name := range parts {
			if strings.Contains(name, "comments") {
				parts[name] = strings.ReplaceAll(parts[name], a.finding.Read, "") // the comment is taken off
			}
		}
		if err := os.WriteFile(path, packageOf(a.t, parts), 0o600); err != nil {
			a.t.Fatal(err)
		}
		return path, a.sheet.options
	}},
	{regexp.MustCompile(`Write its class in a column headed (Class)`), func(a *advised, found []string) (string, Options) {
		return a.typed(a.beside(a.finding.Carcass, measure.ClassName, found[1], a.soundValue(measure.ClassName))), a.sheet.options
	}},
	{regexp.MustCompile(`It may be |[Cc]orrect (?:the cell|the wrong one|both cells|it to the other|the other)|before correcting both tags|[Tt]ype (?:the|it|its)|[Ff]ill in the cell|[Ww]rite (?:its (?:tag|class,)|it (?:out|in |as)|a number from|0, 1/3)`), func(a *advised, _ []string) (string, Options) {
		return a.typed(a.rightValues()), a.sheet.options
	}},
	{regexp.MustCompile(`open the workbook in a spreadsheet program, save it`), func(a *advised, _ []string) (string, Options) {
		office := officeProgram()
		if office == "" || os.Getenv("RAILBOOK_LONG") == "" {
			return "", a.sheet.options
		}
		path := filepath.Join(a.t.TempDir(), filepath.Base(a.sheet.path))
		data, err := savedAs("xlsx", longestConversion, office, a.t.TempDir(), a.sheet.path)
		if err != nil {
			a.t.Fatal(err)
		}
		if err := os.WriteFile(path, data, 0o600); err != nil {
			a.t.Fatal(err)
		}
		return path, a.sheet.options
	}},
	{regexp.MustCompile(`mend them|write its values again|write a value|write yes where|Write yes where`), func(a *advised, _ []string) (string, Options) {
		return a.typed(a.columnAgain()), a.sheet.options
	}},
	{regexp.MustCompile(`write yes on the line in a column headed "([^"]*)"`), func(a *advised, found []string) (string, Options) {
		cells := map[rules.Place]string{}
		for _, carcass := range a.finding.Others {
			maps.Copy(cells, a.beside(carcass, a.finding.Measure, found[1], "yes"))
		}
		return a.typed(cells), a.sheet.options
	}},
	{regexp.MustCompile(`write "(Class: [^"]*)" there`), func(a *advised, found []string) (string, Options) {
		return a.typed(map[rules.Place]string{a.finding.At: found[1]}), a.sheet.options
	}},
	{regexp.MustCompile(`Rename the one that means something else`), func(a *advised, _ []string) (string, Options) {
		return a.typed(map[rules.Place]string{a.finding.At: "Lot"}), a.sheet.options
	}},
	{regexp.MustCompile(`correct the heading`), func(a *advised, _ []string) (string, Options) {
		return a.typed(map[rules.Place]string{a.finding.At: a.finding.Hint}), a.sheet.options
	}},
	{regexp.MustCompile(`write "(start weight)" in the heading above sheet "([^"]*)", cell ([A-Z]+)\d+`), func(a *advised, found []string) (string, Options) {
		for _, block := range a.results.Read.Blocks {
			if block.Sheet == found[2] {
				return a.typed(map[rules.Place]string{{Sheet: found[2], Cell: found[3] + strconv.Itoa(block.FirstRow)}: found[1]}), a.sheet.options
			}
		}
		return "", a.sheet.options
	}},
	{regexp.MustCompile(`write Tag above that one`), func(a *advised, _ []string) (string, Options) {
		return a.typed(map[rules.Place]string{a.finding.At: "Tag"}), a.sheet.options
	}},
	{regexp.MustCompile(`write "(hot|chilled)"(?: or "chilled")? in the heading`), func(a *advised, found []string) (string, Options) {
		heading, hot := a.heading(), regexp.MustCompile(`(?i)\bhot\b`)
		if heading = hot.ReplaceAllString(heading, found[1]); heading == a.heading() { // there is no hot to put it in the place of
			heading += " " + found[1]
		}
		return a.typed(map[rules.Place]string{a.finding.At: heading}), a.sheet.options
	}},
	{regexp.MustCompile(`write "hot" or "(chilled)" in the heading or above it`), func(a *advised, found []string) (string, Options) {
		return a.lineAbove(found[1]), a.sheet.options
	}},
	{regexp.MustCompile(`write "(Skinned: no)" or "Skinned: yes" above the headings`), func(a *advised, found []string) (string, Options) {
		return a.lineAbove(found[1]), a.sheet.options
	}},
	{regexp.MustCompile(`looks like ([a-z ]+)\. If it is so, say the unit in the heading`), func(a *advised, found []string) (string, Options) {
		return a.typed(map[rules.Place]string{a.finding.At: a.heading() + " (" + found[1] + ")"}), a.sheet.options
	}},
	{regexp.MustCompile(`[Dd]elete the (?:sheet|one)`), func(a *advised, _ []string) (string, Options) {
		return a.changed(func(file *excelize.File) { a.delete(file, a.finding.At.Sheet) }), a.sheet.options
	}},
	{regexp.MustCompile(`keep it in a file of its own and compare the two with --second`), func(a *advised, _ []string) (string, Options) {
		options := a.sheet.options
		options.Second = a.changed(func(file *excelize.File) {
			for _, name := range file.GetSheetList() {
				if name != a.finding.At.Sheet {
					a.delete(file, name)
				}
			}
		})
		return a.changed(func(file *excelize.File) { a.delete(file, a.finding.At.Sheet) }), options
	}},
	{regexp.MustCompile(`write the class of each`), func(a *advised, _ []string) (string, Options) {
		return a.typed(a.classOfEach()), a.sheet.options
	}},
	{regexp.MustCompile(`write the exhibitor beside the carcass`), func(a *advised, _ []string) (string, Options) {
		cells := map[rules.Place]string{}
		for i, doubt := range a.results.Read.Doubts {
			maps.Copy(cells, a.beside(doubt.Carcass, measure.Exhibitor, "Exhibitor", doubt.Names[i%len(doubt.Names)]))
		}
		return a.typed(cells), a.sheet.options
	}},
	{regexp.MustCompile(`Unmerge the cells and write each carcass its own value`), func(a *advised, _ []string) (string, Options) {
		return a.changed(func(file *excelize.File) {
			merged, err := file.GetMergeCells(a.finding.At.Sheet)
			if err != nil {
				a.t.Fatal(err)
			}
			for _, cell := range merged {
				if err := file.UnmergeCell(a.finding.At.Sheet, cell.GetStartAxis(), cell.GetEndAxis()); err != nil {
					a.t.Fatal(err)
				}
			}
			put(a.t, file, a.finding.At.Sheet, a.finding.At.Cell, a.soundValue(a.finding.Measure))
		}), a.sheet.options
	}},
	{regexp.MustCompile(`Correct what the sheet says`), func(a *advised, _ []string) (string, Options) {
		reading, _ := a.results.Read.Carcasses[0].Reading(measure.Skinned)
		return a.typed(map[rules.Place]string{reading.Place: "Swine carcasses"}), a.sheet.options
	}},
	{regexp.MustCompile(`set the marbling scale in the rulebook`), func(a *advised, _ []string) (string, Options) {
		options := a.sheet.options
		options.Rulebook = newRulebook(a.t, "rulebook.xlsx", "")
		boardEdits(a.t, options.Rulebook, func(file *excelize.File) {
			set(a.t, file, "Settings", "C"+rowOf(a.t, file, "marbling scale"), string(rules.MarblingSince22))
		})
		return a.sheet.path, options
	}},
	{regexp.MustCompile(`set "(quality grade without marbling)" to "(plant's own)" in the Settings of the rulebook`), func(a *advised, found []string) (string, Options) {
		options := a.sheet.options
		options.Rulebook = newRulebook(a.t, "rulebook.xlsx", "")
		boardEdits(a.t, options.Rulebook, func(file *excelize.File) { set(a.t, file, "Settings", "C"+rowOf(a.t, file, found[1]), found[2]) })
		return a.sheet.path, options
	}},
	{regexp.MustCompile(`Add the column`), func(a *advised, _ []string) (string, Options) {
		cells := map[rules.Place]string{}
		for b := range a.results.Read.Blocks {
			block := &a.results.Read.Blocks[b]
			column := block.LastColumn
			for _, id := range grading.Needed(block.Carcasses[0].Species, block.Carcasses[0].Basis) {
				if block.Sheet != a.finding.At.Sheet || !strings.Contains(a.finding.Message, calledInWords(id)) {
					continue
				}
				column++
				definition, _ := measure.Define(id)
				cells[rules.Place{Sheet: block.Sheet, Cell: address.Cell(column, block.FirstRow)}] = definition.Heading
				for i, line := range block.Lines {
					value := a.soundValue(id)
					if id == measure.Marbling || id == measure.MarblingScore {
						value = a.marblingOf(block.Carcasses[i], value)
					}
					cells[rules.Place{Sheet: block.Sheet, Cell: address.Cell(column, line)}] = value
				}
			}
		}
		return a.typed(cells), a.sheet.options
	}},
}

// marblingOf gives the marbling score that goes with the plant's own quality grade of a carcass, or what is given where it has none.
func (a *advised) marblingOf(carcass *grading.Carcass, otherwise string) string {
	stamped, has := carcass.Reading(measure.SheetQualityGrade)
	for score := int64(150); has && score < 1000; score += 10 {
		twin := carcass.Clone()
		twin.SetReading(measure.Marbling, grading.Reading{Value: measure.NumberValue(decimal.NewFromInt(score))})
		switch grade, ok := grading.Grade(twin, a.results.Rules).Figure(measure.QualityGrade); {
		case ok && grade.Number.Equal(stamped.Value.Number):
			return fmt.Sprint(score)
		case ok && grading.SameWholeGrade(grade, stamped.Value): // a whole grade is none of its thirds
			otherwise = fmt.Sprint(score)
		}
	}
	return otherwise
}

// calledInWords is how a missing measure is called.
func calledInWords(id measure.ID) string {
	if id == measure.AdjustedFat {
		return "fat thickness"
	}
	return id.String()
}

// heading is what stands in the cell of the finding.
func (a *advised) heading() string {
	book, err := xlsx.Open(a.sheet.path, xlsx.OpenOptions{})
	if err != nil {
		a.t.Fatal(err)
	}
	grid, err := book.Scan(a.finding.At.Sheet)
	if err != nil {
		a.t.Fatal(err)
	}
	for _, row := range grid.Rows {
		for _, cell := range row.Cells {
			if address.Cell(cell.Column, row.Number) == a.finding.At.Cell {
				return cell.Raw
			}
		}
	}
	return ""
}

func (a *advised) delete(file *excelize.File, sheet string) {
	if err := file.DeleteSheet(sheet); err != nil {
		a.t.Fatal(err)
	}
}

// typed gives a copy of the workbook with values typed into its cells.
func (a *advised) typed(cells map[rules.Place]string) string {
	if len(cells) == 0 && a.finding.Code == "mapped heading not found" {
		return ""
	}
	if len(cells) == 0 {
		a.t.Errorf("nothing can be typed for: %s", a.finding.Message)
		return ""
	}
	book, err := xlsx.Open(a.sheet.path, xlsx.OpenOptions{})
	if err != nil {
		a.t.Fatal(err)
	}
	bySheet := map[string]map[string]xlsx.CellChange{}
	for place, value := range cells {
		if bySheet[place.Sheet] == nil {
			bySheet[place.Sheet] = map[string]xlsx.CellChange{}
		}
		kind := xlsx.Text
		if looksLikeNumber.MatchString(value) && !strings.Contains(a.finding.Message, "as text") {
			kind = xlsx.Number
		}
		bySheet[place.Sheet][place.Cell] = xlsx.CellChange{Kind: kind, Value: value}
	}
	for sheet, changes := range bySheet {
		if err := book.SetCells(sheet, changes); err != nil {
			a.t.Fatal(err)
		}
	}
	data, err := book.Bytes()
	if err != nil {
		a.t.Fatal(err)
	}
	path := filepath.Join(a.t.TempDir(), filepath.Base(a.sheet.path))
	if err := os.WriteFile(path, data, 0o600); err != nil {
		a.t.Fatal(err)
	}
	return path
}

var looksLikeNumber = regexp.MustCompile(`^(?:[1-9]\d*|0)$|^(?:[1-9]\d*|0)?\.\d+$`)

// changed gives a copy of the workbook that somebody has worked on; empty for a text file.
func (a *advised) changed(change func(*excelize.File)) string {
	if !strings.HasPrefix(filepath.Ext(a.sheet.path), ".xls") {
		return ""
	}
	path := filepath.Join(a.t.TempDir(), filepath.Base(a.sheet.path))
	edit(a.t, a.sheet.path, path, change)
	return path
}

// lineAbove puts a line above the headings at the finding's cell.
func (a *advised) lineAbove(words string) string {
	return a.changed(func(file *excelize.File) {
		row := a.results.Read.Blocks[0].FirstRow
		for _, block := range a.results.Read.Blocks {
			if _, at, err := excelize.CellNameToCoordinates(a.finding.At.Cell); err == nil && block.Sheet == a.finding.At.Sheet && at <= block.FirstRow {
				row = at
				break
			}
		}
		for filled := 2; row > 1 && filled > 1; { // a heading over several lines
			filled = 0
			for column := range 20 {
				if value, _ := file.GetCellValue(a.finding.At.Sheet, address.Cell(column+1, row-1)); value != "" {
					filled++
				}
			}
			if filled > 1 {
				row--
			}
		}
		if err := file.InsertRows(a.finding.At.Sheet, row, 1); err != nil {
			a.t.Fatal(err)
		}
		put(a.t, file, a.finding.At.Sheet, address.Cell(1, row), words)
	})
}

// rightValues gives what is to be typed for a value that is wrong, missing or can't be read.
func (a *advised) rightValues() map[rules.Place]string {
	at, finding := a.finding.At, &a.finding
	if finding.Code == "row without tag" || finding.Code == "tag missing" {
		for b := range a.results.Read.Blocks {
			block := &a.results.Read.Blocks[b]
			for _, heading := range block.Headings {
				if _, row, err := excelize.CellNameToCoordinates(at.Cell); err == nil && block.Sheet == at.Sheet && heading.Measure == measure.Tag {
					return map[rules.Place]string{{Sheet: at.Sheet, Cell: block.CellAt(heading, row)}: "9901"}
				}
			}
		}
	}
	if finding.Exchange.Cell != "" {
		return map[rules.Place]string{at: finding.Hint, finding.Exchange: finding.Read}
	}
	if finding.Hint != "" {
		return map[rules.Place]string{at: finding.Hint}
	}
	if finding.Code == "mapped heading not found" {
		return nil // what is to be written stands on the command line
	}
	if found := ownFigure.FindStringSubmatch(finding.Message); found != nil {
		return map[rules.Place]string{at: found[1]}
	}
	if finding.Code == "two values for one measure" {
		return map[rules.Place]string{at: finding.Carcass.ReadingOf(finding.Measure).Written}
	}
	return map[rules.Place]string{at: a.soundValue(finding.Measure)}
}

var ownFigure = regexp.MustCompile(`its measures give ([\d.]+\d|[A-Z]\w+(?: \w+)?)`)

// soundValue is what another carcass has of a measure, or what an ordinary steer has.
func (a *advised) soundValue(id measure.ID) string {
	if id == measure.Tag || id == measure.ElectronicTag || id == measure.RailNumber {
		return "9901"
	}
	for _, carcass := range a.results.Read.Carcasses {
		if reading, has := carcass.Reading(id); has && carcass != a.finding.Carcass && carcass.Species == a.species() {
			return reading.Written
		}
	}
	if id == measure.HotCarcassWeight && a.species() != rules.Beef {
		return map[rules.Species]string{rules.Swine: "205", rules.Lamb: "68", rules.Goat: "42"}[a.species()]
	}
	return map[measure.ID]string{
		measure.HotCarcassWeight: "780", measure.MeasuredFat: "0.4", measure.RibeyeArea: "13.1", measure.InternalFat: "2.5", measure.Marbling: "Small 40", measure.MarblingScore: "Small 40", measure.AdjustedFat: "0.4", measure.LegScore: "12", measure.OldTag: "9902",
		measure.ClassName: "Steers", measure.SheetQualityGrade: "Ch-", measure.DarkCutterLowering: "1/3", measure.Exhibitor: "Aster Gatepost", measure.Trimmed: "no",
	}[id]
}

func (a *advised) species() rules.Species {
	if a.finding.Carcass != nil {
		return a.finding.Carcass.Species
	}
	return a.results.Read.Carcasses[0].Species
}

var cellWritten = regexp.MustCompile(`\b([A-Z]{1,2}\d+) "`)

// columnAgain gives new values for every cell of a column that could not be read: those the message lists, and the rest.
func (a *advised) columnAgain() map[rules.Place]string {
	value := a.soundValue(a.finding.Measure)
	if a.finding.Measure == measure.Consent {
		value = "yes"
	}
	cells := map[rules.Place]string{}
	for _, found := range cellWritten.FindAllStringSubmatch(a.finding.Message, -1) {
		cells[rules.Place{Sheet: a.finding.At.Sheet, Cell: found[1]}] = value
	}
	for b := range a.results.Read.Blocks {
		block := &a.results.Read.Blocks[b]
		for _, heading := range block.Headings {
			if block.Sheet != a.finding.At.Sheet || heading.Text != a.finding.Read {
				continue
			}
			for i, carcass := range block.Carcasses {
				line := block.Lines[i]
				if reading, has := carcass.Written(a.finding.Measure); !has || reading.Unreadable {
					cells[rules.Place{Sheet: block.Sheet, Cell: block.CellAt(heading, line)}] = value
				}
			}
		}
	}
	return cells
}

// beside gives the cell of a measure on a carcass's line, in a new column where its block has none.
func (a *advised) beside(carcass *grading.Carcass, id measure.ID, heading, value string) map[rules.Place]string {
	cells := map[rules.Place]string{}
	for b := range a.results.Read.Blocks {
		block := &a.results.Read.Blocks[b]
		line, here := block.Line(carcass)
		if !here {
			continue
		}
		for _, heading := range block.Headings {
			if heading.Measure == id {
				cells[rules.Place{Sheet: block.Sheet, Cell: block.CellAt(heading, line)}] = value
				return cells
			}
		}
		cells[rules.Place{Sheet: block.Sheet, Cell: address.Cell(block.LastColumn+1, block.FirstRow)}] = heading
		cells[rules.Place{Sheet: block.Sheet, Cell: address.Cell(block.LastColumn+1, line)}] = value
	}
	return cells
}

// classOfEach writes every carcass its class, that of its sheet where sheets are to be told apart.
func (a *advised) classOfEach() map[rules.Place]string {
	cells := map[rules.Place]string{}
	for _, block := range a.results.Read.Blocks {
		for _, carcass := range block.Carcasses {
			class := carcass.Class
			if a.finding.Code == "class of several sheets" {
				class += " " + block.Sheet
			}
			if class != "" && (a.finding.At.Sheet == "" || a.finding.At.Sheet == block.Sheet) {
				maps.Copy(cells, a.beside(carcass, measure.ClassName, "Class", class))
			}
		}
	}
	return cells
}

// findingKey tells findings apart before and after an advice is followed.
type findingKey struct {
	code        string
	sheet, cell string
	measure     measure.ID
}

// saysOf is what a finding is about wherever it stands: lines move when one is put above them.
func (k findingKey) saysOf() findingKey { return findingKey{code: k.code, measure: k.measure} }

func keyOf(finding validate.Finding) findingKey {
	return findingKey{finding.Code, finding.At.Sheet, finding.At.Cell, finding.Measure}
}

// openFindings gives the open Holds and Looks.
func openFindings(results *result.Results) map[findingKey]validate.Finding {
	open := map[findingKey]validate.Finding{}
	for _, finding := range results.Findings {
		if finding.Settled == nil && finding.Level != validate.Note {
			open[keyOf(finding)] = finding
		}
	}
	return open
}

// TestEveryPrintedAdviceIsRun does what every finding says is to be done, word for word, on the examples of the pages and on
// every layout: the finding is gone then, and nothing worse has come.
func TestEveryPrintedAdviceIsRun(t *testing.T) {
	var followed, asked int
	for number, sheet := range adviceSheets(t) {
		if os.Getenv("RAILBOOK_LONG") == "" && (!sheet.example && number%4 != 0 || testing.Short() && number%3 != 0) {
			continue
		}
		t.Run(sheet.name, func(t *testing.T) {
			results, err := Examine(sheet.path, sheet.options)
			if err != nil {
				t.Fatal(err)
			}
			done, found := followAdvices(t, sheet, results)
			followed, asked = followed+done, asked+found
		})
	}
	t.Logf("%d advices followed for %d findings", followed, asked)
}

// followAdvices does what each finding of a workbook says is to be done, and counts what was followed and what was asked.
func followAdvices(t *testing.T, sheet adviceSheet, results *result.Results) (followed, asked int) {
	t.Helper()
	for _, finding := range results.Findings {
		if finding.Level == validate.Note {
			continue
		}
		asked++
		known := decides.MatchString(finding.Message)
		for _, advice := range advices {
			found := advice.words.FindStringSubmatch(finding.Message)
			if found == nil {
				continue
			}
			known = true
			a := &advised{t, sheet, results, finding}
			if path, options := advice.follow(a, found); path != "" {
				followed++
				compareAdvised(t, a, found[0], path, options)
			}
		}
		if !known {
			t.Errorf("%s says nothing that can be done: %s", finding.Code, finding.Message)
		}
	}
	return followed, asked
}

// compareAdvised grades what was done, and says where the finding is still there or something worse has come.
func compareAdvised(t *testing.T, a *advised, advice, path string, options Options) {
	t.Helper()
	say := func(format string, values ...any) {
		t.Errorf("%s\n  advised by %q, followed by %q: %s", fmt.Sprintf(format, values...), a.finding.Code, advice, a.finding.Message)
	}
	after, err := Examine(path, options)
	if err != nil {
		say("can't be graded any more: %v", err)
		return
	}
	if finding, still := openFindings(after)[keyOf(a.finding)]; still {
		say("it is still said: %s", finding.Message)
	}
	was, at := map[findingKey]bool{}, map[rules.Place]bool{}
	for key, finding := range openFindings(a.results) {
		was[key.saysOf()] = true
		at[finding.At] = true
	}
	more := Count(after).Placed > Count(a.results).Placed || a.sheet.example || a.finding.Code == "heading not recognised"
	for key, finding := range openFindings(after) {
		switch {
		case was[key.saysOf()], at[finding.At]: // it was said, or something else of the same cell
		case more && unasked[finding.Code]: // what nobody asks while the carcasses can't be placed for another reason
		case strings.HasPrefix(advice, `--column "fat adjustment=`) && finding.Measure == measure.FatAdjustment: // they are too large to be added
		case a.finding.Code == "chilled given for hot" && finding.Code == "sheet's own yield grade disagrees throughout": // the plant's shrink is not the rulebook's
		case a.sheet.example && finding.Code == "value of the row above": // the lines of an example differ in little
		case strings.HasPrefix(advice, "write yes on the line") && strings.HasPrefix(finding.Code, "condition: "): // every mark is to be confirmed
		case strings.HasSuffix(advice, "--second") && finding.Code == "second entry differs": // which is what comparing is for
		default:
			say("something new is said: %s, %s: %s", finding.Level, finding.Code, finding.Message)
		}
	}
	if Count(after).Placed < Count(a.results).Placed && !strings.Contains(advice, "elete") {
		say("fewer carcasses are placed, %d of %d: %v", Count(after).Placed, Count(a.results).Placed, slices.Collect(maps.Values(openFindings(after))))
	}
}

// unasked are the questions that are put only about carcasses that can be placed, or that an example of the page does not
// trouble to answer.
var unasked = map[string]bool{
	"KPH not given": true, "maturity not given": true, "hot or chilled not stated": true, "column missing": true, "value missing": true,
	"can't be placed": true, "skin not stated": true,
}

// TestEveryDecisionThatIsOfferedSettles decides every finding of every layout in each of the ways that its words offer: then
// it is settled, no decision is without effect, and nothing new has come.
func TestEveryDecisionThatIsOfferedSettles(t *testing.T) {
	for number, sheet := range adviceSheets(t) {
		if os.Getenv("RAILBOOK_LONG") == "" && number%11 != 0 {
			continue
		}
		t.Run(sheet.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), filepath.Base(sheet.path))
			if err := os.WriteFile(path, bytesOf(t, sheet.path), 0o600); err != nil {
				t.Fatal(err)
			}
			first, err := Grade(path, sheet.options)
			if err != nil {
				t.Fatal(err)
			}
			graded := bytesOf(t, first.Path)
			for _, way := range []struct {
				name  string
				words *regexp.Regexp
				fill  func(hint string) (validate.Choice, string)
			}{
				{"accepted", decides, func(string) (validate.Choice, string) { return validate.Accept, "" }},
				{"left out", regexp.MustCompile(`(?i)leave (?:it|them|the carcass|one|these carcasses) out`), func(string) (validate.Choice, string) { return validate.LeaveOut, "" }},
				{"marked", regexp.MustCompile(`correct [a-z ]+ to yes`), func(string) (validate.Choice, string) { return validate.Correct, "yes" }},
				{"corrected", regexp.MustCompile(`Correct the cell or mark it in the Judge review sheet|It may be`), func(hint string) (validate.Choice, string) { return validate.Correct, hint }},
			} {
				decided := map[findingKey]bool{}
				var filled []func(file *excelize.File)
				for _, finding := range first.Results.Findings {
					choice, value := way.fill(finding.Hint)
					if finding.Level == validate.Note || !way.words.MatchString(finding.Message) || choice == validate.Correct && value == "" {
						continue
					}
					filled = append(filled, func(file *excelize.File) { decideFinding(t, file, finding, choice, value) })
					decided[keyOf(finding)] = true
				}
				if len(decided) == 0 {
					continue
				}
				results := filepath.Join(t.TempDir(), filepath.Base(first.Path))
				if err := os.WriteFile(results, graded, 0o600); err != nil {
					t.Fatal(err)
				}
				edit(t, results, results, func(file *excelize.File) {
					for _, fill := range filled {
						fill(file)
					}
				})
				again, err := Grade(results, Options{Second: sheet.options.Second, Date: "2025-08-21"})
				if err != nil {
					t.Fatal(err)
				}
				was := openFindings(first.Results)
				tookIn := way.name == "accepted" && slices.ContainsFunc(first.Results.Findings, func(finding validate.Finding) bool { return finding.Code == intake.SheetSetAside })
				for key, finding := range openFindings(again.Results) {
					switch _, before := was[key]; {
					case decided[key]:
						t.Errorf("%s, and still open: %s: %s", way.name, finding.Code, finding.Message)
					case before, unasked[finding.Code], strings.HasPrefix(finding.Code, "condition: "), tookIn && strings.Contains(finding.Message, "sheet"):
					default:
						t.Errorf("%s, and something new is said: %s: %s", way.name, finding.Code, finding.Message)
					}
				}
			}
		})
	}
}

// decideFinding fills in the row of a finding in the Judge review sheet.
func decideFinding(t *testing.T, file *excelize.File, finding validate.Finding, choice validate.Choice, value string) {
	t.Helper()
	for _, row := range reviewRows(t, file) {
		holds := func(column, wanted string) bool { return wanted == "" || row.at(column) == wanted }
		if !holds(record.KeyRowColumn, "finding") || !holds(record.KeyCodeColumn, finding.Code) || !holds(record.KeyCellColumn, finding.At.Cell) ||
			!holds(record.KeySheetColumn, finding.At.Sheet) || !holds(record.KeyMeasureColumn, finding.Measure.String()) {
			continue
		}
		row.write(map[string]string{record.DecisionColumn: string(choice), record.CorrectedColumn: value, record.InitialsColumn: "HQ"})
		return
	}
	t.Errorf("no row of the Judge review sheet is about %s: %s", finding.Code, finding.Message)
}
