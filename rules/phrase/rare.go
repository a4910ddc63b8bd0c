package phrase

import (
	"bytes"
	"regexp"
	"regexp/syntax"
	"sync"
	"unicode/utf8"
)

// NewRarePattern makes a pattern that is looked for in very many texts and found in few: MatchString first looks for what every match
// must hold, which takes a tenth of the time.
func NewRarePattern(expression string) *Pattern {
	return &Pattern{
		compiled: sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) }),
		needed: sync.OnceValue(func() (needed [][]byte) {
			if parsed, err := syntax.Parse(expression, syntax.Perl); err == nil {
				needed = neededBy(parsed)
			}
			return needed
		}),
	}
}

// shortText is how many bytes of a text are looked through for what a match needs; in a longer one it may well stand.
const shortText = 120

// mayMatch is false where a text holds nothing of what a match needs. Letters beyond ASCII are left to the expression, which knows
// those that count as one of ASCII.
func (p *Pattern) mayMatch(text string) bool {
	if p.needed == nil || len(text) > shortText {
		return true
	}
	needed := p.needed()
	if len(needed) == 0 {
		return true
	}
	var room [shortText]byte
	for i := range len(text) {
		if text[i] >= utf8.RuneSelf {
			return true
		}
		room[i] = lower(text[i])
	}
	for _, part := range needed {
		if bytes.Contains(room[:len(text)], part) {
			return true
		}
	}
	return false
}

func lower(letter byte) byte {
	if 'A' <= letter && letter <= 'Z' {
		letter += 'a' - 'A'
	}
	return letter
}

// neededBy gives texts in small letters of which each match has one in it, whatever its letters' case; none where nothing is sure.
func neededBy(parsed *syntax.Regexp) (needed [][]byte) {
	switch parsed.Op {
	case syntax.OpLiteral:
		literal := []byte(string(parsed.Rune))
		for i := range literal {
			literal[i] = lower(literal[i])
		}
		return [][]byte{literal}
	case syntax.OpCapture, syntax.OpPlus:
		return neededBy(parsed.Sub[0])
	case syntax.OpRepeat:
		if parsed.Min > 0 {
			return neededBy(parsed.Sub[0])
		}
	case syntax.OpAlternate:
		for _, choice := range parsed.Sub {
			some := neededBy(choice)
			if len(some) == 0 {
				return nil
			}
			needed = append(needed, some...)
		}
	case syntax.OpConcat:
		for _, part := range parsed.Sub {
			if some := neededBy(part); rarer(some, needed) {
				needed = some
			}
		}
	}
	return needed
}

// rarer reports whether texts are likely to stand in fewer places than others: the shortest is longer, or they are fewer.
func rarer(some, others [][]byte) bool {
	if len(some) == 0 || len(others) == 0 {
		return len(some) > 0
	}
	shortest, other := shortestOf(some), shortestOf(others)
	return shortest > other || shortest == other && len(some) < len(others)
}

func shortestOf(texts [][]byte) int {
	shortest := len(texts[0])
	for _, text := range texts {
		shortest = min(shortest, len(text))
	}
	return shortest
}
