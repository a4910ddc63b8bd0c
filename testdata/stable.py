"""Saves an openpyxl workbook so that drawing it twice gives the same bytes, with typed cached values for its formulas.

openpyxl writes formulas without cached values and puts the clock into the file. A workbook that comes from a
spreadsheet program has the cached values, so the drawn test workbooks get them too.
"""
import io
import re
import zipfile
from xml.sax.saxutils import escape

FIXED = (2025, 8, 1, 0, 0, 0)
CORE_TIME = re.compile(rb"(<dcterms:(created|modified)[^>]*>)[^<]*(<)")


def save(workbook, path, cached=None):
    """Writes workbook to path. cached maps (sheet name, cell) to the cached value of the formula there."""
    packed = io.BytesIO()
    workbook.save(packed)
    by_part = {}
    for (sheet, cell), value in (cached or {}).items():
        part = "xl/worksheets/sheet%d.xml" % (workbook.sheetnames.index(sheet) + 1)
        by_part.setdefault(part, {})[cell] = value
    repack(packed, path, lambda name, data: fill(data, by_part.get(name, {})))


def repack(packed, path, change=lambda name, data: data):
    """Copies a zip archive to path with fixed times, each part as change(name, data) returns it (None leaves it out)."""
    with zipfile.ZipFile(packed) as source, zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as target:
        for name in source.namelist():
            data = source.read(name)
            if name == "docProps/core.xml":
                data = CORE_TIME.sub(rb"\g<1>2025-08-01T00:00:00Z\g<3>", data)
            data = change(name, data)
            if data is not None:
                target.writestr(zipfile.ZipInfo(name, FIXED), data, zipfile.ZIP_DEFLATED)


def fill(sheet_xml, values):
    """Puts the cached values into the XML of one sheet."""
    for cell, value in values.items():
        pattern = re.compile(rb'<c r="%s"([^>]*?)( t="[^"]*")?><f>(.*?)</f><v ?(?:/>|></v>)</c>' % cell.encode())
        kind, text = b"", str(value)
        if isinstance(value, bool):
            kind, text = b' t="b"', "1" if value else "0"
        elif isinstance(value, str):
            kind = b' t="e"' if value.startswith("#") else b' t="str"'
        replaced, count = pattern.subn(
            lambda match: b'<c r="%s"%s%s><f>%s</f><v>%s</v></c>'
            % (cell.encode(), match.group(1), kind, match.group(3), escape(text).encode()),
            sheet_xml,
        )
        if count != 1:
            raise ValueError("no formula without a cached value in " + cell)
        sheet_xml = replaced
    return sheet_xml
