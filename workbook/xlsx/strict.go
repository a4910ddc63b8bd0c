package xlsx

import (
	"bytes"
	"fmt"
	"strings"
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

// usualNames puts the usual names for the Strict ones, where they begin the value of an attribute.
var usualNames = func() *strings.Replacer {
	var pairs []string
	for _, name := range strictNames {
		for _, quote := range []string{`"`, `'`} {
			for _, end := range []string{quote, "/"} {
				pairs = append(pairs, quote+strictStart+name[0]+end, quote+"http://schemas.openxmlformats.org/"+name[1]+end)
			}
		}
	}
	return strings.NewReplacer(pairs...)
}()

// fromStrict puts the usual names into a Strict workbook, or refuses it where it has a name that is not known.
func (b *Book) fromStrict(name, main string) error {
	const conformance = ` conformance="strict"`
	c := b.contents
	strict := bytes.Contains(c.parts[main], []byte(conformance))
	for part, data := range c.parts {
		if !isMarkup(part) || !bytes.Contains(data, []byte(strictStart)) {
			continue
		}
		strict = true
		usual := []byte(usualNames.Replace(string(data)))
		for _, quote := range []string{`"`, `'`} {
			if bytes.Contains(usual, []byte("="+quote+strictStart)) {
				return fmt.Errorf("%s is saved as \"Strict Open XML\", with something in its part %s that only Excel knows: open it in Excel, choose Save As, \"Excel Workbook (.xlsx)\", and use that", name, part)
			}
		}
		c.parts[part] = usual
	}
	if !strict {
		return nil
	}
	c.parts[main] = bytes.Replace(c.parts[main], []byte(conformance), nil, 1)
	b.warnings = append(b.warnings, fmt.Sprintf("%s is saved as \"Strict Open XML\". What is written from it is an ordinary Excel workbook.", name))
	return nil
}
