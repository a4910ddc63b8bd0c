package intake

import (
	"slices"
	"strings"
	"sync"
	"time"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/xlsx"
)

// About is what the sheets say of the fair as a whole, in their titles or in answers above their headings. What none says is
// empty.
type About struct {
	Fair  string
	Place string
	Date  string // of the kill, or of the scan, as 2025-08-19 where it could be read so
	Judge string
	Plant string
}

// mostAboutLines is how many lines above a table's headings are looked at.
const mostAboutLines = 12

var (
	// aboutLabels are the questions whose answers stand in the next cell, or behind the colon.
	aboutLabels = []struct {
		pattern *phrase.Pattern
		field   func(*About) *string
	}{
		{phrase.NewPattern(`(?i)^(?:contest|fair|show|name of (?:the )?(?:fair|show|contest))$`), func(a *About) *string { return &a.Fair }},
		{phrase.NewPattern(`(?i)^(?:place|location|held at|where)$`), func(a *About) *string { return &a.Place }},
		{phrase.NewPattern(`(?i)^(?:plant|packer|locker|processor|processed (?:at|by)|killed at|harvested at)$`), func(a *About) *string { return &a.Plant }},
		{phrase.NewPattern(`(?i)^(?:judge|judged by|official judge)$`), func(a *About) *string { return &a.Judge }},
		{phrase.NewPattern(`(?i)^(?:date|contest date|fair date|show date|kill(?:ed)?(?: date| day| on)?|contest scan day)$`), func(a *About) *string { return &a.Date }},
	}
	aboutParts = phrase.NewPattern(`\s+[-–—|·•/]+\s+|\s*[:;,]\s+|\s{3,}|\t`)
	fairName   = phrase.NewPattern(`(?i)\b(?:fair|expo|exposition|stock show|livestock show|jackpot)\b`)
	plantName  = phrase.NewPattern(`(?i)\b(?:locker|meats?|packing|packers|processing|processors|abattoir|slaughter ?house|butchers?)\b`)
	aSheet     = phrase.NewPattern(`(?i)\b(?:sheet|entries|results|list|roster|weights?|scores?)\b`)
	killedOn   = phrase.NewPattern(`(?i)^(?:kill|killed|harvest|harvested|slaughtered|processed)\b\D{0,16}(\d[\d/.-]{4,9}|\pL{3,9}\.? \d{1,2},? \d{4})(?: +(?:at|by) +(\S.*))?$`)
	killedAt   = phrase.NewPattern(`(?i)^(?:kill|killed|harvest|harvested|slaughtered|processed) +(?:at|by) +(\S.*?)(?:,? +(?:on +)?(\d[\d/.-]{4,9}|\pL{3,9}\.? \d{1,2},? \d{4}))?$`)
	contest    = phrase.NewPattern(`(?i)^(.*\S) +(?:contest|classic)(?: +\d{4})?$`)
	judgedBy   = phrase.NewPattern(`(?i)^judged by\s+(\S.*)$`)
)

// aboutOf gathers what the lines above the tables say of the fair. The first that says a thing is taken.
func (r *reader) aboutOf(tables []*tableReader) About {
	var about About
	for _, tr := range tables {
		lines := tr.table.page.lines
		for i := range lines {
			line := &lines[i]
			if line.number >= tr.table.top {
				break
			}
			if tr.table.top-line.number <= mostAboutLines && !tr.table.page.turned {
				about.readLine(tr, line)
			}
		}
		if about.Date == "" {
			about.Date = killDateOf(tr)
		}
	}
	return about
}

// killDateOf is the kill date of a table's animals where all have the same.
func killDateOf(tr *tableReader) (date string) {
	for _, animal := range tr.animals {
		killed, ok := animal.Reading(measure.KillDate)
		if !ok || date != "" && killed.Value.Text != date {
			return ""
		}
		date = killed.Value.Text
	}
	return date
}

// readLine reads the cells of a line above the headings: questions with their answers, and names.
func (a *About) readLine(tr *tableReader, row *line) {
	answered := 0 // the column of the last answer
	for _, cell := range row.cells {
		text := clean(cell.Raw)
		if cell.Kind != xlsx.Text || nothing(cell) || formulaText(cell) || cell.Column <= answered {
			continue
		}
		label, behind, _ := strings.Cut(text, ":")
		field := aboutField(label)
		switch {
		case field == nil || !strings.Contains(text, ":"):
			a.readName(text)
			continue
		case strings.TrimSpace(behind) != "":
			a.take(field, strings.TrimSpace(behind))
			continue
		}
		column := cell.Column
		for _, area := range tr.table.page.areas {
			if area.FirstRow == row.number && area.FirstColumn == column {
				column = area.LastColumn
			}
		}
		answered = column + 1
		answer := row.at(answered)
		if nothing(answer) || formulaText(answer) {
			continue
		}
		written := clean(answer.Raw)
		if answer.Kind == xlsx.Number {
			written = writtenCell(answer, tr.table.page.date1904)
		}
		a.take(field, written)
	}
}

// aboutField gives what a label asks for; nil for any other label.
func aboutField(label string) func(*About) *string {
	for _, field := range aboutLabels {
		if field.pattern.MatchString(strings.TrimSpace(label)) {
			return field.field
		}
	}
	return nil
}

func (a *About) take(field func(*About) *string, text string) {
	if at := field(a); *at == "" {
		*at = text
	}
}

// readName finds the fair, the plant and the judge in a title: "Tamberly County Junior Fair - beef carcass contest".
func (a *About) readName(text string) {
	for _, part := range aboutParts.Split(text, -1) {
		part = strings.Trim(part, " .:-")
		judge, killed, at := judgedBy.FindStringSubmatch(part), killedOn.FindStringSubmatch(part), killedAt.FindStringSubmatch(part)
		if killed == nil && at != nil {
			killed = []string{at[0], at[2], at[1]}
		}
		switch {
		case killed != nil:
			a.takeWritten(func(a *About) *string { return &a.Date }, asDay(killed[1]))
			a.takeWritten(func(a *About) *string { return &a.Plant }, killed[2])
		case part == "" || len(part) > 80:
		case judge != nil:
			a.take(func(a *About) *string { return &a.Judge }, judge[1])
		case (fairName.MatchString(part) || namedContest(part)) && !aSheet.MatchString(part):
			a.take(func(a *About) *string { return &a.Fair }, part)
		case plantName.MatchString(part) && !aSheet.MatchString(part):
			a.take(func(a *About) *string { return &a.Plant }, part)
		}
	}
}

// takeWritten takes what is written, if anything is.
func (a *About) takeWritten(field func(*About) *string, text string) {
	if text != "" {
		a.take(field, text)
	}
}

// ofAnyContest are words that the title of any contest may hold, beside those for its animals, so that they name none.
var ofAnyContest = []string{
	"pork", "meat", "market",
	"carcass", "carcasses", "live", "livestock", "youth", "junior", "senior", "open", "4", "h", "ffa", "county", "annual", "ultrasound", "scan", "rail", "our",
}

// namedContest reports whether a title is that of a contest with a name of its own: "Prairie Notch Junior Stock Contest".
func namedContest(text string) bool {
	found := contest.FindStringSubmatch(text)
	return found != nil && slices.ContainsFunc(fold(found[1]), func(word string) bool {
		return hasLetter(word) && !slices.Contains(ofAnyContest, word) && wordsForAnimals().lookUp(word) == ""
	})
}

// wordsForAnimals are the words for animals that titles hold, whatever a board adds to them.
var wordsForAnimals = sync.OnceValue(func() speciesWords { return newSpeciesWords(rules.Shipped()) })

// asDay writes a day as 2025-08-19 where it is written in the order of month, day and year, and else leaves it as it is.
func asDay(text string) string {
	for _, layout := range []string{"1/2/2006", "Jan 2 2006", "January 2 2006"} {
		if day, err := time.Parse(layout, strings.NewReplacer(".", "", ",", "").Replace(text)); err == nil {
			return day.Format(time.DateOnly)
		}
	}
	return text
}
