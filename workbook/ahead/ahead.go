// Package ahead makes what is needed next while what came before it is still worked on.
package ahead

import "iter"

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
	var fault any
	go func() {
		defer close(made)
		defer func() { fault = recover() }()
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
	}()
	var left []T
	next = func() (first T) {
		if len(left) == 0 {
			left = <-made
		}
		if len(left) == 0 && fault != nil {
			panic(fault)
		}
		if len(left) > 0 {
			first, left = left[0], left[1:]
		}
		return first
	}
	return next, func() { close(stopped) }
}
