package workbook

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"railbook/rules/measure"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// forged gives a signed workbook whose record was made again to say something else, whole and with a seal that fits it unless it was
// given another, and with that seal on every page: as somebody would who knows all that the program does.
func forged(t *testing.T, signed string, change func(state *record.State)) string {
	t.Helper()
	book, err := xlsx.Open(signed, xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	grid, err := book.Scan(record.StateSheet)
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, row := range grid.Rows {
		line := ""
		for _, cell := range row.Cells {
			line += cell.Raw
		}
		lines = append(lines, line)
	}
	state := record.StateOf(lines, record.StateSheet)
	if state == nil || !state.Whole || !slices.Equal(state.Lines(), lines) {
		t.Fatal("the record is not read as it was written")
	}
	was := state.Run.Seal
	if change(state); state.Run.Seal == was {
		state.Run.Seal = state.Seal()
	}
	if state.Run.Seal == was {
		t.Fatal("nothing was forged")
	}
	var rows bytes.Buffer
	for number, line := range state.Lines() {
		fmt.Fprintf(&rows, `<row r="%d">`, number+1)
		for _, text := range record.CellsOf(line) {
			rows.WriteString(`<c t="inlineStr"><is><t xml:space="preserve">`)
			if err := xml.EscapeText(&rows, []byte(text)); err != nil {
				t.Fatal(err)
			}
			rows.WriteString(`</t></is></c>`)
		}
		rows.WriteString(`</row>`)
	}
	return rezipped(t, signed, func(_ string, plain []byte) []byte {
		if at := listOfRows.FindIndex(plain); at != nil && bytes.Contains(plain, []byte(record.Form)) {
			plain = slices.Concat(plain[:at[0]], []byte("<sheetData>"), rows.Bytes(), []byte("</sheetData>"), plain[at[1]:])
		}
		return bytes.ReplaceAll(plain, []byte(was), []byte(state.Run.Seal))
	})
}

var listOfRows = regexp.MustCompile(`(?s)<sheetData>.*</sheetData>`)

// A record that says what was not read, or what was not computed, is found by making the results again, though its sums and its seal
// are right.
func TestARecordThatFitsItsSealIsNotBelieved(t *testing.T) {
	signed := signedFair(t)
	for about, forgery := range map[string]struct {
		change func(state *record.State)
		said   string
	}{
		"a reading": {func(state *record.State) {
			readings := state.Records()
			at := slices.IndexFunc(readings, func(kept record.Reading) bool { return kept.Measure == measure.HotCarcassWeight })
			readings[at].Value, readings[at].Written = "777", "777"
			state.Readings = slices.Values(readings)
		}, `was "777" when signed`},
		"a figure": {func(state *record.State) {
			lines := slices.Collect(state.Outcomes)
			at := slices.IndexFunc(lines, func(line record.SealedLine) bool { return line.Item == measure.YieldGrade.String() })
			lines[at].Value = "1.01"
			state.Outcomes = slices.Values(lines)
		}, `1.01`},
		"a place": {func(state *record.State) {
			lines := slices.Collect(state.Outcomes)
			at := slices.IndexFunc(lines, func(line record.SealedLine) bool { return line.Item == "place" })
			lines[at].Value = "9"
			state.Outcomes = slices.Values(lines)
		}, `"9"`},
		"a seal of nothing": {func(state *record.State) { state.Run.Seal = strings.Repeat("0", len(state.Run.Seal)) }, "the seal does not fit"},
	} {
		t.Run(about, func(t *testing.T) {
			found, err := Verify(forged(t, signed, forgery.change), Options{})
			if err != nil {
				t.Fatal(err)
			}
			if report := found.Report(); len(found.Differences) == 0 || !strings.Contains(strings.Join(strings.Fields(report), " "), forgery.said) {
				t.Error(report)
			}
		})
	}
}
