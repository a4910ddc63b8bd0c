package placing

import (
	"github.com/sourcegraph/conc/iter"

	"railbook/grading"
	"railbook/rules"
)

// Placings are all classes and awards of a fair.
type Placings struct {
	Classes []ClassPlacing
	Awards  []AwardList
	Refused []RefusedRuling // rulings that could not be followed, each with why
}

// ClassPlacing is one class in order. A class of a sheet that mixes species, bases of measurement or lean equations is
// several of these, and Split says so.
type ClassPlacing struct {
	Class     string // as people call it; a part of a mixed class says which part it is: "Steers (beef)"
	Split     string // a sentence on why the class was split; empty for a class that was not
	Species   rules.Species
	Basis     rules.Basis
	Rule      rules.Class
	Ranking   rules.Ranking
	Placed    []Placed
	NotPlaced []NotPlaced

	base  string // the class's name without the part
	means grading.ClassMeans
}

// Entries gives what the class was placed from, as far as the rulebook's limits on it go.
func (c *ClassPlacing) Entries() Entries {
	return Entries{base: c.base, Species: c.Species, Basis: c.Basis, Rule: c.Rule, means: c.means}
}

// Entrant is a carcass that is to be placed, and what keeps it from that, where anything does.
type Entrant struct {
	*grading.Graded
	Out *KeptOut // nil where it competes

	fails failures // the limits of its class that it does not meet
}

// Entered gives carcasses all of which compete.
func Entered(carcasses []*grading.Graded) []*Entrant {
	entrants := make([]*Entrant, len(carcasses))
	for i, carcass := range carcasses {
		entrants[i] = &Entrant{Graded: carcass}
	}
	return entrants
}

// Placed is a carcass with its place.
type Placed struct {
	*Entrant
	Place     int      // 1 is the best; tied carcasses have the same, and the next place counts them all: 1, 2, 2, 4
	Shared    bool     // others have the same place
	JudgeTie  bool     // the rule leaves the tie to the judge, who has not broken it yet
	LeftLevel bool     // the judge left it level with the others of its place
	Overruled string   // the judge's reason for this place against the rule; empty where the rule placed it
	Group     string   // "blue"; empty where the rulebook has no groups
	Decider   int      // the index of the ranking's key that put it above the next carcass; -1 where none did (last, tied, or by the judge)
	Fails     []string // the limits it fails that leave it in the class, in words
	Paid      bool
}

// NotPlaced is a carcass that is not placed.
type NotPlaced struct {
	*Entrant
	Reason string
	OnHold bool // kept out by what must be settled first, not by the judge or a rule
}

// KeptOut says why a carcass does not compete, whatever its figures.
type KeptOut struct {
	Reason string
	OnHold bool // until something is settled; false for one that the judge left out
}

// AwardList is one award and those who have it.
type AwardList struct {
	Award   rules.Award
	Name    string // the award's name; with the species or basis where one award is given for several
	Ranking rules.Ranking
	Winners []Placed
	Reserve []Placed // who comes next where one alone receives the award
	Reason  string   // why nobody has it, where nobody has
}

// Ruling is what a judge decided about a carcass's place: to break a tie, or against the rule. For a tie within an award
// list, Class is the award's name.
type Ruling struct {
	Class, Tag string
	Place      int
	Reason     string // empty for a tie broken where the rule leaves it to the judge
	Initials   string
	Date       string // as a person gave it; empty for none
}

// RefusedRuling is a ruling that could not be followed: what it says is contradicted, or is not there.
type RefusedRuling struct {
	Ruling
	Why string // a sentence for the judge
}

// PlaceClasses places every class. Carcasses that are kept out are left with the reason given with them. The places do not
// depend on the order in which the carcasses are given, and every carcass is either placed or left, once.
func PlaceClasses(entrants []*Entrant, rulings []Ruling, book *rules.Rulebook) Placings {
	hearing := &hearing{rulings: rulings, why: make([]string, len(rulings)), heard: make([]bool, len(rulings))}
	placings := Placings{}
	classes := SortIntoClasses(entrants, book)
	each := iter.Mapper[Entries, ClassPlacing]{}
	if len(rulings) > 0 {
		each.MaxGoroutines = 1 // the classes hear the rulings one after another
	}
	placings.Classes = each.Map(classes, func(class *Entries) ClassPlacing { return placeClass(*class, hearing, book) })
	placings.Awards = giveAwards(placings.Classes, hearing, book)
	placings.Refused = hearing.refused()
	return placings
}

// placeClass places the carcasses of one class by its rule.
func placeClass(class Entries, hearing *hearing, book *rules.Rulebook) ClassPlacing {
	placing := ClassPlacing{
		Class: class.Name, Split: class.split, Species: class.Species, Basis: class.Basis, Rule: class.Rule,
		base: class.base,
	}
	ranking, problem := class.ranking(book)
	placing.Ranking = ranking
	ranker := &Ranker{Book: book, Ranking: ranking}
	var passed, failed []*Entrant
	class.means = meansOf(class, book)
	placing.means = class.means
	limits := LimitsOf(class, book)
	for _, carcass := range class.Carcasses {
		found := limits.Failures(carcass.Graded, book)
		carcass.fails = found
		switch {
		case carcass.Out != nil:
			placing.NotPlaced = append(placing.NotPlaced, NotPlaced{carcass, carcass.Out.Reason, carcass.Out.OnHold})
		case problem != "":
			placing.NotPlaced = append(placing.NotPlaced, NotPlaced{Entrant: carcass, Reason: problem})
		case found.NotPlaced() != "":
			placing.NotPlaced = append(placing.NotPlaced, NotPlaced{Entrant: carcass, Reason: found.NotPlaced()})
		case len(found.of(rules.FailAfter)) > 0:
			failed = append(failed, carcass)
		default:
			passed = append(passed, carcass)
		}
	}
	blocks := ranker.order(ranker.order(nil, passed, 0), failed, 0)
	placing.NotPlaced = append(placing.NotPlaced, ranker.notPlaced...)
	sortLeft(placing.NotPlaced)
	blocks = hearing.rule(class, blocks, ranking, placing.NotPlaced)
	placing.Placed = ranker.placed(blocks)
	standards := standardsOf(class, book)
	for i := range placing.Placed {
		placed := &placing.Placed[i]
		placed.Paid = placed.Place <= class.Rule.PlacesPaid
		placed.Group = standards.group(placed.Graded, len(placed.fails.of(rules.FailLowestGroup)) > 0, book)
	}
	return placing
}
