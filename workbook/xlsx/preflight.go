package xlsx

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"maps"
	"path"
	"slices"
	"strings"
)

// sheetPart is a worksheet and the part that holds it.
type sheetPart struct {
	name   string
	hidden bool
	part   string
}

// readPackage unpacks a workbook and makes sure that all of it is there, before any of it is believed.
func (b *Book) readPackage(name string, file io.ReaderAt, size int64, unread func(mark string) bool) error {
	all, err := unpack(name, file, size, unread)
	if err != nil {
		return err
	}
	b.contents = all
	main, err := all.mainPart(name)
	if err != nil {
		return err
	}
	if err := b.fromStrict(name, main); err != nil {
		return err
	}
	lost, err := b.checkTargets(name, main)
	if err != nil {
		return err
	}
	if err := b.listSheets(name, main); err != nil {
		return err
	}
	b.noteLost(lost)
	for _, sheet := range b.sheets {
		if err := all.whole(sheet.part); err != nil {
			return errDamaged(name, sheet.part, fmt.Sprintf("the sheet %q is not all there: %v", sheet.name, err))
		}
	}
	if err := b.readWorkbookTables(name, main); err != nil {
		return err
	}
	if err := b.checkParts(name); err != nil {
		return err
	}
	marks, err := b.marks()
	b.Text = slices.ContainsFunc(marks, func(found mark) bool { return found.name == textMark })
	return err
}

// readWorkbookTables reads what all sheets of a workbook share: formats and texts.
func (b *Book) readWorkbookTables(name, main string) error {
	related, err := b.contents.relations(main)
	if err != nil {
		return errDamaged(name, relationsPart(main), err.Error())
	}
	b.strings = &sharedStrings{}
	for _, relation := range related {
		switch relation.kind() {
		case "styles":
			if b.styles, err = readFormats(b.contents.parts[relation.Target]); err != nil {
				return errDamaged(name, relation.Target, err.Error())
			}
		case "sharedStrings":
			if err := b.contents.whole(relation.Target); err != nil {
				return errDamaged(name, relation.Target, "the texts of the sheets are not all there: "+err.Error())
			}
			b.strings.part, b.strings.data, b.strings.listing = relation.Target, b.contents.parts[relation.Target], b.contents.lists[relation.Target]
		}
	}
	return nil
}

// mainPart finds the workbook's own part in the package, and names other kinds of packages.
func (c *contents) mainPart(name string) (main string, err error) {
	if c.main == "" {
		c.main, err = c.findMainPart(name)
	}
	return c.main, err
}

func (c *contents) findMainPart(name string) (string, error) {
	if kind := bytes.TrimSpace(c.parts["mimetype"]); bytes.HasPrefix(kind, []byte("application/vnd.oasis.opendocument")) {
		if bytes.Contains(kind, []byte("spreadsheet")) {
			return "", &OtherFormat{name, name + " is an OpenDocument spreadsheet (.ods), not an Excel workbook: open it in LibreOffice and save it as Excel (.xlsx)"}
		}
		return "", fmt.Errorf("%s is an OpenDocument file, not an Excel workbook: copy its table into a spreadsheet and save that as .xlsx", name)
	}
	for part := range c.parts {
		switch {
		case strings.HasPrefix(part, "word/"):
			return "", fmt.Errorf("%s is a Word document (.docx), not an Excel workbook: copy its table into a spreadsheet and save that as .xlsx", name)
		case strings.HasPrefix(part, "ppt/"):
			return "", fmt.Errorf("%s is a PowerPoint file, not an Excel workbook: copy its table into a spreadsheet and save that as .xlsx", name)
		case part == "xl/workbook.bin":
			return "", fmt.Errorf("%s is a binary Excel workbook (.xlsb): open it in Excel or LibreOffice and save it as .xlsx", name)
		case part == "Index/Document.iwa" || strings.HasPrefix(part, "Index/Tables/"):
			return "", fmt.Errorf("%s is a Numbers file, not an Excel workbook: export it from Numbers as Excel (.xlsx)", name)
		}
	}
	if len(c.parts) == 0 {
		return "", fmt.Errorf("%s is an empty ZIP file, not an Excel workbook: ask for the file again", name)
	}
	_, typed := c.parts[contentTypesPart]
	_, related := c.parts[rootRelations]
	if !typed && !related {
		return "", fmt.Errorf("%s is a ZIP file, not an Excel workbook: unpack it and name the workbook in it", name)
	}
	for _, part := range []string{contentTypesPart, rootRelations} {
		if _, found := c.parts[part]; !found {
			return "", errDamaged(name, part, "it is missing")
		}
	}
	top, err := c.relations("")
	if err != nil {
		return "", errDamaged(name, rootRelations, err.Error())
	}
	for _, relation := range top {
		if relation.kind() != "officeDocument" {
			continue
		}
		if _, found := c.parts[relation.Target]; !found {
			return "", errDamaged(name, relation.Target, "it is missing")
		}
		if !c.typed(relation.Target) {
			return "", errDamaged(name, contentTypesPart, "it does not say what "+relation.Target+" is, so that no program would open it")
		}
		return relation.Target, nil
	}
	return "", errDamaged(name, rootRelations, "it names no workbook")
}

// typed reports whether the package says what kind of part one is, of itself or by its extension.
func (c *contents) typed(part string) bool {
	var types struct {
		Defaults []struct {
			Extension string `xml:",attr"`
		} `xml:"Default"`
		Overrides []struct {
			PartName string `xml:",attr"`
		} `xml:"Override"`
	}
	if err := xml.Unmarshal(c.parts[contentTypesPart], &types); err != nil {
		return true // what is wrong with it is said when it is read for itself
	}
	for _, known := range types.Overrides {
		if strings.EqualFold(canonicalPart(known.PartName), part) {
			return true
		}
	}
	for _, known := range types.Defaults {
		if strings.EqualFold("."+known.Extension, path.Ext(part)) {
			return true
		}
	}
	return false
}

// checkTargets makes sure that every part another one speaks of is in the package. What the workbook itself lacks is
// damage; what only hangs on a sheet (a picture, a printer's settings) or is harmless is lost, and listed by the part that speaks
// of it: harmless parts by none.
func (b *Book) checkTargets(name, main string) (lost map[string][]string, err error) {
	lost = make(map[string][]string)
	for part := range b.contents.parts {
		owner, is := ownerOf(part)
		if !is {
			continue
		}
		related, err := b.contents.relations(owner)
		if err != nil {
			return nil, errDamaged(name, part, err.Error())
		}
		for _, relation := range related {
			_, found := b.contents.parts[relation.Target]
			if found || relation.TargetMode == "External" || relation.kind() == "hyperlink" || relation.kind() == "calcChain" {
				continue
			}
			switch {
			case harmlessKinds[relation.kind()]:
				if err := b.contents.unlink(owner, relation); err != nil {
					return nil, errDamaged(name, part, err.Error())
				}
				lost[""] = append(lost[""], relation.Target)
			case owner == main || relation.kind() == "table":
				return nil, errDamaged(name, relation.Target, "it is missing")
			default:
				lost[owner] = append(lost[owner], relation.Target)
			}
		}
	}
	return lost, nil
}

// noteLost says which parts are missing: those of a sheet of that sheet, and those of a drawing or a chart of the workbook.
func (b *Book) noteLost(lost map[string][]string) {
	listed := func(parts []string) string {
		slices.Sort(parts)
		return strings.Join(slices.Compact(parts), ", ")
	}
	if harmless := lost[""]; len(harmless) > 0 {
		b.note("", PartMissing, "the workbook lacks parts that it speaks of and no cell depends on (%s), and what is written from it does without them. Colours, fonts or properties may be other than they were; nothing needs to be done for the contest.", listed(harmless))
	}
	delete(lost, "")
	const missed = "a picture, a chart or a print setting is missing. The cells are all there; ask for the file again only if what is missing is needed."
	for _, sheet := range b.sheets {
		if parts := lost[sheet.part]; len(parts) > 0 {
			b.note(sheet.name, PartMissing, "the sheet speaks of parts that the workbook lacks (%s): "+missed, listed(parts))
		}
		delete(lost, sheet.part)
	}
	if others := slices.Concat(slices.Collect(maps.Values(lost))...); len(others) > 0 {
		b.note("", PartMissing, "drawings of the workbook speak of parts that it lacks (%s): "+missed, listed(others))
	}
}

// listSheets finds the worksheets in the order of their tabs.
func (b *Book) listSheets(name, main string) error {
	var workbook struct {
		Properties struct {
			Date1904 string `xml:"date1904,attr"`
		} `xml:"workbookPr"`
		Sheets []struct {
			Name  string     `xml:"name,attr"`
			State string     `xml:"state,attr"`
			Attrs []xml.Attr `xml:",any,attr"`
		} `xml:"sheets>sheet"`
	}
	if err := b.contents.whole(main); err != nil {
		return errDamaged(name, main, err.Error())
	}
	if err := xml.Unmarshal(b.contents.parts[main], &workbook); err != nil {
		return errDamaged(name, main, "it is no longer readable")
	}
	b.date1904 = workbook.Properties.Date1904 == "1" || workbook.Properties.Date1904 == "true"
	related, err := b.contents.relations(main)
	if err != nil {
		return errDamaged(name, relationsPart(main), err.Error())
	}
	b.sheets = nil
	for _, sheet := range workbook.Sheets {
		if sheet.Name == "" {
			return errDamaged(name, main, "it has a sheet without a name")
		}
		id := relationID(sheet.Attrs)
		at := slices.IndexFunc(related, func(link relation) bool { return link.ID == id })
		if at < 0 {
			return errDamaged(name, relationsPart(main), fmt.Sprintf("it does not say where the sheet %q is", sheet.Name))
		}
		if related[at].kind() != "worksheet" {
			continue
		}
		b.sheets = append(b.sheets, sheetPart{name: sheet.Name, part: related[at].Target, hidden: sheet.State == "hidden" || sheet.State == "veryHidden"})
	}
	if len(b.sheets) == 0 {
		return fmt.Errorf("%s has no worksheets: it has nothing to read. Check that it is the right file", name)
	}
	return nil
}

// relationID finds r:id whatever its prefix.
func relationID(attributes []xml.Attr) string {
	for _, attribute := range attributes {
		if attribute.Name.Local == "id" && strings.Contains(attribute.Name.Space, "relationships") {
			return attribute.Value
		}
	}
	return ""
}

// whole makes sure that a part is readable and ends with its root element's end tag: a quick look, before the scan
// checks every tag.
func (c *contents) whole(part string) error {
	data, found := c.parts[part]
	if !found {
		return errors.New("it is missing")
	}
	if len(bytes.TrimSpace(data)) == 0 {
		return errors.New("it is empty")
	}
	if err := readable(data); err != nil {
		return err
	}
	walk := tags{data: view(data)}
	root, err := walk.next()
	if err != nil {
		return err
	}
	tail := bytes.TrimRight(data, " \t\r\n\x00")
	for bytes.HasSuffix(tail, []byte("-->")) {
		tail = bytes.TrimRight(tail[:max(0, bytes.LastIndex(tail, []byte("<!--")))], " \t\r\n")
	}
	if !root.closed && !bytes.HasSuffix(tail, []byte("</"+root.prefix+root.name+">")) {
		return fmt.Errorf("it ends in the middle: <%s%s> is never closed", root.prefix, root.name)
	}
	return nil
}
