"""Runs LibreOffice with a profile of its own that recalculates every workbook on loading."""
import os
import shutil
import subprocess
import tempfile

PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"""


def convert(path, to, folder):
    """Converts path into folder and returns the new file's path. to is an ending ("xlsx", "pdf")."""
    with tempfile.TemporaryDirectory() as profile:
        os.mkdir(os.path.join(profile, "user"))
        with open(os.path.join(profile, "user", "registrymodifications.xcu"), "w") as settings:
            settings.write(PROFILE)
        done = subprocess.run(
            [shutil.which("soffice"), "-env:UserInstallation=file://" + profile, "--headless", "--convert-to", to, "--outdir", folder, path],
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=180)
    made = os.path.join(folder, os.path.splitext(os.path.basename(path))[0] + "." + to.split(":")[0])
    if done.returncode or not os.path.exists(made):
        raise SystemExit("LibreOffice could not convert %s: %s" % (path, done.stdout.decode(errors="replace")))
    return made
