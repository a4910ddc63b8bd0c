package workbook

import (
	"crypto/sha256"
	"fmt"
	"math"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"railbook/rules/phrase"
	"railbook/workbook/sheets/combined"
	"railbook/workbook/xlsx"
)

// NewestOfEach keeps, of each chain of workbooks made one from another (fair.xlsx, fair-results.xlsx, fair-results-2.xlsx,
// fair-signed.xlsx), the newest alone, so that *.xlsx can be graded again in a folder that holds results. What was published
// and the workbook of all findings, written by the last run, are passed over as well. Workbooks are known by their names.
func NewestOfEach(paths []string, combinedPath string) (newest, passed []string) {
	best := map[string]int{}
	for _, path := range paths {
		chain, rank := placeInChain(path)
		if known, ok := best[chain]; !ok || rank > known {
			best[chain] = rank
		}
	}
	for _, path := range paths {
		chain, rank := placeInChain(path)
		if rank < best[chain] || isCombined(path, combinedPath) {
			passed = append(passed, path)
		} else {
			newest = append(newest, path)
		}
	}
	return newest, passed
}

// WithoutCombined takes the workbook of all findings that is about to be written anew out of the workbooks given.
func WithoutCombined(paths []string, combinedPath string) []string {
	return slices.DeleteFunc(slices.Clone(paths), func(path string) bool { return isCombined(path, combinedPath) })
}

// isCombined reports whether a path is that of the workbook of all findings, written by an earlier run.
func isCombined(path, combinedPath string) bool {
	if combinedPath == "" || filepath.Clean(path) != filepath.Clean(combinedPath) {
		return false
	}
	book, err := xlsx.Open(path, xlsx.OpenOptions{})
	if err != nil {
		return false
	}
	var sheets []string
	for _, sheet := range book.Sheets() {
		sheets = append(sheets, sheet.Name)
	}
	return slices.Equal(sheets, combined.Sheets)
}

// placeInChain tells which chain of workbooks a path belongs to and how late in it: published files come before all, the
// input before its results, the signed workbook last.
func placeInChain(path string) (chain string, rank int) {
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	published := publishedEnding.ReplaceAllString(name, "")
	stem := ourEnding.ReplaceAllString(published, "")
	chain = filepath.Join(filepath.Dir(path), stem)
	switch ending := strings.TrimPrefix(published, stem); {
	case published != name:
		return chain, -1
	case ending == "":
		return chain, 0
	case ending == "-signed":
		return chain, math.MaxInt
	default:
		rank, err := strconv.Atoi(strings.TrimPrefix(ending, "-results-"))
		if err != nil {
			rank = 1
		}
		return chain, rank
	}
}

// publishedEnding is what the name of a published workbook ends in.
var publishedEnding = phrase.NewPattern(`-(cards|public)$`)

// ChangedSince names the inputs among the workbooks that were passed over from which the results given with them were not
// made: the plant may have sent a new sheet.
func ChangedSince(passed []string, outcomes []*Outcome) (changed []string) {
	madeOf := map[string]string{}
	for _, outcome := range outcomes {
		if outcome != nil {
			madeOf[outcome.Results.Run.InputName] = outcome.Results.Run.InputSHA256
		}
	}
	for _, path := range passed {
		digest, graded := madeOf[filepath.Base(path)]
		if data, err := os.ReadFile(path); graded && (err != nil || fmt.Sprintf("%x", sha256.Sum256(data)) != digest) {
			changed = append(changed, path)
		}
	}
	return changed
}

// ClosingTable is what the person is told who graded several workbooks at once: a line for each and who stands first below
// it, in place of a report each. The outcome of a workbook that could not be graded is nil.
func ClosingTable(paths, passed []string, outcomes []*Outcome) string {
	const nameWidth = 50
	var text, notes strings.Builder
	row := func(name, carcasses, placed, onHold any) {
		if letters := []rune(fmt.Sprint(name)); len(letters) > nameWidth {
			name = string(letters[:nameWidth-1]) + "…"
		}
		fmt.Fprintf(&text, "%-*s %9v %7v %8v\n", nameWidth, name, carcasses, placed, onHold)
	}
	row("Workbook", "Carcasses", "Placed", "On hold")
	graded, onHold := 0, 0
	for i, outcome := range outcomes {
		name := inOneLine(filepath.Base(paths[i]))
		if outcome == nil {
			row(name, "", "", "")
			text.WriteString("    not graded: see above\n")
			continue
		}
		tally := Count(outcome.Results)
		graded++
		onHold += tally.OnHold
		row(name, tally.Carcasses, tally.Placed, tally.OnHold)
		results := inOneLine(filepath.Base(outcome.Path))
		switch {
		case outcome.Same:
			results = "unchanged"
		case !outcome.Written:
			results += " (the very same)"
		}
		if first := firsts(outcome); first != "" {
			results += "; first: " + inOneLine(first)
		}
		text.WriteString(Wrapped("    "+results, "    "))
		for _, warning := range outcome.Warnings {
			notes.WriteString(Wrapped(name+": warning: "+warning, "  "))
		}
	}
	text.WriteString(notes.String())
	fmt.Fprintf(&text, "%d of %s graded, %d on hold.\n", graded, phrase.Plural(len(paths), "workbook", "workbooks"), onHold)
	if len(passed) > 0 {
		names := make([]string, len(passed))
		for i, path := range passed {
			names[i] = filepath.Base(path)
		}
		text.WriteString(Wrapped("Passed over, because newer ones or their inputs were given too: "+inOneLine(phrase.JoinAnd(phrase.Few(names)))+".", "  "))
	}
	text.WriteString(Wrapped("Grades are computed estimates for a youth contest; only the official grader assigns an official grade.", ""))
	return text.String()
}

// firsts names who stands first in each class.
func firsts(outcome *Outcome) string {
	var classes []string
	for _, class := range outcome.Results.Placings.Classes {
		var tags []string
		for _, placed := range class.Placed {
			if placed.Place == 1 {
				tags = append(tags, placed.Tag)
			}
		}
		if len(tags) > 0 {
			classes = append(classes, class.Class+" "+strings.Join(tags, " and "))
		}
	}
	return strings.Join(classes, ", ")
}

// inOneLine keeps a text from breaking a line or a column of a table.
func inOneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// WriteCombined writes one workbook of what was found in several, with a link to the results of each. The failure of a
// workbook that could not be graded says why.
func WriteCombined(path string, paths []string, outcomes []*Outcome, failures []error, options Options) error {
	all := make([]combined.Workbook, len(paths))
	for i, outcome := range outcomes {
		all[i].Name = filepath.Base(paths[i])
		if failures[i] != nil {
			all[i].Failure = failures[i].Error()
			continue
		}
		tally := Count(outcome.Results)
		all[i] = combined.Workbook{
			Name: all[i].Name, Results: linkTo(path, outcome.Path), First: firsts(outcome), Findings: outcome.Results.Findings,
			Carcasses: tally.Carcasses, Placed: tally.Placed, OnHold: tally.OnHold, Holds: tally.Holds, Looks: tally.Looks, Notes: tally.Notes,
		}
	}
	data, err := combined.Write(all)
	if err != nil {
		return err
	}
	book, err := xlsx.OpenBytes(path, data, xlsx.OpenOptions{})
	if err != nil {
		return err
	}
	_, err = options.write(book, path, ".xlsx", paths...)
	return err
}

// linkTo gives the link from one file to another: relative, so that it holds when both are moved together.
func linkTo(from, to string) string {
	here, errHere := filepath.Abs(filepath.Dir(from))
	there, errThere := filepath.Abs(to)
	if errHere != nil || errThere != nil {
		return ""
	}
	relative, err := filepath.Rel(here, there)
	if err != nil {
		return (&url.URL{Scheme: "file", Path: filepath.ToSlash(there)}).String()
	}
	return (&url.URL{Path: filepath.ToSlash(relative)}).String()
}
