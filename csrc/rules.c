/* SPDX-License-Identifier: MIT
 * rules.c - a code's prescriptive limits, the standard's own gate, and what
 * the two and the ratios come to.
 *
 * A pack is rows of numbers; each row is read at every cut of its kinds. The
 * gate (NDS 3.2.3.1 and 4.4.3) stands apart from any pack. */
#include "work.h"

static const double slack = 1e-6; /* 2 in of 8 in is d/4, whatever the bits */

/* Distance to the nearest other opening or notch; 1e6 where there is none. */
NS_INLINE void clear_to(const struct ns_work *w, int c, bool notches,
                        double *restrict out) {
  ns_fill(out, 1e6);
  for (int e = 0; e < w->shape->cuts; e++) {
    const enum ns_kind k = w->shape->cut[e].kind;
    const bool notch = k == NS_NOTCH || k == NS_END_NOTCH;
    const bool hole = k == NS_HOLE || k == NS_SLOT;
    if (e == c || !(notches ? notch : hole)) continue;
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

NS_INLINE void thickness_if_torn(const struct ns_work *w, int c,
                                 double *restrict out) {
  const double *restrict torn = w->demand[c].torn[w->shape->cut[c].top];
  const double *restrict b = w->in.joist[NS_J_b];
  LANES(i) out[i] = torn[i] != 0 ? b[i] : 0;
}

NS_INLINE void measure_cut(const struct ns_work *w, int c, enum ns_measure m,
                           double *restrict out) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  const double *restrict depth = w->depth;
  switch (m) {
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
  case NS_REACH:
    ns_copy(out, w->reach[c]);
    break;
  default:
    thickness_if_torn(w, c, out);
  }
}

NS_INLINE struct ns_item *add_item(struct ns_work *w, int rule, int cut,
                                   int support) {
  struct ns_item *o = &w->out->item[w->out->items++];
  o->rule = rule;
  o->cut = cut;
  o->support = support;
  return o;
}

NS_INLINE void judge(const struct ns_work *w, const struct ns_rule *r,
                     const double *restrict L, struct ns_item *restrict o) {
  const double *restrict depth = w->depth;
  const double of_d = r->of_d, of_L = r->of_L, plus = r->plus;
  const double way = r->at_least ? -1 : 1;
  LANES(i) {
    const double limit = of_d * depth[i] + of_L * L[i] + plus;
    o->limit[i] = limit;
    o->ok[i] = way * (o->measured[i] - limit) <= slack ? 1 : 0;
  }
}

/* Whether the pack speaks of this cut: its kind, and not on an overhang nor
 * where some load makes M < 0. */
NS_INLINE void covered(const struct ns_work *w, const struct ns_rules *rules,
                       int c) {
  struct ns_cut_result *o = &w->out->cuts[c];
  const bool kind = rules->covers >> w->shape->cut[c].kind & 1u;
  const bool end = w->shape->cut[c].kind == NS_END_NOTCH;
  const double *restrict xc = w->cut[c].xc, *restrict total = w->total;
  const bool hogging = rules->covers_hogging;
  LANES(i) {
    const double x = xc[i];
    const bool over = (!end) & ((x < 0) | (x > total[i]));
    const bool hogs = o->M[1][i] < -1e-6;
    const bool apart = (over | hogs) & !hogging;
    o->covered[i] = kind & !apart ? 1 : 0;
    o->within[i] = 1;
  }
}

/* All rows of the pack that are about a cut. */
NS_INLINE void read_cut(struct ns_work *w, const struct ns_rules *rules,
                        int c) {
  struct ns_cut_result *restrict cut = &w->out->cuts[c];
  double *restrict within = w->out->within;
  covered(w, rules, c);
  for (int r = 0; r < rules->count; r++) {
    const struct ns_rule *rule = &rules->rule[r];
    if (!(rule->kinds >> w->shape->cut[c].kind & 1u)) continue;
    struct ns_item *o = add_item(w, r, c, -1);
    measure_cut(w, c, rule->measure, o->measured);
    judge(w, rule, w->held_by[c], o);
    LANES(i) cut->within[i] = o->ok[i] != 0 ? cut->within[i] : 0;
  }
  LANES(i) {
    const bool cover = cut->covered[i] != 0;
    const bool fails = cover & (cut->within[i] == 0);
    const double unknown = within[i] == 1 ? -1 : within[i];
    cut->within[i] = cover ? cut->within[i] : 0;
    within[i] = fails ? 0 : cover ? within[i] : unknown;
  }
}

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
      ns_copy(o->measured, w->in.joist[NS_J_bearing + j]);
      judge(w, &rules->rule[r], none, o);
    }
  }
}

/* What the gate reads of a cut, lane by lane. */
struct gate {
  ns_lane size, torn, thin;
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
    o->torn[i] = q->torn_notch[i];
    o->thin[i] = thin_b | thin_t ? 1 : 0;
  }
}

NS_INLINE void gate_of_notch(const struct ns_work *w, int c, struct gate *o) {
  const struct ns_demand *q = &w->demand[c];
  ns_copy(o->size, w->cut[c].size);
  ns_copy(o->torn, q->torn[w->shape->cut[c].top]);
  ns_fill(o->thin, w->shape->cut[c].kind == NS_NOTCH ? 1 : 0);
}

/* NDS 3.2.3.1 and 4.4.3 at a notch, or at an opening whose lip is too thin to
 * count and which is a notch from its far edge; cut through; an opening taller
 * than the net section is trusted for. */
NS_INLINE void read_gate(struct ns_work *w, int c,
                         const struct gate *restrict n) {
  const struct ns_standard s = *w->standard;
  const struct ns_section *restrict net = &w->section[c];
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  struct ns_cut_result *restrict o = &w->out->cuts[c];
  double *restrict never = w->out->cut.not_permitted;
  const enum ns_kind kind = w->shape->cut[c].kind;
  const bool lone = w->shape->spans == 1 && !w->shape->left && !w->shape->right;
  const bool sever = kind == NS_SEVER, ends = kind == NS_END_NOTCH;
  const bool hole = kind == NS_HOLE || kind == NS_SLOT;
  const bool notch = ends || kind == NS_NOTCH, wood = kind < NS_SEVER;
  const double *restrict depth = w->depth, *restrict b = w->in.joist[NS_J_b];
  const double *restrict L = w->held_by[c], *restrict reach = w->reach[c];
  const double *restrict accept = w->in.cut[c][NS_C_accept];
  LANES(i) {
    const double d = depth[i];
    const bool torn = n->torn[i] != 0, inner = n->thin[i] != 0;
    const bool thick = b[i] >= s.thick - slack;
    const bool middle = reach[i] > L[i] * s.outer_part + slack;
    const bool deep_end = n->size[i] > s.end_notch * d + slack;
    const bool deep = n->size[i] > s.inner_notch * d + slack;
    const bool tall = hole & (g->size[i] > s.tested_hole * d + slack);
    const double test = tall ? NS_GATE_TALL_OPENING : NS_GATE_NONE;
    const double tension = inner & torn & thick ? NS_GATE_TENSION : test;
    const double place = inner & middle ? NS_GATE_MIDDLE : tension;
    const double simple = inner & !lone ? NS_GATE_NOT_SIMPLE : place;
    const double depths = inner & deep ? NS_GATE_DEPTH : simple;
    const double end = ends & deep_end ? NS_GATE_END_DEPTH : depths;
    const double all = sever ? NS_GATE_SEVERED : end;
    const bool can = notch & (all != NS_GATE_NONE);
    const bool asked = (accept[i] != 0) & can & !(inner & middle & torn);
    const bool gone = wood & (net->h_b[i] + net->h_m[i] + net->h_t[i] <= 0);
    const double gate = gone ? NS_GATE_SEVERED : all;
    const bool stops = (gate != NS_GATE_NONE) & (gate != NS_GATE_TALL_OPENING);
    o->gate[i] = gate;
    o->accepted[i] = asked ? 1 : 0;
    never[i] = stops & !asked ? 1 : never[i];
    o->merged[i] = g->merged[i] != 0 ? 1 + g->voice[i] : 0;
    o->near[i] = g->near[i];
    o->middle[i] = middle ? 1 : 0;
    o->weight[i] = g->weight[i];
  }
}

NS_CLONES void ns_read_gate(struct ns_work *w) {
  for (int c = 0; c < w->shape->cuts; c++) {
    const enum ns_kind kind = w->shape->cut[c].kind;
    const struct ns_cut_geometry *g = &w->cut[c];
    struct ns_cut_result *o = &w->out->cuts[c];
    struct gate n;
    if (kind == NS_HOLE || kind == NS_SLOT)
      gate_of_hole(w, c, &n);
    else
      gate_of_notch(w, c, &n);
    read_gate(w, c, &n);
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
  const double *restrict low = q->torn[0], *restrict high = q->torn[1];
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

/* The action table. A joist that only sags too far is a decision, not a
 * repair; one that lacks a value for a check that binds is referred. */
NS_CLONES void ns_decide(struct ns_work *w) {
  struct ns_result *out = w->out;
  const bool cuts = w->shape->cuts > 0;
  ns_lane barred, unaided, accepted, needs;
  ns_fill(unaided, 0);
  ns_fill(accepted, 0);
  ns_fill(needs, 0);
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
    const bool stopped = cuts & ((barred[i] != 0) | (unaided[i] != 0));
    const double inside = over ? NS_DECIDE : NS_LEAVE;
    const double outside = weak ? NS_REPAIR : over ? NS_DECIDE : NS_JUSTIFY;
    const double action = within | !cuts ? inside : outside;
    const double refer = (needs[i] != 0) & !weak ? NS_REFER : action;
    out->action[i] = stopped ? NS_REPAIR : refer;
    out->missing[i] = needs[i];
  }
}
