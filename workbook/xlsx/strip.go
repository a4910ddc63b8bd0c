package xlsx

import (
	"bytes"
	"errors"
	"fmt"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// Strip takes out everything of ours (sheets and columns known by their defined names, flag rules, hints), so that a
// results workbook is again the workbook it was made from, but for values that people changed. It reports whether
// anything was there. Strip before anything is added.
func (b *Book) Strip() (found bool, err error) {
	if b.contents == nil {
		return false, nil
	}
	if b.file != nil {
		return false, errors.New("a workbook can be stripped only before anything is added to it")
	}
	marks, err := b.marks()
	if err != nil {
		return false, err
	}
	marks = slices.DeleteFunc(marks, func(found mark) bool {
		return found.name == textMark || strings.HasPrefix(found.name, rulebookMark)
	})
	if err := b.stripColumns(marks); err != nil {
		return false, err
	}
	changed, err := b.stripRules()
	if err != nil {
		return false, err
	}
	front := b.stripFront(marks)
	if err := b.stripSheets(marks, front); err != nil {
		return false, err
	}
	return changed || len(marks) > 0, nil
}

// stripRules takes the flag rules and the hints out of every sheet.
func (b *Book) stripRules() (changed bool, err error) {
	for _, sheet := range b.sheets {
		data := b.contents.parts[sheet.part]
		if !bytes.Contains(data, []byte("railbook flag")) && !bytes.Contains(data, []byte(hintTitle)) {
			continue
		}
		edits, err := rulesOfOurs(data)
		if err != nil {
			return false, errDamaged(filepath.Base(b.Path), sheet.part, fmt.Sprintf("the sheet %q is not readable: %v", sheet.name, err))
		}
		changed = changed || len(edits) > 0
		b.contents.parts[sheet.part] = apply(data, edits)
	}
	return changed, nil
}

// rulesOfOurs finds the flag rules and the hints on a sheet.
func rulesOfOurs(data []byte) ([]edit, error) {
	_, list, err := children(data, "")
	if err != nil {
		return nil, err
	}
	var edits []edit
	for _, element := range list {
		sign := map[string]string{"conditionalFormatting": "railbook flag", "dataValidations": hintTitle}[element.name]
		if sign == "" {
			continue
		}
		_, inside, err := children(data[element.start:element.until], "")
		if err != nil {
			return nil, err
		}
		var ours []edit
		for _, rule := range inside {
			if bytes.Contains(data[element.start+rule.start:element.start+rule.until], []byte(sign)) {
				ours = append(ours, edit{element.start + rule.start, element.start + rule.until, ""})
			}
		}
		switch {
		case len(ours) == 0:
		case len(ours) == len(inside):
			edits = append(edits, edit{element.start, element.until, ""})
		default:
			if count, counted := element.number("count"); counted {
				tag := string(data[element.start:element.token.end])
				edits = append(edits, edit{element.start, element.token.end, withAttribute(tag, "count", strconv.Itoa(max(0, count-len(ours))))})
			}
			edits = append(edits, ours...)
		}
	}
	return edits, nil
}

// stripSheets takes our sheets out of the package, with all that only they use, and our defined names.
func (b *Book) stripSheets(marks []mark, front int) error {
	all := b.contents
	main, err := all.mainPart(b.Path)
	if err != nil {
		return err
	}
	if !slices.ContainsFunc(marks, func(mark) bool { return true }) && !bytes.Contains(all.parts[main], []byte(ownMark)) {
		return nil
	}
	ours := map[string]bool{}
	for _, mark := range marks {
		if strings.HasPrefix(mark.name, sheetMark) {
			ours[mark.sheet] = true
		}
	}
	before := all.reachable()
	stripped, gone, err := stripWorkbook(all.parts[main], ours, areasOfOurs(marks), front)
	if err != nil {
		return errDamaged(filepath.Base(b.Path), main, err.Error())
	}
	all.parts[main] = stripped
	for _, id := range gone {
		if err := all.editRelation(main, id, func(string) string { return "" }); err != nil {
			return errDamaged(filepath.Base(b.Path), relationsPart(main), err.Error())
		}
	}
	after := all.reachable()
	for part := range before {
		if !after[part] {
			if err := all.drop(part); err != nil {
				return errDamaged(filepath.Base(b.Path), contentTypesPart, err.Error())
			}
		}
	}
	return b.listSheets(filepath.Base(b.Path), main)
}

// reachable gives every part that the package's relationships lead to.
func (c *contents) reachable() map[string]bool {
	reached := map[string]bool{}
	var follow func(part string)
	follow = func(part string) {
		related, err := c.relations(part)
		if err != nil {
			return
		}
		for _, relation := range related {
			if _, exists := c.parts[relation.Target]; relation.TargetMode != "External" && exists && !reached[relation.Target] {
				reached[relation.Target] = true
				follow(relation.Target)
			}
		}
	}
	follow("")
	return reached
}

// stripWorkbook takes sheets and our defined names out of the workbook's own part. It gives the relationship ids of the
// sheets that are gone.
func stripWorkbook(data []byte, ours map[string]bool, areas map[string]string, front int) (stripped []byte, gone []string, err error) {
	_, list, err := children(data, "")
	if err != nil {
		return nil, nil, err
	}
	var edits []edit
	moved := map[int]int{} // the index of a sheet before and after; -1 for one that is gone
	printed := map[int]string{}
	for _, element := range list {
		if element.name != "sheets" {
			continue
		}
		_, sheets, err := children(data[element.start:element.until], "")
		if err != nil {
			return nil, nil, err
		}
		kept := 0
		for i, sheet := range sheets {
			name, _ := sheet.attribute("name")
			moved[i], printed[i] = kept, areas[name]
			if !ours[name] {
				kept++
				continue
			}
			moved[i] = -1
			gone = append(gone, relationOf(sheet.token))
			edits = append(edits, edit{element.start + sheet.start, element.start + sheet.until, ""})
		}
		if kept == 0 {
			return nil, nil, errors.New("all its sheets are results; grade the workbook they were made from")
		}
	}
	for _, element := range list {
		var some []edit
		switch element.name {
		case "definedNames":
			some, err = stripNames(data, element, moved, printed)
		case "bookViews":
			some, err = stripViews(data, element, moved, front)
		}
		if err != nil {
			return nil, nil, err
		}
		edits = append(edits, some...)
	}
	return apply(data, edits), gone, nil
}

// relationOf gives the r:id of a <sheet>, whatever the prefix.
func relationOf(sheet token) string {
	for _, field := range strings.Fields(sheet.attributes) {
		if name, _, found := strings.Cut(field, "="); found && path.Base(strings.ReplaceAll(name, ":", "/")) == "id" && strings.Contains(name, ":") {
			id, _ := sheet.attribute(name)
			return id
		}
	}
	return ""
}

// stripNames takes our defined names out, and those of our sheets, and the print areas that we gave sheets of the user's;
// the others keep to their sheets.
func stripNames(data []byte, names element, moved map[int]int, printed map[int]string) ([]edit, error) {
	_, list, err := children(data[names.start:names.until], "")
	if err != nil {
		return nil, err
	}
	var edits []edit
	kept := 0
	for _, element := range list {
		name, _ := element.attribute("name")
		local, isLocal := element.number("localSheetId")
		to, known := moved[local]
		text := characters(string(data[names.start+element.token.end : names.start+element.inner]))
		area := wholeColumns.FindStringSubmatch(text)
		switch {
		case strings.EqualFold(name, printArea) && isLocal && area != nil && area[1] == printed[local]:
			edits = append(edits, edit{names.start + element.start, names.start + element.until, ""})
			continue
		case strings.HasPrefix(name, ownMark) && name != textMark && !strings.HasPrefix(name, rulebookMark), isLocal && known && to < 0:
			edits = append(edits, edit{names.start + element.start, names.start + element.until, ""})
			continue
		case isLocal && known && to != local:
			tag := string(data[names.start+element.start : names.start+element.token.end])
			edits = append(edits, edit{names.start + element.start, names.start + element.token.end, withAttribute(tag, "localSheetId", strconv.Itoa(to))})
		}
		kept++
	}
	if kept == 0 {
		return []edit{{names.start, names.until, ""}}, nil
	}
	return edits, nil
}

// stripViews makes the sheet that is in front stay there, or, where that was one of ours, the one that was in front before.
func stripViews(data []byte, views element, moved map[int]int, front int) ([]edit, error) {
	_, list, err := children(data[views.start:views.until], "")
	if err != nil {
		return nil, err
	}
	var edits []edit
	for _, element := range list {
		was := string(data[views.start+element.start : views.start+element.token.end])
		tag := was
		for _, name := range []string{"activeTab", "firstSheet"} {
			index, given := element.number(name)
			to, known := moved[index]
			switch {
			case name == "firstSheet" && (index == 0 || known && to < 0):
				to = 0
			case known && to < 0:
				to = front
			}
			if given && known && to != index {
				tag = withAttribute(tag, name, strconv.Itoa(to))
			}
		}
		if tag != was {
			edits = append(edits, edit{views.start + element.start, views.start + element.token.end, tag})
		}
	}
	return edits, nil
}
