package whatif

import (
	"math/big"

	"railbook/rules/measure"
)

// inequality is one condition on measures: Σ coefficient · measure ≤ bound, or < where it is strict.
type inequality struct {
	coefficients map[measure.ID]*big.Rat
	bound        *big.Rat
	strict       bool
}

// feasible reports whether some values of the measures meet every inequality. It is exact: the simplex method in
// rational numbers, by Bland's rule so that it ends. Strict inequalities share a margin, and are met where the greatest
// margin is more than nothing.
func feasible(system []inequality) bool {
	columns := map[measure.ID]int{}
	for _, one := range system {
		for id := range one.coefficients {
			if _, known := columns[id]; !known {
				columns[id] = 2 * len(columns) // a measure may be negative: it is a difference of two columns
			}
		}
	}
	margin := 2 * len(columns)
	strict := false
	table := newTableau(margin + 1)
	for _, one := range system {
		row := table.row(one.bound)
		for id, coefficient := range one.coefficients {
			row[columns[id]].Add(row[columns[id]], coefficient)
			row[columns[id]+1].Sub(row[columns[id]+1], coefficient)
		}
		if one.strict {
			strict = true
			row[margin].SetInt64(1)
		}
	}
	table.row(big.NewRat(1, 1))[margin].SetInt64(1)
	if !table.makeFeasible() {
		return false
	}
	return !strict || table.greatest(margin).Sign() > 0
}

// tableau is a linear program in the form of a dictionary: each basic variable is its bound less the sum of the
// coefficients times the others, which stand at zero. Variables are numbered: first the columns it was made with, then a
// slack for each row.
type tableau struct {
	columns []int // which variable stands in each column
	basic   []int // which variable is basic in each row
	rows    [][]*big.Rat
	bounds  []*big.Rat
	next    int
}

func newTableau(columns int) *tableau {
	table := &tableau{next: columns}
	for i := range columns {
		table.columns = append(table.columns, i)
	}
	return table
}

// row adds a row of zeros with its bound, to be filled in before anything is solved.
func (t *tableau) row(bound *big.Rat) []*big.Rat {
	row := make([]*big.Rat, len(t.columns))
	for i := range row {
		row[i] = new(big.Rat)
	}
	t.rows, t.bounds = append(t.rows, row), append(t.bounds, new(big.Rat).Set(bound))
	t.basic = append(t.basic, t.next)
	t.next++
	return row
}

// makeFeasible brings all bounds to zero or more by way of one more variable that is taken off every row, brought in
// where the shortfall is greatest and then made as small as can be; false where it can't be brought to nothing.
func (t *tableau) makeFeasible() bool {
	worst := -1
	for i, bound := range t.bounds {
		if bound.Sign() < 0 && (worst < 0 || bound.Cmp(t.bounds[worst]) < 0) {
			worst = i
		}
	}
	if worst < 0 {
		return true
	}
	helper := t.next
	t.next++
	t.columns = append(t.columns, helper)
	for i := range t.rows {
		t.rows[i] = append(t.rows[i], big.NewRat(-1, 1))
	}
	t.pivot(worst, len(t.columns)-1)
	if t.least(helper).Sign() > 0 {
		return false
	}
	t.drop(helper)
	return true
}

// drop takes a variable that is zero out of the program.
func (t *tableau) drop(variable int) {
	for i, basic := range t.basic {
		if basic != variable {
			continue
		}
		for column := range t.columns {
			if t.rows[i][column].Sign() != 0 {
				t.pivot(i, column)
				break
			}
		}
	}
	for column, standing := range t.columns {
		if standing != variable {
			continue
		}
		t.columns = append(t.columns[:column], t.columns[column+1:]...)
		for i := range t.rows {
			t.rows[i] = append(t.rows[i][:column], t.rows[i][column+1:]...)
		}
		return
	}
}

// greatest makes a variable as great as the rows allow and gives its value.
func (t *tableau) greatest(variable int) *big.Rat { return t.optimize(variable, 1) }

// least makes a variable as small as the rows allow and gives its value.
func (t *tableau) least(variable int) *big.Rat { return t.optimize(variable, -1) }

// optimize moves from corner to corner while the variable gains in the direction. Of the columns that gain, and of the
// rows that stop it first, the variable of the lowest number is taken.
func (t *tableau) optimize(variable int, direction int) *big.Rat {
	for {
		enter := -1
		for column, standing := range t.columns {
			if t.gain(variable, column)*direction > 0 && (enter < 0 || standing < t.columns[enter]) {
				enter = column
			}
		}
		if enter < 0 {
			return t.value(variable)
		}
		leave := -1
		var least *big.Rat
		for i := range t.rows {
			if t.rows[i][enter].Sign() <= 0 {
				continue
			}
			ratio := new(big.Rat).Quo(t.bounds[i], t.rows[i][enter])
			if leave < 0 || ratio.Cmp(least) < 0 || ratio.Cmp(least) == 0 && t.basic[i] < t.basic[leave] {
				leave, least = i, ratio
			}
		}
		if leave < 0 {
			return big.NewRat(1, 1) // without end: the margin's own row never lets this happen to it
		}
		t.pivot(leave, enter)
	}
}

// gain gives the sign by which a variable changes as the variable of a column grows from zero.
func (t *tableau) gain(variable, column int) int {
	if t.columns[column] == variable {
		return 1
	}
	for i, basic := range t.basic {
		if basic == variable {
			return -t.rows[i][column].Sign()
		}
	}
	return 0
}

// value gives what a variable is at this corner.
func (t *tableau) value(variable int) *big.Rat {
	for i, basic := range t.basic {
		if basic == variable {
			return t.bounds[i]
		}
	}
	return new(big.Rat)
}

// pivot lets the variable of a column and the basic variable of a row change places.
func (t *tableau) pivot(row, column int) {
	inverse := new(big.Rat).Inv(t.rows[row][column])
	t.basic[row], t.columns[column] = t.columns[column], t.basic[row]
	for j := range t.rows[row] {
		if j != column {
			t.rows[row][j].Mul(t.rows[row][j], inverse)
		}
	}
	t.rows[row][column].Set(inverse)
	t.bounds[row].Mul(t.bounds[row], inverse)
	product := new(big.Rat)
	for i := range t.rows {
		if i == row || t.rows[i][column].Sign() == 0 {
			continue
		}
		factor := new(big.Rat).Set(t.rows[i][column])
		for j := range t.rows[i] {
			if j == column {
				t.rows[i][j].Neg(product.Mul(factor, inverse))
			} else {
				t.rows[i][j].Sub(t.rows[i][j], product.Mul(factor, t.rows[row][j]))
			}
		}
		t.bounds[i].Sub(t.bounds[i], product.Mul(factor, t.bounds[row]))
	}
}
