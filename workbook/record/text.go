package record

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash"
	"strings"
)

// mostInACell keeps a cell of the record below the 32,767 characters that a cell of a spreadsheet may hold.
const mostInACell = 30000

// A record is kept as lines of fields parted by bars. What a spreadsheet program might change in a cell's text or can't hold (the
// name of a file may have any letter), and what parts fields and their pieces, is written with a backslash.
var escape, unescape = func() (escape, unescape *strings.Replacer) {
	pairs := []string{`\`, `\\`, "|", `\p`, "~", `\w`, "@", `\a`, "\n", `\n`, "\r", `\r`, "\t", `\t`, "  ", `\s\s`, "\u00a0", `\h`}
	for c := rune(0); c < ' '; c++ {
		if !strings.ContainsRune("\n\r\t", c) {
			pairs = append(pairs, string(c), fmt.Sprintf(`\c%02x`, c))
		}
	}
	pairs = append(pairs, "\ufffe", `\cfe`, "\uffff", `\cff`)
	back := []string{`\u`, "_", `\s`, " "}
	for i := 0; i < len(pairs); i += 2 {
		if pairs[i] != "  " {
			back = append(back, pairs[i+1], pairs[i])
		}
	}
	return strings.NewReplacer(append(pairs, "_x", `\ux`)...), strings.NewReplacer(back...)
}()

// escaped writes a text so that it can be a field, or a piece of one.
func escaped(text string) string {
	if isPlain(text) {
		return text
	}
	text = escape.Replace(strings.ToValidUTF8(text, "\ufffd"))
	if rest, begins := strings.CutPrefix(text, " "); begins {
		text = `\s` + rest
	}
	if rest, ends := strings.CutSuffix(text, " "); ends {
		text = rest + `\s`
	}
	return text
}

// isPlain reports whether a text is surely one that stays as it is, as nearly all are.
func isPlain(text string) bool {
	for at := range len(text) {
		switch c := text[at]; {
		case c < ' ' || c > '~', c == '\\' || c == '|' || c == '~' || c == '@', c == '_' && strings.HasPrefix(text[at:], "_x"):
			return false
		case c == ' ' && (at == 0 || at == len(text)-1 || text[at+1] == ' '):
			return false
		}
	}
	return true
}

// lineOf writes a line of fields.
func lineOf(fields ...string) string {
	texts := make([]string, len(fields))
	for i, field := range fields {
		texts[i] = escaped(field)
	}
	return strings.Join(texts, "|")
}

// fieldsOf reads the fields of a line.
func fieldsOf(line string) []string {
	fields := strings.Split(line, "|")
	for i, field := range fields {
		fields[i] = unescaped(field)
	}
	return fields
}

// unescaped reads what escaped wrote.
func unescaped(text string) string {
	if !strings.Contains(text, `\`) {
		return text
	}
	return unescape.Replace(text)
}

// field gives a field of a line; empty where the line has none of that number.
func field(fields []string, number int) string {
	if number < len(fields) {
		return fields[number]
	}
	return ""
}

// CellsOf cuts a line into the texts of cells, none too long for one. Of a rulebook's line each field has a cell of its own,
// so that a fault in it has a place.
func CellsOf(line string) (cells []string) {
	if strings.HasPrefix(line, rulebookField+"|") {
		for field := range strings.SplitAfterSeq(line, "|") {
			if field != "" {
				cells = append(cells, cut(field)...)
			}
		}
		return cells
	}
	return cut(line)
}

func cut(line string) (cells []string) {
	if len(line) <= mostInACell {
		return []string{line}
	}
	letters := []rune(line)
	for len(letters) > mostInACell {
		cells, letters = append(cells, string(letters[:mostInACell])), letters[mostInACell:]
	}
	return append(cells, string(letters))
}

// digestOf is the SHA-256 of lines, each ended by a line feed, in hexadecimal.
func digestOf(lines []string) string {
	sum := sha256.New()
	addLines(sum, lines)
	return hex.EncodeToString(sum.Sum(nil))
}

// addLines adds lines to a sum.
func addLines(sum hash.Hash, lines []string) {
	var text []byte
	for _, line := range lines {
		text = append(append(text[:0], line...), '\n')
		sum.Write(text)
	}
}
