"""Prints the links of a sheet to other files: a cell and where it leads, a line each."""
import sys

import openpyxl

book = openpyxl.load_workbook(sys.argv[1])
for row in book[sys.argv[2]].iter_rows():
    for cell in row:
        if cell.hyperlink is not None and cell.hyperlink.target:
            print(cell.coordinate, cell.hyperlink.target)
