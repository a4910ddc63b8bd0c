package record

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/validate"
)

// word draws what people type: bars, backslashes, line ends and blanks among it.
var word = rapid.StringOfN(rapid.RuneFrom([]rune("aZ0 9|~@\\_xcs;=\n\t\r\u00a0\x00\x1b\ufffeé½'\"<&")), 0, 12, -1)

func drawState(t *rapid.T) *State {
	place := func() rules.Place {
		return rules.Place{File: word.Draw(t, "file"), Sheet: word.Draw(t, "sheet"), Cell: word.Draw(t, "cell")}
	}
	state := &State{
		Run:   Run{InputName: word.Draw(t, "name"), Revision: rapid.IntRange(1, 99).Draw(t, "revision"), Status: Provisional, Seal: word.Draw(t, "seal"), Damage: word.Draw(t, "damage")},
		Words: map[string]string{"Steers\t1": word.Draw(t, "words")},
		Whole: true,
	}
	measures := []measure.ID{measure.Tag, measure.RibeyeArea, measure.MeasuredFat}
	var readings []Reading
	for carcass := range rapid.IntRange(0, 6).Draw(t, "carcasses") {
		start := Reading{Carcass: carcass + 1, Sheet: "Rail", Line: rapid.StringMatching(`[1-9][0-9]?`).Draw(t, "line"), Class: word.Draw(t, "class"), Tag: word.Draw(t, "tag")}
		for at, id := range measures {
			kept := start
			kept.Measure = id
			kept.Cell = address.Cell(at+2, 1)[:1] + kept.Line
			kept.Written = word.Draw(t, "written")
			switch rapid.IntRange(0, 4).Draw(t, "kind") {
			case 0:
				kept.Value = kept.Written
			case 1:
				kept.Value = word.Draw(t, "value")
			case 2:
				kept.File, kept.Sheet, kept.Cell = word.Draw(t, "file"), word.Draw(t, "sheet"), word.Draw(t, "cell")
			case 3:
				if id != measure.Tag {
					continue
				}
			}
			readings = append(readings, kept)
		}
	}
	state.Readings = slices.Values(readings)
	var outcomes []SealedLine
	defer func() { state.Outcomes = slices.Values(InOrder(outcomes)) }()
	for range rapid.IntRange(0, 3).Draw(t, "decisions") {
		state.Decisions = append(state.Decisions, validate.Decision{
			Class: word.Draw(t, "class"), Tag: word.Draw(t, "tag"), Measure: measure.RibeyeArea, Code: word.Draw(t, "code"), Was: word.Draw(t, "was"),
			Choice: validate.Correct, Value: word.Draw(t, "value"), Initials: "HQ", Remark: word.Draw(t, "remark"), Found: place(),
			Level: validate.Hold, Applied: rapid.Bool().Draw(t, "applied"), Refused: rapid.Bool().Draw(t, "refused"), Message: word.Draw(t, "message"),
			Puts: []validate.Put{{
				Class: word.Draw(t, "class"), Tag: word.Draw(t, "tag"), Measure: measure.RibeyeArea, At: rules.Place{Sheet: word.Draw(t, "sheet"), Cell: "G5"},
				Was: word.Draw(t, "was"), Is: word.Draw(t, "is"), Text: rapid.Bool().Draw(t, "text"),
			}},
		})
		state.Rulings = append(state.Rulings, placing.Ruling{Class: word.Draw(t, "class"), Tag: "1", Place: 2, Reason: word.Draw(t, "reason")})
		state.Changes = append(state.Changes, Change{At: place(), Measure: measure.Tag, Was: word.Draw(t, "was"), Moved: word.Draw(t, "moved")})
		state.LastYear = append(state.LastYear, LastYearLine{File: word.Draw(t, "file"), Value: "3"})
		class, tag := word.Draw(t, "class"), word.Draw(t, "tag of an outcome")
		for range rapid.IntRange(1, 3).Draw(t, "outcomes") {
			outcomes = append(outcomes, SealedLine{Kind: PlacingLine, Class: class, Tag: tag, Item: word.Draw(t, "item"), Value: word.Draw(t, "outcome")})
		}
	}
	for range rapid.IntRange(0, 2).Draw(t, "noted") {
		state.Hidden = append(state.Hidden, Noted{Sheet: word.Draw(t, "sheet"), Code: word.Draw(t, "code"), Words: word.Draw(t, "words")})
		state.OfFile = append(state.OfFile, Noted{Sheet: word.Draw(t, "sheet"), Code: word.Draw(t, "code"), Words: word.Draw(t, "words")})
	}
	state.Carried = []Carried{{Role: RosterRole, Name: word.Draw(t, "name"), Data: []byte(strings.Repeat("x", rapid.IntRange(1, 60000).Draw(t, "size")))}}
	return state
}

// inAnyOrder lets a carcass's readings stand in another order.
var inAnyOrder = cmpopts.SortSlices(func(a, b Reading) bool {
	return a.Carcass < b.Carcass || a.Carcass == b.Carcass && a.Measure.Compare(b.Measure) < 0
})

// Whatever is in a state, it is read back from its lines, cut into cells that a spreadsheet can hold.
func TestAnyStateIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		state := drawState(t)
		lines := state.Lines()
		for _, line := range lines {
			if strings.ContainsAny(line, "\n\t\r\u00a0\x00\x1b\ufffe") || strings.Contains(line, "  ") || strings.Contains(line, "_x") || strings.TrimSpace(line) != line {
				t.Fatalf("a spreadsheet program may change %q", line)
			}
			cells := CellsOf(line)
			for _, cell := range cells {
				if len(cell) > 32000 {
					t.Fatalf("a cell of %d bytes", len(cell))
				}
			}
			if strings.Join(cells, "") != line {
				t.Fatal("the cells of a line are not the line")
			}
		}
		if state.Seal() != Seal(state.Sealed()) {
			t.Fatal("the seal of a state is not that of its lines")
		}
		back := StateOf(lines, "Recorded")
		if diff := cmp.Diff(slices.Collect(state.Readings), back.Records(), cmpopts.EquateEmpty(), inAnyOrder); diff != "" {
			t.Fatalf("readings:\n%s", diff)
		}
		if diff := cmp.Diff(slices.Collect(state.outcomes), slices.Collect(back.outcomes), cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("outcomes:\n%s", diff)
		}
		if diff := cmp.Diff(state, back, cmpopts.IgnoreFields(State{}, "Readings", "Outcomes"), cmpopts.IgnoreUnexported(State{}), cmpopts.EquateEmpty()); diff != "" {
			t.Fatal(diff)
		}
	})
}

// A record that was changed in any place is not whole.
func TestAChangedRecordIsNotWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := drawState(t).Lines()
		at := rapid.IntRange(1, len(lines)-1).Draw(t, "line")
		switch rapid.IntRange(0, 2).Draw(t, "edit") {
		case 0:
			lines[at] += "7"
		case 1:
			lines = slices.Delete(lines, at, at+1)
		case 2:
			lines = slices.Insert(lines, at+1, "change|2025-08-21")
		}
		if state := StateOf(lines, "Recorded"); state != nil && state.Whole {
			t.Fatal("the record is taken for whole")
		}
	})
}

// Nor is one with a line after its digest, which the digest does not cover.
func TestALineAfterTheDigestIsNoPartOfTheRecord(t *testing.T) {
	lines := (&State{Readings: slices.Values([]Reading(nil))}).Lines()
	if state := StateOf(lines, "Recorded"); state == nil || !state.Whole {
		t.Fatal("the record as written is not whole")
	}
	if state := StateOf(append(lines, "change|2025-08-21"), "Recorded"); state == nil || state.Whole {
		t.Error("with a line after its digest the record is taken for whole")
	}
}

// Most readings take no more room than their value: neither their cell nor what is written is said again.
func TestAReadingInItsColumnIsItsValue(t *testing.T) {
	var readings []Reading
	for row := 2; row < 5; row++ {
		line := string(rune('0' + row))
		readings = append(readings,
			Reading{Carcass: row, Sheet: "Rail", Line: line, Class: "Steers", Tag: line, Measure: measure.Tag, Cell: "A" + line, Value: line, Written: line},
			Reading{Carcass: row, Sheet: "Rail", Line: line, Class: "Steers", Tag: line, Measure: measure.RibeyeArea, Cell: "G" + line, Value: "12.5", Written: "12.5"})
	}
	lines := (&State{Readings: slices.Values(readings)}).Lines()
	if want := "carcass|3|1|3|Steers|3|3|12.5"; !slices.Contains(lines, want) {
		t.Errorf("no line %q in\n%s", want, strings.Join(lines, "\n"))
	}
}
