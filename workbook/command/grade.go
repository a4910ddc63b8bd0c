package command

import (
	"errors"
	"fmt"

	"railbook/workbook"
	"railbook/workbook/result"

	"github.com/urfave/cli/v2"
)

func gradeCommand() *cli.Command {
	return &cli.Command{
		Name:      "grade",
		Usage:     "read, check, compute, place, and write WORKBOOK-results.xlsx",
		ArgsUsage: "WORKBOOK…",
		Flags: append([]cli.Flag{
			&cli.StringFlag{Name: "output", Aliases: []string{"o"}, Usage: "write the results to `FILE`"},
			forceFlag(),
			&cli.BoolFlag{Name: "convert", Usage: "let LibreOffice save an .xls or .ods file as .xlsx beside it, and grade that"},
			&cli.StringFlag{Name: "combined", Usage: "write one workbook of the findings of all workbooks to `FILE`"},
			&cli.BoolFlag{Name: "strict", Usage: "exit with 3 when a carcass is on hold"},
			&cli.StringFlag{Name: "answers", Usage: "put the plant's answers in the `FILE` of questions before the judge, to be confirmed"},
			&cli.StringFlag{Name: "decisions", Usage: "take over what was decided in a copy of these results, `FILE`; what differs is held"},
			&cli.StringFlag{Name: "last-year", Usage: "set the results in `FILE` of the year before beside this year's on the Summary"},
		}, readingFlags()...),
		Action: gradeAction,
	}
}

func checkCommand() *cli.Command {
	return &cli.Command{
		Name:      "check",
		Usage:     "print the findings and write nothing but what is asked for",
		ArgsUsage: "WORKBOOK…",
		Flags: append([]cli.Flag{
			&cli.BoolFlag{Name: "json", Usage: "one JSON object a line"},
			&cli.BoolFlag{Name: "explain", Usage: "say which cell was read as what and which rows were passed over"},
			&cli.StringFlag{Name: "questions", Usage: "write the doubtful cells as a list of questions for the plant to `FILE`: .xlsx, .csv or .txt"},
			forceFlag(),
		}, readingFlags()...),
		Action: checkAction,
	}
}

func gradeAction(c *cli.Context) error {
	paths := c.Args().Slice()
	if err := valuesFit(c); err != nil {
		return err
	}
	if len(paths) == 0 {
		return wrongUse("name the workbook to grade: railbook grade WORKBOOK.xlsx")
	}
	if len(paths) > 1 && c.String("output") != "" {
		return wrongUse("-o names one results workbook, and %d workbooks were given: leave -o out, or grade them one by one", len(paths))
	}
	paths, passed := workbook.NewestOfEach(paths, c.String("combined"))
	options, done, err := readOptions(c)
	if err != nil {
		return err
	}
	defer done()
	options.Output, options.Force, options.LastYear = c.String("output"), c.Bool("force"), c.String("last-year")
	options.Answers = c.String("answers")
	options.Convert, options.Decisions = c.Bool("convert"), c.String("decisions")
	outcomes := make([]*workbook.Outcome, len(paths))
	failures := eachWorkbook(paths, options, func(i int, options workbook.Options) error {
		outcome, err := workbook.Grade(paths[i], options)
		if err == nil {
			outcomes[i] = outcome
		}
		return err
	})
	onHold := false
	for i := range paths {
		switch {
		case failures[i] != nil:
			complain(c.App.ErrWriter, failures[i])
		default:
			onHold = onHold || workbook.Count(outcomes[i].Results).OnHold > 0
		}
	}
	switch {
	case len(paths)+len(passed) > 1:
		fmt.Fprint(c.App.Writer, workbook.ClosingTable(paths, passed, outcomes))
	case failures[0] == nil:
		fmt.Fprint(c.App.Writer, outcomes[0].Report())
	}
	if to := c.String("combined"); to != "" {
		if err := workbook.WriteCombined(to, paths, outcomes, failures, options); err != nil {
			return err
		}
		fmt.Fprintln(c.App.Writer, "All findings:", to)
	}
	changed := workbook.ChangedSince(passed, outcomes)
	for _, path := range changed {
		complain(c.App.ErrWriter, fmt.Errorf("%s was passed over because its results were given too, but it has changed since they were made: grade it alone, with -o or --force", path))
	}
	if errors.Join(failures...) != nil || len(changed) > 0 {
		return &statusError{exitFailed, nil}
	}
	if onHold && c.Bool("strict") {
		return &statusError{exitSettled, nil}
	}
	return nil
}

func checkAction(c *cli.Context) error {
	paths := c.Args().Slice()
	if err := valuesFit(c); err != nil {
		return err
	}
	if len(paths) == 0 {
		return wrongUse("name the workbook to check: railbook check WORKBOOK.xlsx")
	}
	options, done, err := readOptions(c)
	if err != nil {
		return err
	}
	defer done()
	options.Force = c.Bool("force")
	onHold := false
	var all []*result.Results
	for _, path := range paths {
		results, err := workbook.Examine(path, options)
		if err != nil {
			return err
		}
		all = append(all, results)
		onHold = onHold || workbook.Count(results).Holds > 0
		switch {
		case c.Bool("json"):
			err = workbook.FindingsJSON(c.App.Writer, results)
		default:
			err = workbook.FindingsText(c.App.Writer, results)
		}
		switch {
		case err != nil || !c.Bool("explain"):
		case c.Bool("json"):
			err = workbook.ExplainJSON(c.App.Writer, results)
		default:
			err = workbook.Explain(c.App.Writer, results)
		}
		if err != nil {
			return err
		}
	}
	if c.String("questions") != "" {
		if err := workbook.WriteQuestions(c.String("questions"), all, options); err != nil {
			return err
		}
	}
	if onHold {
		return &statusError{exitSettled, nil}
	}
	return nil
}
