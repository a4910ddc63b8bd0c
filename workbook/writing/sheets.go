package writing

import "railbook/workbook/reading"

// ourSheet is one of our sheets and what fills it.
type ourSheet struct {
	name, mark string
	fill       func(*press) error
}

// ourSheets are our sheets in the order of their tabs.
var ourSheets = []ourSheet{
	{reading.PlacingsSheet, reading.PlacingsMark, (*press).writePlacings},
	{reading.ReasonsSheet, reading.ReasonsMark, (*press).writeReasons},
	{reading.JudgeReviewSheet, reading.JudgeReviewMark, (*press).writeReview},
	{reading.ErrorLogSheet, reading.ErrorLogMark, (*press).writeErrorLog},
	{reading.SummarySheet, reading.SummaryMark, (*press).writeSummary},
	{reading.ValueGridSheet, reading.ValueGridMark, (*press).writeValueGrid},
	{reading.ChangeSheet, reading.ChangeMark, (*press).writeChanges},
	{reading.ReadingsSheet, reading.ReadingsMark, (*press).writeReadings},
	{reading.RunRecordSheet, reading.RunRecordMark, (*press).writeRunRecord},
	{reading.SealedSheet, reading.SealedMark, (*press).writeSealed},
}

// addSheets adds our sheets, still empty, behind the user's and gives the name that each got by its mark: a workbook
// may have a sheet called Placings already, and formulas must know what the Value grid is called.
func addSheets(results *Results) (names map[string]string, err error) {
	names = make(map[string]string)
	for _, sheet := range ourSheets {
		if sheet.mark == reading.SealedMark && len(results.Sealed) == 0 {
			continue // only a signature seals anything
		}
		if names[sheet.mark], err = results.Book.NewSheet(sheet.name, sheet.mark); err != nil {
			return nil, err
		}
	}
	return names, nil
}

// fillSheets fills the sheets that addSheets added.
func fillSheets(results *Results, names map[string]string) error {
	press := newPress(results, names)
	for _, sheet := range ourSheets {
		if names[sheet.mark] == "" {
			continue
		}
		if err := sheet.fill(press); err != nil {
			return err
		}
	}
	return nil
}
