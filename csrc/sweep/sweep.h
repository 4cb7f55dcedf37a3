/* SPDX-License-Identifier: MIT
 * sweep.h - joists of one topology by the million: which rows of a block vary,
 * which numbers of each review are kept, and the threads that share the work.
 * A point of a sweep is a lane of ns_review, so it equals the review of that
 * joist to the bit, on however many threads. */
#ifndef NETSECTION_SWEEP_H
#define NETSECTION_SWEEP_H

#include <stdint.h>

#include "review/review.h"

#define NS_MAX_AXES 16
/* Axes of a joist and its cuts, or the rows of a repair that differ. */
#define NS_MAX_COLUMNS (64 + 7 * NS_MAX_STATIONS)
#define NS_MAX_OUTPUTS 32
#define NS_MAX_THREADS 64
#define NS_BLOCK_ROWS (sizeof(struct ns_block) / sizeof(ns_lane))

/* X(name, word, of): a number of a review; of: j of the joist, s of a state,
 * f of the fixed state alone, r with the number of a support, c of a cut, n of
 * a station. */
#define NS_QUANTITY_LIST(X)                                                    \
  X(ACTION, "action", j)                                                       \
  X(RULES, "rules", j)                                                         \
  X(RATIO, "ratio", s)                                                         \
  X(GOVERNING, "governing", s)                                                 \
  X(STATUS, "status", s)                                                       \
  X(MOMENT, "moment", s)                                                       \
  X(MOMENT_AT, "moment.at", s)                                                 \
  X(SHEAR, "shear", s)                                                         \
  X(SHEAR_AT, "shear.at", s)                                                   \
  X(LIVE, "deflection.live", s)                                                \
  X(TOTAL, "deflection.total", s)                                              \
  X(CR, "Cr", s)                                                               \
  X(REACTION, "reaction", r)                                                   \
  X(REACTION_LEAST, "reaction.least", r)                                       \
  X(REACTION_DEAD, "reaction.dead", r)                                         \
  X(CUT_MOMENT, "cuts.moment", c)                                              \
  X(CUT_MOMENT_LEAST, "cuts.moment.least", c)                                  \
  X(CUT_SHEAR, "cuts.shear", c)                                                \
  X(CUT_SHEAR_LEAST, "cuts.shear.least", c)                                    \
  X(CUT_WITHIN, "cuts.within", c)                                              \
  X(CUT_GATE, "cuts.gate", c)                                                  \
  X(SHARE, "share", f)                                                         \
  X(TENSION, "tension", f)                                                     \
  X(ARM, "arm", f)                                                             \
  X(SAG, "sag", f)                                                             \
  X(STATION, "station", n)                                                     \
  X(STATION_MOST, "station.most", n)                                           \
  X(STATION_LEAST, "station.least", n)                                         \
  X(CHECK, "check", s)                                                         \
  X(CHECK_DEMAND, "check.demand", s)                                           \
  X(CHECK_CAPACITY, "check.capacity", s)                                       \
  X(CHECK_AT, "check.at", s)

#define X(name, word, of) NS_QUANTITY_##name,
enum ns_quantity { NS_QUANTITY_LIST(X) NS_QUANTITIES };
#undef X
extern const char *const ns_quantity_names[];

enum ns_state_of { NS_UNCUT, NS_CUT, NS_FIXED };
/* Codes of NS_QUANTITY_STATUS, of NS_QUANTITY_RULES (and, less one, of the row
 * 'within'); NS_MODES as a governing mode: cut through. */
enum ns_standing { NS_ADEQUATE, NS_OVERSTRESSED, NS_NOT_PERMITTED };
enum ns_covered { NS_NOT_COVERED, NS_OUTSIDE, NS_WITHIN };

/* A number of a review, or that of the worst check of a mode. */
struct ns_output {
  enum ns_quantity quantity;
  enum ns_state_of state;
  int mode;  /* of the check */
  int index; /* support, cut or station from 0; of a check -1: any */
};

/* One row of 16 lanes; NaN where the review has no such number. */
void ns_keep_quantity(const struct ns_shape *shape,
                      const struct ns_result *result,
                      const struct ns_output *output, double *row);

/* What an axis does to one row of a block: a value for each of its steps; with
 * axis -1 one for each point that is worked. */
struct ns_column {
  int axis, row;
  const double *values;
};

/* Points are counted model by model and, within a model, with the last axis
 * fastest: point = (model * size[0] + i_0) * size[1] + ... */
struct ns_sweep {
  const struct ns_shape *shape;
  const struct ns_rules *rules;
  const struct ns_standard *standard;
  int models, axes, columns, outputs;
  const double *const *model; /* NS_BLOCK_ROWS numbers each */
  int64_t size[NS_MAX_AXES];
  struct ns_column column[NS_MAX_COLUMNS];
  struct ns_output output[NS_MAX_OUTPUTS];
  int64_t first, count;       /* the points that are worked */
  double *to[NS_MAX_OUTPUTS]; /* count numbers each */
  uint32_t *fault;            /* 0, or why a point has no numbers */
};

/* A fault holds status, part and field (see ns_result). */
#define NS_FAULT(status, part, field)                                          \
  ((uint32_t)(status) | (uint32_t)(part) << 4 | (uint32_t)(field) << 14)
#define NS_FAULT_STATUS(f) ((int)((f)&15u))
#define NS_FAULT_PART(f) ((int)((f) >> 4 & 1023u))
#define NS_FAULT_FIELD(f) ((int)((f) >> 14))

/* Asked by the caller's own thread between blocks: how many points are done;
 * false stops the work. */
typedef bool ns_poll(void *data, int64_t done);

/* Room that so many threads need, in bytes, given by the caller, beside the
 * working room of its own thread. */
unsigned long ns_sweep_room(int threads);
/* Works the points; how many were done, less than count where 'poll' said
 * so. Threads that cannot be started are done without.
 * @param own working room of the caller's thread, free between two blocks */
int64_t ns_sweep(const struct ns_sweep *sweep, int threads, struct ns_work *own,
                 void *room, ns_poll *poll, void *data);

#endif
