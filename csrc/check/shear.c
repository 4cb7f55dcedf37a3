/* SPDX-License-Identifier: MIT
 * shear.c - shear of the whole section, beside each support. */
#include <stddef.h>

#include "check/check.h"

/* What the load between a support and the place at d from the face of its
 * bearing gives up of V there: uniform load counts in full (V is that at d
 * from the face), of a point load the part that the standard takes off, P (1 -
 * x/d), x from the face, with what reaches the support of it. 'a' is the left
 * of the two places. */
struct near_bearing {
  ns_lane a, b, face, d, length; /* length: of the span, 0 on an overhang */
  bool right;                    /* of the support */
};

/* Adds what a point load at break k gives up, dead and live. */
NS_INLINE void points_near(const struct ns_beam *s, int k,
                           const struct near_bearing *o, double *restrict D,
                           double *restrict L) {
  const double *restrict x = s->x[k], *restrict end = o->right ? o->a : o->b;
  const double *restrict P0 = s->P[0][k], *restrict P1 = s->P[1][k];
  const double way = o->right ? 1 : -1;
  LANES(i) {
    const bool in = (x[i] > o->a[i] + 1e-9) & (x[i] < o->b[i] - 1e-9);
    const double from_face = ns_max(way * (x[i] - o->face[i]), 0);
    const double off = ns_part_left_out(from_face, o->d[i]);
    const double span = o->length[i] > 0 ? o->length[i] : 1;
    const double away = way * (x[i] - end[i]) / span;
    const double reach = o->length[i] > 0 ? ns_max(1 - away, 0) : 1;
    D[i] += in ? P0[i] * off * reach : 0;
    L[i] += in ? P1[i] * off * reach : 0;
  }
}

/* Dead and live load between the two places, of point loads the part that may
 * be left out. */
NS_INLINE void load_near(const struct ns_beam *s, bool points,
                         const struct near_bearing *o, double *restrict D,
                         double *restrict L) {
  const double *restrict a = o->a, *restrict b = o->b;
  ns_fill(D, 0);
  ns_fill(L, 0);
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict x = s->x[k];
    const double *restrict x2 = s->x[k + 1 < s->breaks ? k + 1 : k];
    const double *restrict w0 = s->w[0][k], *restrict dw0 = s->dw[0][k];
    const double *restrict w1 = s->w[1][k], *restrict dw1 = s->dw[1][k];
    ns_lane in;
    LANES(i) in[i] = (x2[i] >= a[i]) & (x[i] <= b[i]) ? 1 : 0;
    if (!ns_any(in)) continue;
    LANES(i) {
      const double p = ns_max(x[i], a[i]), q = ns_min(x2[i], b[i]);
      const double h = ns_max(q - p, 0), z = (p + q) / 2 - x[i];
      D[i] += h * (w0[i] + dw0[i] * z);
      L[i] += h * (w1[i] + dw1[i] * z);
    }
    if (points) points_near(s, k, o, D, L);
  }
}

/* One side of a support: V of each combination, with all loads and without
 * those near it. */
NS_INLINE void shear_at(struct ns_work *w, const struct ns_beam *s,
                        const struct ns_table *t, int j, bool right,
                        bool points, struct ns_check *k, double *best,
                        double *best_at) {
  const double way = right ? 1 : -1;
  const bool none = right ? j == s->spans && !s->right : j == 0 && !s->left;
  const double *restrict x = s->support[j], *restrict depth = w->depth;
  const double *restrict l_b = w->in.joist[NS_J_bearing + j];
  const double *restrict V_D = t->V_D[right][j];
  const double *restrict V_L = t->support[right][j].V[!right];
  const int span = right ? j : j - 1;
  const bool held = span >= 0 && span < s->spans;
  struct near_bearing o;
  ns_lane at, D = {0}, L = {0};
  o.right = right;
  LANES(i) {
    o.face[i] = x[i] + way * l_b[i] / 2;
    o.d[i] = depth[i];
    at[i] = ns_shear_place(x[i], o.face[i], depth[i], way);
    o.a[i] = right ? x[i] : at[i];
    o.b[i] = right ? at[i] : x[i];
  }
  ns_fill(o.length, 0);
  if (held)
    LANES(i) o.length[i] = s->support[span + 1][i] - s->support[span][i];
  if (!none) load_near(s, points, &o, D, L);
  for (int c = 0; c < w->standard->combos; c++) {
    const double gD = w->standard->g_D[c], gL = w->standard->g_L[c];
    const bool live = gL > 0, noted = w->records;
    const double *restrict Fv = w->Fv[c].value, *restrict width = w->width;
    double *restrict rec = k->rec[NS_R_V_0];
    ns_lane all;
    LANES(i) {
      const double V_0 = ns_max(way * (gD * V_D[i] + gL * V_L[i]), 0);
      const double V = ns_max(V_0 - (gD * D[i] + gL * L[i]), 0);
      const double cap = ns_shear_strength(Fv[i], width[i], depth[i]);
      const bool more = live & (V_0 > best[i]);
      best[i] = more ? V_0 : best[i];
      best_at[i] = more ? x[i] : best_at[i];
      const bool take = ns_offer_lane(k, i, true, V, cap, at[i], c, 1);
      all[i] = take ? V_0 : -1;
    }
    if (noted)
      LANES(i) rec[i] = all[i] >= 0 ? all[i] : rec[i];
  }
}

/* f_v = 3 V/(2 b d) <= F_v', as V <= 2/3 F_v' b d (lb): of the load within d of
 * the face of a bearing, uniform load is left out of V, point loads count by
 * x/d, as far as the family leaves out any. */
NS_INLINE void gross_shear(struct ns_work *w, enum ns_mode mode,
                           const struct ns_beam *s, const struct ns_table *t,
                           struct ns_state *state) {
  struct ns_check *k = ns_add(w->out, mode, -1, -1);
  const bool points = ns_has_points(s, 0) || ns_has_points(s, 1);
  ns_fill(state->shear, 0);
  ns_fill(state->shear_at, 0);
  for (int j = 0; j <= s->spans; j++)
    for (int right = 0; right < 2; right++)
      shear_at(w, s, t, j, right, points, k, state->shear, state->shear_at);
  if (!w->records) return;
  ns_record_factors(k, w->Fv, 1, w->standard->combos, NULL);
  LANES(i) {
    k->rec[NS_R_V][i] = k->demand[i];
    k->rec[NS_R_b][i] = w->width[i];
    k->rec[NS_R_d][i] = w->depth[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fv][i];
  }
  ns_record_cracks(k);
}

/* Forces and shear of the cut state where they are those of the uncut one. */
NS_INLINE void shear_as_before(struct ns_work *w, struct ns_state *state) {
  const struct ns_state *was = &w->out->uncut;
  const struct ns_check *shear = ns_first_of(w->out, was, NS_SHEAR);
  struct ns_check *k = ns_add(w->out, NS_SHEAR, -1, -1);
  ns_copy(state->shear, was->shear);
  ns_copy(state->shear_at, was->shear_at);
  memcpy(k, shear, w->records ? sizeof *k : offsetof(struct ns_check, rec));
}

/* The whole section; the cut state takes over what did not change. */
NS_CHECK(shear) {
  if (o->again)
    shear_as_before(w, o->state);
  else
    gross_shear(w, o->host ? NS_HOST_SHEAR : NS_SHEAR, o->s, o->t, o->state);
}
