/* SPDX-License-Identifier: MIT
 * bearing.c - compression across the grain at a bearing, of the seat that is
 * left there. */
#include "check/check.h"
#include "cuts/cuts.h"

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

/* f_cp = R/(b l_b) <= F_cp' C_b, as R <= F_cp' C_b b l_b (lb). Branch 1 a seat,
 * 2 none. */
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

/* R against F_cp' C_b b l_b at one support; in a repair the joist's own
 * share of R. */
NS_CHECK(bearing) {
  const struct ns_host *h = o->host;
  bearing(w, o->s, o->cut, o->support, h ? h->share : NULL,
          h ? h->locked : NULL, o->state);
}
