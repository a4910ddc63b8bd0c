"""resave.py FILE OUT: LibreOffice opens FILE, recalculates it and saves it in the format that the ending of OUT names."""
import os
import shutil
import sys
import tempfile

import office

path, out = sys.argv[1:]
with tempfile.TemporaryDirectory() as folder:
    shutil.move(office.convert(path, os.path.splitext(out)[1][1:], folder), out)
