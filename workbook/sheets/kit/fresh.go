package kit

import "railbook/workbook/xlsx"

// FreshDraft begins a workbook made afresh, which says of itself no more than what it is.
func FreshDraft(title string) (*xlsx.Draft, error) {
	draft := xlsx.NewDraft()
	if err := draft.CountWidthsIn(typeface); err != nil {
		return nil, err
	}
	return draft, draft.Describe(title)
}
