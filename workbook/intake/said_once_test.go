package intake

import "testing"

// What is said once above a table holds for all its carcasses, but for one that says it itself; what can't be read is
// asked about once, and never held against a carcass.
func TestSaidOnceAboveTheTable(t *testing.T) {
	const table = `
Tag | Carcass weight, lb | Tenth-rib fat, in | Loin muscle area, sq in
201 | 198                | .75               | 6.6
202 | 195                | .8                | 6.4`
	for name, test := range map[string]struct{ above, want string }{
		"all of it": {
			"Carcass weight: | chilled | hot or chilled\nSkinned: | no\nKill date: | 2025-08-19",
			"201 /  / swine: chilled-carcass-weight=198 kill-date=2025-08-19 tenth-rib-fat=0.75 loin-muscle-area=6.6 skinned=no\n" +
				"202 /  / swine: chilled-carcass-weight=195 kill-date=2025-08-19 tenth-rib-fat=0.8 loin-muscle-area=6.4 skinned=no",
		},
		"nothing": {
			"Carcass weight: | | hot or chilled\nSkinned: | | yes or no\nKill date:",
			"201 /  / swine: hot-carcass-weight=198 tenth-rib-fat=0.75 loin-muscle-area=6.6\n" +
				"202 /  / swine: hot-carcass-weight=195 tenth-rib-fat=0.8 loin-muscle-area=6.4",
		},
		"no date": {
			"Kill date: | Tuesday",
			"201 /  / swine: hot-carcass-weight=198 tenth-rib-fat=0.75 loin-muscle-area=6.6\n" +
				"202 /  / swine: hot-carcass-weight=195 tenth-rib-fat=0.8 loin-muscle-area=6.4\n" +
				"look unreadable value B1",
		},
		"other questions": {
			"Plant: | Cold Creek | Judge: | H. Hotspur\nRemarks: | dark cutter",
			"201 /  / swine: hot-carcass-weight=198 tenth-rib-fat=0.75 loin-muscle-area=6.6\n" +
				"202 /  / swine: hot-carcass-weight=195 tenth-rib-fat=0.8 loin-muscle-area=6.4",
		},
	} {
		t.Run(name, func(t *testing.T) {
			expect(t, readSheets(t, Options{}, sheetOf("Swine carcass rail sheet", test.above+table)), test.want)
		})
	}
	expect(t, readSheets(t, Options{}, sheetOf("Hogs", `
Skinned: | no
Tag | Carcass weight, lb | Tenth-rib fat, in | Skinned
201 | 198                | .75               | yes
202 | 195                | .8                |`)), `
201 / Hogs / swine: hot-carcass-weight=198 tenth-rib-fat=0.75 skinned=yes
202 / Hogs / swine: hot-carcass-weight=195 tenth-rib-fat=0.8 skinned=no
note class of the sheet  `)
}
