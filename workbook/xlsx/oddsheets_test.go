package xlsx

import "strings"

// oddSheets are sheets in shapes that programs write or the format allows, each with its rows 1 to 4 and the columns
// from F on free.
func oddSheets() map[string]string {
	row := func(number string) string {
		return `<row r="` + number + `"><c r="A` + number + `" t="s"><v>0</v></c><c r="B` + number + `"><v>812.5</v></c></row>`
	}
	rows := `<sheetData>` + row("1") + row("2") + row("3") + row("4") + `</sheetData>`
	return map[string]string{
		"plain":         worksheet(`<dimension ref="A1:B4"/>` + rows),
		"no dimension":  worksheet(rows),
		"one cell used": worksheet(`<dimension ref="A1" />` + rows),
		"closed rows":   worksheet(`<sheetData><row r="1" spans="1:2" /><row r="2"/>` + row("4") + `</sheetData>`),
		"missing rows":  worksheet(`<dimension ref="A3:B9"/><sheetData>` + row("3") + row("9") + `</sheetData>`),
		"no rows":       worksheet(`<dimension ref="A1"/><sheetData/><pageMargins left="1" right="1" top="1" bottom="1" header="0" footer="0"/>`),
		"empty rows":    worksheet(`<sheetData></sheetData>`),
		"no places":     worksheet(`<sheetData><row><c><v>1</v></c><c/></row><row><c><v>2</v></c></row><row/><row><c t="inlineStr"><is><t>x</t></is></c></row></sheetData>`),
		"prefixed": strings.NewReplacer("</", "</x:", "<", "<x:", `xmlns="`, `xmlns:x="`).Replace(
			strings.TrimPrefix(worksheet(`<dimension ref="A1:B4"/><cols><col min="1" max="2" width="9"/></cols>`+rows+`<mergeCells count="1"><mergeCell ref="A1:B1"/></mergeCells>`), declaration)),
		"widths":        worksheet(`<cols><col min="1" max="3" width="12" customWidth="1"/><col min="7" max="8" width="3" customWidth="1"/><col min="20" max="30" width="4"/></cols>` + rows),
		"all widths":    worksheet(`<cols><col min="1" max="16384" width="12" customWidth="1"/></cols>` + rows),
		"hidden rest":   worksheet(`<cols><col min="1" max="5" width="12" customWidth="1"/><col min="6" max="16384" width="0" hidden="1" customWidth="1"/></cols>` + rows),
		"styled blanks": worksheet(`<sheetData><row r="1"><c r="A1"><v>1</v></c><c r="Z1" s="1"/></row><row r="2"><c r="Z2" s="1"/></row></sheetData>`),
		"comments":      worksheet(`<!-- <row r="1"></row> --><sheetData><row r="1"><!-- </row> --><c r="A1"><v>1</v></c></row><row r="2"><c r="A2" t="str"><v><![CDATA[</row>]]></v></c></row></sheetData>`),
		"rules": worksheet(rows + `<conditionalFormatting sqref="B1:B4"><cfRule type="cellIs" dxfId="0" priority="7" operator="greaterThan"><formula>900</formula></cfRule></conditionalFormatting>` +
			`<dataValidations count="1"><dataValidation type="decimal" allowBlank="1" sqref="B2"><formula1>1</formula1><formula2>2</formula2></dataValidation></dataValidations><pageMargins left="1" right="1" top="1" bottom="1" header="0" footer="0"/>`),
		"protected":      worksheet(rows + `<sheetProtection sheet="1"/><autoFilter ref="A1:B4"/><mergeCells count="1"><mergeCell ref="A3:B3"/></mergeCells><hyperlinks><hyperlink ref="A1" location="Steers!A1"/></hyperlinks>`),
		"shared":         worksheet(`<sheetData><row r="1"><c r="A1"><f t="shared" ref="A1:A2" si="4">B1*2</f><v>2</v></c><c r="B1"><v>1</v></c></row><row r="2"><c r="A2"><f t="shared" si="4"/><v>4</v></c><c r="B2"><v>2</v></c></row></sheetData>`),
		"single quotes":  strings.ReplaceAll(worksheet(`<dimension ref="A1:B4"/>`+rows), `"`, `'`),
		"line ends":      strings.ReplaceAll(worksheet(`<dimension ref="A1:B4"/>`+rows), `><`, ">\r\n<"),
		"wide tags":      strings.ReplaceAll(worksheet(`<dimension ref="A1:B4"/>`+rows), `</row>`, `</row >`),
		"row extensions": worksheet(`<sheetData><row r="1"><c r="A1"><v>1</v></c><extLst><ext uri="x"/></extLst></row></sheetData><extLst><ext uri="y"/></extLst>`),
	}
}
