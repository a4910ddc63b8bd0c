// Package workbook is the whole job as one function: open, read, grade, check, place and write. Every command of the
// program calls it.
package workbook
