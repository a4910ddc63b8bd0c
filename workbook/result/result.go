package result

import (
	"fmt"
	"slices"

	"github.com/sourcegraph/conc/iter"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
)

// Result is all that is known of one carcass: what was read and computed of it, what was found, whether it is placed, and
// where it stands.
type Result struct {
	*grading.Graded
	Findings []*validate.Finding // about it, in the order of Results.Findings, the settled ones among them
	Status   Status
	Standing Standing
}

// State is what became of a carcass.
type State string

// The states. A carcass whose state is Competes has no place because a rule of its class, or a missing figure, leaves it out.
const (
	Competes State = ""         // nothing keeps it from being placed, and it is not placed (yet)
	Placed   State = "placed"   // it has a place
	OnHold   State = "on hold"  // something must be settled first
	LeftOut  State = "left out" // by the judge
)

// Status says what became of a carcass, and why.
type Status struct {
	State   State
	Because *validate.Finding // the first hold that nobody has settled, or what the judge left the carcass out for; nil for others
}

// Standing is where a carcass stands; the zero Standing before it is placed.
type Standing struct {
	Class     *placing.ClassPlacing
	Placed    *placing.Placed    // nil where it has no place
	NotPlaced *placing.NotPlaced // why it has none; nil where it has one
	Awards    []string
}

// Open gives the findings that the judge has still to settle: holds and looks.
func (r *Result) Open() (open []*validate.Finding) {
	for _, finding := range r.Findings {
		if finding.Settled == nil && finding.Level != validate.Note {
			open = append(open, finding)
		}
	}
	return open
}

// Doubted reports whether a hold on the carcass is open, though the judge may have left it out and it has no place to lose.
func (r *Result) Doubted() bool { return slices.ContainsFunc(r.Findings, isOpenHold) }

func isOpenHold(finding *validate.Finding) bool {
	return finding.Settled == nil && finding.Level == validate.Hold
}

// Doubt gives the open hold because of which a figure of the carcass can't be relied on; nil where none touches it. What rests
// on none of the measures in doubt stands as it is.
func (r *Result) Doubt(figure measure.ID) *validate.Finding {
	for _, finding := range r.Findings {
		if isOpenHold(finding) && r.RestsOn(figure, finding.InDoubt(r.Carcass)...) {
			return finding
		}
	}
	return nil
}

// Graded grades carcasses. They are independent, so all processors share the work.
func Graded(carcasses []*grading.Carcass, book *rules.Rulebook) []*Result {
	return iter.Map(carcasses, func(carcass **grading.Carcass) *Result { return &Result{Graded: grading.Grade(*carcass, book)} })
}

// Of gives what is known of a carcass that was read: it stands at its Sequence.
func (r *Results) Of(carcass *grading.Carcass) *Result { return r.Carcasses[carcass.Sequence] }

// Gather gives every carcass its findings and works out its status from them. What the judge left out stays left out,
// whatever else is found; else a hold that nobody has settled keeps the carcass from its place.
func (r *Results) Gather() {
	for _, carcass := range r.Carcasses {
		carcass.Findings, carcass.Status = carcass.Findings[:0], Status{}
	}
	for i := range r.Findings {
		finding := &r.Findings[i]
		for at, carcass := range finding.Carcasses() {
			result := r.Of(carcass)
			result.Findings = append(result.Findings, finding)
			switch {
			case at > 0 && finding.Carcass != nil && finding.Settled != nil && finding.Settled.Choice == validate.LeaveOut:
				// of a pair, the judge leaves out the carcass that the row names
			case finding.Settled != nil && finding.Settled.Choice == validate.LeaveOut:
				result.Status = Status{LeftOut, finding}
			case finding.Settled == nil && finding.Level == validate.Hold && result.Status.State == Competes:
				result.Status = Status{OnHold, finding}
			}
		}
	}
	r.stand()
}

// Place places the carcasses: those on hold and those that the judge left out have no place.
func (r *Results) Place() {
	r.Placings = placing.PlaceClasses(r.Entrants(), r.Rulings, r.Rules)
	r.stand()
}

// Entrants gives the carcasses as they come to be placed.
func (r *Results) Entrants() []*placing.Entrant {
	entrants := make([]*placing.Entrant, len(r.Carcasses))
	for i, carcass := range r.Carcasses {
		entrants[i] = &placing.Entrant{Graded: carcass.Graded, Out: carcass.Status.keptOut()}
	}
	return entrants
}

// stand gives every carcass its place in the placings, and its awards.
func (r *Results) stand() {
	for _, carcass := range r.Carcasses {
		carcass.Standing = Standing{}
		if carcass.Status.State == Placed {
			carcass.Status = Status{}
		}
	}
	for c := range r.Placings.Classes {
		class := &r.Placings.Classes[c]
		for i := range class.Placed {
			carcass := r.Of(class.Placed[i].Carcass)
			carcass.Standing = Standing{Class: class, Placed: &class.Placed[i]}
			if carcass.Status.State == Competes {
				carcass.Status.State = Placed
			}
		}
		for i := range class.NotPlaced {
			r.Of(class.NotPlaced[i].Carcass).Standing = Standing{Class: class, NotPlaced: &class.NotPlaced[i]}
		}
	}
	for _, list := range r.Placings.Awards {
		for _, winner := range list.Winners {
			carcass := r.Of(winner.Carcass)
			carcass.Standing.Awards = append(carcass.Standing.Awards, list.Award.Name)
		}
	}
}

// keptOut says why a carcass does not compete; nil where it does.
func (s Status) keptOut() *placing.KeptOut {
	switch s.State {
	case LeftOut:
		return &placing.KeptOut{Reason: leftOutWords(s.Because.Settled)}
	case OnHold:
		return &placing.KeptOut{Reason: fmt.Sprintf("on hold: %s%s", s.Because.Code, cellWords(s.Because.At)), OnHold: true}
	}
	return nil
}

func leftOutWords(decision *validate.Decision) string {
	words := "left out by the judge"
	if decision.Initials != "" {
		words += " (" + decision.Initials + ")"
	}
	if decision.Remark != "" {
		words += ": " + decision.Remark
	}
	return words
}

func cellWords(place rules.Place) string {
	if place.Cell == "" {
		return ""
	}
	return ", cell " + place.Cell
}
