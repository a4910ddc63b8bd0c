package command

import (
	"fmt"

	"github.com/urfave/cli/v2"

	"railbook/workbook"
)

func printCommand() *cli.Command {
	return &cli.Command{
		Name:      "print",
		Usage:     "make a PDF of the pages of each workbook that are posted or read, in their order (needs LibreOffice)",
		ArgsUsage: "WORKBOOK…",
		Flags:     append([]cli.Flag{forceFlag()}, filesAlone()...),
		Action:    printAction,
	}
}

func printAction(c *cli.Context) error {
	if !c.Args().Present() {
		return wrongUse("name the workbook to print: railbook print WORKBOOK.xlsx")
	}
	options, done, err := readOptions(c)
	if err != nil {
		return err
	}
	defer done()
	options.Force = c.Bool("force")
	made, err := workbook.Print(c.Args().Slice(), options)
	for _, pdf := range made {
		fmt.Fprintln(c.App.Writer, "Pages:", pdf.Path)
	}
	return err
}
