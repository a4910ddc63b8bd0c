package xlsx

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Front makes a sheet that NewSheet added the one in front, and the only one selected, when the workbook is opened: two
// selected sheets are a group, and what is typed into one goes into both. Strip brings back what was in front.
func (b *Book) Front(sheet string) error {
	if _, ours := b.added[sheet]; !ours {
		return fmt.Errorf("the sheet %q was not added by the program, so it can't be brought to the front", sheet)
	}
	b.front, b.saved = sheet, nil
	return nil
}

var (
	selectedView = regexp.MustCompile(`(<(?:[A-Za-z_][\w.-]*:)?sheetView\s[^>]*?\btabSelected\s*=\s*["'])(1|true)(["'])`)
	resting      = regexp.MustCompile(`(<(?:[A-Za-z_][\w.-]*:)?sheetView\s[^>]*?\btabSelected\s*=\s*["'])(0|false)(["'])`)
	anyView      = regexp.MustCompile(`<(?:[A-Za-z_][\w.-]*:)?sheetView\b[^>]*>`)
	bookView     = regexp.MustCompile(`<(?:[A-Za-z_][\w.-]*:)?workbookView\b[^>]*>`)
)

// viewsEnd is where a sheet's views end at the latest: its data begin.
func viewsEnd(data []byte) int {
	if end := bytes.Index(data, []byte("sheetData")); end >= 0 {
		return end
	}
	return len(data)
}

// inViews replaces the first match of a pattern in a sheet's views.
func inViews(data []byte, pattern *regexp.Regexp, with string) (changed []byte, found bool) {
	at := pattern.FindSubmatchIndex(data[:viewsEnd(data)])
	if at == nil {
		return data, false
	}
	text := pattern.Expand(nil, []byte(with), data, at)
	return bytes.Join([][]byte{data[:at[0]], text, data[at[1]:]}, nil), true
}

// rememberFront writes into the comment of the front sheet's mark which of the user's sheets were selected and which was
// in front.
func (b *Book) rememberFront() {
	var selected []int
	if b.contents != nil {
		for i, sheet := range b.sheets {
			if data := b.contents.parts[sheet.part]; selectedView.Match(data[:viewsEnd(data)]) {
				selected = append(selected, i)
			}
		}
	}
	for _, mark := range b.moved {
		if mark.sheet == b.front && strings.HasPrefix(mark.name, sheetMark) {
			mark.comment = fmt.Sprintf("front %d; selected %s", b.base.frontTab(), numberList(selected))
			b.setMark(mark)
			break
		}
	}
}

// frontTab gives the tab that is in front as the workbook has it, be there such a tab or not.
func (c *contents) frontTab() int {
	_, views, err := children(c.parts[c.main], "bookViews")
	if err != nil || len(views) == 0 {
		return 0
	}
	given, _ := views[0].attribute("activeTab")
	tab, _ := strconv.Atoi(given)
	return tab
}

// bringToFront selects the front sheet alone in the parts as they will be written.
func (b *Book) bringToFront(made *contents) error {
	parts := made.parts
	index, err := b.file.GetSheetIndex(b.front)
	if err != nil || index < 0 {
		return fmt.Errorf("the sheet %q can't be brought to the front: it is not there", b.front)
	}
	main, tag := made.main, []byte(nil)
	if tag = bookView.Find(parts[main]); tag == nil {
		return nil // without a view the first sheet is in front, and nothing is selected
	}
	parts[main] = bytes.Replace(parts[main], tag, []byte(withAttribute(string(tag), "activeTab", strconv.Itoa(index))), 1)
	for part, data := range parts {
		if b.isSheet(part) || strings.HasPrefix(part, "xl/worksheets/") && strings.HasSuffix(part, ".xml") {
			parts[part], _ = inViews(data, selectedView, "${1}0${3}")
		}
	}
	part := b.added[b.front]
	data := parts[part]
	if view := anyView.FindIndex(data[:viewsEnd(data)]); view != nil {
		chosen := withAttribute(string(data[view[0]:view[1]]), "tabSelected", "1")
		parts[part] = bytes.Join([][]byte{data[:view[0]], []byte(chosen), data[view[1]:]}, nil)
	}
	return nil
}

// stripFront selects again what was selected before a sheet of ours came to the front, unless somebody has chosen
// another sheet since. It gives the tab that was in front.
func (b *Book) stripFront(marks []mark) (tab int) {
	users := slices.DeleteFunc(slices.Clone(b.sheets), func(sheet sheetPart) bool {
		return slices.ContainsFunc(marks, func(found mark) bool { return strings.HasPrefix(found.name, sheetMark) && found.sheet == sheet.name })
	})
	for _, mark := range marks {
		comment, found := strings.CutPrefix(mark.comment, "front ")
		if !found {
			continue
		}
		front, list, _ := strings.Cut(comment, "; selected ")
		tab, _ = strconv.Atoi(front)
		if slices.ContainsFunc(b.sheets, func(sheet sheetPart) bool {
			data := b.contents.parts[sheet.part]
			return sheet.name != mark.sheet && selectedView.Match(data[:viewsEnd(data)])
		}) {
			return tab
		}
		for _, i := range readNumbers(list) {
			if i < len(users) {
				part := users[i].part
				b.contents.parts[part], _ = inViews(b.contents.parts[part], resting, "${1}1${3}")
			}
		}
	}
	return tab
}
