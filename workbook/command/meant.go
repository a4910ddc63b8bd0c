package command

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"railbook/rules/phrase"
	"railbook/workbook/xlsx"
)

// meant asks whether the nearest of some words was meant; empty where none is near.
func meant(text string, words []string) string {
	if best := phrase.Nearest(text, words); best != "" {
		return fmt.Sprintf("; is %s meant?", best)
	}
	return ""
}

// commandNames are the names of commands.
func commandNames(commands []*cli.Command) (names []string) {
	for _, command := range commands {
		names = append(names, command.Name)
	}
	return names
}

// notACommand says of a first word that is neither a command nor a file what may have been meant.
func notACommand(app *cli.App, word string) error {
	if file := xlsx.FileMeant(word); file != "" {
		return wrongUse("%q is neither a command nor a workbook that is there; is %s meant?", word, file)
	}
	if hint := meant(word, commandNames(app.Commands)); hint != "" {
		return wrongUse("%q is neither a command nor a workbook that is there%s", word, hint)
	}
	return wrongUse("%q is neither a command nor a workbook that is there; \"railbook --help\" lists the commands", word)
}

var (
	unknownOption = phrase.NewPattern(`^flag provided but not defined: -+(\S+)`)
	valueMissing  = phrase.NewPattern(`^flag needs an argument: -+(\S+)`)
	valueUnfit    = phrase.NewPattern(`^invalid (?:boolean )?value "(.*)" for (?:flag )?-+([^:]+):`)
)

// usageError turns the library's words about an option into a sentence that says what the option takes.
func usageError(c *cli.Context, err error) error {
	var flags []cli.Flag
	if c != nil && c.Command != nil {
		flags = c.Command.Flags
	}
	if found := unknownOption.FindStringSubmatch(err.Error()); found != nil {
		var names []string
		for _, flag := range flags {
			for _, name := range flag.Names() {
				if len(name) > 1 {
					names = append(names, "--"+name)
				}
			}
		}
		given := "--" + found[1]
		if len(found[1]) == 1 {
			given = "-" + found[1]
		}
		hint := meant(given, names)
		if hint == "" && c != nil && c.Command != nil {
			hint = fmt.Sprintf("; \"%s --help\" lists those that there are", c.Command.HelpName)
		}
		return wrongUse("there is no option %s%s", given, hint)
	}
	if found := valueMissing.FindStringSubmatch(err.Error()); found != nil {
		return wrongUse("--%s takes a value%s", found[1], takes(flags, found[1]))
	}
	if found := valueUnfit.FindStringSubmatch(err.Error()); found != nil {
		return wrongUse("--%s can't be %q%s", found[2], found[1], takes(flags, found[2]))
	}
	return wrongUse("%w", err)
}

// takes says what an option takes, in the words of its own help.
func takes(flags []cli.Flag, name string) string {
	for _, flag := range flags {
		documented, ok := flag.(cli.DocGenerationFlag)
		if !ok || !strings.Contains(" "+strings.Join(flag.Names(), " ")+" ", " "+name+" ") {
			continue
		}
		return ": " + strings.ReplaceAll(documented.GetUsage(), "`", "")
	}
	return ""
}

// expanded gives the files that names with wildcards stand for, for the command prompts that leave this to programs.
// A name that is there, or that nothing fits, stays as it is.
func expanded(names []string) (all []string) {
	for _, name := range names {
		_, err := os.Stat(name)
		if err == nil || !errors.Is(err, os.ErrNotExist) && !strings.ContainsAny(name, "*?") || !strings.ContainsAny(name, "*?") {
			all = append(all, name)
			continue
		}
		fitting, err := filepath.Glob(name)
		if err != nil || len(fitting) == 0 {
			all = append(all, name)
			continue
		}
		all = append(all, fitting...)
	}
	return all
}
