/* SPDX-License-Identifier: MIT
 * check.c - the checks of the whole joist, uncut or cut, and their order. */
#include <stddef.h>

#include "check/check.h"
#include "cuts/cuts.h"

NS_INLINE double g_D(const struct ns_work *w, int c) {
  return w->standard->g_D[c];
}
NS_INLINE double g_L(const struct ns_work *w, int c) {
  return w->standard->g_L[c];
}

/* Largest moment of a sign along the beam and its place, each combination; of
 * places that differ by rounding alone the first. */
NS_INLINE void worst_moments(struct ns_work *w, const struct ns_beam *s,
                             const struct ns_table *t, int sign) {
  const double way = sign ? -1 : 1;
  for (int c = 0; c < w->standard->combos; c++) {
    const double gD = way * g_D(w, c), gL = way * g_L(w, c);
    double *restrict M = w->worst_M[c][sign];
    double *restrict at = w->worst_at[c][sign];
    ns_fill(M, 0);
    ns_copy(at, s->support[0]);
    for (int b = 0; b < s->breaks; b++) {
      const bool right = b < s->breaks - 1;
      const double *restrict D = s->M[0][b], *restrict x = s->x[b];
      const double *restrict L = t->side[right][b].M[sign];
      LANES(i) {
        const double here = gD * D[i] + gL * L[i];
        const bool more = here > M[i] * (1 + 1e-12);
        M[i] = ns_max(M[i], here);
        at[i] = more ? x[i] : at[i];
      }
      if (!right || !t->peaks[c][sign][b]) continue;
      const double *restrict peak = t->peak[c][sign][b];
      const double *restrict has = t->has_peak[c][sign][b];
      const double *restrict x_p = t->peak_at[c][sign][b];
      LANES(i) {
        const double here = has[i] != 0 ? way * peak[i] : 0;
        const bool more = here > M[i] * (1 + 1e-12);
        M[i] = ns_max(M[i], here);
        at[i] = more ? x_p[i] : at[i];
      }
    }
    LANES(i) M[i] = M[i] > 1e-6 ? M[i] : 0; /* rounding, not a moment */
  }
}

NS_INLINE void note_bending(const struct ns_work *w, struct ns_check *k,
                            int sign, const double *plain) {
  ns_lane second;
  ns_fill(second, sign);
  ns_record_factors(k, &w->Fb[0][0], 2, w->standard->combos, second);
  LANES(i) {
    const double S = w->width[i] * w->depth[i] * w->depth[i] / 6;
    k->rec[NS_R_M][i] = k->demand[i];
    k->rec[NS_R_S][i] = S;
    k->rec[NS_R_b][i] = w->width[i];
    k->rec[NS_R_d][i] = w->depth[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fb][i];
    k->rec[NS_R_f_b][i] = k->demand[i] / S;
  }
  ns_record_hogging(w, &w->hog, second, plain, k);
}

/* M < 0: the pattern that uses up the most by its own free edge, and not less
 * than the most of any placing of live load at CL = 1. */
NS_INLINE void offer_hogging(const struct ns_work *w, struct ns_check *k,
                             double *restrict plain) {
  const double *restrict width = w->width, *restrict depth = w->depth;
  for (int c = 0; c < w->standard->combos; c++) {
    const double *restrict M = w->worst_M[c][1], *restrict star = w->star[c];
    const double *restrict at = w->worst_at[c][1];
    const double *restrict M_p = w->hog.M[c], *restrict CL = w->hog.CL[c];
    const double *restrict at_p = w->hog.at[c];
    LANES(i) {
      const double S = width[i] * depth[i] * depth[i] / 6;
      const bool p =
          ns_offer_lane(k, i, M_p[i] > 0, M_p[i],
                        ns_bending_strength(star[i] * CL[i], S), at_p[i], c, 2);
      const bool all = ns_offer_lane(
          k, i, M[i] > 0, M[i], ns_bending_strength(star[i], S), at[i], c, 2);
      plain[i] = all ? 1 : p ? 0 : plain[i];
    }
  }
}

/* Bending of the whole section: f_b = M/S <= F_b', as M <= F_b' S, for the
 * worst moment of a sign in each combination. Branch 1 M > 0, 2 M < 0. */
NS_INLINE void gross_bending(struct ns_work *w, enum ns_mode mode, int sign) {
  struct ns_check *k = ns_add(w->out, mode, -1, -1);
  const double *restrict width = w->width, *restrict depth = w->depth;
  ns_lane plain = {0};
  if (sign) offer_hogging(w, k, plain);
  for (int c = 0; c < w->standard->combos && !sign; c++) {
    const double *restrict M = w->worst_M[c][0];
    const double *restrict at = w->worst_at[c][0];
    const double *restrict Fb = w->Fb[c][0].value;
    LANES(i) {
      const double S = width[i] * depth[i] * depth[i] / 6;
      ns_offer_lane(k, i, true, M[i], ns_bending_strength(Fb[i], S), at[i], c,
                    1);
    }
  }
  if (w->records) note_bending(w, k, sign, plain);
}

/* What the load between a support and the place at d from the face of its
 * bearing gives up of V there: uniform load counts in full (V is that at d
 * from the face), of a point load the part that the standard takes off, P (1 -
 * x/d), x from the face, with what reaches the support of it. 'a' is the left
 * of the two places. */
struct near_bearing {
  ns_lane a, b, face, d, length; /* length: of the span, 0 on an overhang */
  bool right;                    /* of the support */
};

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
    const double gD = g_D(w, c), gL = g_L(w, c);
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

/* Shear of the whole section: f_v = 3 V/(2 b d) <= F_v', as V <= 2/3 F_v' b d.
 * Of the load within d of the face of a bearing, uniform load is left out of V,
 * point loads count by x/d. */
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

/* Width of the joist over a bearing, where losses may have thinned it. */
NS_INLINE void width_between(const struct ns_work *w, bool cut, const double *a,
                             const double *b, double *restrict width) {
  struct ns_section at_bearing;
  ns_lane floor;
  if (!cut) {
    ns_copy(width, w->width);
    return;
  }
  ns_thin(w, a, b, &at_bearing, floor);
  ns_copy(width, at_bearing.b);
}

/* Clear distances from bearing j to the next ones, left and right; past the
 * last one the wood there is. */
NS_INLINE void clear_gaps(const struct ns_work *w, const struct ns_beam *s,
                          int j, ns_lane gap[2]) {
  const double *restrict l_b = w->in.joist[NS_J_bearing + j];
  for (int right = 0; right < 2; right++) {
    const int k = right ? j + 1 : j - 1;
    const bool none = k < 0 || k > s->spans;
    const double *restrict x = s->support[j];
    const double *restrict other = none ? x : s->support[k];
    const double *restrict l_k = w->in.joist[NS_J_bearing + (none ? j : k)];
    LANES(i) {
      const double apart = ns_abs(other[i] - x[i]) - (l_b[i] + l_k[i]) / 2;
      gap[right][i] = none ? 1e9 : apart;
    }
  }
}

#ifdef NS_BEARING_TIMED
/* Permanent load alone has a duration of its own: the least factor, against the
 * reaction of a combination without imposed load. */
NS_INLINE void bearing_of_dead(struct ns_work *w, int j, const double *dead,
                               struct ns_check *k) {
  const struct ns_standard *s = w->standard;
  const double *restrict x = w->uncut.support[j];
  for (int c = 0; c < s->combos; c++) {
    if (s->g_L[c] > 0) continue;
    LANES(i) {
      const double all = w->Fc_perp.CD[i];
      const double part = ns_bearing_time(s, w->in.joist, c, all, i);
      const double R = ns_max(s->g_D[c] * dead[i], 0);
      const bool on = (k->on[i] != 0) & (k->binding[i] != 0);
      const double most = k->capacity[i];
      const bool more = on & (R > k->ratio[i] * most * part * (1 + 1e-12));
      k->demand[i] = more ? R : k->demand[i];
      k->capacity[i] = more ? most * part : most;
      k->ratio[i] = more ? R / (most * part) : k->ratio[i];
      k->combo[i] = more ? c : k->combo[i];
      k->at[i] = more ? x[i] : k->at[i];
    }
  }
}
#endif

/* Compression across the grain at a bearing: f_cp = R/(b l_b) <= F_cp' C_b, as
 * R <= F_cp' C_b b l_b. Branch 1 a seat, 2 none. */
NS_INLINE void bearing(struct ns_work *w, const struct ns_beam *s, bool cut,
                       int j, const double *share, const struct ns_beam *locked,
                       const struct ns_state *state) {
  struct ns_check *k = ns_add(w->out, NS_BEARING, -1, j);
  const bool first = j == 0, last = j == s->spans;
  const double *restrict x = s->support[j];
  const double *restrict l_b = w->in.joist[NS_J_bearing + j];
  const double *restrict all = state->reaction[j][0];
  const double *restrict value = w->Fc_perp.value;
  const double *restrict given = w->in.joist[NS_J_Fc_perp];
  const double *restrict end = first ? w->start : w->end;
  const double *restrict seat = cut ? w->seat[j] : l_b;
  ns_lane R, a, b, width, Cb, gap[2];
  LANES(i) {
    a[i] = x[i] - l_b[i] / 2;
    b[i] = x[i] + l_b[i] / 2;
    R[i] = ns_max(all[i], 0);
  }
  width_between(w, cut, a, b, width);
  clear_gaps(w, s, j, gap);
  if (share)
    LANES(i) {
      const double g = w->standard->g_D[(int)w->most_in[j][i]];
      const double alone = g * locked->R[0][j][i], part = share[i];
      R[i] = ns_max((all[i] - alone) * part + (part > 0 ? alone : 0), 0);
    }
  const double *restrict most_in = w->most_in[j];
  LANES(i) {
    const double left = a[i] - end[i], right = end[i] - b[i];
    const bool held = seat[i] > 0;
    const double l = held ? seat[i] : 1;
    const double to_end = first ? left : last ? right : 99;
    const double wood[2] = {a[i] - w->start[i], w->end[i] - b[i]};
    const double clear[2] = {gap[0][i], gap[1][i]};
    Cb[i] = ns_bearing_factor(l, to_end, wood, clear, w->depth[i]);
    const double cap =
        held ? ns_bearing_strength(value[i], Cb[i], width[i], l) : 0;
    ns_offer_lane(k, i, (given[i] > 0) | !held, R[i], cap, x[i], 0,
                  held ? 1 : 2);
    k->combo[i] = most_in[i];
    k->binding[i] = held ? 1 : 0; /* no seat is no ratio: see ns_decide */
  }
#ifdef NS_BEARING_TIMED
  bearing_of_dead(w, j, state->reaction[j][2], k);
#endif
  if (!w->records) return;
  ns_record_factors(k, &w->Fc_perp, 0, w->standard->combos, NULL);
  LANES(i) {
    k->rec[NS_R_R][i] = k->demand[i];
    k->rec[NS_R_b][i] = width[i];
    k->rec[NS_R_l_b][i] = seat[i];
    k->rec[NS_R_Cb][i] = Cb[i];
    k->rec[NS_R_F][i] = given[i];
#ifdef NS_BEARING_SPREADS
    const double clear[2] = {gap[0][i], gap[1][i]};
    const double k_c90 = ns_support_factor(clear, w->depth[i]);
    const double l_ef = Cb[i] / k_c90 * seat[i];
    k->rec[NS_R_k_c90][i] = k_c90;
    k->rec[NS_R_l_e][i] = l_ef;
    k->rec[NS_R_f_c][i] = k->demand[i] / (width[i] * ns_max(l_ef, 1e-9));
#endif
#ifdef NS_BEARING_TIMED
    const int of = (int)k->combo[i];
    const double part =
        ns_bearing_time(w->standard, w->in.joist, of, w->Fc_perp.CD[i], i);
    const bool dead = !(w->standard->g_L[of] > 0);
    k->rec[NS_R_CD][i] *= dead ? part : 1;
    k->rec[NS_R_F_a][i] *= dead ? part : 1;
#endif
  }
}

/* Most, least and dead, each combination and live load where it hurts; of two
 * combinations with one answer the later counts. */
NS_INLINE void reactions(struct ns_work *w, const struct ns_beam *s,
                         const struct ns_table *t, struct ns_state *state) {
  for (int j = 0; j <= s->spans; j++) {
    const double *restrict most = t->R[0][j], *restrict least = t->R[1][j];
    const double *restrict D = s->R[0][j];
    double *restrict in = w->most_in[j], *restrict least_in = w->least_in[j];
    double *restrict hi = state->reaction[j][0];
    double *restrict lo = state->reaction[j][1];
    ns_copy(state->reaction[j][2], D);
    ns_fill(hi, -1e300);
    ns_fill(lo, 1e300);
    for (int c = 0; c < w->standard->combos; c++) {
      const double gD = g_D(w, c), gL = g_L(w, c);
      LANES(i) {
        const double R = gD * D[i] + gL * most[i];
        const double up = gD * D[i] + gL * least[i];
        in[i] = R >= hi[i] ? c : in[i];
        least_in[i] = up <= lo[i] ? c : least_in[i];
        hi[i] = ns_max(hi[i], R);
        lo[i] = ns_min(lo[i], up);
      }
    }
  }
}

/* What must hold a support down under the worst pattern: reported, not a
 * ratio, since nothing here says what holds it. */
NS_INLINE void uplift(struct ns_work *w, const struct ns_beam *s, int j,
                      const struct ns_state *state) {
  struct ns_check *k = ns_add(w->out, NS_UPLIFT, -1, j);
  LANES(i) {
    const double R = state->reaction[j][1][i];
    k->on[i] = R < -1e-6 ? 1 : 0;
    k->demand[i] = k->on[i] != 0 ? -R : 0;
    k->at[i] = s->support[j][i];
    k->combo[i] = w->least_in[j][i];
    k->branch[i] = 1;
  }
  if (w->records) ns_copy(k->rec[NS_R_R], k->demand);
}

/* Slenderness d/b in nominal sizes against what its bracing allows; it informs
 * and decides nothing. Branch 1 a deck, 2 blocking, 3 held at the ends. */
NS_INLINE void stability(struct ns_work *w) {
  struct ns_check *k = ns_add(w->out, NS_STABILITY, -1, -1);
  const double *restrict depth = w->depth, *restrict b = w->in.joist[NS_J_b];
  const double *restrict plies = w->in.joist[NS_J_plies];
  const double *restrict sheathed = w->in.joist[NS_J_sheathed];
  const bool blocked = w->shape->blocking > 0;
  const double free_branch = blocked ? 2 : 3;
  LANES(i) {
    const bool deck = sheathed[i] != 0;
    const double ratio = ns_nominal(depth[i]) / (ns_nominal(b[i]) * plies[i]);
    const double limit = ns_slenderness_limit(deck, blocked);
    k->on[i] = limit > 0 ? 1 : 0; /* 0: the family has no such rule */
    k->demand[i] = ratio;
    k->capacity[i] = limit;
    k->ratio[i] = limit > 0 ? ratio / limit : 0;
    k->branch[i] = deck ? 1 : free_branch;
  }
}

/* Forces and shear of the cut state where they are those of the uncut one. */
NS_INLINE void take_over(struct ns_work *w, struct ns_state *state,
                         const struct ns_check *shear) {
  const struct ns_state *was = &w->out->uncut;
  struct ns_check *k = ns_add(w->out, NS_SHEAR, -1, -1);
  ns_copy(state->shear, was->shear);
  ns_copy(state->shear_at, was->shear_at);
  memcpy(k, shear, w->records ? sizeof *k : offsetof(struct ns_check, rec));
}

NS_CLONES void ns_check_state(struct ns_work *w, bool cut, const double *Cr,
                              struct ns_state *state) {
  struct ns_beam *s = cut ? &w->after : &w->uncut;
  const bool own = cut && s->unknowns > 0; /* stiffness moves the forces */
  const struct ns_table *t = &w->table[own];
  const bool hogs = s->spans > 1 || s->left || s->right;
  const bool again = cut && !own; /* the forces are those of the uncut state */
  state->first = w->out->checks;
  ns_copy(state->Cr, Cr);
  if (hogs && !again) ns_beam_parts(s, &w->parts);
  ns_bending_values(w, s, NULL, cut, Cr);
  if (again)
    memcpy(state->reaction, w->out->uncut.reaction,
           sizeof state->reaction[0] * (size_t)(s->spans + 1));
  else
    reactions(w, s, t, state);
  for (int sign = 0; sign <= hogs; sign++) {
    if (!again) worst_moments(w, s, t, sign);
    gross_bending(w, NS_BENDING, sign);
  }
  if (again)
    take_over(w, state, &w->out->check[w->out->uncut.first + 1 + hogs]);
  else
    gross_shear(w, NS_SHEAR, s, t, state);
  for (int j = 0; j <= s->spans; j++) bearing(w, s, cut, j, NULL, NULL, state);
  ns_deflection(w, s, false, state);
  ns_deflection(w, s, true, state);
  if (hogs)
    for (int j = 0; j <= s->spans; j++) uplift(w, s, j, state);
  stability(w);
  if (cut)
    for (int c = 0; c < w->shape->cuts; c++) ns_check_cut(w, c);
  ns_close_state(w, hogs, state);
}

/* What a state says as a whole, once all its checks are made. */
NS_CLONES void ns_close_state(struct ns_work *w, bool hogs,
                              struct ns_state *state) {
  state->count = w->out->checks - state->first;
  const struct ns_check *sag = &w->out->check[state->first];
  ns_copy(state->moment, sag->demand);
  ns_copy(state->moment_at, sag->at);
  ns_fill(state->not_permitted, 0);
  for (int c = 0; c < w->standard->combos && hogs; c++) {
    const double *restrict M = w->worst_M[c][1], *restrict at =
                                                     w->worst_at[c][1];
    LANES(i) {
      const bool down = M[i] > ns_abs(state->moment[i]);
      state->moment[i] = down ? -M[i] : state->moment[i];
      state->moment_at[i] = down ? at[i] : state->moment_at[i];
    }
  }
  ns_find_governing(w->out, state);
}

/* The joist itself once it is repaired. */
NS_CLONES void ns_check_host(struct ns_work *w, const struct ns_host *h,
                             const double *Cr, struct ns_state *state) {
  const struct ns_beam *s = h->s;
  const bool hogs = s->spans > 1 || s->left || s->right;
  const bool prop = w->shape->fix.lift == NS_PROP; /* it may push up too far */
  state->first = w->out->checks;
  ns_copy(state->Cr, Cr);
  if (hogs) ns_beam_parts(h->whole, &w->parts);
  ns_bending_values(w, s, h->part, true, Cr);
  reactions(w, h->whole, h->whole_t, state);
  for (int sign = 0; sign <= (hogs || prop); sign++) {
    worst_moments(w, s, h->t, sign);
    gross_bending(w, NS_HOST_BENDING, sign);
  }
  gross_shear(w, NS_HOST_SHEAR, s, h->t, state);
  for (int j = 0; j <= s->spans; j++)
    bearing(w, s, true, j, h->share, h->locked, state);
  ns_deflection(w, h->sag, false, state);
  ns_deflection(w, h->sag, true, state);
  if (hogs)
    for (int j = 0; j <= s->spans; j++) uplift(w, s, j, state);
  stability(w);
}
