// Package python runs programs of Python in tests, which read workbooks through other eyes than ours.
package python

import (
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"sync"
	"testing"
)

// Find finds a Python that has openpyxl.
var Find = sync.OnceValues(func() (string, error) {
	for _, python := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(python, "-c", "import openpyxl").Run() == nil {
			return python, nil
		}
	}
	return "", errors.New("no Python with openpyxl: install the packages python3 and python3-openpyxl")
})

// Run runs a script with a Python that has openpyxl.
func Run(t *testing.T, script string, arguments ...string) string {
	t.Helper()
	python, err := Find()
	if err != nil {
		t.Fatal(err)
	}
	output, err := exec.Command(python, append([]string{"-c", script}, arguments...)...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", python, err, output)
	}
	return string(output)
}

// serving is a Python that runs one program after the other, as testdata/serve.py says.
type serving struct {
	programs *json.Encoder
	answers  *json.Decoder
}

// free are the Pythons that run no program: no more are started than programs run at once. They end with the tests, when
// nothing more can come.
var free = make(chan *serving, 64)

// Served has a Python that serve.py serves run a program with its arguments in a folder. It gives what the program printed, and
// what it ended with where it failed.
func Served(server, folder string, program ...string) (printed, fault string, err error) {
	python, err := freeOrStarted(server)
	if err != nil {
		return "", "", err
	}
	if err := python.programs.Encode(append([]string{folder}, program...)); err != nil {
		return "", "", err
	}
	if err := python.answers.Decode(&[]any{&printed, &fault}); err != nil {
		return "", "", err
	}
	free <- python
	return printed, fault, nil
}

func freeOrStarted(server string) (*serving, error) {
	select {
	case python := <-free:
		return python, nil
	default:
	}
	path, err := Find()
	if err != nil {
		return nil, err
	}
	command := exec.Command(path, server)
	command.Env = append(os.Environ(), "PYTHONDONTWRITEBYTECODE=1", "PYTHONUTF8=1")
	command.Stderr = os.Stderr
	programs, err := command.StdinPipe()
	if err != nil {
		return nil, err
	}
	answers, err := command.StdoutPipe()
	if err != nil {
		return nil, err
	}
	return &serving{json.NewEncoder(programs), json.NewDecoder(answers)}, command.Start()
}
