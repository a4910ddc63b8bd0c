package xlsx

import (
	"strings"
)

type declaredPrefix struct{ prefix, space string }

// resolve makes sure that the prefixes of a tag and of its attributes are declared.
func (r *xmlReader) resolve(start int, name string, colon int) error {
	if colon > 0 {
		if _, known := r.space(name[:colon]); !known {
			return r.fault(start, "nobody declares the prefix of <"+shorten(name)+">")
		}
	}
	for i, attribute := range r.attributes {
		if attribute.colon == 0 || attribute.name[:attribute.colon] == "xmlns" {
			continue
		}
		space, known := r.space(attribute.name[:attribute.colon])
		if !known {
			return r.fault(start, "nobody declares the prefix of "+shorten(attribute.name))
		}
		for _, earlier := range r.attributes[:i] {
			if earlier.colon > 0 && earlier.name[:earlier.colon] != "xmlns" && earlier.name[earlier.colon:] == attribute.name[attribute.colon:] {
				if same, _ := r.space(earlier.name[:earlier.colon]); same == space {
					return r.fault(start, "a tag has the attribute "+shorten(attribute.name)+" twice")
				}
			}
		}
		if space == relationSpace && attribute.value != "" {
			r.targets = append(r.targets, entities(attribute.value))
		}
	}
	return nil
}

// space gives the namespace of a prefix.
func (r *xmlReader) space(prefix string) (space string, known bool) {
	for i := len(r.declared) - 1; i >= 0; i-- {
		if r.declared[i].prefix == prefix {
			return r.declared[i].space, true
		}
	}
	return "xml", prefix == "xml"
}

// declarations gives the prefixes that a tag declares.
func declarations(tag token) (declared []declaredPrefix) {
	for name, value, rest, ok := firstAttribute(tag.attributes); ok; name, value, rest, ok = firstAttribute(rest) {
		if prefix, is := strings.CutPrefix(name, "xmlns:"); is {
			declared = append(declared, declaredPrefix{prefix, entities(value)})
		}
	}
	return declared
}
