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

/* M, and the shear that goes with it, of combination c at the fraction z of
 * segment k, live load where M is least. */
NS_INLINE void least_moment(const struct ns_beam *s, double g_D, double g_L,
                            int k, const double *z, double *restrict M,
                            double *restrict V) {
  struct ns_envelope e;
  ns_beam_envelope(s, k, z, true, &e);
  LANES(i) {
    const double x = z[i] * (s->x[k + 1][i] - s->x[k][i]);
    const double w = s->w[0][k][i], dw = s->dw[0][k][i];
    const double V0 = s->VR[0][k][i];
    M[i] = g_D * (s->M[0][k][i] + x * (V0 - x * (w / 2 + dw * x / 6))) +
           g_L * e.M[1][i];
    V[i] = g_D * (V0 - x * (w + dw * x / 2)) + g_L * e.Vc[1][i];
  }
}

/* Where the least moment is greatest inside segment k, in the lanes marked:
 * its shear falls through nil there. */
NS_INLINE void crest(const struct ns_beam *s, double g_D, double g_L, int k,
                     const double *marked, double *restrict z,
                     double *restrict M) {
  ns_lane lo, hi, V;
  ns_fill(lo, 0);
  ns_fill(hi, 1);
  ns_fill(z, 0.5);
  ns_fill(M, -1);
  if (!ns_any(marked)) return;
  for (int it = 0; it < 40; it++) {
    least_moment(s, g_D, g_L, k, z, M, V);
    LANES(i) {
      lo[i] = V[i] > 0 ? z[i] : lo[i];
      hi[i] = V[i] > 0 ? hi[i] : z[i];
      z[i] = (lo[i] + hi[i]) / 2;
    }
  }
}

/* Where the least moment turns between the fractions a and b of segment k, in
 * the lanes marked: false position, the stale end halved, on the envelope. */
NS_INLINE void turning(const struct ns_beam *s, double g_D, double g_L, int k,
                       const double *marked, const double *a, const double *b,
                       const double *M0, const double *M1, double *restrict x) {
  ns_lane lo, hi, f_lo, f_hi, z, f, V, wait, side;
  LANES(i) {
    const bool on = marked[i] != 0;
    lo[i] = a[i];
    hi[i] = b[i];
    f_lo[i] = on ? M0[i] : -1;
    f_hi[i] = on ? M1[i] : 1;
    wait[i] = marked[i];
    side[i] = 0;
    z[i] = 0.5;
  }
  for (int it = 0; it < 100 && ns_any(wait); it++) {
    LANES(i) {
      const double to =
          (lo[i] * f_hi[i] - hi[i] * f_lo[i]) / (f_hi[i] - f_lo[i]);
      z[i] = wait[i] != 0 ? to : z[i];
    }
    least_moment(s, g_D, g_L, k, z, f, V);
    LANES(i) {
      const bool on = wait[i] != 0, low = (f[i] < 0) == (f_lo[i] < 0);
      const double step = low ? z[i] - lo[i] : hi[i] - z[i];
      const bool again_low = low & (side[i] > 0);
      const bool again_high = !low & (side[i] < 0);
      f_hi[i] = on & !low ? f[i] : on & again_low ? f_hi[i] / 2 : f_hi[i];
      f_lo[i] = on & low ? f[i] : on & again_high ? f_lo[i] / 2 : f_lo[i];
      lo[i] = on & low ? z[i] : lo[i];
      hi[i] = on & !low ? z[i] : hi[i];
      side[i] = low ? 1 : -1;
      const bool done = (step < 1e-13) | (hi[i] - lo[i] < 1e-13) | (f[i] == 0);
      wait[i] = done ? 0 : wait[i];
    }
  }
  LANES(i) x[i] = s->x[k][i] + z[i] * (s->x[k + 1][i] - s->x[k][i]);
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
    ns_lane M0, M1, on, turns, x, hump, z, top, a, b;
    LANES(i) {
      const double V0 = g_D * s->VR[0][k][i] + g_L * t->side[1][k].Vc[1][i];
      const double V1 =
          g_D * s->VL[0][k + 1][i] + g_L * t->side[0][k + 1].Vc[1][i];
      M0[i] = g_D * s->M[0][k][i] + g_L * t->side[1][k].M[1][i];
      M1[i] = g_D * s->M[0][k + 1][i] + g_L * t->side[!last][k + 1].M[1][i];
      const bool here = (s->region[k][i] == region) & (going[i] != 0) &
                        (s->x[k + 1][i] > s->x[k][i]);
      on[i] = here & ((right ? M0[i] : M1[i]) < -1e-6) ? 1 : 0;
      const double far = right ? M1[i] : M0[i];
      const bool under = (on[i] != 0) & (far <= 0);
      hump[i] = under & (V0 > 0) & (V1 < 0) ? 1 : 0;
    }
    crest(s, g_D, g_L, k, hump, z, top);
    LANES(i) {
      const bool inside = (hump[i] != 0) & (top[i] > 0);
      const bool hogs = on[i] != 0;
      const double far = right ? M1[i] : M0[i];
      a[i] = inside & !right ? z[i] : 0;
      b[i] = inside & right ? z[i] : 1;
      M0[i] = inside & !right ? top[i] : M0[i];
      M1[i] = inside & right ? top[i] : M1[i];
      turns[i] = hogs & (inside | (far > 0)) ? 1 : 0;
      const bool here =
          (s->region[k][i] == region) & (s->x[k + 1][i] > s->x[k][i]);
      going[i] = here & (!hogs | (turns[i] != 0)) ? 0 : going[i];
      x[i] = right ? s->x[k + 1][i] : s->x[k][i];
    }
    if (ns_any(turns)) {
      ns_lane place;
      turning(s, g_D, g_L, k, turns, a, b, M0, M1, place);
      LANES(i) x[i] = turns[i] != 0 ? place[i] : x[i];
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
NS_INLINE double open_length(const struct ns_work *w, const struct ns_beam *s,
                             int i) {
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
      ns_adjust(w->in.joist, w->standard, NS_FB, c, f);
      LANES(i) {
        const double b = w->width[i], d = w->depth[i];
        const bool deck = w->in.joist[NS_J_sheathed][i] != 0;
        const double u = deck ? 0 : open_length(w, s, i);
        const double l_e = sign    ? w->l_e[i]
                           : u > 0 ? ns_l_e(NS_LE_ANY, u, d)
                                   : 0;
        const double star = f->value[i] * Cr[i];
        f->Cr[i] = Cr[i];
        f->CL[i] = l_e > 0 ? ns_CL(star, w->Emin.value[i], l_e, b, d) : 1;
        f->value[i] = star * f->CL[i];
      }
    }
}
