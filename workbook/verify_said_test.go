package workbook

import (
	"testing"

	"railbook/workbook/record"
)

// What a changed decision says is read without its empty parts; any other line is said as it is.
func TestADecisionIsSaidWithoutItsEmptyParts(t *testing.T) {
	for _, test := range []struct {
		line record.SealedLine
		want string
	}{
		{record.SealedLine{Kind: record.DecisionLine, Value: "leave out | | was | AB | |"}, "leave out, AB"},
		{record.SealedLine{Kind: record.DecisionLine, Value: "correct to | 2.43 | was 24.3 | AB | seen | 2025-08-21"}, "correct to, 2.43, was 24.3, AB, seen, 2025-08-21"},
		{record.SealedLine{Kind: record.RulingLine, Value: "2 | | AB | "}, "2, AB"},
		{record.SealedLine{Kind: record.ReasonsLine, Value: "this | or that"}, "this | or that"},
	} {
		if got := saidValue(test.line); got != test.want {
			t.Errorf("%q: %q, want %q", test.line.Value, got, test.want)
		}
	}
}
