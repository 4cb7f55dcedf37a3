/* SPDX-License-Identifier: MIT
 * chord_alone.c - all of M and V on the wood of one side of an opening. */
#include "check/opening.h"

/* f_b = M/(b h^2/6) <= F_b' (psi) and V <= 2/3 F_v' b h (lb) on the wood of
 * depth h that one side of the opening leaves. A chord lost from the tension
 * face makes it a notch there. Branches 1 and 2 bending and shear without the
 * lower chord, 3 and 4 without the upper. */
NS_INLINE void one_chord(struct ns_work *w, int c, const struct ns_demand *q,
                         const struct ns_opening *f, bool top,
                         struct ns_check *k) {
  const struct ns_section *n = &w->section[c];
  const double *restrict h_rest = top ? n->c_b : n->c_t;
  const double *restrict in_tension = q->in_tension[top], *restrict b = n->b;
  const double *restrict middle = n->c_m, *restrict depth = w->depth;
  const int first = top ? 3 : 1;
  ns_lane on, S, A, x;
  from_support(w, c, x);
  LANES(i) {
    const double h = h_rest[i];
    const double torn = ns_notch_area(b[i], depth[i], h, x[i], 0);
    const double notch = NS_NOTCH_FRACTURE ? b[i] * h : torn;
    on[i] = (f->chords[i] != 0) & (middle[i] == 0) ? 1 : 0;
    S[i] = b[i] * h * h / 6;
    A[i] = in_tension[i] != 0 ? notch : b[i] * h;
  }
  for (int combo = 0; combo < w->standard->combos; combo++) {
    const double *restrict V = q->V[combo], *restrict V_at = q->V_at[combo];
    const double *restrict Fv = w->Fv[combo].value;
    for (int sign = 0; sign <= q->hogs[combo]; sign++) {
      const double *restrict M = q->M[combo][sign];
      const double *restrict at = q->M_at[combo][sign];
      const double *restrict Fb = f->Fb[combo][sign].value;
      LANES(i) {
        const bool some = (on[i] != 0) & ((sign == 0) | (M[i] > 0));
        ns_offer_lane(k, i, some, edge_stress(M[i], S[i]), Fb[i], at[i], combo,
                      first);
      }
    }
    LANES(i)
      ns_offer_lane(k, i, on[i] != 0, V[i], ns_shear_strength(Fv[i], A[i], 1),
                    V_at[i], combo, first + 1);
  }
}

/* The numbers behind the check: the side that counts, M or V and its value. */
NS_INLINE void note_alone(const struct ns_work *w, int c,
                          const struct ns_demand *q, const struct ns_opening *f,
                          struct ns_check *k) {
  const struct ns_section *n = &w->section[c];
  for (int i = 0; i < NS_LANES; i++) {
    const int combo = (int)k->combo[i], branch = (int)k->branch[i];
    const bool shear = branch == 2 || branch == 4, top = branch > 2;
    const double h = top ? n->c_b[i] : n->c_t[i], d = w->depth[i];
    const double S = n->b[i] * h * h / 6, M = k->demand[i] * S;
    const bool hogs = k->capacity[i] != f->Fb[combo][0].value[i];
    const struct ns_factors *v = shear ? &w->Fv[combo] : &f->Fb[combo][hogs];
    k->rec[NS_R_h][i] = h;
    k->rec[NS_R_b][i] = n->b[i];
    k->rec[NS_R_d][i] = d;
    k->rec[NS_R_d_n][i] = q->in_tension[top][i] != 0 ? h : d;
    k->rec[NS_R_S][i] = S;
    k->rec[NS_R_M][i] = M;
    k->rec[NS_R_V][i] = k->demand[i];
    k->rec[NS_R_f_b][i] = k->demand[i];
    k->rec[NS_R_F][i] = w->in.joist[shear ? NS_J_Fv : NS_J_Fb][i];
    k->rec[NS_R_F_a][i] = v->value[i];
    k->rec[NS_R_C_2][i] = v->value[i] / k->rec[NS_R_F][i];
#if NS_NOTCH_BY_PLACE == 1
    const double whole = ns_shear_strength(v->value[i], n->b[i], h);
    k->rec[NS_R_k_v][i] = shear ? k->capacity[i] / ns_max(whole, 1e-9) : 1;
#endif
  }
}

/* Where an opening's tie, strut or frame makes more of a ratio than one side
 * of it bears alone, that side alone counts, and the checks of both are shown.
 * Without a tie, a strut or a frame both sides are never worse than one. */
NS_INLINE void chord_alone(struct ns_work *w, int c, const struct ns_demand *q,
                           const struct ns_opening *f, int first) {
  struct ns_check *both = &w->out->check[first];
  struct ns_check *k = ns_add(w->out, NS_CHORD_ALONE, c, -1);
  struct ns_check *other = ns_add(w->out, NS_CHORD_ALONE, c, -1);
  const long checks = k - both;
  ns_lane two = {0}, off;
  one_chord(w, c, q, f, false, k);
  one_chord(w, c, q, f, true, other);
  w->out->checks--; /* the other was for comparison */
  for (long n = 0; n < checks; n++)
    LANES(i) {
      const bool on = both[n].on[i] != 0;
      two[i] = on ? ns_max(two[i], both[n].ratio[i]) : two[i];
    }
  LANES(i) {
    const bool less = other->ratio[i] < k->ratio[i];
    k->demand[i] = less ? other->demand[i] : k->demand[i];
    k->capacity[i] = less ? other->capacity[i] : k->capacity[i];
    k->at[i] = less ? other->at[i] : k->at[i];
    k->combo[i] = less ? other->combo[i] : k->combo[i];
    k->branch[i] = less ? other->branch[i] : k->branch[i];
    k->ratio[i] = less ? other->ratio[i] : k->ratio[i];
    const bool less_than_both = k->ratio[i] < two[i];
    const bool written = (k->on[i] != 0) & (f->acts[i] != 0) & less_than_both;
    off[i] = written ? 1 : 0;
    k->on[i] = written ? 1 : 0;
  }
  for (long n = 0; n < checks; n++)
    LANES(i) both[n].binding[i] = off[i] != 0 ? 0 : both[n].binding[i];
  if (w->records) note_alone(w, c, q, f, k);
}

/* Where a tie, a strut or a frame is counted on in some lane. */
NS_CHECK(chord_alone) {
  if (o->opening && ns_any(o->opening->acts))
    chord_alone(w, o->at, o->q, o->opening, o->first);
}
