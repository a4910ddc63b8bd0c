package fair

import (
	"fmt"
	"slices"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/result"
	"railbook/workbook/sheets/sheetstest"
)

// answered is an exhibitor and what stands under consent beside one animal of hers; empty for nothing.
type answered struct{ exhibitor, club, consent string }

func consentsOf(t *testing.T, animals []answered, entries ...validate.Entry) (*Consents, []*result.Result) {
	t.Helper()
	results := &result.Results{Rules: rules.Default(), Read: &intake.Result{Entries: entries}}
	for at, animal := range animals {
		carcass := sheetstest.Animals[at].Carcass(at)
		carcass.SetReading(measure.Exhibitor, grading.Reading{Value: measure.Value{Text: animal.exhibitor}, Written: animal.exhibitor})
		carcass.SetReading(measure.Club, grading.Reading{Value: measure.Value{Text: animal.club}, Written: animal.club})
		switch animal.consent {
		case "":
		case "yes", "no":
			number := int64(len(animal.consent) / 3)
			carcass.SetReading(measure.Consent, grading.Reading{Value: measure.NumberValue(sheetstest.Number(fmt.Sprint(number))), Written: animal.consent})
		default:
			carcass.SetReading(measure.Consent, grading.Reading{Written: animal.consent, Unreadable: true})
		}
		results.Carcasses = append(results.Carcasses, &result.Result{Graded: sheetstest.Animals[at].Graded(carcass)})
	}
	return ConsentsOf(results), results.Carcasses
}

// A name is published where a yes stands beside it and nothing but yes stands beside any animal of the same child's, in whatever
// writing, a list of entries without a carcass included. The names are invented.
func TestWhoseNamesMayBePublished(t *testing.T) {
	const name = "Zyndra Qorblat"
	for about, row := range map[string]struct {
		others  []answered
		entries []validate.Entry
		may     bool
	}{
		"a yes":                       {nil, nil, true},
		"another animal's yes":        {[]answered{{name, "", "yes"}}, nil, true},
		"another animal has none":     {[]answered{{name, "", ""}}, nil, true},
		"another animal's no":         {[]answered{{name, "", "no"}}, nil, false},
		"another animal's pending":    {[]answered{{name, "", "pending"}}, nil, false},
		"her no in another club":      {[]answered{{name, "Tern Point FFA", "no"}}, nil, false},
		"another order":               {[]answered{{"Qorblat, Zyndra", "", "no"}}, nil, false},
		"an initial":                  {[]answered{{"Z. Qorblat", "", "no"}}, nil, false},
		"initials together":           {[]answered{{"ZQ", "", "no"}}, nil, false},
		"all letters in a row":        {[]answered{{"ZyndraQorblat", "", "no"}}, nil, false},
		"with a sister":               {[]answered{{"Fenna & Zyndra Qorblat", "", "no"}}, nil, false},
		"the family's name":           {[]answered{{"Qorblat", "", "no"}}, nil, false},
		"taken apart":                 {[]answered{{"Zyndra Qor\u00adblat", "", "no"}}, nil, false},
		"another child's no":          {[]answered{{"Fenna Qorblat", "", "no"}}, nil, true},
		"an entry's no":               {nil, []validate.Entry{{Exhibitor: name, Refused: true}}, false},
		"an entry's no by an initial": {nil, []validate.Entry{{Exhibitor: "Qorblat, Z", Refused: true}}, false},
		"an entry's yes":              {nil, []validate.Entry{{Exhibitor: name}}, true},
	} {
		consents, carcasses := consentsOf(t, append([]answered{{name, "", "yes"}}, row.others...), row.entries...)
		published := consents.Name(carcasses[0].Graded)
		if consents.May(carcasses[0].Graded) != row.may || (published == name) != row.may || !row.may && published != "" {
			t.Errorf("%s: %q is published", about, published)
		}
		// What somebody wrote goes out with no name of hers in it, but to herself.
		for _, text := range []string{"The Zyndra Qorblat heifer", "sired by ZYNDRA QORBLAT's bull", "Qorblat Zyndra", "ZyndraQorblat steers"} {
			if got := consents.Safe(text, "…"); (got == text) != row.may {
				t.Errorf("%s: of %q goes out %q", about, text, got)
			}
			if got := consents.Safe(text, "…", append(consents.heldIn(text), name)...); got != text {
				t.Errorf("%s: to herself goes out %q", about, got)
			}
		}
	}
}

// An answer beside no name, and one beside a carcass of which it is to be settled whose it is, gives nobody's consent and refuses nobody's.
func TestAnswersOfNobody(t *testing.T) {
	consents, carcasses := consentsOf(t, []answered{
		{"", "", "yes"},
		{intake.ToBeSettled, "", "yes"},
		{intake.ToBeSettled, "", "no"},
		{"&", "", "yes"},
		{"Zyndra Qorblat", "", "yes"},
		{"Zyndra Qorblat", "Rock Ferry 4-H", ""},
	})
	var may []bool
	for _, carcass := range carcasses {
		may = append(may, consents.May(carcass.Graded))
	}
	if want := []bool{false, false, false, false, true, false}; !slices.Equal(may, want) {
		t.Errorf("%v, want %v", may, want)
	}
}
