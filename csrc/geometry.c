/* SPDX-License-Identifier: MIT
 * geometry.c - from a description to boxes of lost wood.
 *
 * Every cut is a box: x1..x2 along the joist, y1..y2 up from its bottom
 * edge. Openings and notches nearer to each other than max(2 in, the larger
 * size) become one box, since the wood between them carries no frame action
 * of its own. */
#include "work.h"

/* Ends of the wood and of the supports. */
NS_INLINE void place_supports(struct ns_work *w) {
  const struct ns_shape *s = w->shape;
  double(*J)[NS_LANES] = w->in.joist;
  ns_fill(w->total, 0);
  for (int k = 0; k < s->spans; k++)
    LANES(i) w->total[i] += J[NS_J_span + k][i];
  LANES(i) {
    const double left = s->left ? J[NS_J_overhang_left][i] : 0;
    const double right = s->right ? J[NS_J_overhang_right][i] : 0;
    w->tip[0][i] = -left;
    w->tip[1][i] = w->total[i] + right;
    w->start[i] = left > 0 ? -left : -J[NS_J_bearing][i] / 2;
    w->end[i] =
        w->total[i] + (right > 0 ? right : J[NS_J_bearing + s->spans][i] / 2);
    w->width[i] = J[NS_J_b][i] * J[NS_J_plies][i];
    w->depth[i] = J[NS_J_d][i];
  }
}

/* Extent along the joist as described, both ends from the left bearing. */
NS_INLINE void place_along(struct ns_work *w, int c) {
  const struct ns_shape *s = w->shape;
  double(*v)[NS_LANES] = w->in.cut[c];
  struct ns_cut_geometry *restrict g = &w->cut[c];
  const enum ns_kind kind = s->cut[c].kind;
  const bool notch = kind == NS_NOTCH, loss = kind == NS_LOSS;
  const bool at_end = kind == NS_END_NOTCH, right = s->cut[c].right;
  const bool hole = kind == NS_HOLE, turned = s->cut[c].from_right;
  const double *restrict start = w->start, *restrict end = w->end;
  const double *restrict total = w->total;
  ns_lane x1, x2, more = {0};
  if (hole)
    LANES(i) {
      const double half = v[NS_C_diameter][i] * v[NS_C_stretch][i] / 2;
      x1[i] = v[NS_C_at][i] - half;
      x2[i] = v[NS_C_at][i] + half;
    }
  else if (!at_end)
    LANES(i) {
      x1[i] = v[NS_C_from][i];
      x2[i] = v[NS_C_to][i];
    }
  else
    LANES(i) {
      const double long_ = v[NS_C_length][i], split = v[NS_C_split_length][i];
      x1[i] = right ? end[i] - long_ - split : start[i];
      x2[i] = right ? end[i] : start[i] + long_ + split;
    }
  if (turned && !at_end)
    LANES(i) {
      const double t1 = total[i] - x2[i], t2 = total[i] - x1[i];
      x1[i] = t1;
      x2[i] = t2;
    }
  if (notch) ns_copy(more, v[NS_C_split_length]);
  if (loss) ns_copy(more, v[NS_C_extend]);
  LANES(i) {
    const double a = ns_max(x1[i] - more[i], start[i]);
    const double b = ns_min(x2[i] + more[i], end[i]);
    g->x1[i] = a;
    g->x2[i] = b;
    g->xc[i] = (a + b) / 2;
  }
}

/* Height of the band: what is cut out of the depth. */
NS_INLINE void band_size(const struct ns_work *w, int c,
                         double *restrict size) {
  const double(*v)[NS_LANES] = w->in.cut[c];
  const enum ns_kind kind = w->shape->cut[c].kind;
  ns_fill(size, 0);
  if (kind == NS_HOLE) ns_copy(size, v[NS_C_diameter]);
  if (kind == NS_SLOT) ns_copy(size, v[NS_C_height]);
  if (kind == NS_NOTCH || kind == NS_END_NOTCH)
    LANES(i) size[i] = v[NS_C_depth][i] + v[NS_C_overcut][i];
  if (kind == NS_SEVER) ns_copy(size, w->depth);
}

/* Its lower edge. */
NS_INLINE void band_low(const struct ns_work *w, int c, const double *size,
                        double *restrict low) {
  const double(*v)[NS_LANES] = w->in.cut[c];
  const enum ns_kind kind = w->shape->cut[c].kind;
  const enum ns_place place = w->shape->cut[c].place;
  const double *restrict d = w->depth, *restrict s = size;
  const bool notch = kind == NS_NOTCH || kind == NS_END_NOTCH;
  if (kind == NS_SEVER || (notch && !w->shape->cut[c].top))
    ns_fill(low, 0);
  else if (notch)
    LANES(i) low[i] = d[i] - s[i];
  else if (kind == NS_SPLIT)
    LANES(i) low[i] = d[i] - v[NS_C_at_depth][i];
  else if (place == NS_FROM_BELOW)
    ns_copy(low, v[NS_C_below]);
  else if (place == NS_FROM_ABOVE)
    LANES(i) low[i] = d[i] - v[NS_C_above][i] - s[i];
  else
    LANES(i) low[i] = (d[i] - s[i]) / 2;
}

/* Band of depth that is gone. */
NS_INLINE void place_across(struct ns_work *w, int c) {
  struct ns_cut_geometry *restrict g = &w->cut[c];
  const double *restrict depth = w->depth;
  const enum ns_kind kind = w->shape->cut[c].kind;
  const bool notch = kind == NS_NOTCH || kind == NS_END_NOTCH;
  const bool to_top = kind == NS_SEVER || (notch && w->shape->cut[c].top);
  ns_lane size, low;
  band_size(w, c, size);
  band_low(w, c, size, low);
  LANES(i) {
    const double d = depth[i], high = to_top ? d : low[i] + size[i];
    g->size[i] = size[i];
    g->y1[i] = low[i] < 1e-9 ? 0 : low[i]; /* an edge, whatever the bits */
    g->y2[i] = high > d - 1e-9 ? d : high;
  }
}

/* Clear distance between two cuts: between circles where both are holes,
 * else between boxes; 0 where they touch. */
NS_INLINE void find_apart(struct ns_work *w, int a, int b) {
  const struct ns_cut_geometry *restrict p = &w->cut[a], *restrict q =
                                                             &w->cut[b];
  const double *restrict s_p = w->in.cut[a][NS_C_stretch];
  const double *restrict s_q = w->in.cut[b][NS_C_stretch];
  double *restrict apart = w->apart[a][b];
  LANES(i) {
    const double dx =
        ns_max(0, ns_max(q->x1[i] - p->x2[i], p->x1[i] - q->x2[i]));
    const double dy =
        ns_max(0, ns_max(q->y1[i] - p->y2[i], p->y1[i] - q->y2[i]));
    apart[i] = ns_max(0, sqrt(dx * dx + dy * dy));
  }
  if (w->shape->cut[a].kind != NS_HOLE || w->shape->cut[b].kind != NS_HOLE)
    return;
  LANES(i) {
    const bool round = (s_p[i] == 1) & (s_q[i] == 1);
    const double cx = p->xc[i] - q->xc[i];
    const double cy = (p->y1[i] + p->y2[i] - q->y1[i] - q->y2[i]) / 2;
    const double circles =
        sqrt(cx * cx + cy * cy) - (p->size[i] + q->size[i]) / 2;
    apart[i] = round ? ns_max(0, circles) : apart[i];
  }
}

/* The same between the groups that two cuts have grown into. */
NS_INLINE double group_gap(const struct ns_cut_geometry *p,
                           const struct ns_cut_geometry *q, double apart,
                           int i) {
  const double dx = ns_max(0, ns_max(q->g1[i] - p->g2[i], p->g1[i] - q->g2[i]));
  const double dy = ns_max(0, ns_max(q->h1[i] - p->h2[i], p->h1[i] - q->h2[i]));
  const bool alone = (p->merged[i] == 0) & (q->merged[i] == 0);
  const double gap = sqrt(dx * dx + dy * dy);
  return alone ? apart : gap;
}

NS_INLINE void start_groups(struct ns_work *w) {
  const struct ns_shape *s = w->shape;
  for (int c = 0; c < s->cuts; c++) {
    struct ns_cut_geometry *g = &w->cut[c];
    const bool slot = s->cut[c].kind == NS_SLOT;
    const bool hole = s->cut[c].kind == NS_HOLE;
    const bool at_end = s->cut[c].kind == NS_END_NOTCH;
    const bool right = s->cut[c].right;
    const double *restrict stretch = w->in.cut[c][NS_C_stretch];
    const double *restrict depth = w->depth;
    const double part = w->standard->tested_hole;
    ns_copy(g->g1, g->x1);
    ns_copy(g->g2, g->x2);
    ns_copy(g->h1, g->y1);
    ns_copy(g->h2, g->y2);
    ns_fill(g->voice, c);
    ns_fill(g->merged, 0);
    ns_fill(g->ends[0], at_end && !right ? 1 : 0);
    ns_fill(g->ends[1], at_end && right ? 1 : 0);
    ns_fill(g->opening, hole || slot ? 1 : 0);
    ns_fill(g->slot, slot ? 1 : 0);
    if (hole)
      LANES(i) {
        const bool tall = g->size[i] > part * depth[i] + 1e-9;
        g->slot[i] = (stretch[i] > 1) | tall ? 1 : 0;
      }
  }
}

/* Two that are near take the box around both; true where any are. */
NS_INLINE bool join(struct ns_work *w, int a, int b) {
  struct ns_cut_geometry *restrict p = &w->cut[a], *restrict q = &w->cut[b];
  const double *restrict apart = w->apart[a][b];
  ns_lane on;
  LANES(i) {
    const double limit = ns_max(2, ns_max(p->size[i], q->size[i]));
    on[i] = group_gap(p, q, apart[i], i) < limit - 1e-9 ? 1 : 0;
  }
  if (!ns_any(on)) return false;
  LANES(i) {
    const bool near = on[i] != 0;
    const double g1 = ns_min(p->g1[i], q->g1[i]);
    const double g2 = ns_max(p->g2[i], q->g2[i]);
    const double h1 = ns_min(p->h1[i], q->h1[i]);
    const double h2 = ns_max(p->h2[i], q->h2[i]);
    p->g1[i] = near ? g1 : p->g1[i];
    q->g1[i] = near ? g1 : q->g1[i];
    p->g2[i] = near ? g2 : p->g2[i];
    q->g2[i] = near ? g2 : q->g2[i];
    p->h1[i] = near ? h1 : p->h1[i];
    q->h1[i] = near ? h1 : q->h1[i];
    p->h2[i] = near ? h2 : p->h2[i];
    q->h2[i] = near ? h2 : q->h2[i];
  }
  LANES(i) {
    const bool near = on[i] != 0;
    const double voice = ns_min(p->voice[i], q->voice[i]);
    const double e0 = ns_max(p->ends[0][i], q->ends[0][i]);
    const double e1 = ns_max(p->ends[1][i], q->ends[1][i]);
    const double op = ns_max(p->opening[i], q->opening[i]);
    p->ends[0][i] = near ? e0 : p->ends[0][i];
    q->ends[0][i] = near ? e0 : q->ends[0][i];
    p->ends[1][i] = near ? e1 : p->ends[1][i];
    q->ends[1][i] = near ? e1 : q->ends[1][i];
    p->opening[i] = near ? op : p->opening[i];
    q->opening[i] = near ? op : q->opening[i];
    p->voice[i] = near ? voice : p->voice[i];
    q->voice[i] = near ? voice : q->voice[i];
    p->merged[i] = near ? 1 : p->merged[i];
    q->merged[i] = near ? 1 : q->merged[i];
  }
  return true;
}

/* As many passes as could be needed for a chain of cuts to close up; none
 * after one in which nothing was near. */
NS_INLINE void merge(struct ns_work *w) {
  const struct ns_shape *s = w->shape;
  bool some = true;
  start_groups(w);
  for (int pass = 1; pass < s->cuts && some; pass++) {
    some = false;
    for (int a = 0; a < s->cuts; a++)
      for (int b = a + 1; b < s->cuts; b++)
        if (ns_boxed(s->cut[a].kind) && ns_boxed(s->cut[b].kind))
          some |= join(w, a, b);
  }
  for (int c = 0; c < s->cuts; c++) {
    struct ns_cut_geometry *g = &w->cut[c];
    LANES(i) {
      const bool group = (g->merged[i] != 0) & (g->opening[i] != 0);
      g->slot[i] = (g->slot[i] != 0) | group ? 1 : 0;
    }
  }
}

/* The span that holds a cut, and how far the cut reaches into it from the
 * nearer support. */
NS_INLINE void find_reach(struct ns_work *w, int c) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  double *restrict L = w->held_by[c], *restrict reach = w->reach[c];
  ns_lane A = {0};
  ns_fill(L, 0);
  ns_fill(reach, 0);
  for (int j = 0; j < w->shape->spans; j++) {
    const double *restrict span = w->in.joist[NS_J_span + j];
    LANES(i) {
      const double B = A[i] + span[i];
      const bool in = (g->xc[i] >= A[i]) & (g->xc[i] <= B);
      const double r = ns_min(g->x2[i] - A[i], B - g->x1[i]);
      L[i] = in ? B - A[i] : L[i];
      reach[i] = in ? r : reach[i];
      A[i] = B;
    }
  }
}

NS_CLONES void ns_place_cuts(struct ns_work *w) {
  place_supports(w);
  ns_fill(w->severed, 0);
  for (int c = 0; c < w->shape->cuts; c++) {
    place_along(w, c);
    place_across(w, c);
    if (w->shape->cut[c].kind == NS_SEVER) ns_fill(w->severed, 1);
    find_reach(w, c);
  }
  for (int a = 0; a < w->shape->cuts; a++)
    for (int b = a + 1; b < w->shape->cuts; b++) find_apart(w, a, b);
  merge(w);
  ns_find_seats(w);
}
