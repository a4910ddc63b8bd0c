package workbook

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"testing"
	"time"

	"railbook/rules/measure"

	"github.com/xuri/excelize/v2"
)

// benchmarkRows are the sizes measured: a fair, a season of a plant, and far more than anybody has.
var benchmarkRows = []int{200, 10_000, 100_000}

// drawFair draws a workbook of so many cattle in 25 columns.
func drawFair(tb testing.TB, rows int) string {
	tb.Helper()
	file := excelize.NewFile()
	stream, err := file.NewStreamWriter("Sheet1")
	if err != nil {
		tb.Fatal(err)
	}
	write := func(row int, cells []any) {
		if err := stream.SetRow(fmt.Sprintf("A%d", row), cells); err != nil {
			tb.Fatal(err)
		}
	}
	headings := []any{"Tag", "Class", "Exhibitor", "Club", "Live wt", "HCW", "Adj fat", "REA", "KPH", "Marbling", "Maturity", "Sex", "Breed"}
	for len(headings) < 25 {
		headings = append(headings, fmt.Sprintf("Plant code %d", len(headings)-12))
	}
	write(1, headings)
	draw := rand.New(rand.NewPCG(4, 12))
	round := func(mean, deviation float64, per float64) float64 {
		return float64(int(max(mean-2*deviation, min(mean+2*deviation, mean+deviation*draw.NormFloat64()))*per+0.5)) / per
	}
	for row := range rows {
		weight := round(800, 60, 1)
		cells := []any{
			fmt.Sprintf("%06d", row+1), fmt.Sprintf("Class %d", row%max(1, rows/200)+1), fmt.Sprintf("Youth %d", row%5000), fmt.Sprintf("Club %d", row%40),
			float64(int(weight / (0.60 + 0.04*draw.Float64()))), weight, round(0.5, 0.12, 100), round(13.3, 0.9, 10), round(2.5, 0.4, 2),
			float64(300 + 10*draw.IntN(40)), "A60", "steer", "cross",
		}
		for len(cells) < 25 {
			cells = append(cells, draw.IntN(1000))
		}
		write(row+2, cells)
	}
	if err := stream.Flush(); err != nil {
		tb.Fatal(err)
	}
	path := filepath.Join(tb.TempDir(), "fair.xlsx")
	if err := file.SaveAs(path); err != nil {
		tb.Fatal(err)
	}
	return path
}

// BenchmarkGrade is the whole job: read, grade, check, place and write.
func BenchmarkGrade(b *testing.B) {
	for _, rows := range benchmarkRows {
		b.Run(fmt.Sprintf("rows=%d", rows), func(b *testing.B) {
			path := drawFair(b, rows)
			results := filepath.Join(b.TempDir(), "results.xlsx")
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Grade(path, Options{Output: results, Force: true}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkShareOfChecks gives the share of the whole job that all checks take, the score of every row among them, in one run:
// from the stage that begins them to the next; on a sheet without grades of its own, and on one with them.
func BenchmarkShareOfChecks(b *testing.B) {
	const rows = 10_000
	b.Run("plain", func(b *testing.B) { shareOfChecks(b, drawFair(b, rows)) })
	b.Run("own-grades", func(b *testing.B) {
		path := drawFair(b, rows)
		addOwnGrades(b, path, rows)
		shareOfChecks(b, path)
	})
}

// addOwnGrades has the plant's own grades stand in the first two columns of its codes, as Grade works them out.
func addOwnGrades(b *testing.B, path string, rows int) {
	outcome, err := Grade(path, Options{Output: filepath.Join(b.TempDir(), "graded.xlsx")})
	if err != nil {
		b.Fatal(err)
	}
	edit(b, path, path, func(file *excelize.File) {
		set := func(cell string, value any) {
			if err := file.SetCellValue("Sheet1", cell, value); err != nil {
				b.Fatal(err)
			}
		}
		set("N1", "Yield grade")
		set("O1", "Quality grade")
		for i, carcass := range outcome.Results.Carcasses[:rows] {
			yield, _ := carcass.Figure(measure.YieldGrade)
			quality, _ := carcass.Figure(measure.QualityGrade)
			set(fmt.Sprintf("N%d", i+2), yield.Number.RoundFloor(1).InexactFloat64())
			set(fmt.Sprintf("O%d", i+2), quality.Text)
		}
	})
}

func shareOfChecks(b *testing.B, path string) {
	results := filepath.Join(b.TempDir(), "results.xlsx")
	var checking time.Duration
	var begun time.Time
	stage := func(words string) {
		if !begun.IsZero() {
			checking, begun = checking+time.Since(begun), time.Time{}
		}
		if words == "checking" {
			begun = time.Now()
		}
	}
	started := time.Now()
	for b.Loop() {
		if _, err := Grade(path, Options{Output: results, Force: true, Stage: stage}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(100*checking.Seconds()/time.Since(started).Seconds(), "%-of-the-job")
}

// BenchmarkOpenAndSave is the yardstick: the library opens the same workbook and saves it untouched. It never looks into
// the sheet then, but unpacks its part and packs it again.
func BenchmarkOpenAndSave(b *testing.B) {
	openAndSave(b, func(*excelize.File) error { return nil })
}

// BenchmarkOpenTouchAndSave has the library write a cell in between, so that it reads every row of the sheet and writes it.
func BenchmarkOpenTouchAndSave(b *testing.B) {
	openAndSave(b, func(file *excelize.File) error { return file.SetCellValue("Sheet1", "Z2", "touched") })
}

func openAndSave(b *testing.B, touch func(*excelize.File) error) {
	for _, rows := range benchmarkRows {
		b.Run(fmt.Sprintf("rows=%d", rows), func(b *testing.B) {
			path := drawFair(b, rows)
			results := filepath.Join(b.TempDir(), "results.xlsx")
			b.ReportAllocs()
			for b.Loop() {
				file, err := excelize.OpenFile(path, excelize.Options{RawCellValue: true, UnzipXMLSizeLimit: 1 << 30})
				if err != nil {
					b.Fatal(err)
				}
				if err := touch(file); err != nil {
					b.Fatal(err)
				}
				if err := file.SaveAs(results); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
