"""Draws the smaller demo workbooks of the other species and of ultrasound classes: swine.xlsx, lamb.xlsx, goat.xlsx, ultrasound.xlsx,
scans.xlsx.

Run from anywhere with a Python that has openpyxl:  python3 testdata/demo/draw_others.py
Every name, tag and figure is invented; README.md beside this file lists the problems planted.
"""
import os
import random
import sys

from openpyxl import Workbook
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, os.path.dirname(HERE))
import stable  # noqa: E402

THIN = Side(style="thin", color="808080")
BOX = Border(left=THIN, right=THIN, top=THIN, bottom=THIN)


def draw(name, *sheets):
    """A workbook of untidy sheets."""
    workbook = Workbook()
    workbook.remove(workbook.active)
    for sheet in sheets:
        draw_sheet(workbook, *sheet)
    workbook.properties.creator = "Fair office"
    stable.save(workbook, os.path.join(HERE, name + ".xlsx"))


def draw_sheet(workbook, tab, titles, headings, classes, formats, notes=()):
    """One untidy sheet: titles, headings, each class under its own title row, notes below."""
    sheet = workbook.create_sheet(tab)
    row = 1
    for title in titles:
        sheet.merge_cells(start_row=row, start_column=1, end_row=row, end_column=len(headings))
        sheet.cell(row, 1, title).font = Font(name="Georgia", size=15 if row == 1 else 10, bold=row == 1)
        row += 1
    row += 1
    for column, heading in enumerate(headings, 1):
        cell = sheet.cell(row, column, heading)
        cell.font, cell.border = Font(name="Calibri", size=11, bold=True), BOX
        cell.fill = PatternFill("solid", fgColor="DDE3DA")
        cell.alignment = Alignment(horizontal="center", vertical="center", wrap_text=True)
        sheet.column_dimensions[cell.column_letter].width = max(9, min(24, len(heading) * 0.9 + 3))
    sheet.row_dimensions[row].height = 32
    sheet.print_title_rows = "%d:%d" % (row, row)
    row += 1
    for class_title, animals in classes:
        if class_title:
            sheet.merge_cells(start_row=row, start_column=1, end_row=row, end_column=len(headings))
            sheet.cell(row, 1, class_title).font = Font(name="Calibri", size=11, bold=True)
            row += 1
        for animal in animals:
            for column, value in enumerate(animal, 1):
                cell = sheet.cell(row, column, value)
                cell.font, cell.border = Font(name="Calibri", size=11), BOX
                if headings[column - 1] in formats and not isinstance(value, str):
                    cell.number_format = formats[headings[column - 1]]
            row += 1
        row += 1
    for note in notes:
        sheet.cell(row, 1, note).font = Font(name="Calibri", size=9, italic=True)
        row += 1
    sheet.page_setup.orientation, sheet.page_setup.paperSize = "landscape", 1
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True


def swine():
    rng = random.Random(53153)
    classes = []
    for title, first in (("Lightweight barrows & gilts", 201), ("Heavyweight barrows & gilts", 231)):
        animals = []
        for number in range(9):
            live = rng.randint(232, 258) if first == 201 else rng.randint(262, 292)
            hot = round(live * rng.gauss(74.6, 1.0) / 100)
            fat = round(min(1.35, max(0.42, rng.gauss(0.74, 0.15))), 2)
            last_rib = round(fat + abs(rng.gauss(0.16, 0.06)), 2)
            area = round(7.0 + 0.018 * (hot - 195) - 1.4 * (fat - 0.74) + rng.gauss(0, 0.5), 2)
            colour = rng.choice([2, 3, 3, 3, 4])
            animals.append([str(first + number), live, hot, fat, last_rib, area, rng.choice([2, 2, 2, 3]), colour,
                            rng.choice([1, 2, 2, 3]), rng.choice([2, 2, 3]), rng.choice([2, 2, 3]), None])
        classes.append((title, animals))
    classes[0][1][2][3] = round(classes[0][1][2][3] * 25.4)  # millimetres
    classes[0][1][5][5] = 2.6  # loin depth typed as area
    classes[1][1][1][7], classes[1][1][1][9] = 1, 1  # pale and soft: below the contest minimum
    classes[1][1][6][11] = "retained by inspector"
    draw("swine", ("Hogs on the rail", ("Tamberly County Junior Fair - market hogs", "Quillstone Locker & Meats, hot weights, skin on"),
         ["Tag", "Live wt, lb", "Hot wt, lb", "10th rib BF, in", "Last rib fat, in", "LEA, sq in", "Muscling", "Color", "Marbling",
          "Firmness", "Wetness", "Remarks"], classes,
         {"10th rib BF, in": "0.00", "Last rib fat, in": "0.00", "LEA, sq in": "0.00"},
         ("Muscling 1 thin, 2 average, 3 thick.",)))


def lamb():
    rng = random.Random(1992)
    animals = []
    for number in range(14):
        live = rng.randint(112, 152)
        hot = round(live * rng.gauss(53.0, 1.6) / 100, 1)
        fat = round(min(0.46, max(0.08, rng.gauss(0.21, 0.07))), 2)
        wall = round(0.55 + 1.5 * fat + rng.gauss(0, 0.06), 2)
        area = round(1.2 + 0.025 * hot + rng.gauss(0, 0.25), 2)
        streaking = rng.choice(["SL 60", "SM 10", "SM 40", "SM 70", "MT 10", "MT 40", "TR 80"])
        conformation = rng.choice(["Choice", "High Choice", "High Choice", "Low Prime", "Prime", "Low Choice"])
        animals.append([str(301 + number), live, hot, fat, wall, area, rng.choice([11, 12, 12, 13, 14]), streaking, conformation,
                        rng.choice(["A50", "A60", "A70", "A40"]), None])
    animals[0][3], animals[1][3] = 0.15, 0.16  # either side of the line between yield grades 1 and 2
    animals[2][3], animals[3][3] = 0.35, 0.36  # either side of the line between 3 and 4
    animals[5][5] = animals[5][5] * 10  # decimal slip
    animals[8][4] = animals[8][3]  # body wall no thicker than the fat alone
    animals[11][2] = None  # missing weight
    draw("lamb", ("Lamb carcass", ("Tamberly County Junior Fair - market lambs", "hot carcass weights in lb"),
         ["Tag #", "Live wt", "HCW", "Fat, in", "Body wall, in", "REA", "Leg score", "Flank streaking", "Conformation", "Maturity", "Remarks"],
         [("MARKET LAMBS", animals)], {"Fat, in": "0.00", "Body wall, in": "0.00", "REA": "0.00", "HCW": "0.0"},
         ("Fat is the mean of both sides.", "Body wall taken 1 inch beyond the eye.")))


def goat():
    rng = random.Random(11)
    animals = []
    for number in range(10):
        live = rng.randint(66, 98)
        hot = round(live * rng.gauss(47.5, 1.2) / 100, 1)
        animals.append([str(351 + number), "Light wethers" if live < 82 else "Heavy wethers",
                        live, hot, round(1.3 + 0.018 * (hot - 38) + rng.gauss(0, 0.18), 2), round(rng.gauss(0.42, 0.06), 2),
                        rng.choice([1, 1, 2, 2, 3]), None])
    animals[3][2], animals[3][3] = animals[3][3], animals[3][2]  # live and carcass weight exchanged
    animals[6][4] = "1.5?"  # unreadable
    draw("goat", ("Goats", ("Tamberly County Junior Fair - market goats",),
         ["Tag", "Class", "Live weight", "Hot carcass weight", "Loin eye area", "Body wall", "Selection", "Remarks"],
         [(None, animals)], {"Loin eye area": "0.00", "Body wall": "0.00", "Hot carcass weight": "0.0"}))


def ultrasound():
    rng = random.Random(1213)
    animals = []
    for number in range(12):
        live = rng.randint(1240, 1480)
        fat = round(min(0.85, max(0.18, rng.gauss(0.44, 0.12))), 2)
        area = round(11.0 + 0.012 * (live * 0.62 - 600) + rng.gauss(0, 0.7), 1)
        animals.append([str(461 + number), live, fat, area, round(max(2.4, rng.gauss(4.9, 0.9)), 2)])
    animals[4][2] = 5  # tenths of an inch
    animals[9][4] = None  # no percent intramuscular fat
    draw("ultrasound", ("Ultrasound steers", ("Tamberly County Junior Fair", "SCAN SESSION - ultrasound, live animals, 12th-13th rib"),
         ["Tag", "Scan wt (live, lb)", "US fat, in", "US REA, sq in", "IMF %"],
         [("ULTRASOUND STEERS", animals)], {"US fat, in": "0.00", "US REA, sq in": "0.0", "IMF %": "0.00"}))


def scans():
    """Hogs, lambs and goats that go home again: three sheets of one scan session."""
    rng = random.Random(486)
    hogs, lambs, goats = [], [], []
    for number in range(8):
        live = rng.randint(248, 286)
        fat = round(min(1.2, max(0.4, rng.gauss(0.7, 0.14))), 2)
        hogs.append(["%04d" % (501 + number), rng.choice(["Barrow", "Gilt"]), live, fat, round(7.4 + 0.015 * (live - 265) - 1.2 * (fat - 0.7) + rng.gauss(0, 0.4), 2)])
    for number in range(8):
        live = rng.randint(114, 148)
        fat = round(min(0.44, max(0.09, rng.gauss(0.21, 0.06))), 2)
        lambs.append(["%04d" % (531 + number), live, fat, round(0.55 + 1.4 * fat + rng.gauss(0, 0.05), 2), round(1.2 + 0.0135 * live + rng.gauss(0, 0.2), 2)])
    for number in range(7):
        live = rng.randint(64, 99)
        goats.append(["%04d" % (561 + number), live, round(1.25 + 0.0086 * (live - 80) + rng.gauss(0, 0.15), 2), round(rng.gauss(0.42, 0.05), 2)])
    hogs[2][3] = round(hogs[2][3] * 25.4)  # millimetres
    hogs[5][1] = None  # the equation asks whether it is a barrow or a gilt
    lambs[4][2] = round(lambs[4][2] * 10, 1)  # tenths of an inch
    goats[3][1] = None  # no weight, so no carcass weight can be estimated
    title = ("Tamberly County Junior Fair", "SCAN SESSION - ultrasound of live animals")
    draw("scans",
         ("Hog scans", title, ["Tag", "Sex", "Scan weight", "US 10th rib BF, in", "US LEA, sq in"], [("SCANNED HOGS", hogs)],
          {"US 10th rib BF, in": "0.00", "US LEA, sq in": "0.00"}),
         ("Lamb scans", title, ["Tag", "Live wt at scan", "UFAT", "U/S body wall", "UREA"], [("SCANNED LAMBS", lambs)],
          {"UFAT": "0.00", "U/S body wall": "0.00", "UREA": "0.00"}),
         ("Goat scans", title, ["Tag", "Live wt at scan", "Scan REA", "Scan body wall"], [("SCANNED GOATS", goats)],
          {"Scan REA": "0.00", "Scan body wall": "0.00"}))


swine()
lamb()
goat()
ultrasound()
scans()
