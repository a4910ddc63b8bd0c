package intake

import "testing"

// TestSheetsSetAside holds which carcass sheets are not taken in: copies, and those of another year than the kill dates or,
// without dates, than the latest year named.
func TestSheetsSetAside(t *testing.T) {
	body := "Tag|HCW|Fat|KPH|Class|Kill date\n"
	now, then, undated := body+"1|812|.45|2|Steers|2025-08-06\n", body+"7|790|.3|2|Heifers|2024-08-06\n", body+"7|790|.3|2|Heifers|\n"
	tests := []struct {
		first, firstBody, second, secondBody string
		hidden                               bool // the second
		read                                 string
	}{
		{"Beef", now, "Beef 2", undated, false, "1 7"},
		{"Beef", now, "Beef 2", then, false, "1"},
		{"Beef 2024", now, "Beef 2", undated, false, "1 7"}, // its dates count before its name
		{"Beef", now, "Beef 2024", undated, false, "1"},
		{"Beef", now, "Beef 2025", undated, false, "1 7"},
		{"Beef 2025", undated, "Beef 2024", then, false, "7"},
		{"Beef", now, "Beef backup", undated, false, "1"},
		{"Beef", now, "Oldham", undated, false, "1 7"},
		{"Beef", now, "Beef 2", undated, true, "1"},
		{"Beef old", now, "Beef copy", undated, false, "1 7"}, // nothing would be left
	}
	for _, test := range tests {
		second := sheetOf(test.second, test.secondBody)
		second.hidden = test.hidden
		result := readSheets(t, Options{}, sheetOf(test.first, test.firstBody), second)
		read := ""
		for i, carcass := range result.Carcasses {
			if i > 0 {
				read += " "
			}
			read += carcass.Tag
		}
		if read != test.read {
			t.Errorf("of %s and %s tags %q were read, want %q", test.first, test.second, read, test.read)
		}
		taken := readSheets(t, Options{TakeIn: []string{test.first, test.second}}, sheetOf(test.first, test.firstBody), second)
		if len(taken.Carcasses) != 2 {
			t.Errorf("of %s and %s %d carcasses were taken in, want both", test.first, test.second, len(taken.Carcasses))
		}
	}
}
