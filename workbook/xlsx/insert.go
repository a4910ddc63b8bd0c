package xlsx

import (
	"errors"
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
)

// The order in which the schema has the elements of a workbook (ECMA-376 part 1, 18.2.27) and of a style sheet (18.8.39).
var (
	workbookOrder = []string{
		"fileVersion", "fileSharing", "workbookPr", "workbookProtection", "bookViews", "sheets", "functionGroups",
		"externalReferences", "definedNames", "calcPr", "oleSize", "customWorkbookViews", "pivotCaches", "smartTagPr",
		"smartTagTypes", "webPublishing", "fileRecoveryPr", "webPublishObjects", "extLst",
	}
	stylesOrder = []string{
		"numFmts", "fonts", "fills", "borders", "cellStyleXfs", "cellXfs", "cellStyles", "dxfs", "tableStyles", "colors", "extLst",
	}
)

// insert adds entries to one of the tables inside the root of a part, at its end; the table is made at its place in the
// schema's order where it is missing. Nothing else of the part changes.
func (c *contents) insert(part, table string, order, entries []string) error {
	if len(entries) == 0 {
		return nil
	}
	data := c.parts[part]
	_, list, err := children(data, "")
	if err != nil {
		return err
	}
	at := slices.IndexFunc(list, func(tagged element) bool { return tagged.name == table })
	if at < 0 {
		count := ""
		if part == c.styles {
			count = ` count="` + strconv.Itoa(len(entries)) + `"`
		}
		return c.insertElement(part, table, order, "<"+table+count+">"+strings.Join(entries, "")+"</"+table+">")
	}
	within := list[at]
	_, inside, err := children(data[within.start:within.until], "")
	if err != nil {
		return err
	}
	tag := string(data[within.start:within.token.end])
	if _, counted := within.attribute("count"); counted {
		tag = withAttribute(tag, "count", strconv.Itoa(len(inside)+len(entries)))
	}
	text := withPrefix(within.prefix, strings.Join(entries, ""))
	if within.closed {
		tag = strings.TrimRight(strings.TrimSuffix(tag, "/>"), " \t\r\n") + ">"
		text += "</" + within.prefix + within.name + ">"
	}
	c.parts[part] = apply(data, []edit{{within.start, within.token.end, tag}, {within.inner, within.inner, text}})
	return nil
}

// insertElement adds an element inside the root of a part, at its place in the schema's order.
func (c *contents) insertElement(part, name string, order []string, text string) error {
	data := c.parts[part]
	root, list, err := children(data, "")
	if err != nil {
		return err
	}
	place := root.token.end
	for _, element := range list {
		if rank := slices.Index(order, element.name); rank >= 0 && rank < slices.Index(order, name) {
			place = element.until
		}
	}
	c.parts[part] = apply(data, []edit{{place, place, withPrefix(root.prefix, text)}})
	return nil
}

// addStandIn puts everything that the library has added to the stand-in into the package.
func (c *contents) addStandIn(d *standIn) error {
	made, err := partsOf(d.file)
	if err != nil {
		return err
	}
	library := &contents{parts: made}
	if err := c.addStyles(library, d); err != nil {
		return err
	}
	if err := c.addSheets(library, d); err != nil {
		return err
	}
	return c.addParts(library, d)
}

// addStyles adds the styles that the stand-in has more than the user's workbook.
func (c *contents) addStyles(library *contents, d *standIn) error {
	_, began, err := children(c.parts[c.styles], "")
	if err != nil {
		return err
	}
	_, tables, err := children(library.parts[standInStyles], "")
	if err != nil {
		return err
	}
	for _, table := range tables {
		text := library.parts[standInStyles][table.start:table.until]
		_, entries, err := children(text, "")
		if err != nil {
			return err
		}
		first := 0
		switch table.name {
		case "numFmts":
			first = d.formats
		case "fonts", "fills", "borders", "cellXfs":
			at := slices.IndexFunc(began, func(tagged element) bool { return tagged.name == table.name })
			_, theirs, err := children(c.parts[c.styles][began[at].start:began[at].until], "")
			if err != nil {
				return err
			}
			first = len(theirs)
		default:
			continue
		}
		var added []string
		for _, element := range entries[min(first, len(entries)):] {
			added = append(added, string(text[element.start:element.until]))
		}
		if err := c.insert(c.styles, table.name, stylesOrder, added); err != nil {
			return err
		}
		if _, began, err = children(c.parts[c.styles], ""); err != nil {
			return err
		}
	}
	return nil
}

// addSheets adds our sheets to the workbook's list, with their relationships and the defined names that the library gave
// them.
func (c *contents) addSheets(library *contents, d *standIn) error {
	root, _, err := children(c.parts[c.main], "")
	if err != nil {
		return err
	}
	prefix, declaration := prefixOf(root.token, strings.TrimSuffix(relationTypes, "/")), ""
	if prefix == "" {
		prefix, declaration = "r:", ` xmlns:r="`+strings.TrimSuffix(relationTypes, "/")+`"`
	}
	var sheets []string
	for _, sheet := range d.file.WorkBook.Sheets.Sheet[d.sheets:] {
		state := ""
		if sheet.State != "" {
			state = ` state="` + escape(sheet.State) + `"`
		}
		sheets = append(sheets, fmt.Sprintf(`<sheet name="%s" sheetId="%d"%s%s %sid="%s"/>`, escape(sheet.Name), sheet.SheetID, state, declaration, prefix, escape(sheet.ID)))
	}
	if err := c.insert(c.main, "sheets", workbookOrder, sheets); err != nil {
		return err
	}
	var names []string
	if d.file.WorkBook.DefinedNames != nil {
		for _, name := range d.file.WorkBook.DefinedNames.DefinedName {
			scope, hidden := "", ""
			if name.LocalSheetID != nil {
				scope = ` localSheetId="` + strconv.Itoa(*name.LocalSheetID) + `"`
			}
			if name.Hidden {
				hidden = ` hidden="1"`
			}
			names = append(names, `<definedName name="`+escape(name.Name)+`"`+scope+hidden+`>`+escape(name.Data)+`</definedName>`)
		}
	}
	if err := c.insert(c.main, "definedNames", workbookOrder, names); err != nil {
		return err
	}
	related, err := library.relations(standInMain)
	if err != nil {
		return err
	}
	var relations []string
	for _, relation := range related {
		if !d.ids[relation.ID] && relation.kind() == "worksheet" {
			relations = append(relations, `<Relationship Id="`+escape(relation.ID)+`" Type="`+escape(relation.Type)+`" Target="/`+escape(relation.Target)+`"/>`)
		}
	}
	return c.insertAtEnd(relationsPart(c.main), relations)
}

// prefixOf gives the prefix that a tag declares for a namespace, with its colon.
func prefixOf(tag token, space string) string {
	for _, declaration := range declarations(tag) {
		if declaration.space == space {
			return declaration.prefix + ":"
		}
	}
	return ""
}

// insertAtEnd adds entries at the end of a part's root.
func (c *contents) insertAtEnd(part string, entries []string) error {
	if len(entries) == 0 {
		return nil
	}
	data := c.parts[part]
	root, _, err := children(data, "")
	if err != nil {
		return err
	}
	text := withPrefix(root.prefix, strings.Join(entries, ""))
	if root.closed {
		tag := strings.TrimSuffix(string(data[root.start:root.token.end]), "/>") + ">"
		c.parts[part] = apply(data, []edit{{root.start, root.token.end, tag + text + "</" + root.prefix + root.name + ">"}})
		return nil
	}
	c.parts[part] = apply(data, []edit{{root.inner, root.inner, text}})
	return nil
}

// addParts adds the parts that the library made for our sheets, and says of what kind they are.
func (c *contents) addParts(library *contents, d *standIn) error {
	kinds, err := library.kinds()
	if err != nil {
		return err
	}
	known, err := c.kinds()
	if err != nil {
		return err
	}
	var names, types []string
	for name := range library.parts {
		if !d.began[name] {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	for _, name := range names {
		switch {
		case name == "xl/sharedStrings.xml":
			return errors.New("a text of our own sheets is not in its cell")
		case c.taken(name):
			return fmt.Errorf("the name of the part %s is taken", name)
		}
		if c.parts[name], err = withoutIdlePrefixes(library.parts[name]); err != nil {
			return err
		}
		if kind := kinds.of(name); kind != "" && known.of(name) != kind {
			types = append(types, `<Override PartName="/`+escape(name)+`" ContentType="`+escape(kind)+`"/>`)
		}
	}
	return c.insertAtEnd(contentTypesPart, types)
}

// withoutIdlePrefixes gives a part of the library's making without the forty prefixes that the library declares in each sheet,
// in seven hundred bytes when packed, where none of them is used in it.
func withoutIdlePrefixes(data []byte) ([]byte, error) {
	walk := tags{data: view(data)}
	root, err := walk.next()
	if err != nil || root.name != "worksheet" || root.prefix != "" {
		return data, err
	}
	declared := declarations(root)
	if len(declared) == 0 || usesPrefix(walk.data[root.end:], declared) {
		return data, nil
	}
	space, _ := root.attribute("xmlns")
	return apply(data, []edit{{root.start, root.end, "<" + root.name + ` xmlns="` + escape(space) + `">`}}), nil
}

// usesPrefix reports whether a tag or an attribute may have one of the prefixes.
func usesPrefix(text string, declared []declaredPrefix) bool {
	for {
		before, after, found := strings.Cut(text, ":")
		if !found {
			return false
		}
		if name := strings.LastIndexAny(before, "< ") + 1; name > 0 && slices.ContainsFunc(declared, func(space declaredPrefix) bool { return space.prefix == before[name:] }) {
			return true
		}
		text = after
	}
}

// partKinds are the content types of a package: by part name, and by extension.
type partKinds struct{ parts, extensions map[string]string }

func (c *contents) kinds() (partKinds, error) {
	kinds := partKinds{map[string]string{}, map[string]string{}}
	_, list, err := children(c.parts[contentTypesPart], "")
	for _, element := range list {
		kind, _ := element.attribute("ContentType")
		if part, given := element.attribute("PartName"); given {
			kinds.parts[strings.ToLower(strings.TrimPrefix(part, "/"))] = kind
		}
		if extension, given := element.attribute("Extension"); given {
			kinds.extensions[strings.ToLower(extension)] = kind
		}
	}
	return kinds, err
}

// of gives the content type of a part; empty where none is given.
func (k partKinds) of(part string) string {
	part = strings.ToLower(part)
	if kind, given := k.parts[part]; given {
		return kind
	}
	return k.extensions[strings.TrimPrefix(path.Ext(part), ".")]
}
