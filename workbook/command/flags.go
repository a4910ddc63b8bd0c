package command

import (
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook"
	"railbook/workbook/xlsx"

	"github.com/rs/zerolog"
	"github.com/shopspring/decimal"
	"github.com/urfave/cli/v2"
	"golang.org/x/term"
)

// readingFlags are the options of every command that reads a workbook of carcasses.
func readingFlags() []cli.Flag {
	return append([]cli.Flag{
		&cli.StringFlag{Name: "rulebook", Usage: "grade by this rulebook `FILE` instead of the workbook's own or the default one"},
		&cli.StringSliceFlag{Name: "base-price", Usage: "base price in $/cwt of carcass, `N` for " + rules.SpeciesNames()[0] + " or SPECIES=N"},
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

// filesAlone are those of commands in which nothing is dated.
func filesAlone() []cli.Flag {
	return slices.DeleteFunc(fileFlags(), func(flag cli.Flag) bool { return slices.Contains(flag.Names(), "date") })
}

func forceFlag() cli.Flag {
	return &cli.BoolFlag{Name: "force", Usage: "overwrite a different file that is in the way"}
}

// readOptions turns the command line's options into the job's; done closes the log.
func readOptions(c *cli.Context) (options workbook.Options, done func(), err error) {
	options = workbook.Options{
		Rulebook: c.String("rulebook"), Rosters: c.StringSlice("roster"), Second: c.String("second"),
		Passwords: c.StringSlice("password"),
		Date:      c.String("date"), Version: c.App.Version, Door: xlsx.NewDoor(inputs(c)...),
	}
	if options.Species, err = speciesNamed("--species", c.String("species")); err != nil {
		return options, nil, err
	}
	if err := realDate(c.String("date")); err != nil {
		return options, nil, err
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

// valuesFit says which value an option can't use, before it is said that no workbook is named: it may be the value.
func valuesFit(c *cli.Context) error {
	if _, err := speciesNamed("--species", c.String("species")); err != nil {
		return err
	}
	if err := realDate(c.String("date")); err != nil {
		return err
	}
	if _, err := basePrices(c.StringSlice("base-price")); err != nil {
		return err
	}
	_, err := columns(c.StringSlice("column"))
	return err
}

// speciesNamed reads a species that an option names; none is none.
func speciesNamed(option, text string) (rules.Species, error) {
	name := strings.ToLower(strings.TrimSpace(text))
	if name == "" || slices.Contains(rules.SpeciesNames(), name) {
		return rules.Species(name), nil
	}
	return "", wrongUse("%s: %q is no species that railbook knows; give %s%s", option, text, rules.SpeciesInWords(), meant(name, rules.SpeciesNames()))
}

// realDate refuses a --date that is on no calendar.
func realDate(text string) error {
	if text == "" {
		return nil
	}
	if _, err := time.Parse(time.DateOnly, text); err != nil {
		return wrongUse("--date %s: give a day of the calendar as year-month-day, such as 2025-07-10", text)
	}
	return nil
}

// basePrices reads N, for the first species of the table, and SPECIES=N.
func basePrices(values []string) (map[rules.Species]decimal.Decimal, error) {
	prices := make(map[rules.Species]decimal.Decimal)
	for _, value := range values {
		species, figure, named := strings.Cut(value, "=")
		if !named {
			species, figure = rules.SpeciesNames()[0], value
		}
		price, err := decimal.NewFromString(strings.TrimPrefix(strings.TrimSpace(figure), "$"))
		if err != nil || !price.IsPositive() {
			return nil, wrongUse("--base-price %s: give dollars for a hundred pounds of carcass, such as 300 or swine=92.50", value)
		}
		of, err := speciesNamed("--base-price "+value, species)
		if err != nil {
			return nil, err
		}
		prices[of] = price
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
	log.Info().Str(xlsx.LogProgram, xlsx.OurProgram).Str("version", c.App.Version).Str("command", c.Command.Name).Msg("started")
	return log, done, nil
}

// inputOptions are the options that name files to be read.
var inputOptions = []string{"rulebook", "from", "second", "decisions", "last-year", "answers", "roster"}

// inputs are all files that a command reads: its arguments, and those that its options name.
func inputs(c *cli.Context) []string {
	paths := workbook.WithoutCombined(c.Args().Slice(), c.String("combined"))
	for _, option := range inputOptions {
		paths = append(append(paths, c.String(option)), c.StringSlice(option)...)
	}
	return paths
}
