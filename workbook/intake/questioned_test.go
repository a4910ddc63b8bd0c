package intake

import (
	"strings"
	"testing"

	"railbook/rules"
	"railbook/validate"
)

// TestCommentsQuestionValues holds that a comment, or words under a heading that nobody knows, puts a value in question as a
// remark does, with the number in it as the likely value (common practice).
func TestCommentsQuestionValues(t *testing.T) {
	tests := []struct {
		words  string
		column int // of the comment; 7 is a cell under a heading that is not known
		want   string
	}{
		{"re-weigh 790", 2, "look B2 790"},
		{"re-weigh 790", 1, "look A2 790"},
		{"re-weighed, same", 2, ""},
		{"should be .5", 3, "look C2 0.5"},
		{"should be .45", 3, ""}, // as it is already
		{"s/b 13.9", 4, "look D2 13.9"},
		{"not sure", 4, "look D2 "},
		{"14?", 4, "look D2 "},
		{"measured twice", 4, ""},
		{"ID questionable", 2, "look B2 "},
		{"re-weigh 790", 7, "look G2 790"},
		{"should be .5", 7, ""}, // of which measure nobody says
	}
	for _, test := range tests {
		said := ""
		if test.column == 7 {
			said = test.words
		}
		found := sheetOf("Steers", "Tag|HCW|Fat|Ribeye|KPH|Marbling|Oddments\n101|760|.45|13.1|2.5|Sm 20|"+said+"\n102|805|.4|13.3|2|Sm 50|")
		if said == "" {
			found.comment(position{2, test.column}, test.words)
		}
		var got string
		for _, finding := range readSheets(t, Options{Species: rules.Beef}, found).Findings {
			if finding.Level != validate.Note {
				if finding.Code != "remark questions a value" {
					t.Errorf("%q: %s", test.words, finding.Message)
				}
				got = strings.Join([]string{string(finding.Level), finding.At.Cell, finding.Hint}, " ")
			}
		}
		if got != test.want {
			t.Errorf("%q in column %d: %q, want %q", test.words, test.column, got, test.want)
		}
	}
}

// TestConsentInOtherWords holds that a column that asks for consent in words of its own is read where its values are answers,
// so that no name that was refused is let out, and that numbers of photographs are none.
func TestConsentInOtherWords(t *testing.T) {
	tests := []struct{ heading, first, second, third, want string }{
		{"Photo OK?", "y", "no", "ask mom", "consent=yes consent=no consent=?"},
		{"Web/print", "X", "declined", "X", "consent=yes consent=no consent=yes"},
		{"Photo", "114", "115", "116", ""},
		{"Photo", "1", "115", "116", ""},
		{"Parking OK?", "y", "no", "y", ""},
	}
	for _, test := range tests {
		read := readSheets(t, Options{Species: rules.Beef}, sheetOf("Steers", "Tag|HCW|Fat|"+test.heading+"\n101|760|.45|"+test.first+"\n102|805|.4|"+test.second+"\n103|790|.4|"+test.third))
		var got []string
		for _, word := range strings.Fields(tell(read)) {
			if strings.HasPrefix(word, "consent=") {
				got = append(got, word)
			}
		}
		if got := strings.Join(got, " "); got != test.want {
			t.Errorf("%q: %q, want %q", test.heading, got, test.want)
		}
	}
}

// TestTagAndTitleByWhatTheyHold holds that a column of numbers that nobody calls a tag is taken for it, and asked, where no
// other is, that a line of averages under the rail numbers or the names is no carcass, and that a dated title is no class.
func TestTagAndTitleByWhatTheyHold(t *testing.T) {
	for name, test := range map[string]struct{ lines, want string }{
		"numbered lines": {
			"Lambs on the rail, Aug 7 2025\nNo|Name|HCW|Fat\n1|Ada Quill|61|.2\n2|Ben Torve|66|.25\n3|Cy Marden|70|.3",
			"1/Lambs 2/Lambs 3/Lambs",
		},
		"averages under the rail number": {
			"Rail #|Ear Tag|Class|HCW|Fat\n701|11|Light|710|.4\n702|12|Light|730|.5\nLight average|||720|.45",
			"11/Light 12/Light",
		},
		"averages under the name": {
			"Name|Tag|Class|HCW|Fat\nAda Quill|11|Light|710|.4\nBen Torve|12|Light|730|.5\nLight average|||720|.45",
			"11/Light 12/Light",
		},
		"a dated title": {"Market Lambs 8/7/2025\nTag|HCW|Fat\n1|61|.2\n2|66|.3", "1/Lambs 2/Lambs"},
		"a title":       {"Heavy Lambs\nTag|HCW|Fat\n1|61|.2\n2|66|.3", "1/Heavy Lambs 2/Heavy Lambs"},
	} {
		var got []string
		for _, carcass := range readSheets(t, Options{}, sheetOf("Lambs", test.lines)).Carcasses {
			got = append(got, carcass.Tag+"/"+carcass.Class)
		}
		if got := strings.Join(got, " "); got != test.want {
			t.Errorf("%s: %q, want %q", name, got, test.want)
		}
	}
}
