package workbook

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"railbook/workbook/xlsx"
)

// printed makes a PDF beside each workbook that was written, and beside those that have none yet. A PDF holds the time it
// was made, so one of an unchanged workbook is left as it is.
func (j *job) printed(office string, files []PublishedFile) (pdfs []PublishedFile, err error) {
	folder, done, err := xlsx.TemporaryFolder()
	if err != nil {
		return nil, err
	}
	defer done()
	for _, file := range files {
		pdf := pdfOf(file.Path)
		if _, err := os.Stat(pdf); err == nil && !file.Written {
			pdfs = append(pdfs, PublishedFile{pdf, false})
			continue
		}
		j.options.stage("printing " + pdf)
		data, err := savedAs("pdf", longestPrinting, office, folder, file.Path)
		if err != nil {
			return pdfs, fmt.Errorf("LibreOffice could not print %s (%w); the workbooks are written, so print them from the spreadsheet program", file.Path, err)
		}
		output := j.options.output(pdf, ".pdf", data, j.path)
		output.Force = output.Force || file.Written
		if _, err := j.options.door(j.path).Write(output); err != nil {
			return pdfs, err
		}
		pdfs = append(pdfs, PublishedFile{pdf, true})
	}
	return pdfs, nil
}

// pdfOf names the PDF of a workbook.
func pdfOf(path string) string { return strings.TrimSuffix(path, filepath.Ext(path)) + ".pdf" }

// longestPrinting is how long LibreOffice may take for the pages of one workbook.
const longestPrinting = 10 * time.Minute
