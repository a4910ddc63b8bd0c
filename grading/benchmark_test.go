package grading

import (
	"math/rand/v2"
	"testing"

	"railbook/rules"
)

// BenchmarkGrade is ns for one carcass of each species and basis.
func BenchmarkGrade(b *testing.B) {
	for _, plan := range plans {
		b.Run(string(plan.species)+" "+string(plan.basis), func(b *testing.B) {
			random := rand.New(rand.NewPCG(7, 8))
			carcasses := make([]*Carcass, 512)
			for at := range carcasses {
				carcasses[at] = &Carcass{Species: plan.species, Basis: plan.basis, Readings: borderCases[plan.species](random)}
			}
			gradeAll(b, carcasses)
		})
	}
	b.Run("usual beef", func(b *testing.B) {
		gradeAll(b, []*Carcass{carcassOf(b, rules.Beef, rules.OnTheRail, map[rules.Measure]string{
			rules.LiveWeight: "1250", rules.HotCarcassWeight: "780", rules.MeasuredFat: ".4", rules.FatAdjustment: ".05", rules.RibeyeArea: "13.6",
			rules.InternalFat: "2.5", rules.Marbling: "Small 40", rules.Maturity: "A60",
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
	graded := Grade(&Carcass{Species: beefOnTheRail.species, Basis: beefOnTheRail.basis, Readings: readings}, defaultBook)
	b.Run("shape", func(b *testing.B) {
		for b.Loop() {
			graded.Shape()
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
