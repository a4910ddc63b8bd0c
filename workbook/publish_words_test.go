package workbook

import (
	"fmt"
	"strings"
	"testing"

	"railbook/rules/address"
	"railbook/workbook/sheets/fair"

	"github.com/xuri/excelize/v2"
)

// A family is told why a grade is lower than the marbling says, and is shown no price and no advice for a carcass that the
// inspector kept back, whatever the judge accepted.
func TestCardsOfDarkAndCondemnedCarcasses(t *testing.T) {
	path := smallFair(t)
	edit(t, path, path, func(file *excelize.File) {
		for cell, value := range map[string]any{
			"K1": "Dark cutter", "L1": "Dark cutter lowering", "M1": "Condemned", "K9": "x", "L9": "1/3", "M4": "yes",
		} {
			put(t, file, "Sheet1", cell, value)
		}
	})
	results := gradedFile(t, path)
	edit(t, results, results, func(file *excelize.File) { correctAll(t, file, nil) })
	published, err := Publish(gradedFile(t, results), Options{}, PublishOptions{})
	if err != nil {
		t.Fatal(err)
	}
	cards := cardRows(t, published.Cards.Path)
	if words := fmt.Sprint(cards["Tag A108"]); !strings.Contains(words, "The judge lowered it by 1/3 of a grade") {
		t.Errorf("the card does not say why the grade is lower:\n%s", words)
	}
	words := fmt.Sprint(cards["Tag A103"])
	if !strings.Contains(words, "kept back") {
		t.Errorf("the card does not say that the carcass was kept back:\n%s", words)
	}
	for _, heading := range []string{"How the price was built up", "For the next animal", "What would have moved it"} {
		if strings.Contains(words, heading) {
			t.Errorf("the card of a condemned carcass has %q", heading)
		}
	}
}

func TestKidneyFatIsNotSaidToBeScanned(t *testing.T) {
	published, err := Publish(gradedDemo(t, "ultrasound"), Options{}, PublishOptions{})
	if err != nil {
		t.Fatal(err)
	}
	words := fmt.Sprint(cardRows(t, published.Cards.Path))
	if strings.Contains(words, "Scanned kPH") || !strings.Contains(words, "[KPH % 2.5 %") {
		t.Error("the kidney, pelvic and heart fat of a live animal is said to be scanned")
	}
}

// One youth is written in more than one way: a refusal counts for them all. The names are invented.
func TestRefusalCountsHoweverTheNameIsWritten(t *testing.T) {
	path := smallFair(t)
	edit(t, path, path, func(file *excelize.File) {
		put(t, file, "Sheet1", "K1", "Consent")
		for row := 2; row <= 13; row++ {
			put(t, file, "Sheet1", fmt.Sprintf("K%d", row), "yes")
		}
		for cell, value := range map[string]any{
			"C2": "Zyndra Qorblat", "K2": "no", "C3": "Qorblat, Zyndra",
			"C4": "Fenna Ghyll & Brevik Unthank", "K4": "no", "C5": "Brevik Unthank",
			"C6": "Wexmoor, Umbel", "K6": "", "B7": "Umbel Wexmoor Memorial steers",
			"C8": "Oswin Tarpley",
		} {
			put(t, file, "Sheet1", cell, value)
		}
	})
	published, err := Publish(gradedFile(t, path), Options{}, PublishOptions{})
	if err != nil {
		t.Fatal(err)
	}
	all := strings.ToLower(unpacked(t, published.Public.Path))
	for _, name := range []string{"zyndra", "qorblat", "fenna", "brevik", "wexmoor"} {
		if strings.Contains(all, name) {
			t.Errorf("%q is in the public file", name)
		}
	}
	if !strings.Contains(all, "oswin tarpley") {
		t.Error("a name with consent is not in the public file")
	}
}

// Two carcasses of one tag, whose exhibitor is to be settled, are one line of the missing consents with the tag once.
func TestATagIsOnceAmongTheMissingConsents(t *testing.T) {
	results, err := Examine("../testdata/demo/fair.xlsx", Options{})
	if err != nil {
		t.Fatal(err)
	}
	times := map[string]int{}
	for _, missing := range fair.ConsentsOf(results).Missing(results) {
		for _, tag := range missing.Tags {
			times[tag]++
		}
	}
	if len(times) == 0 {
		t.Fatal("nobody's consent is missing")
	}
	for tag, number := range times {
		if number > 1 {
			t.Errorf("tag %s is listed %d times", tag, number)
		}
	}
}

func TestACardSaysWhatMadeAPorkCarcassUtility(t *testing.T) {
	path := smallFair(t)
	edit(t, path, path, func(file *excelize.File) {
		for column, heading := range []string{"Tag", "Class", "Exhibitor", "Live wt", "HCW", "10th rib fat", "LMA", "Last rib fat", "Firmness", "Muscling score"} {
			cell := address.Cell(column+1, 1)
			put(t, file, "Sheet1", cell, heading)
			for row := 2; row <= 13; row++ {
				cell := address.Cell(column+1, row)
				put(t, file, "Sheet1", cell, []any{fmt.Sprint(row), "Barrows", "", 265 + row, 195 + row, 0.7, 6.8, 0.9, 1 + row%2, 2}[column])
			}
		}
	})
	published, err := Publish(gradedFile(t, path), Options{}, PublishOptions{})
	if err != nil {
		t.Fatal(err)
	}
	cards := cardRows(t, published.Cards.Path)
	for tag, soft := range map[string]bool{"Tag 2": true, "Tag 3": false} {
		if words := fmt.Sprint(cards[tag]); strings.Contains(words, "scored soft, a firmness of 1") != soft {
			t.Errorf("%s, soft %v:\n%s", tag, soft, words)
		}
	}
}
