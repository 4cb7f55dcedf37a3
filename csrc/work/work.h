/* SPDX-License-Identifier: MIT
 * work.h - the desk a review is worked on: geometry, beams and tables of one
 * block. Private to the core; netsection.h only hands out its size. */
#ifndef NETSECTION_WORK_H
#define NETSECTION_WORK_H

#include "joist/lanes.h"

/* The ratio of a demand where there is no capacity at all: larger than any
 * other, and no infinity. */
#define NS_NO_CAPACITY 1e12

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
  ns_lane voice;          /* index of the cut that speaks for its group */
  ns_lane merged;         /* 1 where it is not alone */
  ns_lane near, weight;   /* 1 + index of the nearest cut beside it, and how
                           * far the two count as one, 0 to 1 */
  ns_lane between;        /* 1 where r1, r2 are at no edge or center */
  ns_lane ends[2];        /* 1 where it takes in an end notch, left, right */
  ns_lane opening;        /* 1 where it takes in a hole or a slot */
};

/* How far beside a place, in inches, the sign of its moment line is read. At
 * a support the line may be nil all along, yet the shear that goes with the
 * moment is that of the load which makes moment just inside. */
#define NS_INSIDE 1e-7

/* An influence line: value and slope at each post (see lines.c), live load
 * times it over each segment. */
#define NS_MAX_POSTS (2 * NS_MAX_BREAKS)
struct ns_line {
  ns_lane at[NS_MAX_POSTS], slope[NS_MAX_POSTS], W[NS_MAX_BREAKS];
};

/* V most and least: of the segments passed, and from each segment on. */
struct ns_shears {
  ns_lane passed[2], ahead[2][NS_MAX_BREAKS];
};

/* Two spans without overhangs (two.c): n and its derivatives at the start of
 * each segment; the distance from the outer support; load, load times that and
 * load times n from there to the left, right of each break, and of a span. */
struct ns_two {
  const struct ns_beam *s;
  char room[NS_CACHE_LINE - sizeof(void *)];
  ns_lane L[2], steep[2], all[2][3], R[2], U[2];
  ns_lane second[NS_MAX_BREAKS], a[NS_MAX_BREAKS], n[4][NS_MAX_BREAKS];
  ns_lane sum[2][3][NS_MAX_BREAKS];
};

/* Lines of one beam: of its forces, and of V and M at a place. */
struct ns_lines {
  ns_lane length, none, h[NS_MAX_BREAKS], on[NS_MAX_BREAKS];
  struct ns_line support[NS_MAX_SUPPORTS], station[NS_MAX_STATIONS], start;
  struct ns_line V[2], M[2]; /* of this place and the one before, in turn */
  struct ns_line before;
  struct ns_shears shears, shears_before;
  struct ns_two two;
  const struct ns_beam *s;
  bool by_sums;                  /* only 'two' is laid */
  bool second;                   /* V and M are the second beam's */
  bool twice;                    /* a line may cross nil twice in a segment */
  bool point[NS_MAX_BREAKS];     /* a live point load in any lane */
  int posts, end[NS_MAX_BREAKS]; /* the post left of each break */
};

/* What the live load adds up to that makes V most and least, and M with its
 * shear; how fast the shear of the most changes along the beam. */
struct ns_sums {
  ns_lane V[2], M[2], Vc[2], bend;
};

/* M and V at every break, live load enveloped, and the peaks between. */
struct ns_table {
  struct ns_envelope side[2][NS_MAX_BREAKS]; /* left, right of the break */
  ns_lane peak[NS_MAX_COMBOS][2][NS_MAX_BREAKS];
  ns_lane peak_at[NS_MAX_COMBOS][2][NS_MAX_BREAKS];
  ns_lane has_peak[NS_MAX_COMBOS][2][NS_MAX_BREAKS];
  struct ns_envelope support[2][NS_MAX_SUPPORTS];
  ns_lane R[2][NS_MAX_SUPPORTS];   /* live: most and least reaction */
  ns_lane V_D[2][NS_MAX_SUPPORTS]; /* dead, left and right of each */
  bool peaks[NS_MAX_COMBOS][2][NS_MAX_BREAKS]; /* in any lane */
  char room[NS_CACHE_LINE - 2 * NS_MAX_COMBOS * NS_MAX_BREAKS % NS_CACHE_LINE];
};

/* Worst of M (each sign) and V over a cut, per combination. */
struct ns_demand {
  ns_lane a, b; /* the stretch it is read over */
  ns_lane M[NS_MAX_COMBOS][2], M_at[NS_MAX_COMBOS][2];
  ns_lane V[NS_MAX_COMBOS], V_at[NS_MAX_COMBOS];
  ns_lane V_most, V_least;           /* all loads, live where it hurts */
  ns_lane voice, open, below, above; /* what the group is, lane by lane */
  ns_lane gone;                      /* 1 where nothing is left that counts */
  ns_lane torn[2];                   /* bottom, top face in tension */
  ns_lane torn_notch; /* one of them where the group is a notch in it */
  bool some_gone, hogs[NS_MAX_COMBOS]; /* in any lane: gone; M < 0 */
  char room[NS_CACHE_LINE - 1 - NS_MAX_COMBOS];
};

/* M and V right of each break under live load on one span or overhang. */
struct ns_parts {
  ns_lane M[NS_MAX_SPANS + 2][NS_MAX_BREAKS];
  ns_lane V[NS_MAX_SPANS + 2][NS_MAX_BREAKS];
};

/* The live pattern whose M < 0 and free bottom edge use up the most, in each
 * combination: M as a positive number, its place, CL by that pattern's free
 * length, and the pattern, a bit for each region. M is nil where none hogs. */
struct ns_hog {
  ns_lane M[NS_MAX_COMBOS], at[NS_MAX_COMBOS], CL[NS_MAX_COMBOS];
  ns_lane l_u[NS_MAX_COMBOS], l_e[NS_MAX_COMBOS], pattern[NS_MAX_COMBOS];
};

/* One member of a repaired joist for its checks: where its rows are, and how
 * strong it is. */
struct ns_part {
  const struct ns_beam *s;      /* its places */
  const ns_lane *M, *VL, *VR;   /* dead load, or what is locked in */
  const struct ns_table *table; /* live load, enveloped */
};

/* The joist in its fixed state: its own forces, those of both together, the
 * deflection of the floor, and its own share of the reactions (null: all). */
struct ns_host {
  const struct ns_beam *s;
  const struct ns_table *t;
  struct ns_beam *whole;
  const struct ns_table *whole_t;
  ns_lane *part; /* its part of each segment of the whole, or null */
  const struct ns_beam *sag;
  const double *share;
  const struct ns_beam *locked; /* what is in it whole; read with a share */
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
  ns_lane gap[2], on_new[2]; /* faces of the gap; what stands on the new */
  ns_lane q[NS_MAX_BREAKS];  /* the joist's share of segment k by stiffness */
  ns_lane q_whole;           /* and beside whole wood */
  ns_lane steel[2];          /* strap: arm, depth of wood above */
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
  ns_lane worst_M[NS_MAX_COMBOS][2], worst_at[NS_MAX_COMBOS][2];
  struct ns_lines lines;
  bool records; /* the numbers behind each check are wanted */
  struct ns_result *out;
};

/* A cut that takes a band out of the depth. */
NS_INLINE bool ns_boxed(enum ns_kind kind) {
  return kind == NS_HOLE || kind == NS_SLOT || kind == NS_NOTCH ||
         kind == NS_END_NOTCH;
}

/* A row of the force method's equations. */
typedef ns_lane ns_matrix[NS_MAX_UNKNOWNS];

/* The first break of those that stand at one place. */
NS_INLINE bool ns_new_place(const struct ns_beam *s, int k, int i) {
  return k == 0 || s->x[k > 0 ? k - 1 : 0][i] != s->x[k][i];
}

/* A lone span is all of case 1, a load on its far support with it. */
NS_INLINE bool ns_lone_span(const struct ns_beam *s) {
  return s->spans == 1 && !s->left && !s->right;
}

/* And one that statics alone answers. */
NS_INLINE bool ns_by_statics(const struct ns_beam *s) {
  return ns_lone_span(s) && s->hinges == 0 && s->stations == 0;
}

/* Whether a load case has a point load in any lane. */
NS_INLINE bool ns_has_points(const struct ns_beam *s, int kind) {
  ns_lane some = {0};
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict P = s->P[kind][k];
    LANES(i) some[i] += ns_abs(P[i]);
  }
  return ns_any(some);
}

/* True where load of segment k stands on the beam that is asked for. */
NS_INLINE bool ns_carries(const struct ns_beam *s, bool second, int k, int i) {
  return s->stations == 0 ? !second : (s->on_new[k][i] != 0) == second;
}

/* 1 where a case loads segment k: case 0 dead; 1 and 2 live on every other
 * region, or case 1 on the only one that is asked for. */
NS_INLINE void ns_case_lanes(const struct ns_beam *s, int c, int k,
                             double *restrict on) {
  const bool one = ns_lone_span(s), single = s->only > 0;
  const double *restrict r = s->region[k];
  const double only = s->only - 1;
  LANES(i) {
    const double half = r[i] / 2, whole = (double)(int)half;
    const bool odd = half != whole;
    const bool live = single ? r[i] == only : (odd | one) == (c == 1);
    on[i] = (c == 0) | live ? 1 : 0;
  }
}

/* Loads of a case on segment k of a beam. */
NS_INLINE void ns_case_load(const struct ns_beam *s, int c, int k, bool second,
                            double *restrict w, double *restrict dw,
                            double *restrict P) {
  const int kind = c > 0;
  ns_lane of_case;
  ns_case_lanes(s, c, k, of_case);
  LANES(i) {
    const bool on = (of_case[i] != 0) & ns_carries(s, second, k, i);
    w[i] = on ? s->w[kind][k][i] : 0;
    dw[i] = on ? s->dw[kind][k][i] : 0;
    P[i] = on ? s->P[kind][k][i] : 0;
  }
}

/* Bearing factor (NDS 3.10.4): under 6 in long and 3 in or more from the
 * end. */
NS_INLINE double ns_Cb_of(double l_b, double to_end) {
  return (l_b < 6) & (to_end >= 3) ? (l_b + 0.375) / l_b : 1;
}

/* NDS 3.7.1.5 with c = 0.8 for sawn lumber, CP = p - sqrt(p^2 - r/0.8), r =
 * F_cE/F_c*, p = (1 + r)/1.6, in a form that keeps its digits where the column
 * is short and r large. */
NS_INLINE double ns_column_factor(double F_cE, double F_star) {
  const double r = F_cE / ns_max(F_star, 1e-9), p = (1 + r) / 1.6;
  return r / 0.8 / (p + sqrt(ns_max(p * p - r / 0.8, 0)));
}

/* Keeps the worst of what a check is offered; true where it is this, so far. */
NS_INLINE bool ns_offer_lane(struct ns_check *k, int i, bool on, double demand,
                             double capacity, double at, int combo,
                             int branch) {
  const bool some = capacity > 0;
  const double none = demand > 0 ? NS_NO_CAPACITY : 0;
  const double q = some ? demand / (some ? capacity : 1) : none;
  const double ratio = ns_min(q, NS_NO_CAPACITY);
  const bool take = on & ((k->on[i] == 0) | (ratio > k->ratio[i]));
  k->on[i] = take ? 1 : k->on[i];
  k->demand[i] = take ? demand : k->demand[i];
  k->capacity[i] = take ? capacity : k->capacity[i];
  k->ratio[i] = take ? ratio : k->ratio[i];
  k->at[i] = take ? at : k->at[i];
  k->combo[i] = take ? combo : k->combo[i];
  k->branch[i] = take ? branch : k->branch[i];
  return take;
}

/* coupled.c */
void ns_tie(struct ns_beam *s, ns_matrix *K, ns_lane *first, ns_lane *last);
void ns_tie_answers(struct ns_beam *s);
void ns_tie_march(struct ns_beam *s, int c, ns_lane *z);
/* geometry.c, build.c */
void ns_place_cuts(struct ns_work *w);
void ns_thin(const struct ns_work *w, const double *x1, const double *x2,
             struct ns_section *o, double *floor);
void ns_build_beams(struct ns_work *w);
void ns_refit(struct ns_work *w, struct ns_beam *m);
void ns_section_I(struct ns_section *o);
void ns_beam_follow(const struct ns_beam *m, struct ns_beam *a);
/* Live load on one region after the other; the beam is left as it was. */
void ns_beam_parts(struct ns_beam *s, struct ns_parts *o);
/* seat.c */
void ns_find_seats(struct ns_work *w);
bool ns_hollow_end(const struct ns_work *w, int c);
/* lone.c */
void ns_lone_solve(struct ns_beam *s);
void ns_lone_follow(const struct ns_beam *m, struct ns_beam *a);
void ns_lone_envelopes(const struct ns_beam *s, struct ns_table *t);
/* Not 0 where segment k - 1 ends in a post of its own: where the load steps
 * from beam to beam, at a hinge or a slide, and where there is no beam past it.
 */
NS_INLINE void ns_own_end(const struct ns_beam *s, int k,
                          double *restrict differs) {
  const double *last = s->support[s->spans];
  LANES(i) {
    const bool begins = !s->left & (s->x[k][i] == s->support[0][i]);
    const bool ends = !s->right & (s->x[k][i] == last[i]);
    differs[i] = begins | ends ? 1 : 0;
  }
  if (s->stations)
    LANES(i) differs[i] += s->on_new[k][i] != s->on_new[k - 1][i] ? 1 : 0;
  for (int h = 0; h < s->hinges; h++)
    LANES(i) differs[i] += s->x[k][i] == s->hinge[h][i] ? 1 : 0;
  if (s->stations && s->gap)
    LANES(i) differs[i] += s->x[k][i] == s->slide[i] ? 1 : 0;
}

/* two.c */
bool ns_two_plain(const struct ns_beam *s);
void ns_two_lay(struct ns_two *o, const struct ns_beam *s, const bool *points);
void ns_two_place(const struct ns_two *o, int k, bool right,
                  struct ns_envelope *out);
void ns_two_within(const struct ns_two *o, int k, const double *t,
                   struct ns_sums *e);
void ns_two_reaction(const struct ns_two *o, int j, double *restrict most,
                     double *restrict least);
/* lines.c; the second lays lines of any beam, where sums would do as well. */
void ns_lines_lay(struct ns_lines *o, const struct ns_beam *s);
void ns_lines_lay_all(struct ns_lines *o, const struct ns_beam *s);
/* patch.c */
void ns_lines_shears(const struct ns_lines *o, const struct ns_line *V, int k,
                     struct ns_shears *r);
void ns_lines_pass(const struct ns_lines *o, const struct ns_line *V, int k,
                   struct ns_shears *r);
void ns_lines_at(const struct ns_lines *o, const struct ns_line *V,
                 const struct ns_line *M, int k, bool right,
                 struct ns_sums *sum);
void ns_lines_within(const struct ns_lines *o, int k, const double *t,
                     struct ns_sums *sum);
void ns_lines_range(const struct ns_lines *o, const struct ns_line *r,
                    double *restrict most, double *restrict least);
/* march.c */
void ns_lines_start(struct ns_lines *o, bool second);
void ns_lines_place(struct ns_lines *o, int k, bool both,
                    struct ns_envelope *left, struct ns_envelope *right);
/* table.c */
void ns_tabulate(struct ns_lines *o, const struct ns_beam *s, bool second,
                 const struct ns_standard *standard, struct ns_table *t);
void ns_complete(const struct ns_beam *s, const struct ns_standard *standard,
                 const ns_lane *ends, struct ns_table *t);
/* stability.c */
void ns_bending_values(struct ns_work *w, const struct ns_beam *s,
                       ns_lane *part, bool cut, const double *Cr);
/* hogging.c: the forces are those of s, the live ones in w->parts times
 * 'part' (null: all); with 'cut', at each cut too. */
void ns_find_hogging(struct ns_work *w, const struct ns_beam *s, ns_lane *part,
                     bool cut);
void ns_no_hogging(struct ns_hog *o, int combos);
/* check.c */
struct ns_check *ns_add(struct ns_result *r, enum ns_mode mode, int cut,
                        int support);
void ns_offer(struct ns_check *k, const double *on, const double *demand,
              const double *capacity, const double *at, int combo, int branch);
void ns_note_factors(struct ns_check *k, const struct ns_factors *per_combo,
                     int stride, int combos, const double *second);
/* Of a check in the lanes where M < 0 governs: CL, F_a, l_u, l_e, pattern of
 * 'h'; 'plain' where M is that of any placing of live load, at CL = 1. */
void ns_note_hogging(const struct ns_work *w, const struct ns_hog *h,
                     const double *on, const double *plain, struct ns_check *k);
/* demand.c */
void ns_find_forces(struct ns_work *w);
void ns_cut_demand(struct ns_work *w, const struct ns_beam *s,
                   const struct ns_table *t, int c, struct ns_demand *q);
/* sag.c */
void ns_deflection(struct ns_work *w, const struct ns_beam *s, bool total,
                   struct ns_state *state);
/* cut_check.c, chords.c */
void ns_check_cut(struct ns_work *w, int c);
void ns_check_strapped(struct ns_work *w, int c, bool locked);
void ns_check_chords(struct ns_work *w, int c, const struct ns_demand *q,
                     int first);
/* check.c: states */
void ns_check_state(struct ns_work *w, bool cut, const double *Cr,
                    struct ns_state *state);
void ns_check_host(struct ns_work *w, const struct ns_host *h, const double *Cr,
                   struct ns_state *state);
void ns_close_state(struct ns_work *w, bool hogs, struct ns_state *state);
/* post.c */
void ns_post(struct ns_check *k);
/* fixed.c */
void ns_fix(struct ns_work *w, const double *Cr);
/* fix_check.c */
void ns_check_new(struct ns_work *w, const struct ns_part *o, const double *Cr);
void ns_check_between(struct ns_work *w, const struct ns_part *o);
void ns_check_stations(struct ns_work *w, const struct ns_part *host,
                       const struct ns_part *new_);
void ns_check_strap(struct ns_work *w, const struct ns_demand *q,
                    const struct ns_demand *locked);
/* rules.c */
void ns_read_rules(struct ns_work *w, const struct ns_rules *rules);
void ns_read_gate(struct ns_work *w);
void ns_decide(struct ns_work *w);

#endif
