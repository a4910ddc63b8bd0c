package intake

import (
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
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
		{"scale was off, add 4", 2, "look B2 764"},
		{"less 6 lb shroud", 2, "look B2 754"},
		{"other scale said 770", 2, "look B2 "},
		{"760 it is", 2, ""},
		{"3 readings, avg", 2, ""},
		{"380", 2, "look B2 "}, // half of it
		{"379", 2, ""},
		{"check picked up", 1, ""},
		{"Jim: ok", 2, ""},
		{"seen 8/14, 9:30", 2, ""},
		{"this is really 103", 1, "look A2 "},
		{"red tag", 1, "look A2 "}, // which speaks of the tag
		{"KPH est.", 7, "look G2 "},
		{"kidneys out", 7, "look G2 "},
		{"kidneys big", 7, ""},
		{"wt includes hide piece", 7, "look G2 "},
		{"wt good", 7, ""},
		{"callous ribeye", 7, "look G2 "},
		{"big ribeye", 7, ""},
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
				if finding.Code != "remark questions a value" && test.words != "red tag" {
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
		{"Media release signed (Y/N)", "on file", "initials only", "not yet", "consent=yes consent=? consent=?"},
		{"Publicity", "ask mom", "ask dad", "Y", "consent=? consent=? consent=yes"},
		{"Photo taken by", "Ann", "Bob", "Cy", ""},
		{"Release date", "8/1", "8/2", "8/3", ""},
		{"Media paper #", "R-12", "R-13", "R-14", ""},
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

// TestWordsAgainstConsent holds that words beside an animal, or behind the name, that speak against publishing it withhold the
// name whatever the consent column says, and that no others do (common practice).
func TestWordsAgainstConsent(t *testing.T) {
	for _, test := range []struct{ name, words, want string }{
		{"Ada Quill", "do not publish", "no"},
		{"Ada Quill", "mom called, no photo please", "no"},
		{"Ada Quill", "foster child", "no"},
		{"Ada Quill", "parents opted out", "no"},
		{"Ada Quill (NO PHOTO)", "", "no"},
		{"Ada Quill", "no trim", "yes"},
		{"Ada Quill", "no show ribbon", "yes"},
		{"Ada Quill", "not weighed; good print on hide", "yes"},
		{"Ada Quill", "photo taken", "yes"},
	} {
		read := readSheets(t, Options{Species: rules.Beef}, sheetOf("Steers", "Tag|Exhibitor|HCW|Fat|Consent|Remarks\n101|"+test.name+"|760|.45|yes|"+test.words+"\n102|Ben Torve|805|.4|yes|"))
		asked := 0
		for _, finding := range read.Findings {
			if finding.Code == "words against consent" {
				asked++
			}
		}
		if got := read.Carcasses[0].ReadingOf(measure.Consent).Value.Text; got != test.want || (asked == 1) != (got == "no") {
			t.Errorf("%q, %q: consent is %q, asked %d times", test.name, test.words, got, asked)
		}
		if got := read.Carcasses[1].ReadingOf(measure.Consent).Value.Text; got != "yes" {
			t.Errorf("%q withholds another's name", test.words)
		}
	}
}

// TestSecondConsentColumn holds that only what is a yes in both columns of consent is one, but that a column of pictures says
// nothing of names where another asks for those.
func TestSecondConsentColumn(t *testing.T) {
	for heading, want := range map[string]string{"Press ok?": "?", "Photo ok?": "yes", "Web/print?": "?"} {
		read := readSheets(t, Options{Species: rules.Beef}, sheetOf("Steers", "Tag|Exhibitor|HCW|Fat|Publish name|"+heading+"\n101|Ada Quill|760|.45|yes|no\n102|Ben Torve|805|.4|yes|yes"))
		reading := read.Carcasses[0].ReadingOf(measure.Consent)
		got := reading.Value.Text
		if reading.Unreadable {
			got = "?"
		}
		if got != want {
			t.Errorf("%q: %q, want %q", heading, got, want)
		}
	}
}

// TestHeadingComments holds that a comment on a heading is asked about where it says how the column is to be taken.
func TestHeadingComments(t *testing.T) {
	for _, test := range []struct {
		heading, text string
		asked         bool
	}{
		{"HCW", "all weights cold!", true},
		{"HCW", "hot carcass weight", false},
		{"HCW", "weight in pounds", false},
		{"Carcass wt", "hot", true},
		{"HCW", "from the plant's ticket", false},
		{"HCW", "weights in kg", true},
		{"HCW (kg)", "weights in kg", false},
		{"HCW", "add 4 to all", true},
	} {
		page := sheetOf("Steers", "Tag|"+test.heading+"|Fat|KPH\n101|360|.45|2\n102|365|.4|2")
		page.comment(position{1, 2}, test.text)
		asked := false
		for _, finding := range readSheets(t, Options{Species: rules.Beef}, page).Findings {
			asked = asked || finding.Code == "comment on a heading"
		}
		if asked != test.asked {
			t.Errorf("%q on %q: asked is %v", test.text, test.heading, asked)
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
		"head and page totals": {
			"Tag|HCW|Fat\n1|61|.2\n2|66|.3\nSubtotal page 1|127|\n2 hd|127|",
			"1/Lambs 2/Lambs",
		},
		"the plant's title on each page": {
			"Oakmont Packing 8/14 Page 1\nTag|HCW|Fat\n1|61|.2\nOakmont Packing 8/14 Page 2\nTag|HCW|Fat\n2|66|.3",
			"1/Lambs 2/Lambs",
		},
		"champions by tag": {
			"Tag|HCW|Fat\n1|61|.2\n2|66|.3\n\nGrand Champion|2|\nReserve|1|",
			"1/Lambs 2/Lambs",
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
