package phrase

import (
	"strings"

	"github.com/shopspring/decimal"
)

// sentence begins a text with a capital letter and ends it with a full stop.
func Sentence(text string) string {
	if text == "" {
		return ""
	}
	text = strings.ToUpper(text[:1]) + text[1:]
	if strings.HasSuffix(text, ".") || strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}

func Plural(count int, one, many string) string {
	if count == 1 {
		return "1 " + one
	}
	return decimal.NewFromInt(int64(count)).String() + " " + many
}
