"""Draws the demo workbook fair.xlsx: an invented fair's workbook with planted problems.

Run from anywhere with a Python that has openpyxl:  python3 testdata/demo/draw.py
Every name, tag and figure is invented. The planted problems are listed in README.md beside this file; keep the two in step.
"""
import math
import os
import random
import sys

from openpyxl import Workbook
from openpyxl.comments import Comment
from openpyxl.worksheet.properties import PageSetupProperties
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.worksheet.page import PageMargins

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, os.path.dirname(HERE))
import stable  # noqa: E402

FAIR = "Tamberly County Junior Fair"
PLANT = "QUILLSTONE LOCKER & MEATS"
GIVEN = ["Aster", "Bramble", "Clover", "Dapple", "Ember", "Fennel", "Gentian", "Heather", "Indigo", "Juniper",
         "Kestrel", "Larch", "Marigold", "Nettle", "Oakley", "Pippin", "Quill", "Rowan", "Sorrel", "Thistle", "Umber"]
SURNAMES = ["Teakettle", "Butterchurn", "Lanternjack", "Haywain", "Thimbleworth", "Pocketwatch", "Inkpot",
            "Wheelbarrow", "Candlewick", "Doorlatch", "Gatepost", "Milkpail", "Saltbox", "Weathervane", "Woodbox"]
CLUBS = ["Copper Kettle Juniors", "Lantern Hill Herders", "Seven Fords Stock Club", "Windlestraw Youth"]
CLASSES = ["Class 1 - Light Steers", "Class 2 - Heavy Steers", "Class 3 - Market Heifers"]
DEGREES = ["PD", "TR", "SL", "SM", "MT", "MD", "SLAB", "MAB"]

THIN = Side(style="thin", color="808080")
MEDIUM = Side(style="medium", color="404040")
BOX = Border(left=THIN, right=THIN, top=THIN, bottom=THIN)
HEADING_FILL = PatternFill("solid", fgColor="D9D2C5")
CLASS_FILL = PatternFill("solid", fgColor="EDE9E1")
BODY = Font(name="Calibri", size=11)
BOLD = Font(name="Calibri", size=11, bold=True)
CENTRE = Alignment(horizontal="center", vertical="center", wrap_text=True)


class Animal:
    """One animal as it truly is; the sheet may say otherwise."""

    def __init__(self, rng, tag, rail, class_number):
        low, high = [(1150, 1295), (1305, 1520), (1160, 1390)][class_number]
        self.tag, self.rail, self.class_number = tag, rail, class_number
        self.live = rng.randint(low, high)
        self.hot = round(self.live * rng.gauss(62.4, 1.0) / 100)
        self.fat = round(min(0.95, max(0.18, math.exp(rng.gauss(math.log(0.46), 0.30)))) / 0.05) * 0.05
        self.fat = round(self.fat, 2)
        self.adjustment = rng.choice([None] * 7 + [0.1, 0.1, -0.1])
        expected = 11.0 + 0.012 * (self.hot - 600)
        self.ribeye = round(expected + rng.gauss(0.1, 0.8) - 0.9 * (self.fat - 0.46), 1)
        self.kph = rng.choice([1.5, 2.0, 2.0, 2.5, 2.5, 2.5, 3.0, 3.5])
        self.marbling = int(min(790, max(310, rng.gauss(455 + 110 * (self.fat - 0.46), 85))) / 10) * 10
        self.maturity = rng.choice([40, 50, 50, 60, 60, 60, 70, 80])

    @property
    def adjusted(self):
        return round(self.fat + (self.adjustment or 0), 2)

    def yield_grade(self):
        return round(2.5 + 2.5 * self.adjusted + 0.2 * self.kph + 0.0038 * self.hot - 0.32 * self.ribeye, 2)


def herd():
    rng = random.Random(1907)
    animals = []
    for class_number, count in enumerate((13, 15, 13)):
        tags = ["%04d" % (401 + 40 * class_number + 3 * number % 40) for number in range(count)]
        rng.shuffle(tags)  # the rail does not hang in the order of the tags
        for tag in tags:
            animals.append(Animal(rng, tag, 118 + len(animals), class_number))
    return animals


def as_written(animal, index):
    """The row as the plant's clerk typed it, in the notations clerks use."""
    degree, place = DEGREES[animal.marbling // 100 - 1], animal.marbling % 100
    words = {"SL": "Slight", "SM": "Small", "MT": "Modest", "MD": "Moderate"}
    marbling = [
        "%s %d" % (degree, place), "%s%d" % (degree.title(), place),
        "%s %d" % (words.get(degree, degree), place), animal.marbling,
    ][index % 4]
    maturity = ["A%d" % animal.maturity, "A%d" % animal.maturity, "A-%d" % animal.maturity, 100 + animal.maturity][index * 7 % 4]
    hot = "%d#" % animal.hot if index % 9 == 4 else animal.hot
    live = "{:,}".format(animal.live) if index % 11 == 7 else animal.live
    fat = (".%02d\"" % round(animal.fat * 100)) if index % 8 == 5 else animal.fat
    adjustment = {None: None, 0.1: "+.1", -0.1: "-.1"}[animal.adjustment]
    if animal.adjustment and index % 2:
        adjustment = animal.adjustment
    ribeye = "%s sq in" % animal.ribeye if index == 20 else animal.ribeye
    kph = "%s%%" % animal.kph if index % 10 == 3 else animal.kph / 100
    grade = animal.yield_grade() if animal.class_number == 1 else None
    return {"rail": animal.rail, "tag": animal.tag, "live": live, "hot": hot, "fat": fat, "adjustment": adjustment,
            "ribeye": ribeye, "kph": kph, "marbling": marbling, "maturity": maturity, "grade": grade, "remarks": None}


def plant(animals, rows):
    """Puts the problems in. README.md lists them under the same letters."""
    def swap_live(one, other):
        rows[one]["live"], rows[other]["live"] = animals[other].live, animals[one].live
        rows[one]["hot"], rows[other]["hot"] = animals[one].hot, animals[other].hot

    rows[1]["ribeye"] = round(animals[1].ribeye * 10)  # A decimal slip
    rows[3]["fat"] = round(animals[3].fat * 10)  # B tenths of an inch
    rows[5]["fat"] = round(animals[5].fat * 25.4)  # C millimetres
    animals[15].ribeye, animals[15].adjustment = 13.5, None  # D swapped digits, betrayed by the plant's own yield grade
    rows[15].update(ribeye=15.3, adjustment=None)
    rows[7]["live"], rows[7]["hot"] = animals[7].hot, animals[7].live  # E live and carcass weight exchanged
    rows[10]["tag"] = rows[9]["tag"]  # F duplicate tag
    rows[17]["fat"] = rows[17]["adjustment"] = None  # G missing fat
    rows[19]["marbling"] = "S? 60"  # H unreadable marbling
    rows[22]["marbling"] = 5.4  # I ambiguous marbling number
    animals[29].live, animals[29].hot = 1378, 864  # J tags swapped: the live weights of two animals exchanged
    animals[33].live, animals[33].hot = 1212, 752
    swap_live(29, 33)
    rows[31]["remarks"] = "CONDEMNED by inspector"  # K condemned in the remarks
    rows[25]["hot"] = round(animals[25].hot * 0.975)  # L chilled for hot on one row
    rows[25]["remarks"] = "missed hot scale, cooler wt."
    rows[36]["remarks"] = "dark cutter"  # M dark cutter in the remarks
    rows[38]["maturity"] = "B20"  # N not a slip: a B carcass, where Small marbling is not Choice
    rows[38]["marbling"] = "Small 60"
    rows[12]["remarks"] = "L shoulder trimmed, bruise"  # O trimmed


def banner(sheet, row, text, font, height, fill=None):
    sheet.merge_cells(start_row=row, start_column=1, end_row=row, end_column=12)
    cell = sheet.cell(row, 1, text)
    cell.font, cell.alignment = font, CENTRE
    if fill:
        cell.fill = fill
    sheet.row_dimensions[row].height = height


HEADINGS = [("Rail", "no."), ("Ear", "tag"), ("Live", "wt."), ("Hot", "carc. wt."), ("12th rib", "fat, in."), ("Fat", "adj."),
            ("Rib eye", "area"), ("KPH", "%"), ("Marbling", None), ("Mat.", None), ("Plant", "YG"), ("Remarks", None)]


def headings(sheet, row):
    """A heading over two rows; the short ones are merged down."""
    for column, (upper, lower) in enumerate(HEADINGS, 1):
        for offset, text in enumerate((upper, lower)):
            cell = sheet.cell(row + offset, column, text)
            cell.font, cell.fill, cell.alignment, cell.border = BOLD, HEADING_FILL, CENTRE, BOX
        if lower is None:
            sheet.merge_cells(start_row=row, start_column=column, end_row=row + 1, end_column=column)


def write_row(sheet, row, written):
    formats = {3: "#,##0", 4: "#,##0", 5: "0.00", 7: "0.0", 8: "0.0%", 11: "0.00"}
    for column, key in enumerate(("rail", "tag", "live", "hot", "fat", "adjustment", "ribeye", "kph", "marbling", "maturity",
                                  "grade", "remarks"), 1):
        cell = sheet.cell(row, column, written[key])
        cell.font, cell.border = BODY, BOX
        cell.alignment = Alignment(horizontal="left" if column in (9, 12) else "center", wrap_text=column == 12)
        if column in formats and not isinstance(written[key], str):
            cell.number_format = formats[column]
        if column == 2:
            cell.number_format = "@"


def average_row(sheet, row, first, last, cached):
    sheet.cell(row, 1, "Average")
    for column in (3, 4, 5, 7, 8, 11):
        letter = sheet.cell(row, column).column_letter
        numbers = [sheet.cell(line, column).value for line in range(first, last + 1)]
        numbers = [number for number in numbers if isinstance(number, (int, float))]
        if numbers:
            sheet.cell(row, column, "=AVERAGE(%s%d:%s%d)" % (letter, first, letter, last))
            cached[sheet.title, "%s%d" % (letter, row)] = sum(numbers) / len(numbers)
            sheet.cell(row, column).number_format = {5: "0.00", 7: "0.0", 8: "0.0%", 11: "0.00"}.get(column, "#,##0")
    for column in range(1, 13):
        cell = sheet.cell(row, column)
        cell.font = Font(name="Calibri", size=11, italic=True)
        cell.border = Border(top=MEDIUM, bottom=THIN)
        cell.alignment = Alignment(horizontal="center")


def rail_sheet(workbook, animals, rows, cached):
    sheet = workbook.active
    sheet.title = "Rail sheet"
    banner(sheet, 1, PLANT, Font(name="Georgia", size=20, bold=True, color="FFFFFF"), 34, PatternFill("solid", fgColor="5B4636"))
    banner(sheet, 2, FAIR + " - beef carcass contest", Font(name="Georgia", size=13, bold=True), 22)
    banner(sheet, 3, "Killed Tue 8/19/2025 - ribbed Thu 8/21/2025 - all weights in lb, HOT", Font(name="Calibri", size=10, italic=True), 16)
    for first, last, text in ((1, 2, "ANIMAL"), (3, 4, "WEIGHTS"), (5, 8, "MEASURED IN COOLER"), (9, 11, "GRADE FACTORS")):
        sheet.merge_cells(start_row=5, start_column=first, end_row=5, end_column=last)
        cell = sheet.cell(5, first, text)
        cell.font, cell.alignment = Font(name="Calibri", size=9, bold=True), CENTRE
        for column in range(first, last + 1):
            sheet.cell(5, column).border = Border(bottom=MEDIUM)
    headings(sheet, 6)
    row = 8
    places = {}
    for class_number, title in enumerate(CLASSES):
        if class_number == 2:
            headings(sheet, row)
            row += 2
        sheet.merge_cells(start_row=row, start_column=1, end_row=row, end_column=12)
        cell = sheet.cell(row, 1, title.upper())
        cell.font, cell.fill = Font(name="Calibri", size=12, bold=True), CLASS_FILL
        row += 1
        first = row
        for index, animal in enumerate(animals):
            if animal.class_number != class_number:
                continue
            if index == 20:
                row += 1  # the clerk left a line free
            write_row(sheet, row, rows[index])
            places[index] = row
            row += 1
        average_row(sheet, row, first, row - 1, cached)
        row += 2
    sheet.cell(row, 1, "Head").font = BOLD
    sheet.cell(row, 2, "=COUNTA(B9:B%d)-2" % (row - 1))
    cached[sheet.title, "B%d" % row] = len(animals)
    notes = ["Fat is measured 3/4 of the way along the eye; adj. by the judge in the cooler.",
             "Plant YG was called for the heavy steers only.", "Condemned carcass: see inspector's slip no. 7."]
    for offset, note in enumerate(notes, 1):
        sheet.cell(row + offset, 1, note).font = Font(name="Calibri", size=9, italic=True)
    comment = Comment("Scale ticket was hard to read - please ask the plant.", "Fair office")
    comment.width, comment.height = 220, 60
    sheet["D%d" % places[4]].comment = comment
    sheet["D%d" % places[4]].fill = PatternFill("solid", fgColor="FFF2CC")
    for letter, width in zip("ABCDEFGHIJKL", (7, 8, 8, 10, 9.5, 7, 10, 8, 14, 8, 8, 27)):
        sheet.column_dimensions[letter].width = width
    sheet.freeze_panes = "C8"
    sheet.page_setup.orientation, sheet.page_setup.paperSize = "landscape", 1
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.print_title_rows = "6:7"
    sheet.page_margins = PageMargins(left=0.4, right=0.4, top=0.6, bottom=0.6)
    sheet.oddFooter.center.text = "Page &P of &N"


def live_places(animals):
    """Where each animal stood in the ring, by class: an eye for heavy and trim cattle, and not always right."""
    rng = random.Random(7)
    eye = {animal.tag: animal.live / 100 - 6 * animal.fat + rng.gauss(0, 1.5) for animal in sorted(animals, key=lambda one: one.tag)}
    places = {}
    for number in range(len(CLASSES)):
        ring = sorted((animal.tag for animal in animals if animal.class_number == number), key=lambda tag: -eye[tag])
        places.update((tag, place) for place, tag in enumerate(ring, 1))
    return places


def entries_sheet(workbook, animals):
    """The office's roster: who entered what, and whether the name may be printed."""
    sheet = workbook.create_sheet("Entries")
    rng = random.Random(88)
    names = ["%s %s" % (GIVEN[number % len(GIVEN)], SURNAMES[number * 4 % len(SURNAMES)]) for number in range(60)]
    rng.shuffle(names)
    sheet["A1"] = FAIR + ": beef entries"
    sheet["A1"].font = Font(name="Georgia", size=14, bold=True)
    sheet["A2"] = "checked at weigh-in 8/16/2025"
    for column, text in enumerate(("Tag", "Exhibitor", "Club", "Class", "Weigh-in wt", "OK to print name", "Live place"), 1):
        cell = sheet.cell(4, column, text)
        cell.font, cell.fill, cell.border = BOLD, HEADING_FILL, BOX
    entries = sorted((animal.tag, animal) for animal in animals)
    placed_live = live_places(animals)
    entries.append(("0588", None))  # P an entry without a carcass
    for offset, (tag, animal) in enumerate(entries):
        row = 5 + offset
        consent = "no" if offset % 13 == 6 else "yes"
        values = (tag, names[offset], CLUBS[rng.randrange(len(CLUBS))], CLASSES[animal.class_number] if animal else CLASSES[0],
                  animal.live + rng.randint(8, 34) if animal else 1244, consent, placed_live.get(tag))
        for column, value in enumerate(values, 1):
            cell = sheet.cell(row, column, value)
            cell.font, cell.border = BODY, BOX
            if column == 1:
                cell.number_format = "@"
    for letter, width in zip("ABCDEFG", (8, 26, 26, 26, 12, 17, 11)):
        sheet.column_dimensions[letter].width = width
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    sheet.page_setup.fitToHeight = 0
    sheet.auto_filter.ref = "A4:G%d" % (4 + len(entries))
    sheet.freeze_panes = "A5"


def notes_sheet(workbook):
    """The office's own notes, which are none of the program's business."""
    sheet = workbook.create_sheet("Office notes")
    lines = ["To do before Thursday night", "- results to the announcer by 5, two copies", "- ribbons: 3 sets purple, 3 sets lavender",
             "- call Quillstone about slip no. 7", "- projector for the reasons, extension cord!", "", "Money"]
    for row, line in enumerate(lines, 1):
        sheet.cell(row, 1, line).font = BOLD if row in (1, 7) else BODY
    for row, (what, amount) in enumerate((("Processing", 41), ("Fee a head", 12.5)), 8):
        sheet.cell(row, 1, what)
        sheet.cell(row, 2, amount)
    sheet["A10"], sheet["B10"] = "Due to the plant", "=B8*B9"
    sheet["B10"].number_format = '"$"#,##0.00'
    sheet.column_dimensions["A"].width = 46


def main():
    animals = herd()
    rows = [as_written(animal, index) for index, animal in enumerate(animals)]
    plant(animals, rows)
    for animal, row in zip(animals, rows):  # heavy steers whose true figures were set above keep the plant's own grade in step
        if animal.class_number == 1:
            row["grade"] = animal.yield_grade()
    workbook = Workbook()
    cached = {("Office notes", "B10"): 512.5}
    rail_sheet(workbook, animals, rows, cached)
    entries_sheet(workbook, animals)
    notes_sheet(workbook)
    workbook.properties.title, workbook.properties.creator = FAIR + " beef carcasses", "Fair office"
    stable.save(workbook, os.path.join(HERE, "fair.xlsx"), cached)


main()
