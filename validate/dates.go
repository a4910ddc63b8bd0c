package validate

import (
	"slices"
	"strconv"
	"time"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
)

// datesInOrder holds a carcass whose dates cannot all be true: birth before start, start before weigh-in, weigh-in no later
// than the kill, and all of them within three years of the kill, birth by the age limits of the species.
func datesInOrder(s *checker) []Finding {
	var findings []Finding
	usual := map[sheetMeasure]time.Time{}
	for i := range s.Sheets {
		sheet := &s.Sheets[i]
		for _, id := range dateOrder {
			if day, ok := middleDay(sheet.rows, id); ok {
				usual[sheetMeasure{sheet, id}] = day
			}
		}
	}
	for _, r := range s.rows {
		if finding, ok := s.dateFinding(r, usual); ok {
			findings = append(findings, finding)
			r.doubt(dateOrder...)
		}
	}
	return findings
}

// dateOrder are the dates in the order in which they come in an animal's life.
var dateOrder = []measure.ID{measure.BirthDate, measure.StartDate, measure.WeighInDate, measure.KillDate}

// Bounds of dates, this project's decisions: a feeding period and a fair's year lie within three years; one fair's animals
// are weighed and killed within two months.
const (
	yearsOfAnimal = 3
	daysOfFair    = 60
)

// dayZero is the day from which dates are counted.
var dayZero = time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)

func (r *row) day(id measure.ID) (time.Time, bool) {
	day, ok := r.Value(id)
	if !ok || r.doubted.Has(id) {
		return time.Time{}, false
	}
	return dayZero.AddDate(0, 0, int(day.Number.IntPart())), true
}

// middleDay is the middle one of a sheet's days, where it has three or more.
func middleDay(rows []*row, id measure.ID) (time.Time, bool) {
	var days []time.Time
	for _, r := range rows {
		if day, ok := r.day(id); ok {
			days = append(days, day)
		}
	}
	if len(days) < 3 {
		return time.Time{}, false
	}
	slices.SortFunc(days, time.Time.Compare)
	return days[len(days)/2], true
}

func (s *checker) dateFinding(r *row, usual map[sheetMeasure]time.Time) (Finding, bool) {
	if r.passed {
		return Finding{}, false
	}
	for _, id := range dateOrder {
		day, ok := r.day(id)
		middle, known := usual[sheetMeasure{r.sheet, id}]
		if !ok || !known {
			continue
		}
		if yearsApart(day, middle) {
			return s.wrongDate(r, Hold, id, "is more than three years from those of the other animals", middle), true
		}
	}
	if finding, ok := s.pairFinding(r, usual); ok {
		return finding, true
	}
	if finding, ok := s.ageFinding(r); ok {
		return finding, true
	}
	for _, id := range []measure.ID{measure.WeighInDate, measure.KillDate} {
		day, ok := r.day(id)
		middle, known := usual[sheetMeasure{r.sheet, id}]
		if ok && known && !near(day, middle) {
			return s.wrongDate(r, Look, id, "is more than two months from those of the other animals", middle), true
		}
	}
	return Finding{}, false
}

// pairs lists every two dates of the row that contradict each other, the later of the two first, with why.
func (r *row) pairs() (list []contradiction) {
	for later := 1; later < len(dateOrder); later++ {
		for earlier := range later {
			of := contradiction{first: dateOrder[earlier], second: dateOrder[later]}
			first, hasFirst := r.day(of.first)
			second, hasSecond := r.day(of.second)
			if !hasFirst || !hasSecond {
				continue
			}
			here := of.first.String() + " " + first.Format(time.DateOnly) + " and " + of.second.String() + " " + second.Format(time.DateOnly)
			switch {
			case of.first != measure.BirthDate && first.AddDate(yearsOfAnimal, 0, 0).Before(second):
				of.why = here + " are more than three years apart"
			case of.first == measure.WeighInDate && first.After(second):
				of.why = "the weigh-in comes no later than the kill, but here stand " + here
			case of.first != measure.WeighInDate && !first.Before(second):
				of.why = of.first.String() + " comes before " + of.second.String() + ", but here stand " + here
			default:
				continue
			}
			list = append(list, of)
		}
	}
	return list
}

// contradiction is two dates that can't both be true.
type contradiction struct {
	first, second measure.ID // in the order of an animal's life
	why           string
}

// pairFinding names the date that contradicts most of the others: of two that only contradict each other, the one that is
// unlike those of the sheet, else the earlier, which was typed longer ago.
func (s *checker) pairFinding(r *row, usual map[sheetMeasure]time.Time) (Finding, bool) {
	pairs := r.pairs()
	if len(pairs) == 0 {
		return Finding{}, false
	}
	counted := map[measure.ID]int{}
	for _, pair := range pairs {
		counted[pair.first] += 2
		counted[pair.second] += 2
		for _, id := range []measure.ID{pair.first, pair.second} {
			day, _ := r.day(id)
			if middle, known := usual[sheetMeasure{r.sheet, id}]; known && id != measure.BirthDate && !near(day, middle) {
				counted[id]++
			}
		}
	}
	wrong := pairs[0].first
	for _, id := range dateOrder {
		if counted[id] > counted[wrong] {
			wrong = id
		}
	}
	for _, pair := range pairs {
		switch wrong {
		case pair.first:
			return s.wrongOfTwo(r, wrong, pair.second, pair.why), true
		case pair.second:
			return s.wrongOfTwo(r, wrong, pair.first, pair.why), true
		}
	}
	return Finding{}, false
}

// wrongOfTwo names the likelier wrong of two dates that contradict each other. Both are in doubt until somebody looks.
func (s *checker) wrongOfTwo(r *row, wrong, other measure.ID, why string) Finding {
	day, _ := r.day(other)
	finding := s.wrongDate(r, Hold, wrong, "can't be right: "+why, day)
	finding.Doubts = []measure.ID{other}
	return finding
}

func yearsApart(a, b time.Time) bool {
	return a.AddDate(yearsOfAnimal, 0, 0).Before(b) || b.AddDate(yearsOfAnimal, 0, 0).Before(a)
}

func near(a, b time.Time) bool { return a.Sub(b).Abs() <= daysOfFair*24*time.Hour }

// wrongDate says what is wrong with a date. Where the same day of a year before or after brings it near its fellows, or
// before the later date, that is the hint: the year is what is mistyped most.
func (s *checker) wrongDate(r *row, level Level, id measure.ID, words string, about time.Time) Finding {
	finding := s.about(level, "date out of order", r, id)
	day, _ := r.day(id)
	if guess, ok := s.otherYear(r, id, day, about); ok {
		finding.Hint = guess.Format(time.DateOnly)
		words += "; it looks like the wrong year (" + finding.Hint + ")"
	}
	advice := correctIt
	if level == Look {
		advice = lookAtIt
	}
	return finding.say(id.String() + " " + day.Format(time.DateOnly) + " " + words + "." + advice)
}

func (s *checker) otherYear(r *row, id measure.ID, day, about time.Time) (time.Time, bool) {
	for _, years := range []int{-1, 1, -10, 10, -100, 100} {
		guess := day.AddDate(years, 0, 0)
		if yearsApart(guess, about) || !s.orderHolds(r, id, guess) {
			continue
		}
		return guess, true
	}
	return time.Time{}, false
}

// orderHolds reports whether the dates of the row are in order, and the age a usual one, with another day for one of them.
func (s *checker) orderHolds(r *row, id measure.ID, guess time.Time) bool {
	var last time.Time
	for _, each := range dateOrder {
		day, ok := r.day(each)
		if each == id {
			day, ok = guess, true
		}
		if !ok {
			continue
		}
		if !last.IsZero() && (day.Before(last) || day.Equal(last) && each != measure.KillDate) {
			return false
		}
		last = day
	}
	birth, hasBirth := r.day(measure.BirthDate)
	if id == measure.BirthDate {
		birth = guess
	}
	ages := rules.AgesAtKill(r.Species)
	return !hasBirth || ages == nil || judgeAge(ages, birth, last) == ""
}

// judgeAge holds an animal to the ages at the kill that are usual and possible.
func judgeAge(ages *rules.Ages, birth, kill time.Time) Level {
	switch {
	case birth.AddDate(0, ages.HoldBelow, 0).After(kill), birth.AddDate(0, ages.HoldAbove, 0).Before(kill):
		return Hold
	case birth.AddDate(0, ages.LookBelow, 0).After(kill), birth.AddDate(0, ages.LookAbove, 0).Before(kill):
		return Look
	}
	return ""
}

// breedingSexes are of animals that may be far older than market animals.
var breedingSexes = []grading.Sex{grading.SexCow, grading.SexBull, grading.SexSow, grading.SexBoar}

// ageFinding says that an animal is too young or too old for its species, or that its bone does not go with its age.
func (s *checker) ageFinding(r *row) (Finding, bool) {
	birth, hasBirth := r.day(measure.BirthDate)
	kill, hasKill := r.day(measure.KillDate)
	on := measure.KillDate
	if !hasKill {
		kill, hasKill = r.day(measure.WeighInDate)
		on = measure.WeighInDate
	}
	if !hasBirth || !hasKill {
		return Finding{}, false
	}
	where := "born " + birth.Format(time.DateOnly) + " with the " + on.String() + " " + kill.Format(time.DateOnly)
	if ages := rules.AgesAtKill(r.Species); ages != nil {
		level := judgeAge(ages, birth, kill)
		sex := grading.SexOf(r.Species, r.ReadingOf(measure.Sex).Value.Text)
		if level == Hold && slices.Contains(breedingSexes, sex) {
			level = Look
		}
		if level != "" {
			return s.wrongDate(r, level, measure.BirthDate, "makes "+ageWords(birth, kill)+" of age ("+where+")", kill), true
		}
	}
	if bone, ok := r.bone(); ok && r.mayHave(measure.SkeletalMaturity) && r.sound(bone.id) {
		group, byAge := int(bone.value.Number.IntPart()/100), groupOfAge(birth, kill)
		if group-byAge > 1 || byAge-group > 1 {
			finding := s.about(Look, "age and maturity disagree", r, bone.id)
			return finding.say("maturity " + bone.value.Text + " does not go with an age of " + ageWords(birth, kill) + " (" + where + ")." + lookAtIt), true
		}
	}
	return Finding{}, false
}

// groupOfAge is the maturity group, A being 1, of cattle by age: A to 30 months, B to 42, C to 72, D to 96, E over 96
// (Iowa State University).
func groupOfAge(birth, kill time.Time) int {
	for group, months := range []int{30, 42, 72, 96} {
		if !birth.AddDate(0, months, 0).Before(kill) {
			return group + 1
		}
	}
	return 5
}

// ageWords writes an age in whole months.
func ageWords(birth, kill time.Time) string {
	months := 0
	for !birth.AddDate(0, months+1, 0).After(kill) {
		months++
	}
	if months == 1 {
		return "1 month"
	}
	return strconv.Itoa(months) + " months"
}
