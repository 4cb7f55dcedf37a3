/* SPDX-License-Identifier: MIT
 * hogging.c - the free bottom edge where M < 0, live load by live load.
 *
 * CL rests on the length over which the bottom is compressed, and that length
 * rests on the loads: the moment of one placing of live load goes with the
 * free length of the same placing, or more load could give a lower ratio. So
 * every pattern is looked at: live load on each span and each overhang, there
 * or not, with all of the dead load. Its M at a place is a sum of those of
 * its parts.
 *
 * A stretch with M < 0 is cut at supports and blocking; a piece is free from
 * end to end. M is concave between supports, since all loads act downward,
 * so within a piece the most of |M| is at one of its ends. A piece that ends
 * where M turns is held there by the deck (or, by the switch, only at the next
 * support or blocking); the outer one of an overhang is free at the tip.
 *
 * Live load on a part of a span is not enumerated: it can make the free length
 * longer, but where that tells, an unloaded span hogs from end to end and M
 * falls to nothing along it, while CL is that of an even moment. */
#include "check/check.h"

#define MAX_REGIONS (NS_MAX_SPANS + 2)
#define MAX_PIECES (2 * MAX_REGIONS * (NS_MAX_BLOCKING + 1))

/* M that is no rounding. */
#define SOME 1e-6

/* A beam in one lane: its segments that have a length, each with its break. By
 * region, 0 the left overhang, then the spans, then the right overhang: the
 * first of its segments and the one after its last. M and V are read where they
 * are asked for; few places are. */
struct lane {
  const struct ns_beam *s;
  const struct ns_parts *parts;
  ns_lane *q; /* the joist's part of the live load's forces, or null */
  int i, segments, spans, blocks;
  bool there[MAX_REGIONS], holds; /* the deck holds the edge where M turns */
  bool tip[2][MAX_REGIONS];       /* a point load on it: dead, live */
  double x[NS_MAX_BREAKS];
  int at[NS_MAX_BREAKS], from[MAX_REGIONS], to[MAX_REGIONS];
  double support[NS_MAX_SUPPORTS], ends[2];
  double block[NS_MAX_BLOCKING]; /* in order */
};

/* One pattern, and the free pieces it makes. */
struct piece {
  double x[2], M[2], l_u, l_e; /* M is that of hogging, 0 or more */
};
struct pattern {
  unsigned on;
  double g_D, g_L;
  int pieces;
  struct piece piece[MAX_PIECES];
};

static void read_blocking(const struct ns_work *w, int i, struct lane *o) {
  o->blocks = w->shape->blocking;
  for (int b = 0; b < o->blocks; b++) {
    const double at = w->in.joist[NS_J_blocking + b][i];
    int k = b;
    for (; k > 0 && o->block[k - 1] > at; k--) o->block[k] = o->block[k - 1];
    o->block[k] = at;
  }
}

/* Point loads, and which regions there are. */
static void read_regions(const struct ns_beam *s, int i, struct lane *o) {
  o->spans = s->spans;
  for (int r = 0; r < s->spans + 2; r++) {
    o->there[r] = r == 0 ? s->left : r > s->spans ? s->right : true;
    o->tip[0][r] = o->tip[1][r] = false;
  }
  if (!s->left && !s->right) return;
  for (int c = 0; c < 2; c++)
    for (int k = 0; k < s->breaks; k++) {
      const double x = s->x[k][i];
      if (s->P[c][k][i] == 0) continue;
      o->tip[c][0] |= x < s->support[0][i];
      o->tip[c][s->spans + 1] |= x > s->support[s->spans][i];
    }
}

static void read_lane(const struct ns_work *w, const struct ns_beam *s,
                      ns_lane *q, int i, struct lane *o) {
  int n = 0, last = -1;
  o->s = s;
  o->parts = &w->parts;
  o->q = q;
  o->i = i;
  read_regions(s, i, o);
  read_blocking(w, i, o);
  o->holds = w->in.joist[NS_J_inflection][i] != 0;
  for (int j = 0; j <= s->spans; j++) o->support[j] = s->support[j][i];
  o->ends[0] = s->x[0][i];
  o->ends[1] = s->x[s->breaks - 1][i];
  for (int r = 0; r < s->spans + 2; r++) o->from[r] = o->to[r] = 0;
  for (int k = 0; k < s->breaks - 1; k++) {
    if (!(s->x[k + 1][i] > s->x[k][i])) continue;
    const int r = (int)s->region[k][i];
    if (r != last) o->from[r] = n;
    last = r;
    o->to[r] = n + 1;
    o->x[n] = s->x[k][i];
    o->at[n++] = k;
  }
  o->segments = n;
}

/* A segment from the end that is nearer the support. */
struct way {
  double M, V, w, dw, h;
};

/* Segment n from its left end under a pattern: M, slope and load. */
static struct way segment_of(const struct lane *o, const struct pattern *p,
                             int n) {
  const struct ns_beam *s = o->s;
  const int k = o->at[n], i = o->i;
  const double on = ns_carries(s, false, k, i) ? 1 : 0;
  const double part = o->q ? o->q[k][i] : 1;
  const double live = p->on >> (int)s->region[k][i] & 1 ? p->g_L : 0;
  struct way v = {p->g_D * s->M[0][k][i], p->g_D * s->VR[0][k][i],
                  p->g_D * (on * s->w[0][k][i]) + live * (on * s->w[1][k][i]),
                  p->g_D * (on * s->dw[0][k][i]) + live * (on * s->dw[1][k][i]),
                  s->x[k + 1][i] - s->x[k][i]};
  for (int r = 0; r < o->spans + 2; r++) {
    if (!(p->on >> r & 1)) continue;
    v.M += p->g_L * (part * o->parts->M[r][k][i]);
    v.V += p->g_L * (part * o->parts->V[r][k][i]);
  }
  return v;
}

static struct way way_of(const struct lane *o, const struct pattern *p, int n,
                         bool right) {
  const struct way v = segment_of(o, p, n);
  const double h = v.h, M = v.M, V = v.V, w = v.w, dw = v.dw;
  if (right) return v;
  return (struct way){M + h * (V - h * (w / 2 + dw * h / 6)),
                      -(V - h * (w + dw * h / 2)), w + dw * h, -dw, h};
}

static double moment_of(const struct way *s, double z) {
  return s->M + z * (s->V - z * (s->w / 2 + s->dw * z / 6));
}

/* Where M, below nil at the start, comes up to nil; past h where it does not.
 * From the even load's root, by Newton in a bracket. */
static double turn_of(const struct way *s) {
  double hi = s->h;
  if (s->w > 0 && s->V > 0 && s->V < s->w * s->h) hi = s->V / s->w; /* crest */
  if (moment_of(s, s->h) >= -SOME)
    hi = s->h;
  else if (moment_of(s, hi) <= SOME)
    return 2 * s->h;
  const double under = s->V * s->V + 2 * s->w * s->M;
  const double root = s->V + (under > 0 ? sqrt(under) : 0);
  double lo = 0, z = root > 0 ? -2 * s->M / root : hi;
  z = z < hi ? z : hi;
  for (int it = 0; it < 60; it++) {
    const double f = moment_of(s, z);
    const double g = s->V - z * (s->w + s->dw * z / 2);
    if (f < 0)
      lo = z;
    else
      hi = z;
    double next = g != 0 ? z - f / g : lo;
    if (!(next >= lo && next <= hi)) next = (lo + hi) / 2;
    const bool still = ns_abs(next - z) <= 1e-13 * s->h;
    z = next;
    if (still) break;
  }
  return z;
}

/* The segment that x is in, by halving. */
static int segment_at(const struct lane *o, double x) {
  int k = 0, past = o->segments;
  while (past - k > 1) {
    const int mid = (k + past) / 2;
    if (o->x[mid] <= x)
      k = mid;
    else
      past = mid;
  }
  return k;
}

static double moment_at(const struct lane *o, const struct pattern *p,
                        double x) {
  const int k = segment_at(o, x);
  const struct way s = way_of(o, p, k, true);
  return moment_of(&s, x - o->x[k]);
}

/* Cuts the stretch from a support at 'from' to where it ends into pieces.
 * 'far': the end of the region; 'open': the region ends in the air there. */
static void add_pieces(const struct lane *o, struct pattern *p, double from,
                       double to, double far, bool open, bool tip, double d) {
  const double way = far > from ? 1 : -1;
  const bool turns = way * (far - to) > 1e-9;
  double at = from, M = -moment_at(o, p, from);
  for (int n = 0; n <= o->blocks && p->pieces < MAX_PIECES; n++) {
    double next = to, held = !turns || o->holds ? to : far;
    for (int b = 0; b < o->blocks; b++) {
      const double x = o->block[way > 0 ? b : o->blocks - 1 - b];
      if (way * (x - at) <= 1e-9) continue;
      if (way * (held - x) > 0) held = x;
      if (way * (next - x) > 0) next = x;
      break;
    }
    const bool last = next == to;
    const double end = last && (turns || open) ? 0 : -moment_at(o, p, next);
    const double u = ns_abs(held - at);
    const bool free_end = open && held == far;
    const enum ns_le_case load = !free_end ? NS_LE_ANY
                                 : tip     ? NS_LE_CANTILEVER_TIP
                                           : NS_LE_CANTILEVER;
    p->piece[p->pieces++] = (struct piece){{at, next},
                                           {ns_max(M, 0), ns_max(end, 0)},
                                           u,
                                           ns_effective_length(load, u, d)};
    if (last) return;
    at = next;
    M = end;
  }
}

/* The stretch that hogs beside support j; true where it is the whole region. */
static bool add_stretch(const struct lane *o, struct pattern *p, int j,
                        bool right, bool tip, double d) {
  const int r = right ? j + 1 : j, from_k = o->from[r], to_k = o->to[r];
  const bool open = r == 0 || r > o->spans;
  const double from = o->support[j];
  const double far = r == 0         ? o->ends[0]
                     : r > o->spans ? o->ends[1]
                     : right        ? o->support[j + 1]
                                    : o->support[j - 1];
  double to = from;
  bool hogs = false, turned = false;
  for (int c = from_k; c < to_k && !turned; c++) {
    const int k = right ? c : to_k - 1 - (c - from_k);
    const struct way s = way_of(o, p, k, right);
    if (!hogs && !(s.M < -SOME)) return false;
    hogs = true;
    const double z = open ? 2 * s.h : turn_of(&s);
    turned = z <= s.h;
    const double near = right ? o->x[k] : o->x[k] + s.h;
    to = near + (right ? 1 : -1) * (turned ? z : s.h);
  }
  if (!hogs) return false;
  if (!turned) to = far;
  add_pieces(o, p, from, to, far, open, tip, d);
  return !turned;
}

static void find_pieces(const struct lane *o, struct pattern *p, double d) {
  bool whole[MAX_REGIONS] = {false};
  for (int right = 1; right >= 0; right--)
    for (int j = 0; j <= o->spans; j++) {
      const int r = right ? j + 1 : j;
      const bool live = p->on >> r & 1;
      if (!o->there[r] || whole[r]) continue;
      const bool tip = o->tip[0][r] || (live && o->tip[1][r]);
      whole[r] = add_stretch(o, p, j, right, tip, d);
    }
}

/* What a lane's CL rests on besides l_e, and its least. */
struct bending {
  double star, F, E, b, d, least;
};

static double CL_of(const struct bending *v, double l_e) {
  return l_e > 0 ? ns_lateral_factor(v->star, v->F, v->E, l_e, v->b, v->d) : 1;
}

/* Keeps the placing with the most of M / CL; one that could not have more is
 * passed over. */
static void offer(const struct bending *v, const struct pattern *p, double M,
                  double at, const struct piece *q, int c, int i,
                  struct ns_hog *o) {
  const double best = o->M[c][i] / o->CL[c][i];
  if (!(M > SOME && M > best * v->least)) return;
  const double CL = CL_of(v, q->l_e);
  if (!(M / CL > best * (1 + 1e-12))) return;
  o->M[c][i] = M;
  o->at[c][i] = at;
  o->CL[c][i] = CL;
  o->l_u[c][i] = q->l_u;
  o->l_e[c][i] = q->l_e;
  o->pattern[c][i] = p->on;
}

/* A place within a cut belongs to every piece that it touches. */
static void offer_place(const struct lane *o, const struct bending *v,
                        const struct pattern *p, double x, int c, int i,
                        struct ns_hog *to) {
  double M = -1;
  bool known = false;
  for (int n = 0; n < p->pieces; n++) {
    const struct piece *q = &p->piece[n];
    const double a = ns_min(q->x[0], q->x[1]), b = ns_max(q->x[0], q->x[1]);
    if (!(x >= a - 1e-9 && x <= b + 1e-9)) continue;
    if (!known) M = -moment_at(o, p, x);
    known = true;
    if (M > SOME) offer(v, p, M, x, q, c, i, to);
  }
}

static void offer_cut(const struct ns_work *w, const struct lane *o,
                      const struct bending *v, const struct pattern *p, int cut,
                      int c, int i, struct ns_hog *to) {
  const double a = w->demand[cut].a[i], b = w->demand[cut].b[i];
  offer_place(o, v, p, a, c, i, to);
  if (b > a) offer_place(o, v, p, b, c, i, to);
  for (int j = 0; j <= o->spans; j++)
    if (o->support[j] > a && o->support[j] < b)
      offer_place(o, v, p, o->support[j], c, i, to);
  for (int n = 0; n < o->blocks; n++)
    if (o->block[n] > a && o->block[n] < b)
      offer_place(o, v, p, o->block[n], c, i, to);
}

/* The most that any piece can be: CL there is the least. */
static double least_CL(const struct lane *o, const struct bending *v) {
  double l_e = 0;
  for (int r = 0; r < o->spans + 2; r++) {
    if (!o->there[r]) continue;
    const double a = r == 0 ? o->ends[0] : o->support[r - 1];
    const double b = r > o->spans ? o->ends[1] : o->support[r];
    l_e = ns_max(l_e, ns_effective_length(NS_LE_ANY, b - a, v->d));
  }
  return CL_of(v, l_e);
}

NS_CLONES void ns_no_hogging(struct ns_hog *o, int combos) {
  for (int c = 0; c < combos; c++) {
    ns_fill(o->M[c], 0);
    ns_fill(o->at[c], 0);
    ns_fill(o->CL[c], 1);
    ns_fill(o->l_u[c], 0);
    ns_fill(o->l_e[c], 0);
    ns_fill(o->pattern[c], 0);
  }
}

/* All patterns of one lane in one combination, all loads on first: of equals
 * that is the one kept. */
static void work_lane(struct ns_work *w, const struct lane *o, int cuts,
                      const struct bending *v, int c, int i) {
  const struct ns_standard *std = w->standard;
  const int regions = o->spans + 2;
  const unsigned all = std->g_L[c] != 0 ? (1u << regions) - 1 : 0;
  struct pattern p = {.g_D = std->g_D[c], .g_L = std->g_L[c]};
  for (unsigned on = all + 1; on-- > 0;) {
    if (!o->there[0] && on & 1) continue;
    if (!o->there[regions - 1] && on >> (regions - 1) & 1) continue;
    p.on = on;
    p.pieces = 0;
    find_pieces(o, &p, v->d);
    for (int n = 0; n < p.pieces; n++)
      for (int e = 0; e < 2; e++)
        offer(v, &p, p.piece[n].M[e], p.piece[n].x[e], &p.piece[n], c, i,
              &w->hog);
    for (int k = 0; k < cuts; k++)
      offer_cut(w, o, v, &p, k, c, i, &w->hog_cut[k]);
  }
}

void ns_find_hogging(struct ns_work *w, const struct ns_beam *s, ns_lane *q,
                     bool cut) {
  const int cuts = cut ? w->shape->cuts : 0, combos = w->standard->combos;
  struct lane o;
  ns_no_hogging(&w->hog, combos);
  for (int k = 0; k < cuts; k++) ns_no_hogging(&w->hog_cut[k], combos);
  if (s->spans == 1 && !s->left && !s->right) return;
  for (int i = 0; i < NS_LANES; i++) {
    if (w->out->status[i] != NS_OK) continue;
    read_lane(w, s, q, i, &o);
    for (int c = 0; c < combos; c++) {
      struct bending v = {w->star[c][i],    w->in.joist[NS_J_Fb][i],
                          w->Emin.value[i], w->width[i],
                          w->depth[i],      0};
      v.least = least_CL(&o, &v);
      work_lane(w, &o, cuts, &v, c, i);
    }
  }
}
