package fair

import (
	"testing"

	"github.com/shopspring/decimal"
)

// By hand: differences 1, -1, 2, 0 and 3 have a mean of 1 and a mean size of 1.4; of ten pairs of animals the scan turns
// around 1 and 2 (12 and 11), and ties 3 and 4.
func TestScansAreComparedWithTheRail(t *testing.T) {
	numbers := func(list ...int64) (all []decimal.Decimal) {
		for _, number := range list {
			all = append(all, decimal.NewFromInt(number))
		}
		return all
	}
	animal := scanned{rail: numbers(11, 12, 13, 15, 16), scan: numbers(12, 11, 15, 15, 19)}
	mean, size := animal.differences()
	if agreed, all := animal.orders(); mean.String() != "1" || size.String() != "1.4" || agreed != 8 || all != 10 {
		t.Errorf("mean %s, size %s, %d of %d in the same order", mean, size, agreed, all)
	}
	level := scanned{rail: numbers(11, 11), scan: numbers(10, 12)}
	if agreed, all := level.orders(); agreed != 0 || all != 0 {
		t.Errorf("animals level on the rail have an order: %d of %d", agreed, all)
	}
}
