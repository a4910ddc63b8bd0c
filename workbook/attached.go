package workbook

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// openAttached opens the rosters and the second entry: those named on the command line, else those the results workbook
// carries from the time before.
func (j *job) openAttached() error {
	rosters, err := filesOf(record.RosterRole, j.options.Rosters...)
	if err != nil {
		return err
	}
	var second []record.Carried
	if j.options.Second != "" {
		if second, err = filesOf(record.SecondRole, j.options.Second); err != nil {
			return err
		}
	}
	if j.previous != nil {
		for _, file := range j.previous.Carried {
			switch {
			case file.Role == record.RosterRole && len(j.options.Rosters) == 0:
				rosters = append(rosters, file)
			case file.Role == record.SecondRole && j.options.Second == "":
				second = append(second, file)
			}
		}
	}
	j.carried = append(rosters, second...)
	for _, file := range j.carried {
		book, err := withPasswords(j.options, func(password string) (*xlsx.Book, error) {
			return xlsx.OpenBytes(file.Name, file.Data, xlsx.OpenOptions{Password: password})
		})
		if err != nil && j.keeps(file) {
			return fmt.Errorf("%s keeps the %s that was read beside it, and that can't be read any more (%w). Name it again with %s, or use the workbook as it was saved before",
				filepath.Base(j.path), file.Role, err, map[string]string{record.RosterRole: "--roster", record.SecondRole: "--second"}[file.Role])
		}
		if err != nil {
			return err
		}
		if file.Role == record.SecondRole {
			j.second = book
		} else {
			j.others = append(j.others, book)
		}
	}
	return nil
}

// keeps reports whether a file is read from the results workbook itself.
func (j *job) keeps(file record.Carried) bool {
	return j.previous != nil && (file.Role == record.RosterRole && len(j.options.Rosters) == 0 || file.Role == record.SecondRole && j.options.Second == "")
}

// filesOf reads the files that are to be carried. What kind of file each is, opening it tells.
func filesOf(role string, paths ...string) (files []record.Carried, err error) {
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if errors.Is(err, fs.ErrNotExist) {
			return nil, fmt.Errorf("the %s: %w", role, xlsx.NoFile(path))
		}
		if err != nil {
			return nil, fmt.Errorf("the %s %s can't be read (%w): check the name and the folder", role, path, err)
		}
		files = append(files, record.Carried{Role: role, Name: filepath.Base(path), Data: data})
	}
	return files, nil
}
