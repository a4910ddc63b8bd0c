package ahead_test

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"railbook/workbook/ahead"

	"github.com/sourcegraph/conc/panics"
	"pgregory.net/rapid"
)

// What comes is what the sequence gives, in its order, whatever its length, and zero values after it.
func TestPullGivesTheSequence(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.SliceOfN(rapid.IntRange(1, 9), 0, 700).Draw(t, "sequence")
		next, stop := ahead.Pull(slices.Values(want))
		defer stop()
		for at, number := range want {
			if got := next(); got != number {
				t.Fatalf("number %d is %d, not %d", at, got, number)
			}
		}
		if got := next(); got != 0 {
			t.Fatalf("after the end comes %d", got)
		}
	})
}

// A sequence that nobody takes to its end ends when it is stopped.
func TestPullStops(t *testing.T) {
	ended := make(chan int)
	next, stop := ahead.Pull(func(yield func(int) bool) {
		number := 1
		for yield(number) {
			number++
		}
		ended <- number
	})
	if got := next(); got != 1 {
		t.Fatalf("the first is %d", got)
	}
	stop()
	if number := <-ended; number < 2 {
		t.Fatalf("it ended at %d", number)
	}
}

// A fault of the sequence is met by who takes from it, where it is told like any other.
func TestPullPanicsAsTheSequenceDoes(t *testing.T) {
	next, stop := ahead.Pull(func(yield func(int) bool) {
		panic("a fault")
	})
	defer stop()
	defer func() {
		if fault, ok := recover().(*panics.Recovered); !ok || fault.Value != "a fault" {
			t.Errorf("it met %v", fault)
		}
	}()
	t.Errorf("it gave %d", next())
}

// A value that is made aside is the same each time it is asked for, and so is the fault that its making met.
func TestValueIsMadeOnceAndPanicsAsItsMakingDoes(t *testing.T) {
	times := 0
	made := ahead.Value(func() int { times++; return times })
	if first, again := made(), made(); first != 1 || again != 1 {
		t.Errorf("it gave %d and %d", first, again)
	}
	faulty := ahead.Value(func() int { panic("a fault") })
	for range 2 {
		func() {
			defer func() {
				if fault, ok := recover().(*panics.Recovered); !ok || fault.Value != "a fault" {
					t.Errorf("it met %v", fault)
				}
			}()
			t.Errorf("it gave %d", faulty())
		}()
	}
}

func ExamplePull() {
	next, stop := ahead.Pull(slices.Values([]string{"first", "second"}))
	defer stop()
	fmt.Println(next(), next())
	// Output: first second
}

// What runs beside must hand its fault to who waits for it, where it becomes a sentence: a fault in a bare goroutine ends the program.
// Goroutines are started here and by conc alone, and by the command line for the signal that ends the program.
func TestNoGoroutineKeepsItsFault(t *testing.T) {
	bare := regexp.MustCompile(`^\s*go (func|[a-z])|/errgroup"`)
	err := filepath.WalkDir("../..", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") ||
			slices.Contains([]string{"ahead.go", "command.go"}, entry.Name()) {
			return err
		}
		source, err := os.ReadFile(path)
		for at, line := range strings.Split(string(source), "\n") {
			if bare.MatchString(line) {
				t.Errorf("%s:%d starts a goroutine whose fault nobody meets: %s", path, at+1, strings.TrimSpace(line))
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
