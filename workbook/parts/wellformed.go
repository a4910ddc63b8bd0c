package parts

import (
	"strings"
	"unicode/utf8"
)

// Every part of XML is read once before it is believed and once before it is written, the way a program that knows
// namespaces reads it (Namespaces in XML 1.0, W3C): a tag or an attribute whose prefix nobody declared makes programs
// refuse the whole workbook. The reader keeps nothing; it exists because encoding/xml takes ten times as long, and lets
// undeclared prefixes pass.

// relationSpace is the namespace of the attributes that name a relationship.
const relationSpace = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"

// xmlReader reads a part or a piece of one.
type xmlReader struct {
	data     string
	at       int
	open     []openElement
	declared []declaredPrefix
	targets  []string // the relationships that attributes name
	rooted   bool     // the root element has begun
	piece    bool     // several elements may stand side by side: the data are the inside of one
	scratch  []attributeSpan
}

type openElement struct {
	name     string
	declared int // how many prefixes were declared before it
}

type declaredPrefix struct{ prefix, space string }

type attributeSpan struct{ name, value string }

// wellFormed reads a whole part. It gives the relationships that its attributes name.
func wellFormed(data []byte) (targets []string, err error) {
	reader := xmlReader{data: strings.TrimPrefix(view(data), "\uFEFF")}
	err = reader.read()
	return reader.targets, err
}

// wellFormedRows reads rows of ours, which stand in a sheet that declares no prefix that they use.
func wellFormedRows(data []byte) error {
	reader := xmlReader{data: view(data), piece: true}
	return reader.read()
}

func (r *xmlReader) fault(at int, what string) error { return &damage{at, what} }

// isXMLText reports whether a stretch holds only characters that XML allows (XML 1.0, 2.2), and no ampersand but of an
// entity that every program knows.
func (r *xmlReader) text(from, to int) error {
	text := r.data[from:to]
	for i := 0; i < len(text); {
		c := text[i]
		if c >= ' ' && c < utf8.RuneSelf && c != '&' {
			i++
			continue
		}
		switch {
		case c == '&':
			name, _, found := strings.Cut(text[i+1:min(len(text), i+14)], ";")
			character, known := entity(name)
			if !found || !known || !allowed(character) {
				return r.fault(from+i, "an & begins no character")
			}
			i += len(name) + 2
		case c >= utf8.RuneSelf:
			character, size := utf8.DecodeRuneInString(text[i:])
			if size == 1 || !allowed(character) {
				return r.fault(from+i, "it has a character that XML does not allow")
			}
			i += size
		case c == '\t' || c == '\n' || c == '\r':
			i++
		default:
			return r.fault(from+i, "it has a character that XML does not allow")
		}
	}
	return nil
}

// allowed reports whether XML allows a character.
func allowed(c rune) bool {
	return c == '\t' || c == '\n' || c == '\r' || c >= ' ' && c <= 0xD7FF || c >= 0xE000 && c <= 0xFFFD || c >= 0x10000 && c <= utf8.MaxRune
}

func (r *xmlReader) read() error {
	for {
		offset := strings.IndexByte(r.data[r.at:], '<')
		end := r.at + offset
		if offset < 0 {
			end = len(r.data)
		}
		if end > r.at {
			if err := r.between(r.at, end); err != nil {
				return err
			}
		}
		if offset < 0 {
			return r.finish()
		}
		r.at = end
		if err := r.markup(); err != nil {
			return err
		}
	}
}

// between reads what stands between two tags.
func (r *xmlReader) between(from, to int) error {
	if len(r.open) == 0 && strings.Trim(r.data[from:to], " \t\r\n") != "" {
		return r.fault(from, "something stands outside of it")
	}
	if strings.Contains(r.data[from:to], "]]>") {
		return r.fault(from, "it has ]]> in a text")
	}
	return r.text(from, to)
}

func (r *xmlReader) finish() error {
	if len(r.open) > 0 {
		return r.fault(len(r.data), "it ends in the middle: <"+r.open[len(r.open)-1].name+"> is never closed")
	}
	if !r.rooted && !r.piece {
		return r.fault(0, "there is nothing in it")
	}
	return nil
}

func (r *xmlReader) markup() error {
	rest := r.data[r.at:]
	switch {
	case strings.HasPrefix(rest, "</"):
		return r.endTag()
	case strings.HasPrefix(rest, "<?"):
		name, _, _ := strings.Cut(rest[2:min(len(rest), 8)], " ")
		if r.at > 0 && strings.EqualFold(name, "xml") {
			return r.fault(r.at, "its XML declaration does not stand first")
		}
		return r.pass("?>")
	case strings.HasPrefix(rest, "<!--"):
		if inside, _, _ := strings.Cut(rest[4:], "-->"); strings.Contains(inside, "--") || strings.HasSuffix(inside, "-") {
			return r.fault(r.at, "a comment has -- in it")
		}
		return r.pass("-->")
	case strings.HasPrefix(rest, "<![CDATA["):
		if len(r.open) == 0 {
			return r.fault(r.at, "something stands outside of it")
		}
		from := r.at + len("<![CDATA[")
		if err := r.pass("]]>"); err != nil {
			return err
		}
		for i := from; i < r.at-3; i++ {
			if c := r.data[i]; c < ' ' && c != '\t' && c != '\n' && c != '\r' {
				return r.fault(i, "it has a character that XML does not allow")
			}
		}
		return nil
	case strings.HasPrefix(rest, "<!"):
		return r.fault(r.at, "it declares a document type, which no workbook may")
	}
	return r.startTag()
}

func (r *xmlReader) pass(until string) error {
	end := strings.Index(r.data[r.at:], until)
	if end < 0 {
		return r.fault(r.at, "it ends in the middle")
	}
	r.at += end + len(until)
	return nil
}

func (r *xmlReader) endTag() error {
	end := strings.IndexByte(r.data[r.at:], '>')
	if end < 0 {
		return r.fault(r.at, "it ends in the middle of a tag")
	}
	name := strings.TrimRight(r.data[r.at+2:r.at+end], " \t\r\n")
	last := len(r.open) - 1
	if last < 0 || r.open[last].name != name {
		return r.fault(r.at, "the tag </"+shorten(name)+"> closes nothing")
	}
	r.declared = r.declared[:r.open[last].declared]
	r.open = r.open[:last]
	r.at += end + 1
	return nil
}

// nameEnds are the bytes that end a name in a tag.
func endsName(c byte) bool {
	return c == ' ' || c == '>' || c == '=' || c == '/' || c == '\t' || c == '\n' || c == '\r'
}

func (r *xmlReader) name(at int) (name string, end int) {
	end = at
	for end < len(r.data) && !endsName(r.data[end]) {
		end++
	}
	return r.data[at:end], end
}

func (r *xmlReader) blanks(at int) int {
	for at < len(r.data) && (r.data[at] == ' ' || r.data[at] == '\n' || r.data[at] == '\t' || r.data[at] == '\r') {
		at++
	}
	return at
}

func (r *xmlReader) startTag() error {
	start := r.at
	if r.rooted && len(r.open) == 0 && !r.piece {
		return r.fault(start, "something follows its end")
	}
	r.rooted = true
	before := len(r.declared)
	name, at := r.name(start + 1)
	if !isName(name) {
		return r.fault(start, "a tag has no name")
	}
	r.scratch = r.scratch[:0]
	closed := false
	for {
		next := r.blanks(at)
		if next >= len(r.data) {
			return r.fault(start, "it ends in the middle of a tag")
		}
		if r.data[next] == '>' {
			at = next + 1
			break
		}
		if r.data[next] == '/' {
			if next+1 >= len(r.data) || r.data[next+1] != '>' {
				return r.fault(start, "a tag is broken off")
			}
			closed, at = true, next+2
			break
		}
		if next == at {
			return r.fault(start, "two attributes of a tag are not apart")
		}
		var err error
		if at, err = r.attribute(start, next); err != nil {
			return err
		}
	}
	r.at = at
	if err := r.resolve(start, name); err != nil {
		return err
	}
	if closed {
		r.declared = r.declared[:before]
	} else {
		r.open = append(r.open, openElement{name, before})
	}
	return nil
}

// attribute reads one attribute of a tag, and gives where it ends.
func (r *xmlReader) attribute(start, at int) (end int, err error) {
	name, at := r.name(at)
	at = r.blanks(at)
	if !isName(name) || at >= len(r.data) || r.data[at] != '=' {
		return 0, r.fault(start, "an attribute of a tag has no value")
	}
	at = r.blanks(at + 1)
	if at >= len(r.data) || r.data[at] != '"' && r.data[at] != '\'' {
		return 0, r.fault(start, "an attribute of a tag has no value")
	}
	length := strings.IndexByte(r.data[at+1:], r.data[at])
	if length < 0 {
		return 0, r.fault(start, "it ends in the middle of a tag")
	}
	value := r.data[at+1 : at+1+length]
	if strings.IndexByte(value, '<') >= 0 {
		return 0, r.fault(start, "a tag is broken off")
	}
	if err := r.text(at+1, at+1+length); err != nil {
		return 0, err
	}
	for _, earlier := range r.scratch {
		if earlier.name == name {
			return 0, r.fault(start, "a tag has the attribute "+shorten(name)+" twice")
		}
	}
	r.scratch = append(r.scratch, attributeSpan{name, value})
	prefix, local := splitName(name)
	switch {
	case prefix == "xmlns:" && value == "":
		return 0, r.fault(start, "a prefix is declared for nothing")
	case prefix == "xmlns:":
		r.declared = append(r.declared, declaredPrefix{local, entities(value)})
	}
	return at + length + 2, nil
}

// resolve makes sure that the prefixes of a tag and of its attributes are declared.
func (r *xmlReader) resolve(start int, name string) error {
	if prefix, _ := splitName(name); prefix != "" {
		if _, known := r.space(prefix); !known {
			return r.fault(start, "nobody declares the prefix of <"+shorten(name)+">")
		}
	}
	for i, one := range r.scratch {
		prefix, local := splitName(one.name)
		if prefix == "" || prefix == "xmlns:" {
			continue
		}
		space, known := r.space(prefix)
		if !known {
			return r.fault(start, "nobody declares the prefix of "+shorten(one.name))
		}
		for _, earlier := range r.scratch[:i] {
			if other, otherLocal := splitName(earlier.name); other != "" && other != "xmlns:" && otherLocal == local {
				if same, _ := r.space(other); same == space {
					return r.fault(start, "a tag has the attribute "+shorten(one.name)+" twice")
				}
			}
		}
		if space == relationSpace && one.value != "" {
			r.targets = append(r.targets, entities(one.value))
		}
	}
	return nil
}

// space gives the namespace of a prefix that has its colon.
func (r *xmlReader) space(prefix string) (space string, known bool) {
	prefix = prefix[:len(prefix)-1]
	for i := len(r.declared) - 1; i >= 0; i-- {
		if r.declared[i].prefix == prefix {
			return r.declared[i].space, true
		}
	}
	return "xml", prefix == "xml"
}

// isName reports whether a text may name a tag or an attribute: letters, digits and a few signs, not a digit first, and at
// most one colon, inside.
func isName(text string) bool {
	if text == "" {
		return false
	}
	colons := 0
	for i := 0; i < len(text); i++ {
		c := text[i]
		switch {
		case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c == '_', c >= utf8.RuneSelf:
		case c == ':':
			if colons++; i == 0 || i == len(text)-1 || colons > 1 {
				return false
			}
		case c >= '0' && c <= '9', c == '-', c == '.':
			if i == 0 || text[i-1] == ':' {
				return false
			}
		default:
			return false
		}
	}
	return utf8.ValidString(text)
}
