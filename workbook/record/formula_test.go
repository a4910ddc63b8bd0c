package record

import "testing"

// A formula has one form however a program writes it and wherever its row and its columns stand, and another formula has another.
func TestFormulasAreToldByWhatTheyCompute(t *testing.T) {
	const written = `IFERROR(IF(COUNT(E5,F5)=2,ROUND(2.5+K5+VLOOKUP(L5,'Value grid'!$B$6:$G$9,6,FALSE),6),""),"No price in the grid")`
	form := FormBeside(written, 5, 11, 4, nil)
	for name, test := range map[string]struct {
		formula string
		row     int
		first   int
		before  map[int]int
		same    bool
	}{
		"as written":          {written, 5, 11, nil, true},
		"in the row below":    {`IFERROR(IF(COUNT(E6,F6)=2,ROUND(2.5+K6+VLOOKUP(L6,'Value grid'!$B$6:$G$9,6,FALSE),6),""),"No price in the grid")`, 6, 11, nil, true},
		"in another hand":     {`=iferror(if(count( E5 , F5 ) = 2, Round(2.5+K5+vlookup(L5,Value_grid!B7:G10,6,false),6),""),"No price in the grid")`, 5, 11, nil, true},
		"a column further on": {`IFERROR(IF(COUNT(E5,G5)=2,ROUND(2.5+L5+VLOOKUP(M5,'Value grid'!$B$6:$G$9,6,FALSE),6),""),"No price in the grid")`, 5, 12, map[int]int{5: 5, 7: 6}, true},
		"another number":      {`IFERROR(IF(COUNT(E5,F5)=2,ROUND(2.6+K5+VLOOKUP(L5,'Value grid'!$B$6:$G$9,6,FALSE),6),""),"No price in the grid")`, 5, 11, nil, false},
		"another cell":        {`IFERROR(IF(COUNT(E5,G5)=2,ROUND(2.5+K5+VLOOKUP(L5,'Value grid'!$B$6:$G$9,6,FALSE),6),""),"No price in the grid")`, 5, 11, nil, false},
		"another row":         {`IFERROR(IF(COUNT(E6,F5)=2,ROUND(2.5+K5+VLOOKUP(L5,'Value grid'!$B$6:$G$9,6,FALSE),6),""),"No price in the grid")`, 5, 11, nil, false},
		"other words":         {`IFERROR(IF(COUNT(E5,F5)=2,ROUND(2.5+K5+VLOOKUP(L5,'Value grid'!$B$6:$G$9,6,FALSE),6),""),"no price in the grid")`, 5, 11, nil, false},
		"no lookup":           {`IFERROR(IF(COUNT(E5,F5)=2,ROUND(2.5+K5+4,6),""),"No price in the grid")`, 5, 11, nil, false},
	} {
		if got := FormBeside(test.formula, test.row, test.first, 4, test.before); (got == form) != test.same {
			t.Errorf("%s: %s\nis %s\nand as written it is %s", name, test.formula, got, form)
		}
	}
}

// What stands in a formula is somebody else's: a broken one has some form.
func FuzzFormulaForm(f *testing.F) {
	for _, formula := range []string{`A1+"x`, `'sheet`, `'a''b'!A1:`, `$`, `1.`, `""`, `SUM(A1:B2)`, "ä!A1"} {
		f.Add(formula)
	}
	f.Fuzz(func(_ *testing.T, formula string) { FormBeside(formula, 1, 3, 2, nil) })
}
