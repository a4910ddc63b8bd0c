package plant

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
)

var codes = []*regexp.Regexp{
	regexp.MustCompile(`about(?:Row|Column)?\((?:Hold, |Look, |level, )?"([^"]+)"`),
	regexp.MustCompile(`(?m)Level: +(?:validate\.)?(?:Hold|Look|level|condition\.level), Code: +"([^"]+)"`),
	regexp.MustCompile(`\bcode(?: :?=|:) *"([^"]+)"`),
	regexp.MustCompile(`slipsBy\("([^"]+)"\)`),
	regexp.MustCompile(`weightFinding\(r, \w+, "([^"]+)"`),
	regexp.MustCompile(`"([^"]+)",\n\t+\[\]measure\.ID`),
}

// Every check and everything that reading asks about has its own question for the plant, or is the fair office's alone.
func TestEveryCheckHasItsQuestion(t *testing.T) {
	found := 0
	for _, pattern := range []string{"../../validate/*.go", "../intake/*.go"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			if strings.HasSuffix(file, "_test.go") || strings.HasPrefix(filepath.Base(file), "previous") {
				continue
			}
			source, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			for _, code := range codesIn(string(source)) {
				found++
				finding := &validate.Finding{Code: code, Read: "115", Hint: "11.5", Measure: measure.RibeyeArea, Exchange: rules.Place{Cell: "C16"}}
				words := asked(finding, "REA")
				if words == "" && !slices.Contains(officeAlone, code) {
					t.Errorf("%s: %q has no question and is not the office's alone", file, code)
				}
				if words != "" && !strings.HasSuffix(words, "?") && !strings.HasSuffix(words, ".") {
					t.Errorf("%q is no whole sentence: %s", code, words)
				}
				if words != "" && strings.Contains(words, "%") {
					t.Errorf("%q leaves a gap: %s", code, words)
				}
			}
		}
	}
	if found < 80 {
		t.Errorf("only %d codes found in the source", found)
	}
}

func codesIn(source string) (list []string) {
	for _, pattern := range codes {
		for _, found := range pattern.FindAllStringSubmatch(source, -1) {
			if !strings.HasSuffix(found[1], " ") { // "carcass " begins a code that names a mark
				list = append(list, found[1])
			}
		}
	}
	return list
}

// What is asked is what the check found: each kind of slip in its own words, with the likely value only where there is one.
func TestWhatIsAsked(t *testing.T) {
	for _, test := range []struct {
		finding validate.Finding
		want    string
	}{
		{validate.Finding{Code: "ribeye area out of range", Read: "115", Hint: "11.5"}, "115 is far from what is usual. What does the card say? Was it 11.5?"},
		{validate.Finding{Code: "ribeye area out of range", Read: "40"}, "40 is far from what is usual. What does the card say?"},
		{validate.Finding{Code: "digits swapped", Read: "15.3", Hint: "13.5"}, "Were two digits of 15.3 swapped? Was it 13.5?"},
		{validate.Finding{Code: "value missing"}, "Nothing is written. What was it?"},
		{
			validate.Finding{Code: "tags swapped", Measure: measure.Tag, Tag: "0508", Hint: "0487", Exchange: rules.Place{Cell: "B51"}},
			"Were the tags 0508 and 0487 (cell B51) swapped? If so, say which carcass is whose.",
		},
		{validate.Finding{Code: "sheet's own yield grade disagrees", Read: "3.1"}, "3.1 is not what the carcass's measures give. Which of them is wrong, or was it worked out otherwise?"},
		{validate.Finding{Code: "sheet's own yield grade disagrees throughout"}, "How do you work out this figure?"},
		{
			validate.Finding{Code: measure.RibeyePerHundredweight.String() + " of a group below the range"},
			"Many ribeyes of this class are small for the weight. Are these carcasses of dairy type?",
		},
		{validate.Finding{Code: "leg score out of line with the class", Read: "2", Hint: "12"}, "2 is far from what is usual in this class. What does the card say? Was it 12?"},
		{validate.Finding{Code: "class missing"}, ""},
		{validate.Finding{Code: "carcass condemned"}, ""},
	} {
		if got := asked(&test.finding, "REA"); got != test.want {
			t.Errorf("%s: asked %q, want %q", test.finding.Code, got, test.want)
		}
	}
}
