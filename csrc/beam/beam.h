/* SPDX-License-Identifier: MIT
 * beam.h - forces and deflections of straight beams, sixteen at a time. */
#ifndef NETSECTION_BEAM_H
#define NETSECTION_BEAM_H

#include "joist/joist.h"

/* What one unknown of the force method answers to a unit load at x, and its
 * row of the inverse. */
struct ns_answer {
  ns_lane u[NS_MAX_BREAKS];  /* answer to a unit load */
  ns_lane du[NS_MAX_BREAKS]; /* slope at a segment's start */
  ns_lane m0[NS_MAX_BREAKS]; /* its moment there */
  ns_lane dm[NS_MAX_BREAKS];
  ns_lane W[NS_MAX_BREAKS]; /* live load times u */
  ns_lane inverse[NS_MAX_UNKNOWNS];
};

/* A row of spans solved by sums (n_span_solve.c). Regions are the left
 * overhang, each span, the right overhang. Of the span that a break is in, held
 * simply: deflection and slope under a unit moment at its left, its right end.
 */
#define NS_MAX_REGIONS (NS_MAX_SPANS + 2)
struct ns_spans {
  ns_lane u[2][NS_MAX_BREAKS], du[2][NS_MAX_BREAKS];
  ns_lane f[NS_MAX_BREAKS];   /* 1 / EI */
  ns_lane per[NS_MAX_BREAKS]; /* 1 / length of the span, nil on overhangs */
  /* Live load from the region's left end to the left, right of each break:
   * load, times distance, times both u. */
  ns_lane S[2][4][NS_MAX_BREAKS];
  ns_lane T[2][4][NS_MAX_REGIONS]; /* dead, live: of a region */
  ns_lane on[2][NS_MAX_SUPPORTS];  /* dead, live: what stands on it */
  ns_lane L[NS_MAX_REGIONS];
  ns_lane flex[3][NS_MAX_REGIONS];  /* rotations by unit moments at the ends */
  ns_lane carry[2][NS_MAX_REGIONS]; /* of a moment to the left, to the right */
  ns_lane pivot[NS_MAX_REGIONS];  /* 1 / what turns the support before a span */
  ns_lane end[2][NS_MAX_REGIONS]; /* moment at an end by rotation there */
  int low[NS_MAX_BREAKS], high[NS_MAX_BREAKS];  /* regions, of all lanes */
  int from[NS_MAX_REGIONS], to[NS_MAX_REGIONS]; /* breaks of a region */
  bool begins[NS_MAX_BREAKS]; /* a region begins, in any lane */
  bool points[2];
  char
      room[NS_CACHE_LINE - (2 * (NS_MAX_BREAKS + NS_MAX_REGIONS) * sizeof(int) +
                            (NS_MAX_BREAKS + 2) * sizeof(bool)) %
                               NS_CACHE_LINE];
};

/* A straight beam on knife edges, sixteen of them, and a second one beside it
 * that is tied to it at stations. The caller fills the first part;
 * ns_beam_solve fills the rest. */
struct ns_beam {
  struct ns_answer *answer; /* room of the caller's, one per unknown */
  struct ns_spans *sums;    /* the same room: the one or the other is there */
  int spans, breaks, hinges;
  int stations; /* 0: there is no second beam, and nothing of it is read */
  int unknowns; /* filled in by ns_beam_solve */
  int only;     /* 0; else case 1 is live load on this region, from 1 */
  bool left, right;
  bool gap;      /* cut through at slide: no M, no V */
  bool bears[2]; /* the second beam stands on its own end, left, right */
  bool severed;  /* solved by ns_severed_solve: no answers of unknowns */
  bool sprung;   /* every hinge is a spring, in all lanes */
  bool by_spans; /* by ns_n_span_solve: none either */
  bool by_units; /* its forces are those of unit loads: nor here */
  char room[NS_CACHE_LINE - 2 * sizeof(void *) - 6 * sizeof(int) -
            9 * sizeof(bool)];
  ns_lane station[NS_MAX_STATIONS], station_k[NS_MAX_STATIONS]; /* lb/in */
  ns_lane slide;                 /* a break within the gap */
  ns_lane second[2], second_EI;  /* ends of the second beam, in one span */
  ns_lane on_new[NS_MAX_BREAKS]; /* 1: loads of the segment are on it */
  ns_lane support[NS_MAX_SUPPORTS];
  ns_lane x[NS_MAX_BREAKS];     /* sorted; every change is at one */
  ns_lane EI[NS_MAX_BREAKS];    /* of the segment from x[k] to x[k+1] */
  ns_lane w[2][NS_MAX_BREAKS];  /* dead and live at the segment's start */
  ns_lane dw[2][NS_MAX_BREAKS]; /* and their slope along it */
  ns_lane P[2][NS_MAX_BREAKS];  /* point loads at x[k] */
  ns_lane hinge[NS_MAX_HINGES], hinge_k[NS_MAX_HINGES];

  ns_lane unstable;
  ns_lane region[NS_MAX_BREAKS]; /* 0 left overhang, span 1.., overhang */
  ns_lane A[NS_MAX_BREAKS], B[NS_MAX_BREAKS]; /* supports of a segment */
  ns_lane W[2][NS_MAX_BREAKS];                /* live: w, w x */
  /* Cases: dead, and live on every other span, two ways. */
  ns_lane M[3][NS_MAX_BREAKS], VL[3][NS_MAX_BREAKS], VR[3][NS_MAX_BREAKS];
  ns_lane slope[3][NS_MAX_BREAKS], sag[3][NS_MAX_BREAKS];
  ns_lane turn[3][NS_MAX_HINGES]; /* rotation in a hinge */
  ns_lane R[3][NS_MAX_SUPPORTS];  /* reactions, upward */
  /* The second beam: the same rows, and the force of each station, downward
   * on the first beam and upward on the second. */
  ns_lane tie[3][NS_MAX_STATIONS];
  ns_lane second_M[3][NS_MAX_BREAKS], second_VL[3][NS_MAX_BREAKS];
  ns_lane second_VR[3][NS_MAX_BREAKS];
  ns_lane second_slope[3][NS_MAX_BREAKS], second_sag[3][NS_MAX_BREAKS];
  ns_lane slip[3]; /* offset of the two faces of the gap */
};
/* Bytes of a beam with its answers behind it (ns_beam_room), of so many
 * unknowns: supports but two, hinges, stations, 1 for a gap, 1 for each free
 * end of the second beam. */
size_t ns_beam_size(int unknowns);
/* Where a beam has room for its answers, or for sums over its spans. */
void ns_beam_room(struct ns_beam *beam, void *room);

/* Most and least of V and M at a place when the live load lies where it
 * hurts, dead load not in it; Vc is the shear that goes with each moment. */
struct ns_envelope {
  ns_lane V[2], M[2], Vc[2];
};

/* Sorts x[0..breaks). */
void ns_beam_sort(struct ns_beam *beam);
/* Force method; needs everything of the first part. */
void ns_beam_solve(struct ns_beam *beam);
/* What ns_beam_envelope needs of a beam that was solved in another way; its
 * forces stay. */
void ns_beam_answers(struct ns_beam *beam);
/* Envelope at break k (t null), or at the fraction t of segment k. */
void ns_beam_envelope(const struct ns_beam *beam, int k, const double *t,
                      bool right_side, struct ns_envelope *out);
/* Most and least reaction of support i under live load that may be absent. */
void ns_beam_reaction(const struct ns_beam *beam, int i, double *most,
                      double *least);

/* The envelope on the second beam, nil where it is not, and of the force of
 * station l, downward on the first beam. */
void ns_second_envelope(const struct ns_beam *beam, int k, const double *t,
                        bool right_side, struct ns_envelope *out);
void ns_station_range(const struct ns_beam *beam, int l, double *most,
                      double *least);

/* V and M (dead, and live on every other region two ways, each times its
 * weight), slope and deflection at x, one lane. */
struct ns_station {
  double V, M, slope, deflection;
  int segment;
};
void ns_beam_at(const struct ns_beam *beam, double x, bool right_side, int lane,
                const double weight[3], struct ns_station *out);
void ns_second_at(const struct ns_beam *beam, double x, bool right_side,
                  int lane, const double weight[3], struct ns_station *out);
struct ns_extremes { /* place and value; 0 where there is none on that side */
  double M_most[2], M_least[2], sag_most[2], sag_least[2];
};
void ns_beam_extremes(const struct ns_beam *beam, int lane,
                      const double weight[3], struct ns_extremes *out);

#endif
