package validate

import (
	"strings"
	"testing"

	"railbook/rules"
)

func TestWeights(t *testing.T) {
	for _, test := range []struct{ name, row, want string }{
		{"sides make the whole", "left side weight=391; right side weight=388", ""},
		{"no whole, sides far apart", "hot carcass weight=; left side weight=391; right side weight=219; live weight=", "hold sides disagree O5"},
		{"chilled as usual", "chilled carcass weight=762", ""},
		{"chilled a digit off", "chilled carcass weight=7620", "hold chilled and hot weight disagree N5 762"},
		{"fair weight as usual", "fair weight=1290", ""},
		{"fair weight far off", "fair weight=1450", "look fair and live weight disagree C5 1350"},
		{"live weight twice", "hot carcass weight=1250", "hold carcass heavier than live D5"},
		{"exchanged", "hot carcass weight=1250; live weight=780", "hold values exchanged D5 780"},
	} {
		var want []string
		if test.want != "" {
			want = strings.Split(test.want, "; ")
		}
		expect(t, test.name, drawLot(t, rules.Beef, trueRow(t).but(t, test.row)), want...)
	}
}
