// Command railbook grades, values, checks and places a fair's carcasses from the fair office's own workbook.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"syscall"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook"
	"railbook/workbook/result"
	"railbook/workbook/xlsx"

	"github.com/rs/zerolog"
	"github.com/schollz/progressbar/v3"
	"github.com/shopspring/decimal"
	"github.com/urfave/cli/v2"
	"golang.org/x/sync/errgroup"
	"golang.org/x/term"
)

// The exit statuses.
const (
	exitDone    = 0
	exitFailed  = 1 // could not be done, nothing written
	exitUse     = 2 // wrong use
	exitSettled = 3 // looked, and found what a person must settle
)

// version is set when a release is built: -ldflags "-X main.version=1.2.3".
var version = "development"

func main() { os.Exit(run(os.Args)) }

// run is the whole program; whatever goes wrong inside becomes a sentence and an exit status.
func run(arguments []string) (status int) {
	defer func() {
		if fault := recover(); fault != nil {
			fmt.Fprintln(os.Stderr, "railbook: this workbook met a fault in the program, and nothing was written. Please send the file and this line to whoever gave you the program:", fault)
			if os.Getenv("RAILBOOK_TRACE") != "" {
				debug.PrintStack()
			}
			status = exitFailed
		}
	}()
	endOnSignal()
	app := application()
	arguments, bare := asGrade(app, arguments)
	err := app.Run(optionsFirst(app, arguments))
	status = exitDone
	var coded *statusError
	switch {
	case errors.As(err, &coded):
		status = coded.status
		if coded.err != nil {
			fmt.Fprintln(os.Stderr, "railbook:", coded.err)
		}
	case err != nil:
		fmt.Fprintln(os.Stderr, "railbook:", err)
		status = exitFailed
	}
	if bare {
		holdWindow()
	}
	return status
}

// endOnSignal ends the program when it is told to, and leaves no temporary file behind.
func endOnSignal() {
	told := make(chan os.Signal, 1)
	signal.Notify(told, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGPIPE)
	go func() {
		<-told
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

func application() *cli.App {
	app := &cli.App{
		Name:            "railbook",
		Usage:           "grade, value, check and place a fair's carcasses from the fair office's own workbook",
		UsageText:       "railbook WORKBOOK.xlsx            (the same as railbook grade)\nrailbook COMMAND [options] WORKBOOK…",
		Version:         version,
		HideHelpCommand: true,
		Commands:        []*cli.Command{gradeCommand(), checkCommand(), sheetCommand(), signCommand(), verifyCommand(), publishCommand(), rulebookCommand()},
		ExitErrHandler:  func(*cli.Context, error) {},
		OnUsageError: func(_ *cli.Context, err error, _ bool) error {
			return wrongUse("%w", err)
		},
		Action: func(c *cli.Context) error {
			if c.Args().Present() {
				return wrongUse("%q is neither a command nor a workbook that is there; \"railbook --help\" lists the commands", c.Args().First())
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

// readingFlags are the options of every command that reads a workbook of carcasses.
func readingFlags() []cli.Flag {
	return append([]cli.Flag{
		&cli.StringFlag{Name: "rulebook", Usage: "grade by this rulebook `FILE` instead of the workbook's own or the default one"},
		&cli.StringSliceFlag{Name: "base-price", Usage: "base price in $/cwt of carcass, `N` for beef or SPECIES=N"},
		&cli.StringSliceFlag{Name: "roster", Usage: "join the entries of this `FILE` to the carcasses by tag"},
		&cli.StringFlag{Name: "second", Usage: "compare with a second entry of the same carcasses in `FILE`"},
		&cli.StringSliceFlag{Name: "column", Usage: "read a column as a measure: `\"MEASURE=HEADING\"`, such as \"HCW=Dressed\""},
		&cli.StringFlag{Name: "species", Usage: "`" + rules.SpeciesInWords() + "`, for sheets that do not say"},
	}, fileFlags()...)
}

// fileFlags are the options of every command.
func fileFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringSliceFlag{Name: "password", Usage: "`PASSWORD` of a protected workbook", EnvVars: []string{"RAILBOOK_PASSWORD"}},
		&cli.StringFlag{Name: "date", Usage: "`DATE` to record for corrections and signatures, such as 2025-07-10"},
		&cli.StringFlag{Name: "log", Usage: "add a log of JSON lines to `FILE`: a new one, or an earlier log of railbook"},
		&cli.BoolFlag{Name: "verbose", Usage: "log on the terminal as well"},
	}
}

func forceFlag() cli.Flag {
	return &cli.BoolFlag{Name: "force", Usage: "overwrite a different file that is in the way"}
}

func gradeCommand() *cli.Command {
	return &cli.Command{
		Name:      "grade",
		Usage:     "read, check, compute, place, and write WORKBOOK-results.xlsx",
		ArgsUsage: "WORKBOOK…",
		Flags: append([]cli.Flag{
			&cli.StringFlag{Name: "output", Aliases: []string{"o"}, Usage: "write the results to `FILE`"},
			forceFlag(),
			&cli.BoolFlag{Name: "strict", Usage: "exit with 3 when a carcass is on hold"},
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
			&cli.StringFlag{Name: "questions", Usage: "write the doubtful cells as a short list for the plant to `FILE`"},
			forceFlag(),
		}, readingFlags()...),
		Action: checkAction,
	}
}

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
		Flags:     fileFlags(),
		Action:    verifyAction,
	}
}

func publishCommand() *cli.Command {
	return &cli.Command{
		Name:      "publish",
		Usage:     "write WORKBOOK-cards.xlsx, a page for each family, and WORKBOOK-public.xlsx without the names that have no consent",
		ArgsUsage: "WORKBOOK",
		Flags: append([]cli.Flag{
			&cli.StringFlag{Name: "separate", Usage: "also write one file of cards for each family into `FOLDER`"},
			&cli.BoolFlag{Name: "pdf", Usage: "make PDF files too (needs LibreOffice)"},
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
			&cli.IntFlag{Name: "spare", Value: 4, Usage: "`N` empty lines below each list, for animals that come late"},
			&cli.BoolFlag{Name: "no-names", Usage: "tag and class alone go along; grade with --roster later"},
			&cli.BoolFlag{Name: "print-names", Usage: "print the exhibitors too; otherwise they stand right of the printed part"},
			&cli.StringFlag{Name: "rulebook", Usage: "take limits and headings from this rulebook `FILE`"},
			&cli.StringSliceFlag{Name: "column", Usage: "read a column of the roster as a measure: `\"MEASURE=HEADING\"`"},
			&cli.StringFlag{Name: "species", Usage: "`" + rules.SpeciesInWords() + "`, where the roster does not say"},
			forceFlag(),
		}, slices.DeleteFunc(fileFlags(), func(flag cli.Flag) bool { return slices.Contains(flag.Names(), "date") })...),
		Action: sheetAction,
	}
}

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
				Flags:  []cli.Flag{&cli.StringFlag{Name: "from", Usage: "carry on the rulebook of `OLD.xlsx`"}, forceFlag()},
				Action: newRulebookAction,
			},
			{Name: "check", Usage: "name a rulebook's faults by sheet and cell", ArgsUsage: "FILE.xlsx", Action: checkRulebookAction},
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

func gradeAction(c *cli.Context) error {
	paths := c.Args().Slice()
	if len(paths) == 0 {
		return wrongUse("name the workbook to grade: railbook grade WORKBOOK.xlsx")
	}
	if len(paths) > 1 && c.String("output") != "" {
		return wrongUse("-o names one results workbook, and %d workbooks were given: leave -o out, or grade them one by one", len(paths))
	}
	options, done, err := readOptions(c)
	if err != nil {
		return err
	}
	defer done()
	options.Output, options.Force, options.LastYear = c.String("output"), c.Bool("force"), c.String("last-year")
	outcomes := make([]*workbook.Outcome, len(paths))
	failures := eachWorkbook(paths, options, func(i int, options workbook.Options) (err error) {
		outcomes[i], err = workbook.Grade(paths[i], options)
		return err
	})
	onHold := false
	for i := range paths {
		switch {
		case failures[i] != nil:
			fmt.Fprintln(c.App.ErrWriter, "railbook:", failures[i])
		default:
			fmt.Fprint(c.App.Writer, outcomes[i].Report())
			onHold = onHold || workbook.Count(outcomes[i].Results).OnHold > 0
		}
		if i < len(paths)-1 {
			fmt.Fprintln(c.App.Writer)
		}
	}
	if errors.Join(failures...) != nil {
		return &statusError{exitFailed, nil}
	}
	if onHold && c.Bool("strict") {
		return &statusError{exitSettled, nil}
	}
	return nil
}

func checkAction(c *cli.Context) error {
	paths := c.Args().Slice()
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
		if err == nil && c.Bool("explain") {
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
	options.Output, options.Force = c.String("output"), c.Bool("force")
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
	found, err := workbook.Verify(path, options)
	if err != nil {
		return err
	}
	fmt.Fprint(c.App.Writer, found.Report())
	if len(found.Differences) > 0 {
		return &statusError{exitSettled, nil}
	}
	return nil
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
	published, err := workbook.Publish(path, options, workbook.PublishOptions{Separate: c.String("separate"), PDF: c.Bool("pdf")})
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

func newRulebookAction(c *cli.Context) error {
	path, err := oneWorkbook(c)
	if err != nil {
		return err
	}
	if err := workbook.NewRulebook(path, c.String("from"), workbook.Options{Force: c.Bool("force")}); err != nil {
		return err
	}
	fmt.Fprintf(c.App.Writer, "Rulebook: %s\nNext: edit it in a spreadsheet program, then railbook rulebook check %s.\n", path, path)
	return nil
}

func checkRulebookAction(c *cli.Context) error {
	path, err := oneWorkbook(c)
	if err != nil {
		return err
	}
	faults, err := workbook.CheckRulebook(path)
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

// oneWorkbook gives the one workbook a command works on.
func oneWorkbook(c *cli.Context) (string, error) {
	if c.NArg() != 1 {
		return "", wrongUse("name one workbook: %s WORKBOOK.xlsx", c.Command.HelpName)
	}
	return c.Args().First(), nil
}

// eachWorkbook runs the work on several workbooks side by side, as many as there are processors, with a progress bar on
// a terminal: of workbooks where there are several, of steps where there is one.
func eachWorkbook(paths []string, options workbook.Options, work func(i int, options workbook.Options) error) []error {
	failures := make([]error, len(paths))
	bar, steps := progress(len(paths))
	if len(paths) == 1 {
		options.Stage = func(words string) {
			bar.Describe(words)
			_ = bar.Add(1)
		}
		steps = 0
	}
	var group errgroup.Group
	group.SetLimit(runtime.NumCPU())
	var lock sync.Mutex
	for i := range paths {
		group.Go(func() error {
			failures[i] = guarded(paths[i], func() error { return work(i, options) })
			lock.Lock()
			defer lock.Unlock()
			_ = bar.Add(steps)
			return nil
		})
	}
	_ = group.Wait()
	_ = bar.Finish()
	return failures
}

// guarded turns a panic on one workbook into a sentence, so that the others go on.
func guarded(path string, work func() error) (err error) {
	defer func() {
		if fault := recover(); fault != nil {
			if os.Getenv("RAILBOOK_TRACE") != "" {
				debug.PrintStack()
			}
			err = fmt.Errorf("%s met a fault in the program, and nothing was written for it. Please send the file and this line to whoever gave you the program: %v", path, fault)
		}
	}()
	return work()
}

// progress is a bar on the terminal's error stream, and silent where that is no terminal.
func progress(workbooks int) (bar *progressbar.ProgressBar, steps int) {
	const stagesOfOne = 6
	total := workbooks
	if workbooks == 1 {
		total = stagesOfOne
	}
	var writer io.Writer = io.Discard
	if term.IsTerminal(int(os.Stderr.Fd())) {
		writer = os.Stderr
	}
	return progressbar.NewOptions(total, progressbar.OptionSetWriter(writer), progressbar.OptionClearOnFinish(),
		progressbar.OptionSetWidth(20), progressbar.OptionSetElapsedTime(false), progressbar.OptionSetPredictTime(false)), 1
}

// readOptions turns the command line's options into the job's; done closes the log.
func readOptions(c *cli.Context) (options workbook.Options, done func(), err error) {
	options = workbook.Options{
		Rulebook: c.String("rulebook"), Rosters: c.StringSlice("roster"), Second: c.String("second"),
		Species: rules.Species(strings.ToLower(c.String("species"))), Passwords: c.StringSlice("password"),
		Date: c.String("date"), Version: version, Door: xlsx.NewDoor(inputs(c)...),
	}
	if options.BasePrices, err = basePrices(c.StringSlice("base-price")); err != nil {
		return options, nil, err
	}
	if options.Columns, err = columns(c.StringSlice("column")); err != nil {
		return options, nil, err
	}
	options.Log, done, err = openLog(c, options.Door)
	return options, done, err
}

// basePrices reads N (beef) and SPECIES=N.
func basePrices(values []string) (map[rules.Species]decimal.Decimal, error) {
	prices := make(map[rules.Species]decimal.Decimal)
	for _, value := range values {
		species, figure, named := strings.Cut(value, "=")
		if !named {
			species, figure = string(rules.Beef), value
		}
		price, err := decimal.NewFromString(strings.TrimPrefix(strings.TrimSpace(figure), "$"))
		if err != nil || !price.IsPositive() {
			return nil, wrongUse("--base-price %s: give dollars for a hundred pounds of carcass, such as 300 or swine=92.50", value)
		}
		prices[rules.Species(strings.ToLower(strings.TrimSpace(species)))] = price
	}
	return prices, nil
}

// columns reads MEASURE=HEADING.
func columns(values []string) (map[measure.ID]string, error) {
	mapped := make(map[measure.ID]string)
	for _, value := range values {
		name, heading, named := strings.Cut(value, "=")
		id, known := rules.FindMeasure(name)
		if !named || heading == "" {
			return nil, wrongUse("--column %q: write it as \"MEASURE=HEADING\", such as \"HCW=Dressed\"", value)
		}
		if !known {
			return nil, wrongUse("--column %q: %q is no measure that railbook knows; write its full name, such as \"hot carcass weight\"", value, name)
		}
		mapped[id] = heading
	}
	return mapped, nil
}

// openLog makes the log: JSON lines to a file, readable lines on the terminal where asked for, or nothing.
func openLog(c *cli.Context, door *xlsx.Door) (log zerolog.Logger, done func(), err error) {
	var writers []io.Writer
	done = func() {}
	if path := c.String("log"); path != "" {
		file, err := door.Log(path)
		if err != nil {
			return log, done, fmt.Errorf("the log: %w", err)
		}
		done = func() { _ = file.Close() }
		writers = append(writers, file)
	}
	if c.Bool("verbose") {
		plain := os.Getenv("NO_COLOR") != "" || !term.IsTerminal(int(os.Stderr.Fd()))
		writers = append(writers, zerolog.ConsoleWriter{Out: os.Stderr, NoColor: plain, TimeFormat: "15:04:05"})
	}
	if len(writers) == 0 {
		return zerolog.Nop(), done, nil
	}
	log = zerolog.New(zerolog.MultiLevelWriter(writers...)).With().Timestamp().Logger()
	log.Info().Str(xlsx.LogProgram, xlsx.OurProgram).Str("version", version).Str("command", c.Command.Name).Msg("started")
	return log, done, nil
}

// inputOptions are the options that name files to be read.
var inputOptions = []string{"rulebook", "second", "last-year", "roster"}

// inputs are all files that a command reads: its arguments, and those that its options name.
func inputs(c *cli.Context) []string {
	paths := c.Args().Slice()
	for _, option := range inputOptions {
		paths = append(append(paths, c.String(option)), c.StringSlice(option)...)
	}
	return paths
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
			if takesValue(flags, rest[i]) && i+1 < len(rest) {
				i++
				options = append(options, rest[i])
			}
		}
	}
	moved := append(append([]string{}, arguments[:position]...), options...)
	return append(append(moved, "--"), names...)
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

// holdWindow keeps the window of a program open that was started by dropping a file on it: the command prompt sets
// PROMPT, the desktop does not.
func holdWindow() {
	if runtime.GOOS != "windows" || os.Getenv("PROMPT") != "" || !term.IsTerminal(int(os.Stdin.Fd())) {
		return
	}
	fmt.Print("\nPress Enter to close this window.")
	_, _ = fmt.Scanln()
}
