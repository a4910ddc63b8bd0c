package xlsx

import (
	"bytes"
	"fmt"
	"slices"
)

// The Strict variety of the format (ISO/IEC 29500-1) has other names for the same things than the usual one (ISO/IEC
// 29500-4, "Transitional"), which allows all that Strict does. So a Strict workbook is read under the usual names, and what is
// written from it is in the usual form. The pairs are from memory.
const strictStart = "http://purl.oclc.org/ooxml/"

// strictNames are the namespaces, and the beginnings of the kinds of relationships, after strictStart.
var strictNames = [][2]string{
	{"officeDocument/relationships/extendedProperties", "officeDocument/2006/relationships/extended-properties"},
	{"officeDocument/relationships/customProperties", "officeDocument/2006/relationships/custom-properties"},
	{"officeDocument/relationships", "officeDocument/2006/relationships"},
	{"officeDocument/extendedProperties", "officeDocument/2006/extended-properties"},
	{"officeDocument/customProperties", "officeDocument/2006/custom-properties"},
	{"officeDocument/docPropsVTypes", "officeDocument/2006/docPropsVTypes"},
	{"officeDocument/sharedTypes", "officeDocument/2006/sharedTypes"},
	{"officeDocument/customXml", "officeDocument/2006/customXml"},
	{"officeDocument/math", "officeDocument/2006/math"},
	{"officeDocument/bibliography", "officeDocument/2006/bibliography"},
	{"spreadsheetml/main", "spreadsheetml/2006/main"},
	{"wordprocessingml/main", "wordprocessingml/2006/main"},
	{"presentationml/main", "presentationml/2006/main"},
	{"drawingml/spreadsheetDrawing", "drawingml/2006/spreadsheetDrawing"},
	{"drawingml/wordprocessingDrawing", "drawingml/2006/wordprocessingDrawing"},
	{"drawingml/chartDrawing", "drawingml/2006/chartDrawing"},
	{"drawingml/chart", "drawingml/2006/chart"},
	{"drawingml/diagram", "drawingml/2006/diagram"},
	{"drawingml/lockedCanvas", "drawingml/2006/lockedCanvas"},
	{"drawingml/picture", "drawingml/2006/picture"},
	{"drawingml/main", "drawingml/2006/main"},
	{"schemaLibrary/main", "schemaLibrary/2006/main"},
}

// usualForm puts the usual names for the Strict ones where they begin the value of an attribute, and says whether there were any and
// whether one is not known. What a cell says is left as it is.
func usualForm(data []byte) (usual []byte, strict, unknown bool) {
	copied := 0
	for at := 0; ; {
		found := bytes.Index(data[at:], []byte(strictStart))
		if found < 0 {
			break
		}
		at += found
		name, after := at, at+len(strictStart)
		at = after
		tag := bytes.LastIndexByte(data[:name], '<')
		if tag < 0 || bytes.IndexByte(data[tag:name], '>') >= 0 || data[name-1] != '"' && data[name-1] != '\'' {
			continue
		}
		strict = true
		known := slices.IndexFunc(strictNames, func(pair [2]string) bool {
			rest, begins := bytes.CutPrefix(data[after:], []byte(pair[0]))
			return begins && len(rest) > 0 && (rest[0] == data[name-1] || rest[0] == '/')
		})
		if known < 0 {
			return data, true, true
		}
		usual = append(append(append(usual, data[copied:name]...), "http://schemas.openxmlformats.org/"...), strictNames[known][1]...)
		copied = after + len(strictNames[known][0])
	}
	return append(usual, data[copied:]...), strict, false
}

// fromStrict puts the usual names into a Strict workbook, or refuses it where it has a name that is not known.
func (b *Book) fromStrict(name, main string) error {
	const conformance = ` conformance="strict"`
	c := b.contents
	strict := bytes.Contains(c.parts[main], []byte(conformance))
	for part, data := range c.parts {
		if list := c.lists[part]; list != nil && list.strict {
			return fmt.Errorf("%s is saved as \"Strict Open XML\", with names in the rows of its part %s: open it in Excel, choose Save As, \"Excel Workbook (.xlsx)\", and use that", name, part)
		}
		if !isMarkup(part) || !bytes.Contains(data, []byte(strictStart)) {
			continue
		}
		usual, found, unknown := usualForm(data)
		switch {
		case unknown:
			return fmt.Errorf("%s is saved as \"Strict Open XML\", with something in its part %s that only Excel knows: open it in Excel, choose Save As, \"Excel Workbook (.xlsx)\", and use that", name, part)
		case found:
			c.parts[part], strict = usual, true
		}
	}
	if !strict {
		return nil
	}
	c.parts[main] = bytes.Replace(c.parts[main], []byte(conformance), nil, 1)
	b.note("", StrictForm, "the workbook is saved as \"Strict Open XML\". All of it was read, and what is written from it is an ordinary Excel workbook; nothing needs to be done.")
	return nil
}
