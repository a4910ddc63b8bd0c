package workbook

import (
	"path/filepath"
	"time"

	"github.com/rs/zerolog"

	"railbook/rules/measure"
	"railbook/workbook/record"
)

// stages times what is done to one workbook, for the log. There is no clock in what is written.
type stages struct {
	log   zerolog.Logger
	words string // of the stage that runs; empty for none
	began time.Time
}

// stage says what is done next: to whoever watches, and with how long the stage before it took to the log.
func (j *job) stage(words string) {
	j.stages.end()
	j.stages.words, j.stages.began = words, time.Now()
	j.options.stage(words)
}

// stage tells the log and whoever watches.
func (o Options) stage(words string) {
	o.Log.Info().Msg(words)
	if o.Stage != nil {
		o.Stage(words)
	}
}

func (s *stages) end() {
	if s.words != "" {
		s.log.Info().Str("stage", s.words).Int64("milliseconds", time.Since(s.began).Milliseconds()).Msg("stage done")
	}
	s.words = ""
}

func newStages(path string, options Options) stages {
	return stages{log: options.Log.With().Str("workbook", filepath.Base(path)).Logger()}
}

// logReading says which heading was read as which measure.
func (j *job) logReading() {
	for _, block := range j.results.Read.Blocks {
		j.stages.log.Info().Str("sheet", block.Sheet).Int("carcasses", len(block.Carcasses)).Msg("sheet read")
		for _, heading := range block.Headings {
			j.stages.log.Info().Str("sheet", block.Sheet).Str("cell", heading.Cell).Str("heading", heading.Text).
				Str("measure", heading.Measure.String()).Str("because", heading.Because).Msg("heading read")
		}
	}
}

// logResults counts the findings by their codes and says what was changed. What is a person's name is not written down.
func (j *job) logResults() {
	counts := map[string]int{}
	for i := range j.results.Findings {
		counts[j.results.Findings[i].Code]++
	}
	findings := zerolog.Dict()
	for code, count := range counts {
		findings.Int(code, count)
	}
	j.stages.log.Info().Dict("findings", findings).Int("changes", len(j.newChanges)).Msg("checked and placed")
	for _, change := range j.newChanges {
		j.logChange(change)
	}
}

func (j *job) logChange(change record.Change) {
	line := j.stages.log.Info().Str("sheet", change.At.Sheet).Str("cell", change.At.Cell).Str("measure", change.Measure.String())
	if definition, _ := measure.Define(change.Measure); definition.Kind != measure.KindText {
		line = line.Str("was", change.Was).Str("is", change.Is)
	}
	line.Msg("cell changed")
}
