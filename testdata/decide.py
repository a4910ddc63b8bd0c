"""decide.py FILE DECISIONS.csv: fills in the Judge review sheet as a judge would, row by row.

A line of DECISIONS.csv is tag, words, decision, corrected value, initials, remark. It goes into each row of that tag (* for any)
in which the words stand (in the measure or in what is wrong; * for any) and which has no decision yet; the first line that fits wins.
"""
import csv
import sys

from openpyxl import load_workbook

path, decisions = sys.argv[1:]
workbook = load_workbook(path)
sheet = workbook["Judge review"]
heading = next(row for row in sheet.iter_rows() if any(cell.value == "Decision" for cell in row))
column = {cell.value: cell.column for cell in reversed(heading) if cell.value}
with open(decisions, newline="") as file:
    lines = list(csv.reader(file))
used = set()
for row in range(heading[0].row + 1, sheet.max_row + 1):
    def at(name):
        return sheet.cell(row, column[name])
    tag, words = str(at("Tag").value or ""), "%s %s" % (at("Measure").value, at("What is wrong").value)
    if not tag or not at("What is wrong").value or at("Decision").value:
        continue
    for number, line in enumerate(lines):
        if line[0] in (tag, "*") and (line[1] == "*" or line[1].lower() in words.lower()):
            for name, value in zip(("Decision", "Corrected value", "Initials", "Remark or reason"), line[2:]):
                at(name).value = value or None
            used.add(number)
            break
for number, line in enumerate(lines):
    if number not in used and line[0] != "*":
        sys.exit("no row of the Judge review sheet fits %s" % line)
workbook.save(path)
