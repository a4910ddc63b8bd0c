package workbook

import (
	"bytes"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"testing"

	"railbook/rules/measure"
	"railbook/workbook/result"
)

var (
	mutations     = flag.Int("mutations", 0, "how many damaged workbooks are graded; 0: a fixed sample, or 2,000 with RAILBOOK_LONG set")
	firstMutation = flag.Int("mutations-from", 0, "the number of the first of them: a run that was ended goes on from the last number it told")
)

// mutation damages one part of a workbook, or gives it as it is where it has nothing to damage.
type mutation struct {
	name   string
	damage func(draw *rand.Rand, text string) string
}

var (
	anyTag       = regexp.MustCompile(`<[A-Za-z][^<>]*>`)
	anyAttribute = regexp.MustCompile(`\s[\w:]+="[^"]*"`)
	anyElement   = regexp.MustCompile(`<([A-Za-z][\w:]*)\b[^<>]*>[^<>]*</[\w:]+>|<[A-Za-z][^<>]*/>`)
	anyValue     = regexp.MustCompile(`>[^<>]+<`)
	anySpace     = regexp.MustCompile(`\sxmlns(:\w+)?="[^"]*"`)
	anyTarget    = regexp.MustCompile(`(Target|PartName)="[^"]*"`)
	anyID        = regexp.MustCompile(`(\w+:id|Id)="[^"]*"`)
	anyRow       = regexp.MustCompile(`(<(?:\w+:)?row [^>]*?r=")\d+`)
	anyPlace     = regexp.MustCompile(`(<(?:\w+:)?c [^>]*?r=")[A-Z]+\d+`)
)

// replaced puts a text in the place of one match.
func replaced(pattern *regexp.Regexp, with func(draw *rand.Rand, match string) string) func(*rand.Rand, string) string {
	return func(draw *rand.Rand, text string) string {
		found := pattern.FindAllStringIndex(text, 4000)
		if len(found) == 0 {
			return text
		}
		at := found[draw.IntN(len(found))]
		return text[:at[0]] + with(draw, text[at[0]:at[1]]) + text[at[1]:]
	}
}

// by gives what is always put in the place of a match.
func by(text string) func(*rand.Rand, string) string {
	return func(*rand.Rand, string) string { return text }
}

// attributed gives an attribute another value.
func attributed(value string) func(*rand.Rand, string) string {
	return replaced(anyAttribute, func(_ *rand.Rand, match string) string {
		name, _, _ := strings.Cut(match, "=")
		return name + `="` + value + `"`
	})
}

func inserted(text string) func(*rand.Rand, string) string {
	return func(draw *rand.Rand, part string) string {
		at := draw.IntN(len(part) + 1)
		return part[:at] + text + part[at:]
	}
}

// mutationKinds are the ways in which a workbook is damaged: by a bad copy, by a bad program, by hand.
var mutationKinds = []mutation{
	{"cut off", func(draw *rand.Rand, text string) string { return text[:draw.IntN(len(text)+1)] }},
	{"a stretch gone", func(draw *rand.Rand, text string) string {
		from := draw.IntN(len(text) + 1)
		return text[:from] + text[min(len(text), from+1+draw.IntN(200)):]
	}},
	{"a stretch twice", func(draw *rand.Rand, text string) string {
		from := draw.IntN(len(text) + 1)
		until := min(len(text), from+1+draw.IntN(200))
		return text[:until] + text[from:]
	}},
	{"a byte other", func(draw *rand.Rand, text string) string {
		if text == "" {
			return text
		}
		at := draw.IntN(len(text))
		return text[:at] + string([]byte{byte(draw.IntN(256))}) + text[at+1:]
	}},
	{"empty", func(*rand.Rand, string) string { return "" }},
	{"an element gone", replaced(anyElement, by(""))},
	{"an element twice", replaced(anyElement, func(_ *rand.Rand, match string) string { return match + match })},
	{"a tag gone", replaced(anyTag, by(""))},
	{"a tag closed in itself", replaced(anyTag, func(_ *rand.Rand, match string) string { return strings.TrimSuffix(match, ">") + "/>" })},
	{"a prefix nobody declares", replaced(anyTag, func(_ *rand.Rand, match string) string { return "<lost:" + match[1:] })},
	{"a namespace gone", replaced(anySpace, by(""))},
	{"another namespace", replaced(anySpace, func(_ *rand.Rand, match string) string {
		name, _, _ := strings.Cut(match, "=")
		return name + `="urn:other"`
	})},
	{"an attribute gone", replaced(anyAttribute, by(""))},
	{"an attribute twice", replaced(anyAttribute, func(_ *rand.Rand, match string) string { return match + match })},
	{"an attribute empty", attributed("")},
	{"an attribute below zero", attributed("-1")},
	{"an attribute beyond all", attributed("99999999999999999999")},
	{"an attribute of words", attributed("&lt;none&gt;")},
	{"a value of words", replaced(anyValue, by(">none<"))},
	{"a value beyond all", replaced(anyValue, by(">1e999<"))},
	{"a value below zero", replaced(anyValue, by(">-7<"))},
	{"a value gone", replaced(anyValue, by("><"))},
	{"an entity nobody knows", inserted("&nbsp;")},
	{"a character XML does not allow", inserted("\x01")},
	{"a broken letter", inserted("\xC3")},
	{"a comment", inserted("<!-- a -->")},
	{"a text not marked up", inserted("<![CDATA[<c r=\"A1\"/>]]>")},
	{"a document type", inserted("<!DOCTYPE a [<!ENTITY b \"c\">]>")},
	{"a thousand deep", inserted(strings.Repeat("<a>", 1000))},
	{"in two bytes a letter", func(_ *rand.Rand, text string) string {
		wide := []byte("\xFF\xFE")
		for i := 0; i < len(text); i++ {
			wide = append(wide, text[i], 0)
		}
		return string(wide)
	}},
	{"a target that is not there", replaced(anyTarget, func(_ *rand.Rand, match string) string {
		name, _, _ := strings.Cut(match, "=")
		return name + `="/xl/nowhere.xml"`
	})},
	{"an id that is not there", replaced(anyID, func(_ *rand.Rand, match string) string {
		name, _, _ := strings.Cut(match, "=")
		return name + `="rId9999"`
	})},
	{"a row elsewhere", replaced(anyRow, func(draw *rand.Rand, match string) string {
		return match[:strings.LastIndex(match, `"`)+1] + strconv.Itoa(draw.IntN(1<<21))
	})},
	{"a cell elsewhere", replaced(anyPlace, func(draw *rand.Rand, match string) string {
		return match[:strings.LastIndex(match, `"`)+1] + []string{"A0", "XFE1", "A1048577", "ZZZZ9", "B2", "7"}[draw.IntN(6)]
	})},
}

// mostForDamaged is how much memory may be taken, all told, for one damaged workbook, graded or refused, in bytes.
const mostForDamaged = 400 << 20

// mutate gives a workbook with the damage of a number, and says what that is. Every eighth is damaged as a file.
func mutate(t testing.TB, number int, workbooks []map[string]string) (data []byte, words string) {
	draw := rand.New(rand.NewPCG(uint64(number), 16))
	parts := workbooks[draw.IntN(len(workbooks))]
	var names []string
	for name := range parts {
		names = append(names, name)
	}
	slices.Sort(names)
	if number%8 == 7 {
		data = packageOf(t, parts)
		at := draw.IntN(len(data))
		switch draw.IntN(3) {
		case 0:
			data[at] ^= byte(1 + draw.IntN(255))
			return data, fmt.Sprintf("byte %d of the file is another", at)
		case 1:
			return data[:at], fmt.Sprintf("the file ends at byte %d", at)
		}
		damaged := map[string]string{}
		gone := names[draw.IntN(len(names))]
		for name, text := range parts {
			if name != gone {
				damaged[name] = text
			}
		}
		return packageOf(t, damaged), gone + " is gone"
	}
	kind := mutationKinds[number%len(mutationKinds)]
	// Half of all damage goes to the parts that everything depends on.
	if number%2 == 0 {
		names = slices.DeleteFunc(names, func(name string) bool {
			return !strings.HasSuffix(name, ".rels") && !slices.Contains([]string{"[Content_Types].xml", "xl/workbook.xml", "xl/styles.xml", "xl/sharedStrings.xml", "xl/worksheets/sheet1.xml"}, name)
		})
	}
	name := names[draw.IntN(len(names))]
	damaged := map[string]string{}
	for other, text := range parts {
		damaged[other] = text
	}
	damaged[name] = kind.damage(draw, parts[name])
	return packageOf(t, damaged), kind.name + " in " + name
}

// A damaged workbook is graded or refused in a sentence: the program never falls over, and never writes results that a
// program which knows namespaces can't read. Expat is that program.
func TestDamagedWorkbooksGiveResultsThatOpenOrASentence(t *testing.T) {
	if len(mutationKinds) < 30 {
		t.Errorf("only %d kinds of damage", len(mutationKinds))
	}
	count := *mutations
	switch {
	case count > 0:
	case os.Getenv("RAILBOOK_LONG") != "":
		count = 2000
	default:
		count = 2 * len(mutationKinds)
	}
	folder := t.TempDir()
	paths := fidelityWorkbooks(t, folder)
	for _, demo := range []string{"fair", "swine", "lamb", "goat", "ultrasound", "scans"} {
		paths = append(paths, filepath.Join("../testdata/demo", demo+".xlsx"))
	}
	var workbooks []map[string]string
	for _, path := range paths {
		workbooks = append(workbooks, partsOfFile(t, path))
	}
	results, what := []string(nil), map[string]string{}
	graded := 0
	check := func() {
		graded += len(results)
		for path, faults := range faultsOutside(t, results, "--parts") {
			t.Errorf("%s: the results are damaged: %s", what[path], strings.Join(faults, "; "))
		}
		for _, path := range results {
			_ = os.Remove(path)
		}
		results, what = nil, map[string]string{}
	}
	for number := *firstMutation; number < *firstMutation+count; number++ {
		if *mutations > 0 && (number+1)%1000 == 0 {
			peak := peakMB(t)
			t.Logf("%d damaged workbooks, up to number %d: %d refused, %d MB", number+1-*firstMutation, number, number+1-*firstMutation-graded-len(results), peak)
			if peak > mostForDamaged>>20 {
				t.Errorf("up to number %d: %d MB were held at once", number, peak)
			}
		}
		data, words := mutate(t, number, workbooks)
		words = fmt.Sprintf("damage %d (%s)", number, words)
		path := filepath.Join(folder, fmt.Sprintf("damaged-%d.xlsx", number))
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		made := filepath.Join(folder, fmt.Sprintf("damaged-%d-results.xlsx", number))
		var before, done runtime.MemStats
		runtime.ReadMemStats(&before)
		outcome, err := gradeDamaged(path, made)
		runtime.ReadMemStats(&done)
		// All that was taken, given back meanwhile or not, is never less than the most that was held.
		if taken := done.TotalAlloc - before.TotalAlloc; taken > mostForDamaged {
			t.Errorf("%s: %d MB were taken, refused: %v", words, taken>>20, err != nil)
		}
		after, readErr := os.ReadFile(path)
		switch {
		case readErr != nil || !bytes.Equal(after, data):
			t.Errorf("%s: the input was changed", words)
		case err != nil && strings.HasPrefix(err.Error(), "panic"):
			t.Errorf("%s: %v", words, err)
		case err != nil && strings.Contains(err.Error(), "would be damaged"):
			t.Errorf("%s: %v", words, err)
		case err == nil:
			results = append(results, made)
			what[made] = words
			for _, zero := range silentZeros(t, outcome.Results, path) {
				t.Errorf("%s: %s", words, zero)
			}
		}
		_ = os.Remove(path)
		if len(results) == 200 {
			check()
		}
	}
	check()
}

// gradeDamaged grades a workbook; a panic is an error that says so.
func gradeDamaged(path, result string) (outcome *Outcome, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("panic: %v\n%s", fault, debug.Stack())
		}
	}()
	return Grade(path, Options{Output: result, Force: true})
}

// peakMB is the most memory that this process held at once, in MB; 0 where the system does not tell.
func peakMB(t *testing.T) (peak int) {
	t.Helper()
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return 0
	}
	_, line, _ := strings.Cut(string(status), "VmHWM:")
	if _, err := fmt.Sscan(line, &peak); err != nil {
		t.Fatal(err)
	}
	return peak / 1024
}

var (
	anyCell = regexp.MustCompile(`<(?:\w+:)?c\s[^>]*?\br="([A-Z]+\d+)"[^>]*?(/>|>[\s\S]*?</(?:\w+:)?c>)`)
	anyText = regexp.MustCompile(`>([^<>]+)<`)
)

// silentZeros names the numbers that were read as zero though no zero stands in their cell: neither as the reading tells it, nor in
// the bytes of any sheet that has the cell. Of texts that stand elsewhere the reading alone is asked.
func silentZeros(t *testing.T, results *result.Results, path string) (zeros []string) {
	var cells map[string]string // what stands in the cells of a name, of all sheets
	for _, carcass := range results.Carcasses {
		for id, reading := range carcass.Carcass.Readings() {
			definition, _ := measure.Define(id)
			if definition.Kind != measure.KindNumber || reading.Unreadable || !reading.Value.Number.IsZero() {
				continue
			}
			if cells == nil {
				cells = map[string]string{}
				for part, text := range partsOfFile(t, path) {
					if !strings.Contains(part, "worksheets/") {
						continue
					}
					for _, found := range anyCell.FindAllStringSubmatch(text, -1) {
						cells[found[1]] += found[0]
					}
				}
			}
			there, known := cells[reading.Place.Cell]
			inPlace := known && !strings.Contains(there, `t="s"`)
			written := slices.ContainsFunc(anyText.FindAllStringSubmatch(there, -1), func(found []string) bool { return strings.Contains(found[1], "0") })
			if !strings.Contains(reading.Written, "0") || inPlace && !written {
				zeros = append(zeros, fmt.Sprintf("%s of %s became a zero: %q, %s", id, carcass.Carcass.Place, reading.Written, there))
			}
		}
	}
	return zeros
}
