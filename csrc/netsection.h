/* SPDX-License-Identifier: MIT
 * netsection.h - what is left of a cut wood joist, sixteen joists at a time.
 *
 * Inches, pounds, psi unless a field says otherwise; x from the centre of the
 * left bearing; moments sagging positive; deflection downward positive.
 * Nothing here allocates, prints or stops the program: the caller owns every
 * struct, and a joist that cannot be worked has a status instead of numbers.
 *
 *   first choice     ns_validate, ns_review, ns_rate
 *   building blocks  ns_beam_*, ns_section_*, ns_adjust, ns_CL
 *   utilities        names, ranges, texts                                  */
#ifndef NETSECTION_H
#define NETSECTION_H

#include <stdbool.h>

#include "joist/fields.h"

typedef double ns_lane[NS_LANES];

/* Room before the rows of a struct, so that they begin on cache lines where
 * the struct does: faster, and nothing depends on it. */
#define NS_CACHE_LINE 64

#define X(name, rows, low, high, unit, meaning)                                \
  NS_J_##name, NS_J_##name##_last = NS_J_##name + (rows)-1,
enum ns_joist_field { NS_JOIST_LIST(X) NS_JOIST_ROWS };
#undef X
#define X(name, rows, low, high, unit, meaning) NS_C_##name,
enum ns_cut_field { NS_CUT_LIST(X) NS_CUT_ROWS };
#undef X
#define X(name, rows, low, high, unit, meaning) NS_L_##name,
enum ns_line_field { NS_LINE_LIST(X) NS_LINE_ROWS };
#undef X
#define X(name, rows, low, high, unit, meaning) NS_P_##name,
enum ns_point_field { NS_POINT_LIST(X) NS_POINT_ROWS };
#undef X
#define X(name, rows, low, high, unit, meaning)                                \
  NS_F_##name, NS_F_##name##_last = NS_F_##name + (rows)-1,
enum ns_fix_field { NS_FIX_LIST(X) NS_FIX_ROWS };
#undef X
#define X(name, word) NS_##name,
enum ns_mode { NS_MODE_LIST(X) NS_MODES };
enum ns_member { NS_MEMBER_LIST(X) NS_MEMBERS };
enum ns_kind { NS_KIND_LIST(X) NS_KINDS };
#undef X
#define X(name, unit, meaning) NS_R_##name,
enum ns_record { NS_RECORD_LIST(X) NS_RECORDS };
#undef X

/* Why a lane has no numbers. */
enum ns_status {
  NS_OK,
  NS_OUT_OF_RANGE, /* a field outside the range of its list */
  NS_BEFORE_START, /* a cut or load begins before the joist does */
  NS_PAST_END,     /* a cut or load ends past the joist's end */
  NS_BACKWARDS,    /* 'to' is not beyond 'from' */
  NS_TOO_DEEP,     /* a cut as deep as the joist or deeper */
  NS_PAST_TOP,     /* an opening's upper edge is above the joist */
  NS_PAST_BOTTOM,  /* an opening's lower edge is below the joist */
  NS_NO_WOOD,      /* the losses leave no wood */
  NS_SAME_PLACE,   /* two cuts at one place */
  NS_IN_BEARING,   /* an end notch shorter than nothing, or too long */
  NS_UNSTABLE,     /* a mechanism */
  NS_TOO_MANY,     /* more parts than a limit of fields.h */
  NS_STATUSES
};

/* Where a vertical place of an opening is measured from. */
enum ns_place { NS_CENTRED, NS_FROM_BELOW, NS_FROM_ABOVE };
/* Which load case a load belongs to. */
enum ns_case { NS_DEAD, NS_LIVE };
enum ns_cause { NS_CAUSE_OTHER, NS_CAUSE_ROT, NS_CAUSE_INSECTS, NS_CAUSE_CHAR };

/* A repair that the core works out with the joist; others are joists of their
 * own, described and reviewed as such. */
enum ns_fix { NS_NO_FIX, NS_BESIDE, NS_UNDER };
/* What the joist carried while the repair was fastened: its dead load, nothing
 * at all (an idealisation), or its dead load and a prop. */
enum ns_lift { NS_LIFT_NONE, NS_UNLOADED, NS_PROP };
/* How a member beside the joist shares with it: by its fasteners' slip, by
 * stiffness alone, all to it, or each by the worst of the last two. */
enum ns_share { NS_BY_SLIP, NS_BY_STIFFNESS, NS_ALL_NEW, NS_WORST_OF };

/* What all joists of a block have in common. */
struct ns_shape {
  int spans, cuts, lines, points, blocking;
  bool left, right; /* overhangs */
  struct {
    enum ns_kind kind;
    enum ns_place place;
    bool from_right; /* x is measured from the centre of the right bearing */
    bool top;        /* a notch in the top face */
    bool right;      /* an end notch at the right end */
    enum ns_cause cause;
  } cut[NS_MAX_CUTS];
  struct {
    enum ns_case load_case;
    bool area;  /* psf on the width carried, else plf */
    bool whole; /* from end to end, 'from' and 'to' not read */
  } line[NS_MAX_LINES];
  enum ns_case point[NS_MAX_POINTS];
  struct {
    enum ns_fix kind;
    enum ns_member member;
    enum ns_lift lift;
    enum ns_share share;
    int stations;
    bool bears[2]; /* the new member stands on the supports */
    bool steel;    /* the new member is of steel: its Fy is read */
    bool between;  /* load between the inner stations is on it, not only that
                    * over the gap */
    int cut;       /* which cut a strap bridges */
  } fix;
};

/* Sixteen joists. Rows that the shape does not use are not read. */
struct ns_block {
  double joist[NS_JOIST_ROWS][NS_LANES];
  double cut[NS_MAX_CUTS][NS_CUT_ROWS][NS_LANES];
  double line[NS_MAX_LINES][NS_LINE_ROWS][NS_LANES];
  double point[NS_MAX_POINTS][NS_POINT_ROWS][NS_LANES];
  double fix[NS_FIX_ROWS][NS_LANES];
  double other[NS_JOIST_ROWS][NS_LANES]; /* values of the new member's wood */
};

/* A limit of a rule pack: measure <= of_d d + of_L L + of_size D + plus, at
 * most cap; or measure >= it. D is the diameter, of two holes the larger. */
enum ns_measure {
  NS_DEPTH,        /* depth of a notch, overcut included */
  NS_LENGTH,       /* length of a notch along the joist */
  NS_SIZE,         /* diameter, or the longer side of a slot */
  NS_EDGE_BELOW,   /* wood under an opening */
  NS_EDGE_ABOVE,   /* wood over an opening */
  NS_CLEAR_HOLE,   /* clear distance to the nearest opening */
  NS_CLEAR_NOTCH,  /* clear distance to the nearest notch */
  NS_REACH,        /* farthest edge from the nearer support */
  NS_THICK,        /* ply thickness where the cut face is in tension, else 0 */
  NS_FIRST,        /* nearest edge from the nearer support */
  NS_CENTERS,      /* center to center, to the opening least apart */
  NS_CLEAR_ALONG,  /* clear distance along the joist to the nearest notch */
  NS_FROM_BEARING, /* farthest edge from the edge of the nearer bearing */
  NS_OFF_AXIS,     /* center of an opening from mid-depth */
  NS_PAST_FACE,    /* end notch past the face of its bearing */
  NS_BEARING_LENGTH,
  NS_MEASURES
};
/* Faces that a limit is about, one bit each. */
enum { NS_BOTTOM_FACE = 1, NS_TOP_FACE = 2 };
struct ns_rule {
  unsigned kinds; /* bit per ns_kind */
  unsigned faces; /* of notches; 0: either */
  enum ns_measure measure;
  bool at_least;
  bool forbidden; /* no such cut is within the limits, whatever its measure */
  int pack;       /* which pack of the stack, from 0 */
  double of_d, of_L, of_size, plus, cap;
};
/* Several packs at once: a cut is within where every pack that covers it says
 * so, so the strictest limit decides. */
struct ns_rules {
  int count, packs;
  struct ns_rule rule[NS_MAX_RULES];
  unsigned covers[NS_MAX_PACKS];     /* bit per kind the pack addresses */
  bool covers_hogging[NS_MAX_PACKS]; /* and whether on overhangs, M < 0 */
  double covers_depth[NS_MAX_PACKS]; /* deepest joist it is about, in */
};
/* Whether the items of these rules have room in a result, whatever the cuts. */
bool ns_rules_fit(const struct ns_rules *rules);

/* Load combinations and the numbers of the notch limits of a standard. */
struct ns_standard {
  int combos;
  double g_D[NS_MAX_COMBOS], g_L[NS_MAX_COMBOS]; /* load factors */
  double CD[NS_MAX_COMBOS]; /* load duration, or time effect in LRFD */
  double K_b, K_t, K_v, K_c, K_perp, K_min; /* format times resistance */
  double end_notch, inner_notch, outer_part, thick; /* NDS 4.4.3 */
  double tested_hole; /* D/d past which no opening passes unaided */
};

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

/* What the standard says of a cut apart from its ratio (NDS 4.4.3). */
enum ns_gate {
  NS_GATE_NONE,
  NS_GATE_END_DEPTH,
  NS_GATE_DEPTH,
  NS_GATE_MIDDLE,
  NS_GATE_NOT_SIMPLE,
  NS_GATE_TENSION,
  NS_GATE_SEVERED,
  NS_GATE_TALL_OPENING
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
  struct ns_state uncut, cut, fixed;
  struct ns_fix_result fix;
  int checks, items;
  char room[NS_CACHE_LINE - 2 * sizeof(int)];
  struct ns_check check[NS_MAX_CHECKS];
  struct ns_item item[NS_MAX_ITEMS];
  struct ns_cut_result cuts[NS_MAX_CUTS];
  ns_lane seat[NS_MAX_SUPPORTS]; /* sound bearing length; 0: there is none */
  ns_lane no_seat;               /* 1: some support has none */
  ns_lane within; /* rule status: 1 within, 0 outside, -1 not covered */
  ns_lane action, missing; /* missing: a binding check lacked its value */
};

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

/* A straight beam on knife edges, sixteen of them, and a second one beside it
 * that is tied to it at stations. The caller fills the first part;
 * ns_beam_solve fills the rest. */
struct ns_beam {
  int spans, breaks, hinges;
  int stations; /* 0: there is no second beam, and nothing of it is read */
  int unknowns; /* filled in by ns_beam_solve */
  int only;     /* 0; else case 1 is live load on this region, from 1 */
  bool left, right;
  bool gap;      /* cut through at slide: no M, no V */
  bool bears[2]; /* the second beam stands on its own end, left, right */
  char room[NS_CACHE_LINE - 6 * sizeof(int) - 5 * sizeof(bool)];
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
  /* Last, so that a beam with few unknowns needs no room for the others:
   * ns_beam_size. */
  struct ns_answer answer[NS_MAX_UNKNOWNS];
};
/* Bytes of a beam that has so many unknowns: supports but two, hinges,
 * stations, 1 for a gap, 1 for each free end of the second beam. */
unsigned long ns_beam_size(int unknowns);

/* Most and least of V and M at a place when the live load lies where it
 * hurts, dead load not in it; Vc is the shear that goes with each moment. */
struct ns_envelope {
  ns_lane V[2], M[2], Vc[2];
};

/* Working room for ns_review: big, owned by the caller, no state in it. */
struct ns_work;
extern const unsigned long ns_work_size;

/* ---- first choice ---- */

/* Checks ranges and geometry; sets status, bad_part and bad_field. */
void ns_validate(const struct ns_shape *shape, const struct ns_block *block,
                 struct ns_result *result);
/* Uncut and cut states, rules, gate and action of sixteen joists. Lanes that
 * fail validation get harmless inputs and keep their status. */
void ns_review(const struct ns_shape *shape, const struct ns_rules *rules,
               const struct ns_standard *standard, const struct ns_block *block,
               struct ns_work *work, struct ns_result *result);
/* The same numbers, but for the records of the joist's own checks, which are
 * left as they are: for those who read no steps. */
void ns_rate(const struct ns_shape *shape, const struct ns_rules *rules,
             const struct ns_standard *standard, const struct ns_block *block,
             struct ns_work *work, struct ns_result *result);
/* Status of sixteen joists as ns_review gives it, and no numbers. */
void ns_check_block(const struct ns_shape *shape,
                    const struct ns_standard *standard,
                    const struct ns_block *block, struct ns_work *work,
                    struct ns_result *result);
/* Place, full and enveloped V and M and capacities for a drawing, lane 0. */
struct ns_curve {
  double x, V_full, M_full, V[2], M[2], M_cap[2], V_cap;
};
enum ns_drawn { NS_DRAW_UNCUT, NS_DRAW_CUT, NS_DRAW_FIXED, NS_DRAW_NEW };
int ns_curve_points(const struct ns_work *work, enum ns_drawn what,
                    int per_segment, struct ns_curve *out, int room);

/* EI from break to break, as cut and as it was, lane 0, lb-in2; a segment
 * that is cut through counts as whole. */
struct ns_stiffness {
  double from, to, cut, uncut;
};
int ns_stiffness_along(const struct ns_work *work, struct ns_stiffness *out,
                       int room);

/* ---- building blocks ---- */

/* Sorts x[0..breaks). */
void ns_beam_sort(struct ns_beam *beam);
/* Force method; needs everything of the first part. */
void ns_beam_solve(struct ns_beam *beam);
/* Envelope at break k (t null), or at the fraction t of segment k. */
void ns_beam_envelope(const struct ns_beam *beam, int k, const double *t,
                      bool right_side, struct ns_envelope *out);
/* Most and least reaction of support i under live load that may be absent. */
void ns_beam_reaction(const struct ns_beam *beam, int i, double *most,
                      double *least);

/* The same on the second beam, nil where it is not, and of the force of
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

/* Net section of a rectangle b x H with the band y1..y2 gone: see section.c */
struct ns_section {
  ns_lane b, H, d;   /* outer rectangle; depth of the whole joist */
  ns_lane y1, y2;    /* band gone, from the bottom of the rectangle */
  ns_lane z1, z2;    /* another over or under it; z2 <= z1: none */
  ns_lane size[2];   /* longer side of each: a lip thinner than it may go */
  ns_lane L;         /* length over which the first acts as an opening */
  ns_lane A, y_b, I; /* area, own centroid, second moment about it */
  ns_lane S_b, S_t;  /* I over the distance to either edge */
  ns_lane least;     /* least modulus of any opening within this one */
  ns_lane h_b, h_t;  /* wood left below and above the band */
  ns_lane lost;      /* 1 lower lip dropped, 2 upper, 3 both */
  ns_lane A_v;       /* area in shear, less where a chord governs */
  ns_lane A_h, part; /* of two chords by h^3; how far that counts, 0 to 1 */
  ns_lane h_v;       /* the deeper chord; 0: the whole net area */
  ns_lane h_s;       /* the shallower of two */
  ns_lane h3;        /* sum of the cubes of the chords that share V */
  ns_lane h_m;       /* wood between two bands */
  ns_lane c_b, c_t;  /* chords of an opening; 0 where there are not two */
  /* For the lips: centroid from the lip's edge and I, where the mean stress
   * in it is the greatest of all openings within this one. */
  ns_lane c_m;            /* and the one between two bands */
  ns_lane gone_b, gone_t; /* 1: no wood that counts below, above the band */
  ns_lane lip_y[2], lip_I[2];
};
/* Reads b, H, d, y1, y2, z1, z2, size, L. */
void ns_section_of(struct ns_section *section);

/* Adjusted value from a reference value (NDS 4.3). */
struct ns_factors {
  ns_lane CD, CM, Ct, CL, CF, Ci, Cr, K, value;
};
enum ns_property { NS_FB, NS_FT, NS_FV, NS_FC_PERP, NS_FC, NS_E, NS_EMIN };
void ns_adjust(double (*joist)[NS_LANES], const struct ns_standard *s,
               enum ns_property property, int combo, struct ns_factors *out);
/* Capacity and ratio of a connection, of steel or of wood pressed by it, from
 * the demand and the numbers in its record: see joint.c. */
void ns_joint(struct ns_check *check);
/* Beam stability factor (NDS 3.3.3) from l_e, and l_e from l_u. */
double ns_CP(double F_cE, double Fc_star); /* NDS 3.7.1.5, sawn lumber */
double ns_CL(double Fb_star, double E_min, double l_e, double b, double d);
enum ns_le_case {
  NS_LE_ANY,
  NS_LE_UNIFORM,
  NS_LE_POINT,
  NS_LE_POINT_BRACED,
  NS_LE_2,
  NS_LE_3,
  NS_LE_4,
  NS_LE_5,
  NS_LE_6,
  NS_LE_7,
  NS_LE_CANTILEVER,
  NS_LE_CANTILEVER_TIP
};
double ns_l_e(enum ns_le_case load, double l_u, double d);
/* Flat use factor (NDS Supplement Table 4A) and bearing factor (3.10.4). */
double ns_Cfu(double nominal_width, bool thick_4);
double ns_Cb(double l_b, double to_end);

/* ---- fasteners ---- */

/* Dowels, withdrawal, groups and steel straps: lists, structs, functions. */
#include "connection/fasteners.h"

/* ---- floors ---- */

#include "grid/grid.h"

/* ---- utilities ---- */

struct ns_field {
  const char *name;
  int rows;
  double low, high;
  const char *unit, *meaning;
};
extern const struct ns_field ns_joist_fields[], ns_cut_fields[],
    ns_line_fields[], ns_point_fields[], ns_fix_fields[];
extern const char *const ns_mode_names[], *const ns_kind_names[],
                                              *const ns_member_names[];
struct ns_symbol {
  const char *name, *unit, *meaning;
};
extern const struct ns_symbol ns_record_symbols[];
const char *ns_status_text(enum ns_status status);
const char *ns_version(void);

#endif
