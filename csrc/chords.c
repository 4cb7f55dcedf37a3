/* SPDX-License-Identifier: MIT
 * chords.c - the wood over and under an opening: as a frame, as a tie and as a
 * strut. */
#include "cut_check.h"

/* Chords of a long opening bend as a frame: V is shared by h^3 and turns
 * over half the opening's length. The worst edge of the net section is put
 * together with the worst chord, so that a larger opening never gains. */
NS_INLINE double chord_cubes(const struct ns_section *o, int i) {
  const double b = o->c_b[i], m = o->c_m[i], t = o->c_t[i];
  return b * b * b + m * m * m + t * t * t;
}

NS_INLINE double deeper_chord(const struct ns_section *o, int i) {
  return ns_max(o->c_m[i], ns_max(o->c_b[i], o->c_t[i]));
}

/* What all checks of the chords of an opening read: length of a frame, stress
 * in its deepest chord for V = 1, and whether there are chords. */
struct opening {
  ns_lane a, bend, chords;
};

NS_INLINE void opening_of(const struct ns_work *w, int c,
                          const struct ns_demand *q, struct opening *o) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  const struct ns_section *restrict n = &w->section[c];
  LANES(i) {
    const double sum = n->b[i] * chord_cubes(n, i);
    const double a = g->slot[i] != 0 ? g->g2[i] - g->g1[i] : 0;
    const double f = 3 * a * deeper_chord(n, i) / (sum > 0 ? sum : 1);
    o->a[i] = a;
    o->bend[i] = sum > 0 ? f : 0;
    o->chords[i] = (q->voice[i] != 0) & (q->open[i] != 0) ? 1 : 0;
  }
}

NS_INLINE void note_frame(struct ns_work *w, const struct ns_section *o,
                          const struct ns_demand *q, const struct opening *f,
                          struct ns_check *k) {
  ns_lane second;
  LANES(i) second[i] = k->branch[i] > 1 ? 1 : 0;
  ns_note_factors(k, &w->Fb[0][0], 2, w->standard->combos, second);
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

NS_INLINE void opening_frame(struct ns_work *w, int c,
                             const struct ns_demand *q,
                             const struct opening *f) {
  const struct ns_section *o = &w->section[c];
  const double *restrict slot = w->cut[c].slot, *restrict c_b = o->c_b;
  const double *restrict least = o->least;
  ns_lane on;
  LANES(i) {
    const bool frame = (slot[i] != 0) & ((c_b[i] > 0) | (q->gone[i] != 0));
    on[i] = (f->chords[i] != 0) & frame ? 1 : 0;
  }
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
  nothing_left(k, q, on, 3);
}

/* One of the two chords of an opening. One deeper than half the joist takes
 * in its axis: it is the beam, not a tie or a strut, and its edge is checked
 * by net bending. Stresses for M = 1. */
struct chord {
  ns_lane on, binding, h, y, I, axial, bend;
};

NS_INLINE void chord_of(const struct ns_work *w, int c, const struct opening *f,
                        bool top, struct chord *o) {
  const struct ns_section *n = &w->section[c];
  const double *restrict slot = w->cut[c].slot, *restrict H = n->H;
  const double *restrict c_h = top ? n->c_t : n->c_b;
  const double *restrict gone = top ? n->gone_t : n->gone_b;
  const double *restrict lip_y = n->lip_y[top], *restrict lip_I = n->lip_I[top];
  const double *restrict depth = w->depth;
  LANES(i) {
    const double h = c_h[i], I = ns_max(lip_I[i], 1e-9);
    const bool two = (h > 0) & (h < H[i] / 2);
    const bool lip = (gone[i] != 0) | (h < depth[i] / 4 - 1e-9);
    o->on[i] = (f->chords[i] != 0) & two ? 1 : 0;
    o->binding[i] = (slot[i] != 0) | lip ? 1 : 0;
    o->h[i] = h;
    o->y[i] = lip_y[i];
    o->I[i] = I;
    o->axial[i] = (lip_y[i] - h / 2) / I;
    o->bend[i] = h / 2 / I;
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
  k->rec[NS_R_a][i] = f->a[i];
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
  ns_note_factors(k, w->Ft, 1, w->standard->combos, NULL);
  for (int i = 0; i < NS_LANES; i++) {
    const struct chord_case g = governs(k, q, i);
    const struct chord *n = &o[g.sign];
    const struct ns_factors *Fb = &w->Fb[g.combo][g.sign];
    const double z = s->H[i] - (s->c_b[i] + s->c_t[i]) / 2;
    note_chord(w, c, f, n, &g, k, i);
    k->rec[NS_R_h_b][i] = s->h_b[i];
    k->rec[NS_R_h_t][i] = s->h_t[i];
    k->rec[NS_R_z][i] = z;
    k->rec[NS_R_N][i] = g.M / z;
    k->rec[NS_R_f_t][i] = g.M * n->axial[i];
    k->rec[NS_R_f_b][i] = g.M * n->bend[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Ft][i];
    k->rec[NS_R_F_a2][i] = Fb->value[i] / Fb->CL[i];
    k->rec[NS_R_C_2][i] = k->rec[NS_R_F_a2][i] / w->in.joist[NS_J_Fb][i];
  }
}

/* NDS 3.9.1 on the chord in tension: f_t/F_t' + f_b/F_b* <= 1. Branch 1 the
 * lower chord, 2 the upper. */
NS_INLINE void lip_tension(struct ns_work *w, int c, const struct ns_demand *q,
                           const struct opening *f, const struct chord *o) {
  struct ns_check *k = ns_add(w->out, NS_LIP_TENSION, c, -1);
  const double *restrict given = w->in.joist[NS_J_Ft];
  double *restrict binding = k->binding;
  ns_lane on;
  ns_copy(binding, o[0].binding);
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
        const double f_t = M[i] * n->axial[i];
        const double f_b = M[i] * n->bend[i] + V[i] * f->bend[i];
        const double Ft = ns_max(value[i], 1e-9);
        const double r = f_t / Ft + f_b / (Fb[i] / CL[i]);
        const bool some =
            (n->on[i] != 0) & (given[i] > 0) & ((sign == 0) | (M[i] > 0));
        const bool take =
            ns_offer_lane(k, i, some, r, 1, at[i], combo, 1 + sign);
        binding[i] = take ? n->binding[i] : binding[i];
      }
    }
  if (w->records) note_tension(w, c, q, f, o, k);
  LANES(i) on[i] = (q->open[i] != 0) & (given[i] > 0) ? 1 : 0;
  nothing_left(k, q, on, 3);
}

/* NDS 3.7.1.5 with c = 0.8 for sawn lumber. */
NS_INLINE double column_factor(double F_cE, double F_star) {
  const double a = F_cE / ns_max(F_star, 1e-9), p = (1 + a) / 1.6;
  return p - sqrt(ns_max(p * p - a / 0.8, 0));
}

/* A chord as a column: its critical value, factor and adjusted value. */
struct column {
  double F_cE, CP, F_c;
};

NS_INLINE struct column column_of(double a, double h, double b, double E,
                                  double star) {
  struct column r;
  const double slender = a / ns_max(ns_min(h, b), 1e-9);
  const bool bent = slender > 0;
  r.F_cE = bent ? 0.822 * E / (bent ? slender * slender : 1) : 1e18;
  r.CP = bent ? column_factor(r.F_cE, star) : 1;
  r.F_c = ns_max(star * r.CP, 1e-9);
  return r;
}

/* (f_c/F_c')^2 + f_b / (F_b' (1 - f_c/F_cE)); a chord that would buckle has
 * no such sum. */
NS_INLINE double squeeze(const struct column *n, double f_c, double f_b,
                         double Fb) {
  const double left = 1 - f_c / n->F_cE, p = f_c / n->F_c;
  const bool stands = left > 1e-3;
  const double r = p * p + f_b / Fb / (stands ? left : 1);
  return stands ? r : NS_NO_CAPACITY;
}

NS_INLINE void note_compression(const struct ns_work *w, int c,
                                const struct ns_demand *q,
                                const struct opening *f, const struct chord *o,
                                struct ns_check *k) {
  ns_note_factors(k, w->Fc, 1, w->standard->combos, NULL);
  for (int i = 0; i < NS_LANES; i++) {
    const struct chord_case g = governs(k, q, i);
    const struct chord *n = &o[!g.sign];
    const struct column v =
        column_of(f->a[i], n->h[i], w->section[c].b[i], w->Emin.value[i],
                  w->Fc[g.combo].value[i]);
    note_chord(w, c, f, n, &g, k, i);
    k->rec[NS_R_f_c][i] = g.M * n->axial[i];
    k->rec[NS_R_f_b][i] = g.M * n->bend[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fc][i];
    k->rec[NS_R_CP][i] = v.CP;
    k->rec[NS_R_F_cE][i] = v.F_cE;
    k->rec[NS_R_F_a][i] = v.F_c;
    k->rec[NS_R_F_a2][i] = w->Fb[g.combo][g.sign].value[i];
    k->rec[NS_R_C_2][i] = k->rec[NS_R_F_a2][i] / w->in.joist[NS_J_Fb][i];
  }
}

/* NDS 3.9.2 on the chord in compression. Branch 1 the upper chord (M > 0), 2
 * the lower; 3 and 4 the same where the chord would buckle. */
NS_INLINE void chord_compression(struct ns_work *w, int c,
                                 const struct ns_demand *q,
                                 const struct opening *f,
                                 const struct chord *o) {
  struct ns_check *k = ns_add(w->out, NS_WOOD_COMPRESSION, c, -1);
  const double *restrict Fc_given = w->in.joist[NS_J_Fc];
  const double *restrict E_given = w->in.joist[NS_J_Emin];
  const double *restrict E = w->Emin.value, *restrict b = w->section[c].b;
  double *restrict binding = k->binding, *restrict branch = k->branch;
  ns_lane on, buckles = {0};
  ns_copy(binding, o[1].binding);
  for (int sign = 0; sign < 2; sign++)
    for (int combo = 0; combo < w->standard->combos; combo++) {
      if (sign && !q->hogs[combo]) continue;
      const struct chord *restrict n = &o[!sign];
      const double *restrict Fb = w->Fb[combo][sign].value;
      const double *restrict M = q->M[combo][sign], *restrict V = q->V[combo];
      const double *restrict at = q->M_at[combo][sign];
      const double *restrict star = w->Fc[combo].value;
      LANES(i) {
        const double f_c = M[i] * n->axial[i];
        const double f_b = M[i] * n->bend[i] + V[i] * f->bend[i];
        const struct column v =
            column_of(f->a[i], n->h[i], b[i], E[i], star[i]);
        const double r = squeeze(&v, f_c, f_b, Fb[i]);
        const bool known = (Fc_given[i] > 0) & (E_given[i] > 0);
        const bool some = (n->on[i] != 0) & known & ((sign == 0) | (M[i] > 0));
        const bool take =
            ns_offer_lane(k, i, some, r, 1, at[i], combo, 1 + sign);
        const double two = f_c >= v.F_cE * (1 - 1e-3) ? 2 : 0;
        binding[i] = take ? n->binding[i] : binding[i];
        buckles[i] = take ? two : buckles[i];
      }
    }
  if (w->records) note_compression(w, c, q, f, o, k);
  LANES(i) {
    branch[i] += buckles[i];
    on[i] = (q->open[i] != 0) & (Fc_given[i] > 0) ? 1 : 0;
  }
  nothing_left(k, q, on, 5);
}

/* Of an opening: there are two chords, in both signs of M. */
NS_CLONES void ns_check_chords(struct ns_work *w, int c,
                               const struct ns_demand *q) {
  struct opening f;
  struct chord o[2];
  opening_of(w, c, q, &f);
  if (!ns_any(f.chords)) return;
  opening_frame(w, c, q, &f);
  chord_of(w, c, &f, false, &o[0]);
  chord_of(w, c, &f, true, &o[1]);
  lip_tension(w, c, q, &f, o);
  chord_compression(w, c, q, &f, o);
}
