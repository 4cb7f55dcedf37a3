/* SPDX-License-Identifier: MIT
 * influence.c - influence lines of V and M carried along a beam, place by
 * place.
 *
 * Statics ties the line of one place to that of the next: a load beyond both
 * makes M grow by V times the step, one that is passed takes its weight off V,
 * and V steps by the line of the force that stands at the place, a station's
 * or a support's. So only those lines are worked out from the answers of the
 * unknowns; all others follow with a few sums per segment, however many
 * unknowns there are.
 *
 * A line is a cubic on each segment. It is held by its value and slope at
 * 'nodes', the starts of the segments and, where it may jump, their ends, and
 * by the live load times it over each segment. Live load lies where the line
 * has the wanted sign; a segment with both signs is parted at its zero. */
#include "beam/table.h"

/* Whether a line may jump at break k in any lane, which takes a node of its
 * own. */
NS_INLINE bool parted(const struct ns_beam *s, int k) {
  ns_lane differs;
  ns_own_end(s, k, differs);
  return ns_any(differs);
}

/* Nodes of all segments: their starts, and their ends where a line may jump. */
NS_INLINE void set_nodes(struct ns_influence *o) {
  const struct ns_beam *s = o->s;
  o->nodes = s->breaks;
  o->end[0] = 0;
  for (int k = 1; k < s->breaks; k++) o->end[k] = parted(s, k) ? o->nodes++ : k;
}

/* The line -c . u, laid over all nodes and segments. */
NS_INLINE void lay(const struct ns_influence *o, ns_lane *c,
                   struct ns_influence_line *r) {
  const struct ns_beam *s = o->s;
  const int n = s->unknowns;
  for (int j = 0; j < s->breaks; j++) {
    ns_lane p = {0}, dp = {0}, W = {0};
    for (int u = 0; u < n; u++) {
      const struct ns_answer *a = &s->answer[u];
      LANES(i) {
        p[i] -= c[u][i] * a->u[j][i];
        dp[i] -= c[u][i] * a->du[j][i];
        W[i] -= c[u][i] * a->W[j][i];
      }
    }
    ns_copy(r->at[j], p);
    ns_copy(r->slope[j], dp);
    ns_copy(r->W[j], W);
    if (j == s->breaks - 1 || o->end[j + 1] == j + 1) continue;
    ns_lane m = {0}, dm = {0};
    for (int u = 0; u < n; u++) {
      const struct ns_answer *a = &s->answer[u];
      LANES(i) {
        m[i] += c[u][i] * a->m0[j][i];
        dm[i] += c[u][i] * a->dm[j][i];
      }
    }
    double *at = r->at[o->end[j + 1]], *slope = r->slope[o->end[j + 1]];
    LANES(i) {
      const double h = s->x[j + 1][i] - s->x[j][i], f = 1 / s->EI[j][i];
      at[i] = p[i] + h * (dp[i] + h * f * (m[i] / 2 + h * dm[i] * NS_6TH));
      slope[i] = dp[i] + h * f * (m[i] + h * dm[i] / 2);
    }
  }
  memset(r->W[s->breaks - 1], 0, sizeof(ns_lane));
}

/* Adds a straight line a x + b on segment j, to its nodes and its sum. */
NS_INLINE void lay_straight(const struct ns_influence *o, int j,
                            const double *a, const double *b,
                            struct ns_influence_line *r) {
  const struct ns_beam *s = o->s;
  LANES(i) {
    r->at[j][i] += a[i] * s->x[j][i] + b[i];
    r->slope[j][i] += a[i];
  }
  if (j == s->breaks - 1) return;
  LANES(i) r->W[j][i] += a[i] * s->W[1][j][i] + b[i] * s->W[0][j][i];
  const int e = o->end[j + 1];
  if (e == j + 1) return;
  LANES(i) {
    r->at[e][i] += a[i] * s->x[j + 1][i] + b[i];
    r->slope[e][i] += a[i];
  }
}

/* c = inverse . q. */
NS_INLINE void weigh(const struct ns_beam *s, ns_lane *q, ns_lane *c) {
  for (int j = 0; j < s->unknowns; j++) {
    ns_fill(c[j], 0);
    for (int p = 0; p < s->unknowns; p++)
      LANES(i) c[j][i] += s->answer[j].inverse[p][i] * q[p][i];
  }
}

/* The line of the reaction at support k: of the base system, a hat over both
 * spans beside it, and an overhang's end moment turned into forces. */
NS_INLINE void lay_support(const struct ns_influence *o, int k,
                           struct ns_influence_line *r) {
  const struct ns_beam *s = o->s;
  const int n = s->spans;
  ns_lane q[NS_MAX_UNKNOWNS], c[NS_MAX_UNKNOWNS], ends[2] = {{0}, {0}};
  for (int j = 0; j < s->unknowns; j++) ns_fill(q[j], 0);
  const double *at = s->support[k];
  const double *A = s->support[k > 0 ? k - 1 : 0];
  const double *B = s->support[k < n ? k + 1 : n];
  for (int side = 0; side < 2; side++) {
    if (side ? k == n : k == 0) continue;
    const int far = side ? k + 1 : k - 1;
    LANES(i) {
      const double g = side ? 1 / (B[i] - at[i]) : 1 / (at[i] - A[i]);
      if (far > 0 && far < n) q[far - 1][i] += g;
      if (k > 0 && k < n) q[k - 1][i] -= g;
      ends[0][i] += far == 0 ? g : k == 0 ? -g : 0;
      ends[1][i] += far == n ? g : k == n ? -g : 0;
    }
  }
  for (int l = 0; l < s->stations; l++)
    LANES(i) {
      const double x = s->station[l][i];
      const bool before = (k > 0) & (x > A[i]) & (x <= at[i]);
      const bool after = (k < n) & (x > at[i]) & (x < B[i]);
      const double up = before ? (x - A[i]) / (at[i] - A[i]) : 0;
      const double down = after ? (B[i] - x) / (B[i] - at[i]) : 0;
      q[n - 1 + l][i] = x == at[i] ? 1 : up + down;
    }
  weigh(s, q, c);
  lay(o, c, r);
  for (int j = 0; j < s->breaks; j++) {
    ns_lane a, b;
    LANES(i) {
      const double region = s->region[j][i];
      const bool before = region == k, after = region == k + 1.0;
      const bool left = region<1, right = region> n;
      const double g0 = k > 0 ? 1 / (at[i] - A[i]) : 0;
      const double g1 = k < n ? 1 / (B[i] - at[i]) : 0;
      const double x0 = s->support[0][i], xn = s->support[n][i];
      a[i] = left     ? ends[0][i]
             : right  ? -ends[1][i]
             : before ? g0
             : after  ? -g1
                      : 0;
      b[i] = left     ? -x0 * ends[0][i] + (k == 0 ? 1 : 0)
             : right  ? xn * ends[1][i] + (k == n ? 1 : 0)
             : before ? -A[i] * g0
             : after  ? B[i] * g1
                      : 0;
      const bool on = ns_carries(s, false, j, i);
      a[i] = on ? a[i] : 0;
      b[i] = on ? b[i] : 0;
    }
    lay_straight(o, j, a, b, r);
  }
}

/* The line of the second beam's reaction at its left end. */
NS_INLINE void lay_start(const struct ns_influence *o,
                         struct ns_influence_line *r) {
  const struct ns_beam *s = o->s;
  const double *A = s->second[0], *B = s->second[1];
  ns_lane q[NS_MAX_UNKNOWNS], c[NS_MAX_UNKNOWNS];
  for (int j = 0; j < s->unknowns; j++) ns_fill(q[j], 0);
  for (int l = 0; l < s->stations; l++)
    LANES(i) {
      const double x = s->station[l][i];
      const bool in = (x > A[i]) & (x < B[i]);
      q[s->spans - 1 + l][i] = in ? -(B[i] - x) / (B[i] - A[i]) : 0;
    }
  weigh(s, q, c);
  lay(o, c, r);
  for (int j = 0; j < s->breaks; j++) {
    ns_lane a, b;
    LANES(i) {
      const double L = B[i] - A[i];
      const bool on = ns_carries(s, true, j, i);
      a[i] = on ? -1 / L : 0;
      b[i] = on ? B[i] / L : 0;
    }
    lay_straight(o, j, a, b, r);
  }
}

/* Lines of supports and stations of any beam, laid once for all places. */
NS_CLONES void ns_influence_lay_all(struct ns_influence *o,
                                    const struct ns_beam *s) {
  const int n = s->breaks;
  o->s = s;
  o->by_sums = o->severed = false;
  o->twice = s->stations > 0 || s->hinges > 0;
  set_nodes(o);
  for (int k = 0; k < n; k++) {
    LANES(i) o->h[k][i] = s->x[k + 1 < n ? k + 1 : k][i] - s->x[k][i];
    o->point[k] = ns_any(s->P[1][k]);
  }
  LANES(i) o->length[i] = s->x[n - 1][i] - s->x[0][i];
  for (int k = 0; k <= s->spans; k++) lay_support(o, k, &o->support[k]);
  for (int l = 0; l < s->stations; l++) {
    ns_lane c[NS_MAX_UNKNOWNS];
    for (int j = 0; j < s->unknowns; j++)
      ns_copy(c[j], s->answer[j].inverse[s->spans - 1 + l]);
    lay(o, c, &o->station[l]);
  }
  if (s->stations && s->bears[0]) lay_start(o, &o->start);
}

/* What the envelopes of a beam are made of: sums of two plain spans, or its
 * lines. */
NS_CLONES void ns_influence_lay(struct ns_influence *o,
                                const struct ns_beam *s) {
  if (s->severed) return;  /* laid where it was solved, */
  if (s->by_spans) return; /* or is where it is read */
  if (!ns_two_span_plain(s)) {
    ns_influence_lay_all(o, s);
    return;
  }
  o->s = s;
  o->by_sums = true;
  o->severed = false;
  for (int k = 0; k < s->breaks; k++) o->point[k] = ns_any(s->P[1][k]);
  ns_two_span_lay(&o->two, s, o->point);
}
