// Package grading turns carcasses and a rulebook into grades, prices and placings. Everything in it is a pure function:
// no files, no clock, no log. All arithmetic is exact decimal arithmetic.
package grading

import (
	"iter"

	"railbook/rules"
	"railbook/rules/measure"
)

// Carcass is one animal as it was read: every measure with its value and the cell it stood in.
type Carcass struct {
	Tag      string // as text, leading zeros kept; empty where the sheet has none
	Class    string // the class it is placed in, as the sheet or the roster writes it
	Species  rules.Species
	Basis    rules.Basis
	Place    rules.Place // the row (or column, on a sheet laid on its side): the cell of its tag, else its first cell
	Sequence int         // the order in which it was read, from 0
	ID       int         // given once, by which the record knows it again in every revision; from 1
	readings measure.Row[keptReading]
}

// Reading is one cell as it was read.
type Reading struct {
	Value   measure.Value
	Place   rules.Place
	Written string // the cell as written
	// Plain is true where the cell holds the value as a plain number in the measure's own unit, so that a formula
	// may refer to the cell itself; otherwise a formula carries the value.
	Plain bool
	// Factor is the exact number by which the cell's plain number was multiplied to get Value ("0.0393700787…" for
	// millimetres); empty where no single factor does it. A formula then converts the cell.
	Factor string
	// Unreadable is true where something is written that could not be understood. There is no value then: the figures
	// that need it are missing and the carcass is on hold.
	Unreadable bool
}

// Reading gives the reading of a measure; ok is false where nothing was read or it could not be understood.
func (c *Carcass) Reading(id measure.ID) (reading Reading, ok bool) {
	reading, ok = c.Written(id)
	return reading, ok && !reading.Unreadable
}

// HasWritten reports whether anything stands in the carcass's cell of a measure, understood or not.
func (c *Carcass) HasWritten(id measure.ID) bool {
	_, has := c.readings.Get(id)
	return has
}

// WordsOf gives what stands in the carcass's cell of a measure as it is written; empty where nothing does.
func (c *Carcass) WordsOf(id measure.ID) string {
	kept, has := c.readings.Get(id)
	if !has {
		return ""
	}
	return kept.of.written
}

// Written gives what stands in the carcass's cell of a measure, understood or not; ok is false where nothing does.
func (c *Carcass) Written(id measure.ID) (reading Reading, ok bool) {
	kept, ok := c.readings.Get(id)
	if !ok {
		return reading, false
	}
	return kept.reading(), true
}

// Value gives the value read of a measure, at a fraction of the cost of its Reading; ok is false where nothing was read or it
// could not be understood.
func (c *Carcass) Value(id measure.ID) (value measure.Value, ok bool) {
	kept, ok := c.readings.Get(id)
	if !ok || kept.of.unreadable {
		return value, false
	}
	return kept.of.value, true
}

// unreadable reports whether something stands in the carcass's cell of a measure that could not be understood.
func (c *Carcass) unreadable(id measure.ID) bool {
	kept, ok := c.readings.Get(id)
	return ok && kept.of.unreadable
}

// HasUnreadable reports whether anything stands in a cell of the carcass that could not be understood.
func (c *Carcass) HasUnreadable() bool {
	for _, kept := range c.readings.All() {
		if kept.of.unreadable {
			return true
		}
	}
	return false
}

// ReadingOf gives what stands in the carcass's cell of a measure, understood or not; an empty Reading where nothing does.
func (c *Carcass) ReadingOf(id measure.ID) Reading {
	reading, _ := c.Written(id)
	return reading
}

// Readings gives all that was read of the carcass, understood or not, in the order of the table of measures.
func (c *Carcass) Readings() iter.Seq2[measure.ID, Reading] {
	return func(yield func(measure.ID, Reading) bool) {
		for id, kept := range c.readings.All() {
			if !yield(id, kept.reading()) {
				return
			}
		}
	}
}

// MeasuresRead gives the measures of all that was read of the carcass, understood or not.
func (c *Carcass) MeasuresRead() iter.Seq[measure.ID] {
	return func(yield func(measure.ID) bool) {
		for id := range c.readings.All() {
			if !yield(id) {
				return
			}
		}
	}
}

// CountReadings is how many cells of the carcass were read.
func (c *Carcass) CountReadings() int { return c.readings.Len() }

// SetReading puts in what was read of a measure, in place of what was there.
func (c *Carcass) SetReading(id measure.ID, reading Reading) { c.readings.Set(id, keep(reading)) }

// SetShared does the same for one of many cells that have a reading in common: that in a column and a row of a sheet, both from 1.
func (c *Carcass) SetShared(id measure.ID, reading SharedReading, sheet SheetOfReadings, column, row int) {
	c.readings.Set(id, keptReading{of: reading.of, sheet: sheet.sheet, column: uint16(column), row: uint32(row)})
}

// ClearReading takes out what was read of a measure.
func (c *Carcass) ClearReading(id measure.ID) { c.readings.Delete(id) }

// GrowReadings makes room for so many readings in all.
func (c *Carcass) GrowReadings(count int) { c.readings.Grow(count) }

// With puts in several readings and gives the carcass back.
func (c *Carcass) With(readings map[measure.ID]Reading) *Carcass {
	for id, reading := range readings {
		c.SetReading(id, reading)
	}
	return c
}

// Under gives the carcass as a rulebook sees it that has the measures of the table: what was read of another rulebook's own
// measures is what was read of the measures that this one declares by the same names, and else is not there.
func (c *Carcass) Under(table *measure.Table) *Carcass {
	if !c.readings.HoldsOwn() || c.isUnder(table) {
		return c
	}
	under := *c
	under.readings = measure.Row[keptReading]{}
	for id, reading := range c.Readings() {
		if like := table.Like(id); like != measure.None {
			under.SetReading(like, reading)
		}
	}
	return &under
}

// isUnder reports whether everything was read as the table names it, so that the carcass itself will do.
func (c *Carcass) isUnder(table *measure.Table) bool {
	for id := range c.MeasuresRead() {
		if table.Like(id) != id {
			return false
		}
	}
	return true
}

// Clone gives the same carcass, whose readings may be changed without changing this one's.
func (c *Carcass) Clone() *Carcass {
	clone := *c
	clone.readings = c.readings.Clone()
	return &clone
}
