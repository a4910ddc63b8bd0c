package workbook

import (
	"fmt"
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// Lines gives the text that the seal is the SHA-256 of, as the workbook keeps it; empty where nothing of it is known.
func (v *Verification) Lines() string {
	if v.lines == nil {
		return ""
	}
	return record.SealText(v.lines())
}

// SaveLines writes the lines that the seal is taken over, unless the very same are there already.
func (v *Verification) SaveLines(path string, options Options) error {
	output := options.output(path, ".txt", xlsx.Whole([]byte(v.Lines())), v.Path)
	_, err := options.door().Write(output)
	return err
}

// linesNow are the lines of a signed workbook as it is now, placings aside.
func (j *job) linesNow() []record.SealedLine {
	now := j.results.State()
	now.Run, now.Changes = j.previous.Run, j.previous.Changes
	return append(now.Inputs(), now.Signature()...)
}

// lineDifference is a sealed line that is not as it was; a line that is gone or new has an empty side.
type lineDifference struct{ was, now record.SealedLine }

// lineDifferences compares what was sealed with what the workbook says now, placings aside: those follow from the rest.
func lineDifferences(sealed, now []record.SealedLine) []lineDifference {
	return slices.DeleteFunc(allLineDifferences(sealed, now), func(line lineDifference) bool { return line.was.Kind == record.PlacingLine })
}

// outcomeDifferences gives the places and figures that were sealed and are not what follows from all else that was. A record whose seal
// fits it may have been made anew.
func (j *job) outcomeDifferences() (differences []Difference) {
	sealed := outcomesOf(j.previous.Sealed())
	if j.previous.Damage != nil {
		return nil
	}
	now := slices.Collect(outcomes(j.results))
	if slices.Equal(sealed, now) {
		return nil
	}
	for _, line := range allLineDifferences(sealed, now) {
		of := line.was
		if of.Kind == "" {
			of = line.now
		}
		differences = append(differences, Difference{At: rules.Place{Sheet: record.StateSheet}, Message: fmt.Sprintf(
			"%s of tag %s, class %s is sealed as %q, and what was read gives %q. The record and its seal were made anew since it was signed, or another version of the program signed it; "+
				"compare the seal with the printed one.", of.Item, orBlank(of.Tag), of.Class, line.was.Value, line.now.Value)})
	}
	return differences
}

func allLineDifferences(sealed, now []record.SealedLine) (differences []lineDifference) {
	remaining := make(map[record.SealedLine][]string, len(now))
	name := func(line record.SealedLine) record.SealedLine {
		line.Class, line.Tag = phrase.SingleSpaced(line.Class), phrase.SingleSpaced(line.Tag)
		line.Value = ""
		return line
	}
	for _, line := range now {
		remaining[name(line)] = append(remaining[name(line)], line.Value)
	}
	var gone []record.SealedLine
	for _, line := range sealed {
		values := remaining[name(line)]
		if at := slices.IndexFunc(values, func(value string) bool { return phrase.SingleSpaced(value) == phrase.SingleSpaced(line.Value) }); at >= 0 {
			remaining[name(line)] = slices.Delete(values, at, at+1)
		} else {
			gone = append(gone, line)
		}
	}
	for _, line := range gone {
		difference := lineDifference{was: line}
		if values := remaining[name(line)]; len(values) > 0 {
			difference.now = line
			difference.now.Value = values[0]
			remaining[name(line)] = values[1:]
		}
		differences = append(differences, difference)
	}
	for _, line := range now {
		values := remaining[name(line)]
		if at := slices.Index(values, line.Value); at >= 0 {
			remaining[name(line)] = slices.Delete(values, at, at+1)
			differences = append(differences, lineDifference{now: line})
		}
	}
	return differences
}

// describe puts a changed line in a sentence, with the cell where it stands now or stood.
func (j *job) describe(line lineDifference) Difference {
	sealed := line.now
	if sealed.Kind == "" {
		sealed = line.was
	}
	difference := Difference{At: j.placeOf(sealed)}
	about := fmt.Sprintf("%s of tag %s, class %s", sealed.Item, orBlank(sealed.Tag), sealed.Class)
	switch sealed.Kind {
	case record.DecisionLine:
		about = "the judge's decision on " + about
	case record.RulingLine:
		about = "the judge's ruling on the " + about
	case record.ReasonsLine:
		about = fmt.Sprintf("the judge's words on tag %s, class %s", sealed.Tag, sealed.Class)
	case record.RulebookKind:
		about = fmt.Sprintf("the rulebook, table %s, row %s, %s", sealed.Class, sealed.Tag, sealed.Item)
	case record.SignatureLine:
		about = "the signature's " + sealed.Item
	case record.ChangeLine:
		about = fmt.Sprintf("%s of change %s in the change record", sealed.Item, sealed.Tag)
	case record.LastYearKind:
		about = fmt.Sprintf("%s in line %s of last year's figures", sealed.Item, sealed.Tag)
	}
	switch {
	case line.was.Kind == "":
		difference.Message = fmt.Sprintf("%s was not there when signed and is now %q.", about, saidValue(sealed))
	case line.now.Kind == "":
		difference.Message = fmt.Sprintf("%s was %q when signed and is gone.", about, saidValue(sealed))
	default:
		difference.Message = fmt.Sprintf("%s was %q when signed and is now %q.", about, saidValue(line.was), saidValue(line.now))
	}
	return difference
}

// saidValue is the value of a line as a person reads it: of a decision or a ruling only the parts that say something.
func saidValue(line record.SealedLine) string {
	if line.Kind != record.DecisionLine && line.Kind != record.RulingLine {
		return line.Value
	}
	var said []string
	for part := range strings.SplitSeq(line.Value, "|") {
		if part = strings.TrimSpace(part); part != "" && part != "was" {
			said = append(said, part)
		}
	}
	return strings.Join(said, ", ")
}

// placeOf finds the cell a sealed line speaks of: where it stands now, else where it stood.
func (j *job) placeOf(line record.SealedLine) rules.Place {
	switch line.Kind {
	case record.ReadingLine:
		for _, records := range [][]record.Reading{intake.Records(j.results.Read), j.readBefore()} {
			for _, kept := range records {
				if kept.Class == line.Class && kept.Tag == line.Tag && kept.Measure.String() == line.Item {
					return rules.Place{File: kept.File, Sheet: kept.Sheet, Cell: kept.Cell}
				}
			}
		}
	case record.DecisionLine:
		for _, decision := range j.results.Decisions {
			if decision.Class == line.Class && decision.Tag == line.Tag && decision.Measure.String()+": "+decision.Code == line.Item {
				return decision.At
			}
		}
		return rules.Place{Sheet: record.JudgeReviewSheet}
	case record.RulebookKind:
		for _, table := range j.rules.Tables {
			if cell := tableCell(table, line); cell != nil {
				return cell.Place
			}
		}
		return rules.Place{Sheet: line.Class}
	case record.RulingLine:
		return rules.Place{Sheet: record.JudgeReviewSheet}
	case record.ReasonsLine:
		return rules.Place{Sheet: record.ReasonsSheet}
	case record.SignatureLine:
		return rules.Place{Sheet: record.RunRecordSheet}
	case record.ChangeLine:
		return rules.Place{Sheet: record.ChangeSheet}
	case record.LastYearKind:
		return rules.Place{Sheet: record.LastYearSheet}
	}
	return rules.Place{}
}

// tableCell finds the cell of a rulebook table that a sealed line speaks of; nil where the table has none.
func tableCell(table rules.Table, line record.SealedLine) *rules.Cell {
	var number int
	rows := record.FilledRows(table)
	if _, err := fmt.Sscan(line.Tag, &number); err != nil || table.Name != line.Class || number < 1 || number > len(rows) {
		return nil
	}
	for column := range rows[number-1] {
		if table.Rows[0][column].Text == line.Item {
			return &rows[number-1][column]
		}
	}
	return nil
}

// reordered reports whether the same carcasses stand in another order.
func reordered(before, now []record.Reading) bool {
	order := func(records []record.Reading) (tags []string) {
		for _, kept := range records {
			if kept.Measure == measure.Tag {
				tags = append(tags, kept.Class+"\t"+kept.Tag)
			}
		}
		return tags
	}
	first, second := order(before), order(now)
	if slices.Equal(first, second) {
		return false
	}
	slices.Sort(first)
	slices.Sort(second)
	return slices.Equal(first, second)
}
