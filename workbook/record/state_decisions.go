package record

import (
	"slices"
	"strconv"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
)

func decisionTexts(d *validate.Decision) []string {
	applied := ""
	if d.Applied {
		applied = "yes"
	}
	refused := ""
	if d.Refused {
		refused = "yes"
	}
	return []string{
		d.Class, d.Tag, d.Measure.String(), d.Code, d.Was, string(d.Choice), d.Value, d.Initials, d.Remark, d.Date,
		d.Found.File, d.Found.Sheet, d.Found.Cell, string(d.Level), applied, refused, d.Message,
		AskedText(d.Also), d.Other.Sheet, d.Other.Cell, putsText(d.Puts), d.Then, d.Why, idText(d.Carcass),
	}
}

// idText writes the id of a carcass; empty for none.
func idText(id int) string {
	if id == 0 {
		return ""
	}
	return strconv.Itoa(id)
}

func decisionOf(texts []string, measures *measure.Table) validate.Decision {
	at := func(i int) string { return field(texts, i) }
	id, _ := strconv.Atoi(at(23)) // none where the record was written before carcasses had ids
	return validate.Decision{
		Carcass: id,
		Class:   at(0), Tag: at(1), Measure: measures.ByName(at(2)), Code: at(3), Was: at(4), Choice: validate.Choice(at(5)), Value: at(6),
		Initials: at(7), Remark: at(8), Date: at(9), Found: rules.Place{File: at(10), Sheet: at(11), Cell: at(12)},
		Level: validate.Level(at(13)), Applied: at(14) == "yes", Refused: at(15) == "yes", Message: at(16),
		Also: AskedOf(at(17)), Other: rules.Place{Sheet: at(18), Cell: at(19)}, Puts: putsOf(at(20), measures), Then: at(21), Why: at(22),
	}
}

// AskedText writes what else was asked in a row as one text: kind and value of each finding in turn.
func AskedText(list []validate.Asked) string {
	if len(list) == 0 {
		return ""
	}
	var fields []string
	for _, asked := range list {
		fields = append(fields, asked.Code, asked.Read)
	}
	return lineOf(fields...)
}

// AskedOf reads what AskedText wrote.
func AskedOf(text string) (list []validate.Asked) {
	if text == "" {
		return nil
	}
	for pair := range slices.Chunk(fieldsOf(text), 2) {
		list = append(list, validate.Asked{Code: field(pair, 0), Read: field(pair, 1)})
	}
	return list
}

// putFields is how many texts a cell that a decision changed is written in.
const putFields = 8

func putsText(list []validate.Put) string {
	if len(list) == 0 {
		return ""
	}
	var fields []string
	for _, put := range list {
		kind := "number"
		if put.Text {
			kind = "text"
		}
		fields = append(fields, put.Class, put.Tag, put.Measure.String(), put.At.Sheet, put.At.Cell, put.Was, put.Is, kind)
	}
	return lineOf(fields...)
}

func putsOf(text string, measures *measure.Table) (list []validate.Put) {
	if text == "" {
		return nil
	}
	for fields := range slices.Chunk(fieldsOf(text), putFields) {
		at := func(i int) string { return field(fields, i) }
		list = append(list, validate.Put{
			Class: at(0), Tag: at(1), Measure: measures.ByName(at(2)), At: rules.Place{Sheet: at(3), Cell: at(4)},
			Was: at(5), Is: at(6), Text: at(7) == "text",
		})
	}
	return list
}
