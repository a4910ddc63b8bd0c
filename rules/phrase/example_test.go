package phrase_test

import (
	"fmt"

	"railbook/rules/phrase"
)

func ExampleJoinAnd() {
	fmt.Println(phrase.JoinAnd([]string{"fat", "ribeye area", "weight"}))
	// Output: fat, ribeye area and weight
}

func ExamplePlural() {
	fmt.Println(phrase.Plural(1, "carcass", "carcasses"), phrase.Plural(41, "carcass", "carcasses"))
	// Output: 1 carcass 41 carcasses
}

func ExampleNearest() {
	fmt.Println(phrase.Nearest("tymed", []string{"tag", "trimmed", "tied"}))
	// Output: tied
}
