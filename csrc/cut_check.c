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
  const struct ns_cut_geometry *g = &w->cut[c];
  const struct ns_section *o = &w->section[c];
  const struct ns_shape *s = w->shape;
  const bool box = s->cut[c].kind <= NS_END_NOTCH;
  const bool hole = s->cut[c].kind == NS_HOLE;
  const double *first = w->uncut.x[0], *last = w->uncut.x[w->uncut.breaks - 1];
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
}

NS_INLINE void take_moment(struct ns_demand *q, int c, int sign,
                           const double *in, const double *M, const double *x) {
  const double way = sign ? -1 : 1;
  LANES(i) {
    const bool more = (in[i] != 0) & (way * M[i] > q->M[c][sign][i]);
    q->M[c][sign][i] = more ? way * M[i] : q->M[c][sign][i];
    q->M_at[c][sign][i] = more ? x[i] : q->M_at[c][sign][i];
  }
}

NS_INLINE void take_shear(struct ns_demand *q, int c, const double *in,
                          const double *V, const double *x, bool live) {
  LANES(i) {
    const bool on = in[i] != 0;
    const double size = ns_abs(V[i]);
    const bool more = on & (size > q->V[c][i]);
    q->V[c][i] = more ? size : q->V[c][i];
    q->V_at[c][i] = more ? x[i] : q->V_at[c][i];
    q->V_most[i] = live & on & (V[i] > q->V_most[i]) ? V[i] : q->V_most[i];
    q->V_least[i] = live & on & (V[i] < q->V_least[i]) ? V[i] : q->V_least[i];
  }
}

NS_INLINE void find_demand(const struct ns_work *w, const struct ns_beam *s,
                           const struct ns_table *t, int combo,
                           struct ns_demand *q) {
  const double g_D = w->standard->g_D[combo], g_L = w->standard->g_L[combo];
  const bool live = g_L > 0;
  for (int k = 0; k < s->breaks; k++) {
    const double *x = s->x[k];
    ns_lane in, left, right, v;
    LANES(i) {
      const bool point = q->a[i] == q->b[i];
      const bool at = (x[i] >= q->a[i]) & (x[i] <= q->b[i]);
      in[i] = at ? 1 : 0;
      left[i] = at & ((x[i] > q->a[i]) | point) ? 1 : 0;
      right[i] = at & ((x[i] < q->b[i]) | point) ? 1 : 0;
    }
    if (!ns_any(in)) continue;
    const struct ns_envelope *L = &t->side[0][k], *R = &t->side[1][k];
    const struct ns_envelope *E = k < s->breaks - 1 ? R : L;
    for (int sign = 0; sign < 2; sign++) {
      LANES(i) v[i] = g_D * s->M[0][k][i] + g_L * E->M[sign][i];
      take_moment(q, combo, sign, in, v, x);
      LANES(i) v[i] = g_D * s->VL[0][k][i] + g_L * L->V[sign][i];
      take_shear(q, combo, left, v, x, live);
      LANES(i) v[i] = g_D * s->VR[0][k][i] + g_L * R->V[sign][i];
      take_shear(q, combo, right, v, x, live);
    }
    if (k == s->breaks - 1) break;
    for (int sign = 0; sign < 2; sign++) {
      LANES(i)
        in[i] = (t->has_peak[combo][sign][k][i] != 0) & (x[i] >= q->a[i]) &
                        (s->x[k + 1][i] <= q->b[i])
                    ? 1
                    : 0;
      take_moment(q, combo, sign, in, t->peak[combo][sign][k],
                  t->peak_at[combo][sign][k]);
    }
  }
}

/* Where nothing is left that counts, the check says so in a branch of its
 * own, and its ratio is that of no capacity. */
NS_INLINE void nothing_left(struct ns_check *k, const struct ns_demand *q,
                            const double *applies, int branch) {
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
  LANES(i) {
    const bool left = g->ends[0][i] != 0, right = g->ends[1][i] != 0;
    double sag = 0, hog = 0;
    for (int k = 0; k < w->standard->combos; k++) {
      sag = ns_max(sag, q->M[k][0][i]);
      hog = ns_max(hog, q->M[k][1][i]);
    }
    const double up = left ? q->V_most[i] : right ? -q->V_least[i] : sag;
    const double down = left ? -q->V_least[i] : right ? q->V_most[i] : hog;
    q->torn[0][i] = ns_max(up, sag) > 1e-6 ? 1 : 0;
    q->torn[1][i] = ns_max(down, hog) > 1e-6 ? 1 : 0;
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
NS_INLINE double edge_stress(const struct ns_section *o, double M, int i) {
  const double S = o->least[i];
  return S > 0 ? M / S : M > 0 ? 1e9 : 0;
}

/* Stress at the worst edge of the net section. Branch 1 bottom edge, 2 top
 * edge, 3 least of the openings within; 4 to 6 the same for M < 0. */
NS_INLINE void net_bending(struct ns_work *w, int c,
                           const struct ns_demand *q) {
  struct ns_check *k = ns_add(w->out, NS_NET_BENDING, c, -1);
  const struct ns_section *o = &w->section[c];
  ns_lane f, k_n, on, second;
  for (int combo = 0; combo < w->standard->combos; combo++)
    for (int sign = 0; sign < 2; sign++) {
      LANES(i) {
        const bool torn = ((q->below[i] != 0) & (q->torn[0][i] != 0)) |
                          ((q->above[i] != 0) & (q->torn[1][i] != 0));
        const double M = q->M[combo][sign][i];
        k_n[i] = torn ? w->in.joist[NS_J_notch_raiser][i] : 1;
        f[i] = k_n[i] * edge_stress(o, M, i);
        on[i] = (q->voice[i] != 0) & ((sign == 0) | (M > 0)) ? 1 : 0;
      }
      ns_offer(k, on, f, w->Fb[combo][sign].value, q->M_at[combo][sign], combo,
               1 + 3 * sign);
    }
  LANES(i) second[i] = k->branch[i] > 3 ? 1 : 0;
  ns_note_factors(k, &w->Fb[0][0], 2, w->standard->combos, second);
  note_section(k, o);
  LANES(i) {
    const double S = ns_min(o->S_b[i], o->S_t[i]);
    const bool inner = o->least[i] < S * (1 - 1e-12);
    const bool top = o->S_t[i] < o->S_b[i] * (1 - 1e-9);
    k->branch[i] += inner ? 2 : top ? 1 : 0;
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
  nothing_left(k, q, q->voice, 7);
}

NS_INLINE void note_shear(struct ns_work *w, struct ns_check *k) {
  ns_note_factors(k, w->Fv, 1, w->standard->combos, NULL);
  LANES(i) {
    k->rec[NS_R_V][i] = k->demand[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fv][i];
  }
}

/* Shear of an opening, a loss or a split. Branch 1 the net area, 2 a chord
 * with its share of V by h^3. At a loss the load within d of a bearing may be
 * left out, as it may where the wood is whole. */
NS_INLINE void net_shear(struct ns_work *w, int c, const struct ns_demand *q) {
  struct ns_check *k = ns_add(w->out, NS_NET_SHEAR, c, -1);
  const struct ns_section *o = &w->section[c];
  const enum ns_kind kind = w->shape->cut[c].kind;
  ns_lane on, V, cap;
  LANES(i)
    on[i] =
        (q->voice[i] != 0) & ((q->open[i] != 0) | (kind > NS_SEVER)) ? 1 : 0;
  for (int combo = 0; combo < w->standard->combos; combo++) {
    LANES(i) {
      const double most = q->V[combo][i];
      V[i] = kind == NS_LOSS ? ns_min(most, w->V_d[combo][i]) : most;
      cap[i] = 2.0 / 3 * w->Fv[combo].value[i] * o->A_v[i];
    }
    ns_offer(k, on, V, cap, q->V_at[combo], combo, 1);
  }
  note_section(k, o);
  note_shear(w, k);
  LANES(i) {
    k->branch[i] += o->h_v[i] > 0 ? 1 : 0;
    k->rec[NS_R_h][i] = o->h_v[i];
    k->rec[NS_R_sum_h3][i] = o->h3[i];
  }
  nothing_left(k, q, on, 3);
}

/* NDS 3.4.3.2. Branch 1: tension face, V' = 2/3 Fv' b d_n (d_n/d)^2; 2:
 * compression face at an end, V' = 2/3 Fv' b (d - (d - d_n) e / d_n), e <=
 * d_n; 3: compression face elsewhere, or e over d_n: d_n counts alone; 4: a
 * tension face whose end slopes 1 in 10 or flatter: d_n counts alone. */
NS_INLINE void notch_shear(struct ns_work *w, int c,
                           const struct ns_demand *q) {
  const struct ns_cut_geometry *g = &w->cut[c];
  const struct ns_section *o = &w->section[c];
  const enum ns_kind kind = w->shape->cut[c].kind;
  const bool notch = kind == NS_NOTCH || kind == NS_END_NOTCH;
  const double *first = w->in.joist[NS_J_bearing];
  const double *last = w->in.joist[NS_J_bearing + w->shape->spans];
  ns_lane on, cap, branch, e, d_n;
  LANES(i)
    on[i] =
        (q->voice[i] != 0) & ((q->below[i] != 0) | (q->above[i] != 0)) ? 1 : 0;
  if (!ns_any(on)) return;
  struct ns_check *k = ns_add(w->out, NS_NOTCH_SHEAR, c, -1);
  for (int combo = 0; combo < w->standard->combos; combo++) {
    LANES(i) {
      const bool left = g->ends[0][i] != 0, right = g->ends[1][i] != 0;
      const double b = o->b[i], d = w->depth[i];
      const bool torn = ((q->below[i] != 0) & (q->torn[0][i] != 0)) |
                        ((q->above[i] != 0) & (q->torn[1][i] != 0));
      const bool tapered =
          notch & (w->in.cut[c][NS_C_taper][i] >= 10) & (g->merged[i] == 0);
      const double v = 2.0 / 3 * w->Fv[combo].value[i] * b;
      const double past = left    ? g->g2[i] - (w->start[i] + first[i])
                          : right ? w->end[i] - last[i] - g->g1[i]
                                  : 0;
      d_n[i] = o->h_b[i] + o->h_m[i] + o->h_t[i];
      e[i] = ns_max(past, 0);
      const double n = ns_max(d_n[i], 1e-9), r = d_n[i] / d;
      const double squared = v * n * r * r;
      const double sloped = v * (d - (d - d_n[i]) / n * e[i]);
      const bool near = (left | right) & (e[i] <= d_n[i]);
      cap[i] = torn & !tapered ? squared : !torn & near ? sloped : v * d_n[i];
      branch[i] = torn ? (tapered ? 4 : 1) : near ? 2 : 3;
    }
    ns_offer(k, on, q->V[combo], cap, q->V_at[combo], combo, 1);
  }
  note_section(k, o);
  note_shear(w, k);
  LANES(i) {
    k->branch[i] = branch[i];
    k->rec[NS_R_d][i] = w->depth[i];
    k->rec[NS_R_d_n][i] = d_n[i];
    k->rec[NS_R_e][i] = e[i];
  }
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

NS_INLINE double frame_stress(const struct ns_section *o, double V, double a,
                              int i) {
  const double sum = o->b[i] * chord_cubes(o, i);
  return sum > 0 ? 3 * V * a * deeper_chord(o, i) / sum : 0;
}

NS_INLINE void opening_frame(struct ns_work *w, int c,
                             const struct ns_demand *q) {
  const struct ns_cut_geometry *g = &w->cut[c];
  const struct ns_section *o = &w->section[c];
  ns_lane on, some, f, second;
  LANES(i)
    on[i] = (q->voice[i] != 0) & (q->open[i] != 0) & (g->slot[i] != 0) &
                    ((o->c_b[i] > 0) | (q->gone[i] != 0))
                ? 1
                : 0;
  if (!ns_any(on)) return;
  struct ns_check *k = ns_add(w->out, NS_OPENING_FRAME, c, -1);
  for (int combo = 0; combo < w->standard->combos; combo++)
    for (int sign = 0; sign < 2; sign++) {
      LANES(i) {
        const double M = q->M[combo][sign][i];
        const double a = g->g2[i] - g->g1[i];
        f[i] = edge_stress(o, M, i) + frame_stress(o, q->V[combo][i], a, i);
        some[i] = (on[i] != 0) & ((sign == 0) | (M > 0)) ? 1 : 0;
      }
      ns_offer(k, some, f, w->Fb[combo][sign].value, q->M_at[combo][sign],
               combo, 1 + sign);
    }
  LANES(i) second[i] = k->branch[i] > 1 ? 1 : 0;
  ns_note_factors(k, &w->Fb[0][0], 2, w->standard->combos, second);
  note_section(k, o);
  LANES(i) {
    double V = 0;
    for (int combo = 0; combo < w->standard->combos; combo++)
      V = k->combo[i] == combo ? q->V[combo][i] : V;
    const double a = g->g2[i] - g->g1[i], f_2 = frame_stress(o, V, a, i);
    k->rec[NS_R_V][i] = V;
    k->rec[NS_R_a][i] = a;
    k->rec[NS_R_h][i] = deeper_chord(o, i);
    k->rec[NS_R_sum_h3][i] = chord_cubes(o, i);
    k->rec[NS_R_f_2][i] = f_2;
    k->rec[NS_R_M][i] = (k->demand[i] - f_2) * o->least[i];
    k->rec[NS_R_f_b][i] = k->demand[i] - f_2;
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fb][i];
  }
  nothing_left(k, q, on, 3);
}

/* The two chords of an opening under the sign of M that governs. One deeper
 * than half the joist takes in its axis: it is the beam, not a tie or a strut,
 * and its edge is checked by net bending. */
struct chord {
  ns_lane on, binding, a, h, y, I, z, bend;
};

NS_INLINE void chord_of(const struct ns_work *w, int c,
                        const struct ns_demand *q, bool top, struct chord *o) {
  const struct ns_cut_geometry *g = &w->cut[c];
  const struct ns_section *n = &w->section[c];
  LANES(i) {
    const double h = top ? n->c_t[i] : n->c_b[i];
    const bool lost = (top ? n->gone_t[i] : n->gone_b[i]) != 0;
    const bool two = (h > 0) & (h < n->H[i] / 2);
    o->on[i] = (q->voice[i] != 0) & (q->open[i] != 0) & two ? 1 : 0;
    const bool lip = lost | (h < w->depth[i] / 4 - 1e-9);
    o->binding[i] = (g->slot[i] != 0) | lip ? 1 : 0;
    o->a[i] = g->slot[i] != 0 ? g->g2[i] - g->g1[i] : 0;
    o->h[i] = h;
    o->y[i] = n->lip_y[top][i];
    o->I[i] = ns_max(n->lip_I[top][i], 1e-9);
    o->z[i] = n->H[i] - (n->c_b[i] + n->c_t[i]) / 2;
    o->bend[i] = frame_stress(n, 1, o->a[i], i);
  }
}

/* NDS 3.9.1 on the chord in tension: f_t/F_t' + f_b/F_b* <= 1. Branch 1 the
 * lower chord, 2 the upper. */
NS_INLINE void lip_tension(struct ns_work *w, int c,
                           const struct ns_demand *q) {
  struct ns_check *k = ns_add(w->out, NS_LIP_TENSION, c, -1);
  struct chord o[2];
  ns_lane r, one, on;
  ns_fill(one, 1);
  for (int sign = 0; sign < 2; sign++) {
    chord_of(w, c, q, sign, &o[sign]);
    for (int combo = 0; combo < w->standard->combos; combo++) {
      const struct ns_factors *Fb = &w->Fb[combo][sign];
      LANES(i) {
        const double M = q->M[combo][sign][i], V = q->V[combo][i];
        const double f_t = M * (o[sign].y[i] - o[sign].h[i] / 2) / o[sign].I[i];
        const double f_b =
            M * o[sign].h[i] / 2 / o[sign].I[i] + V * o[sign].bend[i];
        const double Ft = ns_max(w->Ft[combo].value[i], 1e-9);
        r[i] = f_t / Ft + f_b / (Fb->value[i] / Fb->CL[i]);
        on[i] = (o[sign].on[i] != 0) & (w->in.joist[NS_J_Ft][i] > 0) &
                        ((sign == 0) | (M > 0))
                    ? 1
                    : 0;
      }
      ns_offer(k, on, r, one, q->M_at[combo][sign], combo, 1 + sign);
    }
  }
  ns_note_factors(k, w->Ft, 1, w->standard->combos, NULL);
  LANES(i) {
    const int sign = k->branch[i] > 1;
    const int combo = (int)k->combo[i];
    const struct chord *n = &o[sign];
    const struct ns_factors *Fb = &w->Fb[combo][sign];
    const double M = q->M[combo][sign][i], V = q->V[combo][i];
    k->binding[i] = n->binding[i];
    k->rec[NS_R_M][i] = M;
    k->rec[NS_R_V][i] = V;
    k->rec[NS_R_b][i] = w->section[c].b[i];
    k->rec[NS_R_a][i] = n->a[i];
    k->rec[NS_R_h][i] = n->h[i];
    k->rec[NS_R_h_b][i] = w->section[c].h_b[i];
    k->rec[NS_R_h_t][i] = w->section[c].h_t[i];
    k->rec[NS_R_sum_h3][i] = chord_cubes(&w->section[c], i);
    k->rec[NS_R_z][i] = n->z[i];
    k->rec[NS_R_N][i] = M / n->z[i];
    k->rec[NS_R_y][i] = n->y[i];
    k->rec[NS_R_I][i] = n->I[i];
    k->rec[NS_R_f_t][i] = M * (n->y[i] - n->h[i] / 2) / n->I[i];
    k->rec[NS_R_f_b][i] = M * n->h[i] / 2 / n->I[i];
    k->rec[NS_R_f_2][i] = V * n->bend[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Ft][i];
    k->rec[NS_R_F_2][i] = w->in.joist[NS_J_Fb][i];
    k->rec[NS_R_F_a2][i] = Fb->value[i] / Fb->CL[i];
    k->rec[NS_R_C_2][i] = k->rec[NS_R_F_a2][i] / w->in.joist[NS_J_Fb][i];
    on[i] = (q->open[i] != 0) & (w->in.joist[NS_J_Ft][i] > 0) ? 1 : 0;
  }
  nothing_left(k, q, on, 3);
}

/* NDS 3.7.1.5 with c = 0.8 for sawn lumber. */
NS_INLINE double column_factor(double F_cE, double F_star) {
  const double a = F_cE / ns_max(F_star, 1e-9), p = (1 + a) / 1.6;
  return p - sqrt(ns_max(p * p - a / 0.8, 0));
}

struct squeeze {
  double f_c, f_b, CP, F_c, F_cE, ratio;
};

/* (f_c/F_c')^2 + f_b / (F_b' (1 - f_c/F_cE)); a chord that would buckle has
 * no such sum. */
NS_INLINE void squeeze(const struct ns_work *w, int c, int combo, int sign,
                       const struct ns_demand *q, const struct chord *o, int i,
                       struct squeeze *r) {
  const double M = q->M[combo][sign][i], V = q->V[combo][i];
  const double b = w->section[c].b[i];
  const double least = ns_max(ns_min(o->h[i], b), 1e-9);
  const double slender = o->a[i] / least;
  const double E = w->Emin.value[i], star = w->Fc[combo].value[i];
  r->F_cE = slender > 0 ? 0.822 * E / (slender * slender) : 1e18;
  r->CP = slender > 0 ? column_factor(r->F_cE, star) : 1;
  r->F_c = ns_max(star * r->CP, 1e-9);
  r->f_c = M * (o->y[i] - o->h[i] / 2) / o->I[i];
  r->f_b = M * o->h[i] / 2 / o->I[i] + V * o->bend[i];
  const double left = 1 - r->f_c / r->F_cE;
  const double p = r->f_c / r->F_c;
  const double bend = r->f_b / w->Fb[combo][sign].value[i];
  r->ratio = left > 1e-3 ? p * p + bend / left : NS_NO_CAPACITY;
}

/* NDS 3.9.2 on the chord in compression. Branch 1 the upper chord (M > 0), 2
 * the lower; 3 and 4 the same where the chord would buckle. */
NS_INLINE void chord_compression(struct ns_work *w, int c,
                                 const struct ns_demand *q) {
  struct ns_check *k = ns_add(w->out, NS_WOOD_COMPRESSION, c, -1);
  struct chord o[2];
  ns_lane r, one, on;
  ns_fill(one, 1);
  for (int sign = 0; sign < 2; sign++) {
    chord_of(w, c, q, !sign, &o[sign]);
    for (int combo = 0; combo < w->standard->combos; combo++) {
      LANES(i) {
        struct squeeze n;
        squeeze(w, c, combo, sign, q, &o[sign], i, &n);
        const bool known =
            (w->in.joist[NS_J_Fc][i] > 0) & (w->in.joist[NS_J_Emin][i] > 0);
        r[i] = n.ratio;
        on[i] = (o[sign].on[i] != 0) & known &
                        ((sign == 0) | (q->M[combo][sign][i] > 0))
                    ? 1
                    : 0;
      }
      ns_offer(k, on, r, one, q->M_at[combo][sign], combo, 1 + sign);
    }
  }
  ns_note_factors(k, w->Fc, 1, w->standard->combos, NULL);
  LANES(i) {
    const int sign = k->branch[i] > 1, combo = (int)k->combo[i];
    const struct chord *n = &o[sign];
    struct squeeze v;
    squeeze(w, c, combo, sign, q, n, i, &v);
    k->binding[i] = n->binding[i];
    k->branch[i] += v.f_c >= v.F_cE * (1 - 1e-3) ? 2 : 0;
    k->rec[NS_R_M][i] = q->M[combo][sign][i];
    k->rec[NS_R_V][i] = q->V[combo][i];
    k->rec[NS_R_b][i] = w->section[c].b[i];
    k->rec[NS_R_a][i] = n->a[i];
    k->rec[NS_R_h][i] = n->h[i];
    k->rec[NS_R_sum_h3][i] = chord_cubes(&w->section[c], i);
    k->rec[NS_R_y][i] = n->y[i];
    k->rec[NS_R_I][i] = n->I[i];
    k->rec[NS_R_f_c][i] = v.f_c;
    k->rec[NS_R_f_b][i] = v.f_b - q->V[combo][i] * n->bend[i];
    k->rec[NS_R_f_2][i] = q->V[combo][i] * n->bend[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fc][i];
    k->rec[NS_R_CP][i] = v.CP;
    k->rec[NS_R_F_cE][i] = v.F_cE;
    k->rec[NS_R_F_a][i] = v.F_c;
    k->rec[NS_R_F_2][i] = w->in.joist[NS_J_Fb][i];
    k->rec[NS_R_F_a2][i] = w->Fb[combo][sign].value[i];
    k->rec[NS_R_C_2][i] = w->Fb[combo][sign].value[i] / w->in.joist[NS_J_Fb][i];
    on[i] = (q->open[i] != 0) & (w->in.joist[NS_J_Fc][i] > 0) ? 1 : 0;
  }
  nothing_left(k, q, on, 5);
}

/* Forces at the cut for the report, all loads: worst, and at its middle. */
NS_INLINE void note_forces(struct ns_work *w, const struct ns_beam *s,
                           const struct ns_table *t, int c,
                           const struct ns_demand *q) {
  struct ns_cut_result *o = &w->out->cuts[c];
  const struct ns_standard *std = w->standard;
  const int last = std->combos - 1;
  const double g_D = std->g_D[last], g_L = std->g_L[last];
  LANES(i) {
    o->M[0][i] = q->M[last][0][i];
    o->M[1][i] = -q->M[last][1][i];
    o->V[0][i] = q->V_most[i];
    o->V[1][i] = q->V_least[i];
    o->M_full[i] = o->V_full[i] = o->V_mid[0][i] = o->V_mid[1][i] = 0;
    o->lip[0][i] = o->lip[1][i] = 0;
  }
  for (int k = 0; k < s->breaks - 1; k++)
    LANES(i) {
      const bool at = s->x[k][i] == w->cut[c].xc[i];
      const double live = s->M[1][k][i] + s->M[2][k][i];
      const double V = s->VR[1][k][i] + s->VR[2][k][i];
      o->M_full[i] = at ? g_D * s->M[0][k][i] + g_L * live : o->M_full[i];
      o->V_full[i] = at ? g_D * s->VR[0][k][i] + g_L * V : o->V_full[i];
      for (int g = 0; g < 2; g++)
        o->V_mid[g][i] = at ? g_D * s->VR[0][k][i] + g_L * t->side[1][k].V[g][i]
                            : o->V_mid[g][i];
    }
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
  memset(q, 0, sizeof *q);
  stretch(w, c, q);
  for (int combo = 0; combo < w->standard->combos; combo++)
    find_demand(w, s, t, combo, q);
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

NS_CLONES void ns_check_cut(struct ns_work *w, int c) {
  const struct ns_demand *q = &w->demand[c];
  const enum ns_kind kind = w->shape->cut[c].kind;
  if (kind == NS_SEVER) return;
  net_bending(w, c, q);
  net_shear(w, c, q);
  if (kind == NS_LOSS || kind == NS_SPLIT) return;
  notch_shear(w, c, q);
  opening_frame(w, c, q);
  lip_tension(w, c, q);
  chord_compression(w, c, q);
}

/* A cut that a strap bridges: its own shear, and under what was locked in its
 * bending. */
NS_CLONES void ns_check_strapped(struct ns_work *w, int c, bool locked) {
  if (w->shape->cut[c].kind == NS_SEVER) return;
  if (locked) net_bending(w, c, &w->demand[c]);
  net_shear(w, c, &w->demand[c]);
  notch_shear(w, c, &w->demand[c]);
}
