package command

import (
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"strings"
	"sync/atomic"

	"railbook/workbook"
)

// How much is let go of before the collector of garbage runs again: a small workbook is done before it runs at all, and a large one
// takes little more memory than what is in use. Between the two, the less that is in use the more may gather.
const (
	roomBytes    = 20 << 20
	mostPercent  = 800 // of the least that counts as in use, 4 MB: a workbook of 200 carcasses is done before the first run
	leastPercent = 20  // where a file may still be refused, which takes no more than 400 MB, and for text, of which 60,000 carcasses take 300
	// Once a workbook is known to be one that is graded, much more may gather where much is in use: a quarter of the time goes otherwise.
	largePercent = 50
	largeBytes   = 128 << 20
)

// large is true once what is in use may be that of a large workbook that is graded.
var large atomic.Bool

// roomAt gives the percent of what is in use that may gather.
func roomAt(live uint64, large bool) int {
	percent := int(min(max(roomBytes*100/max(live, 1), leastPercent), mostPercent))
	if large && live >= largeBytes {
		percent = max(percent, largePercent)
	}
	return percent
}

// stageReached lets more gather once a workbook, and no text, is being graded.
func stageReached(stage, path string) {
	if grading := stage == workbook.GradingStage || stage == workbook.GradingAgainStage; grading && strings.HasPrefix(strings.ToLower(filepath.Ext(path)), ".xls") {
		large.Store(true)
	}
}

// roomFor gives stageReached of a workbook.
func roomFor(path string) (stage func(words string)) {
	return func(words string) { stageReached(words, path) }
}

const liveBytes = "/gc/heap/live:bytes"

// holdMemory sets the collector after each of its runs, unless whoever runs the program has set it.
func holdMemory() {
	if os.Getenv("GOGC") != "" || os.Getenv("GOMEMLIMIT") != "" {
		return
	}
	debug.SetGCPercent(mostPercent)
	sample := []metrics.Sample{{Name: liveBytes}}
	var collected func(*[16]byte)
	collected = func(part *[16]byte) {
		metrics.Read(sample)
		debug.SetGCPercent(roomAt(sample[0].Value.Uint64(), large.Load()))
		runtime.SetFinalizer(part, collected)
	}
	runtime.SetFinalizer(new([16]byte), collected)
}
