package xlsx

import (
	"encoding/xml"
	"errors"
	"strings"
)

// format is what a cell's style says of its number, and whether its text is struck out.
type format struct {
	date, percent, struck bool
	code                  string // empty for the general one
}

// readFormats reads the number format of every cell style (xl/styles.xml, cellXfs).
func readFormats(data []byte) ([]format, error) {
	var sheet struct {
		Formats []struct {
			ID   int    `xml:"numFmtId,attr"`
			Code string `xml:"formatCode,attr"`
		} `xml:"numFmts>numFmt"`
		Fonts []struct {
			Strike *struct {
				Value string `xml:"val,attr"`
			} `xml:"strike"`
		} `xml:"fonts>font"`
		Styles []struct {
			Format int `xml:"numFmtId,attr"`
			Font   int `xml:"fontId,attr"`
		} `xml:"cellXfs>xf"`
	}
	if err := xml.Unmarshal(data, &sheet); err != nil {
		return nil, errors.New("the cell formats are no longer readable")
	}
	codes := map[int]string{}
	for _, format := range sheet.Formats {
		codes[format.ID] = format.Code
	}
	list := make([]format, len(sheet.Styles))
	for i, style := range sheet.Styles {
		code, custom := codes[style.Format]
		if custom {
			list[i] = customFormat(code)
			list[i].code = code
		} else {
			list[i] = builtInFormat(style.Format)
			list[i].code = builtInCodes[style.Format]
		}
		if style.Font >= 0 && style.Font < len(sheet.Fonts) && sheet.Fonts[style.Font].Strike != nil {
			list[i].struck = !isOff(sheet.Fonts[style.Font].Strike.Value)
		}
	}
	return list, nil
}

// isOff reports whether an on-or-off attribute says no; where it is left out it says yes (ECMA-376 part 1, 18.8.9).
func isOff(value string) bool { return value == "0" || value == "false" }

// builtInCodes are the number formats of which our sheets are written that have a number in place of a code (ECMA-376 part 1,
// 18.8.30); of others the number says enough.
var builtInCodes = map[int]string{1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 9: "0%", 10: "0.00%", 49: "@"}

// builtInFormat knows the formats that have a number and no code (ECMA-376 part 1, 18.8.30; 27 to 36 and 50 to 58 are
// dates in the East Asian editions).
func builtInFormat(id int) format {
	return format{
		date:    id >= 14 && id <= 22 || id >= 27 && id <= 36 || id >= 45 && id <= 47 || id >= 50 && id <= 58,
		percent: id == 9 || id == 10,
	}
}

// customFormat reads a format code: letters of a date, or a percent sign, outside of quoted and escaped text.
func customFormat(code string) format {
	var found format
	first, _, _ := strings.Cut(code, ";")
	if strings.EqualFold(first, "general") {
		return found
	}
	for at := 0; at < len(code); at++ {
		switch c := code[at] | 0x20; {
		case code[at] == ';':
			return found
		case code[at] == '"':
			at += 1 + strings.IndexByte(code[at+1:]+`"`, '"')
		case code[at] == '\\' || code[at] == '_' || code[at] == '*':
			at++
		case code[at] == '[':
			end := strings.IndexByte(code[at:]+"]", ']')
			inside := strings.ToLower(code[at+1 : min(at+end, len(code))])
			if inside != "" && strings.Trim(inside, inside[:1]) == "" && strings.Contains("hms", inside[:1]) {
				found.date = true
			}
			at += end
		case code[at] == '%':
			found.percent = true
		case c == 'y' || c == 'd' || c == 'h' || c == 's' || c == 'm':
			found.date = true
		}
	}
	return found
}
