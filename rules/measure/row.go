package measure

import (
	"iter"
	"math/bits"
	"slices"
)

// Most is how many measures a table may have.
const Most = 64*words - 1

const words = 4

// Set is a set of measures.
type Set [words]uint64

// Add puts a measure into the set.
func (s *Set) Add(id ID) { s[id/64] |= 1 << (id % 64) }

// Remove takes a measure out of the set.
func (s *Set) Remove(id ID) { s[id/64] &^= 1 << (id % 64) }

// Has reports whether a measure is in the set.
func (s *Set) Has(id ID) bool { return s[id/64]>>(id%64)&1 == 1 }

// Meets reports whether the two sets have a measure in common.
func (s *Set) Meets(other *Set) bool {
	for word := range s {
		if s[word]&other[word] != 0 {
			return true
		}
	}
	return false
}

// before counts the measures of the set with lower numbers.
func (s *Set) before(id ID) int {
	count := bits.OnesCount64(s[id/64] & (1<<(id%64) - 1))
	for word := range id / 64 {
		count += bits.OnesCount64(s[word])
	}
	return count
}

// Row holds something for some of the measures, such as the readings of a carcass, in the order of their numbers. The
// zero Row is empty and ready for use. A copy shares its storage: Clone it to change it.
type Row[T any] struct {
	present Set
	values  []T
}

// Get gives what the row holds for a measure; ok is false where it holds nothing.
func (r *Row[T]) Get(id ID) (value T, ok bool) {
	if !r.present.Has(id) {
		return value, false
	}
	return r.values[r.present.before(id)], true
}

// Set puts a value in for a measure.
func (r *Row[T]) Set(id ID, value T) {
	at := r.present.before(id)
	if r.present.Has(id) {
		r.values[at] = value
		return
	}
	r.present.Add(id)
	r.values = slices.Insert(r.values, at, value)
}

// Delete takes a measure out.
func (r *Row[T]) Delete(id ID) {
	if r.present.Has(id) {
		at := r.present.before(id)
		r.values = slices.Delete(r.values, at, at+1)
		r.present.Remove(id)
	}
}

// Len is how many measures the row holds something for.
func (r *Row[T]) Len() int { return len(r.values) }

// Grow makes room for so many measures in all.
func (r *Row[T]) Grow(count int) { r.values = slices.Grow(r.values, max(0, count-len(r.values))) }

// Clone gives a row of its own storage.
func (r *Row[T]) Clone() Row[T] { return Row[T]{present: r.present, values: slices.Clone(r.values)} }

// All gives the measures in the order of their numbers, each with what the row holds for it.
func (r *Row[T]) All() iter.Seq2[ID, T] {
	return func(yield func(ID, T) bool) {
		at := 0
		for word, left := range r.present {
			for ; left != 0; left &= left - 1 {
				if !yield(ID(64*word+bits.TrailingZeros64(left)), r.values[at]) {
					return
				}
				at++
			}
		}
	}
}
