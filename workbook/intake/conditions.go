package intake

import (
	"slices"
	"strings"
	"sync"
	"unicode"

	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
)

// condition is what words on a carcass's line may say of it that decides more than a measurement. A mark is the plant's or
// the judge's to make: words only raise the question.
type condition struct {
	measure measure.ID // the mark it would be; empty for not competing
	level   validate.Level
	pattern *phrase.Pattern
	heading *phrase.Pattern // short forms that mean it in a heading, over a mark
}

var conditions = []condition{
	{measure.Condemned, validate.Hold, phrase.NewPattern(`(?i)\bcondemn`), phrase.NewPattern(`(?i)\bcond\b`)},
	{measure.Retained, validate.Hold, phrase.NewPattern(`(?i)\bretain(?:ed)?\b|\bheld (?:by|for) `), phrase.NewPattern(`(?i)\bret\b`)},
	{notCompeting, validate.Hold, phrase.NewPattern(`(?i)\bDQ(?:'?d)?\b|\bdisq|\bscratch(?:ed)?\b|^scr\.?$|\bwith-?drawn\b|\bwithdrew\b|\bno[ -]?show\b|` +
		`\b(?:did not|didn'?t) (?:make|meet|weigh|show|compete|come)\b|^DNS\b|^DNC\b|\bdead\b|\bdied\b|\bsold private|\bnot (?:entered|competing|shown|eligible)\b|\bineligible\b|` +
		`\b(?:pulled|removed|taken) (?:out of|from) (?:the )?(?:contest|show|class|competition|fair)\b`), nil},
	{measure.DarkCutter, validate.Look, phrase.NewPattern(`(?i)\bda?r?k[ -]*cut|\bdark(?:ish)?[ -](?:lean|meat|colou?red|(?:rib ?)?eye)\b|\b(?:lean|eye|meat|colou?r) (?:is |was |looks? |a (?:bit|little) |very |too )*dark\b|^dark$|\bDC\b`), nil},
	{measure.Hardbone, validate.Look, phrase.NewPattern(`(?i)\bhard[ -]?bone|\bHB\b|\badvanced[ -](?:bone|age|matur)|\bold[ -]bone|\b[C-E][ -](?:bone|matur)|\bheiferette`), nil},
	{measure.DairyType, validate.Look, phrase.NewPattern(`(?i)\bdairy(?:[ -](?:type|bred|breed|cross|influence|steer|carcass))?\b`), nil},
	{measure.Over30Months, validate.Look, phrase.NewPattern(`(?i)\b(?:over|above|older than|more than) *30 *mo|> *30 *mo|\b30 *\+ *mo|\b30 months? (?:or|and) (?:over|older)|\bover (?:30|thirty)(?: months)?$|\bOTM\b`), nil},
	{measure.Bullock, validate.Look, phrase.NewPattern(`(?i)\bbullock|\bstag(?:gy)?\b`), nil},
	{measure.Trimmed, validate.Look, phrase.NewPattern(`(?i)\btrim(?:med|ming)?\b|\btrim loss\b`), nil},
	{measure.HotCarcassWeight, validate.Look, phrase.NewPattern(`(?i)\b(?:cooler|cold|chill(?:ed)?)[ -]*(?:carc(?:ass)?[ .]*)?(?:wt|weight)`), nil},
	{measure.Tag, validate.Look, phrase.NewPattern(`(?i)\btags?\b`), nil},
	{measure.Skinned, validate.Look, phrase.NewPattern(`(?i)\bskinned\b|\bskin(?: was)? (?:off|pulled)\b`), nil},
	{measure.BloodSplash, validate.Look, phrase.NewPattern(`(?i)\bblood[ -]?(?:splash|spot|shot)|\becchymosis\b`), nil},
}

// notCompeting stands for the condition of an animal that does not compete: it is no mark, since only the judge says so.
var notCompeting = measure.None

var (
	negated = phrase.NewPattern(`(?i)\b(?:not?|non|without|never|nor)\b[^,;.]{0,20}$`)
	// wholeCell are the words that count in a column of names, where "Dead Oak Feed" is a buyer and "Dark Cutters" a club.
	wholeCell = phrase.NewPattern(`(?i)^\W*(?:condemned|retained|disqualified|withdrawn)\W*$`)
	// nameHeading is a column of names and pedigrees among the headings that are not known.
	nameHeading = phrase.NewPattern(`(?i)\b(?:names?|buyers?|bidders?|purchas\w*|sold to|bought|sires?|dams?|breeders?|breed|bloodline|pedigree|owners?|` +
		`exhib\w*|parents?|guardian|clubs?|chapters?|schools?|advisors?|leaders?|farms?|ranch|address|street|city|town|county|email|phone|color|colour|sponsors?)\b`)
	// ribbonHeading is a column of ribbons or places, where "NC" means: did not compete.
	ribbonHeading = phrase.NewPattern(`(?i)\b(?:ribbons?|plac\w*|rank\w*|awards?|standing|premium)\b`)
	ribbonless    = phrase.NewPattern(`(?i)^\W*N\.? ?C\.?\W*$`)
	// plainMark is a mark that says yes to its heading; plainNo one that says no to it, or that there is nothing to say.
	plainMark = phrase.NewPattern(`(?i)^(?:x+|y|yes|true|t|1|✓|✔|√|☑|☒|✗|✘|\*+|\+)$`)
	// someAmount is a number of pounds or the like, which under a heading of what was trimmed says that something was.
	someAmount = phrase.NewPattern(`(?i)^[0.]*[1-9][\d.]* ?(?:lbs?|pounds?|#|oz|kg)?\.?$`)
	plainNo    = phrase.NewPattern(`(?i)^(?:n|no|none|false|f|0+(?:\.0+)?|p|ok|okay|good|fine|clear|clean|normal|pass(?:ed)?\b.*|not\b.*|no\b.*|released?\b.*|-+|☐|n/?a|nil)\.?$`)
)

// conditionsNamed gives the conditions that a text names in words that nothing takes back.
func conditionsNamed(text string) []condition {
	if !strings.ContainsFunc(text, unicode.IsLetter) {
		return nil // no condition is named without words, and most cells are numbers
	}
	var list []condition
	for _, condition := range conditions {
		if at := condition.pattern.FindStringIndex(text); at != nil && !negated.MatchString(text[:at[0]]) {
			list = append(list, condition)
		}
	}
	return list
}

// unknownHeading is what matters of a heading that is not known.
type unknownHeading struct {
	lettered       bool // it has a letter
	names, ribbons bool
	said           []condition // that its words name, in full
	marked         []condition // that its words name, in full or in short, so that a mark under it is one
}

// unknownHeadings keeps what was found of each heading: there are few, and each stands over thousands of cells.
var unknownHeadings sync.Map

func unknownHeadingOf(heading string) unknownHeading {
	if kept, found := unknownHeadings.Load(heading); found {
		return kept.(unknownHeading)
	}
	about := unknownHeading{lettered: hasLetter(heading), names: nameHeading.MatchString(heading), ribbons: ribbonHeading.MatchString(heading)}
	for _, condition := range conditions {
		says := condition.pattern.FindStringIndex(heading)
		switch {
		case condition.measure == measure.Tag || condition.measure == measure.HotCarcassWeight:
			continue // a column of tags or weights is no condition
		case says != nil && negated.MatchString(heading[:says[0]]):
			continue
		}
		if says != nil && condition.level == validate.Hold {
			about.said = append(about.said, condition)
		}
		if says != nil || condition.heading != nil && condition.heading.MatchString(heading) {
			about.marked = append(about.marked, condition)
		}
	}
	unknownHeadings.Store(heading, about)
	return about
}

// namedUnder gives the conditions that a cell under a heading that is not known names: in its own words, or as a mark
// under the words of its heading.
func namedUnder(heading, text string) []condition {
	about := unknownHeadingOf(heading)
	return about.named(text)
}

// named gives the conditions that a cell under the heading names.
func (about *unknownHeading) named(text string) []condition {
	if about.names {
		return namedWhole(text)
	}
	list := conditionsNamed(text)
	if about.ribbons && ribbonless.MatchString(text) {
		list = append(list, conditionOf(notCompeting))
	}
	if len(about.marked) == 0 || plainNo.MatchString(text) {
		return list
	}
	under := about.said
	switch {
	case plainMark.MatchString(text):
		under = about.marked
	case someAmount.MatchString(text):
		for _, condition := range about.marked {
			if condition.measure == measure.Trimmed {
				under = append(slices.Clone(under), condition)
			}
		}
	}
	for _, named := range under {
		if !slices.ContainsFunc(list, func(known condition) bool { return known.measure == named.measure }) {
			list = append(list, named)
		}
	}
	return list
}

// namedWhole gives the condition that is all a cell says.
func namedWhole(text string) []condition {
	if !wholeCell.MatchString(text) {
		return nil
	}
	return conditionsNamed(text)
}

var (
	// behindName is what stands behind a name, set off from it: "Mott, Cal - DQ", "Cal Mott (scratched)".
	behindName = phrase.NewPattern(`\s[-–—/*]+\s*|[(\[*]`)
	outOfShow  = phrase.NewPattern(`(?i)^\W*(?:condemned|retained|disqualified|withdrawn|withdrew|DQ|DQ'?d|scratched|scr|no[ -]?show|DNS)\W*$`)
)

// namedInName gives the condition that is all a name or the like says, or that stands behind it.
func namedInName(text string) []condition {
	if found := namedWhole(text); len(found) > 0 {
		return found
	}
	return namedBehind(text)
}

// namedBehind gives the condition that stands behind an exhibitor's name, set off from it.
func namedBehind(text string) []condition {
	if !strings.ContainsAny(text, "-–—/*([") {
		return nil // as behindName wants, which nearly no name has
	}
	parts := behindName.Split(text, -1)
	for _, part := range parts[1:] {
		if outOfShow.MatchString(part) {
			return conditionsNamed(strings.Trim(part, " .)]*"))
		}
	}
	return nil
}

func conditionOf(id measure.ID) condition {
	at := slices.IndexFunc(conditions, func(named condition) bool { return named.measure == id })
	return conditions[at]
}

// saysAbsent reports whether a text says that an animal does not compete.
func saysAbsent(heading, text string) bool {
	text = strings.TrimSpace(text)
	return slices.ContainsFunc(namedUnder(heading, text), func(named condition) bool { return named.measure == notCompeting })
}
