"""serve.py: runs the programs beside it, one after the other, in one Python that has loaded openpyxl, which takes longer than most of them.

A line that is read is a JSON list: the folder to work in, the program, its arguments. A line that is written is one of what the
program printed and what ended it: null where it came to its end.
"""
import contextlib
import io
import json
import os
import runpy
import sys
import traceback

import openpyxl  # noqa: F401, for the programs

answers = sys.stdout
for line in sys.stdin:
    folder, *sys.argv = json.loads(line)
    os.chdir(folder)
    printed, fault = io.StringIO(), None
    with contextlib.redirect_stdout(printed):
        try:
            runpy.run_path(sys.argv[0], run_name="__main__")
        except SystemExit as end:
            fault = end.code and str(end.code)
        except BaseException:
            fault = traceback.format_exc()
    print(json.dumps([printed.getvalue(), fault]), file=answers, flush=True)
