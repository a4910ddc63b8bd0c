package intake

import (
	"encoding/base64"
	"fmt"
	"strings"

	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// readCarried puts the files together again from their lines, which stand in order under the role and name of each.
func readCarried(book *xlsx.Book) ([]record.Carried, error) {
	table, err := ourTableOf(book, record.CarriedMark, record.CarriedSheet, record.CarriedRoleColumn, record.CarriedFileColumn, record.CarriedDataColumn)
	if err != nil || table == nil {
		return nil, err
	}
	var files []record.Carried
	var texts []*strings.Builder
	for _, row := range table.rows {
		role, name := row.text(record.CarriedRoleColumn), row.text(record.CarriedFileColumn)
		if role != "" {
			files, texts = append(files, record.Carried{Role: role, Name: name}), append(texts, &strings.Builder{})
		}
		if len(texts) > 0 {
			texts[len(texts)-1].WriteString(row.text(record.CarriedDataColumn))
		}
	}
	for i := range files {
		if files[i].Data, err = base64.StdEncoding.DecodeString(texts[i].String()); err != nil {
			return nil, fmt.Errorf("sheet %q no longer holds the %s %s as it was read: name that file again with the option you gave it by",
				record.CarriedSheet, files[i].Role, files[i].Name)
		}
	}
	return files, nil
}
