// Package measure knows every measure the program speaks of: what is read from a sheet or computed from it. A measure
// stands in a table of measures; the standard measures have the same number in every table, and those that a rulebook
// declares come after them.
package measure

import (
	"cmp"
	"strconv"

	"github.com/shopspring/decimal"
)

// ID is a measure of a table of measures, and knows its definition there; None for no measure. The standard measures are
// the same in every table. Those that two rulebooks declare are different measures, whatever their names: what is read by
// one rulebook and used by another is found again by its name. An ID is never written anywhere: a workbook names a measure
// in words.
type ID struct{ of *Definition }

// String gives the measure's name; empty for None.
func (id ID) String() string {
	if id.of == nil {
		return ""
	}
	return id.of.Name
}

// Equal reports whether two are the same measure of the same table.
func (id ID) Equal(other ID) bool { return id == other }

// Compare orders measures as their table lists them, None first.
func (id ID) Compare(other ID) int { return cmp.Compare(id.number(), other.number()) }

// number is the measure's place in its table, from 1; 0 for None.
func (id ID) number() uint16 {
	if id.of == nil {
		return 0
	}
	return id.of.number
}

// standard reports whether the measure is none that a rulebook declares.
func (id ID) standard() bool { return id.of == nil || !id.of.own }

// Kind says what sort of value a measure takes, and so how it is read, compared and printed.
type Kind string

// The kinds of value.
const (
	KindNumber   Kind = "number"   // an exact decimal in the measure's unit
	KindText     Kind = "text"     // words: a tag, a name, a class
	KindDate     Kind = "date"     // Number counts days from 1899-12-30, as spreadsheets do; Text is 2025-06-30
	KindMark     Kind = "mark"     // Number 1 for yes, 0 for no; Text "yes" or "no"
	KindMarbling Kind = "marbling" // Number 0 to 999 in hundreds a degree (Small 40 = 440); Text "Small 40"
	KindMaturity Kind = "maturity" // Number 100 to 599 (A00 = 100, E99 = 599); Text "A60"
	KindGrade    Kind = "grade"    // Number is the rank, higher is better; Text the grade's words ("Average Choice")
	KindLowering Kind = "lowering" // Number in sixths of a full grade (0, 2, 3, 4 or 6); Text "0", "1/3", "1/2", "2/3" or "full"
)

// Value is one value of a measure. Which fields carry meaning depends on the measure's Kind.
type Value struct {
	Number decimal.Decimal
	Text   string
}

// NumberValue makes the value of a plain number; its Text is the shortest exact form.
func NumberValue(number decimal.Decimal) Value {
	return Value{Number: number, Text: NumberText(number)}
}

// NumberText writes a number in its shortest exact form, as its own String does, at a fraction of the cost for numbers of
// up to 18 digits.
func NumberText(number decimal.Decimal) string {
	exponent := int(number.Exponent())
	if exponent > 0 || exponent < -mostDigits || number.NumDigits() > mostDigits {
		return number.String()
	}
	coefficient := number.CoefficientInt64()
	for exponent < 0 && coefficient%10 == 0 {
		coefficient, exponent = coefficient/10, exponent+1
	}
	return digits(coefficient, exponent)
}

// FixedText writes a number with so many decimals, rounded half away from zero, as its own StringFixed does.
func FixedText(number decimal.Decimal, places int32) string {
	rounded := Round(number, places)
	if of, ok := shortOf(rounded); ok && places >= 0 && places <= mostDigits {
		return digits(of.coefficient, int(of.exponent))
	}
	return number.StringFixed(places)
}

// digits writes coefficient · 10^exponent in full; the exponent is none above 0, nor below that of a short number.
func digits(coefficient int64, exponent int) string {
	sign := ""
	if coefficient < 0 {
		coefficient, sign = -coefficient, "-"
	}
	var buffer, text [2*mostDigits + 4]byte
	written := strconv.AppendInt(buffer[:0], coefficient, 10)
	all := append(text[:0], sign...)
	if exponent == 0 {
		return string(append(all, written...))
	}
	whole := len(written) + exponent
	if whole <= 0 {
		all = append(all, '0')
	} else {
		all = append(all, written[:whole]...)
	}
	all = append(all, '.')
	for range -whole {
		all = append(all, '0')
	}
	return string(append(all, written[max(whole, 0):]...))
}
