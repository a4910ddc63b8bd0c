package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"

	"github.com/rogpeppe/go-internal/testscript"
)

var pythonWithOpenpyxl = sync.OnceValues(func() (string, error) {
	for _, python := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(python, "-c", "import openpyxl").Run() == nil {
			return python, nil
		}
	}
	return "", errors.New("no Python with openpyxl: install the packages python3 and python3-openpyxl")
})

// pythonProgram gives a command that runs a program of testdata, which reads workbooks through other eyes than ours.
func pythonProgram(name string, first ...string) func(ts *testscript.TestScript, neg bool, args []string) {
	return func(ts *testscript.TestScript, neg bool, args []string) {
		python, err := freePython()
		ts.Check(err)
		program := append([]string{filepath.Join(ts.Getenv("TESTDATA"), name)}, first...)
		printed, fault, err := python.run(ts.MkAbs("."), append(program, args...))
		ts.Check(err)
		freePythons <- python
		fmt.Fprint(ts.Stdout(), printed)
		fmt.Fprint(ts.Stderr(), fault)
		switch {
		case neg && fault == "":
			ts.Fatalf("%s succeeded, which was not wanted", name)
		case !neg && fault != "":
			ts.Fatalf("%s failed", name)
		}
	}
}

// A servingPython is a Python that runs one program after the other, as testdata/serve.py says.
type servingPython struct {
	programs *json.Encoder
	answers  *json.Decoder
}

// freePythons are those that run no program: no more are started than scripts run at once. They end with the tests, when
// nothing more can come.
var freePythons = make(chan *servingPython, 64)

func freePython() (*servingPython, error) {
	select {
	case python := <-freePythons:
		return python, nil
	default:
	}
	path, err := pythonWithOpenpyxl()
	if err != nil {
		return nil, err
	}
	command := exec.Command(path, filepath.Join("testdata", "serve.py"))
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
	return &servingPython{json.NewEncoder(programs), json.NewDecoder(answers)}, command.Start()
}

// run gives what a program printed, and what it ended with where it failed.
func (p *servingPython) run(folder string, program []string) (printed, fault string, err error) {
	if err := p.programs.Encode(append([]string{folder}, program...)); err != nil {
		return "", "", err
	}
	err = p.answers.Decode(&[]any{&printed, &fault})
	return printed, fault, err
}
