package validate

import (
	"math"
	"slices"
)

// median gives the middle of the numbers; they are left in their order.
func median(numbers []float64) float64 {
	half := len(numbers) / 2
	parted := slices.Clone(numbers)
	upper := partAt(parted, half)
	if len(numbers)%2 == 1 {
		return upper
	}
	return (slices.Max(parted[:half]) + upper) / 2
}

// partAt gives the number that would stand at an index if the numbers were in order, and puts those before it that are not
// larger (Hoare's selection: a sheet has too many slopes to sort them all).
func partAt(numbers []float64, at int) float64 {
	for low, high := 0, len(numbers)-1; low < high; {
		pivot := numbers[(low+high)/2]
		left, right := low, high
		for left <= right {
			for numbers[left] < pivot {
				left++
			}
			for numbers[right] > pivot {
				right--
			}
			if left <= right {
				numbers[left], numbers[right] = numbers[right], numbers[left]
				left, right = left+1, right-1
			}
		}
		if at <= right {
			high = right
		} else if at >= left {
			low = left
		} else {
			break
		}
	}
	return numbers[at]
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
