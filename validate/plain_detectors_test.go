package validate

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"railbook/rules/measure"
)

// plainFigures are what the detectors that anyone may have look at: the measures, dressing percent and ribeye to the
// hundredweight.
func plainFigures(f figures) []float64 {
	positive := func(number float64) float64 { return math.Log(math.Max(number, 1e-3)) }
	return []float64{
		positive(f[liveAt]), positive(f[carcassAt]), positive(f[carcassAt]) - positive(f[liveAt]), positive(f[fatAt]),
		f[ribeyeAt], f[ribeyeAt] / math.Max(f[carcassAt], 1), f[internalAt], f[marblingAt],
	}
}

// byClass scores the rows of each class of a sheet by themselves.
func byClass(sheet *plantedSheet, score func(rows [][]float64) []float64) []float64 {
	classes := map[string][]int{}
	for i, row := range sheet.rows {
		classes[row.sheet[measure.ClassName]] = append(classes[row.sheet[measure.ClassName]], i)
	}
	scores := make([]float64, len(sheet.rows))
	for _, members := range classes {
		var rows [][]float64
		for _, i := range members {
			rows = append(rows, plainFigures(figuresOf(sheet.rows[i].sheet)))
		}
		for at, of := range score(rows) {
			scores[members[at]] = of
		}
	}
	return scores
}

// farthest gives the most spreads by which any figure of a row is off, with the middle and the spread of each column.
func farthest(middleAndSpread func(column []float64) (middle, deviation float64)) func(rows [][]float64) []float64 {
	return func(rows [][]float64) []float64 {
		scores := make([]float64, len(rows))
		for at := range rows[0] {
			var column []float64
			for _, row := range rows {
				column = append(column, row[at])
			}
			middle, deviation := middleAndSpread(column)
			for i, number := range column {
				scores[i] = math.Max(scores[i], math.Abs(number-middle)/math.Max(deviation, 1e-6))
			}
		}
		return scores
	}
}

func meanAndDeviation(column []float64) (middle, deviation float64) {
	for _, number := range column {
		middle += number / float64(len(column))
	}
	for _, number := range column {
		deviation += (number - middle) * (number - middle) / float64(max(1, len(column)-1))
	}
	return middle, math.Sqrt(deviation)
}

func medianAndDeviation(column []float64) (middle, deviation float64) {
	middle = median(column)
	return middle, spreadAbout(middle, column)
}

// robustDistance is the Mahalanobis distance of the six measures from the middle of the half of the rows that lie closest
// together, found by concentration steps from the medians (after Rousseeuw and Van Driessen 1999, with one start).
func robustDistance(rows [][]float64) []float64 {
	var measures [][]float64
	for _, row := range rows {
		measures = append(measures, []float64{row[0], row[1], row[3], row[4], row[6], row[7]})
	}
	size := len(measures[0])
	distances := farthest(medianAndDeviation)(measures)
	if len(rows) < 3*size {
		return distances
	}
	for range 10 {
		order := make([]int, len(rows))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int { return cmpFloat(distances[a], distances[b]) })
		half := order[:(len(rows)+size+1)/2]
		mean := make([]float64, size)
		for _, i := range half {
			for k, number := range measures[i] {
				mean[k] += number / float64(len(half))
			}
		}
		spread := make([][]float64, size)
		for k := range spread {
			spread[k] = make([]float64, size)
			for l := range spread[k] {
				for _, i := range half {
					spread[k][l] += (measures[i][k] - mean[k]) * (measures[i][l] - mean[l]) / float64(len(half))
				}
			}
			spread[k][k] += 1e-9
		}
		root := choleskyRoot(spread)
		for i, row := range measures {
			distances[i] = 0
			solved := make([]float64, size)
			for k := range size {
				solved[k] = row[k] - mean[k]
				for l := range k {
					solved[k] -= root[k][l] * solved[l]
				}
				solved[k] /= root[k][k]
				distances[i] += solved[k] * solved[k]
			}
		}
		scale := median(distances)
		for i := range distances {
			distances[i] = math.Sqrt(distances[i] / math.Max(scale, 1e-9) * float64(size))
		}
	}
	return distances
}

func cmpFloat(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// choleskyRoot gives the lower triangle whose product with its own transpose is a spread.
func choleskyRoot(of [][]float64) [][]float64 {
	root := make([][]float64, len(of))
	for i := range of {
		root[i] = make([]float64, len(of))
		for j := 0; j <= i; j++ {
			sum := of[i][j]
			for k := range j {
				sum -= root[i][k] * root[j][k]
			}
			if i == j {
				root[i][i] = math.Sqrt(math.Max(sum, 1e-12))
			} else {
				root[i][j] = sum / root[j][j]
			}
		}
	}
	return root
}

// caughtAt is what a detector catches of silent slips at one rate of false alarms, %.
type caughtAt struct{ all, withOwn, without, loud float64 }

// atAlarms finds the score that so large a share of true rows reach, and what reaches it.
func atAlarms(sheets []*plantedSheet, scores [][]float64, alarms float64) caughtAt {
	var ofTrue []float64
	for s, sheet := range sheets {
		for i, row := range sheet.rows {
			if row.untouched() {
				ofTrue = append(ofTrue, scores[s][i])
			}
		}
	}
	slices.Sort(ofTrue)
	needed := ofTrue[len(ofTrue)-1-int(alarms*float64(len(ofTrue)))]
	var silent, loud tally
	for s, sheet := range sheets {
		for i, row := range sheet.rows {
			if row.kind == "" {
				continue
			}
			best := scores[s][i]
			for _, j := range row.partners {
				best = math.Max(best, scores[s][j])
			}
			sum := tally{planted: 1}
			if best > needed {
				sum.caught = 1
			}
			if sheet.habits.own != noOwnGrade {
				sum.withOwn, sum.caughtWithOwn = 1, sum.caught
			}
			if row.silent {
				silent.add(sum)
			} else {
				loud.add(sum)
			}
		}
	}
	return caughtAt{
		share(silent.caught, silent.planted), share(silent.caughtWithOwn, silent.withOwn),
		share(silent.caught-silent.caughtWithOwn, silent.planted-silent.withOwn), share(loud.caught, loud.planted),
	}
}

// comparison writes what one who knows the generator and plain detectors catch at the same rates of false alarms.
func comparison(t testing.TB, sheets []*plantedSheet, ours *outcome) (text string, oracleSilent caughtAt) {
	detectors := []struct {
		name  string
		score func(sheet *plantedSheet) []float64
	}{
		{"one who knows the generator", func() func(*plantedSheet) []float64 {
			qualities := map[string]string{}
			return func(sheet *plantedSheet) []float64 { return oracleScores(t, sheet, qualities) }
		}()},
		{"standard deviations", func(sheet *plantedSheet) []float64 { return byClass(sheet, farthest(meanAndDeviation)) }},
		{"median absolute deviations", func(sheet *plantedSheet) []float64 { return byClass(sheet, farthest(medianAndDeviation)) }},
		{"robust Mahalanobis distance", func(sheet *plantedSheet) []float64 { return byClass(sheet, robustDistance) }},
	}
	own := float64(ours.trueRows.flagged) / float64(max(1, ours.trueRows.rows))
	text = fmt.Sprintf("%-32s %12s %8s %8s %9s %9s\n", "", "false alarms", "loud", "silent", "with own", "without")
	line := func(name string, alarms float64, of caughtAt) {
		text += fmt.Sprintf("%-32s %10.1f %% %6.1f %% %6.1f %% %7.1f %% %7.1f %%\n", name, 100*alarms, of.loud, of.all, of.withOwn, of.without)
	}
	silent, loud := ours.goal("silent"), ours.goal("loud")
	line("these checks", own, caughtAt{
		share(silent.caught, silent.planted), share(silent.caughtWithOwn, silent.withOwn),
		share(silent.caught-silent.caughtWithOwn, silent.planted-silent.withOwn), share(loud.caught, loud.planted),
	})
	for i, detector := range detectors {
		var scores [][]float64
		for _, sheet := range sheets {
			scores = append(scores, detector.score(sheet))
		}
		for _, alarms := range []float64{0.01, 0.03, own} {
			at := atAlarms(sheets, scores, alarms)
			line(detector.name, alarms, at)
			if i == 0 && alarms == own {
				oracleSilent = at
			}
		}
	}
	return text, oracleSilent
}
