package validate

import (
	"flag"
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the words the checks say into README.md")

const page = "README.md"

// TestPageShowsWhatTheChecksSay builds the rows of every example on the page, checks them, and compares each finding,
// none left out, with what the page says.
func TestPageShowsWhatTheChecksSay(t *testing.T) {
	text, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	sections := strings.Split(string(text), "\n### ")
	for i, section := range sections[1:] {
		name, _, _ := strings.Cut(section, "\n")
		written := section
		for _, rows := range fenced(section, "rows") {
			said := wordsOf(Check(exampleLot(t, rows)))
			before, after, ok := strings.Cut(written, rows+"```\n\n```words\n")
			if !ok {
				t.Errorf("%s: no words follow the rows", name)
				continue
			}
			shown, rest, _ := strings.Cut(after, "```")
			if diff := cmp.Diff(shown, said); diff != "" && !*update {
				t.Errorf("%s: the page (-) and the checks (+) differ:\n%s", name, diff)
			}
			written = before + rows + "```\n\n```words\n" + said + "```" + rest
		}
		sections[i+1] = written
	}
	if *update {
		if err := os.WriteFile(page, []byte(strings.Join(sections, "\n### ")), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// TestPageNamesEveryCheck holds the page's list of checks to the program's.
func TestPageNamesEveryCheck(t *testing.T) {
	text, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	var listed, known []string
	for _, section := range strings.Split(string(text), "\n### ")[1:] {
		name, _, _ := strings.Cut(section, "\n")
		listed = append(listed, name)
		if len(fenced(section, "rows")) == 0 {
			t.Errorf("%s has no example", name)
		}
	}
	for _, check := range checks {
		known = append(known, check.name)
	}
	if diff := cmp.Diff(known, listed); diff != "" {
		t.Errorf("the checks (-) and the page (+) differ:\n%s", diff)
	}
}

// fenced gives the bodies of the fenced blocks of one kind.
func fenced(text, kind string) []string {
	var list []string
	for _, part := range strings.Split(text, "```"+kind+"\n")[1:] {
		body, _, _ := strings.Cut(part, "```")
		list = append(list, body)
	}
	return list
}

// wordsOf writes findings as the page does.
func wordsOf(findings []Finding) string {
	text := ""
	for _, finding := range findings {
		text += fmt.Sprintf("%s: %s", finding.Level, finding.Code)
		if finding.Hint != "" {
			text += ", hint " + finding.Hint
		}
		text += "\n    " + finding.Message + "\n"
	}
	return text
}

// exampleLot builds the lot of an example: a line for each carcass with what differs from the first of all carcasses, or
// one of the lines the page's introduction explains.
func exampleLot(t *testing.T, rows string) *Batch {
	t.Helper()
	var carcasses []drawn
	species, basis, without, weights, roster := rules.Beef, rules.OnTheRail, "", rules.WeightsHot, ""
	for _, line := range strings.Split(strings.TrimSpace(rows), "\n") {
		name, value, _ := strings.Cut(line, ": ")
		switch name {
		case "roster":
			roster = value
		case "without":
			without = value
		case "basis":
			basis = rules.Basis(value)
		case "species":
			species = rules.Species(value)
		case "the heading says":
			weights = rules.WeightsAre(strings.TrimPrefix(value, "carcass weight"))
		case "others":
			carcasses = append(carcasses, companions(t, value)...)
		default:
			tag := strconv.Itoa(101 + len(carcasses))
			carcasses = append(carcasses, firstOf(t, species).but(t, "tag="+tag).but(t, strings.TrimPrefix(line, "as it is")))
		}
	}
	for _, name := range strings.Split(without, "; ") {
		for _, carcass := range carcasses {
			delete(carcass, measure.Standard().ByName(name))
		}
	}
	batch := drawLot(t, species, carcasses...)
	batch.Sheets[0].Weights = weights
	setBasis(batch, basis)
	for i, tag := range strings.Fields(roster) {
		batch.Entries = append(batch.Entries, Entry{Tag: tag, Class: "Steers", Place: rules.Place{Sheet: "Roster", Cell: "A" + strconv.Itoa(i+2)}})
	}
	return batch
}

// firstOf is the carcass that the lines of an example change.
func firstOf(t *testing.T, species rules.Species) drawn {
	t.Helper()
	switch species {
	case rules.Swine:
		return drawRow(t, "tag=101; class=Barrows; live weight=270; hot carcass weight=200; tenth-rib fat=0.8; loin muscle area=7; skinned=no")
	case rules.Lamb:
		return drawRow(t, "tag=101; class=Market lambs; live weight=125; hot carcass weight=66; measured fat=0.2; body wall thickness=0.8; ribeye area=2.8")
	case rules.Goat:
		return drawRow(t, "tag=101; class=Market goats; live weight=80; hot carcass weight=40; measured fat=0.1; body wall thickness=0.5; ribeye area=1.8")
	}
	return trueRow(t)
}

// companions are ordinary carcasses, each a little different.
func companions(t *testing.T, count string) []drawn {
	t.Helper()
	number, err := strconv.Atoi(count)
	if err != nil {
		t.Fatalf("%q is no number of others", count)
	}
	var list []drawn
	for i := range number {
		live := 1205 + 17*((i*7)%13)
		percent := 61.2 + 0.3*float64((i*5)%9)
		list = append(list, trueRow(t).but(t, fmt.Sprintf("tag=%d; live weight=%d; hot carcass weight=%.0f; measured fat=%.2f; ribeye area=%.1f; marbling=%d",
			201+i, live, float64(live)*percent/100, 0.3+0.03*float64((i*4)%11), 12.6+0.2*float64((i*3)%10), 380+10*((i*6)%15))))
	}
	return list
}
