"""charts.py FILE: prints a line for each chart of each sheet: sheet, kind, title, and of each series how many of its cells hold a value, out of how many."""
import sys

from openpyxl import load_workbook
from openpyxl.utils.cell import range_boundaries

path = sys.argv[1]
values = load_workbook(path, data_only=True)


def filled(reference):
    sheet, cells = reference.rsplit("!", 1)
    left, top, right, bottom = range_boundaries(cells.replace("$", ""))
    area = values[sheet.strip("'").replace("''", "'")].iter_rows(top, bottom, left, right, values_only=True)
    cells = [cell for row in area for cell in row]
    return "%d/%d" % (sum(cell is not None for cell in cells), len(cells))


def words(title):
    return "".join(run.t for part in title.tx.rich.p for run in part.r or [])


def references(series):
    across = getattr(series, "xVal", None) or series.cat
    up = getattr(series, "yVal", None) or series.val
    return [source.numRef.f if source.numRef else source.strRef.f for source in (across, up)]


for sheet in load_workbook(path):
    for chart in sheet._charts:
        print(" | ".join([sheet.title, type(chart).__name__, words(chart.title)] + [filled(one) for series in chart.series for one in references(series)]))
