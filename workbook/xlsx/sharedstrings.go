package xlsx

import "strings"

// sharedStrings are the texts that the cells of all sheets refer to by number. They are read when a sheet is scanned.
type sharedStrings struct {
	part    string
	data    []byte
	listing *listing // of the texts, where they are not held as they stand in the part
	list    []string
	read    bool

	struck map[int]bool // the texts of which some part is struck out, by their number
}

// all gives the texts in order.
func (s *sharedStrings) all() ([]string, error) {
	if s.read || s.data == nil {
		return s.list, nil
	}
	var err error
	if s.listing == nil {
		err = s.texts(&tags{data: view(s.data)}, func(text string) string { return text })
	} else {
		var kept strings.Builder
		err = s.listing.each(func(piece []byte, at int) error {
			if at > mostTexts {
				return errTooLong
			}
			kept.Reset() // what was given before stays
			kept.Grow(len(piece))
			walk := within(piece)
			return s.texts(&walk, func(text string) string {
				from := kept.Len()
				kept.WriteString(text)
				return kept.String()[from:]
			})
		})
	}
	s.read = err == nil
	return s.list, err
}

// texts adds the texts of the part, or of a piece of it, each kept as it is to be.
func (s *sharedStrings) texts(walk *tags, keep func(string) string) error {
	for {
		tag, err := walk.next()
		if err != nil {
			return err
		}
		if tag.kind == endOfPart {
			return nil
		}
		if tag.kind != startElement || tag.name != "si" {
			continue
		}
		text, struck, err := walk.richText(tag)
		if err != nil {
			return err
		}
		if struck {
			if s.struck == nil {
				s.struck = map[int]bool{}
			}
			s.struck[len(s.list)] = true
		}
		s.list = append(s.list, keep(text))
	}
}

// richText joins the runs of text in <si> or <is>; how it is pronounced (rPh) is left out. struck is true where a run
// is struck out.
func (t *tags) richText(element token) (text string, struck bool, err error) {
	if element.closed {
		return "", false, nil
	}
	depth := t.depth()
	for {
		tag, err := t.next()
		if err != nil {
			return "", false, err
		}
		switch {
		case t.depth() < depth:
			return escapedCharacters(text), struck && text != "", nil
		case tag.kind == startElement && tag.name == "rPh":
			if _, err := t.skip(tag); err != nil {
				return "", false, err
			}
		case tag.kind == startElement && tag.name == "strike":
			value, _ := tag.attribute("val")
			struck = struck || !isOff(value)
		case tag.kind == startElement && tag.name == "t":
			run, err := t.content(tag)
			if err != nil {
				return "", false, err
			}
			if text == "" {
				text = run
			} else {
				text += run
			}
		}
	}
}
