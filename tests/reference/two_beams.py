# SPDX-License-Identifier: MIT
"""Two beams tied by springs, solved exactly, for the tests: writes two_beams.lua.

Run from any folder:  python3 tests/reference/two_beams.py
It needs Python alone (3.8 on), takes some seconds, and writes two_beams.lua beside
itself; the same script always gives the same bytes.

The host beam has spans, overhangs, steps of EI and perhaps a gap without wood, where V
and M are nil and each part stands for itself. A second beam of one EI lies beside it
within one span, may bear on rigid supports at its own ends, and is tied to the host at
stations by springs of k lb/in (or rigidly) that pass a vertical force and nothing else.
All load lies on the host, over the gap on the second beam.

What makes it independent of the module: the module uses the force method in floating
point, with the forces of the stations as unknowns. Here it is direct stiffness in exact
rationals: Euler-Bernoulli elements (cubic shape, consistent nodal loads, which make the
values at nodes exact), a node wherever something changes or is looked at, a spring as an
element, a rigid tie as a shared displacement. V and M are the end forces of elements;
forces of stations and supports are what is missing to equilibrium of a node. Only the
printing rounds, to the nearest double.

Envelopes: live load w per inch that may be absent anywhere. The influence line of each
effect is a cubic between nodes; it is found from four places of a unit load in each
interval (over the gap on the second beam), its sign changes are found by halving, its
positive and negative parts are integrated.

Conventions, in the file as in the module:
  x from the first support; lb, in, lb-in2, lb/in
  loads positive DOWN; reactions positive UP; force of a station host -> second beam,
      positive where it pushes the second beam DOWN
  V = sum of the upward forces left of the section; V_left leaves out, V_right takes in
      what acts at x itself
  M positive when it sags; deflection positive DOWN; slope = dy/dx
  at an edge of the gap a sample has side = "left" or "right": the side with wood, to
      which deflection and slope belong; within the gap it has neither
"""

import os
from decimal import Decimal, getcontext
from fractions import Fraction as F

getcontext().prec = 60
EI0 = F(158000000)          # about a 2x10 with E = 1.6e6 psi
RIGID = None                # a station without slip

CASES = []


# ------------------------------------------------------------------ description

def line(w1, start, end, w2=None):
    return ("line", F(start), F(end), F(w1), F(w1 if w2 is None else w2))


def point(p, at):
    return ("point", F(at), F(p))


def case(name, spans, beside, stations, loads, gap=None, left=0, right=0, EI=EI0,
         EI2=EI0, bears=(), effects=(), also=()):
    """beside: (from, to); stations: [(x, k)]; EI: a value or [(to, EI), ...];
    effects: for the envelope, see effect()."""
    spans = [F(s) for s in spans]
    first, last = -F(left), sum(spans) + F(right)
    pieces, start = [], first
    for to, v in (EI if isinstance(EI, list) else [(last, EI)]):
        pieces.append((start, F(to), F(v)))
        start = F(to)
    assert start == last, name
    supports = [sum(spans[:i], F(0)) for i in range(len(spans) + 1)]
    CASES.append(dict(
        name=name, spans=spans, first=first, last=last, EI=pieces, supports=supports,
        gap=gap and (F(gap[0]), F(gap[1])), beside=(F(beside[0]), F(beside[1])),
        EI2=F(EI2), bears=bears, loads=loads, effects=effects,
        stations=[(F(x), RIGID if k is RIGID else F(k)) for x, k in stations],
        also=[F(x) for x in also]))


# ------------------------------------------------------------------- elimination

class Factors:
    """L D L' of a symmetric matrix, rows as dictionaries; exact."""

    def __init__(self, rows):
        self.n, self.d, self.low = len(rows), [], []
        for i in range(self.n):
            pivot = rows[i].get(i, F(0))
            if pivot == 0:
                raise ArithmeticError("a mechanism")
            column = {j: v / pivot for j, v in rows[i].items() if j > i and v != 0}
            for j, l in column.items():
                for k, v in rows[i].items():
                    if k >= j:
                        rows[j][k] = rows[j].get(k, F(0)) - l * v
            self.d.append(pivot)
            self.low.append(column)

    def solve(self, rhs):
        y = [rhs.get(i, F(0)) for i in range(self.n)]
        for i in range(self.n):
            if y[i] != 0:
                for j, l in self.low[i].items():
                    y[j] -= l * y[i]
        y = [v / d for v, d in zip(y, self.d)]
        for i in reversed(range(self.n)):
            for j, l in self.low[i].items():
                y[i] -= l * y[j]
        return y


# ---------------------------------------------------------------------- elements

def stiffness(EI, h):
    a, b, c = 12 * EI / h**3, 6 * EI / h**2, EI / h
    return [[a, b, -a, b], [b, 4 * c, -b, 2 * c], [-a, -b, a, -b], [b, 2 * c, -b, 4 * c]]


def line_nodal(w1, w2, h):
    return [h * (7 * w1 + 3 * w2) / 20, h**2 * (3 * w1 + 2 * w2) / 60,
            h * (3 * w1 + 7 * w2) / 20, -h**2 * (2 * w1 + 3 * w2) / 60]


def unit_nodal(t, h):
    """Unit load at the fraction t: the Hermite shapes there."""
    return [1 - 3 * t**2 + 2 * t**3, h * (t - 2 * t**2 + t**3),
            3 * t**2 - 2 * t**3, h * (t**3 - t**2)]


class Model:
    def __init__(self, c):
        self.c = c
        self.place()
        self.number()
        self.assemble()

    def over_gap(self, a, b):
        gap = self.c["gap"]
        return gap is not None and gap[0] <= a and b <= gap[1]

    def place(self):
        c = self.c
        start, end = c["beside"]
        xs = {c["first"], c["last"], start, end} | set(c["supports"]) | set(c["also"])
        xs |= {p[0] for p in c["EI"]} | {x for x, _ in c["stations"]}
        xs |= set(c["gap"] or ())
        xs |= {F(e[1]) for e in c["effects"] if e[0][1:] in (" host", " beside")}
        for load in c["loads"]:
            xs |= {load[1]} if load[0] == "point" else {load[1], load[2]}
        for a, b in zip(c["supports"], c["supports"][1:]):
            xs |= {(a + b) / 2, a + (b - a) / 8}
        if c["gap"]:
            xs.add((c["gap"][0] + c["gap"][1]) / 2)
        xs |= {start + (end - start) * i / 8 for i in (1, 4, 7)}
        xs = sorted(xs)
        gap = c["gap"] or (c["last"], c["first"])
        self.x = {"host": [x for x in xs if not gap[0] < x < gap[1]],
                  "beside": [x for x in xs if start <= x <= end]}
        self.elements = []
        for member in ("host", "beside"):
            for a, b in zip(self.x[member], self.x[member][1:]):
                if member == "host" and self.over_gap(a, b):
                    continue
                EI = c["EI2"]
                if member == "host":
                    EI = next(v for f, t, v in c["EI"] if f <= a and b <= t)
                self.elements.append((member, a, b, EI))

    def number(self):
        c = self.c
        fixed = {("host", x) for x in c["supports"]}
        fixed |= {("beside", c["beside"][end == "right"]) for end in c["bears"]}
        tied = {x for x, k in c["stations"] if k is RIGID}
        self.dof, n = {}, 0
        for x in sorted(set(self.x["host"]) | set(self.x["beside"])):
            for member in ("host", "beside"):
                if x not in self.x[member]:
                    continue
                if (member, x) in fixed:
                    self.dof[member, x, 0] = None
                elif member == "beside" and x in tied:
                    self.dof[member, x, 0] = self.dof["host", x, 0]
                else:
                    self.dof[member, x, 0], n = n, n + 1
                self.dof[member, x, 1], n = n, n + 1
        self.n = n
        self.dofs = [[self.dof[m, x, i] for x in (a, b) for i in (0, 1)]
                     for m, a, b, _ in self.elements]

    def assemble(self):
        rows = [{} for _ in range(self.n)]

        def add(dofs, k):
            for i, p in enumerate(dofs):
                for j, q in enumerate(dofs):
                    if p is not None and q is not None and q >= p:
                        rows[p][q] = rows[p].get(q, F(0)) + k[i][j]

        self.k = [stiffness(EI, b - a) for _, a, b, EI in self.elements]
        for dofs, k in zip(self.dofs, self.k):
            add(dofs, k)
        for x, k in self.c["stations"]:
            if k is not RIGID:
                add([self.dof["host", x, 0], self.dof["beside", x, 0]],
                    [[k, -k], [-k, k]])
        self.factors = Factors(rows)

    def carries(self, member, a, b):
        """Load from a to b lies on this member."""
        return (member == "beside") == self.over_gap(a, b)

    def nodal(self, loads):
        """(element loads, loads at nodes)."""
        f = [[F(0)] * 4 for _ in self.elements]
        P = {}
        for load in loads:
            if load[0] == "point":
                key = "beside" if self.over_gap(load[1], load[1]) else "host", load[1]
                assert load[1] not in (self.c["gap"] or ())
                P[key] = P.get(key, F(0)) + load[2]
                continue
            _, start, end, w1, w2 = load
            for e, (member, a, b, _) in enumerate(self.elements):
                if start <= a and b <= end and self.carries(member, a, b):
                    g = (w2 - w1) / (end - start)
                    v = line_nodal(w1 + g * (a - start), w1 + g * (b - start), b - a)
                    f[e] = [p + q for p, q in zip(f[e], v)]
        return f, P

    def solve(self, f, P):
        rhs = {}
        for dofs, v in zip(self.dofs, f):
            for p, q in zip(dofs, v):
                if p is not None:
                    rhs[p] = rhs.get(p, F(0)) + q
        for (member, x), v in P.items():
            p = self.dof[member, x, 0]
            if p is not None:
                rhs[p] = rhs.get(p, F(0)) + v
        return self.factors.solve(rhs)

    def shift(self, u, key):
        p = self.dof[key]
        return F(0) if p is None else u[p]

    def end_force(self, u, f, e, i):
        return sum((self.k[e][i][j] * u[p] for j, p in enumerate(self.dofs[e])
                    if p is not None), F(0)) - f[e][i]

    # An effect is a sum of end forces of elements, less the load on its node.
    def element(self, member, x, side):
        for e, (m, a, b, _) in enumerate(self.elements):
            if m == member and x == (b if side == "left" else a):
                return e
        return None

    def terms(self, kind, what, side=None):
        """kind: V and M of host or beside at what = x; station, reaction (of the
        host), bearing (of the second beam)."""
        if kind[1:] in (" host", " beside"):
            assert what in self.x[kind[2:]], (self.c["name"], kind, what)
            e = self.element(kind[2:], what, side)
            i = 0 if kind[0] == "V" else 1
            if e is None:
                return []
            return [(e, i + 2, 1 - 2 * i)] if side == "left" else [(e, i, 2 * i - 1)]
        member, x, sign = "beside", what, 1
        if kind == "reaction":
            member, sign = "host", -1
        elif kind == "bearing":
            sign = -1
        ends = (self.element(member, x, "left"), 2), (self.element(member, x, "right"), 0)
        return [(e, i, sign) for e, i in ends if e is not None]

    def value(self, u, f, P, kind, what, side=None):
        v = sum((s * self.end_force(u, f, e, i)
                 for e, i, s in self.terms(kind, what, side)), F(0))
        if kind == "station":
            v -= P.get(("beside", what), F(0))
        elif kind == "reaction":
            v += P.get(("host", what), F(0))
        return v

    # ------------------------------------------------------------- influence lines

    def adjoint(self, terms):
        """Displacements z with effect = z . nodal loads - own fixed-end force, as the
        matrix is symmetric: one solution in place of one per place of the load."""
        rhs = {}
        for e, i, s in terms:
            for j, p in enumerate(self.dofs[e]):
                if p is not None:
                    rhs[p] = rhs.get(p, F(0)) + s * self.k[e][i][j]
        return self.factors.solve(rhs)

    def influence(self, z, terms, e, t):
        f = unit_nodal(t, self.elements[e][2] - self.elements[e][1])
        v = sum((z[p] * q for p, q in zip(self.dofs[e], f) if p is not None), F(0))
        return v - sum((s * f[i] for e2, i, s in terms if e2 == e), F(0))

    def parts(self, kind, what, side=None):
        """(positive, negative) area of the influence line."""
        terms = self.terms(kind, what, side)
        z = self.adjoint(terms)
        most = least = F(0)
        for e, (member, a, b, _) in enumerate(self.elements):
            if not self.carries(member, a, b):
                continue
            samples = [self.influence(z, terms, e, F(i, 5)) for i in (1, 2, 3, 4)]
            high, low = cubic_parts(cubic_through(samples))
            most += high * (b - a)
            least += low * (b - a)
        return most, least


def cubic_through(y):
    """Coefficients of the cubic with values y at 1/5 .. 4/5 (Newton's form)."""
    d1 = [y[i + 1] - y[i] for i in range(3)]
    d2 = [d1[i + 1] - d1[i] for i in range(2)]
    d3 = d2[1] - d2[0]
    # s = 5 t - 1;  y0 + d1 s + d2 s(s-1)/2 + d3 s(s-1)(s-2)/6
    c = [y[0], d1[0] - d2[0] / 2 + d3 / 3, d2[0] / 2 - d3 / 2, d3 / 6]
    return [c[0] - c[1] + c[2] - c[3], 5 * (c[1] - 2 * c[2] + 3 * c[3]),
            25 * (c[2] - 3 * c[3]), 125 * c[3]]


def root(v):
    return F(*(Decimal(v.numerator) / Decimal(v.denominator)).sqrt().as_integer_ratio())


def turning_points(c):
    a, b, d = 3 * c[3], 2 * c[2], c[1]
    if a == 0:
        return [-d / b] if b != 0 else []
    D = b * b - 4 * a * d
    return [] if D < 0 else [(-b - root(D)) / (2 * a), (-b + root(D)) / (2 * a)]


def cubic_parts(c):
    """Integrals over 0..1 of the positive and of the negative part."""
    def y(t):
        return c[0] + t * (c[1] + t * (c[2] + t * c[3]))

    def area(t):
        return t * (c[0] + t * (c[1] / 2 + t * (c[2] / 3 + t * c[3] / 4)))

    cuts = [F(0)] + sorted(t for t in turning_points(c) if 0 < t < 1) + [F(1)]
    zeros = []
    for a, b in zip(cuts, cuts[1:]):
        if y(a) * y(b) < 0:
            while b - a > F(1, 2**50):          # under 1e-15 of the interval
                m = F(int((a + b) * 2**59), 2**60)
                a, b = (a, m) if y(a) * y(m) <= 0 else (m, b)
            zeros.append((a + b) / 2)
    high = low = F(0)
    edges = [F(0)] + zeros + [F(1)]
    for a, b in zip(edges, edges[1:]):
        part = area(b) - area(a)
        high, low = (high + part, low) if part > 0 else (high, low + part)
    return high, low


# ------------------------------------------------------------------------- cases

W = F(52, 9)                # (12 + 40) psf at 16 in: 69.333 lb/ft
NOTCH = [(60, EI0), (66, 45000000), (162, EI0)]
HURT = (("station", 0), ("V host", 40, "left"), ("V host", 40, "right"),
        ("M host", 40, "left"), ("V beside", 70, "left"), ("M beside", 70, "left"),
        ("M beside", F(149, 2), "left"), ("reaction", 0))


def row(xs, k):
    return [(x, k) for x in xs]


def the_cases():
    L, cut, part = 162, (72, 77), (36, 113)
    whole = [line(W, 0, L)]
    four, eight = [40, 70, 79, 109], [40, 50, 60, 70, 79, 89, 99, 109]
    # a single span cut through; four stations are statically determinate
    case("severed, four stations", [L], part, row(four, 50000), whole, cut,
         effects=HURT + (("station", 1), ("station", 2), ("station", 3),
                         ("M host", 109, "left"), ("V host", 79, "right")))
    case("severed, four rigid stations", [L], part, row(four, RIGID), whole, cut)
    case("severed, four stations, two at the second beam's very ends", [L], (40, 109),
         row(four, 50000), whole, cut)
    case("severed, eight stations", [L], part, row(eight, 30000), whole, cut,
         effects=HURT + (("station", 3), ("reaction", 1)))
    case("severed, eight stations, very stiff", [L], part, row(eight, 10**9), whole, cut)
    case("severed, eight rigid stations", [L], part, row(eight, RIGID),
         whole + [point(300, 55)], cut)
    case("severed, eight stations, very soft", [L], part, row(eight, 10), whole, cut,
         effects=HURT[:5])
    case("severed, twelve stations, points", [L], (30, 126),
         row([33, 40, 47, 54, 61, 68, 81, 88, 95, 102, 109, 119], 22000),
         [line(4, 0, L), point(350, 50), point(250, 75), point(400, 100)], cut,
         EI2=240000000)
    case("severed, sixteen stations, unequal", [L], (24, 126),
         list(zip([26, 32, 38, 44, 50, 56, 62, 68, 80, 86, 92, 98, 104, 110, 116, 122],
                  [40000, 15000, 15000, 20000, 15000, 15000, 30000, 60000] * 2)),
         [line(3, 0, L, 9)], cut, EI2=120000000,
         effects=(("station", 0), ("station", 7), ("station", 11), ("V host", 56, "left"),
                  ("M host", 56, "left"), ("M beside", 75, "left"),
                  ("V beside", 75, "left"), ("reaction", 1)))
    case("severed, sixteen stations, mixed stiffness", [L], (24, 126),
         list(zip([26, 32, 38, 44, 50, 56, 62, 68, 80, 86, 92, 98, 104, 110, 116, 122],
                  [10**7, 100] * 8)), whole, cut)
    case("severed, wide gap, six stations", [180], (20, 160),
         row([24, 38, 52, 98, 130, 156], 45000),
         [line(5, 0, 180), line(0, 30, 150, 6), point(500, 75)], (60, 92),
         EI2=300000000, EI=[(40, EI0), (48, 70000000), (180, EI0)])
    case("severed, overhangs, load over the gap alone", [L], part,
         row([40, 55, 70, 79, 94, 109], 30000), [line(20, 72, 77), point(200, 74)],
         cut, left=24, right=36)
    case("severed, overhangs, lines across the gap", [L], part,
         row([40, 55, 70, 79, 94, 109], 30000),
         [line(2, -24, 90, 8), line(6, 60, 198), point(250, 198)], cut, left=24,
         right=36,
         effects=(("station", 1), ("station", 5), ("reaction", 0), ("reaction", 1),
                  ("V host", 30, "left"), ("M host", 94, "left"), ("M host", L, "left"),
                  ("M beside", 74, "left")))
    # the same with the second beam on supports of its own
    case("severed, bearing both ends, two stations", [L], (0, L),
         row([60, 90], 40000), whole, cut, bears=("left", "right"))
    case("severed, bearing left, three stations", [L], (0, 120),
         row([64, 84, 116], 40000), whole, cut, bears=("left",),
         effects=(("station", 0), ("station", 2), ("bearing", "left"), ("reaction", 0),
                  ("M beside", 75, "left"), ("V beside", 64, "left"),
                  ("M host", 84, "left")))
    case("severed, bearing both ends, ten stations", [L], (0, L),
         row([8, 24, 40, 56, 68, 81, 100, 120, 140, 154], 25000),
         [line(W, 0, L), point(300, 74), line(8, 30, 110)], cut,
         bears=("left", "right"), EI2=98000000,
         effects=(("station", 4), ("bearing", "left"), ("bearing", "right"),
                  ("reaction", 0), ("V host", 56, "right"), ("M host", 56, "left"),
                  ("M beside", 74, "left"), ("V beside", 74, "left")))
    case("severed near the bearing, bearing right", [L], (84, L),
         row([88, 98, 112, 118, 150], 35000), whole, (142, 147), bears=("right",))
    # a notched host
    case("notched, two stations carry nothing", [L], (40, 100), row([44, 96], 30000),
         whole, EI=NOTCH)
    case("notched, two stations, bearing left", [L], (0, 100), row([54, 96], 30000),
         whole, EI=NOTCH, bears=("left",))
    case("notched, three stations", [L], (30, 110), row([34, 63, 106], 60000),
         [line(W, 0, L), point(400, 63)], EI=NOTCH,
         effects=(("station", 0), ("station", 1), ("V host", 63, "left"),
                  ("V host", 63, "right"), ("M host", 63, "left"),
                  ("M beside", 63, "left"), ("V beside", 50, "left"), ("reaction", 1)))
    case("notched, three rigid stations, bearing both ends", [L], (0, L),
         row([40, 63, 120], RIGID), whole, EI=NOTCH, bears=("left", "right"),
         EI2=60000000)
    case("notched twice, six stations, not symmetric", [L], (22, 103),
         row([25, 31, 57, 69, 90, 99], 27500), [line(3, 0, 120, 8), point(350, 31)],
         EI=[(10, 70000000), (60, EI0), (66, 25000000), (162, EI0)], EI2=190000000)
    case("notched, six stations, bearing both ends", [L], (0, L),
         row([18, 44, 58, 68, 100, 144], 33000), [line(2, 20, 140, 9)],
         EI=NOTCH, bears=("left", "right"))
    # whole hosts with closed forms
    case("one rigid station at midspan, bearing both ends", [160], (0, 160),
         row([80], RIGID), [line(6, 0, 160)], bears=("left", "right"), EI2=90000000)
    case("one station at midspan, bearing both ends", [160], (0, 160),
         row([80], 2000), [line(6, 0, 160)], bears=("left", "right"), EI2=90000000)
    case("twins, sixteen rigid stations", [153], (0, 153), row(range(9, 153, 9), RIGID),
         [line(6, 0, 153)], bears=("left", "right"), also=[F(153, 2)])
    case("twins, sixteen very stiff stations", [153], (0, 153),
         row(range(9, 153, 9), 10**9), [line(6, 0, 153)], bears=("left", "right"))
    case("next to no stiffness, bearing both ends", [L], (0, L),
         row([30, 60, 100, 140], F(1, 10**6)), whole, bears=("left", "right"),
         effects=(("V host", 60, "left"), ("M host", 60, "left"), ("reaction", 0)))
    # more spans than one
    two = [L, 150]
    case("two spans, cut in the first", two, part, row(eight, 30000),
         [line(W, 0, 312)], cut,
         effects=(("station", 0), ("station", 4), ("reaction", 0), ("reaction", 1),
                  ("reaction", 2), ("M host", L, "left"), ("V host", L, "left"),
                  ("V host", L, "right"), ("M host", 99, "left"),
                  ("M beside", 70, "left")))
    case("two spans, cut in the second, bearing both ends", two, (162, 312),
         list(zip([176, 200, 216, 232, 260, 300], [RIGID, 30000] * 3)),
         [line(W, 0, 312), point(400, 81)], (220, 226), bears=("left", "right"))
    case("two spans and overhang, notched, bearing at the middle", two, (162, 250),
         row([172, 190, 210, 222, 244], 28000), [line(W, 0, 342), point(300, 342)],
         right=30, EI=[(200, EI0), (206, 40000000), (342, EI0)], bears=("left",))
    case("two spans, on a post of its own", two, (30, 100), row([44, 63, 78], 50000),
         [line(W, 0, 312)], EI=[(60, EI0), (66, 45000000), (312, EI0)],
         bears=("right",))
    three = [120, 150, 132]
    case("three spans, cut in the middle one", three, (150, 238),
         row([153, 165, 177, 189, 200, 212, 223, 235], 30000),
         [line(W, 0, 402), point(300, 194)], (192, 196),
         effects=(("station", 0), ("station", 3), ("reaction", 0), ("reaction", 1),
                  ("reaction", 3), ("M host", 120, "left"), ("M beside", 189, "left"),
                  ("V beside", 194, "left")))
    case("three spans, overhang, cut in the last, bearing right", three, (300, 402),
         row([305, 318, 330, 347, 360, 390], 30000), [line(W, -30, 402)], (336, 342),
         left=30, bears=("right",),
         effects=(("station", 0), ("station", 3), ("bearing", "right"), ("reaction", 3),
                  ("reaction", 2), ("M host", 270, "left"), ("M beside", 339, "left")))
    case("three spans, stepped, second beam in the middle one", three, (120, 270),
         row([130, 160, 195, 230, 260], 20000), [line(W, 0, 402), line(4, 120, 270, 0)],
         EI=[(100, EI0), (140, 220000000), (190, EI0), (200, 50000000), (402, EI0)],
         bears=("left", "right"))


# ------------------------------------------------------------------------ solving

def solved(c):
    """Fills in reactions, bearings, station forces and samples of a case."""
    m = c["model"] = Model(c)
    f, P = m.nodal(c["loads"])
    u = m.solve(f, P)
    c["value"] = lambda *what: m.value(u, f, P, *what)
    c["shift"] = lambda member, x, i=0: m.shift(u, (member, F(x), i))
    c["forces"] = [c["value"]("station", x) for x, _ in c["stations"]]
    c["reactions"] = [c["value"]("reaction", x) for x in c["supports"]]
    c["bearings"] = {e: c["value"]("bearing", c["beside"][e == "right"])
                     for e in c["bears"]}
    springs_and_equilibrium(c)
    return c


def springs_and_equilibrium(c):
    """What the elements leave over is what the springs carry; all balances."""
    for (x, k), force in zip(c["stations"], c["forces"]):
        slip = c["shift"]("host", x) - c["shift"]("beside", x)
        assert (slip == 0) if k is RIGID else (force == k * slip), c["name"]
    ups = list(zip(c["supports"], c["reactions"]))
    ups += [(c["beside"][e == "right"], r) for e, r in c["bearings"].items()]
    total, moment = (sum((r * x**i for x, r in ups), F(0)) for i in (0, 1))
    for load in c["loads"]:
        if load[0] == "point":
            total, moment = total - load[2], moment - load[2] * load[1]
        else:
            _, a, b, w1, w2 = load
            total -= (w1 + w2) / 2 * (b - a)
            moment -= (b - a) * (w1 * (2 * a + b) + w2 * (a + 2 * b)) / 6
    assert total == 0 and moment == 0, c["name"]


def envelope(c):
    """[(kind, what, side, most, least)] for a live load of 1 lb/in."""
    m, out = c["model"], []
    f, P = m.nodal([line(1, c["first"], c["last"])])
    u = m.solve(f, P)
    for kind, what, *side in c["effects"]:
        x = place_of(c, kind, what)
        most, least = m.parts(kind, x, *side)
        # live load everywhere is the sum of the two: an exact check
        assert most >= 0 >= least, c["name"]
        assert most + least == m.value(u, f, P, kind, x, *side), c["name"]
        out.append((kind, what, side[0] if side else None, most, least))
    return out


def place_of(c, kind, what):
    if kind == "station":
        return c["stations"][what][0]
    if kind == "reaction":
        return c["supports"][what]
    if kind == "bearing":
        return c["beside"][what == "right"]
    return F(what)


# ------------------------------------------------------------------------- checks

def by_name(name):
    return next(c for c in CASES if c["name"] == name)


def gauss(A, b):
    """Plain elimination with pivoting, apart from the one above."""
    n = len(b)
    rows = [[F(v) for v in r] + [F(v)] for r, v in zip(A, b)]
    for i in range(n):
        p = next(r for r in range(i, n) if rows[r][i] != 0)
        rows[i], rows[p] = rows[p], rows[i]
        for r in range(n):
            if r != i and rows[r][i] != 0:
                q = rows[r][i] / rows[i][i]
                rows[r] = [v - q * w for v, w in zip(rows[r], rows[i])]
    return [rows[i][n] / rows[i][i] for i in range(n)]


def statics_checks():
    """Cut-through single spans that equilibrium alone decides.

    Four stations without bearings: moments of the left part about its bearing, of the
    right part about its own, then force and moment (about x = 0) of the second beam."""
    w, L, g1, g2 = W, 162, 72, 77
    left = w * g1**2 / 2
    right = w * (L - g2) ** 2 / 2
    strip, arm = w * (g2 - g1), F(g1 + g2, 2)
    want = gauss([[40, 70, 0, 0], [0, 0, L - 79, L - 109], [1, 1, 1, 1],
                  [40, 70, 79, 109]], [left, right, -strip, -strip * arm])
    for name in ("severed, four stations", "severed, four rigid stations",
                 "severed, four stations, two at the second beam's very ends"):
        assert by_name(name)["forces"] == want
    for v, printed in zip(want, (-620.5, 568.5, 654.9, -631.8)):
        assert abs(float(v) - printed) < 0.1
    # two stations and two bearings: each part is a simple beam to its station
    c = by_name("severed, bearing both ends, two stations")
    assert c["forces"] == [left / 60, right / (L - 90)]
    # three stations and one bearing B at x = 0
    c = by_name("severed, bearing left, three stations")
    want = gauss([[64, 0, 0, 0], [0, L - 84, L - 116, 0], [1, 1, 1, -1],
                  [64, 84, 116, 0]], [left, right, -strip, -strip * arm])
    assert c["forces"] + [c["bearings"]["left"]] == want
    # load over the gap alone goes through the second beam and back
    c = by_name("severed, overhangs, load over the gap alone")
    assert sum(c["forces"]) == -300
    assert by_name("notched, two stations carry nothing")["forces"] == [0, 0]


def simple_beam_checks():
    """Simple and continuous beams of any text as limits of the pair."""
    w, L = W, F(162)
    stations = row([30, 60, 100, 140], 0)
    parts = dict(spans=[L], beside=(0, L), loads=[line(w, 0, L)],
                 bears=("left", "right"), also=[81])
    case("no stiffness", stations=stations, **parts)
    c = solved(CASES.pop())
    assert c["value"]("M host", F(81), "left") == w * L**2 / 8
    assert c["shift"]("host", 81) == 5 * w * L**4 / (384 * EI0)
    assert c["shift"]("beside", 81) == 0 and c["reactions"] == [w * L / 2] * 2
    soft = by_name("next to no stiffness, bearing both ends")
    assert all(0 < v < F(1, 10**6) for v in soft["forces"])
    # three spans cut in the middle one, untied: each part a span with an overhang a,
    # M = -w a^2/2, its tip at w a (3 a^3 + 4 a^2 l - l^3)/(24 EI)
    case("untied", [120, 150, 132], (150, 238), row([170, 210], 0), [line(w, 0, 402)],
         gap=(192, 196), bears=("left", "right"))
    c, a, l = solved(CASES.pop()), F(72), F(120)
    assert c["value"]("M host", F(120), "left") == -w * a**2 / 2
    assert (c["shift"]("host", 192)
            == w * a * (3 * a**3 + 4 * a**2 * l - l**3) / (24 * EI0))
    assert sum(c["bearings"].values()) == 4 * w
    # a second beam that hardly bends props the host: two spans, R = 5/4 w l
    case("prop", stations=[(81, RIGID)], EI2=10**30, **parts)
    c = solved(CASES.pop())
    assert abs(c["forces"][0] - F(5, 4) * w * 81) < F(1, 10**9)
    assert abs(c["value"]("M host", F(81), "left") + w * 81**2 / 8) < F(1, 10**9)
    # one tie at midspan: 5 w L^4/(384 EI) - F L^3/(48 EI) = F L^3/(48 EI2) + F/k
    w, L, EI2 = F(6), F(160), F(90000000)
    for name, give in (("one rigid station at midspan, bearing both ends", F(0)),
                       ("one station at midspan, bearing both ends", F(1, 2000))):
        force = 5 * w * L**4 / (384 * EI0) / (L**3 / 48 * (1 / EI0 + 1 / EI2) + give)
        c = by_name(name)
        assert c["forces"] == [force]
        assert c["shift"]("host", 80) == force * (L**3 / (48 * EI2) + give)
        assert c["value"]("M beside", F(80), "left") == force * L / 4
    uncoupled_envelopes(soft)


def uncoupled_envelopes(soft):
    """V at x of a simple span under a live load that may be absent: w (L - x)^2/(2 L)
    and -w x^2/(2 L); M never below nil."""
    L, x = F(162), F(60)
    for kind, what, _, most, least in envelope(soft):
        want = {"V host": ((L - x) ** 2 / (2 * L), -x**2 / (2 * L)),
                "M host": (x * (L - x) / 2, 0), "reaction": (L / 2, 0)}[kind]
        assert abs(most - want[0]) < F(1, 10**5), kind
        assert abs(least - want[1]) < F(1, 10**5), kind


def twin_checks():
    """Two equal beams over the whole span, tied rigidly at equal distances s: half of
    the load each, and upon it one half of a beam continuous over all ties (the host
    with, the second beam against it): host and second beam apart deflect as +y and -y
    of that beam. Its moments over the ties from the three-moment equation
    M[i-1] + 4 M[i] + M[i+1] = -w s^2/2. So the moment halves but for w s^2/24."""
    w, L, n = F(6), F(153), 17
    s = L / n
    A = [[4 if i == j else abs(i - j) == 1 for j in range(n - 1)] for i in range(n - 1)]
    ties = [F(0)] + gauss(A, [-w * s**2 / 2] * (n - 1)) + [F(0)]
    c = by_name("twins, sixteen rigid stations")
    for i in range(1, n):
        x = s * i
        simple = w * x * (L - x) / 2
        assert c["value"]("M host", x, "left") == simple / 2 + ties[i] / 2
        assert c["value"]("M beside", x, "left") == simple / 2 - ties[i] / 2
    mid = (ties[8] + ties[9]) / 2 + w * s**2 / 8
    assert c["value"]("M host", L / 2, "left") == w * L**2 / 16 + mid / 2
    assert abs(mid / 2) / (w * L**2 / 16) < F(2, 1000)
    stiff = by_name("twins, sixteen very stiff stations")
    for a, b in zip(c["forces"], stiff["forces"]):
        assert abs(a - b) < F(1, 10) and a != b


def influence_checks():
    """A few influence ordinates by a solution of their own, no adjoint."""
    for name in ("severed, four stations", "three spans, cut in the middle one"):
        c = by_name(name)
        m = c["model"]
        for kind, what, *side in c["effects"]:
            x = place_of(c, kind, what)
            terms = m.terms(kind, x, *side)
            z = m.adjoint(terms)
            for e in range(0, len(m.elements), 5):
                f, P = m.nodal([])
                h = m.elements[e][2] - m.elements[e][1]
                f[e] = unit_nodal(F(1, 3), h)
                direct = m.value(m.solve(f, P), f, P, kind, x, *side)
                assert direct == m.influence(z, terms, e, F(1, 3)), name
    high, low = cubic_parts([F(-1, 4), F(1), F(0), F(0)])        # t - 1/4
    assert abs(high - F(9, 32)) < F(1, 10**20) and abs(low + F(1, 32)) < F(1, 10**20)
    c = cubic_through([F(i, 5) ** 3 - F(i, 5) for i in (1, 2, 3, 4)])
    assert c == [0, -1, 0, 1] and cubic_parts(c) == (0, F(-1, 4))


# ------------------------------------------------------------------------- output

def number(q):
    return "%.17g" % float(q)


def pairs(**fields):
    return ", ".join("%s = %s" % (k, v if isinstance(v, str) else number(v))
                     for k, v in fields.items())


class Lua:
    def __init__(self):
        self.lines = []

    def add(self, depth, text):
        text = "  " * depth + text
        if len(text) > 90:
            cut = text.rindex(", ", 0, 90)
            text, rest = text[:cut + 1], text[cut + 2:]
            self.lines.append(text)
            return self.add(depth + 1, rest)
        self.lines.append(text)

    def items(self, name, rows):
        self.add(2, "%s = {" % name)
        for r in rows:
            self.add(3, "{%s}," % r)
        self.add(2, "},")


def load_row(load):
    if load[0] == "point":
        return pairs(at=load[1], P=load[2])
    return pairs(**{"from": load[1], "to": load[2], "w1": load[3], "w2": load[4]})


def sample(c, member, x):
    V = ["V " + member, x]
    gap = c["gap"]
    fields = {"x": x}
    if member == "host" and gap and gap[0] <= x <= gap[1]:
        if gap[0] < x < gap[1]:
            return pairs(x=x, V_left=F(0), V_right=F(0), M=F(0))
        fields["side"] = '"left"' if x == gap[0] else '"right"'
    left, right = (c["value"]("M " + member, x, s) for s in ("left", "right"))
    ends = c["value"](V[0], x, "left"), c["value"](V[0], x, "right")
    el, er = (c["model"].element(member, x, s) for s in ("left", "right"))
    M = right if el is None else left
    assert el is None or er is None or left == right
    fields.update(V_left=ends[0], V_right=ends[1], M=M,
                  deflection=c["shift"](member, x))
    if member == "host":
        fields["slope"] = c["shift"](member, x, 1)
    return pairs(**fields)


def host_places(c):
    gap = c["gap"]
    return sorted(set(c["model"].x["host"]) | ({(gap[0] + gap[1]) / 2} if gap else set()))


def effect(kind, what, side, most, least):
    fields = {"kind": '"%s"' % kind}
    if kind in ("station", "reaction"):
        fields["number"] = F(what + 1)
    elif kind == "bearing":
        fields["side"] = '"%s"' % what
    else:
        fields.update(x=F(what), side='"%s"' % side)
    return pairs(**fields, most=most * W, least=least * W)


def lua(c, out):
    first = [pairs(**{"from": a, "to": b, "EI": v}) for a, b, v in c["EI"]]
    out.add(1, "{")
    out.add(2, 'name = "%s",' % c["name"])
    out.add(2, "spans = {%s}," % ", ".join(map(number, c["spans"])))
    out.add(2, "overhang_left = %s, overhang_right = %s,"
            % (number(-c["first"]), number(c["last"] - c["supports"][-1])))
    if c["gap"]:
        out.add(2, "gap = {%s, %s}," % tuple(map(number, c["gap"])))
    out.items("EI", first)
    out.add(2, "beside = {%s," % pairs(**{"from": c["beside"][0], "to": c["beside"][1],
                                          "EI": c["EI2"]}))
    out.add(3, "bears = {%s}}," % ", ".join(
        "%s = %s" % (e, str(e in c["bears"]).lower()) for e in ("left", "right")))
    out.items("stations", [
        pairs(at=x, **({"rigid": "true"} if k is RIGID else {"k": k}), force=v)
        for (x, k), v in zip(c["stations"], c["forces"])])
    out.items("loads", map(load_row, c["loads"]))
    out.add(2, "reactions = {%s}," % ", ".join(map(number, c["reactions"])))
    out.add(2, "bearings = {%s}," % pairs(**c["bearings"]))
    out.items("host", [sample(c, "host", x) for x in host_places(c)])
    out.items("second", [sample(c, "beside", x) for x in c["model"].x["beside"]])
    if c["effects"]:
        out.add(2, "live = %s," % number(W))
        out.items("envelope", [effect(*e) for e in envelope(c)])
    out.add(1, "},")


HEADER = """-- SPDX-License-Identifier: MIT
-- Two beams tied by springs, solved exactly in rationals. Written by two_beams.py beside
-- this file, whose head gives the conventions; change that and run it, not this file.
-- lb, in, lb-in2, lb/in; loads down, reactions up, M sagging, deflection down positive;
-- forces of stations positive where they push the second beam down. 'envelope' is for
-- the line load 'live' over all of the host that may be absent anywhere, without 'loads'.
-- Each number is the double nearest to the exact value. Confidence: computed.
return {"""


def main():
    the_cases()
    for c in CASES:
        solved(c)
    assert len({c["name"] for c in CASES}) == len(CASES)
    statics_checks()
    simple_beam_checks()
    twin_checks()
    influence_checks()
    out = Lua()
    for c in CASES:
        lua(c, out)
    here = os.path.dirname(os.path.abspath(__file__))
    with open(os.path.join(here, "two_beams.lua"), "w", encoding="ascii",
              newline="\n") as f:
        f.write("\n".join([HEADER] + out.lines + ["}", ""]))
    print("%d cases written" % len(CASES))


if __name__ == "__main__":
    main()
