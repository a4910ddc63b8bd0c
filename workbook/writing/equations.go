package writing

import "railbook/rules"

func (p *press) equations(page *page) {
	page.section("Equations and their sources", runColumns)
	_ = rules.Beef
}
