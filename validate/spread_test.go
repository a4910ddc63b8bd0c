package validate

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestMedianIsTheMiddleInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		numbers := rapid.SliceOfN(rapid.OneOf(rapid.Float64Range(-9, 9), rapid.Map(rapid.IntRange(-3, 3), func(step int) float64 { return float64(step) })), 1, 60).Draw(t, "numbers")
		sorted := slices.Sorted(slices.Values(numbers))
		want := (sorted[(len(sorted)-1)/2] + sorted[len(sorted)/2]) / 2
		if got := median(numbers); got != want {
			t.Errorf("median of %v is %v, want %v", numbers, got, want)
		}
	})
}

// The median absolute deviation of 1, 1, 2, 2, 4, 6, 9 is 1 (a textbook's example, from memory); scaled, 1.4826.
func TestSpreadIsTheScaledMedianAbsoluteDeviation(t *testing.T) {
	numbers := []float64{1, 1, 2, 2, 4, 6, 9}
	middle := median(numbers)
	if middle != 2 {
		t.Errorf("median %v, want 2", middle)
	}
	if got := spreadAbout(middle, numbers); math.Abs(got-1.4826) > 1e-9 {
		t.Errorf("spread %v, want 1.4826", got)
	}
}

func TestMedianSlopeIgnoresAWrongPoint(t *testing.T) {
	x := []float64{1, 2, 3, 4, 5, 6, 7}
	y := []float64{2, 4, 6, 80, 10, 12, 14}
	if got := medianSlope(x, y); math.Abs(got-2) > 1e-9 {
		t.Errorf("slope %v, want 2", got)
	}
}
