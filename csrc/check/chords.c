/* SPDX-License-Identifier: MIT
 * chords.c - the wood over and under an opening: as a frame, as a tie and as a
 * strut, and one of the two alone.
 *
 * Plain net bending holds for small and round openings. A chord counts as a tie
 * or a strut (as a piece under axial force and bending) only as the opening
 * grows longer than the chord is deep, and not where the chord is half the
 * joist:
 *
 *     tau = clamp(L/h - 1, 0, 1) clamp(2 - 4 h/d, 0, 1)
 *     ratio = plain + tau max(0, interaction - plain)
 *
 * No test supports tau; plane stress does not either, since the mean stress in
 * a lip is that of plane sections at any length. It is a judgment of how long
 * a lip has to be for Ft', a value of whole pieces, to speak. Its ends can be
 * defended: nil beside a drilled hole, all of it in a tie twice as long as
 * deep. Ratios are blended, not allowable values, so that compression with
 * bending, which is no sum of two, goes the same way.
 *
 * A chord that is overstressed may be written off where the wood beyond the
 * opening carries all by itself: equilibrium does not need the chord, and an
 * opening that runs out to the edge must not be better than one that does
 * not. */
#include "check/cut_check.h"

NS_INLINE double chord_cubes(const struct ns_section *o, int i) {
  const double b = o->c_b[i], m = o->c_m[i], t = o->c_t[i];
  return b * b * b + m * m * m + t * t * t;
}

NS_INLINE double deeper_chord(const struct ns_section *o, int i) {
  return ns_max(o->c_m[i], ns_max(o->c_b[i], o->c_t[i]));
}

/* What all checks of the chords of an opening read: lengths as a frame and as
 * a tie, stress in its deepest chord for V = 1, and whether there are chords.
 */
struct opening {
  ns_lane a, L, bend, chords;
};

NS_INLINE void opening_of(const struct ns_work *w, int c,
                          const struct ns_demand *q, struct opening *o) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  const struct ns_section *restrict n = &w->section[c];
  LANES(i) {
    const double sum = n->b[i] * chord_cubes(n, i), a = g->a[i];
    const double f = 3 * a * deeper_chord(n, i) / (sum > 0 ? sum : 1);
    const bool open = (q->leader[i] != 0) & (q->open[i] != 0);
    o->a[i] = a;
    o->L[i] = g->L[i];
    o->bend[i] = sum > 0 ? f : 0;
    o->chords[i] = open & (n->c_b[i] > 0) & (n->c_t[i] > 0) ? 1 : 0;
  }
}

NS_INLINE void note_frame(struct ns_work *w, const struct ns_section *o,
                          const struct ns_demand *q, const struct opening *f,
                          struct ns_check *k) {
  ns_lane second;
  LANES(i) second[i] = k->branch[i] > 1 ? 1 : 0;
  ns_record_factors(k, &w->Fb[0][0], 2, w->standard->combos, second);
  note_section(k, o);
  LANES(i) {
    double V = 0;
    for (int combo = 0; combo < w->standard->combos; combo++)
      V = k->combo[i] == combo ? q->V[combo][i] : V;
    const double f_2 = V * f->bend[i];
    k->rec[NS_R_V][i] = V;
    k->rec[NS_R_a][i] = f->a[i];
    k->rec[NS_R_h][i] = deeper_chord(o, i);
    k->rec[NS_R_sum_h3][i] = chord_cubes(o, i);
    k->rec[NS_R_f_2][i] = f_2;
    k->rec[NS_R_M][i] = (k->demand[i] - f_2) * o->least[i];
    k->rec[NS_R_f_b][i] = k->demand[i] - f_2;
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fb][i];
  }
}

/* Chords of a long opening bend as a frame: V is shared by h^3 and turns
 * over half the opening's length. The worst edge of the net section is put
 * together with the worst chord, so that a larger opening never gains. */
NS_INLINE void opening_frame(struct ns_work *w, int c,
                             const struct ns_demand *q,
                             const struct opening *f) {
  const struct ns_section *o = &w->section[c];
  const double *restrict least = o->least;
  ns_lane on;
  LANES(i) on[i] = (f->chords[i] != 0) & (f->a[i] > 0) ? 1 : 0;
  if (!ns_any(on)) return;
  struct ns_check *k = ns_add(w->out, NS_OPENING_FRAME, c, -1);
  for (int combo = 0; combo < w->standard->combos; combo++)
    for (int sign = 0; sign <= q->hogs[combo]; sign++) {
      const double *restrict M = q->M[combo][sign], *restrict V = q->V[combo];
      const double *restrict at = q->M_at[combo][sign];
      const double *restrict Fb = w->Fb[combo][sign].value;
      LANES(i) {
        const double all = edge_stress(M[i], least[i]) + V[i] * f->bend[i];
        const bool some = (on[i] != 0) & ((sign == 0) | (M[i] > 0));
        ns_offer_lane(k, i, some, all, Fb[i], at[i], combo, 1 + sign);
      }
    }
  if (w->records) note_frame(w, o, q, f, k);
}

/* One of the two chords of an opening. Stresses for M = 1. */
struct chord {
  ns_lane h, y, I, axial, bend, tau;
};

NS_INLINE void chord_of(const struct ns_work *w, int c, const struct opening *f,
                        bool top, struct chord *o) {
  const struct ns_section *n = &w->section[c];
  const double *restrict c_h = top ? n->c_t : n->c_b;
  const double *restrict lip_y = n->lip_y[top], *restrict lip_I = n->lip_I[top];
  const double *restrict depth = w->depth;
  LANES(i) {
    const bool some = f->chords[i] != 0;
    const double h = c_h[i], I = ns_max(lip_I[i], 1e-9);
    const double longer = f->L[i] / (some ? h : 1) - 1;
    const double tie = ns_min(ns_max(longer, 0), 1);
    const double slim = ns_min(ns_max(2 - 4 * h / depth[i], 0), 1);
    o->h[i] = h;
    o->y[i] = lip_y[i];
    o->I[i] = I;
    o->axial[i] = (lip_y[i] - h / 2) / I;
    o->bend[i] = h / 2 / I;
    o->tau[i] = some ? tie * slim : 0;
  }
}

/* The rows of one lane that its governing case picks. */
struct chord_case {
  int sign, combo;
  double M, V;
};

NS_INLINE struct chord_case governs(const struct ns_check *k,
                                    const struct ns_demand *q, int i) {
  const int sign = k->branch[i] > 1;
  const int combo = (int)k->combo[i];
  return (struct chord_case){sign, combo, q->M[combo][sign][i], q->V[combo][i]};
}

NS_INLINE void note_chord(const struct ns_work *w, int c,
                          const struct opening *f, const struct chord *n,
                          const struct chord_case *g, struct ns_check *k,
                          int i) {
  k->rec[NS_R_M][i] = g->M;
  k->rec[NS_R_V][i] = g->V;
  k->rec[NS_R_b][i] = w->section[c].b[i];
  k->rec[NS_R_d][i] = w->depth[i];
  k->rec[NS_R_a][i] = f->a[i];
  k->rec[NS_R_L_o][i] = f->L[i];
  k->rec[NS_R_tau][i] = n->tau[i];
  k->rec[NS_R_h][i] = n->h[i];
  k->rec[NS_R_sum_h3][i] = chord_cubes(&w->section[c], i);
  k->rec[NS_R_y][i] = n->y[i];
  k->rec[NS_R_I][i] = n->I[i];
  k->rec[NS_R_f_2][i] = g->V * f->bend[i];
  k->rec[NS_R_F_2][i] = w->in.joist[NS_J_Fb][i];
}

NS_INLINE void note_tension(const struct ns_work *w, int c,
                            const struct ns_demand *q, const struct opening *f,
                            const struct chord *o, struct ns_check *k) {
  const struct ns_section *s = &w->section[c];
  ns_record_factors(k, w->Ft, 1, w->standard->combos, NULL);
  for (int i = 0; i < NS_LANES; i++) {
    const struct chord_case g = governs(k, q, i);
    const struct chord *n = &o[g.sign];
    const struct ns_factors *Fb = &w->Fb[g.combo][g.sign];
    const double z = s->H[i] - (s->c_b[i] + s->c_t[i]) / 2;
    const double f_t = g.M * n->axial[i], f_b = g.M * n->bend[i];
    const double F_bs = Fb->value[i] / Fb->CL[i], f_2 = g.V * f->bend[i];
    const double F_t = w->Ft[g.combo].value[i];
    note_chord(w, c, f, n, &g, k, i);
    k->rec[NS_R_h_b][i] = s->h_b[i];
    k->rec[NS_R_h_t][i] = s->h_t[i];
    k->rec[NS_R_z][i] = z;
    k->rec[NS_R_N][i] = g.M / z;
    k->rec[NS_R_f_t][i] = f_t;
    k->rec[NS_R_f_b][i] = f_b;
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Ft][i];
    k->rec[NS_R_F_a2][i] = F_bs;
    k->rec[NS_R_C_2][i] = F_bs / w->in.joist[NS_J_Fb][i];
    k->rec[NS_R_r_1][i] = (f_t + f_b + f_2) / F_bs;
    k->rec[NS_R_r_2][i] = ns_tension_and_bending(f_t, F_t, f_b + f_2, F_bs);
  }
}

/* The chord in tension, f_t/F_t' + f_b/F_b* <= 1, as far as it is a tie; its
 * edge otherwise. Branch 1 the lower chord, 2 the upper; 3 one that is no tie.
 */
NS_INLINE void lip_tension(struct ns_work *w, int c, const struct ns_demand *q,
                           const struct opening *f, const struct chord *o) {
  struct ns_check *k = ns_add(w->out, NS_LIP_TENSION, c, -1);
  const double *restrict given = w->in.joist[NS_J_Ft];
  const double *restrict chords = f->chords;
  ns_lane tie = {0};
  for (int sign = 0; sign < 2; sign++)
    for (int combo = 0; combo < w->standard->combos; combo++) {
      if (sign && !q->hogs[combo]) continue;
      const struct chord *restrict n = &o[sign];
      const double *restrict Fb = w->Fb[combo][sign].value;
      const double *restrict CL = w->Fb[combo][sign].CL;
      const double *restrict M = q->M[combo][sign], *restrict V = q->V[combo];
      const double *restrict at = q->M_at[combo][sign];
      const double *restrict value = w->Ft[combo].value;
      LANES(i) {
        const double f_t = M[i] * n->axial[i], F_bs = Fb[i] / CL[i];
        const double f_b = M[i] * n->bend[i] + V[i] * f->bend[i];
        const double plain = (f_t + f_b) / F_bs, tau = n->tau[i];
        const double full = ns_tension_and_bending(f_t, value[i], f_b, F_bs);
        const double r = plain + tau * ns_max(full - plain, 0);
        const bool known = (given[i] > 0) | (tau == 0);
        const bool some = (chords[i] != 0) & known & ((sign == 0) | (M[i] > 0));
        const bool take =
            ns_offer_lane(k, i, some, r, 1, at[i], combo, 1 + sign);
        tie[i] = take ? tau : tie[i];
      }
    }
  if (w->records) note_tension(w, c, q, f, o, k);
  LANES(i) k->branch[i] = tie[i] > 0 ? k->branch[i] : 3;
}

NS_INLINE void note_compression(const struct ns_work *w, int c,
                                const struct ns_demand *q,
                                const struct opening *f, const struct chord *o,
                                struct ns_check *k) {
  ns_record_factors(k, w->Fc, 1, w->standard->combos, NULL);
  for (int i = 0; i < NS_LANES; i++) {
    const struct chord_case g = governs(k, q, i);
    const struct chord *n = &o[!g.sign];
    const struct ns_column v =
        ns_chord_column(f->L[i], n->h[i], w->section[c].b[i], w->Emin.value[i],
                        w->Fc[g.combo].value[i], w->in.joist[NS_J_Fc][i]);
    const double f_c = g.M * n->axial[i], f_b = g.M * n->bend[i];
    const double Fb = w->Fb[g.combo][g.sign].value[i], f_2 = g.V * f->bend[i];
    note_chord(w, c, f, n, &g, k, i);
    k->rec[NS_R_f_c][i] = f_c;
    k->rec[NS_R_f_b][i] = f_b;
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fc][i];
    k->rec[NS_R_CP][i] = v.CP;
    k->rec[NS_R_F_cE][i] = v.F_cE;
    k->rec[NS_R_F_a][i] = v.F_c;
    k->rec[NS_R_F_a2][i] = Fb;
    k->rec[NS_R_C_2][i] = Fb / w->in.joist[NS_J_Fb][i];
    k->rec[NS_R_r_1][i] = (f_c + f_b + f_2) / Fb;
    k->rec[NS_R_r_2][i] = ns_compression_and_bending(&v, f_c, f_b + f_2, Fb);
  }
}

/* The chord in compression, (f_c/F_c')^2 + f_b/(F_b' (1 - f_c/F_cE)) <= 1, as
 * far as it is a strut. Branch 1 the upper chord (M > 0), 2 the lower; 3 and 4
 * the same where the chord would buckle; 5 one that is no strut. */
NS_INLINE void chord_compression(struct ns_work *w, int c,
                                 const struct ns_demand *q,
                                 const struct opening *f,
                                 const struct chord *o) {
  struct ns_check *k = ns_add(w->out, NS_WOOD_COMPRESSION, c, -1);
  const double *restrict Fc_given = w->in.joist[NS_J_Fc];
  const double *restrict E_given = w->in.joist[NS_J_Emin];
  const double *restrict E = w->Emin.value, *restrict b = w->section[c].b;
  const double *restrict chords = f->chords;
  double *restrict branch = k->branch;
  ns_lane strut = {0}, buckles = {0};
  for (int sign = 0; sign < 2; sign++)
    for (int combo = 0; combo < w->standard->combos; combo++) {
      if (sign && !q->hogs[combo]) continue;
      const struct chord *restrict n = &o[!sign];
      const double *restrict Fb = w->Fb[combo][sign].value;
      const double *restrict M = q->M[combo][sign], *restrict V = q->V[combo];
      const double *restrict at = q->M_at[combo][sign];
      const double *restrict star = w->Fc[combo].value;
      LANES(i) {
        const double f_c = M[i] * n->axial[i], tau = n->tau[i];
        const double f_b = M[i] * n->bend[i] + V[i] * f->bend[i];
        const struct ns_column v =
            ns_chord_column(f->L[i], n->h[i], b[i], E[i], star[i], Fc_given[i]);
        const double plain = (f_c + f_b) / Fb[i];
        const double full = ns_compression_and_bending(&v, f_c, f_b, Fb[i]);
        const double r = plain + tau * ns_max(full - plain, 0);
        const bool given = (Fc_given[i] > 0) & (E_given[i] > 0);
        const bool known = given | (tau == 0);
        const bool some = (chords[i] != 0) & known & ((sign == 0) | (M[i] > 0));
        const bool take =
            ns_offer_lane(k, i, some, r, 1, at[i], combo, 1 + sign);
        const double two = f_c >= v.F_cE * (1 - 1e-3) ? 2 : 0;
        strut[i] = take ? tau : strut[i];
        buckles[i] = take ? two : buckles[i];
      }
    }
  if (w->records) note_compression(w, c, q, f, o, k);
  LANES(i) branch[i] = strut[i] > 0 ? branch[i] + buckles[i] : 5;
}

/* All of M and V on the wood of depth h that one side of the opening leaves. A
 * chord lost from the tension face makes it a notch there.
 * Branches 1 and 2 bending and shear without the lower chord, 3 and 4 without
 * the upper. */
NS_INLINE void one_chord(struct ns_work *w, int c, const struct ns_demand *q,
                         const struct opening *f, bool top,
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
      const double *restrict Fb = w->Fb[combo][sign].value;
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

NS_INLINE void note_alone(const struct ns_work *w, int c,
                          const struct ns_demand *q, struct ns_check *k) {
  const struct ns_section *n = &w->section[c];
  for (int i = 0; i < NS_LANES; i++) {
    const int combo = (int)k->combo[i], branch = (int)k->branch[i];
    const bool shear = branch == 2 || branch == 4, top = branch > 2;
    const double h = top ? n->c_b[i] : n->c_t[i], d = w->depth[i];
    const double S = n->b[i] * h * h / 6, M = k->demand[i] * S;
    const bool hogs = k->capacity[i] != w->Fb[combo][0].value[i];
    const struct ns_factors *v = shear ? &w->Fv[combo] : &w->Fb[combo][hogs];
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
                           const struct opening *f, const double *restrict acts,
                           int first) {
  struct ns_check *both = &w->out->check[first];
  struct ns_check *k = ns_add(w->out, NS_CHORD_ALONE, c, -1);
  struct ns_check *other = ns_add(w->out, NS_CHORD_ALONE, c, -1);
  const ptrdiff_t checks = k - both;
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
    const bool written = (k->on[i] != 0) & (acts[i] != 0) & less_than_both;
    off[i] = written ? 1 : 0;
    k->on[i] = written ? 1 : 0;
  }
  for (long n = 0; n < checks; n++)
    LANES(i) both[n].binding[i] = off[i] != 0 ? 0 : both[n].binding[i];
  if (w->records) note_alone(w, c, q, k);
}

/* Of an opening whose two chords count, in both signs of M; 'first' is the
 * first check of the cut. */
NS_CLONES void ns_check_chords(struct ns_work *w, int c,
                               const struct ns_demand *q, int first) {
  struct opening f;
  struct chord o[2];
  ns_lane acts;
  double(*tau)[NS_LANES] = w->out->cuts[c].tau;
  opening_of(w, c, q, &f);
  if (!ns_any(f.chords)) return;
  opening_frame(w, c, q, &f);
  chord_of(w, c, &f, false, &o[0]);
  chord_of(w, c, &f, true, &o[1]);
  lip_tension(w, c, q, &f, o);
  chord_compression(w, c, q, &f, o);
  ns_copy(tau[0], o[0].tau);
  ns_copy(tau[1], o[1].tau);
  LANES(i) {
    const bool acting = (o[0].tau[i] > 0) | (o[1].tau[i] > 0) | (f.a[i] > 0);
    acts[i] = (f.chords[i] != 0) & acting ? 1 : 0;
  }
  if (ns_any(acts)) chord_alone(w, c, q, &f, acts, first);
}
