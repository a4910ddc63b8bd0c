package workbook

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
)

var demos = []string{"fair", "swine", "lamb", "goat", "ultrasound"}

// Whatever was read of a carcass and moves a figure of it is on its card, in a row or among what else was counted.
func TestWhatDecidedIsOnTheCard(t *testing.T) {
	for _, name := range demos {
		t.Run(name, func(t *testing.T) {
			published, err := Publish(gradedDemo(t, name), Options{}, PublishOptions{})
			if err != nil {
				t.Fatal(err)
			}
			cards, moving := cardRows(t, published.Cards.Path), 0
			for _, graded := range published.Results.Carcasses {
				words := strings.ToLower(flat(cards["Tag "+graded.Tag]))
				if !strings.Contains(words, "for the next animal") {
					continue // held or left out: its figures are not shown
				}
				for id, reading := range graded.Readings() {
					definition, _ := measure.Define(id)
					changed, can := another(definition.Kind, reading)
					if !can || id == measure.Consent || !moves(graded.Graded, id, changed, published.Results.Rules) {
						continue
					}
					moving++
					said := strings.ToLower(definition.Heading)
					if definition.Kind == measure.KindMarbling && strings.Contains(words, "marbling score") {
						said = "marbling"
					}
					if !strings.Contains(words, said) {
						t.Errorf("tag %s: %s moves a figure and is not on the card", graded.Tag, id)
					}
				}
			}
			if moving < 30 {
				t.Errorf("only %d readings moved a figure", moving)
			}
		})
	}
}

func flat(rows [][]string) string {
	var all []string
	for _, row := range rows {
		all = append(all, strings.Join(row, " "))
	}
	return strings.Join(all, "\n")
}

// another gives another value of a kind.
func another(kind measure.Kind, reading grading.Reading) (grading.Reading, bool) {
	number := reading.Value.Number
	switch kind {
	case measure.KindNumber:
		number = number.Mul(decimal.RequireFromString("1.2")).Add(decimal.NewFromInt(1))
	case measure.KindMarbling, measure.KindMaturity:
		number = number.Add(decimal.NewFromInt(150))
	case measure.KindMark:
		number = decimal.NewFromInt(1).Sub(number)
	case measure.KindDate:
		number = number.Sub(decimal.NewFromInt(20))
	case measure.KindLowering:
		number = decimal.NewFromInt(6).Sub(number)
	default:
		return reading, false
	}
	reading.Value = measure.NumberValue(number)
	return reading, !reading.Unreadable
}

func moves(graded *grading.Graded, id measure.ID, changed grading.Reading, book *rules.Rulebook) bool {
	twin := graded.Carcass.Clone()
	twin.SetReading(id, changed)
	other := grading.Grade(twin, book)
	for figure := range graded.Figures() {
		was, has := graded.Figure(figure)
		is, still := other.Figure(figure)
		if figure != id && has && (!still || !was.Number.Equal(is.Number) || was.Text != is.Text) {
			return true
		}
	}
	return false
}

// A figure under an open finding says that it is being checked, and one that was corrected says so. No advice rests on
// what is being checked.
func TestACardSaysWhatIsBeingCheckedAndWhatWasCorrected(t *testing.T) {
	path := smallFair(t)
	edit(t, path, path, func(file *excelize.File) { put(t, file, "Sheet1", "F3", 1.35) }) // fat past what is usual
	first := gradedFile(t, path)
	edit(t, first, first, func(file *excelize.File) { put(t, file, "Sheet1", "F4", 0.33) })
	published, err := Publish(gradedFile(t, first), Options{}, PublishOptions{})
	if err != nil {
		t.Fatal(err)
	}
	looked, retyped := "", ""
	for _, finding := range published.Results.Findings {
		if finding.Settled == nil && finding.Carcass != nil && finding.Level == validate.Look && strings.Contains(finding.Measure.String(), "fat") {
			if finding.Code == "value retyped" {
				retyped = finding.Tag
			} else {
				looked = finding.Tag
			}
		}
	}
	if looked == "" || retyped == "" {
		t.Fatalf("looked %q, retyped %q", looked, retyped)
	}
	cards := cardRows(t, published.Cards.Path)
	if words := flat(cards["Tag "+looked]); !strings.Contains(words, ", being checked") || strings.Contains(words, "less adjusted fat") || strings.Contains(words, "reaches yield grade") {
		t.Errorf("tag %s:\n%s", looked, words)
	}
	if words := flat(cards["Tag "+retyped]); !strings.Contains(words, ", corrected") {
		t.Errorf("tag %s:\n%s", retyped, words)
	}
}

// Every card begins with what put the carcass behind the next one up, or the first ahead of the second; the first is set
// beside the second and never beside itself.
func TestACardBeginsWithWhatSetItApart(t *testing.T) {
	for _, name := range demos {
		published, err := Publish(gradedDemo(t, name), Options{}, PublishOptions{})
		if err != nil {
			t.Fatal(err)
		}
		cards := cardRows(t, published.Cards.Path)
		for _, class := range published.Results.Placings.Classes {
			for at, placed := range class.Placed {
				words := flat(cards["Tag "+placed.Tag])
				want := "behind tag "
				if placed.Place == 1 {
					want = "ahead of tag "
				}
				if last := class.Placed[len(class.Placed)-1]; last.Place > 1 && !strings.Contains(words, want) {
					t.Errorf("%s: tag %s in place %d is not said to be %s", name, placed.Tag, placed.Place, want)
				}
				if at == 0 && len(class.Placed) > 1 && !strings.Contains(words, "Second in class") || at > 0 && !strings.Contains(words, "First in class") {
					t.Errorf("%s: tag %s is beside the wrong one", name, placed.Tag)
				}
			}
		}
	}
}

// What a family reads asks for no more than seven years of school, by the formula of Kincaid, Fishburne, Rogers and
// Chissom, 1975: 0.39 × words a sentence + 11.8 × syllables a word − 15.59. Syllables are counted by their vowels, which is
// common practice.
func TestCardsAreReadInSeventhGrade(t *testing.T) {
	graded := map[string]string{}
	for _, name := range demos {
		graded[name] = gradedDemo(t, name)
	}
	if os.Getenv("RAILBOOK_LONG") != "" {
		after, err := Grade("../testdata/demo/fair.xlsx", Options{LastYear: signedDemo(t, "fair.xlsx"), Output: filepath.Join(t.TempDir(), "after.xlsx")})
		if err != nil {
			t.Fatal(err)
		}
		graded["fair, beside last year's"] = after.Path
	}
	for name, path := range graded {
		published, err := Publish(path, Options{}, PublishOptions{Separate: filepath.Join(t.TempDir(), "families")})
		if err != nil {
			t.Fatal(err)
		}
		var sentences []string
		for _, rows := range cardRows(t, published.Cards.Path) {
			for _, row := range rows {
				if len(row) > 0 && strings.HasPrefix(row[0], "Please note") {
					break // small print
				}
				for _, cell := range row {
					if strings.HasSuffix(strings.TrimSpace(cell), ".") { // whole sentences: the words of a table would make them shorter
						sentences = append(sentences, sentencesOf(cell)...)
					}
				}
			}
		}
		grade := schoolGrade(sentences)
		t.Logf("%s: %.1f over %d sentences", name, grade, len(sentences))
		if grade > 7 {
			t.Errorf("%s: the cards are read in grade %.1f", name, grade)
		}
	}
}

var sentenceEnd = regexp.MustCompile(`[.!?](?:\s|$)`)

func sentencesOf(text string) []string {
	return slices.DeleteFunc(sentenceEnd.Split(text, -1), func(text string) bool { return len(wordsIn(text)) == 0 })
}

func wordsIn(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(letter rune) bool { return !unicode.IsLetter(letter) && letter != '\'' })
}

func schoolGrade(sentences []string) float64 {
	words, syllables := 0, 0
	for _, sentence := range sentences {
		for _, word := range wordsIn(sentence) {
			words++
			syllables += syllablesOf(word)
		}
	}
	return 0.39*float64(words)/float64(len(sentences)) + 11.8*float64(syllables)/float64(words) - 15.59
}

var vowels = regexp.MustCompile(`[aeiouy]+`)

func syllablesOf(word string) int {
	count := len(vowels.FindAllString(word, -1))
	if strings.HasSuffix(word, "e") && !strings.HasSuffix(word, "le") || strings.HasSuffix(word, "ed") && !strings.HasSuffix(word, "ted") && !strings.HasSuffix(word, "ded") {
		count--
	}
	return max(count, 1)
}

// The counts are those of a dictionary (from memory).
func TestSyllables(t *testing.T) {
	for word, want := range map[string]int{"fat": 1, "marbling": 2, "carcass": 2, "grade": 1, "placed": 1, "printed": 2, "table": 2, "average": 3, "quality": 3} {
		if got := syllablesOf(word); got != want {
			t.Errorf("%s: %d syllables, want %d", word, got, want)
		}
	}
}

// An animal that was scanned and hung is set beside itself on its card; one that another child's scan has the tag of is not.
func TestAScanStandsBesideTheRail(t *testing.T) {
	path := carcassSheet(t, []any{"Tag", "Exhibitor", "Kill date"}, [][]any{{"11", "Zyndra Qorblat", "2025-07-08"}, {"12", "Oswin Tarpley", "2025-07-08"}})
	edit(t, path, path, func(file *excelize.File) {
		if _, err := file.NewSheet("Ultrasound steers"); err != nil {
			t.Fatal(err)
		}
		for at, cells := range [][]any{
			{"Tag", "Exhibitor", "Live wt, lb", "Scan fat, in", "Scan REA, sq in", "IMF %", "Weigh-in date"},
			{"11", "Qorblat, Zyndra", 1200, 0.34, 12.5, 4.5, "2025-06-30"},
			{"12", "Fenna Ghyll", 1210, 0.4, 12.5, 4.2, "2025-06-30"},
		} {
			if err := file.SetSheetRow("Ultrasound steers", fmt.Sprintf("A%d", at+1), &cells); err != nil {
				t.Fatal(err)
			}
		}
	})
	published, err := Publish(gradedFile(t, path), Options{}, PublishOptions{})
	if err != nil {
		t.Fatal(err)
	}
	cards := cardRows(t, published.Cards.Path)
	own, other := flat(cards["Tag 11"]), flat(cards["Tag 12"])
	if !strings.Contains(own, "The scan beside the rail: scanned 8 days before") || !strings.Contains(own, "Adjusted fat 0.30 in 0.34 in 0.04 in") {
		t.Errorf("tag 11:\n%s", own)
	}
	if strings.Contains(other, "The scan beside") {
		t.Errorf("tag 12 stands beside another child's scan:\n%s", other)
	}
}
