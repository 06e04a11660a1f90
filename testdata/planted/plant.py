#!/usr/bin/env python3
"""Sheets with planted mistakes: a corpus for the diagnosis ("Why the difference?" in exposure.md).

Written from design/exposure.md, design/notation.md and testdata/independent alone, without sight of the compiler.
`python3 plant.py` writes corpus.zip beside itself, the same bytes every time (some seconds), and prints the counts.
Standard library only; of the random module only random() is used, which is the same in every Python.

Part 1  arithmetic           every formula from exposure.md (and as testdata/independent/reckon.py reads it)
Part 2  kits                 one per notebook, drawn from pools
Part 3  the slips            for a sheet with its settings: what each mistake would have come to, in stops
Part 4  the photographer     from an exposure wanted to marks on this lens, as people round
Part 5  planting             sheets that are right, sheets with one slip
Part 6  the pen              how it is written down
Part 7  notebooks, key, zip
"""
import csv
import datetime
import hashlib
import io
import os
import random
import sys
import zipfile
from math import floor, log, log2

HERE = os.path.dirname(os.path.abspath(__file__))
SEED = 18880904
NOTEBOOKS, DAYS, SHEETS = 216, 10, 20
RIGHT, OFF = 0.30, 1/3 + 1/12 + 0.05          # a right sheet is inside the first, a planted one beyond the second
SAME = 1/12 + 1e-9                            # two slips that predict the same
JUDGED_RIGHT = 1/3 + 1/12

_rng = random.Random(SEED)
roll = _rng.random


def chance(p):
    return roll() < p


def between(a, b):
    return a + (b - a) * roll()


def whole(a, b):
    return a + int(roll() * (b - a + 1))


def pick(seq):
    seq = list(seq)
    return seq[int(roll() * len(seq))]


def weighted(*pairs):
    r = roll() * sum(w for _, w in pairs)
    for value, w in pairs:
        r -= w
        if r < 0:
            return value
    return pairs[-1][0]


def shuffled(seq):
    return [x for _, _, x in sorted((roll(), i, x) for i, x in enumerate(seq))]


def some(n, seq):
    return shuffled(seq)[:n]


# ------------------------------------------------------------------ Part 1: arithmetic

FULL = dict(zip("1 1.4 2 2.8 4 5.6 8 11 16 22 32 45 64 90 128".split(), range(15)))
HALF = {"4.8": 4.5, "6.7": 5.5, "9.5": 6.5, "19": 8.5, "27": 9.5, "38": 10.5, "54": 11.5}         # f13 stands in two series
THIRD = {"4.5": 13/3, "5": 14/3, "6.3": 16/3, "7.1": 17/3, "9": 19/3, "10": 20/3, "14": 23/3, "18": 25/3, "20": 26/3,
         "25": 28/3, "29": 29/3, "36": 31/3, "40": 32/3, "51": 34/3, "57": 35/3}
MARK_OF = {av: m for m, av in FULL.items()}
SHORT = {"1s": 1.0, "1/2": 1/2, "1/4": 1/4, "1/8": 1/8, "1/15": 1/16, "1/30": 1/32, "1/60": 1/64, "1/125": 1/128, "1/250": 1/256,
         "1/500": 1/512, "1/5": 1/5, "1/10": 1/10, "1/25": 1/25, "1/50": 1/50, "1/100": 1/100, "1/150": 1/150}
SV = {12: 2, 25: 3, 32: 10/3, 40: 11/3, 50: 4, 64: 13/3, 80: 14/3, 100: 5, 125: 16/3, 160: 17/3, 200: 6, 250: 19/3, 320: 20/3, 400: 7}


class Power:
    """T (t/T)^p above T."""

    def __init__(self, p, threshold=1.0):
        self.p, self.T = p, threshold

    def clock(self, t):
        return t if t <= self.T else self.T * (t / self.T) ** self.p

    def on_film(self, t):
        return t if t <= self.T else self.T * (t / self.T) ** (1 / self.p)


class Table:
    """log-log between (1 s, 1 s) and the entries; None beyond the last."""
    T = 1.0

    def __init__(self, *pairs):
        self.points = [(1.0, 1.0)] + [(float(a), float(b)) for a, b in pairs]

    def _walk(self, t, a, b):
        if t <= 1.0:
            return t
        for p, q in zip(self.points, self.points[1:]):
            if t <= q[a]:
                return p[b] * (q[b] / p[b]) ** (log(t / p[a]) / log(q[a] / p[a]))
        return None

    def clock(self, t):
        return self._walk(t, 0, 1)

    def on_film(self, t):
        return self._walk(t, 1, 0)


class NoneTo:
    def __init__(self, end):
        self.end = self.T = end

    def clock(self, t):
        return t if t <= self.end else None

    on_film = clock


def amount_stops(amount):
    kind, value = amount
    return log2(value) if kind == "x" else value / 0.30103 if kind == "nd" else value


def film_ei(s):
    if s["ei"]:
        return s["ei"]
    f = s["kit"]["films"][s["film"]]
    return f.get("tungsten EI") or f["EI"] if s["light"] == "tungsten" else f["EI"]


def amount_of(s, name, written):
    """The sheet's own amount, else the declared one for the film's class or the light, else the declared one."""
    if written:
        return written
    d = s["kit"]["filters"][name]
    return d.get(s["kit"]["films"][s["film"]]["class"]) or d.get(s["light"]) or d["any"]


def items_of(s):
    """[(name, kind, value, stops)] of everything before the lens, its own fixed filter last."""
    out = []
    fixed = s["kit"]["lenses"][s["lens"]]["with"]
    for name, written in s["filters"] + ([(fixed, None)] if fixed else []):
        kind, value = amount_of(s, name, written)
        out.append((name, kind, value, amount_stops((kind, value))))
    return out


def bellows(s):
    if s["close"] is None:
        return 0.0
    kind, v = s["close"]
    f = s["kit"]["lenses"][s["lens"]]["focal"]
    if kind == "ext":
        return 2 * log2(v / f)
    if kind == "mag":
        return 2 * log2(1 + v)
    if kind == "focus":
        return 2 * log2(1 + f / (v - f))
    return amount_stops((kind, v))


def reading_ev(s, r):
    """Base EV of a reading at the sheet's film speed."""
    if r["kind"] == "average":
        raw = sum(r["evs"]) / len(r["evs"])
    else:
        raw = r["ev"] + (5 - r["zone"] if r["zone"] is not None else 0)
    if r["is_ev"] and s["kit"]["ev100"]:
        return raw + SV[film_ei(s)] - 5
    if r["meter_ei"]:
        return raw + SV[film_ei(s)] - SV[r["meter_ei"]]
    return raw


def rule_of(s):
    return s["kit"]["films"][s["film"]]["rule"] or s["kit"]["rule"]


def asked_of(s):
    return reading_ev(s, s["reading"]) - sum(i[3] for i in items_of(s)) - bellows(s) - s["bracket"]


def real_time(s):
    return s["kit"]["lenses"][s["lens"]]["tested"].get(s["mark"], s["sec"])


def difference(s):
    """asked - given on film; None beyond the film's table."""
    on = rule_of(s).on_film(real_time(s))
    return None if on is None else asked_of(s) - (s["av"] - log2(on))


# ------------------------------------------------------------------ Part 2: kits

MODERN = "1s 1/2 1/4 1/8 1/15 1/30 1/60 1/125 1/250 1/500".split()
OLD = "1s 1/2 1/5 1/10 1/25 1/50 1/100 1/150".split()
FRACTION = {"½": .5, "⅓": 1/3, "⅔": 2/3}

FILMS = [   # name, ISO, class, EIs, tungsten EI or None, reciprocity text (None: the kit's), rule
    ("pan100", 100, "pan", (50, 64, 80), None, "t^1.31 over 1s", Power(1.31)),
    ("Tarn Pan 125", 125, "pan", (64, 80), 50, "t^1.26", Power(1.26)),
    ("slate", 400, "pan", (200, 250, 320), None, "2s=3s, 4s=7s, 8s→16s, 60s=180s", Table((2, 3), (4, 7), (8, 16), (60, 180))),
    ("fjord", 200, "pan", (100, 125, 160), 80, "10s=15s 100s=200s", Table((10, 15), (100, 200))),
    ("kiln", 100, "pan", (80, 100), None, "none to 100s", NoneTo(100.0)),
    ("heath", 320, "pan", (160, 200, 250), None, "2s=3s 10s=50s 100s=1200s", Table((2, 3), (10, 50), (100, 1200))),
    ("moor 400", 400, "pan", (200, 250), 160, "t^1.41", Power(1.41)),
    ("mere", 50, "pan", (25, 32, 40), None, "t^1.33 over 1s", Power(1.33)),
    ("chalk", 100, "pan", (64, 80), None, None, None),
    ("old stock", 125, "pan", (50, 64, 80), None, None, None),
    ("plate", None, "ortho", (12, 25), None, "t^1.2 over 4s", Power(1.2, 4.0)),
    ("lamp", 80, "ortho", (40, 50), 25, "t^1.25", Power(1.25)),
    ("marsh", 25, "ortho", (12,), None, "3s=5s, 10s=25s, 60s=240s", Table((3, 5), (10, 25), (60, 240))),
]
KIT_RULES = [("2s=3s 4s=7s 15s=35s 60s=200s", Table((2, 3), (4, 7), (15, 35), (60, 200))), ("t^1.3 over 1s", Power(1.3)),
             ("10s=20s, 100s=400s", Table((10, 20), (100, 400)))]

FILTERS = [  # name, words, choices of (any, ortho or None, tungsten or None), names in notes, seen by ortho
    ("Y8", "yellow, Wratten 8, ", [("x2", "x2.5", None), ("x1.5", "x2", None), ("1 stop", "1½ stops", None), ("x2", "x4", None)],
     ["Y8", "Y8", "Y8", "yellow 8", "W8", "#8"], True),
    ("Y12", "Wratten 12, ", [("x2", "x4", None), ("1 stop", None, "⅔ stops"), ("x2.5", "x4", None)], ["Y12", "Y12", "W12", "#12"], True),
    ("Y15", "deep yellow, Wratten 15, ", [("x2.5", "x5", None), ("1½ stops", "2⅓ stops", None), ("x3", "x5", None)],
     ["Y15", "Y15", "W15", "yellow 15"], True),
    ("G11", "Wratten 11, ", [("2 stops", None, "1½ stops"), ("x4", None, "x3"), ("x3", None, None), ("1⅔ stops", None, "2 stops")],
     ["G11", "G11", "W11", "#11"], True),
    ("O21", "orange, Wratten 21, ", [("2 stops", None, None), ("x3", None, "x2"), ("x4", None, None), ("1⅔ stops", None, None)],
     ["O21", "O21", "orange 21", "#21"], False),
    ("R25", "red, Wratten 25, ", [("x8", None, "x5"), ("3 stops", None, "2⅓ stops"), ("x6", None, "x4"), ("2½ stops", None, None), ("x8", None, "x4")],
     ["R25", "R25", "R25", "red 25", "W25", "#25"], False),
    ("B47", "blue, Wratten 47, ", [("x6", None, "x12"), ("2½ stops", None, "3½ stops"), ("x8", None, None)], ["B47", "B47", "blue 47", "W47"], True),
    ("G58", "green, Wratten 58, ", [("x6", None, None), ("2⅔ stops", None, None), ("x8", None, None)], ["G58", "G58", "green 58", "#58"], True),
    ("pol", "", [("x2.5",), ("1½ stops",), ("x3",), ("x4",), ("2 stops",), ("1⅓ stops",)], ["pol"], True),
    ("veil", "", [("nd 0.6",), ("nd 0.9",), ("nd 1.2",)], ["veil"], True),
    ("dusk", "", [("nd 1.8",), ("nd 3.0",)], ["dusk"], True),
]
COLOURS = "Y8 Y12 Y15 G11 O21 R25 B47 G58".split()

LENSES = [   # name, focal, aperture text, (low, high), old or modern, fastest speeds, fixed filter
    ("75", 75, "f5.6-f45", (5, 11), "modern", ("1/250", "1/500"), False), ("90", 90, "f8-f45", (6, 11), "modern", ("1/250", "1/500"), True),
    ("121", 121, "f8-f64", (6, 12), "modern", ("1/250", "1/500"), False), ("135", 135, "f5.6-f45", (5, 11), "old", ("1/100", "1/150"), False),
    ("150", 150, "f5.6-f64", (5, 12), "modern", ("1/250", "1/500"), False), ("180", 180, "f5.6-f64", (5, 12), "modern", ("1/125", "1/250"), False),
    ("210", 210, "f5.6-f64", (5, 12), "old", ("1/50", "1/100"), False), ("240", 240, "f9-f64", (19/3, 12), "modern", ("1/125",), False),
    ("300", 300, "f9", (19/3, 12), "modern", ("1/60", "1/125"), False), ("Heliar", 300, "f4.5-f45", (13/3, 11), "old", ("1/50", "1/100"), False),
    ("360", 360, "f8-f90", (6, 13), "old", ("1/50", "1/100"), False), ("480", 480, "f11-f90", (7, 13), "old", ("1/100", "1/150"), False),
]
TESTED = {"modern": {"1/60": ("1/50", "1/54"), "1/125": ("1/100", "1/90"), "1/250": ("1/180", "1/160"), "1/500": ("1/330",), "1/30": ("1/28",)},
          "old": {"1/25": ("1/22", "1/20"), "1/50": ("1/40", "1/44"), "1/100": ("1/77", "1/70"), "1/150": ("1/105",), "1/10": ("1/9",)}}


def parse_amount(text):
    if text[0] == "x":
        return "x", float(text[1:])
    if text.startswith("nd"):
        return "nd", float(text[3:])
    n = text.split()[0]
    return "stops", float(n[:-1] or 0) + FRACTION[n[-1]] if n[-1] in FRACTION else float(n)


def make_kit():
    """Declarations, and the kit.md that says them."""
    kit = dict(ev100=chance(.22), habit=weighted((1/3, 52), (1/2, 36), (1, 12)), filters={}, names={}, lenses={}, films={}, rule=None)
    lines = {"filter": [], "lens": [], "film": []}
    chosen = some(whole(4, 5), COLOURS[:6] + ["R25"]) + some(whole(0, 1), COLOURS[6:]) + ["pol"]
    if chance(.8):
        chosen.append("veil")
    if chance(.35):
        chosen.append("dusk")
    for name, words, choices, names, seen in FILTERS:
        if name not in chosen:
            continue
        c = list(pick(choices)) + [None, None]
        kit["filters"][name] = {"any": parse_amount(c[0]), "seen": seen}
        text = words + c[0]
        for kind, t in (("ortho", c[1]), ("tungsten", c[2])):
            if t:
                kit["filters"][name][kind] = parse_amount(t)
                text += ", %s %s" % (kind, t)
        kit["names"][name] = names
        lines["filter"].append("filter %s: %s" % (name, text))
    lenses = some(whole(3, 4), LENSES)
    if any(l[6] for l in lenses):
        n, t = pick([("1½ stops", 1.5), ("2 stops", 2.0), ("x3", None)])
        kit["filters"]["CF"] = {"any": ("stops", t) if t else ("x", 3.0), "seen": True}
        kit["names"]["CF"] = ["CF"]
        lines["filter"].append("filter CF: " + n)
    for name, focal, ftext, (low, high), kind, fast, fixed in sorted(lenses, key=lambda l: l[1]):
        series = MODERN if kind == "modern" else OLD
        last = pick(fast)
        speeds = series[:series.index(last) + 1]
        clicks = weighted((None, 55), (1/3, 25), (1/2, 20))
        tested, tested_text = {}, []
        if chance(.45):
            for m in some(whole(1, 3), [m for m in speeds if m in TESTED[kind]]):
                t = pick(TESTED[kind][m])
                tested[m] = 1 / float(t[2:])
            tested_text = ["%s=1/%d" % (m, round(1 / tested[m])) for m in speeds if m in tested]
        parts = ["%d mm" % focal, ftext]
        if chance(.3):
            parts.append("circle %d mm" % (focal * 1.1 + 90))
        if clicks:
            parts.append("clicks 1/%d" % round(1 / clicks))
        parts.append("shutter to " + last if kind == "modern" and chance(.4) else "shutter T B " + " ".join(speeds))
        if tested:
            parts.append("tested " + " ".join(tested_text))
        if fixed:
            parts.append("with CF")
        lines["lens"].append("lens %s: %s" % (name, ", ".join(parts)))
        kit["lenses"][name] = dict(focal=focal, low=low, high=high, speeds=speeds, tested=tested, clicks=clicks, **{"with": "CF" if fixed else None})
    films = some(whole(3, 4), FILMS)
    if all(f[2] == "ortho" for f in films):
        films[0] = FILMS[0]
    for name, iso, cls, eis, tungsten, rtext, rule in films:
        ei = pick(eis)
        parts = (["ISO %d" % iso] if iso else []) + ["EI %d" % ei] + (["tungsten EI %d" % tungsten] if tungsten else [])
        parts = shuffled([cls]) + parts if chance(.3) else parts + [cls]
        if rtext:
            parts.append("reciprocity " + rtext)
        elif kit["rule"] is None:
            kit["rule_text"], kit["rule"] = pick(KIT_RULES)
        kit["films"][name] = {"ISO": iso, "EI": ei, "class": cls, "rule": rule, **({"tungsten EI": tungsten} if tungsten else {})}
        lines["film"].append("film %s: %s" % (name, ", ".join(parts)))
    kit["speeds"] = sorted({f[k] for f in kit["films"].values() for k in ("EI", "tungsten EI") if k in f})
    text = ["# Kit", "", "camera 4x5: ext 60-1100 mm", ""]
    for block in shuffled(["filter", "lens", "film"]):
        text += lines[block] + [""]
    if kit["rule"]:
        text.append("reciprocity: " + kit["rule_text"])
    text.append("meter spot: EV at " + ("100" if kit["ev100"] else "EI"))
    if chance(.5):
        text.append("tolerance: 1/3 stop")
    kit["text"] = "\n".join(text) + "\n"
    return kit


# ------------------------------------------------------------------ Part 3: the slips

SLUGS = ("filter-forgotten one-filter-of-stack-forgotten filter-compensated-wrong-way factor-used-as-stops stops-used-as-factor "
         "density-used-as-stops another-filters-compensation filter-removed-settings-left last-time-left last-aperture-left "
         "bellows-forgotten bellows-turned-round bellows-factor-used-as-stops earlier-extension-kept reciprocity-forgotten "
         "reciprocity-too-early aperture-fraction-lost aperture-fraction-wrong-way meter-at-box-speed meter-at-other-ei "
         "placed-on-wrong-zone placed-in-wrong-direction not-placed counted-on-from-last-filter filter-fraction-dropped "
         "base-reading-from-earlier-scene one-stop-off one-speed-off").split()


def filter_slips(s):
    """Slips of the filters alone: [(slug, difference)]."""
    out, items = [], items_of(s)
    if not items:
        return out
    total = sum(i[3] for i in items)
    out += [("filter-forgotten", -total), ("filter-compensated-wrong-way", -2 * total)]
    here = {i[0] for i in items}
    for name, kind, value, stops in items:
        if len(items) > 1:
            out += [("one-filter-of-stack-forgotten", -stops), ("filter-compensated-wrong-way", -2 * stops)]
        if kind == "x":
            out.append(("factor-used-as-stops", value - stops))
        if kind == "stops" and value >= 1:
            out.append(("stops-used-as-factor", log2(value) - value))
        if kind == "nd":
            out.append(("density-used-as-stops", value - stops))
        for other in s["kit"]["filters"]:
            if other not in here:
                out.append(("another-filters-compensation", amount_stops(amount_of(s, other, None)) - stops))
        part = stops - floor(stops + 1e-9)
        if part > .05:
            out.append(("filter-fraction-dropped", -part))
    return out


def bellows_slips(s, before):
    b, out = bellows(s), []
    if b > .01:
        out += [("bellows-forgotten", -b), ("bellows-turned-round", -2 * b)]
        if s["close"][0] != "stops":
            out.append(("bellows-factor-used-as-stops", 2 ** b - b))
        if before is not None and abs(before - b) > .01:
            out.append(("earlier-extension-kept", before - b))
    return out


def early_steps(s):
    """What may be left for after the reciprocity: filters, bellows, both."""
    f, b = sum(i[3] for i in items_of(s)), bellows(s)
    return [x for x in ((f, b, f + b) if f and b else (f + b,)) if x > .01]


def reciprocity_slips(s, av):
    out, rule = [], rule_of(s)
    t = 2 ** (av - asked_of(s))
    if rule.clock(t) is None:
        return out
    if t > rule.T:
        on = rule.on_film(t)
        if on:
            out.append(("reciprocity-forgotten", log2(on / t)))
    for x in early_steps(s):
        c = rule.clock(t / 2 ** x)
        on = c and rule.on_film(c * 2 ** x)
        if on:
            out.append(("reciprocity-too-early", log2(on / t)))
    return out


def meter_slips(s):
    r, ei = s["reading"], film_ei(s)
    f = s["kit"]["films"][s["film"]]
    dialled = [r["meter_ei"]] if r["meter_ei"] else set(s["kit"]["speeds"]) | ({f["ISO"]} if f["ISO"] else set())
    out = []
    for x in sorted(dialled):
        d = SV[ei] - SV[x]
        if abs(d) > .05:
            if x == f["ISO"]:
                out.append(("meter-at-box-speed", d))
            if x in s["kit"]["speeds"]:
                out.append(("meter-at-other-ei", d))
    return out


def zone_slips(s):
    z = s["reading"]["zone"]
    if z is None:
        return []
    out = [("placed-on-wrong-zone", 1.0), ("placed-on-wrong-zone", -1.0)]
    if z != 5:
        out += [("placed-in-wrong-direction", 2.0 * (5 - z)), ("not-placed", 5.0 - z)]
    return out


def aperture_slips(s):
    out = []
    clicks = s["kit"]["lenses"][s["lens"]]["clicks"]
    fractions = [1/2] if clicks == 1/2 else [1/3, 2/3] if clicks else [1/3, 1/2, 2/3]
    part = s["av"] - floor(s["av"] + 1e-6)
    if part < .05:
        for f in fractions:
            out += [("aperture-fraction-lost", f), ("aperture-fraction-lost", -f)]
    else:
        out += [("aperture-fraction-wrong-way", -2 * part), ("aperture-fraction-wrong-way", 2 * (1 - part))]
    if s["reading"]["fraction"]:
        out += [("aperture-fraction-lost", s["reading"]["fraction"]), ("aperture-fraction-wrong-way", 2 * s["reading"]["fraction"])]
    return out


def step_slips(s):
    out = [("one-stop-off", 1.0), ("one-stop-off", -1.0)]
    lens = s["kit"]["lenses"][s["lens"]]
    if s["mark"]:
        i = lens["speeds"].index(s["mark"])
        for j in (i - 1, i + 1):
            if 0 <= j < len(lens["speeds"]):
                m = lens["speeds"][j]
                out.append(("one-speed-off", log2(real_time(s) / lens["tested"].get(m, SHORT[m]))))
    return out


def was_right(s):
    return s is not None and abs(s["diff"]) <= JUDGED_RIGHT


def near(a, b):
    return abs(a - b) <= SAME


def earlier_slips(s, st):
    """Slips that hang on an earlier sheet or scene; a difference of None: the settings are there to be seen."""
    out = []
    last = st["by_lens"].get(s["lens"])
    if was_right(last):
        time, stop = near(log2(last["sec"]), log2(s["sec"])), near(last["av"], s["av"])
        if time:
            out.append(("last-time-left", None))
        if stop:
            out.append(("last-aperture-left", None))
        if time and stop and last is st["last"]:
            gone = [f for f in last["filters"] if f not in s["filters"]]
            if gone and all(f in last["filters"] for f in s["filters"]):
                out.append(("filter-removed-settings-left", None))
    last = st["last"]
    if was_right(last) and last["filters"] and s["filters"] and last["filters"] != s["filters"]:
        fixed = 1 if s["kit"]["lenses"][s["lens"]]["with"] else 0
        was = sum(i[3] for i in items_of(last)[:len(last["filters"])])
        out.append(("counted-on-from-last-filter", was))
        if counts_on(s, last):
            now = sum(i[3] for i in items_of(s)[:len(s["filters"])])
            out.append(("counted-on-from-last-filter", asked_of(s) - (last["av"] - log2(rule_of(last).on_film(real_time(last))) - now)))
    for r in st["bases"]:
        out.append(("base-reading-from-earlier-scene", reading_ev(s, s["reading"]) - reading_ev(s, r)))
    return out


def counts_on(s, last):
    return all(s[k] == last[k] for k in ("lens", "film", "light", "ei", "close", "bracket")) and s["reading"] is last["reading"]


def all_slips(s, st):
    return (filter_slips(s) + bellows_slips(s, st["bellows"].get(s["lens"])) + reciprocity_slips(s, s["av"]) + meter_slips(s) +
            zone_slips(s) + aperture_slips(s) + step_slips(s) + earlier_slips(s, st))


def equals(s, st):
    out = set()
    for slug, d in all_slips(s, st):
        if slug != s["planted"] and (d is None or near(d, s["predicted"])):
            out.add(slug)
    return [x for x in SLUGS if x in out]


# ------------------------------------------------------------------ Part 4: the photographer

NICE = [1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 18, 20, 22, 25, 28, 30, 32, 35, 40, 45, 50, 55, 60, 70, 75, 80,
        90, 100, 105, 120, 135, 150, 165, 180, 210, 240, 270, 300, 330, 360, 420, 480, 540, 600, 660, 720, 840, 900, 1080, 1200, 1500, 1800, 2100, 2400]
LONGEST = 2400


def nearest_time(s, clock):
    """The shutter's speed, or seconds by hand, nearest the time wanted: (mark, seconds, off by)."""
    lens = s["kit"]["lenses"][s["lens"]]
    if clock > 1.25:
        t = min(NICE, key=lambda v: abs(log2(v / clock)))
        return None, float(t), log2(t / clock)
    m = min(lens["speeds"], key=lambda v: abs(log2(lens["tested"].get(v, SHORT[v]) / clock)))
    return m, SHORT[m], log2(lens["tested"].get(m, SHORT[m]) / clock)


def step_of(s):
    return s["kit"]["lenses"][s["lens"]]["clicks"] or s["kit"]["habit"]


def choose(s, wanted, pref, whole_only=False):
    """Set s to marks for the time wanted(av): the aperture as liked, the nearest speed, the rest on the aperture."""
    lens = s["kit"]["lenses"][s["lens"]]
    step = step_of(s)
    for k in (0, 1, -1, 2, -2, 3, -3, 4, -4):
        av = pref + k
        if not lens["low"] - 1e-9 <= av <= lens["high"] + 1e-9:
            continue
        clock = wanted(av)
        if clock is None or clock > LONGEST * 1.1:
            continue
        mark, sec, off = nearest_time(s, clock)
        if mark and abs(off) > .75:
            continue
        if mark:
            if step == 1:
                shift = 0 if abs(off) <= .27 else round(off * 2) / 2
            else:
                shift = round(off / step) * step
            if shift and not lens["low"] - 1e-9 <= av + shift <= lens["high"] + 1e-9:
                continue
            if whole_only and shift:
                continue
            av += shift
        if abs(av - round(av)) < 1e-6:
            av = float(round(av))
        clock = wanted(av)
        if clock is None:
            continue
        s["av"], s["mark"], s["sec"] = av, mark, sec
        if abs(log2(real_time(s) / clock)) <= .27:
            return True
    return False


def shifted(s, stops):
    """The clock time for an aperture when the writer is wrong by so many stops and otherwise reckons right."""
    asked, rule = asked_of(s), rule_of(s)
    return lambda av: rule.clock(2 ** (av - asked + stops))


def sane(s):
    """Within the film's table as asked and as given; a time people would wait for."""
    return s["sec"] <= LONGEST and rule_of(s).clock(2 ** (s["av"] - asked_of(s))) is not None and difference(s) is not None


# ------------------------------------------------------------------ Part 5: planting

ROMAN = {2: "II", 3: "III", 4: "IV", 5: "V", 6: "VI", 7: "VII", 8: "VIII"}
SPOTS = ("cleft frost bark moss doorway ash fern rafters sill hearth scree shingle reeds trough lintel thatch coping gravel ivy nave pew "
         "stile plinth rushes tarpaulin").split()


def ev_value(target):
    target = max(target, 1.0)
    kind = weighted(("whole", 5), ("half", 2.5), ("third", 2), ("tenth", .8))
    if kind == "whole":
        return str(round(target)), float(round(target))
    if kind == "tenth":
        return "%.1f" % target, float("%.1f" % target)
    f = "½" if kind == "half" else pick("⅓⅔")
    return "%d%s" % (int(target), f), int(target) + FRACTION[f]


def spot(target, zone, in_meter):
    text, ev = ev_value(target)
    label = "" if in_meter and zone is not None and chance(.12) else weighted(("EV ", 6), ("EV", 1))
    place = ""
    if zone is not None:
        place = " on %s½" % ROMAN[int(zone)] if zone != int(zone) else \
            weighted((" on " + ROMAN[zone], 8), (" on zone %d" % zone, 1), (" z%d" % zone if label else " on " + ROMAN[zone], 1))
    return label + text + place, ev


def make_reading(kit, target, target100, in_meter, want=None, meter_ei=None):
    """target: what a meter at its EI shows as EV; target100: the same light at ISO 100."""
    r = dict(kind="plain", zone=None, is_ev=False, meter_ei=meter_ei, fraction=0.0)
    kind = want or weighted(("plain", 40), ("ev", 22), ("spot", 28), ("average", 5), ("incident", 5))
    if meter_ei and kit["ev100"]:
        kind = "plain"
    if kind in ("plain", "incident", "fraction"):
        best, options = None, []
        marks = [(m, SHORT[m]) for m in MODERN[1:]] + [("%ds" % n, float(n)) for n in (1, 2, 4, 8, 15, 30)]
        part = weighted(("", 88), ("½", 8), ("⅔", 4)) if kind != "fraction" else pick("½½⅔")
        for mark, av in FULL.items():
            if 4 <= av <= 11:
                for t, sec in marks:
                    ev = av + (FRACTION[part] if part else 0) - log2(sec)
                    options.append((abs(ev - target), mark, t, ev))
        _, mark, t, r["ev"] = pick([o for o in options if o[0] < .6] or [min(options)])
        r["fraction"] = FRACTION[part] if part else 0.0
        text = "%s %s%s%s" % (t, weighted(("f", 4), ("f/", 1)), mark, part)
        r["text"] = "incident " + text if kind == "incident" else text
        r["bare"] = kind != "incident"
    else:
        target = target100 if kit["ev100"] else target
        r["is_ev"], r["bare"] = True, False
        if kind == "ev":
            text, r["ev"] = ev_value(target)
            r["text"] = weighted(("EV ", 6), ("EV", 1)) + text
        elif kind == "average":
            r["kind"] = "average"
            got = [(n, spot(target + between(-2, 2), None, in_meter)) for n in some(whole(2, 3), SPOTS)]
            r["evs"] = [e for _, (_, e) in got]
            parts = ["%s %s" % (n, t) for n, (t, _) in got]
            parts.insert(pick([0, len(parts)]), "average")
            r["text"] = ", ".join(parts)
        else:
            low = pick([2, 3, 3, 3, 3, 4, 2.5, 3.5])
            shape = weighted(("one", 55), ("fallen", 22), ("two", 23))
            zone = pick([low, low, low, 5, 7, 6, 8]) if shape == "one" else low
            r["zone"] = zone
            names = some(2, SPOTS)
            text, r["ev"] = spot(target - 5 + zone, zone, in_meter)
            parts = ["%s %s" % (names[0], text) if chance(.9) else text]
            if shape == "fallen":
                parts.append("%s %s" % (names[1], spot(r["ev"] + between(1, 4), None, in_meter)[0]))
            elif shape == "two":
                high = pick([6, 7, 7, 8])
                parts.append("%s %s" % (names[1], spot(target - 5 + high + between(-1, 1), high, in_meter)[0]))
            r["text"] = ", ".join(shuffled(parts))
    if meter_ei:
        r["text"] += (" " if "," not in r["text"] else ", ") + "at EI %d" % meter_ei
    return r


AMOUNTS = {"Y8": ["x2.5", "x3", "1½", "1"], "Y12": ["x2.5", "x3", "1½"], "Y15": ["x4", "2", "x2"], "G11": ["x4", "x3", "1½", "1⅔", "2"],
           "O21": ["x3", "x5", "2⅓", "2½"], "R25": ["x10", "x6", "x5", "3", "2½", "3⅓"], "B47": ["x5", "x8", "2⅔", "3"], "G58": ["x8", "2½", "x5"],
           "pol": ["x3", "x4", "1½", "2", "1⅔"], "veil": ["2", "3"], "dusk": ["6"]}


def pick_amount(name):
    a = pick(AMOUNTS[name])
    return parse_amount(a) if a[0] == "x" else parse_amount(a + " stops")


def pick_filters(kit, film, bright):
    """Filters for a sheet: [(name, written amount or None)]."""
    ortho = kit["films"][film]["class"] == "ortho"
    usable = [n for n, d in kit["filters"].items() if n != "CF" and (d["seen"] or not ortho)]
    colours = [n for n in usable if n in COLOURS]
    kind = weighted(("colour", 52 if colours else 0), ("pol", 10), ("grey", 14), ("stack", 24))

    def grey():
        if "dusk" in usable and bright and chance(.3):
            return "dusk", None
        if "veil" in usable and chance(.4):
            return "veil", None
        if chance(.15):
            return pick([("ND4", ("x", 4.0)), ("ND8", ("x", 8.0))])
        d = pick(["0.3", "0.6", "0.9", "1.2", "1.8"] + (["1.8", "3.0", "3.0"] if bright else []))
        return "ND " + d, ("nd", float(d))
    if kind == "grey":
        return [grey()]
    if kind == "stack":
        got = [(pick(colours or ["pol"]), None)]
        other = ("pol", None) if got[0][0] != "pol" and chance(.5) else grey()
        got.append(other)
        if chance(.1) and other[0] != "pol" and got[0][0] != "pol":
            got.append(("pol", None))
        if chance(.25):
            got = got[::-1]
        if chance(.1) and got[0][0] in AMOUNTS:       # an amount on the first of a stack only: after the last it reads two ways
            got[0] = (got[0][0], pick_amount(got[0][0]))
        return got
    name = "pol" if kind == "pol" or not colours else pick(colours)
    return [(name, pick_amount(name) if chance(.15) else None)]


def pick_close(s, low=1.04, high=2.0, kind=None):
    f = s["kit"]["lenses"][s["lens"]]["focal"]
    ratio = between(low, high)
    kind = kind or weighted(("ext", 50), ("inch", 16), ("ratio", 12), ("mag", 9), ("focus", 8), ("written", 5))
    if kind == "ext":
        mm = round(f * ratio / 5) * 5
        return ("ext", float(mm)), pick(["ext %dmm", "ext %d mm", "bellows %dmm"]) % mm
    if kind == "inch":
        q = round(f * ratio / 25.4 * 4)
        return ("ext", q / 4 * 25.4), pick(["ext %d%s in", "bellows %d%s in", 'ext %d%s"']) % (q // 4, ["", "¼", "½", "¾"][q % 4])
    if kind == "ratio":
        n = pick([1, 2, 2, 3, 3, 4, 5])
        return ("mag", 1 / n), "1:%d" % n
    if kind == "mag":
        m = pick(["0.2", "0.25", "0.3", "0.4", "0.5", "0.7", "1"])
        return ("mag", float(m)), "mag " + m
    if kind == "focus":
        d = round(f / 1000 * between(2.2, 9), 1)
        d = max(d, round(f / 1000 * 2 + .05, 1))
        return ("focus", round(d * 1000.0)), "focus %.1f m" % d
    return pick([(("stops", 1.5), "bellows +1½"), (("x", 2.25), "bellows x2.25"), (("stops", 2/3), "bellows +⅔"), (("x", 1.5), "bellows x1.5"),
                 (("stops", 1.0), "bellows +1"), (("x", 3.0), "bellows x3")])


def proto(st):
    """A sheet still without settings, as the scene suggests it."""
    s = dict(kit=st["kit"], lens=st["lens"], film=st["film"], light=st["light"], ei=None, reading=st["reading"], filters=list(st["filters"]),
             close=None, close_text=None, bracket=0.0, bracket_text=None, planted="", predicted=None, own=False, source=None, frail=False,
             amend=None, one=None)
    if chance(.04):
        s["lens"] = pick(st["kit"]["lenses"])
    if chance(.4):
        s["filters"] = pick_filters(st["kit"], s["film"], st["level"] > 10)
    elif chance(.06) and s["filters"]:
        s["filters"] = []
    if chance(.18):
        s["close"], s["close_text"] = pick_close(s)
    if chance(.05):
        s["bracket_text"], s["bracket"] = pick([("+1", 1.), ("-1", -1.), ("+½", .5), ("-½", -.5), ("+2", 2.)])
    if s["reading"] is None or chance(.1):
        own_reading(s, st)
    r = s["reading"]
    free = r["meter_ei"] or (r["is_ev"] and st["kit"]["ev100"])       # else it is not sure what the meter stood at
    if free and chance(.04):
        s["ei"] = pick([e for e in SV if abs(SV[e] - SV[film_ei(s)]) <= 1.4])
    elif free and not st["loaded"] and chance(.05):
        film = pick(st["kit"]["films"])
        if all(st["kit"]["filters"][n]["seen"] for n, w in s["filters"] if n in st["kit"]["filters"]) or st["kit"]["films"][film]["class"] != "ortho":
            s["film"] = film
    return s


def own_reading(s, st, want=None, meter_ei=None):
    level = st["level"] + between(-1.2, 1.2)
    if meter_ei is None and chance(.12):
        meter_ei = pick(meter_choices(s))
    s["own"] = True
    s["reading"] = make_reading(st["kit"], level + SV[meter_ei or film_ei(s)] - 5, level, False, want, meter_ei)


def meter_choices(s):
    iso = s["kit"]["films"][s["film"]]["ISO"]
    return s["kit"]["speeds"] + ([iso, iso] if iso else [])


def from_last(st, **change):
    """A sheet that starts from the one before in this scene."""
    last = st["last"]
    if not last or last["frail"] or last["ei"] or last["bracket"]:
        return None
    s = {**last, "bracket": 0.0, "bracket_text": None, "planted": "", "predicted": None, "own": last["own"], "source": last, "frail": False,
         "amend": None, "one": None, **change}
    s["filters"] = list(s["filters"])
    return s


def preference(s, st):
    lens = s["kit"]["lenses"][s["lens"]]
    p = st["pref"] if chance(.75) else st["pref"] + pick([-1, 1, 1, -2, 2])
    p = float(min(max(p, -(-lens["low"] // 1)), floor(lens["high"])))
    if chance(.06) and step_of(s) != 1:
        p = min(p + step_of(s), lens["high"])
    return p


def right_sheet(st):
    for _ in range(200):
        s = None
        if st["last"] and chance(.2):
            s = from_last(st)
        if s is not None:
            how = weighted(("twin", 2), ("filter", 4), ("ext", 2), ("bracket", 1.5), ("stop", 2))
            if how == "filter":
                s["filters"] = pick_filters(st["kit"], s["film"], st["level"] > 10)
            elif how == "ext":
                s["close"], s["close_text"] = pick_close(s)
            elif how == "bracket":
                s["bracket_text"], s["bracket"] = pick([("+1", 1.), ("-1", -1.), ("+½", .5), ("-½", -.5)])
            if how != "twin" and not choose(s, shifted(s, 0), preference(s, st)):
                continue
        else:
            s = proto(st)
            if not choose(s, shifted(s, 0), preference(s, st)):
                continue
        s["diff"] = difference(s)
        if sane(s) and abs(s["diff"]) <= RIGHT and allowed(s, st):
            return s
    return None


def allowed(s, st):
    """Nothing that the notation can be read two ways about, and no film that cannot see what the filter passes."""
    if s["kit"]["films"][s["film"]]["class"] == "ortho" and not all(s["kit"]["filters"].get(n, {"seen": True})["seen"] for n, _ in s["filters"]):
        return False
    r, src = s["reading"], s["source"]
    if (s["ei"] or s["film"] != st["film"]) and not (r["meter_ei"] or r["is_ev"] and s["kit"]["ev100"]):
        return False                          # what did the meter stand at?
    if s["kit"]["lenses"][s["lens"]]["with"] and not s["filters"]:       # does `no filter` take off the fixed one?
        if st["filters"] or src and src["filters"] and s["own"]:
            return False
    return True


FILTER_NEED = {
    "filter-forgotten": lambda s: s["filters"], "one-filter-of-stack-forgotten": lambda s: len(items_of(s)) > 1,
    "filter-compensated-wrong-way": lambda s: s["filters"], "factor-used-as-stops": lambda s: any(k == "x" and (v <= 6 or chance(.3)) for _, k, v, _ in items_of(s)),
    "stops-used-as-factor": lambda s: any(k == "stops" and v >= 1 for _, k, v, _ in items_of(s)),
    "density-used-as-stops": lambda s: any(k == "nd" for _, k, _, _ in items_of(s)), "another-filters-compensation": lambda s: s["filters"],
    "filter-fraction-dropped": lambda s: any(x - floor(x + 1e-9) > .45 for *_, x in items_of(s)),
}


def plant(slug, st):
    """A sheet with this one slip, or None where it cannot be made here."""
    last = st["last"]
    own = st["by_lens"].get(st["lens"])
    if slug in FILTER_NEED:
        if slug in ("filter-forgotten", "another-filters-compensation") and last and chance(.3):
            s = from_last(st)
            if s is None:
                return None
            s["filters"] = pick_filters(st["kit"], s["film"], st["level"] > 10)
            copied = slug == "filter-forgotten" and not last["filters"] and was_right(last)
        else:
            s, copied = proto(st), False
            for _ in range(12):
                if FILTER_NEED[slug](s):
                    break
                s["filters"] = pick_filters(st["kit"], s["film"], st["level"] > 10)
        if not FILTER_NEED[slug](s):
            return None
        options = [d for n, d in filter_slips(s) if n == slug]
        if slug == "another-filters-compensation":      # colours and polarizers are taken for one another, greys and the fixed one are not
            here = {i[0] for i in items_of(s)}
            options = [amount_stops(amount_of(s, o, None)) - i[3] for i in items_of(s)[:len(s["filters"])] for o in s["kit"]["filters"]
                       if o not in here and o not in ("CF", "dusk", "veil") and i[1] != "nd"
                       and (s["kit"]["filters"][o]["seen"] or s["kit"]["films"][s["film"]]["class"] != "ortho")]
        if slug == "factor-used-as-stops":
            options = [d for d in options if d < 5.1]
        options = [d for d in options if abs(d) > .4]
        if not options:
            return None
        s["predicted"] = pick(options)
        if copied:
            return s if last["diff"] is not None and not items_of(last) else None
        return set_shifted(s, st)
    if slug == "filter-removed-settings-left":
        if not was_right(last) or not last["filters"]:
            return None
        s = from_last(st)
        if s is None:
            return None
        gone = list(last["filters"])
        if len(gone) > 1 and chance(.5):
            off = pick(range(len(gone)))
            s["filters"] = [f for i, f in enumerate(gone) if i != off]
        else:
            s["filters"] = []
        s["predicted"] = difference(s)
        return s
    if slug in ("last-time-left", "last-aperture-left"):
        s = proto(st)
        own = st["by_lens"].get(s["lens"])
        if not was_right(own) or own["frail"]:
            return None
        if not choose(s, shifted(s, 0), preference(s, st) + pick([-2, -1, 0, 1, 2])):
            return None
        if near(s["av"], own["av"]) or near(log2(s["sec"]), log2(own["sec"])):
            return None
        if slug == "last-time-left":
            s["mark"], s["sec"], s["one"] = own["mark"], own["sec"], "aperture"
        else:
            s["av"], s["one"] = own["av"], "time"
        s["predicted"] = difference(s)
        return s if s["predicted"] is not None and abs(s["predicted"]) < 4.6 else None
    if slug in ("bellows-forgotten", "bellows-turned-round", "bellows-factor-used-as-stops", "earlier-extension-kept"):
        if slug == "earlier-extension-kept":
            if not was_right(last) or not last["close"] or last["close"][0] != "ext":
                return None
            s = from_last(st) if chance(.6) else proto(st)
            if s is None or s["lens"] != last["lens"]:
                return None
            s["close"], s["close_text"] = pick_close(s, 1.0, 2.2, "ext")
            s["predicted"] = bellows(last) - bellows(s)
            if bellows(s) < .05:
                return None
            if s["source"] and s["filters"] == last["filters"] and chance(.8):
                return s
            return set_shifted(s, st)
        copied = slug == "bellows-forgotten" and was_right(last) and not last["close"] and chance(.35)
        s = (from_last(st) if copied else None) or proto(st)
        for _ in range(8):
            s["close"], s["close_text"] = pick_close(s, *((1.2, 2.1) if slug != "bellows-turned-round" else (1.1, 1.6)))
            options = [d for n, d in bellows_slips(s, None) if n == slug and .45 < abs(d) < 4]
            if options:
                s["predicted"] = options[0]
                return s if s["source"] else set_shifted(s, st)
        return None
    if slug in ("reciprocity-forgotten", "reciprocity-too-early"):
        s = proto(st)
        if st["level"] > 10 and not s["filters"]:
            s["filters"] = pick_filters(st["kit"], s["film"], True)
        rule, asked = rule_of(s), asked_of(s)
        steps = early_steps(s)
        if slug == "reciprocity-too-early":
            if not steps:
                return None
            x = pick(steps)

            def wanted(av):
                c = rule.clock(2 ** (av - asked - x))
                return c and c * 2 ** x
        else:
            x = None

            def wanted(av):
                return 2 ** (av - asked)
        if not choose(s, wanted, preference(s, st) + pick([0, 1, 2])) or s["mark"]:
            return None
        t = 2 ** (s["av"] - asked)
        if rule.clock(t) is None:
            return None
        if x is not None and (t / 2 ** x <= rule.T):     # nothing was there to apply early: it is the forgotten one
            return None
        on = rule.on_film(wanted(s["av"]))
        if on is None:
            return None
        s["predicted"] = log2(on / t)
        return s
    if slug in ("aperture-fraction-lost", "aperture-fraction-wrong-way"):
        s = proto(st)
        times = 1 if slug.endswith("lost") else 2
        if chance(.2):
            own_reading(s, st, "fraction")
            s["predicted"] = times * s["reading"]["fraction"]
            return set_shifted(s, st)
        lens = s["kit"]["lenses"][s["lens"]]
        step = 1/2 if step_of(s) == 1 else step_of(s)
        part = pick([1/2] if step == 1/2 else [2/3] if times == 1 else [1/3, 2/3])
        mark = float(round(preference(s, st)))
        sign = 1 if times == 1 else pick([1, -1])
        meant = mark + sign * part
        s["av"] = mark if times == 1 else mark - sign * part
        if not (lens["low"] - 1e-9 <= min(meant, s["av"]) and max(meant, s["av"]) <= lens["high"] + 1e-9):
            return None
        clock = shifted(s, 0)(meant)
        if clock is None:
            return None
        s["mark"], s["sec"], off = nearest_time(s, clock)
        if abs(off) > .2:
            return None
        s["predicted"] = meant - s["av"]
        return s
    if slug in ("meter-at-box-speed", "meter-at-other-ei"):
        s = proto(st)
        iso = s["kit"]["films"][s["film"]]["ISO"]
        dial = iso if slug == "meter-at-box-speed" else pick(s["kit"]["speeds"])
        if not dial or abs(SV[dial] - SV[film_ei(s)]) < .4:
            return None
        if s["reading"]["meter_ei"] != dial:
            how = weighted(("own", 3), ("silent", 4), ("amend", 2))
            if how == "own":
                own_reading(s, st, None, dial)
            elif s["reading"]["meter_ei"]:
                return None
            elif how == "amend":
                if s["own"] or s["reading"]["is_ev"] and s["kit"]["ev100"] or s["ei"] or s["film"] != st["film"]:
                    return None
                s["reading"] = {**s["reading"], "meter_ei": dial}
                s["amend"], s["frail"] = "metered at EI %d" % dial, True
        s["predicted"] = SV[film_ei(s)] - SV[dial]
        return set_shifted(s, st)
    if slug in ("placed-on-wrong-zone", "placed-in-wrong-direction", "not-placed"):
        s = proto(st)
        if s["reading"]["zone"] is None:
            own_reading(s, st, "spot")
        options = [d for n, d in zone_slips(s) if n == slug]
        if not options:
            return None
        s["predicted"] = pick(options)
        return set_shifted(s, st)
    if slug == "counted-on-from-last-filter":
        if not was_right(last) or abs(last["diff"]) > .2 or not last["filters"] or last["frail"]:
            return None
        s = from_last(st) if chance(.3) else proto(st)
        if s is None or s["own"] and not s["source"]:
            return None
        for _ in range(5):
            s["filters"] = pick_filters(st["kit"], s["film"], st["level"] > 10)
            if not {n for n, _ in s["filters"]} & {n for n, _ in last["filters"]}:
                break
        else:
            return None
        if not s["source"] and not counts_on(s, last):
            s["close"], s["close_text"], s["bracket"], s["bracket_text"] = last["close"], last["close_text"], last["bracket"], last["bracket_text"]
        if not counts_on(s, last):
            return None
        s["predicted"] = next(d for n, d in reversed(earlier_slips(dict(s, av=0., sec=1., mark=None), st)) if n == slug)
        return set_shifted(s, st, pref=last["av"] if abs(last["av"] - round(last["av"])) < .01 else None)
    if slug == "base-reading-from-earlier-scene":
        s = proto(st)
        if s["own"] or not st["bases"]:
            return None
        before, film, light = st["base_of"][-1]
        if film != s["film"] or light != s["light"] or s["ei"]:
            return None
        s["predicted"] = reading_ev(s, s["reading"]) - reading_ev(s, before)
        return set_shifted(s, st) if abs(s["predicted"]) < 6 else None
    s = proto(st)                                       # one whole stop, one whole speed off
    lens = s["kit"]["lenses"][s["lens"]]
    if not choose(s, shifted(s, 0), preference(s, st)):
        return None
    if slug == "one-stop-off":
        s["predicted"] = pick([1.0, -1.0])
        s["av"] -= s["predicted"]
        return s if lens["low"] - 1e-9 <= s["av"] <= lens["high"] + 1e-9 else None
    if not s["mark"]:
        return None
    i, t = lens["speeds"].index(s["mark"]), real_time(s)
    j = i + pick([-1, 1])
    if not 0 <= j < len(lens["speeds"]):
        return None
    s["mark"] = lens["speeds"][j]
    s["sec"] = SHORT[s["mark"]]
    s["predicted"] = log2(real_time(s) / t)
    return s


def set_shifted(s, st, pref=None):
    return s if choose(s, shifted(s, s["predicted"]), preference(s, st) if pref is None else pref) else None


def planted_sheet(st, counts):
    """The slips in turn: the rarest so far first."""
    for _, slug in sorted((counts[x] + 12 * roll(), x) for x in SLUGS):
        for _ in range(3):
            s = plant(slug, st)
            if s is None or not allowed(s, st) or s["av"] is None or not sane(s):
                continue
            s["planted"], s["diff"] = slug, difference(s)
            if abs(s["diff"]) > OFF and abs(s["diff"] - s["predicted"]) <= .3001 and .4 < abs(s["predicted"]) <= (10.5 if "forgotten" in slug else 7):
                s["equal"] = equals(s, st)
                known = set(s["equal"]) | {slug}
                s["rival"] = min((abs(d - s["diff"]) for n, d in all_slips(s, st) if n not in known and d is not None), default=9.)
                return s
    return None


# ------------------------------------------------------------------ Part 6: the pen

def aperture_text(av, pen):
    """An aperture value as somebody writes it."""
    low = int(floor(av + 1e-6))
    part = av - low
    mark = MARK_OF[low]
    if pen["comma"]:
        mark = mark.replace(".", ",")
    f = pen["f"] if chance(.85) else pick(["f", "f/"])
    if part < .01:
        return f + mark
    series = {round(v, 4): m for m, v in {**HALF, **THIRD}.items()}
    printed = series.get(round(av, 4))
    name = min(FRACTION, key=lambda k: abs(FRACTION[k] - part))
    forms = [(mark + name, 6), (mark + {"½": "+1/2", "⅓": "+1/3", "⅔": "+2/3"}[name], 1)]
    if printed:
        forms.append((printed, 7 if pen["printed"] else 1.5))
    if mark in ("11", "16", "22", "32", "45"):
        forms.append((mark + {"½": ".5", "⅓": ".3", "⅔": ".7"}[name], 1))
    if name == "½":
        forms.append((mark + " and a half", .4))
    return f + weighted(*forms)


def time_text(mark, sec, pen):
    if mark == "1s" or mark is None and sec == 1:
        return pick(["1s", "1s", "1 sec"])
    if mark == "1/2":
        return pick(["½s", "½", "1/2", "1/2s", "½s"] + (["half a second"] if chance(.1) else []))
    if mark:
        n = mark[2:]
        if pen["slash"]:
            return {"⁄": "1⁄" + n, "⅟": "⅟" + n}[pen["slash"]]
        if mark == "1/4" and chance(.1):
            return pick(["¼", "quarter sec", "¼s"])
        return mark + weighted(("", 12), ("s", 1.5), ("th", .3 if n in ("15", "30", "60", "10", "50", "100", "125") else 0))
    m, s = divmod(sec, 60)
    if sec < 60 or sec <= 120 and s and chance(.4):
        return weighted(("%gs", 8), ("%g sec", 1), ("%g secs", .4), ("B %gs", 1)) % sec
    if s == 0:
        return weighted(("%dm", 4), ("%d min", 2), ("%dm00s", .4)) % m
    return weighted(("%dm%02ds", 4), ("%d:%02d", 1.2)) % (m, s)


def both_text(t, a):
    """Time and aperture on one line; `f16 ½` and the like stay apart by a comma."""
    if chance(.7):
        return t + weighted((" ", 8), (", ", 2), (" @ ", .3)) + a
    apart = " " in t or " " in a or not t[-1].isalnum() or not t[0].isdigit() or "+" in a or t[-1] in "½¼" or chance(.4)
    return a + (", " if apart else " ") + t


def amount_text(amount):
    kind, v = amount
    if kind == "x":
        return weighted((" x%g", 4), (" (x%g)", 1)) % v
    n = int(v + 1e-6)
    frac = next((k for k, f in FRACTION.items() if abs(f - (v - n)) < .01), "")
    text = "%s%s" % (n or "" if frac else n, frac)
    return weighted((" %s %s", 4), (" (%s %s)", 2)) % (text, "stop" if v <= 1 else "stops")


def filter_text(s, item, pen):
    name, written = item
    if name.startswith("ND"):
        return name.replace(".", ",") if pen["comma"] and "." in name else name
    text = pick(s["kit"]["names"][name]) if chance(.8) else name
    return text + (amount_text(written) if written else "")


def filters_text(s, on, pen, copied):
    """What the line says so that s["filters"] are on where `on` were (None: it says nothing)."""
    now = s["filters"]
    fixed = s["kit"]["lenses"][s["lens"]]["with"]
    if now == on:
        if not now and not fixed and not copied and chance(.12):
            return "no filter"
        return None if not now or chance(.8) else " + ".join(filter_text(s, f, pen) for f in now)
    if not now:
        return "no filter"
    if len(now) == len(on) + 1 and on and now[:-1] == on and not now[-1][0].startswith("ND") and now[-1][0] not in [n for n, _ in on] and chance(.6):
        return "+ " + filter_text(s, now[-1], pen)
    gone = [f for f in on if f not in now]
    if copied and len(gone) == 1 and [f for f in on if f in now] == now and gone[0][0] == "pol" and chance(.7):
        return "no pol"
    return " + ".join(filter_text(s, f, pen) for f in now)


REMARKS = [" -- gust during exposure", " -- slow fog", " – waited for the gate to shut", " (heron in the corner)", ' "patience"', " -- bird gone",
           " — cows moved on", " -- colder now", " (tripod on the wall)", " -- the one I came for", " – train went by after"]
MOVES = ["rise 12", "rise 20", "fall 5", "shift 10", "tilt 4", "rise 8", "swing 3"]
DEVELOP = ["N", "N", "N+1", "N-1", "N-1½"]


def may_carry(s, st):
    """One setting alone: the other comes from the sheet before in this scene."""
    last = st["last"]
    return last is not None and not last["frail"] and last["lens"] == s["lens"] and not s["own"]


def write_sheet(s, st, label):
    """The sheet's line, and the lines that amend it later."""
    pen, later, terms = st["pen"], [], []
    last = st["last"]
    t, a = time_text(s["mark"], s["sec"], pen), aperture_text(s["av"], pen)
    src = s["source"]
    equal_t = last is not None and (last["mark"], last["sec"]) == (s["mark"], s["sec"])
    equal_a = last is not None and abs(last["av"] - s["av"]) < 1e-6
    same = False
    if src is not None:
        assert src is last and (s["close"] or not src["close"])
        bare = s["kit"]["lenses"][s["lens"]]["with"] and src["filters"] and not s["filters"]     # see allowed()
        same = s["own"] or not bare and chance(.75)
    if same:
        terms.append(weighted(("same", 7), ("same as " + last["label"], 3), ("ditto", .6)))
        f = filters_text(s, src["filters"], pen, True)
        if f:
            terms.append(f)
        if s["close"] != src["close"]:
            terms.append(s["close_text"])
        if s["bracket_text"]:
            terms.append("bracket " + s["bracket_text"])
        if equal_t and equal_a and chance(.6 if len(terms) > 1 else .8):
            pass
        elif equal_t and not equal_a and chance(.4):
            terms.append(a)
        elif equal_a and not equal_t and chance(.4):
            terms.append(t)
        else:
            terms.append(both_text(t, a))
        line = ", ".join(terms)
    else:
        extra = []
        reading = None
        if s["lens"] != st["lens"]:
            extra.append("lens " + s["lens"])
        if s["film"] != st["film"]:
            extra.append("film " + s["film"])
        if s["ei"]:
            extra.append("EI %d" % s["ei"])
        f = filters_text(s, st["filters"], pen, False)
        if f:
            extra.append(f)
        if s["close"]:
            extra.append(s["close_text"])
        if s["bracket_text"]:
            extra.append("bracket " + s["bracket_text"])
        if chance(.08):
            extra.append(pick(MOVES))
        if chance(.1):
            extra.append(pick(DEVELOP))
        extra = shuffled(extra)
        if f and f.startswith("+ "):          # an addition stands best at the front, where nothing can be taken for what it adds to
            extra.remove(f)
            extra.insert(0, f)
        settings = both_text(t, a)
        if s["own"]:
            r = s["reading"]
            reading = ("metered " if r["bare"] else "") + r["text"]
            need = r["bare"] or "incident" in r["text"] or r["kind"] == "average"
            at = whole(0, len(extra))
            extra.insert(at, reading)
            extra.insert(whole(at + 1, len(extra)), ("gave " if need or chance(.3) else "") + settings)
        else:
            if may_carry(s, st):
                if equal_t and (s["one"] == "aperture" and chance(.6) or chance(.1)):
                    settings, s["one"] = a, "done"
                elif equal_a and (s["one"] == "time" and chance(.6) or chance(.1)):
                    settings, s["one"] = t, "done"
            if s["one"] != "done" and not s["amend"] and chance(.035):
                settings, amended = slip_of_the_pen(s, t, a, pen)
                if amended:
                    later.append("amend %s: %s" % (label, amended))
                    s["frail"] = True
            extra.insert(whole(0, len(extra)) if not (f and f.startswith("+ ")) else len(extra), settings)
        if len(extra) == 2 and extra[1] == settings and extra[0] in s["kit"]["filters"] and settings[:2] == "1/" and "," not in settings and chance(.5):
            line = " ".join(extra)
        else:
            line = ", ".join(extra)
    if s["amend"]:
        later.append("amend %s: %s" % (label, s["amend"]))
    remark = pick([r for r in REMARKS if '"' not in r or '"' not in line]) if chance(.05) else ""
    return "%s%s %s" % (pen["word"] % label, pen["colon"], line + remark), later


def slip_of_the_pen(s, t, a, pen):
    """Something written wrong and put right: on the line, or by an amendment afterwards."""
    kind = weighted(("struck time", 2), ("no", 2), ("amend stop", 3), ("amend time", 3))
    lens = s["kit"]["lenses"][s["lens"]]
    mark = floor(s["av"] + 1e-6)
    wrong_a = aperture_text(pick([m for m in (mark - 1, mark + 1) if lens["low"] - 1e-9 <= m <= lens["high"] + 1e-9]), pen)
    if s["mark"]:
        i = lens["speeds"].index(s["mark"])
        wrong_t = lens["speeds"][i - 1 if i else 1]
    else:
        wrong_t = "%gs" % (s["sec"] - 1 if s["sec"] < 60 else s["sec"] + 10)
        if s["sec"] >= 120 or wrong_t in ("0s", "0.5s"):
            return both_text(t, a), None
    if kind == "struck time":
        return "~~%s~~ %s, %s" % (wrong_t, t, a), None
    if kind == "no":
        return "%s %s %s, %s" % (wrong_t, pick(["no", "no wait"]), t, a), None
    if kind == "amend stop":
        return "%s, %s" % (t, wrong_a), a + (" not " + wrong_a if chance(.6) else "")
    return "%s, %s" % (wrong_t, a), t + (" not " + wrong_t if chance(.6) else "")


# ------------------------------------------------------------------ Part 7: notebooks, key, zip

PLACES = ["Aldermoor", "Brickworks", "Salt pans", "Tarn head", "Old mill", "Hill farm", "The weir", "Quarry", "Lime kilns", "Priory", "Boatyard"]
SCENES = ["Long wall from the lane", "Sluice and beam", "Barn end", "Beech roots", "Stair in the tower", "Ferry slip", "Boiler house", "Reed bed",
          "Chapel door", "Cattle grid", "Winding gear", "Nave looking west", "Cider press", "Snow fence", "Culvert", "Hawthorn on the ridge"]
PROSE = ["Frost gone from the roof by now.", "Walked back for the tripod.", "Nothing moved for an hour.", "The light came and went.",
         "Sandwiches behind the wall.", "A man with two dogs asked what it cost.", "The ground glass was wet again."]


def make_pen():
    word = weighted(("%s", 55), ("sheet %s", 16), ("- %s", 12), ("Sheet %s", 5), ("* %s", 4), ("- [x] %s", 3), ("• %s", 3))
    return dict(word=word, colon="：" if chance(.02) else ":", f=weighted(("f", 7), ("f/", 4), ("F", .6)), comma=chance(.03), printed=chance(.35),
                slash=weighted((None, 88), ("⁄", 8), ("⅟", 4)), end="\r\n" if chance(.06) else "\n", bom=chance(.04), numbers=chance(.2))


def day_lines(kit, pen, date, loaded, counts, tally, number, key):
    out = ["day: %s, %s" % (date, pick(PLACES))]
    numbers = pen["numbers"]
    labels = [str(number + i) for i in range(SHEETS)] if numbers else ["%d%s" % (n, side) for n in range(1, SHEETS // 2 + 1) for side in "AB"]
    sizes, left = [], SHEETS
    while left:
        n = pick([4, 6, 8]) if loaded else whole(4, 8)
        n = left if left - n < 4 else n
        sizes.append(n)
        left -= n
    films, film = [], None
    for _ in sizes:
        film = pick(kit["films"]) if film is None or chance(.35) else film
        films.append(film)
    if loaded:
        runs, at = [], 0
        for n, f in zip(sizes, films):
            if runs and runs[-1][2] == f:
                runs[-1][1] = at + n
            else:
                runs.append([at, at + n, f])
            at += n
        out += ["load %s-%s: %s" % (labels[a], labels[b - 1], f) for a, b, f in runs]
    out.append("")
    st = dict(kit=kit, pen=pen, loaded=loaded, by_lens={}, bellows={}, bases=[], base_of=[], last=None)
    lens = film = None
    at, tail = 0, []
    for n, this_film in zip(sizes, films):
        if chance(.25):
            out += ["## " + pick(SCENES), ""]
        out.append("scene: " + pick(SCENES))
        lines = []
        new = pick(kit["lenses"]) if lens is None or chance(.6) else lens
        if new != lens or chance(.3):
            lines.append("lens: " + new)
        lens = new
        if not loaded and (this_film != film or chance(.3)):
            lines.append("film: " + this_film)
        film = this_film
        st.update(lens=lens, film=film, light="daylight", filters=[], reading=None, last=None)
        if chance(.14):
            st["light"] = "tungsten"
            lines.append("light: tungsten")
        elif chance(.05):
            lines.append("light: daylight")
        slow = 5 - SV[kit["films"][film]["EI"]]
        st["level"] = between(4, 8) if st["light"] == "tungsten" else weighted((between(11, 15), 45), (between(5, 9), 35), (between(8, 12), 20))
        st["level"] += max(0, slow - 1) * .6
        st["pref"] = float(weighted((8, 2), (9, 4), (10, 3), (11, 1)))
        anyone = dict(kit=kit, film=film, light=st["light"], ei=None)
        if chance(.12):
            fs = pick_filters(kit, film, st["level"] > 10)[:1]
            if fs[0][1] is None:
                st["filters"] = fs
                lines.append("filter: " + fs[0][0])
        if chance(.93):
            meter_ei = pick(meter_choices(anyone)) if chance(.2) else None
            st["reading"] = make_reading(kit, st["level"] + SV[meter_ei or film_ei(anyone)] - 5, st["level"], True, None, meter_ei)
            lines = shuffled(lines) + ["meter: " + st["reading"]["text"]]
        out += lines
        for i in range(n):
            label = labels[at + i]
            off = tally["planted"] < tally["right"] if chance(.7) else chance(.5)
            if i == 0 and chance(.5):
                off = False
            s = planted_sheet(st, counts) if off else None
            s = s or right_sheet(st)
            if s is None:
                raise SystemExit("no sheet possible: %s %s" % (date, label))
            s["label"] = label
            line, later = write_sheet(s, st, label)
            out.append(line)
            if later and chance(.4):
                out += later
            else:
                tail += later
            if s["planted"]:
                counts[s["planted"]] += 1
            tally["planted" if s["planted"] else "right"] += 1
            if s["planted"]:
                tally["rounding"].append(abs(s["diff"] - s["predicted"]))
                tally["equal"][len(s["equal"])] = tally["equal"].get(len(s["equal"]), 0) + 1
                tally["alone"][s["planted"]] = tally["alone"].get(s["planted"], 0) + (not s["equal"])
                tally["rival"].append(s["rival"] < abs(s["diff"] - s["predicted"]) - 1e-9)
            key.append(["%s %s" % (date, label), s["planted"], "%.4f" % (round(s["diff"], 4) + 0.0), ";".join(s["equal"]) if s["planted"] else ""])
            st["by_lens"][s["lens"]] = st["last"] = s
            if s["close"]:
                st["bellows"][s["lens"]] = bellows(s)
            if chance(.02):
                out += ["", pick(PROSE), ""]
        if tail and chance(.5):
            out += tail
            tail = []
        out.append("")
        if chance(.15):
            out += [pick(PROSE), ""]
        if st["reading"]:
            st["bases"].append(st["reading"])
            st["base_of"].append((st["reading"], film, st["light"]))
        at += n
    if tail:
        out += tail + [""]
    if chance(.2) and not numbers:
        out += ["develop %s-%s: %s, N, 9m, 20C" % (labels[0], labels[-1], date + datetime.timedelta(days=1)), ""]
    return out


def main():
    counts = {x: 0 for x in SLUGS}
    tally = {"planted": 0, "right": 0, "rounding": [], "equal": {}, "alone": {}, "rival": []}
    files = []
    for n in range(1, NOTEBOOKS + 1):
        kit, pen = make_kit(), make_pen()
        loaded, key, number = chance(.3) and not pen["numbers"], [], whole(1, 60)
        date = datetime.date(2025, 1, 2) + datetime.timedelta(days=whole(0, 300))
        out = ["# Notebook %d" % n, "", "use: kit.md", ""]
        for d in range(DAYS):
            out += day_lines(kit, pen, date, loaded, counts, tally, number + d * SHEETS, key)
            date += datetime.timedelta(days=whole(1, 9))
        text = "\n".join(out).rstrip() + "\n"
        text = ("\ufeff" if pen["bom"] else "") + text.replace("\n", pen["end"])
        rows = io.StringIO()
        w = csv.writer(rows, lineterminator="\n")
        w.writerow("id planted difference equal".split())
        w.writerows(key)
        files += [("%03d/kit.md" % n, kit["text"]), ("%03d/notes.md" % n, text), ("%03d/key.csv" % n, rows.getvalue())]
    path = os.path.join(HERE, "corpus.zip") if len(sys.argv) < 2 else sys.argv[1]
    digest = hashlib.sha256()
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as z:
        for name, text in files:
            info = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
            info.compress_type, info.create_system, info.external_attr = zipfile.ZIP_DEFLATED, 3, 0o100644 << 16
            data = text.encode("utf-8")
            digest.update(name.encode() + b"\0" + data)
            z.writestr(info, data)
    print("%d sheets: %d right, %d planted" % (tally["right"] + tally["planted"], tally["right"], tally["planted"]))
    for slug in SLUGS:
        print("%6d  (%3d without an equal)  %s" % (counts[slug], tally["alone"].get(slug, 0), slug))
    off = sorted(tally["rounding"])
    print("planted sheets within 1/12, 1/6, 1/4 of the slip's own figure: " +
          ", ".join("%.1f %%" % (100 * sum(x <= l for x in off) / len(off)) for l in (1/12, 1/6, 1/4)))
    print("slugs equal to the planted one: " + ", ".join("%d on %d sheets" % (k, v) for k, v in sorted(tally["equal"].items())))
    print("planted sheets where, rounded as they are, a slip not in `equal` fits closer: %d" % sum(tally["rival"]))
    print("%d bytes; contents sha256 %s" % (os.path.getsize(path), digest.hexdigest()))
    assert tally["right"] >= 20000 and tally["planted"] >= 20000 and off[-1] < .31


if __name__ == "__main__":
    main()
