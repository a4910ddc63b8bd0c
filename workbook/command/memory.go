package command

import (
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
)

// How much is let go of before the collector of garbage runs again: a small workbook is done before it runs at all, and a large one
// takes little more memory than what is in use. Between the two, the less that is in use the more may gather.
const (
	roomBytes    = 22 << 20
	mostPercent  = 200 // fresh memory costs a small workbook more than the collector does
	leastPercent = 20  // 50 takes a tenth less time at 100,000 carcasses, and as text 60,000 take over 300 MB then
)

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
		live := max(sample[0].Value.Uint64(), 1)
		debug.SetGCPercent(int(min(max(roomBytes*100/live, leastPercent), mostPercent)))
		runtime.SetFinalizer(part, collected)
	}
	runtime.SetFinalizer(new([16]byte), collected)
}
