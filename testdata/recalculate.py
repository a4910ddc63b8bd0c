"""recalculate.py FILE: LibreOffice recalculates a results workbook; every cell of ours must keep its value and type.

Ours are the blocks named railbook_columns_N and the sheets named railbook_sheet_… by workbook defined names.
Numbers may differ by 1e-9 of their size. An empty text and a blank cell count as the same. A workbook in which
nothing of ours is a formula with a cached value is a failure too, for then nothing was tested.
"""
import os
import sys
import tempfile

from openpyxl import load_workbook

import office


def ours(workbook):
    """Gives (sheet, cell range) of everything of ours; None stands for a whole sheet."""
    for defined in workbook.defined_names.definedName:
        for sheet, cells in defined.destinations if defined.name.startswith("railbook_") else ():
            yield sheet, cells.replace("$", "") if defined.name.startswith("railbook_columns") else None


def cells_of(worksheet, area):
    rows = worksheet.iter_rows() if area is None else worksheet[area]
    for row in rows if isinstance(rows, tuple) and isinstance(rows[0], tuple) or area is None else (rows,):
        for cell in row:
            yield cell


def kind(cell):
    if cell.value is None or cell.value == "":
        return "blank", None
    if cell.data_type in ("b", "e"):
        return cell.data_type, cell.value
    return ("n", cell.value) if cell.data_type == "n" or cell.data_type == "d" else ("s", str(cell.value))


def differ(was, now):
    if was[0] != now[0]:
        return True
    if was[0] == "n" and isinstance(was[1], (int, float)) and isinstance(now[1], (int, float)):
        return abs(was[1] - now[1]) > 1e-9 * max(abs(was[1]), abs(now[1]))
    return was[1] != now[1]


path = sys.argv[1]
with tempfile.TemporaryDirectory() as folder:
    after = load_workbook(office.convert(path, "xlsx", folder), data_only=True)
before, formulas = load_workbook(path, data_only=True), load_workbook(path)
compared = with_formula = 0
faults = []
for sheet, area in ours(before):
    for cell in cells_of(before[sheet], area):
        compared += 1
        is_formula = formulas[sheet][cell.coordinate].data_type == "f"
        with_formula += is_formula
        was, now = kind(cell), kind(after[sheet][cell.coordinate])
        if differ(was, now):
            faults.append("%s!%s: we wrote %r, LibreOffice computes %r  %s" % (
                sheet, cell.coordinate, was[1], now[1], formulas[sheet][cell.coordinate].value if is_formula else ""))
        if is_formula and was[0] == "e":
            faults.append("%s!%s: an error value %s" % (sheet, cell.coordinate, was[1]))
print("%d cells of ours, %d formulas, %d differ" % (compared, with_formula, len(faults)))
if faults or not with_formula:
    sys.exit("\n".join(faults[:40]) or "no formula of ours was found: nothing was compared")
