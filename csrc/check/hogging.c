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
 * falls to nothing along it, while CL is that of an even moment.
 *
 * All lanes go through a pattern together: a break may be in one span in one
 * lane and in the next in another, so each row is looked at with a mask. */
#include "check/check.h"

#define MAX_REGIONS (NS_MAX_SPANS + 2)
_Static_assert(MAX_REGIONS <= 32, "a bit of 'on' for each region");
#define MAX_PIECES (2 * NS_MAX_SUPPORTS * (NS_MAX_BLOCKING + 1))

/* M that is no rounding. */
#define SOME 1e-6

/* Two spans under even loads: M is one parabola from support to support. */
struct parabolas {
  _Alignas(NS_CACHE_LINE) ns_lane x[3];
  ns_lane region[3], w[2][2], dw[2];
  ns_lane M[3][2], V[3][2]; /* dead, live on the first and second span */
};

/* A beam by region, 0 the left overhang, then the spans, then the right
 * overhang: the first and the last break that begins a segment of it in any
 * lane, and the last one that begins the region. Segments are those of the
 * beam, or the spans where loads are even. */
struct regions {
  const struct ns_beam *s;
  const ns_lane *x, *region, *M, *V; /* M and V of dead load */
  const ns_lane *w[2], *dw[2];
  const ns_lane *part_M[MAX_REGIONS], *part_V[MAX_REGIONS];
  ns_lane *q; /* the joist's part of the live load's forces, or null */
  int spans, blocks, breaks;
  int first[MAX_REGIONS], last[MAX_REGIONS], begins[MAX_REGIONS];
  bool there[MAX_REGIONS];
  _Alignas(NS_CACHE_LINE) ns_lane counts; /* 1: the lane has numbers */
  ns_lane holds;               /* the deck holds the edge where M turns */
  ns_lane tip[2][MAX_REGIONS]; /* a point load on it: dead, live */
  ns_lane h[NS_MAX_BREAKS];    /* length of each segment */
  ns_lane ends[2], block[NS_MAX_BLOCKING]; /* in order */
};

/* The segments that hold a place, in any lane: from 'lo' to 'hi'. */
struct stretch_of {
  bool known;
  int lo, hi;
};

/* Where M is read over the cuts: 'inside' if any lane has the place in the
 * cut; its ends, the supports, the blocking. */
#define MAX_SPOTS (2 + NS_MAX_SUPPORTS + NS_MAX_BLOCKING)
struct spots {
  bool inside[NS_MAX_CUTS][MAX_SPOTS];
  struct stretch_of in[NS_MAX_CUTS][MAX_SPOTS];
};

/* A free piece: from x[0] at the support's side to x[1], M that of hogging, 0
 * or more. */
struct free_edge {
  _Alignas(NS_CACHE_LINE) ns_lane on;
  ns_lane x[2], M[2], l_u, l_e, CL;
  bool known; /* CL is */
};

/* One pattern: M, slope and load of each segment from its left end, M at its
 * right one, each worked out when it is first asked for ('blended'); the free
 * pieces it makes. 'whole': the region hogs from end to end. */
struct pattern {
  unsigned on;
  double g_D, g_L;
  int pieces;
  bool blended[NS_MAX_BREAKS];
  _Alignas(NS_CACHE_LINE) ns_lane M[NS_MAX_BREAKS];
  ns_lane V[NS_MAX_BREAKS], w[NS_MAX_BREAKS];
  ns_lane dw[NS_MAX_BREAKS], end[NS_MAX_BREAKS], whole[MAX_REGIONS];
  struct free_edge piece[MAX_PIECES];
};

/* What CL rests on besides l_e, and its least. */
struct bending {
  const double *star, *F, *E, *b, *d;
  ns_lane least;
};

/* Blocking in order along the joist. */
NS_INLINE void read_blocking(const struct ns_work *w, struct regions *o) {
  o->blocks = w->shape->blocking;
  for (int b = 0; b < o->blocks; b++)
    ns_copy(o->block[b], w->in.joist[NS_J_blocking + b]);
  for (int n = 1; n < o->blocks; n++)
    for (int k = n; k > 0; k--)
      LANES(i) {
        const double a = o->block[k - 1][i], b = o->block[k][i];
        o->block[k - 1][i] = ns_min(a, b);
        o->block[k][i] = ns_max(a, b);
      }
}

/* Point loads on the overhangs. */
NS_INLINE void read_tips(const struct ns_beam *s, struct regions *o) {
  const int last = s->spans + 1;
  for (int c = 0; c < 2; c++)
    for (int r = 0; r < s->spans + 2; r++) ns_fill(o->tip[c][r], 0);
  if (!s->left && !s->right) return;
  for (int c = 0; c < 2; c++)
    for (int k = 0; k < s->breaks; k++)
      LANES(i) {
        const double x = s->x[k][i];
        const bool load = s->P[c][k][i] != 0;
        const bool before = x < s->support[0][i];
        const bool past = x > s->support[s->spans][i];
        o->tip[c][0][i] = load & before ? 1 : o->tip[c][0][i];
        o->tip[c][last][i] = load & past ? 1 : o->tip[c][last][i];
      }
}

/* Breaks of the segments that lie in region r, in any lane. */
NS_INLINE void read_region(struct regions *o, int r) {
  ns_lane got = {0};
  o->first[r] = o->breaks;
  o->last[r] = o->begins[r] = -1;
  for (int k = 0; k < o->breaks - 1; k++) {
    const double *restrict at = o->region[k], *restrict h = o->h[k];
    ns_lane in, new_;
    LANES(i) {
      const bool here = (at[i] == r) & (h[i] > 0);
      in[i] = here ? 1 : 0;
      new_[i] = here & (got[i] == 0) ? 1 : 0;
      got[i] = here ? 1 : got[i];
    }
    if (!ns_any(in)) continue;
    if (o->first[r] > k) o->first[r] = k;
    if (ns_any(new_)) o->begins[r] = k;
    o->last[r] = k;
  }
}

/* The rows of a beam, segment by segment. */
NS_INLINE void read_rows(const struct ns_work *w, const struct ns_beam *s,
                         struct regions *o) {
  o->breaks = s->breaks;
  o->x = s->x;
  o->region = s->region;
  o->M = s->M[0];
  o->V = s->VR[0];
  for (int c = 0; c < 2; c++) {
    o->w[c] = s->w[c];
    o->dw[c] = s->dw[c];
  }
  for (int r = 0; r < s->spans + 2; r++) {
    o->part_M[r] = w->parts.M[r];
    o->part_V[r] = w->parts.V[r];
  }
}

/* Those of two spans under even loads, span by span. */
NS_INLINE void read_parabolas(const struct ns_unit_beam *u,
                              const struct ns_beam *s, struct parabolas *p,
                              struct regions *o) {
  o->breaks = 3;
  o->x = (const ns_lane *)p->x;
  o->region = (const ns_lane *)p->region;
  o->M = (const ns_lane *)p->M[0];
  o->V = (const ns_lane *)p->V[0];
  for (int j = 0; j < 3; j++) {
    ns_copy(p->x[j], s->support[j]);
    ns_fill(p->region[j], j + 1);
  }
  for (int j = 0; j < 2; j++) {
    const double *restrict d1 = u->dead[0], *restrict d2 = u->dead[1];
    const double *restrict q = u->live;
    const double *restrict V1 = u->V[0][1][j], *restrict V2 = u->V[1][1][j];
    const double *restrict M1 = u->M[0][j], *restrict M2 = u->M[1][j];
    ns_copy(p->w[0][j], u->dead[j]);
    ns_copy(p->w[1][j], q);
    ns_fill(p->dw[j], 0);
    LANES(i) {
      p->M[0][j][i] = d1[i] * M1[i] + d2[i] * M2[i];
      p->M[1][j][i] = q[i] * M1[i];
      p->M[2][j][i] = q[i] * M2[i];
      p->V[0][j][i] = d1[i] * V1[i] + d2[i] * V2[i];
      p->V[1][j][i] = q[i] * V1[i];
      p->V[2][j][i] = q[i] * V2[i];
    }
  }
  for (int c = 0; c < 2; c++) {
    o->w[c] = (const ns_lane *)p->w[c];
    o->dw[c] = (const ns_lane *)p->dw;
    o->part_M[c + 1] = (const ns_lane *)p->M[c + 1];
    o->part_V[c + 1] = (const ns_lane *)p->V[c + 1];
  }
}

/* A beam by region: the breaks that begin its segments. */
NS_INLINE void read_beam(const struct ns_work *w, const struct ns_beam *s,
                         ns_lane *q, struct parabolas *p, struct regions *o) {
  const double *restrict inflection = w->in.joist[NS_J_inflection];
  o->s = s;
  o->q = q;
  o->spans = s->spans;
  if (s->by_units)
    read_parabolas(&w->unit[s == &w->after], s, p, o);
  else
    read_rows(w, s, o);
  read_blocking(w, o);
  read_tips(s, o);
  LANES(i) {
    o->counts[i] = w->out->status[i] == NS_OK ? 1 : 0;
    o->holds[i] = inflection[i] != 0 ? 1 : 0;
    o->ends[0][i] = s->x[0][i];
    o->ends[1][i] = s->x[s->breaks - 1][i];
  }
  for (int k = 0; k < o->breaks - 1; k++) {
    const double *restrict x = o->x[k], *restrict x2 = o->x[k + 1];
    LANES(i) o->h[k][i] = x2[i] - x[i];
  }
  for (int r = 0; r < s->spans + 2; r++) {
    o->there[r] = r == 0 ? s->left : r > s->spans ? s->right : true;
    o->first[r] = o->breaks;
    o->last[r] = o->begins[r] = -1;
    if (o->there[r]) read_region(o, r);
  }
}

/* M at the distance z into a segment from M, V and the load at its start. */
NS_INLINE double moment_of(double M, double V, double w, double dw, double z) {
  return M + z * (V - z * (w / 2 + dw * z * NS_6TH));
}

/* Segment k from its left end under a pattern: M, slope and load. */
NS_INLINE void blend_segment(const struct regions *o, struct pattern *p,
                             int k) {
  const double *restrict M0 = o->M[k], *restrict V0 = o->V[k];
  const double *restrict r = o->region[k];
  const double g_D = p->g_D, g_L = p->g_L;
  double *restrict M = p->M[k], *restrict V = p->V[k];
  ns_lane live = {0}, part, on;
  ns_carries_row(o->s, false, k, on);
  ns_fill(part, 1);
  if (o->q) ns_copy(part, o->q[k]);
  LANES(i) {
    M[i] = g_D * M0[i];
    V[i] = g_D * V0[i];
  }
  for (int n = 0; n < o->spans + 2; n++) {
    if (!(p->on >> n & 1)) continue;
    const double *restrict Mn = o->part_M[n][k];
    const double *restrict Vn = o->part_V[n][k];
    LANES(i) {
      M[i] += g_L * (part[i] * Mn[i]);
      V[i] += g_L * (part[i] * Vn[i]);
      live[i] = r[i] == n ? g_L : live[i];
    }
  }
  const double *restrict w0 = o->w[0][k], *restrict w1 = o->w[1][k];
  const double *restrict dw0 = o->dw[0][k], *restrict dw1 = o->dw[1][k];
  const double *restrict h = o->h[k];
  double *restrict w = p->w[k], *restrict dw = p->dw[k];
  double *restrict end = p->end[k];
  LANES(i) {
    w[i] = g_D * (on[i] * w0[i]) + live[i] * (on[i] * w1[i]);
    dw[i] = g_D * (on[i] * dw0[i]) + live[i] * (on[i] * dw1[i]);
    end[i] = moment_of(M[i], V[i], w[i], dw[i], h[i]);
  }
}

/* Segment k, worked out when it is first looked at. */
NS_INLINE void look_at(const struct regions *o, struct pattern *p, int k) {
  if (!p->blended[k]) blend_segment(o, p, k);
  p->blended[k] = true;
}

/* M at x by the last segment among those of breaks lo to hi that begins at it
 * or before it, the first one where none does. */
NS_INLINE void moment_near(const struct regions *o, struct pattern *p, int lo,
                           int hi, const double *x, double *restrict to) {
  ns_lane M = {0}, V = {0}, w = {0}, dw = {0}, z = {0}, none;
  ns_fill(none, 1);
  for (int k = lo; k <= hi; k++) {
    look_at(o, p, k);
    const double *restrict a = o->x[k], *restrict h = o->h[k];
    const double *restrict Mk = p->M[k], *restrict Vk = p->V[k];
    const double *restrict wk = p->w[k], *restrict dwk = p->dw[k];
    LANES(i) {
      const bool take = (h[i] > 0) & ((a[i] <= x[i]) | (none[i] != 0));
      M[i] = take ? Mk[i] : M[i];
      V[i] = take ? Vk[i] : V[i];
      w[i] = take ? wk[i] : w[i];
      dw[i] = take ? dwk[i] : dw[i];
      z[i] = take ? x[i] - a[i] : z[i];
      none[i] = take ? 0 : none[i];
    }
  }
  LANES(i) to[i] = moment_of(M[i], V[i], w[i], dw[i], z[i]);
}

/* M of a pattern at a place in region r, its ends taken in. */
NS_INLINE void moment_within(const struct regions *o, struct pattern *p, int r,
                             const double *x, double *restrict to) {
  const bool next = r < o->spans + 1 && o->there[r + 1];
  moment_near(o, p, o->first[r], next ? o->begins[r + 1] : o->last[r], x, to);
}

/* And at support j, where the region past it begins: there is one, for no
 * other support is asked about (find_pieces). */
NS_INLINE void moment_over(const struct regions *o, struct pattern *p, int j,
                           const double *x, double *restrict to) {
  moment_near(o, p, o->first[j + 1], o->begins[j + 1], x, to);
}

/* A segment from the end that is nearer the support. */
struct way {
  ns_lane M, V, w, dw;
};

/* Whether M comes up to nil within h: at its end, or at a crest before it. */
NS_INLINE bool comes_up(const struct way *s, const double *h,
                        const double *marked, double *restrict ends,
                        double *restrict crest) {
  ns_lane may;
  LANES(i) {
    const double M = s->M[i], V = s->V[i], w = s->w[i], dw = s->dw[i];
    const bool over = (w > 0) & (V > 0) & (V < w * h[i]);
    const bool end = moment_of(M, V, w, dw, h[i]) >= -SOME;
    ends[i] = end ? 1 : 0;
    crest[i] = over ? 1 : 0;
    may[i] = (marked[i] != 0) & (end | over) ? 1 : 0;
  }
  return ns_any(may);
}

/* Where M, below nil at the start, comes up to nil, in the lanes marked; past h
 * where it does not. From the even load's root, by Newton in a bracket. */
NS_INLINE void turn_of(const struct way *s, const double *h,
                       const double *marked, double *restrict z) {
  ns_lane lo = {0}, hi, wait, ends, crest;
  LANES(i) z[i] = 2 * h[i];
  if (!comes_up(s, h, marked, ends, crest)) return;
  LANES(i) {
    const double M = s->M[i], V = s->V[i], w = s->w[i], dw = s->dw[i];
    const double top = crest[i] != 0 ? V / (w > 0 ? w : 1) : h[i];
    const bool end = ends[i] != 0;
    const bool turns = end | !(moment_of(M, V, w, dw, top) <= SOME);
    const double under = V * V + 2 * w * M;
    const double root = V + (under > 0 ? sqrt(under > 0 ? under : 0) : 0);
    hi[i] = end ? h[i] : top;
    const double even = root > 0 ? -2 * M / (root > 0 ? root : 1) : hi[i];
    wait[i] = (marked[i] != 0) & turns ? 1 : 0;
    z[i] = wait[i] == 0 ? z[i] : even < hi[i] ? even : hi[i];
  }
  for (int it = 0; it < 60 && ns_any(wait); it++)
    LANES(i) {
      const double p = z[i], V = s->V[i], w = s->w[i], dw = s->dw[i];
      const double f = moment_of(s->M[i], V, w, dw, p);
      const double g = V - p * (w + dw * p / 2);
      const bool on = wait[i] != 0;
      lo[i] = on & (f < 0) ? p : lo[i];
      hi[i] = on & !(f < 0) ? p : hi[i];
      const double step = g != 0 ? p - f / (g != 0 ? g : 1) : lo[i];
      const bool in = (step >= lo[i]) & (step <= hi[i]);
      const double next = in ? step : (lo[i] + hi[i]) / 2;
      const bool still = ns_abs(next - p) <= 1e-13 * h[i];
      z[i] = on ? next : p;
      wait[i] = still ? 0 : wait[i];
    }
}

/* The stretch of a region that hogs, beside the support at 'from' and up to
 * 'to'; 'far' is the region's other end. */
struct stretch {
  bool right, open; /* right of the support; it ends in the air */
  int region;
  _Alignas(NS_CACHE_LINE) ns_lane on;
  ns_lane from, to, far, tip;
};

/* Next end of a piece that begins at 'at': of the free edge, and of the piece
 * itself. */
NS_INLINE void next_end(const struct regions *o, const struct stretch *t,
                        const double *at, const double *turns,
                        double *restrict next, double *restrict held) {
  const double way = t->right ? 1 : -1;
  ns_lane got = {0};
  LANES(i) {
    next[i] = t->to[i];
    held[i] = (turns[i] == 0) | (o->holds[i] != 0) ? t->to[i] : t->far[i];
  }
  for (int b = 0; b < o->blocks; b++) {
    const double *restrict x = o->block[t->right ? b : o->blocks - 1 - b];
    LANES(i) {
      const bool past = (way * (x[i] - at[i]) > 1e-9) & (got[i] == 0);
      held[i] = past & (way * (held[i] - x[i]) > 0) ? x[i] : held[i];
      next[i] = past & (way * (next[i] - x[i]) > 0) ? x[i] : next[i];
      got[i] = past ? 1 : got[i];
    }
  }
}

/* Cuts a stretch into pieces at the blocking. */
NS_INLINE void add_pieces(const struct regions *o, struct pattern *p,
                          const struct stretch *t, const double *d) {
  const double way = t->right ? 1 : -1;
  ns_lane at, M, alive, turns, next, held, m, look;
  LANES(i) {
    at[i] = t->from[i];
    alive[i] = t->on[i];
    turns[i] = way * (t->far[i] - t->to[i]) > 1e-9 ? 1 : 0;
  }
  moment_over(o, p, t->right ? t->region - 1 : t->region, at, m);
  LANES(i) M[i] = -m[i];
  for (int n = 0; n <= o->blocks && p->pieces < MAX_PIECES; n++) {
    if (!ns_any(alive)) return;
    struct free_edge *q = &p->piece[p->pieces++];
    next_end(o, t, at, turns, next, held);
    LANES(i) {
      const bool nil = (turns[i] != 0) | t->open;
      look[i] = (alive[i] != 0) & !((next[i] == t->to[i]) & nil) ? 1 : 0;
      m[i] = 0;
    }
    if (ns_any(look)) moment_within(o, p, t->region, next, m);
    q->known = false;
    LANES(i) {
      const double end = look[i] != 0 ? -m[i] : 0, u = ns_abs(held[i] - at[i]);
      const bool free_end = t->open & (held[i] == t->far[i]);
      const double any = ns_effective_length(NS_LE_ANY, u, d[i]);
      const double tip = ns_effective_length(NS_LE_CANTILEVER_TIP, u, d[i]);
      const double even = ns_effective_length(NS_LE_CANTILEVER, u, d[i]);
      q->on[i] = alive[i];
      q->x[0][i] = at[i];
      q->x[1][i] = next[i];
      q->M[0][i] = ns_max(M[i], 0);
      q->M[1][i] = ns_max(end, 0);
      q->l_u[i] = u;
      q->l_e[i] = !free_end ? any : t->tip[i] != 0 ? tip : even;
      alive[i] = next[i] == t->to[i] ? 0 : alive[i];
      at[i] = next[i];
      M[i] = end;
    }
  }
}

/* What a walk from the support has come to, lane by lane: whether it goes on,
 * whether M < 0 at the support, the segment in which M may turn (1: there is
 * one, counted from the support, its near end, length and forces). */
struct walk {
  _Alignas(NS_CACHE_LINE) ns_lane going;
  ns_lane hogs, now, V, found, count, near, h;
  struct way at;
};

/* Segment k of a stretch, c-th from the support: whether it is walked, and
 * whether M may turn in it. */
NS_INLINE void walk_segment(const struct regions *o, const struct pattern *p,
                            const struct stretch *t, bool right, int k, int c,
                            struct walk *v, double *restrict take) {
  const double *restrict h = o->h[k], *restrict in = o->region[k];
  const double *restrict V = p->V[k], *restrict w = p->w[k];
  const double *restrict dw = p->dw[k], *restrict count = v->count;
  const double *restrict M = right ? p->M[k] : p->end[k];
  const double *restrict end = right ? p->end[k] : p->M[k];
  double *restrict going = v->going, *restrict hogs = v->hogs;
  double *restrict now = v->now, *restrict V_0 = v->V;
  const double way = right ? 1 : -1, back = right ? 0 : 1;
  const double region = t->region, closed = t->open ? 0 : 1, at = c;
  LANES(i) {
    const double H = h[i], far = way * V[i], q = w[i] + back * (dw[i] * H);
    const double start = far + back * (H * (w[i] + dw[i] * H / 2));
    const bool over = (q > 0) & (start > 0) & (start < q * H);
    const bool turns = (end[i] >= -SOME) | over;
    const bool here = (going[i] != 0) & (in[i] == region) & (H > 0);
    const bool hangs = (hogs[i] != 0) | (M[i] < -SOME);
    const double on = here & hangs ? 1 : 0, out = here & !hangs ? 0 : 1;
    V_0[i] = start;
    now[i] = on;
    hogs[i] = ns_max(hogs[i], on);
    going[i] = going[i] * out;
    take[i] = turns & (at > count[i]) ? on * closed : 0;
  }
}

/* One pass over the segments of the stretch, for the first one past the last
 * that was looked at in which M comes up to nil, or has a crest. */
NS_INLINE void walk_on(const struct regions *o, struct pattern *p,
                       struct stretch *t, bool right, struct walk *v) {
  const int r = t->region, segments = o->last[r] - o->first[r] + 1;
  const double way = right ? 1 : -1, back = right ? 0 : 1;
  double *restrict to = t->to, *restrict found = v->found;
  double *restrict count = v->count, *restrict near = v->near;
  double *restrict length = v->h, *restrict M_o = v->at.M;
  double *restrict V_o = v->at.V, *restrict w_o = v->at.w;
  double *restrict dw_o = v->at.dw;
  const double *restrict now = v->now, *restrict V = v->V;
  const double *restrict going = v->going;
  ns_lane take, still;
  for (int c = 0; c < segments; c++) {
    const int k = right ? o->first[r] + c : o->last[r] - c;
    const double *restrict x = o->x[k], *restrict h = o->h[k];
    const double *restrict w = p->w[k], *restrict dw = p->dw[k];
    const double *restrict M = right ? p->M[k] : p->end[k];
    const double at = c;
    look_at(o, p, k);
    walk_segment(o, p, t, right, k, c, v, take);
    LANES(i) {
      const double H = h[i], from = x[i] + back * H;
      const double q = w[i] + back * (dw[i] * H), dq = way * dw[i];
      const bool on = (take[i] != 0) & (found[i] == 0);
      found[i] = on ? 1 : found[i];
      count[i] = on ? at : count[i];
      near[i] = on ? from : near[i];
      length[i] = on ? H : length[i];
      M_o[i] = on ? M[i] : M_o[i];
      V_o[i] = on ? V[i] : V_o[i];
      w_o[i] = on ? q : w_o[i];
      dw_o[i] = on ? dq : dw_o[i];
      to[i] = now[i] != 0 ? from + way * H : to[i];
      still[i] = going[i] * (1 - found[i]);
    }
    if (!ns_any(still)) return;
  }
}

/* Goes from the support to where M turns, lane by lane; a crest that stays
 * below nil is passed. */
NS_CLONES static void walk(const struct regions *o, struct pattern *p,
                           struct stretch *t, double *restrict turned) {
  const double way = t->right ? 1 : -1;
  struct walk v;
  ns_lane z;
  ns_copy(v.going, t->on);
  ns_fill(v.hogs, 0);
  ns_fill(v.count, -1);
  ns_fill(turned, 0);
  while (ns_any(v.going)) {
    ns_fill(v.found, 0);
    ns_fill(v.h, 1);
    if (t->right)
      walk_on(o, p, t, true, &v);
    else
      walk_on(o, p, t, false, &v);
    if (!ns_any(v.found)) break;
    turn_of(&v.at, v.h, v.found, z);
    LANES(i) {
      const bool turns = (v.found[i] != 0) & (z[i] <= v.h[i]);
      t->to[i] = turns ? v.near[i] + way * z[i] : t->to[i];
      turned[i] = turns ? 1 : turned[i];
      v.going[i] = (v.found[i] != 0) & !turns ? 1 : 0;
    }
  }
  ns_copy(t->on, v.hogs);
}

/* The stretch beside support j, and the pieces it makes. */
NS_INLINE void add_stretch(const struct regions *o, struct pattern *p, int j,
                           bool right, const double *d) {
  const struct ns_beam *s = o->s;
  const int r = right ? j + 1 : j;
  const bool live = p->on >> r & 1;
  ns_lane turned;
  struct stretch t;
  t.right = right;
  t.region = r;
  t.open = r == 0 || r > o->spans;
  const double *restrict far = r == 0         ? o->ends[0]
                               : r > o->spans ? o->ends[1]
                               : right        ? s->support[j + 1]
                                              : s->support[j - 1];
  LANES(i) {
    const bool on = (o->counts[i] != 0) & (p->whole[r][i] == 0);
    t.on[i] = on ? 1 : 0;
    t.from[i] = t.to[i] = s->support[j][i];
    t.far[i] = far[i];
    t.tip[i] = o->tip[0][r][i] + (live ? o->tip[1][r][i] : 0);
  }
  walk(o, p, &t, turned);
  if (!ns_any(t.on)) return;
  LANES(i) {
    const bool all = (t.on[i] != 0) & (turned[i] == 0);
    t.to[i] = all ? t.far[i] : t.to[i];
    p->whole[r][i] = all ? 1 : p->whole[r][i];
  }
  add_pieces(o, p, &t, d);
}

/* Free pieces of the bottom edge where M < 0 under a pattern. */
NS_INLINE void find_pieces(const struct regions *o, struct pattern *p,
                           const double *d) {
  p->pieces = 0;
  for (int r = 0; r < o->spans + 2; r++) ns_fill(p->whole[r], 0);
  for (int right = 1; right >= 0; right--)
    for (int j = 0; j <= o->spans; j++) /* no M at an end without overhang */
      if (o->there[j] && o->there[j + 1]) add_stretch(o, p, j, right, d);
}

/* C_L of a free length; 1 where there is none. */
NS_INLINE void CL_of(const struct bending *v, const double *l_e,
                     double *restrict CL) {
  LANES(i) {
    const double C = ns_lateral_factor(v->star[i], v->F[i], v->E[i], l_e[i],
                                       v->b[i], v->d[i]);
    CL[i] = l_e[i] > 0 ? C : 1;
  }
}

/* Keeps the placing with the most of M / CL; one that could not have more is
 * passed over. */
NS_INLINE void offer(const struct bending *v, const struct pattern *p,
                     const double *on, const double *M, const double *at,
                     struct free_edge *q, int c, struct ns_hog *o) {
  double *restrict M_o = o->M[c], *restrict CL_o = o->CL[c];
  const double *restrict least = v->least;
  ns_lane may;
  LANES(i) {
    const bool more = (M[i] > SOME) & (M[i] * CL_o[i] > M_o[i] * least[i]);
    may[i] = (on[i] != 0) & more ? 1 : 0;
  }
  if (!ns_any(may)) return;
  if (!q->known) CL_of(v, q->l_e, q->CL);
  q->known = true;
  double *restrict at_o = o->at[c], *restrict l_u_o = o->l_u[c];
  double *restrict l_e_o = o->l_e[c], *restrict pattern = o->pattern[c];
  const double placing = p->on;
  const double *restrict l_u = q->l_u, *restrict l_e = q->l_e;
  const double *restrict CL_q = q->CL;
  LANES(i) {
    const double best = M_o[i] / CL_o[i], CL = CL_q[i];
    const bool take = (may[i] != 0) & (M[i] / CL > best * (1 + 1e-12));
    M_o[i] = take ? M[i] : M_o[i];
    CL_o[i] = take ? CL : CL_o[i];
    at_o[i] = take ? at[i] : at_o[i];
    l_u_o[i] = take ? l_u[i] : l_u_o[i];
    l_e_o[i] = take ? l_e[i] : l_e_o[i];
    pattern[i] = take ? placing : pattern[i];
  }
}

/* First and last segment that holds x in any lane: the last that begins at it
 * or before it, the first one where none does. */
NS_INLINE void find_segments(const struct regions *o, const double *restrict x,
                             struct stretch_of *in) {
  ns_lane at, none;
  ns_fill(at, 0);
  ns_fill(none, 1);
  for (int k = 0; k < o->breaks - 1; k++) {
    const double *restrict a = o->x[k], *restrict h = o->h[k];
    const double here = k;
    LANES(i) {
      const bool take = (h[i] > 0) & ((a[i] <= x[i]) | (none[i] != 0));
      at[i] = take ? here : at[i];
      none[i] = take ? 0 : none[i];
    }
  }
  double lo = at[0], hi = at[0];
  for (int i = 1; i < NS_LANES; i++) {
    lo = ns_min(lo, at[i]);
    hi = ns_max(hi, at[i]);
  }
  *in = (struct stretch_of){true, (int)lo, (int)hi};
}

/* A place within a cut, in the lanes marked, belongs to every piece that it
 * touches. */
NS_INLINE void offer_place(const struct regions *o, const struct bending *v,
                           struct pattern *p, const double *marked,
                           const double *x, struct stretch_of *at, int c,
                           struct ns_hog *to) {
  ns_lane in, M;
  bool known = false;
  for (int n = 0; n < p->pieces; n++) {
    struct free_edge *q = &p->piece[n];
    const double *restrict x0 = q->x[0], *restrict x1 = q->x[1];
    const double *restrict on = q->on;
    LANES(i) {
      const double a = ns_min(x0[i], x1[i]), b = ns_max(x0[i], x1[i]);
      const bool touch = (x[i] >= a - 1e-9) & (x[i] <= b + 1e-9);
      in[i] = touch & (on[i] != 0) & (marked[i] != 0) ? 1 : 0;
    }
    if (!ns_any(in)) continue;
    if (!known) {
      if (!at->known) find_segments(o, x, at);
      moment_near(o, p, at->lo, at->hi, x, M);
      LANES(i) M[i] = -M[i];
    }
    known = true;
    offer(v, p, in, M, x, q, c, to);
  }
}

/* The n-th place that may be in a cut: its ends, supports, blocking. */
NS_INLINE const double *spot(const struct ns_work *w, const struct regions *o,
                             int cut, int n) {
  const int supports = o->spans + 1;
  return n == 0             ? w->demand[cut].a
         : n == 1           ? w->demand[cut].b
         : n < 2 + supports ? o->s->support[n - 2]
                            : o->block[n - 2 - supports];
}

/* Lanes in which that place is in the cut. */
NS_INLINE void in_cut(const struct ns_work *w, const double *restrict x,
                      int cut, int n, double *restrict in) {
  const double *restrict a = w->demand[cut].a, *restrict b = w->demand[cut].b;
  LANES(i) {
    const bool inside = (x[i] > a[i]) & (x[i] < b[i]);
    const bool end = (n == 0) | ((n == 1) & (b[i] > a[i]));
    in[i] = end | inside ? 1 : 0;
  }
}

/* Which of them are in a cut in any lane, once for all patterns. */
NS_INLINE void find_spots(const struct ns_work *w, const struct regions *o,
                          int cuts, struct spots *s) {
  ns_lane in;
  for (int k = 0; k < cuts; k++)
    for (int n = 0; n < 3 + o->spans + o->blocks; n++) {
      in_cut(w, spot(w, o, k, n), k, n, in);
      s->inside[k][n] = ns_any(in);
      s->in[k][n].known = false;
    }
}

/* Offers what a pattern makes of M < 0 over a cut. */
NS_CLONES static void offer_cut(const struct ns_work *w,
                                const struct regions *o,
                                const struct bending *v, struct pattern *p,
                                struct spots *s, int cut, int c,
                                struct ns_hog *to) {
  ns_lane in;
  for (int n = 0; n < 3 + o->spans + o->blocks; n++) {
    const double *x = spot(w, o, cut, n);
    if (!s->inside[cut][n]) continue;
    in_cut(w, x, cut, n, in);
    offer_place(o, v, p, in, x, &s->in[cut][n], c, to);
  }
}

/* The most that any piece can be: CL there is the least. */
NS_INLINE void least_CL(const struct regions *o, struct bending *v) {
  const double *restrict d = v->d;
  ns_lane l_e = {0};
  for (int r = 0; r < o->spans + 2; r++) {
    if (!o->there[r]) continue;
    const double *restrict a = r == 0 ? o->ends[0] : o->s->support[r - 1];
    const double *restrict b = r > o->spans ? o->ends[1] : o->s->support[r];
    LANES(i)
      l_e[i] =
          ns_max(l_e[i], ns_effective_length(NS_LE_ANY, b[i] - a[i], d[i]));
  }
  CL_of(v, l_e, v->least);
}

/* A record without M < 0: C_L is 1. */
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

/* Forces and pieces of the pattern 'on'. */
NS_INLINE void find_pattern(const struct regions *o, unsigned on, double g_D,
                            double g_L, const double *d, struct pattern *p) {
  p->on = on;
  p->g_D = g_D;
  p->g_L = g_L;
  memset(p->blended, 0, sizeof p->blended);
  find_pieces(o, p, d);
}

/* All patterns in one combination, all loads on first: of equals that is the
 * one kept. 'bare' has no live load on; it is that of the combination before
 * where the dead load's factor is. */
NS_INLINE void work_patterns(struct ns_work *w, const struct regions *o,
                             struct spots *s, int cuts, const struct bending *v,
                             int c, struct pattern *bare) {
  const struct ns_standard *std = w->standard;
  const double g_D = std->g_D[c], g_L = std->g_L[c];
  const int regions = o->spans + 2;
  const unsigned all = g_L != 0 ? (1u << regions) - 1 : 0;
  struct pattern loaded;
  for (unsigned on = all + 1; on-- > 0;) {
    struct pattern *p = on ? &loaded : bare;
    if (!o->there[0] && on & 1) continue;
    if (!o->there[regions - 1] && on >> (regions - 1) & 1) continue;
    if (on || c == 0 || std->g_D[c - 1] != g_D)
      find_pattern(o, on, g_D, g_L, v->d, p);
    for (int n = 0; n < p->pieces; n++) p->piece[n].known = false;
    for (int n = 0; n < p->pieces; n++)
      for (int e = 0; e < 2; e++) {
        struct free_edge *q = &p->piece[n];
        offer(v, p, q->on, q->M[e], q->x[e], q, c, &w->hog);
      }
    for (int k = 0; k < cuts; k++)
      offer_cut(w, o, v, p, s, k, c, &w->hog_cut[k]);
  }
}

/* The pattern of live load that uses up the most at M < 0, over the joist
 * and at each cut. */
NS_CLONES void ns_find_hogging(struct ns_work *w, const struct ns_beam *s,
                               ns_lane *q, bool cut) {
  const int cuts = cut ? w->shape->cuts : 0, combos = w->standard->combos;
  struct regions o;
  struct parabolas even;
  struct spots spots;
  struct pattern bare;
  ns_no_hogging(&w->hog, combos);
  for (int k = 0; k < cuts; k++) ns_no_hogging(&w->hog_cut[k], combos);
  if (s->spans == 1 && !s->left && !s->right) return;
  read_beam(w, s, q, &even, &o);
  find_spots(w, &o, cuts, &spots);
  for (int c = 0; c < combos; c++) {
    struct bending v = {.star = w->star[c],
                        .F = w->in.joist[NS_LATERAL_ROW],
                        .E = w->Emin.value,
                        .b = w->width,
                        .d = w->depth};
    least_CL(&o, &v);
    work_patterns(w, &o, &spots, cuts, &v, c, &bare);
  }
}
