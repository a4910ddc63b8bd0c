package workbook

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/fair"
)

// Refusal says why a workbook cannot be signed or published yet: what a person must settle first.
type Refusal struct {
	Path  string
	Act   string             // what was not done: "signed"
	Open  []validate.Finding // the open holds, whose carcasses are to be settled, and decisions that could not be used
	Ties  []string           // ties that the rule leaves to the judge
	Words string             // another reason; empty for none
}

func (r *Refusal) Error() string {
	var words strings.Builder
	fmt.Fprintf(&words, "%s was not %s.", r.Path, r.Act)
	if r.Words != "" {
		words.WriteString(" " + r.Words)
	}
	for _, finding := range r.Open {
		switch finding.Code {
		case intake.WhoseCarcass:
			words.WriteString("\n  to be settled: " + finding.Message)
			continue
		case record.NotApplied:
			words.WriteString("\n  decided, but without effect: " + finding.Message)
			continue
		}
		fmt.Fprintf(&words, "\n  on hold: tag %s: %s", orBlank(finding.Tag), finding.Message)
	}
	for _, tie := range r.Ties {
		words.WriteString("\n  " + tie)
	}
	if len(r.Open)+len(r.Ties) > 0 {
		words.WriteString("\nSettle these in the Judge review sheet, grade the workbook again, and sign the new one.")
	}
	return words.String()
}

// Sign stamps a results workbook with the judge's name, the date and the seal, protects our sheets, and writes it beside
// as <name>-signed.xlsx. It returns a *Refusal while anything is on hold or has not been graded in yet.
func Sign(path, judge, date string, options Options) (*Outcome, error) {
	options.Date = date
	work, err := examine(path, options)
	if err != nil {
		return nil, err
	}
	if refusal := work.refusal(); refusal != nil {
		return nil, refusal
	}
	if work.results.Written, err = work.besideData(); err != nil {
		return nil, err
	}
	work.results.Hidden = hiddenIn(work.results.Read.Findings)
	work.stamp(judge, date)
	outcome := &Outcome{Results: work.results, Warnings: work.warnings(), Path: options.Output}
	if outcome.Path == "" {
		outcome.Path = besideInput(path, "signed")
	}
	options.stage("writing " + outcome.Path)
	if err := fair.Write(work.results); err != nil {
		return nil, err
	}
	outcome.Written, err = work.save(outcome.Path)
	return outcome, err
}

// stamp makes the results the signed ones: the same revision, with the signature and its seal.
func (j *job) stamp(judge, date string) {
	j.results.Run = j.previous.Run
	j.results.Run.Version, j.results.Run.Edition = j.options.Version, record.Edition
	j.results.Run.Status, j.results.Run.Judge, j.results.Run.Date = record.Signed, judge, date
	j.results.Outcomes = outcomes(j.results)
	j.results.Run.Seal = j.results.State().Seal()
}

// refusal says what keeps a workbook from being signed; nil where nothing does.
func (j *job) refusal() *Refusal {
	refusal := &Refusal{Path: j.path, Act: "signed"}
	switch {
	case j.previous == nil:
		refusal.Words = "It is not a results workbook of railbook: grade it first, and sign the results."
		return refusal
	case j.previous.Run.Status == record.Signed:
		refusal.Words = fmt.Sprintf("It is signed already, by %s%s.", j.previous.Run.Judge, on(j.previous.Run.Date))
		return refusal
	case len(j.previous.Altered) > 0:
		refusal.Words = "Sheets of the program's were changed by hand since it was graded:"
		for _, finding := range alteredFindings(j.previous.Altered) {
			refusal.Words += "\n  " + finding.Message
		}
		refusal.Words += "\nGrade it again, which writes them anew, and sign the new results."
		return refusal
	case j.changedSinceGraded(stateSHA256(j.results)):
		refusal.Words = "Values, decisions, rules or what stands above the headings were changed since it was graded: grade it again, look at what that moved, and sign the new results."
		return refusal
	}
	for _, finding := range j.results.Findings {
		its := finding.Carcasses()
		if len(its) > 0 && finding.Code != record.NotApplied && !slices.ContainsFunc(its, func(carcass *grading.Carcass) bool { return j.results.Of(carcass).Status.State != result.LeftOut }) {
			continue // whatever is doubtful about what the judge left out, it has no place to lose
		}
		if finding.Settled == nil && (finding.Level == validate.Hold || finding.Code == intake.WhoseCarcass && finding.Level != validate.Note || finding.Code == record.NotApplied) {
			refusal.Open = append(refusal.Open, finding)
		}
	}
	for _, class := range j.results.Placings.Classes {
		for _, placed := range class.Placed {
			if placed.JudgeTie {
				refusal.Ties = append(refusal.Ties, fmt.Sprintf("tie left to the judge: tag %s, place %d of %s", placed.Tag, placed.Place, class.Class))
			}
		}
	}
	if len(refusal.Open)+len(refusal.Ties) == 0 {
		return nil
	}
	return refusal
}

// SignedReport is what the person who signed is told: the seal to print, and what to do next.
func (o *Outcome) SignedReport() string {
	var text strings.Builder
	if o.Written {
		fmt.Fprintf(&text, "Signed: %s\n", o.Path)
	} else {
		fmt.Fprintf(&text, "Signed: %s (the very same was there already)\n", o.Path)
	}
	fmt.Fprintf(&text, "Seal: %s\n", o.Results.Run.Seal)
	text.WriteString(acceptedBeyond(o.Results))
	if looks := Count(o.Results).Looks; looks > 0 {
		text.WriteString(Wrapped(fmt.Sprintf("Signed with %s still open: they do not keep a carcass from being placed.", phrase.Plural(looks, "finding to look at", "findings to look at")), ""))
	}
	text.WriteString(Wrapped("Next: print the placings, which carry the seal, and keep them (railbook print "+quoted(o.Path)+"). Cards and public sheet: railbook publish "+quoted(o.Path)+". Whether anything has changed since: railbook verify "+quoted(o.Path), "  "))
	return text.String()
}
