package workbook

import (
	"errors"
	"path/filepath"
	"slices"

	"railbook/workbook/ahead"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/fair"
	"railbook/workbook/xlsx"
)

// Outcome is what became of one workbook.
type Outcome struct {
	Results  *result.Results
	Path     string // of the results workbook
	Written  bool   // false: an identical one was there already, or nothing had changed since the input was graded
	Same     bool   // nothing had changed since the input, itself a results workbook, was graded
	Signed   string // who had signed the input; empty for nobody
	Warnings []string
}

// Grade does the whole job on one workbook and writes its results beside it, or where the options say. The input is
// never written to, and a different file in the way is not overwritten unless the options force it.
func Grade(path string, options Options) (*Outcome, error) {
	work, state, err := examineForState(path, options)
	if other := (*xlsx.OtherFormat)(nil); errors.As(err, &other) && other.Name == filepath.Base(path) {
		if path, err = options.asWorkbook(path, other); err == nil {
			work, state, err = examineForState(path, options)
		}
	}
	if err != nil {
		return nil, err
	}
	outcome := &Outcome{Results: work.results, Warnings: work.warnings()}
	if work.previous != nil && work.previous.Run.Status == record.Signed {
		outcome.Signed = work.previous.Run.Judge + on(work.previous.Run.Date)
	}
	work.results.Run = work.run(state())
	if work.previous != nil && !work.changedSinceGraded(work.results.Run.State) && work.previous.Damage == nil && len(work.previous.Altered) == 0 {
		outcome.Path, outcome.Same = path, true
		work.stages.end()
		return outcome, nil
	}
	outcome.Path = options.Output
	if outcome.Path == "" {
		outcome.Path = resultsPath(path, work.results.Run.Revision)
	}
	work.stage("writing " + outcome.Path)
	work.book.PackBeside(filepath.Dir(outcome.Path))
	if err := fair.Write(work.results); err != nil {
		return nil, err
	}
	outcome.Written, err = work.save(outcome.Path)
	work.stages.end()
	return outcome, err
}

// examineForState examines a workbook, and gives the digest of its state, which is taken while the carcasses are placed.
func examineForState(path string, options Options) (*job, func() string, error) {
	work, err := checked(path, options)
	if err != nil {
		return nil, nil, err
	}
	digest := ahead.Value(work.results.State().InputsSeal)
	work.finish()
	return work, digest, nil
}

// save writes the results unless the very same are there already.
func (j *job) save(path string) (written bool, err error) {
	return j.options.write(j.book, path, extensionFor(j.path), j.path)
}

// run says how these results came to be; the first input's name and SHA-256 are kept through every revision.
func (j *job) run(state string) record.Run {
	run := record.Run{
		InputName: filepath.Base(j.path), InputSHA256: j.book.SHA256, Revision: 1, Version: j.options.Version,
		Status: record.Provisional, Rulebook: j.rules.Settings.Name + " " + j.rules.Settings.Year, RulebookSHA: j.rules.SHA256,
		OwnRulebookSHA: j.ownRulebookSHA, Edition: record.Edition,
	}
	if j.previous != nil {
		run.InputName, run.InputSHA256 = j.previous.Run.InputName, j.previous.Run.InputSHA256
		run.Damage = j.previous.Run.Damage
		run.Revision = j.previous.Run.Revision + 1
	}
	run.State, run.About = state, aboutFair(j.results)
	return run
}

// warnings are what a person should know though the job was done.
func (j *job) warnings() []string {
	warnings := slices.Clone(j.book.Warnings())
	for _, note := range j.book.Notes() {
		if noted := record.Noted(note); j.previous == nil || !slices.Contains(j.previous.OfFile, noted) { // said when it was found
			warnings = append(warnings, ofFile([]record.Noted{noted})[0].Message)
		}
	}
	warnings = append(warnings, j.answersLeft...)
	for _, fault := range j.faults {
		if fault.Warning {
			warnings = append(warnings, "rulebook, "+fault.Place.String()+": "+fault.Message)
		}
	}
	return warnings
}
