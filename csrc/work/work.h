/* SPDX-License-Identifier: MIT
 * work.h - the working room of a review: geometry, beams and tables of
 * one block. Private to the core; review.h only hands out its size. */
#ifndef NETSECTION_WORK_H
#define NETSECTION_WORK_H

#include "beam/table.h"
#include "joist/lanes.h"
#include "joist/result.h"
#include "nds/nds.h"
#include "section/section.h"

/* A cut in the joist's own axes: x along it, y up from the bottom edge. */
struct ns_cut_geometry {
  ns_lane x1, x2, xc;     /* as described, split and taper included */
  ns_lane y1, y2;         /* band gone */
  ns_lane size;           /* height of the band */
  ns_lane sigma;          /* size that nearness is measured in */
  ns_lane g1, g2, h1, h2; /* box of its group: x from g1, y from h1 */
  ns_lane w1, w2, v1, v2; /* box that it is checked with: x, y */
  ns_lane r1, r2;         /* stretch over which M and V are read */
  ns_lane L, a;           /* length as a tie, and as a frame */
  ns_lane leader;         /* index of the cut that leads its group */
  ns_lane merged;         /* 1 where it is not alone */
  ns_lane near, weight;   /* 1 + index of the nearest cut beside it, and how
                           * far the two count as one, 0 to 1 */
  ns_lane between;        /* 1 where r1, r2 are at no edge or center */
  ns_lane ends[2];        /* 1 where it takes in an end notch, left, right */
  ns_lane opening;        /* 1 where it takes in a hole or a slot */
};

/* Worst of M (each sign) and V over a cut, per combination. */
struct ns_demand {
  ns_lane a, b; /* the stretch it is read over */
  ns_lane M[NS_MAX_COMBOS][2], M_at[NS_MAX_COMBOS][2];
  ns_lane V[NS_MAX_COMBOS], V_at[NS_MAX_COMBOS];
  ns_lane V_most, V_least;            /* all loads, live where it hurts */
  ns_lane leader, open, below, above; /* what the group is, lane by lane */
  ns_lane gone;                       /* 1 where nothing is left that counts */
  ns_lane in_tension[2];              /* bottom, top face in tension */
  ns_lane tension_notch;    /* one of them where the group is a notch in it */
  const struct ns_beam *s;  /* what it was taken from: the joist, */
  const struct ns_table *t; /* or its part of a repaired one */
  bool some_gone, hogs[NS_MAX_COMBOS]; /* in any lane: gone; M < 0 */
  char room[NS_CACHE_LINE - 2 * sizeof(void *) - 1 - NS_MAX_COMBOS];
};

/* The live pattern whose M < 0 and free bottom edge use up the most, in each
 * combination: M as a positive number, its place, CL by that pattern's free
 * length, and the pattern, a bit for each region. M is nil where none hogs. */
struct ns_hog {
  ns_lane M[NS_MAX_COMBOS], at[NS_MAX_COMBOS], CL[NS_MAX_COMBOS];
  ns_lane l_u[NS_MAX_COMBOS], l_e[NS_MAX_COMBOS], pattern[NS_MAX_COMBOS];
};

/* What the geometry in the work room was made from, beside the rows of 'in'
 * (kept.c). */
struct ns_kept {
  bool made;  /* all of it, and rows of no other block since */
  bool fixed; /* that of a severed joist and its member under even loads too */
  struct ns_shape shape;
  struct ns_standard standard;
};

struct ns_work {
  const struct ns_shape *shape;
  const struct ns_standard *standard;
  char room[NS_CACHE_LINE - 2 * sizeof(void *)];
  struct ns_block in;        /* the block, bad lanes made harmless */
  ns_lane start, end, total; /* ends of the wood; last support */
  ns_lane tip[2];            /* ends of the beam */
  ns_lane width, depth;      /* all plies */
  ns_lane severed;           /* any cut right through */
  struct ns_cut_geometry cut[NS_MAX_CUTS];
  ns_lane apart[NS_MAX_CUTS][NS_MAX_CUTS]; /* clear distance, first < second */
  ns_lane held_by[NS_MAX_CUTS];            /* span that a cut is in; 0: none */
  ns_lane reach[NS_MAX_CUTS];              /* into it from the nearer support */
  ns_lane past[NS_MAX_CUTS];     /* an end notch past the face of its bearing */
  ns_lane as_notch[NS_MAX_CUTS]; /* 1: so long that it is a notch as well */
  ns_lane near[NS_MAX_CUTS][NS_MAX_SUPPORTS]; /* 1: a loss by a bearing */
  ns_lane seat[NS_MAX_SUPPORTS]; /* bearing length that is left and sound */
  struct ns_section section[NS_MAX_CUTS];
  struct ns_demand demand[NS_MAX_CUTS];
  struct ns_beam uncut, after;
  struct ns_table table[2];
  /* Fixed: the joist with what works beside or under it; the same joist alone
   * under what it carried before; both as one by stiffness; a member's part of
   * that. */
  struct ns_beam fixed, locked, pair, view[2];
  struct ns_table host, beside, as_one, part[2];
  ns_lane gap[2], on_new[2];      /* faces of the gap; what stands on the new */
  int row_of[NS_MAX_STATIONS][2]; /* first and last break where one stands */
  ns_lane q[NS_MAX_BREAKS]; /* the joist's share of segment k by stiffness */
  ns_lane q_whole;          /* and beside whole wood */
  ns_lane steel[2];         /* strap: arm, depth of wood above */
  struct ns_factors new_Fb[NS_MAX_COMBOS], new_Fv[NS_MAX_COMBOS], new_perp;
  struct ns_factors Fb_cut[NS_MAX_COMBOS][2]; /* of the cut state */
  struct ns_factors Fb[NS_MAX_COMBOS][2];     /* by sign of M; state's Cr in */
  struct ns_factors Fb_own[NS_MAX_COMBOS];    /* without CL and Cr */
  struct ns_factors Fv[NS_MAX_COMBOS], Ft[NS_MAX_COMBOS], Fc[NS_MAX_COMBOS];
  struct ns_factors Fc_perp, Emin, E;
  ns_lane star[NS_MAX_COMBOS]; /* Fb* of the state: without CL */
  struct ns_parts parts;
  struct ns_hog hog, hog_cut[NS_MAX_CUTS];
  /* Largest moments along the beam, and where. */
  ns_lane most_in[NS_MAX_SUPPORTS]; /* combination of the most reaction */
  ns_lane least_in[NS_MAX_SUPPORTS];
  ns_lane worst_M[NS_MAX_COMBOS][2], worst_at[NS_MAX_COMBOS][2];
  /* Answers of the unknowns: of uncut, after, locked and pair few. */
  struct ns_answer few[4][NS_MAX_SPANS];
  union { /* fixed is solved by its unknowns, or by unit loads with locked */
    struct ns_answer many[NS_MAX_UNKNOWNS];
    struct ns_unit_severed unit_fixed;
  };
  struct ns_influence influence;
  struct ns_factors Ff[NS_MAX_COMBOS]; /* of fracture at a notch */
  bool records; /* the numbers behind each check are wanted */
  struct ns_result *out;
  /* The joists under one combination with roof live load or snow, and what it
   * gave (combine.c). */
  struct ns_shape one_shape;
  struct ns_block one;
  struct ns_result found;
  struct ns_unit_beam unit[2]; /* of uncut, after */
  struct ns_kept kept;
};

/* kept.c */
bool ns_geometry_stays(const struct ns_work *w, const struct ns_block *b);
void ns_take_block(struct ns_work *w, const struct ns_block *b);
void ns_take_loads(struct ns_work *w, const struct ns_block *b);
void ns_keep_geometry(struct ns_work *w);
/* Makes room that may hold anything fit to begin with. */
void ns_forget(struct ns_work *w);

/* Whether floor loads are all there are, so that a load is even along a span.
 */
NS_INLINE bool ns_even_loads(const struct ns_shape *s) {
  return s->lines == 0 && s->points == 0;
}

_Static_assert(sizeof(struct ns_spans) <=
                   NS_MAX_SPANS * sizeof(struct ns_answer),
               "sums over spans stand where answers would");

/* A cut that takes a band out of the depth. */
NS_INLINE bool ns_boxed(enum ns_kind kind) {
  return kind == NS_HOLE || kind == NS_SLOT || kind == NS_NOTCH ||
         kind == NS_END_NOTCH;
}

#endif
