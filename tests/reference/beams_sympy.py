# SPDX-License-Identifier: MIT
"""Exact beam solutions for the tests of the beam routines: writes beams.lua.

Run from any folder:  python3 tests/reference/beams_sympy.py
It needs SymPy (Debian: python3-sympy; written with 1.11), takes about ten seconds,
and writes beams.lua beside itself; the same script always gives the same bytes.

What makes it independent of the module: the module uses the force method in
floating point, one span at a time. Here the beam is one line, w -> V -> M -> slope
-> deflection are integrated by SymPy from the left end piece by piece with the end
deflection, end slope, reactions and joint rotations as symbols, and the conditions
(no deflection at a support, M = k * rotation at a joint, V = M = 0 past the right
end) are solved in exact rationals. Only the printing rounds, to the nearest double.

Conventions, in the file as in the module:
  x from the first support, a left overhang has x < 0; lb, in, lb-in2, lb-in/rad
  loads positive DOWN (lb/in, lb); reactions positive UP (lb)
  V = sum of the upward forces left of the section; V_left leaves out, V_right takes
      in what acts at x itself, so V_left = 0 at the left end, V_right = 0 at the right
  M positive when it sags; deflection y positive DOWN, y'' = -M/EI; slope = dy/dx
  a joint with stiffness k turns by slope_right - slope_left = -M/k; k = 0 is a hinge,
      and a sample at a joint has no slope
  extremes take the whole length; of equal ones the leftmost counts; M_min is 0 at an
      end where the beam sags everywhere
"""

import os
from fractions import Fraction

from sympy import (Poly, Rational, Symbol, expand, integrate, linear_eq_to_matrix,
                   solve)
from sympy.physics.continuum_mechanics.beam import Beam

R = Rational
t = Symbol("t")
EI0 = 150000000


# ------------------------------------------------------------------ description

def uniform(w, start, end):
    return ("uniform", R(start), R(end), R(w), R(w))


def linear(w1, w2, start, end):
    return ("linear", R(start), R(end), R(w1), R(w2))


def point(p, at):
    return ("point", R(at), R(p))


def hinge(at):
    return (R(at), R(0))


def spring(at, k):
    return (R(at), R(k))


CASES = []


def case(name, spans, loads, left=0, right=0, EI=None, hinges=(), also=()):
    """EI: one value, or a list [(to, EI), ...] of pieces from the left end on."""
    spans = [R(s) for s in spans]
    left, right = R(left), R(right)
    end = sum(spans) + right
    if EI is None:
        EI = EI0
    if not isinstance(EI, list):
        EI = [(end, EI)]
    pieces, start = [], -left
    for to, value in EI:
        pieces.append((start, R(to), R(value)))
        start = R(to)
    assert start == end, name
    CASES.append(dict(name=name, spans=spans, left=left, right=right, EI=pieces,
                      hinges=list(hinges), loads=list(loads),
                      also=[R(a) for a in also]))


# -------------------------------------------------------------------- solution

def at(pieces, value):
    """The one entry (from, to, what) that holds over the middle of a piece."""
    for start, end, what in pieces:
        if start <= value <= end:
            return what
    raise ValueError(value)


def solve_beam(c):
    begin, end = -c["left"], sum(c["spans"]) + c["right"]
    supports = [R(0)]
    for s in c["spans"]:
        supports.append(supports[-1] + s)
    joints = dict(c["hinges"])
    places = {begin, end} | set(supports) | set(joints)
    places |= {p[0] for p in c["EI"]}
    for load in c["loads"]:
        places |= set(load[1:2] if load[0] == "point" else load[1:3])
    places = sorted(places)
    assert places[0] == begin and places[-1] == end, c["name"]

    reaction = {x: Symbol("R%d" % i) for i, x in enumerate(supports)}
    turn = {x: Symbol("q%d" % i) for i, x in enumerate(sorted(joints))}
    y0, s0 = Symbol("y0"), Symbol("s0")
    unknowns = [y0, s0] + list(reaction.values()) + list(turn.values())
    conditions = []

    def jump(x):
        v = reaction.get(x, R(0))
        for load in c["loads"]:
            if load[0] == "point" and load[1] == x:
                v -= load[2]
        return v

    V, M, s, y = R(0), R(0), s0, y0
    segments = []
    for a, b in zip(places, places[1:]):
        V += jump(a)
        if a in reaction:
            conditions.append(y)
        if a in joints:
            k = joints[a]
            # the rotation of a hinge is free, so that M = 0 replaces its law
            conditions.append(M + k * turn[a])
            s += turn[a]
        EI = at(c["EI"], (a + b) / 2)
        w = R(0)
        for load in c["loads"]:
            if load[0] != "point" and load[1] <= a and b <= load[2]:
                _, f, g, w1, w2 = load
                w += w1 + (w2 - w1) * (a + t - f) / (g - f)
        Vt = expand(V - integrate(expand(w), t))
        Mt = expand(M + integrate(Vt, t))
        st = expand(s - integrate(Mt, t) / EI)
        yt = expand(y + integrate(st, t))
        segments.append([a, b, Vt, Mt, st, yt])
        length = b - a
        V, M, s, y = (expand(f.subs(t, length)) for f in (Vt, Mt, st, yt))
    V += jump(end)
    if end in reaction:
        conditions.append(y)
    conditions += [V, M]

    A, rhs = linear_eq_to_matrix(conditions, unknowns)
    assert A.rank() == len(unknowns), "unstable: " + c["name"]
    values = dict(zip(unknowns, A.LUsolve(rhs)))
    for g in segments:
        g[2:] = [expand(f.subs(values)) for f in g[2:]]
    c["segments"] = segments
    c["supports"] = supports
    c["reactions"] = [values[reaction[x]] for x in supports]
    c["places"] = places
    c["values"] = values

    # equilibrium, once more and separately from the integration
    force = sum(c["reactions"], R(0))
    moment = sum((r * x for r, x in zip(c["reactions"], supports)), R(0))
    for load in c["loads"]:
        if load[0] == "point":
            force -= load[2]
            moment -= load[2] * load[1]
        else:
            _, f, g, w1, w2 = load
            force -= (w1 + w2) / 2 * (g - f)
            moment -= (g - f) * (w1 * (2 * f + g) + w2 * (f + 2 * g)) / 6
    assert force == 0 and moment == 0, c["name"]


def value(c, x, which, side):
    """which: 2 V, 3 M, 4 slope, 5 deflection; side 'left' or 'right' of x."""
    x = R(x)
    segments = c["segments"]
    if which == 2:
        if side == "left" and x == segments[0][0]:
            return R(0)
        if side == "right" and x == segments[-1][1]:
            return R(0)
    order = segments if side == "left" else reversed(segments)
    for g in order:
        if g[0] <= x <= g[1] and not (side == "left" and x == g[0] != segments[0][0]):
            return g[which].subs(t, x - g[0])
    raise ValueError(x)


def extremes(c, which, derivative):
    """(max x, max value, min x, min value); stationary points are exact roots."""
    found = []
    for g in c["segments"]:
        ends = [R(0), g[1] - g[0]]
        candidates = list(ends)
        p = Poly(g[derivative], t)
        if p.degree() >= 1:
            for r in p.real_roots():
                r = r if r.is_Rational else R(str(r.evalf(60)))
                if 0 < r < ends[1]:
                    candidates.append(r)
        for r in candidates:
            found.append((g[0] + r, g[which].subs(t, r)))
    tiny = R(1, 10**40)      # roots carry 60 digits; equal values differ by less
    found.sort()
    high = low = found[0]
    for f in found[1:]:
        scale = abs(f[1]) + 1
        if f[1] > high[1] + tiny * scale:
            high = f
        if f[1] < low[1] - tiny * scale:
            low = f
    return high + low


def sample_places(c):
    begin, end = c["places"][0], c["places"][-1]
    xs = set(c["places"]) | set(c["also"])
    x = R(0)
    for s in c["spans"]:
        xs |= {x + s / 2, x + s / 3, x + 7 * s / 8}
        x += s
    if c["left"]:
        xs.add(begin + c["left"] / 3)
    if c["right"]:
        xs.add(end - c["right"] / 3)
    for h, _ in c["hinges"]:
        xs |= {h - 1, h + 1}
    # a whole sixteenth of the length, only where the list would be thin
    for i in (1, 5, 11, 15):
        if len(xs) < 10:
            xs.add(begin + (end - begin) * R(i, 16))
    return sorted(xs)


# ----------------------------------------------------------------------- cases

def the_cases():
    L = 144
    # simple span
    case("simple, uniform", [L], [uniform(6, 0, L)])
    case("simple, point at midspan", [L], [point(500, 72)])
    case("simple, point off centre", [150], [point(500, 40)])
    case("simple, two points at thirds", [162], [point(400, 54), point(400, 108)])
    case("simple, partial uniform", [180], [uniform(8, 30, 96)])
    case("simple, triangular", [L], [linear(0, 10, 0, L)])
    case("simple, trapezoid over a part", [168], [linear(4, 9, 24, 120)])
    case("simple, overlapping loads of both signs", [192],
         [uniform(R("20/3"), 0, 192), linear(-6, 6, 48, 144), point(-300, 60),
          point(700, 150)])
    # stepped EI
    case("simple, one step at midspan", [L], [uniform(6, 0, L)],
         EI=[(72, EI0), (144, EI0 / 2)])
    case("simple, weak middle, uniform", [162], [uniform(5, 0, 162)],
         EI=[(54, EI0), (60, 40000000), (162, EI0)])
    case("simple, four steps, uniform and point", [186],
         [uniform(R("20/3"), 0, 186), point(450, 77)],
         EI=[(12, 90000000), (62, EI0), (68, 35000000), (124, EI0),
             (186, 120000000)])
    case("simple, kerf of 1/1000 in", [162], [uniform(5, 0, 162)],
         EI=[(R("81"), EI0), (R("81.001"), 1500000), (162, EI0)])
    case("simple, step under a point load", [120], [point(1000, 45)],
         EI=[(45, 60000000), (120, EI0)])
    case("simple, many steps under a trapezoid", [240], [linear(5, 10, 0, 240)],
         EI=[(10, 110000000), (40, EI0), (44, 30000000), (90, EI0), (96, 20000000),
             (150, EI0), (151, 50000000), (200, EI0), (240, 75000000)])
    # overhangs
    case("overhang right, uniform over all", [L], [uniform(6, 0, 180)], right=36)
    case("overhang right, point at its tip", [L], [point(300, 180)], right=36)
    case("overhang left, uniform on the overhang only", [150],
         [uniform(7, -30, 0)], left=30)
    case("overhang left, point at its tip and uniform on the span", [160],
         [point(250, -32), uniform(5, 0, 160)], left=32)
    case("overhangs both ends, uniform over all", [156], [uniform(6, -24, 192)],
         left=24, right=36)
    case("overhangs both ends, points and a load across a support", [156],
         [point(200, -24), point(400, 50), point(350, 180), linear(8, 3, 120, 170)],
         left=24, right=36)
    case("overhangs both ends, stepped", [168], [uniform(R("20/3"), -20, 198)],
         left=20, right=30,
         EI=[(-8, 80000000), (70, EI0), (76, 45000000), (160, EI0),
             (198, 100000000)])
    # two spans
    case("two equal spans, uniform", [L, L], [uniform(6, 0, 288)])
    case("two equal spans, one loaded", [L, L], [uniform(10, 0, 144)])
    case("two unequal spans, uniform", [120, 192], [uniform(R("20/3"), 0, 312)])
    case("two unequal spans, points", [130, 170],
         [point(600, 65), point(450, 200), point(300, 260)])
    case("two spans, triangular across the middle support", [144, 150],
         [linear(2, 10, 60, 260)])
    case("two spans, step at the middle support", [150, 150], [uniform(7, 0, 300)],
         EI=[(150, EI0), (300, 70000000)])
    case("two spans, stepped in both, uniform and point", [162, 138],
         [uniform(R("20/3"), 0, 300), point(500, 240)],
         EI=[(30, EI0), (36, 30000000), (150, EI0), (174, 220000000),
             (230, EI0), (236, 52000000), (300, EI0)])
    case("two spans, overhangs both ends", [140, 160],
         [uniform(5, -28, 336), point(300, -28), point(200, 336)],
         left=28, right=36)
    case("two spans, point over the middle support", [144, 144],
         [point(900, 144), uniform(5, 0, 288)])
    # three spans and more
    case("three equal spans, uniform", [L, L, L], [uniform(6, 0, 432)])
    case("three equal spans, outer two loaded", [L, L, L],
         [uniform(10, 0, 144), uniform(10, 288, 432)])
    case("three unequal spans, mixed loads", [96, 180, 132],
         [uniform(5, 0, 408), point(400, 48), point(650, 180),
          linear(0, 8, 276, 408)])
    case("three spans, stepped, overhang right", [144, 120, 168],
         [uniform(R("20/3"), 0, 462), point(350, 462)], right=30,
         EI=[(48, EI0), (52, 33000000), (264, EI0), (330, 65000000),
             (462, EI0)])
    case("four spans, one loaded", [120, 132, 144, 120], [uniform(9, 120, 252)])
    case("six spans, uniform", [96, 120, 108, 144, 132, 96], [uniform(6, 0, 696)])
    # joints: hinges
    case("two spans, hinge in the second", [144, 160], [uniform(6, 0, 304)],
         hinges=[hinge(180)])
    case("two spans, hinge over the middle support", [144, 160],
         [uniform(6, 0, 304)], hinges=[hinge(144)])
    case("three spans, two hinges in the middle span", [132, 192, 132],
         [uniform(7, 0, 456)], hinges=[hinge(168), hinge(288)])
    case("three spans, a hinge in each outer span", [168, 144, 168],
         [uniform(5, 0, 480), point(500, 240)], hinges=[hinge(130), hinge(350)])
    case("two spans, hinge, point at the hinge, overhang left", [150, 150],
         [point(400, 186), uniform(5, -24, 300)], left=24, hinges=[hinge(186)])
    case("two spans, hinge and steps", [144, 168],
         [uniform(R("20/3"), 0, 312), linear(0, 6, 200, 312)],
         EI=[(60, EI0), (66, 40000000), (184, EI0), (312, 95000000)],
         hinges=[hinge(184)])
    # joints: rotational springs
    case("simple, spring at midspan", [L], [uniform(6, 0, L)],
         hinges=[spring(72, 2000000)])
    case("simple, spring off centre, point", [162], [point(700, 60)],
         hinges=[spring(100, 900000)])
    case("two spans, spring over the middle support", [144, 144],
         [uniform(6, 0, 288)], hinges=[spring(144, 1500000)])
    case("two spans, spring in the first, steps", [150, 130],
         [uniform(6, 0, 280), point(400, 90)],
         EI=[(90, EI0), (96, 38000000), (280, EI0)], hinges=[spring(60, 1200000)])
    case("three spans, spring and hinge, overhang both ends", [140, 160, 120],
         [uniform(5, -20, 450), point(300, -20), point(600, 220)],
         left=20, right=30, hinges=[spring(140, 3000000), hinge(330)])
    case("simple, two springs close together", [180],
         [uniform(5, 0, 180), point(300, 90)],
         hinges=[spring(86, 4000000), spring(94, 4000000)])


# ---------------------------------------------------------------------- checks

def by_name(name):
    for c in CASES:
        if c["name"] == name:
            return c
    raise KeyError(name)


def textbook_checks():
    """Closed forms found in any strength-of-materials text, exact."""
    c = by_name("simple, uniform")
    w, L, EI = R(6), R(144), R(EI0)
    assert value(c, 72, 3, "left") == w * L**2 / 8
    assert value(c, 72, 5, "left") == 5 * w * L**4 / (384 * EI)
    assert value(c, 0, 4, "right") == w * L**3 / (24 * EI)
    assert value(c, 0, 2, "right") == w * L / 2

    c = by_name("simple, point at midspan")
    P = R(500)
    assert value(c, 72, 3, "left") == P * L / 4
    assert value(c, 72, 5, "left") == P * L**3 / (48 * EI)

    c = by_name("simple, point off centre")
    a, b, l = R(40), R(110), R(150)
    assert value(c, 40, 3, "left") == P * a * b / l
    assert value(c, 40, 5, "left") == P * a**2 * b**2 / (3 * EI * l)

    c = by_name("simple, two points at thirds")
    P, l = R(400), R(162)
    assert value(c, 81, 5, "left") == 23 * P * l**3 / (648 * EI)

    c = by_name("simple, triangular")
    high = extremes(c, 3, 2)
    w = R(10)
    assert abs(high[1] ** 2 - (w * L**2) ** 2 / 243) < R(1, 10**20)
    assert c["reactions"] == [w * L / 6, w * L / 3]

    c = by_name("overhang right, point at its tip")
    P, a = R(300), R(36)
    assert value(c, 144, 3, "left") == -P * a
    assert value(c, 180, 5, "left") == P * a**2 * (L + a) / (3 * EI)

    c = by_name("two equal spans, uniform")
    w = R(6)
    assert c["reactions"] == [3 * w * L / 8, 10 * w * L / 8, 3 * w * L / 8]
    assert value(c, 144, 3, "left") == -w * L**2 / 8
    assert extremes(c, 3, 2)[1] == 9 * w * L**2 / 128

    c = by_name("two equal spans, one loaded")
    w = R(10)
    assert c["reactions"] == [7 * w * L / 16, 5 * w * L / 8, -w * L / 16]
    assert value(c, 144, 3, "left") == -w * L**2 / 16

    c = by_name("three equal spans, uniform")
    w = R(6)
    assert c["reactions"] == [R(4, 10) * w * L, R(11, 10) * w * L,
                              R(11, 10) * w * L, R(4, 10) * w * L]
    assert value(c, 144, 3, "left") == -w * L**2 / 10

    # two unequal spans, three-moment equation: Mb = -w (l1^3 + l2^3)/(8 (l1 + l2))
    c = by_name("two unequal spans, uniform")
    w, l1, l2 = R(20, 3), R(120), R(192)
    assert value(c, 120, 3, "left") == -w * (l1**3 + l2**3) / (8 * (l1 + l2))

    # a hinge over the support leaves two simple spans
    c = by_name("two spans, hinge over the middle support")
    assert value(c, 72, 5, "left") == 5 * R(6) * L**4 / (384 * EI)
    assert c["reactions"][0] == R(6) * L / 2

    # a spring at midspan adds half its own turn times L/2: (M/k) L/4
    c = by_name("simple, spring at midspan")
    M = R(6) * L**2 / 8
    assert (value(c, 72, 5, "left")
            == 5 * R(6) * L**4 / (384 * EI) + M / 2000000 * L / 4)


def library_checks():
    """SymPy's own Beam class for cases it can take: reactions, deflections."""
    for name in ("simple, partial uniform", "simple, trapezoid over a part",
                 "overhang right, uniform over all",
                 "overhangs both ends, points and a load across a support",
                 "two unequal spans, uniform", "two unequal spans, points",
                 "two spans, overhangs both ends", "three unequal spans, mixed loads"):
        c = by_name(name)
        shift = c["left"]           # that class starts its axis at the left end
        total = c["places"][-1] - c["places"][0]
        E, I = Symbol("E"), Symbol("I")
        b = Beam(total, E, I)
        names = []
        for i, x in enumerate(c["supports"]):
            r = Symbol("R_%d" % i)
            names.append(r)
            b.apply_load(r, x + shift, -1)
            b.bc_deflection.append((x + shift, 0))
        for load in c["loads"]:
            if load[0] == "point":
                b.apply_load(-load[2], load[1] + shift, -1)
            else:
                _, f, g, w1, w2 = load
                b.apply_load(-w1, f + shift, 0, end=g + shift)
                if w1 != w2:
                    b.apply_load(-(w2 - w1) / (g - f), f + shift, 1, end=g + shift)
        b.solve_for_reaction_loads(*names)
        assert [b.reaction_loads[r] for r in names] == c["reactions"], name
        # upward there: the opposite sign
        y = b.deflection().subs({E: 1, I: EI0})
        for x in sample_places(c)[1:-1]:
            theirs = y.subs(b.variable, x + shift)
            assert -theirs == value(c, x, 5, "left"), (name, x)


def spring_limits():
    """A stiff joint tends to a continuous beam, a soft one to a hinge."""
    k = Symbol("k")
    pair = []
    for stiffness in (R(10) ** 16, R(1, 10**6)):
        c = dict(by_name("two spans, spring over the middle support"))
        c["hinges"] = [spring(144, stiffness)]
        solve_beam(c)
        pair.append(value(c, 144, 3, "left"))
    assert abs(pair[0] + R(6) * 144**2 / 8) < R(1, 1000)
    assert abs(pair[1]) < R(1, 1000)
    # one more by compatibility: 2 w L^3/(24 EI) + M (2 L/(3 EI) + 1/k) = 0
    M = Symbol("M")
    L, EI, w = R(144), R(EI0), R(6)
    m = solve(2 * w * L**3 / (24 * EI) + M * (2 * L / (3 * EI) + 1 / k), M)[0]
    c = by_name("two spans, spring over the middle support")
    assert value(c, 144, 3, "left") == m.subs(k, 1500000)


# ---------------------------------------------------------------------- output

def number(q):
    q = R(q)
    return "%.17g" % float(Fraction(int(q.p), int(q.q)))


def lua(c):
    out = ["  {", '    name = "%s",' % c["name"]]

    def add(text):
        assert len(text) <= 90, text
        out.append(text)

    add("    spans = {%s}," % ", ".join(number(s) for s in c["spans"]))
    add("    overhang_left = %s, overhang_right = %s,"
        % (number(c["left"]), number(c["right"])))
    add("    EI = {")
    for a, b, EI in c["EI"]:
        add("      {from = %s, to = %s, EI = %s}," % (number(a), number(b), number(EI)))
    add("    },")
    if c["hinges"]:
        add("    hinges = {")
        for x, k in c["hinges"]:
            add("      {at = %s, stiffness = %s}," % (number(x), number(k)))
        add("    },")
    else:
        add("    hinges = {},")
    add("    loads = {")
    for load in c["loads"]:
        if load[0] == "point":
            add('      {kind = "point", at = %s, P = %s},'
                % (number(load[1]), number(load[2])))
        else:
            add('      {kind = "%s", from = %s, to = %s,'
                % (load[0], number(load[1]), number(load[2])))
            add("        w1 = %s, w2 = %s}," % (number(load[3]), number(load[4])))
    add("    },")
    add("    reactions = {")
    for r in c["reactions"]:
        add("      %s," % number(r))
    add("    },")
    add("    samples = {")
    joints = dict(c["hinges"])
    for x in sample_places(c):
        vl, vr = value(c, x, 2, "left"), value(c, x, 2, "right")
        add("      {x = %s," % number(x))
        add("        V_left = %s, V_right = %s," % (number(vl), number(vr)))
        for which in (3, 5):
            assert value(c, x, which, "left") == value(c, x, which, "right")
        row = "        M = %s, deflection = %s" % (
            number(value(c, x, 3, "left")), number(value(c, x, 5, "left")))
        if x in joints:
            add(row + "},")
        else:
            assert value(c, x, 4, "left") == value(c, x, 4, "right")
            add(row + ",")
            add("        slope = %s}," % number(value(c, x, 4, "left")))
    add("    },")
    add("    extremes = {")
    for quantity, which, derivative in (("M", 3, 2), ("deflection", 5, 4)):
        xh, h, xl, l = extremes(c, which, derivative)
        add("      %s_max = {x = %s, value = %s}," % (quantity, number(xh), number(h)))
        add("      %s_min = {x = %s, value = %s}," % (quantity, number(xl), number(l)))
    add("    },")
    out.append("  },")
    return "\n".join(out)


HEADER = """-- SPDX-License-Identifier: MIT
-- Beams solved exactly in rationals. Written by beams_sympy.py beside this file, whose
-- head gives the conventions; change that script and run it again, not this file.
-- lb, in, lb-in2; loads down, reactions up, M sagging, deflection down positive.
-- Each number is the double nearest to the exact value. Confidence: computed.
return {
"""


def main():
    the_cases()
    for c in CASES:
        solve_beam(c)
        assert len(sample_places(c)) >= 8, c["name"]
    names = [c["name"] for c in CASES]
    assert len(set(names)) == len(names)
    textbook_checks()
    library_checks()
    spring_limits()
    here = os.path.dirname(os.path.abspath(__file__))
    text = HEADER + "\n".join(lua(c) for c in CASES) + "\n}\n"
    with open(os.path.join(here, "beams.lua"), "w", encoding="ascii",
              newline="\n") as f:
        f.write(text)
    print("%d cases written" % len(CASES))


if __name__ == "__main__":
    main()
