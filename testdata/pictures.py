"""pictures.py: draws the pictures of the README anew from the demo, as LibreOffice prints it: python3 testdata/pictures.py

Needs Go, LibreOffice, pdftotext and pdftoppm.
"""
import os
import shutil
import subprocess
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, "pictures")

# Of each picture: the file it is in, words that stand on its page and nowhere before, and the part of the page shown, in
# hundredths of its width and height: left, top, right, bottom.
PICTURES = [
    ("rail-sheet", "fair-rail", "Rail sheet: beef", (4, 5, 96, 62)),
    ("judge-review", "fair-results", "rows to decide", (4, 8, 96, 92)),
    ("placings", "fair-results", "31 placed", (4, 5, 96, 96)),
    ("summary", "fair-results", "Averages by class", (4, 5, 96, 64)),
    ("charts", "fair-results", "Fat against muscle", (4, 12, 96, 79)),
    ("card", "fair-cards", "Tag 0471", (4, 4, 96, 78)),
    ("public", "fair-public", "Carcass placings", (4, 5, 96, 60)),
]
DOTS = 110  # an inch


def run(*command, folder):
    return subprocess.run(command, cwd=folder, check=True, capture_output=True, text=True).stdout


def draw(folder):
    run("go", "build", "-o", os.path.join(folder, "railbook"), ".", folder=os.path.dirname(HERE))
    shutil.copy(os.path.join(HERE, "demo", "fair.xlsx"), folder)
    for arguments in (["sheet", "--roster", "fair.xlsx", "-o", "fair-rail.xlsx"], ["grade", "fair.xlsx"], ["publish", "fair-results.xlsx"]):
        run("./railbook", *arguments, folder=folder)
    books = sorted({book + ".xlsx" for _, book, _, _ in PICTURES})
    run("soffice", "-env:UserInstallation=file://" + os.path.join(folder, "office"), "--headless", "--convert-to", "pdf", *books, folder=folder)
    for name, book, words, part in PICTURES:
        picture(folder, name, book + ".pdf", words, part)


def picture(folder, name, book, words, part):
    pages = run("pdftotext", "-layout", book, "-", folder=folder).split("\f")
    number = next(number for number, page in enumerate(pages, 1) if words in " ".join(page.split()))
    size = run("pdfinfo", "-f", str(number), "-l", str(number), book, folder=folder).split("size:")[1].split()
    wide, high = (float(size[at]) * DOTS / 72 for at in (0, 2))
    left, top, right, bottom = part
    area = ["-x", left * wide / 100, "-y", top * high / 100, "-W", (right - left) * wide / 100, "-H", (bottom - top) * high / 100]
    area = [word if isinstance(word, str) else str(round(word)) for word in area]
    run("pdftoppm", "-png", "-gray", "-r", str(DOTS), "-singlefile", "-f", str(number), *area, book, os.path.join(OUT, name), folder=folder)


if __name__ == "__main__":
    os.makedirs(OUT, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        draw(folder)
