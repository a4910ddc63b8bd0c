package workbook

import (
	"os"
	"path/filepath"
	"testing"

	"railbook/workbook/xlsx"
)

// Whatever file an option names to be read, no output of the same command goes over it, forced or not.
func TestNoFileThatIsReadIsWritten(t *testing.T) {
	folder := t.TempDir()
	file := func(name string) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(name), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	options := Options{
		Second: file("second.xlsx"), Rulebook: file("rulebook.xlsx"), LastYear: file("last year.xlsx"), Answers: file("answers.xlsx"),
		Decisions: file("decisions.xlsx"), Rosters: []string{file("entries.xlsx"), file("forms.xlsx")}, Force: true,
	}
	inputs := append([]string{file("fair.xlsx"), options.Second, options.Rulebook, options.LastYear, options.Answers, options.Decisions}, options.Rosters...)
	for _, input := range inputs {
		if _, err := options.door().Check(options.output(input, ".xlsx", xlsx.Whole(nil), inputs[0])); err == nil {
			t.Errorf("%s would be written over", filepath.Base(input))
		}
	}
	// No more people may read what is made of them than may read each.
	for _, input := range inputs {
		for _, path := range inputs {
			if err := os.Chmod(path, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.Chmod(input, 0o600); err != nil {
			t.Fatal(err)
		}
		made := filepath.Join(t.TempDir(), "results.xlsx")
		if _, err := options.door().Write(options.output(made, ".xlsx", xlsx.Whole([]byte("results")), inputs[0])); err != nil {
			t.Fatal(err)
		}
		if info, err := os.Stat(made); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("with a private %s the results are %o (%v)", filepath.Base(input), info.Mode().Perm(), err)
		}
	}
}
