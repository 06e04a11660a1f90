#!/usr/bin/env python3
"""Expected result of every sheet of examples/aldermoor, worked out apart from the compiler.

Run in this folder; writes key.csv. Nothing here reads the notes: each sheet was
transcribed by eye, as what was needed and what the film was given, so that this key and
the compiler can only agree if both are right. Marks are exact powers of two (f/11 is
2^3.5, 1/15 is 1/16 s); 1/5 1/10 1/25 and whole seconds are literal.
"""
import csv
from math import log2

PAN_EI, ORTHO_EI, ORTHO_TUNGSTEN_EI = 64, 20, 10  # as kit.md declares them
THIRDS = {10: 11, 20: 14, 64: 19}  # EI in thirds of a stop, as in the ISO pairs 20/14 and 64/19


def av(mark, past=0.0):
    """Aperture value of a full-stop mark, `past` stops beyond it."""
    full = {8: 6, 11: 7, 16: 8, 22: 9, 32: 10, 45: 11}
    return full[mark] + past


MODERN = {2: 1, 4: 2, 8: 3, 15: 4, 30: 5, 60: 6, 125: 7}


def tv(fraction):
    """Time value of 1/fraction s: a mark of the doubling series, else literal."""
    return MODERN.get(fraction, log2(fraction))


def seconds(t):
    return -log2(t)


def power(t, p=1.31):
    """What t seconds by the clock are worth on pan film: t_c = t^p above 1 s, turned round."""
    return t if t <= 1 else t ** (1 / p)


TABLE = [(1, 1), (2, 3), (4, 7), (8, 16), (15, 35)]


def table(t):
    """The same for the ortho film's table, log-log between entries; None beyond it."""
    if t <= 1:
        return t
    for (m0, c0), (m1, c1) in zip(TABLE, TABLE[1:]):
        if t <= c1:
            return 2 ** (log2(m0) + log2(t / c0) * log2(m1 / m0) / log2(c1 / c0))
    return None


def bellows(ext, focal):
    return 2 * log2(ext / focal)


def ei_shift(film, meter):
    return (THIRDS[film] - THIRDS[meter]) / 3


Y8, O21, R25, POL, GREY = 1, 2, 3, 1.5, 1.8 * log2(10)
Y8_ORTHO = log2(2.5)
G11 = log2(3)  # undeclared: published x3 to x4 (F-4016, F-4043, Feb 2016); judged against the nearer

R, OFF, UNCH = "right", "off", "unchecked"

# id, needed EV, given EV (None where it cannot be judged), state, kind, why
D1, D2, D3 = "2026-10-04 ", "2026-10-25 ", "2026-11-07 "
SLOW60 = log2(45)
shed, bench = 7, 5
post = 7 + log2(10)
post_ext = bellows(260, 210)
pool = 11 + 1 / 3
SHEETS = [
    (D1 + "1A", 14, av(16, .5) + SLOW60, R, "", "EV 14; f16 and a half at the slow sixtieth (1/45) is EV 13.99"),
    (D1 + "1B", 14 - Y8, av(16) + tv(30), R, "", "14 - 1 = 13; 1/30 f16 is 13 (1/60 was struck out)"),
    (D1 + "2A", 14 - R25, av(16) + tv(8), R, "", "14 - 3 = 11; 1/8 f16 is 11"),
    (D1 + "2B", 14, av(16, .5) + tv(8), OFF, "last sheet's time left on", "14 asked without filter; the red filter's 1/8 stayed on the lens: 1/8 f16½ is 11.50"),
    (D1 + "3A", 14 - G11, av(16, 1 / 3) + tv(15), R, "", "undeclared: published x3 to x4 ask 12.42 to 12.00; given 12.33 lies between (stops here against x3)"),
    (D1 + "3B", 14 - O21, av(16, .5) + SLOW60, OFF, "filter not compensated", "14 - 2 = 12; settings equal to 1A, 13.99"),
    (D1 + "4A", 11, av(11, .5) + tv(10), R, "", "EV 11; f11½ at 1/10 is 10.82, nearest the old shutter allows by half stops"),
    (D1 + "4B", 11, av(11, .5) + tv(10), R, "", "twin of 4A"),
    (D1 + "5A", 9 + 2, av(16) + tv(8), R, "speed the shutter lacks", "EV 9 on III asks 11; 1/8 f16 is 11, but the 210 has no 1/8 (1/5 1/10)"),
    (D1 + "5B", 12.5 + 1.5 - R25 - POL, av(11, .5) + tv(4), R, "", "EV 12½ on III½ asks 14; - 3 - 1½ = 9.5; 1/4 f11½ is 9.5"),
    (D1 + "6A", None, None, "no-image", "red filter on ortho film", "orthochromatic film is blind to what a Wratten 25 passes: no factor is right"),
    (D1 + "6B", 14 - Y8, av(16) + tv(30), R, "film logged against film in holder", "14 - 1 = 13, given 13 for sedge; but 6B was loaded with curlew"),
    (D2 + "1A", shed, av(22) + seconds(power(6)), R, "", "EV 5 on III asks 7: 4 s at f22, 6.15 s after t^1.31; 6 s works as 3.93 s"),
    (D2 + "1B", shed, av(32) + seconds(power(8)), OFF, "reciprocity forgotten", "8 s at f32 asks 15.2 s by the clock; 8 s works as 4.89 s"),
    (D2 + "2A", shed - Y8, av(22) + seconds(power(15)), R, "", "7 - 1 = 6: 8 s at f22, 15.2 s by the clock; 15 s works as 7.90 s"),
    (D2 + "2B", shed - Y8 - 1, av(22) + seconds(power(38)), R, "developed otherwise than asked", "bracket +1: 16 s at f22, 37.8 s by the clock; right, but N-1 was wanted (copied by same) and it got N"),
    (D2 + "3A", 8 - bellows(300, 210), av(11) + tv(2), OFF, "bellows forgotten", "300 mm on a 210 mm lens is 1.03 stops: 6.97 asked; 1/2 f11 is 8"),
    (D2 + "3B", bench + ei_shift(ORTHO_TUNGSTEN_EI, 10), av(16) + seconds(table(16)), R, "", "average of EV 4 and 6 at the tungsten EI 10: 8 s at f16, table 8s=16s"),
    (D2 + "4A", bench, None, UNCH, "", "16 s at f22 lies beyond the table, whose last entry is 15s=35s; its scan is missing"),
    (D2 + "4B", post - post_ext, av(11, 1 / 3) + tv(5), R, "", "1/10 f11 is 10.32; 260 mm on 210 mm is 0.62: 9.71; 1/5 f11⅓ is 9.66"),
    (D2 + "5A", post - post_ext - Y8_ORTHO, av(11, 1 / 3) + tv(2), R, "", "9.71 - log2 2.5 = 8.38; 1/2 f11⅓ is 8.33"),
    (D2 + "5B", None, None, "unexposed", "", "written unused"),
    (D3 + "1A", 13.5, av(16, .5) + tv(30), R, "", "1/30 f16½ as metered"),
    (D3 + "1B", 13.5 - Y8, av(16, .5) + tv(15), R, "", "13.5 - 1 = 12.5; 1/15 f16½ (1/8 withdrawn)"),
    (D3 + "2A", 13.5 - POL - O21, av(16) + tv(4), R, "", "13.5 - 1½ - 2 = 10; 1/4 f16 is 10"),
    (D3 + "2B", 13.5 - Y8, av(16, .5) + tv(60), OFF, "compensated the wrong way", "13.5 - 1 = 12.5; 1/60 f16½ is 14.5, twice the filter's stop too little"),
    (D3 + "3A", 13.5 - O21, av(16, .5) + tv(2), OFF, "factor used as stops", "x4 is 2 stops: 11.5; 1/2 f16½ is 9.5, four stops given"),
    (D3 + "3B", pool - GREY, av(32) + seconds(power(70)), R, "", "11.33 - 5.98 = 5.35: 25.0 s at f32 (amended from f22), 68 s by the clock; 70 s works as 25.6 s"),
    (D3 + "4A", pool - GREY, av(22, .5) + seconds(1), OFF, "density used as stops", "ND 1.8 is 5.98 stops: 5.35; 1 s f22½ is 9.5, only 1.83 stops given"),
    (D3 + "4B", 9 + 2, av(8, 2 / 3) + tv(5), OFF, "reading not placed", "EV 9 on III asks 11; 1/5 f8⅔ is 8.99, the bare reading"),
    (D3 + "5A", 9 + 2, av(8, 1 / 3) + tv(25), R, "", "11; 1/25 f8⅓ is 10.98"),
    (D3 + "2A'2", 9 + 2, av(8, 1 / 3) + tv(25), R, "sheet exposed twice", "ditto 5A, right in itself; but holder side 2A was exposed in the morning and not reloaded"),
    (D3 + "5B", 13 + ei_shift(PAN_EI, ORTHO_EI), av(16) + tv(30), OFF, "meter left at another EI", "1/30 f16 read at EI 20 is 14.67 at EI 64; given 13"),
    (D3 + "6A", None, av(22) + tv(15), UNCH, "", "no reading"),
]


def row(ident, needed, given, state, kind, why):
    """One line of the key; a sheet that drifts across its own state stops the run."""
    if needed is None or given is None or state not in (R, OFF):
        return ident, state, "", kind, why
    d = needed - given
    if (state == R and abs(d) > 0.30) or (state == OFF and abs(d) < 0.45):
        raise SystemExit(f"{ident}: {d:+.2f} stop does not fit {state}")
    return ident, state, f"{d + 0.0:+.2f}".replace("-0.00", "+0.00"), kind, why


if __name__ == "__main__":
    assert table(36) is None and table(16) == 8
    with open("key.csv", "w", newline="", encoding="utf-8") as out:
        w = csv.writer(out, lineterminator="\n")
        w.writerow(["id", "state", "stops", "kind", "why"])
        w.writerows(row(*s) for s in SHEETS)
