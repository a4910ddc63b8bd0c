package intake

import (
	"slices"

	"railbook/rules"
	"railbook/rules/measure"
)

// scanWords say that something was measured on the live animal by ultrasound. "U/S" is two words once it is folded.
var scanWords = map[string]bool{"ultrasound": true, "scan": true, "scans": true, "scanned": true, "us": true, "sonogram": true}

// scanShortForms are the short forms with the u of ultrasound in front, and what is left without it.
var scanShortForms = map[string]string{
	"ufat": "fat", "ubf": "backfat", "urea": "rea", "ulma": "lma", "ulea": "lea", "uimf": "imf", "upfat": "imf", "uld": "loin depth",
}

// withoutScan takes the words that speak of ultrasound out of a folded heading; scan is false where there are none.
func withoutScan(words []string) (rest []string, scan bool) {
	for i := 0; i < len(words); i++ {
		short, abbreviated := scanShortForms[words[i]]
		switch {
		case scanWords[words[i]]:
		case words[i] == "u" && i+1 < len(words) && words[i+1] == "s":
			i++
		case abbreviated:
			rest = append(rest, fold(short)...)
		default:
			rest = append(rest, words[i])
			continue
		}
		scan = true
	}
	return rest, scan
}

// scanned reports whether a text speaks of ultrasound.
func scanned(text string) bool {
	_, scan := withoutScan(fold(text))
	return scan
}

// scanHeading recognises a measure that is said to be scanned: "US 10th rib BF". A carcass weight can't be scanned.
func (v *vocabulary) scanHeading(words []string, unit string) meaning {
	rest, scan := withoutScan(words)
	if !scan || len(rest) == 0 {
		return meaning{}
	}
	found, ok := v.find(rest)
	if !ok {
		return meaning{}
	}
	found.candidates = slices.DeleteFunc(slices.Clone(found.candidates), func(heading rules.Heading) bool {
		definition, _ := measure.Define(heading.Measure)
		return definition.Kind != measure.KindNumber || slices.Contains(carcassWeights, heading.Measure) ||
			unit != "" && scales[unit].base != definition.Unit
	})
	if len(found.candidates) == 0 {
		return meaning{}
	}
	found.unit = unit
	found.because += ", scanned"
	return found
}
