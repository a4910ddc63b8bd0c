package record

import (
	"fmt"
	"hash/fnv"
	"strconv"
	"strings"
)

// mostSums keeps the sums of a large record short: there each is of several lines.
const mostSums = 3000

// rowSums gives the line of the sums of lines: how many lines each is of, and the sums.
func rowSums(lines []string) string {
	each := 1 + len(lines)/mostSums
	return lineOf(rowSumsField, strconv.Itoa(each), strings.Join(sumsOf(lines, each), ","))
}

func sumsOf(lines []string, each int) (sums []string) {
	for from := 0; from < len(lines); from += each {
		sum := fnv.New32a()
		addLines(sum, lines[from:min(from+each, len(lines))])
		sums = append(sums, fmt.Sprintf("%04x", sum.Sum32()>>16))
	}
	return sums
}

// changedRows gives the rows, from 1, of a record that is not as it was written that say otherwise; of several lines with one sum
// the first. It gives none where the sums are not there.
func changedRows(lines []string) (rows []int) {
	at := len(lines) - 1
	for at >= 0 && !strings.HasPrefix(lines[at], rowSumsField+"|") {
		at--
	}
	if at < 0 {
		return nil
	}
	fields := fieldsOf(lines[at])
	each, err := strconv.Atoi(field(fields, 1))
	if err != nil || each < 1 {
		return []int{at + 1}
	}
	was, is := strings.Split(field(fields, 2), ","), sumsOf(lines[:at], each)
	for i := range max(len(was), len(is)) {
		if i >= len(was) || i >= len(is) || was[i] != is[i] {
			rows = append(rows, i*each+1)
		}
	}
	digest := ""
	if at+1 < len(lines) {
		digest = field(fieldsOf(lines[at+1]), 2)
	}
	switch {
	case len(rows) == 0 && digest == digestOf(lines[:at]) && at+2 == len(lines): // the lines and their sums agree: the digest was changed
		return []int{at + 2}
	case len(rows) == 0:
		return []int{len(lines)}
	case digest == digestOf(lines[:at]): // the lines are as they were, and a sum was changed
		return []int{at + 1}
	}
	return rows
}
