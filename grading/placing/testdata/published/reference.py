"""Places the classes of these rule sets in exact fractions, apart from the program: it shares no line and no table with it.

Equations: beef yield grade 7 CFR 54.105(a), cutability Montana State University Extension 2017; fat-free lean, ribbed, pork
carcass evaluation procedures; lamb yield grade U.S. standards 1992 and cutability as confirmed on Univ. of Maryland 2019; goat
cutability Montana State University Extension. Beef quality in maturity A by the U.S. standards, thirds as contests name them.
Premiums and discounts: USDA Market News LM_CT155, week of 6 January 2025.

Run with the names of the files; it prints for each the lines that should stand under Placings.
"""

import csv
import io
import sys
from fractions import Fraction as F


def sections(path):
    parts, name = {}, None
    for line in open(path, encoding="utf-8"):
        if line.startswith("-- ") and line.rstrip().endswith(" --"):
            name = line.strip()[3:-3]
            parts[name] = ""
        elif name:
            parts[name] += line
    return {n: list(csv.DictReader(io.StringIO(t))) for n, t in parts.items() if n.endswith(".csv")}, parts.get("Placings", "")


def rounded(x, places):
    scaled = abs(x) * 10**places
    whole = int(scaled + F(1, 2))
    return F(whole if x >= 0 else -whole, 10**places)


GRADES = [  # least marbling in maturity A
    (900, "High Prime"), (800, "Average Prime"), (700, "Low Prime"), (600, "High Choice"), (500, "Average Choice"), (400, "Low Choice"),
    (350, "High Select"), (300, "Low Select"), (234, "High Standard"), (167, "Average Standard"), (100, "Low Standard"),
]
NAMES = {"hcw": "hot carcass weight", "yg": "yield grade", "lea": "loin muscle area", "fat": "measured fat"}
BASE, QUALITY = None, {"Prime": "17.54", "Choice": "0", "Select": "-28.25", "Standard": "-40.93"}
YIELD = [("2", "3.35"), ("2.5", "1.77"), ("3", "1.38"), ("4", "0"), ("5", "-12.45"), (None, "-17.82")]


def whole(grade):
    return grade.split(" ", 1)[1]


def price(h, w, yg, grade, dark, base):
    if w < 400:
        return None
    weight = next(a for top, closed, a in [
        (500, 0, "-29.29"), (550, 0, "-22.64"), (600, 0, "-11.57"), (900, 0, "0"), (1000, 0, "-1.07"), (1050, 1, "-5.00"), (10**6, 0, "-15.45"),
    ] if w < top or closed and w == top)
    line = next(a for top, a in YIELD if top is None or yg < F(top))
    return rounded(base + F(QUALITY[whole(grade)]) + F(line) + F(weight) + (F("-38.75") if dark else 0), 2)


def figures(row, base):
    f = {k: F(v) for k, v in row.items() if v and k not in ("tag", "species", "class", "maturity", "dark cutter")}
    w, species = f["hot carcass weight"], row["species"]
    f["dark cutter"] = F(row.get("dark cutter") == "yes")
    if "measured fat" in f:
        f["adjusted fat"] = f["measured fat"]
    fat, eye, wall = f.get("adjusted fat"), f.get("ribeye area"), f.get("body wall thickness")
    if species == "beef":
        kph = f["kidney, pelvic and heart fat"]
        f["yield grade"] = rounded(F("2.5") + F("2.5") * fat + F("0.2") * kph + F("0.0038") * w - F("0.32") * eye, 6)
        f["cutability"] = rounded(F("51.34") - F("5.78") * fat - F("0.462") * kph - F("0.0093") * w + F("0.74") * eye, 6)
        f["marbling score"] = f["marbling"]
        grade = next(name for least, name in GRADES if f["marbling"] >= least)
        f["quality grade"] = F(-[name for _, name in GRADES].index(grade))
        f["grade"] = grade
        paid = price(f, w, f["yield grade"], grade, f["dark cutter"], base)
        if paid is not None:
            f["price"], f["value"] = paid, rounded(paid * w / 100, 2)
    elif species == "swine":
        if "loin muscle area" in f and "tenth-rib fat" in f:
            f["lean weight"] = rounded(F("8.588") + F("0.465") * w + F("3.005") * f["loin muscle area"] - F("21.896") * f["tenth-rib fat"], 6)
            f["fat-free lean percent"] = rounded(100 * f["lean weight"] / w, 6)
    elif species == "lamb":
        f["yield grade"] = rounded(F("0.4") + 10 * fat, 6)
        f["cutability"] = rounded(F("49.936") - F("0.0848") * w - F("4.376") * fat - F("3.53") * wall + F("2.456") * eye, 6)
    else:
        f["cutability"] = rounded(F("60.6933") - F("0.23174") * w + F("1.96202") * eye - F("1.57832") * wall, 6)
    if "yield grade" in f:
        f["whole yield grade"] = F(min(5, max(1, int(f["yield grade"]))))
    return f


def measure(name):
    return NAMES.get(name.lower(), name)


def meets(f, line, means):
    """True, False, or None where the figure is missing."""
    name = measure(line["Measure"])
    if name not in f:
        return None
    if line.get("Must not be") == "yes":
        return f[name] == 0
    if line.get("Lowest grade"):
        order = [n for _, n in GRADES]
        return order.index(f["grade"]) <= order.index(line["Lowest grade"])
    shift = F(line.get("Changes per lb") or 0) * f["hot carcass weight"]
    if line.get("From class mean") == "yes":
        shift += means[name]
    x = f[name]
    tests = [("At least", lambda b: x >= b), ("At most", lambda b: x <= b), ("Above", lambda b: x > b), ("Below", lambda b: x < b)]
    return all(test(rounded(F(line[h]) + shift, 6)) for h, test in tests if line.get(h))


def all_met(f, lines, means):
    """The lines not met: those with one letter under Or are met by any of them."""
    return [
        line for line in lines
        if meets(f, line, means) is not True and not (line.get("Or") and any(meets(f, o, means) for o in lines if o.get("Or") == line["Or"]))
    ]


def points(f, lines):
    total = F(0)
    for line in lines:
        weight, name = F(line["Weight"]), measure(line["Measure"])
        if not name:
            total += weight
        elif name not in f:
            return None
        elif line.get("Grade"):
            total += weight if line["Grade"] in (f["grade"], whole(f["grade"])) else 0
        elif line.get("From") or line.get("Up to"):
            total += weight if (not line["From"] or f[name] >= F(line["From"])) and (not line["Up to"] or f[name] < F(line["Up to"])) else 0
        elif line["Target"]:
            apart = f[name] - F(line["Target"])
            if not (line["Side"] == "above" and apart < 0 or line["Side"] == "below" and apart > 0):
                total += weight * abs(apart)
        else:
            total += weight * f[name]
    return rounded(total, 6)


def shown(name, x, places):
    cut = rounded(x, places)
    if name == "yield grade" and int(cut) > int(x):
        cut = F(int(x * 10**places), 10**places)
    return cut


def place(path):
    tables, wanted = sections(path)
    base = F("300")
    for line in tables.get("Settings.csv", []):
        if line["Setting"] == "base price":
            base = F(line["Value"])
    herd = {row["tag"]: figures(row, base) for row in tables["Carcasses.csv"]}
    if "Points.csv" in tables:
        for f in herd.values():
            total = points(f, tables["Points.csv"])
            if total is not None:
                f["points merit"] = total
    names = {n for f in herd.values() for n in f if n != "grade"}
    means = {n: rounded(sum(f[n] for f in herd.values() if n in f) / sum(n in f for f in herd.values()), 6) for n in names}
    keys = [line for line in tables["Ranking.csv"] if line["Step"] != "tie"]
    limits = tables.get("Eligibility.csv", [])

    def key(f):
        sort = []
        for line in keys:
            name = measure(line["Measure"])
            x = f[name]
            if line["Decimals compared"]:
                x = shown(name, x, int(line["Decimals compared"]))
            way = line["Which first"]
            sort.append(-x if way == "highest" else x if way == "lowest" else
                        F(x > F(line["Bound"])) if way == "at most first" else F(x < F(line["Bound"])))
        return sort

    left, placed = [], []
    for tag, f in herd.items():
        failed = all_met(f, limits, means)
        out = any(line["Failing"] == "not placed" or meets(f, line, means) is None for line in failed)
        if out or any(measure(line["Measure"]) not in f for line in keys):
            left.append("- " + tag)
            continue
        placed.append(([F(bool(failed))] + key(f), tag))
    groups = []
    for line in tables.get("Groups.csv", []):
        if line["Group"] not in [g for g, _ in groups]:
            groups.append((line["Group"], []))
        if line["Measure"]:
            next(ls for g, ls in groups if g == line["Group"]).append(line)
    lines = []
    placed.sort()
    for at, (k, tag) in enumerate(placed):
        number = 1 + next(i for i, (other, _) in enumerate(placed) if other == k)
        group = next((g for g, ls in groups if not all_met(herd[tag], ls, means)), "")
        lines.append(f"{number} {tag} {group}".strip())
    return lines + sorted(left)


for path in sys.argv[1:]:
    print("== " + path)
    print("\n".join(place(path)))
