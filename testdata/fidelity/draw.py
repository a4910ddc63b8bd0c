#!/usr/bin/env python3
"""Draws rich workbooks by XlsxWriter, openpyxl and LibreOffice, a sheet of invented carcasses in each.

    /usr/bin/python3 draw.py [folder]

What each holds beside the carcasses stands in its name. Drawn with XlsxWriter 3.0.2, openpyxl 3.0.9 and LibreOffice 7.4.
"""
import datetime
import os
import shutil
import struct
import subprocess
import sys
import tempfile
import warnings
import zlib

import openpyxl
import xlsxwriter
from openpyxl import chart, comments, formatting, styles
from openpyxl.formatting import rule
from openpyxl.workbook import defined_name, protection
from openpyxl.worksheet import datavalidation, page, pagebreak, table

warnings.simplefilter("ignore")
WHEN = datetime.datetime(2026, 8, 4, 12, 0, 0)
HEADINGS = ["Tag", "Class", "Exhibitor", "HCW", "Adj fat", "REA", "KPH", "Marbling", "Maturity"]
CARCASSES = [
    ["0101", "Market Steers", "Ada Birch", 812, 0.45, 13.4, 2.5, "Sm 40", "A60"],
    ["0102", "Market Steers", "Ben Alder", 776, 0.38, 13.9, 2.0, "Mt 10", "A50"],
    ["0103", "Market Steers", "Cleo Rowan", 845, 0.62, 12.8, 3.0, "Md 20", "A70"],
    ["0104", "Market Heifers", "Dara Hazel", 731, 0.50, 12.6, 2.5, "Sl 80", "A60"],
    ["0105", "Market Heifers", "Eli Maple", 702, 0.33, 12.9, 2.0, "Sm 90", "A40"],
    ["0106", "Market Heifers", "Fern Aspen", 758, 0.41, 13.1, 2.5, "Sm 10", "A60"],
]


def picture():
    """A small picture (PNG)."""
    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
    rows = b"".join(b"\0" + bytes([90, 42, 39] * 24) for _ in range(16))
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 24, 16, 8, 2, 0, 0, 0))
            + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b""))


# XlsxWriter

def xlsx_charts(book, sheet, scratch):
    for kind, place in [("column", "L2"), ("line", "L18"), ("pie", "T2"), ("scatter", "T18"), ("radar", "L34")]:
        drawn = book.add_chart({"type": kind})
        drawn.add_series({"name": "=Carcasses!$D$1", "categories": "=Carcasses!$A$2:$A$7", "values": "=Carcasses!$D$2:$D$7",
                          "data_labels": {"value": True}})
        drawn.set_title({"name": "Hot carcass weight"})
        sheet.insert_chart(place, drawn)
    first, second = book.add_chart({"type": "column"}), book.add_chart({"type": "line"})
    first.add_series({"values": "=Carcasses!$E$2:$E$7", "trendline": {"type": "linear"}})
    second.add_series({"values": "=Carcasses!$F$2:$F$7", "y2_axis": True, "marker": {"type": "diamond"}})
    first.combine(second)
    book.add_chartsheet("Chart alone").set_chart(first)


def xlsx_pictures(book, sheet, scratch):
    path = os.path.join(scratch, "ribbon.png")
    with open(path, "wb") as file:
        file.write(picture())
    sheet.insert_image("L2", path, {"url": "https://example.org/", "description": "a ribbon", "x_scale": 2})
    sheet.insert_textbox("L12", "The cooler opens at 7", {"font": {"bold": True}, "fill": {"color": "#EBE3D8"}})
    sheet.set_header("&L&G&C&A", {"image_left": path})
    sheet.set_background(path)


def xlsx_comments(book, sheet, scratch):
    sheet.set_comments_author("Plant")
    sheet.write_comment("D2", "weighed twice", {"visible": True, "color": "#FFF6D1"})
    sheet.write_comment("F5", "dotted again\nby the judge", {"x_scale": 2})


def xlsx_table(book, sheet, scratch):
    other = book.add_worksheet("Entries")
    other.add_table("B2:D6", {"name": "Entries", "total_row": True, "style": "Table Style Light 11", "columns": [
        {"header": "Tag", "total_string": "Total"}, {"header": "Pen", "total_function": "sum"},
        {"header": "Twice", "formula": "=[@Pen]*2"}], "data": [["0101", 1], ["0102", 2], ["0103", 3]]})


def xlsx_conditions(book, sheet, scratch):
    red = book.add_format({"bg_color": "#FFC7CE", "font_color": "#9C0006"})
    sheet.conditional_format("D2:D7", {"type": "data_bar", "data_bar_2010": True, "bar_solid": True, "bar_negative_color": "#FF0000"})
    sheet.conditional_format("E2:E7", {"type": "icon_set", "icon_style": "3_traffic_lights"})
    sheet.conditional_format("F2:F7", {"type": "3_color_scale"})
    sheet.conditional_format("D2:D7", {"type": "cell", "criteria": ">", "value": 800, "format": red})
    sheet.conditional_format("A2:A7", {"type": "duplicate", "format": red, "stop_if_true": True})
    sheet.conditional_format("B2:B7", {"type": "formula", "criteria": '=$E2>0.5', "format": red})


def xlsx_validations(book, sheet, scratch):
    sheet.data_validation("B2:B7", {"validate": "list", "source": ["Market Steers", "Market Heifers"], "input_title": "Class"})
    sheet.data_validation("D2:D7", {"validate": "decimal", "criteria": "between", "minimum": 400, "maximum": 1200,
                                    "error_type": "warning", "error_message": "Is this right?"})
    sheet.data_validation("E2:E7", {"validate": "custom", "value": "=E2<2"})


def xlsx_texts(book, sheet, scratch):
    bold, italic = book.add_format({"bold": True}), book.add_format({"italic": True, "font_color": "red"})
    other = book.add_worksheet("Ünïcode & <notes>")
    other.write_rich_string("A1", "See ", bold, "tag 0101", " and ", italic, " 0102 ")
    other.write_url("A2", "https://example.org/rules?a=1&b=2#here", string="rules")
    other.write_url("A3", "internal:Carcasses!A1", tip="to the carcasses")
    other.write_url("A4", "mailto:office@example.org")
    other.write("A5", "two\nlines\ttab  spaces _x000D_ \u6c49\u5b57 \U0001F404")
    other.write("A6", '=T("x")&" & <y>"')


def xlsx_sparklines(book, sheet, scratch):
    other = book.add_worksheet("Sparklines")
    other.add_sparkline("A1", {"range": "Carcasses!D2:D7", "markers": True})
    other.add_sparkline("A2", {"range": "Carcasses!E2:E7", "type": "column", "style": 12, "high_point": True})


def xlsx_outlines(book, sheet, scratch):
    sheet.freeze_panes(1, 1)
    sheet.set_row(3, 30, None, {"level": 1})
    sheet.set_row(4, None, None, {"level": 1, "hidden": True})
    sheet.set_column("G:G", 4, None, {"level": 1})
    sheet.set_column("H:H", 12, book.add_format({"align": "right"}))
    sheet.autofilter("A1:I7")
    sheet.filter_column("B", "x == Market Steers")
    book.add_worksheet("Out of sight").hide()
    book.add_worksheet("Split").split_panes(15, 8.43)


def xlsx_printing(book, sheet, scratch):
    sheet.set_landscape()
    sheet.set_paper(5)
    sheet.repeat_rows(0)
    sheet.print_area("A1:I7")
    sheet.set_h_pagebreaks([4])
    sheet.set_v_pagebreaks([5])
    sheet.fit_to_pages(1, 0)
    sheet.set_margins(0.4, 0.4, 0.9, 0.9)
    sheet.set_header("&LThe fair && more&R&D", {"margin": 0.3})
    sheet.set_footer("&CPage &P of &N")
    other = book.add_worksheet("Locked")
    other.protect("ribbon", {"format_cells": True})
    other.unprotect_range("B2:C4", "marks")
    other.ignore_errors({"number_stored_as_text": "A1:A9"})
    other.set_tab_color("#5A2A27")
    other.set_zoom(80)
    other.right_to_left()


def xlsx_formulas(book, sheet, scratch):
    book.define_name("Weights", "=Carcasses!$D$2:$D$7")
    other = book.add_worksheet("Sums")
    book.define_name("Sums!Local", "=Sums!$A$1")
    other.write_formula("A1", "=SUM(Weights)", None, 4624)
    other.write_array_formula("B1:B3", "{=Carcasses!D2:D4*2}", None, 1624)
    other.write_dynamic_array_formula("C1", "=_xlfn._xlws.SORT(Carcasses!D2:D7)", None, 702)
    other.write_formula("D1", "=1/0", None, "#DIV/0!")
    other.write_boolean("E1", True)
    other.write_datetime("F1", WHEN, book.add_format({"num_format": "yyyy-mm-dd hh:mm"}))
    book.set_custom_property("Season", 2026)
    book.set_custom_property("Checked", True)
    book.set_calc_mode("manual")


def xlsx_formats(book, sheet, scratch):
    other = book.add_worksheet("Formats")
    for i in range(1, 160):
        other.write(i // 12, i % 12, i, book.add_format({
            "font_name": ["Arial", "Georgia", "Courier New"][i % 3], "font_size": 8 + i % 9, "bold": i % 2, "underline": [0, 1, 33][i % 3],
            "pattern": i % 19, "fg_color": "#%06X" % (i * 99991 % 0xFFFFFF), "bg_color": "#%06X" % (i * 7919 % 0xFFFFFF),
            "border": i % 14, "diag_type": i % 4, "diag_border": 1, "rotation": i % 90, "num_format": ['0.0" lb"', "[Red]0.00;(0.00)", "# ?/?", "General"][i % 4],
            "text_wrap": i % 2, "shrink": i % 3 == 0, "locked": i % 5, "hidden": i % 7 == 0, "font_strikeout": i % 11 == 0, "font_script": i % 3}))


def xlsx_macros(book, sheet, scratch):
    path = os.path.join(scratch, "vbaProject.bin")
    with open(path, "wb") as file:
        file.write(bytes(range(256)) * 8)
    book.add_vba_project(path)
    book.set_vba_name("Fair")
    sheet.set_vba_name("Carcasses")
    sheet.insert_button("L2", {"macro": "sort_entries", "caption": "Sort"})


def xlsx_inline(book, sheet, scratch):
    pass


def draw_xlsxwriter(folder, scratch):
    for name, add in sorted(globals().items()):
        if not name.startswith("xlsx_"):
            continue
        path = os.path.join(folder, "xlsxwriter-" + name[5:] + (".xlsm" if name == "xlsx_macros" else ".xlsx"))
        book = xlsxwriter.Workbook(path, {"constant_memory": name == "xlsx_inline", "date_1904": name == "xlsx_formulas"})
        book.set_properties({"title": "An invented fair", "created": WHEN})
        sheet = book.add_worksheet("Carcasses")
        for r, row in enumerate([HEADINGS] + CARCASSES):
            sheet.write_row(r, 0, row)
        add(book, sheet, scratch)
        book.close()


# openpyxl

def open_charts(book, sheet):
    weights = chart.Reference(sheet, min_col=4, min_row=1, max_row=7)
    for kind, place in [(chart.BarChart3D, "L2"), (chart.AreaChart, "L18"), (chart.DoughnutChart, "T2"), (chart.SurfaceChart, "T18")]:
        drawn = kind()
        drawn.add_data(weights, titles_from_data=True)
        drawn.title = "Hot carcass weight"
        sheet.add_chart(drawn, place)
    bubbles = chart.BubbleChart()
    bubbles.series.append(chart.Series(values=weights, xvalues=chart.Reference(sheet, min_col=5, min_row=2, max_row=7),
                                       zvalues=chart.Reference(sheet, min_col=6, min_row=2, max_row=7)))
    book.create_chartsheet("Chart alone").add_chart(bubbles)


def open_comments(book, sheet):
    sheet["D2"].comment = comments.Comment("weighed twice", "Plant", height=60, width=200)
    other = book.create_sheet("Notes")
    other["B2"] = "see"
    other["B2"].comment = comments.Comment("\u00e9 & <b>", "Judge")


def open_conditions(book, sheet):
    sheet.conditional_formatting.add("D2:D7", rule.IconSetRule("5Arrows", "percent", [0, 20, 40, 60, 80]))
    sheet.conditional_formatting.add("E2:E7", rule.DataBarRule("min", None, "max", None, color="FF638EC6"))
    sheet.conditional_formatting.add("F2:F7", rule.ColorScaleRule("num", 12, "FFAA0000", None, None, None, "num", 14, "FF00AA00"))
    sheet.conditional_formatting.add("A2:I7", rule.FormulaRule(["$D2>840"], font=styles.Font(strike=True), border=styles.Border(left=styles.Side("thin"))))


def open_styles(book, sheet):
    named = styles.NamedStyle("weight", font=styles.Font("Georgia", 12, color=styles.Color(theme=4, tint=0.4)), number_format='0" lb"')
    book.add_named_style(named)
    for row in sheet["D2:D7"]:
        row[0].style = "weight"
    sheet["A1"].fill = styles.GradientFill(stop=("FFFFFF", "5A2A27"))
    sheet["B1"].font = styles.Font(color=styles.Color(indexed=0), b=True)
    sheet["C1"].border = styles.Border(diagonal=styles.Side("double", "FF00FF00"), diagonalUp=True)
    sheet["D1"].alignment = styles.Alignment(text_rotation=255, shrink_to_fit=True)
    sheet["E1"].protection = styles.Protection(locked=False, hidden=True)
    sheet["F2"].number_format = "#,##0.00_);[Red](#,##0.00)"
    sheet["A3"].quotePrefix = True


def open_protection(book, sheet):
    book.security = protection.WorkbookProtection(workbookPassword="ribbon", lockStructure=True, revisionsPassword="blue", lockRevision=True)
    other = book.create_sheet("Locked")
    other.protection.set_password("red")
    other.protection.enable()
    book.create_sheet("Very hidden").sheet_state = "veryHidden"


def open_names(book, sheet):
    book.defined_names.append(defined_name.DefinedName("Weights", attr_text="Carcasses!$D$2:$D$7", comment="lb & more"))
    book.defined_names.append(defined_name.DefinedName("Best", attr_text="MAX(Weights)", hidden=True))
    book.defined_names.append(defined_name.DefinedName("Here", attr_text="Carcasses!$A$1", localSheetId=0))
    sheet.print_title_rows = "1:1"
    sheet.print_area = "A1:I7"
    sheet.auto_filter.ref = "A1:I7"
    sheet.auto_filter.add_filter_column(1, ["Market Steers"], blank=True)
    sheet.auto_filter.add_sort_condition("D2:D7")


def open_validations(book, sheet):
    lists = book.create_sheet("Lists")
    for i, word in enumerate(["Market Steers", "Market Heifers"], 1):
        lists.cell(i, 1, word)
    choice = datavalidation.DataValidation("list", "Lists!$A$1:$A$2", showErrorMessage=True, prompt="one of the list", showInputMessage=True)
    choice.add("B2:B7")
    sheet.add_data_validation(choice)
    whole = datavalidation.DataValidation("whole", operator="greaterThan", formula1="0", allow_blank=True)
    whole.add("D2:D7")
    whole.add("D9")
    sheet.add_data_validation(whole)


def open_tables(book, sheet):
    other = book.create_sheet("Entries")
    for row in [["Tag", "Pen"], ["0101", 1], ["0102", 2]]:
        other.append(row)
    made = table.Table(displayName="Entries", ref="A1:B3")
    made.tableStyleInfo = table.TableStyleInfo("TableStyleMedium9", showRowStripes=True)
    other.add_table(made)
    other.merge_cells("D1:F2")
    other["D1"] = "merged"


def open_printing(book, sheet):
    sheet.row_breaks.append(pagebreak.Break(id=4))
    sheet.page_setup = page.PrintPageSetup(sheet, orientation="landscape", paperSize=9, fitToHeight=0)
    sheet.sheet_properties.pageSetUpPr = openpyxl.worksheet.properties.PageSetupProperties(fitToPage=True)
    sheet.oddHeader.center.text = "The &[Tab] & more"
    sheet.evenFooter.left.text = "&P"
    sheet.sheet_view.showGridLines = False
    sheet.sheet_view.zoomScale = 130
    sheet.freeze_panes = "C2"
    sheet.column_dimensions.group("G", "I", hidden=True)
    sheet.sheet_properties.outlinePr.summaryBelow = False


def open_formulas(book, sheet):
    book.epoch = openpyxl.utils.datetime.MAC_EPOCH
    other = book.create_sheet("Sums")
    other["A1"] = "=SUM(Carcasses!D2:D7)"
    other["A2"] = openpyxl.worksheet.formula.ArrayFormula("A2:A4", "=Carcasses!D2:D4*2") if hasattr(openpyxl.worksheet, "formula") else "=1+1"
    other["A5"] = WHEN
    other["A6"] = True
    other["A7"] = "#N/A"
    other["A8"].hyperlink = "https://example.org/?a=1&b=2"
    book.calculation = openpyxl.workbook.properties.CalcProperties(iterate=True, iterateCount=7, fullPrecision=False)


def draw_openpyxl(folder):
    for name, add in sorted(globals().items()):
        if not name.startswith("open_"):
            continue
        book = openpyxl.Workbook()
        book.properties.created = book.properties.modified = WHEN
        sheet = book.active
        sheet.title = "Carcasses"
        for row in [HEADINGS] + CARCASSES:
            sheet.append(row)
        add(book, sheet)
        book.save(os.path.join(folder, "openpyxl-" + name[5:] + ".xlsx"))


# LibreOffice saves what the others drew, in its own way.

SAVED_BY_OFFICE = ["xlsxwriter-charts", "xlsxwriter-comments", "xlsxwriter-conditions", "xlsxwriter-texts", "xlsxwriter-formats",
                   "xlsxwriter-outlines", "xlsxwriter-sparklines", "openpyxl-styles", "openpyxl-names", "openpyxl-validations", "openpyxl-printing"]


def draw_libreoffice(folder, scratch):
    inputs, saved = os.path.join(scratch, "in"), os.path.join(scratch, "out")
    os.makedirs(inputs)
    for name in SAVED_BY_OFFICE:
        shutil.copy(os.path.join(folder, name + ".xlsx"), inputs)
    subprocess.run(["soffice", "-env:UserInstallation=file://" + os.path.join(scratch, "profile"), "--headless", "--convert-to", "xlsx",
                    "--outdir", saved] + [os.path.join(inputs, name) for name in sorted(os.listdir(inputs))], check=True, stdout=subprocess.DEVNULL)
    for name in os.listdir(saved):
        shutil.copy(os.path.join(saved, name), os.path.join(folder, "libreoffice-" + name.split("-", 1)[1]))


if __name__ == "__main__":
    target = sys.argv[1] if len(sys.argv) > 1 else os.path.dirname(os.path.abspath(__file__))
    with tempfile.TemporaryDirectory() as scratch:
        draw_xlsxwriter(target, scratch)
        draw_openpyxl(target)
        draw_libreoffice(target, scratch)
