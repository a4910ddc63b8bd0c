package command

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"railbook/rules"
	"railbook/workbook"

	"github.com/urfave/cli/v2"
)

func publishCommand() *cli.Command {
	return &cli.Command{
		Name:      "publish",
		Usage:     "write WORKBOOK-cards.xlsx, a page for each family, and WORKBOOK-public.xlsx without the names that have no consent",
		ArgsUsage: "WORKBOOK",
		Flags: append([]cli.Flag{
			&cli.StringFlag{Name: "separate", Usage: "also write one file of cards for each family into `FOLDER`"},
			forceFlag(),
		}, fileFlags()...),
		Action: publishAction,
	}
}

func sheetCommand() *cli.Command {
	return &cli.Command{
		Name:  "sheet",
		Usage: "write a blank rail sheet from a roster, for the plant and the judge to fill in",
		UsageText: "railbook sheet --roster ROSTER.xlsx -o BLANK.xlsx\n\n" +
			"The sheet has a line for each animal of the roster, drop-downs, limits that\n" +
			"warn, and a page that explains each column. What comes back filled in is\n" +
			"graded by: railbook grade BLANK.xlsx",
		Flags: append([]cli.Flag{
			&cli.StringFlag{Name: "roster", Usage: "the entries: a workbook or text `FILE` with tags, exhibitors and classes"},
			&cli.StringFlag{Name: "output", Aliases: []string{"o"}, Usage: "write the rail sheet to `FILE`; without it, ROSTER-rail.xlsx"},
			&cli.StringFlag{Name: "order", Value: "roster", Usage: "the `ORDER` in which the animals hang: roster, tag, or rail (the roster's rail numbers)"},
			&cli.BoolFlag{Name: "ultrasound", Usage: "every animal is scanned alive, whatever its class says"},
			&cli.IntFlag{Name: "spare", Value: 2, Usage: "`N` empty lines below each class, for animals that come late"},
			&cli.BoolFlag{Name: "no-names", Usage: "tag and class alone go along; grade with --roster later"},
			&cli.BoolFlag{Name: "print-names", Usage: "print the exhibitors too; otherwise they stand right of the printed part"},
			&cli.StringFlag{Name: "rulebook", Usage: "take limits and headings from this rulebook `FILE`"},
			&cli.StringSliceFlag{Name: "column", Usage: "read a column of the roster as a measure: `\"MEASURE=HEADING\"`"},
			&cli.StringFlag{Name: "species", Usage: "`" + rules.SpeciesInWords() + "`, where the roster does not say"},
			forceFlag(),
		}, filesAlone()...),
		Action: sheetAction,
	}
}

func publishAction(c *cli.Context) error {
	path, err := oneWorkbook(c)
	if err != nil {
		return err
	}
	options, done, err := readOptions(c)
	if err != nil {
		return err
	}
	defer done()
	options.Force = c.Bool("force")
	published, err := workbook.Publish(path, options, workbook.PublishOptions{Separate: c.String("separate")})
	var refusal *workbook.Refusal
	if errors.As(err, &refusal) {
		return &statusError{exitSettled, err}
	}
	if err == nil {
		fmt.Fprint(c.App.Writer, published.Report())
	}
	return err
}

func sheetAction(c *cli.Context) error {
	roster, given := c.String("roster"), c.Args().Slice()
	switch {
	case roster == "" && len(given) == 1:
		roster = given[0]
	case roster == "" || len(given) > 0:
		return wrongUse("name one roster: railbook sheet --roster ROSTER.xlsx -o BLANK.xlsx")
	}
	order := strings.ToLower(c.String("order"))
	if order != "roster" && order != "tag" && order != "rail" {
		return wrongUse("--order %s: the order is roster, tag or rail", c.String("order"))
	}
	if spare := c.Int("spare"); spare < 0 || spare > mostSpareLines {
		return wrongUse("--spare %d: give a number of empty lines from 0 to %d", spare, mostSpareLines)
	}
	options, done, err := readOptions(c)
	if err != nil {
		return err
	}
	defer done()
	if options.Species != "" && !slices.Contains(rules.SpeciesNames(), string(options.Species)) {
		return wrongUse("--species %s: the species is %s", c.String("species"), rules.SpeciesInWords())
	}
	options.Output, options.Force = c.String("output"), c.Bool("force")
	blank, err := workbook.WriteBlankSheet(options, workbook.SheetOptions{
		Roster: roster, Order: order, Ultrasound: c.Bool("ultrasound"), SpareLines: c.Int("spare"),
		NoNames: c.Bool("no-names"), PrintNames: c.Bool("print-names"),
	})
	if err == nil {
		fmt.Fprint(c.App.Writer, blank.Report())
	}
	return err
}

// mostSpareLines is how many empty lines a rail sheet may have.
const mostSpareLines = 500
