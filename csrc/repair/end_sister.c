/* SPDX-License-Identifier: MIT
 * end_sister.c - influence lines, envelopes and sag of a lost end's sister. */
#include "repair/end_sister.h"

#include <math.h>

/* For a unit load at s, 'on' 1 where it lies on the sister:
 *   R = 1 - s/L;  M_i = R x_i - on (x_i - s)
 *   F_o = M_i/a, the sister down on the joist, a = x_o - x_i
 *   F_i = F_o + R - on, it lifts the joist */
static double line_R(const struct ns_end *g, double s) { return 1 - s / g->L; }

static double line_M_i(const struct ns_end *g, double s, double on) {
  return line_R(g, s) * g->x_i - on * (g->x_i - s);
}

static double line_F_o(const struct ns_end *g, double s, double on) {
  return line_M_i(g, s, on) / (g->x_o - g->x_i);
}

static double line_F_i(const struct ns_end *g, double s, double on) {
  return line_F_o(g, s, on) + line_R(g, s) - on;
}

/* Joist: its own load before x, lifted by F_i from x_i on, pressed by F_o from
 * x_o on. */
static double line_V_host(const struct ns_end *g, double s, double on,
                          double behind, double x) {
  const double own = (1 - on) * behind;
  if (x > g->x_o) return line_R(g, s) - behind;
  return (x > g->x_i ? line_F_i(g, s, on) : 0) - own;
}

static double line_M_host(const struct ns_end *g, double s, double on,
                          double behind, double x) {
  if (x > g->x_o) return line_R(g, s) * x - behind * (x - s);
  const double own = (1 - on) * behind * (x - s);
  return (x > g->x_i ? line_F_i(g, s, on) * (x - g->x_i) : 0) - own;
}

/* Shear d from the face of the far bearing: uniform load nearer is left out, a
 * point load there counts by its distance from the face over d. */
static double line_V_far(const struct ns_end *g, double s, double behind,
                         bool point) {
  if (behind == 1) return s / g->L;
  return point ? s / g->L * fmin(fmax(g->face - s, 0) / g->d, 1) : 0;
}

/* @param behind 1 where the load lies before the section x */
static double line_at(const struct ns_end *g, enum ns_end_force force, double s,
                      double on, double behind, double x, bool point) {
  switch (force) {
  case NS_END_R:
    return line_R(g, s);
  case NS_END_FAR:
    return s / g->L;
  case NS_END_M_I:
    return line_M_i(g, s, on);
  case NS_END_F_O:
    return line_F_o(g, s, on);
  case NS_END_F_I:
    return line_F_i(g, s, on);
  case NS_END_V_SISTER: /* R less the load before x, then -F_o */
    return x > g->x_i ? -line_F_o(g, s, on) : line_R(g, s) - on * behind;
  case NS_END_M_SISTER:
    return x > g->x_i ? line_F_o(g, s, on) * (g->x_o - x)
                      : line_R(g, s) * x - on * behind * (x - s);
  case NS_END_V_HOST:
    return line_V_host(g, s, on, behind, x);
  case NS_END_M_HOST:
    return line_M_host(g, s, on, behind, x);
  default:
    return line_V_far(g, s, behind, point);
  }
}

/* Value of a line just after (side 1) or before (side -1) s. */
static double force_beside(const struct ns_end *g, enum ns_end_force force,
                           double x, double s, double side, bool point) {
  const double at = s + side * 1e-9;
  return line_at(g, force, s, at < g->l ? 1 : 0, at < x ? 1 : 0, x, point);
}

/* Adds a stretch of load w1..w2 under a straight piece v1..v2 of a line, either
 * sign apart: the integral of their product. */
static void add_stretch(double sum[2], double h, double w1, double w2,
                        double v1, double v2) {
  if (v1 * v2 < 0) {
    const double t = v1 / (v1 - v2), w = w1 + (w2 - w1) * t;
    add_stretch(sum, h * t, w1, w, v1, 0);
    add_stretch(sum, h * (1 - t), w, w2, 0, v2);
    return;
  }
  sum[v1 + v2 >= 0 ? 0 : 1] +=
      h / 6 * (w1 * v1 + (w1 + w2) * (v1 + v2) + w2 * v2);
}

static void add_line(double sum[2], const struct ns_end *g,
                     enum ns_end_force force, double x, int k) {
  const double a = g->line[k].a, b = g->line[k].b, w1 = g->line[k].w1;
  const double slope = (g->line[k].w2 - w1) / (b - a);
  double at[4] = {a};
  int n = 1;
  const double low = fmin(g->l, x), high = fmax(g->l, x);
  if (low > a + 1e-12 && low < b - 1e-12) at[n++] = low;
  if (high > a + 1e-12 && high < b - 1e-12) at[n++] = high;
  at[n++] = b;
  for (int i = 1; i < n; i++) {
    const double p = at[i - 1], q = at[i];
    if (q > p)
      add_stretch(sum, q - p, w1 + slope * (p - a), w1 + slope * (q - a),
                  force_beside(g, force, x, p, 1, false),
                  force_beside(g, force, x, q, -1, false));
  }
}

/* A point load on a jump of the line counts on the side that asks for more. */
static void add_point(double sum[2], const struct ns_end *g,
                      enum ns_end_force force, double x, int k) {
  const double v1 = force_beside(g, force, x, g->point[k].at, -1, true);
  const double v2 = force_beside(g, force, x, g->point[k].at, 1, true);
  sum[0] += g->point[k].P * fmax(fmax(v1, v2), 0);
  sum[1] += g->point[k].P * fmin(fmin(v1, v2), 0);
}

/* The combination in which a force asks most, and the force. */
static void worst_of(const struct ns_end *g, double dead, double live,
                     struct ns_end_answer *to) {
  to->V = 0;
  to->CD = to->index = 1;
  for (int c = 0; c < g->combos; c++) {
    const double here = g->combo[c].D * dead + g->combo[c].L * live;
    if (c > 0 && !(here / g->combo[c].CD > to->V / to->CD)) continue;
    to->V = here;
    to->CD = g->combo[c].CD;
    to->index = c + 1;
  }
}

struct ns_end_answer ns_end_at(const struct ns_end *g, enum ns_end_force force,
                               double x, int sign) {
  double sum[2][2] = {{0, 0}, {0, 0}};
  for (int k = 0; k < g->lines; k++)
    add_line(sum[g->line[k].live], g, force, x, k);
  for (int k = 0; k < g->points; k++)
    add_point(sum[g->point[k].live], g, force, x, k);
  struct ns_end_answer q = {.dead = sum[0][0] + sum[0][1],
                            .most = sum[1][0],
                            .least = sum[1][1],
                            .live = sum[1][0] + sum[1][1],
                            .CD = 1,
                            .index = 1,
                            .x = x};
  for (int way = 1; way >= -1; way -= 2) {
    struct ns_end_answer w;
    if (sign == -way) continue;
    worst_of(g, way * q.dead, way == 1 ? q.most : -q.least, &w);
    if (w.V > 0 && (q.V == 0 || w.V / w.CD > q.V / q.CD)) {
      q.V = w.V;
      q.CD = w.CD;
      q.index = w.index;
    }
  }
  return q;
}

/* Room for the places between two that are tried: 65 steps, two beside each
 * end of a load, each group and where the joist begins. */
enum { END_STEPS = 64 };
#define END_PLACES (END_STEPS + 1 + 2 * (3 + 2 * NS_END_LINES + NS_MAX_POINTS))

/* Puts a place among those before it, in order. */
static void insert_place(double *at, int *n, double x) {
  int i = (*n)++;
  for (; i > 0 && at[i - 1] > x; i--) at[i] = at[i - 1];
  at[i] = x;
}

static void insert_edge(double *at, int *n, double a, double b, double x) {
  if (x - 1e-6 >= a && x - 1e-6 <= b) insert_place(at, n, x - 1e-6);
  if (x + 1e-6 >= a && x + 1e-6 <= b) insert_place(at, n, x + 1e-6);
}

/* Where a force may have its peak; how many. */
static int places_between(const struct ns_end *g, double a, double b,
                          double at[END_PLACES]) {
  const double step = (b - a) / END_STEPS;
  int n = 0;
  for (int i = 0; i <= END_STEPS; i++) insert_place(at, &n, a + i * step);
  insert_edge(at, &n, a, b, g->l);
  insert_edge(at, &n, a, b, g->x_i);
  insert_edge(at, &n, a, b, g->x_o);
  for (int k = 0; k < g->lines; k++) {
    insert_edge(at, &n, a, b, g->line[k].a);
    insert_edge(at, &n, a, b, g->line[k].b);
  }
  for (int k = 0; k < g->points; k++) insert_edge(at, &n, a, b, g->point[k].at);
  return n;
}

struct ns_end_answer ns_end_peak(const struct ns_end *g,
                                 enum ns_end_force force, double a, double b,
                                 int sign) {
  double at[END_PLACES];
  const int n = places_between(g, a, b, at);
  struct ns_end_answer best = ns_end_at(g, force, at[0], sign);
  int where = 0;
  for (int i = 1; i < n; i++) {
    const struct ns_end_answer q = ns_end_at(g, force, at[i], sign);
    if (!(q.V / q.CD > best.V / best.CD)) continue;
    best = q;
    where = i;
  }
  double lo = at[where > 0 ? where - 1 : 0];
  double hi = at[where < n - 1 ? where + 1 : n - 1];
  for (int i = 0; i < 40; i++) { /* by the golden section */
    const double p = lo + (hi - lo) * 0.382, q = lo + (hi - lo) * 0.618;
    const struct ns_end_answer one = ns_end_at(g, force, p, sign),
                               two = ns_end_at(g, force, q, sign);
    if (one.V / one.CD > two.V / two.CD)
      hi = q;
    else
      lo = p;
    if (one.V / one.CD > best.V / best.CD) best = one;
    if (two.V / two.CD > best.V / best.CD) best = two;
  }
  return best;
}

/* Simpson's rule over a stretch of even EI. */
enum { END_PANELS = 24, END_STRETCHES = 7 };

struct node {
  double x, D, L, part; /* M of dead and of live load everywhere */
  enum ns_end_force force;
};

static int add_nodes(const struct ns_end *g, struct node *to, int n,
                     enum ns_end_force force, double EI, double a, double b) {
  const double h = (b - a) / END_PANELS;
  if (h <= 0) return n;
  for (int i = 0; i <= END_PANELS; i++) {
    const double x = fmin(fmax(a + i * h, a + 1e-6), b - 1e-6);
    const double weight = i == 0 || i == END_PANELS ? 1 : i % 2 == 1 ? 4 : 2;
    const struct ns_end_answer q = ns_end_at(g, force, x, 0);
    to[n++] = (struct node){.x = x,
                            .D = q.dead,
                            .L = q.live,
                            .part = weight * h / 3 / EI,
                            .force = force};
  }
  return n;
}

/* sum of M m/EI over both members and of F f/K of both groups. */
void ns_end_sag(const struct ns_end *g, struct ns_end_sag *s) {
  struct node node[END_STRETCHES * (END_PANELS + 1)];
  const double half = (g->x_o + g->L) / 2;
  int n = add_nodes(g, node, 0, NS_END_M_SISTER, s->EI_sister, 0, g->l);
  n = add_nodes(g, node, n, NS_END_M_SISTER, s->EI_sister, g->l, g->x_i);
  n = add_nodes(g, node, n, NS_END_M_SISTER, s->EI_sister, g->x_i, g->x_o);
  n = add_nodes(g, node, n, NS_END_M_HOST, s->EI_host, g->l, g->x_i);
  n = add_nodes(g, node, n, NS_END_M_HOST, s->EI_host, g->x_i, g->x_o);
  n = add_nodes(g, node, n, NS_END_M_HOST, s->EI_host, g->x_o, half);
  n = add_nodes(g, node, n, NS_END_M_HOST, s->EI_host, half, g->L);
  const struct ns_end_answer F[2] = {ns_end_at(g, NS_END_F_I, 0, 0),
                                     ns_end_at(g, NS_END_F_O, 0, 0)};
  s->live = s->live_at = s->total = s->total_at = 0;
  for (int i = 1; i <= 31; i++) {
    const double x = g->L * i / 32;
    double D = 0, L = 0;
    for (int k = 0; k < n; k++) {
      const double m = force_beside(g, node[k].force, node[k].x, x, -1, false) *
                       node[k].part;
      D += node[k].D * m;
      L += node[k].L * m;
    }
    for (int k = 0; k < 2; k++) {
      const double f =
          force_beside(g, k == 0 ? NS_END_F_I : NS_END_F_O, 0, x, -1, false) /
          (k == 0 ? s->K_i : s->K_o);
      D += F[k].dead * f;
      L += F[k].live * f;
    }
    D *= s->more;
    L *= s->more;
    if (L > s->live) {
      s->live = L;
      s->live_at = x;
    }
    if (s->creep * D + L > s->total) {
      s->total = s->creep * D + L;
      s->total_at = x;
    }
  }
}
