package workbook

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/ahead"
	"railbook/workbook/intake"
	"railbook/workbook/plant"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/xlsx"
)

// job is one workbook on its way from the file to the results.
type job struct {
	path     string
	options  Options
	stages   stages
	book     *xlsx.Book
	others   []*xlsx.Book     // rosters
	second   *xlsx.Book       // the second entry; nil for none
	carried  []record.Carried // the files of both, to be kept in the results
	lastYear []record.LastYearLine
	previous *intake.Previous
	rules    *rules.Rulebook
	faults   []rules.Fault
	results  *result.Results
	// ownRulebookSHA is of the rulebook sheets in the workbook itself; empty where it has none.
	ownRulebookSHA string
	answers        []plant.Answer
	answersLeft    []string                  // why answers of the plant were not taken over
	putBackBeside  []editedBeside            // cells of a signed workbook that are read as they were signed
	besideMatters  bool                      // read as they stand, they say something else
	unchanged      bool                      // since it was signed
	hidden         map[string][]record.Noted // by sheet, as it was signed; nil to look what is hidden
	readAsBefore   bool                      // every cell says what was read before
	trusted        bool                      // what is read is what was recorded: nothing is looked for that was retyped
	remaking       bool                      // a signed workbook is made again, to be compared part by part: of the record its head is read
	// newChanges are the corrections of this run; they are the last of results.Changes.
	newChanges []record.Change
	// ruleChanges are those of the rulebook, which stand before them.
	ruleChanges []record.Change
}

// Examine does everything but write: it opens, reads, applies the judge's decisions, grades, checks and places.
func Examine(path string, options Options) (*result.Results, error) {
	work, err := examine(path, options)
	if err != nil {
		return nil, err
	}
	return work.results, nil
}

func examine(path string, options Options) (*job, error) {
	work, err := checked(path, options)
	if err == nil {
		work.finish()
	}
	return work, err
}

// finish places the carcasses, once all is checked.
func (j *job) finish() {
	j.stage("placing")
	j.place()
	if len(j.ruleChanges) > 0 {
		first := len(j.results.Changes) - len(j.newChanges) - len(j.ruleChanges)
		j.sayWhatRulebookMoved(j.results.Changes[first : first+len(j.ruleChanges)])
	}
	j.sayWhatMoved()
	j.logResults()
}

// The stages that begin once a workbook has been read: from then on nothing of it is refused.
const (
	GradingStage      = "grading"
	GradingAgainStage = "grading again" // of what was signed
)

// checked does all that comes before placing.
func checked(path string, options Options) (*job, error) {
	work := &job{path: path, options: options, stages: newStages(path, options)}
	work.stage("opening " + path)
	if err := work.open(); err != nil {
		return nil, err
	}
	work.stage("reading")
	if err := work.chooseRules(); err != nil {
		return nil, err
	}
	if err := work.read(); err != nil {
		return nil, err
	}
	work.logReading()
	work.stage(GradingStage)
	work.grade()
	work.stage("checking")
	work.check()
	return work, nil
}

// open opens every file the job needs but for one that is open already, and takes out of the main one what an earlier run put in.
func (j *job) open() (err error) {
	ahead.Value(rules.Shipped) // nearly every workbook is graded by it
	if j.book == nil {
		if j.book, err = openBook(j.path, j.options); err != nil {
			return err
		}
	}
	readPrevious := intake.ReadPrevious
	if j.remaking {
		readPrevious = intake.ReadHead
	}
	if j.previous, err = readPrevious(j.book); err != nil {
		return err
	}
	if err := j.openAttached(); err != nil {
		return err
	}
	if err := j.openLastYear(); err != nil {
		return err
	}
	if err := j.openAnswers(); err != nil {
		return err
	}
	if j.previous != nil {
		_, err = j.book.Strip()
	}
	return err
}

func openBook(path string, options Options) (*xlsx.Book, error) {
	return openBookWith(path, options, xlsx.OpenOptions{})
}

func openBookWith(path string, options Options, how xlsx.OpenOptions) (*xlsx.Book, error) {
	return withPasswords(options, func(password string) (*xlsx.Book, error) {
		how.Password = password
		return xlsx.Open(path, how)
	})
}

// withPasswords opens without a password first, then with each that was given.
func withPasswords(options Options, open func(password string) (*xlsx.Book, error)) (*xlsx.Book, error) {
	book, err := open("")
	for _, password := range options.Passwords {
		if err == nil {
			break
		}
		book, err = open(password)
	}
	return book, err
}

// grade computes every carcass's figures.
func (j *job) grade() {
	j.results.Carcasses = result.Graded(j.results.Read.Carcasses, j.rules)
}

// check gathers the findings of the reading, of the checks and of the decisions themselves, and marks those the judge
// has settled.
func (j *job) check() {
	found := append(slices.Clone(j.results.Read.Findings), j.findingsOf(j.results.Carcasses)...)
	j.refuseToLeaveOut(found)
	j.refuseImpossible(found)
	findings := askedOnce(append(j.results.Findings, found...))
	findings = append(findings, j.takeAnswers(findings)...)
	j.results.Findings = settle(findings, j.results.Decisions, j.decidedOn)
	j.askOnceWhose()
}

// askOnceWhose does not ask whose carcasses are while they are on hold or left out, nor where the judge was asked about the
// tag that stands twice: that is one question, and no name is printed unless the lists say whose they are.
func (j *job) askOnceWhose() {
	j.results.Gather()
	for _, doubt := range j.results.Read.Doubts {
		its := j.results.Of(doubt.Carcass)
		twice := slices.ContainsFunc(its.Findings, func(finding *validate.Finding) bool { return finding.Code == validate.DuplicateTag })
		if its.Status.State != result.OnHold && its.Status.State != result.LeftOut && !twice {
			return
		}
	}
	for i := range j.results.Findings {
		if finding := &j.results.Findings[i]; finding.Code == intake.WhoseCarcass && finding.Settled == nil {
			finding.Level = validate.Note
		}
	}
}

// refuseImpossible refuses to accept what cannot be true, and without a remark what the rulebook holds impossible.
func (j *job) refuseImpossible(found []validate.Finding) {
	for d := range j.results.Decisions {
		decision := &j.results.Decisions[d]
		if decision.Choice != validate.Accept || decision.Refused {
			continue
		}
		carcass := j.decidedOn(decision)
		for i := range found {
			finding := &found[i]
			if !finding.Beyond || finding.Carcass != carcass || finding.Measure != decision.Measure || !decision.Answers(finding) {
				continue
			}
			switch {
			case finding.Never:
				j.refuse(decision, fmt.Sprintf("%s can't be true of any animal, so it can be corrected or left out, and not accepted", orBlank(finding.Read)))
			case decision.Remark == "":
				j.refuse(decision, fmt.Sprintf("%s is past what the rulebook holds possible, so it is accepted only with a remark; write why it stands", orBlank(finding.Read)))
			}
			break
		}
	}
}

// askedOnce leaves out the question what a heading means where what is missing names that heading as what it may be.
func askedOnce(findings []validate.Finding) []validate.Finding {
	named := func(asked validate.Finding) bool {
		option := fmt.Sprintf("--column %q", asked.Measure.String()+"="+asked.Read)
		return slices.ContainsFunc(findings, func(finding validate.Finding) bool {
			return finding.Code != asked.Code && finding.At.Sheet == asked.At.Sheet && strings.Contains(finding.Message, option)
		})
	}
	return slices.DeleteFunc(slices.Clone(findings), func(finding validate.Finding) bool {
		return finding.Code == intake.HeadingNotRecognised && named(finding)
	})
}

// decidedOn gives the carcass that a decision is about; nil where it is about none.
func (j *job) decidedOn(decision *validate.Decision) *grading.Carcass {
	return carcassOf(j.results.Read, decision)
}

// findingsOf runs the checks over the carcasses, which stand in the order in which they were read.
func (j *job) findingsOf(carcasses []*result.Result) []validate.Finding {
	batch := &validate.Batch{Book: j.rules, Entries: j.results.Read.Entries}
	for _, carcass := range carcasses {
		batch.Carcasses = append(batch.Carcasses, carcass.Graded)
	}
	for _, block := range j.results.Read.Blocks {
		batch.Sheets = append(batch.Sheets, sheetOf(block, batch.Carcasses))
	}
	return validate.Check(batch)
}

// sheetOf tells the checks what they need to know of a block of carcasses as a whole.
func sheetOf(block intake.Block, all []*grading.Graded) validate.Sheet {
	sheet := validate.Sheet{Name: block.Sheet, Columns: make(map[measure.ID]rules.Place), Weights: block.Weights, Unread: block.Unread, Unheaded: block.Unheaded}
	for _, heading := range block.Headings {
		place := rules.Place{Sheet: block.Sheet, Cell: heading.Cell}
		if sheet.Heading.Cell == "" {
			sheet.Heading = place
		}
		if _, known := sheet.Columns[heading.Measure]; heading.Measure != measure.None && !known {
			sheet.Columns[heading.Measure] = place
		}
	}
	for _, carcass := range block.Carcasses {
		sheet.Carcasses = append(sheet.Carcasses, all[carcass.Sequence])
		if cells := block.FormCells(carcass); cells != nil {
			sheet.Cells = append(sheet.Cells, cells)
		}
	}
	return sheet
}

// place leaves out the carcasses on hold and those the judge left out, and places the others. A ruling of the judge that
// could not be followed is itself a finding.
func (j *job) place() {
	j.results.Gather()
	j.results.Place()
	j.sayAcceptedBlanks()
	for _, refused := range j.results.Placings.Refused {
		j.results.Findings = append(j.results.Findings, refusedRuling(refused))
	}
	j.results.Gather()
}

// sayAcceptedBlanks says of a carcass whose blank cell the judge accepted what it cannot be placed by.
func (j *job) sayAcceptedBlanks() {
	for i := range j.results.Findings {
		finding := &j.results.Findings[i]
		if finding.Code != validate.ValueMissing || finding.Settled == nil || finding.Settled.Choice != validate.Accept {
			continue
		}
		for c := range j.results.Placings.Classes {
			class := &j.results.Placings.Classes[c]
			for l := range class.NotPlaced {
				if notPlaced := &class.NotPlaced[l]; notPlaced.Carcass == finding.Carcass && !notPlaced.OnHold && len(class.Ranking.Keys) > 0 {
					notPlaced.Reason = fmt.Sprintf("accepted without %s, so it cannot be placed by %s", finding.Measure, class.Ranking.Keys[0].Measure)
				}
			}
		}
	}
}

// refusedRuling tells the judge that a place they gave was not followed, and why.
func refusedRuling(refused placing.RefusedRuling) validate.Finding {
	at := rules.Place{Sheet: record.JudgeReviewSheet}
	return validate.Finding{
		Level: validate.Look, Code: record.NotApplied, At: at, Tag: refused.Tag, Class: refused.Class, Read: fmt.Sprint(refused.Place),
		Message: fmt.Sprintf("%s: place %d for tag %s of %s was not followed: %s", sentenceStart(at), refused.Place, refused.Tag, refused.Class, refused.Why),
	}
}
