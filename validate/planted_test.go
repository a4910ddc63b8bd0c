package validate

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// plantedRow is a made carcass with what is true of it and what the sheet says.
type plantedRow struct {
	truth, sheet drawn
	cattle       int     // its place among the made cattle
	unrounded    figures // of cattle
	kind         string  // the slip planted in it; empty for a true row
	cell         measure.ID
	loses        decimal.Decimal
	silent       bool
	partners     []int // the rows that the slip is about as well
	beside       bool  // a true row that a slip elsewhere makes part of: it is counted neither as a slip nor as a true row
}

func (p *plantedRow) untouched() bool { return p.kind == "" && !p.beside }

// plantedSheet is one sheet of made carcasses.
type plantedSheet struct {
	species rules.Species
	kinds   []slipKindOfTest
	rows    []*plantedRow
	habits  habits
	scanned bool // in the live animals
}

// rowsForASlip is how many rows there are to each slip.
const rowsForASlip = 20

// stride has no factor in common with the number of kinds: the kinds take turns, and those of one cell do not come together.
const stride = 23

// plantSlips plants slips of the kinds in turn, from kind number next on, and gives the next number. Each row has one with
// the same chance, so that a small sheet has none or more than one.
func (p *plantedSheet) plantSlips(rng *rand.Rand, next int) int {
	count := 0
	for range p.rows {
		if rng.IntN(rowsForASlip) == 0 {
			count++
		}
	}
	for range count {
		kind := &p.kinds[next*stride%len(p.kinds)]
		for range 100 {
			i := rng.IntN(len(p.rows))
			row := p.rows[i]
			if !row.untouched() {
				continue
			}
			if !kind.plant(rng, p.rows, i) {
				row.sheet, row.partners = maps.Clone(row.truth), nil
				continue
			}
			row.kind, row.cell, row.loses, row.silent = kind.name, kind.cell, kind.loses, kind.goal == "silent"
			next++
			break
		}
	}
	return next
}

// plantedBook is the default rulebook, read once.
var plantedBook = sync.OnceValue(rules.Default)

// lot draws the sheet.
func (p *plantedSheet) lot(t testing.TB) *Batch {
	rows := make([]drawn, len(p.rows))
	for i, row := range p.rows {
		rows[i] = row.sheet
	}
	batch := drawLotBy(t, plantedBook(), p.species, rows...)
	if p.scanned {
		for _, graded := range batch.Carcasses {
			graded.Basis = rules.LiveScan
			*graded = *grading.Grade(graded.Carcass, batch.Book)
		}
	}
	return batch
}

// tally counts what became of the slips of one kind.
type tally struct {
	planted, caught        int
	withOwn, caughtWithOwn int // those in sheets with the plant's own grades
	given, right           int // those caught in one cell for which a likely value is given, and where it is the true one
}

func (sum *tally) add(other tally) {
	sum.planted, sum.caught = sum.planted+other.planted, sum.caught+other.caught
	sum.withOwn, sum.caughtWithOwn = sum.withOwn+other.withOwn, sum.caughtWithOwn+other.caughtWithOwn
	sum.given, sum.right = sum.given+other.given, sum.right+other.right
}

// flags counts true rows and those of them that are flagged.
type flags struct{ rows, flagged int }

// outcome is what the checks made of many planted sheets.
type outcome struct {
	planted     []slipKindOfTest
	kinds       map[string]*tally
	trueRows    flags
	ofCattle    [4]flags
	withCamera  flags
	carcasses   int
	findings    int
	falseAlarms map[string]int // by code
	caughtBy    map[string]int // silent slips, by code
	examples    []string
}

// sheetsOfCattle makes sheets of cattle with slips in them.
func sheetsOfCattle(t testing.TB, seed uint64, count int) []*plantedSheet {
	rng := rand.New(rand.NewPCG(seed, 2022))
	sheets := make([]*plantedSheet, count)
	next := 0
	for i := range sheets {
		sheets[i] = makeSheet(t, rng, 8+rng.IntN(143))
		next = sheets[i].plantSlips(rng, next)
	}
	return sheets
}

// outcomeOf counts what the checks find in sheets.
func outcomeOf(t testing.TB, kinds []slipKindOfTest, sheets []*plantedSheet) *outcome {
	t.Helper()
	result := &outcome{planted: kinds, kinds: map[string]*tally{}, falseAlarms: map[string]int{}, caughtBy: map[string]int{}}
	for _, sheet := range sheets {
		result.count(t, sheet)
	}
	return result
}

func (o *outcome) count(t testing.TB, sheet *plantedSheet) {
	t.Helper()
	flagged := map[int][]Finding{}
	for _, finding := range Check(sheet.lot(t)) {
		if finding.Level == Note {
			continue
		}
		o.findings++
		if finding.Carcass != nil {
			flagged[finding.Carcass.Sequence] = append(flagged[finding.Carcass.Sequence], finding)
		}
	}
	o.carcasses += len(sheet.rows)
	for i, row := range sheet.rows {
		switch {
		case row.kind != "":
			o.countSlip(sheet, i, flagged)
		case row.beside:
		default:
			o.countTrue(sheet, row, flagged[i])
		}
	}
}

func (o *outcome) countTrue(sheet *plantedSheet, row *plantedRow, found []Finding) {
	for _, count := range []*flags{&o.trueRows, &o.ofCattle[row.cattle], &o.withCamera} {
		if count == &o.withCamera && sheet.habits.own != fromCamera {
			continue
		}
		count.rows++
		if len(found) > 0 {
			count.flagged++
		}
	}
	if len(found) > 0 {
		o.falseAlarms[found[0].Code]++
		o.examples = append(o.examples, found[0].Message)
	}
}

func (o *outcome) countSlip(sheet *plantedSheet, i int, flagged map[int][]Finding) {
	row := sheet.rows[i]
	if o.kinds[row.kind] == nil {
		o.kinds[row.kind] = &tally{}
	}
	sum := o.kinds[row.kind]
	sum.planted++
	own := sheet.habits.own != noOwnGrade
	if own {
		sum.withOwn++
	}
	if len(flagged[i]) == 0 && !slices.ContainsFunc(row.partners, func(j int) bool { return len(flagged[j]) > 0 }) {
		return
	}
	sum.caught++
	if row.silent && len(flagged[i]) > 0 {
		o.caughtBy[flagged[i][0].Code]++
	}
	if own {
		sum.caughtWithOwn++
	}
	if row.cell == measure.None {
		return
	}
	given, right := false, false
	for _, finding := range flagged[i] {
		given = given || finding.Hint != ""
		right = right || finding.Measure == row.cell && trueHint(finding.Hint, row.truth[row.cell], row.loses)
	}
	if given {
		sum.given++
	}
	if right {
		sum.right++
	}
}

// trueHint reports whether a hint is the true value, within what the slip rounded away.
func trueHint(hint, truth string, loses decimal.Decimal) bool {
	number, err := decimal.NewFromString(hint)
	return err == nil && number.Sub(decimal.RequireFromString(truth)).Abs().LessThanOrEqual(loses)
}

// goal adds up the kinds that count toward a goal.
func (o *outcome) goal(goal string) tally {
	var all tally
	for _, kind := range o.planted {
		if tally := o.kinds[kind.name]; tally != nil && kind.goal == goal {
			all.add(*tally)
		}
	}
	return all
}

// report writes the outcome as the page shows it.
func (o *outcome) report() string {
	text := fmt.Sprintf("%-44s %8s %8s %9s %9s %8s %8s\n", "kind of slip", "planted", "caught", "with own", "without", "hints", "right")
	for _, kind := range o.planted {
		if tally := o.kinds[kind.name]; tally != nil {
			text += tally.line(kind.name)
		}
	}
	text += o.goal("loud").line("loud slips") + o.goal("silent").line("silent slips")
	return text + o.alarms()
}

// alarms writes what was said of true rows, and how much was said.
func (o *outcome) alarms() string {
	line := func(name string, of flags) string {
		return fmt.Sprintf("%-44s %8d %8s\n", name, of.rows, percentOf(of.flagged, of.rows))
	}
	text := line("true rows flagged", o.trueRows)
	for i, of := range o.ofCattle {
		if of.rows > 0 && o.withCamera.rows > 0 {
			text += line("  "+madeCattle[i].class, of)
		}
	}
	if o.withCamera.rows > 0 {
		text += line("  where a camera gives the yield grade", o.withCamera)
	}
	return text + fmt.Sprintf("%-44s %8d %8.1f\n", "findings for 100 carcasses", o.carcasses, share(o.findings, o.carcasses))
}

// line writes a tally: what was planted, the share caught of all, of those beside the plant's own grades and of the others,
// how many hints are given and the share of true ones.
func (sum tally) line(name string) string {
	hints, right := "", ""
	if sum.given > 0 {
		hints, right = fmt.Sprint(sum.given), percentOf(sum.right, sum.given)
	}
	return strings.TrimRight(fmt.Sprintf("%-44s %8d %8s %9s %9s %8s %8s", name, sum.planted, percentOf(sum.caught, sum.planted),
		percentOf(sum.caughtWithOwn, sum.withOwn), percentOf(sum.caught-sum.caughtWithOwn, sum.planted-sum.withOwn), hints, right), " ") + "\n"
}

func percentOf(part, whole int) string {
	if whole == 0 {
		return "-"
	}
	return fmt.Sprintf("%.1f %%", share(part, whole))
}

func share(part, whole int) float64 { return 100 * float64(part) / float64(max(1, whole)) }
