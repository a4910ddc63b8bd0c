package measure

import (
	"cmp"
	"math/bits"
	"sync/atomic"

	"github.com/shopspring/decimal"
)

// Nearly every number of a fair has few digits. Arithmetic on those is done here in machine words: the same digits and the same
// decimals that the decimal package gives, without the big integers that it makes for each step. All else is left to it.

// mostDigits is how many digits a number may have to be worked with in machine words.
const mostDigits = 18

// short is a number of few digits: coefficient · 10^exponent.
type short struct {
	coefficient int64
	exponent    int32
}

func shortOf(number decimal.Decimal) (of short, ok bool) {
	if number.NumDigits() > mostDigits {
		return of, false
	}
	return short{number.CoefficientInt64(), number.Exponent()}, true
}

// powers are the powers of ten that fit a machine word.
var powers = func() (list [mostDigits + 1]int64) {
	list[0] = 1
	for i := 1; i < len(list); i++ {
		list[i] = 10 * list[i-1]
	}
	return list
}()

// times multiplies two whole numbers; ok is false where the product has more digits than a short number.
func times(a, b int64) (product int64, ok bool) {
	high, low := bits.Mul64(magnitude(a), magnitude(b))
	if high != 0 || low >= uint64(powers[mostDigits]) {
		return 0, false
	}
	if (a < 0) != (b < 0) {
		return -int64(low), true
	}
	return int64(low), true
}

func magnitude(number int64) uint64 {
	if number < 0 {
		return -uint64(number)
	}
	return uint64(number)
}

// shifted multiplies a whole number by a power of ten.
func shifted(number int64, places int32) (product int64, ok bool) {
	if places < 0 || places > mostDigits {
		return 0, false
	}
	return times(number, powers[places])
}

// at gives the same number with more decimals.
func (s short) at(exponent int32) (of short, ok bool) {
	coefficient, ok := shifted(s.coefficient, s.exponent-exponent)
	return short{coefficient, exponent}, ok
}

// divided gives the whole number nearest to a quotient, half away from zero.
func divided(over, under int64) int64 {
	whole, rest := over/under, over%under
	if magnitude(rest) < magnitude(under)-magnitude(rest) {
		return whole
	}
	if (over < 0) != (under < 0) {
		return whole - 1
	}
	return whole + 1
}

// Round rounds a number to so many decimals, half away from zero. Like the decimal package it gives a number with fewer
// decimals those that it lacks.
func Round(number decimal.Decimal, places int32) decimal.Decimal {
	if number.Exponent() == -places {
		return number
	}
	of, ok := shortOf(number)
	dropped := -places - of.exponent
	switch {
	case !ok || dropped > mostDigits:
		return number.Round(places)
	case dropped > 0:
		return short{divided(of.coefficient, powers[dropped]), -places}.number()
	}
	if of, ok = of.at(-places); !ok {
		return number.Round(places)
	}
	return of.number()
}

// Floor gives the greatest whole number that is not above a number.
func Floor(number decimal.Decimal) decimal.Decimal {
	of, ok := shortOf(number)
	if !ok || of.exponent >= 0 || of.exponent < -mostDigits {
		return number.Floor()
	}
	whole, rest := of.coefficient/powers[-of.exponent], of.coefficient%powers[-of.exponent]
	if rest < 0 {
		whole--
	}
	return short{whole, 0}.number()
}

// Compare gives -1 where the first number is the lower, 1 where it is the higher and 0 where they are equal.
func Compare(a, b decimal.Decimal) int {
	first, ok := shortOf(a)
	second, alsoOK := shortOf(b)
	if !ok || !alsoOK {
		return a.Cmp(b)
	}
	exponent := min(first.exponent, second.exponent)
	first, ok = first.at(exponent)
	second, alsoOK = second.at(exponent)
	if !ok || !alsoOK {
		return a.Cmp(b)
	}
	return cmp.Compare(first.coefficient, second.coefficient)
}

// Divide gives a quotient rounded to so many decimals, half away from zero. It panics where under is zero.
func Divide(over, under decimal.Decimal, places int32) decimal.Decimal {
	dividend, ok := shortOf(over)
	divisor, alsoOK := shortOf(under)
	if !ok || !alsoOK || divisor.coefficient == 0 {
		return over.DivRound(under, places)
	}
	if shift := dividend.exponent - divisor.exponent + places; shift >= 0 {
		dividend.coefficient, ok = shifted(dividend.coefficient, shift)
	} else {
		divisor.coefficient, ok = shifted(divisor.coefficient, -shift)
	}
	if !ok {
		return over.DivRound(under, places)
	}
	return short{divided(dividend.coefficient, divisor.coefficient), -places}.number()
}

// Sum adds numbers up. The zero Sum is ready for use.
type Sum struct {
	short
	long  decimal.Decimal // instead, once it has many digits
	state sumState
}

type sumState uint8

const (
	nothingAdded sumState = iota
	isShort
	isLong
)

// Add adds a number.
func (s *Sum) Add(number decimal.Decimal) {
	if of, ok := shortOf(number); !ok || !s.add(of) {
		s.addLong(number)
	}
}

// AddProduct adds a number multiplied by another.
func (s *Sum) AddProduct(factor, number decimal.Decimal) {
	if a, ok := shortOf(factor); ok {
		if b, ok := shortOf(number); ok {
			if product, ok := times(a.coefficient, b.coefficient); ok && s.add(short{product, a.exponent + b.exponent}) {
				return
			}
		}
	}
	s.addLong(factor.Mul(number))
}

// add reports whether the sum with the number is short.
func (s *Sum) add(number short) bool {
	switch s.state {
	case nothingAdded:
		s.short, s.state = number, isShort
		return true
	case isLong:
		return false
	}
	exponent := min(s.exponent, number.exponent)
	sum, ok := s.at(exponent)
	number, alsoOK := number.at(exponent)
	sum.coefficient += number.coefficient // two of eighteen digits fit a word
	if !ok || !alsoOK || magnitude(sum.coefficient) >= uint64(powers[mostDigits]) {
		return false
	}
	s.short = sum
	return true
}

func (s *Sum) addLong(number decimal.Decimal) {
	if s.state == nothingAdded {
		s.long = number
	} else {
		s.long = s.Number().Add(number)
	}
	s.state = isLong
}

// Number is what was added up; 0 for nothing.
func (s *Sum) Number() decimal.Decimal {
	if s.state == isLong {
		return s.long
	}
	return s.number()
}

// Compact gives the same number without the room that arithmetic leaves behind it.
func Compact(number decimal.Decimal) decimal.Decimal {
	if of, ok := shortOf(number); ok {
		return of.number()
	}
	return number
}

// number gives the number as others know it. Of the small numbers that most figures are, many carcasses have the same, which is
// kept once.
func (s short) number() decimal.Decimal {
	if s.coefficient < 0 || s.coefficient >= fewNumbers || s.exponent > 0 || s.exponent <= -fewPlaces {
		return decimal.New(s.coefficient, s.exponent)
	}
	kept := &smallNumbers[-s.exponent][s.coefficient]
	if known := kept.Load(); known != nil {
		return *known
	}
	made := decimal.New(s.coefficient, s.exponent)
	kept.Store(&made)
	return made
}

const (
	fewNumbers = 20_000
	fewPlaces  = 4
)

// smallNumbers are those that were met, by their decimals and their digits. A number is never changed.
var smallNumbers [fewPlaces][fewNumbers]atomic.Pointer[decimal.Decimal]
