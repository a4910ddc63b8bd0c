package rules

import (
	"strconv"
	"strings"
	"testing"

	"railbook/rules/address"
)

// sheetEdit changes one thing in a copy of the default tables, as a board member would in a spreadsheet.
type sheetEdit func(tables []Table)

// cell writes a text into a cell of a sheet: cell("Value grid", "H5", "x").
func cell(sheet, name, text string) sheetEdit {
	return func(tables []Table) {
		for _, table := range tables {
			for _, row := range table.Rows {
				for column := range row {
					if table.Name == sheet && row[column].Place.Cell == name {
						row[column].Text = text
					}
				}
			}
		}
	}
}

// valueOf writes a text into the Value cell of the first line of a setting.
func valueOf(setting, text string) sheetEdit {
	return func(tables []Table) {
		for _, row := range tables[0].Rows {
			if row[0].Text == setting {
				row[2].Text = text
				return
			}
		}
	}
}

// add puts a line below the last of a sheet, its cells with a bar between each two.
func add(sheet, line string) sheetEdit {
	return func(tables []Table) {
		for number := range tables {
			if table := &tables[number]; table.Name == sheet {
				var row Row
				for column, text := range strings.Split(line, "|") {
					row = append(row, Cell{text, Place{Sheet: sheet, Cell: address.Cell(column+1, len(table.Rows)+1)}})
				}
				table.Rows = append(table.Rows, row)
			}
		}
	}
}

// clear blanks a row of a sheet.
func clearRow(sheet string, row int) sheetEdit {
	return func(tables []Table) {
		for _, table := range tables {
			for column := range table.Rows[0] {
				if table.Name == sheet {
					table.Rows[row-1][column].Text = ""
				}
			}
		}
	}
}

func edited(edits ...sheetEdit) []Table {
	tables := DefaultTables()
	for number := range tables {
		if tables[number].Name == HeadingsTable {
			tables[number] = fewHeadings()
		}
	}
	for _, edit := range edits {
		edit(tables)
	}
	return tables
}

// fewHeadings stands in for the long list of headings, to which lines are added now and then.
func fewHeadings() Table {
	return MakeTable(HeadingsTable, [][]string{
		{"Species", "Measure", "Accepted headings", "Unit", "Source"},
		{"", "hot carcass weight", "hot wt; HCW", "", "common practice"},
		{"beef", "measured fat", "fat; BF", "", "common practice"},
	})
}

// placed puts the number of the first line below a default sheet into a place that says {next}.
func placed(at string) string {
	for _, table := range edited() {
		if strings.Contains(at, `"`+table.Name+`"`) {
			return strings.ReplaceAll(at, "{next}", strconv.Itoa(len(table.Rows)+1))
		}
	}
	return at
}

// faultCases have exactly one fault each. The default rulebook's lines are addressed where they stand in tables/*.csv.
var faultCases = []struct {
	name    string
	edits   []sheetEdit
	at      string
	message string
	warning bool
}{
	{
		"tie line with a bound",
		[]sheetEdit{cell("Ranking", "E7", "3")},
		`sheet "Ranking", cell E7`,
		`"3" under "Bound" does nothing on this line. Clear the cell, or write it where it counts.`, false,
	},
	{
		"tie line with a measure",
		[]sheetEdit{cell("Ranking", "C7", "yield grade")},
		`sheet "Ranking", cell C7`,
		`"yield grade" under "Measure" does nothing on this line. Clear the cell, or write it where it counts.`, false,
	},
	{
		"bound of a grade in a ranking",
		[]sheetEdit{cell("Ranking", "D3", "at least first"), cell("Ranking", "E3", "21")},
		`sheet "Ranking", cell E3`,
		`Quality grade is a grade, which no number divides. Compare the grade itself, or put those below a grade after the others on the Eligibility sheet.`, false,
	},
	{
		"decimals of a grade in a ranking",
		[]sheetEdit{cell("Ranking", "F3", "1")},
		`sheet "Ranking", cell F3`,
		`Quality grade is a grade and has no decimals to be rounded to. Clear "Decimals compared".`, false,
	},
	{
		"end that counts and is not there",
		[]sheetEdit{cell("Value grid", "E6", "yes")},
		`sheet "Value grid", cell E6`,
		`"yes" under "From counts" does nothing on this line. Clear the cell, or write it where it counts.`, false,
	},
	{
		"shrink that no weight takes",
		[]sheetEdit{valueOf("shrink", "4")},
		`sheet "Settings", cell C28`,
		`Shrink is 4 percent, and the setting "shrink on" says that no weight is shrunk. Write 0 here, or final or both there.`, false,
	},
	{
		"limit on points",
		[]sheetEdit{add("Limits", "|points||0||||")},
		placed(`sheet "Limits", cell B{next}`),
		`Points are not held to limits; what they are counted from is. Take the line out, or name a measure.`, false,
	},
	{
		"limit on what the class's species has not",
		[]sheetEdit{
			add("Classes", "Market goats|goat|||goat carcass||"), add("Eligibility", "Market goats||yield grade||4||||||not placed||||"),
		},
		placed(`sheet "Eligibility", cell C{next}`),
		`The class Market goats is of goat, which has no yield grade. Correct the class or the measure of this line.`, false,
	},
	{
		"alternative to nothing",
		[]sheetEdit{add("Eligibility", "|beef|yield grade||||4||||not placed||||x|")},
		placed(`sheet "Eligibility", cell O{next}`),
		`No other line has the letter "x" under "Or" beside this one, so there is no alternative and the line must be met. Give the alternatives the same letter, or clear it.`, true,
	},
	{
		"unit that a measure can't be in",
		[]sheetEdit{cell("Headings", "D3", "lb")},
		`sheet "Headings", cell D3`,
		`Measured fat can't be in lb. Clear the unit, or correct the measure.`, false,
	},
	{
		"index that nothing uses",
		[]sheetEdit{add("Points", "index|yield grade|-10|2.5||||||")},
		placed(`sheet "Points", cell A{next}`),
		`No ranking, limit or group uses the index index. A ranking compares it as "points index".`, true,
	},
	{
		"premium without a base price",
		[]sheetEdit{add("Premiums", "swine|deep loins|loin depth|3|||||||||4||")},
		placed(`sheet "Premiums", cell M{next}`),
		`There is no base price of swine, so this premium pays nothing. Set the base price on the Settings sheet.`, true,
	},
	{
		"limit on a line that only lists",
		[]sheetEdit{add("Measures", "ribeye area|every species|sq in|2|read|Area.||4|||||||")},
		placed(`sheet "Measures", cell H{next}`),
		`This line only lists what the program knows, so "Hold below" does nothing here. Limits stand on the Limits sheet, headings on the Headings sheet; a measure of the board's own has a line with "own" under "Read or computed".`, false,
	},
	{
		"text where a number should be",
		[]sheetEdit{cell("Value grid", "H2", "seventeen")},
		`sheet "Value grid", cell H2`,
		`"seventeen" under "$/cwt" is not a number. Write a number such as 12.5, without words.`, false,
	},
	{
		"a number too long to be one",
		[]sheetEdit{cell("Value grid", "H2", "1e99999999")},
		`sheet "Value grid", cell H2`,
		`"1e99999999" under "$/cwt" is not a number. Write a number such as 12.5, without words.`, false,
	},
	{
		"grade without a price",
		[]sheetEdit{cell("Value grid", "H4", "")},
		`sheet "Value grid", cell H4`,
		`This line of the grid has no price. Write what it adds or, with a minus sign, takes off; 0 for neither.`, false,
	},
	{
		"grade left out",
		[]sheetEdit{clearRow("Value grid", 4)},
		`sheet "Value grid", cell H5`,
		`The grid has no price for Select of beef. Add a quality line for it; 0 adds and takes off nothing.`, false,
	},
	{
		"third left out",
		[]sheetEdit{
			cell("Settings", "C17", "yes"),
			cell("Value grid", "C4", "High Select"),
		},
		`sheet "Value grid", cell H5`,
		`The grid has no price for Low Select of beef. Add a quality line for it, or price the whole grade.`, false,
	},
	{
		"third where whole grades are priced",
		[]sheetEdit{add("Value grid", "beef|quality|High Choice|||||2.50|the board")},
		`sheet "Value grid", cell C{next}`,
		`"High Choice" is a third of a grade, and the setting "price by thirds" is no. Name the whole grade, or change the setting.`, false,
	},
	{
		"no such grade",
		[]sheetEdit{add("Value grid", "beef|quality|Good|||||-30|the board")},
		`sheet "Value grid", cell C{next}`,
		`"Good" is no grade of beef. It should be Prime, Choice, Select, Standard, Commercial, Utility, Cutter or Canner.`, false,
	},
	{
		"grade priced twice",
		[]sheetEdit{add("Value grid", "beef|quality|Choice|||||1|the board")},
		`sheet "Value grid", cell C{next}`,
		`Choice is priced twice; the first time in cell H3. Keep one of the two lines.`, false,
	},
	{
		"species without quality grades",
		[]sheetEdit{add("Value grid", "goat|quality|Choice|||||1|the board")},
		`sheet "Value grid", cell B{next}`,
		`Goat has no quality grades, so it can have no quality line.`, false,
	},
	{
		"no such mark",
		[]sheetEdit{add("Value grid", "beef|condition|muddy|||||-5|the board")},
		`sheet "Value grid", cell C{next}`,
		`"muddy" is no mark that a carcass of beef can have. It should be dark cutter, hardbone, dairy type, over 30 months, under 30 months, bullock, condemned, retained, trimmed, blood splash, bull or cow.`, false,
	},
	{
		"no such part",
		[]sheetEdit{cell("Value grid", "B2", "grade")},
		`sheet "Value grid", cell B2`,
		`"grade" under "Part" should be quality, yield, weight or condition.`, false,
	},
	{
		"no such species",
		[]sheetEdit{cell("Value grid", "A2", "bison")},
		`sheet "Value grid", cell A2`,
		`"bison" is no species the program knows. It should be beef, swine, lamb or goat.`, false,
	},
	{
		"gap between bands",
		[]sheetEdit{cell("Value grid", "F7", "2.4")},
		`sheet "Value grid", cell D8`,
		`There is a gap above this band: a yield grade between 2.4 and 2.5 is in no band.`, false,
	},
	{
		"overlapping bands",
		[]sheetEdit{cell("Value grid", "F7", "2.6")},
		`sheet "Value grid", cell D8`,
		`This band overlaps the one above it: a yield grade from 2.5 to 2.6 is in both.`, false,
	},
	{
		"border in both bands",
		[]sheetEdit{cell("Value grid", "G7", "yes")},
		`sheet "Value grid", cell E8`,
		`A yield grade of exactly 2.5 is in this band and in the one above it. Say no under "From counts" here or under "Up to counts" there.`, false,
	},
	{
		"border in no band",
		[]sheetEdit{cell("Value grid", "E16", "no")},
		`sheet "Value grid", cell E16`,
		`A hot carcass weight of exactly 600 is in no band. Say yes under "From counts" here or under "Up to counts" in the line above.`, false,
	},
	{
		"bands out of order",
		[]sheetEdit{
			cell("Value grid", "D13", "550"), cell("Value grid", "F13", "600"),
			cell("Value grid", "D14", "500"), cell("Value grid", "F14", "550"),
		},
		`sheet "Value grid", cell D14`,
		`The weight bands of beef are out of order: this one begins below the one above it. Put them in order of size.`, false,
	},
	{
		"open band in the middle",
		[]sheetEdit{cell("Value grid", "F15", "")},
		`sheet "Value grid", cell D16`,
		`This band overlaps the one above it, which has no upper end. Fill in the upper end, or take one of the two out.`, false,
	},
	{
		"two bands without a lower end",
		[]sheetEdit{cell("Value grid", "D7", "")},
		`sheet "Value grid", cell D7`,
		`This band overlaps the one above it, because it has no lower end. Fill it in.`, false,
	},
	{
		"grid line for every species",
		[]sheetEdit{cell("Value grid", "A2", "all")},
		`sheet "Value grid", cell A2`,
		`A line of the grid is for one species. Name it: beef, swine, lamb or goat.`, false,
	},
	{
		"band the wrong way round",
		[]sheetEdit{cell("Value grid", "F7", "1.5")},
		`sheet "Value grid", cell F7`,
		`This band ends at 1.5 and begins at 2, so nothing is in it.`, false,
	},
	{
		"band without ends",
		[]sheetEdit{add("Value grid", "swine|yield||||||-5|the board"), cell("Settings", "C5", "90")},
		`sheet "Value grid", cell D{next}`,
		`This band has no end on either side. Fill in From or Up to.`, false,
	},
	{
		"band on a quality line",
		[]sheetEdit{cell("Value grid", "D2", "2.5")},
		`sheet "Value grid", cell D2`,
		`Only yield and weight lines have a band. Clear "From" on this line.`, false,
	},
	{
		"name on a band",
		[]sheetEdit{cell("Value grid", "C6", "Choice")},
		`sheet "Value grid", cell C6`,
		`A yield or weight line is known by its band. Clear the name "Choice".`, false,
	},
	{
		"no yes and no no",
		[]sheetEdit{cell("Value grid", "G7", "maybe")},
		`sheet "Value grid", cell G7`,
		`"maybe" under "Up to counts" should be yes or no.`, false,
	},
	{
		"missing base price",
		[]sheetEdit{cell("Settings", "C4", "")},
		`sheet "Settings", cell C4`,
		`The base price of beef is missing, and the value grid has premiums and discounts for it. Write the base price in $/cwt of carcass.`, false,
	},
	{
		"base price in words",
		[]sheetEdit{cell("Settings", "C4", "market")},
		`sheet "Settings", cell C4`,
		`The setting "base price" is "market". It should be a number from 0 to 10000.`, false,
	},
	{
		"unknown setting",
		[]sheetEdit{add("Settings", "base prise|beef|300|the board")},
		`sheet "Settings", cell A{next}`,
		`There is no setting "base prise". Is "base price" meant?`, false,
	},
	{
		"setting twice",
		[]sheetEdit{add("Settings", "year||2026|the board")},
		`sheet "Settings", cell A{next}`,
		`The setting "year" is there twice; the first time in cell A3. Keep one of the two.`, false,
	},
	{
		"setting for the wrong species",
		[]sheetEdit{add("Settings", "customary KPH|lamb|2.5|the board")},
		`sheet "Settings", cell B{next}`,
		`The setting "customary KPH" is not for lamb. It is for beef.`, false,
	},
	{
		"setting that is none of its choices",
		[]sheetEdit{cell("Settings", "C13", "warm")},
		`sheet "Settings", cell C13`,
		`The setting "carcass weights are" is "warm". It should be hot or chilled.`, false,
	},
	{
		"setting out of its range",
		[]sheetEdit{cell("Settings", "C14", "0.98")},
		`sheet "Settings", cell C14`,
		`The setting "chilled to hot" is "0.98". It should be a number from 1 to 1.2.`, false,
	},
	{
		"bad date",
		[]sheetEdit{valueOf("base price date", "2025-02-30")},
		`sheet "Settings", cell C8`,
		`"2025-02-30" is not a date. Write it as year-month-day, such as 2025-08-15.`, false,
	},
	{
		"bad year",
		[]sheetEdit{cell("Settings", "C3", "next")},
		`sheet "Settings", cell C3`,
		`The setting "year" is "next". It should be a year such as 2025.`, false,
	},
	{
		"missing setting",
		[]sheetEdit{clearRow("Settings", 14)},
		`sheet "Settings"`,
		`Some settings have no line, so the defaults are used: chilled to hot (1.02).`, true,
	},
	{
		"limits crossed",
		[]sheetEdit{cell("Limits", "D3", "600")},
		`sheet "Limits", cell E3`,
		`The limits are crossed: "Look below" is 500 and "Hold below" is 600, which is higher.`, false,
	},
	{
		"unknown measure",
		[]sheetEdit{cell("Limits", "B3", "hot carcass wieght")},
		`sheet "Limits", cell B3`,
		`"hot carcass wieght" is no measure the program knows. Is "hot carcass weight" meant? It is: Weight of the dressed carcass on the rail before chilling.`, false,
	},
	{
		"measure of another species",
		[]sheetEdit{cell("Limits", "B3", "loin depth")},
		`sheet "Limits", cell B3`,
		`Beef has no loin depth. Correct the species or the measure of this line.`, false,
	},
	{
		"limit on words",
		[]sheetEdit{cell("Limits", "B3", "remarks")},
		`sheet "Limits", cell B3`,
		`Remarks is words and no figure, which this sheet cannot use.`, false,
	},
	{
		"limits twice",
		[]sheetEdit{add("Limits", "beef|live weight||100|||||the board")},
		`sheet "Limits", cell B{next}`,
		`The limits of live weight for beef are there twice; the first time in cell B2. Keep one of the two lines.`, false,
	},
	{
		"limit without a bound",
		[]sheetEdit{add("Limits", "beef|cutability|||||||the board")},
		`sheet "Limits", cell D{next}`,
		`This line has no bound, so it limits nothing.`, true,
	},
	{
		"unknown ranking",
		[]sheetEdit{add("Classes", "Steers|beef|carcass||beef carcas||the board")},
		`sheet "Classes", cell E{next}`,
		`There is no ranking "beef carcas" on the Ranking sheet. Is "beef carcass" meant?`, false,
	},
	{
		"ranking of another species",
		[]sheetEdit{add("Classes", "Hogs|swine|carcass||beef carcass||the board")},
		`sheet "Classes", cell E{next}`,
		`The ranking beef carcass compares whole yield grade, quality grade, yield grade, marbling score and ribeye per hundredweight, which swine carcasses do not have.`, false,
	},
	{
		"class named twice",
		[]sheetEdit{
			add("Classes", "Steers|beef|carcass||beef carcass||the board"),
			add("Classes", "Market steers|beef|carcass|steers|beef carcass||the board"),
		},
		`sheet "Classes", cell A11`,
		`The class name "steers" is there twice for the same kind of carcass; the first time in cell A10. Change one of the two.`, false,
	},
	{
		"no line for every other class",
		[]sheetEdit{cell("Classes", "A8", "Market goats"), cell("Classes", "A9", "Scanned goats")},
		`sheet "Classes", cell A9`,
		`There is no line "every other class" for goat, so a class that is named nowhere is not placed.`, true,
	},
	{
		"places paid in words",
		[]sheetEdit{cell("Classes", "F2", "3.5")},
		`sheet "Classes", cell F2`,
		`3.5 under "Places paid" should be a whole number from 0 to 1000.`, false,
	},
	{
		"tie-break list without an end",
		[]sheetEdit{clearRow("Ranking", 7)},
		`sheet "Ranking", cell B6`,
		`The ranking beef carcass ends without saying what carcasses get that are still tied. Add a line with the step "tie" and, under "Which first", share the place or judge decides.`, false,
	},
	{
		"tie line in the middle",
		[]sheetEdit{cell("Ranking", "B6", "tie"), cell("Ranking", "D6", "judge decides")},
		`sheet "Ranking", cell B7`,
		`This line of the ranking beef carcass comes after its tie line and would never be reached. Put the tie line last.`, false,
	},
	{
		"tie line that says nothing",
		[]sheetEdit{cell("Ranking", "D7", "")},
		`sheet "Ranking", cell D7`,
		`On a tie line "Which first" is blank. It should be share the place or judge decides.`, false,
	},
	{
		"step left out",
		[]sheetEdit{clearRow("Ranking", 6), cell("Ranking", "B5", "5")},
		`sheet "Ranking", cell B5`,
		`The step of this line of the ranking beef carcass is "5" and should be 4: steps are numbered from 1 without a gap, and the last line's is "tie".`, false,
	},
	{
		"unknown key",
		[]sheetEdit{cell("Ranking", "C3", "quality")},
		`sheet "Ranking", cell C3`,
		`"quality" is no measure the program knows. Is "quality grade" meant? It is: How well the lean is expected to eat.`, false,
	},
	{
		"unknown direction",
		[]sheetEdit{cell("Ranking", "D3", "best")},
		`sheet "Ranking", cell D3`,
		`"Which first" is "best". It should be highest, lowest, at most first or at least first.`, false,
	},
	{
		"bound missing",
		[]sheetEdit{cell("Ranking", "E2", "")},
		`sheet "Ranking", cell E2`,
		`"at most first" needs a bound. Write the figure that divides those that pass from those that do not.`, false,
	},
	{
		"bound too many",
		[]sheetEdit{cell("Ranking", "E3", "5")},
		`sheet "Ranking", cell E3`,
		`"highest" has no bound. Clear it, or choose "at most first" or "at least first".`, false,
	},
	{
		"too many decimals",
		[]sheetEdit{cell("Ranking", "F4", "9")},
		`sheet "Ranking", cell F4`,
		`9 under "Decimals compared" should be a whole number from 0 to 6.`, false,
	},
	{
		"step that never decides",
		[]sheetEdit{cell("Ranking", "C6", "marbling score")},
		`sheet "Ranking", cell C6`,
		`This step compares what step 4 has compared, so it never decides.`, true,
	},
	{
		"unknown index",
		[]sheetEdit{cell("Ranking", "C3", "points carcass index")},
		`sheet "Ranking", cell C3`,
		`There is no index "carcass index" on the Points sheet.`, false,
	},
	{
		"ranking that nothing uses",
		[]sheetEdit{add("Ranking", "spare|1|value|highest|||the board"), add("Ranking", "spare|tie||share the place|||the board")},
		`sheet "Ranking", cell A{next}`,
		`No class and no award is placed by the ranking spare.`, true,
	},
	{
		"condition that tests nothing",
		[]sheetEdit{add("Eligibility", "|beef|yield grade||||||||not placed||the board")},
		`sheet "Eligibility", cell C{next}`,
		`This line tests nothing. Fill in a bound, a lowest grade or, for a mark, yes under "Must not be".`, false,
	},
	{
		"condition that nothing passes",
		[]sheetEdit{add("Eligibility", "|beef|adjusted fat|0.6|0.2||||||not placed||the board")},
		`sheet "Eligibility", cell E{next}`,
		`No figure passes this line: the lower bound is 0.6 and the upper bound 0.2.`, false,
	},
	{
		"grade bounded by a number",
		[]sheetEdit{add("Eligibility", "|beef|quality grade|10||||||||not placed||the board"), cell("Eligibility", "K4", "not placed"), cell("Eligibility", "L4", ""), cell("Eligibility", "M4", "the board"), cell("Eligibility", "N4", "")},
		`sheet "Eligibility", cell C{next}`,
		`Quality grade is a grade, which no number bounds. Write the lowest grade that passes under "Lowest grade".`, false,
	},
	{
		"lowest grade that is none",
		[]sheetEdit{add("Eligibility", "|beef|quality grade||||||Fancy||not placed||the board")},
		`sheet "Eligibility", cell I{next}`,
		`"Fancy" is no grade of beef. It should be Prime, Choice, Select, Standard, Commercial, Utility, Cutter or Canner, or a third of one such as Low Choice.`, false,
	},
	{
		"lowest grade of a number",
		[]sheetEdit{add("Eligibility", "|beef|yield grade||||||Low Choice||not placed||the board")},
		`sheet "Eligibility", cell I{next}`,
		`Yield grade is no grade. Write a bound in place of "Low Choice", or name a graded measure such as quality grade.`, false,
	},
	{
		"figure that must not be",
		[]sheetEdit{add("Eligibility", "|beef|yield grade|||||||yes|not placed||the board")},
		`sheet "Eligibility", cell J{next}`,
		`Yield grade is no mark, so it cannot be forbidden. Write a bound, or name a mark such as dark cutter.`, false,
	},
	{
		"failing left open",
		[]sheetEdit{add("Eligibility", "|beef|yield grade||||4|||||| the board")},
		`sheet "Eligibility", cell K{next}`,
		`The column "Failing" is blank on this line. Fill it in, or clear the whole line.`, false,
	},
	{
		"award left open",
		[]sheetEdit{add("Eligibility", "|beef|yield grade||||4||||loses the award||the board")},
		`sheet "Eligibility", cell L{next}`,
		`Failing "loses the award", but the line does not say which award. Name one of the Awards sheet.`, false,
	},
	{
		"award that is none",
		[]sheetEdit{add("Eligibility", "|beef|yield grade||||4||||loses the award|Champion|the board")},
		`sheet "Eligibility", cell L{next}`,
		`There is no award "Champion" on the Awards sheet.`, false,
	},
	{
		"slope without a line",
		[]sheetEdit{add("Eligibility", "|lamb|ribeye area|||||0.02|||not placed||the board")},
		`sheet "Eligibility", cell H{next}`,
		`There is no bound on this line that could change. Fill one in, or clear "Changes per lb".`, false,
	},
	{
		"condition twice",
		[]sheetEdit{add("Eligibility", "||condemned|||||||yes|not placed||the board")},
		`sheet "Eligibility", cell C{next}`,
		`This condition is there twice; the first time in cell C2. Keep one of the two lines.`, false,
	},
	{
		"unknown class",
		[]sheetEdit{add("Eligibility", "Steers|beef|yield grade||||4||||not placed||the board")},
		`sheet "Eligibility", cell A{next}`,
		`There is no class "Steers" for beef on the Classes sheet.`, false,
	},
	{
		"groups that leave a carcass unassigned",
		[]sheetEdit{add("Groups", "|beef|blue|1|yield grade||3.5|||the board"), add("Groups", "|beef|red|2|yield grade||4.5|||the board")},
		`sheet "Groups", cell C3`,
		`A carcass that does not meet the group red is in no group. Add a line for a last group without a measure, which takes the rest.`, false,
	},
	{
		"group that takes all before the last",
		[]sheetEdit{add("Groups", "|beef|blue|1||||||the board"), add("Groups", "|beef|white|2||||||the board")},
		`sheet "Groups", cell C{next}`,
		`The group blue takes every carcass that is left, so the groups after it are never reached. Give it the last order.`, false,
	},
	{
		"two groups of one order",
		[]sheetEdit{add("Groups", "|beef|blue|1|yield grade||3.5|||the board"), add("Groups", "|beef|red|1|yield grade||4.5|||the board"), add("Groups", "|beef|white|2||||||the board")},
		`sheet "Groups", cell C3`,
		`The groups blue and red have the same order 1. Give each group its own.`, false,
	},
	{
		"bound without a measure",
		[]sheetEdit{add("Groups", "|beef|blue|1|||3.5|||the board")},
		`sheet "Groups", cell E{next}`,
		`This line has a bound and no measure. Name the measure, or clear the bounds for the group that takes the rest.`, false,
	},
	{
		"award of no class",
		[]sheetEdit{add("Awards", "Champion|Heifers|beef|beef carcass|1|the board")},
		`sheet "Awards", cell B{next}`,
		`There is no class "Heifers" for beef on the Classes sheet.`, false,
	},
	{
		"award for nobody",
		[]sheetEdit{add("Awards", "Champion||beef|beef carcass|0|the board")},
		`sheet "Awards", cell E{next}`,
		`0 under "How many" should be a whole number from 1 to 1000.`, false,
	},
	{
		"constant with a target",
		[]sheetEdit{add("Points", "index||100|3|the board")},
		`sheet "Points", cell D{next}`,
		`A constant has no target. Name the measure, or clear the target.`, false,
	},
	{
		"weight missing",
		[]sheetEdit{add("Points", "index|yield grade|||the board")},
		`sheet "Points", cell C{next}`,
		`The column "Weight" is blank on this line. Fill it in, or clear the whole line.`, false,
	},
	{
		"points of a grade without its scale",
		[]sheetEdit{add("Points", "index|quality grade|10||the board")},
		`sheet "Points", cell B{next}`,
		`Quality grade is a grade and has no number of its own to take points of. Write a line for each grade, with the grade under "Grade" and its points under "Weight".`, false,
	},
	{
		"step for a grade that is none",
		[]sheetEdit{add("Points", "index|quality grade|10||the board||||Fancy")},
		`sheet "Points", cell I{next}`,
		`"Fancy" is no grade. It should be Prime, Choice, Select, Standard, Commercial, Utility, Cutter, Canner, Prime, Choice, Good, Utility or Cull, or a third of one such as Low Choice.`, false,
	},
	{
		"step with a target",
		[]sheetEdit{add("Points", "index|yield grade|10|2.5|the board||2|3|")},
		`sheet "Points", cell D{next}`,
		`A step adds its weight once and has no target. Clear the target, or the step.`, false,
	},
	{
		"side without a target",
		[]sheetEdit{add("Points", "index|yield grade|10||the board|below|||")},
		`sheet "Points", cell F{next}`,
		`There is no target on this line that a figure could be below. Fill one in, or clear "Side".`, false,
	},
	{
		"step with nothing in it",
		[]sheetEdit{add("Points", "index|yield grade|10||the board||3|3|")},
		`sheet "Points", cell H{next}`,
		`This step ends at 3 and begins at 3, so nothing is in it.`, false,
	},
	{
		"step of a constant",
		[]sheetEdit{add("Points", "index||10||the board||3||")},
		`sheet "Points", cell G{next}`,
		`A constant has no "From". Name the measure, or clear the cell.`, false,
	},
	{
		"yield line for a goat",
		[]sheetEdit{add("Value grid", "goat|yield||1||2||-5|the board")},
		`sheet "Value grid", cell B{next}`,
		`Goat has no yield grade and no percent of lean, so it can have no yield line. Take the line out.`, false,
	},
	{
		"upper end that rounding steps over, for a group",
		[]sheetEdit{add("Groups", "|beef|blue|1|yield grade||2.99||||"), add("Groups", "|beef|red|2||||||")},
		`sheet "Groups", cell G2`,
		`A figure between 2.99 and 3 does not pass, though it is below 3. Write 3 under "Below" if every figure below it should pass.`, true,
	},
	{
		"measure that is like none",
		[]sheetEdit{cell("Limits", "B3", "zzzzzzzz")},
		`sheet "Limits", cell B3`,
		`"zzzzzzzz" is no measure the program knows. The sheet Measures lists those it knows.`, false,
	},
	{
		"bound of a date that is no date",
		[]sheetEdit{add("Eligibility", "|beef|birth date|May|||||||not placed||the board|||")},
		`sheet "Eligibility", cell D{next}`,
		`"May" is not a date. Write it as year-month-day, such as 2025-08-15.`, false,
	},
	{
		"date that grows with the carcass",
		[]sheetEdit{add("Eligibility", "|beef|birth date|2025-01-15||||2|||not placed||the board|||")},
		`sheet "Eligibility", cell H{next}`,
		`The bounds of a date are days, which stay as they are. Clear "Changes per lb".`, false,
	},
	{
		"own measure of a taken name",
		[]sheetEdit{add("Measures", "Ribeye Area||||||||||100||||the board")},
		`sheet "Measures", cell A2`,
		`The name "ribeye area" is taken. It is: Area of the ribeye, the loin muscle, between the 12th and 13th rib. Give the board's own measure another name.`, false,
	},
	{
		"own measure twice",
		[]sheetEdit{add("Measures", "record book|||||Scored.|||||100||||the board"), add("Measures", "Record book||||||||||100||||the board")},
		`sheet "Measures", cell A3`,
		`The name "record book" is taken. It is: Scored. Give the board's own measure another name.`, false,
	},
	{
		"own measure called as an index",
		[]sheetEdit{add("Measures", "points all||||||||||100||||the board")},
		`sheet "Measures", cell A2`,
		`A name that begins with "points" is that of an index of the Points sheet. Give the measure another name.`, false,
	},
	{
		"own measure without limits",
		[]sheetEdit{add("Measures", "record book||||||||||||||the board")},
		`sheet "Measures", cell H2`,
		`Nothing limits record book, so that a slip of the pen could win a class. Fill in at least one of "Hold below", "Look below", "Look above" or "Hold above".`, false,
	},
	{
		"own measure of limits that cross",
		[]sheetEdit{add("Measures", "record book|||||||50|40||||||the board")},
		`sheet "Measures", cell I2`,
		`The limits are crossed: "Look below" is 40 and "Hold below" is 50, which is higher.`, false,
	},
	{
		"own heading that stands for another measure",
		[]sheetEdit{add("Measures", "record book||||||HCW|0|||||||the board"), add("Headings", "beef|hot carcass weight|HCW||the board")},
		`sheet "Measures", cell G2`,
		`The heading "HCW" stands for hot carcass weight already, in cell C2 of the sheet Headings. It can stand for one of them.`, false,
	},
	{
		"own measure of no species",
		[]sheetEdit{add("Measures", "record book|beef, llama||||||0|||||||the board")},
		`sheet "Measures", cell B2`,
		`"llama" is no species the program knows. It should be beef, swine, lamb or goat.`, false,
	},
	{
		"adjusted measure with headings",
		[]sheetEdit{add("Measures", "fat at 250 lb||||||fat 250|||||tenth-rib fat|250|.003|the board")},
		`sheet "Measures", cell G2`,
		`This measure is computed from tenth-rib fat and not read. Clear the headings, or "Adjusts".`, false,
	},
	{
		"adjusted measure without a weight",
		[]sheetEdit{add("Measures", "fat at 250 lb|||||||||||tenth-rib fat||.003|the board")},
		`sheet "Measures", cell M2`,
		`The column "To weight" is blank on this line. Fill it in, or clear the whole line.`, false,
	},
	{
		"weight of nothing that is adjusted",
		[]sheetEdit{add("Measures", "record book|||||||0|||||250||the board")},
		`sheet "Measures", cell M2`,
		`This line adjusts nothing. Name the measure under "Adjusts", or clear "To weight".`, false,
	},
	{
		"adjusted grade",
		[]sheetEdit{add("Measures", "grade at 250 lb|||||||||||pork carcass grade|250|1|the board")},
		`sheet "Measures", cell L2`,
		`Pork carcass grade is a grade, which no pound of weight changes. Name a measure that is a number.`, false,
	},
	{
		"dollars and a percent of the base price",
		[]sheetEdit{add("Premiums", "beef|branded|yield grade||||4||||||2|3|the board")},
		`sheet "Premiums", cell N2`,
		`This line has dollars and a percent of the base price. Clear one of the two.`, false,
	},
	{
		"percent of no base price",
		[]sheetEdit{add("Premiums", "goat|stout|selection||1|||||||||3|the board")},
		`sheet "Premiums", cell N2`,
		`There is no base price of goat that this could be a percent of. Set it on the Settings sheet, or write dollars.`, false,
	},
	{
		"premium priced on its second line",
		[]sheetEdit{add("Premiums", "beef|branded|yield grade||||4||||||2||the board"), add("Premiums", "beef|Branded|ribeye area|10|||||||||3||the board")},
		`sheet "Premiums", cell M3`,
		`What the premium branded adds stands on its first line. Clear "$/cwt" here.`, false,
	},
	{
		"premium for what follows from the price",
		[]sheetEdit{add("Premiums", "beef|branded|value|2000|||||||||2||the board")},
		`sheet "Premiums", cell C2`,
		`Value is worked out after the price, so no price can depend on it. Name what is measured, or a grade.`, false,
	},
	{
		"premium without a price",
		[]sheetEdit{add("Premiums", "beef|branded|yield grade||||4||||||||the board")},
		`sheet "Premiums", cell M2`,
		`This line of the grid has no price. Write what it adds or, with a minus sign, takes off; 0 for neither.`, false,
	},
	{
		"upper end of a premium that rounding steps over",
		[]sheetEdit{add("Premiums", "beef|branded|yield grade||3.99||||||||2||the board")},
		`sheet "Premiums", cell E2`,
		`A figure between 3.99 and 4 does not pass, though it is below 4. Write 4 under "Below" if every figure below it should pass.`, true,
	},
	{
		"cells of a matrix that overlap",
		[]sheetEdit{add("Price matrix", "beef|measured fat|.2|.4|ribeye area|10|12|2||the board"), add("Price matrix", "beef|measured fat|.39|.5|ribeye area|11|13|3||the board")},
		`sheet "Price matrix", cell C3`,
		`This cell of the matrix overlaps that of the line with its price in cell H2. Let one band begin where the other ends.`, false,
	},
	{
		"second matrix of a species",
		[]sheetEdit{add("Price matrix", "beef|measured fat|.2|.4|ribeye area|10|12|2||the board"), add("Price matrix", "beef|marbling|.4|.5|ribeye area|11|13|3||the board")},
		`sheet "Price matrix", cell B3`,
		`A species has one price matrix, of two measures. The first line has measured fat here, in cell H2.`, false,
	},
	{
		"matrix of a grade",
		[]sheetEdit{add("Price matrix", "beef|quality grade|.2|.4|ribeye area|10|12|2||the board")},
		`sheet "Price matrix", cell B2`,
		`Quality grade is a grade, which has no bands of numbers. Name a measure that is a number.`, false,
	},
	{
		"number among a few words",
		[]sheetEdit{add("Eligibility", "|beef|live weight||||||||not placed||the board|||steer; heifer")},
		`sheet "Eligibility", cell P{next}`,
		`Live weight is a number, which is not one of a few words. Write a bound, or name a measure in words such as sex.`, false,
	},
	{
		"no where words are listed",
		[]sheetEdit{add("Eligibility", "|beef|sex|||||||no|not placed||the board|||steer; heifer")},
		`sheet "Eligibility", cell J{next}`,
		`"steer; heifer" is what it must be already. Write yes here where it must be none of these, or clear the cell.`, false,
	},
	{
		"distance from the mean without a bound",
		[]sheetEdit{add("Eligibility", "|beef|yield grade||||||||not placed||the board|yes|")},
		`sheet "Eligibility", cell N{next}`,
		`There is no bound on this line that could be a distance from the mean. Fill one in, or clear "From class mean".`, false,
	},
	{
		"heading for two measures",
		[]sheetEdit{add("Headings", "beef|fat adjustment|Bf.||the board")},
		`sheet "Headings", cell C{next}`,
		`The heading "Bf." stands for fat adjustment here and for measured fat in cell C3. It can stand for one of them.`, false,
	},
	{
		"heading twice",
		[]sheetEdit{add("Headings", "|hot carcass weight|Hot wt.||the board")},
		`sheet "Headings", cell C{next}`,
		`The heading "Hot wt." is there twice; the first time in cell C2.`, true,
	},
	{
		"heading for a computed figure",
		[]sheetEdit{add("Headings", "|dressing percent|carcass return||the board")},
		`sheet "Headings", cell B{next}`,
		`Dressing percent is computed by the program and not read from a sheet, so no heading can stand for it. A sheet's own figure is sheet dressing percent.`, false,
	},
	{
		"unknown unit",
		[]sheetEdit{add("Headings", "|live weight|gross|stone|the board")},
		`sheet "Headings", cell D{next}`,
		`"stone" under "Unit" should be lb, kg, in, tenths, hundredths, mm, cm, sq in, sq cm, % or dots.`, false,
	},
	{
		"target without an end",
		[]sheetEdit{cell("Targets", "D3", ""), cell("Targets", "C3", "")},
		`sheet "Targets", cell C3`,
		`This target has neither a low nor a high end. Fill in one of them, or clear the line.`, false,
	},
	{
		"target the wrong way round",
		[]sheetEdit{cell("Targets", "D3", ".25")},
		`sheet "Targets", cell D3`,
		`No figure passes this line: the lower bound is 0.3 and the upper bound 0.25.`, false,
	},
	{
		"target that grows with nothing",
		[]sheetEdit{cell("Targets", "C3", "1.4 + some per lb")},
		`sheet "Targets", cell C3`,
		`"1.4 + some per lb" under "From" is no end of a target. Write a number such as 12.5, or one that grows with the carcass, such as 1.4 + 0.02 per lb.`, false,
	},
	{
		"heading of a column lost",
		[]sheetEdit{cell("Targets", "E1", "")},
		`sheet "Targets", cell A1`,
		`The sheet Targets lacks the column "In words". Put the heading back.`, false,
	},
	{
		"source column lost",
		[]sheetEdit{cell("Targets", "F1", "")},
		`sheet "Targets", cell A1`,
		`The sheet Targets has no column "Source", so nobody can see where its lines come from.`, true,
	},
	{
		"column of the board's own",
		[]sheetEdit{cell("Targets", "F1", "Sauce")},
		`sheet "Targets", cell F1`,
		`The sheet Targets has no column "Sauce", so it was passed over. Its columns are Species, Measure, From, Up to, In words and Source.`, true,
	},
	{
		"sheet that is none of ours",
		[]sheetEdit{func(tables []Table) { tables[10].Name = "Goals" }},
		`sheet "Goals"`,
		`The sheet "Goals" is none of a rulebook's sheets and was passed over.`, true,
	},
}

func TestFaults(t *testing.T) {
	for _, c := range faultCases {
		t.Run(c.name, func(t *testing.T) {
			book, faults := Load(edited(c.edits...))
			if len(faults) == 0 {
				t.Fatal("no fault")
			}
			if (book == nil) == c.warning {
				t.Errorf("the rulebook is there: %v, and should be: %v", book != nil, c.warning)
			}
			first, at := faults[0], placed(c.at)
			if first.Message != c.message || first.Place.String() != at || first.Warning != c.warning {
				t.Errorf("\ngot  %v: %s (warning: %v)\nwant %v: %s (warning: %v)", first.Place, first.Message, first.Warning, at, c.message, c.warning)
			}
			for _, more := range faults[1:] {
				if c.name == "sheet that is none of ours" || c.name == "column of the board's own" {
					continue
				}
				t.Errorf("and also %v: %s", more.Place, more.Message)
			}
		})
	}
}

func TestSheetThatIsNotThereComesFromTheDefaults(t *testing.T) {
	tables := edited()
	book, faults := Load(tables[:1])
	if book == nil {
		t.Fatalf("%v", faults)
	}
	if len(faults) != len(Layouts())-1-len(addedTables) || faults[0].Message != `There is no sheet "Value grid", so the one that ships with the program is used.` {
		t.Errorf("%d faults, the first %v", len(faults), faults[0])
	}
	if book.SHA256 != Default().SHA256 {
		t.Error("the sheets taken from the defaults are not the defaults")
	}
}
