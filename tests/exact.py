# SPDX-License-Identifier: MIT
"""Joists worked again in 50-digit arithmetic (mpmath): reads rows of tests/exact.lua and
prints the largest relative difference of each number, and the joist that has it.

Statics and clauses, from no line of the module. A simple span L under dead and live load
D, Lp psf at spacing s, with one round hole of diameter D_h at x, its lower edge `below`
over the bottom:
  M = w L^2/8 under D+L;  net section: A_n, y_n, I_n of two rectangles b by below and
  b by above, S = I_n over the distance to each edge of what is left
  deflection = 5 w L^4/(384 E I) of the joist uncut.
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


def main():
    worst, rows = {}, 0
    head = sys.stdin.readline().strip().split(",")
    for line in sys.stdin:
        cells = line.strip().split(",")
        rows += 1
        exact = worked([float.fromhex(c) for c in cells[:10]])
        for name, cell in zip(head[10:], cells[10:]):
            if cell == "":
                continue
            value = exact[name]
            given = mpf(float.fromhex(cell))
            if value == 0:  # such as the lip of an opening at an edge
                error = abs(given)
            else:
                error = abs((given - value) / value)
            if name not in worst or error > worst[name][0]:
                worst[name] = (error, rows)
    for name in head[10:]:
        print("%-10s largest relative difference %.2e (joist %d)"
              % (name, float(worst[name][0]), worst[name][1]))
    print("exact: %d joists against %d digits, largest %.2e"
          % (rows, mp.dps, float(max(e for e, _ in worst.values()))))


main()
