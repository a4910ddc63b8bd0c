package grading

import "testing"

// A figure exactly at a bound passes where the bound is closed, whichever side it is on.
func TestABoundHoldsOnItsSide(t *testing.T) {
	for _, test := range []struct {
		bound               Bound
		below, exact, above bool
	}{
		{Bound{Lower: true, Closed: true}, false, true, true},
		{Bound{Lower: true}, false, false, true},
		{Bound{Closed: true}, true, true, false},
		{Bound{}, true, false, false},
	} {
		if below, exact, above := test.bound.holds(-1), test.bound.holds(0), test.bound.holds(1); below != test.below || exact != test.exact || above != test.above {
			t.Errorf("%+v: %v %v %v", test.bound, below, exact, above)
		}
	}
}
