/* SPDX-License-Identifier: MIT
 * cut_check.h - what the checks at a cut have in common. Private to them. */
#ifndef NETSECTION_CUT_CHECK_H
#define NETSECTION_CUT_CHECK_H

#include "check/check.h"

/* Where nothing is left that counts, the check says so in a branch of its
 * own, and its ratio is that of no capacity. */
NS_INLINE void nothing_left(struct ns_check *k, const struct ns_demand *q,
                            const double *applies, int branch) {
  if (!q->some_gone) return;
  LANES(i) {
    const bool gone = (q->gone[i] != 0) & (applies[i] != 0);
    k->on[i] = q->gone[i] != 0 ? (gone ? 1 : 0) : k->on[i];
    k->binding[i] = gone ? 1 : k->binding[i];
    k->demand[i] = gone ? 1 : k->demand[i];
    k->capacity[i] = gone ? 0 : k->capacity[i];
    k->ratio[i] = gone ? NS_NO_CAPACITY : k->ratio[i];
    k->at[i] = gone ? (q->a[i] + q->b[i]) / 2 : k->at[i];
    k->branch[i] = gone ? branch : k->branch[i];
  }
}

/* The net section into the record. */
NS_INLINE void note_section(struct ns_check *k, const struct ns_section *o) {
  LANES(i) {
    k->rec[NS_R_b][i] = o->b[i];
    k->rec[NS_R_d][i] = o->d[i];
    k->rec[NS_R_h_b][i] = o->h_b[i];
    k->rec[NS_R_h_t][i] = o->h_t[i];
    k->rec[NS_R_A][i] = o->A[i];
    k->rec[NS_R_y_b][i] = o->y_b[i];
    k->rec[NS_R_I][i] = o->I[i];
    k->rec[NS_R_S_b][i] = o->S_b[i];
    k->rec[NS_R_S_t][i] = o->S_t[i];
    k->rec[NS_R_S_min][i] = o->least[i];
  }
}

/* V, F_v and its factors. */
NS_INLINE void note_shear(struct ns_work *w, struct ns_check *k) {
  ns_record_factors(k, w->Fv, 1, w->standard->combos, NULL);
  LANES(i) {
    k->rec[NS_R_V][i] = k->demand[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fv][i];
  }
  ns_record_cracks(k);
}

/* How far a cut's farther edge is from the line of the nearest support, or from
 * its face; nil where the family does not ask. */
NS_INLINE void from_support(const struct ns_work *w, int c,
                            double *restrict x) {
  const double *restrict x1 = w->cut[c].w1, *restrict x2 = w->cut[c].w2;
  ns_fill(x, NS_NOTCH_BY_PLACE ? 1e9 : 0);
  for (int j = 0; NS_NOTCH_BY_PLACE && j <= w->shape->spans; j++) {
    const double *restrict at = w->uncut.support[j];
    const double *restrict l_b = w->in.joist[NS_J_bearing + j];
    LANES(i) {
      const double far = ns_max(ns_abs(x1[i] - at[i]), ns_abs(x2[i] - at[i]));
      const double inside = NS_NOTCH_BY_PLACE > 1 ? l_b[i] / 2 : 0;
      x[i] = ns_min(x[i], ns_max(far - inside, 0));
    }
  }
}

/* M over the least modulus; where nothing is left, past any wood. */
NS_INLINE double edge_stress(double M, double S) {
  const bool some = S > 0;
  const double none = M > 0 ? 1e9 : 0;
  return some ? M / (some ? S : 1) : none;
}

#endif
