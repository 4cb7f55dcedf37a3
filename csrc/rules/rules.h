/* SPDX-License-Identifier: MIT
 * rules.h - packs of prescriptive limits. */
#ifndef NETSECTION_RULES_H
#define NETSECTION_RULES_H

#include "joist/joist.h"

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
_Static_assert(NS_KINDS <= 32, "a bit for each kind of cut");
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

#endif
