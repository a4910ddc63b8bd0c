package rules

import "testing"

func TestDefaultLoadsWithoutFault(t *testing.T) {
	book, faults := Load(DefaultTables())
	for _, fault := range faults {
		t.Errorf("%v: %s", fault.Place, fault.Message)
	}
	if book == nil {
		t.Fatal("no rulebook")
	}
}
