"""judge.py FILE ENTRIES.csv: plays a judge who settles the Judge review sheet, and prints how many cells that takes.

A line of ENTRIES.csv is where, words, decision, corrected value, remark. It goes into the row of that tag and cell ("0422 B19", or
the tag alone) in which the words stand. The line "all rows" gives initials and date, once for every row.
"""
import csv
import sys

from openpyxl import load_workbook

path, entries = sys.argv[1:]
workbook = load_workbook(path)
sheet = workbook["Judge review"]
heading = next(row for row in sheet.iter_rows() if any(cell.value == "Decision" for cell in row))
column = {cell.value: cell.column for cell in reversed(heading) if cell.value}
filled = 0


def write(row, names, values):
    global filled
    for name, value in zip(names, values):
        if value:
            sheet.cell(row, column[name]).value = value
            filled += 1


for line in csv.reader(open(entries, newline="")):
    where, words, values = line[0], line[1], line[2:]
    if where == "all rows":
        write(heading[0].row - 1, ("Initials", "Date"), values)
        continue
    tag, _, cell = where.partition(" ")
    fits = [
        row for row in range(heading[0].row + 1, sheet.max_row + 1)
        if str(sheet.cell(row, column["Tag"]).value or "") == tag
        and str(sheet.cell(row, column["Where"]).value or "").startswith(cell)
        and words.lower() in ("%s %s" % (sheet.cell(row, column["Measure"]).value, sheet.cell(row, column["What is wrong"]).value)).lower()
    ]
    if len(fits) != 1:
        sys.exit("%d rows of the Judge review sheet fit %s" % (len(fits), line))
    write(fits[0], ("Decision", "Corrected value", "Remark or reason"), values)
workbook.save(path)
print(filled, "entries")
