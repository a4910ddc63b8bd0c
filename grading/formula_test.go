package grading

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"
)

// sheetReferences finds everything on a sheet with a column for each input and each computed column.
type sheetReferences struct {
	row              int
	inputs, computed map[measure.ID]string // column letters
	plain            map[measure.ID]Reading
	ranges           map[string]string
}

func (at sheetReferences) Cell(id measure.ID) string {
	column, found := at.inputs[id]
	switch reading := at.plain[id]; {
	case !found || !reading.Plain && reading.Factor == "":
		return ""
	case reading.Factor != "":
		return fmt.Sprintf("ROUND(%s%d*%s,4)", column, at.row, reading.Factor)
	}
	return fmt.Sprintf("%s%d", column, at.row)
}

func (at sheetReferences) Column(id measure.ID) string {
	if column, found := at.computed[id]; found {
		return fmt.Sprintf("%s%d", column, at.row)
	}
	return ""
}

func (at sheetReferences) Range(name string) string {
	area, found := at.ranges[name]
	if !found {
		return "NO_SUCH_RANGE(" + name + ")"
	}
	return "'Value grid'!" + area
}

// recalculationBook is a workbook of carcasses with their formulas and no cached values.
type recalculationBook struct {
	file   *excelize.File
	sheet  string
	method *Method
	grid   GridSheet
	inputs map[measure.ID]string
	column map[measure.ID]string
	graded []*Graded
}

func allColumns(method *Method) []Column {
	columns := append(method.columns[:len(method.columns):len(method.columns)], method.whereKnown...)
	return append(columns, Column{Measure: measure.AgeInMonths})
}

func columnLetters(number int) string {
	name, err := excelize.ColumnNumberToName(number)
	if err != nil {
		panic(err)
	}
	return name
}

func newRecalculationBook(t *testing.T, file *excelize.File, sheet string, method *Method, grid GridSheet) *recalculationBook {
	t.Helper()
	book := &recalculationBook{file: file, sheet: sheet, method: method, grid: grid, inputs: map[measure.ID]string{}, column: map[measure.ID]string{}}
	for at, id := range Inputs(method.Species, method.Basis) {
		book.inputs[id] = columnLetters(at + 1)
	}
	for at, column := range allColumns(method) {
		book.column[column.Measure] = columnLetters(len(book.inputs) + at + 2)
	}
	if _, err := file.NewSheet(sheet); err != nil {
		t.Fatal(err)
	}
	return book
}

func (b *recalculationBook) add(t *testing.T, graded *Graded) {
	t.Helper()
	b.graded = append(b.graded, graded)
	at := sheetReferences{row: len(b.graded), inputs: b.inputs, computed: b.column, plain: maps.Collect(graded.Readings()), ranges: b.grid.Ranges}
	for id, reading := range graded.Readings() {
		column, isInput := b.inputs[id]
		if !isInput {
			continue
		}
		var value any = reading.Written
		if reading.Plain || reading.Factor != "" {
			value = mustFloat(t, reading.Written)
		}
		if err := b.file.SetCellValue(b.sheet, fmt.Sprintf("%s%d", column, at.row), value); err != nil {
			t.Fatal(err)
		}
	}
	for _, column := range allColumns(b.method) {
		if formula, ok := graded.Formula(column.Measure, at); ok {
			if err := b.file.SetCellFormula(b.sheet, at.Column(column.Measure), formula); err != nil {
				t.Fatal(err)
			}
		}
	}
}

func mustFloat(t *testing.T, text string) float64 {
	t.Helper()
	number, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return number
}

func fillGridSheet(t *testing.T, file *excelize.File, grid GridSheet) {
	t.Helper()
	if _, err := file.NewSheet("Value grid"); err != nil {
		t.Fatal(err)
	}
	for row, cells := range grid.Rows {
		for column, cell := range cells {
			var value any = cell.Text
			if cell.Number {
				value = mustFloat(t, cell.Text)
			}
			if cell.Formula != "" {
				if err := file.SetCellFormula("Value grid", fmt.Sprintf("%s%d", columnLetters(column+1), row+1), cell.Formula); err != nil {
					t.Fatal(err)
				}
				continue
			}
			if err := file.SetCellValue("Value grid", fmt.Sprintf("%s%d", columnLetters(column+1), row+1), value); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// alwaysRecalculate makes LibreOffice recalculate what it loads.
const alwaysRecalculate = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>`

// recalculated has LibreOffice recalculate a workbook and gives it back.
func recalculated(t *testing.T, file *excelize.File) *excelize.File {
	t.Helper()
	soffice, err := exec.LookPath("soffice")
	if err != nil {
		t.Skip("LibreOffice (soffice) is not installed")
	}
	folder := t.TempDir()
	profile := filepath.Join(folder, "profile")
	if err := os.MkdirAll(filepath.Join(profile, "user"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(profile, "user", "registrymodifications.xcu"), []byte(alwaysRecalculate), 0o644); err != nil {
		t.Fatal(err)
	}
	input := filepath.Join(folder, "carcasses.xlsx")
	if err := file.SaveAs(input); err != nil {
		t.Fatal(err)
	}
	output := filepath.Join(folder, "out")
	command := exec.Command(soffice, "-env:UserInstallation=file://"+profile, "--headless", "--convert-to", "xlsx", "--outdir", output, input)
	if said, err := command.CombinedOutput(); err != nil {
		t.Fatalf("soffice: %v: %s", err, said)
	}
	back, err := excelize.OpenFile(filepath.Join(output, "carcasses.xlsx"), excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = back.Close() })
	return back
}

// compare holds every recalculated cell beside the exact figure, in value and type.
func (b *recalculationBook) compare(t *testing.T, back *excelize.File) (cells, missing int) {
	t.Helper()
	rows, err := back.GetRows(b.sheet, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	faults := 0
	for at, graded := range b.graded {
		for _, column := range allColumns(b.method) {
			number, err := excelize.ColumnNameToNumber(b.column[column.Measure])
			if err != nil {
				t.Fatal(err)
			}
			got := ""
			if at < len(rows) && number <= len(rows[at]) {
				got = rows[at][number-1]
			}
			figure, computed := graded.Computed(column.Measure)
			if value, ok := graded.Figure(column.Measure); ok {
				figure.Value = value
			} else if !computed {
				figure.Missing = "not computed"
			}
			cells++
			if figure.Missing != "" {
				missing++
			}
			if problem := differs(figure, got); problem != "" && faults < 20 {
				faults++
				formula, _ := b.file.GetCellFormula(b.sheet, fmt.Sprintf("%s%d", b.column[column.Measure], at+1))
				t.Errorf("%s row %d, %s: %s\n  readings %s\n  formula %s", b.sheet, at+1, column.Measure, problem, describe(graded), formula)
			}
		}
	}
	return cells, missing
}

func describe(graded *Graded) string {
	var text strings.Builder
	for id, reading := range graded.Readings() {
		fmt.Fprintf(&text, "%s=%s ", id, reading.Written)
	}
	return text.String()
}

func differs(figure Figure, got string) string {
	value, err := strconv.ParseFloat(got, 64)
	definedAsWords := err != nil
	switch {
	case figure.Missing != "" && figure.Value.Text == got:
		return ""
	case figure.Missing != "":
		return fmt.Sprintf("recalculated %q, ours is missing: %s", got, figure.Missing)
	case definedAsWords:
		if figure.Value.Text != got {
			return fmt.Sprintf("recalculated %q, ours %q", got, figure.Value.Text)
		}
		return ""
	}
	want := figure.Value.Number.InexactFloat64()
	if diff := value - want; diff > 1e-9*max(1, want) || -diff > 1e-9*max(1, want) {
		return fmt.Sprintf("recalculated %v, ours %v", value, want)
	}
	return ""
}

// bordered are values packed around the borders where a figure changes.
func bordered(random *rand.Rand, values string) string {
	list := strings.Fields(values)
	return list[random.IntN(len(list))]
}

func decimalBetween(random *rand.Rand, from, to int64, places int32) string {
	return decimal.New(from+random.Int64N(to-from+1), -places).String()
}

// borderBeef makes readings packed around the borders of yield grades, bands, marbling and maturity, in every form that
// a sheet may give them.
func borderBeef(random *rand.Rand) map[measure.ID]Reading {
	readings := map[measure.ID]Reading{}
	number := func(id measure.ID, text string) {
		readings[id] = Reading{Value: measure.NumberValue(Exact(text)), Written: text, Plain: true}
	}
	weight := bordered(random, "399.9 400 499.9 500 549.9 550 599.9 600 750 899.9 900 900.1 999.9 1000 1050 1050.1 1050.000001 812.3 787.5")
	switch random.IntN(6) {
	case 0: // two sides
		number(measure.LeftSideWeight, Exact(weight).Sub(Exact("300.1")).String())
		number(measure.RightSideWeight, "300.1")
	case 1:
		number(measure.ChilledCarcassWeight, weight)
	case 2: // kilograms
		readings[measure.HotCarcassWeight] = Reading{Value: measure.NumberValue(Exact(weight).Mul(Exact("2.2046226218")).Round(4)), Written: weight, Factor: "2.2046226218"}
	default:
		number(measure.HotCarcassWeight, weight)
	}
	number(measure.LiveWeight, bordered(random, "1250 1280 1333 0 1600 1411.7"))
	if random.IntN(4) > 0 {
		number(measure.InternalFat, bordered(random, "0 1 1.5 2 2.5 3 3.5 4"))
	}
	ribeye := bordered(random, "9.8 11.5 12.3 12.8 13.6 14.2 16 14.15")
	switch random.IntN(4) {
	case 0:
		number(measure.DotsOutlined, ribeye)
		number(measure.DotsMissing, "3")
		number(measure.DotsOutside, "9")
	case 1: // as text
		readings[measure.RibeyeArea] = Reading{Value: measure.NumberValue(Exact(ribeye)), Written: ribeye + " sq in"}
	default:
		number(measure.RibeyeArea, ribeye)
	}
	// Half of the carcasses get the fat that puts the yield grade on a border or next to it.
	fat := decimalBetween(random, 5, 150, 2)
	if random.IntN(2) == 0 {
		target := Exact(bordered(random, "2 2.5 3 3.5 4 5")).Add(Exact(bordered(random, "-0.000001 0 0.000001")))
		without := Exact("2.5").Add(Exact("0.2").Mul(numberOr(readings, measure.InternalFat, "2.5"))).
			Add(Exact("0.0038").Mul(Exact(weight))).Sub(Exact("0.32").Mul(Exact(ribeye)))
		fat = target.Sub(without).Div(Exact("2.5")).String()
	}
	switch random.IntN(4) {
	case 3: // of both sides
		number(measure.LeftFat, Exact(fat).Sub(Exact("0.05")).String())
		number(measure.RightFat, Exact(fat).Add(Exact("0.05")).String())
	case 0:
		number(measure.MeasuredFat, Exact(fat).Add(Exact("0.1")).String())
		number(measure.FatAdjustment, "-0.1")
	case 1:
		number(measure.MeasuredFat, fat)
	default:
		number(measure.AdjustedFat, fat)
	}
	borderBeefQuality(random, readings)
	if random.IntN(2) == 0 {
		live := readings[measure.LiveWeight]
		borderDates(random, readings, 900, 1500)
		readings[measure.LiveWeight] = live
	}
	return readings
}

func borderBeefQuality(random *rand.Rand, readings map[measure.ID]Reading) {
	scored := func(id measure.ID, score int64, words string) {
		reading := Reading{Value: measure.Value{Number: decimal.NewFromInt(score), Text: words}, Written: words}
		if random.IntN(2) == 0 {
			reading.Written, reading.Plain = decimal.NewFromInt(score).String(), true
		}
		readings[id] = reading
	}
	age := func(id measure.ID) int64 {
		score := 100 + random.Int64N(500)
		scored(id, score, FormatMaturity(decimal.NewFromInt(score)))
		return score
	}
	group, place := int64(1), int64(50)
	switch random.IntN(6) {
	case 0:
		age(measure.SkeletalMaturity)
		age(measure.LeanMaturity)
	case 1:
		age(measure.LeanMaturity)
	case 2:
	default:
		score := age(measure.Maturity)
		group, place = score/100, score%100
	}
	lines := beefQualityChart.lines
	line := lines[random.IntN(len(lines))]
	for line.group != group {
		line = lines[random.IntN(len(lines))]
	}
	marbling := line.at00.IntPart() + line.slide.IntPart()*place/100 + random.Int64N(3) - 1
	marbling = max(0, min(999, marbling))
	scored(measure.Marbling, marbling, FormatMarbling(decimal.NewFromInt(marbling)))
	if random.IntN(4) == 0 {
		sixths := lowerings[random.IntN(len(lowerings))].sixths
		readings[measure.DarkCutterLowering] = Reading{Value: measure.NumberValue(decimal.NewFromInt(sixths))}
	}
	for _, mark := range []measure.ID{
		measure.DarkCutter, measure.Hardbone, measure.DairyType, measure.Over30Months, measure.Under30Months, measure.Bullock,
	} {
		if random.IntN(8) == 0 {
			readings[mark] = Reading{Value: measure.Value{Number: One, Text: "yes"}, Written: "yes"}
		}
	}
	readings[measure.Sex] = Reading{Value: measure.Value{Text: bordered(random, "steer heifer steer heifer cow bull")}}
}

func numberOr(readings map[measure.ID]Reading, id measure.ID, otherwise string) decimal.Decimal {
	if reading, found := readings[id]; found {
		return reading.Value.Number
	}
	return Exact(otherwise)
}

// borderCases makes the readings of one carcass of each species and basis.
var borderCases = map[rules.Species]func(*rand.Rand) map[measure.ID]Reading{
	rules.Beef: borderBeef, rules.Swine: borderSwine, rules.Lamb: borderLamb, rules.Goat: borderGoat,
}

// recalculatedRows is how many rows of a basis are recalculated: 600, or a fixed sample of them in plain runs.
func recalculatedRows() int {
	if os.Getenv("RAILBOOK_LONG") != "" {
		return 600
	}
	return 120
}

// The formulas are recalculated by LibreOffice, which shares nothing with this package, on thousands of rows packed around
// the borders, and nothing may differ in value or type.
func TestFormulasRecalculatedByLibreOffice(t *testing.T) {
	if testing.Short() {
		t.Skip("takes a spreadsheet program and half a minute")
	}
	books := map[string]*rules.Rulebook{
		"default": defaultBook,
		"other settings": variant(func(b *rules.Rulebook) {
			b.Settings.ConditionsAdd = false
			b.Settings.DarkCutterTakes = rules.DarkCutterDiscount
			b.Settings.PriceByThirds = true
			b.Settings.DaysEnd, b.Settings.ShrinkOn, b.Settings.Shrink = rules.DaysEndWeighIn, rules.ShrinkBoth, Exact("4")
			b.Settings.LeanEquation = leanWithFat
			b.Settings.BasePrice = map[rules.Species]decimal.NullDecimal{
				rules.Beef: decimal.NewNullDecimal(Exact("287.35")), rules.Swine: decimal.NewNullDecimal(Exact("80.5")),
				rules.Lamb: decimal.NewNullDecimal(Exact("415")), rules.Goat: decimal.NewNullDecimal(Exact("520")),
			}
			b.Grid = append(b.Grid[:len(b.Grid):len(b.Grid)],
				rules.GridLine{Species: rules.Swine, Part: rules.QualityPart, Name: "U.S. No. 1", Adjust: Exact("3")},
				rules.GridLine{Species: rules.Swine, Part: rules.QualityPart, Name: "U.S. No. 2", Adjust: Exact("0")},
				rules.GridLine{Species: rules.Lamb, Part: rules.QualityPart, Name: "Prime", Adjust: Exact("12.5")},
				rules.GridLine{Species: rules.Lamb, Part: rules.QualityPart, Name: "Choice", Adjust: Exact("0")},
				rules.GridLine{Species: rules.Goat, Part: rules.WeightPart, Band: rules.Band{UpTo: decimal.NewNullDecimal(Exact("50")), UpToIsIn: true}, Adjust: Exact("-5.25")},
			)
			b.Matrix = []rules.MatrixLine{
				{
					GridLine: rules.GridLine{Species: rules.Swine, Part: rules.MatrixPart, Name: "thin", Band: rules.Band{UpTo: decimal.NewNullDecimal(Exact("0.8"))}, Adjust: Exact("2.125")},
					First:    measure.TenthRibFat, Second: measure.LoinMuscleArea,
				},
				{
					GridLine: rules.GridLine{Species: rules.Swine, Part: rules.MatrixPart, Name: "thick", Band: rules.Band{From: decimal.NewNullDecimal(Exact("0.8")), FromIsIn: true}, Adjust: Exact("-1.61"), Percent: decimal.NewNullDecimal(Exact("-2"))},
					First:    measure.TenthRibFat, Second: measure.LoinMuscleArea, SecondBand: rules.Band{From: decimal.NewNullDecimal(Exact("5")), FromIsIn: true},
				},
			}
			b.Premiums = []rules.Premium{{
				GridLine: rules.GridLine{Species: rules.Beef, Part: rules.PremiumPart, Name: "branded line", Adjust: Exact("8.6205"), Percent: decimal.NewNullDecimal(Exact("3"))},
				Tests: []rules.Requirement{
					{Species: rules.Beef, Measure: measure.MarblingScore, AtLeast: decimal.NewNullDecimal(Exact("500"))},
					{Species: rules.Beef, Measure: measure.YieldGrade, Below: decimal.NewNullDecimal(Exact("4"))},
					{Species: rules.Beef, Measure: measure.DarkCutter, MustNotBe: true},
				},
			}}
			b.Grid = append([]rules.GridLine{{Species: rules.Beef, Part: rules.QualityPart, Name: "High Choice", Adjust: Exact("6.5")}}, b.Grid...)
			b.Grid = b.Grid[:len(b.Grid):len(b.Grid)]
			for at := range b.Grid { // a gap and a closed top: stretches without a price
				if line := &b.Grid[at]; line.Part == rules.WeightPart && line.Band.From.Decimal.Equal(Exact("900")) {
					line.Band.UpTo = decimal.NewNullDecimal(Exact("950"))
				} else if line.Part == rules.YieldPart && line.Band.From.Decimal.Equal(Exact("5")) {
					line.Band.UpTo, line.Band.UpToIsIn = decimal.NewNullDecimal(Exact("5")), true
				}
			}
		}),
	}
	for name, rulebook := range books {
		t.Run(name, func(t *testing.T) {
			random := rand.New(rand.NewPCG(1, 2))
			file := excelize.NewFile()
			grid := LayOutGrid(rulebook, allSpecies())
			fillGridSheet(t, file, grid)
			var sheets []*recalculationBook
			for _, method := range Methods {
				book := newRecalculationBook(t, file, string(method.Species)+" "+string(method.Basis), method, grid)
				sheets = append(sheets, book)
				rows := recalculatedRows()
				if method == beefOnTheRail { // the one with the most borders
					rows *= 6
				}
				for range rows {
					carcass := (&Carcass{Species: method.Species, Basis: method.Basis}).With(borderCases[method.Species](random))
					book.add(t, Grade(carcass, rulebook))
				}
			}
			for _, equation := range rules.LeanEquations() { // each of the equations of a hog's lean, on a sheet of its own
				by := *rulebook
				by.Settings.LeanEquation = equation
				book := newRecalculationBook(t, file, strings.NewReplacer(" ", "", ",", "", "%", "").Replace(equation), swineOnTheRail, grid)
				sheets = append(sheets, book)
				for range recalculatedRows() / 3 {
					graded := Grade((&Carcass{Species: rules.Swine, Basis: rules.OnTheRail}).With(borderSwine(random)), &by)
					if used := graded.FigureOf(measure.LeanPercent).Equation; used != equation && equation != leanLiveScan {
						t.Fatalf("%s is computed by %q", equation, used)
					}
					book.add(t, graded)
				}
			}
			back := recalculated(t, file)
			for _, book := range sheets {
				cells, missing := book.compare(t, back)
				t.Logf("%s: %d cells compared, %d of them without a figure", book.sheet, cells, missing)
				if 3*missing > 2*cells {
					t.Errorf("%s: most cells are empty, which proves little", book.sheet)
				}
			}
		})
	}
}

// namedReferences names everything by its measure, so that two formulas are the same text when they differ but in the row.
type namedReferences struct{ readings map[measure.ID]Reading }

func (n namedReferences) Cell(id measure.ID) string {
	return sheetReferences{inputs: map[measure.ID]string{id: id.String()}, plain: n.readings}.Cell(id)
}

func (namedReferences) Column(id measure.ID) string { return "column " + id.String() }
func (namedReferences) Range(name string) string    { return name }

func TestTheSameShapeIsTheSameFormulas(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for _, method := range Methods {
		seen := map[string]string{}
		shared := 0
		for range 1000 {
			readings := borderCases[method.Species](random)
			graded := Grade((&Carcass{Species: method.Species, Basis: method.Basis}).With(readings), defaultBook)
			var formulas strings.Builder
			for _, column := range allColumns(method) {
				formula, ok := graded.Formula(column.Measure, namedReferences{readings})
				fmt.Fprintln(&formulas, column.Measure, ok, formula)
			}
			shape := string(graded.AppendShape(nil))
			before, found := seen[shape]
			if found && before != formulas.String() {
				t.Fatalf("two carcasses of the shape %q have different formulas:\n%s\n%s", shape, before, formulas.String())
			}
			if found {
				shared++
			}
			seen[shape] = formulas.String()
		}
		if shared == 0 {
			t.Errorf("%s: no two of 1000 carcasses have the same shape", method.Species)
		}
	}
}

// Whatever is emptied or overwritten later, a formula shows nothing or words, never an error and never a figure made of
// nothing.
func TestFormulasNeverShowAnError(t *testing.T) {
	if testing.Short() {
		t.Skip("takes a spreadsheet program")
	}
	random := rand.New(rand.NewPCG(5, 6))
	file := excelize.NewFile()
	grid := LayOutGrid(defaultBook, allSpecies())
	fillGridSheet(t, file, grid)
	var sheets []*recalculationBook
	for _, method := range Methods {
		book := newRecalculationBook(t, file, string(method.Species)+" "+string(method.Basis), method, grid)
		sheets = append(sheets, book)
		for row := 1; row <= recalculatedRows()/6; row++ {
			book.add(t, Grade((&Carcass{Species: method.Species, Basis: method.Basis}).With(borderCases[method.Species](random)), defaultBook))
			for _, column := range book.inputs {
				switch random.IntN(3) {
				case 0:
					_ = file.SetCellValue(book.sheet, fmt.Sprintf("%s%d", column, row), nil)
				case 1:
					_ = file.SetCellValue(book.sheet, fmt.Sprintf("%s%d", column, row), "see card")
				}
			}
		}
	}
	back := recalculated(t, file)
	for _, book := range sheets {
		rows, err := back.GetRows(book.sheet, excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		for at, row := range rows {
			for column := len(book.inputs); column < len(row); column++ {
				if strings.HasPrefix(row[column], "#") || strings.HasPrefix(row[column], "Err") {
					t.Fatalf("%s row %d, column %s shows %s", book.sheet, at+1, columnLetters(column+1), row[column])
				}
			}
		}
	}
}
