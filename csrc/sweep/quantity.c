/* SPDX-License-Identifier: MIT
 * quantity.c - one number out of sixteen reviews, as a sweep keeps it. */
#include "sweep/sweep.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#define X(name, word, of) word,
const char *const ns_quantity_names[] = {NS_QUANTITY_LIST(X) 0};
#undef X

/* A joist at a ratio of 1 exactly is not over; the last bits of a double are
 * (as review.lua has it). */
#define FULL (1 + 1e-9)

/* The state that a number is of. */
static const struct ns_state *state_of(const struct ns_result *r,
                                       const struct ns_output *o) {
  return o->state == NS_UNCUT ? &r->uncut
         : o->state == NS_CUT ? &r->cut
                              : &r->fixed;
}

/* Cut through, 1, or with no seat, 2: as it is, the joist has no ratio and no
 * deflection. */
static void mark_severed(const struct ns_shape *shape,
                         const struct ns_result *r, double *severed) {
  for (int i = 0; i < NS_LANES; i++) severed[i] = 2 * r->no_seat[i];
  for (int c = 0; c < shape->cuts; c++)
    for (int i = 0; i < NS_LANES; i++)
      if (r->cuts[c].gate[i] == NS_GATE_SEVERED) severed[i] = 1;
}

/* Rules of a joist as a code. */
static void quantity_rules(const struct ns_result *r, double *row) {
  for (int i = 0; i < NS_LANES; i++)
    row[i] = r->within[i] < 0    ? NS_NOT_COVERED
             : r->within[i] == 0 ? NS_OUTSIDE
                                 : NS_WITHIN;
  for (int k = 0; k < r->items; k++)
    for (int i = 0; i < NS_LANES; i++)
      if (r->item[k].support >= 0 && r->item[k].ok[i] == 0 &&
          row[i] == NS_WITHIN)
        row[i] = NS_OUTSIDE;
}

/* Status of a state as a code. */
static void quantity_status(const struct ns_state *s, double *row) {
  for (int i = 0; i < NS_LANES; i++)
    row[i] = s->not_permitted[i] == 1 ? NS_NOT_PERMITTED
             : s->ratio[i] > FULL     ? NS_OVERSTRESSED
                                      : NS_ADEQUATE;
}

/* The check with the largest ratio among those of a mode, the first of them
 * where several have it. */
static void quantity_check(const struct ns_result *r, const struct ns_output *o,
                           double *row) {
  const struct ns_state *s = state_of(r, o);
  ns_lane worst;
  for (int i = 0; i < NS_LANES; i++) worst[i] = -1;
  for (int n = s->first; n < s->first + s->count; n++) {
    const struct ns_check *k = &r->check[n];
    const int index = k->cut >= 0 ? k->cut : k->support;
    if ((int)k->mode != o->mode || (o->index >= 0 && o->index != index))
      continue;
    const double *of = o->quantity == NS_QUANTITY_CHECK            ? k->ratio
                       : o->quantity == NS_QUANTITY_CHECK_DEMAND   ? k->demand
                       : o->quantity == NS_QUANTITY_CHECK_CAPACITY ? k->capacity
                                                                   : k->at;
    for (int i = 0; i < NS_LANES; i++) {
      const bool none = k->mode == NS_BEARING && k->binding[i] == 0;
      const double ratio = none ? 0 : k->ratio[i]; /* no seat is no ratio */
      if (k->on[i] == 0 || ratio <= worst[i]) continue;
      worst[i] = ratio;
      row[i] = none && o->quantity == NS_QUANTITY_CHECK ? (double)NAN : of[i];
    }
  }
}

/* Where the number stands as it is: in which part of the result, how far in,
 * and how far apart those of several supports or stations are. */
enum part { NONE, JOIST, STATE, CUT, FIX };
#define AT(part, type, field)                                                  \
  { part, offsetof(struct type, field), 0 }
#define EACH(part, type, field, n)                                             \
  {                                                                            \
    part, offsetof(struct type, field[0][n]),                                  \
        sizeof(((struct type *)0)->field[0])                                   \
  }
static const struct {
  enum part part;
  size_t offset, stride;
} places[NS_QUANTITIES] = {
    [NS_QUANTITY_ACTION] = AT(JOIST, ns_result, action),
    [NS_QUANTITY_RATIO] = AT(STATE, ns_state, ratio),
    [NS_QUANTITY_GOVERNING] = AT(STATE, ns_state, mode),
    [NS_QUANTITY_MOMENT] = AT(STATE, ns_state, moment),
    [NS_QUANTITY_MOMENT_AT] = AT(STATE, ns_state, moment_at),
    [NS_QUANTITY_SHEAR] = AT(STATE, ns_state, shear),
    [NS_QUANTITY_SHEAR_AT] = AT(STATE, ns_state, shear_at),
    [NS_QUANTITY_LIVE] = AT(STATE, ns_state, deflection[0]),
    [NS_QUANTITY_TOTAL] = AT(STATE, ns_state, deflection[1]),
    [NS_QUANTITY_CR] = AT(STATE, ns_state, Cr),
    [NS_QUANTITY_REACTION] = EACH(STATE, ns_state, reaction, 0),
    [NS_QUANTITY_REACTION_LEAST] = EACH(STATE, ns_state, reaction, 1),
    [NS_QUANTITY_REACTION_DEAD] = EACH(STATE, ns_state, reaction, 2),
    [NS_QUANTITY_CUT_MOMENT] = AT(CUT, ns_cut_result, M[0]),
    [NS_QUANTITY_CUT_MOMENT_LEAST] = AT(CUT, ns_cut_result, M[1]),
    [NS_QUANTITY_CUT_SHEAR] = AT(CUT, ns_cut_result, V[0]),
    [NS_QUANTITY_CUT_SHEAR_LEAST] = AT(CUT, ns_cut_result, V[1]),
    [NS_QUANTITY_CUT_WITHIN] = AT(CUT, ns_cut_result, within),
    [NS_QUANTITY_CUT_GATE] = AT(CUT, ns_cut_result, gate),
    [NS_QUANTITY_SHARE] = AT(FIX, ns_fix_result, share),
    [NS_QUANTITY_TENSION] = AT(FIX, ns_fix_result, T),
    [NS_QUANTITY_ARM] = AT(FIX, ns_fix_result, z),
    [NS_QUANTITY_SAG] = AT(FIX, ns_fix_result, sag_D),
    [NS_QUANTITY_STATION] = EACH(FIX, ns_fix_result, G, 2),
    [NS_QUANTITY_STATION_MOST] = EACH(FIX, ns_fix_result, G, 0),
    [NS_QUANTITY_STATION_LEAST] = EACH(FIX, ns_fix_result, G, 1),
};

/* The row that holds the number as it is, or null. */
static const double *plain_row(const struct ns_result *r,
                               const struct ns_output *o) {
  const size_t n = o->index < 0 ? 0 : (size_t)o->index;
  const size_t at = places[o->quantity].offset + n * places[o->quantity].stride;
  const void *from = places[o->quantity].part == JOIST   ? (const void *)r
                     : places[o->quantity].part == STATE ? state_of(r, o)
                     : places[o->quantity].part == CUT   ? &r->cuts[n]
                                                       : (const void *)&r->fix;
  if (places[o->quantity].part == NONE) return NULL;
  return (const double *)(const void *)((const char *)from + at);
}

/* Whether a number is none where the joist is cut through. */
static bool lost_when_severed(enum ns_quantity t) {
  return t == NS_QUANTITY_RATIO || t == NS_QUANTITY_GOVERNING ||
         t == NS_QUANTITY_LIVE || t == NS_QUANTITY_TOTAL;
}

/* False for the reaction, cut or station of a number that the joist has not. */
static bool has(const struct ns_shape *h, const struct ns_output *o) {
  const enum ns_quantity t = o->quantity;
  if (t >= NS_QUANTITY_REACTION && t <= NS_QUANTITY_REACTION_DEAD)
    return o->index <= h->spans;
  if (t >= NS_QUANTITY_CUT_MOMENT && t <= NS_QUANTITY_CUT_GATE)
    return o->index < h->cuts;
  if (t >= NS_QUANTITY_STATION && t <= NS_QUANTITY_STATION_LEAST)
    return o->index < h->fix.stations;
  if (t == NS_QUANTITY_TENSION || t == NS_QUANTITY_ARM) /* of a strap */
    return h->fix.kind == NS_UNDER;
  return true;
}

/* A number of the repaired joist, or of its repair. */
static bool of_repair(const struct ns_output *o) {
  const enum part p = places[o->quantity].part;
  return p == FIX || (o->state == NS_FIXED && p != JOIST && p != CUT &&
                      o->quantity != NS_QUANTITY_RULES);
}

/* One number of sixteen reviews; NaN where there is none. */
void ns_keep_quantity(const struct ns_shape *shape, const struct ns_result *r,
                      const struct ns_output *o, double *row) {
  for (int i = 0; i < NS_LANES; i++) row[i] = (double)NAN;
  if (!has(shape, o)) return;
  const double *from = plain_row(r, o);
  if (from)
    memcpy(row, from, sizeof(ns_lane));
  else if (o->quantity == NS_QUANTITY_RULES)
    quantity_rules(r, row);
  else if (o->quantity == NS_QUANTITY_STATUS)
    quantity_status(state_of(r, o), row);
  else
    quantity_check(r, o, row);
  if (o->state == NS_CUT && lost_when_severed(o->quantity)) {
    ns_lane severed;
    const double none =
        o->quantity == NS_QUANTITY_GOVERNING ? NS_MODES : (double)NAN;
    mark_severed(shape, r, severed);
    for (int i = 0; i < NS_LANES; i++) {
      const bool by_seat =
          severed[i] == 2 && o->quantity == NS_QUANTITY_GOVERNING;
      row[i] = by_seat ? NS_BEARING : severed[i] != 0 ? none : row[i];
    }
  }
  const bool kept = !of_repair(o); /* where the repair alone fails */
  for (int i = 0; i < NS_LANES; i++) {
    const bool has = r->status[i] == NS_OK || (kept && r->repair_fails[i] != 0);
    row[i] = has ? row[i] : (double)NAN;
  }
}
