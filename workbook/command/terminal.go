package command

import (
	"io"
	"os"
	"strings"
	"unicode"

	"golang.org/x/term"
)

// onTerminal is a terminal that people read. Names of files, tags and exhibitors come from strangers, and a terminal obeys the
// control characters in them: it is sent none but ends of lines and tabs.
type onTerminal struct{ to io.Writer }

func (t onTerminal) Write(text []byte) (int, error) {
	_, err := io.WriteString(t.to, strings.Map(func(c rune) rune {
		if c == '\n' || c == '\t' {
			return c
		}
		return printed(c)
	}, string(text)))
	return len(text), err
}

func printed(c rune) rune {
	if unicode.IsControl(c) {
		return '?'
	}
	return c
}

// readBy gives the way to a file, or to who reads it on a terminal.
func readBy(file *os.File) io.Writer {
	if term.IsTerminal(int(file.Fd())) {
		return onTerminal{file}
	}
	return file
}
