package validate

import (
	"runtime"

	"github.com/sourcegraph/conc/pool"
)

// rowsAtOnce is how many rows one processor takes before it takes the next.
const rowsAtOnce = 64

// sideBySide does a job at each of so many places, none of which depends on another. All processors share the work, and each takes
// several places at once.
func sideBySide(places, atOnce int, job func(from, upTo int)) {
	group := pool.New().WithMaxGoroutines(runtime.GOMAXPROCS(0))
	for from := 0; from < places; from += atOnce {
		group.Go(func() { job(from, min(from+atOnce, places)) })
	}
	group.Wait()
}
