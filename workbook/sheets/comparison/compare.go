package comparison

import (
	"slices"

	"railbook/grading/whatif"
	"railbook/rules"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// The sheets of a comparison workbook.
const (
	glanceSheet   = "At a glance"
	comparedSheet = "Carcasses"
	decidedSheet  = "Ties and limits"
)

// Comparison is what a comparison workbook shows: two rulebooks on the carcasses of past fairs.
type Comparison struct {
	OldName, NewName string // "Our rulebook 2025"
	Fairs            []ComparedFair
	Never            []rules.Fault // limits of the new rulebook that can never decide, or that nobody can pass
}

// ComparedFair is one past workbook under both rulebooks.
type ComparedFair struct {
	Name string // the file's
	whatif.Comparison
}

// All sums up every fair.
func (c *Comparison) All() (old, new whatif.Tally) {
	for _, fair := range c.Fairs {
		old, new = old.Plus(fair.OldAll), new.Plus(fair.NewAll)
	}
	return old, new
}

// ComparedClass is a class of one of the fairs.
type ComparedClass struct {
	Fair string
	whatif.ClassComparison
}

// Name is the class's name, with the fair's where there are several.
func (c ComparedClass) Name() string {
	name := c.Class
	if c.Basis == rules.LiveScan {
		name += ", ultrasound"
	}
	if c.Fair != "" {
		name += " (" + c.Fair + ")"
	}
	return name
}

// Classes gives every class of every fair.
func (c *Comparison) Classes() []ComparedClass {
	var all []ComparedClass
	for _, fair := range c.Fairs {
		name := ""
		if len(c.Fairs) > 1 {
			name = fair.Name
		}
		for _, class := range fair.Classes {
			all = append(all, ComparedClass{name, class})
		}
	}
	return all
}

// Counts counts the carcasses that stand elsewhere and those that bring another price.
func (c *Comparison) Counts() (moved, repriced int) {
	for _, class := range c.Classes() {
		for _, row := range class.Rows {
			if row.Moved() {
				moved++
			}
			if row.Repriced() {
				repriced++
			}
		}
	}
	return moved, repriced
}

// Unused gives what decided nothing at any of the fairs, under the old rulebook and the new. A fair without a species
// says nothing of that species' premiums and limits.
func (c *Comparison) Unused() (old, new []whatif.Unused) {
	return c.unusedAtAll(func(fair ComparedFair) []whatif.Unused { return fair.OldUnused }),
		c.unusedAtAll(func(fair ComparedFair) []whatif.Unused { return fair.NewUnused })
}

func (c *Comparison) unusedAtAll(of func(ComparedFair) []whatif.Unused) (all []whatif.Unused) {
	for _, fair := range c.Fairs {
		for _, unused := range of(fair) {
			decided := slices.ContainsFunc(c.Fairs, func(other ComparedFair) bool {
				return other.has(unused.Species) && !slices.Contains(of(other), unused)
			})
			if !decided && !slices.Contains(all, unused) {
				all = append(all, unused)
			}
		}
	}
	return all
}

// has reports whether a fair has carcasses of a species; of the empty one, whether it has any.
func (f ComparedFair) has(species rules.Species) bool {
	return slices.ContainsFunc(f.Classes, func(class whatif.ClassComparison) bool {
		return species == "" || class.Species == species
	})
}

// WriteComparison gives the comparison workbook's bytes. It names carcasses by their tags alone, for it is passed round.
func WriteComparison(comparison *Comparison) ([]byte, error) {
	draft, err := kit.FreshDraft("Comparison of rulebooks")
	if err != nil {
		return nil, err
	}
	sheets := comparisonSheets{Comparison: comparison, look: kit.NewLook(draft, false), draft: draft}
	sheets.glance = sheets.open(glanceSheet, "What the new rulebook would change", glanceWidths, kit.PageSetup{Landscape: true, Tab: kit.FirstTab})
	sheets.writeCarcasses()
	sheets.writeGlance()
	sheets.writeDecided()
	if sheets.err != nil {
		return nil, sheets.err
	}
	return draft.Bytes()
}

// comparisonSheets writes the sheets of a comparison. The first sheet sums up the second, so it is filled after it.
type comparisonSheets struct {
	*Comparison
	look   *kit.Look
	draft  *xlsx.Draft
	glance *kit.Page
	blocks []classBlock
	err    error
}

// classBlock is where the rows of a class stand on the sheet of carcasses.
type classBlock struct {
	class              ComparedClass
	band, first, total int
}

func (s *comparisonSheets) open(name, title string, widths []float64, wanted kit.PageSetup) *kit.Page {
	wanted.Name, wanted.Title, wanted.Widths, wanted.Status = name, title, widths, "Comparison"
	wanted.Subtitle = s.OldName + " against " + s.NewName
	return kit.OpenPage(s.draft.NewSheet, s.look, wanted)
}

func (s *comparisonSheets) Close(page *kit.Page) {
	if err := page.Close(); s.err == nil {
		s.err = err
	}
}

// moneyFormat and changeFormat show dollars; a change carries its sign, so that it needs no colour.
const (
	moneyFormat  = "#,##0.00_)"
	changeFormat = `+#,##0.00"  ";-#,##0.00"  ";0.00"  "`
	stepFormat   = "+0_);-0_);0_)"
)

// moneyEntry shows an amount of dollars, or a dash where there is none.
func moneyEntry(amount decimal.NullDecimal, of kit.Role) kit.Entry {
	if !amount.Valid {
		return kit.Entry{Value: "–", Style: kit.Style{Role: of, Align: "right"}}
	}
	return kit.Entry{Value: amount.Decimal, Style: kit.Style{Role: of, Format: moneyFormat}}
}
