"""pages.py FILE: prints on how many pages FILE prints; fails where a page shows #### (a column too narrow) or an error value."""
import os
import re
import subprocess
import sys
import tempfile

import office

with tempfile.TemporaryDirectory() as folder:
    made = office.convert(sys.argv[1], "pdf", folder)
    text = subprocess.run(["pdftotext", "-layout", made, "-"], stdout=subprocess.PIPE, check=True).stdout.decode()
pages = text.split("\f")[:-1]
print("%d pages" % len(pages))
faults = ["page %d: %s" % (number, line.strip()) for number, page in enumerate(pages, 1) for line in page.splitlines()
          if re.search(r"###|#REF!|#NAME\?|#VALUE!|#DIV/0!|#N/A|Err:\d", line)]
if faults:
    sys.exit("\n".join(faults))
