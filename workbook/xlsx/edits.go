package xlsx

import (
	"bytes"
	"cmp"
	"slices"
	"strings"
)

// edit puts a text in the place of the bytes from one offset to another.
type edit struct {
	from, to int
	text     string
}

// apply gives data with the edits made; they may come in any order but must not overlap. What is inserted at one offset
// comes in the order given, before what is replaced there.
func apply(data []byte, edits []edit) []byte {
	if len(edits) == 0 {
		return data
	}
	sortEdits(edits)
	size := len(data)
	for _, edit := range edits {
		size += len(edit.text) - (edit.to - edit.from)
	}
	changed := bytes.NewBuffer(make([]byte, 0, size))
	at := 0
	for _, edit := range edits {
		changed.Write(data[at:edit.from])
		changed.WriteString(edit.text)
		at = edit.to
	}
	changed.Write(data[at:])
	return changed.Bytes()
}

// sortEdits puts edits in the order of their places; those at one place stay in theirs.
func sortEdits(edits []edit) {
	slices.SortStableFunc(edits, func(a, b edit) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
}

// element is one element of a part: its start tag, and where it ends.
type element struct {
	token
	inner int // where its content ends and its end tag begins; the same as end where it is closed in itself
	until int // where it ends
}

// children gives the elements directly inside the root of a part, or inside the first element of a name.
func children(data []byte, parent string) (within element, list []element, err error) {
	walk := tags{data: view(data)}
	for {
		tag, err := walk.next()
		if err != nil || tag.kind == endOfPart {
			return within, nil, err
		}
		if tag.kind == startElement && (parent == "" || tag.name == parent) {
			return childrenOf(&walk, tag)
		}
	}
}

func childrenOf(walk *tags, parent token) (within element, list []element, err error) {
	within, err = eachChild(walk, parent, func(child element) error {
		list = append(list, child)
		return nil
	})
	return within, list, err
}

// eachChild gives the elements directly inside one that has just begun, in turn.
func eachChild(walk *tags, parent token, take func(element) error) (within element, err error) {
	within = element{parent, parent.end, parent.end}
	if parent.closed {
		return within, nil
	}
	depth := walk.depth()
	for {
		tag, err := walk.next()
		if err != nil {
			return within, err
		}
		if tag.kind == endOfPart { // of a piece
			return within, nil
		}
		if walk.depth() < depth {
			within.inner, within.until = tag.start, tag.end
			return within, nil
		}
		if tag.kind != startElement {
			continue
		}
		end, err := walk.skipRows(tag)
		if err != nil {
			return within, err
		}
		inner := end.start
		if tag.closed {
			inner = end.end
		}
		if err := take(element{tag, inner, end.end}); err != nil {
			return within, err
		}
	}
}

// skipRows passes over an element as skip does, but jumps over the rows of a sheet: the scan has looked at every tag of
// them, and without comments and CDATA their end can't be mistaken.
func (t *tags) skipRows(element token) (token, error) {
	closing := "</" + element.prefix + "sheetData>"
	if element.name != "sheetData" || element.closed {
		return t.skip(element)
	}
	at := strings.LastIndex(t.data, closing)
	if at < element.end || strings.Contains(t.data[element.end:at], "<!") {
		return t.skip(element)
	}
	t.at = at
	return t.next()
}

// withAttribute gives a start tag with an attribute set to a value, or without it where the value is empty.
func withAttribute(tag, name, value string) string {
	for _, quote := range []string{`"`, `'`} {
		for _, space := range []string{" ", "\t", "\n", "\r\n"} {
			head, rest, found := strings.Cut(tag, space+name+"="+quote)
			if !found {
				continue
			}
			_, tail, _ := strings.Cut(rest, quote)
			if value == "" {
				return head + tail
			}
			return head + space + name + "=" + quote + escape(value) + quote + tail
		}
	}
	if value == "" {
		return tag
	}
	end := strings.LastIndexByte(tag, '>')
	if end > 0 && tag[end-1] == '/' {
		end--
	}
	return tag[:end] + " " + name + `="` + escape(value) + `"` + tag[end:]
}

// escape writes a text as XML has it; what XML does not allow is written as workbooks write it (_x0001_).
func escape(text string) string {
	if !strings.ContainsFunc(text, needsEscape) && !strings.Contains(text, "_x") {
		return text
	}
	var plain strings.Builder
	for i, c := range text {
		switch {
		case c == '&':
			plain.WriteString("&amp;")
		case c == '<':
			plain.WriteString("&lt;")
		case c == '>':
			plain.WriteString("&gt;")
		case c == '"':
			plain.WriteString("&quot;")
		case c == '\r', c == '\n', c == '\t':
			plain.WriteString(map[rune]string{'\r': "_x000D_", '\n': "&#10;", '\t': "&#9;"}[c])
		case c == '_' && escapedCharacters(text[i:min(len(text), i+7)]) != text[i:min(len(text), i+7)]:
			plain.WriteString("_x005F_")
		case c < ' ':
			plain.WriteString("_x00" + string("0123456789ABCDEF"[c>>4]) + string("0123456789ABCDEF"[c&15]) + "_")
		case c == 0xFFFE || c == 0xFFFF:
			plain.WriteRune('\uFFFD')
		default:
			plain.WriteRune(c)
		}
	}
	return plain.String()
}

func needsEscape(c rune) bool {
	return c < ' ' || c == '&' || c == '<' || c == '>' || c == '"' || c == 0xFFFE || c == 0xFFFF || c == '\uFFFD'
}
