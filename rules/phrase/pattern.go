package phrase

import (
	"regexp"
	"sync"
)

// Pattern is a regular expression that is compiled when it is first used. Some two hundred tell what a fair's sheet may say,
// and a sheet says few of those things.
type Pattern struct {
	compiled func() *regexp.Regexp
	needed   func() [][]byte // by a match, as neededBy says; nil where nobody asks
}

// NewPattern panics when it is first used where the expression is none.
func NewPattern(expression string) *Pattern {
	return &Pattern{compiled: sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) })}
}

func (p *Pattern) MatchString(text string) bool {
	return p.mayMatch(text) && p.compiled().MatchString(text)
}

func (p *Pattern) FindString(text string) string { return p.compiled().FindString(text) }

func (p *Pattern) FindStringIndex(text string) []int { return p.compiled().FindStringIndex(text) }

func (p *Pattern) FindStringSubmatch(text string) []string {
	return p.compiled().FindStringSubmatch(text)
}

func (p *Pattern) FindAllString(text string, most int) []string {
	return p.compiled().FindAllString(text, most)
}

func (p *Pattern) FindAllStringSubmatch(text string, most int) [][]string {
	return p.compiled().FindAllStringSubmatch(text, most)
}

func (p *Pattern) FindAllStringSubmatchIndex(text string, most int) [][]int {
	return p.compiled().FindAllStringSubmatchIndex(text, most)
}

func (p *Pattern) ReplaceAllString(text, with string) string {
	return p.compiled().ReplaceAllString(text, with)
}

func (p *Pattern) ReplaceAllStringFunc(text string, with func(string) string) string {
	return p.compiled().ReplaceAllStringFunc(text, with)
}

func (p *Pattern) Split(text string, most int) []string { return p.compiled().Split(text, most) }
