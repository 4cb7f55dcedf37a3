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
    LANES(i) out[i] = ns_min(out[i], ns_gap(w, c, e, i));
  }
}

/* The span that holds the cut, and how far the cut reaches into it from the
 * nearer support. */
NS_INLINE void reach_of(const struct ns_work *w, int c, double *L,
                        double *reach) {
  const struct ns_beam *s = &w->uncut;
  const struct ns_cut_geometry *g = &w->cut[c];
  ns_fill(L, 0);
  ns_fill(reach, 0);
  for (int j = 0; j < s->spans; j++)
    LANES(i) {
      const double A = s->support[j][i], B = s->support[j + 1][i];
      const bool in = (g->xc[i] >= A) & (g->xc[i] <= B);
      const double r = ns_min(g->x2[i] - A, B - g->x1[i]);
      L[i] = in ? B - A : L[i];
      reach[i] = in ? r : reach[i];
    }
}

NS_INLINE void measure_cut(const struct ns_work *w, int c, enum ns_measure m,
                           double *restrict out) {
  const struct ns_cut_geometry *g = &w->cut[c];
  const enum ns_kind kind = w->shape->cut[c].kind;
  const bool top = w->shape->cut[c].top;
  ns_lane L, reach;
  if (m == NS_CLEAR_HOLE || m == NS_CLEAR_NOTCH) {
    clear_to(w, c, m == NS_CLEAR_NOTCH, out);
    return;
  }
  reach_of(w, c, L, reach);
  LANES(i) {
    const double as_cut = w->in.cut[c][NS_C_to][i] - w->in.cut[c][NS_C_from][i];
    const double length = kind == NS_END_NOTCH ? w->in.cut[c][NS_C_length][i]
                          : kind == NS_HOLE    ? g->x2[i] - g->x1[i]
                                               : as_cut;
    const double size = ns_max(g->size[i], kind == NS_SLOT ? length : 0);
    const bool torn = w->demand[c].torn[top][i] != 0;
    out[i] = m == NS_DEPTH        ? g->size[i]
             : m == NS_LENGTH     ? length
             : m == NS_SIZE       ? ns_max(size, kind == NS_HOLE ? length : 0)
             : m == NS_EDGE_BELOW ? g->y1[i]
             : m == NS_EDGE_ABOVE ? w->depth[i] - g->y2[i]
             : m == NS_REACH      ? reach[i]
                                  : (torn ? w->in.joist[NS_J_b][i] : 0);
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
                     const double *L, struct ns_item *o) {
  LANES(i) {
    o->limit[i] = r->of_d * w->depth[i] + r->of_L * L[i] + r->plus;
    const double over = o->measured[i] - o->limit[i];
    o->ok[i] = (r->at_least ? -over : over) <= slack ? 1 : 0;
  }
}

/* Whether the pack speaks of this cut: its kind, and not on an overhang nor
 * where some load makes M < 0. */
NS_INLINE void covered(const struct ns_work *w, const struct ns_rules *rules,
                       int c) {
  struct ns_cut_result *o = &w->out->cuts[c];
  const bool kind = rules->covers >> w->shape->cut[c].kind & 1u;
  const bool end = w->shape->cut[c].kind == NS_END_NOTCH;
  LANES(i) {
    const double x = w->cut[c].xc[i];
    const bool over = (!end) & ((x < 0) | (x > w->total[i]));
    const bool hogs = o->M[1][i] < -1e-6;
    const bool apart = (over | hogs) & (!rules->covers_hogging);
    o->covered[i] = kind & !apart ? 1 : 0;
    o->within[i] = 1;
  }
}

NS_CLONES void ns_read_rules(struct ns_work *w, const struct ns_rules *rules) {
  struct ns_result *out = w->out;
  ns_lane none;
  ns_fill(none, 0);
  ns_fill(out->within, 1);
  for (int c = 0; c < w->shape->cuts; c++) {
    ns_lane L, reach;
    covered(w, rules, c);
    reach_of(w, c, L, reach);
    for (int r = 0; r < rules->count; r++) {
      const struct ns_rule *rule = &rules->rule[r];
      if (!(rule->kinds >> w->shape->cut[c].kind & 1u)) continue;
      struct ns_item *o = add_item(w, r, c, -1);
      measure_cut(w, c, rule->measure, o->measured);
      judge(w, rule, L, o);
      LANES(i)
        out->cuts[c].within[i] = o->ok[i] != 0 ? out->cuts[c].within[i] : 0;
    }
    LANES(i) {
      const bool cover = out->cuts[c].covered[i] != 0;
      const bool fails = cover & (out->cuts[c].within[i] == 0);
      out->cuts[c].within[i] = cover ? out->cuts[c].within[i] : 0;
      out->within[i] = fails                            ? 0
                       : !cover & (out->within[i] == 1) ? -1
                                                        : out->within[i];
    }
  }
  for (int r = 0; r < rules->count; r++) {
    if (rules->rule[r].measure != NS_BEARING_LENGTH) continue;
    for (int j = 0; j <= w->shape->spans; j++) {
      struct ns_item *o = add_item(w, r, -1, j);
      ns_copy(o->measured, w->in.joist[NS_J_bearing + j]);
      judge(w, &rules->rule[r], none, o);
    }
  }
}

/* NDS 3.2.3.1 and 4.4.3 at a notch, or at an opening whose lip is too thin to
 * count and which is a notch from its far edge; cut through; an opening taller
 * than the tests that net-section checks rest on. */
NS_CLONES void ns_read_gate(struct ns_work *w) {
  const struct ns_standard *s = w->standard;
  const bool simple =
      w->shape->spans == 1 && !w->shape->left && !w->shape->right;
  for (int c = 0; c < w->shape->cuts; c++) {
    struct ns_cut_result *o = &w->out->cuts[c];
    const struct ns_cut_geometry *g = &w->cut[c];
    const enum ns_kind kind = w->shape->cut[c].kind;
    const bool top = w->shape->cut[c].top;
    ns_lane L, reach;
    reach_of(w, c, L, reach);
    LANES(i) {
      const double d = w->depth[i];
      const bool hole = kind == NS_HOLE || kind == NS_SLOT;
      const bool thin_b = hole & (w->demand[c].below[i] != 0);
      const bool thin_t = hole & (w->demand[c].above[i] != 0);
      const double t = thin_b ? g->y2[i] : thin_t ? d - g->y1[i] : g->size[i];
      const double *torn_b = w->demand[c].torn[0];
      const double *torn_t = w->demand[c].torn[1];
      const bool up = hole ? thin_t : top, down = hole ? thin_b : !top;
      const bool torn = (down & (torn_b[i] != 0)) | (up & (torn_t[i] != 0));
      const bool thick = w->in.joist[NS_J_b][i] >= s->thick - slack;
      const bool middle = reach[i] > L[i] * s->outer_part + slack;
      const bool deep_end = t > s->end_notch * d + slack;
      const bool deep = t > s->inner_notch * d + slack;
      const bool ends = kind == NS_END_NOTCH;
      const bool inner = (kind == NS_NOTCH) | thin_b | thin_t;
      const bool tall = hole & (g->size[i] > s->tested_hole * d + slack);
      o->gate[i] = kind == NS_SEVER       ? NS_GATE_SEVERED
                   : ends & deep_end      ? NS_GATE_END_DEPTH
                   : inner & deep         ? NS_GATE_DEPTH
                   : inner & !simple      ? NS_GATE_NOT_SIMPLE
                   : inner & middle       ? NS_GATE_MIDDLE
                   : inner & torn & thick ? NS_GATE_TENSION
                   : tall                 ? NS_GATE_TALL_OPENING
                                          : NS_GATE_NONE;
      const bool never = inner & middle & torn;
      const bool ask = w->in.cut[c][NS_C_accept][i] != 0;
      const bool can =
          (ends | (kind == NS_NOTCH)) & (o->gate[i] != NS_GATE_NONE);
      o->accepted[i] = ask & can & !never ? 1 : 0;
      const bool gone =
          (kind < NS_SEVER) &
          (w->section[c].h_b[i] + w->section[c].h_m[i] + w->section[c].h_t[i] <=
           0);
      o->gate[i] = gone ? NS_GATE_SEVERED : o->gate[i];
      const bool barred = (o->gate[i] != NS_GATE_NONE) &
                          (o->gate[i] != NS_GATE_TALL_OPENING) &
                          (o->accepted[i] == 0);
      w->out->cut.not_permitted[i] = barred ? 1 : w->out->cut.not_permitted[i];
      o->x1[i] = g->g1[i];
      o->x2[i] = g->g2[i];
      o->y1[i] = g->h1[i];
      o->y2[i] = g->h2[i];
      o->merged[i] = g->merged[i] != 0 ? 1 + g->voice[i] : 0;
    }
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
    LANES(i) {
      const struct ns_cut_result *o = &out->cuts[c];
      const bool tall = o->gate[i] == NS_GATE_TALL_OPENING;
      const enum ns_kind kind = w->shape->cut[c].kind;
      const struct ns_section *n = &w->section[c];
      const double thin = ns_min(n->c_b[i], n->c_t[i]);
      const bool open = (kind == NS_HOLE || kind == NS_SLOT) & (n->c_b[i] > 0);
      const bool binds =
          open & ((w->cut[c].slot[i] != 0) | (thin < w->depth[i] / 4 - 1e-9));
      const bool lacks =
          (w->in.joist[NS_J_Ft][i] <= 0) | (w->in.joist[NS_J_Fc][i] <= 0);
      unaided[i] = tall ? 1 : unaided[i];
      accepted[i] = o->accepted[i] != 0 ? 1 : accepted[i];
      needs[i] = binds & lacks ? 1 : needs[i];
    }
  LANES(i) {
    const double full = 1 + 1e-9;
    const double strength =
        cuts ? out->cut.strength[i] : out->uncut.strength[i];
    const double ratio = cuts ? out->cut.ratio[i] : out->uncut.ratio[i];
    const bool weak = strength > full, over = ratio > full;
    const bool within = (out->within[i] == 1) & (accepted[i] == 0);
    const int plain = over ? NS_DECIDE : NS_LEAVE;
    const int inside = over ? NS_DECIDE : NS_LEAVE;
    const int outside = weak ? NS_REPAIR : over ? NS_DECIDE : NS_JUSTIFY;
    int action = !cuts ? plain : within ? inside : outside;
    const bool refer = (needs[i] != 0) & !weak;
    action = refer ? NS_REFER : action;
    action = cuts & ((barred[i] != 0) | (unaided[i] != 0)) ? NS_REPAIR : action;
    out->action[i] = action;
    out->missing[i] = needs[i];
  }
}
