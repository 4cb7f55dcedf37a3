/* SPDX-License-Identifier: MIT
 * cut_check.c - the checks at one cut.
 *
 * A round hole is read at its centre, where it is deepest; anything else over
 * its whole length, M and V each at their worst. Cuts that were merged are
 * checked once, under the first of them. What a group is - open, or a notch
 * in the bottom or the top, or both where a lip is too thin to count - is
 * read off its box, lane by lane. */
#include "work.h"

NS_INLINE void stretch(const struct ns_work *w, int c, struct ns_demand *q) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  const struct ns_section *restrict o = &w->section[c];
  const struct ns_shape *s = w->shape;
  const bool box = s->cut[c].kind <= NS_END_NOTCH;
  const bool hole = s->cut[c].kind == NS_HOLE;
  const double *restrict first = w->uncut.x[0];
  const double *restrict last = w->uncut.x[w->uncut.breaks - 1];
  LANES(i) {
    const bool point = hole & (g->slot[i] == 0) & (g->merged[i] == 0);
    const double a = point ? g->xc[i] : g->g1[i];
    const double b = point ? g->xc[i] : g->g2[i];
    q->a[i] = ns_min(ns_max(a, first[i]), last[i]);
    q->b[i] = ns_min(ns_max(b, first[i]), last[i]);
    const bool gone = o->h_b[i] + o->h_m[i] + o->h_t[i] <= 0;
    q->voice[i] = g->voice[i] == c ? 1 : 0;
    q->gone[i] = (g->voice[i] == c) & gone ? 1 : 0;
    q->below[i] = box & (o->gone_b[i] != 0) ? 1 : 0;
    q->above[i] = box & (o->gone_t[i] != 0) ? 1 : 0;
    q->open[i] = g->opening[i];
  }
  q->some_gone = ns_any(q->gone);
}

NS_INLINE void take_moment(struct ns_demand *q, int c, int sign,
                           const double *restrict in, const double *restrict m,
                           const double *restrict x) {
  const double way = sign ? -1 : 1;
  double *restrict M = q->M[c][sign], *restrict at = q->M_at[c][sign];
  LANES(i) {
    const bool more = (in[i] != 0) & (way * m[i] > M[i]);
    M[i] = more ? way * m[i] : M[i];
    at[i] = more ? x[i] : at[i];
  }
}

/* Lanes whose cut holds break k, and those where its left and its right side
 * are within the cut. */
struct within {
  ns_lane in, left, right;
};

NS_INLINE bool find_within(const struct ns_beam *s, int k,
                           const struct ns_demand *q, struct within *o) {
  const double *restrict x = s->x[k];
  LANES(i) {
    const bool at = (x[i] >= q->a[i]) & (x[i] <= q->b[i]);
    o->in[i] = at ? 1 : 0;
  }
  if (!ns_any(o->in)) return false;
  LANES(i) {
    const bool point = q->a[i] == q->b[i], at = o->in[i] != 0;
    o->left[i] = at & ((x[i] > q->a[i]) | point) ? 1 : 0;
    o->right[i] = at & ((x[i] < q->b[i]) | point) ? 1 : 0;
  }
  return true;
}

/* V of one side of break k, live load both ways. */
NS_INLINE void take_shear(struct ns_demand *q, int c, double gD, double gL,
                          const double *restrict in, const double *restrict D,
                          const struct ns_envelope *e,
                          const double *restrict x) {
  const double *restrict most = e->V[0], *restrict least = e->V[1];
  double *restrict V = q->V[c], *restrict at = q->V_at[c];
  double *restrict up = q->V_most, *restrict down = q->V_least;
  const bool live = gL > 0;
  LANES(i) {
    const bool on = in[i] != 0, all = on & live;
    const double hi = gD * D[i] + gL * most[i], lo = gD * D[i] + gL * least[i];
    const double size = ns_max(ns_abs(hi), ns_abs(lo));
    const bool more = on & (size > V[i]);
    const double high = ns_max(hi, lo), low = ns_min(hi, lo);
    V[i] = more ? size : V[i];
    at[i] = more ? x[i] : at[i];
    up[i] = all & (high > up[i]) ? high : up[i];
    down[i] = all & (low < down[i]) ? low : down[i];
  }
}

/* The peaks of segment k that are within the cut. */
NS_INLINE void take_peaks(const struct ns_beam *s, const struct ns_table *t,
                          int c, int k, struct ns_demand *q) {
  const double *restrict x = s->x[k], *restrict x2 = s->x[k + 1];
  for (int sign = 0; sign < 2; sign++) {
    const double *restrict has = t->has_peak[c][sign][k];
    ns_lane in;
    if (!t->peaks[c][sign][k]) continue;
    LANES(i) {
      const bool on = (x[i] >= q->a[i]) & (x2[i] <= q->b[i]);
      in[i] = on & (has[i] != 0) ? 1 : 0;
    }
    take_moment(q, c, sign, in, t->peak[c][sign][k], t->peak_at[c][sign][k]);
  }
}

/* What break k and the segment after it make of M and V in a combination. */
NS_INLINE void take_break(const struct ns_work *w, const struct ns_beam *s,
                          const struct ns_table *t, int c, int k,
                          const struct within *at, struct ns_demand *q) {
  const double gD = w->standard->g_D[c], gL = w->standard->g_L[c];
  const bool end = k == s->breaks - 1;
  const double *restrict D = s->M[0][k], *restrict x = s->x[k];
  for (int sign = 0; sign < 2; sign++) {
    const double *restrict L = t->side[!end][k].M[sign];
    ns_lane v;
    LANES(i) v[i] = gD * D[i] + gL * L[i];
    take_moment(q, c, sign, at->in, v, x);
  }
  take_shear(q, c, gD, gL, at->left, s->VL[0][k], &t->side[0][k], x);
  take_shear(q, c, gD, gL, at->right, s->VR[0][k], &t->side[1][k], x);
  if (!end) take_peaks(s, t, c, k, q);
}

NS_INLINE void find_demand(const struct ns_work *w, const struct ns_beam *s,
                           const struct ns_table *t, struct ns_demand *q) {
  const int combos = w->standard->combos;
  for (int k = 0; k < s->breaks; k++) {
    struct within at;
    if (!find_within(s, k, q, &at)) continue;
    for (int c = 0; c < combos; c++) take_break(w, s, t, c, k, &at, q);
  }
  for (int c = 0; c < combos; c++) q->hogs[c] = ns_any(q->M[c][1]);
}

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

/* Which faces are in tension. At the end of a joist M is nil at the bearing
 * and takes its sign from the shear just inside. */
NS_INLINE void tension_faces(const struct ns_work *w, int c,
                             struct ns_demand *q) {
  const struct ns_cut_geometry *g = &w->cut[c];
  ns_lane sag = {0}, hog = {0};
  for (int k = 0; k < w->standard->combos; k++) {
    const double *restrict M = q->M[k][0], *restrict M_hog = q->M[k][1];
    LANES(i) {
      sag[i] = ns_max(sag[i], M[i]);
      hog[i] = ns_max(hog[i], M_hog[i]);
    }
  }
  LANES(i) {
    const bool left = g->ends[0][i] != 0, right = g->ends[1][i] != 0;
    const double most = q->V_most[i], least = q->V_least[i];
    const double up = left ? most : right ? -least : sag[i];
    const double down = left ? -least : right ? most : hog[i];
    const bool bottom = ns_max(up, sag[i]) > 1e-6;
    const bool top = ns_max(down, hog[i]) > 1e-6;
    q->torn[0][i] = bottom ? 1 : 0;
    q->torn[1][i] = top ? 1 : 0;
    const bool torn =
        ((q->below[i] != 0) & bottom) | ((q->above[i] != 0) & top);
    q->torn_notch[i] = torn ? 1 : 0;
  }
}

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

/* M over the least modulus; where nothing is left, past any wood. */
NS_INLINE double edge_stress(double M, double S) {
  const bool some = S > 0;
  const double none = M > 0 ? 1e9 : 0;
  return some ? M / (some ? S : 1) : none;
}

NS_INLINE void note_net_bending(const struct ns_work *w,
                                const struct ns_section *o, const double *k_n,
                                struct ns_check *k) {
  ns_lane second;
  LANES(i) second[i] = k->branch[i] > 3 ? 1 : 0;
  ns_note_factors(k, &w->Fb[0][0], 2, w->standard->combos, second);
  note_section(k, o);
  LANES(i) {
    const double M = k->demand[i] * o->least[i] / k_n[i];
    k->rec[NS_R_M][i] = M;
    k->rec[NS_R_k_n][i] = k_n[i];
    k->rec[NS_R_f_bot][i] = o->S_b[i] > 0 ? M / o->S_b[i] : 0;
    k->rec[NS_R_f_top][i] = o->S_t[i] > 0 ? M / o->S_t[i] : 0;
    k->rec[NS_R_f_b][i] = k->demand[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fb][i];
    k->rec[NS_R_l_u][i] = w->l_u[i];
    k->rec[NS_R_l_e][i] = w->l_e[i];
  }
}

/* Stress at the worst edge of the net section. Branch 1 bottom edge, 2 top
 * edge, 3 least of the openings within; 4 to 6 the same for M < 0. */
NS_INLINE void net_bending(struct ns_work *w, int c,
                           const struct ns_demand *q) {
  struct ns_check *k = ns_add(w->out, NS_NET_BENDING, c, -1);
  const struct ns_section *o = &w->section[c];
  const double *restrict raiser = w->in.joist[NS_J_notch_raiser];
  const double *restrict least = o->least, *restrict voice = q->voice;
  ns_lane k_n;
  LANES(i) k_n[i] = q->torn_notch[i] != 0 ? raiser[i] : 1;
  for (int combo = 0; combo < w->standard->combos; combo++)
    for (int sign = 0; sign <= q->hogs[combo]; sign++) {
      const double *restrict M = q->M[combo][sign];
      const double *restrict at = q->M_at[combo][sign];
      const double *restrict Fb = w->Fb[combo][sign].value;
      LANES(i) {
        const double f = k_n[i] * edge_stress(M[i], least[i]);
        const bool on = (voice[i] != 0) & ((sign == 0) | (M[i] > 0));
        ns_offer_lane(k, i, on, f, Fb[i], at[i], combo, 1 + 3 * sign);
      }
    }
  if (w->records) note_net_bending(w, o, k_n, k);
  LANES(i) {
    const double S = ns_min(o->S_b[i], o->S_t[i]);
    const bool inner = least[i] < S * (1 - 1e-12);
    const bool top = o->S_t[i] < o->S_b[i] * (1 - 1e-9);
    k->branch[i] += inner ? 2 : top ? 1 : 0;
  }
  nothing_left(k, q, q->voice, 7);
}

NS_INLINE void note_shear(struct ns_work *w, struct ns_check *k) {
  ns_note_factors(k, w->Fv, 1, w->standard->combos, NULL);
  LANES(i) {
    k->rec[NS_R_V][i] = k->demand[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fv][i];
  }
}

NS_INLINE void note_net_shear(struct ns_work *w, const struct ns_section *o,
                              struct ns_check *k) {
  note_section(k, o);
  note_shear(w, k);
  ns_copy(k->rec[NS_R_h], o->h_v);
  ns_copy(k->rec[NS_R_sum_h3], o->h3);
}

/* Shear of an opening, a loss or a split. Branch 1 the net area, 2 a chord
 * with its share of V by h^3. At a loss the load within d of a bearing may be
 * left out, as it may where the wood is whole. */
NS_INLINE void net_shear(struct ns_work *w, int c, const struct ns_demand *q) {
  const struct ns_section *o = &w->section[c];
  const enum ns_kind kind = w->shape->cut[c].kind;
  const double *restrict A_v = o->A_v, *restrict h_v = o->h_v;
  ns_lane on;
  LANES(i) {
    const bool open = (q->open[i] != 0) | (kind > NS_SEVER);
    on[i] = (q->voice[i] != 0) & open ? 1 : 0;
  }
  if (!ns_any(on)) return;
  struct ns_check *k = ns_add(w->out, NS_NET_SHEAR, c, -1);
  for (int combo = 0; combo < w->standard->combos; combo++) {
    const double *restrict most = q->V[combo], *restrict at = q->V_at[combo];
    const double *restrict V_d = kind == NS_LOSS ? w->V_d[combo] : most;
    const double *restrict Fv = w->Fv[combo].value;
    LANES(i)
      ns_offer_lane(k, i, on[i] != 0, ns_min(most[i], V_d[i]),
                    2.0 / 3 * Fv[i] * A_v[i], at[i], combo, 1);
  }
  if (w->records) note_net_shear(w, o, k);
  LANES(i) k->branch[i] += h_v[i] > 0 ? 1 : 0;
  nothing_left(k, q, on, 3);
}

/* What a notch leaves: depth, length past the face of a bearing, the part of
 * V that it counts for and how (the branch of its check). */
struct notch {
  ns_lane d_n, e, part, branch;
};

/* NDS 3.4.3.2. Branch 1: tension face, V' = 2/3 Fv' b d_n (d_n/d)^2; 2:
 * compression face at an end, V' = 2/3 Fv' b (d - (d - d_n) e / d_n), e <=
 * d_n; 3: compression face elsewhere, or e over d_n: d_n counts alone; 4: a
 * tension face whose end slopes 1 in 10 or flatter: d_n counts alone. */
NS_INLINE void notch_of(const struct ns_work *w, int c,
                        const struct ns_demand *q, struct notch *o) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  const struct ns_section *restrict n = &w->section[c];
  const enum ns_kind kind = w->shape->cut[c].kind;
  const bool notch = kind == NS_NOTCH || kind == NS_END_NOTCH;
  const double *restrict first = w->in.joist[NS_J_bearing];
  const double *restrict last = w->in.joist[NS_J_bearing + w->shape->spans];
  const double *restrict start = w->start, *restrict end = w->end;
  const double *restrict depth = w->depth, *restrict b = n->b;
  const double *restrict taper = w->in.cut[c][NS_C_taper];
  LANES(i) {
    const bool left = g->ends[0][i] != 0, right = g->ends[1][i] != 0;
    const double d = depth[i], d_n = n->h_b[i] + n->h_m[i] + n->h_t[i];
    const bool torn = q->torn_notch[i] != 0;
    const bool tapered = notch & (taper[i] >= 10) & (g->merged[i] == 0);
    const double from_left = g->g2[i] - (start[i] + first[i]);
    const double from_right = end[i] - last[i] - g->g1[i];
    const double past = left ? from_left : right ? from_right : 0;
    const double e = ns_max(past, 0), some = ns_max(d_n, 1e-9), r = d_n / d;
    const double squared = b[i] * some * r * r;
    const double sloped = b[i] * (d - (d - d_n) / some * e);
    const bool near = (left | right) & (e <= d_n);
    const double plain = torn | !near ? b[i] * d_n : sloped;
    const double flat = near ? 2 : 3, face = tapered ? 4 : 1;
    o->d_n[i] = d_n;
    o->e[i] = e;
    o->part[i] = torn & !tapered ? squared : plain;
    o->branch[i] = torn ? face : flat;
  }
}

NS_INLINE void note_notch(struct ns_work *w, const struct ns_section *o,
                          const struct notch *n, struct ns_check *k) {
  note_section(k, o);
  note_shear(w, k);
  ns_copy(k->rec[NS_R_d], w->depth);
  ns_copy(k->rec[NS_R_d_n], n->d_n);
  ns_copy(k->rec[NS_R_e], n->e);
}

NS_INLINE void notch_shear(struct ns_work *w, int c,
                           const struct ns_demand *q) {
  struct notch n;
  ns_lane on;
  LANES(i) {
    const bool notched = (q->below[i] != 0) | (q->above[i] != 0);
    on[i] = (q->voice[i] != 0) & notched ? 1 : 0;
  }
  if (!ns_any(on)) return;
  struct ns_check *k = ns_add(w->out, NS_NOTCH_SHEAR, c, -1);
  notch_of(w, c, q, &n);
  for (int combo = 0; combo < w->standard->combos; combo++) {
    const double *restrict V = q->V[combo], *restrict at = q->V_at[combo];
    const double *restrict Fv = w->Fv[combo].value;
    LANES(i)
      ns_offer_lane(k, i, on[i] != 0, V[i], 2.0 / 3 * Fv[i] * n.part[i], at[i],
                    combo, 1);
  }
  if (w->records) note_notch(w, &w->section[c], &n, k);
  ns_copy(k->branch, n.branch);
  nothing_left(k, q, on, 5);
}

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
  r.F_cE = bent ? 0.822 * E / (bent ? slender * slender : 1) : 1e12;
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

/* Forces at the middle of a cut, in the lanes where break k is there. */
NS_INLINE void note_middle(struct ns_work *w, const struct ns_beam *s,
                           const struct ns_table *t, int c, int k) {
  struct ns_cut_result *o = &w->out->cuts[c];
  const int last = w->standard->combos - 1;
  const double g_D = w->standard->g_D[last], g_L = w->standard->g_L[last];
  ns_lane at;
  LANES(i) at[i] = s->x[k][i] == w->cut[c].xc[i] ? 1 : 0;
  if (!ns_any(at)) return;
  LANES(i) {
    const bool here = at[i] != 0;
    const double live = s->M[1][k][i] + s->M[2][k][i];
    const double D = g_D * s->VR[0][k][i];
    const double V = s->VR[1][k][i] + s->VR[2][k][i];
    const double M = g_D * s->M[0][k][i] + g_L * live;
    const double most = D + g_L * t->side[1][k].V[0][i];
    const double least = D + g_L * t->side[1][k].V[1][i];
    o->M_full[i] = here ? M : o->M_full[i];
    o->V_full[i] = here ? D + g_L * V : o->V_full[i];
    o->V_mid[0][i] = here ? most : o->V_mid[0][i];
    o->V_mid[1][i] = here ? least : o->V_mid[1][i];
  }
}

/* Forces at the cut for the report, all loads: worst, and at its middle. */
NS_INLINE void note_forces(struct ns_work *w, const struct ns_beam *s,
                           const struct ns_table *t, int c,
                           const struct ns_demand *q) {
  struct ns_cut_result *o = &w->out->cuts[c];
  const struct ns_standard *std = w->standard;
  const int last = std->combos - 1;
  LANES(i) {
    o->M[0][i] = q->M[last][0][i];
    o->M[1][i] = -q->M[last][1][i];
    o->V[0][i] = q->V_most[i];
    o->V[1][i] = q->V_least[i];
    o->M_full[i] = o->V_full[i] = o->V_mid[0][i] = o->V_mid[1][i] = 0;
    o->lip[0][i] = o->lip[1][i] = 0;
  }
  for (int k = 0; k < s->breaks - 1; k++) note_middle(w, s, t, c, k);
  LANES(i) {
    const struct ns_section *n = &w->section[c];
    const bool open = (q->open[i] != 0) & (n->h_b[i] > 0) & (n->h_t[i] > 0);
    const double z = n->H[i] - (n->h_b[i] + n->h_t[i]) / 2;
    const double M = ns_max(q->M[last][0][i], q->M[last][1][i]);
    o->lip[0][i] = o->lip[1][i] = open ? M / z : 0;
  }
}

NS_CLONES void ns_cut_demand(struct ns_work *w, const struct ns_beam *s,
                             const struct ns_table *t, int c,
                             struct ns_demand *q) {
  const size_t combos = (size_t)w->standard->combos;
  memset(q->M, 0, sizeof q->M[0] * combos);
  memset(q->M_at, 0, sizeof q->M_at[0] * combos);
  memset(q->V, 0, sizeof q->V[0] * combos);
  memset(q->V_at, 0, sizeof q->V_at[0] * combos);
  ns_fill(q->V_most, 0);
  ns_fill(q->V_least, 0);
  stretch(w, c, q);
  find_demand(w, s, t, q);
  tension_faces(w, c, q);
}

NS_CLONES void ns_find_forces(struct ns_work *w) {
  const struct ns_beam *s = &w->after;
  const struct ns_table *t = &w->table[s->unknowns > 0];
  for (int c = 0; c < w->shape->cuts; c++) {
    struct ns_demand *q = &w->demand[c];
    ns_cut_demand(w, s, t, c, q);
    LANES(i) w->severed[i] = ns_max(w->severed[i], q->gone[i]);
    note_forces(w, s, t, c, q);
  }
}

/* Of an opening: there are two chords, in both signs of M. */
NS_INLINE void check_chords(struct ns_work *w, int c,
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

NS_CLONES void ns_check_cut(struct ns_work *w, int c) {
  const struct ns_demand *q = &w->demand[c];
  const enum ns_kind kind = w->shape->cut[c].kind;
  if (kind == NS_SEVER) return;
  net_bending(w, c, q);
  net_shear(w, c, q);
  if (kind == NS_LOSS || kind == NS_SPLIT) return;
  notch_shear(w, c, q);
  check_chords(w, c, q);
}

/* A cut that a strap bridges: its own shear, and under what was locked in its
 * bending. */
NS_CLONES void ns_check_strapped(struct ns_work *w, int c, bool locked) {
  if (w->shape->cut[c].kind == NS_SEVER) return;
  if (locked) net_bending(w, c, &w->demand[c]);
  net_shear(w, c, &w->demand[c]);
  notch_shear(w, c, &w->demand[c]);
}
