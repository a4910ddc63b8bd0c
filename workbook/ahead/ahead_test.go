package ahead_test

import (
	"fmt"
	"slices"
	"testing"

	"railbook/workbook/ahead"

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
		if fault := recover(); fault != "a fault" {
			t.Errorf("it met %v", fault)
		}
	}()
	t.Errorf("it gave %d", next())
}

func ExamplePull() {
	next, stop := ahead.Pull(slices.Values([]string{"first", "second"}))
	defer stop()
	fmt.Println(next(), next())
	// Output: first second
}
