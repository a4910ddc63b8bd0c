package command

import (
	"errors"
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"

	"railbook/workbook"
)

func signCommand() *cli.Command {
	return &cli.Command{
		Name:      "sign",
		Usage:     "stamp a results workbook with the judge's name and a seal, and write WORKBOOK-signed.xlsx",
		ArgsUsage: "WORKBOOK",
		Flags: append([]cli.Flag{
			&cli.StringFlag{Name: "judge", Usage: "the judge's `NAME`, as it is to be printed"},
			&cli.StringFlag{Name: "output", Aliases: []string{"o"}, Usage: "write the signed workbook to `FILE`"},
			forceFlag(),
		}, fileFlags()...),
		Action: signAction,
	}
}

func verifyCommand() *cli.Command {
	return &cli.Command{
		Name:      "verify",
		Usage:     "recompute a signed workbook and name every cell that no longer agrees",
		ArgsUsage: "WORKBOOK",
		Flags: append([]cli.Flag{
			&cli.StringFlag{Name: "lines", Usage: "write the lines that the seal is taken over into `FILE`: its SHA-256 is the seal"},
			forceFlag(),
		}, fileFlags()...),
		Action: verifyAction,
	}
}

func signAction(c *cli.Context) error {
	path, err := oneWorkbook(c)
	if err != nil {
		return err
	}
	judge := strings.TrimSpace(c.String("judge"))
	if judge == "" {
		return wrongUse("say who signs: railbook sign %s --judge \"NAME\"", path)
	}
	options, done, err := readOptions(c)
	if err != nil {
		return err
	}
	defer done()
	options.Output, options.Force, options.Stage = c.String("output"), c.Bool("force"), roomFor(path)
	outcome, err := workbook.Sign(path, judge, options.Date, options)
	var refusal *workbook.Refusal
	if errors.As(err, &refusal) {
		return &statusError{exitSettled, err}
	}
	if err == nil {
		fmt.Fprint(c.App.Writer, outcome.SignedReport())
	}
	return err
}

func verifyAction(c *cli.Context) error {
	path, err := oneWorkbook(c)
	if err != nil {
		return err
	}
	options, done, err := readOptions(c)
	if err != nil {
		return err
	}
	defer done()
	options.Stage = roomFor(path)
	found, err := workbook.Verify(path, options)
	if err != nil {
		return err
	}
	fmt.Fprint(c.App.Writer, found.Report())
	if to := c.String("lines"); to != "" {
		options.Force = c.Bool("force")
		if err := found.SaveLines(to, options); err != nil {
			return err
		}
	}
	if len(found.Differences) > 0 {
		return &statusError{exitSettled, nil}
	}
	return nil
}
