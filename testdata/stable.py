"""Saves an openpyxl workbook so that drawing it twice gives the same bytes, looking like one that a spreadsheet program saved.

openpyxl puts the clock into the file, writes formulas without cached values, and (in some versions) texts within the sheet.
A workbook that comes from a spreadsheet program has cached values and a table of shared texts, so these get them too.
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
    filled = io.BytesIO()
    repack(packed, filled, lambda name, data: fill(data, by_part.get(name, {})))
    share_texts(filled, path)


INLINE = re.compile(rb'(<c r="[A-Z]+[0-9]+"[^>]*) t="inlineStr"><is>(<t[^>]*>.*?</t>)</is></c>', re.S)
SHARED = b"sharedStrings.xml"


def share_texts(packed, path):
    """Copies a workbook to path with the texts of its sheets moved to a table of shared texts, if it has none yet."""
    with zipfile.ZipFile(packed) as source:
        if "xl/" + SHARED.decode() in source.namelist():
            return repack(packed, path)
    texts = {}

    def share(match):
        return b'%s t="s"><v>%d</v></c>' % (match.group(1), texts.setdefault(match.group(2), len(texts)))

    def change(name, data):
        if name.startswith("xl/worksheets/sheet"):
            return INLINE.sub(share, data)
        if name == "xl/_rels/workbook.xml.rels":
            return data.replace(b"</Relationships>", b'<Relationship Id="rIdTexts" Type="http://schemas.openxmlformats.org/officeDocument/2006'
                                b'/relationships/sharedStrings" Target="%s"/></Relationships>' % SHARED)
        if name == "[Content_Types].xml":
            return data.replace(b"</Types>", b'<Override PartName="/xl/%s" ContentType="application/vnd.openxmlformats-officedocument'
                                b'.spreadsheetml.sharedStrings+xml"/></Types>' % SHARED)
        return data

    repack(packed, path, change)
    with zipfile.ZipFile(path, "a", zipfile.ZIP_DEFLATED) as target:
        table = b"".join(b"<si>%s</si>" % text for text in texts)
        target.writestr(zipfile.ZipInfo("xl/" + SHARED.decode(), FIXED), b'<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<sst xmlns="http://schemas'
                        b'.openxmlformats.org/spreadsheetml/2006/main" uniqueCount="%d">%s</sst>' % (len(texts), table), zipfile.ZIP_DEFLATED)


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
