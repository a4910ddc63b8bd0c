"""swaprows.py FILE SHEET A B: gives two rows of a sheet each other's place, values and formulas, as sorting does."""
import sys

from openpyxl import load_workbook
from openpyxl.formula.translate import Translator

path, sheet, first, second = sys.argv[1:]
workbook = load_workbook(path)
page = workbook[sheet]


def moved(cell, to):
    value = cell.value
    if isinstance(value, str) and value.startswith("="):
        return Translator(value, origin=cell.coordinate).translate_formula(to)
    return value


for column in range(1, page.max_column + 1):
    a, b = page.cell(int(first), column), page.cell(int(second), column)
    a.value, b.value = moved(b, a.coordinate), moved(a, b.coordinate)
workbook.save(path)
