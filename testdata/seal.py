"""seal.py FILE: recomputes a signed workbook's seal from its Sealed record sheet as the README describes it, and compares it
with the one its Run record shows."""
import hashlib
import sys

from openpyxl import load_workbook

workbook = load_workbook(sys.argv[1])
record = list(workbook["Sealed record"].iter_rows(values_only=True))
start = next(number for number, row in enumerate(record) if row[:5] == ("Kind", "Class", "Tag", "Item", "Value"))
lines = []
for row in record[start + 1:]:
    fields = ["" if field is None else str(field) for field in row[:5]]
    if any(fields):
        lines.append("\t".join(" ".join(field.split()) for field in fields) + "\n")
lines.sort(key=lambda line: line.encode())
seal = hashlib.sha256("".join(lines).encode()).hexdigest()
shown = [row[1] for row in workbook["Run record"].iter_rows(values_only=True) if row[0] and str(row[0]).startswith("Seal")]
print(seal)
if seal not in shown:
    sys.exit("the Run record shows %s" % shown)
