package fair

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/workbook/intake"
	"railbook/workbook/names"
	"railbook/workbook/record"
	"railbook/workbook/result"
)

// Animal is what is kept of one animal of a past year.
type Animal struct {
	Tag, Place, Exhibitor, Club, Family string
	Others                              int // animals of the same youth or family in that year
	Figures                             map[measure.ID]LastFigure
}

// LastFigure is a figure of a past year: a number as it was computed, or a grade in its words.
type LastFigure struct {
	Number decimal.NullDecimal
	Text   string
}

// The facts of an animal, each a line of the record: a prefix that no figure of a whole class begins with, and what it is.
const (
	animalFact    = "animal: "
	animalTag     = animalFact + "tag"
	animalPlace   = animalFact + "place"
	animalYouth   = animalFact + "youth"
	animalClub    = animalFact + "club"
	animalFamily  = animalFact + "household"
	animalFigures = animalFact + "figure "
)

// animalLines keeps the animals of a kind that are not on hold and whose they are is known, one fact a line, numbered from 1.
func animalLines(past *result.Results, kind result.KindOfClass, line func(figure, of, order, value string)) {
	number := 0
	for _, class := range past.Placings.Classes {
		if (result.KindOfClass{Species: class.Species, Basis: class.Basis}) != kind {
			continue
		}
		for _, graded := range result.EveryCarcass(class) {
			youth, family := result.TextOf(graded, measure.Exhibitor), result.TextOf(graded, measure.Family)
			known := past.Of(graded.Carcass)
			if youth == "" && family == "" || youth == intake.ToBeSettled || known.Status.State == result.OnHold {
				continue
			}
			number++
			add := func(figure, of, value string) {
				if value != "" {
					line(figure, of, strconv.Itoa(number), value)
				}
			}
			add(animalTag, "", graded.Tag)
			if placed := known.Standing.Placed; placed != nil {
				add(animalPlace, "", fmt.Sprintf("%d of %d", placed.Place, len(class.Placed)))
			}
			add(animalYouth, "", youth)
			add(animalClub, "", result.TextOf(graded, measure.Club))
			add(animalFamily, "", family)
			for _, id := range animalMeasures(past, kind) {
				if value, has := graded.Figure(id); has {
					figure := value.Text
					if definition, _ := measure.Define(id); definition.Kind == measure.KindNumber {
						figure = value.Number.String()
					}
					add(animalFigures+id.String(), graded.FigureOf(id).Equation, figure)
				}
			}
		}
	}
}

// animalMeasures are those in which two years' animals are set beside each other: weights, what the rulebook has an aim for, what is
// computed of the carcass itself, and its grades. A price is of its own year.
func animalMeasures(results *result.Results, kind result.KindOfClass) []measure.ID {
	measures := []measure.ID{measure.LiveWeight, measure.HotCarcassWeight}
	for _, target := range results.Rules.Targets {
		if target.Species == kind.Species {
			measures = append(measures, target.Measure)
		}
	}
	measures = append(append(measures, averagedMeasures(kind)...), result.GradesOf(kind)...)
	var once []measure.ID
	for _, id := range measures {
		if id != measure.Price && id != measure.CarcassValue && id != measure.WholeYieldGrade && !slices.Contains(once, id) {
			once = append(once, id)
		}
	}
	return once
}

// AnimalMeasures are those in which an animal is set beside one of last year.
func (p *Writer) AnimalMeasures(kind result.KindOfClass) []measure.ID {
	return animalMeasures(p.Results, kind)
}

// LastYearsAnimal gives the animal that the same youth had last year in a kind of class, else the same family's; the best placed
// of several. There is none where it is in doubt who is meant: a name that is only perhaps the same, or the same name in two
// clubs or households.
func (p *Writer) LastYearsAnimal(graded *grading.Graded, kind result.KindOfClass) (animal Animal, found bool) {
	youth, club, family := result.TextOf(graded, measure.Exhibitor), result.TextOf(graded, measure.Club), result.TextOf(graded, measure.Family)
	if youth == intake.ToBeSettled {
		return Animal{}, false
	}
	animals := p.lastYearOf(kind).animals(graded)
	var own, household []Animal
	for _, past := range animals {
		otherHousehold := family != "" && past.Family != "" && names.Key(family) != names.Key(past.Family)
		otherClub := club != "" && past.Club != "" && names.Key(club) != names.Key(past.Club)
		switch {
		case youth != "" && past.Exhibitor != "" && names.Same(youth, past.Exhibitor):
			if otherHousehold || otherClub && (family == "" || past.Family == "") {
				return Animal{}, false // two children of one name, or one who changed clubs: nobody can tell
			}
			own = append(own, past)
		case family != "" && names.Key(family) == names.Key(past.Family):
			household = append(household, past)
		}
	}
	if len(own) == 0 {
		own = household
	}
	if len(own) == 0 {
		return Animal{}, false
	}
	best := own[0] // in the order of the places
	for _, past := range own {
		if at, placed := placeOf(past.Place); placed {
			if known, has := placeOf(best.Place); !has || at < known {
				best = past
			}
		}
	}
	best.Others = len(own) - 1
	return best, true
}

// placeOf reads the number of "4 of 12".
func placeOf(words string) (place int, placed bool) {
	first, _, _ := strings.Cut(words, " ")
	place, err := strconv.Atoi(first)
	return place, err == nil
}

// animals reads the kept animals back. A figure that was computed with another equation than this carcass's own is left out.
func (f lastYearFigures) animals(beside *grading.Graded) (animals []Animal) {
	at := map[string]int{}
	for _, line := range f.lines {
		if !strings.HasPrefix(line.Figure, animalFact) {
			continue
		}
		i, known := at[line.Order]
		if !known {
			i = len(animals)
			at[line.Order] = i
			animals = append(animals, Animal{Figures: map[measure.ID]LastFigure{}})
		}
		animal := &animals[i]
		switch line.Figure {
		case animalTag:
			animal.Tag = line.Value
		case animalPlace:
			animal.Place = line.Value
		case animalYouth:
			animal.Exhibitor = line.Value
		case animalClub:
			animal.Club = line.Value
		case animalFamily:
			animal.Family = line.Value
		default:
			animal.remember(line, beside)
		}
	}
	return animals
}

func (a *Animal) remember(line record.LastYearLine, beside *grading.Graded) {
	name := strings.TrimPrefix(line.Figure, animalFigures)
	for _, definition := range beside.Book.Measures.Definitions() {
		if definition.ID.String() != name || beside.FigureOf(definition.ID).Equation != line.Of {
			continue
		}
		figure := LastFigure{Text: line.Value}
		if definition.Kind == measure.KindNumber {
			number, err := decimal.NewFromString(line.Value)
			if err != nil {
				return
			}
			figure = LastFigure{Number: decimal.NewNullDecimal(number)}
		}
		a.Figures[definition.ID] = figure
	}
}
