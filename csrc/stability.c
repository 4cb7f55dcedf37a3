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

/* Zero of the cubic through M and slope at both ends of segment k. */
NS_INLINE double turning(const struct ns_beam *s, const struct ns_table *t,
                             double g_D, double g_L, int k, int i) {
  const double h = s->x[k + 1][i] - s->x[k][i];
  const bool last = k + 1 == s->breaks - 1;
  const double M0 = g_D * s->M[0][k][i] + g_L * t->side[1][k].M[1][i];
  const double M1 =
      g_D * s->M[0][k + 1][i] + g_L * t->side[!last][k + 1].M[1][i];
  const double V0 = g_D * s->VR[0][k][i] + g_L * t->side[1][k].Vc[1][i];
  const double V1 = g_D * s->VL[0][k + 1][i] + g_L * t->side[0][k + 1].Vc[1][i];
  const double c2 = 3 * (M1 - M0) - (2 * V0 + V1) * h;
  const double c3 = (V0 + V1) * h - 2 * (M1 - M0);
  double lo = 0, hi = 1;
  for (int it = 0; it < 50; it++) {
    const double z = (lo + hi) / 2;
    const double M = M0 + z * (V0 * h + z * (c2 + z * c3));
    const bool same = (M < 0) == (M0 < 0);
    lo = same ? z : lo;
    hi = same ? hi : z;
  }
  return s->x[k][i] + h * (lo + hi) / 2;
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
    LANES(i) {
      const bool on = (s->region[k][i] == region) & (going[i] != 0) &
                      (s->x[k + 1][i] > s->x[k][i]);
      const bool last = k + 1 == s->breaks - 1;
      const double M0 = g_D * s->M[0][k][i] + g_L * t->side[1][k].M[1][i];
      const double M1 =
          g_D * s->M[0][k + 1][i] + g_L * t->side[!last][k + 1].M[1][i];
      const double near = right ? M0 : M1, far = right ? M1 : M0;
      const double end = right ? s->x[k + 1][i] : s->x[k][i];
      const bool turns = (near < -1e-6) & (far > 0);
      const double z = on & turns ? turning(s, t, g_D, g_L, k, i) : end;
      to[i] = on & (near < -1e-6) ? z : to[i];
      going[i] = on & !((near < -1e-6) & !turns) ? 0 : going[i];
    }
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
        const double u =
            free_piece(w, ns_min(at, z), ns_max(at, z), i);
        const double e =
            u > 0 ? ns_l_e(over ? NS_LE_CANTILEVER : NS_LE_ANY, u, w->depth[i])
                  : 0;
        w->l_u[i] = e > w->l_e[i] ? u : w->l_u[i];
        w->l_e[i] = ns_max(w->l_e[i], e);
      }
    }
}

/* A joist with no deck: every span is free between supports and blocking. */
NS_INLINE double open_length(const struct ns_work *w,
                                 const struct ns_beam *s, int i) {
  double u = 0;
  for (int j = 0; j < s->spans; j++)
    u = ns_max(u, free_piece(w, s->support[j][i], s->support[j + 1][i], i));
  return u;
}

NS_CLONES void ns_bending_values(struct ns_work *w, const struct ns_beam *s,
                       const struct ns_table *t, const double *Cr) {
  hogging_length(w, s, t);
  for (int c = 0; c < w->standard->combos; c++)
    for (int sign = 0; sign < 2; sign++) {
      struct ns_factors *f = &w->Fb[c][sign];
      ns_adjust(&w->in, w->standard, NS_FB, c, f);
      LANES(i) {
        const double b = w->width[i], d = w->depth[i];
        const bool deck = w->in.joist[NS_J_sheathed][i] != 0;
        const double u = deck ? 0 : open_length(w, s, i);
        const double l_e = sign ? w->l_e[i] : u > 0 ? ns_l_e(NS_LE_ANY, u, d) : 0;
        const double star = f->value[i] * Cr[i];
        f->Cr[i] = Cr[i];
        f->CL[i] = l_e > 0 ? ns_CL(star, w->Emin.value[i], l_e, b, d) : 1;
        f->value[i] = star * f->CL[i];
      }
    }
}
