"""Draws the sheets of this folder, each with the reading that is expected of it beside it (NAME.expected.csv).

Run from anywhere with a Python that has openpyxl:  python3 testdata/layouts/draw.py [--office]
With --office the sheets named in RESAVED are re-saved by LibreOffice afterwards, as they are in the repository.
The expected values are written here by hand from the sheets' meaning; conversions use the exact factors
25.4 mm = 1 in, 0.45359237 kg = 1 lb and 6.4516 cm² = 1 in², rounded to 4 decimals, half away from zero.
All fairs, people and figures are invented.

An expected line is tag, class, measure, value, unit. Class * is any, and so is value *; "A|B" for a tag is either.
Marbling is in hundreds a degree, maturity from A00 = 100. Value "unreadable" means: something is written that must not
become a number. The measure "anything else" allows readings that are not listed. A line with the measure "finding" names a
cell (SHEET!CELL) about which something must be said.
"""
import csv
import datetime
import os
import shutil
import sys
import tempfile
import zipfile
from decimal import ROUND_HALF_UP, Decimal

from openpyxl import Workbook
from openpyxl.chart import BarChart, Reference
from openpyxl.comments import Comment
from openpyxl.formatting.rule import CellIsRule
from openpyxl.styles import Alignment, Font, PatternFill
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.table import Table, TableStyleInfo

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, os.path.dirname(HERE))
import office  # noqa: E402
import stable  # noqa: E402

UNITS = {"live weight": "lb", "fair weight": "lb", "hot carcass weight": "lb", "chilled carcass weight": "lb", "left side weight": "lb",
         "right side weight": "lb", "measured fat": "in", "fat adjustment": "in", "adjusted fat": "in", "ribeye area": "sq in",
         "kidney, pelvic and heart fat": "%", "dots outlined": "sq in", "dots missing": "dots", "dots outside": "dots",
         "body wall thickness": "in", "left fat": "in", "right fat": "in", "last-rib fat": "in", "start weight": "lb"}
SHORT = {"live": "live weight", "fair": "fair weight", "hot": "hot carcass weight", "cold": "chilled carcass weight", "left": "left side weight",
         "right": "right side weight", "fat": "measured fat", "adj": "fat adjustment", "rea": "ribeye area",
         "kph": "kidney, pelvic and heart fat", "marb": "marbling", "mat": "maturity", "yg": "sheet yield grade", "qg": "sheet quality grade"}
RESAVED = ["class-titles", "metric", "hidden-and-filtered", "formulas", "grade-words"]
ALL = {}


def layout(draw):
    """Registers a function that draws a layout under the function's name."""
    ALL[draw.__name__.replace("_", "-")] = draw
    return draw


def rounded(value):
    return value.quantize(Decimal("0.0001"), ROUND_HALF_UP).normalize()


def inches(mm):
    return rounded(Decimal(str(mm)) / Decimal("25.4"))


def pounds(kg):
    return rounded(Decimal(str(kg)) / Decimal("0.45359237"))


def square_inches(cm2):
    return rounded(Decimal(str(cm2)) / Decimal("6.4516"))


class Expected:
    def __init__(self):
        self.lines = []

    def carcass(self, tag, group, **measures):
        for short, value in measures.items():
            measure = SHORT.get(short, short.replace("_", " "))
            self.lines.append((tag, group, measure, format(value, "f") if isinstance(value, Decimal) else value, UNITS.get(measure, "")))

    def finding(self, place):
        self.lines.append(("", "*", "finding", place, ""))

    def save(self, name):
        with open(os.path.join(HERE, name + ".expected.csv"), "w", newline="") as file:
            writer = csv.writer(file, lineterminator="\n")
            writer.writerow(("tag", "class", "measure", "value", "unit"))
            writer.writerows(self.lines)


def book(*sheets):
    """Makes a workbook of (title, rows); a row is a list from column A, None a blank row."""
    workbook = Workbook()
    workbook.remove(workbook.active)
    for title, rows in sheets:
        sheet = workbook.create_sheet(title)
        for number, row in enumerate(rows, 1):
            for column, value in enumerate(row or (), 1):
                if value is not None:
                    sheet.cell(number, column, value)
    return workbook


@layout
def two_blocks(expected):
    """Two classes side by side on one sheet, each with its own title and headings."""
    heads = ["Tag", "Live Wt", "Hot Wt", "Fat", "REA", "KPH", "Marb", "Mat"]
    left = [["101", 1215, 762, .45, 13.1, 2.5, "SM 20", "A60"], ["102", 1180, 731, .3, 12.9, 2, "SL 80", "A50"],
            ["103", 1262, 790, .6, 12.4, 3, "MT 10", "A70"]]
    right = [["201", 1190, 744, .55, 12.2, 2.5, "SM 70", "A60"], ["202", 1244, 775, .4, 13.8, 2, "SL 60", "A40"]]
    workbook = book(("Results", [["Steers"] + [None] * 8 + ["Heifers"], heads + [None] + heads,
                                 left[0] + [None] + right[0], left[1] + [None] + right[1], left[2]]))
    workbook["Results"].merge_cells("A1:H1")
    workbook["Results"].merge_cells("J1:Q1")
    for group, rows in (("Steers", left), ("Heifers", right)):
        for tag, live, hot, fat, rea, kph, _, _ in rows:
            marb, mat = {"101": (420, 160), "102": (380, 150), "103": (510, 170), "201": (470, 160), "202": (360, 140)}[tag]
            expected.carcass(tag, group, live=live, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb, mat=mat)
    return workbook, {}


@layout
def sideways(expected):
    """Measures run down, animals across."""
    workbook = book(("Cooler", [["Pumpkin Hollow Fair, beef carcasses"], None,
                                ["Ear tag", "31", "32", "33", "34"], ["Class", "Steers", "Steers", "Heifers", "Heifers"],
                                ["Live weight, lb", 1301, 1256, 1188, 1210], ["Hot carcass weight, lb", 818, 779, 741, 752],
                                ["Fat thickness, in", .5, .35, .4, .62], ["Ribeye area, sq in", 13.4, 13.9, 12.6, 12.1],
                                ["KPH, %", 2.5, 2, 2, 3], ["Marbling", "Sm 50", "Sl 40", "Mt 0", "Sm 10"], ["Maturity", "A60", "A50", "A50", "A70"]]))
    for tag, group, live, hot, fat, rea, kph, marb, mat in (
            ("31", "Steers", 1301, 818, .5, 13.4, 2.5, 450, 160), ("32", "Steers", 1256, 779, .35, 13.9, 2, 340, 150),
            ("33", "Heifers", 1188, 741, .4, 12.6, 2, 500, 150), ("34", "Heifers", 1210, 752, .62, 12.1, 3, 410, 170)):
        expected.carcass(tag, group, live=live, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb, mat=mat)
    return workbook, {}


@layout
def sheet_per_class(expected):
    """One sheet a class, the class named by the tab alone, columns in another order on each."""
    workbook = book(
        ("Prospect Steers", [["Ear Tag", "HCW", "Back Fat", "Rib Eye", "KPH%", "Marbling Score"], ["7", 702, .3, 12.4, 2, 430], ["8", 688, .25, 12.0, 1.5, 390]]),
        ("Market Steers", [["Marbling", "Ribeye Area", "12th Rib Fat", "Carcass Wt", "KPH", "Tag No."], ["Small 80", 13.7, .5, 811, 2.5, "15"], ["Modest 30", 14.2, .45, 838, 3, "16"]]),
        ("Read me", [["Results are due at the board table Thursday"], ["Phone the plant about", 3, "hides"]]),
        ("Market Heifers", [[None], [None, "Carcass #", "Hot Wt", "Adj. Fat", "REA", "KPH", "Marb."], [None, "22", 745, .4, 12.9, 2, "Slight 70"]]))
    expected.carcass("7", "Prospect Steers", hot=702, fat=.3, rea=12.4, kph=2, marb=430)
    expected.carcass("8", "Prospect Steers", hot=688, fat=.25, rea=12, kph=1.5, marb=390)
    expected.carcass("15", "Market Steers", hot=811, fat=.5, rea=13.7, kph=2.5, marb=480)
    expected.carcass("16", "Market Steers", hot=838, fat=.45, rea=14.2, kph=3, marb=530)
    expected.carcass("22", "Market Heifers", hot=745, adjusted_fat=.4, rea=12.9, kph=2, marb=370)
    return workbook, {}


@layout
def class_column(expected):
    """A class column, abbreviated headings in any order, the heading row far down, a column nobody needs."""
    workbook = book(("Sheet1", [None, [None, None, "Juniper Flats Stock Show"], [None, None, "carcass data - please double check!"], None, None,
                                ["MARB", "LW", "Pen", "CLASS", "TAG", "HCW", "FT", "REA", "KPH", "MAT"],
                                ["SM60", 1320, "B4", "Steer", "0091", 826, .44, 13.6, 2.5, "A"],
                                ["TR 90", 1101, "B7", "Steer", "0092", 690, .2, 13.1, 1.5, "A60"],
                                ["Md 20", 1287, "C1", "Heifer", "0104", 803, .68, 12.8, 3.5, "A80"]]))
    expected.carcass("0091", "Steer", live=1320, hot=826, fat=.44, rea=13.6, kph=2.5, marb=460, mat=150)
    expected.carcass("0092", "Steer", live=1101, hot=690, fat=.2, rea=13.1, kph=1.5, marb=290, mat=160)
    expected.carcass("0104", "Heifer", live=1287, hot=803, fat=.68, rea=12.8, kph=3.5, marb=620, mat=180)
    return workbook, {}


@layout
def class_titles(expected):
    """Class title rows in the data, blank rows between, averages below each class."""
    workbook = book(("Beef", [["Tag", "Live", "Hot", "BF", "Ribeye", "KPH", "Marbling", "Maturity"], ["4-Month Feeders"],
                              ["11", 1244, 771, .4, 13.2, 2, "Sm 40", "A50"], None, ["12", 1269, 799, .5, 13.0, 2.5, "Sm 0", "A60"],
                              ["Average", 1256.5, 785, .45, 13.1, 2.25], None, ["Bred and Owned"],
                              ["21", 1331, 838, .35, 14.4, 2, "Mt 60", "A60"], ["22", 1290, 800, .7, 12.5, 3, "Md 10", "A70"],
                              ["AVG", 1310.5, 819, .525, 13.45, 2.5], ["TOTAL HEAD", 4]]))
    for row in (2, 8):
        workbook["Beef"].merge_cells(start_row=row, start_column=1, end_row=row, end_column=8)
    expected.carcass("11", "4-Month Feeders", live=1244, hot=771, fat=.4, rea=13.2, kph=2, marb=440, mat=150)
    expected.carcass("12", "4-Month Feeders", live=1269, hot=799, fat=.5, rea=13, kph=2.5, marb=400, mat=160)
    expected.carcass("21", "Bred and Owned", live=1331, hot=838, fat=.35, rea=14.4, kph=2, marb=560, mat=160)
    expected.carcass("22", "Bred and Owned", live=1290, hot=800, fat=.7, rea=12.5, kph=3, marb=610, mat=170)
    return workbook, {}


@layout
def two_row_headings(expected):
    """Headings over two rows under merged group headings; the fat has a measured and an adjustment column."""
    workbook = book(("Kill floor", [["Larkmoor Packing - custom"], ["IDENTITY", None, "WEIGHT", None, "FAT", None, "MUSCLE", None, "GRADE"],
                                    ["Ear", None, "Live", "Carcass", "12th rib", "Fat", "Ribeye", "KPH", "Marbling", "Bone", "Lean"],
                                    ["tag", "Club", "weight", "weight (hot)", "fat", "adjustment", "area", "%", "score", "maturity", "maturity"],
                                    ["501", "Hilltop", 1277, 801, .4, .1, 13.3, 2.5, 440, "A60", "A40"],
                                    ["502", "Brookside", 1305, 812, .55, -.1, 13.0, 2, 390, "A70", "A60"]]))
    sheet = workbook["Kill floor"]
    for cells in ("A1:K1", "A2:B2", "C2:D2", "E2:F2", "G2:H2", "I2:K2"):
        sheet.merge_cells(cells)
    expected.carcass("501", "*", club="Hilltop", live=1277, hot=801, fat=.4, adj=.1, rea=13.3, kph=2.5, marb=440, skeletal_maturity=160, lean_maturity=140)
    expected.carcass("502", "*", club="Brookside", live=1305, hot=812, fat=.55, adj=-.1, rea=13, kph=2, marb=390, skeletal_maturity=170, lean_maturity=160)
    return workbook, {}


@layout
def metric(expected):
    """Units in the headings: kilograms, millimetres, square centimetres."""
    workbook = book(("Carcasses", [["Tag", "Class", "Live weight (kg)", "HCW (kg)", "Fat (mm)", "REA (cm²)", "KPH %", "Marbling"],
                                   ["A1", "Steers", 588, 366.5, 11, 86.4, 2, 420], ["A2", "Steers", 601.5, 378, 9, 91.2, 2.5, 510],
                                   ["A3", "Heifers", 545, 338, 14, 79, 3, 480]]))
    for tag, group, live, hot, fat, rea, kph, marb in (("A1", "Steers", 588, 366.5, 11, 86.4, 2, 420), ("A2", "Steers", 601.5, 378, 9, 91.2, 2.5, 510),
                                                       ("A3", "Heifers", 545, 338, 14, 79, 3, 480)):
        expected.carcass(tag, group, live=pounds(live), hot=pounds(hot), fat=inches(fat), rea=square_inches(rea), kph=kph, marb=marb)
    return workbook, {}


@layout
def tenths(expected):
    """Fat in tenths of an inch, once by heading and with a cell that says so itself; line breaks within headings."""
    workbook = book(("Data", [["TAG\n#", "CLASS", "HOT\nCARCASS\nWEIGHT (LBS)", "BF 10ths", "RIB-EYE\nAREA\n(SQ. IN.)", "K.P.H.\n(%)", "MARBLING"],
                              ["61", "Open", 799, 4, 13.1, 2.5, "Slight 90"], ["62", "Open", 841, 5.5, 13.9, 3, "Small 30"], ["63", "Open", 765, 3, 12.7, 2, "Traces 80"]]))
    for cell in workbook["Data"][1]:
        cell.alignment = Alignment(wrap_text=True)
    expected.carcass("61", "Open", hot=799, fat=.4, rea=13.1, kph=2.5, marb=390)
    expected.carcass("62", "Open", hot=841, fat=.55, rea=13.9, kph=3, marb=430)
    expected.carcass("63", "Open", hot=765, fat=.3, rea=12.7, kph=2, marb=280)
    return workbook, {}


@layout
def unit_in_title(expected):
    """The units are given once, in a title above the headings."""
    workbook = book(("Weights", [["Saltgrass Valley Youth Expo"], ["Weights in kg, fat in mm, ribeye in cm²"], None,
                                 ["Tag", "Class", "Live Weight", "Hot Carcass Weight", "Fat", "Ribeye", "KPH", "Marbling"],
                                 ["K7", "Steers", 610, 381, 12, 88, 2.5, "Small 10"], ["K8", "Steers", 574, 355.5, 8, 84.5, 2, "Slight 20"]]))
    expected.carcass("K7", "Steers", live=pounds(610), hot=pounds(381), fat=inches(12), rea=square_inches(88), kph=2.5, marb=410)
    expected.carcass("K8", "Steers", live=pounds(574), hot=pounds("355.5"), fat=inches(8), rea=square_inches("84.5"), kph=2, marb=320)
    return workbook, {}


@layout
def sides(expected):
    """The plant weighed the two sides."""
    workbook = book(("Scale", [["Tag", "Class", "Left side hot wt", "Right side hot wt", "Fat", "REA", "KPH", "Marbling"],
                               ["301", "Steers", 402.5, 399, .4, 13.4, 2, "SM 20"], ["302", "Steers", 388, 391.5, .5, 12.8, 2.5, "SM 60"]]))
    expected.carcass("301", "Steers", left=402.5, right=399, hot=801.5, fat=.4, rea=13.4, kph=2, marb=420)
    expected.carcass("302", "Steers", left=388, right=391.5, hot=779.5, fat=.5, rea=12.8, kph=2.5, marb=460)
    return workbook, {}


@layout
def unit_row(expected):
    """The second heading row holds nothing but units; "Carcass" is a weight only by its own."""
    workbook = book(("Kill sheet", [["Quillstone Locker"], None, ["Tag", "Class", "Live", "Carcass", "Fat", "Ribeye", "KPH", "Marbling"],
                                    [None, None, "lbs", "lbs", "in.", "sq in", "%", None],
                                    ["511", "Steers", 1302, 808, .42, 13.8, 2.5, "SM 40"], ["512", "Steers", 1277, 787, .38, 13.1, 2, "SL 60"]]))
    expected.carcass("511", "Steers", live=1302, hot=808, fat=.42, rea=13.8, kph=2.5, marb=440)
    expected.carcass("512", "Steers", live=1277, hot=787, fat=.38, rea=13.1, kph=2, marb=360)
    return workbook, {}


@layout
def metric_unit_row(expected):
    """The units stand in brackets under headings of one and of two lines, with words where there is no unit."""
    workbook = book(("Kill sheet", [["Tag", "Class", "Weight", None, "Fat", "Ribeye", "KPH", "Marbling"], [None, None, "Live", "Carcass", None, None, None, None],
                                    ["no.", None, "(kg)", "(kg)", "(mm)", "(sq. cm.)", "(%)", "degree"],
                                    ["521", "Steers", 590, 366, 11, 89, 2.5, "SM 40"], ["522", "Steers", 580, 358, 9.5, 84.5, 2, "SL 60"]]))
    expected.carcass("521", "Steers", live=pounds(590), hot=pounds(366), fat=inches(11), rea=square_inches(89), kph=2.5, marb=440)
    expected.carcass("522", "Steers", live=pounds(580), hot=pounds(358), fat=inches("9.5"), rea=square_inches("84.5"), kph=2, marb=360)
    return workbook, {}


@layout
def lamb_sides(expected):
    """Fat of both sides of lambs under one heading: the mean counts, one side alone has to do."""
    workbook = book(("Lambs", [["Tag", "Live", "Carcass", "Fat", None, "Body wall", "Ribeye", "Leg"], [None, "lbs", "lbs", "Left", "Right", "in", "sq in", "score"],
                               ["531", 131, 69, .14, .18, .8, 2.8, 12], ["532", 127, 66.5, .35, .37, .95, 2.7, 13], ["533", 125, 66, None, .22, .85, 2.9, 11]]))
    expected.carcass("531", "*", live=131, hot=69, left_fat=.14, right_fat=.18, fat=.16, body_wall_thickness=.8, rea=2.8, leg_score=12)
    expected.carcass("532", "*", live=127, hot=66.5, left_fat=.35, right_fat=.37, fat=.36, body_wall_thickness=.95, rea=2.7, leg_score=13)
    expected.carcass("533", "*", live=125, hot=66, right_fat=.22, fat=.22, body_wall_thickness=.85, rea=2.9, leg_score=11)
    return workbook, {}


@layout
def lamb_sides_units(expected):
    """The two sides in two units."""
    workbook = book(("Sheep", [["Tag", "HCW", "Fat L (mm)", "Right fat (in)", "Body wall", "REA"], ["541", 68, 5, .21, .8, 2.8]]))
    # 5 mm is 0.1969 in, and (0.1969 + 0.21) / 2 is 0.20345.
    expected.carcass("541", "*", hot=68, left_fat=inches(5), right_fat=.21, fat=Decimal("0.20345"), body_wall_thickness=.8, rea=2.8)
    return workbook, {}


@layout
def lamb_words(expected):
    """Leg, conformation and streaking of lambs in words: Prime+ is 15, Choice- 10, Good- 7 (from memory)."""
    heads = ["Tag", "Class", "HCW", "Fat", "Body wall", "REA", "Leg score", "Conformation", "Flank streaking"]
    rows = [["551", "Lambs", 68, .2, .8, 2.8, "Ch+", "Prime-", "Slight 60"], ["552", "Lambs", 67, .2, .8, 2.7, "high choice", 12, "Sm 40"],
            ["553", "Lambs", 66, .2, .8, 2.6, "Av Ch", "Av Ch", "Traces 80"], ["554", "Lambs", 65, .2, .8, 2.5, "Prime-", "Ch", "MT10"],
            ["555", "Lambs", 64, .2, .8, 2.4, "Choice", "Low Choice", 430], ["556", "Lambs", 63, .2, .8, 2.3, "chunky", "square", "lots"]]
    workbook = book(("Lambs", [heads, *rows]))
    answers = [(12, "Low Prime", 360), (12, "High Choice", 440), (11, "Average Choice", 280), (13, "Choice", 510), (11, "Low Choice", 430),
               ("unreadable",) * 3]
    for row, (leg, conformation, streaking) in zip(rows, answers):
        expected.carcass(row[0], "Lambs", hot=row[2], fat=.2, body_wall_thickness=.8, rea=row[5], leg_score=leg, conformation=conformation,
                         flank_streaking=streaking)
    for cell in ("G7", "H7", "I7"):
        expected.finding("Lambs!" + cell)
    return workbook, {}


@layout
def cold_weights(expected):
    """The heading declares that the weights are cold."""
    workbook = book(("Chill box", [["Tag", "Class", "Live wt", "Cold carcass wt", "Fat", "REA", "KPH", "Marbling"],
                                   ["81", "Steers", 1288, 785, .4, 13.5, 2, 430], ["82", "Steers", 1240, 760, .5, 12.8, 2.5, 460]]))
    expected.carcass("81", "Steers", live=1288, cold=785, fat=.4, rea=13.5, kph=2, marb=430)
    expected.carcass("82", "Steers", live=1240, cold=760, fat=.5, rea=12.8, kph=2.5, marb=460)
    return workbook, {}


@layout
def hidden_and_filtered(expected):
    """Rows hidden by a filter and by hand, and a hidden column: all are read."""
    workbook = book(("Beef", [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marbling"], ["1", "Steers", 812, .4, 13.6, 2, 410],
                              ["2", "Heifers", 733, .5, 12.3, 2.5, 450], ["3", "Steers", 845, .6, 13.9, 3, 520], ["4", "Steers", 790, .3, 13.2, 2, 350]]))
    sheet = workbook["Beef"]
    sheet.auto_filter.ref = "A1:G5"
    sheet.auto_filter.add_filter_column(1, ["Steers"])
    sheet.row_dimensions[3].hidden = sheet.row_dimensions[5].hidden = True
    sheet.column_dimensions["F"].hidden = True
    expected.carcass("1", "Steers", hot=812, fat=.4, rea=13.6, kph=2, marb=410)
    expected.carcass("2", "Heifers", hot=733, fat=.5, rea=12.3, kph=2.5, marb=450)
    expected.carcass("3", "Steers", hot=845, fat=.6, rea=13.9, kph=3, marb=520)
    expected.carcass("4", "Steers", hot=790, fat=.3, rea=13.2, kph=2, marb=350)
    return workbook, {}


@layout
def merged_cells(expected):
    """The tag merged over two columns, the class merged down over its animals."""
    workbook = book(("Cards", [["Class", "Tag", None, "Hot wt.", "Fat", "REA", "KPH", "Marbling"], ["Steers", "71", None, 788, .4, 13.2, 2, 420],
                               [None, "72", None, 802, .45, 13.5, 2.5, 470], [None, "73", None, 761, .3, 13.0, 2, 380],
                               ["Heifers", "74", None, 735, .5, 12.4, 3, 440], [None, "75", None, 744, .55, 12.2, 2.5, 500]]))
    sheet = workbook["Cards"]
    for cells in ("A2:A4", "A5:A6", "B1:C1", "B2:C2", "B3:C3", "B4:C4", "B5:C5", "B6:C6"):
        sheet.merge_cells(cells)
    for tag, group, hot, fat, rea, kph, marb in (("71", "Steers", 788, .4, 13.2, 2, 420), ("72", "Steers", 802, .45, 13.5, 2.5, 470), ("73", "Steers", 761, .3, 13, 2, 380),
                                                 ("74", "Heifers", 735, .5, 12.4, 3, 440), ("75", "Heifers", 744, .55, 12.2, 2.5, 500)):
        expected.carcass(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    return workbook, {}


@layout
def formulas(expected):
    """Formulas with their cached values, an error value; other people's arithmetic left of the data."""
    workbook = book(("Sheet A", [["Tag", "Class", "Left", "Right", "Hot carcass wt", "Fat", "REA", "KPH", "Marbling"],
                                 ["91", "Steers", 404, 401, "=C2+D2", "=0.3+0.15", 13.8, 2, "=300+140"],
                                 ["92", "Steers", 377, 380, "=C3+D3", .5, "=26/(B9-B9)", 2.5, 410],
                                 ["93", "Steers", 390, 394, "=C4+D4", .4, 13.1, "=5/2", '="SM "&70']]))
    cached = {("Sheet A", "E2"): 805, ("Sheet A", "F2"): .45, ("Sheet A", "I2"): 440, ("Sheet A", "E3"): 757, ("Sheet A", "G3"): "#DIV/0!",
              ("Sheet A", "E4"): 784, ("Sheet A", "H4"): 2.5, ("Sheet A", "I4"): "SM 70"}
    expected.carcass("91", "Steers", hot=805, fat=.45, rea=13.8, kph=2, marb=440, anything_else="*")
    expected.carcass("92", "Steers", hot=757, fat=.5, rea="unreadable", kph=2.5, marb=410, anything_else="*")
    expected.carcass("93", "Steers", hot=784, fat=.4, rea=13.1, kph=2.5, marb=470, anything_else="*")
    expected.finding("Sheet A!G3")
    return workbook, cached


@layout
def never_calculated(expected):
    """A formula that no program has calculated has no value yet: it must not become a blank or a zero."""
    workbook = book(("Sheet A", [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marbling"], ["94", "Steers", "=400+410", .4, 13.5, 2, 420], ["95", "Steers", 790, .5, 13.1, 2, 430]]))
    expected.carcass("94", "Steers", hot="unreadable", fat=.4, rea=13.5, kph=2, marb=420)
    expected.carcass("95", "Steers", hot=790, fat=.5, rea=13.1, kph=2, marb=430)
    expected.finding("Sheet A!C2")
    return workbook, {}


@layout
def notes_below(expected):
    """Notes, signatures and a legend with numbers below the data."""
    workbook = book(("Beef", [["Carcass No.", "Class", "Hang wt", "Fat", "Rib eye area", "KPH", "Marbling"], ["1", "Steers", 796, .4, 13.1, 2, "SM 10"], ["2", "Steers", 822, .35, 14.0, 2.5, "MT 30"],
                              None, None, ["Notes"], ["Cooler at 34 degrees, ribbed after 48 hours."], ["Carcass 2: light bruise on the round."], [None, "Signed", None, None, None, "Judge"],
                              ["SM = Small, MT = Modest"], ["Paid 2", "head", 20]]))
    expected.carcass("1", "Steers", hot=796, fat=.4, rea=13.1, kph=2, marb=410)
    expected.carcass("2", "Steers", hot=822, fat=.35, rea=14, kph=2.5, marb=530)
    return workbook, {}


@layout
def ditto_signs(expected):
    """A class repeated by a ditto sign: after sorting it would be another class, so it is not believed."""
    workbook = book(("Cards", [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marbling"], ["1", "Steers", 796, .4, 13.1, 2, 410],
                               ["2", '"', 822, .35, 14.0, 2.5, 530], ["3", "Heifers", 741, .45, 12.4, 3, 480], ["4", "do.", 755, .5, 12.6, 2.5, 450]]))
    expected.carcass("1", "Steers", hot=796, fat=.4, rea=13.1, kph=2, marb=410)
    expected.carcass("2", "", hot=822, fat=.35, rea=14, kph=2.5, marb=530)
    expected.carcass("3", "Heifers", hot=741, fat=.45, rea=12.4, kph=3, marb=480)
    expected.carcass("4", "", hot=755, fat=.5, rea=12.6, kph=2.5, marb=450)
    expected.finding("Cards!B3")
    expected.finding("Cards!B5")
    return workbook, {}


@layout
def misspelt(expected):
    """Two headings misspelt: never guessed in silence, but named."""
    workbook = book(("Results", [["Tag", "Class", "HCW", "Fat", "Ribeye aera", "KPH", "Marbeling"], ["41", "Steers", 801, .4, 13.2, 2, "SM 20"], ["42", "Steers", 779, .5, 12.8, 2.5, "SM 60"]]))
    expected.carcass("41", "Steers", hot=801, fat=.4, kph=2)
    expected.carcass("42", "Steers", hot=779, fat=.5, kph=2.5)
    expected.finding("Results!E1")
    expected.finding("Results!G1")
    return workbook, {}


@layout
def repeated_headings(expected):
    """The headings stand again at the top of each printed page, with a page number and a carried total."""
    heads = ["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marbling"]
    workbook = book(("Pages", [["Page 1"], heads, ["1", "Steers", 801, .4, 13.2, 2, 420], ["2", "Steers", 815, .5, 13.4, 2.5, 430], ["Subtotal", None, 1616],
                               ["Page 2"], heads, ["3", "Heifers", 744, .45, 12.7, 2, 450], ["4", "Heifers", 731, .4, 12.9, 2, 390], ["Total", None, 3091]]))
    for tag, group, hot, fat, rea, kph, marb in (("1", "Steers", 801, .4, 13.2, 2, 420), ("2", "Steers", 815, .5, 13.4, 2.5, 430),
                                                 ("3", "Heifers", 744, .45, 12.7, 2, 450), ("4", "Heifers", 731, .4, 12.9, 2, 390)):
        expected.carcass(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    return workbook, {}


@layout
def electronic_tags(expected):
    """15-digit electronic tags: as numbers in exponent format on the sheet, as text on the roster."""
    workbook = book(("Carcass data", [["EID", "HCW", "Fat", "REA", "KPH", "Marbling"], [840003123456781, 802, .4, 13.4, 2, 420], [840003123456799, 776, .5, 12.9, 2.5, 450]]),
                    ("Entries", [["Electronic ID", "Tag", "Exhibitor", "Class"], ["840003123456781", "017", "Clover Gatepost", "Steers"], ["840003123456799", "018", "Larch Saltbox", "Steers"]]))
    for cell in workbook["Carcass data"]["A"][1:]:
        cell.number_format = "0.0E+00"
    expected.carcass("840003123456781|017", "Steers", hot=802, fat=.4, rea=13.4, kph=2, marb=420, exhibitor="Clover Gatepost")
    expected.carcass("840003123456799|018", "Steers", hot=776, fat=.5, rea=12.9, kph=2.5, marb=450, exhibitor="Larch Saltbox")
    return workbook, {}


@layout
def tag_history(expected):
    """An animal lost its tag; a sheet maps the old to the new."""
    workbook = book(("Rail", [["Tag", "HCW", "Fat", "REA", "KPH", "Marbling"], ["610", 802, .4, 13.4, 2, 420], ["655", 776, .5, 12.9, 2.5, 450]]),
                    ("Entries", [["Tag", "Exhibitor", "Class"], ["610", "Aster Milkpail", "Steers"], ["612", "Quill Woodbox", "Heifers"]]),
                    ("Tag history", [["Old tag", "New tag"], ["612", "655"]]))
    expected.carcass("610", "Steers", hot=802, fat=.4, rea=13.4, kph=2, marb=420, exhibitor="Aster Milkpail")
    expected.carcass("655", "Heifers", hot=776, fat=.5, rea=12.9, kph=2.5, marb=450, exhibitor="Quill Woodbox")
    return workbook, {}


@layout
def roster_notations(expected):
    """Tags written differently on the roster and on the rail."""
    workbook = book(("Carcass", [["Tag", "HCW", "Fat", "REA", "KPH", "Marbling"], ["412", 802, .4, 13.4, 2, 420], ["0413", 776, .5, 12.9, 2.5, 450], ["412A", 790, .45, 13.0, 2, 410], [415, 811, .5, 13.3, 2.5, 500]]),
                    ("Roster", [["Exhibitor", "Tag #", "Class", "Weigh-in wt"], ["Dapple Inkpot", "#412", "Steers", 1290], ["Rowan Haywain", "Tag 0413", "Steers", 1244],
                                ["Umber Doorlatch", "412a", "Heifers", 1251], ["Sorrel Woodbox", "415", "Heifers", 1302]]))
    expected.carcass("412", "Steers", hot=802, fat=.4, rea=13.4, kph=2, marb=420, exhibitor="Dapple Inkpot", fair=1290)
    expected.carcass("0413", "Steers", hot=776, fat=.5, rea=12.9, kph=2.5, marb=450, exhibitor="Rowan Haywain", fair=1244)
    expected.carcass("412A", "Heifers", hot=790, fat=.45, rea=13, kph=2, marb=410, exhibitor="Umber Doorlatch", fair=1251)
    expected.carcass("415", "Heifers", hot=811, fat=.5, rea=13.3, kph=2.5, marb=500, exhibitor="Sorrel Woodbox", fair=1302)
    return workbook, {}


@layout
def dot_counts(expected):
    """The ribeye as it was counted on the grid: area outlined, dots missing inside it, dots outside it. 10 dots are 1 in²."""
    workbook = book(("Grid cards", [["Tag", "Class", "HCW", "Fat", "Area outlined", "Dots missing", "Dots outside", "KPH", "Marbling"],
                                    ["1", "Steers", 744, .4, 12, 3, 9, 2, 420], ["2", "Steers", 812, .5, 13, 4, 0, 2.5, 440], ["3", "Steers", 790, .45, 12.5, 0, 6, 2, 390]]))
    expected.carcass("1", "Steers", hot=744, fat=.4, dots_outlined=12, dots_missing=3, dots_outside=9, rea=12.6, kph=2, marb=420)
    expected.carcass("2", "Steers", hot=812, fat=.5, dots_outlined=13, dots_missing=4, dots_outside=0, rea=12.6, kph=2.5, marb=440)
    expected.carcass("3", "Steers", hot=790, fat=.45, dots_outlined=12.5, dots_missing=0, dots_outside=6, rea=13.1, kph=2, marb=390)
    return workbook, {}


@layout
def grade_words(expected):
    """The plant's own grades in its own words, and its own yield grade, beside the measures."""
    words = [("Ch-", "Low Choice"), ("CH–", "Low Choice"), ("Low Choice", "Low Choice"), ("Se+", "High Select"), ("Avg Choice", "Average Choice"), ("Ch+", "High Choice"), ("Pr-", "Low Prime")]
    rows = [[str(number), "Steers", 780 + number, .4, 13.2, 2, 400 + number, word, 2.5] for number, (word, _) in enumerate(words, 1)]
    workbook = book(("Plant", [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marbling", "Quality Grade", "Yield Grade"]] + rows))
    for number, (_, grade) in enumerate(words, 1):
        expected.carcass(str(number), "Steers", hot=780 + number, fat=.4, rea=13.2, kph=2, marb=400 + number, qg=grade, yg=2.5)
    return workbook, {}


@layout
def marks(expected):
    """Yes and no as people mark them."""
    workbook = book(("Marks", [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marbling", "Dark cutter", "Over 30 months", "Dairy type"],
                               ["1", "Steers", 801, .4, 13.2, 2, 420, "X", "no", None], ["2", "Steers", 815, .5, 13.4, 2.5, 430, "y", "N", "Yes"],
                               ["3", "Steers", 779, .35, 13.0, 2, 390, None, "✓", True], ["4", "Steers", 790, .4, 13.1, 2, 410, 0, 1, False]]))
    expected.carcass("1", "Steers", hot=801, fat=.4, rea=13.2, kph=2, marb=420, dark_cutter="yes", over_30_months="no")
    expected.carcass("2", "Steers", hot=815, fat=.5, rea=13.4, kph=2.5, marb=430, dark_cutter="yes", over_30_months="no", dairy_type="yes")
    expected.carcass("3", "Steers", hot=779, fat=.35, rea=13, kph=2, marb=390, over_30_months="yes", dairy_type="yes")
    expected.carcass("4", "Steers", hot=790, fat=.4, rea=13.1, kph=2, marb=410, dark_cutter="no", over_30_months="yes", dairy_type="no")
    return workbook, {}


@layout
def notations(expected):
    """Numbers as people type them."""
    workbook = book(("Typed", [["Tag", "Class", "Live wt", "HCW", "Fat", "REA", "KPH", "Marbling", "Mat"],
                               ["1", "Steers", "1,287 lbs", "812#", ".45\"", "13.2 sq in", "2.5%", "SM 40", "A60"],
                               ["2", "Steers", " 1301\u00a0", "820 lb", "4 tenths", "13,5", .03, "Small+", "A-55"],
                               ["3", "Steers", "1244#", 781.5, "3/10", "84 cm2", "2", "sm⁴⁰", "165"],
                               ["4", "Steers", 1262.4, "356 kg", "11 mm", 13, "2 1/2", "Slight", "a"]]))
    workbook["Typed"]["G3"].number_format = "0%"
    expected.carcass("1", "Steers", live=1287, hot=812, fat=.45, rea=13.2, kph=2.5, marb=440, mat=160)
    expected.carcass("2", "Steers", live=1301, hot=820, fat=.4, rea=13.5, kph=3, marb="*", mat=155)
    expected.carcass("3", "Steers", live=1244, hot=781.5, fat=.3, rea=square_inches(84), kph=2, marb=440, mat=165)
    expected.carcass("4", "Steers", live=1262.4, hot=pounds(356), fat=inches(11), rea=13, kph=2.5, marb="*", mat=150)
    return workbook, {}


@layout
def four_species(expected):
    """Four species in one sheet, told apart by a column; not every column is for every one."""
    workbook = book(("All carcasses", [["Species", "Class", "Tag", "Live wt", "HCW", "Fat, in", "REA", "KPH", "Marbling", "Body wall"],
                                       ["Beef", "Steers", "B1", 1290, 805, .4, 13.5, 2, "SM 40"], ["Swine", "Market hogs", "P1", 266, 199, .7, 7.2], ["Lamb", "Market lambs", "L1", 131, 69, .2, 2.9, None, None, .8],
                                       ["Goat", "Market goats", "G1", 84, 40, None, 1.5, None, None, .4]]))
    expected.carcass("B1", "Steers", live=1290, hot=805, fat=.4, rea=13.5, kph=2, marb=440)
    expected.carcass("P1", "Market hogs", live=266, hot=199, anything_else="*")
    expected.carcass("L1", "Market lambs", live=131, hot=69, fat=.2, rea=2.9, body_wall_thickness=.8)
    expected.carcass("G1", "Market goats", live=84, hot=40, body_wall_thickness=.4, anything_else="*")
    return workbook, {}


@layout
def species_sheets(expected):
    """One sheet a species, known by the tab's name."""
    workbook = book(("Beef", [["Tag", "Class", "Live wt", "HCW", "Fat", "REA", "KPH", "Marbling"], ["1", "Steers", 1290, 805, .4, 13.5, 2, 440]]),
                    ("Hogs", [["Tag", "Class", "Live wt", "HCW", "10th rib fat", "Loin eye area"], ["2", "Hogs", 266, 199, .7, 7.2]]),
                    ("Lambs", [["Tag", "Class", "Live wt", "HCW", "Fat", "Body wall", "REA"], ["3", "Lambs", 131, 69, .2, .8, 2.9]]),
                    ("Goats", [["Tag", "Class", "Live wt", "HCW", "Loin eye area", "Body wall"], ["4", "Goats", 84, 40, 1.5, .4]]))
    expected.carcass("1", "Steers", live=1290, hot=805, fat=.4, rea=13.5, kph=2, marb=440)
    expected.carcass("2", "Hogs", live=266, hot=199, anything_else="*")
    expected.carcass("3", "Lambs", live=131, hot=69, fat=.2, rea=2.9, body_wall_thickness=.8)
    expected.carcass("4", "Goats", live=84, hot=40, body_wall_thickness=.4, anything_else="*")
    return workbook, {}


@layout
def gain_dates(expected):
    """Dates as date cells and as people write them; fair and plant live weights side by side."""
    workbook = book(("Gain", [["Tag", "Class", "Birth date", "Start date", "Start wt", "Fair wt", "Live wt (plant)", "Kill date", "HCW", "Fat", "REA", "KPH", "Marbling"],
                              ["1", "Steers", datetime.date(2024, 3, 12), "12/14/2024", 620, 1361, 1345, "July 8, 2025", 846, .42, 14.2, 2, 430],
                              ["2", "Steers", "2024-04-02", datetime.date(2024, 12, 14), 588, 1290, 1277, "8 Jul 2025", 795, .4, 13.5, 2, 410]]))
    expected.carcass("1", "Steers", birth_date="2024-03-12", start_date="2024-12-14", start_weight=620, fair=1361, live=1345, kill_date="2025-07-08", hot=846, fat=.42, rea=14.2, kph=2, marb=430)
    expected.carcass("2", "Steers", birth_date="2024-04-02", start_date="2024-12-14", start_weight=588, fair=1290, live=1277, kill_date="2025-07-08", hot=795, fat=.4, rea=13.5, kph=2, marb=410)
    return workbook, {}


@layout
def office_extras(expected):
    """A sheet with all that offices add: a table, a chart, validations, colour rules, links, names, comments, a hidden sheet."""
    workbook = book(("Beef 2025", [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marbling", "Comments"], ["1", "Steers", 801, .4, 13.2, 2, 420, "see ticket"], ["2", "Steers", 815, .5, 13.4, 2.5, 430],
                                   ["3", "Heifers", 744, .45, 12.7, 2, 450], ["4", "Heifers", 731, .4, 12.9, 2, 390]]),
                    ("Sponsors", [["Name", "Gift"], ["The feed store", 50], ["The bakery", 25], ["Total", "=SUM(B2:B3)"]]),
                    ("Old lists", [["not for print"]]))
    sheet, sponsors = workbook["Beef 2025"], workbook["Sponsors"]
    workbook["Old lists"].sheet_state = "hidden"
    sheet.add_table(Table(displayName="Carcasses", ref="A1:H5", tableStyleInfo=TableStyleInfo(name="TableStyleLight9", showRowStripes=True)))
    choice = DataValidation(type="list", formula1='"Steers,Heifers"')
    choice.add("B2:B5")
    sheet.add_data_validation(choice)
    sheet.conditional_formatting.add("D2:D5", CellIsRule(operator="greaterThan", formula=["0.45"], fill=PatternFill(bgColor="FFD0D0")))
    sheet["H2"].hyperlink = "#Sponsors!A1"
    sheet["E3"].comment = Comment("counted twice", "Fair office")
    workbook.defined_names.append(DefinedName("Weights", attr_text="'Beef 2025'!$C$2:$C$5"))
    chart = BarChart()
    chart.add_data(Reference(sponsors, min_col=2, min_row=1, max_row=3), titles_from_data=True)
    sponsors.add_chart(chart, "D2")
    for tag, group, hot, fat, rea, kph, marb in (("2", "Steers", 815, .5, 13.4, 2.5, 430), ("3", "Heifers", 744, .45, 12.7, 2, 450), ("4", "Heifers", 731, .4, 12.9, 2, 390)):
        expected.carcass(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    expected.carcass("1", "Steers", hot=801, fat=.4, rea=13.2, kph=2, marb=420, remarks="see ticket")
    return workbook, {("Sponsors", "B4"): 75}


def text_files():
    """The same few animals as text files in the forms that spreadsheet programs export."""
    heads = ["Tag", "Class", "Exhibitor", "Live wt", "HCW", "Fat", "REA", "KPH", "Marbling"]
    animals = [["007", "Steers", "Aster Teakettle", "1290", "805.5", "0.45", "13.5", "2.5", "SM 40"], ["008", "Steers", "Fennel Böckle", "1244", "771", "0.3", "12.9", "2", "SL 80"],
               ["009", "Heifers", "Café \"Pip\" Inkpot, Jr", "1198", "744", "0.55", "12.4", "3", "MT 10"]]

    def lines(separator, decimal_comma=False):
        for row in [heads] + animals:
            if decimal_comma and row is not heads:
                row = row[:3] + [value.replace(".", ",") for value in row[3:]]
            yield separator.join('"%s"' % value.replace('"', '""') if separator in value or '"' in value else value for value in row)

    files = {"comma.csv": "\r\n".join(lines(",")).encode("utf-8") + b"\r\n",
             "byte-order-mark.csv": b"\xef\xbb\xbf" + "\n".join(lines(",")).encode("utf-8") + b"\n",
             "semicolon.csv": ("Pumpkin Hollow Fair;;;;;;;;\n\n" + "\n".join(lines(";", True)) + "\n").encode("utf-8"),
             "tabs.tsv": "\n".join(lines("\t")).encode("utf-8"),
             "windows-1252.csv": "\r\n".join(lines(";", True)).encode("cp1252") + b"\r\n",
             "utf-16.csv": ("\ufeff" + "\r\n".join(lines("\t")) + "\r\n").encode("utf-16-le")}
    for name, data in files.items():
        with open(os.path.join(HERE, name), "wb") as file:
            file.write(data)
        expected = Expected()
        for tag, group, exhibitor, live, hot, fat, rea, kph, _ in animals:
            expected.carcass(tag, group, exhibitor=exhibitor, live=live, hot=hot, fat=fat, rea=rea, kph=kph, marb={"007": 440, "008": 380, "009": 510}[tag])
        expected.save(name.split(".")[0])


def macro_workbook():
    """A macro workbook: the content type is another, the cells are the same."""
    stable.save(book(("Macro", [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marbling"], ["55", "Steers", 798, .4, 13.1, 2, 420]])), os.path.join(HERE, "plain.xlsx"))
    main = b"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"
    stable.repack(os.path.join(HERE, "plain.xlsx"), os.path.join(HERE, "macro.xlsm"),
                  lambda name, data: data.replace(main, b"application/vnd.ms-excel.sheet.macroEnabled.main+xml") if name == "[Content_Types].xml" else data)
    os.remove(os.path.join(HERE, "plain.xlsx"))
    expected = Expected()
    expected.carcass("55", "Steers", hot=798, fat=.4, rea=13.1, kph=2, marb=420)
    expected.save("macro")


RAW_SHEET = """<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData>
<x:row>%s</x:row><x:row/>
<x:row r="7"><x:c r="A7" t="inlineStr"><x:is><x:r><x:t>00</x:t></x:r><x:r><x:t>31</x:t></x:r></x:is></x:c><x:c t="inlineStr"><x:is><x:t>Steers &amp; Stags</x:t></x:is></x:c><x:c><x:v>801.50</x:v></x:c><x:c><x:v>0.35999999999999999</x:v></x:c><x:c><x:v>1.34E1</x:v></x:c><x:c><x:v>2</x:v></x:c><x:c t="inlineStr"><x:is><x:t>SM&#32;40</x:t></x:is></x:c></x:row>
<x:row><x:c t="inlineStr"><x:is><x:t>0032</x:t></x:is></x:c><x:c t="inlineStr"><x:is><x:t>Steers &amp; Stags</x:t></x:is></x:c><x:c r="C8"><x:v>777</x:v></x:c><x:c t="str"><x:f>"."&amp;"4"</x:f><x:v>.4</x:v></x:c><x:c><x:v>12.9</x:v></x:c><x:c><x:v>2.5</x:v></x:c><x:c><x:v>450</x:v></x:c></x:row>
</x:sheetData></x:worksheet>"""


def raw_package():
    """A package that no spreadsheet program wrote: prefixed names, inline and rich text, rows and cells without references."""
    heads = "".join('<x:c t="inlineStr"><x:is><x:t>%s</x:t></x:is></x:c>' % head for head in ("Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marbling"))
    parts = {
        "[Content_Types].xml": '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/book/main.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/book/data/first.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>',
        "_rels/.rels": '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="/book/main.xml"/></Relationships>',
        "book/main.xml": '<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:rel="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="Raw" sheetId="9" rel:id="s"/></sheets></workbook>',
        "book/_rels/main.xml.rels": '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="s" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="data/first.xml"/></Relationships>',
        "book/data/first.xml": RAW_SHEET % heads,
    }
    with zipfile.ZipFile(os.path.join(HERE, "raw-package.xlsx"), "w", zipfile.ZIP_DEFLATED) as target:
        for name, text in parts.items():
            target.writestr(zipfile.ZipInfo(name, stable.FIXED), text, zipfile.ZIP_DEFLATED)
    expected = Expected()
    expected.carcass("0031", "Steers & Stags", hot=801.5, fat=.36, rea=13.4, kph=2, marb=440)
    expected.carcass("0032", "Steers & Stags", hot=777, fat=.4, rea=12.9, kph=2.5, marb=450)
    expected.save("raw-package")


def main():
    for name, draw in ALL.items():
        expected = Expected()
        workbook, cached = draw(expected)
        for sheet in workbook:
            for cell in sheet[1]:
                cell.font = Font(name="Calibri", size=11, bold=True)
        workbook.properties.creator = "Fair office"
        path = os.path.join(HERE, name + ".xlsx")
        stable.save(workbook, path, cached)
        expected.save(name)
        if "--office" in sys.argv and name in RESAVED:
            with tempfile.TemporaryDirectory() as folder:
                shutil.move(office.convert(path, "xlsx", folder), path)
    text_files()
    macro_workbook()
    raw_package()


main()
