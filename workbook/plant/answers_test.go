package plant

import (
	"strings"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// listOf answers questions in the comma-separated form, in which a person could as well.
func listOf(t *testing.T, questions []Question, answers ...string) []Answer {
	t.Helper()
	lines := strings.Split(strings.TrimSpace(string(CSV(questions))), "\n")
	for i, answer := range answers {
		lines[i+1] = strings.Replace(lines[i+1], ",,Rail sheet", ","+answer+",Rail sheet", 1)
	}
	book, err := xlsx.OpenBytes("list.csv", []byte(strings.Join(lines, "\n")), xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	read, err := ReadAnswers(book)
	if err != nil {
		t.Fatal(err)
	}
	return read
}

func ribeye() (*validate.Finding, Question) {
	carcass := &grading.Carcass{Tag: "0401", Class: "Steers"}
	carcass.SetReading(measure.RibeyeArea, grading.Reading{Value: measure.NumberValue(decimal.NewFromInt(115)), Written: "115"})
	finding := &validate.Finding{
		Code: "ribeye area out of range", Tag: "0401", Class: "Steers", Measure: measure.RibeyeArea, Read: "115",
		At: rules.Place{Sheet: "Rail sheet", Cell: "G10"}, Carcass: carcass,
	}
	return finding, Question{Tag: "0401", Written: "115", Asked: "Is it?", About: About{"fair.xlsx", "Rail sheet", "G10", measure.RibeyeArea, finding.Code}}
}

// A value becomes a correction, what says that the cell is right an acceptance; words choose nothing. None is applied: each waits.
func TestAnswersBecomeDecisionsThatWait(t *testing.T) {
	finding, question := ribeye()
	for answer, want := range map[string]struct {
		choice validate.Choice
		value  string
	}{
		"11.5":                {validate.Correct, "11.5"},
		"as written":          {validate.Accept, ""},
		"Right.":              {validate.Accept, ""},
		"115":                 {validate.Accept, ""},
		"115.0":               {validate.Accept, ""},
		"yes":                 {"", ""},
		"the card is missing": {"", ""},
	} {
		answers := listOf(t, []Question{question}, answer)
		if len(answers) != 1 || !answers[0].Fits(finding) {
			t.Fatalf("%s: read %+v, which does not fit its question", answer, answers)
		}
		decision := answers[0].Decision(finding, rules.Default())
		if decision.Choice != want.choice || decision.Value != want.value || !decision.Refused || !decision.Waiting || decision.Initials != "" ||
			decision.Remark != "The plant answered: "+answer {
			t.Errorf("%s: %+v, want %+v, waiting", answer, decision, want)
		}
	}
	if got := listOf(t, []Question{question}); len(got) != 0 {
		t.Errorf("a list without answers gives %+v", got)
	}
}

// A word is no tag.
func TestAWordIsNoTag(t *testing.T) {
	finding, _ := ribeye()
	finding.Measure, finding.Hint = measure.Tag, "0428"
	if got := (Answer{Text: "428"}).Decision(finding, rules.Default()).Value; got != "0428" {
		t.Errorf("428, the zero lost, gives %q", got)
	}
	for answer, want := range map[string]validate.Choice{"0431": validate.Correct, "yes": "", "ask the driver": ""} {
		if got := (Answer{Text: answer}).Decision(finding, rules.Default()).Choice; got != want {
			t.Errorf("%s: %q, want %q", answer, got, want)
		}
	}
}

// An answer is about the very value that was asked about, and about that cell or that tag.
func TestAnAnswerFitsItsQuestionAlone(t *testing.T) {
	finding, question := ribeye()
	answer := listOf(t, []Question{question}, "11.5")[0]
	for name, change := range map[string]func(*validate.Finding){
		"another value":   func(f *validate.Finding) { f.Read = "116" },
		"another tag":     func(f *validate.Finding) { f.Tag = "0402" },
		"another check":   func(f *validate.Finding) { f.Code = "digits swapped" },
		"another measure": func(f *validate.Finding) { f.Measure = measure.MeasuredFat },
		"another sheet":   func(f *validate.Finding) { f.At.Sheet = "Lambs" },
		"a whole sheet":   func(f *validate.Finding) { f.Tag, f.At.Cell = "", "A1" },
	} {
		other := *finding
		change(&other)
		if answer.Fits(&other) {
			t.Errorf("%s: the answer fits", name)
		}
	}
	moved := *finding
	moved.At.Cell = "G11"
	if !answer.Fits(&moved) {
		t.Error("the answer does not go with its carcass to another row")
	}
}

// A list of several workbooks is answered for each; one of a single workbook for it by whatever name it goes now.
func TestAnswersGoToTheirWorkbook(t *testing.T) {
	answer, other := Answer{About: About{Workbook: "east.xlsx"}}, Answer{About: About{Workbook: "west.xlsx"}}
	if got := For([]Answer{answer, other}, "west-results.xlsx", "west.xlsx"); len(got) != 1 || got[0] != other {
		t.Errorf("west gets %+v", got)
	}
	if got := For([]Answer{answer}, "renamed.xlsx"); len(got) != 1 {
		t.Errorf("a renamed workbook gets %+v", got)
	}
}

// Text of the input is never a formula in the list, and comes back as it was.
func TestTextStaysText(t *testing.T) {
	_, question := ribeye()
	question.Tag, question.Written = "=1+1", "-115"
	text := string(CSV([]Question{question}))
	if !strings.Contains(text, "'=1+1") || !strings.Contains(text, "'-115") {
		t.Errorf("the list has %s", text)
	}
	if got := listOf(t, []Question{question}, "11.5")[0]; got.Tag != "=1+1" || got.Written != "-115" {
		t.Errorf("read back: %+v", got)
	}
}

func TestWhatIsNoList(t *testing.T) {
	book, err := xlsx.OpenBytes("other.csv", []byte("Tag,HCW,Your answer\n1,780,2\n"), xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := ReadAnswers(book); err == nil || !strings.Contains(err.Error(), "check --questions") {
		t.Errorf("read as a list: %v", err)
	}
}
