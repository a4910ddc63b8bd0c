package workbook

import (
	"errors"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
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
func printed(office string, files []PublishedFile, options Options) (pdfs []PublishedFile, err error) {
	profile, err := os.MkdirTemp("", "railbook-pdf-")
	if err != nil {
		return nil, fmt.Errorf("no room for LibreOffice's own files: %w", err)
	}
	defer os.RemoveAll(profile)
	for _, file := range files {
		pdf := pdfOf(file.Path)
		if _, err := os.Stat(pdf); err == nil && !file.Written {
			pdfs = append(pdfs, PublishedFile{pdf, false})
			continue
		}
		options.stage("printing " + pdf)
		if err := convert(office, profile, file.Path); err != nil {
			return pdfs, err
		}
		pdfs = append(pdfs, PublishedFile{pdf, true})
	}
	return pdfs, nil
}

// pdfOf names the PDF of a workbook.
func pdfOf(path string) string { return strings.TrimSuffix(path, filepath.Ext(path)) + ".pdf" }

// convert lets LibreOffice print one workbook, with a profile of its own so that it runs beside an open one.
func convert(office, profile, path string) error {
	home := url.URL{Scheme: "file", Path: filepath.ToSlash(profile)}
	said, err := exec.Command(office, "-env:UserInstallation="+home.String(), "--headless", "--convert-to", "pdf", "--outdir", filepath.Dir(path), path).CombinedOutput()
	if _, missing := os.Stat(pdfOf(path)); err != nil || missing != nil {
		return fmt.Errorf("LibreOffice could not print %s (%v: %s); the workbooks are written, so print them from the spreadsheet program", path, err, strings.TrimSpace(string(said)))
	}
	return nil
}
