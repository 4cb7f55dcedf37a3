/* SPDX-License-Identifier: MIT
 * n_span_solve.c - a row of spans, with overhangs or without, nothing beside
 * it: what beam.c finds of any beam, by sums over each span.
 *
 * Each span is held simply. A unit moment at its left (right) end bends it into
 * uL (uR) and turns its ends by a = integral of mL mL / EI, b = mL mR / EI
 * (b, c = mR mR / EI). Load turns them by its sums times uL and uR (Maxwell),
 * so the moments X over the inner supports obey, a dash for the span after
 * the support,
 *
 *     b X(before) + (c + a') X + b' X(after) = -(load uR + load uL')
 *
 * with the moments of overhangs known (three moments, as in any text on
 * structural analysis). One pass finds a, b and c of all spans, one the shapes
 * and the sums; then slopes at the start of each span are known as its forces
 * are, and one pass a case does the rest. */
#include "beam/table.h"

/* Spans and overhangs that neither statics alone nor two_span.c answers. */
bool ns_n_span_plain(const struct ns_beam *s) {
  return !ns_single_span(s) && !ns_two_span_plain(s) && s->hinges == 0 &&
         s->stations == 0;
}

/* Where the lanes are that cross support j at break k, in region j until then;
 * false if none is. */
NS_INLINE bool spans_cross(const struct ns_beam *s, int k, int j,
                           const double *r, double *restrict now) {
  const double *restrict x = s->x[k], *restrict at = s->support[j];
  const double region = j;
  LANES(i) now[i] = (r[i] == region) & (x[i] >= at[i]) ? 1 : 0;
  return ns_any(now);
}

/* Region of each break with the supports beside it, and which there are. */
NS_INLINE void spans_regions(struct ns_beam *s) {
  struct ns_spans *o = s->sums;
  const double *last = s->x[s->breaks - 1];
  const int n = s->spans;
  ns_lane r, A, B, per, now;
  int low = 0, high = 0;
  ns_fill(r, 0);
  ns_fill(per, 0);
  ns_copy(A, s->x[0]);
  ns_copy(B, s->support[0]);
  for (int q = 0; q < n + 2; q++) o->from[q] = o->to[q] = s->breaks - 1;
  o->from[0] = 0;
  for (int k = 0; k < s->breaks; k++) {
    int top = high;
    o->begins[k] = false;
    for (int j = low; j <= high && j <= n; j++) {
      if (!spans_cross(s, k, j, r, now)) continue;
      const double *restrict at = s->support[j];
      const double *restrict next = j < n ? s->support[j + 1] : last;
      const double region = j + 1, span = j < n ? 1 : 0;
      if (top == j) o->from[++top] = k;
      o->to[j] = k;
      o->begins[k] = true;
      LANES(i) {
        const bool here = now[i] != 0;
        r[i] = here ? region : r[i];
        A[i] = here ? at[i] : A[i];
        B[i] = here ? next[i] : B[i];
        const double L = B[i] - A[i], by = span / (L > 0 ? L : 1);
        per[i] = here ? by : per[i];
      }
    }
    high = top;
    for (; o->begins[k] && low < high; low++) {
      const double region = low;
      LANES(i) now[i] = r[i] == region ? 1 : 0;
      if (ns_any(now)) break;
    }
    o->low[k] = low;
    o->high[k] = high;
    ns_copy(s->region[k], r);
    ns_copy(s->A[k], A);
    ns_copy(s->B[k], B);
    ns_copy(o->per[k], per);
  }
}

/* Sums of the regions that end at break k, or after the last one, in the lanes
 * where they do; those begin again. */
NS_INLINE void spans_close(const struct ns_beam *s, int k, int count,
                           ns_lane *S, ns_lane (*to)[NS_MAX_REGIONS]) {
  const struct ns_spans *o = s->sums;
  const bool all = k == s->breaks;
  if (k == 0) return; /* nothing is summed yet */
  const double *restrict was = s->region[k - 1];
  const double *restrict now = s->region[all ? k - 1 : k];
  ns_lane end;
  for (int q = o->low[k - 1]; q <= o->high[k - 1]; q++) {
    const double region = q, last = all ? 1 : 0;
    LANES(i) {
      const bool over = (now[i] != region) | (last != 0);
      end[i] = (was[i] == region) & over ? 1 : 0;
    }
    if (!ns_any(end)) continue;
    for (int g = 0; g < count; g++) {
      double *restrict kept = to[g][q];
      const double *restrict sum = S[g];
      LANES(i) kept[i] = end[i] != 0 ? sum[i] : kept[i];
    }
  }
  for (int g = 0; g < count; g++) {
    double *restrict sum = S[g];
    LANES(i) sum[i] = now[i] != was[i] ? 0 : sum[i];
  }
}

/* Takes what the region that begins at break k begins with. */
NS_INLINE void spans_begin(const struct ns_beam *s, int k, const ns_lane *with,
                           double *restrict to) {
  static const ns_lane none = {0};
  const struct ns_spans *o = s->sums;
  const double *restrict now = s->region[k];
  const double *restrict was = k > 0 ? s->region[k - 1] : none;
  for (int q = o->low[k]; q <= o->high[k]; q++) {
    const double *restrict start = with[q];
    const double region = q;
    LANES(i) {
      const bool here = (now[i] == region) & (was[i] != region);
      to[i] = here ? start[i] : to[i];
    }
  }
}

/* a, b and c of every span; 1 / EI by row. */
NS_INLINE void spans_flex(struct ns_beam *s) {
  struct ns_spans *o = s->sums;
  ns_lane S[3] = {{0}, {0}, {0}};
  for (int g = 0; g < 3; g++)
    for (int q = 0; q < s->spans + 2; q++) ns_fill(o->flex[g][q], 0);
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict x = s->x[k], *restrict EI = s->EI[k];
    const double *restrict x2 = s->x[k + 1 < s->breaks ? k + 1 : k];
    const double *restrict A = s->A[k], *restrict by = o->per[k];
    double *restrict f = o->f[k];
    if (o->begins[k]) spans_close(s, k, 3, S, o->flex);
    LANES(i) {
      const double h = x2[i] - x[i], c = 1 / EI[i], per = by[i];
      const double r = (x[i] - A[i]) * per, r2 = r + h * per;
      const double l = (per > 0 ? 1 : 0) - r, l2 = l - h * per;
      f[i] = c;
      S[0][i] += h * NS_3RD * c * (l * l + l * l2 + l2 * l2);
      S[1][i] += h * NS_6TH * c * (2 * l * r + l * r2 + l2 * r + 2 * l2 * r2);
      S[2][i] += h * NS_3RD * c * (r * r + r * r2 + r2 * r2);
    }
  }
  spans_close(s, s->breaks, 3, S, o->flex);
}

/* How moments are carried through each span, and what an end rotation makes of
 * both end moments: a span with all that is left and right of it. */
NS_INLINE void spans_carry(struct ns_beam *s) {
  struct ns_spans *o = s->sums;
  const int n = s->spans;
  ns_lane after[NS_MAX_REGIONS];
  ns_fill(o->carry[0][1], 0);
  ns_fill(o->carry[1][n], 0);
  for (int q = 2; q <= n; q++) /* D: the support before, seen with span q */
    LANES(i) {
      const double D = o->flex[0][q][i] + o->flex[2][q - 1][i] -
                       o->flex[1][q - 1][i] * o->carry[0][q - 1][i];
      const bool lost = !(D > 0);
      s->unstable[i] = lost ? 1 : s->unstable[i];
      o->pivot[q][i] = 1 / (lost ? 1 : D);
      o->carry[0][q][i] = o->flex[1][q][i] * o->pivot[q][i];
    }
  for (int q = n - 1; q >= 1; q--)
    LANES(i) {
      const double C = o->flex[2][q][i] + o->flex[0][q + 1][i] -
                       o->flex[1][q + 1][i] * o->carry[1][q + 1][i];
      const bool lost = !(C > 0);
      s->unstable[i] = lost ? 1 : s->unstable[i];
      after[q][i] = 1 / (lost ? 1 : C);
      o->carry[1][q][i] = o->flex[1][q][i] * after[q][i];
    }
  for (int q = 1; q <= n; q++)
    LANES(i) {
      const double both = 1 - o->carry[0][q][i] * o->carry[1][q][i];
      const double per = 1 / (both > 0 ? both : 1);
      o->end[0][q][i] = q > 1 ? o->pivot[q][i] * per : 0;
      o->end[1][q][i] = q < n ? after[q][i] * per : 0;
    }
}

/* Point loads of a kind at break k, in the sums of their region; one over a
 * support bears on it alone. */
NS_INLINE void spans_point(struct ns_beam *s, int kind, int k, ns_lane *S) {
  struct ns_spans *o = s->sums;
  const double *restrict x = s->x[k], *restrict A = s->A[k];
  const double *restrict r = s->region[k], *restrict P = s->P[kind][k];
  const double *restrict l = o->u[0][k], *restrict u = o->u[1][k];
  LANES(i) {
    const double y = x[i] - A[i], load = (r[i] >= 1) & (y <= 0) ? 0 : P[i];
    S[0][i] += load;
    S[1][i] += load * y;
    S[2][i] += load * l[i];
    S[3][i] += load * u[i];
  }
  for (int j = 0; j <= s->spans; j++) {
    const double *restrict at = s->support[j];
    double *restrict on = o->on[kind][j];
    LANES(i) on[i] += x[i] == at[i] ? P[i] : 0;
  }
}

/* Load of segment k of both kinds: itself, times distance, times both u. */
NS_INLINE void spans_segment(const struct ns_beam *s, int k, ns_lane (*S)[4]) {
  const struct ns_spans *o = s->sums;
  const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
  const double *restrict A = s->A[k], *restrict by = o->per[k];
  const double *restrict f = o->f[k];
  const double *restrict u0 = o->u[0][k], *restrict d0 = o->du[0][k];
  const double *restrict u1 = o->u[1][k], *restrict d1 = o->du[1][k];
  for (int kind = 0; kind < 2; kind++) {
    const double *restrict w = s->w[kind][k], *restrict dw = s->dw[kind][k];
    double *restrict S0 = S[kind][0], *restrict S1 = S[kind][1];
    double *restrict SL = S[kind][2], *restrict SR = S[kind][3];
    LANES(i) {
      const double h = x2[i] - x[i], y = x[i] - A[i], per = by[i];
      const double r = y * per, l = (per > 0 ? 1 : 0) - r, c = per * f[i];
      const double W = h * (w[i] + dw[i] * h / 2);
      S0[i] += W;
      S1[i] += y * W + h * h * (w[i] / 2 + dw[i] * h * NS_3RD);
      SL[i] += ns_integral(h, w[i], dw[i], u0[i], d0[i], -l * f[i], c);
      SR[i] += ns_integral(h, w[i], dw[i], u1[i], d1[i], -r * f[i], -c);
    }
  }
}

/* Both shapes over segment k. */
NS_INLINE void spans_bend(const struct ns_beam *s, int k, ns_lane *u,
                          ns_lane *t) {
  const struct ns_spans *o = s->sums;
  const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
  const double *restrict A = s->A[k], *restrict by = o->per[k];
  const double *restrict f = o->f[k];
  LANES(i) {
    const double h = x2[i] - x[i], per = by[i], c = h * f[i];
    const double r = (x[i] - A[i]) * per, l = (per > 0 ? 1 : 0) - r;
    const double g = h * per;
    u[0][i] += h * (t[0][i] - c * (l / 2 - g * NS_6TH));
    t[0][i] -= c * (l - g / 2);
    u[1][i] += h * (t[1][i] - c * (r / 2 + g * NS_6TH));
    t[1][i] -= c * (r + g / 2);
  }
}

/* Sums of live load up to one side of break k. */
NS_INLINE void spans_keep(struct ns_spans *o, int side, int k,
                          const ns_lane *S) {
  for (int g = 0; g < 4; g++) ns_copy(o->S[side][g][k], S[g]);
}

/* Shapes of all spans, and the sums of both kinds of load. */
NS_INLINE void spans_weigh(struct ns_beam *s) {
  struct ns_spans *o = s->sums;
  ns_lane u[2] = {{0}, {0}}, t[2] = {{0}, {0}}, S[2][4];
  memset(S, 0, sizeof S);
  memset(o->T, 0, sizeof o->T);
  memset(o->on, 0, sizeof o->on);
  for (int kind = 0; kind < 2; kind++) o->points[kind] = ns_has_points(s, kind);
  for (int k = 0; k < s->breaks; k++) {
    spans_keep(o, 0, k, (const ns_lane *)S[1]);
    if (o->begins[k]) {
      for (int kind = 0; kind < 2; kind++)
        spans_close(s, k, 4, S[kind], o->T[kind]);
      for (int g = 0; g < 2; g++) {
        static const ns_lane level[NS_MAX_REGIONS] = {{0}};
        spans_begin(s, k, level, u[g]);
        spans_begin(s, k, (const ns_lane *)o->flex[g], t[g]);
      }
    }
    for (int g = 0; g < 2; g++) {
      ns_copy(o->u[g][k], u[g]);
      ns_copy(o->du[g][k], t[g]);
    }
    for (int kind = 0; kind < 2; kind++)
      if (o->points[kind]) spans_point(s, kind, k, S[kind]);
    spans_keep(o, 1, k, (const ns_lane *)S[1]);
    if (k == s->breaks - 1) break;
    spans_segment(s, k, S);
    spans_bend(s, k, u, t);
  }
  for (int kind = 0; kind < 2; kind++)
    spans_close(s, s->breaks, 4, S[kind], o->T[kind]);
}

/* The regions that a case loads, a bit of each: case 0 dead load, 1 and 2 live
 * load on every other region. */
NS_INLINE unsigned spans_loaded(int c) {
  return c == 0 ? ~0U : c == 1 ? 0xAAAAAAAAU : 0x55555555U;
}
_Static_assert(NS_MAX_REGIONS <= 32, "a bit for each region");

/* V, M and slope with which each region begins, in a case. */
struct spans_start {
  ns_lane V[NS_MAX_REGIONS], M[NS_MAX_REGIONS], t[NS_MAX_REGIONS];
};

/* Moments over all supports under one kind of load on the regions 'on', in M of
 * the region after each. */
NS_INLINE void spans_moments(const struct ns_beam *s, int kind, unsigned on,
                             struct spans_start *e) {
  const struct ns_spans *o = s->sums;
  const int n = s->spans;
  ns_lane rhs[NS_MAX_REGIONS];
  ns_fill(e->M[0], 0);
  LANES(i) {
    const double S0 = o->T[kind][0][0][i], S1 = o->T[kind][1][0][i];
    const double arm = s->support[0][i] - s->x[0][i];
    e->M[1][i] = on & 1 ? S1 - arm * S0 : 0;
    e->M[n + 1][i] = on >> (n + 1) & 1 ? -o->T[kind][1][n + 1][i] : 0;
  }
  for (int q = 2; q <= n; q++) { /* the support before span q */
    const double one = on >> (q - 1) & 1 ? 1 : 0, two = on >> q & 1 ? 1 : 0;
    LANES(i) {
      const double known = (q == 2 ? o->flex[1][1][i] * e->M[1][i] : 0) +
                           (q == n ? o->flex[1][n][i] * e->M[n + 1][i] : 0);
      const double before = q > 2 ? o->carry[0][q - 1][i] * rhs[q - 1][i] : 0;
      rhs[q][i] =
          -(one * o->T[kind][3][q - 1][i] + two * o->T[kind][2][q][i] + known) -
          before;
    }
  }
  for (int q = n; q >= 2; q--)
    LANES(i) {
      const double after = q < n ? o->carry[0][q][i] * e->M[q + 1][i] : 0;
      e->M[q][i] = o->pivot[q][i] * rhs[q][i] - after;
    }
}

/* V with which each region begins. */
NS_INLINE void spans_shears(const struct ns_beam *s, int kind, unsigned on,
                            struct spans_start *e) {
  const struct ns_spans *o = s->sums;
  const int n = s->spans;
  ns_fill(e->V[0], 0);
  for (int q = 1; q <= n; q++) {
    const double loaded = on >> q & 1 ? 1 : 0;
    LANES(i) {
      const double L = o->L[q][i], turn = e->M[q + 1][i] - e->M[q][i];
      const double S0 = o->T[kind][0][q][i], S1 = o->T[kind][1][q][i];
      e->V[q][i] = (turn + loaded * (L * S0 - S1)) / L;
    }
  }
  LANES(i) e->V[n + 1][i] = on >> (n + 1) & 1 ? o->T[kind][0][n + 1][i] : 0;
}

/* Slopes there; that of a left overhang is not known yet. */
NS_INLINE void spans_slopes(const struct ns_beam *s, int kind, unsigned on,
                            struct spans_start *e) {
  const struct ns_spans *o = s->sums;
  const int n = s->spans;
  ns_fill(e->t[0], 0);
  for (int q = 1; q <= n; q++) {
    const double loaded = on >> q & 1 ? 1 : 0;
    LANES(i)
      e->t[q][i] = loaded * o->T[kind][2][q][i] +
                   o->flex[0][q][i] * e->M[q][i] +
                   o->flex[1][q][i] * e->M[q + 1][i];
  }
  const double loaded = on >> n & 1 ? 1 : 0;
  LANES(i)
    e->t[n + 1][i] =
        -(loaded * o->T[kind][3][n][i] + o->flex[1][n][i] * e->M[n][i] +
          o->flex[2][n][i] * e->M[n + 1][i]);
}

/* Reactions of a case; what stands on a support counts as in the region after
 * it. */
NS_INLINE void spans_reactions(struct ns_beam *s, int c,
                               const struct spans_start *e) {
  const struct ns_spans *o = s->sums;
  const unsigned on = spans_loaded(c);
  const int kind = c > 0;
  for (int j = 0; j <= s->spans; j++) {
    const double here = on >> (j + 1) & 1 ? 1 : 0, was = on >> j & 1 ? 1 : 0;
    LANES(i)
      s->R[c][j][i] = here * o->on[kind][j][i] + e->V[j + 1][i] +
                      was * o->T[kind][0][j][i] - e->V[j][i];
  }
}

/* 1 in the lanes whose region at break k a case loads. */
NS_INLINE void spans_on(const struct ns_beam *s, int k, unsigned loaded,
                        double *restrict on) {
  const struct ns_spans *o = s->sums;
  ns_lane with[NS_MAX_REGIONS];
  for (int q = o->low[k]; q <= o->high[k]; q++)
    ns_fill(with[q], loaded >> q & 1 ? 1 : 0);
  spans_begin(s, k, (const ns_lane *)with, on);
}

/* Load per length of segment k and at its start in the lanes that are loaded;
 * not what stands on a support. */
NS_INLINE void spans_load(const struct ns_beam *s, int kind, int k,
                          const double *on, double *restrict w,
                          double *restrict dw, double *restrict V) {
  const double *restrict q = s->w[kind][k], *restrict dq = s->dw[kind][k];
  LANES(i) {
    w[i] = on[i] != 0 ? q[i] : 0;
    dw[i] = on[i] != 0 ? dq[i] : 0;
  }
  if (!s->sums->points[kind]) return;
  const double *restrict x = s->x[k], *restrict A = s->A[k];
  const double *restrict r = s->region[k], *restrict P = s->P[kind][k];
  LANES(i) {
    const bool over = (r[i] >= 1) & (x[i] <= A[i]);
    V[i] -= (on[i] != 0) & !over ? P[i] : 0;
  }
}

/* A left overhang was integrated from its tip: it goes on as its support has
 * it, 'y' and 't' what came out there. */
NS_INLINE void spans_turn_back(struct ns_beam *s, int c, const double *y,
                               const double *t, const double *slope) {
  const double *restrict at = s->support[0];
  for (int k = 0; k < s->breaks && s->sums->low[k] == 0; k++) {
    const double *restrict x = s->x[k], *restrict r = s->region[k];
    double *restrict sag = s->sag[c][k], *restrict turn = s->slope[c][k];
    LANES(i) {
      const bool here = r[i] < 1;
      const double g = t[i] - slope[i];
      sag[i] -= here ? y[i] + g * (x[i] - at[i]) : 0;
      turn[i] -= here ? g : 0;
    }
  }
}

/* V, M, slope and deflection of a case along the beam. */
NS_INLINE void spans_forces(struct ns_beam *s, int c,
                            const struct spans_start *e) {
  static const ns_lane level[NS_MAX_REGIONS] = {{0}};
  const struct ns_spans *o = s->sums;
  const int kind = c > 0;
  ns_lane V = {0}, M = {0}, t = {0}, y = {0}, on = {0}, w, dw;
  ns_lane tip_y = {0}, tip_t = {0};
  if (spans_loaded(c) & 1) ns_fill(on, 1);
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict x = s->x[k], *restrict by = o->f[k];
    const double *restrict x2 = s->x[k + 1 < s->breaks ? k + 1 : k];
    double *restrict VR = s->VR[c][k], *restrict Mk = s->M[c][k];
    double *restrict sag = s->sag[c][k], *restrict slope = s->slope[c][k];
    ns_copy(s->VL[c][k], V);
    if (o->begins[k]) {
      const double *restrict r = s->region[k];
      const double *restrict was = s->region[k > 0 ? k - 1 : 0];
      const double first = k == 0 ? 1 : 0;
      LANES(i) {
        const bool past = (was[i] < 1) & (r[i] >= 1) & (first == 0);
        tip_y[i] = past ? y[i] : tip_y[i];
        tip_t[i] = past ? t[i] : tip_t[i];
      }
      spans_begin(s, k, (const ns_lane *)e->V, V);
      spans_begin(s, k, (const ns_lane *)e->M, M);
      spans_begin(s, k, (const ns_lane *)e->t, t);
      spans_begin(s, k, level, y);
      spans_on(s, k, spans_loaded(c), on);
    }
    spans_load(s, kind, k, on, w, dw, V);
    LANES(i) {
      const double h = x2[i] - x[i], b = h * by[i];
      const double v = V[i], m = M[i], q = w[i], dq = dw[i];
      VR[i] = v;
      Mk[i] = m;
      sag[i] = y[i];
      slope[i] = t[i];
      y[i] +=
          h * (t[i] - b * (m / 2 + h * (v * NS_6TH - h * (q * NS_24TH +
                                                          dq * h * NS_120TH))));
      t[i] -= b * (m + h * (v / 2 - h * (q * NS_6TH + dq * h * NS_24TH)));
      M[i] = m + h * (v - h * (q / 2 + dq * h * NS_6TH));
      V[i] = v - h * (q + dq * h / 2);
    }
  }
  if (s->left) spans_turn_back(s, c, tip_y, tip_t, e->t[1]);
}

/* Forces and deflections of all cases. */
NS_CLONES void ns_n_span_solve(struct ns_beam *s) {
  struct ns_spans *o = s->sums;
  const int n = s->spans;
  struct spans_start e;
  s->unknowns = n - 1;
  s->by_spans = true;
  ns_fill(s->unstable, 0);
  spans_regions(s);
  for (int q = 1; q <= n; q++)
    LANES(i) o->L[q][i] = s->support[q][i] - s->support[q - 1][i];
  spans_flex(s);
  spans_carry(s);
  spans_weigh(s);
  for (int c = 0; c < 3; c++) {
    const unsigned on = spans_loaded(c);
    spans_moments(s, c > 0, on, &e);
    spans_shears(s, c > 0, on, &e);
    spans_slopes(s, c > 0, on, &e);
    spans_reactions(s, c, &e);
    spans_forces(s, c, &e);
  }
}

/* V and M right of each break under live load on region q alone. */
NS_INLINE void spans_part(const struct ns_beam *s, int q, ns_lane *Mq,
                          ns_lane *Vq) {
  const struct ns_spans *o = s->sums;
  struct spans_start e;
  ns_lane V = {0}, M = {0}, on = {0}, w, dw;
  const unsigned loaded = 1U << q;
  spans_moments(s, 1, loaded, &e);
  spans_shears(s, 1, loaded, &e);
  if (q == 0) ns_fill(on, 1);
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict x = s->x[k];
    const double *restrict x2 = s->x[k + 1 < s->breaks ? k + 1 : k];
    double *restrict Vk = Vq[k], *restrict Mk = Mq[k];
    if (o->begins[k]) {
      spans_begin(s, k, (const ns_lane *)e.V, V);
      spans_begin(s, k, (const ns_lane *)e.M, M);
      spans_on(s, k, loaded, on);
    }
    spans_load(s, 1, k, on, w, dw, V);
    LANES(i) {
      const double h = x2[i] - x[i], v = V[i], m = M[i];
      Vk[i] = v;
      Mk[i] = m;
      M[i] = m + h * (v - h * (w[i] / 2 + dw[i] * h * NS_6TH));
      V[i] = v - h * (w[i] + dw[i] * h / 2);
    }
  }
}

/* Live load on one region after the other, as ns_beam_parts. */
NS_CLONES void ns_n_span_parts(const struct ns_beam *s, struct ns_parts *o) {
  for (int q = s->left ? 0 : 1; q <= s->spans + s->right; q++) {
    spans_part(s, q, o->own_M[q], o->own_V[q]);
    o->M[q] = (const ns_lane *)o->own_M[q];
    o->V[q] = (const ns_lane *)o->own_V[q];
  }
}
