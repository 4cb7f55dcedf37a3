-- SPDX-License-Identifier: MIT
-- Mutants that no test can notice, since the program means the same with them:
-- {["file: line -> line with the slip"] = why}.
return {
  ["csrc/review/combine.c: for (int m = 0; m < g->to->items; m++) -> "
    .. "for (int m = 0; m <= g->to->items; m++)"] =
    "which limits are read rests on the kinds and places of cuts, not on loads: every "
    .. "item has its twin among those of the first combination, where the loop ends",
  ["csrc/beam/severed_unit.c: for (int j = 0; j < 2; j++) times(one->R[1][j], load, "
    .. "s->R[c][j]); -> for (int j = 0; j <= 2; j++) times(one->R[1][j], load, "
    .. "s->R[c][j]);"] =
    "a joist with a gap has two supports: the third's row is in the room of both beams, "
    .. "and nobody reads it",
  ["lua/netsection/lateral.lua: local value = row[word] or 1 -> "
    .. "local value = row[word] or 2"] =
    "every row of the table has every word, and a bolt, which has no row for withdrawal, "
    .. "is refused before",
  ["csrc/grid/grid.c: for (int r = 1; r < a->n - 1; r++) -> "
    .. "for (int r = 1; r <= a->n - 1; r++)"] =
    "the last joist that a strip crosses is free, and the loop's one condition leaves "
    .. "out free ones",
  ["csrc/review/curve.c: const bool end = right && x >= s->second[1][lane]; -> "
    .. "const bool end = right && x > s->second[1][lane];"] =
    "right of the end V has the end's reaction in it: nil but for rounding, which the "
    .. "condition takes off",
  ["csrc/check/deflection.c: const double l = th > 0 ? p : lo[i], u = th > 0 ? hi[i] : "
    .. "p; -> const double l = th >= 0 ? p : lo[i], u = th > 0 ? hi[i] : p;"] =
    "where the slope is nil the place is found, and either bracket ends there",
  ["lua/netsection/fix/strap_joint.lua: f.layout[#f.layout + 1] = {x = side < 0 and "
    .. "c.x1 - off or c.x2 + off, h = 0, -> f.layout[#f.layout + 1] = {x = side < 1 and "
    .. "c.x1 - off or c.x2 + off, h = 0,"] =
    "a side is -1 or 1",
  ["csrc/beam/severed.c: const double a = x[i] - S0[i], b = S1[i] - x[i]; -> "
    .. "const double a = x[i] + S0[i], b = S1[i] - x[i];"] =
    "a joist's places are counted from its first support, which is at 0",
  ["csrc/beam/influence.c: const bool in = (x > A[i]) & (x < B[i]); -> "
    .. "const bool in = (x > A[i]) & (x <= B[i]);"] =
    "at the far end the force is 0 by the formula as well",
  ["lua/netsection/fix/fasten.lua: return {Z = f.rated, C_z = 1, stiff = slip, rated = "
    .. "true, steps = {}} -> return {Z = f.rated, C_z = 2, stiff = slip, rated = true, "
    .. "steps = {}}"] =
    "no factor is put on a maker's value, so this one is not read",
  ["csrc/nds/steel.c: if (!(t > 0 && d > 0 && F_y > 0 && E > 0)) return 0; -> "
    .. "if (!(t >= 0 && d > 0 && F_y > 0 && E > 0)) return 0;"] =
    "a plate of no thickness is refused where it is read; by the formulas it is slender "
    .. "without bounds and its stress nil as well",
  ["lua/netsection/fix/midspan_support.lua: if #m.cuts > 0 and part.severed(m) and not "
    .. "lost then -> if #m.cuts >= 0 and part.severed(m) and not lost then"] =
    "a joist without cuts is not cut through (the first condition has been taken out)",
  ["csrc/check/net_bending.c: const bool inner = least[i] < S * (1 - 1e-12); -> "
    .. "const bool inner = least[i] <= S * (1 - 1e-12);"] =
    "only the remark on where the least modulus is, and only where it is less than the "
    .. "other by 1e-12 to the last bit, which no pair of sections is but by chance",
  ["csrc/beam/single_span.c: s->unknowns = 0; -> s->unknowns = 1;"] =
    "a single span takes the way of beams with an unknown, whose answers are nil: the "
    .. "same numbers but for the last bit (3.6e-16), slower",
  ["csrc/beam/table.c: ns_fill(differs, k == 0 || k == s->breaks - 1 ? 1 : 0); -> "
    .. "ns_fill(differs, k == 0 || k == s->breaks - 2 ? 1 : 0);"] =
    "the last break is a support or has a point load, which the next lines find, or it "
    .. "is a free end, where V and M are nil on both sides; at the one before it both "
    .. "sides are worked and alike",
  ["csrc/csa/values.c: {-1, -1, {0.70, 0.70}, {0.75, 0.85}, {1.1, 1.4}, 0.9, true}, -> "
    .. "{-2, -1, {0.70, 0.70}, {0.75, 0.85}, {1.1, 1.4}, 0.9, true},"] =
    "no row of the joist: any number below nil says so (t.value < 0)",
  ["csrc/work/kept.c: memcpy(w->in.point, b->point, sizeof b->point[0] * "
    .. "(size_t)s->points); -> memcpy(w->in.point, b->point, sizeof b->point[1] * "
    .. "(size_t)s->points);"] =
    "one point's room is as large as another's",
  ["csrc/beam/n_span_solve.c: const double *restrict x2 = s->x[k + 1 < s->breaks ? k + "
    .. "1 : k]; -> const double *restrict x2 = s->x[k + 1 <= s->breaks ? k + 1 : k];"] =
    "the last break is at the last support or past it, where the sums of spans have the "
    .. "factors r and l, both nil: any length times nil (hinges, which these beams do "
    .. "not have, leave room for the row after the last)",
  ["csrc/repair/fixed.c: const bool in = (mid > g->g1[i]) & (mid < g->g2[i]) & "
    .. "(slips[i] != 0); -> const bool in = (mid >= g->g1[i]) & (mid < g->g2[i]) & "
    .. "(slips[i] != 0);"] =
    "where the cut begins there are breaks, so that a segment whose middle is there has "
    .. "no length, and its stiffness bends nothing",
  ["csrc/beam/table.c: const bool right = k < o->s->breaks - 1; -> "
    .. "const bool right = k < o->s->breaks - 2;"] =
    "M has no step at the last break but one, so its rows of both sides hold the same "
    .. "(to the last bit, where both are worked); of a share that steps the last two "
    .. "breaks are one place, the end of both members",
  ["csrc/cuts/demand.c: o->in[i] = at ? 1 : 0; -> o->in[i] = at ? 2 : 0;"] =
    "the row is asked for nil or not alone",
  ["csrc/beam/table.c: const bool in = (newton > lo[i]) & (newton < hi[i]); -> "
    .. "const bool in = (newton > lo[i]) & (newton <= hi[i]);"] =
    "a step that lands on the bracket's end to the last bit goes on from there, in place "
    .. "of from the middle, to the same peak",
  ["csrc/review/curve.c: ns_beam_at(s, best[q], q != 1, lane, weight, &m); -> "
    .. "ns_beam_at(s, best[q], q != 2, lane, weight, &m);"] =
    "M has no step, the deflection one in the middle of a gap; the piece after that does "
    .. "not bend, has no turn of its own, and its begin is looked at from the left then",
  ["csrc/beam/coupled.c: for (int j = hinge; j < free_first; j++) -> "
    .. "for (int j = hinge; j <= free_first; j++)"] =
    "the row of the first free end is written whole by the next loop; where no end is "
    .. "free it is a row past those of the unknowns, which nobody reads",
  ["csrc/beam/unit.c: const double *restrict b3 = u->t.side[0][k + 1].Vc[sign]; -> "
    .. "const double *restrict b3 = u->t.side[1][k + 1].Vc[sign];"] =
    "the sides differ at supports alone: before one V of a loaded span says already that "
    .. "M > 0 may turn, and for M < 0 a segment more is looked at, which has no peak",
  ["csrc/check/notch_shear.c: struct ns_check *k = ns_add(w->out, NS_NOTCH_SHEAR, c, "
    .. "-1); -> struct ns_check *k = ns_add(w->out, NS_NOTCH_SHEAR, c, -2);"] =
    "no support of the joist: any number below nil says so, and both sides of a "
    .. "comparison have this one",
  ["lua/netsection/member/beam.lua: for k = 1, p.weight > 0 and 7 or 0 do -> "
    .. "for k = 1, p.weight >= 0 and 7 or 0 do"] =
    "under point loads alone M between two of them is no more than at one of them, and "
    .. "of places that differ by less than 1e-9 lb-in the first counts (beam_line.lua)",
  ["csrc/beam/envelope.c: const bool in = (at > A[i]) & (at < B[i]) & (L > 0); -> "
    .. "const bool in = (at > A[i]) & (at < B[i]) & (L > 1);"] =
    "a place between two supports lies in a span, which is 24 in at least (validate.c)",
}
