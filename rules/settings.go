package rules

import (
	"fmt"
	"sync"

	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// Setting describes one setting: the name under which it stands on the Settings sheet, and what it means.
type Setting struct {
	Name    string
	Species []Species // those it is set for one by one; empty for one value for all
	Choices []string  // the words it may be; empty for a number, a date or free text
	Meaning string
}

// EverySetting describes every setting, in the order of the Settings sheet. The list is not to be
// changed.
func EverySetting() []Setting { return everySetting() }

var everySetting = sync.OnceValue(func() []Setting {
	return []Setting{
		{"rulebook name", nil, nil, "What the rulebook is called on everything that is printed."},
		{"year", nil, nil, "The year the rulebook is for."},
		{"base price", eachSpecies, nil, "Dollars for each hundred pounds of carcass before premiums and discounts. Its source stands in the Source column."},
		{"base price date", eachSpecies, nil, "The day the base price was taken, as 2025-08-15."},
		{"customary KPH", speciesWith(measure.InternalFat), nil, "Kidney, pelvic and heart fat, in percent, for a carcass that has none written down. Blank holds such a carcass."},
		{"carcass weights are", nil, []string{string(WeightsHot), string(WeightsChilled)}, "What a carcass weight is when the sheet does not say: hot or chilled."},
		{"chilled to hot", nil, nil, "Hot weight is the chilled weight times this. Blank holds a carcass that has only a chilled weight."},
		{"marbling scale", speciesWith(measure.Marbling), []string{"refuse", string(MarblingHundreds), string(MarblingSince22), string(MarblingBefore22), string(MarblingReversed)}, "The scale of bare marbling numbers. Hundreds: 400 is Small 00, and a number below 100 is asked about. Small is 4, or small is 5: 4.0, or 5.0, is Small 00. Small is 6 down: the scale of the 1960s, where less is more. Refuse: ask about every bare number below 100."},
		{"species of unmarked sheets", nil, append([]string{"ask"}, speciesWords...), "The species of carcasses whose sheet does not say it by a name, a class, a column or its headings. Ask: they are held until somebody says."},
		{"price by thirds", nil, []string{"yes", "no"}, "Yes: quality lines of the value grid may name thirds (High Choice). No: they name whole grades."},
		{"conditions", nil, []string{"add", "largest only"}, "A carcass with several marks: their discounts add, or only the largest counts."},
		{"dark cutter takes", speciesWith(measure.DarkCutter), []string{string(DarkCutterBoth), string(DarkCutterGrade), string(DarkCutterDiscount)}, "What a dark cutter loses: the lowered grade and the discount, the grade only, or the discount only."},
		{"ultrasound dressing percent", eachSpecies, nil, "Percent of live weight that an ultrasound class takes for carcass weight. Blank: no carcass weight is estimated."},
		{"start dressing percent", eachSpecies, nil, "Percent of the start weight that counts as carcass at the start. Blank: carcass gain is not computed."},
		{"shrink", nil, nil, "Percent taken off live weights for shrink. 0 for none."},
		{"shrink on", nil, []string{string(ShrinkNone), string(ShrinkFinal), string(ShrinkBoth)}, "Which live weights are shrunk: none, the final one, or both."},
		{"days on feed end", nil, []string{string(DaysEndWeighIn), string(DaysEndKill)}, "Whether days on feed are counted to the weigh-in or to the kill."},
		{"lean equation", speciesWith(measure.LeanEquationName), LeanEquations(), "The equation that a percent of lean is computed with. Figures of different equations are never ranked together."},
		{"questions until", nil, nil, "The last day for questions about the results, as 2025-08-15. Blank: none is printed."},
		{"fair", nil, nil, "What the fair is called, on every page that is printed. What a sheet's own title says goes before."},
		{"place of the fair", nil, nil, "Where the fair is held, on every page that is printed."},
		{"date of the fair", nil, nil, "The day, as 2025-08-19, on every page that is printed. A kill date on the sheet goes before."},
		{"judge", nil, nil, "Who judges, on every page that is printed. Who signs goes before."},
		{"plant", nil, nil, "The plant, on every page that is printed. What a sheet's own title says goes before."},
		{"print names without consent column", nil, []string{"yes", "no"}, "Whether the fair's own results show names where the sheet has no consent column. The public sheet never does."},
		{"quality grade without marbling", speciesWith(measure.Marbling), []string{"none", string(QualityOfPlant)}, "The quality grade of a carcass that has no marbling. None: it is asked about, and not placed. Plant's own: the plant's grade on the sheet stands, and is marked as the plant's."},
	}
})

// LeanEquations gives the names of the equations for a hog's lean.
func LeanEquations() []string {
	return []string{"fat-free lean, ribbed", "fat-free lean, unribbed", "fat-free lean, live scan", "lean with 5 % fat", "probe lean"}
}

// settingKey is a setting's name with the species it is set for.
type settingKey struct {
	name    string
	species Species
}

func (l *loading) settings() {
	found := l.settingLines(l.lines(SettingsTable))
	l.addMissingSettings(found)
	settings := Settings{
		BasePrice:            make(map[Species]decimal.NullDecimal),
		BasePriceSource:      make(map[Species]string),
		BasePriceDate:        make(map[Species]string),
		ScanDressingPercent:  make(map[Species]decimal.NullDecimal),
		StartDressingPercent: make(map[Species]decimal.NullDecimal),
	}
	rule := func(name string) line { return found[settingKey{name, ""}] }
	ofOne := func(name string) line {
		setting, _ := settingNamed(name)
		return found[settingKey{name, setting.Species[0]}]
	}
	settings.Name, _ = rule("rulebook name").needed("Value")
	settings.Year = rule("year").year()
	settings.Weights = WeightsAre(rule("carcass weights are").settingChoice())
	settings.ChilledToHot = rule("chilled to hot").within("1", "1.2")
	settings.PriceByThirds = rule("price by thirds").settingChoice() == "yes"
	settings.ConditionsAdd = rule("conditions").settingChoice() == "add"
	settings.Shrink = rule("shrink").within("0", "15").Decimal
	settings.ShrinkOn = ShrinkOn(rule("shrink on").settingChoice())
	if !settings.Shrink.IsZero() && settings.ShrinkOn == ShrinkNone {
		rule("shrink").fault("Value", "Shrink is %s percent, and the setting %q says that no weight is shrunk. Write 0 here, or final or both there.", settings.Shrink, "shrink on")
	}
	settings.DaysEnd = DaysEnd(rule("days on feed end").settingChoice())
	settings.QuestionsUntil = rule("questions until").date("Value")
	settings.Fair, settings.FairPlace = rule("fair").text("Value"), rule("place of the fair").text("Value")
	settings.FairDate, settings.FairJudge, settings.Plant = rule("date of the fair").date("Value"), rule("judge").text("Value"), rule("plant").text("Value")
	settings.PrintNamesWithoutField = rule("print names without consent column").settingChoice() == "yes"
	for _, species := range eachSpecies {
		price := found[settingKey{"base price", species}]
		settings.BasePrice[species] = price.within("0", "10000")
		settings.BasePriceSource[species] = price.text("Source")
		settings.BasePriceDate[species] = found[settingKey{"base price date", species}].date("Value")
		settings.ScanDressingPercent[species] = found[settingKey{"ultrasound dressing percent", species}].within("20", "95")
		settings.StartDressingPercent[species] = found[settingKey{"start dressing percent", species}].within("20", "95")
	}
	settings.CustomaryKPH = ofOne("customary KPH").within("0", "8")
	settings.MarblingScale = MarblingScale(ofOne("marbling scale").settingChoice())
	if settings.MarblingScale == "refuse" {
		settings.MarblingScale = MarblingRefused
	}
	if ofOne("quality grade without marbling").settingChoice() == string(QualityOfPlant) {
		settings.WithoutMarbling = QualityOfPlant
	}
	settings.DarkCutterTakes = DarkCutterTakes(ofOne("dark cutter takes").settingChoice())
	if species := rule("species of unmarked sheets").settingChoice(); species != "ask" {
		settings.UnmarkedSpecies = Species(species)
	}
	settings.LeanEquation = ofOne("lean equation").settingChoice()
	l.book.Settings = settings
}

// settingLines sorts the lines of the sheet by the setting they are for.
func (l *loading) settingLines(lines []line) map[settingKey]line {
	found := make(map[settingKey]line)
	for _, line := range lines {
		text, ok := line.needed("Setting")
		if !ok {
			continue
		}
		setting, ok := settingNamed(text)
		if !ok {
			line.fault("Setting", "There is no setting %q.%s", text, nearest(text, settingNames()))
			continue
		}
		key := settingKey{setting.Name, line.species()}
		if len(setting.Species) == 1 && key.species == "" {
			key.species = setting.Species[0]
		}
		if !setting.isFor(key.species) {
			line.fault("Species", "The setting %q is not for %s. It is for %s.", setting.Name, orEvery(key.species), setting.whom())
			continue
		}
		if first, twice := found[key]; twice {
			line.fault("Setting", "The setting %q is there twice; the first time in cell %s. Keep one of the two.", setting.Name, first.place("Setting").Cell)
			continue
		}
		found[key] = line
	}
	return found
}

// addMissingSettings takes settings that have no line from the defaults.
func (l *loading) addMissingSettings(found map[settingKey]line) {
	table := l.table(SettingsTable)
	var missing []string
	for _, line := range (&loading{book: &Rulebook{Tables: shippedTables()}}).lines(SettingsTable) {
		key := settingKey{line.text("Setting"), line.species()}
		if _, there := found[key]; there {
			continue
		}
		line.loading = l
		found[key] = line
		if value := line.text("Value"); value != "" {
			missing = append(missing, fmt.Sprintf("%s%s (%s)", key.name, forSpecies(key.species), value))
		}
	}
	if len(missing) > 0 {
		l.warn(tablePlace(table), "Some settings have no line, so the defaults are used: %s.", phrase.JoinAnd(missing))
	}
}

func settingNamed(name string) (Setting, bool) {
	for _, setting := range EverySetting() {
		if fold(setting.Name) == fold(name) {
			return setting, true
		}
	}
	return Setting{}, false
}

func settingNames() []string {
	var names []string
	for _, setting := range EverySetting() {
		names = append(names, setting.Name)
	}
	return names
}

func (s Setting) isFor(species Species) bool {
	if len(s.Species) == 0 {
		return species == ""
	}
	for _, kind := range s.Species {
		if kind == species {
			return true
		}
	}
	return false
}

func (s Setting) whom() string {
	if len(s.Species) == 0 {
		return "every species at once, so leave the species blank"
	}
	var words []string
	for _, species := range s.Species {
		words = append(words, string(species))
	}
	return phrase.JoinOr(words)
}

// settingChoice reads the value of a setting that is one of a few words and may not be blank.
func (n line) settingChoice() string {
	setting, _ := settingNamed(n.text("Setting"))
	text := n.text("Value")
	word, found := among(text, setting.Choices)
	if !found {
		n.fault("Value", "The setting %q is %s. It should be %s.", setting.Name, quotedOrBlank(text), phrase.JoinOr(setting.Choices))
	}
	return word
}

// within reads a setting's number, which must lie between the two ends; a blank cell has none.
func (n line) within(lowest, highest string) decimal.NullDecimal {
	text := n.text("Value")
	if text == "" {
		return decimal.NullDecimal{}
	}
	number, ok := parseNumber(text)
	if !ok || number.LessThan(decimal.RequireFromString(lowest)) || number.GreaterThan(decimal.RequireFromString(highest)) {
		n.fault("Value", "The setting %q is %q. It should be a number from %s to %s.", n.text("Setting"), text, lowest, highest)
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(number)
}

var yearForm = phrase.NewPattern(`^(19|20)[0-9][0-9]$`)

func (n line) year() string {
	text := n.text("Value")
	if !yearForm.MatchString(text) {
		n.fault("Value", "The setting %q is %s. It should be a year such as 2025.", "year", quotedOrBlank(text))
	}
	return text
}

func orEvery(species Species) string {
	if species == "" {
		return "every species"
	}
	return string(species)
}

func forSpecies(species Species) string {
	if species == "" {
		return ""
	}
	return " for " + string(species)
}

func quotedOrBlank(text string) string {
	if text == "" {
		return "blank"
	}
	return `"` + text + `"`
}
