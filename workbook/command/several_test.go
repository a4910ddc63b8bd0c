package command

import (
	"errors"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"railbook/workbook"

	"github.com/sourcegraph/conc/pool"
)

// As many workbooks as there are processors are worked on side by side, and what befalls one, a fault in the program too, is
// told of that one and keeps no other from being done.
func TestEachWorkbookIsDoneWhateverBefallsAnother(t *testing.T) {
	paths := []string{"first.xlsx", "faulty.xlsx", "refused.xlsx", "last.xlsx"}
	together := min(runtime.NumCPU(), len(paths))
	var meeting sync.WaitGroup // the first of them wait for one another, which only those can that run side by side
	meeting.Add(together)
	met := make(chan bool)
	go func() {
		meeting.Wait()
		close(met)
	}()
	failures := eachWorkbook(paths, workbook.Options{}, func(i int, _ workbook.Options) error {
		if i < together {
			meeting.Done()
			select {
			case <-met:
			case <-time.After(20 * time.Second):
				t.Errorf("%s waits for others in vain", paths[i])
			}
		}
		switch i {
		case 1:
			var none []int
			_ = none[i]
		case 2:
			return errors.New("refused")
		}
		return nil
	})
	if failures[0] != nil || failures[3] != nil || failures[2] == nil || failures[2].Error() != "refused" {
		t.Error(failures)
	}
	if failures[1] == nil || !strings.Contains(failures[1].Error(), "faulty.xlsx met a fault in the program") {
		t.Error(failures[1])
	}
}

// A fault of what runs beside the job is told in the same sentence, without the trace of the program.
func TestAFaultBesideTheJobIsTold(t *testing.T) {
	err := guarded("faulty.xlsx", func() error {
		beside := pool.New()
		beside.Go(func() { panic("a line that is not there") })
		beside.Wait()
		return nil
	})
	if err == nil || !strings.HasSuffix(err.Error(), "whoever gave you the program: a line that is not there") {
		t.Error(err)
	}
}
