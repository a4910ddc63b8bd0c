package grading

import (
	"math/rand/v2"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// BenchmarkGrade is ns for one carcass of each species and basis.
func BenchmarkGrade(b *testing.B) {
	for _, method := range Methods {
		b.Run(string(method.Species)+" "+string(method.Basis), func(b *testing.B) {
			random := rand.New(rand.NewPCG(7, 8))
			carcasses := make([]*Carcass, 512)
			for at := range carcasses {
				carcasses[at] = (&Carcass{Species: method.Species, Basis: method.Basis}).With(borderCases[method.Species](random))
			}
			gradeAll(b, carcasses)
		})
	}
	b.Run("usual beef", func(b *testing.B) {
		gradeAll(b, []*Carcass{carcassOf(b, rules.Beef, rules.OnTheRail, map[measure.ID]string{
			measure.LiveWeight: "1250", measure.HotCarcassWeight: "780", measure.MeasuredFat: ".4", measure.FatAdjustment: ".05", measure.RibeyeArea: "13.6",
			measure.InternalFat: "2.5", measure.Marbling: "Small 40", measure.Maturity: "A60",
		})})
	})
}

func gradeAll(b *testing.B, carcasses []*Carcass) {
	b.ReportAllocs()
	at := 0
	for b.Loop() {
		Grade(carcasses[at%len(carcasses)], defaultBook)
		at++
	}
}

// BenchmarkFormulas is ns for the shape of one carcass, and for its formulas where the shape is new.
func BenchmarkFormulas(b *testing.B) {
	random := rand.New(rand.NewPCG(7, 8))
	readings := borderBeef(random)
	graded := Grade((&Carcass{Species: beefOnTheRail.Species, Basis: beefOnTheRail.Basis}).With(readings), defaultBook)
	b.Run("shape", func(b *testing.B) {
		for b.Loop() {
			graded.AppendShape(nil)
		}
	})
	b.Run("formulas", func(b *testing.B) {
		at := namedReferences{readings}
		for b.Loop() {
			for _, column := range beefOnTheRail.columns {
				graded.Formula(column.Measure, at)
			}
		}
	})
}
