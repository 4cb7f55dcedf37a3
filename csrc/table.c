/* SPDX-License-Identifier: MIT
 * table.c - V and M at every break of a beam, and the peaks of M between.
 *
 * Along the envelope of M the slope is the shear of the very load that makes
 * the moment: moving the place a little moves no load, as the line is nil
 * where loading starts and stops. A peak is where that shear changes sign.
 * Between breaks M is a cubic under any one load, so the cubic through both
 * ends and both slopes has the peak exactly while the loading stays the
 * same; in indeterminate beams, where it may not, the peak is then sought on
 * the envelope itself until it stands still. */
#include "work.h"

/* What a table is of: a beam, or the one beside it. */
struct subject {
  const struct ns_beam *s;
  bool second;
  const ns_lane *M, *VL, *VR; /* of the dead load */
};

NS_INLINE struct subject subject_of(const struct ns_beam *s, bool second) {
  return (struct subject){.s = s,
                          .second = second,
                          .M = second ? s->second_M[0] : s->M[0],
                          .VL = second ? s->second_VL[0] : s->VL[0],
                          .VR = second ? s->second_VR[0] : s->VR[0]};
}

NS_INLINE void envelope(const struct subject *o, int k, const double *t,
                        bool right, struct ns_envelope *e) {
  if (o->second)
    ns_second_envelope(o->s, k, t, right, e);
  else
    ns_beam_envelope(o->s, k, t, right, e);
}

NS_INLINE double shear_with(const struct subject *o, const struct ns_table *t,
                            double g_D, double g_L, int sign, int k, bool right,
                            int i) {
  const double V_D = right ? o->VR[k][i] : o->VL[k][i];
  return g_D * V_D + g_L * t->side[right][k].Vc[sign][i];
}

NS_INLINE double moment_at(const struct subject *o, const struct ns_table *t,
                           double g_D, double g_L, int sign, int k, int i) {
  const bool right = k < o->s->breaks - 1;
  return g_D * o->M[k][i] + g_L * t->side[right][k].M[sign][i];
}

/* Where the cubic through both ends and slopes has its turning point. */
NS_INLINE void cubic_peak(const struct subject *o, const struct ns_table *t,
                          double g_D, double g_L, int sign, int k,
                          double *restrict has, double *restrict at,
                          double *restrict M) {
  const struct ns_beam *s = o->s;
  const double way = sign == 0 ? 1 : -1;
  LANES(i) {
    const double h = s->x[k + 1][i] - s->x[k][i];
    const double V0 = shear_with(o, t, g_D, g_L, sign, k, true, i);
    const double V1 = shear_with(o, t, g_D, g_L, sign, k + 1, false, i);
    const double M0 = moment_at(o, t, g_D, g_L, sign, k, i);
    const double rise = moment_at(o, t, g_D, g_L, sign, k + 1, i) - M0;
    const bool on = (way * V0 > 0) & (way * V1 < 0) & (h > 0);
    const double hh = on ? h : 1;
    const double c2 = (3 * rise / hh - 2 * V0 - V1) / hh;
    const double c3 = (V0 + V1 - 2 * rise / hh) / (hh * hh);
    const double root = sqrt(ns_max(c2 * c2 - 3 * c3 * V0, 0));
    const double under = -c2 + way * root;
    const double u = under != 0 ? V0 / under : 0;
    const double x = ns_min(ns_max(u, 0), hh);
    has[i] = on ? 1 : 0;
    at[i] = s->x[k][i] + x;
    M[i] = M0 + x * (V0 + x * (c2 + x * c3));
  }
}

/* The peak of the envelope itself inside segment k. */
NS_INLINE void settle_peak(const struct subject *o, double g_D, double g_L,
                           int sign, int k, const double *has,
                           double *restrict at, double *restrict M) {
  const struct ns_beam *s = o->s;
  const double way = sign == 0 ? 1 : -1;
  ns_lane lo, hi, wait, t;
  LANES(i) {
    const double h = s->x[k + 1][i] - s->x[k][i];
    wait[i] = has[i];
    lo[i] = 0;
    hi[i] = 1;
    t[i] = has[i] != 0 ? (at[i] - s->x[k][i]) / h : 0.5;
  }
  for (int it = 0; it < 40 && ns_any(wait); it++) {
    struct ns_envelope e;
    envelope(o, k, t, true, &e);
    LANES(i) {
      const double h = s->x[k + 1][i] - s->x[k][i], z = t[i] * h;
      const bool on = ns_carries(s, o->second, k, i);
      const double w_D = on ? s->w[0][k][i] : 0, dw = on ? s->dw[0][k][i] : 0;
      const double w_L = on ? s->w[1][k][i] : 0;
      const double V_D = o->VR[k][i] - z * (w_D + dw * z / 2);
      const double M_D =
          o->M[k][i] + z * (o->VR[k][i] - z * (w_D / 2 + dw * z / 6));
      const double V = way * (g_D * V_D + g_L * e.Vc[sign][i]);
      const bool w = wait[i] != 0;
      M[i] = w ? g_D * M_D + g_L * e.M[sign][i] : M[i];
      at[i] = w ? s->x[k][i] + z : at[i];
      lo[i] = w & (V > 0) ? t[i] : lo[i];
      hi[i] = w & (V <= 0) ? t[i] : hi[i];
      const double slope = g_D * w_D + g_L * w_L;
      const double newton = t[i] + (slope > 0 && h > 0 ? V / (slope * h) : 0);
      const bool in = (newton > lo[i]) & (newton < hi[i]);
      const double next = in ? newton : (lo[i] + hi[i]) / 2;
      const bool done = (ns_abs(next - t[i]) < 1e-12) | (hi[i] - lo[i] < 1e-12);
      wait[i] = done ? 0 : wait[i];
      t[i] = w ? next : t[i];
    }
  }
}

/* Both sides are one where nothing stands at the break. */
NS_INLINE void same_where_alike(struct ns_envelope *left,
                                const struct ns_envelope *right,
                                const double *differs) {
  for (int g = 0; g < 2; g++)
    LANES(i) {
      const bool two = differs[i] != 0;
      left->V[g][i] = two ? left->V[g][i] : right->V[g][i];
      left->M[g][i] = two ? left->M[g][i] : right->M[g][i];
      left->Vc[g][i] = two ? left->Vc[g][i] : right->Vc[g][i];
    }
}

NS_INLINE void tabulate_sides(const struct subject *o, struct ns_table *t) {
  const struct ns_beam *s = o->s;
  for (int k = 0; k < s->breaks; k++) {
    ns_lane differs;
    ns_fill(differs, k == 0 || k == s->breaks - 1 ? 1 : 0);
    for (int j = 0; j <= s->spans; j++)
      LANES(i) differs[i] += s->x[k][i] == s->support[j][i] ? 1 : 0;
    LANES(i) differs[i] += s->P[1][k][i] != 0 ? 1 : 0;
    for (int l = 0; l < s->stations; l++)
      LANES(i) differs[i] += s->x[k][i] == s->station[l][i] ? 1 : 0;
    if (s->stations)
      LANES(i) {
        const double *on = s->on_new[k], *was = s->on_new[k > 0 ? k - 1 : 0];
        const bool end =
            (s->x[k][i] == s->second[0][i]) | (s->x[k][i] == s->second[1][i]);
        differs[i] += (on[i] != was[i]) | end ? 1 : 0;
      }
    envelope(o, k, NULL, true, &t->side[1][k]);
    if (ns_any(differs)) envelope(o, k, NULL, false, &t->side[0][k]);
    same_where_alike(&t->side[0][k], &t->side[1][k], differs);
  }
}

/* Rows of the supports, whose breaks differ from lane to lane. */
NS_INLINE void gather_supports(const struct ns_beam *s, struct ns_table *t) {
  memset(t->support, 0, sizeof t->support);
  memset(t->V_D, 0, sizeof t->V_D);
  for (int j = 0; j <= s->spans; j++)
    for (int k = 0; k < s->breaks; k++)
      for (int side = 0; side < 2; side++) {
        const struct ns_envelope *e = &t->side[side][k];
        struct ns_envelope *o = &t->support[side][j];
        LANES(i) {
          const bool here = s->x[k][i] == s->support[j][i];
          const bool take = here & ((side == 1) | ns_new_place(s, k, i));
          const double V = side ? s->VR[0][k][i] : s->VL[0][k][i];
          t->V_D[side][j][i] = take ? V : t->V_D[side][j][i];
          for (int g = 0; g < 2; g++) {
            o->V[g][i] = take ? e->V[g][i] : o->V[g][i];
            o->M[g][i] = take ? e->M[g][i] : o->M[g][i];
            o->Vc[g][i] = take ? e->Vc[g][i] : o->Vc[g][i];
          }
        }
      }
}

NS_CLONES void ns_tabulate(const struct ns_beam *s, bool second,
                           const struct ns_standard *standard,
                           struct ns_table *t) {
  const struct subject o = subject_of(s, second);
  tabulate_sides(&o, t);
  if (!second) gather_supports(s, t);
  for (int c = 0; c < standard->combos; c++)
    for (int sign = 0; sign < 2; sign++)
      for (int k = 0; k < s->breaks - 1; k++) {
        const double g_D = standard->g_D[c], g_L = standard->g_L[c];
        double *has = t->has_peak[c][sign][k], *at = t->peak_at[c][sign][k];
        double *M = t->peak[c][sign][k];
        cubic_peak(&o, t, g_D, g_L, sign, k, has, at, M);
        if (s->unknowns && g_L != 0 && ns_any(has))
          settle_peak(&o, g_D, g_L, sign, k, has, at, M);
      }
}

/* Supports and peaks of a table whose rows were put together from others, one
 * live load staying where it was. */
NS_CLONES void ns_complete(const struct ns_beam *s,
                           const struct ns_standard *standard,
                           struct ns_table *t) {
  const struct subject o = subject_of(s, false);
  gather_supports(s, t);
  for (int c = 0; c < standard->combos; c++)
    for (int sign = 0; sign < 2; sign++)
      for (int k = 0; k < s->breaks - 1; k++)
        cubic_peak(&o, t, standard->g_D[c], standard->g_L[c], sign, k,
                   t->has_peak[c][sign][k], t->peak_at[c][sign][k],
                   t->peak[c][sign][k]);
}
