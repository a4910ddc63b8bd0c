package xlsx

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// tokenKind says what an XML token is.
type tokenKind uint8

const (
	endOfPart tokenKind = iota
	startElement
	endElement
)

// token is one tag of an XML part, with the bytes from start to end. Text between tags is asked for by its offsets.
type token struct {
	kind       tokenKind
	closed     bool   // <row/>: no end tag follows
	prefix     string // "x:" of <x:row>
	name       string // "row"
	attributes string // what stands between the name and the closing bracket
	start, end int
}

// tags walks through the tags of an XML part and finds it damaged where tags do not match. It exists because a sheet
// must be patched at exact offsets, and read ten times faster than encoding/xml reads.
type tags struct {
	data string
	at   int
	open []string // qualified names of the open elements
	seen bool     // the root element has begun

	within int // how many elements are open all along, because the data are a piece of what is inside them
}

// damage is a fault in the XML of a part.
type damage struct {
	offset int
	what   string
}

func (d *damage) Error() string { return fmt.Sprintf("%s (byte %d)", d.what, d.offset) }

// depth is the number of elements open after the last token.
func (t *tags) depth() int { return len(t.open) }

// next gives the next tag; comments, processing instructions and character data are passed over.
func (t *tags) next() (token, error) {
	for {
		offset := strings.IndexByte(t.data[t.at:], '<')
		if offset < 0 {
			return t.finish()
		}
		start := t.at + offset
		rest := t.data[start:]
		switch {
		case len(rest) < 2:
			return token{}, &damage{start, "it ends in the middle of a tag"}
		case rest[1] == '?':
			if err := t.passOver(start, "?>"); err != nil {
				return token{}, err
			}
		case strings.HasPrefix(rest, "<!--"):
			if err := t.passOver(start, "-->"); err != nil {
				return token{}, err
			}
		case strings.HasPrefix(rest, "<![CDATA["):
			if err := t.passOver(start, "]]>"); err != nil {
				return token{}, err
			}
		case rest[1] == '!':
			return token{}, &damage{start, "it declares a document type, which no workbook may"}
		case rest[1] == '/':
			return t.endTag(start)
		default:
			return t.startTag(start)
		}
	}
}

func (t *tags) finish() (token, error) {
	if len(t.open) > t.within {
		return token{}, &damage{len(t.data), "it ends in the middle: <" + t.open[len(t.open)-1] + "> is never closed"}
	}
	if !t.seen {
		return token{}, &damage{0, "there is nothing in it"}
	}
	t.at = len(t.data)
	return token{kind: endOfPart, start: t.at, end: t.at}, nil
}

func (t *tags) passOver(start int, until string) error {
	end := strings.Index(t.data[start:], until)
	if end < 0 {
		return &damage{start, "it ends in the middle"}
	}
	t.at = start + end + len(until)
	return nil
}

func (t *tags) endTag(start int) (token, error) {
	end := strings.IndexByte(t.data[start:], '>')
	if end < 0 {
		return token{}, &damage{start, "it ends in the middle of a tag"}
	}
	name := withoutBlanksBehind(t.data[start+2 : start+end])
	if len(t.open) == 0 || t.open[len(t.open)-1] != name {
		return token{}, &damage{start, "the tag </" + shorten(name) + "> closes nothing"}
	}
	t.open = t.open[:len(t.open)-1]
	t.at = start + end + 1
	prefix, local := splitName(name)
	return token{kind: endElement, prefix: prefix, name: local, start: start, end: t.at}, nil
}

// isBlank reports whether a byte is white space (XML 1.0, 2.3).
func isBlank(c byte) bool { return c == ' ' || c == '\t' || c == '\r' || c == '\n' }

func withoutBlanksBehind(text string) string {
	for text != "" && isBlank(text[len(text)-1]) {
		text = text[:len(text)-1]
	}
	return text
}

func withoutBlanksBefore(text string) string {
	for text != "" && isBlank(text[0]) {
		text = text[1:]
	}
	return text
}

func (t *tags) startTag(start int) (token, error) {
	if t.seen && len(t.open) == 0 {
		return token{}, &damage{start, "something follows its end"}
	}
	end, quote := start+1, byte(0)
	for ; end < len(t.data); end++ {
		c := t.data[end]
		if c == '<' {
			return token{}, &damage{start, "a tag is broken off"}
		}
		if quote != 0 {
			if c == quote {
				quote = 0
			}
			continue
		}
		if c == '>' {
			break
		}
		if c == '"' || c == '\'' {
			if !strings.HasSuffix(withoutBlanksBehind(t.data[start:end]), "=") {
				return token{}, &damage{start, "a quotation mark stands where none may in a tag"}
			}
			quote = c
		}
	}
	if end == len(t.data) {
		return token{}, &damage{start, "it ends in the middle of a tag"}
	}
	inner := t.data[start+1 : end]
	closed := strings.HasSuffix(inner, "/")
	if closed {
		inner = inner[:len(inner)-1]
	}
	name, attributes := inner, ""
	if space := strings.IndexAny(inner, " \t\r\n"); space >= 0 {
		name, attributes = inner[:space], inner[space:]
	}
	if name == "" || strings.ContainsAny(name, "\"'=<&") {
		return token{}, &damage{start, "a tag has no name"}
	}
	t.seen = true
	if !closed {
		t.open = append(t.open, name)
	}
	t.at = end + 1
	prefix, local := splitName(name)
	return token{kind: startElement, closed: closed, prefix: prefix, name: local, attributes: attributes, start: start, end: t.at}, nil
}

// skip passes over everything inside an element that has just begun, to its end tag.
func (t *tags) skip(element token) (end token, err error) {
	if element.closed {
		return element, nil
	}
	depth := len(t.open)
	for {
		end, err = t.next()
		if err != nil || len(t.open) < depth {
			return end, err
		}
	}
}

// content gives the characters of an element that has just begun, up to its end tag; elements inside are left out.
func (t *tags) content(element token) (string, error) {
	if element.closed {
		return "", nil
	}
	depth, from, text := len(t.open), element.end, ""
	for {
		tag, err := t.next()
		if err != nil {
			return "", err
		}
		if len(t.open) < depth || (tag.kind == startElement && !tag.closed && len(t.open) == depth+1) ||
			(tag.closed && len(t.open) == depth) {
			piece := characters(t.data[from:tag.start])
			if text == "" {
				text = piece
			} else {
				text += piece
			}
		}
		if len(t.open) < depth {
			return text, nil
		}
		from = tag.end
	}
}

// attribute gives an attribute of a tag by its qualified name, its entities resolved.
func (t token) attribute(name string) (value string, ok bool) {
	for key, value, rest, ok := firstAttribute(t.attributes); ok; key, value, rest, ok = firstAttribute(rest) {
		if key == name {
			return entities(value), true
		}
	}
	return "", false
}

// firstAttribute gives the first of a tag's attributes as it is written, and what follows it.
func firstAttribute(attributes string) (name, value, rest string, ok bool) {
	rest = withoutBlanksBefore(attributes)
	equals := strings.IndexByte(rest, '=')
	if equals < 0 {
		return "", "", "", false
	}
	name = withoutBlanksBehind(rest[:equals])
	rest = withoutBlanksBefore(rest[equals+1:])
	if rest == "" || (rest[0] != '"' && rest[0] != '\'') {
		return "", "", "", false
	}
	end := strings.IndexByte(rest[1:], rest[0])
	if end < 0 {
		return "", "", "", false
	}
	return name, rest[1 : 1+end], rest[end+2:], true
}

// number gives an attribute that is a whole number from 0; ok is false where it is missing or none.
func (t token) number(name string) (value int, ok bool) {
	text, ok := t.attribute(name)
	if !ok {
		return 0, false
	}
	value, err := strconv.Atoi(strings.TrimSpace(text))
	return value, err == nil && value >= 0
}

// flag gives an attribute that is a truth value.
func (t token) flag(name string) bool {
	text, _ := t.attribute(name)
	return text == "1" || text == "true"
}

func splitName(name string) (prefix, local string) {
	colon := strings.IndexByte(name, ':')
	return name[:colon+1], name[colon+1:]
}

// characters gives the text of a stretch between two tags: comments gone, CDATA opened, entities resolved.
func characters(text string) string {
	if strings.IndexByte(text, '<') < 0 {
		return entities(text)
	}
	var plain strings.Builder
	for text != "" {
		open := strings.IndexByte(text, '<')
		if open < 0 {
			plain.WriteString(entities(text))
			break
		}
		plain.WriteString(entities(text[:open]))
		text = text[open:]
		if inner, found := strings.CutPrefix(text, "<![CDATA["); found {
			inside, after, _ := strings.Cut(inner, "]]>")
			plain.WriteString(inside)
			text = after
			continue
		}
		closing := "?>"
		if strings.HasPrefix(text, "<!--") {
			closing = "-->"
		}
		_, text, _ = strings.Cut(text, closing)
	}
	return plain.String()
}

// entities resolves &amp; and its like; what is none stays as it is.
func entities(text string) string {
	if strings.IndexByte(text, '&') < 0 {
		return text
	}
	var plain strings.Builder
	for {
		before, rest, found := strings.Cut(text, "&")
		plain.WriteString(before)
		if !found {
			return plain.String()
		}
		name, after, found := strings.Cut(rest, ";")
		character, known := entity(name)
		if !found || !known {
			plain.WriteByte('&')
			text = rest
			continue
		}
		plain.WriteRune(character)
		text = after
	}
}

func entity(name string) (rune, bool) {
	switch name {
	case "amp":
		return '&', true
	case "lt":
		return '<', true
	case "gt":
		return '>', true
	case "quot":
		return '"', true
	case "apos":
		return '\'', true
	}
	digits, isNumber := strings.CutPrefix(name, "#")
	if !isNumber {
		return 0, false
	}
	base := 10
	if hex, isHex := strings.CutPrefix(digits, "x"); isHex {
		digits, base = hex, 16
	}
	code, err := strconv.ParseUint(digits, base, 32)
	if err != nil || code > utf8.MaxRune {
		return 0, false
	}
	return rune(code), true
}

// escapedCharacters resolves the _x000D_ that workbooks write for characters XML does not allow
// (ECMA-376 part 1, 22.9.2.19).
func escapedCharacters(text string) string {
	if !strings.Contains(text, "_x") {
		return text
	}
	var plain strings.Builder
	for {
		at := strings.Index(text, "_x")
		if at < 0 {
			plain.WriteString(text)
			return plain.String()
		}
		plain.WriteString(text[:at])
		text = text[at:]
		if len(text) >= 7 && text[6] == '_' {
			if code, err := strconv.ParseUint(text[2:6], 16, 32); err == nil {
				plain.WriteRune(rune(code))
				text = text[7:]
				continue
			}
		}
		plain.WriteString("_x")
		text = text[2:]
	}
}

func shorten(text string) string {
	if len(text) <= 30 {
		return text
	}
	return strings.ToValidUTF8(text[:30], "") + "…"
}
