package writing

// ourSheets write our sheets in the order of their tabs.
var ourSheets = []func(*press) error{
	(*press).writePlacings,
	(*press).writeReasons,
	(*press).writeReview,
	(*press).writeErrorLog,
	(*press).writeSummary,
	(*press).writeValueGrid,
	(*press).writeChanges,
	(*press).writeReadings,
	(*press).writeLastYear,
	(*press).writeRunRecord,
	(*press).writeSealed,
	(*press).writeCarried,
}

// writeSheets adds our sheets behind the user's.
func writeSheets(results *Results) error {
	press := newPress(results)
	for _, write := range ourSheets {
		if err := write(press); err != nil {
			return err
		}
	}
	return nil
}

// Write adds the computed columns beside the user's data, and our sheets and the rulebook behind the user's own. It does
// not save it.
func Write(results *Results) error {
	if err := writeColumns(results); err != nil {
		return err
	}
	if err := writeSheets(results); err != nil {
		return err
	}
	return AddRulebookSheets(results.Book, results.Rules.Tables)
}
