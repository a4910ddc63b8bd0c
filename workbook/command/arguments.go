package command

import (
	"os"
	"strings"

	"github.com/urfave/cli/v2"
)

// oneWorkbook gives the one workbook a command works on.
func oneWorkbook(c *cli.Context) (string, error) {
	if c.NArg() != 1 {
		return "", wrongUse("name one workbook: %s WORKBOOK.xlsx", c.Command.HelpName)
	}
	return c.Args().First(), nil
}

// asHelp makes "railbook help COMMAND" mean "railbook COMMAND --help".
func asHelp(arguments []string) []string {
	if len(arguments) < 2 || arguments[1] != "help" {
		return arguments
	}
	if len(arguments) > 2 && arguments[2] == "help" {
		return []string{arguments[0], "--help"}
	}
	return append(append([]string{arguments[0]}, arguments[2:]...), "--help")
}

// asGrade makes "railbook FILE" mean "railbook grade FILE"; that is what dropping a file on the program does.
func asGrade(app *cli.App, arguments []string) (changed []string, bare bool) {
	if len(arguments) < 2 {
		return arguments, false
	}
	for _, argument := range arguments[1:] {
		if app.Command(argument) != nil {
			return arguments, false
		}
		if strings.HasPrefix(argument, "-") {
			continue
		}
		if _, err := os.Stat(argument); err != nil && !strings.Contains(argument, ".") {
			return arguments, false
		}
		return append([]string{arguments[0], "grade"}, arguments[1:]...), true
	}
	return arguments, false
}

// optionsFirst moves a command's options before its workbooks, so that they may stand on either side.
func optionsFirst(app *cli.App, arguments []string) []string {
	commands := app.Commands
	position := 1
	var flags []cli.Flag
	for position < len(arguments) {
		index := commandIndex(commands, arguments[position])
		if index < 0 {
			break
		}
		flags, commands = commands[index].Flags, commands[index].Subcommands
		position++
	}
	if position == 1 {
		return arguments
	}
	var options, names []string
	rest := arguments[position:]
	for i := 0; i < len(rest); i++ {
		switch {
		case rest[i] == "--":
			names = append(names, rest[i+1:]...)
			i = len(rest)
		case !strings.HasPrefix(rest[i], "-") || rest[i] == "-":
			names = append(names, rest[i])
		default:
			options = append(options, rest[i])
			if !takesValue(flags, rest[i]) {
				continue
			}
			if i+1 == len(rest) {
				return append(append([]string{}, arguments[:position]...), rest[i]) // which the library says
			}
			i++
			options = append(options, rest[i])
		}
	}
	moved := append(append([]string{}, arguments[:position]...), options...)
	return append(append(moved, "--"), expanded(names)...)
}

func commandIndex(commands []*cli.Command, name string) int {
	for i, command := range commands {
		if command.HasName(name) {
			return i
		}
	}
	return -1
}

// takesValue reports whether an option is followed by its value.
func takesValue(flags []cli.Flag, argument string) bool {
	name := strings.TrimLeft(argument, "-")
	if strings.Contains(name, "=") {
		return false
	}
	for _, flag := range flags {
		for _, known := range flag.Names() {
			if _, onOff := flag.(*cli.BoolFlag); known == name {
				return !onOff
			}
		}
	}
	return false
}
