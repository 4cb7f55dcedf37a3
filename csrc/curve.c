/* SPDX-License-Identifier: MIT
 * curve.c - V, M and capacity along the joist of lane 0, for drawings. */
#include "work.h"

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
void ns_beam_at(const struct ns_beam *s, double x, bool right, int lane,
                const double weight[3], struct ns_station *o) {
  const int i = lane;
  int k = 0;
  while (k + 2 < s->breaks &&
         (right ? s->x[k + 1][i] <= x : s->x[k + 1][i] < x))
    k++;
  const double z = x - s->x[k][i], f = 1 / s->EI[k][i];
  const double half = s->region[k][i] / 2;
  const bool odd = half != (double)(int)half;
  memset(o, 0, sizeof *o);
  for (int n = 0; n < 3; n++) {
    const bool on = n == 0 || odd == (n == 1);
    const double g = weight[n], q = on ? s->w[n > 0][k][i] : 0;
    const double dq = on ? s->dw[n > 0][k][i] : 0;
    const double V = s->VR[n][k][i], M = s->M[n][k][i];
    const double t = s->slope[n][k][i];
    o->V += g * (V - z * (q + dq * z / 2));
    o->M += g * (M + z * (V - z * (q / 2 + dq * z / 6)));
    o->slope += g * (t - z * f * (M + z * (V / 2 - z * (q / 6 + dq * z / 24))));
    o->deflection +=
        g *
        (s->sag[n][k][i] +
         z * (t - z * f * (M / 2 + z * (V / 6 - z * (q / 24 + dq * z / 120)))));
  }
  o->segment = k;
  const bool end = right && x >= s->x[s->breaks - 1][i];
  const bool begin = !right && x <= s->x[0][i];
  o->V = end || begin ? 0 : o->V;
}

static void station(const struct ns_work *w, bool cut, int k, double t,
                    bool right, struct ns_curve *o) {
  static const double all[3] = {1, 1, 1}, dead[3] = {1, 0, 0};
  const struct ns_beam *s = cut ? &w->after : &w->uncut;
  const int c = w->standard->combos - 1;
  const double g_D = w->standard->g_D[c], g_L = w->standard->g_L[c];
  const double h = k < s->breaks - 1 ? s->x[k + 1][0] - s->x[k][0] : 0;
  struct ns_envelope e;
  struct ns_station D, T;
  ns_lane at;
  ns_fill(at, t);
  ns_beam_envelope(s, k, t > 0 ? at : NULL, right, &e);
  o->x = s->x[k][0] + t * h;
  ns_beam_at(s, o->x, right, 0, dead, &D);
  ns_beam_at(s, o->x, right, 0, all, &T);
  o->V_full = g_D * D.V + g_L * (T.V - D.V);
  o->M_full = g_D * D.M + g_L * (T.M - D.M);
  for (int n = 0; n < 2; n++) {
    o->V[n] = g_D * D.V + g_L * e.V[n][0];
    o->M[n] = g_D * D.M + g_L * e.M[n][0];
  }
}

/* What a notch over segment k leaves in shear by its own rule (NDS 3.4.3.2),
 * as checked; no limit where there is none. */
static double notch_capacity(const struct ns_work *w, int k) {
  const struct ns_result *r = w->out;
  const double mid = (w->uncut.x[k][0] + w->uncut.x[k + 1][0]) / 2;
  double least = 1e300;
  for (int n = r->cut.first; n < r->cut.first + r->cut.count; n++) {
    const struct ns_check *q = &r->check[n];
    if (q->mode != NS_NOTCH_SHEAR || q->on[0] == 0) continue;
    const struct ns_cut_geometry *g = &w->cut[q->cut];
    if (mid > g->g1[0] && mid < g->g2[0]) least = ns_min(least, q->capacity[0]);
  }
  return least;
}

static void capacities(const struct ns_work *w, bool cut, int k,
                       struct ns_curve *o) {
  const struct ns_beam *s = &w->uncut;
  const int c = w->standard->combos - 1;
  double S, A_v;
  capacity(w, cut, s->x[k][0], s->x[k + 1][0], &S, &A_v);
  const struct ns_result *r = w->out;
  const double Cr = cut ? 1 : r->uncut.Cr[0] / r->cut.Cr[0];
  o->M_cap[0] = S * w->Fb[c][0].value[0] * Cr;
  o->M_cap[1] = S * w->Fb[c][1].value[0] * Cr;
  o->V_cap = 2.0 / 3 * w->Fv[c].value[0] * A_v;
  if (cut) o->V_cap = ns_min(o->V_cap, notch_capacity(w, k));
}

/* Fractions of segment k to show: evenly spaced, 2 in or so apart, and the
 * peaks of M. */
static int fractions(const struct ns_work *w, const struct ns_beam *s,
                     const struct ns_table *t, int k, int per, double *f) {
  const int c = w->standard->combos - 1;
  const double h = s->x[k + 1][0] - s->x[k][0];
  const int want = h / 2 > 2 ? (int)(h / 2) : 2;
  const int pieces = want < per ? want : per;
  int n = 0;
  for (int p = 0; p <= pieces; p++) f[n++] = (double)p / pieces;
  for (int sign = 0; sign < 2; sign++)
    if (t->has_peak[c][sign][k][0] != 0)
      f[n++] = (t->peak_at[c][sign][k][0] - s->x[k][0]) / h;
  for (int a = 1; a < n; a++) /* insertion sort: a handful of numbers */
    for (int b = a; b > 0 && f[b] < f[b - 1]; b--) {
      const double swap = f[b];
      f[b] = f[b - 1];
      f[b - 1] = swap;
    }
  return n;
}

/* The bending values on the desk are those of the state checked last, the
 * cut one; the uncut joist has them with its own Cr. */
int ns_curve_points(const struct ns_work *w, bool cut, int per_segment,
                    struct ns_curve *out, int room) {
  const struct ns_beam *s = cut ? &w->after : &w->uncut;
  const struct ns_table *t = &w->table[cut && s->unknowns > 0];
  double f[64 + 3];
  int n = 0;
  for (int k = 0; k < s->breaks - 1; k++) {
    if (!(s->x[k + 1][0] > s->x[k][0])) continue;
    const int count = fractions(w, s, t, k, per_segment, f);
    for (int p = 0; p < count && n < room; p++, n++) {
      if (f[p] < 1)
        station(w, cut, k, f[p], true, &out[n]);
      else
        station(w, cut, k + 1, 0, false, &out[n]);
      capacities(w, cut, k, &out[n]);
    }
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
