/* SPDX-License-Identifier: MIT
 * rules.c - a code's prescriptive limits, the standard's own gate, and what
 * the two and the ratios come to.
 *
 * A pack is rows of numbers; each row is read at every cut of its kinds. The
 * gate of the standard, what it does not permit of notches in tension and of
 * cuts in the middle third, stands apart from any pack. */
#include <math.h>

#include "rules/decide.h"

static const double slack = 1e-6; /* 2 in of 8 in is d/4, whatever the bits */

/* Another cut of the kinds that hole-to-hole and hole-to-notch limits read. */
NS_INLINE bool is_opening(const struct ns_work *w, int c) {
  return w->shape->cut[c].kind == NS_HOLE || w->shape->cut[c].kind == NS_SLOT;
}
/* Whether a cut is a notch or an end notch. */
NS_INLINE bool is_notch(const struct ns_work *w, int c) {
  return w->shape->cut[c].kind == NS_NOTCH ||
         w->shape->cut[c].kind == NS_END_NOTCH;
}

/* Distance to the nearest other opening or notch; 1e6 where there is none. */
NS_INLINE void clear_to(const struct ns_work *w, int c, bool notches,
                        double *restrict out) {
  ns_fill(out, 1e6);
  for (int e = 0; e < w->shape->cuts; e++) {
    if (e == c || !(notches ? is_notch(w, e) : is_opening(w, e))) continue;
    const double *restrict apart = w->apart[e < c ? e : c][e < c ? c : e];
    LANES(i) out[i] = ns_min(out[i], apart[i]);
  }
}

/* Length along the joist, as described. */
NS_INLINE void length_of(const struct ns_work *w, int c, double *restrict out) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  const double(*v)[NS_LANES] = w->in.cut[c];
  const enum ns_kind kind = w->shape->cut[c].kind;
  if (kind == NS_END_NOTCH)
    ns_copy(out, v[NS_C_length]);
  else if (kind == NS_HOLE)
    LANES(i) out[i] = g->x2[i] - g->x1[i];
  else
    LANES(i) out[i] = v[NS_C_to][i] - v[NS_C_from][i];
}

/* Diameter along the joist, or the longer side of a slot. */
NS_INLINE void size_of(const struct ns_work *w, int c, double *restrict out) {
  const enum ns_kind kind = w->shape->cut[c].kind;
  const double *restrict size = w->cut[c].size;
  ns_lane length;
  length_of(w, c, length);
  if (kind == NS_HOLE || kind == NS_SLOT)
    LANES(i) out[i] = ns_max(size[i], length[i]);
  else
    LANES(i) out[i] = ns_max(size[i], 0);
}

/* Thickness where the face is in tension, else nil. */
NS_INLINE void thickness_if_torn(const struct ns_work *w, int c,
                                 double *restrict out) {
  const double *restrict in_tension =
      w->demand[c].in_tension[w->shape->cut[c].top];
  const double *restrict b = w->in.joist[NS_J_b];
  LANES(i) out[i] = in_tension[i] != 0 ? b[i] : 0;
}

/* Distance between the centers of this opening and the one that comes nearest
 * to breaking "times the larger size"; that size. 1e6 where there is none. */
NS_INLINE void centers_of(const struct ns_work *w, int c, double times,
                          double *restrict out, double *restrict larger) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  ns_lane own;
  size_of(w, c, own);
  ns_fill(out, 1e6);
  ns_copy(larger, own);
  for (int e = 0; e < w->shape->cuts; e++) {
    if (e == c || !is_opening(w, e)) continue;
    const struct ns_cut_geometry *restrict o = &w->cut[e];
    ns_lane size;
    size_of(w, e, size);
    LANES(i) {
      const double dx = (o->x1[i] + o->x2[i] - g->x1[i] - g->x2[i]) / 2;
      const double dy = (o->y1[i] + o->y2[i] - g->y1[i] - g->y2[i]) / 2;
      const double apart = sqrt(dx * dx + dy * dy);
      const double D = ns_max(own[i], size[i]);
      const bool worse = apart - times * D < out[i] - times * larger[i];
      larger[i] = worse ? D : larger[i];
      out[i] = worse ? apart : out[i];
    }
  }
}

/* Clear distance along the joist to the nearest notch; 1e6: there is none. */
NS_INLINE void clear_along(const struct ns_work *w, int c,
                           double *restrict out) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  ns_fill(out, 1e6);
  for (int e = 0; e < w->shape->cuts; e++) {
    if (e == c || !is_notch(w, e)) continue;
    const double *restrict x1 = w->cut[e].x1, *restrict x2 = w->cut[e].x2;
    LANES(i) {
      const double gap = ns_max(x1[i] - g->x2[i], g->x1[i] - x2[i]);
      out[i] = ns_min(out[i], ns_max(gap, 0));
    }
  }
}

/* Nearest edge of a cut from the nearer support of its span; and its farthest
 * edge from the edge of that support's bearing. */
NS_INLINE void zone_of(const struct ns_work *w, int c, bool first,
                       double *restrict out) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  ns_lane A = {0};
  ns_fill(out, 0);
  for (int j = 0; j < w->shape->spans; j++) {
    const double *restrict span = w->in.joist[NS_J_span + j];
    const double *restrict l_b = w->in.joist[NS_J_bearing + j];
    const double *restrict r_b = w->in.joist[NS_J_bearing + j + 1];
    LANES(i) {
      const double B = A[i] + span[i];
      const bool in = (g->xc[i] >= A[i]) & (g->xc[i] <= B);
      const double left = g->x2[i] - A[i], right = B - g->x1[i];
      const double far = ns_min(left - l_b[i] / 2, right - r_b[i] / 2);
      const double near = ns_min(g->x1[i] - A[i], B - g->x2[i]);
      out[i] = in ? (first ? near : far) : out[i];
      A[i] = B;
    }
  }
}

/* Center of a cut from mid-depth. */
NS_INLINE void off_axis(const struct ns_work *w, int c, double *restrict out) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  const double *restrict depth = w->depth;
  LANES(i) out[i] = ns_abs((g->y1[i] + g->y2[i]) / 2 - depth[i] / 2);
}

/* What a limit measures of a cut, and the size that of_size multiplies. */
NS_INLINE void measure_cut(const struct ns_work *w, int c,
                           const struct ns_rule *r, double *restrict out,
                           double *restrict size) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  const double *restrict depth = w->depth;
  const enum ns_measure m = r->measure;
  size_of(w, c, size);
  switch (m) {
  case NS_CENTERS:
    centers_of(w, c, r->of_size, out, size);
    break;
  case NS_CLEAR_ALONG:
    clear_along(w, c, out);
    break;
  case NS_FIRST:
  case NS_FROM_BEARING:
    zone_of(w, c, m == NS_FIRST, out);
    break;
  case NS_OFF_AXIS:
    off_axis(w, c, out);
    break;
  case NS_CLEAR_HOLE:
  case NS_CLEAR_NOTCH:
    clear_to(w, c, m == NS_CLEAR_NOTCH, out);
    break;
  case NS_DEPTH:
    ns_copy(out, g->size);
    break;
  case NS_LENGTH:
    length_of(w, c, out);
    break;
  case NS_SIZE:
    size_of(w, c, out);
    break;
  case NS_EDGE_BELOW:
    ns_copy(out, g->y1);
    break;
  case NS_EDGE_ABOVE:
    LANES(i) out[i] = depth[i] - g->y2[i];
    break;
  case NS_PAST_FACE:
    ns_copy(out, w->past[c]);
    break;
  case NS_REACH:
    ns_copy(out, w->reach[c]);
    break;
  default:
    thickness_if_torn(w, c, out);
  }
}

/* A row for an item; null where the result is full (ns_rules_fit says before
 * that it cannot be). */
NS_INLINE struct ns_item *add_item(struct ns_work *w, int rule, int cut,
                                   int support) {
  if (w->out->items >= NS_MAX_ITEMS) return NULL;
  struct ns_item *o = &w->out->item[w->out->items++];
  o->rule = rule;
  o->cut = cut;
  o->support = support;
  ns_fill(o->on, 1);
  return o;
}

/* limit = min(of_d d + of_L L + of_size D + plus, cap). */
NS_INLINE void judge(const struct ns_work *w, const struct ns_rule *r,
                     const double *restrict L, const double *restrict size,
                     struct ns_item *restrict o) {
  const double *restrict depth = w->depth;
  const double of_d = r->of_d, of_L = r->of_L, plus = r->plus, cap = r->cap;
  const double of_size = r->of_size, way = r->at_least ? -1 : 1;
  const bool allowed = !r->forbidden;
  LANES(i) {
    const double sum = of_d * depth[i] + of_L * L[i] + plus;
    const double limit = ns_min(sum + of_size * size[i], cap);
    const bool met = way * (o->measured[i] - limit) <= slack;
    o->limit[i] = limit;
    o->ok[i] = allowed & met ? 1 : 0;
  }
}

/* An end that rotted or burnt away is no cut. */
NS_INLINE bool decayed(const struct ns_work *w, int c) {
  return w->shape->cut[c].kind == NS_SEVER &&
         w->shape->cut[c].cause != NS_CAUSE_OTHER;
}

/* Whether a pack is about this cut: its kind, a joist of that depth, and not
 * on an overhang nor where some load makes M < 0. */
NS_INLINE void covered_by(const struct ns_work *w, const struct ns_rules *rules,
                          int p, int c, double *restrict on) {
  const struct ns_cut_result *o = &w->out->cuts[c];
  const bool listed = rules->covers[p] >> w->shape->cut[c].kind & 1u;
  const bool kind = listed && !decayed(w, c);
  const bool end = w->shape->cut[c].kind == NS_END_NOTCH;
  const double *restrict xc = w->cut[c].xc, *restrict total = w->total;
  const double *restrict depth = w->depth;
  const double deepest = rules->covers_depth[p];
  const bool hogging = rules->covers_hogging[p];
  LANES(i) {
    const double x = xc[i];
    const bool over = (!end) & ((x < 0) | (x > total[i]));
    const bool hogs = o->M[1][i]<-1e-6, deep = depth[i]> deepest + slack;
    const bool apart = ((over | hogs) & !hogging) | deep;
    on[i] = kind & !apart ? 1 : 0;
  }
}

/* A limit of notches alone, which an end notch that runs far past its bearing
 * meets as well. */
NS_INLINE bool for_notches(const struct ns_rule *r) {
  return (r->kinds >> NS_NOTCH & 1u) && !(r->kinds >> NS_END_NOTCH & 1u);
}

/* Whether a limit is about a cut: its kind and its face. */
NS_INLINE bool applies(const struct ns_work *w, const struct ns_rule *r,
                       int c) {
  const unsigned face =
      w->shape->cut[c].top ? NS_TOP_FACE : (unsigned)NS_BOTTOM_FACE;
  const bool faced = r->faces == 0 || (is_notch(w, c) && (r->faces & face));
  const bool long_ = w->shape->cut[c].kind == NS_END_NOTCH && for_notches(r) &&
                     ns_any(w->as_notch[c]);
  if (decayed(w, c)) return false;
  return ((r->kinds >> w->shape->cut[c].kind & 1u) || long_) && faced;
}

/* All rows of the packs that are about a cut. */
NS_INLINE void read_cut(struct ns_work *w, const struct ns_rules *rules,
                        int c) {
  struct ns_cut_result *restrict cut = &w->out->cuts[c];
  double *restrict within = w->out->within;
  ns_lane by[NS_MAX_PACKS], size;
  ns_fill(cut->covered, 0);
  ns_fill(cut->within, 1);
  for (int p = 0; p < rules->packs; p++) {
    double *restrict on = by[p];
    covered_by(w, rules, p, c, on);
    LANES(i) cut->covered[i] = on[i] != 0 ? 1 : cut->covered[i];
  }
  for (int r = 0; r < rules->count; r++) {
    const struct ns_rule *rule = &rules->rule[r];
    if (!applies(w, rule, c)) continue;
    struct ns_item *o = add_item(w, r, c, -1);
    if (!o) break;
    const double *restrict on = by[rule->pack];
    measure_cut(w, c, rule, o->measured, size);
    judge(w, rule, w->held_by[c], size, o);
    if (w->shape->cut[c].kind == NS_END_NOTCH && for_notches(rule))
      LANES(i) {
        o->on[i] = w->as_notch[c][i];
        o->ok[i] = o->on[i] != 0 ? o->ok[i] : 1;
      }
    LANES(i) {
      const bool fails = (o->ok[i] == 0) & (on[i] != 0);
      cut->within[i] = fails ? 0 : cut->within[i];
    }
  }
  LANES(i) {
    const bool cover = cut->covered[i] != 0;
    const bool fails = cover & (cut->within[i] == 0);
    const double unknown = within[i] == 1 ? -1 : within[i];
    cut->within[i] = cover ? cut->within[i] : 0;
    within[i] = fails ? 0 : cover ? within[i] : unknown;
  }
}

/* Whether the limits of all packs have room. */
bool ns_rules_fit(const struct ns_rules *rules) {
  int rows[NS_KINDS] = {0}, bearings = 0, most = 0;
  for (int r = 0; r < rules->count; r++) {
    const struct ns_rule *rule = &rules->rule[r];
    bearings += rule->measure == NS_BEARING_LENGTH;
    rows[NS_END_NOTCH] += for_notches(rule);
    for (int k = 0; k < NS_KINDS; k++) rows[k] += (int)(rule->kinds >> k & 1u);
  }
  for (int k = 0; k < NS_KINDS; k++) most = rows[k] > most ? rows[k] : most;
  return most * NS_MAX_CUTS + bearings * NS_MAX_SUPPORTS <= NS_MAX_ITEMS;
}

/* Each limit measured at each cut and bearing; within, outside or not
 * covered. */
NS_CLONES void ns_read_rules(struct ns_work *w, const struct ns_rules *rules) {
  struct ns_result *out = w->out;
  ns_lane none;
  ns_fill(none, 0);
  ns_fill(out->within, 1);
  for (int c = 0; c < w->shape->cuts; c++) read_cut(w, rules, c);
  for (int r = 0; r < rules->count; r++) {
    if (rules->rule[r].measure != NS_BEARING_LENGTH) continue;
    for (int j = 0; j <= w->shape->spans; j++) {
      struct ns_item *o = add_item(w, r, -1, j);
      if (!o) break;
      ns_copy(o->measured, w->seat[j]);
      judge(w, &rules->rule[r], none, none, o);
    }
  }
}

/* What the gate reads of a cut, lane by lane. */
struct gate {
  ns_lane size, in_tension, thin;
};

/* An opening whose lip is too thin is a notch from its far edge. */
NS_INLINE void gate_of_hole(const struct ns_work *w, int c,
                            struct gate *restrict o) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  const struct ns_demand *restrict q = &w->demand[c];
  const double *restrict depth = w->depth;
  LANES(i) {
    const bool thin_b = q->below[i] != 0, thin_t = q->above[i] != 0;
    const double from_top = depth[i] - g->y1[i], y2 = g->y2[i];
    o->size[i] = thin_b ? y2 : thin_t ? from_top : g->size[i];
    o->in_tension[i] = q->tension_notch[i];
    o->thin[i] = thin_b | thin_t ? 1 : 0;
  }
}

/* What the gate reads of a notch: its size, its face. */
NS_INLINE void gate_of_notch(const struct ns_work *w, int c, struct gate *o) {
  const struct ns_demand *q = &w->demand[c];
  ns_copy(o->size, w->cut[c].size);
  ns_copy(o->in_tension, q->in_tension[w->shape->cut[c].top]);
  ns_copy(o->thin, w->as_notch[c]);
  if (w->shape->cut[c].kind == NS_NOTCH) ns_fill(o->thin, 1);
}

/* A loss by a bearing is an end notch of its depth. */
NS_INLINE void gate_of_loss(const struct ns_work *w, int c, struct gate *o) {
  const double(*v)[NS_LANES] = w->in.cut[c];
  ns_fill(o->in_tension, 0);
  ns_fill(o->thin, 0);
  ns_fill(o->size, 0);
  for (int j = 0; j <= w->shape->spans; j++)
    LANES(i) {
      const double more = v[NS_C_allowance][i];
      const double t = v[NS_C_top][i] > 0 ? v[NS_C_top][i] + more : 0;
      const double b = v[NS_C_bottom][i] > 0 ? v[NS_C_bottom][i] + more : 0;
      const double deep = w->near[c][j][i] != 0 ? ns_max(t, b) : 0;
      o->size[i] = ns_max(o->size[i], deep);
    }
}

/* What the standard does not permit at a notch, or at an opening whose lip is
 * too thin to count and which is a notch from its far edge; cut through; an
 * opening taller than the net section is trusted for. */
NS_INLINE void read_gate(struct ns_work *w, int c,
                         const struct gate *restrict n) {
  const struct ns_standard s = *w->standard;
  const struct ns_section *restrict net = &w->section[c];
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  struct ns_cut_result *restrict o = &w->out->cuts[c];
  double *restrict never = w->out->cut.not_permitted;
  const enum ns_kind kind = w->shape->cut[c].kind;
  const bool single =
      w->shape->spans == 1 && !w->shape->left && !w->shape->right;
  const bool sever = kind == NS_SEVER, end_cut = kind == NS_END_NOTCH;
  const bool hole = kind == NS_HOLE || kind == NS_SLOT;
  const bool ends = end_cut || kind == NS_LOSS;
  const bool notch = end_cut || kind == NS_NOTCH, wood = kind < NS_SEVER;
  const double *restrict depth = w->depth, *restrict b = w->in.joist[NS_J_b];
  const double *restrict L = w->held_by[c], *restrict reach = w->reach[c];
  const double *restrict accept = w->in.cut[c][NS_C_accept];
  LANES(i) {
    const double d = depth[i];
    const bool in_tension = n->in_tension[i] != 0, inner = n->thin[i] != 0;
    const bool thick = b[i] >= s.thick - slack;
    const bool middle = reach[i] > L[i] * s.outer_part + slack;
    const bool deep_end = n->size[i] > s.end_notch * d + slack;
    const bool deep = n->size[i] > s.inner_notch * d + slack;
    const bool tall = hole & (g->size[i] > s.tested_hole * d + slack);
    const bool unruled = s.no_rule & (hole | (inner & in_tension));
    const double said = unruled ? NS_GATE_NO_RULE : NS_GATE_NONE;
    const double test = tall ? NS_GATE_TALL_OPENING : said;
    const double tension = inner & in_tension & thick ? NS_GATE_TENSION : test;
    const double place = inner & middle ? NS_GATE_MIDDLE : tension;
    const double simple =
        inner & !single & !s.any_span ? NS_GATE_NOT_SIMPLE : place;
    const double depths = inner & deep ? NS_GATE_DEPTH : simple;
    const double end = ends & deep_end ? NS_GATE_END_DEPTH : depths;
    const double all = sever ? NS_GATE_SEVERED : end;
    const bool can = notch & (all != NS_GATE_NONE);
    const bool asked = (accept[i] != 0) & can & !(inner & middle & in_tension);
    const bool gone = wood & (net->h_b[i] + net->h_m[i] + net->h_t[i] <= 0);
    const double gate = gone ? NS_GATE_SEVERED : all;
    const bool stops = (gate != NS_GATE_NONE) & (gate < NS_GATE_TALL_OPENING);
    o->gate[i] = gate;
    o->accepted[i] = asked ? 1 : 0;
    never[i] = stops & !asked ? 1 : never[i];
    o->merged[i] = g->merged[i] != 0 ? 1 + g->leader[i] : 0;
    o->near[i] = g->near[i];
    o->middle[i] = middle ? 1 : 0;
    o->weight[i] = g->weight[i];
  }
}

/* What the standard does not permit, cut by cut. */
NS_CLONES void ns_read_gate(struct ns_work *w) {
  for (int c = 0; c < w->shape->cuts; c++) {
    const enum ns_kind kind = w->shape->cut[c].kind;
    const struct ns_cut_geometry *g = &w->cut[c];
    struct ns_cut_result *o = &w->out->cuts[c];
    struct gate n;
    if (kind == NS_HOLE || kind == NS_SLOT)
      gate_of_hole(w, c, &n);
    else if (kind == NS_LOSS)
      gate_of_loss(w, c, &n);
    else
      gate_of_notch(w, c, &n);
    read_gate(w, c, &n);
    ns_copy(o->as_notch, w->as_notch[c]);
    ns_copy(o->x1, g->w1);
    ns_copy(o->x2, g->w2);
    ns_copy(o->y1, g->v1);
    ns_copy(o->y2, g->v2);
    ns_copy(o->own[0], g->x1);
    ns_copy(o->own[1], g->x2);
    ns_copy(o->own[2], g->y1);
    ns_copy(o->own[3], g->y2);
  }
}

/* Whether an opening is past what net section is trusted for, a notch was
 * accepted, and a value is missing that a tie or a strut would read. */
NS_INLINE void read_openings(const struct ns_work *w, int c,
                             double *restrict unaided,
                             double *restrict accepted,
                             double *restrict needs) {
  const struct ns_cut_result *restrict o = &w->out->cuts[c];
  const struct ns_demand *restrict q = &w->demand[c];
  const double *restrict Ft = w->in.joist[NS_J_Ft];
  const double *restrict Fc = w->in.joist[NS_J_Fc];
  const double *restrict below = o->tau[0], *restrict above = o->tau[1];
  const double *restrict low = q->in_tension[0], *restrict high =
                                                     q->in_tension[1];
  LANES(i) {
    const bool tall = o->gate[i] == NS_GATE_TALL_OPENING;
    const bool under = below[i] > 0, over = above[i] > 0;
    const bool sags = low[i] != 0, hogs = high[i] != 0;
    const bool tie = (under & sags) | (over & hogs);
    const bool strut = (over & sags) | (under & hogs);
    const bool lacks = (tie & (Ft[i] <= 0)) | (strut & (Fc[i] <= 0));
    unaided[i] = tall ? 1 : unaided[i];
    accepted[i] = o->accepted[i] != 0 ? 1 : accepted[i];
    needs[i] = lacks ? 1 : needs[i];
  }
}

/* An end without a seat stands on nothing: as one that is cut through. */
NS_INLINE void read_seats(struct ns_work *w) {
  struct ns_result *out = w->out;
  double *restrict never = out->cut.not_permitted;
  ns_fill(out->no_seat, 0);
  for (int j = 0; j <= w->shape->spans; j++) {
    ns_copy(out->seat[j], w->seat[j]);
    LANES(i) {
      const bool none = !(w->seat[j][i] > 0);
      out->no_seat[i] = none ? 1 : out->no_seat[i];
      never[i] = none ? 1 : never[i];
    }
  }
}

/* A bearing that lifts under the dead load alone. */
NS_INLINE void find_lifting(const struct ns_work *w,
                            const struct ns_state *state,
                            double *restrict lifts) {
  ns_fill(lifts, 0);
  for (int j = 0; j <= w->shape->spans; j++)
    LANES(i) lifts[i] = state->reaction[j][2][i] < -1e-6 ? 1 : lifts[i];
}

/* A cut for which the standard has no rule: outside the rule pack too, nobody
 * has said that its net section is enough. */
NS_INLINE void find_unruled(const struct ns_work *w, double *restrict unruled) {
  ns_fill(unruled, 0);
  for (int c = 0; c < w->shape->cuts; c++)
    LANES(i) {
      const bool here = w->out->cuts[c].gate[i] == NS_GATE_NO_RULE;
      unruled[i] = here ? 1 : unruled[i];
    }
}

/* The action table. A joist that only sags too far is a decision, not a
 * repair, and so is one that lifts under its dead load; one that lacks a value
 * for a check that binds is referred. */
NS_CLONES void ns_decide(struct ns_work *w) {
  struct ns_result *out = w->out;
  const bool cuts = w->shape->cuts > 0;
  ns_lane barred, unaided, accepted, needs, lifts, unruled;
  find_lifting(w, cuts ? &out->cut : &out->uncut, lifts);
  ns_fill(unaided, 0);
  ns_fill(accepted, 0);
  ns_fill(needs, 0);
  find_unruled(w, unruled);
  read_seats(w);
  ns_copy(barred, out->cut.not_permitted);
  for (int c = 0; c < w->shape->cuts; c++)
    read_openings(w, c, unaided, accepted, needs);
  const double *restrict strength =
      cuts ? out->cut.strength : out->uncut.strength;
  const double *restrict ratio = cuts ? out->cut.ratio : out->uncut.ratio;
  LANES(i) {
    const double full = 1 + 1e-9;
    const bool weak = strength[i] > full, over = ratio[i] > full;
    const bool within = (out->within[i] == 1) & (accepted[i] == 0);
    const bool stopped = (barred[i] != 0) | (cuts & (unaided[i] != 0));
    const double inside = over ? NS_DECIDE : NS_LEAVE;
    const double outside = weak ? NS_REPAIR : over ? NS_DECIDE : NS_JUSTIFY;
    const double action = within | !cuts ? inside : outside;
    const bool fine = (action == NS_LEAVE) | (action == NS_JUSTIFY);
    const bool gap = (unruled[i] != 0) & (action == NS_JUSTIFY);
    const double ruled = gap ? NS_REFER : action;
    const double held = fine & !gap & (lifts[i] != 0) ? NS_DECIDE : ruled;
    const double refer = (needs[i] != 0) & !weak ? NS_REFER : held;
    out->action[i] = stopped ? NS_REPAIR : refer;
    out->missing[i] = needs[i];
  }
}
