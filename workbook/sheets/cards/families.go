package cards

import (
	"fmt"
	"strings"
	"unicode"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/workbook/intake"
	"railbook/workbook/names"
	"railbook/workbook/result"

	"golang.org/x/text/unicode/norm"
)

// Family is the carcasses whose cards go into one envelope.
type Family struct {
	File      string // a name for a file, without its ending; no two families have the same
	Carcasses []*result.Result
}

// Families groups the carcasses by household: by the family column, else by exhibitor and club, else by class and tag. Who
// may not be one household is kept apart, for no child is to see another's card, and so is a carcass of which it is to be
// settled whose it is.
func Families(results *result.Results) []Family {
	var families []Family
	at := make(map[string]int)
	taken := make(map[string]bool)
	for _, carcass := range results.Carcasses {
		graded := carcass.Graded
		key, name := household(graded)
		if _, known := at[key]; !known {
			at[key] = len(families)
			families = append(families, Family{File: freeFileName(name, taken)})
		}
		family := &families[at[key]]
		family.Carcasses = append(family.Carcasses, carcass)
	}
	return families
}

func household(graded *grading.Graded) (key, name string) {
	family, exhibitor, club := result.TextOf(graded, measure.Family), result.TextOf(graded, measure.Exhibitor), result.TextOf(graded, measure.Club)
	switch {
	case exhibitor == intake.ToBeSettled:
		return fmt.Sprintf("row\t%s\t%d", graded.Place, graded.Sequence), "tag " + graded.Tag
	case names.Key(family) != "":
		return "family\t" + names.Key(family), family
	case names.Key(exhibitor) != "":
		return "exhibitor\t" + names.Key(exhibitor) + "\t" + names.Key(club), exhibitor
	case graded.Tag != "":
		return "tag\t" + string(graded.Species) + "\t" + graded.Class + "\t" + graded.Tag, "tag " + graded.Tag
	}
	return fmt.Sprintf("row\t%s\t%d", graded.Place, graded.Sequence), "no tag"
}

// freeFileName makes a file's name of a text that every system takes, and that no other family has.
func freeFileName(text string, taken map[string]bool) string {
	const longest = 40
	var name strings.Builder
	for _, letter := range norm.NFC.String(strings.ToLower(text)) {
		switch {
		case unicode.IsLetter(letter) || unicode.IsDigit(letter):
			name.WriteRune(letter)
		case name.Len() > 0 && !strings.HasSuffix(name.String(), "-"):
			name.WriteByte('-')
		}
	}
	letters := []rune(name.String())
	base := "card-" + strings.Trim(string(letters[:min(len(letters), longest)]), "-")
	base = strings.TrimSuffix(base, "-")
	free := base
	for number := 2; taken[free]; number++ {
		free = fmt.Sprintf("%s-%d", base, number)
	}
	taken[free] = true
	return free
}
