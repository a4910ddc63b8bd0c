package intake

import (
	"regexp"
	"strings"
	"time"

	"railbook/rules/measure"
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
		pattern *regexp.Regexp
		field   func(*About) *string
	}{
		{regexp.MustCompile(`(?i)^(?:contest|fair|show|name of (?:the )?(?:fair|show|contest))$`), func(a *About) *string { return &a.Fair }},
		{regexp.MustCompile(`(?i)^(?:place|location|held at|where)$`), func(a *About) *string { return &a.Place }},
		{regexp.MustCompile(`(?i)^(?:plant|packer|locker|processor|processed (?:at|by)|killed at|harvested at)$`), func(a *About) *string { return &a.Plant }},
		{regexp.MustCompile(`(?i)^(?:judge|judged by|official judge)$`), func(a *About) *string { return &a.Judge }},
		{regexp.MustCompile(`(?i)^(?:date|contest date|fair date|show date|kill(?:ed)?(?: date| day| on)?|contest scan day)$`), func(a *About) *string { return &a.Date }},
	}
	aboutParts = regexp.MustCompile(`\s+[-–—|·•/]+\s+|\s*[:;,]\s+|\s{3,}|\t`)
	fairName   = regexp.MustCompile(`(?i)\b(?:fair|expo|exposition|stock show|livestock show|jackpot)\b`)
	plantName  = regexp.MustCompile(`(?i)\b(?:locker|meats?|packing|packers|processing|processors|abattoir|slaughter ?house|butchers?)\b`)
	aSheet     = regexp.MustCompile(`(?i)\b(?:sheet|entries|results|list|roster|weights?|scores?)\b`)
	killedOn   = regexp.MustCompile(`(?i)^(?:kill|killed|harvest|harvested|slaughtered)\b\D{0,16}(\d[\d/.-]{4,9})$`)
	judgedBy   = regexp.MustCompile(`(?i)^judged by\s+(\S.*)$`)
)

// aboutOf gathers what the lines above the tables say of the fair. The first that says a thing is taken.
func (r *reader) aboutOf(tables []*tableReader) About {
	var about About
	for _, tr := range tables {
		lines := tr.table.page.lines
		for i := range lines {
			one := &lines[i]
			if one.number >= tr.table.top {
				break
			}
			if tr.table.top-one.number <= mostAboutLines && !tr.table.page.turned {
				about.readLine(tr, one)
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
	for _, one := range tr.animals {
		killed, ok := one.Reading(measure.KillDate)
		if !ok || date != "" && killed.Value.Text != date {
			return ""
		}
		date = killed.Value.Text
	}
	return date
}

// readLine reads the cells of a line above the headings: questions with their answers, and names.
func (a *About) readLine(tr *tableReader, one *line) {
	answered := 0 // the column of the last answer
	for _, cell := range one.cells {
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
			if area.FirstRow == one.number && area.FirstColumn == column {
				column = area.LastColumn
			}
		}
		answered = column + 1
		answer := one.at(answered)
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
	for _, one := range aboutLabels {
		if one.pattern.MatchString(strings.TrimSpace(label)) {
			return one.field
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
		judge, killed := judgedBy.FindStringSubmatch(part), killedOn.FindStringSubmatch(part)
		switch {
		case killed != nil:
			a.take(func(a *About) *string { return &a.Date }, asDay(killed[1]))
		case part == "" || len(part) > 80:
		case judge != nil:
			a.take(func(a *About) *string { return &a.Judge }, judge[1])
		case fairName.MatchString(part) && !aSheet.MatchString(part):
			a.take(func(a *About) *string { return &a.Fair }, part)
		case plantName.MatchString(part) && !aSheet.MatchString(part):
			a.take(func(a *About) *string { return &a.Plant }, part)
		}
	}
}

// asDay writes a day as 2025-08-19 where it is written in the order of month, day and year, and else leaves it as it is.
func asDay(text string) string {
	if day, err := time.Parse("1/2/2006", text); err == nil {
		return day.Format(time.DateOnly)
	}
	return text
}
