package workbook

import (
	"errors"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"railbook/workbook/xlsx"
)

// officeProgram finds LibreOffice.
func officeProgram() (string, error) {
	for _, name := range []string{"soffice", "libreoffice", "/Applications/LibreOffice.app/Contents/MacOS/soffice", `C:\Program Files\LibreOffice\program\soffice.exe`} {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", errors.New("PDF files are made with LibreOffice, which was not found on this machine, and nothing was written. Install LibreOffice (free, from libreoffice.org), or leave --pdf out and print the workbooks from the spreadsheet program")
}

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
		data, err := convert(office, folder, file.Path)
		if err != nil {
			return pdfs, err
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

// convert lets LibreOffice print one workbook into a folder of ours, which is also its profile so that it runs beside an
// open one, and gives the PDF.
func convert(office, folder, path string) ([]byte, error) {
	home := url.URL{Scheme: "file", Path: filepath.ToSlash(filepath.Join(folder, "profile"))}
	said, err := exec.Command(office, "-env:UserInstallation="+home.String(), "--headless", "--convert-to", "pdf", "--outdir", folder, path).CombinedOutput()
	data, missing := os.ReadFile(filepath.Join(folder, filepath.Base(pdfOf(path))))
	if err != nil || missing != nil {
		return nil, fmt.Errorf("LibreOffice could not print %s (%v: %s); the workbooks are written, so print them from the spreadsheet program", path, err, strings.TrimSpace(string(said)))
	}
	return data, nil
}
