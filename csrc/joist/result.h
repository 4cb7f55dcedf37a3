/* SPDX-License-Identifier: MIT
 * result.h - what a review says of sixteen joists: states, checks with
 * the numbers behind them, items of the rules, cuts, a repair. */
#ifndef NETSECTION_RESULT_H
#define NETSECTION_RESULT_H

#include "joist/joist.h"

/* The ratio of a demand where there is no capacity at all: larger than any
 * other, and no infinity. */
#define NS_NO_CAPACITY 1e12

/* One demand against one capacity, in sixteen joists. */
struct ns_check {
  enum ns_mode mode;
  enum ns_member member;
  int cut, support; /* which one, from 0; -1 where it is neither */
  char room[NS_CACHE_LINE - 4 * sizeof(int)];
  ns_lane on;      /* 1 where the check applies */
  ns_lane binding; /* 1 where it counts in the ratio */
  ns_lane demand, capacity, ratio, at, combo, branch;
  double rec[NS_RECORDS][NS_LANES];
};

/* One state of the joist: uncut, cut or fixed. */
struct ns_state {
  int first, count; /* its checks in the result */
  char room[NS_CACHE_LINE - 2 * sizeof(int)];
  ns_lane ratio, governing; /* largest ratio, index of its check */
  ns_lane mode;             /* enum ns_mode of that check */
  ns_lane strength;         /* largest ratio, deflection left out */
  ns_lane not_permitted;    /* 1: outside the standard, or cut through */
  ns_lane moment, moment_at, shear, shear_at;
  ns_lane deflection[2], limit[2], span_of[2]; /* live, total */
  ns_lane reaction[NS_MAX_SUPPORTS][3];        /* most, least, dead */
  ns_lane Cr;
};

struct ns_item {
  int rule, cut, support;
  char room[NS_CACHE_LINE - 3 * sizeof(int)];
  ns_lane measured, limit, ok, on; /* on: 1 where it is about the cut */
};

/* What the standard says of a cut apart from its ratio. */
enum ns_gate {
  NS_GATE_NONE,
  NS_GATE_END_DEPTH,
  NS_GATE_DEPTH,
  NS_GATE_MIDDLE,
  NS_GATE_NOT_SIMPLE,
  NS_GATE_TENSION,
  NS_GATE_SEVERED,
  NS_GATE_TALL_OPENING,
  NS_GATE_NO_RULE
};

enum ns_action { NS_LEAVE, NS_JUSTIFY, NS_DECIDE, NS_REPAIR, NS_REFER };

struct ns_cut_result {
  ns_lane x1, x2;         /* extent that was worked, merged cuts together */
  ns_lane y1, y2;         /* removed band */
  ns_lane own[4];         /* the cut by itself: x1, x2, y1, y2 */
  ns_lane middle;         /* 1: reaches past the outer third of its span */
  ns_lane gate;           /* enum ns_gate */
  ns_lane as_notch;       /* an end notch that is judged as a notch too */
  ns_lane accepted;       /* the gate was set aside with a reason */
  ns_lane covered;        /* the pack speaks of it */
  ns_lane within;         /* all its rule items pass */
  ns_lane merged;         /* 1 + index of the cut that speaks for the group */
  ns_lane near, weight;   /* 1 + index of a near cut; how far both are one */
  ns_lane tau[2];         /* how far the chord below, above is a tie or strut */
  ns_lane M[2], V[2];     /* worst over the cut, D+L: most and least */
  ns_lane M_full, V_full; /* at its middle, live load everywhere */
  ns_lane V_mid[2];       /* at its middle, patch live load */
  ns_lane lip[2];         /* force in the wood below, above: two chords */
};

/* What a repair does. Forces of stations, downward on the new member. */
struct ns_fix_result {
  ns_lane G[NS_MAX_STATIONS][3]; /* most, least, live everywhere */
  ns_lane R[2][2];               /* the new member's own: most, least */
  ns_lane share;                 /* its part by stiffness beside whole wood */
  ns_lane T, z, c, f_c;          /* a strap: tension, arm, zone, stress */
  ns_lane turn_k;                /* rotational spring at its cut */
  ns_lane sag_D;                 /* dead-load sag before the repair */
};

struct ns_result {
  ns_lane status, bad_part, bad_field; /* enum ns_status; part, field */
  ns_lane repair_fails; /* 1: by its repair; uncut and cut have their numbers */
  struct ns_state uncut, cut, fixed; /* fixed: left as it is without a repair */
  struct ns_fix_result fix;
  int checks, items;
  int refused; /* checks that found no room: then no lane has numbers */
  char room[NS_CACHE_LINE - 3 * sizeof(int)];
  struct ns_check check[NS_MAX_CHECKS + 1]; /* the last: what found no room */
  struct ns_item item[NS_MAX_ITEMS];
  struct ns_cut_result cuts[NS_MAX_CUTS];
  ns_lane seat[NS_MAX_SUPPORTS]; /* sound bearing length; 0: there is none */
  ns_lane no_seat;               /* 1: some support has none */
  ns_lane within; /* rule status: 1 within, 0 outside, -1 not covered */
  ns_lane action, missing; /* missing: a binding check lacked its value */
};

/* Whether every count and kind of a shape is among those that there are: one
 * of another's making may hold anything. */
bool ns_shape_fits(const struct ns_shape *shape);
/* Checks ranges and geometry; sets status, bad_part and bad_field. */
void ns_validate(const struct ns_shape *shape, const struct ns_block *block,
                 struct ns_result *result);

#endif
