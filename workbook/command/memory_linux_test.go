package command

import (
	"os"
	"regexp"
	"testing"
)

// What the system says of the program's memory (proc(5), smaps: "hg" stands for the advice to use large pages) has them.
func TestLargePagesAreAskedFor(t *testing.T) {
	if _, err := os.Stat("/sys/kernel/mm/transparent_hugepage"); err != nil {
		t.Skip("this system has no large pages: ", err)
	}
	askForLargePages()
	maps, err := os.ReadFile("/proc/self/smaps")
	if err != nil {
		t.Skip("this system does not say how memory is given: ", err)
	}
	if !regexp.MustCompile(`(?m)^VmFlags:.* hg\b`).Match(maps) {
		t.Error("no memory is given in large pages")
	}
}
