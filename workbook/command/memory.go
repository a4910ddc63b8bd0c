package command

import (
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
)

// How much is let go of before the collector of garbage runs again: a small workbook is done before it runs at all, and a large
// one takes little more memory than what is in use. Between the two, the less that is in use the more may gather. What the collector
// has freed goes back to the system where all that is held would be more than that and what the runtime needs beside it.
const (
	roomBytes    = 20 << 20
	leastPercent = 25
	mostPercent  = 200 // fresh memory costs a small workbook more than the collector does
	besideBytes  = 12 << 20
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
		percent := min(max(roomBytes*100/live, leastPercent), mostPercent)
		debug.SetGCPercent(int(percent))
		debug.SetMemoryLimit(int64(live + live*percent/100 + live/20 + besideBytes))
		runtime.SetFinalizer(part, collected)
	}
	runtime.SetFinalizer(new([16]byte), collected)
}
