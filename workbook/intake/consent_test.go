package intake

import (
	"strings"
	"testing"

	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/xlsx"
)

// Only what can be read as a yes is one, whatever the heading asks; what can't be read is never taken for an answer.
func TestConsentOfACell(t *testing.T) {
	const yes, no, unread = "yes", "no", "?"
	text := func(words string) xlsx.Cell { return xlsx.Cell{Kind: xlsx.Text, Raw: words} }
	for _, row := range []struct {
		heading string
		cell    xlsx.Cell
		want    string
	}{
		{"Consent", text("Yes"), yes},
		{"Consent", text(" (x) "), yes},
		{"Consent", text("on  file"), yes},
		{"Consent", text("No."), no},
		{"Consent", text("opt out"), no},
		{"Consent", text("pending"), unread},
		{"Consent", text("yes, but no photo"), unread},
		{"Consent", text("yess"), unread},
		{"Consent", text("✗"), unread},
		{"Consent", xlsx.Cell{Kind: xlsx.Number, Raw: "1"}, yes},
		{"Consent", xlsx.Cell{Kind: xlsx.Number, Raw: "0"}, no},
		{"Consent", xlsx.Cell{Kind: xlsx.Number, Raw: "2"}, unread},
		{"Consent", xlsx.Cell{Kind: xlsx.Number, Raw: "0.5"}, unread},
		{"Consent", xlsx.Cell{Kind: xlsx.Number, Raw: ".1"}, unread},
		{"Consent", text(".1"), unread},
		{"Consent", text("[1]"), yes},
		{"Consent", xlsx.Cell{Kind: xlsx.Number, Raw: "1", Date: true}, unread},
		{"Consent", xlsx.Cell{Kind: xlsx.Bool, Raw: "TRUE"}, yes},
		{"Consent", xlsx.Cell{Kind: xlsx.Bool, Raw: "FALSE"}, no},
		// Asked the other way round, no answer is a yes: "no" may as well be said of the photo.
		{"No photo", text("x"), no},
		{"No photo", text("no"), unread},
		{"Withhold name?", text("n"), unread},
		{"Do not publish", xlsx.Cell{Kind: xlsx.Number, Raw: "0"}, unread},
	} {
		p := asked(t, measure.Consent, "")
		p.heading = row.heading
		signals, got := p.consent(row.cell), unread
		if signals.problem == "" {
			got = map[bool]string{true: yes, false: no}[signals.reading.Value.Number.IsPositive()]
		}
		if got != row.want {
			t.Errorf("%q under %q is read as %s, not %s", row.cell.Raw, row.heading, got, row.want)
		}
	}
}

// Of answers that can't be read one thing is asked, and no carcass loses its place for them.
func TestUnreadableConsentIsALook(t *testing.T) {
	result := readSheets(t, Options{}, sheetOf("Steers", "Tag|HCW|Fat|REA|Consent\n101|801|.4|13|yes\n102|790|.4|13|pending\n103|795|.4|13|ask\n104|799|.4|13|no"))
	var levels []string
	for _, finding := range result.Findings {
		if finding.Measure == measure.Consent {
			levels = append(levels, string(finding.Level))
			if !strings.Contains(finding.Message, "not published") {
				t.Error(finding.Message)
			}
		}
	}
	if got := strings.Join(levels, " "); got != string(validate.Look) {
		t.Errorf("about consent there are %q", got)
	}
}

// What nobody sees in a text goes, what parts words stays; of control characters no sheet can hold any, and a terminal obeys them.
func TestCleanTexts(t *testing.T) {
	for text, want := range map[string]string{
		"Market Steers": "Market Steers", "  two \u00a0 blanks\t": "two blanks", "a\r\nb": "a b", "Zo\u00eb": "Zo\u00eb",
		"Ste\x00ers": "Steers", "\x1b[2J101": "[2J101", "10\x7f1": "101", "\u009b31m7": "31m7", "a\u0085b": "a b", "\x01": "",
		"\u202e101": "101", "\u2066101\u2069": "101", "\u200b1\u00ad0\ufeff1\u200e": "101", "\uffff1\ufffe": "1",
	} {
		if got := clean(text); got != want {
			t.Errorf("%q becomes %q, not %q", text, got, want)
		}
	}
}
