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
#include "beam/table.h"

/* A peak stands still when it moves by less than this part of its segment: M
 * is taken to the second order there. */
#define STILL 1e-7

/* What a table is of: a beam, or the one beside it. 'ends': M of the dead load
 * before each break where it steps there (a member's share of two), else null:
 * M before a break is M after it. */
struct subject {
  const struct ns_beam *s;
  bool second;
  const ns_lane *M, *VL, *VR; /* of the dead load */
  const ns_lane *ends;
  const struct ns_two_span *two; /* two spans by their sums, or null */
  const struct ns_n_span *spans; /* any, or null */
  const double *times; /* live load, where sums and lines are of 1 lb/in */
};

/* Dead-load rows of the joist or of the second beam. */
NS_INLINE struct subject subject_of(const struct ns_beam *s, bool second) {
  return (struct subject){.s = s,
                          .second = second,
                          .M = second ? s->second_M[0] : s->M[0],
                          .VL = second ? s->second_VL[0] : s->VL[0],
                          .VR = second ? s->second_VR[0] : s->VR[0]};
}

/* V that goes with the M of a sign at break k. */
NS_INLINE double shear_with(const struct subject *o, const struct ns_table *t,
                            double g_D, double g_L, int sign, int k, bool right,
                            int i) {
  const double V_D = right ? o->VR[k][i] : o->VL[k][i];
  return g_D * V_D + g_L * t->side[right][k].Vc[sign][i];
}

/* M of a sign at break k, dead and live. */
NS_INLINE double moment_at(const struct subject *o, const struct ns_table *t,
                           double g_D, double g_L, int sign, int k, int i) {
  const bool right = k < o->s->breaks - 1;
  return g_D * o->M[k][i] + g_L * t->side[right][k].M[sign][i];
}

/* M of a sign at the end of the segment before break k. */
NS_INLINE double moment_before(const struct subject *o,
                               const struct ns_table *t, double g_D, double g_L,
                               int sign, int k, int i) {
  if (!o->ends) return moment_at(o, t, g_D, g_L, sign, k, i);
  return g_D * o->ends[k][i] + g_L * t->side[0][k].M[sign][i];
}

/* Where the cubic through both ends and slopes has its turning point; true
 * where it has one in any lane. */
NS_INLINE bool cubic_peak(const struct subject *o, const struct ns_table *t,
                          double g_D, double g_L, int sign, int k,
                          double *restrict has, double *restrict at,
                          double *restrict M) {
  const struct ns_beam *s = o->s;
  const double *restrict x1 = s->x[k], *restrict x2 = s->x[k + 1];
  const double way = sign == 0 ? 1 : -1;
  ns_lane V0, V1;
  LANES(i) {
    V0[i] = shear_with(o, t, g_D, g_L, sign, k, true, i);
    V1[i] = shear_with(o, t, g_D, g_L, sign, k + 1, false, i);
    const bool turns = (way * V0[i] > 0) & (way * V1[i] < 0);
    has[i] = turns & (x2[i] > x1[i]) ? 1 : 0;
  }
  if (!ns_any(has)) return false;
  LANES(i) {
    const double M0 = moment_at(o, t, g_D, g_L, sign, k, i);
    const double rise = moment_before(o, t, g_D, g_L, sign, k + 1, i) - M0;
    const double hh = has[i] != 0 ? x2[i] - x1[i] : 1;
    const double c2 = (3 * rise / hh - 2 * V0[i] - V1[i]) / hh;
    const double c3 = (V0[i] + V1[i] - 2 * rise / hh) / (hh * hh);
    const double root = sqrt(ns_max(c2 * c2 - 3 * c3 * V0[i], 0));
    const double under = -c2 + way * root;
    const double u = under != 0 ? V0[i] / under : 0;
    const double x = ns_min(ns_max(u, 0), hh);
    at[i] = x1[i] + x;
    M[i] = M0 + x * (V0[i] + x * (c2 + x * c3));
  }
  return true;
}

/* What live load makes of V and M at the part t of segment k. */
NS_INLINE void sums_within(const struct subject *o,
                           const struct ns_influence *l, int k, const double *t,
                           struct ns_sums *e) {
  if (o->spans)
    ns_n_span_within(o->spans, k, t, e);
  else if (o->two)
    ns_two_span_within(o->two, k, t, e);
  else if (l->severed)
    ns_severed_within(l, k, t, e);
  else
    ns_influence_within(l, k, t, e);
  if (!o->times) return;
  const double *restrict q = o->times;
  for (int g = 0; g < 2; g++)
    LANES(i) {
      e->M[g][i] *= q[i];
      e->Vc[g][i] *= q[i];
    }
  LANES(i) e->bend[i] *= q[i];
}

/* The peak of the envelope itself inside segment k: Newton on its shear, held
 * in a bracket that halves when it strays. */
NS_INLINE void settle_peak(const struct subject *o,
                           const struct ns_influence *l, double g_D, double g_L,
                           int sign, int k, const double *has,
                           double *restrict at, double *restrict M) {
  const struct ns_beam *s = o->s;
  const double way = sign == 0 ? 1 : -1;
  ns_lane lo, hi, wait, t, carried;
  ns_carries_row(s, o->second, k, carried);
  LANES(i) {
    const double h = s->x[k + 1][i] - s->x[k][i];
    wait[i] = (has[i] != 0) & (ns_abs(M[i]) > 1e-6) ? 1 : 0; /* no rounding */
    lo[i] = 0;
    hi[i] = 1;
    t[i] = has[i] != 0 ? (at[i] - s->x[k][i]) / h : 0.5;
  }
  for (int it = 0; it < 40 && ns_any(wait); it++) {
    struct ns_sums e;
    sums_within(o, l, k, t, &e);
    LANES(i) {
      const double h = s->x[k + 1][i] - s->x[k][i], z = t[i] * h;
      const bool on = carried[i] != 0;
      const double w_D = on ? s->w[0][k][i] : 0, dw = on ? s->dw[0][k][i] : 0;
      const double w_L = on ? s->w[1][k][i] + s->dw[1][k][i] * z : 0;
      const double V_D = o->VR[k][i] - z * (w_D + dw * z / 2);
      const double M_D =
          o->M[k][i] + z * (o->VR[k][i] - z * (w_D / 2 + dw * z * NS_6TH));
      const double V_L = e.Vc[sign][i], M_L = e.M[sign][i];
      const double bend = sign == 0 ? e.bend[i] : -w_L - e.bend[i];
      const double V = g_D * V_D + g_L * V_L, all = g_D * M_D + g_L * M_L;
      const double rate = g_L * bend - g_D * (w_D + dw * z);
      const bool w = wait[i] != 0, rising = way * V > 0;
      lo[i] = w & rising ? t[i] : lo[i];
      hi[i] = w & !rising ? t[i] : hi[i];
      const double newton =
          t[i] - ((rate != 0) & (h > 0) ? V / (rate * (h > 0 ? h : 1)) : 0);
      const bool in = (newton > lo[i]) & (newton < hi[i]);
      const bool still = (rate != 0) & (ns_abs(newton - t[i]) < STILL);
      const bool done = still | (hi[i] - lo[i] < STILL * STILL);
      const double held = ns_min(ns_max(newton, lo[i]), hi[i]);
      const double next = still ? held : in ? newton : (lo[i] + hi[i]) / 2;
      const double d = (next - t[i]) * h;
      M[i] = w ? all + d * (V + d * rate / 2) : M[i];
      t[i] = w ? next : t[i];
      at[i] = w ? s->x[k][i] + t[i] * h : at[i];
      wait[i] = done ? 0 : wait[i];
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

/* Breaks whose two sides are not one: ends, supports, point loads, stations,
 * and where the second beam or the load on it begins or ends. */
NS_INLINE bool sides_differ(const struct ns_beam *s, int k,
                            double *restrict differs) {
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
  return ns_any(differs);
}

/* The peak of a sign in segment k in combination c. 'moves': the loading does
 * not stay the same along it. */
NS_INLINE void find_peak(const struct subject *o, const struct ns_influence *l,
                         const struct ns_standard *standard, int c, int sign,
                         int k, bool moves, struct ns_table *t) {
  const double g_D = standard->g_D[c], g_L = standard->g_L[c];
  double *has = t->has_peak[c][sign][k], *at = t->peak_at[c][sign][k];
  double *M = t->peak[c][sign][k];
  const bool any = cubic_peak(o, t, g_D, g_L, sign, k, has, at, M);
  t->peaks[c][sign][k] = any;
  if (moves && g_L != 0 && any)
    settle_peak(o, l, g_D, g_L, sign, k, has, at, M);
}

/* The peaks of segment k, each combination and sign. */
NS_INLINE void find_peaks(const struct subject *o, const struct ns_influence *l,
                          const struct ns_standard *standard, int k,
                          struct ns_table *t) {
  for (int c = 0; c < standard->combos; c++)
    for (int sign = 0; sign < 2; sign++)
      find_peak(o, l, standard, c, sign, k, l != NULL, t);
}

/* The rows of live load of support j from break k, in the lanes where it is
 * there. */
NS_INLINE void gather_live(const struct ns_beam *s, int j, int k,
                           const double *here, struct ns_table *t) {
  for (int side = 0; side < 2; side++) {
    const struct ns_envelope *e = &t->side[side][k];
    struct ns_envelope *o = &t->support[side][j];
    LANES(i) {
      const bool take = (here[i] != 0) & ((side == 1) | ns_new_place(s, k, i));
      for (int g = 0; g < 2; g++) {
        o->V[g][i] = take ? e->V[g][i] : o->V[g][i];
        o->M[g][i] = take ? e->M[g][i] : o->M[g][i];
        o->Vc[g][i] = take ? e->Vc[g][i] : o->Vc[g][i];
      }
    }
  }
}

/* And those of dead load. */
NS_INLINE void gather_support(const struct ns_beam *s, int j, int k,
                              const double *here, struct ns_table *t) {
  gather_live(s, j, k, here, t);
  for (int side = 0; side < 2; side++)
    LANES(i) {
      const bool take = (here[i] != 0) & ((side == 1) | ns_new_place(s, k, i));
      const double V = side ? s->VR[0][k][i] : s->VL[0][k][i];
      t->V_D[side][j][i] = take ? V : t->V_D[side][j][i];
    }
}

/* Rows of the supports, whose breaks differ from lane to lane. */
NS_INLINE void gather_supports(const struct ns_beam *s, struct ns_table *t) {
  for (int side = 0; side < 2; side++) {
    const size_t supports = (size_t)s->spans + 1;
    memset(t->support[side], 0, sizeof t->support[side][0] * supports);
    memset(t->V_D[side], 0, sizeof t->V_D[side][0] * supports);
  }
  for (int j = 0; j <= s->spans; j++)
    for (int k = 0; k < s->breaks; k++) {
      ns_lane here;
      LANES(i) here[i] = s->x[k][i] == s->support[j][i] ? 1 : 0;
      if (ns_any(here)) gather_support(s, j, k, here, t);
    }
}

/* A beam whose forces are those of statics: each place by itself. */
NS_INLINE void place_by_place(const struct ns_beam *s, struct ns_table *t) {
  for (int k = 0; k < s->breaks; k++) {
    ns_lane differs;
    ns_beam_envelope(s, k, NULL, true, &t->side[1][k]);
    if (sides_differ(s, k, differs))
      ns_beam_envelope(s, k, NULL, false, &t->side[0][k]);
    same_where_alike(&t->side[0][k], &t->side[1][k], differs);
  }
  for (int j = 0; j <= s->spans; j++)
    ns_beam_reaction(s, j, t->R[0][j], t->R[1][j]);
}

/* Envelopes at every break of a beam that statics or two sums answer. */
NS_INLINE void tabulate_plain(const struct subject *o,
                              const struct ns_standard *standard,
                              struct ns_table *t) {
  const struct ns_beam *s = o->s;
  if (ns_single_span(s))
    ns_single_span_envelopes(s, t);
  else
    place_by_place(s, t);
  for (int k = 0; k < s->breaks - 1; k++) find_peaks(o, NULL, standard, k, t);
}

/* V and M of two spans at break k: left of a later break of one place is right
 * of it. */
NS_INLINE void two_place(const struct ns_two_span *o, int k,
                         struct ns_table *t) {
  const struct ns_beam *s = o->s;
  ns_lane differs;
  ns_two_span_place(o, k, true, &t->side[1][k]);
  if (sides_differ(s, k, differs))
    ns_two_span_place(o, k, false, &t->side[0][k]);
  LANES(i) differs[i] = ns_new_place(s, k, i) ? differs[i] : 0;
  same_where_alike(&t->side[0][k], &t->side[1][k], differs);
}

/* Two spans by their sums. */
NS_INLINE void tabulate_two(const struct subject *o,
                            const struct ns_influence *l,
                            const struct ns_standard *standard,
                            struct ns_table *t) {
  const struct ns_beam *s = o->s;
  for (int k = 0; k < s->breaks; k++) {
    two_place(&l->two, k, t);
    if (k > 0) find_peaks(o, l, standard, k - 1, t);
  }
  gather_supports(s, t);
  for (int j = 0; j <= s->spans; j++)
    ns_two_span_reaction(&l->two, j, t->R[0][j], t->R[1][j]);
}

/* Any spans by sums; the loading that makes M stays the same along one span. */
NS_INLINE void tabulate_spans(struct subject *o, struct ns_influence *l,
                              const struct ns_standard *standard,
                              struct ns_table *t) {
  const struct ns_beam *s = o->s;
  o->spans = &l->spans;
  ns_n_span_lay(&l->spans, s);
  for (int k = 0; k < s->breaks; k++) {
    ns_lane differs;
    ns_n_span_place(&l->spans, k, true, &t->side[1][k]);
    if (sides_differ(s, k, differs))
      ns_n_span_place(&l->spans, k, false, &t->side[0][k]);
    LANES(i) differs[i] = ns_new_place(s, k, i) ? differs[i] : 0;
    same_where_alike(&t->side[0][k], &t->side[1][k], differs);
    if (k > 0) find_peaks(o, s->unknowns ? l : NULL, standard, k - 1, t);
  }
  gather_supports(s, t);
  for (int j = 0; j <= s->spans; j++)
    ns_n_span_reaction(&l->spans, j, t->R[0][j], t->R[1][j]);
}

/* V, M and reactions of two spans under 1 lb/in of live load. */
NS_CLONES void ns_unit_tabulate(struct ns_unit_beam *u) {
  static const bool points[NS_MAX_BREAKS] = {false};
  const struct ns_beam *s = &u->s;
  struct ns_table *t = &u->t;
  ns_two_span_lay(&u->two, s, points);
  for (int k = 0; k < s->breaks; k++) two_place(&u->two, k, t);
  for (int j = 0; j <= s->spans; j++)
    ns_two_span_reaction(&u->two, j, t->R[0][j], t->R[1][j]);
  for (int j = 0; j <= s->spans; j++)
    for (int k = 0; k < s->breaks; k++) {
      ns_lane here;
      LANES(i) here[i] = s->x[k][i] == s->support[j][i] ? 1 : 0;
      if (ns_any(here)) gather_live(s, j, k, here, t);
    }
}

/* An envelope times the load. */
NS_INLINE void times_load(const struct ns_envelope *one,
                          const double *restrict q, struct ns_envelope *to) {
  for (int g = 0; g < 2; g++)
    LANES(i) {
      to->V[g][i] = one->V[g][i] * q[i] + 0.0;
      to->M[g][i] = one->M[g][i] * q[i] + 0.0;
      to->Vc[g][i] = one->Vc[g][i] * q[i] + 0.0;
    }
}

/* The table of a beam under even loads, and the peaks. */
NS_CLONES void ns_unit_table(const struct ns_unit_beam *u,
                             const struct ns_beam *s,
                             const struct ns_standard *standard,
                             struct ns_table *t) {
  struct subject o = subject_of(s, false);
  const struct ns_table *one = &u->t;
  o.two = &u->two;
  o.times = u->live;
  for (int side = 0; side < 2; side++) {
    for (int k = 0; k < s->breaks; k++)
      times_load(&one->side[side][k], u->live, &t->side[side][k]);
    for (int j = 0; j <= s->spans; j++) {
      const double *restrict a = u->V[0][side][j], *restrict b =
                                                       u->V[1][side][j];
      double *restrict V = t->V_D[side][j];
      times_load(&one->support[side][j], u->live, &t->support[side][j]);
      LANES(i) {
        V[i] = u->dead[0][i] * a[i] + u->dead[1][i] * b[i] + 0.0;
        t->R[side][j][i] = one->R[side][j][i] * u->live[i] + 0.0;
      }
    }
  }
  for (int c = 0; c < standard->combos; c++)
    for (int sign = 0; sign < 2; sign++) {
      const bool down = standard->g_D[c] >= 0 && standard->g_L[c] >= 0;
      for (int k = 0; k < s->breaks - 1; k++)
        if (u->may[sign][k] || !u->down || !down)
          find_peak(&o, NULL, standard, c, sign, k, true, t);
        else
          t->peaks[c][sign][k] = false;
    }
}

/* The peaks of a sign in segment k in the lanes marked; 'l' null where the
 * loading stays the same along it. */
NS_INLINE void mark_sign(const struct subject *o, const struct ns_influence *l,
                         const struct ns_standard *standard, int sign, int k,
                         const double *mine, struct ns_table *t) {
  for (int c = 0; c < standard->combos; c++) {
    const double g_D = standard->g_D[c], g_L = standard->g_L[c];
    ns_lane has, at, M;
    if (!cubic_peak(o, t, g_D, g_L, sign, k, has, at, M)) continue;
    LANES(i) has[i] = mine[i] != 0 ? has[i] : 0;
    if (!ns_any(has)) continue;
    if (l && g_L != 0) settle_peak(o, l, g_D, g_L, sign, k, has, at, M);
    double *has_peak = t->has_peak[c][sign][k];
    double *peak = t->peak[c][sign][k], *peak_at = t->peak_at[c][sign][k];
    if (!t->peaks[c][sign][k]) ns_fill(has_peak, 0);
    t->peaks[c][sign][k] = true;
    LANES(i) {
      const bool on = has[i] != 0;
      has_peak[i] = on ? 1 : has_peak[i];
      peak[i] = on ? M[i] : peak[i];
      peak_at[i] = on ? at[i] : peak_at[i];
    }
  }
}

/* Of both. */
NS_INLINE void mark_peaks(const struct subject *o, const struct ns_influence *l,
                          const struct ns_standard *standard, int k,
                          const double *mine, struct ns_table *t) {
  for (int sign = 0; sign < 2; sign++)
    mark_sign(o, l, standard, sign, k, mine, t);
}

/* Nothing at a place. */
NS_INLINE void no_envelope(struct ns_envelope *e) {
  for (int g = 0; g < 2; g++) {
    ns_fill(e->V[g], 0);
    ns_fill(e->M[g], 0);
    ns_fill(e->Vc[g], 0);
  }
}

/* Rows of a half, whose x may run to the left, to those of the beam; the left
 * half is first. */
NS_INLINE void half_to_table(const struct ns_severed_half *f, int q, int k,
                             const struct ns_envelope *near,
                             const struct ns_envelope *far,
                             struct ns_table *t) {
  const double *restrict in = f->in[q];
  const int turn = f->right ? 1 : 0;
  const double way = f->right ? -1 : 1;
  for (int side = 0; side < 2; side++) {
    const struct ns_envelope *e = side ? far : near;
    struct ns_envelope *to = &t->side[side ^ turn][k];
    if (!f->right) no_envelope(to);
    for (int g = 0; g < 2; g++)
      LANES(i) {
        const bool mine = in[i] != 0;
        to->V[g][i] = mine ? way * e->V[g ^ turn][i] : to->V[g][i];
        to->M[g][i] = mine ? e->M[g][i] : to->M[g][i];
        to->Vc[g][i] = mine ? way * e->Vc[g][i] : to->Vc[g][i];
      }
  }
}

/* V and M at the break of row q of the half that is worked; places in order. */
NS_INLINE void half_place(const struct ns_beam *s, struct ns_influence *l,
                          const struct ns_severed_half *f, int q,
                          struct ns_table *t) {
  const int k = f->right ? s->breaks - 1 - q : q;
  struct ns_envelope near, far;
  ns_lane differs;
  ns_severed_bears(s, f, k, differs);
  LANES(i) differs[i] += f->P[1][q][i] != 0 ? 1 : 0;
  for (int a = f->first; a < f->last; a++) {
    ns_lane here;
    if (!f->stands[q][a]) continue;
    ns_severed_stands(s, f, q, k, a, here);
    LANES(i) differs[i] += here[i];
  }
  ns_severed_place(l, q, ns_any(differs), &near, &far);
  same_where_alike(&near, &far, differs);
  half_to_table(f, q, k, &near, &far, t);
}

/* Envelopes at the breaks of one half of a severed joist. */
NS_INLINE void tabulate_half(const struct subject *o, struct ns_influence *l,
                             int p, const struct ns_standard *standard,
                             struct ns_table *t) {
  const struct ns_beam *s = o->s;
  const struct ns_severed_half *f = &l->half[p];
  ns_severed_start(l, p, o->second);
  for (int q = 0; q < f->breaks; q++) {
    const int k = f->right ? s->breaks - 1 - q : q;
    half_place(s, l, f, q, t);
    if (q == 0) continue;
    ns_lane mine;
    LANES(i) mine[i] = f->in[q - 1][i] * f->in[q][i];
    mark_peaks(o, l, standard, f->right ? k : k - 1, mine, t);
  }
}

/* V and M of the member over the gap; the joist has nothing there. */
NS_INLINE void gap_places(const struct ns_beam *s, const struct ns_influence *l,
                          struct ns_table *t) {
  const int n = s->breaks;
  for (int k = 0; k < n; k++) {
    const struct ns_severed_half *a = &l->half[0], *b = &l->half[1];
    ns_lane mine;
    struct ns_envelope e[2];
    LANES(i) {
      const bool left = k < a->breaks ? a->in[k][i] != 0 : false;
      const int q = n - 1 - k;
      const bool right = q < b->breaks ? b->in[q][i] != 0 : false;
      mine[i] = left | right ? 0 : 1;
    }
    if (!ns_any(mine)) continue;
    for (int side = 0; side < 2; side++) ns_severed_gap(l, k, side, &e[side]);
    for (int side = 0; side < 2; side++)
      for (int g = 0; g < 2; g++)
        LANES(i) {
          struct ns_envelope *to = &t->side[side][k];
          const bool on = mine[i] != 0;
          to->V[g][i] = on ? e[side].V[g][i] : to->V[g][i];
          to->M[g][i] = on ? e[side].M[g][i] : to->M[g][i];
          to->Vc[g][i] = on ? e[side].Vc[g][i] : to->Vc[g][i];
        }
  }
}

/* And its peaks. */
NS_INLINE void tabulate_gap(const struct subject *o,
                            const struct ns_influence *l,
                            const struct ns_standard *standard,
                            struct ns_table *t) {
  const struct ns_beam *s = o->s;
  gap_places(s, l, t);
  for (int k = 0; k < s->breaks - 1; k++)
    if (ns_any(s->on_new[k])) mark_peaks(o, NULL, standard, k, s->on_new[k], t);
}

/* A joist cut through, half by half; the beam beside it with it. */
NS_INLINE void tabulate_halves(const struct subject *o, struct ns_influence *l,
                               const struct ns_standard *standard,
                               struct ns_table *t) {
  const struct ns_beam *s = o->s;
  const size_t n = (size_t)s->breaks;
  for (int k = l->half[0].breaks; k < s->breaks; k++)
    for (int side = 0; side < 2; side++) no_envelope(&t->side[side][k]);
  for (int c = 0; c < standard->combos; c++)
    for (int sign = 0; sign < 2; sign++)
      memset(t->peaks[c][sign], 0, sizeof(bool) * n);
  for (int p = 0; p < 2; p++) tabulate_half(o, l, p, standard, t);
  if (o->second) {
    tabulate_gap(o, l, standard, t);
    return;
  }
  gather_supports(s, t);
  for (int p = 0; p < 2; p++) ns_severed_reaction(l, p, t->R[0][p], t->R[1][p]);
}

/* Whether M of a sign may turn in segment k of a severed joist or of its member
 * under downward loads: V of a unit load, dead or live, rises at its start and
 * falls at its end, in any lane marked. */
NS_INLINE bool may_peak(const struct ns_unit_severed *u, bool second, int sign,
                        int k, const double *mine) {
  const struct ns_beam *s = &u->s;
  const struct ns_table *t = &u->t[second];
  const double way = sign == 0 ? 1 : -1, alone = second ? 0 : way;
  const double *restrict a1 = second ? s->second_VR[1][k] : s->VR[1][k];
  const double *restrict b1 = second ? s->second_VL[1][k + 1] : s->VL[1][k + 1];
  const double *restrict a2 = u->alone.VR[0][k];
  const double *restrict b2 = u->alone.VL[0][k + 1];
  const double *restrict a3 = t->side[1][k].Vc[sign];
  const double *restrict b3 = t->side[0][k + 1].Vc[sign];
  ns_lane may;
  LANES(i) {
    const bool up = (way * a1[i] > 0) | (alone * a2[i] > 0) | (way * a3[i] > 0);
    const bool down =
        (way * b1[i] < 0) | (alone * b2[i] < 0) | (way * b3[i] < 0);
    may[i] = up & down & (mine[i] != 0) ? 1 : 0;
  }
  return ns_any(may);
}

/* Whether it turns in any combination. */
NS_INLINE bool some_turn(const struct subject *o, const struct ns_table *t,
                         const struct ns_standard *standard, int sign, int k,
                         const double *mine) {
  const double way = sign == 0 ? 1 : -1;
  ns_lane some = {0};
  for (int c = 0; c < standard->combos; c++) {
    const double g_D = standard->g_D[c], g_L = standard->g_L[c];
    LANES(i) {
      const double V0 = shear_with(o, t, g_D, g_L, sign, k, true, i);
      const double V1 = shear_with(o, t, g_D, g_L, sign, k + 1, false, i);
      const bool turns = (way * V0 > 0) & (way * V1 < 0) & (mine[i] != 0);
      some[i] = turns ? 1 : some[i];
    }
  }
  return ns_any(some);
}

/* Break k of a table from that of 1 lb/in. */
NS_INLINE void times_break(const struct ns_unit_severed *u, bool second, int k,
                           struct ns_table *t) {
  for (int side = 0; side < 2; side++)
    times_load(&u->t[second].side[side][k], u->live, &t->side[side][k]);
}

/* Finds the peaks of segment k, and keeps what the next block needs for it. */
NS_INLINE void mark_and_hold(const struct subject *o, struct ns_influence *l,
                             struct ns_unit_severed *u,
                             const struct ns_standard *standard, int k, int q,
                             const double *mine, struct ns_table *t) {
  bool may[2];
  for (int sign = 0; sign < 2; sign++) {
    may[sign] = u->upward || may_peak(u, o->second, sign, k, mine);
    if (may[sign]) mark_sign(o, q < 0 ? NULL : l, standard, sign, k, mine, t);
  }
  if (may[0] || may[1]) ns_severed_hold(u, l, k, q, mine, may);
}

/* All places under 1 lb/in, and under the loads of this block. */
NS_INLINE void lay_halves(const struct subject *o, struct ns_influence *l,
                          struct ns_unit_severed *u,
                          const struct ns_standard *standard,
                          struct ns_table *t) {
  const struct ns_beam *s = o->s;
  struct ns_table *one = &u->t[o->second];
  for (int k = l->half[0].breaks; k < s->breaks; k++)
    for (int side = 0; side < 2; side++) no_envelope(&one->side[side][k]);
  for (int p = 0; p < 2; p++) {
    const struct ns_severed_half *f = &l->half[p];
    ns_severed_start(l, p, o->second);
    for (int q = 0; q < f->breaks; q++) {
      const int k = f->right ? s->breaks - 1 - q : q;
      ns_lane mine;
      half_place(&u->s, l, f, q, one);
      times_break(u, o->second, k, t);
      if (q == 0) continue;
      LANES(i) mine[i] = f->in[q - 1][i] * f->in[q][i];
      mark_and_hold(o, l, u, standard, f->right ? k : k - 1, q - 1, mine, t);
    }
  }
  if (o->second) gap_places(&u->s, l, one);
  for (int k = 0; k < s->breaks; k++) times_break(u, o->second, k, t);
  for (int k = 0; k < s->breaks - 1 && o->second; k++)
    if (ns_any(s->on_new[k]))
      mark_and_hold(o, l, u, standard, k, -1, s->on_new[k], t);
}

/* The same from what is kept. */
NS_INLINE void recall_halves(const struct subject *o, struct ns_influence *l,
                             const struct ns_unit_severed *u,
                             const struct ns_standard *standard,
                             struct ns_table *t) {
  for (int k = 0; k < o->s->breaks; k++) times_break(u, o->second, k, t);
  for (int n = 0; n < u->count; n++) {
    const struct ns_held *h = &u->held[n];
    const bool over_gap = h->half == 2;
    bool there = over_gap;
    if (h->second != o->second) continue;
    for (int sign = 0; sign < 2; sign++) {
      const int k = h->segment;
      if (!h->may[sign]) continue;
      if (!some_turn(o, t, standard, sign, k, h->mine)) continue;
      if (!there) ns_severed_recall(u, h, l);
      there = true;
      mark_sign(o, over_gap ? NULL : l, standard, sign, k, h->mine, t);
    }
  }
}

/* The table of a severed joist or of its member under even loads. */
NS_CLONES void ns_severed_unit_table(struct ns_influence *l,
                                     struct ns_unit_severed *u,
                                     const struct ns_beam *s, bool second,
                                     const struct ns_standard *standard,
                                     struct ns_table *t) {
  struct subject o = subject_of(s, second);
  o.times = u->live;
  for (int c = 0; c < standard->combos; c++)
    for (int sign = 0; sign < 2; sign++)
      memset(t->peaks[c][sign], 0, sizeof(bool) * (size_t)s->breaks);
  if (u->fresh)
    lay_halves(&o, l, u, standard, t);
  else
    recall_halves(&o, l, u, standard, t);
  if (second) return;
  gather_supports(s, t);
  for (int p = 0; p < 2; p++) {
    ns_lane most, least;
    ns_severed_reaction(l, p, most, least);
    LANES(i) {
      t->R[0][p][i] = most[i] * u->live[i] + 0.0;
      t->R[1][p][i] = least[i] * u->live[i] + 0.0;
    }
  }
}

/* Envelopes at every break, peaks of M between them, reactions. */
NS_CLONES void ns_tabulate(struct ns_influence *l, const struct ns_beam *s,
                           bool second, const struct ns_standard *standard,
                           struct ns_table *t) {
  struct subject o = subject_of(s, second);
  if (s->by_spans) {
    tabulate_spans(&o, l, standard, t);
    return;
  }
  if (s->unknowns == 0) {
    tabulate_plain(&o, standard, t);
    gather_supports(s, t);
    return;
  }
  if (l->by_sums) {
    o.two = &l->two;
    tabulate_two(&o, l, standard, t);
    return;
  }
  if (l->severed) {
    tabulate_halves(&o, l, standard, t);
    return;
  }
  ns_influence_start(l, second);
  for (int k = 0; k < s->breaks; k++) {
    ns_lane differs;
    const bool both = sides_differ(s, k, differs);
    ns_influence_place(l, k, both, &t->side[0][k], &t->side[1][k]);
    same_where_alike(&t->side[0][k], &t->side[1][k], differs);
    if (k > 0) find_peaks(&o, l, standard, k - 1, t);
  }
  if (second) return;
  gather_supports(s, t);
  for (int j = 0; j <= s->spans; j++)
    ns_influence_range(l, &l->support[j], t->R[0][j], t->R[1][j]);
}

void ns_no_live(const struct ns_beam *s, struct ns_table *t) {
  for (int side = 0; side < 2; side++)
    for (int k = 0; k < s->breaks; k++) no_envelope(&t->side[side][k]);
}

/* Supports and peaks of a table whose rows were put together from others, one
 * live load staying where it was. 'ends': M of the dead load before each break,
 * where both sides of the table's rows are those of their own segment. */
NS_CLONES void ns_complete(const struct ns_beam *s,
                           const struct ns_standard *standard,
                           const ns_lane *ends, struct ns_table *t) {
  struct subject o = subject_of(s, false);
  o.ends = ends;
  gather_supports(s, t);
  for (int c = 0; c < standard->combos; c++)
    for (int sign = 0; sign < 2; sign++)
      for (int k = 0; k < s->breaks - 1; k++)
        t->peaks[c][sign][k] =
            cubic_peak(&o, t, standard->g_D[c], standard->g_L[c], sign, k,
                       t->has_peak[c][sign][k], t->peak_at[c][sign][k],
                       t->peak[c][sign][k]);
}
