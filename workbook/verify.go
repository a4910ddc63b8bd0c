package workbook

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/intake"
	"railbook/workbook/record"
)

// Difference is one thing in a signed workbook that is no longer as it was signed.
type Difference struct {
	At           rules.Place
	Message      string
	recalculated bool // the formula is as it was, and its result is another one
	unsummed     bool // the record has one sum for both
	general      bool // of the record: said only where nothing more is known of what was changed
}

// Verification is what verifying found.
type Verification struct {
	Path        string
	Run         record.Run
	Version     string // of this program
	Differences []Difference
	Reordered   bool                       // the carcasses stand in another order than when signed, which changes nothing
	lines       func() []record.SealedLine // what the seal is taken over, as the workbook keeps it
	OtherWays   int                        // how many facts another version of the program would have read or said otherwise
	Partly      string                     // why the computed cells could not be compared one by one; empty where they were
}

// Verify recomputes a signed workbook from its measurements, checks the seal, and names everything that no longer agrees.
func Verify(path string, options Options) (*Verification, error) {
	work, mended, err := examineSigned(path, options)
	if work == nil || work.previous == nil {
		return nil, err
	}
	found := &Verification{Path: path, Run: work.previous.Run, Version: options.Version}
	if err != nil {
		found, err = found.beyondReading(err)
		if err == nil {
			found.Differences = withoutEchoes(append(found.Differences, work.recordDifferences()...), nil, false)
		}
		return found, err
	}
	found.lines = work.previous.Sealed
	if work.unchanged {
		return found, nil
	}
	if work.besideMatters {
		for _, edited := range work.putBackBeside {
			found.Differences = append(found.Differences, edited.difference())
		}
	}
	found.Differences = append(found.Differences, work.sealDifferences()...)
	if work.previous.Damage != nil && len(work.previous.Sealed()) == 0 {
		found.Partly = "what was signed is not known any more"
		return found, nil
	}
	lines := append(mended, lineDifferences(work.previous.Sealed(), work.linesNow())...)
	if found.Run.Edition != record.Edition && len(found.Differences) == 0 {
		return found.otherEdition(work, lines), nil
	}
	carcassesGone := false
	now := intake.Records(work.results.Read)
	retyped := work.retypedSince()
	byCell := work.previous.Damage == nil && len(retyped) > 0
	var parted []partedEntry
	if byCell {
		parted, retyped = work.partedEntries(retyped)
		for _, entry := range parted {
			found.Differences = append(found.Differences, entry.difference())
		}
		found.Differences = append(found.Differences, retypedDifferences(retyped)...)
		carcassesGone = slices.ContainsFunc(retyped, func(change record.Change) bool {
			return change.Was == record.NotThere && change.Is == record.Added || change.Was == record.There && change.Is == record.Removed
		})
	}
	for _, line := range lines {
		kind := line.was.Kind + line.now.Kind
		if byCell && strings.HasPrefix(kind, record.ReadingLine) {
			continue // said cell by cell
		}
		found.Differences = append(found.Differences, work.describe(line))
		carcassesGone = carcassesGone || line.now.Kind == record.ReadingLine && line.now.Item == measure.Tag.String() && line.was.Value == "" ||
			line.was.Kind == record.ReadingLine && line.was.Item == measure.Tag.String() && line.now.Value == ""
	}
	found.Reordered = reordered(work.readBefore(), now)
	if carcassesGone {
		found.Partly = "carcasses were added or removed"
		return found, nil
	}
	cells, err := work.cellDifferences(lines, parted, found.Reordered)
	if err != nil && len(found.Differences) > 0 {
		found.Partly = err.Error()
		return found, nil
	}
	cells, followed := work.editedCells(cells)
	found.Differences = withoutEchoes(found.Differences, cells, byCell)
	if followed != nil && len(found.Differences) == 0 {
		found.Differences = append(found.Differences, *followed)
	}
	if len(found.Differences) == 0 {
		found.Differences = work.outcomeDifferences()
	}
	return found, err
}

// retypedDifferences say of each cell that was retyped since signing what stood there.
func retypedDifferences(changes []record.Change) (differences []Difference) {
	for _, change := range changes {
		difference := Difference{At: change.At}
		about := fmt.Sprintf("%s of tag %s, class %s", change.Measure, orBlank(change.Tag), change.Class)
		switch {
		case change.Was == record.NotThere && change.Is == record.Added:
			difference.Message = fmt.Sprintf("the carcass of tag %s, class %s was not there when signed.", orBlank(change.Tag), change.Class)
		case change.Was == record.There && change.Is == record.Removed:
			difference.Message = fmt.Sprintf("the carcass of tag %s, class %s was there when signed and is gone.", orBlank(change.Tag), change.Class)
		case change.Was == "":
			difference.Message = fmt.Sprintf("%s was not there when signed and is now %q.", about, change.Is)
		case change.Is == "":
			difference.Message = fmt.Sprintf("%s was %q when signed and is gone.", about, change.Was)
		default:
			difference.Message = fmt.Sprintf("%s was %q when signed and is now %q.", about, change.Was, change.Is)
		}
		if !slices.ContainsFunc(differences, func(known Difference) bool { return known.At == difference.At && known.At.Cell != "" }) {
			differences = append(differences, difference)
		}
	}
	return differences
}

// withoutEchoes joins what was found by facts and by cells, and says one edit once: a decision, a place given or words that
// differ are said by the cell that was edited, and what a spreadsheet program has calculated anew from a retyped cell or from
// the value grid is said by that cell. That the record was changed is said by its row only where nothing more is known of that.
func withoutEchoes(facts, cells []Difference, retyped bool) []Difference {
	retyped = retyped || slices.ContainsFunc(cells, func(difference Difference) bool {
		return !difference.recalculated && strings.HasPrefix(difference.At.Sheet, record.ValueGridSheet)
	})
	cells = slices.DeleteFunc(cells, func(difference Difference) bool { return difference.recalculated && retyped })
	echoed := []string{record.JudgeReviewSheet, record.ReasonsSheet}
	cells = slices.DeleteFunc(cells, func(difference Difference) bool {
		return slices.ContainsFunc(facts, func(fact Difference) bool { return fact.At == difference.At && fact.At.Cell != "" })
	})
	known := facts
	facts = slices.DeleteFunc(slices.Clone(facts), func(fact Difference) bool {
		switch {
		case fact.general && fact.At.Cell == "":
			return len(known)+len(cells) > 1
		case fact.general:
			return slices.ContainsFunc(append(slices.Clone(cells), known...), func(difference Difference) bool {
				return !difference.general && difference.At.Sheet == fact.At.Sheet && difference.At.Cell != "" && rowNumber(difference.At) == rowNumber(fact.At)
			})
		}
		return slices.Contains(echoed, fact.At.Sheet) && slices.ContainsFunc(cells, func(cell Difference) bool { return cell.At.Sheet == fact.At.Sheet })
	})
	return append(facts, cells...)
}

// otherEdition says of a workbook that another version of the program has written only what was changed since: cells that were read,
// what a judge decided or wrote, the rulebook, the signature. What reads or prints otherwise with this version is counted.
func (v *Verification) otherEdition(work *job, lines []lineDifference) *Verification {
	v.Differences = retypedDifferences(work.editedSince())
	for _, line := range lines {
		said := line.was.Kind != "" && line.was.Kind == line.now.Kind && line.was.Kind != record.ReadingLine
		if said || line.was.Kind+line.now.Kind == record.RulebookKind {
			v.Differences = append(v.Differences, work.describe(line))
		} else {
			v.OtherWays++
		}
	}
	v.Partly = "another version of the program wrote them, and would write them otherwise"
	v.Reordered = reordered(work.readBefore(), intake.Records(work.results.Read))
	return v
}

// editedSince gives the cells that say something else than when another version of the program read them. What that did not read
// is not compared.
func (j *job) editedSince() []record.Change {
	return slices.DeleteFunc(j.retypedSince(), func(change record.Change) bool { return change.Was == change.Is || change.Was == "" })
}

// beyondReading names what keeps a signed workbook from being read as it was when signed, which is a change since; any
// other error stays one.
func (v *Verification) beyondReading(err error) (*Verification, error) {
	var damaged *intake.DamagedSheet
	var faulty *rulebookError
	switch {
	case errors.As(err, &damaged):
		v.Differences = []Difference{{At: rules.Place{Sheet: damaged.Sheet, Cell: damaged.Cell}, Message: damaged.Words + "."}}
	case errors.As(err, &faulty):
		for _, fault := range faulty.faults {
			if !fault.Warning {
				v.Differences = append(v.Differences, Difference{At: fault.Place, Message: "the rulebook can't be used as it stands now: " + fault.Message})
			}
		}
	default:
		return nil, err
	}
	v.Partly = "what they follow from can't be read"
	return v, nil
}

// sealDifferences compares the seal with the sealed record it was made of. Where the seal fits everything but the record,
// the record alone was changed, and what it said when signed is known.
func (j *job) sealDifferences() (differences []Difference) {
	at := rules.Place{Sheet: record.StateSheet}
	if j.previous.Damage != nil {
		at.Sheet = j.previous.Damage.Sheet
	}
	switch {
	case j.previous.Damage != nil && len(j.previous.Sealed()) == 0:
		return []Difference{{At: rules.Place{Sheet: j.previous.Damage.Sheet}, Message: "this sheet is gone or cannot be read, and with it what was signed."}}
	case j.previous.Run.Seal == "":
		return []Difference{{At: at, Message: "the seal is gone."}}
	case record.Seal(j.previous.Sealed()) == j.previous.Run.Seal && j.previous.Damage == nil:
		return nil
	}
	now := j.results.State()
	now.Run, now.Changes, now.Outcomes = j.previous.Run, j.previous.Changes, outcomes(j.results)
	if lines := now.Sealed(); record.Seal(lines) == j.previous.Run.Seal {
		j.previous.Sealed = func() []record.SealedLine { return lines }
		return append(j.recordDifferences(), Difference{At: at, Message: "this sheet was changed after signing; everything else still fits the seal.", general: true})
	}
	return append(j.recordDifferences(), Difference{
		At: at, Message: "the seal does not fit what was sealed: one of the two was changed after signing. Compare the seal with the printed one.",
	})
}

// recordDifferences names the rows of the record that are not as they were written.
func (j *job) recordDifferences() (differences []Difference) {
	if j.previous.Damage == nil {
		return nil
	}
	for _, row := range j.previous.Damage.Rows {
		at := rules.Place{Sheet: j.previous.Damage.Sheet, Cell: address.Cell(1, row)}
		differences = append(differences, Difference{At: at, Message: "this row of the record was changed after signing.", general: true})
	}
	return differences
}

// Report says what verifying found, for the terminal.
func (v *Verification) Report() string {
	var text strings.Builder
	if len(v.Differences) == 0 {
		text.WriteString(Wrapped(fmt.Sprintf("%s is as %s signed it%s: nothing has changed.", v.Path, v.Run.Judge, on(v.Run.Date)), ""))
		fmt.Fprintf(&text, "Seal: %s\n", v.Run.Seal)
		text.WriteString(Wrapped("Compare the seal with the printed one: it shows accidents and quiet edits, not a forger who made a new seal.", ""))
	} else {
		fmt.Fprintf(&text, "%s is NOT as signed: %s.\n", v.Path, phrase.Plural(len(v.Differences), "difference", "differences"))
	}
	if v.Run.Edition != record.Edition {
		text.WriteString(Wrapped(fmt.Sprintf("It was signed with another version of this program (%s), which wrote its sheets in another form: the seal fits what was signed, every cell that was "+
			"read is compared with it, and %s that this version (%s) would say otherwise %s not listed.", v.Run.Version, phrase.Plural(v.OtherWays, "fact", "facts"), v.Version,
			map[bool]string{true: "is", false: "are"}[v.OtherWays == 1]), ""))
	} else if len(v.Differences) > 0 && v.Version != v.Run.Version {
		text.WriteString(Wrapped(fmt.Sprintf("It was signed with version %s of this program, and this is version %s: checks and words that have changed since are "+
			"among the differences. Verify it with the version it was signed with.", v.Run.Version, v.Version), ""))
	}
	said := make(map[string]int)
	for _, difference := range v.Differences {
		if said[difference.At.Sheet]++; said[difference.At.Sheet] <= mostOfASheet {
			text.WriteString(Wrapped("- "+sentenceStart(difference.At)+": "+difference.Message, "  "))
		}
	}
	for _, sheet := range slices.Sorted(maps.Keys(said)) {
		if more := said[sheet] - mostOfASheet; more > 0 {
			text.WriteString(Wrapped(fmt.Sprintf("- Sheet %q: %s more.", sheet, phrase.Plural(more, "difference", "differences")), "  "))
		}
	}
	if v.Reordered {
		text.WriteString(Wrapped("The rows stand in another order than when signed; that changes nothing.", ""))
	}
	if v.Partly != "" {
		text.WriteString(Wrapped("The computed cells were not compared one by one: "+v.Partly+".", ""))
	}
	return text.String()
}

// mostOfASheet is how many differences of a sheet are said one by one.
const mostOfASheet = 20
