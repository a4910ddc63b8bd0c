package command

import (
	"strings"
	"testing"
)

// A terminal is not told by a stranger's tag to clear itself, to change its title or to write over a line.
func TestATerminalIsSentNoControlCharacters(t *testing.T) {
	var seen strings.Builder
	const text = "tag \x1b[2J1\x1b]0;title\a\tZo\u00eb\r\b\x7f\u009b31m\n"
	if count, err := (onTerminal{&seen}).Write([]byte(text)); err != nil || count != len(text) {
		t.Error(count, err)
	}
	if want := "tag ?[2J1?]0;title?\tZo\u00eb????31m\n"; seen.String() != want {
		t.Errorf("%q, want %q", seen.String(), want)
	}
}
