package fair

import (
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/intake"
	"railbook/workbook/names"
	"railbook/workbook/result"
)

// Consents says whose names may be published: those of exhibitors whose family said so in a word that could be read, for
// this animal or another of the same child's, and refused it, in whatever words, for none.
type Consents struct {
	given    map[child]bool // an answer of yes, for the exhibitor of one household
	named    map[string]bool
	refused  *refusals
	withheld []string // every name that may not be published

	byFirstWord map[string][]string // the withheld names by their first words
	together    map[string]string   // and by all their letters in a row
	lengths     map[int]bool        // how many letters those have, and whether some name of so many has several words
}

// child is an exhibitor as one household writes it: two of one name in different clubs are not one.
type child struct{ name, family, club string }

func childOf(graded *grading.Graded) child {
	return child{names.Key(result.TextOf(graded, measure.Exhibitor)), names.Key(result.TextOf(graded, measure.Family)), names.Key(result.TextOf(graded, measure.Club))}
}

// ConsentsOf gathers the answers of all carcasses and of the entries that have none. An answer that can't be read as a yes
// is a no.
func ConsentsOf(results *result.Results) *Consents {
	all := &Consents{given: map[child]bool{}, named: map[string]bool{}, refused: newRefusals()}
	for _, carcass := range results.Carcasses {
		graded := carcass.Graded
		answer, answered := graded.Written(measure.Consent)
		switch name := result.TextOf(graded, measure.Exhibitor); {
		case !answered || name == intake.ToBeSettled:
		case answer.Unreadable || !answer.Value.Number.IsPositive():
			all.refused.add(name)
		default:
			all.given[childOf(graded)] = true
		}
	}
	for _, entry := range results.Read.Entries {
		if entry.Refused {
			all.refused.add(entry.Exhibitor)
		}
	}
	for child := range all.given {
		if len(names.Words(child.name)) == 0 || all.refused.reach(child.name) {
			delete(all.given, child)
		} else {
			all.named[child.name] = true
		}
	}
	all.withhold(results)
	return all
}

// withhold gathers the names of exhibitors and families that may not be published, entries without a carcass and those of
// doubtful carcasses among them.
func (c *Consents) withhold(results *result.Results) {
	seen := map[string]bool{}
	add := func(name string) {
		key := names.Key(name)
		if key == "" || c.named[key] || name == intake.ToBeSettled || seen[key] {
			return
		}
		seen[key] = true
		c.withheld = append(c.withheld, name)
	}
	for _, carcass := range results.Carcasses {
		graded := carcass.Graded
		add(result.TextOf(graded, measure.Exhibitor))
		if !c.May(graded) {
			add(result.TextOf(graded, measure.Family))
		}
	}
	for _, entry := range results.Read.Entries {
		add(entry.Exhibitor)
	}
	for _, doubt := range results.Read.Doubts {
		for _, name := range doubt.Names {
			add(name)
		}
	}
}

// May reports whether a carcass's exhibitor may be named.
func (c *Consents) May(graded *grading.Graded) bool { return c.given[childOf(graded)] }

// Name gives the exhibitor's name where it may be published.
func (c *Consents) Name(graded *grading.Graded) string {
	if !c.May(graded) {
		return ""
	}
	return result.TextOf(graded, measure.Exhibitor)
}

// Safe gives a text that somebody wrote, or other words where it holds a name that may not be published, but for the
// reader's own.
func (c *Consents) Safe(text, otherwise string, own ...string) string {
	if slices.ContainsFunc(c.heldIn(text), func(name string) bool { return !slices.Contains(own, name) }) {
		return otherwise
	}
	return text
}

// heldIn gives the withheld names that a text holds. Fairs have thousands of names and of texts, so the names are looked up
// by the words and the runs of letters of the text.
func (c *Consents) heldIn(text string) (held []string) {
	if c.byFirstWord == nil {
		c.byFirstWord, c.together, c.lengths = map[string][]string{}, map[string]string{}, map[int]bool{}
		for _, name := range c.withheld {
			if words := names.Words(name); len(words) > 0 {
				c.byFirstWord[words[0]] = append(c.byFirstWord[words[0]], name)
				whole := strings.Join(words, "")
				c.together[whole], c.lengths[len(whole)] = name, len(words) > 1 || c.lengths[len(whole)]
			}
		}
	}
	words := names.Words(text)
	for _, word := range words {
		for _, name := range c.byFirstWord[word] {
			if names.Holds(text, name) {
				held = append(held, name)
			}
		}
	}
	whole := strings.Join(words, "")
	for length, several := range c.lengths {
		for at := 0; several && at+length <= len(whole); at++ {
			if name, known := c.together[whole[at:at+length]]; known && names.Holds(text, name) {
				held = append(held, name)
			}
		}
	}
	return held
}

// Missing is an exhibitor whose name is not published, and why.
type Missing struct {
	Exhibitor string
	Tags      []string
	Why       string
}

// Missing lists the exhibitors who are not named, in the order of the carcasses.
func (c *Consents) Missing(results *result.Results) (list []Missing) {
	at := map[child]int{}
	for _, carcass := range results.Carcasses {
		graded := carcass.Graded
		name := result.TextOf(graded, measure.Exhibitor)
		if name == "" || c.May(graded) {
			continue
		}
		answer, answered := graded.Written(measure.Consent)
		why := "no answer"
		switch {
		case name == intake.ToBeSettled:
			why = "it is to be settled whose it is"
		case answered && answer.Unreadable:
			why = "the answer " + phrase.Quote(answer.Written) + " is no yes"
		case answered && !answer.Value.Number.IsPositive():
			why = "refused"
		case c.refused.reach(name):
			why = "refused for another animal or in another writing of the name"
		}
		key := childOf(graded)
		if name == intake.ToBeSettled {
			key = child{name: name + " " + graded.Tag} // two carcasses of one tag are one question
		}
		known, there := at[key]
		if !there {
			known = len(list)
			at[key] = known
			list = append(list, Missing{Exhibitor: name, Why: why})
		}
		if !slices.Contains(list[known].Tags, graded.Tag) {
			list[known].Tags = append(list[known].Tags, graded.Tag)
		}
		if why != "no answer" && list[known].Why == "no answer" {
			list[known].Why = why
		}
	}
	return list
}

// refusals are the names that were refused, found by the first letters of their words: whatever may be one child's name has one
// of them in common.
type refusals struct {
	seen     map[string]bool
	byLetter map[string][]string
}

func newRefusals() *refusals { return &refusals{map[string]bool{}, map[string][]string{}} }

func (r *refusals) add(name string) {
	key := names.Key(name)
	if r.seen[key] {
		return
	}
	r.seen[key] = true
	for _, letter := range names.Initials(name) {
		r.byLetter[letter] = append(r.byLetter[letter], name)
	}
}

// reach reports whether a name may be one that was refused, holds it or is part of it.
func (r *refusals) reach(name string) bool {
	return slices.ContainsFunc(names.Initials(name), func(letter string) bool {
		return slices.ContainsFunc(r.byLetter[letter], func(refused string) bool { return names.MayBeSame(name, refused) })
	})
}
