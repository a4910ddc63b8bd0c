package workbook

import (
	"cmp"
	"errors"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"railbook/workbook/xlsx"
)

// officeProgram finds LibreOffice; empty where it is not installed.
func officeProgram() string {
	for _, name := range []string{"soffice", "libreoffice", "/Applications/LibreOffice.app/Contents/MacOS/soffice", `C:\Program Files\LibreOffice\program\soffice.exe`} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	return ""
}

// savedAs lets LibreOffice save a file in another format into a folder of ours, with a profile there so that it runs beside
// an open one, and gives what it saved.
func savedAs(format string, most time.Duration, office, folder, path string) ([]byte, error) {
	home := url.URL{Scheme: "file", Path: filepath.ToSlash(filepath.Join(folder, "profile"))}
	source, err := filepath.Abs(path) // a name that begins with a dash is no option
	if err != nil {
		return nil, err
	}
	said, err := xlsx.Run(most, folder, office, "-env:UserInstallation="+home.String(), "--headless", "--convert-to", format, "--outdir", folder, source)
	if err != nil {
		return nil, errors.New(strings.Join(strings.Fields(err.Error()+" "+said), " "))
	}
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	data, err := os.ReadFile(filepath.Join(folder, name+"."+format))
	if err != nil {
		return nil, errors.New(cmp.Or(strings.Join(strings.Fields(said), " "), "it wrote nothing"))
	}
	return data, nil
}

// longestConversion is how long LibreOffice may take to save an old workbook as .xlsx.
const longestConversion = time.Minute

// asWorkbook gives the workbook that a file of another format is converted to where the options ask for that, and otherwise tells the
// person how to let LibreOffice convert it, where it is installed.
func (o Options) asWorkbook(path string, other *xlsx.OtherFormat) (string, error) {
	switch {
	case o.Convert:
		return o.converted(path, other)
	case officeProgram() == "":
		return "", other
	}
	return "", fmt.Errorf("%w. Or let LibreOffice do it, and grade the %s that it writes: railbook grade --convert %s", other, filepath.Base(convertedPath(path)), quoted(path))
}

// quoted gives a name as it is typed in a shell.
func quoted(path string) string {
	if strings.ContainsAny(path, " '\"$&;()[]{}*?!<>|\\`#~") {
		return "'" + strings.ReplaceAll(path, "'", `'\''`) + "'"
	}
	return path
}

func convertedPath(path string) string { return strings.TrimSuffix(path, filepath.Ext(path)) + ".xlsx" }

// converted lets LibreOffice save a file of another format as a workbook beside it, and gives the workbook's path. It never
// writes over a file, whatever the options force.
func (o Options) converted(path string, other *xlsx.OtherFormat) (string, error) {
	office := officeProgram()
	if office == "" {
		return "", fmt.Errorf("%w. --convert does it with LibreOffice, which was not found on this machine", other)
	}
	to := convertedPath(path)
	if _, err := os.Lstat(to); err == nil {
		return "", fmt.Errorf("%s is there already, and --convert writes over no file: grade that, or move it away", to)
	}
	folder, done, err := xlsx.TemporaryFolder()
	if err != nil {
		return "", err
	}
	defer done()
	o.stage("converting " + path)
	data, err := savedAs("xlsx", longestConversion, office, folder, path)
	if err != nil {
		return "", fmt.Errorf("LibreOffice could not convert %s (%w): open it there and save it as .xlsx", path, err)
	}
	output := o.output(to, ".xlsx", xlsx.Whole(data), path)
	output.Force = false
	if _, err := o.door().Write(output); err != nil {
		return "", err
	}
	return to, nil
}
