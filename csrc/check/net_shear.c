/* SPDX-License-Identifier: MIT
 * net_shear.c - shear of what a cut leaves. */
#include "check/cut_check.h"

/* The numbers behind the check: the net section and how its chords share V. */
NS_INLINE void note_net_shear(struct ns_work *w, const struct ns_section *o,
                              struct ns_check *k) {
  note_section(k, o);
  note_shear(w, k);
  ns_copy(k->rec[NS_R_h], o->h_v);
  ns_copy(k->rec[NS_R_sum_h3], o->h3);
  ns_copy(k->rec[NS_R_m], o->h_s);
  ns_copy(k->rec[NS_R_A_h], o->A_h);
  ns_copy(k->rec[NS_R_lambda], o->part);
  ns_copy(k->rec[NS_R_L_o], o->L);
}

/* V <= 2/3 F_v' A (lb), V in full: what may be left out near a bearing is for
 * whole wood. Of an opening, a loss or a split; of a notch too where its
 * tearing is held to a value of its own. Branch 1 A the net area, 2 a chord
 * with its share of V by h^3, 3 that as far as the opening is long. */
NS_INLINE void net_shear(struct ns_work *w, int c, const struct ns_demand *q) {
  const struct ns_section *o = &w->section[c];
  const enum ns_kind kind = w->shape->cut[c].kind;
  const double *restrict A_v = o->A_v, *restrict h_v = o->h_v;
  ns_lane on;
  LANES(i) {
    const bool notched = (q->below[i] != 0) | (q->above[i] != 0);
    const bool open =
        (q->open[i] != 0) | (kind > NS_SEVER) | (NS_NOTCH_FRACTURE & notched);
    on[i] = (q->leader[i] != 0) & open ? 1 : 0;
  }
  if (!ns_any(on)) return;
  struct ns_check *k = ns_add(w->out, NS_NET_SHEAR, c, -1);
  for (int combo = 0; combo < w->standard->combos; combo++) {
    const double *restrict most = q->V[combo], *restrict at = q->V_at[combo];
    const double *restrict Fv = w->Fv[combo].value;
    LANES(i)
      ns_offer_lane(k, i, on[i] != 0, most[i],
                    ns_shear_strength(Fv[i], A_v[i], 1), at[i], combo, 1);
  }
  if (w->records) note_net_shear(w, o, k);
  LANES(i) {
    const double chord = o->part[i] > 0 ? 2 : 1;
    k->branch[i] += h_v[i] > 0 ? chord : 0;
  }
  nothing_left(k, q, on, 4);
}

NS_CHECK(net_shear) { net_shear(w, o->at, o->q); }
