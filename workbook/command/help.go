package command

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"railbook/workbook"
)

// helpColumn is where the descriptions of options and commands begin.
const helpColumn = 22

// printHelp writes a command's help, no line longer than a terminal of 80 columns.
func printHelp(to io.Writer, _ string, about any) {
	switch about := about.(type) {
	case *cli.App:
		helpOf(to, about.Name, about.Usage, about.UsageText, about.VisibleCommands(), about.VisibleFlags())
	case *cli.Command:
		usage := about.UsageText
		if usage == "" {
			usage = about.HelpName + " [options] " + about.ArgsUsage
		}
		helpOf(to, about.HelpName, about.Usage, strings.TrimSpace(usage), about.VisibleCommands(), about.VisibleFlags())
	}
}

func helpOf(to io.Writer, name, purpose, usage string, commands []*cli.Command, flags []cli.Flag) {
	fmt.Fprint(to, workbook.Wrapped(name+": "+purpose, "  "))
	for _, line := range strings.Split(usage, "\n") {
		fmt.Fprint(to, "\n  "+line)
	}
	fmt.Fprintln(to)
	commands = slices.DeleteFunc(slices.Clone(commands), func(command *cli.Command) bool { return command.Name == "help" })
	if len(commands) > 0 {
		fmt.Fprintln(to, "\nCommands")
	}
	for _, command := range commands {
		describe(to, command.Name, command.Usage)
	}
	if len(flags) > 0 {
		fmt.Fprintln(to, "\nOptions")
	}
	for _, flag := range flags {
		describeFlag(to, flag)
	}
	if len(commands) > 0 {
		fmt.Fprint(to, "\n", workbook.Wrapped(fmt.Sprintf("\"%s COMMAND --help\" lists the options of a command.", name), ""))
	}
}

func describeFlag(to io.Writer, flag cli.Flag) {
	documented, ok := flag.(cli.DocGenerationFlag)
	if !ok {
		return
	}
	var names []string
	for _, name := range flag.Names() {
		dashes := "--"
		if len(name) == 1 {
			dashes = "-"
		}
		names = append(names, dashes+name)
	}
	left, usage := strings.Join(names, ", "), documented.GetUsage()
	if before, rest, found := strings.Cut(usage, "`"); found {
		value, after, _ := strings.Cut(rest, "`")
		left, usage = left+" "+value, before+value+after
	}
	if documented, ok := flag.(*cli.StringSliceFlag); ok && len(documented.EnvVars) > 0 {
		usage += " (or in the environment, " + strings.Join(documented.EnvVars, ", ") + ")"
	} else if ok {
		usage += "; may be given several times"
	}
	describe(to, left, usage)
}

// describe writes a name and what it is: beside each other where the name is short enough, else below.
func describe(to io.Writer, name, description string) {
	margin := strings.Repeat(" ", helpColumn)
	if len(name)+4 > helpColumn {
		fmt.Fprintln(to, "  "+name)
		fmt.Fprint(to, workbook.Wrapped(margin+description, margin))
		return
	}
	below := workbook.Wrapped(margin+description, margin)
	fmt.Fprintf(to, "  %-*s%s", helpColumn-2, name, below[helpColumn:])
}
