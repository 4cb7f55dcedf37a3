/* SPDX-License-Identifier: MIT
 * seat.c - what is left of a bearing to stand on, and end notches that run on.
 *
 * A bearing lies under the joist from half its length before its centre to
 * half behind it; that of an end begins where the joist does. */
#include "cuts/cuts.h"

/* A loss of the bottom, or a cut through, that takes the wood over a bearing
 * away: deeper than can be packed as it is, not packed, and not char on wood
 * that was covered (it burns from its free faces) unless it is said to be
 * there. */
NS_INLINE bool takes_seat(const struct ns_work *w, int c, int i) {
  const double(*v)[NS_LANES] = w->in.cut[c];
  if (w->shape->cut[c].kind == NS_SEVER) return true;
  const bool deep = v[NS_C_bottom][i] > v[NS_C_seat_tolerance][i] + 1e-9;
  const bool open = w->shape->cut[c].cause != NS_CAUSE_CHAR;
  return deep & (open | (v[NS_C_seat][i] != 0)) & (v[NS_C_packed][i] == 0);
}

/* A loss as measured, without the length it is taken further. */
NS_INLINE void measured(const struct ns_work *w, int c, int i, double *x1,
                        double *x2) {
  const double a = w->in.cut[c][NS_C_from][i], b = w->in.cut[c][NS_C_to][i];
  const bool turned = w->shape->cut[c].from_right;
  *x1 = turned ? w->total[i] - b : a;
  *x2 = turned ? w->total[i] - a : b;
}

/* Length of the union of the losses over lo..hi: from each place that is
 * covered, as far as any of them reaches. */
NS_INLINE double lost_over(const struct ns_work *w, double lo, double hi,
                           int i) {
  double lost = 0, at = lo;
  for (int pass = 0; pass <= 2 * NS_MAX_CUTS && at < hi; pass++) {
    double next = hi, far = at;
    for (int c = 0; c < w->shape->cuts; c++) {
      double x1, x2;
      const enum ns_kind kind = w->shape->cut[c].kind;
      if (kind != NS_LOSS && kind != NS_SEVER) continue;
      if (!takes_seat(w, c, i)) continue;
      measured(w, c, i, &x1, &x2);
      if (x1 <= at && x2 > far) far = x2;
      if (x1 > at && x1 < next) next = x1;
    }
    if (far > hi) far = hi;
    lost += far - at;
    at = far > at ? far : next;
  }
  return lost;
}

/* An end notch in the bottom that is shorter than its bearing leaves two
 * parts at two heights, of which one bears: the longer, unless it is said
 * which. */
NS_INLINE void notched_seat(struct ns_work *w, int c) {
  const int j = w->shape->cut[c].right ? w->shape->spans : 0;
  const double *restrict l_b = w->in.joist[NS_J_bearing + j];
  const double *restrict length = w->in.cut[c][NS_C_length];
  const double *restrict seat = w->in.cut[c][NS_C_seat];
  double *restrict left = w->seat[j];
  LANES(i) {
    const double under = ns_min(length[i], l_b[i]);
    const double beyond = l_b[i] - under;
    const double one = seat[i] == 1 ? under : beyond;
    const double part = seat[i] != 0 ? one : ns_max(under, beyond);
    left[i] = ns_min(left[i], part);
  }
}

/* How far an end notch runs past the face of its bearing; whether that is more
 * than d, or into the middle third: then it is a notch in the span as well. */
NS_INLINE void end_notch(struct ns_work *w, int c) {
  const bool right = w->shape->cut[c].right;
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  const double *restrict first = w->in.joist[NS_J_bearing];
  const double *restrict last = w->in.joist[NS_J_bearing + w->shape->spans];
  const double *restrict start = w->start, *restrict end = w->end;
  const double *restrict depth = w->depth, *restrict L = w->held_by[c];
  const double part = w->standard->outer_part;
  LANES(i) {
    const double from_left = g->x2[i] - (start[i] + first[i]);
    const double from_right = end[i] - last[i] - g->x1[i];
    const double e = ns_max(right ? from_right : from_left, 0);
    const bool middle = (L[i] > 0) & (w->reach[c][i] > L[i] * part + 1e-6);
    w->past[c][i] = e;
    w->as_notch[c][i] = (e > depth[i] + 1e-6) | middle ? 1 : 0;
  }
}

/* Whether a loss of the top or the bottom, taken further each way, reaches a
 * bearing or within d of its face. */
NS_INLINE void find_near(struct ns_work *w, int c) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  const double *restrict depth = w->depth;
  const double *restrict top = w->in.cut[c][NS_C_top];
  const double *restrict bottom = w->in.cut[c][NS_C_bottom];
  ns_lane x = {0};
  for (int j = 0; j <= w->shape->spans; j++) {
    const double *restrict l_b = w->in.joist[NS_J_bearing + j];
    LANES(i) {
      const double far = l_b[i] / 2 + depth[i] + 1e-9;
      const bool by = (g->x1[i] < x[i] + far) & (g->x2[i] > x[i] - far);
      const bool flat = (top[i] > 0) | (bottom[i] > 0);
      w->near[c][j][i] = by & flat ? 1 : 0;
    }
    if (j < w->shape->spans)
      LANES(i) x[i] += w->in.joist[NS_J_span + j][i];
  }
}

/* Whether a loss is by any bearing in any lane. */
bool ns_hollow_end(const struct ns_work *w, int c) {
  for (int j = 0; j <= w->shape->spans; j++)
    if (ns_any(w->near[c][j])) return true;
  return false;
}

/* Sound bearing length that is left at each support. */
NS_CLONES void ns_find_seats(struct ns_work *w) {
  bool loss = false;
  for (int j = 0; j <= w->shape->spans; j++)
    ns_copy(w->seat[j], w->in.joist[NS_J_bearing + j]);
  for (int c = 0; c < w->shape->cuts; c++) {
    const enum ns_kind kind = w->shape->cut[c].kind;
    ns_fill(w->past[c], 0);
    ns_fill(w->as_notch[c], 0);
    if (kind == NS_END_NOTCH) end_notch(w, c);
    if (kind == NS_END_NOTCH && !w->shape->cut[c].top) notched_seat(w, c);
    if (kind == NS_LOSS) find_near(w, c);
    loss = loss || kind == NS_LOSS || kind == NS_SEVER;
  }
  if (!loss) return;
  for (int i = 0; i < NS_LANES; i++) {
    double x = 0;
    for (int j = 0; j <= w->shape->spans; j++) {
      const double l_b = w->in.joist[NS_J_bearing + j][i];
      const double lost = lost_over(w, x - l_b / 2, x + l_b / 2, i);
      const double left = w->seat[j][i] - lost;
      w->seat[j][i] = left > 1e-9 ? left : 0;
      if (j < w->shape->spans) x += w->in.joist[NS_J_span + j][i];
    }
  }
}
