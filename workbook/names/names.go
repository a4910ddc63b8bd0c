// Package names compares the names of people as fairs write them: which are certainly the same child's, and which may
// be. A grant of consent needs the first, a refusal spreads to the second.
package names

import (
	"slices"
	"strings"
	"unicode"

	"railbook/rules/phrase"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// Key is the one form of a name that is written alike: the same letters in the same order, whatever their case, the
// blanks between them, the form of the apostrophe, and whether accents are composed.
func Key(name string) string {
	return strings.Join(strings.Fields(folded(norm.NFC.String(apostrophes.Replace(name)))), " ")
}

// folded gives a text without regard to letter case, as Unicode folds it: "ß" is "ss", "ς" is "σ". The result is
// composed, since folding may take letters apart.
func folded(text string) string { return norm.NFC.String(cases.Fold().String(text)) }

// apostrophes are what stands for one in a name, with the letters that no eye sees.
var apostrophes = strings.NewReplacer(
	"’", "'", "‘", "'", "ʼ", "'", "ʻ", "'", "′", "'", "`", "'", "´", "'", "＇", "'", "‛", "'",
	"\u00ad", "", "\u200b", "", "\u200c", "", "\u200d", "", "\u2060", "", "\ufeff", "",
)

// Words takes a name apart into its words, without accents, apostrophes, case and punctuation, for a child may be written
// "Rowan Birch", "Birch, Rowan" or together with a sister.
func Words(name string) []string {
	words := written(name)
	for i := range words {
		words[i] = folded(words[i])
	}
	return slices.DeleteFunc(words, func(word string) bool { return word == "and" })
}

// written gives the words of a name in their own case.
func written(name string) []string {
	var bare strings.Builder
	for _, letter := range norm.NFKD.String(apostrophes.Replace(name)) {
		if letter != '\'' && !unicode.IsMark(letter) {
			bare.WriteRune(letter)
		}
	}
	return strings.FieldsFunc(bare.String(), func(letter rune) bool { return !unicode.IsLetter(letter) && !unicode.IsDigit(letter) })
}

// MayBeSame reports whether two names may be one child's, or one of them holds the other's: every word of the shorter
// stands in the longer, in any order, an initial for any word that begins with it. A single letter is nobody's name.
func MayBeSame(a, b string) bool {
	if Key(a) == Key(b) {
		return Key(a) != ""
	}
	return spelled(a).agrees(spelled(b), true, false)
}

// Same reports whether two names are certainly the same child's: the same words in any order, where an initial may stand
// for a word, a middle name may be left out, and the family's name may stand alone. A name of several children is only
// itself.
func Same(a, b string) bool {
	if Key(a) == Key(b) {
		return Key(a) != ""
	}
	return spelled(a).agrees(spelled(b), false, several(a) || several(b))
}

var ofSeveral = phrase.NewPattern(`(?i)[&+/]|\b(?:and|und|y|et)\b|;`)

// several reports whether a name is of more than one child.
func several(name string) bool { return ofSeveral.MatchString(name) }

// spelling is a name in the ways its words can be taken apart.
type spelling struct {
	words    []string
	apart    []string // the same with the words that are initials written together ("RJ") taken apart; nil for none
	perhaps  []string // the same with those that may be initials ("al")
	together string   // all letters
}

func spelled(name string) spelling {
	each := spelling{words: Words(name)}
	each.together = strings.Join(each.words, "")
	shouted := name == strings.ToUpper(name)
	for _, word := range written(name) {
		plain := folded(word)
		if plain == "and" {
			continue
		}
		letters := strings.Split(plain, "")
		initials := len(letters) == 2 || len(letters) == 3
		sure := initials && word == strings.ToUpper(word) && (!shouted || !strings.ContainsAny(plain, "aeiouy"))
		each.apart = appendWord(each.apart, plain, letters, sure)
		each.perhaps = appendWord(each.perhaps, plain, letters, initials && len(letters) == 2)
	}
	return each
}

func appendWord(words []string, word string, letters []string, apart bool) []string {
	if apart {
		return append(words, letters...)
	}
	return append(words, word)
}

// agrees reports whether two names agree in some way of taking them apart. What may be initials is taken apart only where
// perhaps is enough, and then every one of them must be met; whole says that no word may be left out.
func (s spelling) agrees(other spelling, perhaps, whole bool) bool {
	if s.together == "" || other.together == "" {
		return false
	}
	if s.together == other.together {
		return true
	}
	for _, part := range [][]string{s.words, s.apart} {
		for _, two := range [][]string{other.words, other.apart} {
			if within(part, two, whole) || within(two, part, whole) {
				return true
			}
		}
	}
	return perhaps && (within(s.perhaps, other.words, true) || within(s.words, other.perhaps, true))
}

// mostWords is how many words are tried in every order; a longer list is no person's name, and is compared as it stands.
const mostWords = 12

// within reports whether every word of the shorter name is a different word of the longer, or its initial.
func within(shorter, longer []string, whole bool) bool {
	switch {
	case len(shorter) > len(longer) || whole && len(shorter) != len(longer):
		return false
	case len(shorter) == 1 && len([]rune(shorter[0])) == 1:
		return slices.Equal(shorter, longer)
	case len(longer) > mostWords:
		return !slices.ContainsFunc(shorter, func(word string) bool { return !slices.Contains(longer, word) })
	}
	return matched(shorter, longer, make([]bool, len(longer)))
}

// matched finds each word a partner: initials may have several, so the choice is tried.
func matched(words, among []string, taken []bool) bool {
	if len(words) == 0 {
		return true
	}
	for at, candidate := range among {
		if taken[at] || !alike(words[0], candidate) {
			continue
		}
		taken[at] = true
		if matched(words[1:], among, taken) {
			return true
		}
		taken[at] = false
	}
	return false
}

// alike reports whether two words are the same, or one is the other's initial.
func alike(a, b string) bool {
	if a == b {
		return true
	}
	if len([]rune(a)) > 1 && len([]rune(b)) > 1 {
		return false
	}
	return strings.HasPrefix(a, b) || strings.HasPrefix(b, a)
}

// Spoken turns a name that is written last name first into the order in which it is called out: "Birch, Rowan" is "Rowan
// Birch".
func Spoken(name string) string {
	last, first, comma := strings.Cut(name, ",")
	if last, first = strings.TrimSpace(last), strings.TrimSpace(first); !comma || last == "" || first == "" || strings.Contains(first, ",") || ofSeveral.MatchString(name) {
		return strings.Join(strings.Fields(name), " ")
	}
	switch strings.ToLower(strings.Trim(first, ". ")) {
	case "jr", "sr", "ii", "iii", "iv", "junior", "senior":
		return strings.Join(strings.Fields(last+" "+first), " ")
	}
	return strings.Join(strings.Fields(first+" "+last), " ")
}

// Initials gives the letters with which the words of a name begin, each once and in order, with those of words that may be
// initials written together. Two names that may be the same have one of them in common.
func Initials(name string) []string {
	spelling := spelled(name)
	var letters []string
	for _, words := range [][]string{spelling.words, spelling.apart, spelling.perhaps} {
		for _, word := range words {
			letters = append(letters, string([]rune(word)[:1]))
		}
	}
	slices.Sort(letters)
	return slices.Compact(letters)
}

// Holds reports whether a text that somebody wrote, a class or a title, holds a name: all its words, or its letters in a
// row.
func Holds(text, name string) bool {
	words := Words(name)
	if len(words) == 0 {
		return false
	}
	among := Words(text)
	if !slices.ContainsFunc(words, func(word string) bool { return !slices.Contains(among, word) }) {
		return true
	}
	whole := strings.Join(words, "")
	return len(words) > 1 && strings.Contains(strings.Join(among, ""), whole)
}
