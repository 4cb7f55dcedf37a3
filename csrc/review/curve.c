/* SPDX-License-Identifier: MIT
 * curve.c - V, M and capacity along the joist of lane 0, for drawings. */
#include "nds/strength.h"
#include "review/review.h"
#include "work/work.h"

/* Least modulus and shear area that a segment has, its own and those of any
 * cut that reaches over it. A hole weakens the joist at its centre only. */
static void capacity(const struct ns_work *w, bool cut, double x1, double x2,
                     double *S, double *A_v) {
  const double b = w->width[0], d = w->depth[0], mid = (x1 + x2) / 2;
  *S = b * d * d / 6;
  *A_v = b * d;
  for (int c = 0; cut && c < w->shape->cuts; c++) {
    const struct ns_cut_geometry *g = &w->cut[c];
    const bool sever = w->shape->cut[c].kind == NS_SEVER;
    if (!(mid > g->g1[0] && mid < g->g2[0])) continue;
    *S = sever ? 0 : ns_min(*S, w->section[c].least[0]);
    *A_v = sever ? 0 : ns_min(*A_v, w->section[c].A_v[0]);
  }
}

/* V, M, slope and deflection at x under the cases weighed, one lane. At a
 * break the values are those just right of it, or just left. */
static void at_place(const struct ns_beam *s, bool second, double x, bool right,
                     int lane, const double weight[3], struct ns_station *o) {
  const int i = lane;
  int k = 0;
  while (k + 2 < s->breaks &&
         (right ? s->x[k + 1][i] <= x : s->x[k + 1][i] < x))
    k++;
  const double EI = second ? s->second_EI[i] : s->EI[k][i];
  const double z = x - s->x[k][i], f = 1 / EI;
  memset(o, 0, sizeof *o);
  for (int n = 0; n < 3; n++) {
    ns_lane w, dw, P;
    ns_case_load(s, n, k, second, w, dw, P);
    const double g = weight[n], q = w[i], dq = dw[i];
    const double V = second ? s->second_VR[n][k][i] : s->VR[n][k][i];
    const double M = second ? s->second_M[n][k][i] : s->M[n][k][i];
    const double t = second ? s->second_slope[n][k][i] : s->slope[n][k][i];
    const double y = second ? s->second_sag[n][k][i] : s->sag[n][k][i];
    o->V += g * (V - z * (q + dq * z / 2));
    o->M += g * (M + z * (V - z * (q / 2 + dq * z / 6)));
    o->slope += g * (t - z * f * (M + z * (V / 2 - z * (q / 6 + dq * z / 24))));
    o->deflection +=
        g *
        (y +
         z * (t - z * f * (M / 2 + z * (V / 6 - z * (q / 24 + dq * z / 120)))));
  }
  o->segment = k;
}

/* V, M, slope and deflection at x; V nil past the ends. */
void ns_beam_at(const struct ns_beam *s, double x, bool right, int lane,
                const double weight[3], struct ns_station *o) {
  at_place(s, false, x, right, lane, weight, o);
  const bool end = right && x >= s->x[s->breaks - 1][lane];
  const bool begin = !right && x <= s->x[0][lane];
  o->V = end || begin ? 0 : o->V;
}

/* Those of the second beam at x. */
void ns_second_at(const struct ns_beam *s, double x, bool right, int lane,
                  const double weight[3], struct ns_station *o) {
  at_place(s, true, x, right, lane, weight, o);
  const bool end = right && x >= s->second[1][lane];
  const bool begin = !right && x <= s->second[0][lane];
  o->V = end || begin ? 0 : o->V;
}

/* What a curve is drawn of: a beam or the one beside it; or a part of what
 * both carry, with what is locked in one. */
struct source {
  enum ns_drawn what;
  const struct ns_beam *s;
  const struct ns_table *t;
  bool second;
  const ns_lane *q;             /* the joist's share of each segment, or null */
  const struct ns_beam *locked; /* null: none, or already in */
};

/* Where what was locked in the joist is counted: in it, or in a new member
 * that takes all. */
static bool locked_in(enum ns_share share, enum ns_drawn what) {
  const bool all = share == NS_WORST_OF || share == NS_ALL_NEW;
  return what == NS_DRAW_NEW ? all : share != NS_ALL_NEW;
}

/* What a curve is drawn from: beam, table and capacities. */
static struct source source_of(const struct ns_work *w, enum ns_drawn what) {
  const struct ns_shape *s = w->shape;
  if (what == NS_DRAW_UNCUT)
    return (struct source){what, &w->uncut, &w->table[0], false, NULL, NULL};
  if (what == NS_DRAW_CUT)
    return (struct source){what,  &w->after, &w->table[w->after.unknowns > 0],
                           false, NULL,      NULL};
  const bool slip =
      s->fix.kind == NS_UNDER || s->fix.share == NS_BY_SLIP || w->fixed.gap;
  if (slip)
    return (struct source){what,
                           &w->fixed,
                           what == NS_DRAW_NEW ? &w->beside : &w->host,
                           what == NS_DRAW_NEW,
                           NULL,
                           NULL};
  return (struct source){
      what,  &w->pair, &w->as_one,
      false, w->q,     locked_in(s->fix.share, what) ? &w->locked : NULL};
}

/* The member's part of segment k: the joist's is that beside whole wood all
 * along, as in its checks; the new member's is what the joist does not take. */
static double drawn_part(const struct ns_work *w, const struct source *o,
                         int k) {
  if (o->q == NULL) return 1;
  const bool all =
      w->shape->fix.share == NS_WORST_OF || w->shape->fix.share == NS_ALL_NEW;
  if (o->q[k][0] == 1) return o->what == NS_DRAW_NEW ? 0 : 1;
  if (o->what == NS_DRAW_NEW) return all ? 1 : 1 - o->q[k][0];
  return w->q_whole[0];
}

/* One point of a curve. */
static void station(const struct ns_work *w, const struct source *o, int k,
                    double t, bool right, int segment, struct ns_curve *out) {
  static const double all[3] = {1, 1, 1}, dead[3] = {1, 0, 0};
  const struct ns_beam *s = o->s;
  const int c = w->standard->all;
  const double g_D = w->standard->g_D[c], g_L = w->standard->g_L[c];
  const double h = k < s->breaks - 1 ? s->x[k + 1][0] - s->x[k][0] : 0;
  const double q = drawn_part(w, o, segment);
  struct ns_envelope e;
  struct ns_station D, T, alone = {0};
  ns_lane at;
  ns_fill(at, t);
  out->x = s->x[k][0] + t * h;
  if (o->second) {
    ns_second_envelope(s, k, t > 0 ? at : NULL, right, &e);
    ns_second_at(s, out->x, right, 0, dead, &D);
    ns_second_at(s, out->x, right, 0, all, &T);
  } else {
    ns_beam_envelope(s, k, t > 0 ? at : NULL, right, &e);
    ns_beam_at(s, out->x, right, 0, dead, &D);
    ns_beam_at(s, out->x, right, 0, all, &T);
  }
  if (o->locked) ns_beam_at(o->locked, out->x, right, 0, dead, &alone);
  const double V_D = q * D.V + alone.V, M_D = q * D.M + alone.M;
  out->V_full = g_D * V_D + g_L * q * (T.V - D.V);
  out->M_full = g_D * M_D + g_L * q * (T.M - D.M);
  for (int n = 0; n < 2; n++) {
    out->V[n] = g_D * V_D + g_L * q * e.V[n][0];
    out->M[n] = g_D * M_D + g_L * q * e.M[n][0];
  }
}

/* What a notch over segment k leaves in shear by its own rule, as checked; no
 * limit where there is none. */
static double notch_capacity(const struct ns_work *w, double mid) {
  const struct ns_result *r = w->out;
  double least = 1e300;
  for (int n = r->cut.first; n < r->cut.first + r->cut.count; n++) {
    const struct ns_check *q = &r->check[n];
    if (q->mode != NS_NOTCH_SHEAR || q->on[0] == 0) continue;
    const struct ns_cut_geometry *g = &w->cut[q->cut];
    if (mid > g->g1[0] && mid < g->g2[0]) least = ns_min(least, q->capacity[0]);
  }
  return least;
}

/* Moment at which a strap, its fasteners or the wood above it is used up: what
 * was locked in the wood before, and what the strap still balances. */
static double strap_capacity(const struct ns_work *w) {
  const struct ns_result *r = w->out;
  double least = 1e300, locked = 0;
  for (int n = r->fixed.first; n < r->fixed.first + r->fixed.count; n++) {
    const struct ns_check *k = &r->check[n];
    const bool pressed = k->mode == NS_WOOD_COMPRESSION && k->branch[0] > 5;
    if (k->on[0] == 0 || (k->member != NS_STRAP && !pressed)) continue;
    const double f_b = pressed ? k->rec[NS_R_f_b][0] : 0;
    const double own = k->demand[0] - f_b, room = k->capacity[0] - f_b;
    least = own > 0 ? ns_min(least, ns_max(room, 0) / own) : least;
    if (pressed) locked = f_b * w->section[w->shape->fix.cut].least[0];
  }
  return least * r->fix.T[0] * r->fix.z[0] + locked;
}

/* Capacities of the new member where it is. */
static void new_capacities(const struct ns_work *w, double mid,
                           struct ns_curve *o) {
  const int c = w->standard->all;
  const double b = w->in.fix[NS_F_b][0], d = w->in.fix[NS_F_d][0];
  const double Fy = w->in.fix[NS_F_Fy][0], S = b * d * d / 6;
  const bool in = mid > w->in.fix[NS_F_from][0] && mid < w->in.fix[NS_F_to][0];
  const double F_b = w->new_Fb[c].value[0], F_v = w->new_Fv[c].value[0];
  const double M =
      Fy > 0 ? ns_plate_bending(Fy, S) : ns_bending_strength(F_b, S);
  const double V =
      Fy > 0 ? ns_plate_shear(Fy, b, d) : ns_shear_strength(F_v, b, d);
  o->M_cap[0] = o->M_cap[1] = in ? M : 0;
  o->V_cap = in ? V : 0;
}

/* The bending values on the workspace are those of the state checked last;
 * those of the cut state are kept beside them where a repair came after. */
static void capacities(const struct ns_work *w, const struct source *from,
                       int k, struct ns_curve *o) {
  const struct ns_beam *s = from->s;
  const int c = w->standard->all;
  const double x1 = s->x[k][0], x2 = s->x[k + 1][0], mid = (x1 + x2) / 2;
  const bool fixed = w->shape->fix.kind != NS_NO_FIX;
  const bool cut = from->what != NS_DRAW_UNCUT;
  if (from->what == NS_DRAW_NEW) {
    new_capacities(w, mid, o);
    return;
  }
  double S, A_v;
  capacity(w, cut, x1, x2, &S, &A_v);
  const struct ns_result *r = w->out;
  const double Cr = cut ? 1 : r->uncut.Cr[0] / r->cut.Cr[0];
  const bool own = fixed && from->what != NS_DRAW_FIXED;
  const struct ns_factors *F = own ? w->Fb_cut[c] : w->Fb[c];
  o->M_cap[0] = S * F[0].value[0] * Cr;
  o->M_cap[1] = S * F[1].value[0] * Cr;
  o->V_cap = ns_shear_strength(w->Fv[c].value[0], A_v, 1);
  if (cut) o->V_cap = ns_min(o->V_cap, notch_capacity(w, mid));
  if (from->what == NS_DRAW_FIXED && w->shape->fix.kind == NS_UNDER) {
    const struct ns_cut_geometry *g = &w->cut[w->shape->fix.cut];
    const bool in = mid > g->g1[0] && mid < g->g2[0];
    o->M_cap[0] = in ? strap_capacity(w) : o->M_cap[0];
  }
}

/* Fractions of segment k to show: evenly spaced, 2 in or so apart, and the
 * peaks of M. */
static int fractions(const struct ns_work *w, const struct ns_beam *s,
                     const struct ns_table *t, int k, int per, double *f) {
  const int c = w->standard->all;
  const double h = s->x[k + 1][0] - s->x[k][0];
  const int want = h / 2 > 2 ? (int)(h / 2) : 2;
  const int pieces = want < per ? want : per;
  int n = 0;
  for (int p = 0; p <= pieces; p++) f[n++] = (double)p / pieces;
  for (int sign = 0; sign < 2; sign++)
    if (t->peaks[c][sign][k] && t->has_peak[c][sign][k][0] != 0)
      f[n++] = (t->peak_at[c][sign][k][0] - s->x[k][0]) / h;
  for (int a = 1; a < n; a++) /* insertion sort: a handful of numbers */
    for (int b = a; b > 0 && f[b] < f[b - 1]; b--) {
      const double swap = f[b];
      f[b] = f[b - 1];
      f[b - 1] = swap;
    }
  return n;
}

/* Answers of unknowns, for places between breaks, where a curve's beams were
 * solved without them. */
static void answers_of(struct ns_work *w, const struct source *o) {
  struct ns_beam *all[] = {&w->uncut, &w->after, &w->fixed, &w->pair,
                           &w->locked};
  for (int k = 0; k < 5; k++) {
    const bool drawn = all[k] == o->s || all[k] == o->locked;
    const bool none = all[k]->severed | all[k]->by_spans | all[k]->by_units;
    if (drawn && none) ns_beam_answers(all[k]);
  }
}

/* Points of a curve, several a segment; gives how many. */
int ns_curve_points(struct ns_work *w, enum ns_drawn what, int per_segment,
                    struct ns_curve *out, int room) {
  const struct source o = source_of(w, what);
  answers_of(w, &o);
  ns_forget(w); /* rows of the beams are others then */
  const struct ns_beam *s = o.s;
  const double *ends = w->in.fix[NS_F_from], *to = w->in.fix[NS_F_to];
  double f[64 + 3];
  int n = 0;
  for (int k = 0; k < s->breaks - 1; k++) {
    const double x1 = s->x[k][0], x2 = s->x[k + 1][0];
    if (!(x2 > x1)) continue;
    if (what == NS_DRAW_NEW && !(x1 >= ends[0] && x2 <= to[0])) continue;
    const int count = fractions(w, s, o.t, k, per_segment, f);
    for (int p = 0; p < count && n < room; p++, n++) {
      if (f[p] < 1)
        station(w, &o, k, f[p], true, k, &out[n]);
      else
        station(w, &o, k + 1, 0, false, k, &out[n]);
      capacities(w, &o, k, &out[n]);
    }
  }
  return n;
}

/* EI from break to break; gives how many stretches. */
int ns_stiffness_along(const struct ns_work *w, struct ns_stiffness *out,
                       int room) {
  const struct ns_beam *s = &w->after;
  int n = 0;
  for (int k = 0; k < s->breaks - 1 && n < room; k++) {
    if (!(s->x[k + 1][0] > s->x[k][0])) continue;
    out[n++] = (struct ns_stiffness){s->x[k][0], s->x[k + 1][0], s->EI[k][0],
                                     w->uncut.EI[0][0]};
  }
  return n;
}

/* Largest and least of M and deflection under the cases weighed. */
void ns_beam_extremes(const struct ns_beam *s, int lane, const double weight[3],
                      struct ns_extremes *o) {
  memset(o, 0, sizeof *o);
  for (int k = 0; k < s->breaks - 1; k++) {
    const double a = s->x[k][lane], b = s->x[k + 1][lane];
    if (!(b > a)) continue;
    /* V has at most two zeros in a segment and the slope at most four, so
     * sixteen pieces part them in all but contrived cases. */
    for (int p = 0; p < 16; p++)
      for (int what = 0; what < 2; what++) {
        double lo = a + (b - a) * p / 16, hi = a + (b - a) * (p + 1) / 16;
        struct ns_station l, h, m;
        ns_beam_at(s, lo, true, lane, weight, &l);
        ns_beam_at(s, hi, false, lane, weight, &h);
        const double dl = what ? l.slope : l.V, dh = what ? h.slope : h.V;
        double best[3] = {lo, hi, lo};
        if ((dl > 0) != (dh > 0)) {
          for (int it = 0; it < 80; it++) {
            const double x = (lo + hi) / 2;
            ns_beam_at(s, x, true, lane, weight, &m);
            const double d = what ? m.slope : m.V;
            if ((d > 0) == (dl > 0))
              lo = x;
            else
              hi = x;
          }
          best[2] = (lo + hi) / 2;
        }
        for (int q = 0; q < 3; q++) {
          ns_beam_at(s, best[q], q != 1, lane, weight, &m);
          const double v = what ? m.deflection : m.M;
          double *most = what ? o->sag_most : o->M_most;
          double *least = what ? o->sag_least : o->M_least;
          if (v > most[1]) most[0] = best[q], most[1] = v;
          if (v < least[1]) least[0] = best[q], least[1] = v;
        }
      }
  }
}
