package validate

import (
	"railbook/grading"
	"railbook/rules/measure"
)

// swapFinding has the judge look at two carcasses whose live weights, exchanged, make both more likely: their tags may have been
// swapped on the rail. Two true carcasses look so by chance now and then, the more the farther apart they hung, so neighbours
// need less to be named.
func (s *checker) swapFinding(r, other *row) Finding {
	mended := s.with(r, map[measure.ID]measure.Value{measure.LiveWeight: other.ReadingOf(measure.LiveWeight).Value})
	finding := s.about(Look, tagsSwappedCheck, r, measure.Tag)
	finding.Hint, finding.Exchange = other.Tag, other.Place
	finding.Others = []*grading.Carcass{other.Carcass}
	if reading, ok := other.Written(measure.Tag); ok {
		finding.Exchange = reading.Place
	}
	before, _ := r.number(measure.DressingPercent)
	after, _ := mended.number(measure.DressingPercent)
	return finding.say("tags " + r.Tag + " and " + other.Tag + " (" + other.Place.Cell + ") may be swapped: with the other's live weight the dressing " +
		"percent is " + rounded(after, measure.DressingPercent) + " instead of " + rounded(before, measure.DressingPercent) +
		", and the other's is mended too. Ask the plant; then exchange the two tags here, or accept as is.")
}
