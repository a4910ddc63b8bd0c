package workbook

import (
	"fmt"
	"strings"
	"testing"

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
