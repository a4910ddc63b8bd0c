package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/workbook/result"
	"railbook/workbook/sheets/cards"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"
)

// gradedDemo grades a demo workbook in a folder of its own and gives the path of the results.
func gradedDemo(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile("../testdata/demo/" + name + ".xlsx")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), name+".xlsx")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return gradedFile(t, path)
}

func gradedFile(t *testing.T, path string) string {
	t.Helper()
	outcome, err := Grade(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	return outcome.Path
}

// cardRows reads every card of a workbook: for each sheet its rows.
func cardRows(t *testing.T, path string) map[string][][]string {
	t.Helper()
	file, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	cards := make(map[string][][]string)
	for _, sheet := range file.GetSheetList() {
		if cards[sheet], err = file.GetRows(sheet); err != nil {
			t.Fatal(err)
		}
	}
	return cards
}

// amount gives the number beside a heading of a card.
func amount(rows [][]string, heading string) string {
	for _, row := range rows {
		if len(row) > 1 && row[0] == heading {
			return strings.NewReplacer("$", "", ",", "", "\u00a0", "", "−", "-", "+", "").Replace(row[1])
		}
	}
	return ""
}

func TestCardsSayWhatTheResultsSay(t *testing.T) {
	for _, name := range []string{"fair", "swine", "lamb", "goat", "ultrasound"} {
		t.Run(name, func(t *testing.T) {
			published, err := Publish(gradedDemo(t, name), Options{}, PublishOptions{})
			if err != nil {
				t.Fatal(err)
			}
			cards := cardRows(t, published.Cards.Path)
			results := published.Results
			if len(cards) != len(results.Carcasses) {
				t.Fatalf("%d cards for %d carcasses", len(cards), len(results.Carcasses))
			}
			for _, class := range results.Placings.Classes {
				for _, placed := range class.Placed {
					rows := cards["Tag "+placed.Tag]
					all := fmt.Sprint(rows)
					if !strings.Contains(all, fmt.Sprintf("place %d of %d", placed.Place, len(class.Placed))) {
						t.Errorf("tag %s: its place %d is not on its card", placed.Tag, placed.Place)
					}
					checkMoney(t, rows, placed.Graded)
					checkTerms(t, rows, placed.Graded)
				}
				for _, notPlaced := range class.NotPlaced {
					if all := fmt.Sprint(cards["Tag "+notPlaced.Tag], cards["Tag "+notPlaced.Tag+" (2)"]); !strings.Contains(all, "no place yet") && !strings.Contains(all, "is not placed") {
						t.Errorf("tag %s: its card does not say that it has no place", notPlaced.Tag)
					}
				}
			}
		})
	}
}

// checkMoney holds a card's price and value, and the sum of its steps, against the figures.
func checkMoney(t *testing.T, rows [][]string, graded *grading.Graded) {
	t.Helper()
	price, priced := graded.Figure(measure.Price)
	value, _ := graded.Figure(measure.CarcassValue)
	if !priced {
		if amount(rows, "Value of the carcass") != "" {
			t.Errorf("tag %s has no price, and a value on its card", graded.Tag)
		}
		return
	}
	if got := amount(rows, "Price per cwt (100 lb)"); got != price.Number.StringFixed(2) {
		t.Errorf("tag %s: price %s on the card, %s computed", graded.Tag, got, price.Number)
	}
	if got := amount(rows, "Value of the carcass"); got != value.Number.StringFixed(2) {
		t.Errorf("tag %s: value %s on the card, %s computed", graded.Tag, got, value.Number)
	}
	sum, within := decimal.Zero, false
	for _, row := range rows {
		switch {
		case row != nil && row[0] == "Base price":
			within = true
		case row != nil && row[0] == "Price per cwt (100 lb)":
			within = false
		}
		if within {
			sum = sum.Add(decimal.RequireFromString(amount([][]string{row}, row[0])))
		}
	}
	if !sum.Equal(price.Number) {
		t.Errorf("tag %s: the steps on the card add up to %s, the price is %s", graded.Tag, sum, price.Number)
	}
}

// checkTerms adds up the terms as they are printed.
func checkTerms(t *testing.T, rows [][]string, graded *grading.Graded) {
	t.Helper()
	sum, terms := decimal.Zero, 0
	for _, row := range rows {
		switch {
		case len(row) < 2:
		case row[0] == "To begin with" || terms > 0 && !strings.HasPrefix(row[0], "Together"):
			sum = sum.Add(decimal.RequireFromString(amount([][]string{row}, row[0])))
			terms++
		case strings.HasPrefix(row[0], "Together"):
			if total := amount([][]string{row}, row[0]); !sum.Equal(decimal.RequireFromString(total)) {
				t.Errorf("tag %s: the terms on the card add up to %s, and %s is printed", graded.Tag, sum, total)
			}
			return
		}
	}
	t.Errorf("tag %s: no terms on its card", graded.Tag)
}

// namedFair is a fair whose names are found nowhere else: in the data, in a class, a remark, a comment, the properties, a
// defined name and a sheet's name.
func namedFair(t *testing.T) string {
	t.Helper()
	file := excelize.NewFile()
	defer file.Close()
	sheet := "Qorblat carcasses"
	steps := []error{
		file.SetSheetName("Sheet1", sheet),
		file.SetDocProps(&excelize.DocProperties{Creator: "Zyndra Qorblat", Title: "Zyndra Qorblat", Description: "Zyndra Qorblat"}),
		file.SetDefinedName(&excelize.DefinedName{Name: "Qorblat", RefersTo: "'" + sheet + "'!$A$1"}),
		file.AddComment(sheet, excelize.Comment{Cell: "B2", Author: "Zyndra Qorblat", Text: "Zyndra Qorblat"}),
	}
	for row, cells := range [][]any{
		{"Tag", "Exhibitor", "Family", "Club", "Consent", "Class", "HCW, lb", "Fat, in", "REA, sq in", "KPH %", "Marbling", "Maturity", "Remarks"},
		{"11", "Zyndra Qorblat", "Qorblat", "Wexmoor Club", "no", "Steers", 800, 0.4, 13.2, 2.5, "Small 40", "A50", "Zyndra Qorblat led it"},
		{"12", "Oswin Tarpley", "Tarpley", "Wexmoor Club", "yes", "Steers", 760, 0.5, 12.8, 2, "Modest 10", "A50", ""},
		{"13", "Brevik Unthank", "Unthank", "Ludcombe Club", "", "Steers", 810, 0.3, 13.9, 2, "Slight 80", "A50", ""},
		{"14", "Oswin Tarpley", "Tarpley", "Wexmoor Club", "", "Zyndra Qorblat memorial heifers", 700, 0.4, 12.1, 2, "Small 60", "A50", ""},
		{"15", "Fenna Ghyll", "Ghyll", "Ludcombe Club", "yes", "Zyndra Qorblat memorial heifers", 720, 0.4, 12.4, 2, "Small 70", "A50", ""},
		{"16", "Fenna Ghyll", "Ghyll", "Ludcombe Club", "no", "Zyndra Qorblat memorial heifers", 730, 0.6, 12.4, 2, "Small 10", "A50", ""},
	} {
		steps = append(steps, file.SetSheetRow(sheet, fmt.Sprintf("A%d", row+1), &cells))
	}
	path := filepath.Join(t.TempDir(), "fair.xlsx")
	for _, err := range append(steps, file.SaveAs(path)) {
		if err != nil {
			t.Fatal(err)
		}
	}
	return path
}

// unpacked gives the text of every part of a workbook, with the parts' names.
func unpacked(t *testing.T, path string) string {
	t.Helper()
	archive, err := zip.OpenReader(path)
	if err != nil {
		t.Fatal(err)
	}
	defer archive.Close()
	var all bytes.Buffer
	for _, part := range archive.File {
		all.WriteString(part.Name + "\n" + part.Comment + "\n")
		reader, err := part.Open()
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.Copy(&all, reader); err != nil {
			t.Fatal(err)
		}
		_ = reader.Close()
	}
	return all.String()
}

func TestNoNameWithoutConsentIsInThePublicFile(t *testing.T) {
	published, err := Publish(gradedFile(t, namedFair(t)), Options{}, PublishOptions{})
	if err != nil {
		t.Fatal(err)
	}
	all := strings.ToLower(unpacked(t, published.Public.Path))
	for _, name := range []string{
		"zyndra", "qorblat", // refused
		"brevik", "unthank", // not said
		"fenna", "ghyll", // given for one carcass and refused for another
		"wexmoor", "ludcombe", // a club is not printed either
	} {
		if strings.Contains(all, name) {
			t.Errorf("%q is in the public file", name)
		}
	}
	if strings.Count(all, "oswin tarpley") == 0 {
		t.Error("a name with consent is not in the public file")
	}
	if published.Named != 2 || published.Tagged != 4 {
		t.Errorf("%d named, %d by tag", published.Named, published.Tagged)
	}
	for _, tag := range []string{"11", "12", "13", "14", "15", "16"} {
		if !strings.Contains(all, ">"+tag+"<") {
			t.Errorf("tag %s is not in the public file", tag)
		}
	}
}

func TestAFamilysFileHoldsNoOtherFamily(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "families")
	published, err := Publish(gradedFile(t, namedFair(t)), Options{}, PublishOptions{Separate: folder})
	if err != nil {
		t.Fatal(err)
	}
	families := map[string][]string{"qorblat": {"11"}, "tarpley": {"12", "14"}, "unthank": {"13"}, "ghyll": {"15", "16"}}
	if len(published.Families) != len(families) {
		t.Fatalf("%d files for %d families", len(published.Families), len(families))
	}
	for own, tags := range families {
		path := filepath.Join(folder, "card-"+own+".xlsx")
		if cards := cardRows(t, path); len(cards) != len(tags) {
			t.Errorf("%s: %d cards for tags %v", own, len(cards), tags)
		}
		all := strings.ToLower(unpacked(t, path))
		for other := range families {
			if other != own && strings.Contains(all, other) {
				t.Errorf("the file of %s names %s", own, other)
			}
		}
	}
}

func TestFamiliesWithTheSameNameKeepApart(t *testing.T) {
	carcass := func(tag, exhibitor, club string) *result.Result {
		return &result.Result{Graded: &grading.Graded{Carcass: (&grading.Carcass{Tag: tag}).With(map[measure.ID]grading.Reading{
			measure.Exhibitor: {Value: measure.Value{Text: exhibitor}}, measure.Club: {Value: measure.Value{Text: club}},
		})}}
	}
	families := cards.Families(&result.Results{Carcasses: []*result.Result{
		carcass("1", "Ann Lee", "Hill"), carcass("2", "ANN  LEE", "hill"), carcass("3", "Ann Lee", "Dale"), carcass("4", "Ann-Lee", "Hill"), carcass("5", "", ""),
		carcass("../6:*", "", ""),
	}})
	var got []string
	for _, family := range families {
		got = append(got, fmt.Sprintf("%s %d", family.File, len(family.Carcasses)))
	}
	want := "card-ann-lee 2, card-ann-lee-2 1, card-ann-lee-3 1, card-tag-5 1, card-tag-6 1"
	if strings.Join(got, ", ") != want {
		t.Errorf("%s\nwant %s", strings.Join(got, ", "), want)
	}
}

func TestPublishingAgainWritesTheSame(t *testing.T) {
	path := gradedDemo(t, "fair")
	first, err := Publish(path, Options{}, PublishOptions{})
	if err != nil {
		t.Fatal(err)
	}
	again, err := Publish(path, Options{}, PublishOptions{})
	if err != nil || again.Cards.Written || again.Public.Written {
		t.Fatalf("the second time: %+v %v", again, err)
	}
	if err := os.WriteFile(first.Public.Path, []byte("notes of the office"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Publish(path, Options{}, PublishOptions{}); err == nil || !strings.Contains(err.Error(), "nothing was written") {
		t.Errorf("a different file in the way: %v", err)
	}
	if forced, err := Publish(path, Options{Force: true}, PublishOptions{}); err != nil || !forced.Public.Written {
		t.Errorf("with force: %v", err)
	}
}

// Several different figures are called percent lean or percent retail cuts, so each is named wherever one is printed: at
// every class of the placings and of the public sheet, and on every card.
func TestEveryPercentIsNamedByItsEquation(t *testing.T) {
	for _, test := range []struct{ demo, heading, equation string }{
		{"swine", "Lean %", "fat-free lean, ribbed"},
		{"lamb", "Cutability %", "retail cuts of a lamb"},
		{"goat", "Cutability %", "retail cuts of a goat"},
	} {
		t.Run(test.demo, func(t *testing.T) {
			path := gradedDemo(t, test.demo)
			published, err := Publish(path, Options{}, PublishOptions{})
			if err != nil {
				t.Fatal(err)
			}
			for _, rows := range cardRows(t, published.Cards.Path) {
				for _, row := range rows {
					if len(row) > 5 && row[0] == test.heading && !strings.Contains(row[5], test.equation) {
						t.Errorf("a card explains %s as %q", row[0], row[5])
					}
				}
			}
			named := 0
			for file, sheet := range map[string]string{path: "Placings", published.Public.Path: "Public placings"} {
				for _, row := range cardRows(t, file)[sheet] {
					if len(row) > 0 && strings.Contains(row[0], test.heading+": "+test.equation+".") {
						named++
					}
				}
			}
			if want := 2 * len(published.Results.Placings.Classes); named != want {
				t.Errorf("the equation is named %d times, wanted at each of %d classes on two sheets", named, want/2)
			}
		})
	}
}
