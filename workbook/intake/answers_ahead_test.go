package intake

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/text/unicode/norm"
	"pgregory.net/rapid"

	"railbook/rules"
	"railbook/workbook/xlsx"
)

// Whether or not the answers of cells are found ahead of the line that is being read, every sheet of testdata/layouts says the same.
func TestAnswersFoundAheadAreTheSame(t *testing.T) {
	files, err := filepath.Glob("../../testdata/layouts/*.[xct]*")
	if err != nil {
		t.Fatal(err)
	}
	began := 0
	for i, file := range files {
		if strings.HasSuffix(file, ".expected.csv") || strings.HasSuffix(file, ".findings.csv") || testing.Short() && i%3 > 0 {
			continue
		}
		want, _ := saidOf(t, file, 1<<30)
		got, ahead := saidOf(t, file, 1)
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: %s", file, diff)
		}
		began += ahead
	}
	if began < 10 {
		t.Errorf("only %d tables were read ahead", began)
	}
}

// saidOf gives all that is read of a file, and how many of its tables were read ahead.
func saidOf(t *testing.T, file string, fewest int) (said []string, began int) {
	t.Helper()
	was := fewestAhead
	fewestAhead = fewest
	defer func() { fewestAhead = was }()
	book, err := xlsx.Open(file, xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	r := newReader(rules.Shipped(), Options{})
	if err := r.scan(book, false); err != nil {
		t.Fatal(err)
	}
	for _, table := range r.tables {
		if r.readTable(table).ahead != nil {
			began++
		}
	}
	r = newReader(rules.Shipped(), Options{})
	if err := r.scan(book, false); err != nil {
		t.Fatal(err)
	}
	r.readTables()
	for _, record := range Records(r.result) {
		said = append(said, fmt.Sprintf("%+v", record))
	}
	for _, finding := range r.result.Findings {
		said = append(said, fmt.Sprint(finding.Level, finding.Code, finding.At, finding.Message, finding.Hint, finding.Read))
	}
	return append(said, fmt.Sprintf("%+v", r.result.Passed)), began
}

// The short ways of reading a number give what the long ones do: a text of ASCII is brought to its form without Unicode's tables
// (Unicode Standard Annex 15: they leave ASCII as it is), and one without a digit is no number in either form.
func TestShortWaysToANumberAreTheLongOnes(t *testing.T) {
	parts := []string{"1", "8", "2", "½", "²", "①", "٣", "-", "−", "+", ".", ",", "/", "⁄", "'", "''", `"`, "“", " ", " ", "lb", "%", "x", "é", "\t", "#"}
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(parts), 0, 7).Draw(t, "text"), "")
		want := strings.TrimPrefix(clean(numberMarks.Replace(norm.NFKC.String(halves.Replace(text)))), "'")
		if got := normalNumber(text); got != want {
			t.Fatalf("%q: %q, not %q", text, got, want)
		}
		if strings.ContainsAny(want, "0123456789") {
			return
		}
		if pointForm.MatchString(want) || commaForm.MatchString(want) {
			t.Fatalf("%q is a number", text)
		}
	})
}
