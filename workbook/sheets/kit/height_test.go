package kit

import (
	"math"
	"testing"
)

// As pdftotext -bbox measures them in a page of LibreOffice's, set in Liberation Sans 10, which has the widths of Arial.
func TestTextIsAsWideAsItIsPrinted(t *testing.T) {
	for _, test := range []struct {
		text string
		of   Role
		want float64
	}{
		{"Nettle Wheelbarrow", Body, 87.9}, {"0434", Strong, 22.2},
	} {
		if got := TextWidth(test.text, test.of); math.Abs(got-test.want) > 0.2 {
			t.Errorf("%q is %.1f points wide, printed %.1f", test.text, got, test.want)
		}
	}
}

func TestARowIsAsHighAsItsLines(t *testing.T) {
	number := heightOf("one", 200, Body)
	if two := heightOf("one\ntwo", 200, Body); two <= number || heightOf("", 200, Body) != number {
		t.Errorf("one line %v, two lines %v", number, two)
	}
}
