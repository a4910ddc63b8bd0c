package workbook

import (
	"strconv"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/intake"

	"github.com/xuri/excelize/v2"
)

// pair is one carcass as it was recorded when the workbook was graded before and as it is now.
type pair struct{ was, is *recorded }

// name is what a carcass goes by.
type name struct{ class, tag string }

// follow lets what the judge wrote go with its carcass to the row where that stands now and the tag it has now.
func (j *job) follow(pairs []pair, read *intake.Result) {
	sideways := make(map[string]bool)
	for _, block := range read.Blocks {
		sideways[block.Sheet] = block.Sideways
	}
	named := make(map[name][]pair)
	for _, one := range pairs {
		named[name{one.was.class, one.was.tag}] = append(named[name{one.was.class, one.was.tag}], one)
	}
	for d := range j.results.Decisions {
		decision := &j.results.Decisions[d]
		same := named[name{decision.Class, decision.Tag}]
		for _, one := range same {
			here := one.was.sheet == decision.Found.Sheet && lineOf(decision.Found, sideways[one.was.sheet]) == one.was.row
			if here || len(same) == 1 {
				decision.Class, decision.Tag = one.is.class, one.is.tag
			}
			if here && one.is.sheet == one.was.sheet {
				decision.Found = onLine(decision.Found, one.is.row, sideways[one.is.sheet])
				break
			}
		}
	}
	for was, same := range named {
		if len(same) == 1 {
			j.rename(was, name{same[0].is.class, same[0].is.tag})
		}
	}
}

// rename lets the places and words that the judge gave a carcass go with it to its new class and tag.
func (j *job) rename(was, is name) {
	if was == is {
		return
	}
	for i, ruling := range j.results.Rulings {
		if ruling.Class == was.class && ruling.Tag == was.tag {
			j.results.Rulings[i].Class, j.results.Rulings[i].Tag = is.class, is.tag
		}
	}
	before, now := was.class+"\t"+was.tag, is.class+"\t"+is.tag
	if words, there := j.results.Reasons[before]; there {
		delete(j.results.Reasons, before)
		j.results.Reasons[now] = words
	}
}

// renamed is a carcass whose tag or class a decision has corrected.
type renamed struct {
	carcass  *grading.Carcass
	decision int
	measure  measure.ID
	text     string
}

// renameDecided lets what else the judge wrote about a carcass go with it when a decision gives it another tag or class.
func (j *job) renameDecided(read *intake.Result, list []renamed) {
	about := make([]*grading.Carcass, len(j.results.Decisions))
	for d := range about {
		about[d] = carcassOf(read, &j.results.Decisions[d])
	}
	for _, one := range list {
		was := name{one.carcass.Class, one.carcass.Tag}
		is := was
		if one.measure == measure.Tag {
			is.tag = one.text
		} else {
			is.class = one.text
		}
		for d := range about {
			if about[d] != one.carcass || d == one.decision {
				continue
			}
			if one.measure == measure.Tag {
				j.results.Decisions[d].Tag = one.text
			} else {
				j.results.Decisions[d].Class = one.text
			}
		}
		if sharing(read, was) == 1 {
			j.rename(was, is)
		}
	}
}

func sharing(read *intake.Result, wanted name) (count int) {
	for _, carcass := range read.Carcasses {
		if carcass.Class == wanted.class && carcass.Tag == wanted.tag {
			count++
		}
	}
	return count
}

// lineOf gives the row of a cell, on a sideways sheet its column, as the Readings sheet writes it.
func lineOf(place rules.Place, sideways bool) string {
	column, row, err := excelize.CellNameToCoordinates(place.Cell)
	switch {
	case err != nil:
		return ""
	case sideways:
		return strconv.Itoa(column)
	}
	return strconv.Itoa(row)
}

// onLine gives the place of the cell beside it that stands on another carcass's line.
func onLine(place rules.Place, line string, sideways bool) rules.Place {
	column, row, err := excelize.CellNameToCoordinates(place.Cell)
	number, errLine := strconv.Atoi(line)
	if err != nil || errLine != nil {
		return place
	}
	if sideways {
		column = number
	} else {
		row = number
	}
	if cell, err := excelize.CoordinatesToCellName(column, row); err == nil {
		place.Cell = cell
	}
	return place
}
