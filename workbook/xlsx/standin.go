package xlsx

import (
	"archive/zip"
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"railbook/rules/phrase"

	"github.com/xuri/excelize/v2"
)

// standIn is the workbook in which the library makes our sheets beside a user's. The library writes the parts of a workbook anew from what
// it knows of them, and loses what it does not know: so it never sees the user's. Of those, the stand-in has only what our
// sheets must fit to: the names and numbers of the sheets, as many cell styles as there are, and the names that are taken.
// What the library has added to the stand-in is then put into the user's own bytes.
type standIn struct {
	file    *excelize.File
	began   map[string]bool // the parts it began with
	ids     map[string]bool // the relationships of the workbook's that it began with
	sheets  int             // how many it began with
	formats int             // how many number formats it began with
}

// The parts of the stand-in that stand for the user's.
const (
	standInMain   = "xl/workbook.xml"
	standInStyles = "xl/styles.xml"
	standInSheet  = "xl/worksheets" + padMark + ".xml" // all sheets of the user's
	padMark       = "-railbook-pad"
)

const (
	mainSpace       = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	relationsSpace  = "http://schemas.openxmlformats.org/package/2006/relationships"
	typesSpace      = "http://schemas.openxmlformats.org/package/2006/content-types"
	spreadsheetKind = "application/vnd.openxmlformats-officedocument.spreadsheetml."
	xmlHead         = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
)

// newStandIn makes the stand-in for the package that is added to.
func (b *Book) newStandIn() (*standIn, error) {
	d := &standIn{began: map[string]bool{}, ids: map[string]bool{}}
	parts, err := d.parts(b.base)
	if err != nil {
		return nil, err
	}
	var data bytes.Buffer
	archive := zip.NewWriter(&data)
	for name, plain := range parts {
		d.began[name] = true
		entry, err := archive.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Store})
		if err == nil {
			_, err = entry.Write([]byte(plain))
		}
		if err != nil {
			return nil, err
		}
	}
	if err := archive.Close(); err != nil {
		return nil, err
	}
	d.file, err = excelize.OpenReader(&data, excelize.Options{RawCellValue: true})
	return d, err
}

func (d *standIn) parts(base *contents) (map[string]string, error) {
	_, sheets, err := children(base.parts[base.main], "sheets")
	if err != nil {
		return nil, err
	}
	related, err := base.relations(base.main)
	if err != nil {
		return nil, err
	}
	styles, err := d.styles(base.parts[base.styles])
	if err != nil {
		return nil, err
	}
	d.sheets = len(sheets)
	var tabs, relations strings.Builder
	for _, sheet := range sheets {
		name, _ := sheet.attribute("name")
		number, _ := sheet.number("sheetId")
		fmt.Fprintf(&tabs, `<sheet name="%s" sheetId="%d" r:id="%s"/>`, escape(name), min(number, 1<<30), escape(relationOf(sheet.token)))
	}
	for _, relation := range related {
		d.ids[relation.ID] = true
		kind, target := "other", "other"
		switch relation.kind() {
		case "worksheet":
			kind, target = "worksheet", "/"+standInSheet
		case "styles":
			kind, target = "styles", "/"+standInStyles
		}
		fmt.Fprintf(&relations, `<Relationship Id="%s" Type="%s" Target="%s"/>`, escape(relation.ID), relationTypes+kind, target)
	}
	parts := map[string]string{
		contentTypesPart: xmlHead + `<Types xmlns="` + typesSpace + `">` +
			`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
			`<Default Extension="xml" ContentType="application/xml"/>` +
			`<Override PartName="/` + standInMain + `" ContentType="` + spreadsheetKind + `sheet.main+xml"/>` +
			`<Override PartName="/` + standInStyles + `" ContentType="` + stylesContentType + `"/></Types>`,
		rootRelations: xmlHead + `<Relationships xmlns="` + relationsSpace + `"><Relationship Id="rId1" Type="` + relationTypes +
			`officeDocument" Target="` + standInMain + `"/></Relationships>`,
		standInMain: xmlHead + `<workbook xmlns="` + mainSpace + `" xmlns:r="` + strings.TrimSuffix(relationTypes, "/") + `"><sheets>` +
			tabs.String() + `</sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": xmlHead + `<Relationships xmlns="` + relationsSpace + `">` + relations.String() + `</Relationships>`,
		standInStyles:                styles,
		standInSheet:                 xmlHead + `<worksheet xmlns="` + mainSpace + `"><sheetData/></worksheet>`,
	}
	for _, name := range padding(base.parts) {
		parts[name] = ""
	}
	return parts, nil
}

var numbered = phrase.NewPattern(`^xl/(charts/chart|drawings/drawing|drawings/vmlDrawing|media/image|comments)(\d+)\.`)

// padding gives the names of empty parts that keep the library from taking names that are taken: it numbers a new chart
// by how many there are, and a workbook with one chart called chart2 would lose it.
func padding(parts map[string][]byte) (names []string) {
	highest := map[string]int{}
	for part := range parts {
		if found := numbered.FindStringSubmatch(part); found != nil {
			number, _ := strconv.Atoi(found[2])
			highest[found[1]] = max(highest[found[1]], number)
		}
	}
	for kind, number := range highest {
		for i := range min(number, 1<<16) {
			names = append(names, fmt.Sprintf("xl/%s%s%d", kind, padMark, i))
		}
	}
	return names
}

// otherStyles stand in it for the user's, so that ours get the numbers after theirs. None is like any of ours.
var otherStyles = []struct{ table, child, text string }{
	{"fonts", "font", `<font><name val="of the user"/></font>`},
	{"fills", "fill", `<fill><patternFill patternType="gray0625"/></fill>`},
	{"borders", "border", `<border><diagonal style="dashDotDot"/></border>`},
	{"cellXfs", "xf", `<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"><alignment indent="99" textRotation="77"/></xf>`},
}

// styles gives the style sheet of the stand-in: as many entries of each kind as the user's has. Those that are as plain as
// ours are the same in it, so that a workbook that is graded again does not get our styles twice.
func (d *standIn) styles(data []byte) (string, error) {
	_, list, err := children(data, "")
	if err != nil {
		return "", err
	}
	var text strings.Builder
	text.WriteString(xmlHead + `<styleSheet xmlns="` + mainSpace + `">`)
	inside := func(name string) (table element, entries []element, err error) {
		at := slices.IndexFunc(list, func(tagged element) bool { return tagged.name == name })
		if at < 0 {
			return table, nil, nil
		}
		_, entries, err = children(data[list[at].start:list[at].until], "")
		return list[at], entries, err
	}
	_, formats, err := inside("numFmts")
	if err != nil {
		return "", err
	}
	for _, element := range formats {
		number, ok := element.number("numFmtId")
		code, _ := element.attribute("formatCode")
		if !ok || number > 1<<16 {
			continue
		}
		if d.formats == 0 {
			text.WriteString(`<numFmts>`)
		}
		d.formats++
		fmt.Fprintf(&text, `<numFmt numFmtId="%d" formatCode="%s"/>`, number, escape(code))
	}
	if d.formats > 0 {
		text.WriteString(`</numFmts>`)
	}
	for _, other := range otherStyles {
		table, entries, err := inside(other.table)
		if err != nil {
			return "", err
		}
		text.WriteString("<" + other.table + ` count="` + strconv.Itoa(len(entries)) + `">`)
		for _, element := range entries {
			if whole := string(data[table.start+element.start : table.start+element.until]); isPlainStyle(whole) {
				text.WriteString(whole)
			} else {
				text.WriteString(other.text)
			}
		}
		text.WriteString("</" + other.table + ">")
	}
	return text.String() + `</styleSheet>`, nil
}

var (
	styleWord   = phrase.NewPattern(`^[A-Za-z]{1,30}$`)
	styleNumber = phrase.NewPattern(`^[0-9]{1,5}$`)
	styleSize   = phrase.NewPattern(`^[0-9]{1,3}(\.[0-9]{1,3})?$`)
	styleTruth  = phrase.NewPattern(`^(0|1|true|false)$`)
	styleTrue   = phrase.NewPattern(`^(1|true)$`)
	styleColour = phrase.NewPattern(`^[0-9A-F]{8}$`)
	styleName   = phrase.NewPattern(`^[A-Za-z ]{1,30}$`)
	styleNone   = phrase.NewPattern(`^0$`)
)

// plainStyle is what a plain style may hold: its elements, their attributes and what these may be.
var plainStyle = map[string]map[string]*phrase.Pattern{
	"font": {}, "b": {"val": styleTruth}, "i": {"val": styleTruth}, "u": {"val": styleWord}, "sz": {"val": styleSize},
	"color": {"rgb": styleColour}, "name": {"val": styleName}, "family": {"val": styleNumber},
	"fill": {}, "patternFill": {"patternType": styleWord}, "fgColor": {"rgb": styleColour}, "bgColor": {"rgb": styleColour},
	"border": {}, "left": {"style": styleWord}, "right": {"style": styleWord}, "top": {"style": styleWord}, "bottom": {"style": styleWord},
	"xf": {
		"numFmtId": styleNumber, "fontId": styleNumber, "fillId": styleNumber, "borderId": styleNumber, "xfId": styleNone,
		"applyNumberFormat": styleTrue, "applyFont": styleTrue, "applyFill": styleTrue, "applyBorder": styleTrue,
		"applyAlignment": styleTrue, "applyProtection": styleTrue,
	},
	"alignment":  {"horizontal": styleWord, "vertical": styleWord, "wrapText": styleTruth, "indent": styleNumber, "textRotation": styleNumber},
	"protection": {"locked": styleTruth, "hidden": styleTruth},
}

// isPlainStyle reports whether the library understands all of a style's entry.
func isPlainStyle(text string) bool {
	walk := tags{data: text}
	for {
		tag, err := walk.next()
		if err != nil || tag.kind == endOfPart {
			return err == nil
		}
		if tag.kind == endElement {
			continue
		}
		allowed, known := plainStyle[tag.name]
		if tag.prefix != "" || !known {
			return false
		}
		count := 0
		for name, form := range allowed {
			if value, given := tag.attribute(name); given {
				if count++; !form.MatchString(value) {
					return false
				}
			}
		}
		if strings.Count(tag.attributes, "=") != count {
			return false
		}
	}
}
