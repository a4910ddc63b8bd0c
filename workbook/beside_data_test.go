package workbook

import (
	"strconv"
	"testing"

	"railbook/rules/measure"
	"railbook/workbook/intake"
	"railbook/workbook/record"
)

// The data stand where they stood where nine tags of ten and half of all values do: rows put in or sorted move the tags, columns
// put in the rest.
func TestDataStandWhereTheyStood(t *testing.T) {
	work := &job{previous: &intake.Previous{}}
	for animal := range 10 {
		row := strconv.Itoa(animal + 2)
		for column, id := range map[string]measure.ID{"A": measure.Tag, "B": measure.HotCarcassWeight, "C": measure.InternalFat} {
			work.previous.Readings = append(work.previous.Readings, record.Reading{Sheet: "Rail", Cell: column + row, Measure: id, Written: column + row})
		}
	}
	for _, test := range []struct {
		tags, others int // that say something else
		want         bool
	}{
		{0, 0, true},
		{1, 0, true},
		{2, 0, false},
		{0, 15, true},
		{0, 16, false},
	} {
		now := make(map[string]string)
		tags, others := test.tags, test.others
		for _, kept := range work.previous.Readings {
			now[kept.Cell] = kept.Written
			switch {
			case kept.Measure == measure.Tag && tags > 0:
				tags--
				now[kept.Cell] = "moved"
			case kept.Measure != measure.Tag && others > 0:
				others--
				now[kept.Cell] = "moved"
			}
		}
		if got := work.dataStand("Rail", now); got != test.want {
			t.Errorf("%d tags and %d others moved: %t, want %t", test.tags, test.others, got, test.want)
		}
	}
	if work.dataStand("Notes", nil) {
		t.Error("a sheet without data has none that stand")
	}
}
