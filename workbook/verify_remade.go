package workbook

import (
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/sheets/fair"
	"railbook/workbook/xlsx"
)

// remade makes the results of a signed workbook again, from what is read of it now and from what its record says was decided, and gives
// the job where they are the very parts of the file, the record with all that was read among them, and the seal fits them: then nothing
// was changed. No sum that the file has is believed. It is nil for any other workbook.
func remade(path string, options Options) *job {
	book, err := openBookWith(path, options, xlsx.OpenOptions{Unread: intake.UnreadInHead})
	if err != nil {
		return nil // of which the whole way tells
	}
	work := &job{path: path, options: options, book: book, remaking: true}
	if work.open() != nil || work.previous == nil || work.previous.Run.Status != record.Signed || work.previous.Run.Edition != record.Edition {
		return nil
	}
	options.stage("reading")
	if work.chooseRules() != nil || work.read() != nil || !work.readAsBefore {
		return nil
	}
	options.stage(GradingAgainStage)
	work.grade()
	work.check()
	work.place()
	if work.unchanged = work.asSealed(); !work.unchanged {
		return nil
	}
	return work
}

// asSealed reports whether the results, made again, are the very parts of the file, and the seal over them is the recorded one.
func (j *job) asSealed() bool {
	again := *j.results
	again.Run, again.Changes, again.Hidden = j.previous.Run, j.previous.Changes, j.previous.Hidden
	again.Outcomes = outcomes(&again)
	var err error
	if again.Written, err = j.besideData(); err != nil {
		return false
	}
	j.book.OnlyCompare()
	seal, err := fair.WriteSealed(&again)
	if err != nil || seal != j.previous.Run.Seal {
		return false
	}
	j.previous.Sealed = func() []record.SealedLine { return again.State().Sealed() }
	same, err := j.book.SameAsRead()
	return same && err == nil
}
