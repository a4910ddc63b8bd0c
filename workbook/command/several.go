package command

import (
	"fmt"
	"io"
	"os"
	"runtime"
	"runtime/debug"
	"strings"
	"sync"

	"railbook/workbook"

	"github.com/schollz/progressbar/v3"
	"github.com/sourcegraph/conc/panics"
	"github.com/sourcegraph/conc/pool"
	"golang.org/x/term"
)

// eachWorkbook runs the work on several workbooks side by side, as many as there are processors, with a progress bar on
// a terminal: of workbooks where there are several, of steps where there is one.
func eachWorkbook(paths []string, options workbook.Options, work func(i int, options workbook.Options) error) []error {
	failures := make([]error, len(paths))
	bar, steps := progress(len(paths))
	if len(paths) == 1 {
		options.Stage = func(words string) {
			stageReached(words, paths[0])
			bar.Describe(strings.Map(printed, words))
			_ = bar.Add(1)
		}
		steps = 0
	}
	group := pool.New().WithMaxGoroutines(runtime.NumCPU())
	var lock sync.Mutex
	for i := range paths {
		group.Go(func() {
			failures[i] = guarded(paths[i], func() error { return work(i, options) })
			lock.Lock()
			defer lock.Unlock()
			_ = bar.Add(steps)
		})
	}
	group.Wait()
	_ = bar.Finish()
	return failures
}

// guarded turns a panic on one workbook into a sentence, so that the others go on.
func guarded(path string, work func() error) (err error) {
	defer func() {
		if fault := recover(); fault != nil {
			if beside, ok := fault.(*panics.Recovered); ok { // what ran beside the job met it
				fault = beside.Value
			}
			if os.Getenv("RAILBOOK_TRACE") != "" {
				debug.PrintStack()
			}
			err = fmt.Errorf("%s met a fault in the program, and nothing was written for it. Please send the file and this line to whoever gave you the program: %v", path, fault)
		}
	}()
	return work()
}

// progress is a bar on the terminal's error stream, and silent where that is no terminal.
func progress(workbooks int) (bar *progressbar.ProgressBar, steps int) {
	const stagesOfOne = 6
	total := workbooks
	if workbooks == 1 {
		total = stagesOfOne
	}
	var writer io.Writer = io.Discard
	if term.IsTerminal(int(os.Stderr.Fd())) {
		writer = os.Stderr
	}
	return progressbar.NewOptions(total, progressbar.OptionSetWriter(writer), progressbar.OptionClearOnFinish(),
		progressbar.OptionSetWidth(20), progressbar.OptionSetElapsedTime(false), progressbar.OptionSetPredictTime(false)), 1
}
