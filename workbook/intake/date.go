package intake

import (
	"strings"
	"time"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// The day from which spreadsheet programs count, and how many days later the other reckoning starts (ECMA-376 part 1,
// 18.17.4.1).
var (
	dayZero        = time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	days1904       = 1462
	earliestSerial = decimal.NewFromInt(20000) // 1954
	latestSerial   = decimal.NewFromInt(80000) // 2119
)

// dayOf gives the day of a serial number.
func dayOf(serial string, date1904 bool) (time.Time, bool) {
	number, err := decimal.NewFromString(serial)
	if err != nil || number.Sign() < 0 || number.GreaterThan(decimal.NewFromInt(2958465)) {
		return time.Time{}, false
	}
	days := int(number.IntPart())
	if date1904 {
		days += days1904
	}
	return dayZero.AddDate(0, 0, days), true
}

func dateValue(day time.Time) measure.Value {
	days := int64(day.Sub(dayZero).Hours() / 24)
	return measure.Value{Number: decimal.NewFromInt(days), Text: day.Format("2006-01-02")}
}

// date reads a day.
func (p *cellParser) date(cell xlsx.Cell) parsedCell {
	switch cell.Kind {
	case xlsx.Number:
		return p.storedDate(cell)
	case xlsx.Text:
		return writtenDate(cell.Raw)
	}
	return parsedCell{problem: notADate}
}

const notADate = "can't be read as a date; type it as 2025-06-30"

func (p *cellParser) storedDate(cell xlsx.Cell) parsedCell {
	day, ok := dayOf(cell.Raw, p.date1904)
	if !ok {
		return parsedCell{problem: notADate}
	}
	parsed := parsedCell{reading: grading.Reading{Value: dateValue(day), Plain: !p.date1904}}
	if cell.Date {
		return parsed
	}
	serial, err := decimal.NewFromString(cell.Raw)
	if err != nil || serial.LessThan(earliestSerial) || serial.GreaterThan(latestSerial) {
		return parsedCell{problem: notADate}
	}
	parsed.note = "a bare day number, read as the date it stands for"
	return parsed
}

// Dates are written month first, as in the trade's home; a first number above 12 can only be a day.
var dateLayouts = []string{
	"2006-1-2", "2006/1/2", "1/2/2006", "1/2/06", "1-2-2006", "1-2-06", "1.2.2006",
	"Jan 2 2006", "January 2 2006", "2 Jan 2006", "2 January 2006", "2-Jan-2006", "2-Jan-06", "Jan-2-2006", "2006-01-02T15:04:05",
	"2006-01-02 15:04:05", "1/2/2006 15:04", "1/2/06 15:04", "20060102",
}

var dayFirstLayouts = []string{"2/1/2006", "2/1/06", "2-1-2006", "2-1-06", "2.1.2006", "2.1.06"}

var dateMarks = strings.NewReplacer(",", " ", "Sept ", "Sep ", "sept ", "Sep ")

func writtenDate(text string) parsedCell {
	plain := clean(dateMarks.Replace(text))
	for _, day := range []string{"mon ", "tue ", "wed ", "thu ", "fri ", "sat ", "sun "} {
		if rest, cut := cutPrefixFold(plain, day); cut {
			plain = rest
		}
	}
	for _, layout := range dateLayouts {
		if day, err := time.Parse(layout, plain); err == nil {
			parsed := parsedCell{reading: grading.Reading{Value: dateValue(day.Truncate(24 * time.Hour))}}
			if layout != "2006-1-2" {
				parsed.note = "dates written as text and read with the month first"
			}
			return parsed
		}
	}
	for _, layout := range dayFirstLayouts {
		if day, err := time.Parse(layout, plain); err == nil {
			return parsedCell{
				reading: grading.Reading{Value: dateValue(day)},
				note:    "dates written with the day first, since there is no such month",
			}
		}
	}
	return parsedCell{problem: notADate}
}
