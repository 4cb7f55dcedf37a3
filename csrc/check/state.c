/* SPDX-License-Identifier: MIT
 * state.c - the checks of a state of the joist, as the list has them: uncut,
 * cut, and of the existing joist once it is repaired. */
#include "check/check.h"
#include "check/opening.h"

/* Largest moment of a sign along the beam and its place, each combination; of
 * places that differ by rounding alone the first. */
NS_INLINE void worst_moments(struct ns_work *w, const struct ns_beam *s,
                             const struct ns_table *t, int sign) {
  const double way = sign ? -1 : 1;
  for (int c = 0; c < w->standard->combos; c++) {
    const double gD = way * w->standard->g_D[c], gL = way * w->standard->g_L[c];
    double *restrict M = w->worst_M[c][sign];
    double *restrict at = w->worst_at[c][sign];
    ns_fill(M, 0);
    ns_copy(at, s->support[0]);
    for (int b = 0; b < s->breaks; b++) {
      const bool right = b < s->breaks - 1;
      const double *restrict D = s->M[0][b], *restrict x = s->x[b];
      const double *restrict L = t->side[right][b].M[sign];
      LANES(i) {
        const double here = gD * D[i] + gL * L[i];
        const bool more = here > M[i] * (1 + 1e-12);
        M[i] = ns_max(M[i], here);
        at[i] = more ? x[i] : at[i];
      }
      if (!right || !t->peaks[c][sign][b]) continue;
      const double *restrict peak = t->peak[c][sign][b];
      const double *restrict has = t->has_peak[c][sign][b];
      const double *restrict x_p = t->peak_at[c][sign][b];
      LANES(i) {
        const double here = has[i] != 0 ? way * peak[i] : 0;
        const bool more = here > M[i] * (1 + 1e-12);
        M[i] = ns_max(M[i], here);
        at[i] = more ? x_p[i] : at[i];
      }
    }
    LANES(i) M[i] = M[i] > 1e-6 ? M[i] : 0; /* rounding, not a moment */
  }
}

/* Most, least and dead, each combination and live load where it hurts; of two
 * combinations with one answer the later counts. */
NS_INLINE void reactions(struct ns_work *w, const struct ns_beam *s,
                         const struct ns_table *t, struct ns_state *state) {
  for (int j = 0; j <= s->spans; j++) {
    const double *restrict most = t->R[0][j], *restrict least = t->R[1][j];
    const double *restrict D = s->R[0][j];
    double *restrict in = w->most_in[j], *restrict least_in = w->least_in[j];
    double *restrict hi = state->reaction[j][0];
    double *restrict lo = state->reaction[j][1];
    ns_copy(state->reaction[j][2], D);
    ns_fill(hi, -1e300);
    ns_fill(lo, 1e300);
    for (int c = 0; c < w->standard->combos; c++) {
      const double gD = w->standard->g_D[c], gL = w->standard->g_L[c];
      LANES(i) {
        const double R = gD * D[i] + gL * most[i];
        const double up = gD * D[i] + gL * least[i];
        in[i] = R >= hi[i] ? c : in[i];
        least_in[i] = up <= lo[i] ? c : least_in[i];
        hi[i] = ns_max(hi[i], R);
        lo[i] = ns_min(lo[i], up);
      }
    }
  }
}

/* What repair/ works itself. */
NS_CHECK(none) { (void)w, (void)o; }

#define X(name, word, unit, letter, about, hogs, kind, part, where, evaluate,  \
          ...)                                                                 \
  {NS_AT_##where, NS_OF_FAMILY(check_##evaluate)},
static const struct {
  enum ns_where where;
  ns_evaluator *evaluate;
} check_list[] = {NS_CHECK_LIST(X)};
#undef X

/* The checks of a state in the order of the list: of the joist, of each
 * support. */
static void work_state(struct ns_work *w, struct ns_subject *o) {
  for (int n = 0; n < NS_MODES; n++) {
    if (check_list[n].where == NS_AT_STATE) check_list[n].evaluate(w, o);
    if (check_list[n].where != NS_AT_SUPPORT) continue;
    for (o->support = 0; o->support <= o->s->spans; o->support++)
      check_list[n].evaluate(w, o);
    o->support = -1;
  }
}

/* Those of a cut. */
static void work_cut(struct ns_work *w, const struct ns_subject *o) {
  for (int n = 0; n < NS_MODES; n++)
    if (check_list[n].where == NS_AT_CUT) check_list[n].evaluate(w, o);
}

/* Cuts that were merged are checked once, under the first of them: a check
 * that no lane of a block has is left out of it. */
void ns_check_cut(struct ns_work *w, int c) {
  const struct ns_demand *q = &w->demand[c];
  struct ns_subject o = {.s = q->s, .t = q->t, .support = -1, .at = c, .q = q};
  struct ns_opening opening;
  o.kind = w->shape->cut[c].kind;
  o.first = w->out->checks;
  if (o.kind == NS_SEVER) return;
  if (o.kind < NS_SEVER && ns_find_opening(w, c, q, &opening))
    o.opening = &opening;
  work_cut(w, &o);
}

/* A cut that a strap bridges: its own shear, and under what was locked in its
 * bending. */
void ns_check_strapped(struct ns_work *w, int c, bool locked) {
  const struct ns_demand *q = &w->demand[c];
  struct ns_subject o = {.s = q->s, .t = q->t, .support = -1, .at = c, .q = q};
  o.kind = w->shape->cut[c].kind;
  if (o.kind == NS_SEVER) return;
  if (locked) NS_OF_FAMILY(check_net_bending)(w, &o);
  NS_OF_FAMILY(check_net_shear)(w, &o);
  if (o.kind < NS_SEVER) NS_OF_FAMILY(check_notch_shear)(w, &o);
}

/* All checks of the joist uncut or cut, C_r as given; forces of the cut state
 * are those of the uncut one where they do not depend on its stiffness. */
NS_CLONES void ns_check_state(struct ns_work *w, bool cut, const double *Cr,
                              struct ns_state *state) {
  struct ns_beam *s = cut ? &w->after : &w->uncut;
  const bool own = cut && s->unknowns > 0; /* stiffness moves the forces */
  struct ns_subject o = {.state = state, .s = s, .sag = s, .cut = cut};
  o.support = o.at = -1;
  o.t = &w->table[own];
  o.hogs = s->spans > 1 || s->left || s->right;
  o.signs = o.hogs ? 2 : 1;
  o.again = cut && !own;
  state->first = w->out->checks;
  ns_copy(state->Cr, Cr);
  if (o.hogs && !o.again) ns_beam_parts(s, &w->parts);
  ns_bending_values(w, s, NULL, cut, Cr);
  if (o.again)
    memcpy(state->reaction, w->out->uncut.reaction,
           sizeof state->reaction[0] * (size_t)(s->spans + 1));
  else
    reactions(w, s, o.t, state);
  for (int sign = 0; sign < o.signs && !o.again; sign++)
    worst_moments(w, s, o.t, sign);
  work_state(w, &o);
  for (int c = 0; c < w->shape->cuts && cut; c++) ns_check_cut(w, c);
  ns_close_state(w, o.hogs, state);
}

/* What a state says as a whole, once all its checks are made. */
NS_CLONES void ns_close_state(struct ns_work *w, bool hogs,
                              struct ns_state *state) {
  state->count = w->out->checks - state->first;
  const struct ns_check *bent = ns_first_of(
      w->out, state, state == &w->out->fixed ? NS_HOST_BENDING : NS_BENDING);
  ns_copy(state->moment, bent->demand);
  ns_copy(state->moment_at, bent->at);
  ns_fill(state->not_permitted, 0);
  for (int c = 0; c < w->standard->combos && hogs; c++) {
    const double *restrict M = w->worst_M[c][1], *restrict at =
                                                     w->worst_at[c][1];
    LANES(i) {
      const bool down = M[i] > ns_abs(state->moment[i]);
      state->moment[i] = down ? -M[i] : state->moment[i];
      state->moment_at[i] = down ? at[i] : state->moment_at[i];
    }
  }
  ns_find_governing(w->out, state);
}

/* The joist itself once it is repaired. */
NS_CLONES void ns_check_host(struct ns_work *w, const struct ns_host *h,
                             const double *Cr, struct ns_state *state) {
  const bool prop = w->shape->fix.lift == NS_PROP; /* it may push up too far */
  struct ns_subject o = {.state = state, .s = h->s, .t = h->t, .cut = true};
  o.support = o.at = -1;
  o.host = h;
  o.sag = h->sag;
  o.hogs = h->s->spans > 1 || h->s->left || h->s->right;
  o.signs = o.hogs || prop ? 2 : 1;
  state->first = w->out->checks;
  ns_copy(state->Cr, Cr);
  if (o.hogs) ns_beam_parts(h->whole, &w->parts);
  ns_bending_values(w, h->s, h->part, true, Cr);
  reactions(w, h->whole, h->whole_t, state);
  for (int sign = 0; sign < o.signs; sign++) worst_moments(w, h->s, h->t, sign);
  work_state(w, &o);
}
