package placing_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/words"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func reasonsOf(class placing.ClassPlacing) []string {
	var lines []string
	for at := range class.Placed {
		lines = append(lines, words.Reasons(&class, at))
	}
	return lines
}

func TestDraftReasonsSpeakOfWhatDecided(t *testing.T) {
	herd := []*grading.Graded{
		beef("305", "Steers", "Average Choice", "3.2", "540", "1.60"),
		beef("412", "Steers", "Low Choice", "2.38", "410", "1.80"),
		beef("77", "Steers", "Low Choice", "2.43", "410", "1.80"),
		beef("101", "Steers", "Low Choice", "2.71", "430", "1.70"),
		beef("500", "Steers", "High Select", "1.9", "380", "1.95"),
		beef("9", "Steers", "Low Prime", "4.1", "720", "1.40"),
	}
	for tag, fat := range map[int]string{0: "0.55", 1: "0.40", 2: "0.40", 3: "0.40", 4: "0.20", 5: "0.95"} {
		herd[tag].SetFigure(measure.AdjustedFat, grading.Figure{Value: measure.NumberValue(decimal.RequireFromString(fat))})
	}
	book := beefBook()
	book.Rankings[0].Keys = book.Rankings[0].Keys[:4]
	book.Classes[0].PlacesPaid = 4
	want := []string{
		"I start with 305 over 77: it grades higher, Average Choice to Low Choice. It also shows more marbling, a score of 540 to 410. " +
			"I grant that 77 yields more for its weight, yield grade 2.4 to 3.2, and is the trimmer carcass by 0.15 in of fat.",
		"77 and 412 are level in 2nd at Low Choice, yield grade 2.4 and marbling score 410, and share the place.",
		"412 shares 2nd with 77. 412 follows in 2nd over 101: it yields more for its weight, yield grade 2.4 to 2.7. " +
			"I grant that 101 shows more marbling, a score of 430 to 410.",
		"101 follows in 4th over 500: it grades higher, Low Choice to High Select. It also shows more marbling, a score of 430 to 380. " +
			"I grant that 500 yields more for its weight, yield grade 1.9 to 2.7, and is the trimmer carcass by 0.20 in of fat.",
		"500 stands below the money: it grades lower, High Select to 101's Low Choice. " +
			"I grant that 500 yields more for its weight, yield grade 1.9 to 2.7, and is the trimmer carcass by 0.20 in of fat.",
		"9 stands below the money: its whole yield grade of 4 is past the rule's 3, and 101's 2 is not. " +
			"I grant that 9 grades higher, Low Prime to Low Choice, and shows more marbling, a score of 720 to 430.",
	}
	if diff := cmp.Diff(want, reasonsOf(placing.PlaceClasses(placing.Entered(herd), nil, book).Classes[0])); diff != "" {
		t.Error(diff)
	}
}

// A difference that vanishes in print is no advantage: of the ribeyes only those of the second pair are granted.
func TestDraftReasonsGrantNoHairsWidth(t *testing.T) {
	for _, test := range []struct {
		ribeye string
		grants bool
	}{{"1.6049", false}, {"1.6149", true}} {
		herd := []*grading.Graded{beef("1", "Steers", "Average Choice", "2.5", "540", "1.6001"), beef("2", "Steers", "Low Choice", "2.5", "540", test.ribeye)}
		reasons := reasonsOf(placing.PlaceClasses(placing.Entered(herd), nil, beefBook()).Classes[0])[0]
		if strings.Contains(reasons, "I grant") != test.grants {
			t.Errorf("%s against 1.6001: %s", test.ribeye, reasons)
		}
	}
}

// spokenFigures reads a judge's sentence back: the words before the two figures, the measure, and which way is ahead.
var spokenFigures = []struct {
	pattern *regexp.Regexp
	measure measure.ID
	lower   bool // the speaker's own figure must be the lower
}{
	{regexp.MustCompile(`grades higher, ([A-Z]\w+ \w+) to (?:\d+'s )?([A-Z]\w+ \w+)`), measure.QualityGrade, false},
	{regexp.MustCompile(`grades lower, ([A-Z]\w+ \w+) to (?:\d+'s )?([A-Z]\w+ \w+)`), measure.QualityGrade, true},
	{regexp.MustCompile(`yields more for its weight, yield grade ([\d.]+\d) to (?:\d+'s )?([\d.]+\d)`), measure.YieldGrade, true},
	{regexp.MustCompile(`yields less for its weight, yield grade ([\d.]+\d) to (?:\d+'s )?([\d.]+\d)`), measure.YieldGrade, false},
	{regexp.MustCompile(`more marbling, a score of (\d+) to (?:\d+'s )?(\d+)`), measure.MarblingScore, false},
	{regexp.MustCompile(`less marbling, a score of (\d+) to (?:\d+'s )?(\d+)`), measure.MarblingScore, true},
	{regexp.MustCompile(`heavier muscled for its weight, ([\d.]+) to (?:\d+'s )?([\d.]+) sq in`), measure.RibeyePerHundredweight, false},
	{regexp.MustCompile(`lighter muscled for its weight, ([\d.]+) to (?:\d+'s )?([\d.]+) sq in`), measure.RibeyePerHundredweight, true},
	{regexp.MustCompile(`its whole yield grade of (\d) keeps within the rule's 3, and \d+'s (\d) does not`), measure.WholeYieldGrade, true},
	{regexp.MustCompile(`its whole yield grade of (\d) is past the rule's 3, and \d+'s (\d) is not`), measure.WholeYieldGrade, false},
}

var (
	overTag   = regexp.MustCompile(`over (\d+):`)
	ownersTag = regexp.MustCompile(`(\d+)'s`)
	trimmer   = regexp.MustCompile(`the trimmer carcass by (\.\d\d) in of fat`)
)

// spokenAs gives a figure as the default ranking for beef compares and prints it.
func spokenAs(carcass *grading.Graded, id measure.ID) string {
	value := carcass.FigureOf(id).Value
	switch id {
	case measure.QualityGrade:
		return value.Text
	case measure.YieldGrade:
		return value.Number.StringFixed(1)
	case measure.RibeyePerHundredweight:
		return value.Number.StringFixed(2)
	default:
		return value.Number.String()
	}
}

// TestEveryFigureOfAReasonIsTheCarcasssOwn reads every drafted sentence back: each figure must be that of the carcass it
// is said of, and each advantage a true one.
func TestEveryFigureOfAReasonIsTheCarcasssOwn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		herd := herdOf(t)
		byTag := map[string]*grading.Graded{}
		for _, carcass := range herd {
			carcass.SetFigure(measure.MarblingScore, grading.Figure{Value: measure.NumberValue(decimal.NewFromInt(int64(rapid.IntRange(300, 500).Draw(t, "marbling"))))})
			carcass.SetFigure(measure.AdjustedFat, grading.Figure{Value: measure.NumberValue(decimal.New(int64(rapid.IntRange(10, 90).Draw(t, "fat")), -2))})
			byTag[carcass.Tag] = carcass
		}
		book := beefBook()
		book.Classes[0].PlacesPaid = rapid.IntRange(0, 6).Draw(t, "paid")
		for _, class := range placing.PlaceClasses(placing.Entered(herd), nil, book).Classes {
			for at, placed := range class.Placed {
				reasons := words.Reasons(&class, at)
				if err := readReasonBack(placed, reasons, byTag); err != "" {
					t.Fatalf("%s in %q", err, reasons)
				}
			}
		}
	})
}

func readReasonBack(placed placing.Placed, reasons string, byTag map[string]*grading.Graded) string {
	if reasons == "" {
		return "no reason"
	}
	other := overTag.FindStringSubmatch(reasons)
	if other == nil {
		other = ownersTag.FindStringSubmatch(reasons)
	}
	said, granted, hasGrant := strings.Cut(reasons, "I grant that ")
	if other == nil {
		if hasGrant {
			return "a grant to nobody"
		}
		return ""
	}
	against := byTag[other[1]]
	if err := checkSpoken(said, placed.Graded, against); err != "" || !hasGrant {
		return err
	}
	tag, granted, _ := strings.Cut(granted, " ")
	switch {
	case tag == placed.Tag:
		return checkSpoken(granted, placed.Graded, against)
	case tag == against.Tag:
		return checkSpoken(granted, against, placed.Graded)
	}
	return "a grant to a carcass that is not of the pair"
}

func checkSpoken(text string, speaker, other *grading.Graded) string {
	claims := 0
	for _, spoken := range spokenFigures {
		for _, found := range spoken.pattern.FindAllStringSubmatch(text, -1) {
			claims++
			own, others := spokenAs(speaker, spoken.measure), spokenAs(other, spoken.measure)
			if found[1] != own || found[2] != others {
				return fmt.Sprintf("%s: said %s and %s, are %s and %s", spoken.measure, found[1], found[2], own, others)
			}
			order := speaker.FigureOf(spoken.measure).Value.Number.Cmp(other.FigureOf(spoken.measure).Value.Number)
			if spoken.lower && order >= 0 || !spoken.lower && order <= 0 {
				return fmt.Sprintf("%s is no advantage", found[0])
			}
		}
	}
	if found := trimmer.FindStringSubmatch(text); found != nil {
		claims++
		lead := other.FigureOf(measure.AdjustedFat).Value.Number.Sub(speaker.FigureOf(measure.AdjustedFat).Value.Number)
		if !lead.Equal(decimal.RequireFromString("0" + found[1])) {
			return fmt.Sprintf("trimmer by %s, is %s", found[1], lead)
		}
	}
	if commas := strings.Count(text, " to "); claims < commas {
		return fmt.Sprintf("%d claims of which %d could be read back", commas, claims)
	}
	return ""
}

func TestAnOverruledPlaceSpeaksTheJudgesReason(t *testing.T) {
	herd, book := five(rules.TiesJudge)
	class := placing.PlaceClasses(placing.Entered(herd), []placing.Ruling{{Class: "Steers", Tag: "5", Place: 1, Reason: "firmer lean."}}, book).Classes[0]
	want := []string{
		"I place 5 1st: firmer lean.",
		"1 follows in 2nd over 2: it grades higher, Low Prime to Low Choice. It also shows more marbling, a score of 700 to 410.",
	}
	if diff := cmp.Diff(want[:2], reasonsOf(class)[:2]); diff != "" {
		t.Error(diff)
	}
}

// What a judge sees besides the keys is granted to the lower carcass, each trait in its own words.
func TestWhatIsSeenIsGrantedInItsOwnWords(t *testing.T) {
	for id, test := range map[measure.ID]struct{ upper, lower, words string }{
		measure.AdjustedFat:    {"0.50", "0.40", "is the trimmer carcass by 0.10 in of fat"},
		measure.TenthRibFat:    {"0.80", "0.65", "is trimmer by 0.15 in at the tenth rib"},
		measure.RibeyeArea:     {"12.5", "13.5", "has the larger ribeye by 1.00 sq in"},
		measure.LoinMuscleArea: {"7.0", "7.5", "has the larger loin by 0.50 sq in"},
	} {
		upper, lower := beef("1", "Steers", "Average Choice", "2.5", "540", "1.60"), beef("2", "Steers", "Low Choice", "2.5", "540", "1.60")
		for carcass, figure := range map[*grading.Graded]string{upper: test.upper, lower: test.lower} {
			carcass.SetFigure(id, grading.Figure{Value: measure.NumberValue(decimal.RequireFromString(figure))})
		}
		for _, swapped := range []bool{false, true} {
			if swapped {
				upperFigure, lowerFigure := upper.FigureOf(id), lower.FigureOf(id)
				upper.SetFigure(id, lowerFigure)
				lower.SetFigure(id, upperFigure)
			}
			class := placing.PlaceClasses(placing.Entered([]*grading.Graded{upper, lower}), nil, beefBook()).Classes[0]
			reasons := words.Reasons(&class, 0)
			if granted := strings.Contains(reasons, "I grant that 2 "+test.words+"."); granted == swapped {
				t.Errorf("%s, swapped %v: %q", id, swapped, reasons)
			}
		}
	}
}

// What was found when carcasses were placed is what comparing them again finds, of neighbours and of others.
func TestNeighboursAreDecidedAsWhenPlaced(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		book := beefBook()
		for _, class := range placing.PlaceClasses(placing.Entered(herdOf(t)), nil, book).Classes {
			ranker := class.Ranker(book)
			for at, upper := range class.Placed {
				for _, lower := range class.Placed[at+1:] {
					if lower.Place == upper.Place || lower.After() != upper.After() {
						continue
					}
					if got, want := ranker.DecidedBy(upper, lower), ranker.FirstDifference(upper.Graded, lower.Graded); got != want {
						t.Fatalf("key %d put %s over %s, not %d", want, upper.Tag, lower.Tag, got)
					}
				}
			}
		}
	})
}
