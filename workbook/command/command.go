// Package command is the command line: options, messages and exit statuses. Each command calls one function of package
// workbook.
package command

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
	"syscall"

	"railbook/workbook"
	"railbook/workbook/xlsx"

	"github.com/urfave/cli/v2"
	"golang.org/x/term"
)

// The exit statuses.
const (
	exitDone    = 0
	exitFailed  = 1 // could not be done, nothing written
	exitUse     = 2 // wrong use
	exitSettled = 3 // looked, and found what a person must settle
)

// Run is the whole program; whatever goes wrong inside becomes a sentence and an exit status.
func Run(arguments []string, version string) (status int) {
	defer func() {
		if fault := recover(); fault != nil {
			fmt.Fprintln(readBy(os.Stderr), "railbook: this workbook met a fault in the program, and nothing was written. Please send the file and this line to whoever gave you the program:", fault)
			if os.Getenv("RAILBOOK_TRACE") != "" {
				debug.PrintStack()
			}
			status = exitFailed
		}
	}()
	askForLargePages()
	holdMemory()
	endOnSignal()
	cli.HelpPrinter = printHelp
	app := application(version)
	arguments, bare := asGrade(app, asHelp(arguments))
	err := app.Run(optionsFirst(app, arguments))
	status = exitDone
	var coded *statusError
	switch {
	case errors.As(err, &coded):
		status = coded.status
		if coded.err != nil {
			complain(app.ErrWriter, coded.err)
		}
	case err != nil:
		complain(app.ErrWriter, err)
		status = exitFailed
	}
	if bare {
		holdWindow()
	}
	return status
}

// endOnSignal ends the program when it is told to, and leaves no temporary file behind.
func endOnSignal() {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGPIPE)
	go func() {
		<-signals
		xlsx.Abandon()
		os.Exit(exitFailed)
	}()
}

// statusError carries the exit status an error asks for; without a cause the command has said all there is to say.
type statusError struct {
	status int
	err    error
}

func (e *statusError) Error() string {
	if e.err == nil {
		return fmt.Sprintf("exit status %d", e.status)
	}
	return e.err.Error()
}

func wrongUse(format string, values ...any) error {
	return &statusError{exitUse, fmt.Errorf(format, values...)}
}

func application(version string) *cli.App {
	app := &cli.App{
		Name:            "railbook",
		Usage:           "grade, value, check and place a fair's carcasses from the fair office's own workbook",
		UsageText:       "railbook WORKBOOK.xlsx            (the same as railbook grade)\nrailbook COMMAND [options] WORKBOOK…",
		Version:         version,
		Writer:          readBy(os.Stdout),
		ErrWriter:       readBy(os.Stderr),
		HideHelpCommand: true,
		Commands:        []*cli.Command{gradeCommand(), checkCommand(), sheetCommand(), signCommand(), verifyCommand(), publishCommand(), printCommand(), rulebookCommand()},
		ExitErrHandler:  func(*cli.Context, error) {},
		OnUsageError: func(c *cli.Context, err error, _ bool) error {
			return usageError(c, err)
		},
		Action: func(c *cli.Context) error {
			if c.Args().Present() {
				return notACommand(c.App, c.Args().First())
			}
			return cli.ShowAppHelp(c)
		},
	}
	for _, command := range app.Commands {
		command.OnUsageError = app.OnUsageError
		for _, part := range command.Subcommands {
			part.OnUsageError, part.HideHelpCommand = app.OnUsageError, true
		}
	}
	return app
}

// complain prints a failure within the columns of a terminal.
func complain(writer io.Writer, err error) {
	fmt.Fprint(writer, inColumns(fmt.Sprintln("railbook:", err)))
}

// How many columns a message takes: those that the environment says a terminal has, or else what every terminal has.
const (
	columnsVariable = "COLUMNS"
	fewestColumns   = 40
	usualColumns    = 80
)

func columnsOfMessages() int {
	if count, err := strconv.Atoi(os.Getenv(columnsVariable)); err == nil && count >= fewestColumns {
		return count
	}
	return usualColumns
}

// inColumns breaks each line of a message at the columns of a terminal, and indents what follows.
func inColumns(text string) string {
	var wrapped strings.Builder
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		margin := line[:len(line)-len(strings.TrimLeft(line, " "))]
		wrapped.WriteString(workbook.WrappedAt(columnsOfMessages(), line, margin+"  "))
	}
	return wrapped.String()
}

// holdWindow keeps the window of a program open that was started by dropping a file on it: the command prompt sets
// PROMPT, the desktop does not.
func holdWindow() {
	if runtime.GOOS != "windows" || os.Getenv("PROMPT") != "" || !term.IsTerminal(int(os.Stdin.Fd())) {
		return
	}
	fmt.Print("\nPress Enter to close this window.")
	_, _ = fmt.Scanln()
}
