"""seal.py LINES FILE: recomputes the seal from the lines that "railbook verify --lines LINES FILE" writes, as the README describes
it, and compares it with the one that the Run record of FILE shows."""
import hashlib
import sys

from openpyxl import load_workbook

lines = open(sys.argv[1], "rb").read()
seal = hashlib.sha256(lines).hexdigest()
rows = lines.decode().split("\n")
if rows.pop() or sorted(rows, key=lambda row: row.encode()) != rows or any(len(row.split("\t")) != 5 for row in rows):
    sys.exit("the lines are not sorted lines of five fields")
shown = [row[1] for row in load_workbook(sys.argv[2])["Run record"].iter_rows(values_only=True) if row[0] and str(row[0]).startswith("Seal")]
print(seal)
if seal not in shown:
    sys.exit("the Run record shows %s" % shown)
