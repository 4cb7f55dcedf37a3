/* SPDX-License-Identifier: MIT
 * validate.c - ranges and geometry of a block, lane by lane.
 *
 * Comparisons are written so that NaN fails them. The first thing found
 * wrong is the lane's status; bad_part says which cut, line or point it is
 * in (from 1, lines after cuts, points after lines; 0 the joist), bad_field
 * which row. Part numbers: cut c is 1 + c, line l is 101 + l, point p is
 * 201 + p, the repair is 301, the wood of its new member 401. */
#include "lanes.h"

static void mark(struct ns_result *out, int i, enum ns_status status, int part,
                 int field) {
  if (out->status[i] != NS_OK) return;
  out->status[i] = status;
  out->bad_part[i] = part;
  out->bad_field[i] = field;
}

static void check_rows(const struct ns_field *fields, int count,
                       const double (*rows)[NS_LANES], const int *used,
                       int part, struct ns_result *out) {
  int row = 0;
  for (int f = 0; f < count; row += fields[f].rows, f++)
    for (int k = 0; k < (used[f] < fields[f].rows ? used[f] : fields[f].rows);
         k++)
      LANES(i) {
        const double v = rows[row + k][i];
        if (!(v >= fields[f].low && v <= fields[f].high))
          mark(out, i, NS_OUT_OF_RANGE, part, row + k);
      }
}

/* How many rows of each joist field the shape reads, field by field. */
static void check_joist(const struct ns_shape *s, const struct ns_block *b,
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
  LANES(i) {
    const double Cr = b->joist[NS_J_repetitive][i];
    /* An overhang is part of the shape: a joist without is another shape. */
    if (s->left != (b->joist[NS_J_overhang_left][i] > 0))
      mark(out, i, NS_OUT_OF_RANGE, 0, NS_J_overhang_left);
    if (s->right != (b->joist[NS_J_overhang_right][i] > 0))
      mark(out, i, NS_OUT_OF_RANGE, 0, NS_J_overhang_right);
    const int optional[] = {NS_J_Ft, NS_J_Fc, NS_J_Fc_perp, NS_J_limit_live,
                            NS_J_limit_total};
    for (int k = 0; k < 5; k++) { /* 0 says that it is not there */
      const double v = b->joist[optional[k]][i];
      if (v != 0 && !(v >= 1)) mark(out, i, NS_OUT_OF_RANGE, 0, optional[k]);
    }
    if (Cr != 0 && !(Cr >= 1))
      mark(out, i, NS_OUT_OF_RANGE, 0, NS_J_repetitive);
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
                     1u << NS_C_accept,
    [NS_SEVER] = 1u << NS_C_from | 1u << NS_C_to,
    [NS_LOSS] = 1u << NS_C_from | 1u << NS_C_to | 1u << NS_C_top |
                1u << NS_C_bottom | 1u << NS_C_sides | 1u << NS_C_allowance |
                1u << NS_C_extend,
    [NS_SPLIT] = 1u << NS_C_from | 1u << NS_C_to | 1u << NS_C_at_depth,
};

static void check_cut_rows(const struct ns_shape *s, int c,
                           const struct ns_block *b, struct ns_result *out) {
  int used[NS_CUT_ROWS];
  unsigned need = reads[s->cut[c].kind];
  if (s->cut[c].place == NS_FROM_BELOW) need |= 1u << NS_C_below;
  if (s->cut[c].place == NS_FROM_ABOVE) need |= 1u << NS_C_above;
  for (int f = 0; f < NS_CUT_ROWS; f++) used[f] = (need >> f) & 1u;
  check_rows(ns_cut_fields, NS_CUT_ROWS, b->cut[c], used, 1 + c, out);
}

static double total_span(const struct ns_shape *s, const struct ns_block *b,
                         int i) {
  double L = 0;
  for (int k = 0; k < s->spans; k++) L += b->joist[NS_J_span + k][i];
  return L;
}

/* Ends of the wood: half a bearing beyond an end bearing, or the overhang. */
static void ends(const struct ns_shape *s, const struct ns_block *b, int i,
                 double *start, double *end) {
  const double L = total_span(s, b, i);
  const double left = s->left ? b->joist[NS_J_overhang_left][i] : 0;
  const double right = s->right ? b->joist[NS_J_overhang_right][i] : 0;
  *start = left > 0 ? -left : -b->joist[NS_J_bearing][i] / 2;
  *end = L + (right > 0 ? right : b->joist[NS_J_bearing + s->spans][i] / 2);
}

static void check_extent(struct ns_result *out, int i, int part, int from_row,
                         int to_row, double x1, double x2, double start,
                         double end) {
  const double slack = 1e-6;
  if (!(x2 > x1)) mark(out, i, NS_BACKWARDS, part, to_row);
  if (!(x1 >= start - slack)) mark(out, i, NS_BEFORE_START, part, from_row);
  if (!(x2 <= end + slack)) mark(out, i, NS_PAST_END, part, to_row);
}

static void check_opening(const struct ns_shape *s, int c, double size,
                          int size_row, const double (*v)[NS_LANES], double d,
                          int i, struct ns_result *out) {
  const enum ns_place place = s->cut[c].place;
  if (!(size > 0)) mark(out, i, NS_OUT_OF_RANGE, 1 + c, size_row);
  if (!(size < d)) mark(out, i, NS_TOO_DEEP, 1 + c, size_row);
  if (place == NS_FROM_BELOW && !(v[NS_C_below][i] + size <= d + 1e-9))
    mark(out, i, NS_PAST_TOP, 1 + c, NS_C_below);
  if (place == NS_FROM_ABOVE && !(v[NS_C_above][i] + size <= d + 1e-9))
    mark(out, i, NS_PAST_BOTTOM, 1 + c, NS_C_above);
}

static void check_depths(const struct ns_shape *s, int c,
                         const struct ns_block *b, int i,
                         struct ns_result *out) {
  const double(*v)[NS_LANES] = b->cut[c];
  const double d = b->joist[NS_J_d][i];
  const double deep = v[NS_C_depth][i] + v[NS_C_overcut][i];
  const double lost = v[NS_C_top][i] + v[NS_C_bottom][i];
  const double more = v[NS_C_allowance][i];
  switch (s->cut[c].kind) {
  case NS_HOLE:
    check_opening(s, c, v[NS_C_diameter][i], NS_C_diameter, v, d, i, out);
    break;
  case NS_SLOT:
    check_opening(s, c, v[NS_C_height][i], NS_C_height, v, d, i, out);
    break;
  case NS_NOTCH:
  case NS_END_NOTCH:
    if (!(v[NS_C_depth][i] > 0))
      mark(out, i, NS_OUT_OF_RANGE, 1 + c, NS_C_depth);
    if (!(deep < d)) mark(out, i, NS_TOO_DEEP, 1 + c, NS_C_depth);
    break;
  case NS_LOSS:
    if (!(lost + (v[NS_C_top][i] > 0 ? more : 0) +
              (v[NS_C_bottom][i] > 0 ? more : 0) <
          d))
      mark(out, i, NS_NO_WOOD, 1 + c,
           v[NS_C_bottom][i] > 0 ? NS_C_bottom : NS_C_top);
    if (!(2 * (v[NS_C_sides][i] + (v[NS_C_sides][i] > 0 ? more : 0)) <
          b->joist[NS_J_b][i] * b->joist[NS_J_plies][i]))
      mark(out, i, NS_NO_WOOD, 1 + c, NS_C_sides);
    break;
  case NS_SPLIT:
    if (!(v[NS_C_at_depth][i] > 0 && v[NS_C_at_depth][i] < d))
      mark(out, i, NS_PAST_BOTTOM, 1 + c, NS_C_at_depth);
    break;
  case NS_SEVER:
  case NS_KINDS:
    break;
  }
}

static void check_cut(const struct ns_shape *s, int c, const struct ns_block *b,
                      struct ns_result *out) {
  check_cut_rows(s, c, b, out);
  LANES(i) {
    const double(*v)[NS_LANES] = b->cut[c];
    double start, end, x1, x2;
    int from = NS_C_from, to = NS_C_to;
    ends(s, b, i, &start, &end);
    if (s->cut[c].kind == NS_END_NOTCH) {
      if (!(v[NS_C_length][i] > 0 && v[NS_C_length][i] < (end - start) / 2))
        mark(out, i, NS_IN_BEARING, 1 + c, NS_C_length);
    } else {
      if (s->cut[c].kind == NS_HOLE) {
        const double half = v[NS_C_diameter][i] * v[NS_C_stretch][i] / 2;
        x1 = v[NS_C_at][i] - half;
        x2 = v[NS_C_at][i] + half;
        from = to = NS_C_at;
      } else {
        x1 = v[NS_C_from][i];
        x2 = v[NS_C_to][i];
      }
      if (s->cut[c].from_right) { /* both ends read from the other bearing */
        const double L = total_span(s, b, i), y1 = L - x2;
        x2 = L - x1;
        x1 = y1;
      }
      if (s->cut[c].kind == NS_HOLE && !(v[NS_C_diameter][i] > 0))
        x2 = x1 + 1; /* the diameter is named by check_opening */
      check_extent(out, i, 1 + c, from, to, x1, x2, start, end);
    }
    check_depths(s, c, b, i, out);
  }
}

static void check_loads(const struct ns_shape *s, const struct ns_block *b,
                        struct ns_result *out) {
  for (int l = 0; l < s->lines; l++) {
    const bool whole = s->line[l].whole;
    const int used[] = {!whole, !whole, 1, 1, s->line[l].area};
    check_rows(ns_line_fields, NS_LINE_ROWS, b->line[l], used, 101 + l, out);
    LANES(i) {
      double start, end;
      ends(s, b, i, &start, &end);
      if (!whole)
        check_extent(out, i, 101 + l, NS_L_from, NS_L_to,
                     b->line[l][NS_L_from][i], b->line[l][NS_L_to][i], start,
                     end);
    }
  }
  for (int p = 0; p < s->points; p++) {
    const int used[] = {1, 1};
    check_rows(ns_point_fields, NS_POINT_ROWS, b->point[p], used, 201 + p, out);
    LANES(i) {
      double start, end;
      ends(s, b, i, &start, &end);
      const double x = b->point[p][NS_P_at][i];
      if (!(x >= start - 1e-6)) mark(out, i, NS_BEFORE_START, 201 + p, NS_P_at);
      if (!(x <= end + 1e-6)) mark(out, i, NS_PAST_END, 201 + p, NS_P_at);
    }
  }
}

/* How many rows of a field a repair of that kind reads. */
static int fix_rows(const struct ns_shape *s, int row) {
  const bool beside = s->fix.kind == NS_BESIDE;
  switch (row) {
  case NS_F_station:
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
  case NS_F_block:
    return !beside;
  default:
    return beside;
  }
}

/* Of the new member's wood, what its checks read. */
static void check_new_wood(const struct ns_block *b, struct ns_result *out) {
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
static void check_beside(const struct ns_shape *s, const struct ns_block *b,
                         int i, struct ns_result *out) {
  const double(*v)[NS_LANES] = b->fix;
  const int some[] = {NS_F_b, NS_F_d, NS_F_stiff};
  double start, end;
  ends(s, b, i, &start, &end);
  check_extent(out, i, 301, NS_F_from, NS_F_to, v[NS_F_from][i], v[NS_F_to][i],
               start, end);
  /* Steel or wood is part of the shape: their checks differ. */
  if (s->fix.steel != (v[NS_F_Fy][i] > 0))
    mark(out, i, NS_OUT_OF_RANGE, 301, NS_F_Fy);
  for (int k = 0; k < 3; k++)
    if (!(v[some[k]][i] > 0)) mark(out, i, NS_OUT_OF_RANGE, 301, some[k]);
  for (int l = 0; l < s->fix.stations; l++) {
    const double x = v[NS_F_station + l][i];
    if (!(x >= v[NS_F_from][i] - 1e-6 && x <= v[NS_F_to][i] + 1e-6))
      mark(out, i, NS_OUT_OF_RANGE, 301, NS_F_station + l);
    if (!(v[NS_F_count + l][i] > 0))
      mark(out, i, NS_OUT_OF_RANGE, 301, NS_F_count + l);
  }
}

static void check_fix(const struct ns_shape *s, const struct ns_block *b,
                      struct ns_result *out) {
  int used[NS_FIX_ROWS], count = 0;
#define X(name, rows, low, high, unit, meaning)                                \
  used[count++] = fix_rows(s, NS_F_##name);
  NS_FIX_LIST(X)
#undef X
  check_rows(ns_fix_fields, count, b->fix, used, 301, out);
  if (s->fix.kind == NS_BESIDE) check_new_wood(b, out);
  LANES(i) {
    const double(*v)[NS_LANES] = b->fix;
    const double left = s->left ? b->joist[NS_J_overhang_left][i] : 0;
    const double right = s->right ? b->joist[NS_J_overhang_right][i] : 0;
    const double x = v[NS_F_prop_at][i];
    if (s->fix.kind == NS_BESIDE)
      check_beside(s, b, i, out);
    else if (!(v[NS_F_A_s][i] > 0))
      mark(out, i, NS_OUT_OF_RANGE, 301, NS_F_A_s);
    if (s->fix.lift != NS_PROP) continue;
    if (!(x >= -left)) mark(out, i, NS_BEFORE_START, 301, NS_F_prop_at);
    if (!(x <= total_span(s, b, i) + right))
      mark(out, i, NS_PAST_END, 301, NS_F_prop_at);
  }
}

/* More than there is room for, or a strap under a cut that is not there. */
static bool fix_fits(const struct ns_shape *s) {
  if (s->fix.kind == NS_NO_FIX) return true;
  return s->fix.stations >= 0 && s->fix.stations <= NS_MAX_STATIONS &&
         (s->fix.kind != NS_UNDER || (s->fix.cut >= 0 && s->fix.cut < s->cuts));
}

void ns_validate(const struct ns_shape *s, const struct ns_block *b,
                 struct ns_result *out) {
  ns_fill(out->status, NS_OK);
  ns_fill(out->bad_part, 0);
  ns_fill(out->bad_field, 0);
  if (s->spans < 1 || s->spans > NS_MAX_SPANS || s->cuts > NS_MAX_CUTS ||
      s->lines > NS_MAX_LINES || s->points > NS_MAX_POINTS ||
      s->blocking > NS_MAX_BLOCKING || !fix_fits(s)) {
    ns_fill(out->status, NS_TOO_MANY);
    return;
  }
  check_joist(s, b, out);
  for (int c = 0; c < s->cuts; c++) check_cut(s, c, b, out);
  check_loads(s, b, out);
  if (s->fix.kind != NS_NO_FIX) check_fix(s, b, out);
}
