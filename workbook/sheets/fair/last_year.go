package fair

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
)

// LastYearLines gives the figures of a past year's results that are set beside this year's: of each species and kind of
// class how many carcasses were counted and placed, how many had each grade, and the mean of every computed number. Those
// on hold are left out, as they are on the Summary.
func LastYearLines(file string, past *result.Results) (lines []record.LastYearLine) {
	for _, kind := range (&Writer{Results: past}).KindsOfClasses() {
		groups := groupsOf(past, kind)
		overall := groups[len(groups)-1]
		add := func(figure, of, order, value string) {
			lines = append(lines, record.LastYearLine{
				File: file, Species: string(kind.Species), Kind: string(kind.Basis), Figure: figure, Of: of, Order: order, Value: value,
			})
		}
		add(record.CarcassesCounted, "", "", fmt.Sprint(len(overall.all)))
		add(record.PlacedCounted, "", "", fmt.Sprint(overall.placed))
		for _, id := range result.GradesOf(kind) {
			for _, tally := range tallyOf(overall.all, id) {
				add(id.String(), tally.words, tally.rank.String(), fmt.Sprint(tally.count))
			}
		}
		for _, id := range averagedMeasures(kind) {
			if mean, some := result.MeanOf(overall.all, id); some {
				add(id.String(), equationsOf(overall.all, id), "", mean.String())
			}
		}
		animalLines(past, kind, add)
	}
	return lines
}

// equationsOf names the equations that a figure was computed with, where it has several.
func equationsOf(all []*grading.Graded, id measure.ID) string {
	var names []string
	for _, graded := range all {
		if name := graded.FigureOf(id).Equation; name != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return strings.Join(names, " + ")
}

// lastYearFigures are a past year's figures of one species and kind of class.
type lastYearFigures struct {
	file  string
	lines []record.LastYearLine
}

func (p *Writer) lastYearOf(kind result.KindOfClass) lastYearFigures {
	var figures lastYearFigures
	for _, line := range p.LastYear {
		figures.file = line.File
		if line.Species == string(kind.Species) && line.Kind == string(kind.Basis) {
			figures.lines = append(figures.lines, line)
		}
	}
	return figures
}

// average gives a mean or count of last year's, and the equations it was computed with.
func (f lastYearFigures) average(figure string) (value decimal.Decimal, equations string, there bool) {
	for _, line := range f.lines {
		if line.Figure == figure && line.Order == "" {
			value, err := decimal.NewFromString(line.Value)
			return value, line.Of, err == nil
		}
	}
	return decimal.Zero, "", false
}

// grades gives how many carcasses had each grade last year, the best first.
func (f lastYearFigures) grades(id measure.ID) (tallies []tally) {
	for _, line := range f.lines {
		rank, errRank := decimal.NewFromString(line.Order)
		count, errCount := decimal.NewFromString(line.Value)
		if line.Figure == id.String() && errRank == nil && errCount == nil && count.IsPositive() {
			tallies = append(tallies, tally{words: line.Of, rank: rank, count: int(count.IntPart())})
		}
	}
	return tallies
}

// besideLastYear sets this year's averages beside last year's, and to their right the share of each grade.
func (p *Writer) besideLastYear(page *kit.Page, kind result.KindOfClass, now group) {
	then := p.lastYearOf(kind)
	if then.file == "" {
		return
	}
	page.Skip(1)
	counted, _, there := then.average(record.CarcassesCounted)
	if !there || !counted.IsPositive() {
		page.Across(fmt.Sprintf("%s has no %s to set beside these.", then.file, kind.Words()), kit.Note, 1, summaryColumns)
		return
	}
	averages, others := besideAverages(kind, now, then)
	var grades [][]kit.Entry
	for _, id := range result.GradesOf(kind) {
		grades = append(grades, besideGrades(id, tallyOf(now.all, id), then.grades(id))...)
	}
	page.KeepTogether(max(len(averages), len(grades)) + 1)
	for i := range max(len(averages), len(grades)) {
		row := make([]kit.Entry, 5)
		if i < len(averages) {
			copy(row, averages[i])
		}
		if i < len(grades) {
			row = append(append(row, grades[i][0], kit.Entry{}, kit.Entry{}), grades[i][1:]...)
		}
		number := page.Write(row...)
		if len(row) > 5 {
			page.MergeAcross(number, 6, 8)
		}
	}
	words := "Last year: " + then.file + ". Each year is graded and priced by its own rulebook."
	if others {
		words += " Where two years were computed with other equations, no change is given."
	}
	page.Across(words, kit.Note, 1, summaryColumns)
}

// besideAverages gives the rows of the averages; it reports whether any of two years were computed with other equations.
func besideAverages(kind result.KindOfClass, now group, then lastYearFigures) (rows [][]kit.Entry, others bool) {
	rows = append(rows, yearHeadings("Beside last year"))
	counted, _, _ := then.average(record.CarcassesCounted)
	rows = append(rows, yearRow("Carcasses", decimal.NewFromInt(int64(len(now.all))), counted, 0))
	for _, id := range averagedMeasures(kind) {
		definition, _ := measure.Define(id)
		mean, hasNow := result.MeanOf(now.all, id)
		before, equations, hasThen := then.average(id.String())
		other := hasNow && hasThen && equationsOf(now.all, id) != equations
		others = others || other
		switch {
		case !hasNow && !hasThen:
		case hasNow && hasThen && !other:
			rows = append(rows, yearRow(result.HeadingOf(id), mean, before, definition.Decimals))
		default:
			rows = append(rows, []kit.Entry{
				{Value: result.HeadingOf(id), Style: kit.Style{Role: kit.Body}},
				yearEntry(mean, hasNow, definition.Decimals),
				yearEntry(before, hasThen, definition.Decimals), yearEntry(decimal.Zero, false, 0),
			})
		}
	}
	return rows, others
}

func yearHeadings(words string) []kit.Entry {
	return []kit.Entry{{Value: words, Style: kit.Style{Role: kit.Heading}}, kit.NumberHeading("This year"), kit.NumberHeading("Last year"), kit.NumberHeading("Change")}
}

func yearEntry(value decimal.Decimal, there bool, decimals int) kit.Entry {
	if !there {
		return kit.Entry{Value: "–", Style: kit.Style{Role: kit.Body, Align: "right"}}
	}
	return kit.Entry{Value: value, Style: kit.Style{Role: kit.Body, Format: kit.NumberFormat(decimals)}}
}

// yearRow gives the change between the figures as they are shown.
func yearRow(words string, now, then decimal.Decimal, decimals int) []kit.Entry {
	format := kit.NumberFormat(decimals)
	change := now.Round(int32(decimals)).Sub(then.Round(int32(decimals)))
	return []kit.Entry{
		{Value: words, Style: kit.Style{Role: kit.Body}},
		yearEntry(now, true, decimals), yearEntry(then, true, decimals),
		{Value: change, Style: kit.Style{Role: kit.Body, Format: "+" + format + ";-" + format + ";0_)"}},
	}
}

// besideGrades gives the share of each grade beside last year's, in percent of the carcasses that have one.
func besideGrades(id measure.ID, now, then []tally) (rows [][]kit.Entry) {
	if len(now) == 0 || len(then) == 0 {
		return nil
	}
	rows = append(rows, yearHeadings(result.HeadingOf(id)+", share %"))
	shares := sharesOf(now, then)
	if id == measure.WholeYieldGrade {
		slices.Reverse(shares) // 1 is the best
	}
	for _, share := range shares {
		rows = append(rows, yearRow(share.words, share.now, share.then, 1))
	}
	return rows
}

// share is how much of two years' carcasses had a grade, in percent.
type share struct {
	words     string
	rank      decimal.Decimal
	now, then decimal.Decimal
}

// sharesOf gives the shares of every grade that either year has, the best first.
func sharesOf(now, then []tally) (shares []share) {
	for _, tally := range slices.Concat(now, then) {
		if !slices.ContainsFunc(shares, func(known share) bool { return known.words == tally.words }) {
			shares = append(shares, share{tally.words, tally.rank, percentOf(now, tally.words), percentOf(then, tally.words)})
		}
	}
	slices.SortStableFunc(shares, func(a, b share) int { return b.rank.Cmp(a.rank) })
	return shares
}

func percentOf(tallies []tally, words string) decimal.Decimal {
	had, all := 0, 0
	for _, tally := range tallies {
		all += tally.count
		if tally.words == words {
			had += tally.count
		}
	}
	if all == 0 {
		return decimal.Zero
	}
	return decimal.NewFromInt(int64(100*had)).DivRound(decimal.NewFromInt(int64(all)), 6)
}
