package result

import (
	"testing"

	"railbook/grading"
	"railbook/validate"
)

func TestACarcassIsOnHoldUntilItsHoldIsSettledOrItIsLeftOut(t *testing.T) {
	carcass := &grading.Carcass{Tag: "0419"}
	open := validate.Finding{Level: validate.Hold, Carcass: carcass}
	look := validate.Finding{Level: validate.Look, Carcass: carcass}
	settled := func(choice validate.Choice) validate.Finding {
		return validate.Finding{Level: validate.Hold, Carcass: carcass, Settled: &validate.Decision{Choice: choice}}
	}
	for _, test := range []struct {
		name     string
		findings []validate.Finding
		held     bool
	}{
		{"nothing found", nil, false},
		{"a look", []validate.Finding{look}, false},
		{"an open hold", []validate.Finding{open}, true},
		{"a hold accepted", []validate.Finding{settled(validate.Accept)}, false},
		{"one accepted, one open", []validate.Finding{settled(validate.Accept), open}, true},
		{"left out, another open", []validate.Finding{settled(validate.LeaveOut), open}, false},
		{"one open, then left out", []validate.Finding{open, settled(validate.LeaveOut)}, false},
	} {
		if got := OnHold(test.findings)[carcass]; got != test.held {
			t.Errorf("%s: on hold is %t, want %t", test.name, got, test.held)
		}
	}
}
