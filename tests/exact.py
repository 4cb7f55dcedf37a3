# SPDX-License-Identifier: MIT
"""Joists worked again in 50-digit arithmetic (mpmath): reads rows of tests/exact.lua and
prints the largest relative difference of each number, and the joist that has it.

Statics and clauses, from no line of the module. A simple span L under dead and live load
D, Lp psf at spacing s, with one round hole of diameter D_h at x, its lower edge `below`
over the bottom:
  M = w L^2/8 under D+L;  net section: A_n, y_n, I_n of two rectangles b by below and
  b by above, S = I_n over the distance to each edge of what is left
  deflection = 5 w L^4/(384 E I) of the joist uncut.
Then beams of one or two spans whose EI is another on a stretch: the moment over the
middle support by the force method, M_B = -int(M_0 m/EI)/int(m^2/EI); sag at a place by
the unit load, int(M m_x/EI). M is of the second degree between the places where
something changes and m of the first, so that Simpson's rule is exact on each.
"""
import sys
from mpmath import mp, mpf

mp.dps = 50


def worked(r):
    L, b, d, s, D, Lp, x, Dh, below, E = (mpf(v) for v in r[:10])
    w_D, w_L = D * s / 144, Lp * s / 144
    w = w_D + w_L
    out = {}
    out["moment"] = w * L * L / 8
    out["shear"] = w * L / 2
    I = b * d**3 / 12
    out["live"] = 5 * w_L * L**4 / (384 * E * I)
    above = d - below - Dh
    # a lip thinner than 1 in or d/8 counts for nothing under a larger opening
    thin = max(mpf(1), d / 8)
    low, high = below, above
    if low < thin and Dh > low:
        below = mpf(0)
    if high < thin and Dh > high:
        above = mpf(0)
    A = b * (below + above)
    if A == 0:  # nothing is left: every number of the section is nil
        out.update({"A": mpf(0), "y_b": mpf(0), "I": mpf(0), "S_b": mpf(0), "S_t": mpf(0)})
        return out
    y = (b * below * below / 2 + b * above * (d - above / 2)) / A  # from the bottom
    I_n = (b * below**3 / 12 + b * below * (y - below / 2) ** 2
           + b * above**3 / 12 + b * above * (d - above / 2 - y) ** 2)
    out["A"], out["y_b"], out["I"] = A, y, I_n
    out["S_b"] = I_n / (y if below else y - (d - above))
    out["S_t"] = I_n / ((d if above else below) - y)
    return out


class Span:
    """Statics of one simple span from x0 to x0 + L under what stands on it."""

    def __init__(self, x0, L, w, a, b, q, at, P):
        self.x0, self.L, self.w, self.q = x0, L, w, q
        self.a, self.b = max(a - x0, mpf(0)), min(b - x0, L)
        if self.b <= self.a:
            self.a = self.b = mpf(0)
        self.at = at - x0
        self.P = P if 0 <= self.at < L else mpf(0)
        Q = q * (self.b - self.a)
        right = (w * L * L / 2 + Q * (self.a + self.b) / 2 + self.P * self.at) / L
        self.R0 = w * L + Q + self.P - right
        self.R1 = right

    def M(self, x):
        z = x - self.x0
        on = max(min(z, self.b) - self.a, mpf(0))
        m = self.R0 * z - self.w * z * z / 2 - self.q * on * (z - self.a - on / 2)
        return m - self.P * max(z - self.at, mpf(0))


def beam_worked(v):
    L1, L2, EI, lo, hi, EI_n, w, a, b, q, at, P = v[:12]
    two = L2 > 0
    spans = [Span(mpf(0), L1, w, a, b, q, at, P)]
    if two:
        spans.append(Span(L1, L2, w, a, b, q, at, P))
    places = sorted({mpf(0), L1, L1 + L2, lo, hi, a, b, at, *v[12:15]})

    def integral(f):  # of f/EI: Simpson's rule on each stretch, f of the third degree
        total = mpf(0)
        for x, y in zip(places, places[1:]):
            mid = (x + y) / 2
            stiff = EI_n if lo < mid < hi else EI
            inside = (y - x) * mpf(10) ** -40  # a kink at an end belongs to its side
            total += (f(x + inside) + 4 * f(mid) + f(y - inside)) * (y - x) / (6 * stiff)
        return total

    def of(x):
        return spans[1] if two and x > L1 else spans[0]

    def m(x):  # of a unit moment over the middle support
        return x / L1 if x <= L1 else (L1 + L2 - x) / L2

    M_B = mpf(0)
    if two:
        M_B = -integral(lambda x: of(x).M(x) * m(x)) / integral(lambda x: m(x) ** 2)

    def M(x):
        return of(x).M(x) + (M_B * m(x) if two else 0)

    def sag(at_x):  # a unit load there, on the simple span in which it is
        s = of(at_x)
        z, L = at_x - s.x0, s.L

        def unit(x):
            y = x - s.x0
            if not 0 < y < L:
                return mpf(0)
            return y * (L - z) / L if y < z else z * (L - y) / L

        return integral(lambda x: M(x) * unit(x))

    out = {"R1": spans[0].R0 + (M_B / L1 if two else 0)}
    if two:
        out["R2"] = spans[0].R1 + spans[1].R0 - M_B / L1 - M_B / L2
        out["R3"] = spans[1].R1 + M_B / L2
    else:
        out["R2"] = spans[0].R1
    for k in range(3):
        out["M%d" % (k + 1)] = M(v[12 + k])
        out["y%d" % (k + 1)] = sag(v[12 + k])
    # What sums that cancel are measured by: the loads, their moments, the sag that the
    # beam would have if all of it went down.
    load = w * (L1 + L2) + q * (b - a) + P
    longest = max(L1, L2)
    scale = {"R": load, "M": load * longest / 8,
             "y": load * longest ** 3 / (48 * min(EI, EI_n))}
    return out, scale


def note(worst, name, error, row):
    if name not in worst or error > worst[name][0]:
        worst[name] = (error, row)


def main():
    worst, joists, beams = {}, 0, 0
    head = sys.stdin.readline().strip().split(",")
    for line in sys.stdin:
        if line.strip() == "beams":
            break
        cells = line.strip().split(",")
        joists += 1
        exact = worked([float.fromhex(c) for c in cells[:10]])
        for name, cell in zip(head[10:], cells[10:]):
            if cell == "":
                continue
            value = exact[name]
            given = mpf(float.fromhex(cell))
            # a value of nil is such as the lip of an opening at an edge
            error = abs(given - value) / (abs(value) if value != 0 else 1)
            note(worst, name, error, joists)
    of_beams = sys.stdin.readline().strip().split(",")
    for line in sys.stdin:
        cells = line.strip().split(",")
        beams += 1
        exact, scale = beam_worked([mpf(float.fromhex(c)) for c in cells[:15]])
        for name, cell in zip(of_beams[15:], cells[15:]):
            if cell == "":
                continue
            error = abs(mpf(float.fromhex(cell)) - exact[name])
            note(worst, name, error / max(abs(exact[name]), scale[name[0]] / 1000), beams)
    for name in head[10:] + of_beams[15:]:
        print("%-10s largest relative difference %.2e (row %d)"
              % (name, float(worst[name][0]), worst[name][1]))
    print("exact: %d joists and %d beams against %d digits, largest %.2e"
          % (joists, beams, mp.dps, float(max(e for e, _ in worst.values()))))


main()
