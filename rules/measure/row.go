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
func (s *Set) Add(id ID) { s.add(id.number()) }

func (s *Set) add(number uint16) { s[number/64] |= 1 << (number % 64) }

// Remove takes a measure out of the set.
func (s *Set) Remove(id ID) { s[id.number()/64] &^= 1 << (id.number() % 64) }

// Has reports whether a measure is in the set.
func (s *Set) Has(id ID) bool { return s.has(id.number()) }

func (s *Set) has(number uint16) bool { return s[number/64]>>(number%64)&1 == 1 }

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
func (s *Set) before(number uint16) int {
	count := bits.OnesCount64(s[number/64] & (1<<(number%64) - 1))
	for word := range number / 64 {
		count += bits.OnesCount64(s[word])
	}
	return count
}

// Row holds something for some of the measures, such as the readings of a carcass, in the order of their table. The zero
// Row is empty and ready for use. A copy shares its storage: Clone it to change it. A row holds measures of one table;
// asked for one of another rulebook's own it holds nothing, though its number be the same.
type Row[T any] struct {
	present Set
	values  []T
	own     []ID // those of the measures held that a rulebook declares
}

// Get gives what the row holds for a measure; ok is false where it holds nothing.
func (r *Row[T]) Get(id ID) (value T, ok bool) {
	number := id.number()
	if !r.present.has(number) || !id.standard() && !slices.Contains(r.own, id) {
		return value, false
	}
	return r.values[r.present.before(number)], true
}

// Set puts a value in for a measure.
func (r *Row[T]) Set(id ID, value T) {
	number := id.number()
	at := r.present.before(number)
	if !id.standard() {
		r.forget(number)
		r.own = append(r.own, id)
	}
	if r.present.has(number) {
		r.values[at] = value
		return
	}
	r.present.add(number)
	r.values = slices.Insert(r.values, at, value)
}

// forget takes the own measure of a number out of the list, in a list of the row's own.
func (r *Row[T]) forget(number uint16) {
	r.own = slices.DeleteFunc(slices.Clone(r.own), func(id ID) bool { return id.number() == number })
}

// Delete takes a measure out.
func (r *Row[T]) Delete(id ID) {
	if _, there := r.Get(id); !there {
		return
	}
	number := id.number()
	at := r.present.before(number)
	r.values = slices.Delete(r.values, at, at+1)
	r.present.Remove(id)
	if !id.standard() {
		r.forget(number)
	}
}

// HoldsOwn reports whether the row holds a measure that a rulebook declares.
func (r *Row[T]) HoldsOwn() bool { return len(r.own) > 0 }

// Len is how many measures the row holds something for.
func (r *Row[T]) Len() int { return len(r.values) }

// Grow makes room for so many measures in all.
func (r *Row[T]) Grow(count int) { r.values = slices.Grow(r.values, max(0, count-len(r.values))) }

// Clone gives a row of its own storage.
func (r *Row[T]) Clone() Row[T] {
	return Row[T]{present: r.present, values: slices.Clone(r.values), own: slices.Clone(r.own)}
}

// All gives the measures in the order of their numbers, each with what the row holds for it.
func (r *Row[T]) All() iter.Seq2[ID, T] {
	return func(yield func(ID, T) bool) {
		standard := Standard().definitions
		at := 0
		for word, left := range r.present {
			for ; left != 0; left &= left - 1 {
				number := 64*word + bits.TrailingZeros64(left)
				id := ID{}
				if number <= len(standard) {
					id = standard[number-1].ID
				} else {
					id = r.ownNumbered(number)
				}
				if !yield(id, r.values[at]) {
					return
				}
				at++
			}
		}
	}
}

// ownNumbered gives the measure of a number that the row holds and a rulebook declares.
func (r *Row[T]) ownNumbered(number int) ID {
	return r.own[slices.IndexFunc(r.own, func(id ID) bool { return int(id.number()) == number })]
}
