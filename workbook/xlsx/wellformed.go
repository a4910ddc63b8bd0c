package xlsx

import (
	"slices"
	"strings"
	"unicode/utf8"

	"railbook/rules/phrase"
)

// Every part of XML is read once before it is believed and once before it is written, the way a program that knows
// namespaces reads it (Namespaces in XML 1.0, W3C): a tag or an attribute whose prefix nobody declared makes programs
// refuse the whole workbook. The reader keeps nothing; it exists because encoding/xml takes ten times as long, and lets
// undeclared prefixes pass.

// relationSpace is the namespace of the attributes that name a relationship.
const relationSpace = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"

// xmlReader reads a part or a piece of one.
type xmlReader struct {
	data       string
	at         int
	open       []openElement
	declared   []declaredPrefix
	targets    []string        // the relationships that attributes name
	rooted     bool            // the root element has begun
	piece      bool            // several elements may stand side by side: the data are the inside of one
	attributes []attributeSpan // of the tag that is read
	prefixed   bool            // that tag or one of its attributes has a prefix
	odd        bool            // it has a comment, CDATA or the like, or blanks in an end tag: it is not what isPlain calls plain
}

// What no workbook has, and what would take a reader long: a sheet is nested eight deep.
const (
	mostAttributes = 1000 // of a tag
	mostPrefixes   = 1000 // that hold at one place
	deepest        = 1000 // elements in one another
)

type openElement struct {
	name     string
	declared int // how many prefixes were declared before it
}

type attributeSpan struct {
	name, value string
	colon       int // where the colon stands in the name; 0 without one
}

// wellFormed reads a whole part. It gives the relationships that its attributes name.
func wellFormed(data []byte) (targets []string, err error) {
	reader := xmlReader{data: strings.TrimPrefix(view(data), "\uFEFF")}
	err = reader.read()
	return reader.targets, err
}

// wellFormedRows reads rows of a sheet that declares the prefixes.
func wellFormedRows(data []byte, declared []declaredPrefix) error {
	reader := xmlReader{data: view(data), declared: slices.Clone(declared), piece: true}
	return reader.read()
}

func (r *xmlReader) fault(at int, what string) error { return &damage{at, what} }

// plainBytes are the bytes of a text that need no second look, whatever ends it.
var plainBytes = func() (plain [256]bool) {
	for c := range plain {
		plain[c] = c >= ' ' && c < utf8.RuneSelf && !strings.ContainsRune(`&<]"'`, rune(c)) || c == '\t' || c == '\n' || c == '\r'
	}
	return plain
}()

// text reads a stretch of characters up to a byte that ends it, and gives where that is: only characters that XML allows
// (XML 1.0, 2.2), and no ampersand but of an entity that every program knows.
func (r *xmlReader) text(from int, until byte) (end int, err error) {
	data := r.data
	for i := from; ; {
		for i < len(data) && plainBytes[data[i]] {
			i++
		}
		if i == len(data) || data[i] == until {
			return i, nil
		}
		switch c := data[i]; {
		case c == '&':
			name, _, found := strings.Cut(data[i+1:min(len(data), i+14)], ";")
			character, known := entity(name)
			if !found || !known || !allowed(character) {
				return i, r.fault(i, "an & begins no character")
			}
			i += len(name) + 2
		case c >= utf8.RuneSelf:
			character, size := utf8.DecodeRuneInString(data[i:])
			if size == 1 || !allowed(character) {
				return i, r.fault(i, "it has a character that XML does not allow")
			}
			i += size
		case c == '"' || c == '\'':
			i++
		case c == ']':
			if until == '<' && strings.HasPrefix(data[i:], "]]>") {
				return i, r.fault(i, "it has ]]> in a text")
			}
			i++
		case c == '<':
			return i, r.fault(i, "a tag is broken off")
		default:
			return i, r.fault(i, "it has a character that XML does not allow")
		}
	}
}

// allowed reports whether XML allows a character.
func allowed(c rune) bool {
	return c == '\t' || c == '\n' || c == '\r' || c >= ' ' && c <= 0xD7FF || c >= 0xE000 && c <= 0xFFFD || c >= 0x10000 && c <= utf8.MaxRune
}

func (r *xmlReader) read() error {
	for {
		from := r.at
		if from < len(r.data) && r.data[from] != '<' {
			end, err := r.text(from, '<')
			if err != nil {
				return err
			}
			if len(r.open) == 0 && strings.Trim(r.data[from:end], " \t\r\n") != "" {
				return r.fault(from, "something stands outside of it")
			}
			r.at = end
		}
		if r.at == len(r.data) {
			return r.finish()
		}
		if err := r.markup(); err != nil {
			return err
		}
	}
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
	case len(rest) > 1 && rest[1] == '/':
		return r.endTag()
	case len(rest) > 1 && rest[1] != '?' && rest[1] != '!':
		return r.startTag()
	case strings.HasPrefix(rest, "<?"):
		name, colon := r.name(r.at + 2)
		from := r.at
		if strings.EqualFold(name, "xml") && (from > 0 || !xmlDeclaration.MatchString(rest[:min(len(rest), 200)])) {
			return r.fault(from, "its XML declaration is wrong")
		}
		if name == "" || colon > 0 || !strings.HasPrefix(rest[2+len(name):], "?>") && r.blanks(from+2+len(name)) == from+2+len(name) {
			return r.fault(from, "an instruction has no name")
		}
		return r.pass("?>")
	case strings.HasPrefix(rest, "<!--"):
		r.odd = true
		if inside, _, _ := strings.Cut(rest[4:], "-->"); strings.Contains(inside, "--") || strings.HasSuffix(inside, "-") {
			return r.fault(r.at, "a comment has -- in it")
		}
		return r.pass("-->")
	case strings.HasPrefix(rest, "<![CDATA["):
		r.odd = true
		if len(r.open) == 0 {
			return r.fault(r.at, "something stands outside of it")
		}
		return r.pass("]]>")
	case strings.HasPrefix(rest, "<!"):
		return r.fault(r.at, "it declares a document type, which no workbook may")
	}
	return r.startTag()
}

// xmlDeclaration is how a part may begin (XML 1.0, 2.8): all that follows takes bytes for those of UTF-8 or of letters alone.
var xmlDeclaration = phrase.NewPattern(`^<\?xml\s+version\s*=\s*["']1\.[0-9]["'](\s+encoding\s*=\s*["'](?i:utf-8|us-ascii|ascii|iso-8859-1|windows-1252)["'])?` +
	`(\s+standalone\s*=\s*["'](yes|no)["'])?\s*\?>`)

// pass moves past an instruction, a comment or a text that is not marked up.
func (r *xmlReader) pass(until string) error {
	end := strings.Index(r.data[r.at:], until)
	if end < 0 {
		return r.fault(r.at, "it ends in the middle")
	}
	passed := r.data[r.at : r.at+end]
	if !utf8.ValidString(passed) || strings.ContainsFunc(passed, func(c rune) bool { return !allowed(c) }) {
		return r.fault(r.at, "it has a character that XML does not allow")
	}
	r.at += end + len(until)
	return nil
}

func (r *xmlReader) endTag() error {
	last := len(r.open) - 1
	if last < 0 {
		return r.fault(r.at, "an end tag closes nothing")
	}
	from := r.at + len("</")
	end := from + len(r.open[last].name)
	if end > len(r.data) || r.data[from:end] != r.open[last].name {
		name, _ := r.name(from)
		return r.fault(r.at, "the tag </"+shorten(name)+"> closes nothing")
	}
	name := end
	if end = r.blanks(end); end == len(r.data) || r.data[end] != '>' {
		return r.fault(r.at, "it ends in the middle of a tag")
	}
	r.odd = r.odd || end > name
	r.declared = r.declared[:r.open[last].declared]
	r.open = r.open[:last]
	r.at = end + 1
	return nil
}

// nameBytes says which bytes may stand in a name: 1 anywhere, 2 not first, 0 nowhere. A colon is told apart.
var nameBytes = func() (kinds [256]byte) {
	for c := range kinds {
		switch {
		case c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z', c == '_', c >= utf8.RuneSelf:
			kinds[c] = 1
		case c >= '0' && c <= '9', c == '-', c == '.':
			kinds[c] = 2
		}
	}
	return kinds
}()

// name reads the name of a tag or an attribute: letters, digits and a few signs, not a digit first, and at most one colon,
// inside. It is empty where none stands there. colon is where its colon stands in it; 0 without one.
func (r *xmlReader) name(at int) (name string, colon int) {
	data, end, first := r.data, at, true
	seen := byte(0) // the bits of its bytes
	for ; end < len(data); end++ {
		seen |= data[end]
		kind := nameBytes[data[end]]
		if kind == 1 || kind == 2 && !first {
			first = false
			continue
		}
		if data[end] != ':' || first || colon > 0 {
			break
		}
		colon, first = end-at, true
	}
	name = data[at:end]
	if first || seen >= utf8.RuneSelf && !utf8.ValidString(name) {
		return "", 0
	}
	return name, colon
}

func (r *xmlReader) blanks(at int) int {
	for at < len(r.data) && isBlank(r.data[at]) {
		at++
	}
	return at
}

func (r *xmlReader) startTag() error {
	start, data := r.at, r.data
	if r.rooted && len(r.open) == 0 && !r.piece {
		return r.fault(start, "something follows its end")
	}
	r.rooted = true
	before := len(r.declared)
	name, colon := r.name(start + 1)
	if name == "" {
		return r.fault(start, "a tag has no name")
	}
	r.attributes = r.attributes[:0]
	r.prefixed = colon > 0
	closed := false
	for at := start + 1 + len(name); ; {
		next := r.blanks(at)
		if next >= len(data) {
			return r.fault(start, "it ends in the middle of a tag")
		}
		if data[next] == '>' {
			r.at = next + 1
			break
		}
		if data[next] == '/' {
			if next+1 >= len(data) || data[next+1] != '>' {
				return r.fault(start, "a tag is broken off")
			}
			closed, r.at = true, next+2
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
	if r.prefixed {
		if err := r.resolve(start, name, colon); err != nil {
			return err
		}
	}
	if closed {
		r.declared = r.declared[:before]
		return nil
	}
	if len(r.open) == deepest {
		return r.fault(start, "its elements stand too deep in one another")
	}
	r.open = append(r.open, openElement{name, before})
	return nil
}

// attribute reads one attribute of a tag, and gives where it ends.
func (r *xmlReader) attribute(start, at int) (end int, err error) {
	name, colon := r.name(at)
	at = r.blanks(at + len(name))
	if name == "" || at >= len(r.data) || r.data[at] != '=' {
		return 0, r.fault(start, "an attribute of a tag has no value")
	}
	at = r.blanks(at + 1)
	if at >= len(r.data) || r.data[at] != '"' && r.data[at] != '\'' {
		return 0, r.fault(start, "an attribute of a tag has no value")
	}
	end, err = r.text(at+1, r.data[at])
	if err != nil {
		return 0, err
	}
	if end == len(r.data) {
		return 0, r.fault(start, "it ends in the middle of a tag")
	}
	if len(r.attributes) == mostAttributes || len(r.declared) == mostPrefixes {
		return 0, r.fault(start, "a tag has too many attributes")
	}
	for i := range r.attributes {
		if r.attributes[i].name == name {
			return 0, r.fault(start, "a tag has the attribute "+shorten(name)+" twice")
		}
	}
	value := r.data[at+1 : end]
	// A namespace is named by a URI, which has no } (Namespaces in XML 1.0, 2.2), and readers that put {namespace} before a name refuse one.
	if (name == "xmlns" || colon > 0 && name[:colon] == "xmlns") && strings.Contains(entities(value), "}") {
		return 0, r.fault(start, "a namespace has } in its name")
	}
	r.attributes = append(r.attributes, attributeSpan{name, value, colon})
	if colon > 0 {
		if r.prefixed = true; name[:colon] == "xmlns" {
			if value == "" {
				return 0, r.fault(start, "a prefix is declared for nothing")
			}
			r.declared = append(r.declared, declaredPrefix{name[colon+1:], entities(value)})
		}
	}
	return end + 1, nil
}
