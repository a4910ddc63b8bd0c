package validate

import (
	"fmt"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// hogs draws hogs of ordinary figures, within the usual ranges of the limits; change may alter each one's row.
func hogs(t *testing.T, change func(i int, row drawn)) *Batch {
	t.Helper()
	var rows []drawn
	for i, figures := range [][4]string{
		{"268", "200", "0.75", "7.31"},
		{"254", "189", "0.62", "7.02"},
		{"281", "211", "0.88", "7.74"},
		{"260", "194", "0.70", "6.85"},
		{"275", "205", "0.81", "7.52"},
		{"249", "186", "0.58", "7.18"},
	} {
		row := drawRow(t, fmt.Sprintf("tag=%d; class=Market; live weight=%s; hot carcass weight=%s; tenth-rib fat=%s; loin muscle area=%s",
			201+i, figures[0], figures[1], figures[2], figures[3]))
		if change != nil {
			change(i, row)
		}
		rows = append(rows, row)
	}
	return drawLot(t, rules.Swine, rows...)
}

func about(t *testing.T, batch *Batch, tag string, id measure.ID) *Finding {
	t.Helper()
	for _, finding := range Check(batch) {
		if finding.Tag == tag && finding.Measure == id && finding.Level != Note {
			return &finding
		}
	}
	return nil
}

// A loin 2.3 to 2.8 in deep typed as area looks like a tiny eye; the area is about three times the depth (this project's
// own figure).
func TestLoinDepthTypedAsArea(t *testing.T) {
	if found := about(t, hogs(t, nil), "201", measure.LoinMuscleArea); found != nil {
		t.Fatalf("a true loin is named: %s", found.Message)
	}
	for _, depth := range []string{"2.3", "2.4", "2.5", "2.6", "2.7", "2.8"} {
		found := about(t, hogs(t, func(i int, row drawn) {
			if i == 0 {
				row[measure.LoinMuscleArea] = depth
			}
		}), "201", measure.LoinMuscleArea)
		area := decimal.RequireFromString(depth).Mul(decimal.NewFromInt(3)).String()
		if found == nil || !strings.Contains(found.Message, "loin's depth") || found.Hint != area {
			t.Errorf("depth %s: wanted the hint %s, found %+v", depth, area, found)
		}
	}
}

func TestColumnOfLoinDepthsIsNamedOnce(t *testing.T) {
	batch := hogs(t, func(i int, row drawn) {
		row[measure.LoinMuscleArea] = []string{"2.5", "2.4", "2.6", "2.3", "2.5", "2.7"}[i]
	})
	if words := columnWords(batch, measure.LoinMuscleArea); !strings.Contains(words, "6 of 6") || !strings.Contains(words, "loin's depth") {
		t.Errorf("the column of depths: %q", words)
	}
}

// Probes read in millimetres: 13 mm is .51 in.
func TestProbeMillimetres(t *testing.T) {
	found := about(t, hogs(t, func(i int, row drawn) {
		if i == 1 {
			row[measure.TenthRibFat] = "13"
		}
	}), "202", measure.TenthRibFat)
	if found == nil || found.Level != Hold || found.Hint != "0.51" {
		t.Errorf("13 mm of fat: %+v", found)
	}
	batch := hogs(t, func(i int, row drawn) { row[measure.TenthRibFat] = []string{"19", "16", "22", "18", "21", "15"}[i] })
	if words := columnWords(batch, measure.TenthRibFat); !strings.Contains(words, "6 of 6") || !strings.Contains(words, "millimetres") {
		t.Errorf("the column of millimetres: %q", words)
	}
	if found := about(t, batch, "201", measure.TenthRibFat); found == nil || found.Level != Hold || found.Hint != "0.75" {
		t.Errorf("19 mm of fat: %+v", found)
	}
}

// The other way about: an area under the heading of a depth, and a depth in millimetres (64 mm is 2.52 in).
func TestLoinAreaTypedAsDepth(t *testing.T) {
	with := func(depths ...string) *Batch {
		return hogs(t, func(i int, row drawn) {
			row[measure.LoinDepth] = "2.4"
			if i < len(depths) {
				row[measure.LoinDepth] = depths[i]
			}
		})
	}
	if found := about(t, with(), "201", measure.LoinDepth); found != nil {
		t.Fatalf("a true depth is named: %s", found.Message)
	}
	for _, test := range []struct{ depth, hint, words string }{
		{"7.5", "2.5", "loin's area"}, {"6.9", "2.3", "loin's area"}, {"64", "2.52", "millimetres"}, {"58", "2.28", "millimetres"},
	} {
		if found := about(t, with(test.depth), "201", measure.LoinDepth); found == nil || found.Level != Hold || found.Hint != test.hint || !strings.Contains(found.Message, test.words) {
			t.Errorf("a depth of %s: wanted the hint %s, found %+v", test.depth, test.hint, found)
		}
	}
	if words := columnWords(with("7.5", "7.2", "7.8", "6.9", "7.4", "8.1"), measure.LoinDepth); !strings.Contains(words, "6 of 6") || !strings.Contains(words, "loin's area") {
		t.Errorf("the column of areas: %q", words)
	}
	if words := columnWords(with("64", "61", "66", "58", "63", "69"), measure.LoinDepth); !strings.Contains(words, "6 of 6") || !strings.Contains(words, "millimetres") {
		t.Errorf("the column of millimetres: %q", words)
	}
}

func columnWords(batch *Batch, id measure.ID) string {
	for _, finding := range Check(batch) {
		if finding.Code == "column in another unit" && finding.Measure == id {
			return finding.Message
		}
	}
	return ""
}
