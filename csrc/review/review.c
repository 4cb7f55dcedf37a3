/* SPDX-License-Identifier: MIT
 * review.c - sixteen joists from description to action. */
#include "check/check.h"
#include "cuts/cuts.h"
#include "repair/repair.h"
#include "review/families.h"
#include "rules/decide.h"
#include "work/work.h"

/* A repair that any lane can be worked with. */
static void stand_in_fix(struct ns_block *b, const struct ns_shape *s, int i) {
  const double plain[][2] = {
      {NS_F_from, 12}, {NS_F_to, 132},  {NS_F_b, 1.5},     {NS_F_d, 9.25},
      {NS_F_rise, 0},  {NS_F_E, 1.6e6}, {NS_F_Fy, 0},      {NS_F_stiff, 1e4},
      {NS_F_Z, 100},   {NS_F_C_z, 1},   {NS_F_rated, 0},   {NS_F_prop_at, 72},
      {NS_F_prop, 0},  {NS_F_A_s, 0.2}, {NS_F_below, 0.1}, {NS_F_P_s, 1000},
      {NS_F_free, 12}, {NS_F_t, 0},     {NS_F_reached, 0}};
  for (size_t k = 0; k < sizeof plain / sizeof *plain; k++)
    b->fix[(int)plain[k][0]][i] = plain[k][1];
  if (s->fix.steel) b->fix[NS_F_Fy][i] = 36000;
  for (int l = 0; l < s->fix.stations; l++) {
    b->fix[NS_F_station + l][i] = 14 + 3 * l;
    b->fix[NS_F_count + l][i] = 2;
    b->fix[NS_F_low + l][i] = 1;
    b->fix[NS_F_high + l][i] = 8;
    b->fix[NS_F_bottom + l][i] = 0;
    b->fix[NS_F_top + l][i] = 9.25;
    b->fix[NS_F_lost + l][i] = 0;
  }
  for (int f = 0; f < NS_JOIST_ROWS; f++) b->other[f][i] = b->joist[f][i];
}

/* A joist that any lane can be worked with, in place of one that cannot. */
static void plain_joist(struct ns_block *b, const struct ns_shape *s, int i) {
  for (int k = 0; k < s->spans; k++) b->joist[NS_J_span + k][i] = 144;
  for (int k = 0; k <= s->spans; k++) b->joist[NS_J_bearing + k][i] = 3.5;
  for (int k = 0; k < s->blocking; k++) b->joist[NS_J_blocking + k][i] = 72;
  const double plain[][2] = {{NS_J_overhang_left, 24},
                             {NS_J_overhang_right, 24},
                             {NS_J_b, 1.5},
                             {NS_J_d, 9.25},
                             {NS_J_plies, 1},
                             {NS_J_spacing, 16},
                             {NS_J_dead, 10},
                             {NS_J_live, 40},
                             {NS_J_Fb, 900},
                             {NS_J_Ft, 575},
                             {NS_J_Fv, 180},
                             {NS_J_Fc_perp, 625},
                             {NS_J_Fc, 1350},
                             {NS_J_E, 1.6e6},
                             {NS_J_Emin, 580e3},
                             {NS_J_CF, 1},
                             {NS_J_CF_t, 1},
                             {NS_J_CF_c, 1},
                             {NS_J_wet, 0},
                             {NS_J_temperature, 70},
                             {NS_J_incised, 0},
                             {NS_J_repetitive, 0},
                             {NS_J_members, 3},
                             {NS_J_sheathed, 1},
                             {NS_J_Kcr, 1},
                             {NS_J_limit_live, 360},
                             {NS_J_limit_total, 240},
                             {NS_J_notch_raiser, 1},
                             {NS_J_inflection, 1},
                             {NS_J_dead_off, 0},
                             {NS_J_G_mean, 1e5},
                             {NS_J_service, 1},
                             {NS_J_duration, 3},
                             {NS_J_roof_live, 0},
                             {NS_J_snow, 0}};
  for (size_t k = 0; k < sizeof plain / sizeof *plain; k++)
    b->joist[(int)plain[k][0]][i] = plain[k][1];
  for (int c = 0; c < s->cuts; c++) {
    for (int f = 0; f < NS_CUT_ROWS; f++) b->cut[c][f][i] = 0;
    b->cut[c][NS_C_at][i] = 30;
    b->cut[c][NS_C_from][i] = 30;
    b->cut[c][NS_C_to][i] = 31;
    b->cut[c][NS_C_length][i] = 1;
    b->cut[c][NS_C_depth][i] = 1;
    b->cut[c][NS_C_diameter][i] = b->cut[c][NS_C_height][i] = 1;
    b->cut[c][NS_C_stretch][i] = 1;
    b->cut[c][NS_C_below][i] = b->cut[c][NS_C_above][i] = 4;
    b->cut[c][NS_C_at_depth][i] = 4;
  }
  for (int l = 0; l < s->lines; l++) {
    for (int f = 0; f < NS_LINE_ROWS; f++) b->line[l][f][i] = 0;
    b->line[l][NS_L_to][i] = 12;
  }
  for (int p = 0; p < s->points; p++)
    b->point[p][NS_P_at][i] = b->point[p][NS_P_P][i] = 0;
  if (s->fix.kind != NS_NO_FIX) stand_in_fix(b, s, i);
}

/* Whether any lane has no numbers. */
NS_INLINE bool some_wrong(const struct ns_result *o) {
  ns_lane wrong;
  LANES(i) wrong[i] = o->status[i] != NS_OK ? 1 : 0;
  return ns_any(wrong);
}

/* The block into the work room, joists that cannot be worked made harmless.
 * True where its geometry is that of the block before, and is left. */
static bool take_block(struct ns_work *w, const struct ns_block *b) {
  const bool wrong = some_wrong(w->out);
  if (!wrong && ns_geometry_stays(w, b)) {
    ns_take_loads(w, b);
    return true;
  }
  ns_take_block(w, b);
  for (int i = 0; i < NS_LANES && wrong; i++)
    if (w->out->status[i] != NS_OK) plain_joist(&w->in, w->shape, i);
  return false;
}

/* Whether the joist is cut through as described. */
static void mark_severed(struct ns_work *w) {
  ns_fill(w->severed, 0);
  for (int c = 0; c < w->shape->cuts; c++)
    if (w->shape->cut[c].kind == NS_SEVER) ns_fill(w->severed, 1);
}

/* Limits of deflection that the joist leaves to the standard. */
static void take_limits(struct ns_work *w) {
#ifdef NS_LIMITS_BY_STANDARD
  double *const rows[] = {w->in.joist[NS_J_limit_live],
                          w->in.joist[NS_J_limit_total]};
  for (int n = 0; n < 2; n++) {
    const double limit = ns_sag_limit(w->standard, n);
    LANES(i) rows[n][i] = rows[n][i] == 1 ? limit : rows[n][i];
  }
#else
  (void)w;
#endif
}

/* Adjusted values of all properties in each combination. */
static void adjust_values(struct ns_work *w) {
  const struct ns_standard *s = w->standard;
  for (int c = 0; c < s->combos; c++) {
    ns_adjust(w->in.joist, s, NS_FB, c, &w->Fb_own[c]);
    ns_adjust(w->in.joist, s, NS_FV, c, &w->Fv[c]);
    ns_adjust(w->in.joist, s, NS_FT, c, &w->Ft[c]);
    ns_adjust(w->in.joist, s, NS_FC, c, &w->Fc[c]);
    if (NS_NOTCH_FRACTURE) ns_adjust(w->in.joist, s, NS_FF, c, &w->Ff[c]);
  }
  ns_adjust(w->in.joist, s, NS_FC_PERP, 0, &w->Fc_perp);
  ns_adjust(w->in.joist, s, NS_E, 0, &w->E);
  ns_adjust(w->in.joist, s, NS_EMIN, 0, &w->Emin);
}

#if NS_DURATION_BY_LOADS
/* All load of a case on the joist, lb. */
static double load_of(const struct ns_beam *s, int of, int i) {
  double sum = 0;
  for (int k = 0; k < s->breaks; k++) {
    const double h = k + 1 < s->breaks ? s->x[k + 1][i] - s->x[k][i] : 0;
    sum += s->P[of][k][i] + h * (s->w[of][k][i] + s->dw[of][k][i] * h / 2);
  }
  return sum;
}

/* Values of the combinations with live load, by how much of it is dead. */
static void shorten(struct ns_factors *f, int i, double part) {
  f->CD[i] *= part;
  f->value[i] *= part;
}

/* Values by how much of the load lasts. */
static void long_loads(struct ns_work *w) {
  const struct ns_standard *s = w->standard;
  for (int i = 0; i < NS_LANES; i++) {
    const double part =
        ns_long_term(load_of(&w->uncut, 0, i), load_of(&w->uncut, 1, i));
    for (int c = 0; c < s->combos && part < 1; c++) {
      if (!(s->g_L[c] > 0)) continue;
      struct ns_factors *all[] = {&w->Fb_own[c], &w->Fv[c], &w->Ft[c],
                                  &w->Fc[c], &w->Ff[c]};
      for (size_t k = 0; k < sizeof all / sizeof *all; k++)
        shorten(all[k], i, part);
    }
    if (part < 1) shorten(&w->Fc_perp, i, part);
  }
}
#endif

/* Two cuts of a kind at one place are one cut entered twice. */
NS_INLINE void find_twin(struct ns_work *w, int a, int b) {
  const struct ns_cut_geometry *restrict p = &w->cut[a], *restrict q =
                                                             &w->cut[b];
  const bool flat = w->shape->cut[a].kind >= NS_LOSS;
  ns_lane twin;
  LANES(i) {
    const bool over =
        (p->x1[i] >= q->x1[i] - 1e-6) & (p->x2[i] <= q->x2[i] + 1e-6);
    const bool under =
        (q->x1[i] >= p->x1[i] - 1e-6) & (q->x2[i] <= p->x2[i] + 1e-6);
    const bool touch = (p->y1[i] < q->y2[i]) & (q->y1[i] < p->y2[i]);
    const bool level = over & under & (p->y1[i] == q->y1[i]);
    const bool boxes = (over | under) & touch;
    twin[i] = (flat & level) | (!flat & boxes) ? 1 : 0;
  }
  if (!ns_any(twin)) return;
  for (int i = 0; i < NS_LANES; i++) {
    if (twin[i] == 0 || w->out->status[i] != NS_OK) continue;
    w->out->status[i] = NS_SAME_PLACE;
    w->out->bad_part[i] = 1 + b;
    w->out->bad_field[i] = a;
  }
}

/* Two cuts of a kind at one place are refused. */
NS_CLONES static void find_twins(struct ns_work *w) {
  const struct ns_shape *s = w->shape;
  for (int a = 0; a < s->cuts; a++)
    for (int b = a + 1; b < s->cuts; b++)
      if (s->cut[a].kind == s->cut[b].kind) find_twin(w, a, b);
}

/* Factor of joists that share the floor; a cut outside the rules gives it up,
 * and a pinned one stands. */
NS_CLONES static void repetitive(const struct ns_work *w, bool cut,
                                 double *restrict Cr) {
  const double(*J)[NS_LANES] = (const double(*)[NS_LANES])w->in.joist;
  const double *restrict within = w->out->within;
  LANES(i) {
    const double pin = J[NS_J_repetitive][i];
    const double row =
        ns_system_factor(w->standard, J[NS_J_members][i], J[NS_J_spacing][i],
                         J[NS_J_sheathed][i] != 0, J[NS_J_b][i]);
    const bool whole = !cut | (within[i] == 1) | NS_SYSTEM_KEPT;
    const double by_rule = whole ? row : 1.0;
    Cr[i] = pin > 0 ? pin : by_rule;
  }
}

/* A sister that does not bear on both supports, plates, a strap: the
 * repetitive factor is given up (unless it is pinned). */
static bool part_length(const struct ns_shape *s) {
  return !(s->fix.kind == NS_BESIDE && s->fix.bears[0] && s->fix.bears[1]);
}

/* C_r as pinned, 1 where it is not. */
static void pinned(const struct ns_work *w, double *restrict Cr) {
  LANES(i) {
    const double pin = w->in.joist[NS_J_repetitive][i];
    Cr[i] = pin > 0 ? pin : 1.0;
  }
}

/* Nothing in the lanes that have no numbers. */
static void quiet(double *row, const double *status) {
  LANES(i) row[i] = status[i] == NS_OK ? row[i] : 0;
}

/* A lane without numbers shows none; one whose repair fails has those of the
 * joist as it is. */
static void silence(struct ns_result *o, bool fixed) {
  if (!some_wrong(o)) return;
  struct ns_state *states[] = {&o->uncut, &o->cut, &o->fixed};
  ns_lane as_is;
  LANES(i) as_is[i] = o->repair_fails[i] != 0 ? NS_OK : o->status[i];
  for (int n = 0; n < (fixed ? 3 : 2); n++) {
    const double *status = n == 2 ? o->status : as_is;
    quiet(states[n]->ratio, status);
    quiet(states[n]->strength, status);
    quiet(states[n]->moment, status);
    quiet(states[n]->shear, status);
  }
  for (int n = 0; n < o->checks; n++) {
    const double *status = fixed && n >= o->fixed.first ? o->status : as_is;
    quiet(o->check[n].on, status);
    quiet(o->check[n].ratio, status);
    quiet(o->check[n].demand, status);
    quiet(o->check[n].capacity, status);
  }
  LANES(i) o->action[i] = as_is[i] == NS_OK ? o->action[i] : NS_REFER;
}

/* What the family of formulas does not cover. */
static void find_lacks(struct ns_work *w, const struct ns_block *b) {
  const bool repair = w->shape->fix.kind != NS_NO_FIX;
  for (int i = 0; i < NS_LANES; i++)
    if (ns_family_lacks(b->joist, repair, i) &&
        (repair || w->out->status[i] == NS_OK))
      w->out->status[i] = NS_NO_FORMULA;
}

/* Each beam's room for answers; without hinges and stations a joist has one
 * for each inner support. */
static void give_room(struct ns_work *w) {
  struct ns_beam *few[] = {&w->uncut, &w->after, &w->locked, &w->pair};
  for (int k = 0; k < 4; k++) ns_beam_room(few[k], w->few[k]);
  ns_beam_room(&w->fixed, w->many);
}

/* From the block to beams: status of every lane. That the topology has room was
 * looked at before (families.c). */
static void prepare(const struct ns_shape *shape,
                    const struct ns_standard *standard,
                    const struct ns_block *block, struct ns_work *work,
                    struct ns_result *out) {
  work->shape = shape;
  work->standard = standard;
  work->out = out;
  give_room(work);
  out->checks = out->items = out->refused = 0;
  ns_fill(out->repair_fails, 0);
  if (!shape->combined) ns_validate(shape, block, out);
  find_lacks(work, block);
  const bool stays = take_block(work, block);
  take_limits(work);
  if (!stays || NS_VALUES_BY_LOADS) adjust_values(work);
  if (!stays) ns_place_cuts(work);
  mark_severed(work);
  find_twins(work);
  ns_build_beams(work, stays);
  if (!stays) ns_keep_geometry(work);
#if NS_DURATION_BY_LOADS
  long_loads(work);
#endif
  LANES(i)
    if (work->uncut.unstable[i] != 0 && out->status[i] == NS_OK)
      out->status[i] = NS_UNSTABLE;
}

/* What ns_review, ns_rate or ns_check_block is by this family. */
void NS_OF_FAMILY(check_block)(const struct ns_shape *shape,
                               const struct ns_standard *standard,
                               const struct ns_block *block,
                               struct ns_work *work, struct ns_result *out) {
  work->records = false;
  prepare(shape, standard, block, work, out);
}

/* Envelopes of the joist uncut or cut, its lines laid first where it has
 * unknowns. */
static void tabulate(struct ns_work *w, bool cut) {
  const struct ns_beam *s = cut ? &w->after : &w->uncut;
  struct ns_table *t = &w->table[cut];
  if (s->by_units) {
    ns_unit_table(&w->unit[cut], s, w->standard, t);
    return;
  }
  if (s->unknowns > 0) ns_influence_lay(&w->influence, s);
  ns_tabulate(&w->influence, s, false, w->standard, t);
}

/* Rules need the sign of M at each cut, and Cr needs the rules: the forces at
 * the cuts are found before the checks of the cut state. */
static void work_through(const struct ns_shape *shape,
                         const struct ns_rules *rules,
                         const struct ns_standard *standard,
                         const struct ns_block *block, struct ns_work *work,
                         struct ns_result *out) {
  ns_lane Cr;
  prepare(shape, standard, block, work, out);
  tabulate(work, false);
  if (work->after.unknowns > 0) tabulate(work, true);
  ns_fill(out->within, 1);
  repetitive(work, false, Cr);
  ns_check_state(work, false, Cr, &out->uncut);
  ns_find_forces(work);
  ns_read_rules(work, rules);
  repetitive(work, true, Cr);
  ns_check_state(work, true, Cr, &out->cut);
  ns_read_gate(work);
  ns_decide(work);
  if (NS_FAMILY_REPAIRS && shape->fix.kind != NS_NO_FIX) {
    if (part_length(shape)) pinned(work, Cr);
    ns_fix(work, Cr);
  }
  ns_refuse_full(out);
  silence(out, shape->fix.kind != NS_NO_FIX);
}

/* What ns_review, ns_rate or ns_check_block is by this family. */
void NS_OF_FAMILY(review)(const struct ns_shape *shape,
                          const struct ns_rules *rules,
                          const struct ns_standard *standard,
                          const struct ns_block *block, struct ns_work *work,
                          struct ns_result *out) {
  work->records = true;
  work_through(shape, rules, standard, block, work, out);
}

/* What ns_review, ns_rate or ns_check_block is by this family. */
void NS_OF_FAMILY(rate)(const struct ns_shape *shape,
                        const struct ns_rules *rules,
                        const struct ns_standard *standard,
                        const struct ns_block *block, struct ns_work *work,
                        struct ns_result *out) {
  work->records = false;
  work_through(shape, rules, standard, block, work, out);
}
