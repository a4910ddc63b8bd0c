package workbook

import (
	"fmt"
	"net/url"
	"path/filepath"
	"strings"
	"text/tabwriter"

	"railbook/workbook/sheets/combined"
	"railbook/workbook/xlsx"
)

// ClosingTable is what the person is told who graded several workbooks at once: a line for each, in place of a report each.
// The outcome of a workbook that could not be graded is nil.
func ClosingTable(paths []string, outcomes []*Outcome) string {
	var text, notes strings.Builder
	table := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "Workbook\tCarcasses\tPlaced\tOn hold\tResults\tFirst of each class")
	graded, onHold := 0, 0
	for i, outcome := range outcomes {
		name := inOneLine(filepath.Base(paths[i]))
		if outcome == nil {
			fmt.Fprintf(table, "%s\t\t\t\tnone\tnot graded: see above\n", name)
			continue
		}
		tally := Count(outcome.Results)
		graded++
		onHold += tally.OnHold
		results := filepath.Base(outcome.Path)
		switch {
		case outcome.Same:
			results = "unchanged"
		case !outcome.Written:
			results += " (the very same)"
		}
		fmt.Fprintf(table, "%s\t%d\t%d\t%d\t%s\t%s\n", name, tally.Carcasses, tally.Placed, tally.OnHold, inOneLine(results), inOneLine(firsts(outcome)))
		for _, warning := range outcome.Warnings {
			notes.WriteString(Wrapped(name+": warning: "+warning, "  "))
		}
	}
	_ = table.Flush()
	text.WriteString(notes.String())
	fmt.Fprintf(&text, "%d of %s graded, %d on hold.\n", graded, counted(len(paths), "workbook", "workbooks"), onHold)
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
