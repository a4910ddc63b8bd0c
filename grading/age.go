package grading

import (
	"time"

	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// wholeMonths are the months completed between two days: a calf born on the 15th is a month old on the next 15th. One born on
// a day that the later month does not have completes it on the first of the next.
type wholeMonths struct{ from, to Expression }

func (w wholeMonths) operands() []Expression { return append(w.from.operands(), w.to.operands()...) }

func (w wholeMonths) value(g *Graded) (measure.Value, string) {
	from, to, problem := both(g, w.from, w.to)
	if problem == "" && !to.GreaterThan(from) {
		problem = noDaysOfAge
	}
	if problem != "" {
		return measure.Value{}, problem
	}
	born, day := dayOf(from), dayOf(to)
	months := 12*(day.Year()-born.Year()) + int(day.Month()) - int(born.Month())
	if day.Day() < born.Day() {
		months--
	}
	return number(decimal.NewFromInt(int64(months))), ""
}

func (w wholeMonths) shape(shape []byte, g *Graded) []byte {
	return w.to.shape(w.from.shape(shape, g), g)
}

func (w wholeMonths) write(f *formula, tightness int) {
	defer f.brackets(tightness > loose)()
	part := func(name string, of Expression) {
		f.add(name + "(")
		of.write(f, loose)
		f.add(")")
	}
	f.add("12*(")
	part("YEAR", w.to)
	f.add("-")
	part("YEAR", w.from)
	f.add(")+")
	part("MONTH", w.to)
	f.add("-")
	part("MONTH", w.from)
	f.add("-IF(")
	part("DAY", w.to)
	f.add("<")
	part("DAY", w.from)
	f.add(",1,0)")
}

// firstDay is the day from which dates are counted.
var firstDay = time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)

func dayOf(number decimal.Decimal) time.Time { return firstDay.AddDate(0, 0, int(number.IntPart())) }

// FormatDate writes a date that is counted in days as people and rulebooks do: 2025-08-15.
func FormatDate(number decimal.Decimal) string { return dayOf(number).Format(time.DateOnly) }
