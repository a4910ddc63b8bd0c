"""opens.py FILE…: prints, as one JSON object, what keeps each workbook from being opened; nothing for those that open.

Every XML part is read by expat, which knows namespaces, every relationship must lead to a part, and openpyxl must load the
whole. With --parts, openpyxl is left out: a workbook whose own faults it does not bear may still be sound XML.
"""
import json
import posixpath
import sys
import warnings
import xml.etree.ElementTree as ElementTree
import zipfile
from xml.parsers import expat

warnings.simplefilter("ignore")
RELATIONSHIP = "{http://schemas.openxmlformats.org/package/2006/relationships}Relationship"


def faults(path, parts_only):
    with zipfile.ZipFile(path) as package:
        names = package.namelist()
        lower = {name.lower() for name in names}
        for name in names:
            if not name.lower().endswith((".xml", ".rels")):
                continue
            part = package.read(name)
            try:
                expat.ParserCreate(namespace_separator="}").Parse(part, True)
            except expat.ExpatError as fault:
                yield "%s: %s" % (name, fault)
                continue
            if parts_only or not name.endswith(".rels"):
                continue
            root = ElementTree.fromstring(part)
            folder = posixpath.dirname(posixpath.dirname(name))
            for one in root.iter(RELATIONSHIP):
                target = one.get("Target").split("#")[0]
                if one.get("TargetMode") == "External" or not target:
                    continue
                if posixpath.normpath(posixpath.join("/" + folder, target)).lstrip("/").lower() not in lower:
                    yield "%s: %s is not there" % (name, target)
    if parts_only:
        return
    import openpyxl  # which takes half a second

    try:
        openpyxl.load_workbook(path, keep_vba=path.endswith(".xlsm"))
    except Exception as fault:  # whatever it is, the workbook does not open
        yield "openpyxl: %r" % fault


parts_only = "--parts" in sys.argv
found = {}
for path in sys.argv[1:]:
    if path != "--parts":
        some = list(faults(path, parts_only))
        if some:
            found[path] = some
print(json.dumps(found))
