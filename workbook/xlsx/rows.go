package xlsx

import (
	"strings"

	"railbook/rules/address"
)

// skipRow moves past a row that has just begun. Where the sheet is plain (it has no comments and no CDATA) the text
// </row> can't be anything else, and the tags inside need not be looked at.
func (t *tags) skipRow(row token, plain bool) (token, error) {
	if row.closed || !plain {
		return t.skip(row)
	}
	at := strings.Index(t.data[row.end:], "</"+row.prefix+"row>")
	if at < 0 {
		return token{}, &damage{row.start, "the row is never closed"}
	}
	t.at = row.end + at
	return t.next()
}

// isPlain reports whether a part has neither comments nor CDATA, nor blanks before the end of a row's tag.
func isPlain(text string) bool {
	for _, odd := range []string{"<!", "row >", "row\t>", "row\r", "row\n"} {
		if strings.Contains(text, odd) {
			return false
		}
	}
	return true
}

// lastCell gives the column of the last cell of a plain row and whether that cell ends the row. ok is false where only
// a look at every cell can tell.
func lastCell(inside, prefix string) (column int, ok bool) {
	tail := strings.TrimRight(inside, " \t\r\n")
	name := "<" + prefix + "c "
	at := lastTag(tail, name)
	if at < 0 || strings.Contains(tail[at:], "<"+prefix+"c>") {
		return 0, false
	}
	place, found := strings.CutPrefix(tail[at+len(name):], `r="`)
	if !found || !strings.HasSuffix(tail, "</"+prefix+"c>") && !strings.HasSuffix(tail, "/>") {
		return 0, false
	}
	if strings.HasSuffix(tail, "/>") && strings.Count(tail[at:], "<") > 1 {
		return 0, false
	}
	place, _, _ = strings.Cut(place, `"`)
	column, _, ok = address.Parse(place)
	return column, ok
}

// lastTag gives where the last tag begins that begins as given; -1 where there is none.
func lastTag(text, begins string) int {
	for at := strings.LastIndexByte(text, '<'); at >= 0; at = strings.LastIndexByte(text[:at], '<') {
		if strings.HasPrefix(text[at:], begins) {
			return at
		}
	}
	return -1
}
