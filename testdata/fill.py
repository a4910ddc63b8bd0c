"""Fills in a blank rail sheet as a plant and a judge would: fill.py FILE OUT WHAT [WEIGHTS]

WHAT is all (every area typed), dots (dots counted on every other line, 12 to the first), first (the first line of each
sheet alone) or none (the questions above the headings alone). WEIGHTS is hot or chilled, or unsaid.
"""
import datetime
import sys

import openpyxl

PLAUSIBLE = {
    "beef": {
        "Live weight, lb": 1250, "Scan weight, lb": 1250, "Carcass weight, lb": 780, "Measured fat, in": 0.4,
        "Fat adjustment, in": 0.05, "Ribeye area, sq in": 13.6, "KPH %": 2.5, "Marbling": "Small 40", "Maturity": "A60",
        "Intramuscular fat, %": 4.3, "Intramuscular fat %": 4.3,
    },
    "swine": {
        "Live weight, lb": 268, "Scan weight, lb": 268, "Carcass weight, lb": 198, "Tenth-rib fat, in": 0.75,
        "Last-rib fat, in": 0.95, "Loin muscle area, sq in": 6.6, "Muscling score": 2, "Lean color": 3, "Marbling": 2,
        "Firmness": 2, "Wetness": 3, "Sex": "gilt",
    },
    "lamb": {
        "Live weight, lb": 132, "Scan weight, lb": 132, "Carcass weight, lb": 68, "Measured fat, in": 0.2,
        "Fat adjustment, in": None, "Body wall thickness, in": 0.9, "Ribeye area, sq in": 2.7, "Leg score": 12,
        "Flank streaking": "Small 40", "Conformation": "Average Choice", "Maturity": "A60",
    },
    "goat": {
        "Live weight, lb": 84, "Scan weight, lb": 84, "Carcass weight, lb": 40, "Ribeye area, sq in": 1.55,
        "Body wall thickness, in": 0.45, "Selection": 1,
    },
}
DOTS = "Grid dots counted"


def answer(sheet, question, value):
    """Writes beside a question above the headings, in the first cell after those it is merged over."""
    for row in sheet.iter_rows(max_row=7):
        for cell in row:
            if cell.value == question:
                after = cell.column + 1
                for area in sheet.merged_cells.ranges:
                    if area.min_row == cell.row and area.min_col == cell.column:
                        after = area.max_col + 1
                sheet.cell(cell.row, after).value = value


def fill(sheet, what, weights):
    species = sheet.title.split()[0].lower()
    if species not in PLAUSIBLE:
        return
    heads = next(row for row in sheet.iter_rows(max_row=20) if any(cell.value == "Remarks" for cell in row))
    columns = {cell.value: cell.column for cell in heads if cell.value}
    if weights != "unsaid":
        answer(sheet, "Carcass weight:", weights)
    # Names that would be read as something else if they were not known for what they are.
    answer(sheet, "Contest:", "Junior market steer and lamb carcass show")
    answer(sheet, "Place:", "Hog Hollow, Lamb County")
    answer(sheet, "Plant:", "Cold Creek Lamb Co., Hot Springs")
    answer(sheet, "Judge:", "Hedda Steers")
    answer(sheet, "Contest scan by:", "Goat Hill Scans")
    answer(sheet, "Skinned:", "no")
    answer(sheet, "Kill date:", datetime.date(2025, 8, 19))
    if what == "none":
        return
    step = -1
    for row in range(heads[0].row + 1, sheet.max_row + 1):
        if str(sheet.cell(row, columns["Tag"]).value or "Class: ").startswith("Class: "):
            continue
        step += 1
        if what == "first" and step > 0:
            continue
        for heading, value in PLAUSIBLE[species].items():
            if heading not in columns:
                continue
            if isinstance(value, (int, float)) and heading.endswith((", lb", ", in", ", sq in", "%")):
                value = round(value * (1 + 0.011 * step), 0 if heading.endswith("lb") else 2)
            if what == "dots" and step % 2 == 0 and DOTS in columns and heading.endswith(", sq in"):
                sheet.cell(row, columns[DOTS]).value = round(value * 10)
                continue
            sheet.cell(row, columns[heading]).value = value
        if "Rail number" in columns:
            sheet.cell(row, columns["Rail number"]).value = 100 + step


book = openpyxl.load_workbook(sys.argv[1])
for one in book:
    fill(one, sys.argv[3], sys.argv[4] if len(sys.argv) > 4 else "hot")
book.save(sys.argv[2])
