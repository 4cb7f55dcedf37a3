/* SPDX-License-Identifier: MIT
 * validate.c - ranges and geometry of a block, lane by lane.
 *
 * Comparisons are written so that NaN fails them. The first thing found
 * wrong is the lane's status; bad_part says which cut, line or point it is
 * in (from 1, lines after cuts, points after lines; 0 the joist), bad_field
 * which row. Part numbers: cut c is 1 + c, line l is 101 + l, point p is
 * 201 + p, the repair is 301, the wood of its new member 401. */
#include "joist/lanes.h"
#include "joist/result.h"

/* The first fault of a lane is the one that is told. */
NS_INLINE void mark(struct ns_result *out, int i, bool bad,
                    enum ns_status status, int part, int field) {
  const bool first = bad & (out->status[i] == NS_OK);
  out->status[i] = first ? (double)status : out->status[i];
  out->bad_part[i] = first ? part : out->bad_part[i];
  out->bad_field[i] = first ? field : out->bad_field[i];
}

/* Names the first number of each lane that is out of its range. */
static void report_rows(const struct ns_field *fields, int count,
                        const double (*rows)[NS_LANES], const int *used,
                        int part, struct ns_result *out) {
  int row = 0;
  for (int f = 0; f < count; row += fields[f].rows, f++)
    for (int k = 0; k < used[f] && k < fields[f].rows; k++)
      LANES(i) {
        const double v = rows[row + k][i];
        const bool in = (v >= fields[f].low) & (v <= fields[f].high);
        mark(out, i, !in, NS_OUT_OF_RANGE, part, row + k);
      }
}

/* Which number is out of its range is asked only where some are. */
NS_INLINE void check_rows(const struct ns_field *fields, int count,
                          const double (*rows)[NS_LANES], const int *used,
                          int part, struct ns_result *out) {
  ns_lane bad = {0};
  int row = 0;
  for (int f = 0; f < count; row += fields[f].rows, f++) {
    const double low = fields[f].low, high = fields[f].high;
    for (int k = 0; k < used[f] && k < fields[f].rows; k++) {
      const double *restrict v = rows[row + k];
      LANES(i) bad[i] = (v[i] >= low) & (v[i] <= high) ? bad[i] : 1;
    }
  }
  if (ns_any(bad)) report_rows(fields, count, rows, used, part, out);
}

/* How many rows of each joist field the shape reads, field by field. */
NS_INLINE void check_joist(const struct ns_shape *s, const struct ns_block *b,
                           struct ns_result *out) {
  int used[NS_JOIST_ROWS], count = 0;
#define X(name, rows, low, high, unit, meaning)                                \
  used[count++] = NS_J_##name == NS_J_span       ? s->spans                    \
                  : NS_J_##name == NS_J_bearing  ? s->spans + 1                \
                  : NS_J_##name == NS_J_blocking ? s->blocking                 \
                                                 : 1;
  NS_JOIST_LIST(X)
#undef X
  check_rows(ns_joist_fields, count, b->joist, used, 0, out);
  const double(*J)[NS_LANES] = b->joist;
  const bool left = s->left, right = s->right;
  /* An overhang is part of the shape: a joist without is another shape. */
  LANES(i) {
    mark(out, i, (J[NS_J_overhang_left][i] > 0) != left, NS_OUT_OF_RANGE, 0,
         NS_J_overhang_left);
    mark(out, i, (J[NS_J_overhang_right][i] > 0) != right, NS_OUT_OF_RANGE, 0,
         NS_J_overhang_right);
  }
  for (int k = 0; k <= s->spans; k++) { /* 0 says that the end hangs */
    const double *restrict v = J[NS_J_bearing + k];
    LANES(i)
      mark(out, i, (v[i] != 0) & !(v[i] >= 0.5), NS_OUT_OF_RANGE, 0,
           NS_J_bearing + k);
  }
  const int optional[] = {NS_J_Ft,         NS_J_Fc,          NS_J_Fc_perp,
                          NS_J_limit_live, NS_J_limit_total, NS_J_repetitive};
  for (int k = 0; k < 6; k++) { /* 0 says that it is not there */
    const double *restrict v = J[optional[k]];
    LANES(i)
      mark(out, i, (v[i] != 0) & !(v[i] >= 1), NS_OUT_OF_RANGE, 0, optional[k]);
  }
}

/* The fields that a kind of cut reads. */
static const unsigned reads[NS_KINDS] = {
    [NS_HOLE] = 1u << NS_C_at | 1u << NS_C_diameter | 1u << NS_C_stretch,
    [NS_SLOT] = 1u << NS_C_from | 1u << NS_C_to | 1u << NS_C_height,
    [NS_NOTCH] = 1u << NS_C_from | 1u << NS_C_to | 1u << NS_C_depth |
                 1u << NS_C_overcut | 1u << NS_C_split_length |
                 1u << NS_C_taper | 1u << NS_C_accept,
    [NS_END_NOTCH] = 1u << NS_C_length | 1u << NS_C_depth | 1u << NS_C_overcut |
                     1u << NS_C_split_length | 1u << NS_C_taper |
                     1u << NS_C_accept | 1u << NS_C_seat,
    [NS_SEVER] = 1u << NS_C_from | 1u << NS_C_to,
    [NS_LOSS] = 1u << NS_C_from | 1u << NS_C_to | 1u << NS_C_top |
                1u << NS_C_bottom | 1u << NS_C_sides | 1u << NS_C_allowance |
                1u << NS_C_extend | 1u << NS_C_seat | 1u << NS_C_packed |
                1u << NS_C_seat_tolerance,
    [NS_SPLIT] = 1u << NS_C_from | 1u << NS_C_to | 1u << NS_C_at_depth,
};

/* Numbers of a cut within their ranges. */
NS_INLINE void check_cut_rows(const struct ns_shape *s, int c,
                              const struct ns_block *b, struct ns_result *out) {
  int used[NS_CUT_ROWS];
  unsigned need = reads[s->cut[c].kind];
  if (s->cut[c].place == NS_FROM_BELOW) need |= 1u << NS_C_below;
  if (s->cut[c].place == NS_FROM_ABOVE) need |= 1u << NS_C_above;
  for (int f = 0; f < NS_CUT_ROWS; f++) used[f] = (need >> f) & 1u;
  check_rows(ns_cut_fields, NS_CUT_ROWS, b->cut[c], used, 1 + c, out);
}

/* The last support, and the ends of the wood: half a bearing beyond an end
 * bearing, or the overhang. */
struct extent {
  ns_lane total, start, end;
};

/* Where a cut begins and ends along the joist. */
NS_INLINE void find_extent(const struct ns_shape *s, const struct ns_block *b,
                           struct extent *o) {
  const double(*J)[NS_LANES] = b->joist;
  const double *restrict first = J[NS_J_bearing];
  const double *restrict last = J[NS_J_bearing + s->spans];
  const bool has_left = s->left, has_right = s->right;
  ns_fill(o->total, 0);
  for (int k = 0; k < s->spans; k++)
    LANES(i) o->total[i] += J[NS_J_span + k][i];
  LANES(i) {
    const double left = has_left ? J[NS_J_overhang_left][i] : 0;
    const double right = has_right ? J[NS_J_overhang_right][i] : 0;
    const double past = right > 0 ? right : last[i] / 2;
    o->start[i] = left > 0 ? -left : -first[i] / 2;
    o->end[i] = o->total[i] + past;
  }
}

/* A cut within the joist, its end past its beginning. */
NS_INLINE void check_extent(struct ns_result *out, int part, int from_row,
                            int to_row, const double *x1, const double *x2,
                            const struct extent *e) {
  const double slack = 1e-6;
  LANES(i) {
    const bool before = !(x1[i] >= e->start[i] - slack);
    mark(out, i, !(x2[i] > x1[i]), NS_BACKWARDS, part, to_row);
    mark(out, i, before, NS_BEFORE_START, part, from_row);
    mark(out, i, !(x2[i] <= e->end[i] + slack), NS_PAST_END, part, to_row);
  }
}

/* An opening within the depth. */
NS_INLINE void check_opening(const struct ns_shape *s, int c, int size_row,
                             const double (*v)[NS_LANES], const double *d,
                             struct ns_result *out) {
  const enum ns_place place = s->cut[c].place;
  const double *restrict size = v[size_row];
  const int row = place == NS_FROM_BELOW ? NS_C_below : NS_C_above;
  const enum ns_status past =
      place == NS_FROM_BELOW ? NS_PAST_TOP : NS_PAST_BOTTOM;
  const double *restrict off = v[row];
  LANES(i) {
    mark(out, i, !(size[i] > 0), NS_OUT_OF_RANGE, 1 + c, size_row);
    mark(out, i, !(size[i] < d[i]), NS_TOO_DEEP, 1 + c, size_row);
  }
  if (place == NS_CENTRED) return;
  LANES(i) mark(out, i, !(off[i] + size[i] <= d[i] + 1e-9), past, 1 + c, row);
}

/* A notch that leaves wood. */
NS_INLINE void check_notch(int c, const double (*v)[NS_LANES], const double *d,
                           struct ns_result *out) {
  const double *restrict depth = v[NS_C_depth];
  const double *restrict overcut = v[NS_C_overcut];
  LANES(i) {
    const double deep = depth[i] + overcut[i];
    mark(out, i, !(depth[i] > 0), NS_OUT_OF_RANGE, 1 + c, NS_C_depth);
    mark(out, i, !(deep < d[i]), NS_TOO_DEEP, 1 + c, NS_C_depth);
  }
}

/* A loss that leaves wood. */
NS_INLINE void check_loss(int c, const struct ns_block *b,
                          struct ns_result *out) {
  const double(*v)[NS_LANES] = b->cut[c];
  const double(*J)[NS_LANES] = b->joist;
  LANES(i) {
    const double top = v[NS_C_top][i], bottom = v[NS_C_bottom][i];
    const double sides = v[NS_C_sides][i], more = v[NS_C_allowance][i];
    const double over = top > 0 ? more : 0, under = bottom > 0 ? more : 0;
    const double beside = sides + (sides > 0 ? more : 0);
    const double width = J[NS_J_b][i] * J[NS_J_plies][i];
    const bool deep = !(top + bottom + over + under < J[NS_J_d][i]);
    mark(out, i, deep & (bottom > 0), NS_NO_WOOD, 1 + c, NS_C_bottom);
    mark(out, i, deep, NS_NO_WOOD, 1 + c, NS_C_top);
    mark(out, i, !(2 * beside < width), NS_NO_WOOD, 1 + c, NS_C_sides);
  }
}

/* Depths of a cut, by its kind. */
NS_INLINE void check_depths(const struct ns_shape *s, int c,
                            const struct ns_block *b, struct ns_result *out) {
  const double(*v)[NS_LANES] = b->cut[c];
  const double *restrict d = b->joist[NS_J_d];
  const double *restrict at = v[NS_C_at_depth];
  switch (s->cut[c].kind) {
  case NS_HOLE:
    check_opening(s, c, NS_C_diameter, v, d, out);
    break;
  case NS_SLOT:
    check_opening(s, c, NS_C_height, v, d, out);
    break;
  case NS_NOTCH:
  case NS_END_NOTCH:
    check_notch(c, v, d, out);
    break;
  case NS_LOSS:
    check_loss(c, b, out);
    break;
  case NS_SPLIT:
    LANES(i)
      mark(out, i, !((at[i] > 0) & (at[i] < d[i])), NS_PAST_BOTTOM, 1 + c,
           NS_C_at_depth);
    break;
  case NS_SEVER:
  case NS_KINDS:
    break;
  }
}

/* An end notch between the end and the middle. */
NS_INLINE void check_end_notch(int c, const struct ns_block *b,
                               const struct extent *e, struct ns_result *out) {
  const double *restrict length = b->cut[c][NS_C_length];
  LANES(i) {
    const double half = (e->end[i] - e->start[i]) / 2;
    const bool in = (length[i] > 0) & (length[i] < half);
    mark(out, i, !in, NS_IN_BEARING, 1 + c, NS_C_length);
  }
}

/* Where a cut begins and ends. */
NS_INLINE void check_place(const struct ns_shape *s, int c,
                           const struct ns_block *b, const struct extent *e,
                           struct ns_result *out) {
  const double(*v)[NS_LANES] = b->cut[c];
  const bool hole = s->cut[c].kind == NS_HOLE;
  const int from = hole ? NS_C_at : NS_C_from, to = hole ? NS_C_at : NS_C_to;
  ns_lane x1, x2;
  if (hole)
    LANES(i) {
      const double half = v[NS_C_diameter][i] * v[NS_C_stretch][i] / 2;
      x1[i] = v[NS_C_at][i] - half;
      x2[i] = v[NS_C_at][i] + half;
    }
  else
    LANES(i) {
      x1[i] = v[NS_C_from][i];
      x2[i] = v[NS_C_to][i];
    }
  if (s->cut[c].from_right) /* both ends read from the other bearing */
    LANES(i) {
      const double y1 = e->total[i] - x2[i], y2 = e->total[i] - x1[i];
      x1[i] = y1;
      x2[i] = y2;
    }
  if (hole) /* the diameter is named by check_opening */
    LANES(i) x2[i] = !(v[NS_C_diameter][i] > 0) ? x1[i] + 1 : x2[i];
  check_extent(out, 1 + c, from, to, x1, x2, e);
}

/* Everything about one cut. */
NS_INLINE void check_cut(const struct ns_shape *s, int c,
                         const struct ns_block *b, const struct extent *e,
                         struct ns_result *out) {
  check_cut_rows(s, c, b, out);
  if (s->cut[c].kind == NS_END_NOTCH)
    check_end_notch(c, b, e, out);
  else
    check_place(s, c, b, e, out);
  check_depths(s, c, b, out);
}

/* Loads on the joist. */
NS_INLINE void check_loads(const struct ns_shape *s, const struct ns_block *b,
                           const struct extent *e, struct ns_result *out) {
  for (int l = 0; l < s->lines; l++) {
    const bool whole = s->line[l].whole;
    const int used[] = {!whole, !whole, 1, 1, s->line[l].area};
    check_rows(ns_line_fields, NS_LINE_ROWS, b->line[l], used, 101 + l, out);
    if (!whole)
      check_extent(out, 101 + l, NS_L_from, NS_L_to, b->line[l][NS_L_from],
                   b->line[l][NS_L_to], e);
  }
  for (int p = 0; p < s->points; p++) {
    const int used[] = {1, 1};
    const double *restrict x = b->point[p][NS_P_at];
    check_rows(ns_point_fields, NS_POINT_ROWS, b->point[p], used, 201 + p, out);
    LANES(i) {
      const bool before = !(x[i] >= e->start[i] - 1e-6);
      mark(out, i, before, NS_BEFORE_START, 201 + p, NS_P_at);
      mark(out, i, !(x[i] <= e->end[i] + 1e-6), NS_PAST_END, 201 + p, NS_P_at);
    }
  }
}

/* How many rows of a field a repair of that kind reads. */
static int fix_rows(const struct ns_shape *s, int row) {
  const bool beside = s->fix.kind == NS_BESIDE;
  switch (row) {
  case NS_F_station:
  case NS_F_low:
  case NS_F_high:
  case NS_F_bottom:
  case NS_F_top:
  case NS_F_lost:
    return beside ? s->fix.stations : 0;
  case NS_F_count:
    return beside ? s->fix.stations : 1;
  case NS_F_prop_at:
  case NS_F_prop:
    return s->fix.lift == NS_PROP;
  case NS_F_E:
  case NS_F_stiff:
  case NS_F_Z:
  case NS_F_C_z:
  case NS_F_rated:
    return 1;
  case NS_F_A_s:
  case NS_F_below:
  case NS_F_P_s:
  case NS_F_free:
    return !beside;
  default:
    return beside;
  }
}

/* Of the new member's wood, what its checks read. */
NS_INLINE void check_new_wood(const struct ns_block *b, struct ns_result *out) {
  int used[NS_JOIST_ROWS], count = 0;
#define X(name, rows, low, high, unit, meaning)                                \
  used[count++] = NS_J_##name == NS_J_Fb || NS_J_##name == NS_J_Fv ||          \
                  NS_J_##name == NS_J_Fc_perp || NS_J_##name == NS_J_CF ||     \
                  NS_J_##name == NS_J_wet ||                                   \
                  NS_J_##name == NS_J_temperature ||                           \
                  NS_J_##name == NS_J_incised;
  NS_JOIST_LIST(X)
#undef X
  check_rows(ns_joist_fields, count, b->other, used, 401, out);
}

/* A new member has a size, lies along the joist, and holds its rows. */
NS_INLINE void check_beside(const struct ns_shape *s, const struct ns_block *b,
                            const struct extent *e, struct ns_result *out) {
  const double(*v)[NS_LANES] = b->fix;
  const int some[] = {NS_F_b, NS_F_d, NS_F_stiff};
  const double *restrict from = v[NS_F_from], *restrict to = v[NS_F_to];
  const bool steel = s->fix.steel;
  check_extent(out, 301, NS_F_from, NS_F_to, from, to, e);
  /* Steel or wood is part of the shape: their checks differ. */
  LANES(i)
    mark(out, i, (v[NS_F_Fy][i] > 0) != steel, NS_OUT_OF_RANGE, 301, NS_F_Fy);
  for (int k = 0; k < 3; k++)
    LANES(i) mark(out, i, !(v[some[k]][i] > 0), NS_OUT_OF_RANGE, 301, some[k]);
  LANES(i) { /* the least thickness of a ply */
    const double reached = v[NS_F_reached][i];
    const bool thin = (reached != 0) & !(reached >= 0.5);
    mark(out, i, thin, NS_OUT_OF_RANGE, 301, NS_F_reached);
  }
  for (int l = 0; l < s->fix.stations; l++) {
    const double *restrict x = v[NS_F_station + l];
    const double *restrict n = v[NS_F_count + l];
    LANES(i) {
      const bool in = (x[i] >= from[i] - 1e-6) & (x[i] <= to[i] + 1e-6);
      mark(out, i, !in, NS_OUT_OF_RANGE, 301, NS_F_station + l);
      mark(out, i, !(n[i] > 0), NS_OUT_OF_RANGE, 301, NS_F_count + l);
    }
  }
}

/* A prop stands under the joist, overhangs included. */
NS_INLINE void check_prop(const struct ns_shape *s, const struct ns_block *b,
                          const struct extent *e, struct ns_result *out) {
  const double(*J)[NS_LANES] = b->joist;
  const double *restrict x = b->fix[NS_F_prop_at];
  const bool has_left = s->left, has_right = s->right;
  LANES(i) {
    const double left = has_left ? J[NS_J_overhang_left][i] : 0;
    const double right = has_right ? J[NS_J_overhang_right][i] : 0;
    const bool past = !(x[i] <= e->total[i] + right);
    mark(out, i, !(x[i] >= -left), NS_BEFORE_START, 301, NS_F_prop_at);
    mark(out, i, past, NS_PAST_END, 301, NS_F_prop_at);
  }
}

/* The repair: its numbers, and its fasteners on it. */
NS_INLINE void check_fix(const struct ns_shape *s, const struct ns_block *b,
                         const struct extent *e, struct ns_result *out) {
  int used[NS_FIX_ROWS], count = 0;
#define X(name, rows, low, high, unit, meaning)                                \
  used[count++] = fix_rows(s, NS_F_##name);
  NS_FIX_LIST(X)
#undef X
  const double *restrict A_s = b->fix[NS_F_A_s];
  check_rows(ns_fix_fields, count, b->fix, used, 301, out);
  if (s->fix.kind == NS_BESIDE) {
    check_new_wood(b, out);
    check_beside(s, b, e, out);
  } else {
    LANES(i) mark(out, i, !(A_s[i] > 0), NS_OUT_OF_RANGE, 301, NS_F_A_s);
  }
  if (s->fix.lift == NS_PROP) check_prop(s, b, e, out);
}

/* A count or the number of a word, from 0 to so many. */
static bool among(long v, long most) { return v >= 0 && v <= most; }

/* Stations of a repair, the cut that a strap bridges, its words. */
static bool fix_fits(const struct ns_shape *s) {
  if (s->fix.kind == NS_NO_FIX) return true;
  const bool words = among((long)s->fix.kind, NS_UNDER) &&
                     among((long)s->fix.member, NS_MEMBERS - 1) &&
                     among((long)s->fix.lift, NS_PROP) &&
                     among((long)s->fix.share, NS_WORST_OF);
  return words && among(s->fix.stations, NS_MAX_STATIONS) &&
         (s->fix.kind != NS_UNDER || (s->fix.cut >= 0 && s->fix.cut < s->cuts));
}

/* Counts and kinds. */
bool ns_shape_fits(const struct ns_shape *s) {
  bool fits = s->spans >= 1 && s->spans <= NS_MAX_SPANS &&
              among(s->cuts, NS_MAX_CUTS) && among(s->lines, NS_MAX_LINES) &&
              among(s->points, NS_MAX_POINTS) &&
              among(s->blocking, NS_MAX_BLOCKING);
  for (int c = 0; fits && c < s->cuts; c++)
    fits = among((long)s->cut[c].kind, NS_KINDS - 1) &&
           among((long)s->cut[c].place, NS_FROM_ABOVE) &&
           among((long)s->cut[c].cause, NS_CAUSE_CHAR);
  for (int l = 0; fits && l < s->lines; l++)
    fits = among((long)s->line[l].load_case, NS_CASES - 1);
  for (int p = 0; fits && p < s->points; p++)
    fits = among((long)s->point[p], NS_CASES - 1);
  return fits && fix_fits(s);
}

/* Status of each lane, with the part and field that it is about. */
NS_CLONES void ns_validate(const struct ns_shape *s, const struct ns_block *b,
                           struct ns_result *out) {
  struct extent e;
  ns_fill(out->status, NS_OK);
  ns_fill(out->bad_part, 0);
  ns_fill(out->bad_field, 0);
  if (!ns_shape_fits(s)) {
    ns_fill(out->status, NS_TOO_MANY);
    return;
  }
  find_extent(s, b, &e);
  check_joist(s, b, out);
  for (int c = 0; c < s->cuts; c++) check_cut(s, c, b, &e, out);
  check_loads(s, b, &e, out);
  if (s->fix.kind != NS_NO_FIX) check_fix(s, b, &e, out);
}
