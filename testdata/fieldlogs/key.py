#!/usr/bin/env python3
"""Writes NN-name/key.csv for the field logs beside it.

The figures are set out here by hand from what each writer typed, never by reading the notes with a program: so the keys
are independent of any reader of the notation. `key.py show` prints notes and arithmetic side by side for proofreading.
"""
import csv, os, re, sys
from math import log2, log, exp

HERE = os.path.dirname(os.path.abspath(__file__))

# ---- marks: rounded names of exact powers of two; old speeds and a second and longer are literal
FULL = dict(zip("1 1.4 2 2.8 4 5.6 8 11 16 22 32 45 64 90".split(), range(14)))
HALF = dict(zip("1.2 1.7 2.4 3.3 4.8 6.7 9.5 13 19 27 38 54".split(), [i + .5 for i in range(12)]))
THIRD = {"6.3": 16/3, "9": 19/3, "10": 20/3, "14": 23/3, "18": 25/3}
FRAC = {"½": .5, "⅓": 1/3, "⅔": 2/3}
SPEED = {"1/2": 1, "1/4": 2, "1/8": 3, "1/15": 4, "1/30": 5, "1/60": 6, "1/125": 7, "1/250": 8}

def av(m):
    if "/" in m:                                   # 9/12.5: between the two marks
        a, b = m.split("/"); return (av(a) + av(b)) / 2
    if m[-1] in FRAC: return FULL[m[:-1]] + FRAC[m[-1]]
    if m == "16.2": return 8.2                     # two tenths past f/16
    for d in (FULL, HALF, THIRD):
        if m in d: return d[m]
    return 2 * log2(float(m))                      # 12.5: a mark of its own

def tv(t):
    if isinstance(t, str):
        if t in SPEED: return SPEED[t]
        n, d = t.split("/"); return -log2(int(n) / int(d))
    return -log2(t)

def ev(f, t): return av(f) + tv(t)
def sv(ei):                                        # third-stop marks
    return round(3 * log2(ei / 3.125)) / 3
def shift(film, meter): return sv(film) - sv(meter)

# ---- reciprocity, from given back to metered
def power(p): return lambda t: t if t <= 1 else t ** (1 / p)
def table(*pairs):
    pts = [(1, 1)] + [p for p in pairs if p[0] > 1]
    def inv(t):
        if t <= 1: return t
        for (a, A), (b, B) in zip(pts, pts[1:]):
            if t <= B * 1.0001:
                return exp(log(a) + (log(t) - log(A)) * (log(b) - log(a)) / (log(B) - log(A)))
        raise ValueError("beyond the table")
    return inv

def bel(ext, f): return 2 * log2(ext / f)
def mag(m): return 2 * log2(1 + m)
def nd(d): return d / 0.30102999566
F = log2

LOGS = []
class Log:
    def __init__(s, name, day, rule=None): s.name, s.day, s.rule, s.rows = name, day, rule, []; LOGS.append(s)
    def __call__(s, label, f, t, base, fl=0, b=0, br=0, cause="", also="", note="", rule=None, tested=None, times=1, id=None):
        fl = fl if isinstance(fl, list) else [fl]
        need = base - sum(fl) - b - br
        tt = -tv(tested if tested else t)
        sec = 2 ** tt
        inv = rule or s.rule
        film = inv(sec) if (inv and sec > 1) else sec
        assert sec <= 1.0001 or inv, (s.name, label, "no rule")
        got = av(f) - log2(film * times)
        d = need - got
        w = f"read EV {base:.2f}"
        if sum(fl): w += f" - filter {sum(fl):.2f}"
        if b: w += f" - bellows {b:.2f}"
        if br: w += f" - bracket {br:+.2f}"
        w += f" = asked EV {need:.2f}; f/{f} {t if isinstance(t, str) else '%gs' % t}"
        if tested: w += f" (tested {tested})"
        if times > 1: w += f" x{times}"
        if abs(film - sec) > 1e-6: w += f" = {film:.2f}s on film"
        w += f" = EV {got:.2f}; {d:+.2f}"
        if note: w += f"; {note}"
        s.rows.append([id or f"{s.day} {label}", None, d, cause, also, w, (label, need, fl, b, sec, film, base)])
    def u(s, label, state, why, cause="", id=None):
        s.rows.append([id or f"{s.day} {label}", state, None, cause, "", why, (label,)])

# kinds that do not change what the sheet got: the exposure is judged by itself
SIDE = {"shutter lacks the speed", "exposed twice", "film in holder", "holder never loaded", "slide not pulled",
        "developed otherwise than asked", "movement outside the image circle"}
WHOLE = "one whole stop off"

# ------------------------------------------------------------------ 01
L = Log("01-terse", "2026-03-01", power(1.31)); B = 14
CF, POL = 1.5, 1.5
L("1A", "16", "1/60", B)
L("1B", "16", "1/30", B, 1)
L("2A", "16", "1/8", B, 3)
L("2B", "22", "1/30", B, 2, cause="filter not compensated")
L("3A", "11½", "1/4", B, [3, POL])
L("3B", "11½", "1/2", B, [3, POL], br=1, note="bracket on purpose")
B = 13
L("4A", "16", "1/30", B)
L("4B", "16", "1/30", B, 1, cause="filter not compensated", also=WHOLE, note="settings equal to 4A though the yellow went on")
L("5A", "16", "1/4", B, 3)
L("5B", "22", "1/15", B)
L.u("6A", "unexposed", "written as unused")
L("6B", "11", "1/15", B, 2)
B = 11; b = bel(280, 210)
L("7A", "16", "1/4", B, b=b)
L("7B", "16", 1, B, 3, b=b, cause="bellows factor forgotten")
L("8A", "16", "1/4", B, b=b)
L("8B", "16", "1/2", B, 1, b=b)
L.u("1A'2", "unchecked", "no reading: meter packed")
L.u("1B'2", "unchecked", "no reading: copied from a sheet without one")
B = 13
L("2A'2", "16½", "1/8", B, CF, note="the lens always wears its centre filter")
L("2B'2", "16½", 1, B, [CF, 3])

# ------------------------------------------------------------------ 02
fell = table((2, 3), (4, 7), (8, 16))
L = Log("02-diarist", "2026-05-16", fell); B = ev("16⅔", "1/60")
L("1A", "16⅔", "1/60", B)
L("1B", "16", "1/30", B, 1, cause="aperture fraction lost", note="f/16 2/3 was meant, as on 1A")
L("2A", "16⅔", "1/15", B, 2, note="1/30 struck")
L("2B", "16⅔", "1/15", B, cause="filter removed, settings left", also="last sheet's time or aperture left on the lens", note="settings equal to 2A, the orange off")
B = 13
L("3A", "16", "1/30", B, note="1/60 withdrawn by 'no wait'")
L("3B", "16", "1/30", B)
L("4A", "16", "1/60", B, br=-1)
L("4B", "16", "1/15", B, br=1)
B = 10
L("5A", "32", 1, B)
L("5B", "32", 16, B, 3)
L("6A", "22", 4, B, 3, cause="reciprocity forgotten", note="4s by the clock wants 7s")
L("6B", "22", 7, B, 3)
L.u("7A", "unchecked", "asked EV 7 at f/45 = 16s: beyond the film's table, which ends at 8s")
L.u("7B", "unexposed", "written as unused")
L.day = "2026-05-17"
B = 13 + shift(125, 200)
L("8A", "16", "1/30", B, cause="meter left at another EI", note="amended: metered at EI 200, film EI 125, the reading shifts -0.67")
L("8B", "16", "1/15", B, 1, cause="meter left at another EI", note="as 8A")
B = ev("11⅓", "1/30")
L("9A", "16⅓", "1/15", B)
L("9B", "16⅓", "1/8", B, 1)
L("10A", "16⅔", "1/4", B, 5/3, note="amended: f/16 2/3 not f/22")
L.u("10B", "unchecked", "no reading in this scene")

# ------------------------------------------------------------------ 03
L = Log("03-dictated", "14 jan"); B = 14
L("1a", "16", "1/60", B)
L("1b", "16", "1/15", B, 2)
L("2a", "16", "1/8", B, 3)
L("2b", "16", "1/2", B, 2, cause="counted on from the last filter's settings", note="two stops more than the red's 1/8")
B = 11
L("3a", "22", "1/4", B)
L("3b", "22", "1/2", B, br=1)
L("4a", "22", "1/8", B, br=-1)
L("4b", "22", 1, B, 2)
B = 13.5
L("5a", "16½", "1/30", B)
L("5b", "16½", "1/8", B, 2)
L("6a", "16½", "1/4", B, 3)
L("6b", "22", "1/30", B, br=-.5)
B = 11; b = bel(200, 135)
L("7a", "16", "1/4", B, b=b)
L("7b", "16", "1/4", B, 2, b=b, cause="filter not compensated", also="bellows turned round", note="settings equal to 7a though the orange went on")
L("8a", "16", 1, B, 2, b=b)
L.u("8b", "unexposed", "written as unused")
L.day = "15 jan"
L.u("9a", "unchecked", "no reading: meter left in the car")
L("9b", "22", "1/2", 10)
L.u("10a", "unchecked", "asked EV 6 at f/16 = 4s by the clock, as given; no reciprocity rule for the film, so nobody knows on film")
L("10b", "16", "1/60", ev("16", "1/15"), 2, cause="compensated the wrong way")

# ------------------------------------------------------------------ 04
plate = table((2, 3), (4, 7), (8, 16), (30, 90))
L = Log("04-ortho-plates", "2026-04-11", plate); B = ev("9", "1/25")
Y8, Y15 = F(3), F(6)
L("1", "9", "1/25", B)
L("2", "9", "1/10", B, Y8)
L("3", "6.3", "1/10", B, Y15)
L("4", "12.5", "1/5", B, Y15, cause="factor of another film class", also="stops used as a factor", note="the panchromatic x2.5 given where the plate wants x6")
L.u("5", "no-image", "red 25 on an orthochromatic plate: it passes nothing the plate can see, no factor is right", cause="film cannot see the colour")
B = ev("9", "1/5")
L("6", "6.3", "1/10", B)
L("7", "9", "1/2", B, Y8)
L("8", "12.5", 1, B, Y8)
L("9", "12.5", 4, B, Y15)
L("10", "18", 9, B, Y15)
B = ev("9", "1/10")
L("11", "9", "1/5", B, b=bel(190, 135))
L("12", "9", "1/5", B, b=bel(240, 135), cause="extension changed, compensation of the earlier extension kept", note="settings of 11 at 190 mm kept at 240 mm")
L("13", "9/12.5", "1/2", B, b=bel(240, 135))
B = ev("9", 1) + shift(5, 12.5)
L("14", "9", 4, B, note="meter at EI 12, plate EI 5 by lamp")
L("15", "9", 1, B, cause="meter left at another EI", note="the reading at EI 12 used as it stood; plate EI 5 by lamp")
L("16", "9", 4, B, cause="slide not pulled", note="exposure as 14, but 'result' says clear glass")

# ------------------------------------------------------------------ 05
slab = power(1.25)
L = Log("05-studio-tungsten", "2026-01-20", slab); B = 10; b = bel(400, 305)
L("1A", "32", 2, B, b=b)
L("1B", "32", 3, B, F(1.5), b=b)
L("2A", "32", 26, B, F(5), b=b, cause="factor for the other light", note="daylight x8 given under lamps, where the kit says x5")
L("2B", "32", 15, B, F(5), b=b)
B = 9; b = bel(500, 305)
L("3A", "16", 1.5, B, b=b)
L("3B", "32", 8, B, b=b)
L("4A", "32", 25, B, b=b, cause="bellows used as stops", note="factor 2.69 given as 2.7 stops")
L("4B", "32", 8, B, b=b)
B = 10; b = bel(300, 210)
L("5A", "22", 1, B, b=b, note="average of EV 11 and EV 9")
L("5B", "22", "1/4", B, b=b, cause="bellows turned round")
L("6A", "22", 8, B, F(5), b=b)
L("6B", "32", 12, B, F(5), b=b, cause="reciprocity applied before filter or bellows", note="2.04s by the clock at f/32 -> 2.44s, then x5 = 12s; right is 10.2s -> 18s")
B = 11
L("7A", "22", "1/4", B)
L("7B", "22", 2, B, 3)
L("8A", "19", "1/4", B, br=.5)
L.u("8B", "unexposed", "written as unused")
L.u("9A", "unchecked", "flash, no flash reading: never judged by the daylight reading")

# ------------------------------------------------------------------ 06
pan50 = table((2, 2 * 2 ** .5), (4, 8), (10, 10 * 2 ** 1.5))
L = Log("06-plants-inches", "2026-04-19", pan50); B = 9
L("1A", "16", 1, B, b=mag(.5))
L("1B", "22", 3, B, b=mag(.5))
L("2A", "16", 20, B, 2, b=2)
L("2B", "8", "1/2", B, b=2)
B = 8
L("3A", "16", 3.5, B, b=bel(12.75, 8.5))
L("3B", "11½", 1, B, b=bel(10.25, 8.5))
L("4A", "11", "1/2", B, b=bel(17, 8.5), cause="bellows factor forgotten")
L("4B", "11", 3, B, b=bel(17, 8.5))
B = 11
L("5A", "16", "1/4", B, b=bel(7, 5))
L("5B", "16", "1/4", B, b=bel(9, 5), cause="extension changed, compensation of the earlier extension kept", note="settings of 5A at 7 in kept at 9 in")
L("6A", "16⅓", "1/2", B, b=bel(9, 5))
L("6B", "16⅓", 1, B, 1, b=bel(9, 5))
f12 = .3048; m12 = f12 / (2 - f12)
B = 12
L("7A", "16½", "1/8", B, b=mag(m12), note="focus 2 m from the lens; from the film 0.60, right too")
L("7B", "16½", "1/2", B, 2, b=mag(m12))
L("8A", "11½", 1, B, 2, b=mag(m12), cause="factor used as stops", also="counted on from the last filter's settings", note="x4 given four stops; the same as counting the green twice")
L("8B", "16½", "1/8", B, b=mag(m12))
L.u("9A", "unchecked", "no reading")
L("9B", "16⅔", 1, 10, b=mag(.5))
L("10A", "16", "1/8", 9, b=2, cause="bellows turned round")
L("10B", "16", 3, 9, b=2)

# ------------------------------------------------------------------ 07
L = Log("07-zones", "2026-10-03", power(1.2)); B = 8 + 2
L("1A", "16", "1/4", B, note="EV 8 on III")
L("1B", "16", "1/4", B)
L("2A", "16", 1, B, 2)
L("2B", "8", "1/4", B, cause="not placed", also="filter removed, settings left", note="the moss's EV 8 given as it stood")
B = 9 + 1
L("3A", "11", "1/8", B, note="bracken on IV rules, bark falls on VII: N-1", cause="developed otherwise than asked")
L("3B", "9.5", "1/8", B, br=.5)
B = 5 + 1.5
L("4A", "9.5", 1, B)
L("4B", "22", 8, B)
L("5A", "32", 18, B)
B = 9 + 1
L("5B", "11", "1/2", B, cause="placed in the wrong direction", note="EV 9 on IV counted to EV 8")
L("6A", "11", "1/8", B)
L("6B", "11", "1/4", B, 1)
L("7A", "11", "1/4", B, 3, cause="last sheet's time or aperture left on the lens", also="another filter's compensation", note="settings of 6B with the yellow")
L("7B", "11", 1, B, 3)
B = 15 - 2
L("8A", "16", "1/30", B, note="EV 15 on VII")
L("8B", "11", "1/60", B)
B = 9.5 + 1
L("9A", "9.5", "1/15", B)
L("9B", "9.5", "1/4", B, 2)
L("10A", "9.5", "1/30", B, cause="placed on the wrong zone", also="one whole speed off", note="as if the rock had gone on III")
L.u("10B", "unchecked", "two readings, none placed, no average: which was used is not written")
L.u("11A", "unexposed", "written as unused")
L.u("11B", "unexposed", "written as unused")

# ------------------------------------------------------------------ 08
L = Log("08-incident-heads", "2026-02-08", power(1.3)); B = 11; b = mag(1/4)
L("1A", "11⅓", "1/8", B, b=b)
L("1B", "11⅓", "1/8", B, b=b)
L("2A", "11", "1/15", B, b=b, cause="bellows factor forgotten")
L("2B", "10", "1/8", B, b=b, br=.5)
B = 10
L("3A", "9.5", "1/8", B, b=mag(1/6), note="f/16 of the reading withdrawn, f/11 stands")
L("3B", "11½", "1/4", B, b=mag(1/6))
L("4A", "9.5", "1/8", B, b=bel(430, 360))
L("4B", "9.5", "1/2", B, 2, b=bel(430, 360))
B = 13 + shift(250, 400)
L("5A", "16⅔", "1/15", B, b=mag(1/8), cause="meter left at another EI", also="bellows turned round", note="metered at EI 400, the film's box speed; film EI 250")
B = 12.5
L("5B", "16", "1/15", B, b=mag(1/8))
L("6A", "16", "1/15", B, b=mag(1/8))
L("6B", "16", "1/30", B, b=mag(1/8), br=-1)
L("7A", "16", 1, 8)
L.u("7B", "unchecked", "flash without a flash reading")
B = ev("16⅔", "1/15")
L("8A", "16½", "1/8", B, b=mag(.5))
L("8B", "11½", "1/8", B, b=mag(.5), cause="aperture fraction turned the wrong way", also=WHOLE + "; bellows used as stops", note="half a stop open of f/16 instead of half a stop down")
L("9A", "16½", "1/4", B, 1, b=mag(.5))
L("9B", "16½", "1/4", B, 1, b=mag(.5))

# ------------------------------------------------------------------ 09
night = power(1.3); old = table((2, 5), (10, 50), (100, 1200))
L = Log("09-night", "2026-10-17", night); B = 4
L("1A", "11", 15, B)
L("1B", "16", 36, B)
L("2A", "32", 65, B, cause="reciprocity forgotten", note="64s by the clock wants 223s")
L("2B", "32", 225, B)
B = 1
L("3A", "8", 90, B)
L("3B", "11", 240, B)
L("4A", "11", 540, B, br=1)
L("4B", "8", 90, B, note="45s+45s as one; as two exposures +0.23, right too")
B = 6.2
L("5A", "16", 1, B, times=4, note="four exposures of 1s; as one of 4s -0.26, right too")
L("5B", "11", 2, B)
B = 2
L("7A", "8", 95, B, rule=old)
L("7B", "16", 660, B, rule=old)
L.u("8A", "unchecked", "asked EV 2 at f/32 = 256s: beyond the film's table, which ends at 100s")
L("8B", "5.6", 36, B, rule=old)
B = 4.5
L("9A", "8", 90, B, cause="base reading kept from an earlier scene", also="last sheet's time or aperture left on the lens", note="the crane's EV 1, settings of 3A")
L("9B", "11", 4, B, br=1, cause="bracket in the wrong direction", note="right for bracket -1")
L("10A", "8", 4, B)
L("10B", "11", 13, 5, rule=old, cause="film in holder", note="holder 10B was loaded with the other film; judged by the film written on the sheet")
L("11A", "8", 90, 1, note="double on purpose; the moon: read EV 14, f/11 1/125 = EV 14, +0.00")
L.u("11B", "unexposed", "written as unused")

# ------------------------------------------------------------------ 10
L = Log("10-old-shutter", "2026-06-20", power(1.25)); B = ev("16", "1/50")
Y, O, R, G = 1, F(3), 3, 2
L("#41", "16", "1/50", B, tested="1/45")
L("#42", "16", "1/25", B, Y, tested="1/23")
L("#43", "11½", "1/25", B, O, tested="1/23")
L("#44", "11½", "1/25", B, R, tested="1/23", cause="another filter's compensation", also="stops used as a factor; last sheet's time or aperture left on the lens", note="the orange's settings of #43; red's 3 stops taken as x3 gives the same")
L("#45", "16⅓", "1/5", B, R)
L("#46", "16⅓", "1/10", B, G)
L("#47", "11", "1/100", B, tested="1/65", cause="tested speed not allowed for", note="nominally exact; the shutter's 1/100 is 1/65")
B = 8
L("#48", "16", 1, B)
L("#49", "16", 1, B, cause="movement outside the image circle", note="5x7 with 25 mm rise needs about 251 mm, the lens covers 220")
L("#50", "22", 2, B)
L("#51", "32", 6, B)
B = ev("14", "1/25")
L("#52", "9.5", "1/60", B, cause="shutter lacks the speed", note="no 1/60 on it; taken as 1/50 it is +0.17, right too")
L("#53", "11⅓", "1/10", B, O)
L("#54", "10", "1/25", B, Y)
L("#55", "14", "1/50", B, Y, cause="compensated the wrong way")
L("#56", "16", "1/10", B, Y)
L.u("#57", "unchecked", "no reading: nothing on the needle")
L.u("#58", "unexposed", "written as unused")

# ------------------------------------------------------------------ 11
L = Log("11-filter-test", "2026-07-04"); B = 15
L("T1", "22", "1/60", B)
L("T2", "22", "1/30", B, 1)
L("T3", "19", "1/30", B, F(2.5))
L("T4", "22", "1/15", B, 2)
L("T5", "22", "1/8", B, 3)
L("T6", "22", "1/15", B, 3, br=-1)
L("T7", "22", "1/4", B, 3, br=1)
L("T8", "22", "1/15", B, 2)
B = 14
L("T9", "16", "1/60", B, note="own reading, the light had dropped")
L("T10", "16⅓", "1/8", B, F(6))
L("T11", "19", "1/8", B, [1, 1.5])
L("T12", "16", "1/30", B, 1.5, cause="filter's fraction dropped", note="1 1/2 stops given as 1")
L("T13", "19", "1/2", B, [3, 1.5])
L("T14", "16", "1/8", B, [3, 1.5], cause="filter not compensated", also="stops used as a factor", note="the polarizer of the stack")
L("T15", "16", "1/15", 12, note="read through the filter, so nothing more is owed")
L("T16", "16", 1, 11, cause="filter compensated twice", note="read through the red, and the red's 3 stops added again")
L("T17", "16", "1/8", B, nd(.9))
L("T18", "16.2", "1/15", B, nd(1.8), cause="density used as stops", note="ND 1.8 given 1.8 stops")
L("T19", "22", "1/30", 14)
L.u("T20", "unexposed", "written as unused")

# ------------------------------------------------------------------ 12: undeclared filters; judged by the span of published values
L = Log("12-no-kit-phone", "9 Sept"); B = 14
def span(label, f, t, base, lo, hi, **k):
    d_hi, d_lo = base - lo - ev(f, t), base - hi - ev(f, t)
    fl = lo if d_hi < 0 else hi if d_lo > 0 else base - ev(f, t)
    k["note"] = (f"undeclared filter, published {lo:.2f}..{hi:.2f} stops: difference {d_lo:+.2f}..{d_hi:+.2f}; " + k.get("note", "")).rstrip("; ")
    L(label, f, t, base, fl, **k)
L("1a", "16", "1/60", B)
span("1b", "16", "1/30", B, F(1.5), 1)
span("2a", "16", "1/8", B, 2.5, 3)
span("2b", "16½", "1/8", B, 2.5, 3)
span("3a", "16", "1/15", B, F(3), 2)
span("3b", "16", "1/15", B, F(2.5), 2)
span("4a", "11", "1/30", B, F(2.5), 2)
span("4b", "16", "1/60", B, 2.5, 3, cause="filter not compensated", note="settings equal to 1a though the red went on")
B = 9
L("5a", "11", "1/4", B)
L("5b", "16", "1/2", B)
span("6a", "11", "1/2", B, F(1.5), 1)
span("6b", "11", "1/15", B, F(3), 2, cause="compensated the wrong way")
L.u("7a", "unchecked", "4s read, 4s given; film unknown, so its reciprocity is unknown")
L.u("7b", "unchecked", "8s for bracket +1; film unknown, so its reciprocity is unknown")
L.u("8a", "unchecked", "no reading")
L("8b", "16", "1/125", 15, note="sunny 16 at the EI 100 written on the sheet")
L("9a", "16", "1/30", 14, cause=WHOLE, note="read 1/30 f/22, gave 1/30 f/16")
L("9b", "22", "1/30", 14)
L.u("10a", "unchecked", "green 25: colour and number disagree; 3 stops given fit red 25, green 58 would be about 2.6", cause="colour against number")

# ------------------------------------------------------------------ 13
L = Log("13-columns", "2026-09-12", table((5, 8), (10, 20), (30, 90)))
def row(n, *a, **k): L(str(n), *a, id=f"26-{100 + n}", **k)
B = 14; K2, Gf, A, X1 = 1, F(3), 3, 2
row(1, "22", "1/30", B)
row(2, "22", "1/15", B, K2)
row(3, "16½", "1/15", B, Gf)
row(4, "22", "1/4", B, A)
row(5, "16", "1/15", B, X1)
row(6, "16", "1/8", B, Gf, cause="factor used as stops", also="another filter's compensation", note="x3 given three stops, which is also the red's x8")
B = 13
row(7, "22", "1/15", B)
row(8, "22", "1/15", B)
row(9, "22", "1/8", B, K2)
row(10, "22½", "1/8", B, K2, br=-.5)
row(11, "22", "1/2", B, A)
row(12, "32", 1, B, A)
row(13, "32", "1/2", B, X1)
row(14, "45", "1/4", B, X1, cause="filter not compensated")
B = 8
row(15, "32", 6, B)
row(16, "45", 15, B)
row(17, "64", 40, B)
row(18, "32", 40, B, cause="last sheet's time or aperture left on the lens", note="the 40s of f/64 kept at f/32")
L.u("19", "unchecked", "asked EV 5 at f/45 = 64s: beyond the film's table, which ends at 30s", id="26-119")
L.u("20", "unexposed", "written as unused")

# ------------------------------------------------------------------ 14
L = Log("14-two-days", "2026-08-01"); B = 13
L("1A", "16", "1/30", B)
L("1B", "16", "1/15", B, br=1, note="'second +1': one stop more than 1A, on purpose")
L("2A", "16", "1/8", B, 2)
L("2B", "16", "1/4", B, 3)
B = 9.5
L("3A", "11½", "1/4", B)
L("3B", "11½", "1/4", B)
L("4A", "11½", 1, B, 2)
L("4B", "11½", "1/8", B, times=2, note="two halves on purpose ('again'); each by itself is -1.00")
B = 12
L("5A", "22", "1/8", B)
L("5B", "22", "1/4", B, 1)
B = 12 + shift(64, 100)
L("6A", "22", 1, B, 3, cause="meter left at another EI", note="amended: metered at EI 100, film EI 64")
L("6B", "22", "1/2", B, 2, cause="meter left at another EI", note="amended: metered at EI 100, film EI 64")
B = 11
L("1A'2", "16", "1/8", B)
L("1B'2", "16", "1/4", B, 1)
L("2A'2", "16", "1/2", B, 2)
L.day = "2026-08-02"; B = 12
L("1A", "11", "1/30", B)
L("1B", "11", "1/15", B, 1)
L("2A", "11", "1/4", B, 3)
L("2A'2", "11", "1/8", B, 2, cause="exposed twice", note="side 2A again without reloading and without 'again'; 2B is likely blank")
L("3A", "11½", "1/8", B, 3, cause="stops used as a factor", note="3 stops taken as x3")
L("4A", "16", "1/15", 12, cause="film in holder", note="loaded with the fast film, logged as the slow; judged as logged")
L("4B", "11", "1/60", 13)
L("7A", "16", "1/15", 12, cause="holder never loaded", note="exposure as read")

# ------------------------------------------------------------------ 15
L = Log("15-slow-water", "2026-11-21", power(1.26)); B = 12
L("1A", "45", "1/2", B)
L("1B", "32", 2.5, B, nd(.9))
L("2A", "32", 32, B, nd(1.8))
L("2B", "32", 120, B, [nd(1.8), 1.5])
L("3A", "32", 16, B, nd(1.8), cause="reciprocity forgotten", note="15.8s by the clock wants 32s")
L("3B", "32", 78, B, nd(1.8), br=1)
B = 11
L("4A", "22½", 1, B, CF)
L("4B", "22", "1/4", B, CF, cause="filter not compensated", note="the centre filter that is always on this lens")
L("5A", "22½", 14, B, [CF, nd(.9)])
L("5B", "22½", 4, B, [CF, 1.5])
B = 13; tele = lambda e: mag((e - 260) / 400)
L("6A", "16", "1/30", B, b=tele(290), note="m = (290 - 260) / 400")
L("6B", "16", "1/4", B, 3, b=tele(290))
L("7A", "16", "1/30", B, b=tele(360), cause="bellows factor forgotten")
L("7B", "16⅓", "1/15", B, b=tele(360))
B = 13
L("8A", "16", "1/30", B, note="a graduated filter owes nothing")
L("8B", "16", "1/4", B, nd(.9))
L("9A", "9.5", "1/30", B, 1.5)
L("9B", "9.5", "1/30", B, cause="filter removed, settings left", also="last sheet's time or aperture left on the lens", note="settings equal to 9A, the polarizer off")
L("10A", "16", 2.5, B, nd(1.8))
L.u("10B", "unexposed", "written as unused")

# ------------------------------------------------------------------ checks and output
bad = 0
def state(r):
    global bad
    if r[1]: return r[1]
    mistake = r[3] and r[3] not in SIDE
    if mistake and abs(r[2]) <= .45: bad += 1; print("too small for a mistake:", r[0], r[5])
    if not mistake and abs(r[2]) > .30: bad += 1; print("too large for a right sheet:", r[0], r[5])
    return "off" if mistake else "right"

def fits(L, r):
    """other causes within 1/6 stop, to help choose `also`"""
    label, need, fl, b, sec, film, base = r[6]; d = r[2]; c = {}
    for x in set([x for x in fl if x] + ([sum(fl)] if sum(fl) else [])):
        c[f"not compensated {x:.2f}"] = -x; c[f"wrong way {x:.2f}"] = -2 * x; c[f"factor as stops {x:.2f}"] = 2 ** x - x
        c[f"stops as factor {x:.2f}"] = log2(x) - x; c[f"compensated again {x:.2f}"] = x
    if b:
        c["bellows forgotten"] = -b; c["bellows round"] = -2 * b; c["bellows as stops"] = 2 ** b - b
    if sec > 1: c["reciprocity forgotten"] = None
    for s in (1, -1): c[f"one whole {s:+d}"] = s
    return [k for k, v in c.items() if v is not None and abs(v - d) <= 1 / 6]

total = {}
for L in LOGS:
    folder = os.path.join(HERE, L.name)
    text = ""
    for f in sorted(os.listdir(folder)):
        if f.endswith((".md", ".txt")) and f != "kit.md":
            text += open(os.path.join(folder, f), encoding="utf-8-sig").read() + "\n"
    ids = [r[0] for r in L.rows]
    assert len(set(ids)) == len(ids), L.name
    with open(os.path.join(folder, "key.csv"), "w", newline="", encoding="utf-8") as h:
        w = csv.writer(h, lineterminator="\n")
        w.writerow("id state stops cause also why".split())
        for r in L.rows:
            st = state(r)
            total.setdefault(L.name, {}).setdefault(st, 0); total[L.name][st] += 1
            s = "" if r[2] is None else f"{r[2]:+.2f}".replace("-0.00", "+0.00")
            w.writerow([r[0], st, s, r[3], r[4], r[5].replace("-0.00", "+0.00")])
    if len(sys.argv) > 1:
        print("=====", L.name)
        used = {}
        lines = text.splitlines()
        for r in L.rows:
            lab = r[6][0]; lab = lab.replace("'2", "")
            hits = [l for l in lines if re.match(r"^(sheet |plate )?" + re.escape(lab) + r"( \S+)?[:：]|^\S+ " + re.escape(lab) + ":", l)]
            hits = [l for l in hits if not re.match(r"amend|scan|density|print|result|develop", l)]
            k = used.get(lab, 0); used[lab] = k + 1
            print(f"{r[0]:18} | {(hits[min(k, len(hits)-1)] if hits else 'MISSING'):70} | {r[5]}")
            if r[2] is not None and r[3] and r[3] not in SIDE: print("      ---> ", r[3], "| also:", r[4], "| fits:", fits(L, r))
for n, c in total.items(): print(n, sum(c.values()), c)
print("sheets:", sum(sum(c.values()) for c in total.values()))
sys.exit(bad > 0)
