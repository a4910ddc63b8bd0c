package xlsx

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"

	"github.com/sourcegraph/conc/iter"
)

// harmlessKinds are the relationships to parts without which a workbook is the same: where such a part is damaged it is
// left out, and the reader is told.
var harmlessKinds = map[string]bool{
	"theme": true, "core-properties": true, "extended-properties": true, "custom-properties": true, "customXml": true,
	"connections": true, "thumbnail": true, "volatileDependencies": true, "calcChain": true,
}

// isMarkup reports whether a part is to be read as XML. The drawings of comments (.vml) are not: spreadsheet programs
// themselves write them as half XML, half HTML.
func isMarkup(part string) bool {
	extension := strings.ToLower(path.Ext(part))
	return extension == ".xml" || extension == ".rels"
}

// checkParts reads every part of the input once as programs that know namespaces do, so that those that are passed
// through need no second look.
func (b *Book) checkParts(name string) error {
	all := b.contents
	var parts []string
	for part := range all.parts {
		if isMarkup(part) {
			parts = append(parts, part)
		}
	}
	slices.Sort(parts)
	targets, faults := make([][]string, len(parts)), make([]error, len(parts))
	iter.ForEachIdx(parts, func(i int, part *string) {
		targets[i], faults[i] = wellFormed(all.parts[*part])
		if list := all.lists[*part]; list != nil {
			targets[i] = append(targets[i], list.targets...)
			faults[i] = cmp.Or(list.fault, faults[i])
		}
	})
	var left []string
	for i, part := range parts {
		if faults[i] == nil {
			continue
		}
		harmless, err := all.leaveOut(part)
		if at := slices.IndexFunc(b.sheets, func(sheet sheetPart) bool { return sheet.part == part }); at >= 0 {
			return errDamaged(name, part, fmt.Sprintf("the sheet %q is not all there: %v", b.sheets[at].name, faults[i]))
		}
		if err != nil || !harmless {
			return errDamaged(name, part, faults[i].Error())
		}
		left = append(left, part)
	}
	if len(left) > 0 {
		b.note("", PartDamaged, "parts of the workbook that no cell depends on are damaged (%s), and are left out of what is written from it. Colours, fonts or properties may be other than they were; nothing needs to be done for the contest.", strings.Join(left, ", "))
	}
	for i, part := range parts {
		for _, id := range all.unresolved(part, targets[i]) {
			all.loose[part+" "+id] = true
		}
	}
	return nil
}

// leaveOut takes a part out of the package if all that points to it can do without.
func (c *contents) leaveOut(part string) (harmless bool, err error) {
	type place struct {
		owner string
		link  relation
	}
	var places []place
	for name := range c.parts {
		owner, is := ownerOf(name)
		if !is {
			continue
		}
		related, err := c.relations(owner)
		if err != nil {
			return false, err
		}
		for _, relation := range related {
			if relation.TargetMode != "External" && relation.Target == part {
				if !harmlessKinds[relation.kind()] {
					return false, nil
				}
				places = append(places, place{owner, relation})
			}
		}
	}
	for _, at := range places {
		if err := c.unlink(at.owner, at.link); err != nil {
			return false, err
		}
	}
	return len(places) > 0, nil
}

// ownerOf gives the part whose relationships a part holds.
func ownerOf(relations string) (owner string, is bool) {
	folder, base := path.Split(relations)
	if !strings.HasSuffix(folder, "_rels/") || !strings.HasSuffix(base, ".rels") {
		return "", false
	}
	return strings.TrimSuffix(folder, "_rels/") + strings.TrimSuffix(base, ".rels"), true
}

// unresolved gives those of the relationships a part names that it does not have.
func (c *contents) unresolved(part string, ids []string) (missing []string) {
	if len(ids) == 0 {
		return nil
	}
	related, err := c.relations(part)
	if err != nil {
		return ids
	}
	for _, id := range ids {
		if !slices.ContainsFunc(related, func(link relation) bool { return link.ID == id }) {
			missing = append(missing, id)
		}
	}
	return missing
}

// is reports whether bytes are the very ones that the input packed.
func (p packedPart) is(plain []byte) bool {
	return len(plain) > 0 && len(plain) == len(p.plain) && &plain[0] == &p.plain[0]
}

// checkMade reads every part that is not the input's once before it is written, and follows every relationship. Rows of
// ours are read as they are packed.
func (b *Book) checkMade(parts map[string][]byte) error {
	made, input := &contents{parts: parts}, &contents{}
	if b.contents != nil {
		input = b.contents
	}
	var names []string
	for part, data := range parts {
		if isMarkup(part) && !input.packed[part].is(data) {
			names = append(names, part)
		}
	}
	slices.Sort(names)
	faults := iter.Map(names, func(part *string) error {
		targets, err := wellFormed(parts[*part])
		if err == nil {
			err = made.checkRelations(*part, targets, input)
		}
		if err != nil {
			return fmt.Errorf("part %s: %w", *part, err)
		}
		return nil
	})
	for _, fault := range faults {
		if fault != nil {
			return fault
		}
	}
	return nil
}

// checkRelations makes sure that a part's relationships are there and lead to a part, unless they did not in the input.
func (c *contents) checkRelations(part string, targets []string, input *contents) error {
	for _, id := range c.unresolved(part, targets) {
		if !input.loose[part+" "+id] {
			return fmt.Errorf("it names the relationship %s, which is not there", id)
		}
	}
	owner, is := ownerOf(part)
	if !is {
		return nil
	}
	related, err := c.relations(owner)
	if err != nil {
		return err
	}
	for _, relation := range related {
		_, found := c.parts[relation.Target]
		if found || relation.TargetMode == "External" || relation.kind() == "hyperlink" {
			continue
		}
		_, known := input.parts[part]
		if _, had := input.parts[relation.Target]; had || !known {
			return fmt.Errorf("it leads to the part %s, which is not there", relation.Target)
		}
	}
	return nil
}
