package command

import (
	"fmt"

	"railbook/workbook"
	"railbook/workbook/xlsx"

	"github.com/urfave/cli/v2"
)

func rulebookCommand() *cli.Command {
	return &cli.Command{
		Name:            "rulebook",
		Usage:           "a rulebook to edit in a spreadsheet program, its faults, and one against another",
		HideHelpCommand: true,
		Action: func(c *cli.Context) error {
			if c.Args().Present() {
				return wrongUse("there is no \"railbook rulebook %s\": it is new, check or compare", c.Args().First())
			}
			return cli.ShowSubcommandHelp(c)
		},
		Subcommands: []*cli.Command{
			{
				Name: "new", Usage: "write a rulebook to edit: the defaults, or next year's from an old one", ArgsUsage: "FILE.xlsx",
				Flags:  append([]cli.Flag{&cli.StringFlag{Name: "from", Usage: "carry on the rulebook of `OLD.xlsx`"}, forceFlag()}, filesAlone()...),
				Action: newRulebookAction,
			},
			{Name: "check", Usage: "name a rulebook's faults by sheet and cell", ArgsUsage: "FILE.xlsx", Flags: filesAlone(), Action: checkRulebookAction},
			{
				Name: "compare", Usage: "write what a new rulebook would have changed on past workbooks", ArgsUsage: "OLD.xlsx NEW.xlsx RESULTS.xlsx…",
				Flags: append([]cli.Flag{
					&cli.StringFlag{Name: "output", Aliases: []string{"o"}, Usage: "write the comparison to `FILE`"},
					forceFlag(),
				}, fileFlags()...),
				Action: compareAction,
			},
		},
	}
}

func newRulebookAction(c *cli.Context) error {
	path, err := oneWorkbook(c)
	if err != nil {
		return err
	}
	options, done, err := readOptions(c)
	if err != nil {
		return err
	}
	defer done()
	options.Force, options.Door = c.Bool("force"), xlsx.NewDoor(c.String("from")) // the argument is what is written
	if err := workbook.NewRulebook(path, c.String("from"), options); err != nil {
		return err
	}
	fmt.Fprintf(c.App.Writer, "Rulebook: %s\n%s", path, workbook.Wrapped("Next: edit it in a spreadsheet program, then railbook rulebook check "+path+".", "  "))
	return nil
}

func checkRulebookAction(c *cli.Context) error {
	path, err := oneWorkbook(c)
	if err != nil {
		return err
	}
	options, done, err := readOptions(c)
	if err != nil {
		return err
	}
	defer done()
	faults, err := workbook.CheckRulebook(path, options)
	if err != nil {
		return err
	}
	fmt.Fprint(c.App.Writer, workbook.FaultsReport(path, faults))
	for _, fault := range faults {
		if !fault.Warning {
			return &statusError{exitSettled, nil}
		}
	}
	return nil
}

func compareAction(c *cli.Context) error {
	paths := c.Args().Slice()
	if len(paths) < 3 {
		return wrongUse("name the old rulebook, the new one and at least one past workbook: railbook rulebook compare OLD.xlsx NEW.xlsx RESULTS.xlsx")
	}
	options, done, err := readOptions(c)
	if err != nil {
		return err
	}
	defer done()
	options.Output, options.Force = c.String("output"), c.Bool("force")
	outcome, err := workbook.CompareRulebooks(paths[0], paths[1], paths[2:], options)
	if err == nil {
		fmt.Fprint(c.App.Writer, outcome.Report())
	}
	return err
}
