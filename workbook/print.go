package workbook

import (
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"time"

	"railbook/workbook/xlsx"
)

// PublishedPDF is the PDF that was made of a workbook.
type PublishedPDF struct{ Of, Path string }

// longestPrinting is how long LibreOffice may take to start, and then for the pages of each workbook.
const longestPrinting = time.Minute

// Print makes a PDF beside each workbook: the pages that are printed of it, in the order of its tabs, hidden sheets left out. All
// are made with one start of LibreOffice. A different file in the way is not overwritten unless the options force it.
func Print(paths []string, options Options) ([]PublishedPDF, error) {
	office := officeProgram()
	if office == "" {
		return nil, errors.New("PDF files are made with LibreOffice, which was not found on this machine, and nothing was written. Install LibreOffice (free, from libreoffice.org), or print the workbook from the spreadsheet program")
	}
	named := map[string]string{}
	for _, path := range paths {
		if _, err := xlsx.Open(path, xlsx.OpenOptions{}); err != nil {
			return nil, err
		}
		to := pdfOf(path)
		if _, err := os.Lstat(to); err == nil && !options.Force {
			return nil, fmt.Errorf("%s is there already, and nothing was written. Move it away, or overwrite it with --force", to)
		}
		name := strings.ToLower(filepath.Base(to))
		if other, twice := named[name]; twice {
			return nil, fmt.Errorf("%s and %s have the same name: print them one by one", other, path)
		}
		named[name] = path
	}
	folder, done, err := xlsx.TemporaryFolder()
	if err != nil {
		return nil, err
	}
	defer done()
	if err := printAll(office, folder, paths); err != nil {
		return nil, err
	}
	var made []PublishedPDF
	for _, path := range paths {
		to := pdfOf(path)
		data, err := os.ReadFile(filepath.Join(folder, filepath.Base(to)))
		if err != nil {
			return made, fmt.Errorf("LibreOffice made no pages of %s: print it from the spreadsheet program", path)
		}
		if _, err := options.door(path).Write(options.output(to, ".pdf", xlsx.Whole(data), path)); err != nil {
			return made, err
		}
		made = append(made, PublishedPDF{path, to})
	}
	return made, nil
}

// printAll lets LibreOffice, with a profile of its own in the folder, make the PDF files there.
func printAll(office, folder string, paths []string) error {
	home := url.URL{Scheme: "file", Path: filepath.ToSlash(filepath.Join(folder, "profile"))}
	arguments := []string{"-env:UserInstallation=" + home.String(), "--headless", "--convert-to", "pdf", "--outdir", folder}
	for _, path := range paths {
		whole, err := filepath.Abs(path) // a name that begins with a dash is no option
		if err != nil {
			return err
		}
		arguments = append(arguments, whole)
	}
	said, err := xlsx.Run(time.Duration(1+len(paths))*longestPrinting, office, arguments...)
	if err != nil {
		words := strings.Join(strings.Fields(err.Error()+" "+said), " ")
		return fmt.Errorf("LibreOffice could not print (%s), and nothing was written: print from the spreadsheet program", words)
	}
	return nil
}

// pdfOf names the PDF of a workbook.
func pdfOf(path string) string { return strings.TrimSuffix(path, filepath.Ext(path)) + ".pdf" }
