package xlsx

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"

	"github.com/xuri/excelize/v2"

	"railbook/rules/phrase"
)

// fileKind is what a file turned out to be, of the kinds that can be used.
type fileKind uint8

const (
	zipFile fileKind = iota
	textFile
	encryptedFile
)

// readInput reads a file, or opens it if it is a large workbook, or says why it cannot be one to read.
func readInput(path string) (data []byte, file *os.File, err error) {
	name := filepath.Base(path)
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil, NoFile(path)
	case errors.Is(err, fs.ErrPermission):
		return nil, nil, fmt.Errorf("%s may not be read by you: ask its owner, or copy it to a folder of your own", path)
	case errors.Is(err, syscall.ENAMETOOLONG):
		return nil, nil, fmt.Errorf("there is no file %s, because its name is longer than a file's can be: check the name", path)
	case errors.Is(err, syscall.ENOTDIR):
		return nil, nil, fmt.Errorf("there is no file %s, because %s is no folder: check the name and the folder", path, filepath.Dir(path))
	case err != nil:
		return nil, nil, fmt.Errorf("%s can't be read (%w): check the name and the folder", path, cause(err))
	case info.IsDir():
		return nil, nil, fmt.Errorf("%s is a folder: name the workbook in it", path)
	case !info.Mode().IsRegular():
		return nil, nil, fmt.Errorf("%s is no file but a device or a pipe: save the workbook to a file and name that", path)
	case info.Size() > LargestFile:
		return nil, nil, errEnormous(name, info.Size())
	case info.Size() > heldFile:
		if file, err := openLarge(path, info.Size()); file != nil || err != nil {
			return nil, file, err
		}
	}
	data, err = os.ReadFile(path)
	if errors.Is(err, fs.ErrPermission) {
		return nil, nil, fmt.Errorf("%s may not be read by you: ask its owner, or copy it to a folder of your own", path)
	}
	if err != nil {
		return nil, nil, cannotRead(path, err)
	}
	return data, nil, nil
}

// NoFile says that there is no file of a name, and which may have been meant.
func NoFile(path string) error {
	if meant := FileMeant(path); meant != "" {
		return fmt.Errorf("there is no file %s; is %s meant?", path, meant)
	}
	return fmt.Errorf("there is no file %s: check the name and the folder", path)
}

func cannotRead(path string, err error) error {
	return fmt.Errorf("%s can't be read (%w): close it in other programs and try again", path, cause(err))
}

// recognise tells what a file is by its first bytes, and refuses what is no workbook and no text table.
func recognise(name string, data []byte) (fileKind, error) {
	text := bytes.TrimLeft(bytes.TrimPrefix(data, []byte("\xEF\xBB\xBF")), " \t\r\n")
	start := strings.ToLower(string(text[:min(len(text), 1024)]))
	switch {
	case len(text) == 0:
		return 0, fmt.Errorf("%s is empty: ask for it again, or save it again from the program it was made with", name)
	case strings.HasPrefix(name, "~$") || strings.HasPrefix(name, ".~lock."):
		return 0, fmt.Errorf("%s is only the note that a workbook is open in another program: name the workbook itself", name)
	case bytes.HasPrefix(data, []byte("PK\x03\x04")), bytes.HasPrefix(data, []byte("PK\x05\x06")):
		return zipFile, nil
	case bytes.HasPrefix(data, []byte("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1")):
		return recogniseOLE(name, data)
	case len(data) > 4 && data[0] == 9 && (data[1] == 8 || data[1] == 4 || data[1] == 2 || data[1] == 0) && data[3] == 0:
		return 0, errOldExcel(name)
	case strings.HasPrefix(start, "%pdf"):
		return 0, fmt.Errorf("%s is a PDF, not an Excel workbook: ask the plant for the spreadsheet it was printed from", name)
	case strings.HasPrefix(start, `{\rtf`):
		return 0, fmt.Errorf("%s is a text document (RTF), not an Excel workbook: copy its table into a spreadsheet and save that as .xlsx", name)
	case strings.HasPrefix(start, "<?xml") && strings.Contains(start, "urn:schemas-microsoft-com:office:spreadsheet"):
		return 0, fmt.Errorf("%s is an Excel 2003 XML file: open it in Excel or LibreOffice and save it as .xlsx", name)
	case looksLikeHTML(start):
		return 0, fmt.Errorf("%s is a web page (HTML), not an Excel workbook: open it in Excel or LibreOffice and save it as .xlsx", name)
	case strings.HasPrefix(start, "<?xml"):
		return 0, fmt.Errorf("%s is an XML file, not an Excel workbook: open it in the program it was made with and save it as .xlsx", name)
	case !looksLikeText(data):
		return 0, fmt.Errorf("%s is not an Excel workbook: open it in the program it was made with and save it as .xlsx", name)
	}
	switch strings.ToLower(filepath.Ext(name)) {
	case ".csv", ".tsv", ".tab", ".txt":
		return textFile, nil
	}
	return 0, fmt.Errorf("%s is a text file (CSV), not an Excel workbook: give it a name that ends in .csv", name)
}

func recogniseOLE(name string, data []byte) (fileKind, error) {
	has := func(stream string) bool {
		var wide []byte
		for _, letter := range []byte(stream) {
			wide = append(wide, letter, 0)
		}
		return bytes.Contains(data, wide)
	}
	switch {
	case has("EncryptedPackage"):
		return encryptedFile, nil
	case has("WordDocument"):
		return 0, fmt.Errorf("%s is an old Word document, not an Excel workbook: copy its table into a spreadsheet and save that as .xlsx", name)
	case has("Workbook"), has("Book"):
		return 0, errOldExcel(name)
	}
	return 0, fmt.Errorf("%s is not an Excel workbook: open it in the program it was made with and save it as .xlsx", name)
}

// OtherFormat is a spreadsheet that another program can save as .xlsx.
type OtherFormat struct {
	Name     string // the file's, without its folder
	sentence string
}

func (o *OtherFormat) Error() string { return o.sentence }

func errOldExcel(name string) error {
	return &OtherFormat{name, name + " is an old Excel file (.xls): open it in Excel or LibreOffice and save it as .xlsx"}
}

func looksLikeHTML(start string) bool {
	for _, sign := range []string{"<!doctype html", "<html", "<head", "<body", "<table", "<style", "<meta"} {
		if strings.HasPrefix(start, sign) || strings.HasPrefix(start, "<") && strings.Contains(start, sign) {
			return true
		}
	}
	return false
}

// decrypt opens a password-protected workbook. The library panics or gives rubbish for what it can't decrypt.
func decrypt(name string, data []byte, password string) (plain []byte, err error) {
	if password == "" {
		return nil, fmt.Errorf("%s is protected by a password: give the password with --password, or open it in Excel and save it without one", name)
	}
	defer func() {
		if recover() != nil || err != nil || !bytes.HasPrefix(plain, []byte("PK")) {
			plain = nil
			err = fmt.Errorf("the password does not open %s: check it, or open the workbook in Excel and save it without one", name)
		}
	}()
	return excelize.Decrypt(data, &excelize.Options{Password: password})
}

// lockWarnings finds the notes that spreadsheet programs leave beside a workbook that is open in them.
func lockWarnings(path string) []string {
	folder, name := filepath.Split(path)
	for _, note := range []string{".~lock." + name + "#", "~$" + name} {
		if _, err := os.Stat(filepath.Join(folder, note)); err == nil {
			return []string{fmt.Sprintf("%s seems to be open in another program: what is not saved there yet was not read. Save and close it, then run this again.", name)}
		}
	}
	return nil
}

// FileMeant finds the file whose name was typed without its ending or with a slip; empty where there is none.
func FileMeant(path string) string {
	for _, ending := range readEndings {
		if info, err := os.Stat(path + ending); err == nil && info.Mode().IsRegular() {
			return path + ending
		}
	}
	own := strings.ToLower(filepath.Ext(path))
	if !slices.Contains(readEndings, own) {
		return ""
	}
	folder := filepath.Dir(path)
	entries, err := os.ReadDir(folder)
	if err != nil {
		return ""
	}
	var names []string
	for _, entry := range entries {
		if ending := filepath.Ext(entry.Name()); entry.Type().IsRegular() && strings.ToLower(ending) == own {
			names = append(names, strings.TrimSuffix(entry.Name(), ending))
		}
	}
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	if nearest := phrase.Nearest(name, names); nearest != "" {
		return strings.TrimSuffix(path, name+filepath.Ext(path)) + nearest + own
	}
	return ""
}

// readEndings are how the names of files end that are read.
var readEndings = []string{".xlsx", ".xlsm", ".csv", ".xls", ".ods"}
