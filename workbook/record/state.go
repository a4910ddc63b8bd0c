package record

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"iter"
	"slices"
	"strconv"
	"strings"

	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/validate"
)

// State is what a results workbook remembers between two gradings. It is kept on one hidden sheet, as lines of text; what
// is seen of it on other sheets is written from it and never read back.
type State struct {
	Run       Run
	Readings  iter.Seq[Reading] // carcass by carcass
	Decisions []validate.Decision
	Rulings   []placing.Ruling
	Words     map[string]string // the judge's own words: class + tab + tag → the text
	Changes   []Change
	LastYear  []LastYearLine
	Carried   []Carried // the files that were read along
	Rulebook  []rules.Table
	Outcomes  iter.Seq[SealedLine] // of a signed workbook: places and figures, in the order of their canonical texts; nil for none
	Written   []Written            // of a signed workbook: what stands beside the data
	Hidden    []Noted              // of a signed workbook: what was not shown
	OfFile    []Noted              // what was missing, damaged or in another form in the file that was graded, and no carcass depends on
	Views     []View               // the sheets that are written from all this, as they were written
	Whole     bool                 // it was read and is as it was written
	Changed   []int                // the rows, from 1, in which it is not; of a large record the first of several

	records []Reading // the readings, where they were read from a record
}

// Records gives the readings as a list; one that was read from a record is handed over and not copied.
func (s *State) Records() []Reading {
	if s.records != nil {
		return s.records
	}
	return slices.Collect(s.Readings)
}

// Form is the first line of a record, and says how the others are to be read.
const Form = "railbook record 1"

// rulebookFields is how many fields of a rulebook's line stand before its cells: rulebook, table.
const rulebookFields = 2

// The first fields of a record's lines.
const (
	runField      = "run"
	fileField     = "file"
	measuresField = "measures"
	sheetField    = "sheet"
	carcassField  = "carcass"
	decisionField = "decision"
	rulingField   = "ruling"
	wordsField    = "words"
	changeField   = "change"
	lastYearField = "last year"
	rulebookField = "rulebook"
	outcomeField  = "outcome"
	writtenField  = "written"
	hiddenField   = "hidden"
	ofFileField   = "of file"
	viewField     = "view"
	rowSumsField  = "row sums"
	digestField   = "digest"
)

// Lines writes the state as lines of text. The last two are sums of the lines before them, by which it is told which of them was
// changed, and the digest of all.
func (s *State) Lines() []string { return WithViews(s.LinesBeforeViews(), s.Views) }

// LinesBeforeViews gives the first of a state's lines: those that can be written before its sheets are.
func (s *State) LinesBeforeViews() []string { return s.linesBeforeViews(nil) }

// LinesAndSeal gives LinesBeforeViews and the Seal, for which all that was read and computed is gone through once.
func (s *State) LinesAndSeal() (lines []string, seal string) {
	sealed := s.beginSeal()
	lines = s.linesBeforeViews(sealed)
	return lines, sealed.end()
}

// linesBeforeViews makes the lines, and seals on the way what is in them.
func (s *State) linesBeforeViews(seal *sealing) []string {
	outcomes := s.outcomeLines(seal)
	lines := []string{Form}
	add := func(fields ...string) { lines = append(lines, lineOf(fields...)) }
	for _, field := range append(RunFields(&s.Run), ownRunFields(&s.Run)...) {
		if field.Value() != "" {
			add(runField, field.Name, field.Value())
		}
	}
	add(runField, RevisionLine, strconv.Itoa(s.Run.Revision))
	for _, file := range s.Carried {
		add(fileField, file.Role, file.Name, base64.StdEncoding.EncodeToString(file.Data))
	}
	readingLines(s.Readings, seal, func(line string) { lines = append(lines, line) })
	for i := range s.Decisions {
		add(append([]string{decisionField}, decisionTexts(&s.Decisions[i])...)...)
	}
	for _, ruling := range s.Rulings {
		add(rulingField, ruling.Class, ruling.Tag, strconv.Itoa(ruling.Place), ruling.Reason, ruling.Initials, ruling.Date)
	}
	for _, key := range sortedKeys(s.Words) {
		class, tag, _ := strings.Cut(key, "\t")
		add(wordsField, class, tag, s.Words[key])
	}
	for i := range s.Changes {
		add(append([]string{changeField}, textsOf(ChangeFields(&s.Changes[i]))...)...)
	}
	for i := range s.LastYear {
		add(append([]string{lastYearField}, textsOf(LastYearFields(&s.LastYear[i]))...)...)
	}
	for _, table := range s.Rulebook {
		for _, row := range table.Rows {
			fields := []string{rulebookField, table.Name}
			for _, cell := range row {
				fields = append(fields, cell.Text)
			}
			add(fields...)
		}
	}
	lines = append(lines, outcomes...)
	for i := range s.Written {
		add(writtenFields(&s.Written[i])...)
	}
	for _, hidden := range s.Hidden {
		add(hiddenField, hidden.Sheet, hidden.Code, hidden.Words)
	}
	for _, noted := range s.OfFile {
		add(ofFileField, noted.Sheet, noted.Code, noted.Words)
	}
	return lines
}

// outcomeLines gives the places and figures: one line for a carcass, so that as many fit on a sheet as there are rows.
func (s *State) outcomeLines(seal *sealing) (lines []string) {
	var outcome []string
	for line := range s.outcomes {
		seal.outcome(line)
		if len(outcome) > 0 && (outcome[1] != line.Class || outcome[2] != line.Tag) {
			lines = append(lines, lineOf(outcome...))
			outcome = outcome[:0]
		}
		if len(outcome) == 0 {
			outcome = append(outcome, outcomeField, line.Class, line.Tag)
		}
		outcome = append(outcome, line.Item, line.Value)
	}
	if len(outcome) > 0 {
		lines = append(lines, lineOf(outcome...))
	}
	return lines
}

// WithViews adds to the first of a state's lines what is known only once the sheets are written.
func WithViews(lines []string, views []View) []string {
	for _, view := range views {
		fields := []string{viewField, view.Mark, strings.Join(view.Rows, ",")}
		if view.Sheet != "" {
			fields = append(fields, view.Sheet)
		}
		lines = append(lines, lineOf(fields...))
	}
	sum := sha256.New()
	addLines(sum, lines)
	before := hex.EncodeToString(sum.Sum(nil))
	lines = append(lines, rowSums(lines))
	addLines(sum, lines[len(lines)-1:])
	return append(lines, lineOf(digestField, hex.EncodeToString(sum.Sum(nil)), before))
}

// StateOf reads what Lines wrote; sheet is where the lines stand, a line a row from the first. It is nil where they are no
// record, and not Whole where they were changed.
func StateOf(lines []string, sheet string) *State { return stateOf(lines, sheet, true) }

// HeadOf reads of what Lines wrote all that is not of carcasses, and of each carcass in its turn the name that it goes by, as the
// reading of its tag. Neither the views nor whether it is Whole is known of it: it is for results that are made again, to be compared
// with all that was written.
func HeadOf(lines []string, sheet string) *State { return stateOf(lines, sheet, false) }

func stateOf(lines []string, sheet string, whole bool) *State {
	if len(lines) == 0 || lines[0] != Form {
		return nil
	}
	state := &State{Words: make(map[string]string)}
	state.rulebook(lines, sheet)
	measures := rules.MeasuresOf(state.Rulebook)
	readings := readingsReader{table: measures, named: !whole}
	if whole {
		readings.records = make([]Reading, 0, countPieces(lines))
	}
	run := append(RunFields(&state.Run), ownRunFields(&state.Run)...)
	for number, line := range lines[1:] {
		if strings.HasPrefix(line, carcassField+"|") {
			readings.carcass(line)
			continue
		}
		if isOutcome(line) || !whole && isOfAll(line) {
			continue // outcomes are read when they are asked for
		}
		fields := fieldsOf(line)
		switch at := func(i int) string { return field(fields, i) }; fields[0] {
		case runField:
			setField(run, at(1), at(2))
			if at(1) == RevisionLine {
				state.Run.Revision, _ = strconv.Atoi(at(2)) // a damaged one is told by the digest
			}
		case fileField:
			data, _ := base64.StdEncoding.DecodeString(at(3)) // a damaged one is told by the digest
			state.Carried = append(state.Carried, Carried{Role: at(1), Name: at(2), Data: data})
		case measuresField, sheetField:
			readings.read(fields)
		case decisionField:
			state.Decisions = append(state.Decisions, decisionOf(fields[1:], measures))
		case rulingField:
			place, _ := strconv.Atoi(at(3))
			state.Rulings = append(state.Rulings, placing.Ruling{Class: at(1), Tag: at(2), Place: place, Reason: at(4), Initials: at(5), Date: at(6)})
		case wordsField:
			state.Words[at(1)+"\t"+at(2)] = at(3)
		case changeField:
			var change Change
			setTexts(ChangeFields(&change), fields[1:], measures)
			state.Changes = append(state.Changes, change)
		case lastYearField:
			var line LastYearLine
			setTexts(LastYearFields(&line), fields[1:], measures)
			state.LastYear = append(state.LastYear, line)
		case writtenField:
			state.Written = append(state.Written, writtenOf(at))
		case hiddenField:
			state.Hidden = append(state.Hidden, Noted{Sheet: at(1), Code: at(2), Words: at(3)})
		case ofFileField:
			state.OfFile = append(state.OfFile, Noted{Sheet: at(1), Code: at(2), Words: at(3)})
		case viewField:
			state.Views = append(state.Views, View{Mark: at(1), Rows: strings.Split(at(2), ","), Sheet: at(3)})
		case digestField:
			state.Whole = at(1) == digestOf(lines[:number+1]) && number+2 == len(lines) && (len(fields) < 3 || at(2) == digestOf(lines[:number]))
		}
	}
	if whole && !state.Whole {
		state.Changed = changedRows(lines)
	}
	state.records, state.Readings = readings.records, slices.Values(readings.records)
	state.Outcomes = outcomesIn(lines)
	return state
}

// outcomesIn gives the places and figures among the lines of a record; nil where it has none.
func outcomesIn(lines []string) iter.Seq[SealedLine] {
	first := slices.IndexFunc(lines, isOutcome)
	if first < 0 {
		return nil
	}
	return func(yield func(SealedLine) bool) {
		for _, line := range lines[first:] {
			if !isOutcome(line) {
				continue
			}
			fields := fieldsOf(line)
			for i := 3; i < max(len(fields), 4); i += 2 {
				if !yield(SealedLine{Kind: PlacingLine, Class: field(fields, 1), Tag: field(fields, 2), Item: field(fields, i), Value: field(fields, i+1)}) {
					return
				}
			}
		}
	}
}

// isOfAll reports whether a line is a view, or a sum of the lines before it.
func isOfAll(line string) bool {
	return strings.HasPrefix(line, viewField+"|") || strings.HasPrefix(line, rowSumsField+"|") || strings.HasPrefix(line, digestField+"|")
}

func isOutcome(line string) bool { return strings.HasPrefix(line, outcomeField+"|") }

// outcomes gives the places and figures, of which there may be none.
func (s *State) outcomes(yield func(SealedLine) bool) {
	if s.Outcomes != nil {
		s.Outcomes(yield)
	}
}

// rulebook reads the rulebook's lines, which stand below those that name its measures.
func (s *State) rulebook(lines []string, sheet string) {
	for number, line := range lines {
		if strings.HasPrefix(line, rulebookField+"|") {
			s.addRulebookRow(sheet, number+1, fieldsOf(line)[1:])
		}
	}
}

func (s *State) addRulebookRow(sheet string, row int, fields []string) {
	if len(fields) == 0 {
		return
	}
	if last := len(s.Rulebook) - 1; last < 0 || s.Rulebook[last].Name != fields[0] {
		s.Rulebook = append(s.Rulebook, rules.Table{Name: fields[0]})
	}
	table := &s.Rulebook[len(s.Rulebook)-1]
	cells := make(rules.Row, len(fields)-1)
	for i, text := range fields[1:] {
		cells[i] = rules.Cell{Text: text, Place: rules.Place{Sheet: sheet, Cell: address.Cell(i+rulebookFields+1, row)}}
	}
	table.Rows = append(table.Rows, cells)
}

func sortedKeys(texts map[string]string) []string {
	keys := make([]string, 0, len(texts))
	for key := range texts {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}

func textsOf(fields []Field) (texts []string) {
	for _, field := range fields {
		texts = append(texts, field.Value())
	}
	return texts
}

func setTexts(fields []Field, texts []string, measures *measure.Table) {
	for i := range min(len(fields), len(texts)) {
		fields[i].Set(texts[i], measures)
	}
}

func setField(fields []Field, name, text string) {
	for _, field := range fields {
		if field.Name == name {
			field.Set(text, measure.Standard())
		}
	}
}

func ownRunFields(run *Run) []Field {
	return []Field{{Name: StatusLine, Text: &run.Status}, {Name: SealLine, Text: &run.Seal}, {Name: DamageLine, Text: &run.Damage}, {Name: EditionLine, Text: &run.Edition}, {Name: AboutLine, Text: &run.About}}
}
