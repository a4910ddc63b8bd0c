"""sheet.py TABLE.csv OUT.xlsx SHEET: makes a workbook of a text table; what looks like a number becomes one, tags stay text."""
import csv
import sys

from openpyxl import Workbook

table, out, name = sys.argv[1:]
workbook = Workbook()
workbook.active.title = name
with open(table, newline="") as file:
    for number, row in enumerate(csv.reader(file)):
        typed = []
        for column, value in enumerate(row):
            try:
                typed.append(float(value) if number and column else value)
            except ValueError:
                typed.append(value or None)
        workbook.active.append(typed)
workbook.save(out)
