/* SPDX-License-Identifier: MIT
 * combine.c - joists with roof live load or snow, combination by combination.
 *
 * A combination g_D D + g_L L + g_Lr Lr + g_S S asks for V and M with each of
 * its loads where it hurts. V and M are sums of load times a line, and where
 * it hurts is where that line has one sign, the same for all loads: so the
 * variable loads, each times its factor, are worked as one live load, and the
 * review is that of the family, the combination its only one. The dead and the
 * live load of the floor come first, as in a joist without the others; then
 * each combination stands in the lanes that have all of its loads (the loads
 * that the standard pairs), and the worse of each check is kept with all that
 * is behind it. A pattern of whole spans (hogging, deflection) has all of its
 * variable loads on a span or none of them. */
#include "check/check.h"
#include "review/families.h"
#include "work/work.h"

/* As sweep/quantity.c: the last bits of a double are not over. */
#define NOT_OVER (1 + 1e-9)

/* Whether any joist has roof live load or snow. */
bool ns_has_other_loads(const struct ns_shape *s, const struct ns_block *b) {
  for (int l = 0; l < s->lines; l++)
    if (s->line[l].load_case > NS_LIVE) return true;
  for (int p = 0; p < s->points; p++)
    if (s->point[p] > NS_LIVE) return true;
  return ns_any(b->joist[NS_J_roof_live]) || ns_any(b->joist[NS_J_snow]);
}

/* The row of a block that holds a load of the floor, psf; -1 of a case that
 * only single loads have. */
static int row_of_case(int load_case) {
  static const int rows[NS_CASES] = {NS_J_dead, NS_J_live, NS_J_roof_live,
                                     NS_J_snow, -1,        -1};
  return rows[load_case];
}

/* 1 where a lane has a load of the case at all. */
static void find_load(const struct ns_shape *s, const struct ns_block *b,
                      int load_case, double *restrict has) {
  const int row = row_of_case(load_case);
  const double *restrict floor = b->joist[row < 0 ? NS_J_live : row];
  LANES(i) has[i] = (row >= 0) & (floor[i] > 0) ? 1 : 0;
  for (int l = 0; l < s->lines; l++)
    if ((int)s->line[l].load_case == load_case)
      LANES(i) {
        const double w1 = b->line[l][NS_L_w1][i], w2 = b->line[l][NS_L_w2][i];
        has[i] = (w1 > 0) | (w2 > 0) ? 1 : has[i];
      }
  for (int p = 0; p < s->points; p++)
    if ((int)s->point[p] == load_case)
      LANES(i) has[i] = b->point[p][NS_P_P][i] > 0 ? 1 : has[i];
}

/* Shape and block of the joists under variable loads times g, which are live
 * load then. */
static void weigh_loads(struct ns_work *w, const struct ns_shape *s,
                        const struct ns_block *b, const double g[NS_CASES]) {
  double(*J)[NS_LANES] = w->one.joist;
  w->one_shape = *s;
  w->one_shape.combined = true;
  w->one = *b;
  LANES(i) {
    double live = g[NS_LIVE] * b->joist[NS_J_live][i];
    if (g[NS_ROOF] != 0) live += g[NS_ROOF] * b->joist[NS_J_roof_live][i];
    if (g[NS_SNOW] != 0) live += g[NS_SNOW] * b->joist[NS_J_snow][i];
    J[NS_J_live][i] = live;
  }
  for (int l = 0; l < s->lines; l++) {
    const enum ns_case of = s->line[l].load_case;
    if (of == NS_DEAD) continue;
    w->one_shape.line[l].load_case = NS_LIVE;
    LANES(i) {
      w->one.line[l][NS_L_w1][i] *= g[of];
      w->one.line[l][NS_L_w2][i] *= g[of];
    }
  }
  for (int p = 0; p < s->points; p++) {
    const enum ns_case of = s->point[p];
    if (of == NS_DEAD) continue;
    w->one_shape.point[p] = NS_LIVE;
    LANES(i) w->one.point[p][NS_P_P][i] *= g[of];
  }
}

bool ns_combination(const struct ns_standard *s, int number,
                    struct ns_standard *one) {
  if (number < 0 || number >= s->combos + s->rows) return false;
  *one = *s;
  one->combos = 1;
  one->all = one->rows = 0;
  if (number < s->combos) {
    one->g_D[0] = s->g_D[number];
    one->g_L[0] = s->g_L[number];
    one->CD[0] = s->CD[number];
    return true;
  }
  const struct ns_row *r = &s->row[number - s->combos];
  one->g_D[0] = r->g[NS_DEAD];
  one->g_L[0] = 1; /* the factors are in the load */
  one->CD[0] = r->CD;
  return true;
}

/* ------------------------------------------------ one result over another */

/* What is merged: the result of a combination, the lanes it stands in. */
struct merging {
  const struct ns_result *from;
  struct ns_result *to;
  const double *on;
  const struct ns_row *row;
  int number; /* of the combination */
  bool records;
};

static bool same_check(const struct ns_check *a, const struct ns_check *b) {
  return a->mode == b->mode && a->member == b->member && a->cut == b->cut &&
         a->support == b->support;
}

/* The twin of check n of a state: as many of its kind stand before it. */
static struct ns_check *twin_check(const struct ns_result *from,
                                   const struct ns_state *t, int n,
                                   struct ns_result *to,
                                   const struct ns_state *s) {
  const struct ns_check *k = &from->check[n];
  int before = 0;
  for (int m = t->first; m < n; m++) before += same_check(k, &from->check[m]);
  for (int m = s->first; m < s->first + s->count; m++)
    if (same_check(k, &to->check[m]) && before-- == 0) return &to->check[m];
  return NULL;
}

/* A check of its own at the end of a state; null where there is no room. */
static struct ns_check *put_check(struct ns_result *r, struct ns_state *s,
                                  const struct ns_check *like) {
  struct ns_state *states[] = {&r->uncut, &r->cut, &r->fixed};
  const int at = s->first + s->count;
  if (r->checks >= NS_MAX_CHECKS) {
    r->refused++;
    return NULL;
  }
  memmove(&r->check[at + 1], &r->check[at],
          sizeof r->check[0] * (size_t)(r->checks - at));
  r->checks++;
  for (int n = 0; n < 3; n++)
    if (states[n] != s && states[n]->first >= at) states[n]->first++;
  s->count++;
  memcpy(&r->check[at], like, sizeof *like);
  ns_fill(r->check[at].on, 0);
  return &r->check[at];
}

/* A check of one lane in place of another. */
static void take_lane(const struct merging *g, const struct ns_check *k, int i,
                      struct ns_check *o) {
  o->on[i] = 1;
  o->binding[i] = k->binding[i];
  o->demand[i] = k->demand[i];
  o->capacity[i] = k->capacity[i];
  o->ratio[i] = k->ratio[i];
  o->at[i] = k->at[i];
  o->branch[i] = k->branch[i];
  o->combo[i] = g->number;
  for (int f = 0; g->records && f < NS_RECORDS; f++)
    o->rec[f][i] = k->rec[f][i];
}

/* The worse of two: by ratio; without a capacity (uplift) by demand. */
static bool worse_lane(const struct ns_check *k, const struct ns_check *o,
                       int i) {
  if (k->on[i] == 0) return false;
  if (o->on[i] == 0 || k->ratio[i] > o->ratio[i]) return true;
  return k->ratio[i] == o->ratio[i] && !(k->capacity[i] > 0) &&
         k->demand[i] > o->demand[i];
}

/* The worse of each check, lane by lane. */
static void merge_checks(const struct merging *g, const struct ns_state *t,
                         struct ns_state *s) {
  for (int n = t->first; n < t->first + t->count; n++) {
    const struct ns_check *k = &g->from->check[n];
    const bool strength = ns_check_rows[k->mode].strength;
    if (!(strength ? g->row->strength : g->row->service)) continue;
    struct ns_check *o = twin_check(g->from, t, n, g->to, s);
    if (!o) o = put_check(g->to, s, k);
    for (int i = 0; o && i < NS_LANES; i++)
      if (g->on[i] != 0 && worse_lane(k, o, i)) take_lane(g, k, i, o);
  }
}

/* Deflections as their limits have it, or the larger one where there is none.
 */
static void merge_sags(const struct merging *g, const struct ns_state *t,
                       struct ns_state *s) {
  for (int total = 0; total < 2; total++)
    LANES(i) {
      const double a = t->deflection[total][i], b = s->deflection[total][i];
      const double la = t->limit[total][i], lb = s->limit[total][i];
      const bool more = la > 0 && lb > 0 ? a / la > b / lb : a > b;
      const bool take = (g->on[i] != 0) & more;
      s->deflection[total][i] = take ? a : b;
      s->limit[total][i] = take ? la : lb;
      s->span_of[total][i] = take ? t->span_of[total][i] : s->span_of[total][i];
    }
}

/* The larger in size, with its place. */
static void merge_size(const double *restrict on, const double *restrict a,
                       const double *restrict a_at, double *restrict b,
                       double *restrict b_at) {
  LANES(i) {
    const bool take = (on[i] != 0) & (ns_abs(a[i]) > ns_abs(b[i]));
    b[i] = take ? a[i] : b[i];
    b_at[i] = take ? a_at[i] : b_at[i];
  }
}

/* The larger, in the lanes that are on. */
static void merge_most(const double *restrict on, const double *restrict a,
                       double *restrict b) {
  LANES(i) b[i] = (on[i] != 0) & (a[i] > b[i]) ? a[i] : b[i];
}

/* The smaller, in the lanes that are on. */
static void merge_least(const double *restrict on, const double *restrict a,
                        double *restrict b) {
  LANES(i) b[i] = (on[i] != 0) & (a[i] < b[i]) ? a[i] : b[i];
}

/* What a state says, the worse of both. */
static void merge_state(const struct merging *g, int spans,
                        const struct ns_state *t, struct ns_state *s) {
  merge_checks(g, t, s);
  if (g->row->service) merge_sags(g, t, s);
  if (!g->row->strength) return;
  merge_size(g->on, t->moment, t->moment_at, s->moment, s->moment_at);
  merge_size(g->on, t->shear, t->shear_at, s->shear, s->shear_at);
  merge_most(g->on, t->not_permitted, s->not_permitted);
  merge_least(g->on, t->Cr, s->Cr);
  for (int j = 0; j <= spans; j++) {
    merge_most(g->on, t->reaction[j][0], s->reaction[j][0]);
    merge_least(g->on, t->reaction[j][1], s->reaction[j][1]);
  }
}

/* Forces of the rows of a member beside the joist, and its own reactions. */
static void merge_fix(const struct merging *g, const struct ns_fix_result *t,
                      struct ns_fix_result *s) {
  ns_lane none = {0}, unused = {0};
  for (int l = 0; l < NS_MAX_STATIONS; l++) {
    merge_most(g->on, t->G[l][0], s->G[l][0]);
    merge_least(g->on, t->G[l][1], s->G[l][1]);
    merge_size(g->on, t->G[l][2], none, s->G[l][2], unused);
  }
  for (int j = 0; j < 2; j++) {
    merge_most(g->on, t->R[j][0], s->R[j][0]);
    merge_least(g->on, t->R[j][1], s->R[j][1]);
  }
}

/* The gate that stops goes before one that informs. */
static void merge_gate(const struct merging *g, const struct ns_cut_result *t,
                       struct ns_cut_result *s) {
  LANES(i) {
    const bool stops = t->gate[i] != NS_GATE_NONE;
    const bool informs =
        (s->gate[i] == NS_GATE_NONE) | (s->gate[i] >= NS_GATE_TALL_OPENING);
    const bool harder = t->gate[i] < s->gate[i] || s->gate[i] == NS_GATE_NONE;
    const bool take = (g->on[i] != 0) & stops & informs & harder;
    s->gate[i] = take ? t->gate[i] : s->gate[i];
    s->accepted[i] = take ? t->accepted[i] : s->accepted[i];
  }
}

/* What is said of a cut, the worse of both. */
static void merge_cut(const struct merging *g, const struct ns_cut_result *t,
                      struct ns_cut_result *s) {
  ns_lane none = {0}, unused = {0};
  merge_gate(g, t, s);
  merge_least(g->on, t->covered, s->covered);
  merge_least(g->on, t->within, s->within);
  for (int n = 0; n < 2; n++) {
    merge_most(g->on, t->tau[n], s->tau[n]);
    merge_most(g->on, t->lip[n], s->lip[n]);
  }
  merge_most(g->on, t->M[0], s->M[0]);
  merge_least(g->on, t->M[1], s->M[1]);
  merge_most(g->on, t->V[0], s->V[0]);
  merge_least(g->on, t->V[1], s->V[1]);
  merge_most(g->on, t->V_mid[0], s->V_mid[0]);
  merge_least(g->on, t->V_mid[1], s->V_mid[1]);
  merge_size(g->on, t->M_full, none, s->M_full, unused);
  merge_size(g->on, t->V_full, none, s->V_full, unused);
}

/* Limits of the rules: which there are, in which order and lanes, follows from
 * shape and geometry alone (rules.c), but one that measures the thickness of a
 * face in tension rests on the sign of M. */
static void merge_items(const struct merging *g) {
  for (int n = 0; n < g->from->items; n++) {
    const struct ns_item *k = &g->from->item[n];
    struct ns_item *o = &g->to->item[n];
    LANES(i) {
      const bool take = (g->on[i] != 0) & (k->ok[i] < o->ok[i]);
      o->ok[i] = take ? k->ok[i] : o->ok[i];
      o->measured[i] = take ? k->measured[i] : o->measured[i];
      o->limit[i] = take ? k->limit[i] : o->limit[i];
    }
  }
}

/* Outside in one combination is outside; then not covered. */
static double worse_rules(double a, double b) {
  return a == 0 || b == 0 ? 0 : ns_min(a, b);
}

/* A repair is one, whatever else is lacking; then what is referred. */
static double worse_action(double a, double b) {
  return a == NS_REPAIR || b == NS_REPAIR ? (double)NS_REPAIR : ns_max(a, b);
}

/* Whether a limit of deflection is passed. */
static bool sags_too_far(const struct ns_result *r, const struct ns_state *s,
                         int i) {
  for (int n = s->first; n < s->first + s->count; n++) {
    const struct ns_check *k = &r->check[n];
    const bool counts = k->on[i] != 0 && k->binding[i] != 0;
    if (!ns_check_rows[k->mode].strength && counts && k->ratio[i] > NOT_OVER)
      return true;
  }
  return false;
}

/* The action of the joist under all its combinations. What only sags too far
 * under loads without factors is a decision. */
static void merge_action(const struct merging *g, bool cuts) {
  struct ns_result *o = g->to;
  const struct ns_state *state = cuts ? &g->from->cut : &g->from->uncut;
  for (int i = 0; i < NS_LANES; i++) {
    if (g->on[i] == 0) continue;
    if (g->row->strength) {
      o->action[i] = worse_action(o->action[i], g->from->action[i]);
      o->within[i] = worse_rules(o->within[i], g->from->within[i]);
      o->missing[i] = ns_max(o->missing[i], g->from->missing[i]);
    } else if (sags_too_far(g->from, state, i) && o->action[i] <= NS_JUSTIFY) {
      o->action[i] = NS_DECIDE;
    }
  }
}

/* --------------------------------------------------------- the combinations */

struct loads_there {
  ns_lane has[NS_CASES], on;
  bool some;
};

/* A row stands where all of its loads are; only joists that have a load of the
 * roof or snow are asked. */
static void row_stands(const struct ns_row *r, const struct ns_result *out,
                       struct loads_there *p) {
  LANES(i) p->on[i] = out->status[i] == NS_OK ? 1 : 0;
  for (int c = r->without_live ? NS_ROOF : NS_LIVE; c < NS_CASES; c++)
    if (r->g[c] != 0)
      LANES(i) p->on[i] *= p->has[c][i];
  p->some = ns_any(p->on);
}

/* A roof live load or snow that no combination of the standard holds, and a
 * strap, which is worked out for dead and live load alone. */
static void refuse_lanes(const struct ns_shape *s,
                         const struct ns_standard *std,
                         const struct loads_there *p, struct ns_result *out) {
  const bool repair = s->fix.kind == NS_UNDER;
  for (int c = NS_ROOF; c < NS_CASES; c++) {
    bool known = false;
    for (int r = 0; r < std->rows; r++)
      known |= std->row[r].g[c] != 0 && std->row[r].strength;
    for (int i = 0; i < NS_LANES; i++) {
      const bool lacks = p->has[c][i] != 0 && (!known || repair);
      if (lacks && out->status[i] == NS_OK) out->status[i] = NS_NO_FORMULA;
    }
  }
}

/* What all combinations of a block are worked with. */
struct combining {
  const struct ns_shape *shape;
  const struct ns_rules *rules;
  const struct ns_standard *standard;
  const struct ns_block *block;
  ns_reviewer *review;
  bool records;
  struct ns_work *work;
};

/* One combination over what was found so far. */
static void add_row(const struct combining *c, int n,
                    const struct loads_there *p, struct ns_result *out) {
  const struct ns_standard *std = c->standard;
  const struct ns_row *row = &std->row[n];
  struct ns_work *w = c->work;
  struct ns_standard one;
  struct ns_result *found = &w->found;
  const struct merging g = {found,           out,       p->on, row,
                            std->combos + n, c->records};
  ns_combination(std, std->combos + n, &one);
  weigh_loads(w, c->shape, c->block, row->g);
  if (!row->service) {
    ns_fill(w->one.joist[NS_J_limit_live], 0);
    ns_fill(w->one.joist[NS_J_limit_total], 0);
  }
  ns_copy(found->status, out->status);
  ns_copy(found->bad_part, out->bad_part);
  ns_copy(found->bad_field, out->bad_field);
  c->review(&w->one_shape, c->rules, &one, &w->one, w, found);
  merge_state(&g, c->shape->spans, &found->uncut, &out->uncut);
  merge_state(&g, c->shape->spans, &found->cut, &out->cut);
  if (c->shape->fix.kind == NS_BESIDE) {
    merge_state(&g, c->shape->spans, &found->fixed, &out->fixed);
    if (row->strength) merge_fix(&g, &found->fix, &out->fix);
  }
  if (row->strength) {
    for (int k = 0; k < c->shape->cuts; k++)
      merge_cut(&g, &found->cuts[k], &out->cuts[k]);
    merge_items(&g);
  }
  merge_action(&g, c->shape->cuts > 0);
}

/* What governs over all combinations; a lane without numbers stays as it was
 * left. */
static void govern_again(struct ns_result *r, struct ns_state *s) {
  double *rows[] = {s->ratio, s->strength, s->governing, s->mode};
  ns_lane was[4];
  for (int n = 0; n < 4; n++) ns_copy(was[n], rows[n]);
  ns_find_governing(r, s);
  for (int n = 0; n < 4; n++)
    LANES(i) rows[n][i] = r->status[i] == NS_OK ? rows[n][i] : was[n][i];
}

/* A review without such loads, then one of each combination with them,
 * merged. */
void ns_combine(const struct ns_shape *s, const struct ns_rules *rules,
                const struct ns_standard *std, const struct ns_block *b,
                ns_reviewer *review, bool records, struct ns_work *w,
                struct ns_result *out) {
  static const double floor[NS_CASES] = {1, 1};
  const struct combining all = {s, rules, std, b, review, records, w};
  struct loads_there p;
  for (int c = NS_LIVE; c < NS_CASES; c++) find_load(s, b, c, p.has[c]);
  ns_validate(s, b, out);
  weigh_loads(w, s, b, floor);
  review(&w->one_shape, rules, std, &w->one, w, out);
  refuse_lanes(s, std, &p, out);
  for (int n = 0; n < std->rows; n++) {
    row_stands(&std->row[n], out, &p);
    if (p.some) add_row(&all, n, &p, out);
  }
  govern_again(out, &out->uncut);
  govern_again(out, &out->cut);
  if (s->fix.kind == NS_BESIDE) govern_again(out, &out->fixed);
  ns_refuse_full(out);
}
