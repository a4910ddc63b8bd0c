package intake

import (
	"fmt"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
)

// followHistory gives carcasses that carry an old tag the tag that took its place, as a tag history or a roster says.
func (r *reader) followHistory(lists []*tableReader, carcasses []*animal) {
	current := map[string]bool{}
	for _, tr := range lists {
		if tr.kind == listTable {
			for _, animal := range tr.animals {
				current[animal.Tag] = true
			}
		}
	}
	onRail := map[string]bool{}
	for _, animal := range carcasses {
		onRail[animal.Tag] = true
	}
	for _, tr := range lists {
		for _, line := range tr.animals {
			old, ok := line.Reading(measure.OldTag)
			if !ok || line.Tag == "" || tr.kind != historyTable && current[old.Value.Text] {
				continue // where a roster says the old tag, another animal of the roster may carry that one now
			}
			r.replaceTag(lists, carcasses, old.Value.Text, line.Tag, old.Place, current, onRail)
		}
	}
}

// replaceTag follows one line of a tag history: a carcass with the old tag gets the new one, and an entry made under the
// old tag is looked for under the new.
func (r *reader) replaceTag(lists []*tableReader, carcasses []*animal, old, current string, at rules.Place, entered, onRail map[string]bool) {
	changed := false
	for _, animal := range carcasses {
		if sameTag(animal.Tag) == sameTag(old) && !onRail[current] {
			animal.Tag, changed = current, true
		}
	}
	for _, tr := range lists {
		if tr.kind != listTable {
			continue
		}
		for _, animal := range tr.animals {
			if sameTag(animal.Tag) == sameTag(old) && !entered[current] {
				animal.Tag, changed = current, true
			}
		}
	}
	if changed {
		r.find(validate.Finding{
			Level: validate.Note, Code: "tag replaced", At: at, Tag: current, Measure: measure.Tag, Read: old,
			Message: fmt.Sprintf("By the tag history, tag %s is now %s; its entry and carcass were joined as %s.", old, current, current),
		})
	}
}
