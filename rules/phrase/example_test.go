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

func ExampleFew() {
	fmt.Println(phrase.JoinAnd(phrase.Few([]string{"401", "402", "403", "404"})))
	fmt.Println(phrase.JoinAnd(phrase.Few([]string{"401", "402", "403", "404", "405"})))
	// Output:
	// 401, 402, 403 and 404
	// 401, 402, 403, 404 and 1 more
}

func ExampleExamples() {
	fmt.Println(phrase.Examples([]string{"A4", "A5"}, 2), phrase.Examples([]string{"A4", "A5", "A6"}, 2))
	// Output: [A4 A5] [A4 A5 …]
}

func ExampleSentence() {
	fmt.Println(phrase.Sentence("écru lamb"), phrase.Sentence("is it?"), phrase.Uncapital("Fat"))
	// Output: Écru lamb. Is it? fat
}

func ExampleQuote() {
	fmt.Println(phrase.Quote(`2 ct`), phrase.Quote(`14" rib`))
	// Output: "2 ct" '14" rib'
}

func ExampleAgreeing() {
	fmt.Println(phrase.Agreeing(1, "was", "were"), phrase.Agreeing(0, "was", "were"))
	// Output: was were
}
