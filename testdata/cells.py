"""cells.py values|formulas FILE SHEET RANGE: prints the cells of a range, a line a row, separated by " | "."""
import sys

from openpyxl import load_workbook

what, path, sheet, cells = sys.argv[1:]
workbook = load_workbook(path, read_only=True, data_only=what == "values")  # of the sheets, the one alone is read
if sheet not in workbook.sheetnames:
    sys.exit("no sheet %r; there are %s" % (sheet, ", ".join(workbook.sheetnames)))
area = workbook[sheet][cells]
if not isinstance(area, tuple):
    area = ((area,),)
for row in area:
    print(" | ".join("" if cell.value is None else str(cell.value) for cell in (row if isinstance(row, tuple) else (row,))).rstrip(" |"))
