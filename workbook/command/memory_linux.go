package command

import (
	"runtime/debug"
	"syscall"
)

// largePagesBytes is how much memory is asked for in large pages: what a workbook of 10,000 carcasses needs, and as much as Go's runtime
// takes from the system at once.
const largePagesBytes = 64 << 20

// askForLargePages has the system give the first memory that is used in pages of 2 MB, where it leaves that to programs (madvise(2),
// MADV_HUGEPAGE; the usual setting of "transparent huge pages"). Given in pages of 4 kB it takes a fifth of the processor time that
// 200 carcasses do. The memory is let go of at once, and used by what is made next; none of it is touched here.
func askForLargePages() {
	percent := debug.SetGCPercent(-1)
	_ = syscall.Madvise(make([]byte, largePagesBytes), syscall.MADV_HUGEPAGE) // a system that can't goes on as before
	debug.SetGCPercent(percent)                                               // so much is in use that the collector runs, and finds that it is not
}
