//go:build unix

package workbook

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
)

var costRows = flag.String("cost", "", "print what the whole job costs beside its yardsticks, for sheets of so many rows: 200,10000,100000")

// costYardstick tells this very program, started again, to have the library set one cell of a workbook.
const costYardstick = "RAILBOOK_COST_YARDSTICK"

// costDraw has it draw the workbook of so many rows first: what the system tells of the memory of a process that has ended is never
// less than what its parent took, so the parent draws nothing itself.
const costDraw = "RAILBOOK_COST_DRAW"

// TestCostYardstick is no test but the yardstick, in a process of its own whose memory can be seen.
func TestCostYardstick(t *testing.T) {
	path := os.Getenv(costYardstick)
	if path == "" {
		t.Skip("it is started by the table of costs")
	}
	if rows, err := strconv.Atoi(os.Getenv(costDraw)); err == nil {
		if err := os.Rename(drawFair(t, rows), path); err != nil {
			t.Fatal(err)
		}
		return
	}
	file, err := excelize.OpenFile(path, excelize.Options{RawCellValue: true, UnzipXMLSizeLimit: 1 << 30})
	if err == nil {
		err = file.SetCellValue("Sheet1", "Z2", "touched")
	}
	if err == nil {
		err = file.SaveAs(path + ".touched.xlsx")
	}
	if err != nil {
		t.Fatal(err)
	}
}

// addColumns is the other yardstick: openpyxl adds twelve columns of figures to the same sheet, which railbook also
// computes, checks and places.
const addColumns = `
import sys, openpyxl
book = openpyxl.load_workbook(sys.argv[1])
sheet = book.worksheets[0]
for row in sheet.iter_rows(min_row=2):
    at, weight = row[0].row, row[5].value
    for i in range(12):
        sheet.cell(at, 26 + i, "=ROUND(F%d*%d/100,6)" % (at, i))
book.save(sys.argv[2])`

// cost is what a process took.
type cost struct {
	wall, processor float64 // seconds
	peak            float64 // MB of memory
}

func measured(t *testing.T, command *exec.Cmd) cost {
	t.Helper()
	command.Stderr = os.Stderr
	started := time.Now()
	if err := command.Run(); err != nil {
		t.Fatal(command.Args, err)
	}
	wall := time.Since(started).Seconds()
	usage := command.ProcessState.SysUsage().(*syscall.Rusage)
	perMB := 1024.0
	if usage.Maxrss > 1<<30 { // systems that count bytes
		perMB = 1 << 20
	}
	processor := command.ProcessState.UserTime() + command.ProcessState.SystemTime()
	return cost{wall, processor.Seconds(), float64(usage.Maxrss) / perMB}
}

// TestCostTable prints the table of costs: the whole job, grading its own results again and verifying them, beside the
// library setting one cell and openpyxl adding the columns alone.
func TestCostTable(t *testing.T) {
	if *costRows == "" {
		t.Skip("it measures and tests nothing: ask for it with -cost 200,10000,100000")
	}
	folder := t.TempDir()
	program := filepath.Join(folder, "railbook")
	if output, err := exec.Command("go", "build", "-o", program, "railbook").CombinedOutput(); err != nil {
		t.Fatal(err, string(output))
	}
	fmt.Println("| rows | job | wall, s | processor, s | peak, MB | wall against one cell | memory against one cell | size against the input |")
	fmt.Println("|---|---|---|---|---|---|---|---|")
	for _, text := range strings.Split(*costRows, ",") {
		input := filepath.Join(folder, text+".xlsx")
		yardstickWith := func(variables ...string) *exec.Cmd {
			command := exec.Command(os.Args[0], "-test.run", "^TestCostYardstick$")
			command.Env = append(append(os.Environ(), costYardstick+"="+input), variables...)
			return command
		}
		measured(t, yardstickWith(costDraw+"="+text))
		results, again := filepath.Join(folder, text+"-results.xlsx"), filepath.Join(folder, text+"-again.xlsx")
		each := measured(t, yardstickWith())
		line := func(job string, of cost, size string) {
			fmt.Printf("| %s | %s | %.2f | %.2f | %.0f | %.2f × | %.2f × | %s |\n", text, job, of.wall, of.processor, of.peak, of.wall/each.wall, of.peak/each.peak, size)
		}
		line("the library sets one cell", each, "")
		for _, python := range []string{"python3", "/usr/bin/python3"} {
			if exec.Command(python, "-c", "import openpyxl").Run() == nil {
				line("openpyxl adds the columns alone", measured(t, exec.Command(python, "-c", addColumns, input, again+".py.xlsx")), "")
				break
			}
		}
		line("railbook grade", measured(t, exec.Command(program, "grade", input, "-o", results)), sizes(t, results, input))
		line("railbook grade, the results unchanged", measured(t, exec.Command(program, "grade", results, "-o", again)), "")
		signed := filepath.Join(folder, text+"-signed.xlsx")
		line("railbook sign", measured(t, exec.Command(program, "sign", results, "--judge", "A judge", "--date", "2025-07-10", "-o", signed)), "")
		line("railbook verify", measured(t, exec.Command(program, "verify", signed)), "")
	}
}

func sizes(t *testing.T, path, against string) string {
	t.Helper()
	is, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	was, err := os.Stat(against)
	if err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("%.1f ×", float64(is.Size())/float64(was.Size()))
}

// mostOfOneCell is the most memory that the whole job may take of what the library takes to set one cell, at 10,000 rows.
const mostOfOneCell = 0.4

// The whole job on 10,000 carcasses takes two fifths of the memory that the library takes to set one cell of the same workbook.
func TestMemoryOfTheWholeJob(t *testing.T) {
	if os.Getenv("RAILBOOK_LONG") == "" {
		t.Skip("a long run: RAILBOOK_LONG is not set")
	}
	folder := t.TempDir()
	program, input := filepath.Join(folder, "railbook"), filepath.Join(folder, "fair.xlsx")
	if output, err := exec.Command("go", "build", "-o", program, "railbook").CombinedOutput(); err != nil {
		t.Fatal(err, string(output))
	}
	yardstick := func(variables ...string) cost {
		command := exec.Command(os.Args[0], "-test.run", "^TestCostYardstick$")
		command.Env = append(append(os.Environ(), costYardstick+"="+input), variables...)
		return measured(t, command)
	}
	yardstick(costDraw + "=10000")
	whole := exec.Command(program, "grade", input, "-o", filepath.Join(folder, "results.xlsx"))
	whole.Env = append(os.Environ(), "GOMAXPROCS=2") // more cores hold more sheets at once
	cell, job := yardstick("GOMAXPROCS=2"), measured(t, whole)
	if job.peak > mostOfOneCell*cell.peak {
		t.Errorf("the whole job took %.0f MB, and setting one cell %.0f", job.peak, cell.peak)
	}
	t.Logf("%.0f MB of %.0f", job.peak, cell.peak)
}
