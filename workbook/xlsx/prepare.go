package xlsx

import (
	"strconv"
	"strings"
)

const (
	emptyStyles = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n" +
		`<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"></styleSheet>`
	stylesContentType = "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"
	relationTypes     = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
)

// prepare makes a package one that can be added to: styles with all the tables that a new style needs, and no calculation
// chain, which would name cells that are no more and which every program makes anew.
func (c *contents) prepare(name string) error {
	main, err := c.mainPart(name)
	if err != nil {
		return err
	}
	related, err := c.relations(main)
	if err != nil {
		return err
	}
	c.styles = ""
	for _, relation := range related {
		switch relation.kind() {
		case "calcChain":
			err = c.unlink(main, relation)
		case "styles":
			c.styles = relation.Target
		}
		if err != nil {
			return err
		}
	}
	if c.styles == "" {
		c.styles = c.freeName("xl/styles", ".xml")
		c.parts[c.styles] = []byte(emptyStyles)
		if err := c.link(main, "styles", c.styles, stylesContentType); err != nil {
			return err
		}
	}
	c.parts[c.styles], err = completeStyles(c.parts[c.styles])
	return err
}

// freeName gives a part's name that is not taken yet.
func (c *contents) freeName(stem, extension string) string {
	for number := 1; ; number++ {
		name := stem + extension
		if number > 1 {
			name = stem + strconv.Itoa(number) + extension
		}
		if !c.taken(name) {
			return name
		}
	}
}

// taken reports whether the package has a part of a name, whatever the letters' case.
func (c *contents) taken(name string) bool {
	if _, found := c.parts[name]; found {
		return true
	}
	for part := range c.parts {
		if strings.EqualFold(part, name) {
			return true
		}
	}
	return false
}

// styleTables are the tables that a style sheet must have before a style can be added to it, in the schema's order, each
// with what it holds at least.
var styleTables = []struct{ name, text string }{
	{"numFmts", ""},
	{"fonts", `<fonts count="1"><font><sz val="11"/><name val="Calibri"/><family val="2"/></font></fonts>`},
	{"fills", `<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>`},
	{"borders", `<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>`},
	{"cellStyleXfs", `<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>`},
	{"cellXfs", `<cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs>`},
}

// completeStyles adds the tables that a style sheet lacks; a new style refers to their first entries.
func completeStyles(data []byte) ([]byte, error) {
	root, list, err := children(data, "")
	if err != nil {
		return nil, err
	}
	if root.closed {
		data = []byte(emptyStyles)
		root, list, err = children(data, "")
		if err != nil {
			return nil, err
		}
	}
	var edits []edit
	for i, table := range styleTables {
		at, found := root.token.end, false
		for _, element := range list {
			for _, earlier := range styleTables[:i] {
				if element.name == earlier.name {
					at = element.until
				}
			}
			if element.name != table.name {
				continue
			}
			found = true
			if table.text != "" && holdsNothing(data[element.token.end:element.inner]) {
				edits = append(edits, edit{element.start, element.until, withPrefix(root.prefix, table.text)})
			}
		}
		if !found && table.text != "" {
			edits = append(edits, edit{at, at, withPrefix(root.prefix, table.text)})
		}
	}
	return apply(data, edits), nil
}

// holdsNothing reports whether the inside of an element has no element.
func holdsNothing(inside []byte) bool {
	_, list, err := children([]byte("<all>"+string(inside)+"</all>"), "")
	return err == nil && len(list) == 0
}

// withPrefix gives every tag of a text a namespace prefix.
func withPrefix(prefix, text string) string {
	if prefix == "" {
		return text
	}
	const hold = "\x00/"
	text = strings.ReplaceAll(text, "</", hold)
	text = strings.ReplaceAll(text, "<", "<"+prefix)
	return strings.ReplaceAll(text, hold, "</"+prefix)
}

// unlink takes a part out of the package, with its relationship and its content type.
func (c *contents) unlink(owner string, link relation) error {
	if err := c.editRelation(owner, link.ID, func(string) string { return "" }); err != nil {
		return err
	}
	return c.drop(link.Target)
}

// drop takes a part out of the package, with its relationships and its content type.
func (c *contents) drop(part string) error {
	delete(c.parts, part)
	delete(c.lists, part)
	delete(c.parts, relationsPart(part))
	return c.editContentType(part, func(string) string { return "" })
}

// link adds a relationship of the workbook's and the content type of the part it points to.
func (c *contents) link(owner, kind, part, contentType string) error {
	relations := relationsPart(owner)
	root, list, err := children(c.parts[relations], "")
	if err != nil {
		return err
	}
	ids := map[string]bool{}
	for _, element := range list {
		id, _ := element.attribute("Id")
		ids[id] = true
	}
	id := "rIdRailbook" + kind
	for ids[id] {
		id += "x"
	}
	c.parts[relations] = apply(c.parts[relations], []edit{{
		root.inner, root.inner,
		withPrefix(root.prefix, `<Relationship Id="`+id+`" Type="`+relationTypes+kind+`" Target="/`+part+`"/>`),
	}})
	root, _, err = children(c.parts[contentTypesPart], "")
	if err != nil {
		return err
	}
	c.parts[contentTypesPart] = apply(c.parts[contentTypesPart], []edit{{
		root.inner, root.inner,
		withPrefix(root.prefix, `<Override PartName="/`+part+`" ContentType="`+contentType+`"/>`),
	}})
	return nil
}

// editRelation changes the tag of one relationship; an empty tag takes it out.
func (c *contents) editRelation(owner, id string, change func(tag string) string) error {
	return c.editTag(relationsPart(owner), "Id", func(value string) bool { return value == id }, change)
}

// editContentType changes the tag of a part's content type; an empty tag takes it out.
func (c *contents) editContentType(part string, change func(tag string) string) error {
	return c.editTag(contentTypesPart, "PartName", func(value string) bool { return strings.EqualFold(value, "/"+part) }, change)
}

func (c *contents) editTag(part, attribute string, is func(value string) bool, change func(tag string) string) error {
	data, found := c.parts[part]
	if !found {
		return nil
	}
	_, list, err := children(data, "")
	if err != nil {
		return err
	}
	var edits []edit
	for _, element := range list {
		value, _ := element.attribute(attribute)
		if !is(value) {
			continue
		}
		if tag := change(string(data[element.start:element.token.end])); tag == "" {
			edits = append(edits, edit{element.start, element.until, ""})
		} else {
			edits = append(edits, edit{element.start, element.token.end, tag})
		}
	}
	c.parts[part] = apply(data, edits)
	return nil
}
