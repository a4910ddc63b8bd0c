package plant

import (
	"strings"

	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
)

// asking is what the words of a question are made of.
type asking struct {
	name    string // of the measure, with the plant's own heading where that is another
	written string
	hint    string // the likely value; empty for none
	other   string // the cell of the other value of a pair; empty for none
	class   string
}

// questionOf gives each check's own question, by its code. A question without words is one that no plant is asked: the fair
// office, the judge or the inspector alone can answer it.
var questionOf = map[string]func(asking) string{
	"duplicate tag":                withHint("This tag is on two carcasses. What is the tag of this one?"),
	"tag missing":                  withHint("This carcass has no tag. What is its tag?"),
	"row without tag":              withHint("This row has no tag. Is it a carcass, and what is its tag?"),
	"tag not on the roster":        withHint("The fair has no entry of this tag. What tag did the carcass carry?"),
	"tag cut short":                withHint("The tag looks cut short. What is the whole tag?"),
	"date in place of a tag":       withHint("A date stands in place of the tag. What is the tag?"),
	"tag by its values":            theirs("Is this column the tag of the animal?"),
	"tags swapped":                 pair("Were the tags %s and %s swapped? If so, say which carcass is whose."),
	"second entry differs":         pair("It was written down twice, as %s and as %s. Which of the two is right?"),
	"value missing":                withHint("Nothing is written. What was it?"),
	"nothing measured":             theirs("Nothing is written of this carcass. Was it measured, and what was read?"),
	"can't be placed":              theirs("Something of this row is missing that the carcass is placed by. Please complete it from the card."),
	"column missing":               theirs("The sheet lacks something that the carcasses are graded by: ribeye, marbling or another measure. Please send it, tag by tag."),
	"no carcass weight recognised": theirs("Which column of the sheet is the carcass weight?"),
	"adjusted fat by its values":   theirs("Is this column the fat as measured, or as adjusted?"),
	"cells left blank":             theirs("Cells of this column were left blank. Was nothing measured there?"),

	"unreadable value":               withHint("%s can't be read. What stands on the card?"),
	"error value":                    withHint("The cell holds an error in place of a value. What was the value?"),
	"formula never calculated":       withHint("The cell holds a formula without its result. What was the value?"),
	"date in place of a number":      withHint("A date stands in place of the number. What was the number?"),
	"date in place of a value":       withHint("A date stands in place of the value. What was it?"),
	"ambiguous marbling number":      withHint("%s may be meant in more than one way. Which degree of marbling is it, and how many hundredths?"),
	"score off the scale":            withHint("%s is off the scale. What was the score, in words?"),
	"two values for one measure":     withHint("Two different values are written for this carcass, %s among them. Which one counts?"),
	"merged value":                   withHint("The cell is merged over more than one carcass. What is the value of this one?"),
	"copied-down value":              withHint("%s stands in several rows, one after another. Was it read off each of these carcasses?"),
	"identical rows":                 theirs("Every measure is that of another row. Was this carcass measured by itself?"),
	"set apart":                      theirs("These carcasses stand apart from the others. What sets them apart?"),
	"struck out":                     theirs("This row is struck out. Was the carcass taken back in, or does it not count?"),
	"short line among the carcasses": theirs("This line stands among the carcasses. Is it one, or what does it say?"),
	"remark names a condition":       theirs("The remark reads: %s. What does it say of this carcass?"),
	"sheet's own figure disagrees": func(of asking) string {
		if of.hint == "" {
			return theirs("%s is not what the carcass's measures give. Which of them is wrong, or was it worked out otherwise?")(of)
		}
		return withHint("Is %s the chilled weight in place of the hot one?")(of)
	},
	"comment on a heading":     theirs("A comment on this heading says how its values are to be taken. Does it hold for every value below it?"),
	"remark questions a value": withHint("A remark on this carcass reads: %s. What is the value to be?"),
	"areas disagree":           theirs("The area that is written and the one by the dots counted do not agree. What is the area?"),
	"condition named":          theirs("A remark says %s. Is the carcass so marked?"),

	"decimal point moved":          withHint("Does the decimal point of %s stand in the wrong place?"),
	"digits swapped":               withHint("Were two digits of %s swapped?"),
	"a hundred off":                withHint("Is %s a hundred too high or too low?"),
	"wrong digit":                  withHint("Is a digit of %s wrong?"),
	"another unit":                 withHint("In which unit is %s?"),
	"value of the row above":       withHint("%s stands in the row above as well. What was read off this carcass?"),
	"out of line with the class":   withHint("%s does not go with the carcass's other measures. What does the card say?"),
	"values look exchanged":        pair("Do %s here and %s there stand in each other's column?"),
	"values exchanged":             pair("%s here and %s there can't both be right as they stand. Is each in the other's column?"),
	"values of two rows exchanged": pair("Do %s here and %s there stand in each other's row?"),

	"carcass heavier than live":            withHint("The carcass can't weigh as much as the live animal did. What are both weights?"),
	"dressing percent out of range":        withHint("The carcass weight and the live weight do not go together. What are both?"),
	"ribeye out of line with weight":       withHint("The ribeye and the carcass weight do not go together. What are both?"),
	"chilled and hot weight disagree":      withHint("The hot and the chilled weight do not go together. What are both?"),
	"sides and whole disagree":             withHint("The two sides do not add up to the whole weight. What are the three?"),
	"sides disagree":                       withHint("The two sides are too unlike to be of one carcass. What do they weigh?"),
	"fat of sides far apart":               withHint("The fat of the two sides is far apart. Was each read off its own side?"),
	"body wall no thicker than fat":        withHint("The body wall is no thicker than the fat over it. What are both?"),
	"date out of order":                    withHint("This date does not go with the others. What was it?"),
	"age and maturity disagree":            theirs("The bone does not go with the animal's age. What are its maturity and the dentition mark?"),
	"age marks disagree":                   theirs("The carcass is marked both under and over 30 months. Which is right?"),
	"old bone under 30 months":             theirs("The carcass is marked as under 30 months, and its bone is old. What did teeth and bone show?"),
	"over 30 months with A maturity":       theirs("The carcass is marked as over 30 months, and its bone is young. What did teeth and bone show?"),
	"not marked over 30 months":            theirs("The mark for under 30 months says no, and over 30 months is not marked. Is it over?"),
	"over 30 months by mark, not by dates": theirs("The mark says over 30 months, the dates say younger. What did the teeth show?"),
	"hardbone not marked":                  theirs("The bone is that of a hardbone carcass, and it is not marked as one. Should it be?"),
	"signs of a condition disagree":        theirs("The marks of this carcass contradict each other. Which is right?"),
	"cow or bull":                          theirs("The sex reads %s. Is that right?"),

	"columns exchanged":           theirs("Do two columns, this one and another, stand under each other's headings?"),
	"column a row off":            theirs("Does this column stand a row too high or too low from this row on? %s is the first that looks so."),
	"column in another unit":      theirs("In which unit is this column?"),
	"grade in brackets disagrees": theirs("The marbling does not give the grade that stands beside it. Which of the two is right?"),
	"two columns for one measure": theirs("Two columns read as the same measure. Which one counts?"),
	"hot or chilled not stated":   theirs("Are the carcass weights hot or chilled?"),
	"chilled given for hot":       theirs("The weights look chilled. Are they hot or chilled?"),
	"KPH not given":               theirs("Was the kidney, pelvic and heart fat estimated, and what was it, or was it pulled before weighing?"),
	"maturity not given":          theirs("Were the carcasses all of maturity A?"),
	"skin not stated":             theirs("Was the carcass skinned, or is the skin on?"),
	"quality grade of the plant":  theirs("Was the marbling read? If so, what was it?"),
}

// officeAlone are the codes that are no question for a plant.
var officeAlone = []string{
	"class missing", "class of several sheets", "class same as above", "class differs from the roster", "ditto signs", "consent unclear", "words against consent", "note about an animal", "exhibitor to be settled",
	"two sheets of the same carcasses", "set aside", "heading not recognised", "mapped heading not found", "column not read", "species unclear",
	"second entry incomplete", "fair and live weight disagree", "fair and live weight disagree throughout", "start weight not below the final weight",
	"carcass condemned", "carcass retained", "colours have a meaning",
	"exhibitor same as above", "rail number without a tag", "second entry a line off", "second entry a column off", "second entry under other headings",
}

// families are the codes that name a measure as well: by how they begin or end.
var families = []struct {
	prefix, suffix string
	question       func(asking) string
}{
	{"condition: ", "", theirs("The carcass is so marked. Is the mark right?")},
	{"sheet's own ", " disagrees throughout", theirs("How do you work out this figure?")},
	{"sheet's own ", " disagrees", withHint("%s is not what the carcass's measures give. Which of them is wrong, or was it worked out otherwise?")},
	{"", " of a group below the range", theirs("Many carcasses of this class are below what is usual. Were they read the same way as the others?")},
	{"", " of a group above the range", theirs("Many carcasses of this class are above what is usual. Were they read the same way as the others?")},
	{"", " out of line with the class", withHint("%s is far from what is usual in this class. What does the card say?")},
	{"", " out of range", withHint("%s is far from what is usual. What does the card say?")},
}

// asked gives the question about a finding; empty where a plant is not asked.
func asked(finding *validate.Finding, heading string) string {
	words := asking{
		name: finding.Measure.String(), written: finding.Read, hint: finding.Hint, class: finding.Class,
	}
	if finding.Code == "ribeye per hundredweight of a group below the range" {
		return "Many ribeyes of this class are small for the weight. Are these carcasses of dairy type?"
	}
	if finding.Exchange.Cell != "" {
		words.other = finding.Exchange.Cell
	}
	if words.name != "" && !strings.EqualFold(words.name, heading) && heading != "" {
		words.name += " (" + heading + ")"
	}
	if finding.Measure == measure.Tag {
		words.written = finding.Tag
	}
	if question := questionOf[finding.Code]; question != nil {
		return question(words)
	}
	for _, family := range families {
		if strings.HasPrefix(finding.Code, family.prefix) && strings.HasSuffix(finding.Code, family.suffix) {
			return family.question(words)
		}
	}
	return ""
}

// theirs is a question as it stands; %s is what is written.
func theirs(words string) func(asking) string {
	return func(of asking) string {
		return phrase.Capital(strings.ReplaceAll(words, "%s", orBlank(of.written)))
	}
}

// withHint asks, and then whether it was the likely value.
func withHint(words string) func(asking) string {
	return func(of asking) string {
		text := theirs(words)(of)
		if of.hint != "" {
			text += " Was it " + of.hint + "?"
		}
		return text
	}
}

// pair asks about two values, with the cell of the other.
func pair(words string) func(asking) string {
	return func(of asking) string {
		other := orBlank(of.hint)
		if of.other != "" {
			other += " (cell " + of.other + ")"
		}
		text := strings.Replace(words, "%s", orBlank(of.written), 1)
		return phrase.Capital(strings.Replace(text, "%s", other, 1))
	}
}
