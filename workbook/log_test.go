package workbook

import (
	"bytes"
	"strings"
	"testing"

	"github.com/rs/zerolog"
	"github.com/xuri/excelize/v2"
)

// A log goes to whoever mends the program: it says which cells were changed, and names nobody.
func TestNoNameIsLogged(t *testing.T) {
	path := gradedFile(t, carcassSheet(t, []any{"Tag", "Exhibitor"}, [][]any{{"101", "Zyndra Qorblat"}, {"102", "Fenna Ghyll"}}))
	edit(t, path, path, func(file *excelize.File) {
		put(t, file, "Sheet1", "I2", "Zyndra Merrow")
		put(t, file, "Sheet1", "B2", 771)
	})
	var log bytes.Buffer
	if _, err := Grade(path, Options{Log: zerolog.New(&log)}); err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{`"cell":"I2"`, `"measure":"exhibitor"`, `"was":"700","is":"771"`} {
		if !strings.Contains(log.String(), words) {
			t.Errorf("%s is not in the log:\n%s", words, &log)
		}
	}
	for _, name := range []string{"Qorblat", "Merrow", "Zyndra", "Ghyll"} {
		if strings.Contains(log.String(), name) {
			t.Errorf("the log names %s", name)
		}
	}
}
