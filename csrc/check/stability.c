/* SPDX-License-Identifier: MIT
 * stability.c - bending values of a state, and what holds the joist upright.
 *
 * A floor deck holds the top edge, so CL is 1 where the top is compressed.
 * Where M < 0 the bottom is: see hogging.c. */
#include "check/check.h"

/* Longest free piece of the stretch a..b, blocking taken into account. */
NS_INLINE double free_piece(const struct ns_work *w, double a, double b,
                            int i) {
  const int n = w->shape->blocking;
  double longest = 0;
  for (int p = -1; p < n; p++) {
    const double from = p < 0 ? a : w->in.joist[NS_J_blocking + p][i];
    double to = b;
    for (int q = 0; q < n; q++) {
      const double at = w->in.joist[NS_J_blocking + q][i];
      to = (at > from + 1e-9) & (at < to) ? at : to;
    }
    const bool in = (from >= a) & (from < b);
    longest = in ? ns_max(longest, to - from) : longest;
  }
  return longest;
}

/* A joist with no deck: every span is free between supports and blocking. */
NS_INLINE void open_length(const struct ns_work *w, const struct ns_beam *s,
                           double *restrict l_e) {
  const double *restrict sheathed = w->in.joist[NS_J_sheathed];
  const double *restrict depth = w->depth;
  ns_lane bare;
  ns_fill(l_e, 0);
  LANES(i) bare[i] = sheathed[i] != 0 ? 0 : 1;
  if (!ns_any(bare)) return;
  for (int i = 0; i < NS_LANES; i++) {
    double u = 0;
    for (int j = 0; j < s->spans && bare[i] != 0; j++)
      u = ns_max(u, free_piece(w, s->support[j][i], s->support[j + 1][i], i));
    l_e[i] = u > 0 ? ns_effective_length(NS_LE_ANY, u, depth[i]) : 0;
  }
}

/* Fb* from the value without CL and Cr, and Fb' by CL. */
NS_INLINE void bending_value(const struct ns_work *w,
                             const struct ns_factors *from, const double *Cr,
                             const double *CL, struct ns_factors *f) {
  LANES(i) {
    f->Cr[i] = Cr[i];
    f->CL[i] = CL[i];
    f->value[i] = from->value[i] * Cr[i] * CL[i];
  }
  if (!w->records) return;
  ns_copy(f->CD, from->CD);
  ns_copy(f->CM, from->CM);
  ns_copy(f->Ct, from->Ct);
  ns_copy(f->CF, from->CF);
  ns_copy(f->Ci, from->Ci);
  ns_copy(f->K, from->K);
}

/* CL of the edge that no deck holds. */
NS_INLINE void open_CL(const struct ns_work *w, const double *star,
                       const double *l_e, double *restrict CL) {
  const double *restrict b = w->width, *restrict d = w->depth;
  const double *restrict E = w->Emin.value;
  const double *restrict F = w->in.joist[NS_LATERAL_ROW];
  ns_fill(CL, 1);
  if (!ns_any(l_e)) return;
  LANES(i)
    CL[i] = l_e[i] > 0
                ? ns_lateral_factor(star[i], F[i], E[i], l_e[i], b[i], d[i])
                : 1;
}

/* F_b' of both signs of M in each combination, with C_r and C_L. */
NS_CLONES void ns_bending_values(struct ns_work *w, const struct ns_beam *s,
                                 ns_lane *part, bool cut, const double *Cr) {
  ns_lane bare, CL;
  open_length(w, s, bare);
  for (int c = 0; c < w->standard->combos; c++)
    LANES(i) w->star[c][i] = w->Fb_own[c].value[i] * Cr[i];
  ns_find_hogging(w, s, part, cut);
  for (int c = 0; c < w->standard->combos; c++) {
    open_CL(w, w->star[c], bare, CL);
    bending_value(w, &w->Fb_own[c], Cr, CL, &w->Fb[c][0]);
    bending_value(w, &w->Fb_own[c], Cr, w->hog.CL[c], &w->Fb[c][1]);
  }
}
