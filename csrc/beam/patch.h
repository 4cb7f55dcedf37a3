/* SPDX-License-Identifier: MIT
 * patch.h - live load where a line has the wanted sign.
 *
 * A zero inside a segment is solved for, not sampled. What a line brings is
 * stationary in its zero, but not the shear that goes with a moment, so a zero
 * is still solved to the last digits: each step of Halley trebles them.
 *
 * A cubic may cross nil up to three times. Its Bernstein coefficients have at
 * least as many changes of sign as it has zeros: with one change at most, the
 * ends tell all. Else it is parted where it is level, and every part that
 * changes sign has its zero. Beams without stations and hinges need no such
 * look: beside the place the line is a deflected shape of straight M/EI with
 * one inflection at most, and the spans next to it hold its ends, so it has
 * one zero inside a span at most on either side. */
#ifndef NETSECTION_PATCH_H
#define NETSECTION_PATCH_H

#include "beam/table.h"

/* Once a step is as small as this part of a segment, the next would be of the
 * cube of it. */
#define STEP 1e-5

/* A stretch of a segment: the line's value and slope at both ends. */
struct piece {
  const double *at[2], *slope[2];
};

/* A piece of a line as a cubic in parts of its length. */
struct poly {
  ns_lane p, dp, ddp, dddp;
};

/* Length, load and its slope. */
struct stretch_load {
  const double *h, *w, *dw;
};

/* The cubic through a piece's ends with their slopes, by the part t of its
 * length. */
NS_INLINE void poly_of(const struct piece *o, const double *h, struct poly *c) {
  const double *restrict from = o->at[0], *restrict to = o->at[1];
  const double *restrict out = o->slope[0], *restrict in = o->slope[1];
  LANES(i) {
    const double a = from[i], b = to[i] - a;
    const double da = h[i] * out[i], db = h[i] * in[i];
    c->p[i] = a;
    c->dp[i] = da;
    c->ddp[i] = 3 * b - 2 * da - db;
    c->dddp[i] = da + db - 2 * b;
  }
}

/* Value of a cubic at the part t. */
NS_INLINE double poly_value(const struct poly *c, double t, int i) {
  return c->p[i] + t * (c->dp[i] + t * (c->ddp[i] + t * c->dddp[i]));
}

/* Its derivative by t. */
NS_INLINE double poly_rate(const struct poly *c, double t, int i) {
  return c->dp[i] + t * (2 * c->ddp[i] + t * (3 * c->dddp[i]));
}

/* Load times a cubic from its start to the part t of its length. */
NS_INLINE double poly_share(const struct poly *c, const struct stretch_load *q,
                            double t, int i) {
  const double h = q->h[i] * t, g = q->dw[i] * h;
  const double u1 = t * c->dp[i], u2 = t * t * c->ddp[i];
  const double u3 = t * t * t * c->dddp[i], p = c->p[i];
  return h * (q->w[i] * (p + u1 / 2 + u2 * NS_3RD + u3 / 4) +
              g * (p / 2 + u1 * NS_3RD + u2 / 4 + u3 * NS_5TH));
}

/* What the ends of a piece say of its sign, counted over the lanes. */
enum { UP = 1, MIXED = 1 << 8, NIL = 1 << 16 };
/* What signs the lanes' ends have: some up, some mixed, some near nil. */
NS_INLINE int64_t count_signs(const double *a, const double *b, double tol,
                              const double *scale) {
  int64_t n = 0;
  LANES(i) {
    const double least = ns_min(ns_abs(a[i]), ns_abs(b[i]));
    const int64_t up = a[i] > 0 ? (int64_t)UP : (int64_t)0;
    const int64_t sign = a[i] * b[i] < 0 ? (int64_t)MIXED : up;
    n += least <= tol * scale[i] ? (int64_t)NIL : sign;
  }
  return n;
}

/* The inner Bernstein coefficients of a cubic. */
struct inner {
  ns_lane a, b;
};

/* Inner control points of a piece: between them and its ends a cubic stays. */
NS_INLINE void inner_of(const struct piece *o, const double *h,
                        struct inner *n) {
  const double *restrict from = o->at[0], *restrict to = o->at[1];
  const double *restrict out = o->slope[0], *restrict in = o->slope[1];
  LANES(i) {
    n->a[i] = from[i] + h[i] * out[i] * NS_3RD;
    n->b[i] = to[i] - h[i] * in[i] * NS_3RD;
  }
}

/* Adds to a count of signs the pieces that may turn between like ends. */
NS_INLINE int64_t count_turns(const double *a, const double *b,
                              const struct inner *n) {
  int64_t some = 0;
  LANES(i) {
    const bool up = a[i] > 0, in = n->a[i] > 0, out = n->b[i] > 0;
    const bool turns = ((b[i] > 0) == up) & ((in != up) | (out != up));
    some += turns ? (int64_t)MIXED : (int64_t)0;
  }
  return some;
}

/* 1 where a cubic may have more than one zero inside, nil ends left out. */
NS_INLINE void may_turn(const struct piece *o, const struct inner *n,
                        double tol, const double *scale,
                        double *restrict many) {
  const double *restrict from = o->at[0], *restrict to = o->at[1];
  LANES(i) {
    const double a = from[i], b = to[i], e = tol * scale[i];
    /* numbers, since truths of two widths keep a loop from becoming vectors */
    const double in = n->a[i] > 0 ? 1 : 0, out = n->b[i] > 0 ? 1 : 0;
    const double up = a > 0 ? 1 : 0, ends = b > 0 ? 1 : 0;
    const double first = ns_abs(a) > e ? up : in;
    const double last = ns_abs(b) > e ? ends : out;
    const double changes =
        ns_abs(first - in) + ns_abs(in - out) + ns_abs(out - last);
    many[i] = changes > 1 ? 1 : 0;
  }
}

/* Signs of both ends in rows: 1 where the ends differ, 1 where the start is
 * positive, looking inwards where a value is nil. */
NS_INLINE void end_signs(const struct piece *o, const double *h, double tol,
                         const double *scale, double *restrict mixed,
                         double *restrict positive) {
  const double *restrict from = o->at[0], *restrict to = o->at[1];
  const double *restrict out = o->slope[0], *restrict in = o->slope[1];
  LANES(i) {
    const double a = from[i], b = to[i], e = tol * scale[i];
    const double da = out[i] * h[i], db = -in[i] * h[i];
    const double ea = ns_abs(a) > e ? a : da, eb = ns_abs(b) > e ? b : db;
    const double sa = ns_abs(ea), sb = ns_abs(eb);
    const double down = ea < 0 ? 1 : 0, falls = eb < 0 ? 1 : 0;
    const double least = ns_min(sa, sb);
    const double differ = least > e ? ns_abs(down - falls) : 0;
    const double larger = sa > sb ? ea : eb;
    const double first = differ > 0 ? ea : larger;
    mixed[i] = differ;
    positive[i] = first > 0 ? 1 : 0;
  }
}

/* The cubic over t where it is nil at the start, over 1 - t where at the end:
 * then only the zero inside is left. */
NS_INLINE void part_ends(const struct poly *c, double tol, const double *scale,
                         struct poly *o) {
  LANES(i) {
    const double p = c->p[i], q = p + c->dp[i], r = q + c->ddp[i];
    const double e = tol * scale[i];
    const bool a = ns_abs(p) <= e, b = ns_abs(r + c->dddp[i]) <= e;
    o->p[i] = a ? c->dp[i] : p;
    o->dp[i] = a ? c->ddp[i] : b ? q : c->dp[i];
    o->ddp[i] = a ? c->dddp[i] : b ? r : c->ddp[i];
    o->dddp[i] = a | b ? 0 : c->dddp[i];
  }
}

/* The zero of a cubic whose ends differ in sign, as a part of its length:
 * Halley from the chord's, held in a bracket that halves when it strays. Not
 * from one at an end: that may be nil, and the zero that is sought further in.
 */
NS_INLINE void zero_of(const struct poly *c, const double *mixed,
                       const double *positive, double *restrict t) {
  ns_lane lo, hi, wait;
  LANES(i) {
    const double a = c->p[i], b = a + c->dp[i] + c->ddp[i] + c->dddp[i];
    const bool apart = (a < 0) != (b < 0);
    const double chord = a / (apart ? a - b : 1);
    lo[i] = 0;
    hi[i] = 1;
    wait[i] = mixed[i];
    t[i] = apart & (chord > 1e-3) & (chord < 1 - 1e-3) ? chord : 0.5;
  }
  for (int it = 0; it < 60 && ns_any(wait); it++)
    LANES(i) {
      const double f = poly_value(c, t[i], i), g = poly_rate(c, t[i], i);
      const double bend = c->ddp[i] + 3 * t[i] * c->dddp[i];
      const double low = (f > 0 ? 1 : -1) * (positive[i] != 0 ? 1 : -1);
      lo[i] = low > 0 ? t[i] : lo[i];
      hi[i] = low > 0 ? hi[i] : t[i];
      const double under = g * g - f * bend;
      const double next = t[i] - f * g / (under == 0 ? 1 : under);
      const double far = ns_abs(f), fall = ns_abs(g); /* Newton's step */
      const bool done = (under != 0) & (far <= STEP * fall);
      const bool in = (next > lo[i]) & (next < hi[i]);
      const bool ok = (under != 0) & in & (far < fall);
      const double held = ns_min(ns_max(next, lo[i]), hi[i]);
      const double to = done ? held : ok ? next : (lo[i] + hi[i]) / 2;
      t[i] = wait[i] != 0 ? to : t[i];
      wait[i] = done ? 0 : wait[i];
    }
}

/* Zeros of a cubic between the places where it is level: where there is one,
 * the sign it falls from (1: from above nil), and the sign at its end. */
struct zeros {
  ns_lane on[3], down[3], t[3], ends_up;
};

/* Where the slope is nil, in order, held within 0 and 1; 0 where nowhere. */
NS_INLINE void level_places(const struct poly *c, double *restrict t1,
                            double *restrict t2) {
  LANES(i) {
    const double b = c->ddp[i], a = 3 * c->dddp[i];
    const double under = b * b - a * c->dp[i];
    const double r = sqrt(ns_max(under, 0)), q = -(b + (b < 0 ? -r : r));
    const bool real = under > 0;
    const double x = real & (a != 0) ? q / (a != 0 ? a : 1) : 0;
    const double y = real & (q != 0) ? c->dp[i] / (q != 0 ? q : 1) : 0;
    const double xc = ns_min(ns_max(x, 0), 1), yc = ns_min(ns_max(y, 0), 1);
    t1[i] = ns_min(xc, yc);
    t2[i] = ns_max(xc, yc);
  }
}

/* The zero between lo and hi in the lanes marked, falling or rising there:
 * Newton in a bracket that halves when it strays. */
NS_INLINE void zero_between(const struct poly *c, const double *marked,
                            const double *down, const double *from,
                            const double *to, double *restrict t) {
  ns_lane lo, hi, wait;
  LANES(i) {
    lo[i] = from[i];
    hi[i] = to[i];
    wait[i] = marked[i];
    t[i] = (from[i] + to[i]) / 2;
  }
  for (int it = 0; it < 60 && ns_any(wait); it++)
    LANES(i) {
      const double f = poly_value(c, t[i], i), g = poly_rate(c, t[i], i);
      const bool before = (f > 0) == (down[i] != 0);
      lo[i] = before ? t[i] : lo[i];
      hi[i] = before ? hi[i] : t[i];
      const double next = t[i] - f / (g == 0 ? 1 : g);
      const bool ok = (g != 0) & (next > lo[i]) & (next < hi[i]);
      const double step = ok ? next : (lo[i] + hi[i]) / 2;
      const bool done = ns_abs(step - t[i]) <= 1e-15;
      t[i] = wait[i] != 0 ? step : t[i];
      wait[i] = done ? 0 : wait[i];
    }
}

/* All zeros of the marked lanes, between the places where the cubic is
 * level. */
NS_INLINE void every_zero(const struct poly *c, const double *marked,
                          struct zeros *o) {
  ns_lane e[4];
  ns_fill(e[0], 0);
  level_places(c, e[1], e[2]);
  ns_fill(e[3], 1);
  for (int k = 0; k < 3; k++) {
    LANES(i) {
      const bool a = poly_value(c, e[k][i], i) > 0;
      const bool b = poly_value(c, e[k + 1][i], i) > 0;
      o->on[k][i] = (marked[i] != 0) & (a != b) ? 1 : 0;
      o->down[k][i] = a ? 1 : 0;
      o->ends_up[i] = b ? 1 : 0;
    }
    if (ns_any(o->on[k]))
      zero_between(c, o->on[k], o->down[k], e[k], e[k + 1], o->t[k]);
  }
}

/* Load times a cubic where 'z' says it is positive; 'all' is that of the whole
 * piece. Each zero adds or takes what lies before it. */
NS_INLINE void between_zeros(const struct poly *c, const struct zeros *z,
                             const struct stretch_load *q, const double *all,
                             double *restrict sum) {
  LANES(i) sum[i] = z->ends_up[i] != 0 ? all[i] : 0;
  for (int k = 0; k < 3; k++) {
    if (!ns_any(z->on[k])) continue;
    LANES(i) {
      const bool on = z->on[k][i] != 0;
      const double part = poly_share(c, q, on ? z->t[k][i] : 0, i);
      sum[i] += z->down[k][i] != 0 ? part : -part;
    }
  }
}

/* The share W of segment j of a line where it is positive, in the lanes where
 * its sign is settled; as settled_part. */
NS_INLINE void settled_share(const struct piece *o, const double *restrict h,
                             const double *restrict W, int j,
                             double *restrict first, double *restrict last,
                             double *restrict sum) {
  const double *restrict from = o->at[0], *restrict end = o->at[1];
  const double *restrict out = o->slope[0], *restrict in = o->slope[1];
  const double nil = 1e-11;
  LANES(i) {
    const double a = from[i], b = end[i], l = h[i] * NS_3RD;
    const double p = a + l * out[i], q = b - l * in[i];
    const bool up = (a > -nil) & (b > -nil) & (p > 0) & (q > 0);
    const bool down = (a < nil) & (b < nil) & !(p > 0) & !(q > 0);
    const bool open = (W[i] != 0) & !(up | down);
    sum[i] = up ? W[i] : 0;
    first[i] = open & (first[i] > j) ? j : first[i];
    last[i] = open ? j : last[i];
  }
}

/* The load's shares W of a line, where it is positive and where it is not.
 * 'twice': the line may have more than one zero in a segment. */
NS_INLINE void positive_part(const struct piece *o, bool twice,
                             const struct stretch_load *q, const double *W,
                             double *restrict sum) {
  static const ns_lane one = {1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1};
  int64_t n = count_signs(o->at[0], o->at[1], 1e-11, one);
  struct poly c, inner;
  struct inner in;
  ns_lane mixed, positive, t, many = {0};
  if (twice) {
    inner_of(o, q->h, &in);
    n += count_turns(o->at[0], o->at[1], &in);
  }
  if (n == 0 || n == NS_LANES) {
    LANES(i) sum[i] = n == 0 ? 0 : W[i];
    return;
  }
  end_signs(o, q->h, 1e-11, one, mixed, positive);
  LANES(i) sum[i] = (mixed[i] == 0) & (positive[i] != 0) ? W[i] : 0;
  if (n < MIXED) return;
  poly_of(o, q->h, &c);
  if (twice) may_turn(o, &in, 1e-11, one, many);
  if (twice && ns_any(many)) {
    struct zeros z;
    ns_lane part;
    every_zero(&c, many, &z);
    between_zeros(&c, &z, q, W, part);
    LANES(i) {
      sum[i] = many[i] != 0 ? part[i] : sum[i];
      mixed[i] = many[i] != 0 ? 0 : mixed[i];
    }
  }
  if (!ns_any(mixed)) return;
  part_ends(&c, 1e-11, one, &inner);
  zero_of(&inner, mixed, positive, t);
  LANES(i) {
    const double part = poly_share(&c, q, t[i], i);
    const double up = positive[i] != 0 ? part : W[i] - part;
    sum[i] = mixed[i] != 0 ? up : sum[i];
  }
}

/* What a moment line makes between its zeros, in the lanes marked, with the
 * shear line's shares J and how fast they grow as each zero moves with the
 * place. */
NS_INLINE void sagging_between(const struct poly *c, const struct poly *cv,
                               const struct zeros *z, const double *marked,
                               const struct stretch_load *q, const double *all,
                               const double *J, struct ns_sums *o) {
  ns_lane M, V;
  between_zeros(c, z, q, all, M);
  between_zeros(cv, z, q, J, V);
  LANES(i) {
    const double on = marked[i] != 0 ? 1 : 0;
    o->M[0][i] += on * M[i];
    o->M[1][i] += on * (all[i] - M[i]);
    o->Vc[0][i] += on * V[i];
    o->Vc[1][i] += on * (J[i] - V[i]);
  }
  for (int k = 0; k < 3; k++) {
    if (!ns_any(z->on[k])) continue;
    LANES(i) {
      const bool on = z->on[k][i] != 0;
      const double t = on ? z->t[k][i] : 0;
      const double r = ns_abs(poly_rate(c, t, i)), y = poly_value(cv, t, i);
      const double w = (q->w[i] + q->dw[i] * q->h[i] * t) * q->h[i];
      o->bend[i] += on & (r > 0) ? w * y * y / (r > 0 ? r : 1) : 0;
    }
  }
}

/* What the one zero at t brings, in the lanes marked: the line is positive
 * before it where 'positive' says so. */
NS_INLINE void sagging_before(const struct poly *c, const struct poly *cv,
                              const double *mixed, const double *positive,
                              const double *t, const struct stretch_load *q,
                              const double *all, const double *J,
                              struct ns_sums *o) {
  LANES(i) {
    const double on = mixed[i] != 0 ? 1 : 0;
    const double M = poly_share(c, q, t[i], i);
    const double V = poly_share(cv, q, t[i], i);
    const double r = ns_abs(poly_rate(c, t[i], i));
    const double y = poly_value(cv, t[i], i);
    const double w = (q->w[i] + q->dw[i] * q->h[i] * t[i]) * q->h[i];
    const bool up = positive[i] != 0;
    o->M[0][i] += on * (up ? M : all[i] - M);
    o->M[1][i] += on * (up ? all[i] - M : M);
    o->Vc[0][i] += on * (up ? V : J[i] - V);
    o->Vc[1][i] += on * (up ? J[i] - V : V);
    o->bend[i] += r > 0 ? on * w * y * y / (r > 0 ? r : 1) : 0;
  }
}

/* A cubic whose inner coefficients have one sign, and its ends that sign or
 * none, has no zero inside: most segments are settled by that, in one pass over
 * all of them without a look whether any lane differs. Of the rest the first
 * and the last are noted. */
struct unsettled {
  ns_lane first, last;
};

/* None so far. */
NS_INLINE void all_settled(struct unsettled *u) {
  ns_fill(u->first, NS_MAX_BREAKS);
  ns_fill(u->last, -1);
}

/* The first and the last segment that is unsettled in any lane. */
NS_INLINE void unsettled_range(const struct unsettled *u, int *first,
                               int *last) {
  double lo = NS_MAX_BREAKS, hi = -1;
  for (int i = 0; i < NS_LANES; i++) {
    lo = ns_min(lo, u->first[i]);
    hi = ns_max(hi, u->last[i]);
  }
  *first = (int)lo;
  *last = (int)hi;
}

/* Where the sign of a moment line is read: at the distance z past its place
 * and a little inside; values below e are nil. */
struct reading {
  const double *z, *scale;
  double inside;
  ns_lane to, e;
};

/* Reads at z, in lines as long as 'scale'. */
NS_INLINE void read_at(struct reading *r, const double *z, double inside,
                       const double *scale) {
  r->z = z;
  r->scale = scale;
  r->inside = inside;
  LANES(i) {
    r->to[i] = z[i] + inside;
    r->e[i] = 1e-11 * scale[i];
  }
}

/* Segment j of a moment line and of its shear line, whose shares are I and J,
 * in the lanes where its sign is settled. */
NS_INLINE void settled_part(const struct piece *m, const struct piece *v,
                            const double *restrict h, const double *restrict I,
                            const double *restrict J, const struct reading *r,
                            int j, struct unsettled *u, struct ns_sums *o) {
  const double *restrict m0 = m->at[0], *restrict m1 = m->at[1];
  const double *restrict v0 = v->at[0], *restrict v1 = v->at[1];
  const double *restrict s0 = m->slope[0], *restrict s1 = m->slope[1];
  const double *restrict t0 = v->slope[0], *restrict t1 = v->slope[1];
  const double *restrict z = r->z, *restrict to = r->to, *restrict e = r->e;
  double *restrict M0 = o->M[0], *restrict M1 = o->M[1];
  double *restrict V0 = o->Vc[0], *restrict V1 = o->Vc[1];
  double *restrict first = u->first, *restrict last = u->last;
  LANES(i) {
    const double x = to[i], l = h[i] * NS_3RD, nil = e[i];
    const double a = m0[i] + x * v0[i], b = m1[i] + x * v1[i];
    const double p = a + l * (s0[i] + x * t0[i]);
    const double q = b - l * (s1[i] + x * t1[i]);
    const double all = I[i] + z[i] * J[i];
    const bool up = (a > -nil) & (b > -nil) & (p > 0) & (q > 0);
    const bool down = (a < nil) & (b < nil) & !(p > 0) & !(q > 0);
    const bool some = (I[i] != 0) | (J[i] != 0);
    const bool open = some & !(up | down);
    M0[i] += up ? all : 0;
    V0[i] += up ? J[i] : 0;
    M1[i] += down ? all : 0;
    V1[i] += down ? J[i] : 0;
    first[i] = open & (first[i] > j) ? j : first[i];
    last[i] = open ? j : last[i];
  }
}

/* The rest of a segment: the lanes in which that has not settled it, with how
 * fast the shear grows as the zero moves with the place. */
NS_INLINE void unsettled_part(const struct piece *m, const struct piece *v,
                              bool twice, const struct stretch_load *q,
                              const double *I, const double *J,
                              const struct reading *r, struct ns_sums *o) {
  const double *restrict to = r->to, *restrict z = r->z, *restrict e = r->e;
  const double inside = r->inside;
  ns_lane a, b, da, db, all, open, mixed, positive, t, many = {0};
  const struct piece line = {{a, b}, {da, db}};
  struct inner in;
  LANES(i) {
    a[i] = m->at[0][i] + to[i] * v->at[0][i];
    b[i] = m->at[1][i] + to[i] * v->at[1][i];
    da[i] = m->slope[0][i] + to[i] * v->slope[0][i];
    db[i] = m->slope[1][i] + to[i] * v->slope[1][i];
    all[i] = I[i] + z[i] * J[i];
  }
  LANES(i) {
    const double l = q->h[i] * NS_3RD, nil = e[i];
    const double p = a[i] + l * da[i], s = b[i] - l * db[i];
    const bool up = (a[i] > -nil) & (b[i] > -nil) & (p > 0) & (s > 0);
    const bool down = (a[i] < nil) & (b[i] < nil) & !(p > 0) & !(s > 0);
    const bool some = (I[i] != 0) | (J[i] != 0);
    open[i] = some & !(up | down) ? 1 : 0;
    in.a[i] = p;
    in.b[i] = s;
  }
  if (!ns_any(open)) return;
  if (twice) may_turn(&line, &in, 1e-11, r->scale, many);
  end_signs(&line, q->h, 1e-11, r->scale, mixed, positive);
  LANES(i) {
    mixed[i] = (many[i] == 0) & (open[i] != 0) ? mixed[i] : 0;
    many[i] = open[i] != 0 ? many[i] : 0;
    const bool whole = (mixed[i] == 0) & (many[i] == 0) & (open[i] != 0);
    const bool up = whole & (positive[i] != 0);
    const bool down = whole & (positive[i] == 0);
    o->M[0][i] += up ? all[i] : 0;
    o->Vc[0][i] += up ? J[i] : 0;
    o->M[1][i] += down ? all[i] : 0;
    o->Vc[1][i] += down ? J[i] : 0;
  }
  const bool turns = twice && ns_any(many);
  if (!turns && !ns_any(mixed)) return;
  struct poly c, cv, inner;
  struct zeros zeros;
  poly_of(&line, q->h, &c);
  part_ends(&c, 1e-11, r->scale, &inner);
  zero_of(&inner, mixed, positive, t);
  poly_of(v, q->h, &cv);
  if (turns) every_zero(&c, many, &zeros);
  LANES(i) { /* the moment line by itself */
    c.p[i] -= inside * cv.p[i];
    c.dp[i] -= inside * cv.dp[i];
    c.ddp[i] -= inside * cv.ddp[i];
    c.dddp[i] -= inside * cv.dddp[i];
  }
  if (turns) sagging_between(&c, &cv, &zeros, many, q, all, J, o);
  sagging_before(&c, &cv, mixed, positive, t, q, all, J, o);
}

/* One segment by itself: the positive part of a moment line, with the shear
 * line's shares and how fast they grow as the zero moves with the place. */
NS_INLINE void sagging_part(const struct piece *m, const struct piece *v,
                            bool twice, const struct stretch_load *q,
                            const double *I, const double *J,
                            const struct reading *r, struct ns_sums *o) {
  struct unsettled u;
  all_settled(&u);
  settled_part(m, v, q->h, I, J, r, 0, &u, o);
  unsettled_part(m, v, twice, q, I, J, r, o);
}

/* A segment parted by a place at the part t of it: before, then after. 'on': 1
 * where its load stands on the beam that the lines are of. */
NS_INLINE void sagging_parted(const struct piece *M, const struct piece *V,
                              bool twice, const struct stretch_load *all,
                              const double *on, const double *scale,
                              const double *t, struct ns_sums *sum) {
  static const ns_lane none = {0};
  struct reading r;
  struct poly cv, cm;
  ns_lane v[4], m[4], dv[4], dm[4], h[2], w[2], I[2], J[2];
  const double *restrict V0 = V->at[0], *restrict V1 = V->at[1];
  const double *restrict M0 = M->at[0], *restrict M1 = M->at[1];
  const double *restrict dV0 = V->slope[0], *restrict dV1 = V->slope[1];
  const double *restrict dM0 = M->slope[0], *restrict dM1 = M->slope[1];
  const double *restrict H = all->h, *restrict q = all->w,
                         *restrict g = all->dw;
  read_at(&r, none, NS_INSIDE, scale);
  poly_of(V, all->h, &cv);
  poly_of(M, all->h, &cm);
  LANES(i) {
    const double whole = H[i], z = t[i] * whole;
    h[0][i] = z;
    h[1][i] = whole - z;
    w[0][i] = q[i];
    w[1][i] = q[i] + g[i] * z;
  }
  LANES(i) {
    const double whole = H[i], f = whole > 0 ? 1 / whole : 0;
    const double at = poly_value(&cv, t[i], i);
    v[0][i] = V0[i] - on[i];
    v[1][i] = at - on[i];
    v[2][i] = at;
    v[3][i] = V1[i];
    dv[0][i] = dV0[i];
    dv[1][i] = dv[2][i] = poly_rate(&cv, t[i], i) * f;
    dv[3][i] = dV1[i];
  }
  LANES(i) {
    const double whole = H[i], f = whole > 0 ? 1 / whole : 0;
    const double z = h[0][i], at = poly_value(&cm, t[i], i) + z * v[2][i];
    const double rate = poly_rate(&cm, t[i], i) * f + z * dv[2][i];
    m[0][i] = M0[i] + z * v[0][i];
    m[1][i] = m[2][i] = at;
    m[3][i] = M1[i] + z * v[3][i];
    dm[0][i] = dM0[i] + on[i] + z * dv[0][i];
    dm[1][i] = rate + on[i];
    dm[2][i] = rate;
    dm[3][i] = dM1[i] + z * dv[3][i];
  }
  for (int p = 0; p < 2; p++) {
    const int a = 2 * p, b = a + 1;
    const struct piece pv = {{v[a], v[b]}, {dv[a], dv[b]}};
    const struct piece pm = {{m[a], m[b]}, {dm[a], dm[b]}};
    const struct stretch_load part = {h[p], w[p], all->dw};
    poly_of(&pv, h[p], &cv);
    poly_of(&pm, h[p], &cm);
    LANES(i) {
      J[p][i] = poly_share(&cv, &part, 1, i);
      I[p][i] = poly_share(&cm, &part, 1, i);
    }
    sagging_part(&pm, &pv, twice, &part, I[p], J[p], &r, sum);
  }
  LANES(i) {
    const double own = m[1][i] + NS_INSIDE * v[1][i] > 0 ? w[1][i] : 0;
    sum->bend[i] -= on[i] != 0 ? own : 0;
  }
}

/* Point load at break j of lines whose value there is v and m. */
NS_INLINE void add_load_at(const double *P, const double *v, const double *m,
                           double inside, struct ns_sums *o) {
  LANES(i) {
    const double V = P[i] * v[i], M = P[i] * m[i];
    const double up = v[i] > 0 ? 1 : 0, sags = m[i] + inside * v[i] > 0 ? 1 : 0;
    o->V[0][i] += up * V;
    o->V[1][i] += (1 - up) * V;
    o->M[0][i] += sags * M;
    o->M[1][i] += (1 - sags) * M;
    o->Vc[0][i] += sags * V;
    o->Vc[1][i] += (1 - sags) * V;
  }
}

#endif
