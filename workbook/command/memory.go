package command

import (
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
)

// How much is let go of before the collector of garbage runs again: a small workbook is done before it runs at all, and a large
// one takes half as much memory again as what is in use. Between the two, the less that is in use the more may gather.
const (
	roomBytes    = 12 << 20
	mostPercent  = 200 // fresh memory costs a small workbook more than the collector does
	leastPercent = 50  // 20 takes about a tenth less memory and a tenth more time
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
