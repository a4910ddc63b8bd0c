package kit

// Cautions are printed with every set of results.
var Cautions = []string{
	"Grades here are computed estimates for a youth contest; only an official grader assigns an official grade.",
	"Prices are for teaching and are no offer to buy or sell.",
	"The plant's inspector alone decides whether a carcass is fit for food: a condemned or retained carcass is never placed.",
	"Local fair rules, the judge and the inspector come before this program.",
	"Names of minors may be printed or posted only where the fair has consent; the public sheet leaves the others out.",
}

func WriteCautions(p *Page, columns int) {
	p.Skip(1)
	p.Across("Cautions", Band, 1, columns)
	for _, caution := range Cautions {
		p.Across(caution, Note, 1, columns)
	}
}
