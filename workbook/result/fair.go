package result

import (
	"strings"

	"railbook/rules"
	"railbook/rules/phrase"
	"railbook/workbook/intake"
)

// AboutFair is what is known of the fair: what its sheets say, else what the board's settings say. The judge who signed is the
// judge.
func (r *Results) AboutFair() intake.About {
	about := WithSettings(r.Read.About, r.Rules)
	if r.Run.Judge != "" {
		about.Judge = r.Run.Judge
	}
	return about
}

// WithSettings fills in from the rulebook's settings what the sheets do not say.
func WithSettings(about intake.About, book *rules.Rulebook) intake.About {
	settings := book.Settings
	for _, setting := range []struct {
		at        *string
		otherwise string
	}{
		{&about.Fair, settings.Fair},
		{&about.Place, settings.FairPlace},
		{&about.Date, settings.FairDate},
		{&about.Judge, settings.FairJudge},
		{&about.Plant, settings.Plant},
	} {
		if *setting.at == "" {
			*setting.at = setting.otherwise
		}
	}
	return about
}

// mostFairWords keeps the line that stands above every printed page from running into the status beside it.
const mostFairWords = 110

// FairLine says in one line which fair, where, when, who judged and which plant: each part only if it passes.
func FairLine(about intake.About, pass func(string) bool) string {
	var parts []string
	add := func(before, text string) {
		if text != "" && pass(text) {
			parts = append(parts, before+text)
		}
	}
	add("", about.Fair)
	add("", about.Place)
	add("", about.Date)
	add("judge ", about.Judge)
	add("", about.Plant)
	line := []rune(strings.Join(parts, " · "))
	if len(line) > mostFairWords {
		return string(line[:mostFairWords-1]) + "…"
	}
	return string(line)
}

// AnyText passes every text.
func AnyText(string) bool { return true }

// NotSaid names what neither the sheets nor the settings say of the fair; empty where all is said.
func NotSaid(about intake.About) string {
	var missing []string
	for _, setting := range []struct{ words, text string }{
		{"what the fair is called", about.Fair}, {"where it is held", about.Place}, {"the date", about.Date}, {"the judge", about.Judge}, {"the plant", about.Plant},
	} {
		if setting.text == "" {
			missing = append(missing, setting.words)
		}
	}
	return phrase.JoinAnd(missing)
}
