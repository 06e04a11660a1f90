#!/usr/bin/env python3
"""An independent reckoning of sheet-film exposures (the other hand of a differential test).

Written from design/exposure.md and design/notation.md alone; nothing here was taken from, or checked
against, the compiler.  `python3 reckon.py` writes kit.md, notes-1.md .. notes-10.md, expected.csv and
rulings.csv beside itself, the same bytes every time.  Standard library only.

Part 1  the arithmetic (each formula with the place in exposure.md it was read from)
Part 2  the kit
Part 3  the writer: invents sheets; every value is born together with the text that names it
Part 4  output and self-check against the published values
"""
import copy
import csv
import datetime
import io
import os
import random
from math import log2, log10, log

HERE = os.path.dirname(os.path.abspath(__file__))
SEED = 19141118
NOTEBOOKS, DAYS, SIDES = 10, 50, 20          # 10 x 50 x 20 = 10 000 sheets
LOADED = (9, 10)                             # notebooks that log `load` every day, instead of `film:`


# ------------------------------------------------------------------ Part 1: the arithmetic

# "Marked and exact values": "marks are rounded names of exact powers of two"; "Published check values",
# rows f-numbers full 2^(n/2), half 2^(n/4), third 2^(n/6).  Kept as aperture values, Av = 2 log2 N.
# f13 stands in both the half and the third series and is left out.
FULL = dict(zip("1 1.4 2 2.8 4 5.6 8 11 16 22 32 45 64 90 128".split(), range(15)))
HALF = {"1.2": .5, "1.7": 1.5, "2.4": 2.5, "3.3": 3.5, "4.8": 4.5, "6.7": 5.5, "9.5": 6.5,
        "19": 8.5, "27": 9.5, "38": 10.5, "54": 11.5}
THIRD = {"1.1": 1/3, "1.3": 2/3, "1.6": 4/3, "1.8": 5/3, "2.2": 7/3, "2.5": 8/3, "3.2": 10/3, "3.5": 11/3,
         "4.5": 13/3, "5": 14/3, "6.3": 16/3, "7.1": 17/3, "9": 19/3, "10": 20/3, "14": 23/3, "18": 25/3,
         "20": 26/3, "25": 28/3, "29": 29/3, "36": 31/3, "40": 32/3, "51": 34/3, "57": 35/3}

# "1/15, 1/30, 1/60, 1/125 are 1/16, 1/32, 1/64, 1/128 s" ... "fractions of a second off the series (old
# shutters: 1/5 1/10 1/25 1/50 1/100 1/150 ...) and times of 1 s and longer are taken literally".
SHORT = {"1/2": 1/2, "1/4": 1/4, "1/8": 1/8, "1/15": 1/16, "1/30": 1/32, "1/60": 1/64,
         "1/125": 1/128, "1/250": 1/256, "1/500": 1/512,
         "1/5": 1/5, "1/10": 1/10, "1/25": 1/25, "1/50": 1/50, "1/100": 1/100, "1/150": 1/150}

# Film and meter speeds: "EI 64, 80, 125 are thirds of a stop"; Sv = log2(S/3.125), ISO 100 -> 5.
SV = {5: 2/3, 6: 1, 12: 2, 16: 7/3, 20: 8/3, 25: 3, 32: 10/3, 40: 11/3, 50: 4, 64: 13/3, 80: 14/3, 100: 5,
      125: 16/3, 160: 17/3, 200: 6, 250: 19/3, 320: 20/3, 400: 7}


def tv(seconds):                              # "time value Tv = -log2 t"
    return -log2(seconds)


def density_stops(d):                         # row "ND: stops = density / log10 2"
    return d / log10(2)


def amount_stops(amount):
    """"compute with log2 of a factor, and with stops where stops were declared" (step 2)."""
    kind, value = amount
    return {"x": lambda: log2(value), "stops": lambda: value, "nd": lambda: density_stops(value)}[kind]()


def filter_stops(item, film_class, light):
    """Step 2: "an amount written with the sheet wins over the declared one ...; per film class and light"."""
    name, written = item
    if written is not None:
        return amount_stops(written)
    declared = FILTERS[name]
    return amount_stops(declared.get(film_class) or declared.get(light) or declared["any"])


def bellows_stops(close, focal):
    """Step 2: "2 log2(extension / focal length), or 2 log2(1 + m), or from the focus distance (thin lens)";
    written amounts from "`bellows +1½`, `bellows x2.25` may be written".
    Thin lens: distance counted from the lens, m = f/(d - f); the check row "200 mm lens, subject at 3 m:
    x1.15" settles that (counted from the film it would be x1.16)."""
    if close is None:
        return 0.0
    kind, v = close
    if kind == "ext":
        return 2 * log2(v / focal)
    if kind == "mag":
        return 2 * log2(1 + v)
    if kind == "focus":
        return 2 * log2(1 + focal / (v - focal))
    return amount_stops((kind, v))


class Power:
    """"power law t_c = t_m^p above a threshold (default 1 s)"; "with another threshold T is T (t/T)^p, never
    below t"."""
    last = None

    def __init__(self, p, threshold=1.0):
        self.p, self.T = p, threshold

    def clock(self, t):                       # metered time -> time by the clock
        return t if t <= self.T else self.T * (t / self.T) ** self.p

    def on_film(self, t):                     # the way back, step 4: "put back through the rule"
        return t if t <= self.T else self.T * (t / self.T) ** (1 / self.p)


class Table:
    """"a table interpolated in log-log, extrapolated never: beyond its last entry the answer is 'beyond the
    table'"; "its first entry is joined to the threshold (1 s unless said) in log-log"."""

    def __init__(self, *pairs):
        self.points = [(1.0, 1.0)] + list(pairs)
        self.last = pairs[-1][0]

    def _walk(self, t, a, b):
        if t <= 1.0:
            return t
        for p, q in zip(self.points, self.points[1:]):
            if t <= q[a]:
                part = log(t / p[a]) / log(q[a] / p[a])
                return p[b] * (q[b] / p[b]) ** part
        return None

    def clock(self, t):
        return self._walk(t, 0, 1)

    def on_film(self, t):
        return self._walk(t, 1, 0)


class NoneTo:
    """`none to 100s`: no correction up to there; read as a table's last entry: beyond it, unchecked."""

    def __init__(self, end):
        self.last = end

    def clock(self, t):
        return t if t <= self.last else None

    on_film = clock


def film_ei(sheet):
    """The sheet's own `EI 40`, else the film's for this light (`tungsten EI 5`), else the film's."""
    if sheet["ei"]:
        return sheet["ei"]
    film = FILMS[sheet["film"]]
    return film["tungsten EI"] if sheet["light"] == "tungsten" and film.get("tungsten EI") else film["EI"]


def reading_ev(reading):
    """Step 1, before the meter's EI: "a plain or incident reading as it stands; a spot reading R placed on
    zone Z gives R + (5 - Z); `average` the mean of the readings' EVs; placed areas: the lowest placed zone
    rules"; "What merely fell (no zone written) is shown, never used"."""
    kind, value = reading
    if kind == "plain":
        return value
    if kind == "average":
        return sum(value) / len(value)
    ev, zone = min((v for v in value if v[1] is not None), key=lambda v: v[1])
    return ev + (5 - zone)


def reckon(sheet, alter=None):
    """base, asked, given (None = unchecked), difference (None likewise), state.
    `alter` names the other way to read an ambiguous rule; used for rulings.csv only."""
    film, lens = FILMS[sheet["film"]], LENSES[sheet["lens"]]
    # 1. "A meter set to another EI than the film's shifts by log2(EI film / EI meter)": EV at EI is declared.
    base = reading_ev(sheet["reading"])
    meter_ei = sheet["meter_ei"]
    if alter and alter[0] == "meter EI":
        meter_ei = alter[1]
    if meter_ei:
        base += SV[film_ei(sheet)] - SV[meter_ei]
    # 2. "EV_needed = base - filters - bellows - bracket. Filters: sum of stops"
    stack = list(sheet["filters"])
    if alter and alter[0] == "whole stack":
        stack = [(None, stack[-1][1])]
    if lens.get("with") and not (alter and alter[0] == "lens filter off"):   # "that filter is always on"
        stack.append((lens["with"], None))
    filters = sum(filter_stops(f, film["class"], sheet["light"]) for f in stack)
    asked = base - filters - bellows_stops(sheet["close"], lens["focal"]) - sheet["bracket"]
    # 4. "EV of the settings (tested shutter speeds if declared); long times are put back through the film's
    #    reciprocity rule ... Reciprocity applies last".  Several exposures: each by itself, then their sum.
    times = [lens["tested"].get(mark, seconds) for mark, seconds in sheet["times"]]
    if alter and alter[0] == "one exposure":
        times = [sum(times)]
    films = times if alter and alter[0] == "no rule" else [film["rule"].on_film(t) for t in times]
    if None in films:
        return base, asked, None, None, "unchecked"
    given = sheet["av"] + tv(sum(films))
    # 5. "+ is too much exposure": more light is a lower EV, so asked EV - given EV.
    difference = asked - given
    # "Outside the tolerance (1/3 stop, plus a rounding margin of 1/12)"
    return base, asked, given, difference, "off" if abs(difference) > LIMIT else "right"


LIMIT = 1/3 + 1/12


# ------------------------------------------------------------------ Part 2: the kit

MODERN = "1/2 1/4 1/8 1/15 1/30 1/60 1/125 1/250 1/500".split()
OLD = "1/2 1/5 1/10 1/25 1/50 1/100".split()

LENSES = {      # speeds below 1 s; range as (from, to) in marks; tested values are literal seconds
    "90": dict(focal=90, range=("8", "45"), speeds=MODERN, tested={}, **{"with": "CF"},
               text="90 mm, f8-f45, circle 216 mm, shutter T B 1s " + " ".join(MODERN) + ", with CF"),
    "150": dict(focal=150, range=("5.6", "64"), speeds=MODERN, tested={"1/60": 1/50, "1/125": 1/100, "1/250": 1/150},
                text="150 mm, f5.6-f64, shutter T B 1s " + " ".join(MODERN) + ", tested 1/60=1/50 1/125=1/100 1/250=1/150"),
    "210": dict(focal=210, range=("5.6", "64"), speeds=OLD, tested={"1/50": 1/44, "1/100": 1/77},
                text="210 mm, f5.6-f64, circle 300 mm, shutter T B 1s " + " ".join(OLD) + ", tested 1/50=1/44 1/100=1/77"),
    "300": dict(focal=300, range=("9", "64"), speeds=MODERN[:7], tested={}, text="300 mm, f9, shutter to 1/125"),
    "480": dict(focal=480, range=("11", "90"), speeds=OLD + ["1/150"], tested={"1/25": 1/22},
                text="480 mm, f11-f90, shutter T B 1s " + " ".join(OLD + ["1/150"]) + ", tested 1/25=1/22"),
}
FILMS = {
    "pan100": {"class": "pan", "EI": 64, "rule": Power(1.31), "text": "ISO 100, EI 64, pan, reciprocity t^1.31 over 1s"},
    "Tarn Pan 125": {"class": "pan", "EI": 80, "tungsten EI": 64, "rule": Power(1.26),
                     "text": "ISO 125, EI 80, tungsten EI 64, pan, reciprocity t^1.26"},
    "slate": {"class": "pan", "EI": 250, "rule": Table((2, 3), (4, 7), (8, 16)),
              "text": "ISO 400, EI 250, pan, reciprocity 2s=3s, 4s=7s, 8s→16s"},
    "fjord": {"class": "pan", "EI": 125, "tungsten EI": 100, "rule": Table((10, 15), (100, 200)),
              "text": "ISO 200, EI 125, tungsten EI 100, pan, reciprocity 10s=15s 100s=200s"},
    "plate": {"class": "ortho", "EI": 12, "tungsten EI": 5, "rule": Power(1.2, 4.0),
              "text": "ortho, EI 12, tungsten EI 5, reciprocity t^1.2 over 4s"},
    "kiln": {"class": "pan", "EI": 100, "rule": NoneTo(100.0), "text": "ISO 100, EI 100, pan, reciprocity none to 100s"},
}
FILTERS = {     # no filter has both a class and a light value, so which of the two wins is never asked
    "Y8": {"any": ("x", 2), "ortho": ("x", 2.5), "text": "yellow, Wratten 8, x2, ortho x2.5",
           "names": ["Y8", "Y8", "Y8", "yellow 8", "W8", "#8", "Wratten 8"]},
    "G11": {"any": ("stops", 2), "tungsten": ("stops", 1.5), "text": "Wratten 11, 2 stops, tungsten 1½ stops",
            "names": ["G11", "G11", "W11", "#11"]},
    "O21": {"any": ("stops", 2), "ortho": ("x", 5), "text": "orange 2 stops, ortho x5", "names": ["O21", "O21", "orange 21"]},
    "R25": {"any": ("x", 8), "tungsten": ("x", 5), "text": "red, Wratten 25, x8, tungsten x5",
            "names": ["R25", "R25", "R25", "red 25", "W25", "#25"]},
    "B47": {"any": ("x", 6), "tungsten": ("x", 12), "text": "blue, Wratten 47, x6, tungsten x12",
            "names": ["B47", "B47", "blue 47", "W47"]},
    "pol": {"any": ("x", 2.5), "text": "polarizer, x2.5", "names": ["pol"]},
    "veil": {"any": ("nd", .6), "text": "nd 0.6", "names": ["veil"]},
    "CF": {"any": ("stops", 1.5), "text": "1½ stops", "names": ["CF"]},
}
COLOURS = ["Y8", "G11", "O21", "R25", "B47"]
KIT = "# Kit\n\ncamera 4x5: ext 75-980 mm\n\n" + \
      "".join("filter %s: %s\n" % (n, f["text"]) for n, f in FILTERS.items()) + "\n" + \
      "".join("lens %s: %s\n" % (n, f["text"]) for n, f in LENSES.items()) + "\n" + \
      "".join("film %s: %s\n" % (n, f["text"]) for n, f in FILMS.items()) + \
      "\nmeter spot: EV at EI\ntolerance: 1/3 stop\n"


# ------------------------------------------------------------------ Part 3: the writer

_rng = random.Random(SEED)
roll = _rng.random                            # only random() is used: it is the same in every Python


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
    return [x for _, x in sorted(((roll(), i), x) for i, x in enumerate(seq))] if seq else []


FRACTION = {"½": .5, "⅓": 1/3, "⅔": 2/3}


def ev_text(near, label="EV "):
    """An EV as written, near the wanted number, and the number it says."""
    near = max(near, 1.0)
    kind = weighted(("whole", 5), ("half", 2), ("third", 2), ("tenth", 1))
    if kind == "whole":
        return label + str(round(near)), float(round(near))
    if kind == "tenth":                       # `EV 9.3` is 9.3, not 9 1/3: only apertures have the spoken thirds
        return "%s%.1f" % (label, near), float("%.1f" % near)
    mark = "½" if kind == "half" else pick("⅓⅔")
    return "%s%d%s" % (label, int(near), mark), int(near) + FRACTION[mark]


def ev_word():
    return weighted(("EV ", 6), ("EV", 1))


def aperture_text(lens):
    """An aperture the lens has, as written, and its Av."""
    low, high = [{**FULL, **THIRD}[m] for m in LENSES[lens]["range"]]
    fulls = {m: a for m, a in FULL.items() if low <= a <= high}
    while True:
        kind = weighted(("full", 56), ("half", 10), ("third", 14), ("fraction", 14), ("spoken", 4), ("between", 2))
        if kind in ("full", "half", "third"):
            mark, av = pick({"full": fulls, "half": HALF, "third": THIRD}[kind].items())
            text = mark
        elif kind == "fraction":              # `f16½` `f22⅓` `f16+2/3` `f16 and a half`
            mark, av = pick(fulls.items())
            sign, add = pick([("½", .5), ("½", .5), ("⅓", 1/3), ("⅔", 2/3), ("+2/3", 2/3), ("+1/3", 1/3), (" and a half", .5)])
            text, av = mark + sign, av + add
        elif kind == "spoken":                # "A decimal on a full-stop mark with .3 .5 .7 is thirds and halves"; f16.4 four tenths
            mark = pick(["8", "16", "22", "32"])
            sign, add = pick([(".3", 1/3), (".5", .5), (".7", 2/3), (".5", .5), (".4", .4), (".2", .2)])
            text, av = mark + sign, FULL[mark] + add
        else:                                 # `f22/32`: between the two marks
            a, b = pick([("11", "16"), ("16", "22"), ("22", "32")])
            text, av = a + "/" + b, (FULL[a] + FULL[b]) / 2
        if low <= av <= high:
            slash = "f" if "/" in text and kind == "between" else weighted(("f", 8), ("f/", 3), ("F ", .4))
            return slash + text, av


def short_text(mark):
    if mark == "1/2":
        return pick(["½s", "½ s", "1/2", "1/2s", "½s", "½"])
    return mark + weighted(("", 8), ("s", 1))


NICE = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 10, 11, 12, 14, 15, 16, 18, 20, 22, 25, 28, 30, 35, 40, 45, 50, 55, 60, 70, 75, 80,
        90, 100, 105, 120, 135, 150, 165, 180, 210, 240, 270, 300, 360, 420, 480, 540, 600, 720, 900, 1080, 1200, 1500, 1800, 2400]


def long_text(seconds):
    m, s = divmod(seconds, 60)
    if seconds < 60 or (seconds <= 120 and s and chance(.4)):
        return weighted(("%gs", 8), ("%g sec", 1), ("%g secs", .5), ("B %gs", 1)) % seconds
    if s == 0:
        return weighted(("%dm", 4), ("%d min", 2), ("%dm00s", .5)) % m
    return weighted(("%dm%02ds", 4), ("%d:%02d", 1.5)) % (m, s)


def nearest(values, target):
    return min(values, key=lambda v: abs(log2(v[1] / target)))


def time_near(lens, clock):
    """A time of the shutter (or by hand on B) nearest the wanted clock time: text, [(mark, seconds)]."""
    marks = [(m, SHORT[m]) for m in LENSES[lens]["speeds"]] + [(None, float(n)) for n in NICE]
    kind = weighted(("single", 93), ("several", 5), ("sum", 2))
    if kind == "several" and clock > 1/16:    # `4 x 1s`
        n = whole(2, 6)
        m, s = nearest(marks, clock / n)
        return ("%d x %s" % (n, m or long_text(s) if (m or s < 60) else "%gs" % s)).replace("B ", ""), [(m, s)] * n
    if kind == "sum" and 4 <= clock <= 90:    # `20s+17s`
        a = whole(1, int(clock) - 1)
        b = max(1, round(clock) - a)
        return "%ds+%ds" % (a, b), [(None, float(a)), (None, float(b))]
    m, s = nearest(marks, clock)
    return (short_text(m) if m else long_text(s)), [(m, s)]


def plain_text(near):
    """A meter's dial, `1/60 f16`, near an EV."""
    choices = []
    for mark, av in FULL.items():
        if 4 <= av <= 11:
            for t, s in [(m, SHORT[m]) for m in MODERN] + [("%ds" % n, n) for n in (1, 2, 4, 8, 15, 30)]:
                choices.append((abs(av + tv(s) - near), mark, t, av + tv(s)))
    best = [c for c in choices if c[0] < .6] or [min(choices)]
    _, mark, t, ev = pick(best)
    return "%s %s%s" % (t, weighted(("f", 4), ("f/", 1)), mark), ev


ROMAN = {2: "II", 3: "III", 4: "IV", 5: "V", 6: "VI", 7: "VII", 8: "VIII"}
SPOTS = "cleft frost bark moss doorway ash fern rafters sill hearth scree shingle reeds trough lintel thatch".split()


def zone_text(z):
    if z != int(z):
        return "on %s½" % ROMAN[int(z)]
    return weighted(("on " + ROMAN[z], 8), ("on zone %d" % z, 1), ("z%d" % z, 1))


def spot_text(name, near, zone, in_meter):
    bare = in_meter and zone is not None and chance(.12)     # "In `meter` and before `on ZONE` a bare number is an EV"
    text, ev = ev_text(near, "" if bare else ev_word())
    place = zone_text(zone) if zone is not None else ""
    if bare and place.startswith("z"):
        place = "on " + ROMAN[zone]
    return " ".join(x for x in (name, text, place) if x), ev


def reading_text(near, in_meter):
    """Text, reading, tags.  `near`: the EV wanted on the meter."""
    tags = []
    kind = weighted(("plain", 34), ("ev", 24), ("spot", 28), ("average", 7), ("incident", 7))
    if kind == "plain":
        text, ev = plain_text(near)
        if not in_meter or chance(.1):
            text = "metered " + text
        return text, ("plain", ev), tags
    if kind == "ev":
        text, ev = ev_text(near, "" if in_meter and chance(.06) else ev_word())
        return text, ("plain", ev), tags
    if kind == "incident":
        if chance(.2):
            text, ev = plain_text(near)
        else:
            text, ev = ev_text(near, ev_word())
        return "incident " + text, ("plain", ev), tags
    names = shuffled(SPOTS)
    if kind == "average":
        got = [spot_text(names.pop() if chance(.7) else "", near + between(-3, 3), None, in_meter) for _ in range(whole(2, 4))]
        parts = [t for t, _ in got]
        parts.insert(pick([0, len(parts)]), "average")
        return ", ".join(parts), ("average", [e for _, e in got]), tags
    low = pick([2, 2.5, 3, 3, 3, 3.5, 4])
    high = pick([6, 6.5, 7, 7, 7.5, 8])
    shape = weighted(("one", 45), ("fallen", 20), ("low and high", 25), ("agree", 6), ("highs", 4))
    zone = pick([low, low, 5, high]) if shape == "one" else low
    if shape == "highs":                      # both high: "the lowest placed zone rules"
        zone, high = pick([(6, 7), (6, 8), (6.5, 7.5), (7, 8)])
        tags.append(("two high placements", None))
    first, ev = spot_text(names.pop(), near - 5 + zone, zone, in_meter)
    got = [(first, ev, zone)]
    if shape == "fallen":
        text, e = spot_text(names.pop(), near + between(0, 4), None, in_meter)
        got.append((text, e, None))
    elif shape in ("low and high", "highs"):
        text, e = spot_text(names.pop(), near - 5 + high + between(-1.5, 1.5), high, in_meter)
        got.append((text, e, high))
    elif shape == "agree":                    # two low placements that say the same
        other = pick([z for z in (2, 3, 4) if z != zone])
        e = ev + other - zone
        if ev == int(ev) and zone == int(zone) and e >= 1:
            got.append(("%s EV %d on %s" % (names.pop(), e, ROMAN[other]), e, other))
    got = shuffled(got)
    return ", ".join(t for t, _, _ in got), ("spot", [(e, z) for _, e, z in got]), tags


AMOUNTS = {"Y8": ["x2.5", "x3", "x1.5", "s1½", "s⅔", "s1"], "G11": ["x4", "x3", "s1½", "s1⅔", "s2"], "O21": ["x3", "x5", "s2⅓", "s1.5"],
           "R25": ["x10", "x6", "x5", "s3", "s2½", "s3⅓"], "B47": ["x5", "x8", "s2⅔", "s3"], "pol": ["x3", "x4", "s1½", "s2", "s1.3"],
           "veil": ["s2", "s1½"]}


def amount_text(name):
    a = pick(AMOUNTS[name])
    if a[0] == "x":
        return weighted((" " + a, 4), (" (%s)" % a, 1)), ("x", float(a[1:]))
    n = a[1:]
    value = float(n) if n[-1].isdigit() else float(n[:-1] or 0) + FRACTION[n[-1]]
    unit = "stop" if value <= 1 else "stops"
    options = [(" %s %s" % (n, unit), 4), (" (%s %s)" % (n, unit), 3)]
    if value == int(value):
        options += [(" (-%s)" % n, 1), (" (+%s)" % n, 1), (" +%s" % n, .6)]
    return weighted(*options), ("stops", value)


def filters_text(film, may_add, scene_filters):
    """Text (None: nothing written), the filters then on, tags."""
    tags = []
    colours = [c for c in COLOURS if not (c == "R25" and FILMS[film]["class"] == "ortho")
               and not (c == "O21" and FILMS[film]["class"] == "ortho" and chance(.8))]
    kind = weighted(("nothing", 40), ("no filter", 6), ("one", 32), ("nd", 6), ("stack", 13), ("add", 5))
    if kind == "add" and may_add and len(scene_filters) == 1 and scene_filters[0][0] != "pol":
        return "+ pol", scene_filters + [("pol", None)], tags
    if kind in ("nothing", "add"):
        return None, list(scene_filters), tags
    if kind == "no filter":
        return "no filter", [], tags
    if kind == "nd":
        d = pick(["0.3", "0.6", "0.9", "1.2", "1.8"])
        return "ND " + d, [("ND", ("nd", float(d)))], tags
    items = [pick(colours + ["pol", "veil"])] if kind == "one" else [pick(colours), pick(["pol", "veil", "ND"])]
    if len(items) == 2 and chance(.15):
        items = [items[0], "veil", "pol"]
    if len(items) > 1 and chance(.25) and items[-1] != "ND":
        items.reverse()
    texts, got = [], []
    for i, name in enumerate(items):
        if name == "ND":
            d = pick(["0.3", "0.6", "0.9", "1.2"])
            texts.append("ND " + d)
            got.append(("ND", ("nd", float(d))))
            continue
        text, written = pick(FILTERS[name]["names"]), None
        if chance(.22 if len(items) == 1 else .12):
            more, written = amount_text(name)
            text += more
        texts.append(text)
        got.append((name, written))
    if len(got) > 1 and got[-1][0] != "ND" and got[-1][1] and not any(w for _, w in got[:-1]):
        tags.append(("amount after a stack is the last filter's", ("whole stack",)))
    return " + ".join(texts), got, tags


def close_text(lens):
    f = LENSES[lens]["focal"]
    kind = weighted(("ext", 45), ("inch", 20), ("ratio", 12), ("mag", 8), ("focus", 10), ("written", 5))
    ratio = between(1.03, 2.0)
    if kind == "ext":
        mm = round(f * ratio / 5) * 5
        return pick(["ext %dmm", "ext %d mm", "bellows %dmm"]) % mm, ("ext", float(mm))
    if kind == "inch":
        quarters = round(f * ratio / 25.4 * 4) + 1
        n, q = divmod(quarters, 4)
        frac = ["", "¼", "½", "¾"][q]
        return pick(["ext %d%s in", "bellows %d%s in", 'ext %d%s"']) % (n, frac), ("ext", quarters / 4 * 25.4)
    if kind == "ratio":
        n = pick([1, 2, 2, 3, 4, 5, 6, 8])
        return "1:%d" % n, ("mag", 1 / n)
    if kind == "mag":
        m = pick(["0.1", "0.2", "0.25", "0.3", "0.5", "0.7", "0.8", "1"])
        return "mag " + m, ("mag", float(m))
    if kind == "focus":
        d = round(f / 1000 * between(2.2, 12), 1)
        return "focus %.1f m" % d, ("focus", round(d * 1000.0))
    return pick([("bellows +1½", ("stops", 1.5)), ("bellows x2.25", ("x", 2.25)), ("bellows +⅔", ("stops", 2/3)), ("bellows x1.5", ("x", 1.5))])


def settings(sheet):
    """Choose what the writer set: mostly near what is asked, some off.  Text of (time, aperture)."""
    rule, (_, asked, *_) = FILMS[sheet["film"]]["rule"], reckon({**sheet, "av": 8, "times": [(None, 1.0)]})
    if chance(.16):
        asked += pick([-3, -2, -1.5, -1, -1, -2/3, -.5, .5, 2/3, 1, 1, 1.5, 2, 3])
    forget = chance(.06)                      # reciprocity forgotten
    best = []
    for _ in range(60):
        atext, av = aperture_text(sheet["lens"])
        t = 2 ** (av - asked)
        clock = t if forget else rule.clock(t)
        beyond = clock is None
        if beyond:
            clock = t * 2.5
        shortest = min(SHORT[m] for m in LENSES[sheet["lens"]]["speeds"])
        worse = 0 if shortest / 1.35 < clock <= 2400 else 10
        clock = min(max(clock, shortest), 2400)
        ttext, times = time_near(sheet["lens"], clock)
        d = reckon({**sheet, "av": av, "times": times})[3]
        if d is not None and abs(abs(d) - LIMIT) < .001:      # never on the fence
            continue
        # long times are welcome but should not crowd out the rest
        miss = (1.0 if d is None else abs(log2(clock / sum(s for _, s in times)))) + worse + (.5 if clock > 240 else 0)
        best.append((miss, len(best), ttext, times, atext, av))
        if len(best) == 5:
            break
    _, _, ttext, times, atext, av = min(best) if chance(.85) else best[0]
    sheet["times"], sheet["av"] = times, av
    return ttext, atext


def settings_text(ttext, atext):
    if chance(.65):                           # time first
        sep = ", " if chance(.25) or "x" in ttext else weighted((" ", 8), (" @ ", .4))
        return ttext + sep + atext
    # aperture first; `f16 ½` and the like stay apart by a comma
    return atext + (", " if "½" in ttext or " " in ttext or " " in atext or "/" in atext[2:] or chance(.5) else " ") + ttext


MOVES = ["rise 12", "rise 20", "fall 5", "shift 10", "tilt 4", "N", "N+1", "N-1", "N-1½"]
REMARKS = [" -- gust during exposure", " -- slow fog", " – waited for the gate to shut", " (heron in the corner)", ' "patience"', " -- bird gone"]
PLACES = ["Aldermoor", "Brickworks", "Salt pans", "Tarn head", "Old mill", "Hill farm", "The weir", "Quarry"]
SCENES = ["Long wall from the lane", "Sluice and beam", "Barn end", "Beech roots", "Stair in the tower", "Ferry slip", "Boiler house", "Reed bed", "Chapel door", "Cattle grid"]
PROSE = ["Frost gone from the roof by now.", "Walked back for the tripod.", "Nothing moved for an hour.", "The light came and went."]


def sheet_line(label, word, scene, film, previous):
    """One sheet: its line, the sheet for reckon(), and its rulings."""
    tags, terms = [], []
    s = dict(film=film, lens=scene["lens"], light=scene["light"], ei=None, reading=scene["reading"], meter_ei=scene["meter_ei"],
             filters=list(scene["filters"]), close=None, bracket=0.0)
    ei_there = film_ei(s) if not scene["film"] else film_ei({**s, "film": scene["film"]})
    own_reading, same = None, False
    if previous and previous["plain"] and previous["film"] == film and chance(.06):
        # `same` copies scene, reading (with its EI), lens, film, extension, filter, settings
        same, s = True, copy.deepcopy({k: previous[k] for k in s})
        terms.append("same" if chance(.5) else "same as " + previous["label"])
        tags += [t for t in previous["tags"] if t[0] in ("two high placements", "film changed, meter's EI not said")]
        if chance(.5):
            text, s["filters"], more = filters_text(s["film"], False, s["filters"])
            if text:
                terms.append(text)
                tags += more
            else:
                s["filters"] = previous["filters"]
        if not any(t for t in terms[1:]):
            tags += [t for t in previous["tags"] if t[0].startswith("amount after")]
    else:
        others = []
        if chance(.05):
            lens = pick(LENSES)
            if lens != s["lens"]:
                s["lens"] = lens
                others.append("lens " + lens)
        if chance(.05 if scene["meter_ei"] else .005):
            s["film"] = pick(FILMS)
            if s["film"] != film:
                others.append("film " + s["film"])
        if chance(.04) and scene["light"] == "daylight" and scene["meter_ei"]:
            s["light"] = "tungsten"
            others.append("light tungsten")
        if chance(.08 if scene["meter_ei"] else .01):
            s["ei"] = pick([e for e in SV if e >= 10 and abs(SV[e] - SV[film_ei(s)]) <= 2])
            others.append("EI %d" % s["ei"])
        if scene["reading"] is None or chance(.18):
            text, s["reading"], more = reading_text(scene["level"] + (SV[film_ei(s)] - 5) + between(-1, 1), False)
            s["meter_ei"] = None
            tags += more
            if chance(.2):
                s["meter_ei"] = pick([25, 50, 64, 100, 125, 200, 400])
                text += (" " if text.count(",") == 0 else ", ") + "at EI %d" % s["meter_ei"]
            own_reading = text
        else:
            tags += scene["tags"]
        declared = ei_there if own_reading is None else film_ei({**s, "ei": None})
        if s["meter_ei"] is None and film_ei(s) != declared:
            tags.append(("film changed, meter's EI not said", ("meter EI", declared)))
        text, s["filters"], more = filters_text(s["film"], True, scene["filters"])
        ortho = FILMS[s["film"]]["class"] == "ortho"
        if ortho and any(n == "R25" for n, _ in s["filters"]):      # ortho cannot see red: no such sheet
            text, s["filters"], more = "G11", [("G11", None)], []
        tags += more
        if text:
            others.append(text)
        if chance(.2):
            text, s["close"] = close_text(s["lens"])
            others.append(text)
        if chance(.06):
            text, s["bracket"] = pick([("+1", 1.), ("-1", -1.), ("+½", .5), ("-½", -.5), ("+⅓", 1/3), ("-⅓", -1/3), ("+1½", 1.5), ("+2", 2.)])
            others.append("bracket " + text)
        if chance(.12):
            others.append(pick(MOVES))
        terms = shuffled(others)
    text = settings_text(*settings(s))
    if own_reading:
        at = whole(0, len(terms))
        terms.insert(at, own_reading)
        needed = "metered" in own_reading or "/" in own_reading or "average" in own_reading
        terms.insert(whole(at + 1, len(terms)), ("gave " if needed or chance(.3) else "") + text)
    elif same:
        terms.append(text)
    else:
        terms.insert(whole(0, len(terms)), text)
    line = ", ".join(terms)
    if len(terms) == 2 and terms[0] in ("Y8", "R25", "G11") and terms[1] == text and text[:2] == "1/" and chance(.5):
        line = " ".join(terms)                # `Y8 1/30 f16`
    line = word % label + ": " + line + (pick([r for r in REMARKS if '"' not in r or '"' not in line]) if chance(.04) else "")

    # rulings that hang on the settings or the lens
    film, lens = FILMS[s["film"]], LENSES[s["lens"]]
    if lens.get("with") and "no filter" in terms:
        tags.append(("lens's own filter stays under `no filter`", ("lens filter off",)))
    if any(n == "O21" for n, _ in s["filters"]) and film["class"] == "ortho":
        tags.append(("orange 21 on ortho by its declared factor", None))
    if len(s["times"]) > 1 and reckon(s)[2] != reckon(s, ("one exposure",))[2]:
        tags.append(("several exposures, reciprocity of each", ("one exposure",)))
    if isinstance(film["rule"], NoneTo) and reckon(s)[2] is None:
        tags.append(("beyond `none to`: unchecked", ("no rule",)))
    _, asked, given, _, _ = reckon(s)
    if given is not None and film["rule"].last and 2 ** (s["av"] - asked) > film["rule"].last:
        tags.append(("time asked beyond the rule, time given within", ("unchecked",)))
    s["tags"], s["label"] = tags, label
    s["plain"] = same or (s["ei"] is None and s["bracket"] == 0 and s["light"] == scene["light"])
    return line, s, tags


def day_lines(date, loaded, rows, file):
    """A day: date, loads, scenes, twenty sheets."""
    out = ["day: %s, %s" % (date, pick(PLACES))]
    labels = ["%d%s" % (n, side) for n in range(1, SIDES // 2 + 1) for side in "AB"]
    film_of = {}
    if loaded:
        cut = whole(2, 8)
        for a, b in ((1, cut), (cut + 1, 10)):
            film = pick(FILMS)
            out.append("load %dA-%dB: %s" % (a, b, film))
            for label in labels[2 * a - 2:2 * b]:
                film_of[label] = film
    out.append("")
    film = lens = None                        # what holds within the day
    rest = list(labels)
    while rest:
        here, rest = (rest[:whole(4, 8)], None) if len(rest) > 8 else (rest, [])
        if rest is None:
            rest = [l for l in labels if labels.index(l) > labels.index(here[-1])]
        if chance(.3):
            out += ["## " + pick(SCENES), ""]
        scene = dict(light="daylight", filters=[], meter_ei=None, reading=None, tags=[])
        lines = []
        new_lens = weighted(("90", 8), ("150", 24), ("210", 28), ("300", 22), ("480", 18))
        if new_lens != lens or chance(.5):
            lines.append("lens: " + new_lens)
        scene["lens"] = lens = new_lens
        if loaded:
            films = {film_of[l] for l in here}
            scene["film"] = film_of[here[0]] if len(films) == 1 else None
        else:
            new_film = pick(FILMS)
            if new_film != film or chance(.5):
                lines.append("film: " + new_film)
            scene["film"] = film = new_film
            films = {film}
        if chance(.18):
            scene["light"] = "tungsten"
            lines.append("light: tungsten")
        elif chance(.1):
            lines.append("light: daylight")
        if chance(.14):
            f = pick(COLOURS + ["pol", "veil"])
            if not (f in ("R25", "O21") and any(FILMS[x]["class"] == "ortho" for x in films)):
                scene["filters"] = [(f, None)]
                lines.append("filter: " + f)
        scene["level"] = between(0, 6) if scene["light"] == "tungsten" else between(4, 16)   # EV at ISO 100
        if chance(.88):
            anyone = dict(film=scene["film"] or film_of.get(here[0]), light=scene["light"], ei=None)
            other = len(films) > 1 or chance(.3)
            if other:
                scene["meter_ei"] = pick([25, 50, 64, 100, 125, 200, 400])
            near = scene["level"] + SV[scene["meter_ei"] or film_ei(anyone)] - 5
            text, scene["reading"], scene["tags"] = reading_text(near, True)
            if other:
                text += (" " if text.count(",") == 0 else ", ") + "at EI %d" % scene["meter_ei"]
            lines.append("meter: " + text)
        out.append("scene: " + pick(SCENES))
        out += shuffled(lines[:-1]) + lines[-1:]
        word = weighted(("%s", 6), ("sheet %s", 2), ("- %s", 2))
        previous = None
        for label in here:
            line, previous, tags = sheet_line(label, word, scene, film_of.get(label, film), previous)
            out.append(line)
            rows.append((file, "%s %s" % (date, label), previous, tags))
        out.append("")
        if chance(.15):
            out += [pick(PROSE), ""]
    return out


# ------------------------------------------------------------------ Part 4: output and self-check

def four(x):
    return "" if x is None else "%.4f" % (round(x, 4) + 0.0)


def check():
    """The rows of "Published check values" that this file's formulas can be held to."""
    def near(a, b, eps):
        assert abs(a - b) <= eps, (a, b)
    for n, t, ev in (("16", "1/125", 15), ("8", "1/60", 12), ("5.6", "1/125", 12)):
        near(FULL[n] + tv(SHORT[t]), ev, 1e-9)
    for series in (FULL, HALF, THIRD):        # each mark names its power of two within 3.5 %
        for mark, av in series.items():
            near(float(mark) / 2 ** (av / 2), 1, .035)
    for ei, sv in SV.items():
        near(ei / (3.125 * 2 ** sv), 1, .05)
    near(2 ** (log2(8) + log2(2.5)), 20, 1e-9)
    near(density_stops(.3), .997, .001)
    near(2 ** bellows_stops(("ext", 18), 12), 2.25, 1e-9)
    near(2 ** bellows_stops(("ext", 27), 12), 5.06, .005)
    near(2 ** bellows_stops(("mag", 8 / 12), 300), 2.778, .001)
    near(bellows_stops(("focus", 3000), 200), .20, .005)
    near(Power(1.31).clock(10), 20.4, .05)
    near(FILMS["fjord"]["rule"].clock(10), 15, 1e-9)
    near(FILMS["fjord"]["rule"].clock(100), 200, 1e-9)
    near(reading_ev(("spot", [(9, 3), (14, None)])), 11, 1e-9)
    for film in FILMS.values():               # there and back
        for t in (.5, 1, 1.5, 2, 3, 4, 7, 8):
            near(film["rule"].on_film(film["rule"].clock(t)), t, 1e-9)


def write(name, text):
    with open(os.path.join(HERE, name), "w", encoding="utf-8", newline="\n") as f:
        f.write(text)


def main():
    check()
    write("kit.md", KIT)
    rows, date = [], datetime.date(2024, 1, 2)
    for n in range(1, NOTEBOOKS + 1):
        name = "notes-%d.md" % n
        out = ["# Notebook %d" % n, "", "use: kit.md", ""]
        for _ in range(DAYS):
            out += day_lines(date, n in LOADED, rows, name)
            date += datetime.timedelta(days=1)
        write(name, "\n".join(out).rstrip() + "\n")
    expected, rulings, count = io.StringIO(), io.StringIO(), {}
    e, r = csv.writer(expected, lineterminator="\n"), csv.writer(rulings, lineterminator="\n")
    e.writerow("file id base_ev asked_ev given_ev difference state".split())
    r.writerow("file id ruling other_difference other_state".split())
    for name, ident, sheet, tags in rows:
        base, asked, given, difference, state = reckon(sheet)
        e.writerow([name, ident, four(base), four(asked), four(given), four(difference), state])
        count[state] = count.get(state, 0) + 1
        for tag, alter in tags:
            other = ("", "") if alter is None else ("", "unchecked") if alter[0] == "unchecked" else \
                (lambda x: (four(x[3]), x[4]))(reckon(sheet, alter))
            r.writerow([name, ident, tag, *other])
            count[tag] = count.get(tag, 0) + 1
    write("expected.csv", expected.getvalue())
    write("rulings.csv", rulings.getvalue())
    print(len(rows), "sheets")
    for k, v in sorted(count.items()):
        print("%6d  %s" % (v, k))


if __name__ == "__main__":
    main()
