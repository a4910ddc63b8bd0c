"""Draws more sheets as plants, schools and fair offices keep them, each with what a careful clerk would make of it.

Run from anywhere with a Python that has openpyxl:  python3 testdata/layouts/draw_offices.py
These were drawn from the trade's habits by somebody who had not read the program; where the two disagree, the sheet is right.
All fairs, people and figures are invented.

NAME.expected.csv holds the readings, as draw.py describes them. NAME.findings.csv holds what must be said:
level, place, tag, says. Level is hold, look or note; place is SHEET!CELL, SHEET or empty for anywhere; tag may be empty;
says is a word or words that the finding's code or message must contain. A carcass of a tag with no hold line is placed.
"""
import csv
import os
import sys

from openpyxl import Workbook
from openpyxl.comments import Comment
from openpyxl.styles import Font, PatternFill

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, os.path.dirname(HERE))
import stable  # noqa: E402

UNITS = {"live weight": "lb", "hot carcass weight": "lb", "chilled carcass weight": "lb", "measured fat": "in", "adjusted fat": "in",
         "fat adjustment": "in", "ribeye area": "sq in", "kidney, pelvic and heart fat": "%", "body wall thickness": "in",
         "last-rib fat": "in", "tenth-rib fat": "in"}
SHORT = {"live": "live weight", "hot": "hot carcass weight", "cold": "chilled carcass weight", "fat": "measured fat", "adj": "fat adjustment",
         "adjfat": "adjusted fat", "rea": "ribeye area", "kph": "kidney, pelvic and heart fat", "marb": "marbling", "mat": "maturity",
         "yg": "sheet yield grade", "qg": "sheet quality grade", "wall": "body wall thickness", "leg": "leg score", "flank": "flank streaking",
         "who": "exhibitor"}
ALL = {}


def mould(draw):
    ALL[draw.__name__.replace("_", "-")] = draw
    return draw


class Clerk:
    """What a careful clerk reads on a sheet and says about it."""

    def __init__(self):
        self.readings, self.findings = [], []

    def reads(self, tag, group, **measures):
        for short, value in measures.items():
            measure = SHORT.get(short, short.replace("_", " "))
            self.readings.append((tag, group, measure, value, UNITS.get(measure, "")))

    def says(self, level, place, tag, words):
        self.findings.append((level, place, tag, words))

    def save(self, name):
        for ending, heads, lines in (("expected", ("tag", "class", "measure", "value", "unit"), self.readings),
                                     ("findings", ("level", "place", "tag", "says"), self.findings)):
            with open(os.path.join(HERE, "%s.%s.csv" % (name, ending)), "w", newline="") as file:
                writer = csv.writer(file, lineterminator="\n")
                writer.writerow(heads)
                writer.writerows(lines)


def sheet(book, title, rows, first=False):
    page = book.active if first else book.create_sheet()
    page.title = title
    for row in rows:
        page.append(row or [])
    return page


@mould
def kill_floor_dispositions(clerk):
    """A packing plant's kill report: a disposition column, a code for the trim, carcass numbers of the day."""
    book = Workbook()
    rows = [("0731", "Steers", 801, .4, 13.1, 2.5, "Sm 30", "PASSED", ""), ("0732", "Steers", 790, .5, 12.8, 2, "Sl 70", "CONDEMNED", "septicemia"),
            ("0733", "Steers", 822, .55, 13.6, 3, "Mt 20", "PASSED", "RT rib 4"), ("0734", "Steers", 775, .3, 12.9, 2, "Sm 10", "RETAINED", ""),
            ("0735", "Heifers", 742, .45, 12.6, 2.5, "Sm 60", "PASSED", ""), ("0736", "Heifers", 750, .6, 12.2, 2.5, "Md 10", "PASSED AFTER TRIM", "")]
    sheet(book, "Kill 8-6", [["Tamarack Custom Meats - kill floor report"], ["Kill date: 8/6/2025", None, None, "Est. for Thistle County Fair"], None,
                             ["Ear Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marbling", "Disposition", "Trim"]] + rows, True)
    for tag, group, hot, fat, rea, kph, marb, _, _ in rows:
        clerk.reads(tag, group, kill_date="2025-08-06", hot=hot, fat=fat, rea=rea, kph=kph, marb={"Sm": 400, "Sl": 300, "Mt": 500, "Md": 600}[marb[:2]] + int(marb[3:]))
    clerk.says("hold", "Kill 8-6!H6", "0732", "CONDEMNED")
    clerk.says("hold", "Kill 8-6!H8", "0734", "RETAINED")
    clerk.says("look", "Kill 8-6!H10", "0736", "trim")
    return book


@mould
def inspector_comments(clerk):
    """The inspector's words stand in a column of their own and in a cell comment; one line is struck out."""
    book = Workbook()
    rows = [(11, "Mkt Steer", 812, .45, 13.4, 2, "SM50", None), (12, "Mkt Steer", 798, .5, 13.0, 2.5, "SM20", "tail caught in puller"),
            (13, "Mkt Steer", 805, .35, 13.9, 2, "SL80", None), (14, "Mkt Steer", 780, .4, 12.8, 2, "MT10", "Ret. - abscess liver, retained for vet"),
            (15, "Mkt Steer", 826, .6, 13.2, 3, "MD30", None)]
    page = sheet(book, "Sheet1", [["Tag", "Class", "Hot Wt", "BF", "REA", "KPH", "Marb", "Insp. Comments"]] + rows, True)
    page["C4"].comment = Comment("Condemned on final - do not weigh again", "Inspector")
    for column in "ABCDEFG":
        page[column + "6"].font = Font(strike=True)
    for tag, group, hot, fat, rea, kph, marb, _ in rows:
        clerk.reads(str(tag), group, hot=hot, fat=fat, rea=rea, kph=kph, marb={"SM": 400, "SL": 300, "MT": 500, "MD": 600}[marb[:2]] + int(marb[2:]))
    clerk.says("hold", "Sheet1!H5", "14", "retained")
    clerk.says("hold", "Sheet1!C4", "13", "Condemned")
    clerk.says("hold", "Sheet1!A6", "15", "struck")
    return book


@mould
def dark_cut_question(clerk):
    """Questions as headings, answered with an X, Y, N or nothing."""
    book = Workbook()
    rows = [("A1", "Steers", 799, .4, 13.2, 2, "Sm 40", None, "N"), ("A2", "Steers", 815, .5, 13.5, 2.5, "Mt 10", "X", "N"),
            ("A3", "Steers", 786, .35, 12.9, 2, "Sl 60", None, "N"), ("A4", "Steers", 760, .3, 13.0, 1.5, "Sm 0", "no", "Y")]
    sheet(book, "Beef", [["Tag No.", "Class", "Carcass Wt (hot)", "Backfat", "Ribeye", "KPH %", "Marbling", "Dk Cut?", "Cond?"]] + rows, True)
    for tag, group, hot, fat, rea, kph, marb, _, _ in rows:
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb={"Sm": 400, "Sl": 300, "Mt": 500}[marb[:2]] + int(marb[3:]))
    clerk.says("hold", "Beef!H3", "A2", "Dk Cut")
    clerk.says("hold", "Beef!I5", "A4", "Cond")
    return book


@mould
def ribbons_with_dq(clerk):
    """Last column is the ribbon as the office has already given it out: DQ for one that has measures, NC for one that has none."""
    book = Workbook()
    rows = [("411", "Wether Lambs", 128, 66, .2, 2.9, .8, "Blue"), ("412", "Wether Lambs", 131, 68, .25, 2.7, .9, "DQ"), ("413", "Wether Lambs", 119, 61, .15, 2.6, .7, "Red"),
            ("414", "Wether Lambs", None, None, None, None, None, "NC"), ("415", "Wether Lambs", 140, 73, .3, 3.1, 1, "Blue")]
    sheet(book, "Lambs", [["Butternut Valley 4-H - Lamb Carcass"], ["Tag", "Class", "Live Wt", "HCW", "Fat", "REA", "Body wall", "Ribbon"]] + rows, True)
    for tag, group, live, hot, fat, rea, wall, _ in rows:
        if hot:
            clerk.reads(tag, group, live=live, hot=hot, fat=fat, rea=rea, wall=wall)
    clerk.says("hold", "Lambs!H4", "412", "DQ")
    clerk.says("note", "Lambs", "", "414")
    return book


@mould
def weight_classes(clerk):
    """The show class is called Wt Class and is written on the first line of each run only."""
    book = Workbook()
    rows = [("Light", 21, 690, .3, 12.1, 2, 410), (None, 22, 701, .35, 12.5, 2, 430), (None, 23, 705, .4, 12.0, 2.5, 380),
            ("Medium", 24, 760, .45, 13.0, 2.5, 450), (None, 25, 771, .4, 13.2, 2, 500),
            ("Heavy", 26, 845, .6, 13.7, 3, 520), (None, 27, 861, .55, 14.1, 2.5, 470)]
    sheet(book, "Steers", [["Wt Class", "Tag", "HCW", "12th rib fat", "REA", "KPH", "Marb score"]] + rows, True)
    group = ""
    for wt, tag, hot, fat, rea, kph, marb in rows:
        group = wt or group
        clerk.reads(str(tag), group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("look", "Steers", "", "same as above")
    return book


@mould
def numbered_in_advance(clerk):
    """Rail numbers 1 to 12 were typed before the day; seven carcasses came."""
    book = Workbook()
    done = {1: (801, .4, 13.1, 2.5, 430), 2: (790, .45, 12.9, 2, 410), 3: (812, .5, 13.5, 2.5, 460), 4: (777, .3, 12.8, 2, 350),
            5: (834, .6, 13.3, 3, 510), 6: (795, .4, 13.0, 2, 420), 7: (820, .5, 13.9, 2.5, 480)}
    sheet(book, "Rail", [["Rail #", "HCW", "Fat", "REA", "KPH", "Marb"]] + [(n, *done.get(n, ())) for n in range(1, 13)], True)
    for n, (hot, fat, rea, kph, marb) in done.items():
        clerk.reads(str(n), "*", hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("note", "Rail", "", "5")
    return book


@mould
def spacer_columns(clerk):
    """An empty narrow column after each group of columns: one table, not four."""
    book = Workbook()
    rows = [("501", "Steers", None, 1290, 806, None, .45, 13.4, 2.5, None, 430, "A60"), ("502", "Steers", None, 1244, 771, None, .3, 12.9, 2, None, 380, "A50"),
            ("503", "Heifers", None, 1198, 744, None, .55, 12.4, 3, None, 510, "A60")]
    sheet(book, "Carcass", [["Tag", "Class", None, "Live Wt", "Hot Wt", None, "Fat", "REA", "KPH", None, "Marbling", "Maturity"]] + rows, True)
    for tag, group, _, live, hot, _, fat, rea, kph, _, marb, mat in rows:
        clerk.reads(tag, group, live=live, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb, mat=100 + int(mat[1:]))
    return book


@mould
def two_tables_beside(clerk):
    """Steers on the left, hogs on the right, each with its own headings, a blank column between; Hot Wt repeats before Tag does."""
    book = Workbook()
    steers = [("31", 801, .4, 13.1, 2.5, 430), ("32", 779, .35, 12.9, 2, 390), ("33", 822, .55, 13.6, 3, 520)]
    hogs = [(205, .7, 8.1, "91"), (198, .6, 7.8, "92")]
    page = [["STEERS", None, None, None, None, None, None, "HOGS"], ["Tag", "Hot Wt", "Fat", "REA", "KPH", "Marb", None, "Hot Wt", "10th Rib Fat", "LEA", "Tag"]]
    for n, steer in enumerate(steers):
        page.append(list(steer) + [None] + (list(hogs[n]) if n < len(hogs) else []))
    sheet(book, "Day sheet", page, True)
    for tag, hot, fat, rea, kph, marb in steers:
        clerk.reads(tag, "STEERS", hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    for hot, fat, lea, tag in hogs:
        clerk.readings += [(tag, "HOGS", "hot carcass weight", hot, "lb"), (tag, "HOGS", "tenth-rib fat", fat, "in"), (tag, "HOGS", "loin muscle area", lea, "sq in")]
    return book


@mould
def bilingual_headings(clerk):
    """A border county's sheet, headings in Spanish and English."""
    book = Workbook()
    rows = [("701", "Novillos", 1301, 818, .5, 13.4, 2.5, "Sm 50"), ("702", "Novillos", 1256, 779, .35, 13.9, 2, "Sl 40"), ("703", "Novillos", 1210, 752, .6, 12.1, 3, "Sm 10")]
    sheet(book, "Canales", [["Arete / Ear tag", "Clase / Class", "Peso vivo / Live wt (lb)", "Peso canal caliente / Hot carcass wt (lb)", "Grasa dorsal / Fat thickness (in)",
                             "Área del ojo / Ribeye area (sq in)", "GRP / KPH (%)", "Marmoleo / Marbling"]] + rows, True)
    for tag, group, live, hot, fat, rea, kph, marb in rows:
        clerk.reads(tag, group, live=live, hot=hot, fat=fat, rea=rea, kph=kph, marb={"Sm": 400, "Sl": 300}[marb[:2]] + int(marb[3:]))
    return book


@mould
def last_years_tab(clerk):
    """This year's sheet with last year's still in the workbook; the tags are used again."""
    book = Workbook()
    now = [("1", "Steers", 801, .4, 13.1, 2.5, 430), ("2", "Steers", 790, .45, 12.9, 2, 410)]
    then = [("1", "Steers", 744, .3, 12.1, 2, 380), ("2", "Steers", 760, .5, 12.4, 2.5, 450), ("3", "Steers", 772, .4, 12.9, 2, 400)]
    heads = ["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marb"]
    sheet(book, "2025", [["Elderberry Fair 2025"], heads] + now, True)
    sheet(book, "2024", [["Elderberry Fair 2024"], heads] + then)
    for tag, group, hot, fat, rea, kph, marb in now:
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("hold", "2024", "", "2024")
    return book


@mould
def scratches_listed(clerk):
    """The roster of entries is the rail sheet; those that did not come are marked in a status column."""
    book = Workbook()
    rows = [("61", "Pat Lantern", "Steers", 801, .4, 13.1, 2.5, 430, None), ("62", "Lee Thimble", "Steers", None, None, None, None, None, "Scratched"),
            ("63", "Kit Marrow", "Steers", 790, .45, 12.9, 2, 410, None), ("64", "Jo Sorrel", "Steers", None, None, None, None, None, "did not make weight"),
            ("65", "Max Bramble", "Heifers", None, None, None, None, None, "No show"), ("66", "Bo Tansy", "Heifers", 744, .55, 12.4, 3, 510, None),
            ("67", "Al Quince", "Heifers", 755, .4, 12.6, 2, 440, "withdrawn"), ("68", "Di Medlar", "Heifers", None, None, None, None, None, "Sold private")]
    sheet(book, "Entries", [["Tag", "Exhibitor", "Class", "HCW", "Fat", "REA", "KPH", "Marb", "Status"]] + rows, True)
    for tag, who, group, hot, fat, rea, kph, marb, _ in rows:
        if hot:
            clerk.reads(tag, group, who=who, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("note", "Entries", "", "4")
    clerk.says("hold", "Entries!I8", "67", "withdrawn")
    return book


@mould
def sire_named_condemned(clerk):
    """Words of a condition in names are names: a sire called Black Dead Ringer, a club called Dark Cutters."""
    book = Workbook()
    rows = [("81", "Dark Cutters 4-H", "Dead Ringer 14", "AN", "Steers", 801, .4, 13.1, 2.5, 430), ("82", "Lower Fork", "Trim Line", "HH", "Steers", 790, .45, 12.9, 2, 410),
            ("83", "Retained Ranch Kids", "No Show Nelson", "XB", "Steers", 815, .5, 13.3, 2.5, 450)]
    sheet(book, "Steers", [["Tag", "Club", "Sire", "Breed", "Class", "HCW", "Fat", "REA", "KPH", "Marbling"]] + rows, True)
    for tag, club, _, _, group, hot, fat, rea, kph, marb in rows:
        clerk.reads(tag, group, club=club, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    return book


@mould
def champions_above(clerk):
    """A list of the champions above the table repeats the tags; a legend in words gives a colour a meaning."""
    book = Workbook()
    rows = [("91", "Steers", 801, .4, 13.1, 2.5, 430), ("92", "Steers", 790, .45, 12.9, 2, 410), ("93", "Heifers", 744, .55, 12.4, 3, 510)]
    page = sheet(book, "Results", [["Champion steer", "91"], ["Reserve steer", "92"], ["Yellow = retained by inspector"], None, ["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marb"]] + rows, True)
    page["A8"].fill = PatternFill("solid", start_color="FFFF00")
    for tag, group, hot, fat, rea, kph, marb in rows:
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("look", "Results!A3", "", "colour")
    return book


@mould
def class_summaries(clerk):
    """Averages and counts under each class carry the class's name in the class column."""
    book = Workbook()
    rows = [("Light", "1", 690, .3, 12.1, 2, 410), ("Light", "2", 701, .35, 12.5, 2, 430), ("Light Average", None, 695.5, .325, 12.3, 2, 420), ("Light Count", 2),
            ("Heavy", "3", 845, .6, 13.7, 3, 520), ("Heavy", "4", 861, .55, 14.1, 2.5, 470), ("Heavy Average", None, 853, .575, 13.9, 2.75, 495), ("Heavy Count", 2), (None, None), ("8/7/2025 pg 2",)]
    sheet(book, "Sheet1", [["Class", "Tag", "HCW", "Fat", "REA", "KPH", "Marb"]] + rows, True)
    for group, tag, *values in [r for r in rows if r[0] in ("Light", "Heavy")]:
        hot, fat, rea, kph, marb = values
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    return book


@mould
def short_lines(clerk):
    """Short lines among the carcasses: one is a class, the others are not."""
    book = Workbook()
    heads = ["Tag", "HCW", "Fat", "REA", "KPH", "Marb"]
    one, two = [("11", 801, .4, 13.1, 2.5, 430), ("12", 790, .45, 12.9, 2, 410)], [("13", 744, .55, 12.4, 3, 510)]
    late, hot = [("14", 752, .5, 12.2, 2.5, 440)], [("15", 760, .45, 12.9, 2, 470)]
    sheet(book, "Beef", [["Market Steers"], heads] + one + [("Market Heifers",)] + two + [("Cooler B",)] + late + [("Late arrivals",)] + hot, True)
    for group, rows in (("Market Steers", one), ("Market Heifers", two + late + hot)):
        for tag, weight, fat, rea, kph, marb in rows:
            clerk.reads(tag, group, hot=weight, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("look", "Beef!A7", "", "Cooler B")
    clerk.says("look", "Beef!A9", "", "Late arrivals")
    return book


@mould
def goats_with_numbers_for_headings(clerk):
    """A small locker's goat sheet; county and number of the tag in two columns, and a tag colour."""
    book = Workbook()
    rows = [("Alder", 12, "yellow", "Market Goats", 82, 41.5, .08, 2.1, .5), ("Alder", 13, "yellow", "Market Goats", 90, 46, .1, 2.3, .6), ("Birch", 12, "green", "Market Goats", 77, 38.5, .05, 1.9, .5)]
    sheet(book, "goats", [["Tag County", "Tag #", "Tag color", "Class", "Live", "Hot carc.", "Fat", "REA", "Body wall"]] + rows, True)
    for county, number, _, group, live, hot, fat, rea, wall in rows:
        clerk.reads("%s %d" % (county, number), group, live=live, hot=hot, fat=fat, rea=rea, wall=wall)
    return book


@mould
def questioned_values(clerk):
    """Remarks that put a value in question."""
    book = Workbook()
    rows = [("1", "Steers", 760, .4, 13.1, 2.5, 430, "re-weigh 790"), ("2", "Steers", 790, .45, 12.9, 2, 410, "REA other side 14.9"),
            ("3", "Steers", 812, .5, 13.5, 2.5, 460, "ID questionable"), ("4", "Steers", 777, .3, 12.8, 2, 350, "fat pulled, add .1"), ("5", "Steers", 801, .4, 13.0, 2, 420, "nice one")]
    sheet(book, "Beef", [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marb", "Remarks"]] + rows, True)
    for tag, group, hot, fat, rea, kph, marb, _ in rows:
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("look", "Beef!H2", "1", "790")
    clerk.says("look", "Beef!H3", "2", "14.9")
    clerk.says("look", "Beef!H4", "3", "ID questionable")
    clerk.says("look", "Beef!H5", "4", "0.1")
    return book


@mould
def school_grade_and_hide_color(clerk):
    """Grade is the child's grade at school, Color the colour of the hide: neither is a grade or a colour of lean."""
    book = Workbook()
    rows = [("1", "Pip Larch", 7, "Black", "Steers", 801, .4, 13.1, 2.5, 430), ("2", "Ivy Stoat", 11, "Red", "Steers", 790, .45, 12.9, 2, 410),
            ("3", "Ned Plover", 9, "BWF", "Steers", 815, .5, 13.3, 2.5, 450)]
    sheet(book, "Steers", [["Tag", "Exhibitor", "Grade", "Color", "Class", "HCW", "Fat", "REA", "KPH", "Marbling"]] + rows, True)
    for tag, who, _, _, group, hot, fat, rea, kph, marb in rows:
        clerk.reads(tag, group, who=who, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    return book


@mould
def footnote_marks(clerk):
    """Superscript marks in the headings, merged groups Fat over Act. and Adj., marks in brackets below."""
    book = Workbook()
    rows = [("1", "Steers", 801, .4, .45, 13.1, 2.5, 430), ("2", "Steers", 790, .45, .45, 12.9, 2, 410), ("3", "Heifers", 744, .5, .6, 12.4, 3, 510)]
    page = sheet(book, "Carcass data", [[None, None, None, "Fat", None], ["Tag", "Class", "HCW\u00b9", "Act.", "Adj.", "REA\u00b2", "KPH*", "Marb."]] + rows
                 + [None, ["\u00b9 hot, pounds"], ["\u00b2 by dot grid"], ["* percent"]], True)
    page.merge_cells("D1:E1")
    for tag, group, hot, fat, adj, rea, kph, marb in rows:
        clerk.reads(tag, group, hot=hot, fat=fat, adjfat=adj, rea=rea, kph=kph, marb=marb)
    return book


@mould
def buyer_and_pen(clerk):
    """Columns nobody needs: buyer, pen. The sale weight is the live weight. And Insp with a mark."""
    book = Workbook()
    rows = [("21", "Steers", "Corner Market", 4, 1290, 801, .4, 13.1, 2.5, 430, "ok"), ("22", "Steers", "Dead Oak Feed", 7, 1302, 790, .45, 12.9, 2, 410, "RETAINED"),
            ("23", "Steers", "condemned", 2, 1250, 815, .5, 13.3, 2.5, 450, "ok")]
    sheet(book, "Sale", [["Tag", "Class", "Buyer", "Pen", "Sale weight", "HCW", "Fat", "REA", "KPH", "Marbling", "Insp."]] + rows, True)
    for tag, group, _, _, live, hot, fat, rea, kph, marb, _ in rows:
        clerk.reads(tag, group, live=live, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("hold", "Sale!K3", "22", "RETAINED")
    clerk.says("hold", "Sale!C4", "23", "condemned")
    clerk.says("note", "Sale", "", "Pen")
    return book


@mould
def division_and_type(clerk):
    """An office that calls the class Division; a Type column says what kind of animal."""
    book = Workbook()
    rows = [(1, "Prospect", "Steer", 702, .3, 12.4, 2, 430), (2, "Prospect", "Steer", 688, .25, 12.0, 1.5, 390), (3, "Market", "Heifer", 744, .5, 12.7, 2.5, 480)]
    sheet(book, "Beef carcasses", [["Tag", "Div.", "Type", "HCW", "BF", "REA", "KPH", "Marbling"]] + rows, True)
    for tag, group, _, hot, fat, rea, kph, marb in rows:
        clerk.reads(str(tag), group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    return book


@mould
def sums_from_a_pivot(clerk):
    """A table that a pivot made: Row Labels, Sum of HCW and so on, and a grand total."""
    book = Workbook()
    rows = [("101", 801, .4, 13.1, 2.5, 430), ("102", 790, .45, 12.9, 2, 410), ("103", 744, .55, 12.4, 3, 510)]
    sheet(book, "Steers", [["Ear tag", "Sum of HCW", "Sum of Fat", "Sum of REA", "Sum of KPH", "Sum of Marbling"]] + rows
          + [("Grand Total", 2335, 1.4, 38.4, 7.5, 1350)], True)
    for tag, hot, fat, rea, kph, marb in rows:
        clerk.reads(tag, "Steers", hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    return book


@mould
def backup_tab(clerk):
    """A copy of the sheet was kept as a backup before two cells were corrected."""
    book = Workbook()
    now = [("11", "Steers", 801, .4, 13.1, 2.5, 430), ("12", "Steers", 790, .45, 12.9, 2, 410), ("13", "Heifers", 744, .55, 12.4, 3, 510)]
    then = [("11", "Steers", 810, .4, 13.1, 2.5, 430), ("12", "Steers", 790, .45, 12.9, 2, 410), ("13", "Heifers", 744, .5, 12.4, 3, 510)]
    heads = ["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marb"]
    sheet(book, "Cooler data", [heads] + now, True)
    sheet(book, "Cooler data backup", [heads] + then)
    for tag, group, hot, fat, rea, kph, marb in now:
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("hold", "Cooler data backup", "", "backup")
    return book


@mould
def only_sheet_of_another_year(clerk):
    """The office used last year's file and forgot to rename the tab: it is the only sheet, and it counts."""
    book = Workbook()
    rows = [("1", "Steers", "8/6/2025", 801, .4, 13.1, 2.5, 430), ("2", "Steers", "8/6/2025", 790, .45, 12.9, 2, 410)]
    page = sheet(book, "Carcass 2024", [["Tag", "Class", "Kill date", "HCW", "Fat", "REA", "KPH", "Marb"]] + rows, True)
    page.sheet_state = "visible"
    for tag, group, _, hot, fat, rea, kph, marb in rows:
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb, kill_date="2025-08-06")
    clerk.says("note", "Carcass 2024", "", "2024")
    return book


@mould
def hidden_last_year(clerk):
    """Last year's sheet is hidden, has other tags and no year in its name but an older kill date in the title."""
    book = Workbook()
    heads = ["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marb"]
    now = [("501", "Steers", 801, .4, 13.1, 2.5, 430), ("502", "Steers", 790, .45, 12.9, 2, 410)]
    sheet(book, "Beef", [["Harvest 2025"], heads] + now, True)
    old = sheet(book, "Old beef", [["Harvest 2023"], heads, ("77", "Steers", 760, .5, 12.4, 2.5, 450), ("78", "Steers", 744, .3, 12.1, 2, 380)])
    old.sheet_state = "hidden"
    for tag, group, hot, fat, rea, kph, marb in now:
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("hold", "Old beef", "", "old")
    return book


@mould
def tabs_named_as_clubs(clerk):
    """A tab a club; the tab is no class, and no cell says one."""
    book = Workbook()
    heads = ["Tag", "HCW", "Fat", "REA", "KPH", "Marb"]
    for n, (tab, rows) in enumerate([("Hill Toppers 4-H", [("1", 801, .4, 13.1, 2.5, 430)]), ("Cloverleaf 4-H", [("2", 790, .45, 12.9, 2, 410), ("3", 822, .5, 13.3, 2.5, 440)])]):
        sheet(book, tab, [["Market Beef"], heads] + rows, n == 0)
        for tag, hot, fat, rea, kph, marb in rows:
            clerk.reads(tag, "Market Beef", hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("look", "", "", "both")
    return book


@mould
def plant_grades_with_marbling_words(clerk):
    """The plant writes marbling with its grade in brackets and the yield grade beside."""
    book = Workbook()
    rows = [("1", "Steers", 801, .4, 13.1, 2.5, "Modest 20 (Ch)", 520), ("2", "Steers", 790, .45, 12.9, 2, "Small 60 (Ch)", 460), ("3", "Heifers", 744, .55, 12.4, 3, "Slight 80 (Se)", 380)]
    sheet(book, "Cooler", [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marbling"]] + [r[:7] for r in rows], True)
    for tag, group, hot, fat, rea, kph, _, marb in rows:
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    return book


@mould
def skinned_in_the_title(clerk):
    """Hogs skinned, the title says; kill date without a colon."""
    book = Workbook()
    rows = [("91", "Barrows", 205, .7, 8.1), ("92", "Barrows", 198, .6, 7.8), ("93", "Gilts", 190, .55, 8.3)]
    sheet(book, "Swine", [["Swine carcass contest - hogs skinned"], ["Kill date", "2025-08-06"], None, ["Tag", "Class", "Hot Wt", "10th rib fat", "LEA"]] + rows, True)
    for tag, group, hot, fat, lea in rows:
        clerk.reads(tag, group, hot=hot, skinned="yes", kill_date="2025-08-06")
        clerk.readings += [(tag, group, "tenth-rib fat", fat, "in"), (tag, group, "loin muscle area", lea, "sq in")]
        # Hogs are placed by their lean, and every published equation for it is for a carcass with its skin on.
        clerk.says("hold", "Swine!A4", tag, "skin on")
    return book


@mould
def errors_in_names(clerk):
    """A look-up failed in the name and club columns: #N/A, which concerns nobody's carcass."""
    book = Workbook()
    rows = [("1", "#N/A", "#N/A", "Steers", 801, .4, 13.1, 2.5, 430), ("2", "Ivy Stoat", "Upper Fork", "Steers", 790, .45, 12.9, 2, 410), ("3", "#N/A", "Upper Fork", "Heifers", 744, .55, 12.4, 3, 510)]
    page = sheet(book, "Results", [["Tag", "Exhibitor", "Club", "Class", "HCW", "Fat", "REA", "KPH", "Marb"]] + rows, True)
    for row in page.iter_rows(min_row=2, max_row=4, min_col=2, max_col=3):
        for cell in row:
            if cell.value == "#N/A":
                cell.data_type = "e"
    for tag, who, club, group, hot, fat, rea, kph, marb in rows:
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("look", "Results!B1", "", "Exhibitor")
    return book


@mould
def tag_without_a_heading(clerk):
    """The first column has numbers and no heading."""
    book = Workbook()
    rows = [(1041, "Steers", 801, .4, 13.1, 2.5, 430), (1042, "Steers", 790, .45, 12.9, 2, 410), (1047, "Heifers", 744, .55, 12.4, 3, 510)]
    sheet(book, "Beef", [[None, "Class", "Hot carcass wt", "Fat thickness", "Ribeye area", "KPH", "Marbling"]] + rows, True)
    for tag, group, hot, fat, rea, kph, marb in rows:
        clerk.reads(str(tag), group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("look", "Beef", "", "tag")
    return book


@mould
def weight_class_and_class(clerk):
    """A class of the show and a weight class beside it: which one counts must be asked."""
    book = Workbook()
    rows = [("1", "Market Steers", "Light", 702, .4, 12.1, 2.5, 430), ("2", "Market Steers", "Heavy", 830, .45, 13.9, 2, 410), ("3", "Market Heifers", "Light", 690, .55, 11.8, 3, 510)]
    sheet(book, "Beef", [["Tag", "Class", "Weight Class", "HCW", "Fat", "REA", "KPH", "Marb"]] + rows, True)
    for tag, group, _, hot, fat, rea, kph, marb in rows:
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("look", "Beef!C1", "", "Weight Class")
    return book


@mould
def plant_title_after_a_page_break(clerk):
    """The plant's printout repeats its own title and the headings on the second page."""
    book = Workbook()
    heads = ["Tag", "HCW", "Fat", "REA", "KPH", "Marb"]
    one, two = [("1", 801, .4, 13.1, 2.5, 430), ("2", 790, .45, 12.9, 2, 410)], [("3", 744, .55, 12.4, 3, 510), ("4", 752, .5, 12.2, 2.5, 440)]
    sheet(book, "Market Steers", [["Tamarack Custom Meats"], heads] + one + [None, ["Tamarack Custom Meats"], heads] + two, True)
    for tag, hot, fat, rea, kph, marb in one + two:
        clerk.reads(tag, "Market Steers", hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    return book


@mould
def disqualified_below(clerk):
    """The disqualified are kept below a line of their own."""
    book = Workbook()
    rows = [("1", 801, .4, 13.1, 2.5, 430), ("2", 790, .45, 12.9, 2, 410)]
    out = [("3", 744, .55, 12.4, 3, 510), ("4", 752, .5, 12.2, 2.5, 440)]
    sheet(book, "Market Steers", [["Tag", "HCW", "Fat", "REA", "KPH", "Marb"]] + rows + [["DISQUALIFIED - ownership date"]] + out, True)
    for tag, hot, fat, rea, kph, marb in rows + out:
        clerk.reads(tag, "Market Steers", hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("hold", "Market Steers", "3", "DISQUALIFIED")
    clerk.says("hold", "Market Steers", "4", "DISQUALIFIED")
    return book


@mould
def units_in_brackets_below(clerk):
    """A row of bracketed words under the headings explains how each was taken."""
    book = Workbook()
    rows = [("1", "Steers", 801, .4, 13.1, 2.5, 430), ("2", "Steers", 790, .45, 12.9, 2, 410)]
    sheet(book, "Beef", [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marb"], ["(left ear)", "(entered)", "(hot, lb)", "(12th rib)", "(dot grid)", "(called)", "(called)"]] + rows, True)
    for tag, group, hot, fat, rea, kph, marb in rows:
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    return book


@mould
def yield_grade_twice(clerk):
    """Yield grade as calculated and as stamped by the plant, both headings well known."""
    book = Workbook()
    rows = [("1", "Steers", 801, .4, 13.1, 2.5, 430, 2.7, 2), ("2", "Steers", 790, .45, 12.9, 2, 410, 2.8, 2), ("3", "Steers", 744, .55, 12.4, 3, 510, 3.2, 3)]
    sheet(book, "Beef", [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marb", "Calc YG", "USDA YG"]] + rows, True)
    for tag, group, hot, fat, rea, kph, marb, yg, _ in rows:
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb, yg=yg)
    clerk.says("look", "Beef!I1", "", "YG")
    return book


@mould
def lambs_by_a_school(clerk):
    """A school's lamb sheet: abbreviations, leg score in words, club as chapter, marks of consent."""
    book = Workbook()
    rows = [("301", "Wren Ashby", "Pine FFA", "Market Lambs", 131, 68.5, .2, .8, 2.7, 12), ("302", "Tam Birdsong", "Pine FFA", "Market Lambs", 140, 73, .3, 1.0, 3.0, 13), ("303", "Sol Underhill", "Oak FFA", "Market Lambs", 125, 64, .15, .7, 2.6, 11)]
    sheet(book, "Lamb", [["Ear Tag", "Student", "Chapter", "Class", "Live Wt", "Hot Wt", "BF", "BW", "REA", "Leg"]] + rows, True)
    for tag, who, club, group, live, hot, fat, wall, rea, leg in rows:
        clerk.reads(tag, group, who=who, club=club, live=live, hot=hot, fat=fat, wall=wall, rea=rea, leg=leg)
    return book


@mould
def order_of_finish(clerk):
    """The plant's order of finish, a Place column already filled in by hand, and scr for one."""
    book = Workbook()
    rows = [(1, "21", "Steers", 801, .4, 13.1, 2.5, 430), (2, "22", "Steers", 790, .45, 12.9, 2, 410), ("scr", "23", "Steers", None, None, None, None, None), (3, "24", "Steers", 822, .6, 13.0, 3, 400)]
    sheet(book, "Steers", [["Final place", "Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marb"]] + rows, True)
    for _, tag, group, hot, fat, rea, kph, marb in rows:
        if hot:
            clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("note", "Steers", "", "23")
    return book


@mould
def released_after_retention(clerk):
    """Inspection results in full sentences; a retained carcass was released, another was not."""
    book = Workbook()
    rows = [("1", "Steers", 801, .4, 13.1, 2.5, 430, "Passed"), ("2", "Steers", 790, .45, 12.9, 2, 410, "Passed"), ("3", "Steers", 744, .5, 12.4, 3, 510, "Retained for residue test"), ("4", "Steers", 815, .5, 13.2, 2.5, 450, "Passed, no defects")]
    sheet(book, "Beef", [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marb", "Inspection result"]] + rows, True)
    for tag, group, hot, fat, rea, kph, marb, _ in rows:
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    clerk.says("hold", "Beef!H4", "3", "Retained")
    return book


@mould
def one_line_a_side(clerk):
    """Each side of a carcass was weighed and stands on a line of its own."""
    book = Workbook()
    rows = [("1", "Steers", "L", 402, .4, 13.1, 2.5, 430), ("1", "Steers", "R", 399, None, None, None, None), ("2", "Steers", "L", 395, .45, 12.9, 2, 410), ("2", "Steers", "R", 396, None, None, None, None)]
    sheet(book, "Beef", [["Tag", "Class", "Side", "Hot wt", "Fat", "REA", "KPH", "Marb"]] + rows, True)
    for tag, left, right, fat, rea, kph, marb in (("1", 402, 399, .4, 13.1, 2.5, 430), ("2", 395, 396, .45, 12.9, 2, 410)):
        clerk.readings += [(tag, "Steers", "left side weight", left, "lb"), (tag, "Steers", "right side weight", right, "lb")]
        clerk.reads(tag, "Steers", fat=fat, rea=rea, kph=kph, marb=marb)
    return book


@mould
def two_pairs_to_a_line(clerk):
    """A printed form a carcass, label and value twice on a line."""
    book = Workbook()
    form = []
    for tag, group, hot, fat, rea, kph, marb in (("1", "Steers", 801, .4, 13.1, 2.5, 430), ("2", "Steers", 790, .45, 12.9, 2, 410)):
        form += [["Tag", tag, "Class", group], ["HCW", hot, "Fat", fat], ["REA", rea, "KPH", kph], ["Marbling", marb], None]
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb)
    sheet(book, "Beef cards", form, True)
    return book


@mould
def plant_grades_alone(clerk):
    """A plant that stamps grades and writes no marbling: nobody can be placed before the board says that the stamp counts."""
    book = Workbook()
    rows = [("1", "Steers", 801, .4, 13.1, 2.5, "LoCh", "Low Choice"), ("2", "Steers", 790, .45, 12.9, 2, "HiCh", "High Choice"),
            ("3", "Steers", 744, .5, 12.4, 3, "T2/3", "Choice"), ("4", "Steers", 760, .5, 12.5, 2.5, "Se", "Select")]
    sheet(book, "Cooler", [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "QG"]] + [r[:7] for r in rows], True)
    for tag, group, hot, fat, rea, kph, _, grade in rows:
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, qg=grade)
        clerk.says("hold", "Cooler!A1", tag, "plant's own quality grade")
    clerk.says("note", "Cooler!G1", "", "upper part of Choice")
    return book


@mould
def dates_and_trucker(clerk):
    """A trucking list with weights off the truck; dates of birth and kill; a column of the trucker and a truck number."""
    book = Workbook()
    rows = [("1", "Steers", "3/1/2024", "8/6/2025", "Lark Haulage", 4, 1290, 801, .4, 13.1, 2.5, 430), ("2", "Steers", "2/20/2024", "8/6/2025", "Lark Haulage", 4, 1275, 790, .45, 12.9, 2, 410)]
    sheet(book, "Beef", [["Tag", "Class", "DOB", "Harvest date", "Trucker", "Load", "Live wt", "HCW", "Fat", "REA", "KPH", "Marb"]] + rows, True)
    for tag, group, born, killed, _, _, live, hot, fat, rea, kph, marb in rows:
        clerk.reads(tag, group, live=live, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb, birth_date={"3": "2024-03-01", "2": "2024-02-20"}[born[0]], kill_date="2025-08-06")
    clerk.says("note", "Beef", "", "Trucker")
    return book


@mould
def two_steers_to_an_entry(clerk):
    """A child enters two steers on one line of the roster, or one; consent is given once for both."""
    book = Workbook()
    rows = [("0412", "Steers", 801, .4, 13.1, 2.5, 430), ("0413", "Steers", 790, .45, 12.9, 2, 410), ("0420", "Steers", 822, .5, 13.3, 2.5, 440)]
    sheet(book, "Cooler", [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marb"]] + rows, True)
    sheet(book, "Entries", [["Exhibitor", "Club", "Steer 1 Tag", "Steer 2 Tag", "OK to publish"], ["Aster Gatepost", "Hill Toppers", "0412", "0413", "yes"],
                            ["Linnet Sorrel", "Cloverleaf", "0420", None, "no"]])
    for tag, group, hot, fat, rea, kph, marb in rows:
        who, club, consent = ("Linnet Sorrel", "Cloverleaf", "no") if tag == "0420" else ("Aster Gatepost", "Hill Toppers", "yes")
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb, who=who, club=club, consent=consent)
    return book


@mould
def crosswalk_beside_the_cooler(clerk):
    """The cooler knows rail numbers alone; a list from the kill floor gives the ear tag of each, and whose it is."""
    book = Workbook()
    rows = [(1, 801, .4, 13.1, 2.5, 430), (2, 790, .45, 12.9, 2, 410), (3, 822, .5, 13.3, 2.5, 440)]
    sheet(book, "Cooler", [["Rail #", "HCW", "Fat", "REA", "KPH", "Marb"]] + rows, True)
    sheet(book, "Kill order", [["Rail #", "Ear tag", "Exhibitor", "Class"], [1, "0420", "Linnet Sorrel", "Steers"], [2, "0412", "Aster Gatepost", "Steers"],
                               [3, "0413", "Wren Millrace", "Heifers"]])
    for (rail, hot, fat, rea, kph, marb), (tag, who, group) in zip(rows, [("0420", "Linnet Sorrel", "Steers"), ("0412", "Aster Gatepost", "Steers"), ("0413", "Wren Millrace", "Heifers")]):
        clerk.reads(tag, group, rail_number=rail, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb, who=who)
    clerk.says("note", "Kill order", "", "rail number")
    return book


@mould
def exhibitor_written_once(clerk):
    """A roster with the child's name on the first of its lines only."""
    book = Workbook()
    rows = [("11", "Steers", 801, .4, 13.1, 2.5, 430), ("12", "Steers", 790, .45, 12.9, 2, 410), ("13", "Steers", 822, .5, 13.3, 2.5, 440), ("14", "Steers", 775, .35, 12.8, 2, 420)]
    sheet(book, "Cooler", [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marb"]] + rows, True)
    sheet(book, "Entries", [["Exhibitor", "Tag"], ["Aster Gatepost", "11"], [None, "12"], ["Linnet Sorrel", "13"], [None, "14"]])
    for tag, group, hot, fat, rea, kph, marb in rows:
        clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb=marb, who="Aster Gatepost" if tag in ("11", "12") else "Linnet Sorrel")
    clerk.says("look", "Entries", "", "exhibitor same as above")
    return book


# LINES are steers that differ in every measure, for sheets that are about something else: hot weight, fat, ribeye, KPH, marbling.
LINES = [(812, .4, 13.2, 2, "Sm 30"), (799, .5, 12.8, 2.5, "Sm 60"), (835, .45, 13.8, 2, "Mt 0"), (822, .35, 13.6, 1.5, "Mt 10"), (790, .55, 12.9, 2.5, "Sl 70"),
         (805, .42, 13.1, 2, "Sm 10"), (778, .38, 12.7, 2, "Sm 80"), (841, .52, 13.5, 3, "Sm 45")]


def steer(clerk, tag, group, line, **more):
    hot, fat, rea, kph, marb = line
    clerk.reads(tag, group, hot=hot, fat=fat, rea=rea, kph=kph, marb={"Sm": 400, "Sl": 300, "Mt": 500}[marb[:2]] + int(marb[3:]), **more)


HEADS = ["HCW", "BF", "REA", "KPH", "Marb"]


@mould
def words_against_consent(clerk):
    """Every family signed in the spring; what came later stands among the notes, or behind the name."""
    book = Workbook()
    rows = [("1", "Ansel Rook", "Y", None, "yes"), ("2", "Bea Tolliver", "Y", "do not publish - foster child", "no"), ("3", "Cy Marsh", "Y", "mom called, no photo please", "no"),
            ("4", "Dot Ferris (NO NAME)", "Y", None, "no"), ("5", "Eli Nance", "N", "blue ribbon", "no"), ("6", "Fay Odom", "Y", "no trim", "yes")]
    sheet(book, "Steers", [["Tag", "Exhibitor", "OK to print name?"] + HEADS + ["Notes"]] + [row[:3] + line + (row[3],) for row, line in zip(rows, LINES)], True)
    for (tag, who, _, _, consent), line in zip(rows, LINES):
        steer(clerk, tag, "Steers", line, who=who, consent=consent)
    clerk.says("look", "Steers!I3", "", "words against consent")
    return book


@mould
def comments_that_correct(clerk):
    """The plant corrects by comments on cells and on a heading, and types nothing over."""
    book = Workbook()
    page = sheet(book, "Steers", [["Tag", "Exhibitor"] + HEADS] + [(str(at + 1), "Family %d" % (at + 1)) + line for at, line in enumerate(LINES[:5])], True)
    for at, text in (("C1", "all weights cold!"), ("C2", "scale was off, add 4"), ("B3", "this is really his sister Bea's"), ("E4", "Jim: ok"), ("A5", "pulled from contest by family"),
                     ("E6", "other side 13.4")):
        page[at].comment = Comment(text, "plant")
    for at, line in enumerate(LINES[:5]):
        steer(clerk, str(at + 1), "Steers", line)
    clerk.says("look", "Steers!C1", "", "comment on a heading")
    clerk.says("look", "Steers!C2", "1", "816")
    clerk.says("look", "Steers!B3", "2", "exhibitor")
    clerk.says("hold", "Steers!A5", "4", "does not compete")
    clerk.says("look", "Steers!E6", "5", "ribeye area")
    return book


@mould
def remarks_of_a_grader(clerk):
    """A grader's short remarks: bone, estimates, a piece of hide on the scale, and nothing at all."""
    book = Workbook()
    said = ["advanced bone", "heiferette", "kidneys out, KPH est.", "wt includes hide piece", "callous ribeye", "yellow fat", "half pen - see ticket 44", "OTM"]
    sheet(book, "Steers", [["Tag"] + HEADS + ["Remarks"]] + [(str(at + 1),) + line + (said[at],) for at, line in enumerate(LINES)], True)
    for at, line in enumerate(LINES):
        steer(clerk, str(at + 1), "Steers", line)
    for at, words in ((1, "hardbone"), (2, "hardbone"), (3, "kidney"), (4, "hot carcass weight"), (5, "ribeye area"), (8, "over 30 months")):
        clerk.says("look", "Steers!G%d" % (at + 1), str(at), words)
    return book


@mould
def degree_and_amount(clerk):
    """The degree of marbling in one column, how far into it in the next, as a grader calls it out."""
    book = Workbook()
    rows = [("1", 812, .4, 13.2, 2, "Small", 30), ("2", 799, .5, 12.8, 2.5, "Slight", 90), ("3", 835, .45, 13.8, 2, "Modest", 0), ("4", 822, .35, 13.6, 1.5, "Small", 70)]
    sheet(book, "Steers", [["Tag", "HCW", "BF", "REA", "KPH", "Marb degree", "Marb amt"]] + rows, True)
    for tag, hot, fat, rea, kph, degree, amount in rows:
        clerk.reads(tag, "Steers", hot=hot, fat=fat, rea=rea, kph=kph, marb={"Slight": 300, "Small": 400, "Modest": 500}[degree] + amount)
    clerk.says("note", "Steers!F1", "", "two columns")
    return book


@mould
def printed_pages_with_totals(clerk):
    """A printout of three pages: the plant's title and a subtotal on each, head counts and a list of champions at the end."""
    book = Workbook()
    rows = [["Oakmont Packing   8/14/25   Page 1"], ["Tag"] + HEADS]
    for at, line in enumerate(LINES[:6]):
        if at in (2, 4):
            rows += [["Subtotal page %d" % (at // 2), sum(one[0] for one in LINES[at - 2:at])], ["Oakmont Packing   8/14/25   Page %d" % (at // 2 + 1)], ["Tag"] + HEADS]
        rows.append([str(at + 1)] + list(line))
    rows += [["6 hd", sum(one[0] for one in LINES[:6])], ["Avg.", 810.5, .45, 13.23, 2.1], [], ["Grand Champion", "3"], ["Reserve", "4"]]
    sheet(book, "Steers", rows, True)
    for at, line in enumerate(LINES[:6]):
        steer(clerk, str(at + 1), "Steers", line)
    clerk.says("note", "Steers", "", "champions")
    return book


@mould
def gone_before_the_rail(clerk):
    """The office's list with those that never hung: sold, gone home, no show, and one that the plant filled with zeros."""
    book = Workbook()
    blank = (None,) * 5
    rows = [("1", "Ansel Rook") + LINES[0] + (None,), ("2", "Bea Tolliver") + blank + ("sold at barn",), ("3", "Cy Marsh", "NS") + blank[:4] + (None,),
            ("4", "Dot Ferris", "-", "-", "-", "-", "-", "went home"), ("5", "Eli Nance", 0, 0, 0, 0, None, None), ("6", "Fay Odom - DQ") + LINES[1] + (None,), ("7", "Gus Pell") + LINES[2] + ("sold to locker",)]
    sheet(book, "Steers", [["Tag", "Exhibitor"] + HEADS + ["Comments"]] + rows, True)
    steer(clerk, "1", "Steers", LINES[0])
    clerk.reads("5", "Steers", who="Eli Nance")
    steer(clerk, "6", "Steers", LINES[1])
    steer(clerk, "7", "Steers", LINES[2])
    clerk.says("note", "Steers", "", "2 (sold at barn), 3 (NS), 4 (went home)")
    clerk.says("hold", "Steers", "5", "nothing is measured")
    clerk.says("hold", "Steers!B7", "6", "does not compete")
    return book


@mould
def scale_tickets(clerk):
    """The cooler knows rail numbers; the scale tickets have rail, fair tag, first and last name, and class. One ticket is lost."""
    book = Workbook()
    sheet(book, "Cooler", [["Rail #"] + HEADS] + [(201 + at,) + line for at, line in enumerate(LINES[:4])], True)
    sheet(book, "Scale tickets", [["Rail", "Fair tag", "First", "Last", "Class"], [201, "0055", "Vi", "Wirth", "Lt Steers"], [202, "0056", "Wes", "Yoder", "Lt Steers"], [203, "0054", "Xan", "Zook", "Hvy Steers"]])
    for tag, rail, who, group, line in (("0055", 201, "Vi Wirth", "Lt Steers", LINES[0]), ("0056", 202, "Wes Yoder", "Lt Steers", LINES[1]), ("0054", 203, "Xan Zook", "Hvy Steers", LINES[2]), ("204", 204, "", "", LINES[3])):
        more = {"who": who} if who else {}
        steer(clerk, tag, group, line, rail_number=rail, **more)
    clerk.says("look", "Cooler", "", "204")
    clerk.says("hold", "Cooler!A5", "204", "no class")
    return book


@mould
def goats_with_a_cover_score(clerk):
    """Goats with fat in inches and a score of the fat cover, which many sheets call by one name."""
    book = Workbook()
    rows = [("1", 82, 42, .08, 2.1, .5, 2), ("2", 78, 39, .06, 1.9, .45, 2), ("3", 90, 47, .1, 2.4, .55, 3)]
    sheet(book, "Goats", [["Tag", "Live Wt", "HCW", "Fat", "REA", "BWT", "Fat cover"]] + rows, True)
    for tag, live, hot, fat, rea, wall, cover in rows:
        clerk.reads(tag, "Goats", live=live, hot=hot, fat=fat, rea=rea, wall=wall, fat_cover=cover)
    return book


@mould
def headings_lost(clerk):
    """Somebody deleted two headings; one stood over the ribeye area, the other over the names."""
    book = Workbook()
    names = ["Ansel Rook", "Bea Tolliver", "Cy Marsh"]
    sheet(book, "Steers", [["Tag", None, "HCW", "BF", None, "KPH", "Marb"]] + [(str(at + 1), names[at]) + line for at, line in enumerate(LINES[:3])], True)
    for at, (hot, fat, _, kph, marb) in enumerate(LINES[:3]):
        clerk.reads(str(at + 1), "Steers", hot=hot, fat=fat, kph=kph, marb={"Sm": 400, "Mt": 500}[marb[:2]] + int(marb[3:]))
    for tag in ("1", "2", "3"):
        clerk.says("hold", "Steers", tag, 'No heading stands in cell E1, and the values below it can be ribeye area: if they are that, write "Ribeye area" there')
    clerk.says("note", "Steers", "", "under B1")
    return book


@mould
def sexes_and_trim(clerk):
    """A plant's letters for the sex and for what is wrong, and pounds of trim."""
    book = Workbook()
    rows = [("1", "S", None, 0), ("2", "H", None, None), ("3", "S", "HB", None), ("4", "B", None, None), ("5", "S", None, 12)]
    sheet(book, "Beef", [["Tag", "Class", "Sex"] + HEADS + ["Def.", "Trim lb"]] + [(tag, "Market Steer", sex) + line + (wrong, trim) for (tag, sex, wrong, trim), line in zip(rows, LINES)], True)
    for (tag, _, _, _), line in zip(rows, LINES):
        steer(clerk, tag, "Market Steer", line)
    clerk.says("look", "Beef!C3", "2", "class")
    clerk.says("look", "Beef!C5", "4", "none that is known")
    clerk.says("look", "Beef!I4", "3", "hardbone")
    clerk.says("hold", "Beef!J6", "5", "trimmed")
    return book


def main():
    for name, draw in ALL.items():
        if len(sys.argv) > 1 and name not in sys.argv[1:]:
            continue
        clerk = Clerk()
        stable.save(draw(clerk), os.path.join(HERE, name + ".xlsx"))
        clerk.save(name)


if __name__ == "__main__":
    main()
