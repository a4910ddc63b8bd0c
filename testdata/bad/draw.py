"""Draws the files of this folder: files that are not the workbooks they seem to be. The program must refuse each with a
sentence of its own and exit status 1.

Run from anywhere with a Python that has openpyxl and with LibreOffice:  python3 testdata/bad/draw.py
password.xlsx is drawn by a Go program of a few lines (excelize's Options{Password: "wether"}), since openpyxl can't encrypt.
"""
import io
import os
import sys
import tempfile
import zipfile

from openpyxl import Workbook

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, os.path.dirname(HERE))
import office  # noqa: E402
import stable  # noqa: E402

ROWS = [["Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marbling"], ["1", "Steers", 801, .4, 13.2, 2, "SM 20"], ["2", "Steers", 815, .5, 13.4, 2.5, "SM 60"],
        ["3", "Steers", 779, .35, 13.0, 2, "SL 90"], ["4", "Heifers", 744, .45, 12.7, 2, "MT 10"]]


def write(name, data):
    with open(os.path.join(HERE, name), "wb") as file:
        file.write(data)


def sound(rows=ROWS):
    """A sound workbook, as an archive in memory."""
    workbook = Workbook()
    workbook.active.title = "Beef"
    for row in rows:
        workbook.active.append(row)
    packed = io.BytesIO()
    stable.save(workbook, packed)
    return packed


def changed(name, change):
    stable.repack(sound(), os.path.join(HERE, name), change)


def converted(name, source, to):
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, source[0])
        with open(path, "wb") as file:
            file.write(source[1])
        with open(office.convert(path, to, folder), "rb") as made:
            write(name, made.read())


def flip_stored_byte():
    """A workbook whose sheet is stored unpacked, one digit changed afterwards: the checksum no longer agrees."""
    packed = io.BytesIO()
    with zipfile.ZipFile(sound()) as source, zipfile.ZipFile(packed, "w", zipfile.ZIP_STORED) as target:
        for name in source.namelist():
            target.writestr(zipfile.ZipInfo(name, stable.FIXED), source.read(name))
    data = packed.getvalue()
    at = data.index(b"<v>801</v>")
    write("flipped-byte.xlsx", data[:at + 3] + b"9" + data[at + 4:])


def strict(name, data):
    if name == "xl/workbook.xml":
        data = data.replace(b"<workbook ", b'<workbook conformance="strict" ')
    return data.replace(b"http://schemas.openxmlformats.org/spreadsheetml/2006/main", b"http://purl.oclc.org/ooxml/spreadsheetml/main").replace(
        b"http://schemas.openxmlformats.org/officeDocument/2006/relationships", b"http://purl.oclc.org/ooxml/officeDocument/relationships")


def letter():
    """The smallest text document that is one."""
    main = "application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"
    parts = {
        "[Content_Types].xml": '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/word/document.xml" ContentType="%s"/></Types>' % main,
        "_rels/.rels": '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="word/document.xml"/></Relationships>',
        "word/document.xml": '<w:document xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"><w:body><w:p><w:r><w:t>Dear fair office, here are the weights.</w:t></w:r></w:p></w:body></w:document>',
    }
    with zipfile.ZipFile(os.path.join(HERE, "letter.docx"), "w", zipfile.ZIP_DEFLATED) as target:
        for name, part in parts.items():
            target.writestr(zipfile.ZipInfo(name, stable.FIXED), part, zipfile.ZIP_DEFLATED)


text = "\r\n".join(",".join(str(value) for value in row) for row in ROWS).encode()
write("empty.xlsx", b"")
write("text.xlsx", text)
write("web-page.xlsx", b"<html><body><table><tr><td>Tag</td><td>HCW</td></tr><tr><td>1</td><td>801</td></tr></table></body></html>")
write("page.pdf", b"%PDF-1.4\n1 0 obj <<>> endobj\ntrailer <<>>\n%%EOF\n")
write("noise.xlsx", bytes((number * 73 + 41) % 251 for number in range(600)))
whole = io.BytesIO()
stable.repack(sound(), whole)
write("cut-off.xlsx", whole.getvalue()[:len(whole.getvalue()) * 2 // 3])
flip_stored_byte()
changed("truncated-sheet.xlsx", lambda name, data: data[:data.index(b'<row r="3"') + 40] if name.endswith("sheet1.xml") else data)
changed("missing-sheet.xlsx", lambda name, data: None if name.endswith("sheet1.xml") else data)
changed("missing-strings.xlsx", lambda name, data: None if name.endswith("sharedStrings.xml") else data)
changed("strict.xlsx", strict)
converted("old.xls", ("old.xlsx", sound().getvalue()), "xls")
converted("open-document.ods", ("open-document.xlsx", sound().getvalue()), "ods")
letter()
workbook = Workbook()
workbook.active.title = "Pie contest"
for row in (["Pie contest"], ["Baker", "Pie", "Crust", "Filling"], ["Ember Milkpail", "Apple", 8, 9], ["Oakley Saltbox", "Rhubarb", 7, 9.5]):
    workbook.active.append(row)
stable.save(workbook, os.path.join(HERE, "no-carcasses.xlsx"))
