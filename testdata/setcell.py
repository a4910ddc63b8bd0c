"""setcell.py FILE SHEET CELL VALUE: types a value into a cell; a number is stored as a number, "" empties the cell; a sheet that is not there is made."""
import sys

from openpyxl import load_workbook

path, sheet, cell, value = sys.argv[1:]
workbook = load_workbook(path)
try:
    typed = float(value)
    typed = int(typed) if typed.is_integer() else typed
except ValueError:
    typed = value or None
page = workbook[sheet] if sheet in workbook.sheetnames else workbook.create_sheet(sheet)
page[cell].value = typed
workbook.save(path)
