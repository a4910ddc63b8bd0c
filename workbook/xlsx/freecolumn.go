package xlsx

import "unsafe"

// widestGap is how far from the data columns may be added, to pass over cells that are empty but have a format.
const widestGap = 40

// FreeColumn gives the first column, from the given one on, to the right of everything that is stored in the rows:
// cells that are empty but have borders, and merged cells, are passed over where they do not go too far (a line of headings is
// merged over a whole row, up to the sheet's last column). Where they do, it is the given column, and what is added takes the
// place of empty cells.
func (b *Book) FreeColumn(sheet string, firstRow, lastRow, from int) (int, error) {
	part, err := b.sheetPart(sheet)
	if err != nil {
		return 0, err
	}
	data := b.contents.parts[part]
	_, list, err := children(data, "")
	if err != nil {
		return 0, err
	}
	free, merged, ours := from, from, from
	for _, element := range list {
		switch element.name {
		case "sheetData":
			last, err := b.lastStored(part, element, firstRow, lastRow)
			if err != nil {
				return 0, err
			}
			free = max(free, last+1)
		case "mergeCells":
			setting := setting{data: data}
			setting.readMerged(list)
			for _, area := range setting.merged {
				if area.LastRow >= firstRow && area.FirstRow <= lastRow {
					merged = max(merged, area.LastColumn+1)
				}
			}
		}
	}
	for _, added := range b.additions {
		if added.sheet != sheet {
			continue
		}
		for _, block := range added.blocks {
			if area := block.area(); area.LastRow >= firstRow && area.FirstRow <= lastRow {
				ours = max(ours, area.LastColumn+1)
			}
		}
	}
	for _, far := range []*int{&free, &merged} {
		if *far-from > widestGap {
			*far = from
		}
	}
	return max(free, merged, ours), nil
}

// lastStored gives the last column that has a cell in the rows.
func (b *Book) lastStored(part string, sheetData element, firstRow, lastRow int) (last int, err error) {
	all, err := b.endsOfRows(part, sheetData)
	for _, ends := range all {
		if ends.last >= firstRow && ends.first <= lastRow {
			last = max(last, ends.column)
		}
	}
	return last, err
}

// rowEnds are rows one after another whose last cells stand in one column.
type rowEnds struct{ first, last, column int }

// endsOfSheet is where the rows of a sheet end.
type endsOfSheet struct {
	data *byte    // of the part that they were found in
	list *listing // or its list
	from int      // where the rows begin
	rows []rowEnds
}

// endsOfRows gives where the rows of a sheet end that have a cell. While one sheet is asked about it is found out once.
func (b *Book) endsOfRows(part string, sheetData element) ([]rowEnds, error) {
	data, list := b.contents.parts[part], b.contents.lists[part]
	asked := endsOfSheet{data: unsafe.SliceData(data), list: list, from: sheetData.start}
	if kept := b.ends; kept.data == asked.data && kept.list == asked.list && kept.from == asked.from {
		return kept.rows, nil
	}
	var err error
	if asked.rows, err = findEnds(list, data, sheetData); err == nil {
		b.ends = asked
	}
	return asked.rows, err
}

func findEnds(list *listing, data []byte, sheetData element) (all []rowEnds, err error) {
	plain := list.isPlain(data[sheetData.start:sheetData.until])
	previous := 0
	err = list.inside(data, sheetData, func(piece []byte, _ int) error {
		walk := within(piece)
		for {
			row, err := walk.next()
			if err != nil || row.kind == endOfPart {
				return err
			}
			if row.kind != startElement {
				continue
			}
			number := previous + 1
			if given, ok := row.number("r"); ok {
				number = given
			}
			previous = number
			end, err := walk.skipRow(row, plain && row.name == "row")
			if err != nil {
				return err
			}
			if row.closed {
				continue
			}
			column, ok := lastCell(walk.data[row.end:end.start], row.prefix)
			if !ok || !plain {
				if column, err = lastOf(walk.data, row); err != nil {
					return err
				}
			}
			switch at := len(all) - 1; {
			case column == 0:
			case at >= 0 && all[at].column == column && all[at].last+1 == number:
				all[at].last = number
			default:
				all = append(all, rowEnds{number, number, column})
			}
		}
	})
	return all, err
}

// lastOf gives the last column of a row that has just begun, whatever the order of its cells; 0 where it has none.
func lastOf(data string, row token) (last int, err error) {
	cells, err := cellsOfRow(nil, data, row)
	for _, cell := range cells {
		last = max(last, cell.column)
	}
	return last, err
}
