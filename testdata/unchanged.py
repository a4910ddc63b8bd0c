"""unchanged.py INPUT OUTPUT [SHEET!CELL…]: everything of INPUT is in OUTPUT as it was, but for the values of the cells named.

Compared as openpyxl reads them: sheet order and state, every cell's stored value, cached value and style, comments,
hyperlinks, merged ranges, column widths, row heights, hidden rows, panes, filters, validations, print set-up, defined names.
"""
import os
import sys
import zipfile

from openpyxl import load_workbook
from openpyxl.cell.cell import MergedCell

path, out, *excepted = sys.argv[1:]
faults = []


def same(what, was, now):
    if was != now:
        faults.append("%s: was %r, is %r" % (what, was, now))


def style(cell):
    """The style as text; what is off and what is not said are the same."""
    return tuple(repr(getattr(cell, part)).replace("=False", "=None") for part in ("font", "fill", "border", "alignment", "protection")) + (cell.number_format,)


def compare_cells(sheet, old, new, styles):
    for row in old.iter_rows():
        for cell in row:
            name = "%s!%s" % (sheet, cell.coordinate)
            other = new[cell.coordinate]
            if name not in excepted:
                same(name, cell.value, other.value)
            if not styles or isinstance(cell, MergedCell):
                continue
            if cell.has_style and style(cell) != style(other):
                faults.append(name + ": its style changed")
            same(name + " comment", cell.comment and cell.comment.text, other.comment and other.comment.text)
            same(name + " link", cell.hyperlink and cell.hyperlink.ref, other.hyperlink and other.hyperlink.ref)


def compare_sheet(sheet, old, new):
    same(sheet + " state", old.sheet_state, new.sheet_state)
    same(sheet + " merged", sorted(str(each) for each in old.merged_cells.ranges), sorted(str(each) for each in new.merged_cells.ranges))
    for letter, column in old.column_dimensions.items():
        same("%s width of %s" % (sheet, letter), (column.width, column.hidden), (new.column_dimensions[letter].width, new.column_dimensions[letter].hidden))
    for number, row in old.row_dimensions.items():
        same("%s row %s" % (sheet, number), (row.height, row.hidden), (new.row_dimensions[number].height, new.row_dimensions[number].hidden))
    same(sheet + " panes", old.freeze_panes, new.freeze_panes)
    same(sheet + " filter", old.auto_filter.ref, new.auto_filter.ref)
    same(sheet + " validations", len(old.data_validations.dataValidation), len(new.data_validations.dataValidation))
    same(sheet + " page", (old.page_setup.orientation, old.page_setup.paperSize, old.page_setup.fitToHeight),
         (new.page_setup.orientation, new.page_setup.paperSize, new.page_setup.fitToHeight))
    same(sheet + " titles", (old.print_title_rows, old.print_title_cols), (new.print_title_rows, new.print_title_cols))
    same(sheet + " footer", old.oddFooter.center.text, new.oddFooter.center.text)


for styles in (True, False):  # stored values and styles, then cached values
    old, new = load_workbook(path, data_only=not styles), load_workbook(out, data_only=not styles)
    same("sheets", old.sheetnames, [name for name in new.sheetnames if name in old.sheetnames])
    if faults:
        break
    for sheet in old.sheetnames:
        if not hasattr(old[sheet], "iter_rows"):
            continue
        if styles:
            compare_sheet(sheet, old[sheet], new[sheet])
        compare_cells(sheet, old[sheet], new[sheet], styles)
for defined in old.defined_names.definedName:
    same("name " + defined.name, defined.attr_text, new.defined_names[defined.name].attr_text if defined.name in new.defined_names else None)

with zipfile.ZipFile(path) as old_parts, zipfile.ZipFile(out) as new_parts:
    kept = set(new_parts.namelist())
    for part in old_parts.namelist():
        if part.startswith("xl/worksheets/"):  # compared above, sheet by sheet: openpyxl numbers their parts by the tabs
            continue
        if part not in kept and part not in ("xl/calcChain.xml", "docProps/thumbnail.jpeg"):
            faults.append("the part %s is gone" % part)

if faults:
    sys.exit("%d changes in %s:\n%s" % (len(faults), os.path.basename(out), "\n".join(faults[:40])))
print("unchanged")
