"""setcell.py FILE SHEET CELL VALUE [CELL VALUE ...]: types values into cells; a number is stored as a number, "" empties the cell; a sheet that is not there is made."""
import sys

from openpyxl import load_workbook

path, sheet, *typed = sys.argv[1:]
workbook = load_workbook(path)
page = workbook[sheet] if sheet in workbook.sheetnames else workbook.create_sheet(sheet)
for cell, text in zip(typed[::2], typed[1::2]):
    try:
        number = float(text)
        value = int(number) if number.is_integer() else number
    except ValueError:
        value = text or None
    page[cell].value = value
workbook.save(path)
