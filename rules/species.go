package rules

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// Species is a kind of animal that the program can grade: "beef", "swine", "lamb", "goat". Each has a line in
// tables/species.csv; the names below are for what is written about one species alone.
type Species string

// The species that have rules of their own.
const (
	Beef  Species = "beef"
	Swine Species = "swine"
	Lamb  Species = "lamb"
	Goat  Species = "goat"
)

// Basis says what was measured: the carcass on the rail, or the live animal by ultrasound.
// Figures of the two are never ranked together.
type Basis string

// The two bases of measurement.
const (
	OnTheRail Basis = "carcass"
	LiveScan  Basis = "ultrasound"
)

//go:embed tables/species.csv
var speciesCSV string

// speciesLine is what the table says of one species.
type speciesLine struct {
	species      Species
	grades       []string // best first, by thirds where the grade has them
	mustBePriced []string // whole grades that a grid with quality lines may not leave out
	yield        string   // the measure that yield lines of the grid read; empty for a species that can have none
	ages         *Ages    // at the kill; nil where nothing is usual
}

var speciesLines = mustReadSpecies(speciesCSV)

// mustReadSpecies reads the embedded table; a fault in it is a fault of the program and is found by every test.
func mustReadSpecies(text string) []speciesLine {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		panic(fmt.Sprintf("rules: tables/species.csv: %v", err))
	}
	var lines []speciesLine
	for _, row := range rows[1:] {
		lines = append(lines, speciesLine{Species(row[0]), splitList(row[1]), splitList(row[2]), row[3], mustReadAges(row[4])})
	}
	return lines
}

// Ages are the ages at the kill, in months, that are usual and possible for a species' market animals. They come of the maturity
// groups and the usual market ages.
type Ages struct{ HoldBelow, LookBelow, LookAbove, HoldAbove int }

func mustReadAges(text string) *Ages {
	list := splitList(text)
	if list == nil {
		return nil
	}
	var months [4]int
	for i := range months {
		number, err := strconv.Atoi(list[i])
		if err != nil {
			panic(fmt.Sprintf("rules: tables/species.csv: %v", err))
		}
		months[i] = number
	}
	return &Ages{months[0], months[1], months[2], months[3]}
}

// AgesAtKill gives the ages of a species' market animals; nil where nothing is usual.
func AgesAtKill(species Species) *Ages {
	for _, line := range speciesLines {
		if line.species == species {
			return line.ages
		}
	}
	return nil
}

// speciesWith gives the species that a measure is for.
func speciesWith(id measure.ID) (list []Species) {
	definition, _ := measure.Define(id)
	for _, species := range eachSpecies {
		if definition.For(string(species)) {
			list = append(list, species)
		}
	}
	return list
}

// splitList gives the words between semicolons; none of a blank text.
func splitList(text string) []string {
	if text == "" {
		return nil
	}
	return strings.Split(text, ";")
}

var (
	eachSpecies = func() (all []Species) {
		for _, line := range speciesLines {
			all = append(all, line.species)
		}
		return all
	}()
	speciesWords = func() (words []string) {
		for _, species := range eachSpecies {
			words = append(words, string(species))
		}
		return words
	}()
)

// SpeciesNames gives the names of the species as the rulebook writes them.
func SpeciesNames() []string { return append([]string(nil), speciesWords...) }

// SpeciesInWords gives those names as a sentence does: "beef, swine, lamb or goat".
func SpeciesInWords() string { return phrase.JoinOr(speciesWords) }

// GradeWords gives the words for the grades of a species, best first, by thirds where the grade has them. A species
// whose carcasses carry no such grade has none.
func GradeWords(species Species) []string {
	for _, line := range speciesLines {
		if line.species == species {
			return line.grades
		}
	}
	return nil
}

// mustBePriced gives the grades that a grid with quality lines may not leave out. Lower grades may have no price, and
// then a carcass of theirs has none.
func mustBePriced(species Species) []string {
	for _, line := range speciesLines {
		if line.species == species {
			return line.mustBePriced
		}
	}
	return nil
}

// hasYield reports whether a species has a figure that a yield line of the grid can read.
func hasYield(species Species) bool {
	for _, line := range speciesLines {
		if line.species == species {
			return line.yield != ""
		}
	}
	return false
}
