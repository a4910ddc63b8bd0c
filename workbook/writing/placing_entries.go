package writing

import (
	"fmt"

	"railbook/grading"
	"railbook/rules/measure"
)

func awardsOf(lists []grading.AwardList) map[*grading.Graded][]string {
	awards := make(map[*grading.Graded][]string)
	for _, list := range lists {
		for _, winner := range list.Winners {
			awards[winner.Graded] = append(awards[winner.Graded], list.Award.Name)
		}
	}
	return awards
}

// awayFromNumbers keeps words a little away from the number that may stand in the column before.
func awayFromNumbers(one entry) entry {
	if _, words := one.value.(string); words && one.style.Align == "" {
		one.style.Indent = true
	}
	return one
}

func className(name string) string {
	if name == "" {
		return "No class named"
	}
	return name
}

func placeEntry(placed grading.Placed) entry {
	switch {
	case placed.JudgeTie:
		return entry{fmt.Sprintf("%d, tied: judge decides", placed.Place), style{Role: flagged, Align: "left", Wrap: true}}
	case placed.Shared:
		return entry{fmt.Sprintf("%d, tied", placed.Place), style{Role: strong, Align: "left"}}
	}
	return entry{placed.Place, style{Role: strong, Align: "left"}}
}

func tagWords(tag string) string {
	if tag == "" {
		return "no tag"
	}
	return tag
}

func (k kindOfClass) measureHeading(id measure.ID) entry {
	if definition, _ := measure.Define(id); definition.Kind == measure.KindNumber {
		return numberHeading(k.heading(id))
	}
	return entry{k.heading(id), style{Role: heading, Wrap: true}}
}
