package validate

import (
	"math"
	"slices"
)

// median gives the middle of the numbers; they are left in their order.
func median(numbers []float64) float64 {
	sorted := slices.Sorted(slices.Values(numbers))
	half := len(sorted) / 2
	if len(sorted)%2 == 1 {
		return sorted[half]
	}
	return (sorted[half-1] + sorted[half]) / 2
}

// spreadAbout gives the median absolute deviation about a middle, scaled by 1.4826 so that for normally distributed
// numbers it is their standard deviation. Half of the numbers may be wrong without moving it far.
func spreadAbout(middle float64, numbers []float64) float64 {
	deviations := make([]float64, len(numbers))
	for i, number := range numbers {
		deviations[i] = math.Abs(number - middle)
	}
	return 1.4826 * median(deviations)
}

// mostForSlopes bounds the number of points between which slopes are taken, since their pairs grow as its square.
const mostForSlopes = 150

// medianSlope gives the median of the slopes between all pairs of points (the Theil–Sen line), of an even selection of
// them where there are very many.
func medianSlope(x, y []float64) float64 {
	step := max(1, len(x)/mostForSlopes)
	var slopes []float64
	for i := 0; i < len(x); i += step {
		for j := i + step; j < len(x); j += step {
			if x[i] != x[j] {
				slopes = append(slopes, (y[j]-y[i])/(x[j]-x[i]))
			}
		}
	}
	if len(slopes) == 0 {
		return 0
	}
	return median(slopes)
}
