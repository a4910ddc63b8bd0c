package intake

import (
	"encoding/base64"
	"fmt"
	"strings"

	"railbook/workbook/xlsx"
)

// Carried is a file that was read along with the workbook and is kept in its results, byte for byte, so that grading them
// again needs nothing else.
type Carried struct {
	Role string // RosterRole or SecondRole
	Name string // the file's base name
	Data []byte
}

// The roles of files that are read along.
const (
	RosterRole = "roster"
	SecondRole = "second entry"
)

// readCarried puts the files together again from their lines, which stand in order under the role and name of each.
func readCarried(book *xlsx.Book) ([]Carried, error) {
	table, err := ourTableOf(book, CarriedMark, CarriedSheet, CarriedRoleColumn, CarriedFileColumn, CarriedDataColumn)
	if err != nil || table == nil {
		return nil, err
	}
	var files []Carried
	var texts []*strings.Builder
	for _, row := range table.rows {
		role, name := row.text(CarriedRoleColumn), row.text(CarriedFileColumn)
		if role != "" {
			files, texts = append(files, Carried{Role: role, Name: name}), append(texts, &strings.Builder{})
		}
		if len(texts) > 0 {
			texts[len(texts)-1].WriteString(row.text(CarriedDataColumn))
		}
	}
	for i := range files {
		if files[i].Data, err = base64.StdEncoding.DecodeString(texts[i].String()); err != nil {
			return nil, fmt.Errorf("sheet %q no longer holds the %s %s as it was read: name that file again with the option you gave it by",
				CarriedSheet, files[i].Role, files[i].Name)
		}
	}
	return files, nil
}
