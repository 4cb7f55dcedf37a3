# SPDX-License-Identifier: MIT
"""The core's review of joists of one shape in numpy: one of those that
tests/bench_beside.lua measures the core against.

One simple span under dead and live floor load, two combinations, cut by two holes, a
notch and a slot. Method, order and numbers are those of tests/bench_lua.lua, whose names
stand here too; terms that are nil for all joists of the shape are left out. A quantity is
a row with one entry a joist, or a block of rows with one row a cut, a break or a segment.
Joists are taken in blocks that stay in the cache, and what no joist of a block needs is
branched around.

  python3 tests/bench_numpy.py FILE SECONDS

FILE holds doubles: joists, fields a joist, two rows with the ranges of the fields, the
joist that is timed, then the others. Printed are the best rate in joists per second of
CPU time, with the block it was found with, and the answers to the others, a line each:
ratio uncut, ratio cut, action; or "-" where the joist is refused.
"""
import sys
import time

import numpy as np

HOLE_1, HOLE_2, NOTCH, SLOT = range(4)
OPEN = [HOLE_1, HOLE_2, SLOT]
LEAVE, JUSTIFY, DECIDE, REPAIR, REFER = range(5)
CUTS, OWN_BREAKS = 4, 12  # a cut that is read off its edges has two more
PAIR_A, PAIR_B = [0, 0, 0, 1, 1, 2], [1, 2, 3, 2, 3, 3]
PAIRS = list(enumerate(zip(PAIR_A, PAIR_B)))
SLACK, NO_CAPACITY, INSIDE = 1e-6, 1e12, 1e-7

# Combinations of the standard: dead, live, CD; the numbers of its gate.
COMBOS = [(1.0, 0.0, 0.9), (1.0, 1.0, 1.0)]
TESTED_HOLE, OUTER_PART, INNER_NOTCH, THICK = 0.40, 1 / 3, 1 / 6, 3.5

FIELDS = """span bearing_left bearing_right b d plies spacing dead live Fb Ft Fv Fc_perp
  Fc E Emin CF CF_t CF_c wet temperature incised repetitive members sheathed Kcr
  limit_live limit_total notch_raiser blocking_1 blocking_2
  1.at 1.diameter 1.stretch 1.from_right 1.place 1.off
  2.at 2.diameter 2.stretch 2.from_right 2.place 2.off
  3.from 3.to 3.depth 3.overcut 3.split_length 3.taper 3.accept 3.top 3.from_right
  4.from 4.to 4.height 4.from_right 4.place 4.off""".split()
ROW = {name: row for row, name in enumerate(FIELDS)}
OPTIONAL = ["Ft", "Fc", "Fc_perp", "limit_live", "limit_total"]
PLACES = ["1.place", "2.place", "4.place"]
FROM_BELOW, FROM_ABOVE = 1, 2

# Size factor, CM, the F CF below which it is 1, Ct over 100 F dry and wet, over 125 F
# dry and wet, Ci, whether CD applies.
BASES = {
    "Fb": ("CF", 0.85, 1150, 0.8, 0.7, 0.7, 0.5, 0.8),
    "Ft": ("CF_t", 1.0, 0, 0.9, 0.9, 0.9, 0.9, 0.8),
    "Fv": (None, 0.97, 0, 0.8, 0.7, 0.7, 0.5, 0.8),
    "Fc_perp": (None, 0.67, 0, 0.8, 0.7, 0.7, 0.5, 1.0),
    "Fc": ("CF_c", 0.8, 750, 0.8, 0.7, 0.7, 0.5, 0.8),
    "E": (None, 0.9, 0, 0.9, 0.9, 0.9, 0.9, 0.95),
    "Emin": (None, 0.9, 0, 0.9, 0.9, 0.9, 0.9, 0.95),
}


def rows(joists, *names):
    """Copies of some fields, one row each."""
    return joists[[ROW[name] for name in names]]


# ---------------------------------------------------------------------- ranges, values


class Work:
    """The joists at hand: their fields by name, and all that is found out."""

    def __init__(self, joists, low, high):
        for name, row in ROW.items():
            if name[0] not in "1234":
                setattr(self, name, joists[row])
        self.joists = joists
        self.n = joists.shape[1]
        self.ok = ((joists >= low) & (joists <= high)).all(axis=0)
        self.ok &= ((self.repetitive == 0) | (self.repetitive >= 1))
        optional = rows(joists, *OPTIONAL)
        self.ok &= ((optional == 0) | (optional >= 1)).all(axis=0)
        self.total, self.ply = self.span, self.b
        self.width = self.b * self.plies
        self.start = -self.bearing_left / 2
        self.finish = self.total + self.bearing_right / 2


def adjusted(w, name):
    """Reference value times all factors but CD."""
    size, cm, free, dry_100, wet_100, dry_125, wet_125, ci = BASES[name]
    F = getattr(w, name)
    FCF = F * getattr(w, size) if size else F
    k = FCF * np.where(w.wet_on & (FCF > free), cm, 1) if cm != 1 else FCF
    if w.any_hot:
        over_125 = np.where(w.wet_on, wet_125, dry_125)
        over_100 = np.where(w.wet_on, wet_100, dry_100)
        hot = np.where(w.temperature > 125, over_125, over_100)
        k = k * np.where(w.temperature > 100, hot, 1)
    return k * np.where(w.incised != 0, ci, 1)


def adjust_values(w):
    w.wet_on, w.any_hot = w.wet != 0, (w.temperature > 100).any()
    for name in ("Fb", "Ft", "Fv", "Fc"):
        value = adjusted(w, name)
        setattr(w, name + "_c", [value * CD for _, _, CD in COMBOS])
    w.Fc_perp_c = adjusted(w, "Fc_perp")
    w.E_c, w.Emin_c = adjusted(w, "E"), adjusted(w, "Emin")


# ---------------------------------------------------------------------------- geometry


def clamped(part):
    return np.minimum(np.maximum(part, 0), 1)


def between_ends(part, round_, slot):
    return np.where(part < 1, round_ + part * (slot - round_), slot)


def place_along(w):
    """Extents of the cuts as described, from the left bearing."""
    J = w.joists
    x1, x2 = np.empty((CUTS, w.n)), np.empty((CUTS, w.n))
    at, stretch = rows(J, "1.at", "2.at"), rows(J, "1.stretch", "2.stretch")
    half = rows(J, "1.diameter", "2.diameter") * stretch / 2
    np.subtract(at, half, out=x1[:NOTCH])
    np.add(at, half, out=x2[:NOTCH])
    x1[NOTCH:], x2[NOTCH:] = rows(J, "3.from", "4.from"), rows(J, "3.to", "4.to")
    w.LENGTH = x2[NOTCH:] - x1[NOTCH:]
    turned = rows(J, "1.from_right", "2.from_right", "3.from_right", "4.from_right") != 0
    if turned.any():
        x1, x2 = np.where(turned, w.total - x2, x1), np.where(turned, w.total - x1, x2)
    fits = (x2 > x1) & (x1 >= w.start - SLACK) & (x2 <= w.finish + SLACK)
    w.ok &= fits.all(axis=0)
    split = J[ROW["3.split_length"]]
    x1[NOTCH] -= split
    x2[NOTCH] += split
    w.X1, w.X2 = np.maximum(x1, w.start, out=x1), np.minimum(x2, w.finish, out=x2)
    w.XC = (w.X1 + w.X2) / 2
    w.askew = clamped(4 * (stretch - 1))


def place_across(w):
    """Bands of depth that are gone."""
    J, d = w.joists, w.d
    size = rows(J, "1.diameter", "2.diameter", "3.depth", "4.height")
    w.ok &= ((size > 0) & (size < d)).all(axis=0)
    size[NOTCH] += J[ROW["3.overcut"]]
    w.ok &= size[NOTCH] < d
    low = (d - size) / 2
    place, off = rows(J, *PLACES), rows(J, "1.off", "2.off", "4.off")
    if place.any():
        w.ok &= ((place == 0) | (off + size[OPEN] <= d + 1e-9)).all(axis=0)
        above = np.where(place == FROM_ABOVE, d - off - size[OPEN], low[OPEN])
        low[OPEN] = np.where(place == FROM_BELOW, off, above)
    w.top = J[ROW["3.top"]] != 0
    low[NOTCH] = np.where(w.top, d - size[NOTCH], 0)
    high = low + size
    high[NOTCH] = np.where(w.top, d, size[NOTCH])
    low[low < 1e-9] = 0
    w.SIZE, w.Y1, w.Y2 = size, low, np.where(high > d - 1e-9, d, high)


def start_groups(w):
    """What nearness and length are measured in, and where M and V are read: a hole is a
    slot as far as it is askew."""
    along = w.X2 - w.X1
    w.SIGMA = np.maximum(w.SIZE, np.minimum(along, w.d))
    w.SIGMA[NOTCH] = w.SIZE[NOTCH]
    w.TIE, w.FRAME, w.R1, w.R2 = along, along.copy(), w.X1.copy(), w.X2.copy()
    w.BETWEEN = np.zeros((CUTS, w.n), bool)
    part, D, holes = w.askew, w.SIZE[:NOTCH], slice(0, NOTCH)
    frame = D / 2 * clamped((D / w.d - 0.45) / 0.15)
    w.SIGMA[holes] = between_ends(part, D, w.SIGMA[holes])
    w.TIE[holes] = between_ends(part, D / 2, w.TIE[holes])
    w.FRAME[holes] = between_ends(part, frame, w.FRAME[holes])
    w.R1[holes] = between_ends(part, w.XC[holes] - frame / 2, w.X1[holes])
    w.R2[holes] = between_ends(part, w.XC[holes] + frame / 2, w.X2[holes])
    w.BETWEEN[holes] = (part < 1) & (w.FRAME[holes] > 0)


def find_gaps(w):
    """Clear distances of all pairs of cuts: boxes, but two holes as circles as far as
    they are not askew."""
    X1, X2, Y1, Y2 = w.X1, w.X2, w.Y1, w.Y2
    dx = np.maximum(X1[PAIR_B] - X2[PAIR_A], X1[PAIR_A] - X2[PAIR_B])
    dy = np.maximum(Y1[PAIR_B] - Y2[PAIR_A], Y1[PAIR_A] - Y2[PAIR_B])
    np.maximum(dx, 0, out=dx)
    np.maximum(dy, 0, out=dy)
    w.GAP = np.sqrt(dx * dx + dy * dy)
    cx, cy = w.XC[0] - w.XC[1], (Y1[0] + Y2[0] - Y1[1] - Y2[1]) / 2
    clear = np.sqrt(cx * cx + cy * cy) - (w.SIZE[0] + w.SIZE[1]) / 2
    w.GAP[0] = between_ends(w.askew.max(axis=0), np.maximum(clear, 0), w.GAP[0])


def join(w, a, b, near):
    """Two that are wholly one take the box around both."""
    for block, both in ((w.G1, np.minimum), (w.G2, np.maximum), (w.H1, np.minimum),
                        (w.H2, np.maximum), (w.VOICE, np.minimum),
                        (w.OPENING, np.logical_or)):
        shared = both(block[a], block[b])
        np.copyto(block[a], shared, where=near)
        np.copyto(block[b], shared, where=near)
    along = np.where(w.OPENING[a], np.minimum(w.G2[a] - w.G1[a], w.d), 0)
    size = np.maximum(w.H2[a] - w.H1[a], along)
    np.copyto(w.SIGMA[a], size, where=near)
    np.copyto(w.SIGMA[b], size, where=near)
    w.MERGED[a] |= near
    w.MERGED[b] |= near


def group_gap(w, pair, a, b):
    dx = np.maximum(w.G1[b] - w.G2[a], w.G1[a] - w.G2[b])
    dy = np.maximum(w.H1[b] - w.H2[a], w.H1[a] - w.H2[b])
    dx, dy = np.maximum(dx, 0), np.maximum(dy, 0)
    grown = w.MERGED[a] | w.MERGED[b]
    return np.where(grown, np.sqrt(dx * dx + dy * dy), w.GAP[pair])


def weight_of(w, pair, a, b):
    """How far two cuts count as one: not at all from a gap of the smaller size, wholly
    from half of it."""
    least = np.maximum(np.minimum(w.SIGMA[a], w.SIGMA[b]), 1e-9)
    return clamped(2 - 2 * group_gap(w, pair, a, b) / least)


def close_groups(w):
    """A group of more than one is worked over its length, as a slot is."""
    along = w.G2 - w.G1
    for block, whole in ((w.TIE, along), (w.FRAME, along), (w.R1, w.G1), (w.R2, w.G2)):
        np.copyto(block, whole, where=w.MERGED)
    w.BETWEEN &= ~w.MERGED


def lean(w, c, own):
    """A cut leans on what is near it but not one with it: each edge goes the furthest
    way that any of them draws it. `own`: where M and V are read before that."""
    for pair, both in PAIRS:
        if c not in both:
            continue
        e = both[0] + both[1] - c
        f = np.where(w.VOICE[c] == w.VOICE[e], 0, weight_of(w, pair, *both))
        if not f.any():
            continue
        x1, x2 = np.minimum(w.G1[c], w.G1[e]), np.maximum(w.G2[c], w.G2[e])
        y1, y2 = np.minimum(w.H1[c], w.H1[e]), np.maximum(w.H2[c], w.H2[e])
        for block, edge, to, most in (
                (w.B1, w.G1[c], x1, np.minimum), (w.B2, w.G2[c], x2, np.maximum),
                (w.E1, w.H1[c], y1, np.minimum), (w.E2, w.H2[c], y2, np.maximum),
                (w.R1, own[0], x1, np.minimum), (w.R2, own[1], x2, np.maximum)):
            most(block[c], edge + f * (to - edge), out=block[c])
        np.maximum(w.WEIGHT[c], f, out=w.WEIGHT[c])


def lean_all(w):
    w.B1, w.B2, w.E1, w.E2 = w.G1.copy(), w.G2.copy(), w.H1.copy(), w.H2.copy()
    w.WEIGHT = np.zeros((CUTS, w.n))
    for c in range(CUTS):
        lean(w, c, (w.R1[c].copy(), w.R2[c].copy()))
    near = w.WEIGHT > 0
    own, along, left = w.G2 - w.G1, w.B2 - w.B1, 1 - w.WEIGHT
    np.copyto(w.TIE, along - left * (own - w.TIE), where=near)
    np.copyto(w.FRAME, along - left * (own - w.FRAME), where=near)
    w.BETWEEN |= near


def merge(w):
    w.G1, w.G2, w.H1, w.H2 = w.X1, w.X2, w.Y1, w.Y2
    w.VOICE = np.repeat(np.arange(CUTS)[:, None], w.n, axis=1)
    w.MERGED = np.zeros((CUTS, w.n), bool)
    w.OPENING = np.ones((CUTS, w.n), bool)
    w.OPENING[NOTCH] = False
    some = (w.GAP < np.minimum(w.SIGMA[PAIR_A], w.SIGMA[PAIR_B])).any()
    if some:
        w.G1, w.G2, w.H1, w.H2 = w.G1.copy(), w.G2.copy(), w.H1.copy(), w.H2.copy()
        for _ in range(CUTS - 1):
            for pair, (a, b) in PAIRS:
                one = weight_of(w, pair, a, b) >= 1
                if one.any():
                    join(w, a, b, one)
        close_groups(w)
        lean_all(w)
    else:
        w.B1, w.B2, w.E1, w.E2 = w.G1, w.G2, w.H1, w.H2
    w.SIDE = np.maximum(w.H2 - w.H1, w.G2 - w.G1)


def refuse_twins(w):
    """A hole entered twice; the other cuts are of different kinds."""
    (a1, b1), (a2, b2) = w.X1[:2], w.X2[:2]
    over = (a1 >= b1 - 1e-6) & (a2 <= b2 + 1e-6)
    under = (b1 >= a1 - 1e-6) & (b2 <= a2 + 1e-6)
    touch = (w.Y1[0] < w.Y2[1]) & (w.Y1[1] < w.Y2[0])
    w.ok &= ~((over | under) & touch)


# ---------------------------------------------------------------------------- sections


def bottom_modulus(s, u, H):
    """S at the bottom edge of a strip one inch wide: s below, u above, H deep."""
    v, Q = H - u, s * s / 2 + u * (H - u / 2)
    J = (s * s * s + H * H * H - v * v * v) / 3
    return np.where(Q > 0, J * (s + u) / Q - Q, 0)


def kern_root(u, H, s):
    v, Q = H - u, 6 * u * (H - u / 2)
    J = 2 * (H * H * H - v * v * v)
    for _ in range(6):
        s2 = s * s
        s = s - (s2 * s + Q * s - J) / (3 * s2 + Q + 1e-300)
    return s


def least_bottom(s, u, H):
    """Least S at the bottom edge over the openings within s..H-u."""
    top, least = H - u, np.minimum(H * H / 6, bottom_modulus(s, u, H))
    t = s + H - np.sqrt(2 * s * H)
    inside = (t > s) & (t < top)
    if inside.any():
        grown = np.minimum(least, bottom_modulus(s, H - t, H))
        least = np.where(inside, grown, least)
    k = kern_root(u, H, top)
    inside = (k > s) & (k < top)
    if inside.any():
        least = np.where(inside, np.minimum(least, bottom_modulus(k, u, H)), least)
    return least


def lip_section(h, u, H):
    """Centroid from the edge of a lip, and I, per inch, where it feels most of M."""
    t = h + H - np.sqrt(2 * h * H)
    u2 = np.where((t > h) & (t < H - u), H - t, u)
    A, Q, v = h + u2, h * h / 2 + u2 * (H - u2 / 2), H - u2
    J = (h * h * h + H * H * H - v * v * v) / 3
    y = np.where(A > 0, Q / A, 0)
    return y, J - Q * y


def two_chords(hb, ht, H):
    """Area, I and least S of the chords below and above one band, per inch."""
    A, v, Q = hb + ht, H - ht, hb * hb / 2 + ht * (H - ht / 2)
    some = A > 0
    y = np.where(some, Q / A, 0)
    I = (hb * hb * hb + H * H * H - v * v * v) / 3 - Q * y
    Sb = I / np.where(hb > 0, y, y - v)
    St = I / (np.where(ht > 0, H, hb) - y)
    return A, np.where(some, I, 0), np.where(some, np.minimum(Sb, St), 0)


def inertia_of_two(hb, ht, H):
    A, v, Q = hb + ht, H - ht, hb * hb / 2 + ht * (H - ht / 2)
    return np.where(A > 0, (hb * hb * hb + H * H * H - v * v * v) / 3 - Q * Q / A, 0)


def lip_limit(w, size):
    """Wood that counts is this deep, beside an opening of a size."""
    return np.minimum(np.maximum(w.d / 8, 1), size)


def three_chords(w, hb, ht, bands):
    """The same about two bands, the second over or under the first: the chords from the
    lowest, I, least S, the area in shear, the centroid, whether over. A lip too thin to
    count goes with its opening."""
    y1, y2, size, z1, z2, side = bands
    H, far = w.d, lip_limit(w, side) - 1e-9
    lip = np.minimum(lip_limit(w, size) - 1e-9, far)
    over = z1 >= y2
    z1 = np.where(~over & (z1 < far), 0, z1)
    z2 = np.where(over & (H - z2 < far), H, z2)
    h1, h3 = np.where(over, hb, z1), np.where(over, H - z2, ht)
    h2 = np.where(over, z1 - y2, y1 - z2)
    h2 = np.where(h2 < lip, 0, h2)
    c1, c2, c3 = h1 / 2, np.where(over, z1 + y2, y1 + z2) / 2, H - h3 / 2
    A = h1 + h2 + h3
    some = A > 0
    y = np.where(some, (h1 * c1 + h2 * c2 + h3 * c3) / A, 0)
    own = h1 * h1 * h1 + h2 * h2 * h2 + h3 * h3 * h3
    I = own / 12 + h1 * (y - c1) ** 2 + h2 * (y - c2) ** 2 + h3 * (y - c3) ** 2
    I = np.where(some, I, 0)
    low = np.where(h1 > 0, 0, np.where(h2 > 0, c2 - h2 / 2, H - h3))
    high = np.where(h3 > 0, H, np.where(h2 > 0, c2 + h2 / 2, h1))
    Sb, St = I / (y - low), I / (high - y)
    big = np.maximum(np.maximum(h1, h2), h3)
    S = np.where(some, np.minimum(Sb, St), 0)
    return h1, h2, h3, I, S, np.where(some, own / (big * big), 0), y, over


def lips(H, lip, y1, y2):
    """Wood below and above a band, and what of it counts."""
    s, u = np.maximum(y1, 0), H - np.minimum(y2, H)
    return s, u, np.where(s < lip - 1e-9, 0, s), np.where(u < lip - 1e-9, 0, u)


def add_band(w, c, on, is_sorted, bands):
    """Bands y and z, with the longer side of each, with the group of cut c added where
    it is `on`. The first is the cut's own, or the lowest where they are sorted; all the
    others become one."""
    y1, y2, size, z1, z2, side = bands
    low, high, of = np.maximum(w.H1[c], 0), np.minimum(w.H2[c], w.d), w.SIDE[c]
    on = on & (high > low)
    none, same = y2 <= y1, (y1 == low) & (y2 == high)
    swap = on & ~none & ~same & (low < y1) if is_sorted else False
    first = on & none | swap
    rest = on & ~none & ~same
    p1, p2 = np.where(swap, y1, low), np.where(swap, y2, high)
    p = np.where(swap, size, of)
    more = z2 > z1
    z1, z2, side = (np.where(rest, np.where(more, np.minimum(p1, z1), p1), z1),
                    np.where(rest, np.where(more, np.maximum(p2, z2), p2), z2),
                    np.where(rest, np.where(more, np.maximum(p, side), p), side))
    size = np.where(first, of, np.where(on & same, np.maximum(size, of), size))
    return np.where(first, low, y1), np.where(first, high, y2), size, z1, z2, side


def join_bands(bands):
    """A band whose edges moved may reach into one over or under it: both are one then."""
    y1, y2, size, z1, z2, side = bands
    touch = (z2 > z1) & (z1 <= y2) & (z2 >= y1)
    if not touch.any():
        return bands
    low, high = np.minimum(y1, z1), np.maximum(y2, z2)
    both = np.maximum(np.maximum(size, side), high - low)
    return (np.where(touch, low, y1), np.where(touch, high, y2),
            np.where(touch, both, size), np.where(touch, 0, z1), np.where(touch, 0, z2),
            side)


def bands_of_cuts(w):
    """Own band of each cut, and those of others that stand over or under it."""
    y1, y2 = np.maximum(w.E1, 0), np.minimum(w.E2, w.d)
    size = np.maximum(w.E2 - w.E1, w.B2 - w.B1)
    meet = ((w.G1[PAIR_A] < w.G2[PAIR_B]) & (w.G2[PAIR_A] > w.G1[PAIR_B])
            & (w.VOICE[PAIR_A] != w.VOICE[PAIR_B]))
    if not meet.any():
        return y1, y2, size, None, None, None
    bands = (y1, y2, size, *np.zeros((3, CUTS, w.n)))
    for pair, both in PAIRS:
        for c, e in (both, both[::-1]):
            of_c = add_band(w, e, meet[pair], False, [block[c] for block in bands])
            for block, row in zip(bands, join_bands(of_c)):
                block[c] = row
    return bands


def chord_shear(w, hb, ht, A):
    """1/A_v goes from 1/A to 1/A_h as the opening grows to twice the length of the
    shallower chord's depth."""
    m, big = np.minimum(hb, ht), np.maximum(hb, ht)
    least = 1.2599210498948732 * m  # cube root of 2
    big = np.where(big >= least, big, np.minimum(least, w.d - m))
    A_h, part = big + m * m * m / (big * big), clamped(w.TIE / (2 * m))
    chords = (m > 0) & (A_h < A) & (part > 0)
    return np.where(chords, 1 / ((1 - part) / A + part / A_h), A)


def cut_sections(w):
    bands = bands_of_cuts(w)
    lip = lip_limit(w, bands[2])
    s, u, hb, ht = lips(w.d, lip, *bands[:2])
    w.THIN = [hb <= 0, ht <= 0]
    A, _, least = two_chords(hb, ht, w.d)
    A = chord_shear(w, hb, ht, A)
    w.HB, w.HT, w.HM, w.CM = hb, ht, np.zeros_like(hb), np.zeros_like(hb)
    least = openings_within(w, s, u, lip, least)
    if bands[3] is not None:
        least, A = with_second_band(w, bands, least, A)
    w.LEAST, w.AV = w.width * least, w.width * A


def openings_within(w, s, u, lip, net):
    """Chords, lips and least S over the openings within that keep both lips."""
    H, s2, u2 = w.d, np.maximum(s, lip), np.maximum(u, lip)
    is_open = s2 + u2 < H
    s2, u2 = np.where(is_open, s2, H / 2), np.where(is_open, u2, H / 2)
    both = is_open & (w.HB > 0) & (w.HT > 0)
    w.CHORD = [np.where(both, w.HB, 0), np.where(both, w.HT, 0)]
    y_b, I_b = lip_section(s2, u2, H)
    y_t, I_t = lip_section(u2, s2, H)
    w.LIP_Y, w.LIP_I = [y_b, y_t], [w.width * I_b, w.width * I_t]
    least = np.minimum(least_bottom(s2, u2, H), least_bottom(u2, s2, H))
    return np.where(is_open, np.minimum(net, least), net)


def with_second_band(w, bands, least, A):
    H, two = w.d, bands[4] > bands[3]
    h1, h2, h3, I, S, A3, y, over = three_chords(w, w.HB, w.HT, bands)
    outer_b = np.where(h1 > 0, h1, np.where(over, 0, h2))
    outer_t = np.where(h3 > 0, h3, np.where(over, h2, 0))
    np.copyto(w.THIN[1], outer_t <= 0, where=two & over)
    np.copyto(w.THIN[0], outer_b <= 0, where=two & ~over)
    chords = two & (outer_b > 0) & (outer_t > 0)
    np.copyto(w.CHORD[0], np.where(chords, outer_b, 0), where=two)
    np.copyto(w.CHORD[1], np.where(chords, outer_t, 0), where=two)
    w.CM = np.where(chords & (np.where(over, h3, h1) > 0), h2, 0)
    for face, arm in ((0, y), (1, H - y)):
        half, Y, I_lip = w.CHORD[face] / 2, w.LIP_Y[face], w.LIP_I[face]
        worse = chords & (I > 0) & ((arm - half) / (w.width * I) > (Y - half) / I_lip)
        np.copyto(Y, arm, where=worse)
        np.copyto(I_lip, w.width * I, where=worse)
    w.HB, w.HT = np.where(two, h1, w.HB), np.where(two, h3, w.HT)
    w.HM = np.where(two, h2, 0)
    least = np.where(two, np.minimum(least, S), least)
    return least, np.where(two, np.minimum(A, A3), A)


# -------------------------------------------------------------------------------- beam


def merge_exchange(n):
    """Batcher's network (Knuth 5.2.2 M): what a sort of 12 rows compares."""
    pairs, top = [], 1
    while top < n:
        top *= 2
    p = top // 2
    while p > 0:
        q, r, d = top // 2, 0, p
        while d > 0:
            pairs += [(k, k + d) for k in range(n - d) if k & p == r]
            d, q, r = q - p, q // 2, p
        p //= 2
    return pairs


NETWORK = merge_exchange(OWN_BREAKS)


def set_breaks(w):
    more = [c for c in range(CUTS) if w.BETWEEN[c].any()]
    w.breaks = OWN_BREAKS + 2 * len(more)
    w.segments = w.breaks - 1
    x = np.empty((w.breaks, w.n))
    x[0], x[1] = 0, w.total
    x[2:6], x[6:10], x[10:12] = w.X1, w.X2, w.XC[:NOTCH]
    x[12::2], x[13::2] = w.R1[more], w.R2[more]
    np.clip(x, 0, w.total, out=x)
    lower = np.empty(w.n)
    if more:
        x.sort(axis=0)
    for low, high in NETWORK if not more else ():
        np.minimum(x[low], x[high], out=lower)
        np.maximum(x[low], x[high], out=x[high])
        x[low] = lower
    w.X, w.STEP, w.MID = x, x[1:] - x[:-1], (x[1:] + x[:-1]) / 2
    w.PAST = x >= w.total
    w.w = [w.dead * w.spacing / 144, w.live * w.spacing / 144]


def set_stiffness(w):
    """Stiffness of both states; a segment that is cut through counts as whole."""
    gross = w.width * (w.d * w.d * w.d / 12)
    inside = [(w.MID > w.G1[c]) & (w.MID < w.G2[c]) & (w.VOICE[c] == c)
              for c in range(CUTS)]
    y1, y2, size = np.zeros((3, w.segments, w.n))
    bands = None
    if (sum(x.view(np.int8) for x in inside) > 1).any():
        bands = (y1, y2, size, y1, y2, size)
        for c in range(CUTS):
            bands = add_band(w, c, inside[c], True, bands)
        y1, y2, size = bands[:3]
    else:
        for c in range(CUTS):
            np.copyto(y1, np.maximum(w.H1[c], 0), where=inside[c])
            np.copyto(y2, np.minimum(w.H2[c], w.d), where=inside[c])
            np.copyto(size, w.SIDE[c], where=inside[c])
    _, _, hb, ht = lips(w.d, lip_limit(w, size), y1, y2)
    I = inertia_of_two(hb, ht, w.d)
    if bands is not None:
        I = np.where(bands[4] > bands[3], three_chords(w, hb, ht, bands)[3], I)
    I = np.where((y2 > y1) & (I > 0), w.width * I, gross)
    w.EI = [np.broadcast_to(w.E_c * gross, (w.segments, w.n)), w.E_c * I]


def march_forces(w, load):
    """V left and right of each break, M, and the first and last reaction."""
    X, h, q = w.X, w.STEP, w.w[load]
    W = h * q
    S0 = W.sum(axis=0)
    S1 = (X[:-1] * W + h * h * (q / 2)).sum(axis=0)
    first = (w.total * S0 - S1) / w.total
    VL, VR, M = np.zeros((3, w.breaks, w.n))
    V, m = first, np.zeros(w.n)
    for k in range(w.breaks):
        VL[k] = V if k > 0 else 0
        VR[k] = np.where(w.PAST[k], 0, V)
        M[k] = np.where(w.PAST[k], 0, m)
        if k < w.segments:
            m = m + h[k] * (V - h[k] * (q / 2))
            V = V - W[k]
    return VL, VR, M, (first, S0 - first)


def march_sag(w, load, EI):
    """Slope and sag at each break."""
    h, q = w.STEP, w.w[load]
    VR, M = w.VR[load][:-1], w.M[load][:-1]
    hf = h / EI
    turn = hf * (M + h * (VR / 2 - h * (q / 6)))
    fall = hf * (M / 2 + h * (VR / 6 - h * (q / 24)))
    slope, sag = np.zeros((w.breaks, w.n)), np.zeros((w.breaks, w.n))
    for k in range(w.segments):
        sag[k + 1] = sag[k] + h[k] * (slope[k] - fall[k])
        slope[k + 1] = slope[k] - turn[k]
    g = sag[-1] / w.total
    sag -= g * w.X
    slope -= g
    return slope, sag


def solve(w):
    solved = [march_forces(w, load) for load in (0, 1)]
    w.VL, w.VR, w.M, w.R = zip(*solved)
    w.BENT = [[march_sag(w, load, EI) for load in (0, 1)] for EI in w.EI]
    w.W0 = w.STEP * w.w[1]
    w.W1 = w.X[:-1] * w.W0 + w.STEP * w.STEP * (w.w[1] / 2)


# ---------------------------------------------------------------------------- envelope


def envelope(w):
    """Most and least of V and M of live load at every break, and the shear with M."""
    L, W0, W1, mid, n = w.total, w.W0, w.W1, w.MID, w.n
    # The line of V before the place and after it, and loads times it.
    line = [-mid / L, 1 - mid / L]
    v = [-W1 / L, W0 - W1 / L]
    push = [np.where(line[side] > 0, v[side], 0) for side in (0, 1)]
    shape = (2, 2, w.breaks, n)
    w.V_E, w.M_E, w.C_E = np.zeros(shape), np.zeros(shape), np.zeros(shape)
    for k in range(w.breaks):
        x = w.X[k]
        a, b = x / L, (L - x) / L
        V = push[0][:k].sum(axis=0) + push[1][k:].sum(axis=0)
        V_all = v[0][:k].sum(axis=0) + v[1][k:].sum(axis=0)
        before, after = b * mid[:k], a * (L - mid[k:])
        m_before, m_after = b * W1[:k], a * (L * W0[k:] - W1[k:])
        M_all = m_before.sum(axis=0) + m_after.sum(axis=0)
        ends = (x == 0) | w.PAST[k]
        both = k in (0, w.breaks - 1) or ends.any()
        for side, inside in ((1, INSIDE), (0, -INSIDE)) if both else ((1, INSIDE),):
            on_b = before + inside * line[0][:k] > 0
            on_a = after + inside * line[1][k:] > 0
            M = (m_before * on_b).sum(axis=0) + (m_after * on_a).sum(axis=0)
            C = (v[0][:k] * on_b).sum(axis=0) + (v[1][k:] * on_a).sum(axis=0)
            if side == 1:
                on = ~w.PAST[k]
            else:
                on = ~w.PAST[k - 1] if k > 0 else np.zeros(n, bool)
            for E, most, every in ((w.V_E, V, V_all), (w.M_E, M, M_all),
                                   (w.C_E, C, V_all)):
                np.multiply(most, on, out=E[side, 0, k])
                np.multiply(every - most, on, out=E[side, 1, k])
        if k not in (0, w.breaks - 1):
            for E in (w.V_E, w.M_E, w.C_E):
                if both:
                    np.copyto(E[0, :, k], E[1, :, k], where=~ends)
                else:
                    E[0, :, k] = E[1, :, k]


def live_reaction(w, last):
    """Live part of the reaction of the first or the last support."""
    if last:
        line, v = w.MID / w.total, w.W1 / w.total
    else:
        line, v = 1 - w.MID / w.total, w.W0 - w.W1 / w.total
    most = np.where(line > 0, v, 0).sum(axis=0)
    return most, v.sum(axis=0) - most


def cubic_peaks(w, g_D, g_L, sign, M):
    """Where M turns between breaks: has, place, M; None where it never does."""
    way = 1 - 2 * sign
    V0 = g_D * w.VR[0][:-1] + g_L * w.C_E[1, sign, :-1]
    V1 = g_D * w.VL[0][1:] + g_L * w.C_E[0, sign, 1:]
    has = (way * V0 > 0) & (way * V1 < 0) & (w.STEP > 0)
    if not has.any():
        return None
    h = np.where(has, w.STEP, 1)
    rise = M[1:] - M[:-1]
    c2 = (3 * rise / h - 2 * V0 - V1) / h
    c3 = (V0 + V1 - 2 * rise / h) / (h * h)
    under = way * np.sqrt(np.maximum(c2 * c2 - 3 * c3 * V0, 0)) - c2
    x = np.divide(V0, under, out=np.zeros_like(V0), where=under != 0)
    x = np.minimum(np.maximum(x, 0), h)
    return has, w.X[:-1] + x, M[:-1] + x * (V0 + x * (c2 + x * c3)), has.any(axis=1)


def tabulate(w):
    """M by combination and sign at the breaks, and its peaks between."""
    envelope(w)
    w.M_C, w.PEAK = {}, {}
    for c, (g_D, g_L, _) in enumerate(COMBOS):
        for sign in (0, 1):
            M = g_D * w.M[0] + g_L * w.M_E[1, sign]
            M[-1] = g_D * w.M[0][-1] + g_L * w.M_E[0, sign, -1]
            w.M_C[c, sign] = M
            w.PEAK[c, sign] = cubic_peaks(w, g_D, g_L, sign, M)


# ------------------------------------------------------------------------------ checks


class Check:
    """The worst that a check was offered, a row a joist or a block a cut."""

    def __init__(self, shape, binding=True):
        self.ratio = np.full(shape, -1.0)
        self.demand, self.capacity = np.zeros(shape), np.zeros(shape)
        self.at, self.combo = np.zeros(shape), np.zeros(shape, np.int8)
        self.binding = np.full(shape, binding)

    def offer(self, demand, capacity, at, combo, on=None):
        none = np.where(demand > 0, NO_CAPACITY, 0)
        q = np.divide(demand, capacity, out=none, where=capacity > 0)
        np.minimum(q, NO_CAPACITY, out=q)
        take = q > self.ratio
        if on is not None:
            take &= on
        np.copyto(self.ratio, q, where=take)
        np.copyto(self.demand, demand, where=take)
        np.copyto(self.capacity, capacity, where=take)
        np.copyto(self.at, at, where=take)
        np.copyto(self.combo, combo, where=take)
        return take

    def nothing_left(self, w, on):
        """Where nothing is left that counts, a check says so."""
        gone = w.GONE & on
        if gone.any():
            self.ratio[gone], self.demand[gone], self.capacity[gone] = NO_CAPACITY, 1, 0
            np.copyto(self.at, w.XC, where=gone)
            self.binding |= gone


def open_length(w):
    ends = [np.zeros(w.n), w.blocking_1, w.blocking_2]
    longest = np.zeros(w.n)
    for start in ends:
        to = w.total
        for q in ends[1:]:
            to = np.where((q > start + 1e-9) & (q < to), q, to)
        free = (start >= 0) & (start < w.total)
        longest = np.where(free, np.maximum(longest, to - start), longest)
    return longest


def effective_length(w):
    deck = w.sheathed != 0
    if deck.all():
        return np.zeros(w.n)
    u, d = open_length(w), w.d
    r = u / d
    longer = np.where(r <= 14.3, 1.63 * u + 3 * d, 1.84 * u)
    l_e = np.where(r < 7, 2.06 * u, longer)
    return np.where(deck, 0, l_e)


def stability_factor(w, star, l_e):
    if not l_e.any():
        return np.ones(w.n)
    RB2 = l_e * w.d / (w.width * w.width)
    r = 1.20 * w.Emin_c / np.where(RB2 > 0, RB2, 1) / star
    p = (1 + r) / 1.9
    CL = p - np.sqrt(np.maximum(p * p - r / 0.95, 0))
    return np.where(RB2 <= 0, 1, np.where(RB2 > 2500, 1e-6, CL))


def bending_values(w, Cr):
    """Fb by combination and sign: with Cr and CL, and with Cr."""
    w.FB_SIGN, w.FB_STAR = {}, {}
    for c in range(len(COMBOS)):
        star = w.Fb_c[c] * Cr
        CL = stability_factor(w, star, w.l_e)
        w.FB_SIGN[c, 0], w.FB_SIGN[c, 1] = star * CL, star
        w.FB_STAR[c, 0], w.FB_STAR[c, 1] = star * CL / CL, star


def worst_moments(w):
    w.WORST = []
    for c in range(len(COMBOS)):
        M, peak = w.M_C[c, 0], w.PEAK[c, 0]
        most, at = np.zeros(w.n), np.zeros(w.n)
        for k in range(w.breaks):
            more = M[k] > most
            np.copyto(most, M[k], where=more)
            np.copyto(at, w.X[k], where=more)
            if k < w.segments and peak and peak[3][k]:
                more = peak[0][k] & (peak[2][k] > most)
                np.copyto(most, peak[2][k], where=more)
                np.copyto(at, peak[1][k], where=more)
        w.WORST.append((np.where(most > 1e-6, most, 0), at))


def gross_bending(w):
    check, S = Check(w.n), w.width * w.d * w.d / 6
    for c, (M, at) in enumerate(w.WORST):
        check.offer(M, S * w.FB_SIGN[c, 0], at, c)
    return check


def load_between(w, a, b):
    """Length under load between a and b: loads are the same all along."""
    h = np.minimum(w.X[1:], b) - np.maximum(w.X[:-1], a)
    h = np.maximum(h, 0).sum(axis=0)
    return h * w.w[0], h * w.w[1]


def shear_beside(w, check, x, l_b, side, V_D, V_L):
    """Shear on one side of a support, load within d of the face left out."""
    way = 2 * side - 1
    at = x + way * l_b / 2 + way * w.d
    D, L = load_between(w, *((x, at) if side == 1 else (at, x)))
    for c, (g_D, g_L, _) in enumerate(COMBOS):
        V = np.maximum(way * (g_D * V_D + g_L * V_L), 0) - (g_D * D + g_L * L)
        capacity = 2 / 3 * w.Fv_c[c] * w.width * w.d
        check.offer(np.maximum(V, 0), capacity, at, c)


def at_support(w, table, place, side):
    """The row of a table at the outer or the inner break of a support."""
    picked = table[0] if place == 0 else table[-1]
    if place == 0 and side == 1:
        for k in range(1, w.breaks):
            here = w.X[k] == 0
            if not here.any():
                break
            picked = np.where(here, table[k], picked)
    if place == 1 and side == 0:
        for k in range(w.breaks - 2, 0, -1):
            here = w.PAST[k]
            if not here.any():
                break
            picked = np.where(here, table[k], picked)
    return picked


def gross_shear(w):
    check = Check(w.n)
    for place, l_b in ((0, w.bearing_left), (1, w.bearing_right)):
        x = w.total if place else np.zeros(w.n)
        for side in (0, 1):
            V = w.VR[0] if side == 1 else w.VL[0]
            V_D = at_support(w, V, place, side)
            V_L = at_support(w, w.V_E[side, 1 - side], place, side)
            shear_beside(w, check, x, l_b, side, V_D, V_L)
    return check


def bearing(w, last):
    check, l_b = Check(w.n), w.bearing_right if last else w.bearing_left
    most, _ = live_reaction(w, last)
    D = w.R[0][last]
    R = np.maximum.reduce([g_D * D + g_L * most for g_D, g_L, _ in COMBOS])
    at = w.total if last else np.zeros(w.n)
    capacity = w.Fc_perp_c * w.width * l_b
    check.offer(R, capacity, at, len(COMBOS) - 1, w.Fc_perp > 0)
    return check


def sag_inside(w, EI, dead, blends, k, on):
    """Most deflection inside a segment, where the slope turns."""
    slopes, sags, Ms, Vs = blends
    some = np.flatnonzero(on)
    k = k[some]
    M, V, h = Ms[k, some], Vs[k, some], w.STEP[k, some]
    f, slope, sag = 1 / EI[k, some], slopes[k, some], sags[k, some]
    q = (dead * w.w[0] + w.w[1])[some]
    lo, hi, z = np.zeros_like(h), h, h / 2
    moved = np.ones(h.shape, bool)
    for _ in range(60):
        th = slope - z * f * (M + z * (V / 2 - z * (q / 6)))
        rate = -f * (M + z * (V - z * (q / 2)))
        down = th > 0
        lo, hi = np.where(down, z, lo), np.where(down, hi, z)
        to = z - np.divide(th, rate, out=z - lo, where=rate != 0)
        to = np.where((to > lo) & (to < hi), to, (lo + hi) / 2)
        still = np.abs(to - z) < 1e-11 * (1 + hi)
        z = np.where(moved, to, z)
        moved &= ~still
        if not moved.any():
            break
    bend = M / 2 + z * (V / 6 - z * (q / 24))
    return some, w.X[k, some] + z, sag + z * (slope - z * f * bend)


def deflection(w, state, dead, n):
    check = Check(w.n)
    (slope_D, sag_D), (slope_L, sag_L) = w.BENT[state]
    slope, sag = dead * slope_D + slope_L, dead * sag_D + sag_L
    most, at = np.zeros(w.n), np.zeros(w.n)
    for k in range(w.breaks):
        more = (sag[k] > most) & ~w.PAST[k]
        np.copyto(most, sag[k], where=more)
        np.copyto(at, w.X[k], where=more)
    # M > 0 all along: the slope falls, and turns in one segment.
    turns = (slope[:-1] > 0) & (slope[1:] < 0) & (w.STEP > 0)
    on = turns.any(axis=0)
    if on.any():
        M, V = dead * w.M[0] + w.M[1], dead * w.VR[0] + w.VR[1]
        some, x, inside = sag_inside(w, w.EI[state], dead, (slope, sag, M, V),
                                     turns.argmax(axis=0), on)
        more = inside > most[some]
        some = some[more]
        most[some], at[some] = inside[more], x[more]
    limit = w.total / np.where(n > 0, n, 1)
    check.offer(most, limit, at, 0, (n > 0) & ~w.SEVERED if state == 1 else n > 0)
    return check


def nominal(size):
    rest = size - np.floor(size)
    return np.where(rest == 0.5, size + 0.5, np.where(rest == 0.25, size + 0.75, size))


def stability(w):
    check = Check(w.n, binding=False)
    free = (w.sheathed == 0) & (w.blocking_1 < 0) & (w.blocking_2 < 0)
    ratio = nominal(w.d) / (nominal(w.ply) * w.plies)
    check.offer(ratio, np.where(free, 4.0, 6.0), np.zeros(w.n), 0)
    return check


# -------------------------------------------------------------------------- cut checks


def find_forces(w):
    """Worst of M by sign and of V at each cut, by combination."""
    a, b = np.clip(w.R1, 0, w.total), np.clip(w.R2, 0, w.total)
    w.Q_M, w.Q_AT, w.Q_V, w.Q_V_AT = {}, {}, {}, {}
    inside = (w.X[:, None] >= a) & (w.X[:, None] <= b)
    some = inside.any(axis=2)
    for c, (g_D, g_L, _) in enumerate(COMBOS):
        for sign in (0, 1):
            most, at = np.zeros((CUTS, w.n)), np.zeros((CUTS, w.n))
            cut_moments(w, c, sign, b, inside, some, most, at)
            w.Q_M[c, sign], w.Q_AT[c, sign] = most, at
        most, at = np.zeros((CUTS, w.n)), np.zeros((CUTS, w.n))
        cut_shears(w, g_D, g_L, a, b, inside, some, most, at)
        w.Q_V[c], w.Q_V_AT[c] = most, at
    w.GONE = w.HB + w.HM + w.HT <= 0
    w.SEVERED = (w.GONE & (w.VOICE == np.arange(CUTS)[:, None])).any(axis=0)
    w.TAU = np.zeros((2, CUTS, w.n))
    moments = [[w.Q_M[c, sign] for c in range(len(COMBOS))] for sign in (0, 1)]
    w.TORN = [np.maximum.reduce(m) > 1e-6 for m in moments]
    w.TENSION = (w.THIN[0] & w.TORN[0]) | (w.THIN[1] & w.TORN[1])
    w.HOGS = [m.any() for m in (w.Q_M[0, 1], w.Q_M[1, 1])]


def cut_moments(w, combo, sign, b, inside, some, most, at):
    """Most of M one way, the peaks inside whole segments in it."""
    way, M, peak = 1 - 2 * sign, w.M_C[combo, sign], w.PEAK[combo, sign]
    for k, cut in zip(*np.nonzero(some)):
        m, best = way * M[k] if sign else M[k], most[cut]
        more = inside[k, cut] & (m > best)
        np.copyto(best, m, where=more)
        np.copyto(at[cut], w.X[k], where=more)
        if k < w.segments and peak and peak[3][k]:
            whole = inside[k, cut] & peak[0][k] & (w.X[k + 1] <= b[cut])
            more = whole & (way * peak[2][k] > best)
            np.copyto(best, way * peak[2][k], where=more)
            np.copyto(at[cut], peak[1][k], where=more)


def cut_shears(w, g_D, g_L, a, b, inside, some, most, at):
    """Most shear either way, on the sides that face the cut."""
    V = [np.maximum(np.abs(g_D * D + g_L * w.V_E[side, 0]),
                    np.abs(g_D * D + g_L * w.V_E[side, 1]))
         for side, D in ((0, w.VL[0]), (1, w.VR[0]))]
    point = a == b
    for k, cut in zip(*np.nonzero(some)):
        x, best = w.X[k], most[cut]
        for side, faces in ((0, x > a[cut]), (1, x < b[cut])):
            on = inside[k, cut] & (faces | point[cut])
            more = on & (V[side][k] > best)
            np.copyto(best, V[side][k], where=more)
            np.copyto(at[cut], x, where=more)


def signs(w, combo):
    """The signs of M there are, with the cuts that have them."""
    yield 0, True
    if w.HOGS[combo]:
        yield 1, w.Q_M[combo, 1] > 0


def edge_stress(w, M):
    none = np.where(M > 0, 1e9, 0)
    return np.divide(M, w.LEAST, out=none, where=w.LEAST > 0)


def net_bending(w, voice):
    check = Check((CUTS, w.n))
    raiser = np.where(w.TENSION, w.notch_raiser, 1)
    for c in range(len(COMBOS)):
        for sign, some in signs(w, c):
            f = raiser * edge_stress(w, w.Q_M[c, sign])
            check.offer(f, w.FB_SIGN[c, sign], w.Q_AT[c, sign], c, voice & some)
    check.nothing_left(w, voice)
    return check


def net_shear(w, on):
    check = Check((CUTS, w.n))
    for c in range(len(COMBOS)):
        check.offer(w.Q_V[c], 2 / 3 * w.Fv_c[c] * w.AV, w.Q_V_AT[c], c, on)
    check.nothing_left(w, on)
    return check


def notch_shear(w, on):
    check = Check((CUTS, w.n))
    d_n = w.HB + w.HM + w.HT
    n, r = np.maximum(d_n, 1e-9), d_n / w.d
    squared = w.TENSION.copy()
    squared[NOTCH] &= (w.joists[ROW["3.taper"]] < 10) | w.MERGED[NOTCH]
    for c in range(len(COMBOS)):
        v = 2 / 3 * w.Fv_c[c] * w.width
        capacity = np.where(squared, v * n * r * r, v * d_n)
        check.offer(w.Q_V[c], capacity, w.Q_V_AT[c], c, on)
    check.nothing_left(w, on)
    return check


def frame_stress(w):
    """Bending stress in the deepest chord for V = 1 over half the length."""
    b, m, t = w.CHORD[0], w.CM, w.CHORD[1]
    h = np.maximum(np.maximum(b, m), t)
    cubes = w.width * (b * b * b + m * m * m + t * t * t)
    return np.divide(3 * w.FRAME * h, cubes, out=np.zeros_like(h), where=cubes > 0)


def opening_frame(w, frame, on):
    check = Check((CUTS, w.n))
    for c in range(len(COMBOS)):
        for sign, some in signs(w, c):
            f = edge_stress(w, w.Q_M[c, sign]) + frame * w.Q_V[c]
            check.offer(f, w.FB_SIGN[c, sign], w.Q_AT[c, sign], c, on & some)
    return check


def chord_of(w, face, chorded):
    """How far a chord is a tie or a strut; stresses in it for M = 1, direct and in
    bending."""
    I, h = np.maximum(w.LIP_I[face], 1e-9), w.CHORD[face]
    tie, slim = clamped(w.TIE / np.where(chorded, h, 1) - 1), clamped(2 - 4 * h / w.d)
    w.TAU[face] = np.where(chorded, tie * slim, 0)
    return (w.LIP_Y[face] - h / 2) / I, h / 2 / I


def lip_tension(w, frame, chords, on):
    check, one = Check((CUTS, w.n)), np.ones(w.n)
    for c in range(len(COMBOS)):
        for sign, some in signs(w, c):
            (direct, bend), tau, star = chords[sign], w.TAU[sign], w.FB_STAR[c, sign]
            M = w.Q_M[c, sign]
            f_t, f_b = M * direct, M * bend + w.Q_V[c] * frame
            plain = (f_t + f_b) / star
            full = f_t / np.maximum(w.Ft_c[c], 1e-9) + f_b / star
            r = plain + tau * np.maximum(full - plain, 0)
            known = (tau == 0) | (w.Ft > 0)
            check.offer(r, one, w.Q_AT[c, sign], c, on & known & some)
    return check


def column_factor(F_cE, star):
    """NDS 3.7.1.5 in the form that keeps its digits where the column is short."""
    r = F_cE / np.maximum(star, 1e-9)
    p = (1 + r) / 1.6
    return r / 0.8 / (p + np.sqrt(np.maximum(p * p - r / 0.8, 0)))


def chord_compression(w, frame, chords, on):
    check, one = Check((CUTS, w.n)), np.ones(w.n)
    given = (w.Fc > 0) & (w.Emin > 0)
    for c in range(len(COMBOS)):
        for sign, some in signs(w, c):
            (direct, bend), tau = chords[1 - sign], w.TAU[1 - sign]
            thin = np.maximum(np.minimum(w.CHORD[1 - sign], w.width), 1e-9)
            slender = np.maximum(w.TIE / thin, 1e-6)
            F_cE = 0.822 * w.Emin_c / (slender * slender)
            F_c = w.Fc_c[c] * column_factor(F_cE, w.Fc_c[c])
            M, Fb = w.Q_M[c, sign], w.FB_SIGN[c, sign]
            f_c, f_b = M * direct, M * bend + w.Q_V[c] * frame
            left, p = 1 - f_c / F_cE, f_c / np.maximum(F_c, 1e-9)
            full = np.where(left > 1e-3, p * p + f_b / Fb / left, NO_CAPACITY)
            plain = (f_c + f_b) / Fb
            r = plain + tau * np.maximum(full - plain, 0)
            check.offer(r, one, w.Q_AT[c, sign], c, on & ((tau == 0) | given) & some)
    return check


def one_chord(w, face, on):
    """All of M and V on the wood that one side leaves; the chord in `face` is lost."""
    check, h = Check((CUTS, w.n)), w.CHORD[1 - face]
    r = np.where(w.TORN[face], h / w.d, 1)
    S, A = w.width * h * h / 6, w.width * h * r * r
    for c in range(len(COMBOS)):
        for sign, some in signs(w, c):
            M = w.Q_M[c, sign]
            f = np.divide(M, S, out=np.where(M > 0, 1e9, 0), where=S > 0)
            check.offer(f, w.FB_SIGN[c, sign], w.Q_AT[c, sign], c, on & some)
        check.offer(w.Q_V[c], 2 / 3 * w.Fv_c[c] * A, w.Q_V_AT[c], c, on)
    return check


def chord_alone(w, checks, chorded):
    """Where the tie, the strut or the frame makes more of a ratio than one side bears
    alone, that side alone counts."""
    on = chorded & (w.CM == 0) & ((w.TAU > 0).any(axis=0) | (w.FRAME > 0))
    if not on.any():
        return []
    check, other = one_chord(w, 0, on), one_chord(w, 1, on)
    two = np.maximum.reduce([np.maximum(each.ratio, 0) for each in checks])
    less = other.ratio < check.ratio
    for name in ("ratio", "demand", "capacity", "at", "combo"):
        np.copyto(getattr(check, name), getattr(other, name), where=less)
    written = on & (check.ratio < two)
    check.ratio[~written] = -1
    for each in checks:
        each.binding &= ~written
    return [check]


def cut_checks(w):
    voice = w.VOICE == np.arange(CUTS)[:, None]
    opening = voice & w.OPENING
    chorded = opening & (w.CHORD[0] > 0)
    checks = [net_bending(w, voice), net_shear(w, opening)]
    notched = voice & (w.THIN[0] | w.THIN[1])
    if notched.any():
        checks.append(notch_shear(w, notched))
    if not chorded.any():
        return checks
    frame, framed = frame_stress(w), chorded & (w.FRAME > 0)
    if framed.any():
        checks.append(opening_frame(w, frame, framed))
    chords = [chord_of(w, face, chorded) for face in (0, 1)]
    checks.append(lip_tension(w, frame, chords, chorded))
    checks.append(chord_compression(w, frame, chords, chorded))
    return checks + chord_alone(w, checks, chorded)


# --------------------------------------------------------------------- rules and action


def read_rules(w):
    """1 within, 0 outside, -1 not covered; the items of the pack for joists on wood."""
    d, ok = w.d, []
    w.items = []

    def judge(measured, limit, at_least=False):
        fits = (limit - measured if at_least else measured - limit) <= SLACK
        w.items.append((measured, limit, fits))
        return fits

    in_span = (w.XC >= 0) & (w.XC <= w.total)
    w.REACH_L = np.where(in_span, w.total, 0)
    w.REACH = np.where(in_span, np.minimum(w.X2, w.total - w.X1), 0)
    size = w.SIZE[OPEN].copy()
    np.maximum(size[:2], w.X2[:2] - w.X1[:2], out=size[:2])
    np.maximum(size[2], w.LENGTH[1], out=size[2])
    gap = w.GAP  # pairs 01 02 03 12 13 23
    clear_hole = np.minimum(gap[[0, 0, 2]], gap[[2, 4, 4]])
    openings = judge(size, d / 3)
    openings &= judge(w.Y1[OPEN], np.full(w.n, 2.0), True)
    openings &= judge(d - w.Y2[OPEN], np.full(w.n, 2.0), True)
    openings &= judge(clear_hole, np.full(w.n, 2.0), True)
    openings &= judge(gap[[1, 3, 5]], np.full(w.n, 2.0), True)
    torn = np.where(w.top, w.TORN[1][NOTCH], w.TORN[0][NOTCH])
    w.torn_notch = torn
    notch = judge(w.SIZE[NOTCH], d / 6)
    notch &= judge(w.LENGTH[0], d / 3)
    notch &= judge(w.REACH[NOTCH], w.REACH_L[NOTCH] / 3)
    notch &= judge(np.where(torn, w.ply, 0), np.full(w.n, 3.4999))
    judge(w.bearing_left, np.full(w.n, 1.5), True)
    judge(w.bearing_right, np.full(w.n, 1.5), True)
    ok = np.empty((CUTS, w.n), bool)
    ok[OPEN], ok[NOTCH] = openings, notch
    covered = in_span & ~(w.Q_M[len(COMBOS) - 1, 1] > 1e-6)
    outside, unknown = (covered & ~ok).any(axis=0), (~covered).any(axis=0)
    return np.where(outside, 0, np.where(unknown, -1, 1))


def read_gate(w):
    """Barred at all, past what tests reach, accepted with a reason."""
    thin_b, thin_t = w.THIN[0].copy(), w.THIN[1].copy()
    thin_b[NOTCH] = thin_t[NOTCH] = False
    size = np.where(thin_b, w.Y2, np.where(thin_t, w.d - w.Y1, w.SIZE))
    torn = w.TENSION.copy()
    torn[NOTCH] = w.torn_notch
    notched = thin_b | thin_t
    notched[NOTCH] = True
    middle = w.REACH > w.REACH_L * OUTER_PART + SLACK
    deep = size > INNER_NOTCH * w.d + SLACK
    stop = notched & (deep | middle | torn & (w.ply >= THICK - SLACK))
    accepted = (stop[NOTCH] & (w.joists[ROW["3.accept"]] == 1)
                & ~(middle[NOTCH] & torn[NOTCH]))
    barred = stop | w.GONE
    tall = ~barred & (w.SIZE > TESTED_HOLE * w.d + SLACK)
    tall[NOTCH] = False
    barred[NOTCH] &= ~accepted
    return barred.any(axis=0) | tall.any(axis=0), accepted


def lacks_values(w):
    """Whether a tie or a strut lacks the value that it reads."""
    under, over = w.TAU[0] > 0, w.TAU[1] > 0
    sags, hogs = w.TORN
    tie, strut = under & sags | over & hogs, over & sags | under & hogs
    return (tie & (w.Ft <= 0) | strut & (w.Fc <= 0)).any(axis=0)


def decide(w, ratio, strength, within):
    barred, accepted = read_gate(w)
    weak, over = strength > 1 + 1e-9, ratio > 1 + 1e-9
    inside = (within == 1) & ~accepted
    action = np.where(over, DECIDE, np.where(inside, LEAVE, JUSTIFY))
    action = np.where(weak & ~inside, REPAIR, action)
    action = np.where(~weak & lacks_values(w), REFER, action)
    return np.where(barred, REPAIR, action)


# ------------------------------------------------------------------------------ review


def worst_of(checks, n):
    worst = np.zeros(n)
    for check in checks:
        r = np.where(check.binding, check.ratio, 0)
        np.maximum(worst, r if r.ndim == 1 else r.max(axis=0), out=worst)
    return worst


def state_of(w, state, Cr, same):
    """Ratio, and the largest with deflection left out. `same`: the checks that do not
    differ between states."""
    bending_values(w, Cr)
    strong = [gross_bending(w)] + same
    if state == 1:
        strong += cut_checks(w)
    sags = [deflection(w, state, np.zeros(w.n), w.limit_live),
            deflection(w, state, w.Kcr, w.limit_total)]
    w.checks.append(strong + sags)
    strength = worst_of(strong, w.n)
    return np.maximum(strength, worst_of(sags, w.n)), strength


def repetitive(w, within):
    row = ((w.members >= 3) & (w.spacing <= 24 + 1e-9) & (w.sheathed != 0)
           & (w.ply <= 3.5) & within)
    return np.where(w.repetitive > 0, w.repetitive, np.where(row, 1.15, 1))


def review(joists, low, high):
    """joists: a block with a row a field. Ratio uncut, ratio cut, action, and whether the
    joist could be worked."""
    w = Work(joists, low, high)
    place_along(w)
    place_across(w)
    start_groups(w)
    find_gaps(w)
    merge(w)
    refuse_twins(w)
    adjust_values(w)
    set_breaks(w)
    cut_sections(w)
    set_stiffness(w)
    solve(w)
    tabulate(w)
    w.checks, w.l_e = [], effective_length(w)
    worst_moments(w)
    same = [gross_shear(w), bearing(w, 0), bearing(w, 1), stability(w)]
    uncut, _ = state_of(w, 0, repetitive(w, True), same)
    find_forces(w)
    within = read_rules(w)
    ratio, strength = state_of(w, 1, repetitive(w, within == 1), same)
    return uncut, ratio, decide(w, ratio, strength, within), w.ok


# ------------------------------------------------------------------------- measurement


def rate_of(timed, low, high, block, seconds):
    """Joists per second of CPU time, the best of three, in blocks of that size."""
    joists = np.repeat(timed[:, None], block, axis=1)
    joists[ROW["live"]] += np.arange(block) % 16
    blocks, best = 1, 0.0
    for _ in range(4):
        start = time.process_time()
        for k in range(blocks):
            joists[ROW["dead"], ::16] = 10 + 1e-3 * (k % 100)
            review(joists, low, high)
        took = time.process_time() - start
        best = max(best, blocks * block / took)
        blocks = max(1, int(blocks * seconds / took))
    return best


def main():
    data = np.fromfile(sys.argv[1])
    count, fields = int(data[0]), int(data[1])
    assert fields == len(FIELDS), "the file has other fields"
    table = data[2:].reshape(-1, fields)
    low, high, timed = table[0][:, None], table[1][:, None], table[2]
    joists = np.ascontiguousarray(table[3:].T)
    assert joists.shape[1] == count
    np.seterr(divide="ignore", invalid="ignore")
    answers = np.array(review(joists, low, high))
    seconds = float(sys.argv[2])
    rates = {block: rate_of(timed, low, high, block, seconds / 10)
             for block in (512, 1024, 2048, 4096, 8192, 16384)}
    best = max(rates, key=rates.get)
    print("%.17g" % rate_of(timed, low, high, best, seconds), best)
    for uncut, cut, action, ok in answers.T:
        print("%.17g %.17g %d" % (uncut, cut, action) if ok else "-")


if __name__ == "__main__":
    main()
