/* SPDX-License-Identifier: MIT
 * table.h - live load on beams: influence lines, tables of V and M at
 * every break, and what the files of this room share. */
#ifndef NETSECTION_TABLE_H
#define NETSECTION_TABLE_H

#include "beam/beam.h"
#include "joist/lanes.h"
#include "standard/standard.h"

/* How far beside a place, in inches, the sign of its moment line is read. At
 * a support the line may be nil all along, yet the shear that goes with the
 * moment is that of the load which makes moment just inside. */
#define NS_INSIDE 1e-7

/* An influence line: value and slope at each node (see influence.c), live load
 * times it over each segment. */
#define NS_MAX_NODES (2 * NS_MAX_BREAKS)
_Static_assert(NS_MAX_BREAKS + NS_MAX_BREAKS - 1 <= NS_MAX_NODES,
               "a start and an end of each segment");
struct ns_influence_line {
  ns_lane at[NS_MAX_NODES], slope[NS_MAX_NODES], W[NS_MAX_BREAKS];
};

/* V most and least: of the segments passed, and from each segment on. */
struct ns_shears {
  ns_lane passed[2], ahead[2][NS_MAX_BREAKS];
};

/* Two spans without overhangs (two_span.c): n and its derivatives at the start
 * of each segment; the distance from the outer support; load, load times that
 * and load times n from there to the left, right of each break, and of a span.
 */
struct ns_two_span {
  const struct ns_beam *s;
  char room[NS_CACHE_LINE - sizeof(void *)];
  ns_lane L[2], steep[2], all[2][3], R[2], U[2];
  ns_lane second[NS_MAX_BREAKS], a[NS_MAX_BREAKS], n[4][NS_MAX_BREAKS];
  ns_lane sum[2][3][NS_MAX_BREAKS];
};

/* Spans by sums (n_span.c): what a place takes of its region. */
enum {
  NS_SPAN_L,
  NS_SPAN_PER, /* 1 / L */
  NS_SPAN_R,   /* V at its left end by its own live load */
  NS_SPAN_X,   /* and M there */
  NS_SPAN_F,   /* slopes of the lines of M by both end moments, */
  NS_SPAN_G,
  NS_SPAN_BACK, /* and the second at the left end */
  NS_SPAN_KL,   /* an end moment by rotation, V by it */
  NS_SPAN_KR,
  NS_SPAN_EL,
  NS_SPAN_ER,
  NS_SPAN_BEFORE, /* left end moment by load before the span, + and - */
  NS_SPAN_PAST = NS_SPAN_BEFORE + 2, /* right end moment by load past it */
  NS_SPAN_V = NS_SPAN_PAST + 2,      /* V by both, most and least */
  NS_SPAN_T = NS_SPAN_V + 2,         /* sums of all its load */
  NS_SPAN_TERMS = NS_SPAN_T + 4
};
struct ns_n_span {
  const struct ns_beam *s;
  char room[NS_CACHE_LINE - sizeof(void *)];
  ns_lane term[NS_MAX_REGIONS][NS_SPAN_TERMS];
};

/* Half of a joist that is cut through, from its support to the gap (half.h);
 * rows go from the support on, those past the gap have no length. */
struct ns_severed_half {
  ns_lane g, all; /* to the gap; the whole span */
  ns_lane x[NS_MAX_BREAKS], h[NS_MAX_BREAKS], f[NS_MAX_BREAKS]; /* 1 / EI */
  ns_lane in[NS_MAX_BREAKS]; /* 1: the break is in this half */
  ns_lane w[2][NS_MAX_BREAKS], dw[2][NS_MAX_BREAKS], P[2][NS_MAX_BREAKS];
  ns_lane W0[NS_MAX_BREAKS], W1[NS_MAX_BREAKS]; /* live, about the end */
  ns_lane WR[NS_MAX_BREAKS], R[NS_MAX_BREAKS];  /* near reaction by unit load */
  ns_lane on[NS_MAX_STATIONS], xi[NS_MAX_STATIONS]; /* from the gap */
  ns_lane A[NS_MAX_STATIONS]; /* of the line past the gap: times R */
  ns_lane inner;              /* least xi of its stations */
  ns_lane far[2];             /* dead, live past the gap times R */
  ns_lane near[2], rel[2][2]; /* reaction; joist against member at the gap */
  bool right;                 /* x runs to the left */
  bool dead;                  /* a dead load in any lane */
  int breaks, first, last;    /* stations from first, before last */
  bool point[NS_MAX_BREAKS];
  bool bears[NS_MAX_BREAKS]; /* the support is there, in any lane */
  bool stands[NS_MAX_BREAKS][NS_MAX_STATIONS]; /* a station, in any lane */
};

/* Lines of one beam: of its forces, and of V and M at a place. */
struct ns_influence {
  ns_lane length, none, h[NS_MAX_BREAKS], on[NS_MAX_BREAKS];
  struct ns_influence_line support[NS_MAX_SUPPORTS], station[NS_MAX_STATIONS],
      start;
  struct ns_influence_line V[2],
      M[2]; /* of this place and the one before, in turn */
  struct ns_influence_line before;
  struct ns_shears shears, shears_before;
  struct ns_two_span two;
  struct ns_n_span spans;
  struct ns_severed_half half[2];
  const struct ns_beam *s;
  bool by_sums;                  /* only 'two' is laid */
  bool severed;                  /* only 'half' and 'station' are */
  int in_half;                   /* the half that V and M are of */
  bool second;                   /* V and M are the second beam's */
  bool nil;                      /* and nil so far */
  bool twice;                    /* a line may cross nil twice in a segment */
  bool point[NS_MAX_BREAKS];     /* a live point load in any lane */
  int nodes, end[NS_MAX_BREAKS]; /* the node left of each break */
};

/* What the live load adds up to that makes V most and least, and M with its
 * shear; how fast the shear of the most changes along the beam. */
struct ns_sums {
  ns_lane V[2], M[2], Vc[2], bend;
};

/* Nothing yet; a row at a time, which is quicker than memset of all. */
NS_INLINE void ns_no_sums(struct ns_sums *o) {
  for (int g = 0; g < 2; g++) {
    ns_fill(o->V[g], 0);
    ns_fill(o->M[g], 0);
    ns_fill(o->Vc[g], 0);
  }
  ns_fill(o->bend, 0);
}

/* Most and least of V and M, with the shears that go with M. */
NS_INLINE void ns_take_sums(const struct ns_sums *sum,
                            struct ns_envelope *out) {
  for (int g = 0; g < 2; g++) {
    ns_copy(out->V[g], sum->V[g]);
    ns_copy(out->M[g], sum->M[g]);
    ns_copy(out->Vc[g], sum->Vc[g]);
  }
}

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

/* A beam under live load of 1 lb/in all along: its forces and its table. They
 * rest on its geometry alone, and under even loads all else is that times the
 * load (unit.c). */
struct ns_unit_beam {
  struct ns_beam s; /* no dead load */
  struct ns_table t;
  struct ns_two_span two;
  struct ns_answer answer[1];
  /* Load on the first and the second span: V left and right of each support, M
   * over it. */
  ns_lane V[2][2][NS_MAX_SUPPORTS], M[2][NS_MAX_SUPPORTS];
  ns_lane dead[2], live;      /* load now, lb/in: dead by span */
  bool may[2][NS_MAX_BREAKS]; /* M of a sign may have a peak, in any lane */
  bool down;                  /* no load is upward */
};

/* A segment of a severed joist or of its member in which M may turn, in the
 * lanes marked, and where the lines of V and M of the place before it are kept:
 * of half 'half', its row 'q'; over the gap, half 2, there are none. */
#define NS_MAX_HELD 256
#define NS_HELD_ROWS 8192
struct ns_held {
  ns_lane mine;
  int segment, half, q, row;
  bool may[2], second;
  char room[NS_CACHE_LINE - 4 * sizeof(int) - 3 * sizeof(bool)];
};

/* A joist cut through and its member under 1 lb/in of live load; the joist by
 * itself under as much dead load; tables of both, the most and the least of
 * each station (severed_unit.c). The influence lines it was made with stay,
 * too. */
struct ns_unit_severed {
  struct ns_beam s, alone;
  struct ns_table t[2]; /* joist, member */
  ns_lane G[NS_MAX_STATIONS][2];
  ns_lane live, dead[2]; /* load now, lb/in: dead on both, on the joist alone */
  struct ns_held held[NS_MAX_HELD];
  ns_lane row[NS_HELD_ROWS];
  int count, rows;
  bool fresh;  /* made for this block */
  bool full;   /* there were more lines than there is room for */
  bool upward; /* a load is, or a factor negative: M may turn anywhere */
};

/* M and V right of each break under live load on one span or overhang: rows of
 * the beam where its cases are those, else of their own. */
struct ns_parts {
  const ns_lane *M[NS_MAX_SPANS + 2], *V[NS_MAX_SPANS + 2];
  ns_lane own_M[NS_MAX_SPANS + 2][NS_MAX_BREAKS];
  ns_lane own_V[NS_MAX_SPANS + 2][NS_MAX_BREAKS];
};

/* A row of the force method's equations. */
typedef ns_lane ns_matrix[NS_MAX_UNKNOWNS];

/* The first break of those that stand at one place. */
NS_INLINE bool ns_new_place(const struct ns_beam *s, int k, int i) {
  return k == 0 || s->x[k > 0 ? k - 1 : 0][i] != s->x[k][i];
}

/* A single span is all of case 1, a load on its far support with it. */
NS_INLINE bool ns_single_span(const struct ns_beam *s) {
  return s->spans == 1 && !s->left && !s->right;
}

/* And one whose forces statics alone answers: a spring turns, and moves none.
 */
NS_INLINE bool ns_by_statics(const struct ns_beam *s) {
  return ns_single_span(s) && s->stations == 0 &&
         (s->hinges == 0 || (s->sprung && !s->gap));
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

/* The same as a row. Without stations nothing is read: a masked load from a
 * page that was never touched takes hundreds of cycles. */
NS_INLINE void ns_carries_row(const struct ns_beam *s, bool second, int k,
                              double *restrict on) {
  if (s->stations == 0) {
    ns_fill(on, second ? 0 : 1);
    return;
  }
  const double *restrict new_ = s->on_new[k];
  LANES(i) on[i] = (new_[i] != 0) == second ? 1 : 0;
}

/* 1 where a case loads segment k: case 0 dead; 1 and 2 live on every other
 * region, or case 1 on the only one that is asked for. */
NS_INLINE void ns_case_lanes(const struct ns_beam *s, int c, int k,
                             double *restrict on) {
  const bool one = ns_single_span(s), single = s->only > 0;
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
  ns_lane of_case, carried;
  ns_carries_row(s, second, k, carried);
  ns_case_lanes(s, c, k, of_case);
  LANES(i) {
    const bool on = (of_case[i] != 0) & (carried[i] != 0);
    w[i] = on ? s->w[kind][k][i] : 0;
    dw[i] = on ? s->dw[kind][k][i] : 0;
    P[i] = on ? s->P[kind][k][i] : 0;
  }
}

/* coupled.c */
void ns_tie(struct ns_beam *s, ns_matrix *K, ns_lane *first, ns_lane *last);
void ns_tie_answers(struct ns_beam *s);
void ns_tie_integrate(struct ns_beam *s, int c, ns_lane *z);

/* beam.c */
void ns_beam_follow(const struct ns_beam *m, struct ns_beam *a);
/* Live load on one region after the other; the beam is left as it was. */
void ns_beam_parts(struct ns_beam *s, struct ns_parts *o);

/* single_span.c */
void ns_single_span_solve(struct ns_beam *s);
void ns_single_span_follow(const struct ns_beam *m, struct ns_beam *a);
void ns_single_span_envelopes(const struct ns_beam *s, struct ns_table *t);
/* Not 0 where segment k - 1 ends in a node of its own: where the load steps
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

/* two_span_solve.c */
void ns_two_span_solve(struct ns_beam *s);
void ns_two_span_solve_live(struct ns_beam *s);
/* two_span.c */
bool ns_two_span_plain(const struct ns_beam *s);
void ns_two_span_lay(struct ns_two_span *o, const struct ns_beam *s,
                     const bool *points);
void ns_two_span_place(const struct ns_two_span *o, int k, bool right,
                       struct ns_envelope *out);
void ns_two_span_within(const struct ns_two_span *o, int k, const double *t,
                        struct ns_sums *e);
void ns_two_span_reaction(const struct ns_two_span *o, int j,
                          double *restrict most, double *restrict least);

/* n_span_solve.c */
bool ns_n_span_plain(const struct ns_beam *s);
void ns_n_span_solve(struct ns_beam *s);
void ns_n_span_parts(const struct ns_beam *s, struct ns_parts *o);
/* n_span.c */
void ns_n_span_lay(struct ns_n_span *o, const struct ns_beam *s);
void ns_n_span_place(const struct ns_n_span *o, int k, bool right,
                     struct ns_envelope *out);
void ns_n_span_within(const struct ns_n_span *o, int k, const double *t,
                      struct ns_sums *e);
void ns_n_span_reaction(const struct ns_n_span *o, int j, double *restrict most,
                        double *restrict least);

/* Lanes in which station l of a half stands at its row q, break k. */
NS_INLINE void ns_severed_stands(const struct ns_beam *s,
                                 const struct ns_severed_half *o, int q, int k,
                                 int l, double *restrict here) {
  const double *restrict x = s->x[k], *restrict at = s->station[l];
  const double *restrict before = s->x[k > 0 ? k - 1 : 0];
  const double *restrict in = o->in[q], *restrict on = o->on[l];
  const double first = k == 0 ? 1 : 0;
  LANES(i) {
    const bool new_place = (before[i] != x[i]) | (first != 0);
    const bool stands = (x[i] == at[i]) & new_place;
    here[i] = stands & (in[i] != 0) & (on[i] != 0) ? 1 : 0;
  }
}

/* Those in which the support of a half is at break k. */
NS_INLINE void ns_severed_bears(const struct ns_beam *s,
                                const struct ns_severed_half *o, int k,
                                double *restrict here) {
  const double *restrict at = s->support[o->right];
  LANES(i) here[i] = (s->x[k][i] == at[i]) & ns_new_place(s, k, i) ? 1 : 0;
}

/* severed_solve.c: solves, and lays the lines */
bool ns_severed(const struct ns_beam *s);
void ns_severed_solve(struct ns_influence *o, struct ns_beam *s);
/* severed.c */
void ns_severed_start(struct ns_influence *o, int half, bool second);
void ns_severed_place(struct ns_influence *o, int q, bool both,
                      struct ns_envelope *near, struct ns_envelope *far);
void ns_severed_within(const struct ns_influence *o, int k, const double *t,
                       struct ns_sums *sum);
void ns_severed_gap(const struct ns_influence *o, int k, bool right,
                    struct ns_envelope *out);
void ns_severed_reaction(const struct ns_influence *o, int half,
                         double *restrict most, double *restrict least);
void ns_severed_range(const struct ns_influence *o, int l,
                      double *restrict most, double *restrict least);

/* influence.c; the second lays lines of any beam, where sums would do as well.
 */
void ns_influence_lay(struct ns_influence *o, const struct ns_beam *s);
void ns_influence_lay_all(struct ns_influence *o, const struct ns_beam *s);
/* patch.c */
void ns_influence_shears(const struct ns_influence *o,
                         const struct ns_influence_line *V, int k,
                         struct ns_shears *r);
void ns_influence_pass(const struct ns_influence *o,
                       const struct ns_influence_line *V, int k,
                       struct ns_shears *r);
void ns_influence_at(const struct ns_influence *o,
                     const struct ns_influence_line *V,
                     const struct ns_influence_line *M, int k, bool right,
                     struct ns_sums *sum);
void ns_influence_within(const struct ns_influence *o, int k, const double *t,
                         struct ns_sums *sum);
void ns_influence_range(const struct ns_influence *o,
                        const struct ns_influence_line *r,
                        double *restrict most, double *restrict least);
/* influence_transfer.c */
void ns_influence_start(struct ns_influence *o, bool second);
void ns_influence_place(struct ns_influence *o, int k, bool both,
                        struct ns_envelope *left, struct ns_envelope *right);
/* unit.c: of a beam without loads, once for its geometry; its forces under even
 * loads, dead by span. */
void ns_unit_solve(struct ns_unit_beam *u, struct ns_beam *s);
void ns_unit_forces(struct ns_unit_beam *u, const ns_lane *dead,
                    const double *live, struct ns_beam *s);
/* severed_unit.c: likewise of a severed joist with its member. */
void ns_severed_unit_solve(struct ns_influence *o, struct ns_unit_severed *u,
                           struct ns_beam *s, struct ns_beam *alone);
void ns_severed_unit_forces(struct ns_unit_severed *u, const ns_lane *dead,
                            const double *live, struct ns_beam *s,
                            struct ns_beam *alone);
void ns_severed_hold(struct ns_unit_severed *u, const struct ns_influence *o,
                     int segment, int q, const double *mine, const bool *may);
void ns_severed_recall(const struct ns_unit_severed *u, const struct ns_held *h,
                       struct ns_influence *o);
/* table.c */
void ns_severed_unit_table(struct ns_influence *o, struct ns_unit_severed *u,
                           const struct ns_beam *s, bool second,
                           const struct ns_standard *standard,
                           struct ns_table *t);
void ns_tabulate(struct ns_influence *o, const struct ns_beam *s, bool second,
                 const struct ns_standard *standard, struct ns_table *t);
void ns_unit_tabulate(struct ns_unit_beam *u);
void ns_unit_table(const struct ns_unit_beam *u, const struct ns_beam *s,
                   const struct ns_standard *standard, struct ns_table *t);
/* No live load on a beam, for ns_complete. */
void ns_no_live(const struct ns_beam *s, struct ns_table *t);
void ns_complete(const struct ns_beam *s, const struct ns_standard *standard,
                 const ns_lane *ends, struct ns_table *t);

#endif
