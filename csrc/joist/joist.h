/* SPDX-License-Identifier: MIT
 * joist.h - joists as they are described, sixteen of one shape, and the
 * lists of fields.h as enums and as tables that can be read at run time. */
#ifndef NETSECTION_JOIST_H
#define NETSECTION_JOIST_H

#include <float.h>
#include <stdbool.h>
#include <stddef.h>

#include "joist/checks.h"
#include "joist/fields.h"

/* Registers of more digits than a double has (x87) would give other numbers
 * than the same sums elsewhere, and others at each level of optimization. */
#if FLT_EVAL_METHOD == 2 || FLT_EVAL_METHOD < 0
#error "doubles must be worked as doubles: build with -msse2 -mfpmath=sse"
#endif

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
#define X(name, word, ...) NS_##name,
enum ns_mode { NS_CHECK_LIST(X) NS_MODES };
#undef X
#define X(name, word) NS_##name,
enum ns_member { NS_MEMBER_LIST(X) NS_MEMBERS };
enum ns_kind { NS_KIND_LIST(X) NS_KINDS };
#undef X
#define X(name, unit, meaning) NS_R_##name,
enum ns_record { NS_RECORD_LIST(X) NS_RECORDS };
#undef X

/* Most checks of a joist in one state, at one cut, and of what a repair adds.
 */
#define X(name, word, unit, letter, about, hogs, kind, part, where, evaluate,  \
          state, support, cut, repair, ...)                                    \
  +(state) + (support)*NS_MAX_SUPPORTS
enum { NS_STATE_CHECKS = NS_CHECK_LIST(X) };
#undef X
#define X(name, word, unit, letter, about, hogs, kind, part, where, evaluate,  \
          state, support, cut, repair, ...)                                    \
  +(cut)
enum { NS_CUT_CHECKS = NS_CHECK_LIST(X) };
#undef X
#define X(name, word, unit, letter, about, hogs, kind, part, where, evaluate,  \
          state, support, cut, repair, ...)                                    \
  +(repair)
enum { NS_FIX_CHECKS = NS_CHECK_LIST(X) };
#undef X
/* Three states, cuts in two of them, and one that another is compared with
 * (chord_alone.c). */
#define NS_MAX_CHECKS                                                          \
  (3 * NS_STATE_CHECKS + 2 * NS_CUT_CHECKS * NS_MAX_CUTS + NS_FIX_CHECKS + 1)

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
  NS_TOO_MANY,     /* more parts than a limit of fields.h, or no such kind */
  NS_NO_FORMULA,   /* what the family of formulas does not cover */
  NS_STATUSES
};

/* Where a vertical place of an opening is measured from. */
enum ns_place { NS_CENTRED, NS_FROM_BELOW, NS_FROM_ABOVE };
/* Which load case a load belongs to; the last two are live loads of two load
 * durations of their own. */
enum ns_case {
  NS_DEAD,
  NS_LIVE,
  NS_ROOF,
  NS_SNOW,
  NS_OWN_1,
  NS_OWN_2,
  NS_CASES
};
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
  bool combined;    /* loads of a combination: ranges were looked at before */
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
/* Where a check is worked, and a row of NS_CHECK_LIST. */
enum ns_where { NS_AT_STATE, NS_AT_SUPPORT, NS_AT_CUT, NS_AT_REPAIR };
struct ns_check_row {
  const char *word, *unit, *letter, *about;
  int hogs;
  bool strength; /* of strength, not of service */
  bool decides;  /* counts in the ratio */
  enum ns_where where;
  int state, support, cut, repair; /* the most of it in each */
  const char *basis, *lines;       /* "": those of the standard */
};
extern const struct ns_check_row ns_check_rows[];
struct ns_symbol {
  const char *name, *unit, *meaning;
};
extern const struct ns_symbol ns_record_symbols[];
const char *ns_status_text(enum ns_status status);
const char *ns_version(void);

#endif
