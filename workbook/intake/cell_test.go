package intake

import (
	"strconv"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// asked makes the question of one column as a table would.
func asked(t testing.TB, id measure.ID, unit string) *cellParser {
	t.Helper()
	definition, ok := measure.Define(id)
	if !ok {
		t.Fatalf("no measure %q", id)
	}
	p := &cellParser{definition: definition, scale: newScale(definition.Unit, definition.Unit, "1", "1"), vocabulary: newVocabulary(rules.Shipped(), nil)}
	if unit != "" {
		p.scale = scales[unit]
	}
	return p
}

// The conversions are exact by definition: 1 in = 25.4 mm, 1 lb = 0.45359237 kg (NIST Handbook 44, Appendix C).
// Notations are common practice.
func TestNumbersAsPeopleTypeThem(t *testing.T) {
	tests := []struct {
		measure measure.ID
		unit    string // of the heading
		text    string
		value   string // empty: unreadable
		hint    string
	}{
		{measure.HotCarcassWeight, "", "812", "812", ""},
		{measure.HotCarcassWeight, "", "812#", "812", ""},
		{measure.HotCarcassWeight, "", "812 #", "812", ""},
		{measure.HotCarcassWeight, "", "1,234", "1234", ""},
		{measure.HotCarcassWeight, "", "1,234.5 lbs.", "1234.5", ""},
		{measure.HotCarcassWeight, "", "\u00a0781.5\u00a0", "781.5", ""},
		{measure.HotCarcassWeight, "", "356 kg", "784.8457", ""},
		{measure.HotCarcassWeight, "kg", "356", "784.8457", ""},
		{measure.HotCarcassWeight, "kg", "785 lb", "785", ""},
		{measure.HotCarcassWeight, "", "12 in", "", ""},
		{measure.HotCarcassWeight, "", "8l2", "", "812"},
		{measure.HotCarcassWeight, "", "81O", "", "810"},
		{measure.HotCarcassWeight, "", "812?", "", "812"},
		{measure.HotCarcassWeight, "", "~812", "", "812"},
		{measure.HotCarcassWeight, "", "812/820", "", ""},
		{measure.HotCarcassWeight, "", "see slip", "", ""},
		{measure.HotCarcassWeight, "", "\u202e218\u202c", "", ""}, // shown as 812
		{measure.HotCarcassWeight, "", "\u202a812\u202c", "812", ""},
		{measure.HotCarcassWeight, "", "1,23,4", "", ""},
		{measure.RibeyeArea, "", "13.2 sq in", "13.2", ""},
		{measure.RibeyeArea, "", "13.2 sq. in.", "13.2", ""},
		{measure.RibeyeArea, "", "13.2 in²", "13.2", ""},
		{measure.RibeyeArea, "", "84 cm2", "13.02", ""},
		{measure.RibeyeArea, "", "84 cm²", "13.02", ""},
		{measure.RibeyeArea, "", "13,5", "13.5", ""},
		{measure.RibeyeArea, "", "13..5", "", "13.5"},
		{measure.RibeyeArea, "", "13 1/2", "13.5", ""},
		{measure.RibeyeArea, "", "13½", "13.5", ""},
		{measure.MeasuredFat, "", `.45"`, "0.45", ""},
		{measure.MeasuredFat, "", ".45 in.", "0.45", ""},
		{measure.MeasuredFat, "", "3/10", "0.3", ""},
		{measure.MeasuredFat, "", "7/16", "0.4375", ""},
		{measure.MeasuredFat, "", "3/100", "0.03", ""},
		{measure.MeasuredFat, "", "3/101", "", ""},
		{measure.MeasuredFat, "", "4 tenths", "0.4", ""},
		{measure.MeasuredFat, "", "45 hundredths", "0.45", ""},
		{measure.MeasuredFat, "", "11 mm", "0.4331", ""},
		{measure.MeasuredFat, "mm", "11", "0.4331", ""},
		{measure.MeasuredFat, "tenths", "4", "0.4", ""},
		{measure.MeasuredFat, "tenths", "5.5", "0.55", ""},
		{measure.MeasuredFat, "tenths", `.4"`, "0.4", ""},
		{measure.MeasuredFat, "", "0,45", "0.45", ""},
		{measure.MeasuredFat, "", ",45", "0.45", ""},
		{measure.MeasuredFat, "", "3/0", "", ""},
		{measure.FatAdjustment, "", "+.1", "0.1", ""},
		{measure.FatAdjustment, "", "−.1", "-0.1", ""},
		{measure.FatAdjustment, "", "- 0.1", "-0.1", ""},
		{measure.InternalFat, "", "2.5%", "2.5", ""},
		{measure.InternalFat, "", "2 1/2", "2.5", ""},
		{measure.InternalFat, "", "pulled", "", ""},
		{measure.SheetYieldGrade, "", "YG 3", "3", ""},
		{measure.SheetYieldGrade, "", "2.75", "2.75", ""},
	}
	for _, test := range tests {
		parsed := asked(t, test.measure, test.unit).read(xlsx.Cell{Kind: xlsx.Text, Raw: test.text})
		value := ""
		if parsed.problem == "" {
			value = parsed.reading.Value.Number.String()
		}
		if value != test.value || parsed.hint != test.hint {
			t.Errorf("%s (%s) %q: value %q hint %q, want %q and %q", test.measure, test.unit, test.text, value, parsed.hint, test.value, test.hint)
		}
		if value != "" && parsed.note == "" {
			t.Errorf("%s %q was interpreted without a note", test.measure, test.text)
		}
	}
}

// A percent-formatted cell holds .025 where a person sees 2.5% (ECMA-376 part 1, 18.8.31).
func TestStoredNumbers(t *testing.T) {
	tests := []struct {
		name    string
		measure measure.ID
		unit    string
		cell    xlsx.Cell
		value   string
		plain   bool
		factor  string
		hint    string
	}{
		{"plain", measure.HotCarcassWeight, "", xlsx.Cell{Kind: xlsx.Number, Raw: "812.5"}, "812.5", true, "", ""},
		{"percent", measure.InternalFat, "", xlsx.Cell{Kind: xlsx.Number, Raw: "0.025", Percent: true}, "2.5", false, "100", ""},
		{"kilograms", measure.HotCarcassWeight, "kg", xlsx.Cell{Kind: xlsx.Number, Raw: "366.5"}, "807.9942", false, "2.204622621848775807", ""},
		{"tenths", measure.MeasuredFat, "tenths", xlsx.Cell{Kind: xlsx.Number, Raw: "4"}, "0.4", false, "0.1", ""},
		{"date for a fraction", measure.MeasuredFat, "", xlsx.Cell{Kind: xlsx.Number, Raw: "45726", Date: true}, "", false, "", "0.3"}, // 3/10, March 10 2025
		{"date for 4", measure.MeasuredFat, "", xlsx.Cell{Kind: xlsx.Number, Raw: "45748", Date: true}, "", false, "", "4"},            // 4/1, April 1 2025
		{"date for no fat", measure.MeasuredFat, "", xlsx.Cell{Kind: xlsx.Number, Raw: "45778", Date: true}, "", false, "", ""},        // 5/1, May 1 2025
		{"error", measure.RibeyeArea, "", xlsx.Cell{Kind: xlsx.ErrorValue, Raw: "#DIV/0!", Formula: true}, "", false, "", ""},
		{"never calculated", measure.RibeyeArea, "", xlsx.Cell{Kind: xlsx.Blank, Formula: true}, "", false, "", ""},
		{"percent under inches", measure.MeasuredFat, "", xlsx.Cell{Kind: xlsx.Number, Raw: "0.4", Percent: true}, "", false, "", "0.4"},
		{"true", measure.MeasuredFat, "", xlsx.Cell{Kind: xlsx.Bool, Raw: "TRUE"}, "", false, "", ""},
		{"marbling", measure.Marbling, "", xlsx.Cell{Kind: xlsx.Number, Raw: "440"}, "440", true, "", ""},
		{"marbling below 100", measure.Marbling, "", xlsx.Cell{Kind: xlsx.Number, Raw: "5.4"}, "", false, "", ""},
		{"maturity", measure.Maturity, "", xlsx.Cell{Kind: xlsx.Number, Raw: "160"}, "160", true, "", ""},
	}
	for _, test := range tests {
		parsed := asked(t, test.measure, test.unit).read(test.cell)
		value := ""
		if parsed.problem == "" {
			value = parsed.reading.Value.Number.String()
		}
		got := []any{value, parsed.reading.Plain, parsed.reading.Factor, parsed.hint}
		if diff := cmp.Diff([]any{test.value, test.plain, test.factor, test.hint}, got); diff != "" {
			t.Errorf("%s: %s", test.name, diff)
		}
	}
}

func TestTags(t *testing.T) {
	tests := []struct{ text, tag string }{
		{"0412", "0412"},
		{"#412", "412"},
		{"Tag 412", "412"},
		{"tag# 0413", "0413"},
		{"Tag No. 12", "12"},
		{"412A", "412A"},
		{"AB 412", "AB 412"},
		{"412.0", "412"},
		{"Blue 12", "Blue 12"},
		{"8.4E+14", ""},
		{"8.40003E+14", ""},
		{"1E5", ""},
		{"No", "No"},
	}
	for _, test := range tests {
		parsed := readTag(xlsx.Cell{Kind: xlsx.Text, Raw: test.text}, measure.Tag)
		if parsed.reading.Value.Text != test.tag || (test.tag == "") != (parsed.problem != "") {
			t.Errorf("%q: %q (%s), want %q", test.text, parsed.reading.Value.Text, parsed.problem, test.tag)
		}
	}
	for text, tag := range map[string]string{"840 003 123 456 781": "840003123456781", "84 003 123 456 781": "84 003 123 456 781"} { // ISO 11784: 15 digits
		if parsed := readTag(xlsx.Cell{Kind: xlsx.Text, Raw: text}, measure.ElectronicTag); parsed.reading.Value.Text != tag {
			t.Errorf("%q: %q, want %q", text, parsed.reading.Value.Text, tag)
		}
	}
	stored := readTag(xlsx.Cell{Kind: xlsx.Number, Raw: "840003123456781"}, measure.ElectronicTag)
	if stored.reading.Value.Text != "840003123456781" {
		t.Errorf("a stored electronic tag lost digits: %q", stored.reading.Value.Text)
	}
}

func TestMarksAndDates(t *testing.T) {
	if parsed := asked(t, measure.DarkCutter, "").read(xlsx.Cell{Kind: xlsx.Number, Raw: "1", Date: true}); parsed.problem == "" {
		t.Errorf("a date is read as %q", parsed.reading.Value.Text)
	}
	for raw, want := range map[string]string{"1": "yes", "0": "no", "2": ""} {
		parsed := asked(t, measure.DarkCutter, "").read(xlsx.Cell{Kind: xlsx.Number, Raw: raw})
		if got := parsed.reading.Value.Text; parsed.problem == "" && got != want || (parsed.problem != "") != (want == "") {
			t.Errorf("the number %s: %q (%s), want %q", raw, got, parsed.problem, want)
		}
	}
	for text, want := range map[string]string{
		"Y": "yes", "yes": "yes", "x": "yes", "✓": "yes", "DC": "yes", "dark": "yes", "TRUE": "yes",
		"n": "no", "No": "no", "0": "no", "maybe": "", "2": "",
	} {
		if got := asked(t, measure.DarkCutter, "").read(xlsx.Cell{Kind: xlsx.Text, Raw: text}).reading.Value.Text; got != want {
			t.Errorf("mark %q: %q, want %q", text, got, want)
		}
	}
	for text, hint := range map[string]string{"1/3": "yes", "2/3 grade": "yes", "4/3": "", "maybe": ""} { // how far, where yes or no is asked
		if got := asked(t, measure.DarkCutter, "").read(xlsx.Cell{Kind: xlsx.Text, Raw: text}); got.hint != hint || got.problem == "" {
			t.Errorf("mark %q: likely %q (%s), want %q", text, got.hint, got.problem, hint)
		}
	}
	if got := asked(t, measure.Trimmed, "").read(xlsx.Cell{Kind: xlsx.Text, Raw: "1/3"}); got.hint != "" {
		t.Errorf("a trimmed carcass is lowered by nothing: %q", got.hint)
	}
	for text, want := range map[string]string{
		"2025-06-30": "2025-06-30", "6/30/2025": "2025-06-30", "6/30/25": "2025-06-30", "30/6/2025": "2025-06-30",
		"June 30, 2025": "2025-06-30", "30 Jun 2025": "2025-06-30", "Mon 6/30/2025": "2025-06-30", "30-Jun-25": "2025-06-30",
		"2/30/2025": "", "soon": "",
	} {
		if got := asked(t, measure.KillDate, "").read(xlsx.Cell{Kind: xlsx.Text, Raw: text}).reading.Value.Text; got != want {
			t.Errorf("date %q: %q, want %q", text, got, want)
		}
	}
	serial := asked(t, measure.KillDate, "")
	serial.date1904 = true
	// 44376 days after 1904-01-01 is 2025-06-30; after 1899-12-30 it is 45838 (ECMA-376 part 1, 18.17.4.1).
	read := serial.read(xlsx.Cell{Kind: xlsx.Number, Raw: "44376", Date: true}).reading.Value
	if read.Text != "2025-06-30" || !read.Number.Equal(decimal.NewFromInt(45838)) {
		t.Errorf("1904 date: %v", read)
	}
}

// TestNothingIsNoZero: what says that there is nothing is neither a zero nor a hold.
func TestNothingIsNoZero(t *testing.T) {
	for _, text := range []string{"-", "n/a", "—"} {
		parsed := asked(t, measure.InternalFat, "").read(xlsx.Cell{Kind: xlsx.Text, Raw: text})
		if !parsed.absent || parsed.problem != "" || !parsed.reading.Value.Number.IsZero() {
			t.Errorf("%q: %+v", text, parsed)
		}
	}
}

// TestPrintedNumbersAreReadBack: however a weight is written, the number that comes back is the one that was written.
func TestPrintedNumbersAreReadBack(t *testing.T) {
	p := asked(t, measure.HotCarcassWeight, "")
	rapid.Check(t, func(t *rapid.T) {
		number := decimal.New(rapid.Int64Range(1, 99999).Draw(t, "digits"), -rapid.Int32Range(0, 2).Draw(t, "decimals"))
		written := rapid.SampledFrom([]string{"%s", " %s ", "%s#", "%s lb", "%s lbs.", "+%s"}).Draw(t, "form")
		text := number.String()
		parsed := p.read(xlsx.Cell{Kind: xlsx.Text, Raw: strings.ReplaceAll(written, "%s", text)})
		if parsed.problem != "" || !parsed.reading.Value.Number.Equal(number) {
			t.Fatalf("%q read as %s %s", strings.ReplaceAll(written, "%s", text), parsed.reading.Value.Number, parsed.problem)
		}
	})
}

// FuzzCell: no cell ever breaks the reader, and none becomes a number without a digit in it, or a silent zero.
func FuzzCell(f *testing.F) {
	for _, seed := range []string{"812#", "1,234", `.45"`, "13.2 sq in", "3/10", "4 tenths", "2.5%", "SM 40", "A60", "8.4E+14", "½", "-", "", "0", "1e9", "\x00", "12/0", "13,5"} {
		f.Add(seed, uint8(0), false, false)
		f.Add(seed, uint8(2), true, true)
	}
	definitions := measure.Standard().Definitions()
	vocabulary := newVocabulary(rules.Default(), nil)
	f.Fuzz(func(t *testing.T, text string, kind uint8, comma, date bool) {
		cell := xlsx.Cell{Kind: xlsx.CellKind(kind % 5), Raw: text, Date: date, Percent: comma}
		switch cell.Kind {
		case xlsx.Bool:
			cell.Raw = "TRUE"
		case xlsx.ErrorValue:
			cell.Raw = "#REF!"
		}
		if _, err := strconv.ParseFloat(text, 64); nothing(cell) || cell.Kind == xlsx.Number && err != nil {
			return
		}
		for _, definition := range definitions {
			p := &cellParser{definition: definition, scale: newScale(definition.Unit, definition.Unit, "1", "1"), decimalComma: comma, vocabulary: vocabulary}
			parsed := p.read(cell)
			if parsed.absent || parsed.problem != "" {
				continue
			}
			value := parsed.reading.Value
			if definition.Kind == measure.KindNumber && value.Number.IsZero() && !hasZero(text) {
				t.Fatalf("%q became a zero as %s", text, definition.ID)
			}
			if definition.Kind == measure.KindText && value.Text == "" {
				t.Fatalf("%q was lost as %s", text, definition.ID)
			}
		}
	})
}

func hasZero(text string) bool {
	for _, r := range text {
		if r == '0' || r == '０' || r == '⁰' || r == '₀' {
			return true
		}
	}
	return false
}
