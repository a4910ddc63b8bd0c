package record

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash"
	"slices"
	"strconv"
	"strings"

	"railbook/rules"
	"railbook/rules/phrase"
)

// The kinds of lines that are sealed.
const (
	ReadingLine   = "reading"
	DecisionLine  = "decision"
	RulingLine    = "ruling"
	ReasonsLine   = "reasons"
	RulebookKind  = "rulebook"
	PlacingLine   = "placing"
	ChangeLine    = "change"
	LastYearKind  = "last year"
	SignatureLine = "signature"
)

// Inputs lists everything that grading starts from, as lines: what was read, what the judge decided, and the whole
// rulebook. Two workbooks with the same lines have the same results.
func (s *State) Inputs() (lines []SealedLine) {
	if s.records != nil {
		lines = make([]SealedLine, 0, len(s.records))
	}
	for kept := range s.Readings {
		lines = append(lines, readingOf(&kept))
	}
	return append(lines, s.besidesReadings()...)
}

// readingOf is the line of one reading.
func readingOf(kept *Reading) SealedLine {
	value := kept.Value
	if value == "" {
		value = "not understood: " + kept.Written
	}
	return SealedLine{Kind: ReadingLine, Class: kept.Class, Tag: kept.Tag, Item: kept.Measure.String(), Value: value}
}

// InputsSeal is the Seal of the Inputs, line by line.
func (s *State) InputsSeal() string {
	var texts canonicalTexts
	for kept := range s.Readings {
		texts.add(readingOf(&kept))
	}
	for _, line := range s.besidesReadings() {
		texts.add(line)
	}
	return texts.seal()
}

// Seal is the Seal of all that a signature covers, kind by kind, so that few texts are held at a time.
func (s *State) Seal() string {
	seal := s.beginSeal()
	for line := range s.outcomes {
		seal.outcome(line)
	}
	for kept := range s.Readings {
		seal.reading(&kept)
	}
	return seal.end()
}

// sealing is a seal on its way: all outcomes come before the first reading. A nil one takes nothing.
type sealing struct {
	sum      hash.Hash
	text     []byte // of the last outcome
	readings canonicalTexts
	last     canonicalTexts // what stands behind the readings
}

// beginSeal seals what stands before the places and figures.
func (s *State) beginSeal() *sealing {
	seal, first := &sealing{sum: sha256.New()}, canonicalTexts{}
	for _, line := range append(s.besidesReadings(), s.Signature()...) {
		if line.Kind < PlacingLine {
			first.add(line)
		} else {
			seal.last.add(line)
		}
	}
	first.writeTo(seal.sum)
	return seal
}

// outcome adds a place or a figure; they come in order.
func (s *sealing) outcome(line SealedLine) {
	if s != nil {
		s.text = line.appendTo(s.text[:0])
		s.sum.Write(s.text)
	}
}

func (s *sealing) reading(kept *Reading) {
	if s != nil {
		s.readings.add(readingOf(kept))
	}
}

func (s *sealing) end() string {
	s.readings.writeTo(s.sum)
	s.last.writeTo(s.sum)
	return hex.EncodeToString(s.sum.Sum(nil))
}

// besidesReadings are the Inputs but for the readings.
func (s *State) besidesReadings() (lines []SealedLine) {
	for _, decision := range s.Decisions {
		parts := []string{
			string(decision.Choice), decision.Value, "was " + decision.Was, decision.Initials, decision.Remark, decision.Date,
		}
		if decision.Then != "" {
			parts = append(parts, decision.Then)
		}
		lines = append(lines, SealedLine{
			Kind: DecisionLine, Class: decision.Class, Tag: decision.Tag, Item: decision.Measure.String() + ": " + decision.Code,
			Value: strings.Join(parts, " | "),
		})
	}
	for _, ruling := range s.Rulings {
		lines = append(lines, SealedLine{
			Kind: RulingLine, Class: ruling.Class, Tag: ruling.Tag, Item: "place",
			Value: strings.Join([]string{fmt.Sprint(ruling.Place), ruling.Reason, ruling.Initials, ruling.Date}, " | "),
		})
	}
	for key, text := range s.Words {
		class, tag, _ := strings.Cut(key, "\t")
		lines = append(lines, SealedLine{Kind: ReasonsLine, Class: class, Tag: tag, Item: "judge's words", Value: text})
	}
	for _, table := range s.Rulebook {
		lines = append(lines, RulebookLines(table)...)
	}
	for number := range s.LastYear {
		lines = append(lines, fieldLines(LastYearKind, number, LastYearFields(&s.LastYear[number]))...)
	}
	return lines
}

// Signature lists what the signature covers beside what was graded from and what came of it: who signed and when, how the
// workbook came to be, and every change. A change's line has its number in place of a tag.
func (s *State) Signature() (lines []SealedLine) {
	for _, field := range RunFields(&s.Run) {
		lines = append(lines, SealedLine{Kind: SignatureLine, Item: field.Name, Value: field.Value()})
	}
	lines = append(lines, SealedLine{Kind: SignatureLine, Item: RevisionLine, Value: fmt.Sprint(s.Run.Revision)})
	for number := range s.Changes {
		lines = append(lines, fieldLines(ChangeLine, number, ChangeFields(&s.Changes[number]))...)
	}
	return lines
}

// Sealed lists all that a signature covers, in the order in which it is sealed.
func (s *State) Sealed() []SealedLine {
	return InOrder(slices.Concat(s.Inputs(), slices.Collect(s.outcomes), s.Signature()))
}

// InOrder gives lines in the order of their canonical texts, which is found group by group: most lines of a carcass come one after
// another.
func InOrder(lines []SealedLine) []SealedLine {
	type group struct {
		start string // of each text
		lines []SealedLine
	}
	var groups []group
	for from := 0; from < len(lines); {
		first, until := &lines[from], from+1
		for until < len(lines) && lines[until].Kind == first.Kind && lines[until].Class == first.Class && lines[until].Tag == first.Tag {
			until++
		}
		groups = append(groups, group{string(first.appendStart(nil)), lines[from:until]})
		from = until
	}
	slices.SortStableFunc(groups, func(a, b group) int { return strings.Compare(a.start, b.start) })
	ordered := make([]SealedLine, 0, len(lines))
	for from := 0; from < len(groups); {
		alike := len(ordered)
		for start := groups[from].start; from < len(groups) && groups[from].start == start; from++ {
			ordered = append(ordered, groups[from].lines...)
		}
		OrderAlike(ordered[alike:])
	}
	return ordered
}

// OrderAlike puts lines of one kind, class and tag in the order of their canonical texts.
func OrderAlike(lines []SealedLine) {
	slices.SortStableFunc(lines, func(a, b SealedLine) int {
		if order := compareEnded(a.Item, b.Item, '\t'); order != 0 {
			return order
		}
		return compareEnded(a.Value, b.Value, '\n')
	})
}

// compareEnded compares two fields as they stand in canonical texts, each ended by what stands in none.
func compareEnded(a, b string, end byte) int {
	a, b = phrase.SingleSpaced(a), phrase.SingleSpaced(b)
	common := min(len(a), len(b))
	switch order := strings.Compare(a[:common], b[:common]); {
	case order != 0 || len(a) == len(b):
		return order
	case len(a) < len(b):
		return cmp.Compare(end, b[common])
	default:
		return cmp.Compare(a[common], end)
	}
}

// fieldLines gives a line for each filled text of a numbered row.
func fieldLines(kind string, number int, fields []Field) (lines []SealedLine) {
	for _, field := range fields {
		if field.Value() != "" {
			lines = append(lines, SealedLine{Kind: kind, Tag: fmt.Sprint(number + 1), Item: field.Name, Value: field.Value()})
		}
	}
	return lines
}

// RulebookLines gives a line for each filled cell of a rulebook table; rows are counted without the blank ones.
func RulebookLines(table rules.Table) (lines []SealedLine) {
	rows := FilledRows(table)
	if len(rows) == 0 {
		return nil
	}
	canonical := make([]func(string) string, len(table.Rows[0]))
	for column, cell := range table.Rows[0] {
		canonical[column] = rules.CanonicalIn(table.Name, cell.Text)
	}
	for number, row := range rows {
		tag := strconv.Itoa(number + 1)
		for column, cell := range row {
			heading := table.Rows[0][column].Text
			if text := canonical[column](cell.Text); text != "" {
				lines = append(lines, SealedLine{Kind: RulebookKind, Class: table.Name, Tag: tag, Item: heading, Value: text})
			}
		}
	}
	return lines
}

// FilledRows gives the rows below a table's headings that are not blank, none longer than the headings.
func FilledRows(table rules.Table) (rows []rules.Row) {
	if len(table.Rows) == 0 {
		return nil
	}
	for _, row := range table.Rows[1:] {
		row = row[:min(len(row), len(table.Rows[0]))]
		if slices.ContainsFunc(row, func(cell rules.Cell) bool { return strings.TrimSpace(cell.Text) != "" }) {
			rows = append(rows, row)
		}
	}
	return rows
}

// Seal is the SHA-256 of SealText, in hexadecimal.
func Seal(lines []SealedLine) string {
	var texts canonicalTexts
	for _, line := range lines {
		texts.add(line)
	}
	return texts.seal()
}

// SealText is the lines' canonical texts sorted by their bytes, as UTF-8, whatever order they come in.
func SealText(lines []SealedLine) string {
	texts := make([]string, len(lines))
	for i, line := range lines {
		texts[i] = line.Canonical()
	}
	slices.Sort(texts)
	return strings.Join(texts, "")
}

// canonicalTexts are canonical texts on their way into a seal. Lines of one kind, class and tag that come one after another share
// the beginning of their texts, so that the lines of a carcass take little more room than what they say of it.
type canonicalTexts struct {
	groups []canonicalGroup
	start  []byte // of the last line
	piece  []byte // where groups keep their bytes
}

// canonicalGroup is some texts that begin alike.
type canonicalGroup struct {
	start []byte // kind, class and tag, each ended by a tab
	rest  []byte // what follows in each text, line by line
}

// pieceOfTexts is how many bytes of texts stand together.
const pieceOfTexts = 1 << 16

func (c *canonicalTexts) add(line SealedLine) {
	c.start = line.appendStart(c.start[:0])
	last := len(c.groups) - 1
	room := cap(c.piece) - len(c.piece)
	if last < 0 || room < line.length() || !bytes.Equal(c.groups[last].start, c.start) {
		if room < line.length() {
			c.piece = make([]byte, 0, max(pieceOfTexts, line.length()))
		}
		from := len(c.piece)
		c.piece = append(c.piece, c.start...)
		c.groups = append(c.groups, canonicalGroup{start: c.piece[from:]})
		last++
	}
	from := len(c.piece)
	c.piece = line.appendRest(c.piece)
	group := &c.groups[last]
	group.rest = c.piece[from-len(group.rest):]
}

// seal is the SHA-256 of the texts in the order of their bytes.
func (c *canonicalTexts) seal() string {
	sum := sha256.New()
	c.writeTo(sum)
	return hex.EncodeToString(sum.Sum(nil))
}

// writeTo adds the texts to a sum in the order of their bytes. A start has no tabs but the three that end its fields, so that of two
// different ones neither begins with the other, and all texts of one stand before all of the other.
func (c *canonicalTexts) writeTo(sum hash.Hash) {
	slices.SortFunc(c.groups, func(a, b canonicalGroup) int { return bytes.Compare(a.start, b.start) })
	var lines [][]byte
	for from := 0; from < len(c.groups); {
		start := c.groups[from].start
		lines = lines[:0]
		for ; from < len(c.groups) && bytes.Equal(c.groups[from].start, start); from++ {
			for line := range bytes.Lines(c.groups[from].rest) {
				lines = append(lines, line)
			}
		}
		slices.SortFunc(lines, bytes.Compare)
		for _, line := range lines {
			sum.Write(start)
			sum.Write(line)
		}
	}
}

// Canonical is a line's one text: its five fields with runs of white space made one space, parted by tabs and ended by a
// line feed.
func (l SealedLine) Canonical() string { return string(l.appendTo(make([]byte, 0, l.length()))) }

// length is how many bytes the canonical text takes at most.
func (l SealedLine) length() int {
	return len(l.Kind) + len(l.Class) + len(l.Tag) + len(l.Item) + len(l.Value) + len("\t\t\t\t\n")
}

func (l SealedLine) appendTo(text []byte) []byte {
	return l.appendRest(l.appendStart(text))
}

// appendRest adds what follows in the text of a line: item and value.
func (l SealedLine) appendRest(text []byte) []byte {
	text = append(appendWords(text, l.Item), '\t')
	return append(appendWords(text, l.Value), '\n')
}

// appendStart adds what the texts of a carcass's lines begin with: kind, class and tag, each ended by a tab.
func (l SealedLine) appendStart(text []byte) []byte {
	for _, field := range []string{l.Kind, l.Class, l.Tag} {
		text = append(appendWords(text, field), '\t')
	}
	return text
}

// appendWords adds a field with each run of white space made one space, and none at its ends.
func appendWords(text []byte, field string) []byte {
	return append(text, phrase.SingleSpaced(field)...)
}
