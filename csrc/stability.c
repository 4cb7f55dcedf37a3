/* SPDX-License-Identifier: MIT
 * stability.c - bending values of a state, and what holds the joist upright.
 *
 * A floor deck holds the top edge, so CL is 1 where the top is compressed.
 * Where M < 0 the bottom is, and it is free from the support to the place
 * where the moment turns, or to the next blocking. */
#include "work.h"

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

/* How far from support j hogging reaches, to the right or the left. */
NS_INLINE void reach(const struct ns_beam *s, const struct ns_table *t,
                     double g_D, double g_L, int j, bool right,
                     double *restrict to) {
  ns_lane going;
  const int region = right ? j + 1 : j;
  ns_copy(to, s->support[j]);
  ns_fill(going, 1);
  for (int n = 0; n < s->breaks - 1; n++) {
    const int k = right ? n : s->breaks - 2 - n;
    const bool last = k + 1 == s->breaks - 1;
    const double *turn = t->turn[!right][k], *turns = t->turns[!right][k];
    ns_lane on, x;
    LANES(i) {
      const struct ns_envelope *e =
          right ? &t->side[1][k] : &t->side[!last][k + 1];
      const int b = right ? k : k + 1;
      const double M = g_D * s->M[0][b][i] + g_L * e->M[1][i];
      const bool here =
          (s->region[k][i] == region) & (s->x[k + 1][i] > s->x[k][i]);
      const bool hogs = here & (going[i] != 0) & (M < -1e-6);
      on[i] = hogs ? 1 : 0;
      going[i] = here & (!hogs | (turns[i] != 0)) ? 0 : going[i];
      const double far = right ? s->x[k + 1][i] : s->x[k][i];
      x[i] = turns[i] != 0 ? turn[i] : far;
    }
    LANES(i) to[i] = on[i] != 0 ? x[i] : to[i];
  }
}

/* l_u and l_e of the free bottom edge, the worst stretch. */
NS_INLINE void hogging_length(struct ns_work *w, const struct ns_beam *s,
                              const struct ns_table *t) {
  const struct ns_standard *std = w->standard;
  const int c = std->combos - 1;
  ns_fill(w->l_u, 0);
  ns_fill(w->l_e, 0);
  if (s->spans == 1 && !s->left && !s->right) return;
  for (int j = 0; j <= s->spans; j++)
    for (int right = 0; right < 2; right++) {
      ns_lane to;
      const bool over = right ? j == s->spans : j == 0;
      if (over && !(right ? s->right : s->left)) continue;
      reach(s, t, std->g_D[c], std->g_L[c], j, right, to);
      LANES(i) {
        const double at = s->support[j][i];
        const double end = right ? s->x[s->breaks - 1][i] : s->x[0][i];
        const double z = over ? end : to[i];
        const double u = free_piece(w, ns_min(at, z), ns_max(at, z), i);
        const double e =
            u > 0 ? ns_l_e(over ? NS_LE_CANTILEVER : NS_LE_ANY, u, w->depth[i])
                  : 0;
        w->l_u[i] = e > w->l_e[i] ? u : w->l_u[i];
        w->l_e[i] = ns_max(w->l_e[i], e);
      }
    }
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
    l_e[i] = u > 0 ? ns_l_e(NS_LE_ANY, u, depth[i]) : 0;
  }
}

/* Fb* from the value without CL and Cr, and Fb' where l_e is not nil. */
NS_INLINE void bending_value(const struct ns_work *w,
                             const struct ns_factors *from, const double *Cr,
                             const double *l_e, struct ns_factors *f) {
  const double *restrict b = w->width, *restrict d = w->depth;
  const double *restrict E = w->Emin.value;
  LANES(i) {
    f->Cr[i] = Cr[i];
    f->CL[i] = 1;
    f->value[i] = from->value[i] * Cr[i];
  }
  if (ns_any(l_e))
    LANES(i) {
      const double star = f->value[i];
      f->CL[i] = l_e[i] > 0 ? ns_CL(star, E[i], l_e[i], b[i], d[i]) : 1;
      f->value[i] = star * f->CL[i];
    }
  if (!w->records) return;
  ns_copy(f->CD, from->CD);
  ns_copy(f->CM, from->CM);
  ns_copy(f->Ct, from->Ct);
  ns_copy(f->CF, from->CF);
  ns_copy(f->Ci, from->Ci);
  ns_copy(f->K, from->K);
}

NS_CLONES void ns_bending_values(struct ns_work *w, const struct ns_beam *s,
                                 const struct ns_table *t, const double *Cr) {
  ns_lane bare;
  hogging_length(w, s, t);
  open_length(w, s, bare);
  for (int c = 0; c < w->standard->combos; c++)
    for (int sign = 0; sign < 2; sign++)
      bending_value(w, &w->Fb_own[c], Cr, sign ? w->l_e : bare,
                    &w->Fb[c][sign]);
}
