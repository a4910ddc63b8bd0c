package names

import "testing"

// The names are invented. The forms are those of the Unicode Standard, annex 15 (composed and decomposed) and section 5.18
// (case folding); the ways of writing a name in a list are common practice.
func TestNames(t *testing.T) {
	const (
		key   = iota // written alike: what counts for one counts for the other
		same         // certainly one child
		maybe        // a refusal spreads
		apart        // two children
	)
	for _, test := range []struct {
		one, other string
		want       int
	}{
		{"Zyndra Qorblat", "Zyndra Qorblat", key},
		{"Zyndra Qorblat", "  ZYNDRA   qorblat ", key},
		{"Zyndra Qorblat", "Zyndra\u00a0Qorblat", key},
		{"Zyndra Qorblat", "Zyndra\u200b Qorblat", key},
		{"Zo\u00eb Qorblat", "Zoe\u0308 Qorblat", key},
		{"\u00c5se Qorblat", "A\u030ase Qorblat", key},
		{"Brevik O'Tarn", "Brevik O\u2019Tarn", key},
		{"Brevik O'Tarn", "BREVIK O\u02bcTARN", key},
		{"Stra\u00df Qorblat", "STRASS Qorblat", key},
		{"Zyndra Qorblat", "Qorblat, Zyndra", same},
		{"Zyndra Qorblat", "Qorblat Zyndra", same},
		{"Zyndra Qorblat", "Zyndra M. Qorblat", same},
		{"Zyndra Qorblat", "Z. Qorblat", same},
		{"Zyndra Qorblat", "Qorblat, Z", same},
		{"Zyndra Qorblat", "Qorblat", same},
		{"Zo\u00eb Qorblat", "Zoe Qorblat", same},
		{"Qorblat, N\u00fara", "Nura Qorblat", same},
		{"Brevik O'Tarn", "Brevik OTarn", same},
		{"Brevik O'Tarn", "Brevik O Tarn", same},
		{"Ann-Lee Qorblat", "Annlee Qorblat", same},
		{"Z. M. Qorblat", "M. Z. Qorblat", same},
		{"Z.M. Qorblat", "Qorblat ZM", same},
		{"Zyndra Maud Qorblat", "Qorblat, Z. M.", same},
		{"ZM QORBLAT", "Qorblat, Z.M.", same},
		{"\uff3a\uff59\uff4e\uff44\uff52\uff41 Qorblat", "Zyndra Qorblat", same},
		{"Fenna & Zyndra Qorblat", "Zyndra & Fenna Qorblat", same},
		{"Fenna Ghyll & Zyndra Qorblat", "Zyndra Qorblat", maybe},
		{"Fenna & Zyndra Qorblat", "Zyndra Qorblat", maybe},
		{"Fenna and Zyndra Qorblat", "Fenna Qorblat", maybe},
		{"QORBLAT AJ", "A. J. Qorblat", same},
		{"qorblat aj", "A. J. Qorblat", same},
		{"Z. Q.", "Zyndra Qorblat", same},
		{"Qorblat al", "Abe Lux Qorblat", maybe},
		{"Zyndra Qorblat", "Fenna Qorblat", apart},
		{"Zyndra Qorblat", "Zyndra Ghyll", apart},
		{"Ann Lee", "Abe Lux", apart},
		{"Al Qorblat", "Ann Qorblat", apart},
		{"AL QORBLAT", "Ann Qorblat", apart},
		{"Z", "Zyndra Qorblat", apart},
		{"", "Zyndra Qorblat", apart},
		{"", "", apart},
		{"&", "-", apart},
	} {
		for _, pair := range [][2]string{{test.one, test.other}, {test.other, test.one}} {
			got := apart
			switch {
			case Key(pair[0]) != "" && Key(pair[0]) == Key(pair[1]):
				got = key
			case Same(pair[0], pair[1]):
				got = same
			case MayBeSame(pair[0], pair[1]):
				got = maybe
			}
			if got != test.want {
				t.Errorf("%q and %q: %d, want %d", pair[0], pair[1], got, test.want)
			}
			if got <= same && (!Same(pair[0], pair[1]) || !MayBeSame(pair[0], pair[1])) {
				t.Errorf("%q and %q are the same, and a refusal of one does not reach the other", pair[0], pair[1])
			}
		}
	}
}

func TestTextsThatHoldAName(t *testing.T) {
	for _, test := range []struct {
		text, name string
		want       bool
	}{
		{"Zyndra Qorblat memorial heifers", "Zyndra Qorblat", true},
		{"QORBLAT (Zyndra) heifers", "Zyndra Qorblat", true},
		{"The ZyndraQorblat cup", "Zyndra Qorblat", true},
		{"Zoe\u0308 heifers", "Zo\u00eb", true},
		{"Market animals", "Al", false},
		{"Zyndra heifers", "Zyndra Qorblat", false},
		{"Heifers", "", false},
	} {
		if got := Holds(test.text, test.name); got != test.want {
			t.Errorf("%q holds %q: %v", test.text, test.name, got)
		}
	}
}

// A long list of initials must not be tried in every order.
func TestAHostileNameIsComparedAtOnce(t *testing.T) {
	letters := ""
	for range 400 {
		letters += "a b "
	}
	if MayBeSame(letters+"c", letters+"d") {
		t.Error("two lists of letters are one name")
	}
}

func TestSpokenNames(t *testing.T) {
	for written, want := range map[string]string{
		"Qorblat, Zyndra": "Zyndra Qorblat", "Zyndra  Qorblat": "Zyndra Qorblat", "Zyndra Qorblat, Jr.": "Zyndra Qorblat Jr.",
		"Qorblat, Zyndra & Fenna": "Qorblat, Zyndra & Fenna", "Qorblat,": "Qorblat,", "": "",
	} {
		if got := Spoken(written); got != want {
			t.Errorf("%q is spoken %q, want %q", written, got, want)
		}
	}
}
