// Package ahead makes what is needed next while what came before it is still worked on.
package ahead

import (
	"iter"

	"github.com/sourcegraph/conc/panics"
)

const (
	together = 64 // how many are handed over at a time
	waiting  = 4  // how many such hands full may wait to be taken
)

// Pull does as iter.Pull does, and goes through the sequence in a goroutine of its own, a little ahead of who takes it: what is made
// there must not rest on what the taker changes meanwhile. It gives zero values once the sequence has ended, and panics as that does.
func Pull[T any](sequence iter.Seq[T]) (next func() T, stop func()) {
	made, stopped := make(chan []T, waiting), make(chan struct{})
	send := func(some []T) bool {
		select {
		case made <- some:
			return true
		case <-stopped:
			return false
		}
	}
	var fault panics.Catcher
	go func() {
		defer close(made)
		fault.Try(func() {
			some := make([]T, 0, together)
			for each := range sequence {
				if some = append(some, each); len(some) < together {
					continue
				}
				if !send(some) {
					return
				}
				some = make([]T, 0, together)
			}
			send(some)
		})
	}()
	var left []T
	next = func() (first T) {
		if len(left) == 0 {
			left = <-made
		}
		if len(left) == 0 {
			fault.Repanic()
		}
		if len(left) > 0 {
			first, left = left[0], left[1:]
		}
		return first
	}
	return next, func() { close(stopped) }
}

// Value begins to make a value in a goroutine of its own. What it gives waits for it, panics as the making did, and may be asked
// again.
func Value[T any](work func() T) (made func() T) {
	var value T
	var fault panics.Catcher
	done := make(chan struct{})
	go func() {
		defer close(done)
		fault.Try(func() { value = work() })
	}()
	return func() T {
		<-done
		fault.Repanic()
		return value
	}
}
