package intake

import (
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/phrase"
)

// titleUnits are units given once for a whole table.
type titleUnits struct {
	units   map[string]scale // by the base unit
	weights rules.WeightsAre // what its carcass weights are; empty where nothing says so
	from    title            // where they are given
}

var (
	unitInTitle = phrase.NewPattern(`(?i)\b(lbs?|pounds?|kgs?|kilo(?:gram)?s?|mm|millimet(?:er|re)s?|cm|centimet(?:er|re)s?|inch(?:es)?|tenths|hundredths|sq\.? ?in\.?|square inches|in2|sq\.? ?cm|cm2|square cm|square centimet(?:er|re)s)\b`)
	inIn        = phrase.NewPattern(`(?i)\bin in\b`)
	weightWord  = phrase.NewPattern(`(?i)\b(weights?|wts?|weighed|carcass(?:es)?)\b`)
	unitSpeech  = phrase.NewPattern(`(?i)\b(units?|in (?:kg|kilo|mm|millim|cm|centim|lb|pound|inch|tenth|hundredth|sq|square)|metric|weights?|wts?|fat|measure[sd]?|measurements?)\b`)
)

// unitsOf finds the units and the kind of weight that the lines above a table give for all of it.
func unitsOf(titles []title) titleUnits {
	found := titleUnits{units: map[string]scale{}}
	for _, title := range titles {
		text := strings.ReplaceAll(strings.ReplaceAll(title.text, "²", "2"), "in.", "in")
		if weightWord.MatchString(text) {
			if weights := titleWeights(text); weights != "" {
				found.weights = weights
			}
		}
		if !unitSpeech.MatchString(text) {
			continue
		}
		if strings.Contains(strings.ToLower(text), "metric") {
			found.set("kg", title)
			found.set("mm", title)
			found.set("sq cm", title)
		}
		for _, written := range unitInTitle.FindAllString(text, -1) {
			if unit, ok := readUnit(written); ok {
				found.set(unit.unit, title)
			}
		}
		if inIn.MatchString(text) {
			found.set("in", title)
		}
	}
	return found
}

func (u *titleUnits) set(unit string, from title) {
	u.units[scales[unit].base] = scales[unit]
	u.from = from
}

// titleWeights is statedWeights for a title, where "cooler" only names the place.
func titleWeights(text string) rules.WeightsAre {
	words := slices.DeleteFunc(fold(text), func(word string) bool { return word == "cooler" })
	return statedWeights(strings.Join(words, " "))
}

// summaryWord is how a line of totals or averages begins, and loneSummaryWord what may stand alone there.
var (
	summaryWord = phrase.NewPattern(`(?i)^(?:(?:class|grand|sub|overall|all|show|fair|group|pen)[ -]?)*(?:totals?|averages?|avg|ave|mean|sum|median|minimum|maximum|std ?dev|st ?dev|standard deviation|head ?count|number of head|no\.? of head|total head|head)\b[ .:#]*(?:of .*|for .*|head|class.*|(?:this )?page.*|\(.*\)|\d*)$|^(?:page|pg\.?)[ -]*(?:\d+ )?(?:sub-?)?totals?\b|^\d+ ?(?:hd|head)\b\.?$`)

	loneSummaryWord = phrase.NewPattern(`(?i)^(?:min|max|n|count|range|high|low|goal|target|sd)[.:]?$`)
)

// endsInSummary is how a line of totals of one class is headed: "Light Average", "Heavy Count".
var endsInSummary = phrase.NewPattern(`(?i)\S[ -]+(?:averages?|avg|ave|means?|counts?|sub-?totals?|totals?|sums?|minimum|maximum|min|max|std ?dev)\W*$`)

// endsInAverage is the same where the tags stand, which may be the name of an animal: "Little Max".
var endsInAverage = phrase.NewPattern(`(?i)\S[ -]+(?:averages?|avg|means?|head ?counts?|sub-?totals?|totals?|std ?dev)\W*$`)

// summarises reports whether a text begins a line of totals or averages: "Average", "All steers total", "Lambs-average".
func (r *reader) summarises(text string) bool {
	if !hasLetter(text) {
		return false
	}
	if summaryWord.MatchString(text) || loneSummaryWord.MatchString(text) {
		return true
	}
	words := strings.FieldsFunc(text, func(c rune) bool { return c == ' ' || c == '-' })
	words = slices.DeleteFunc(words, func(word string) bool { return r.species.in(word) != "" })
	return summaryWord.MatchString(strings.Join(words, " "))
}

// noteWord is how a line of remarks about the table begins.
var noteWord = phrase.NewPattern(`(?i)^(?:notes?|nb|remarks?|comments?|signed|judge|grader|plant|date|page|p\.|key|legend|source|\*)\b`)

// className makes a class of a title line: "Class: Heavy steers" is Heavy steers.
func className(text string) string {
	text = clean(text)
	if rest, cut := cutPrefixFold(text, "class:"); cut {
		return rest
	}
	return strings.TrimRight(text, " :")
}

// noClass are words that a contest's or a plant's own title holds, and the name of a class does not.
var noClass = []string{
	"fair", "contest", "show", "carcass", "carcasses", "results", "data", "sheet", "county", "plant", "packing", "packers",
	"meats", "locker", "report", "entries", "roster", "judge", "judges", "rail", "cooler", "kill", "cards", "tickets",
}

// dayWithin is a whole date within a text, as the title of a list has and the name of a class does not.
var dayWithin = phrase.NewPattern(`(?i)\b(?:\d{1,2}[/.-]\d{1,2}[/.-]\d{2,4}|\d{4}-\d{1,2}-\d{1,2}|(?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]*\.? \d{1,2}(?:st|nd|rd|th)?,? \d{4}|\d{1,2}\.? (?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]*\.?,? \d{4})\b`)

// classLike reports whether a text reads like the name of a class.
func (r *reader) classLike(text string) bool {
	words := fold(text)
	if label, _, answered := strings.Cut(text, ":"); answered && aboutField(label) != nil {
		return false // it says something of the fair
	}
	if len(text) > 60 || len(words) == 0 || dayWithin.MatchString(text) {
		return false
	}
	if words[0] == "class" || words[0] == "division" || r.classNames[strings.Join(words, " ")] || r.rosterClasses[strings.Join(words, " ")] {
		return true
	}
	if slices.ContainsFunc(words, func(word string) bool { return slices.Contains(noClass, word) }) {
		return false
	}
	for _, word := range words {
		switch word {
		case "class", "classes", "division", "market", "prospect", "bred", "open", "junior", "senior", "novice", "crossbred",
			"light", "lightweight", "lights", "medium", "middleweight", "mediums", "heavy", "heavyweight", "heavies",
			"feeder", "feeders", "finished", "owned", "purebred", "commercial", "yearling", "yearlings":
			return true
		}
		if r.species.in(word) != "" {
			return true
		}
	}
	return false
}
