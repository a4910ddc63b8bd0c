package workbook

import (
	"errors"
	"fmt"
	"maps"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"railbook/workbook/record"
	"railbook/workbook/sheets/rulebook"
	"railbook/workbook/xlsx"
)

// PublishedPDF is the PDF that was made of a workbook.
type PublishedPDF struct{ Of, Path string }

// longestPrinting is how long LibreOffice may take to start, and then for the pages of each workbook.
const longestPrinting = time.Minute

// Print makes a PDF beside each workbook: the pages that are posted, filled in or read of it, in the order of its tabs
// (unprinted says which are not). All are made with one start of LibreOffice. A different file in the way is not overwritten
// unless the options force it.
func Print(paths []string, options Options) ([]PublishedPDF, error) {
	office := officeProgram()
	if office == "" {
		return nil, errors.New("PDF files are made with LibreOffice, which was not found on this machine, and nothing was written. Install LibreOffice (free, from libreoffice.org), or print the workbook from the spreadsheet program")
	}
	named := map[string]string{}
	books := make([]*xlsx.Book, len(paths))
	for i, path := range paths {
		book, err := openBook(path, options)
		if err != nil {
			return nil, err
		}
		books[i] = book
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
	copies, err := printedCopies(folder, books, len(options.Passwords) > 0)
	if err != nil {
		return nil, err
	}
	if err := printAll(office, folder, copies); err != nil {
		return nil, err
	}
	var made []PublishedPDF
	for _, path := range paths {
		to := pdfOf(path)
		data, err := os.ReadFile(filepath.Join(folder, filepath.Base(to)))
		if err != nil {
			return made, fmt.Errorf("LibreOffice made no pages of %s: print it from the spreadsheet program", path)
		}
		if _, err := options.door().Write(options.output(to, ".pdf", xlsx.Whole(data), path)); err != nil {
			return made, err
		}
		made = append(made, PublishedPDF{path, to})
	}
	return made, nil
}

// printedCopies puts a copy of each workbook into the folder in which the sheets that are not printed are hidden, for a program
// prints every sheet that it shows. A copy of a protected workbook has no password, which the program would ask for.
func printedCopies(folder string, books []*xlsx.Book, protected bool) (paths []string, err error) {
	for _, book := range books {
		hidden := unprinted(book)
		if len(hidden) == 0 && !protected {
			whole, err := filepath.Abs(book.Path) // a name that begins with a dash is no option
			if err != nil {
				return nil, err
			}
			paths = append(paths, whole)
			continue
		}
		data, err := book.WithHidden(hidden...)
		if err != nil {
			return nil, err
		}
		path, err := xlsx.WriteTemporary(folder, filepath.Base(book.Path), data)
		if err != nil {
			return nil, err
		}
		paths = append(paths, path)
	}
	return paths, nil
}

// unprinted gives the sheets of a workbook that are for the screen alone. Of results these are sheets of the office's on which no
// carcass was read: entries and notes are no placings, and may name whom nobody agreed to name; of signed ones the Judge review
// sheet as well, in which nothing is to be filled in any more; and a Value grid without a price. Of a rulebook they are the tables that have no lines.
func unprinted(book *xlsx.Book) (hidden []string) {
	ours := book.Ours()
	for mark, sheet := range ours {
		if strings.HasPrefix(mark, record.RulebookMark) && emptyTable(book, sheet) {
			hidden = append(hidden, sheet)
		}
	}
	if ours[record.PlacingsMark] == "" {
		return hidden
	}
	if grid := ours[record.ValueGridMark]; grid != "" && noPrices(book, grid) {
		hidden = append(hidden, grid)
	}
	if review := ours[record.JudgeReviewMark]; review != "" && signedReview(book, review) {
		hidden = append(hidden, review)
	}
	columns := book.OurColumns()
	mine := slices.Collect(maps.Values(ours))
	for _, sheet := range book.Sheets() {
		if _, read := columns[sheet.Name]; !read && !slices.Contains(mine, sheet.Name) {
			hidden = append(hidden, sheet.Name)
		}
	}
	return hidden
}

// noPrices reports whether a Value grid has no figure.
func noPrices(book *xlsx.Book, sheet string) bool {
	grid, err := book.Scan(sheet)
	if err != nil {
		return false
	}
	for _, row := range grid.Rows {
		for _, cell := range row.Cells {
			if _, err := strconv.ParseFloat(cell.Raw, 64); err == nil {
				return false
			}
		}
	}
	return true
}

// signedReview reports whether the title of a Judge review sheet says that the results are signed.
func signedReview(book *xlsx.Book, sheet string) bool {
	grid, err := book.Scan(sheet)
	return err == nil && len(grid.Rows) > 0 && len(grid.Rows[0].Cells) > 0 && strings.HasSuffix(grid.Rows[0].Cells[0].Raw, record.Signed)
}

// emptyTable reports whether a sheet of a rulebook has nothing under its headings.
func emptyTable(book *xlsx.Book, sheet string) bool {
	grid, err := book.Scan(sheet)
	if err != nil {
		return false
	}
	for _, row := range grid.Rows {
		if row.Number > rulebook.HeadingRow && len(row.Cells) > 0 {
			return false
		}
	}
	return true
}

// printAll lets LibreOffice, with a profile of its own in the folder, make the PDF files there.
func printAll(office, folder string, paths []string) error {
	home := url.URL{Scheme: "file", Path: filepath.ToSlash(filepath.Join(folder, "profile"))}
	arguments := []string{"-env:UserInstallation=" + home.String(), "--headless", "--convert-to", "pdf", "--outdir", folder}
	arguments = append(arguments, paths...)
	said, err := xlsx.Run(time.Duration(1+len(paths))*longestPrinting, folder, office, arguments...)
	if err != nil {
		words := strings.Join(strings.Fields(err.Error()+" "+said), " ")
		return fmt.Errorf("LibreOffice could not print (%s), and nothing was written: print from the spreadsheet program", words)
	}
	return nil
}

// pdfOf names the PDF of a workbook.
func pdfOf(path string) string { return strings.TrimSuffix(path, filepath.Ext(path)) + ".pdf" }
