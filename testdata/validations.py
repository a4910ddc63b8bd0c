"""validations.py FILE SHEET: prints each entry rule of a sheet as openpyxl reads it: cells, type, operator, bounds, style, words."""
import sys

from openpyxl import load_workbook

for rule in load_workbook(sys.argv[1])[sys.argv[2]].data_validations.dataValidation:
    print(rule.sqref, rule.type or "any", rule.operator or "between", rule.formula1, rule.formula2,
          rule.errorStyle or "stop", rule.error, sep=" | ")
