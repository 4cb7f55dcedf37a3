/* SPDX-License-Identifier: MIT
 * cut_check.c - bending and shear at one cut.
 *
 * Cuts that were merged are checked once, under the first of them. Checks that
 * no lane of a block has are left out of it. */
#include "check/cut_check.h"
#include "cuts/cuts.h"

NS_INLINE void note_net_bending(const struct ns_work *w, int c,
                                const double *k_n, const double *plain,
                                struct ns_check *k) {
  const struct ns_section *o = &w->section[c];
  ns_lane second;
  LANES(i) second[i] = k->branch[i] > 3 ? 1 : 0;
  ns_record_factors(k, &w->Fb[0][0], 2, w->standard->combos, second);
  note_section(k, o);
  LANES(i) {
    const double M = k->demand[i] * o->least[i] / k_n[i];
    k->rec[NS_R_M][i] = M;
    k->rec[NS_R_k_n][i] = k_n[i];
    k->rec[NS_R_f_bot][i] = o->S_b[i] > 0 ? M / o->S_b[i] : 0;
    k->rec[NS_R_f_top][i] = o->S_t[i] > 0 ? M / o->S_t[i] : 0;
    k->rec[NS_R_f_b][i] = k->demand[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fb][i];
  }
  ns_record_hogging(w, &w->hog_cut[c], second, plain, k);
}

/* M < 0 at the cut: the pattern that uses up the most by its own free edge,
 * and not less than the most of any placing of live load at CL = 1. */
NS_INLINE void offer_net_hogging(const struct ns_work *w, int c,
                                 const struct ns_demand *q, const double *k_n,
                                 int combo, struct ns_check *k,
                                 double *restrict plain) {
  const struct ns_hog *h = &w->hog_cut[c];
  const double *restrict least = w->section[c].least;
  const double *restrict M = q->M[combo][1], *restrict at = q->M_at[combo][1];
  const double *restrict M_p = h->M[combo], *restrict at_p = h->at[combo];
  const double *restrict CL = h->CL[combo], *restrict star = w->star[combo];
  LANES(i) {
    const bool on = q->leader[i] != 0;
    const double f_p = k_n[i] * edge_stress(M_p[i], least[i]);
    const double f = k_n[i] * edge_stress(M[i], least[i]);
    const bool p = ns_offer_lane(k, i, on & (M_p[i] > 0), f_p, star[i] * CL[i],
                                 at_p[i], combo, 4);
    const bool all =
        ns_offer_lane(k, i, on & (M[i] > 0), f, star[i], at[i], combo, 4);
    plain[i] = all ? 1 : p ? 0 : plain[i];
  }
}

/* Stress at the worst edge of the net section: f_b = K_n M/S_min <= F_b', S_min
 * the least modulus of any opening within, K_n what is set on a notch in the
 * tension face. Branch 1 bottom edge, 2 top
 * edge, 3 least of the openings within; 4 to 6 the same for M < 0. */
NS_INLINE void net_bending(struct ns_work *w, int c,
                           const struct ns_demand *q) {
  struct ns_check *k = ns_add(w->out, NS_NET_BENDING, c, -1);
  const struct ns_section *o = &w->section[c];
  const double *restrict raiser = w->in.joist[NS_J_notch_raiser];
  const double *restrict least = o->least, *restrict leader = q->leader;
  ns_lane k_n, plain = {0};
  LANES(i) k_n[i] = q->tension_notch[i] != 0 ? raiser[i] : 1;
  for (int combo = 0; combo < w->standard->combos; combo++) {
    const double *restrict M = q->M[combo][0], *restrict at = q->M_at[combo][0];
    const double *restrict Fb = w->Fb[combo][0].value;
    LANES(i) {
      const double f = k_n[i] * edge_stress(M[i], least[i]);
      ns_offer_lane(k, i, leader[i] != 0, f, Fb[i], at[i], combo, 1);
    }
    if (q->hogs[combo]) offer_net_hogging(w, c, q, k_n, combo, k, plain);
  }
  if (w->records) note_net_bending(w, c, k_n, plain, k);
  LANES(i) {
    const double S = ns_min(o->S_b[i], o->S_t[i]);
    const bool inner = least[i] < S * (1 - 1e-12);
    const bool top = o->S_t[i] < o->S_b[i] * (1 - 1e-9);
    k->branch[i] += inner ? 2 : top ? 1 : 0;
  }
  nothing_left(k, q, q->leader, 7);
}

NS_INLINE void note_shear(struct ns_work *w, struct ns_check *k) {
  ns_record_factors(k, w->Fv, 1, w->standard->combos, NULL);
  LANES(i) {
    k->rec[NS_R_V][i] = k->demand[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fv][i];
  }
  ns_record_cracks(k);
}

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

/* Shear of an opening, a loss or a split; of a notch too where its tearing is
 * held to a value of its own. Branch 1 the net area, 2 a chord
 * with its share of V by h^3, 3 the same as far as the opening is long. V in
 * full: what may be left out near a bearing is for whole wood. */
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

/* What a notch leaves: depth, length past the face of a bearing, the part of
 * V that it counts for and how (the branch of its check). */
struct notch {
  ns_lane d_n, e, part, branch;
  ns_lane x; /* from the support to its far edge, where that is read */
  ns_lane slope;
};

/* V <= 2/3 F_v' A, A by the face that is notched. Branch 1: tension face, A = b
 * d_n (d_n/d)^2; 2: compression face at an end, A = b (d - (d - d_n) e/d_n), e
 * <= d_n; 3: compression face elsewhere, or e over d_n: A = b d_n; 4: a tension
 * face whose end slopes 1 in 10 or flatter: A = b d_n. */
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
  const double *restrict x = o->x;
  from_support(w, c, o->x);
  LANES(i) {
    const bool left = g->ends[0][i] != 0, right = g->ends[1][i] != 0;
    const double d = depth[i], d_n = n->h_b[i] + n->h_m[i] + n->h_t[i];
    const bool in_tension = q->tension_notch[i] != 0;
    const bool alone = notch & (g->merged[i] == 0);
    const bool tapered = alone & ns_flat_end(taper[i]);
    const double slope = alone ? taper[i] : 0;
    const double from_left = g->w2[i] - (start[i] + first[i]);
    const double from_right = end[i] - last[i] - g->w1[i];
    const double past = left ? from_left : right ? from_right : 0;
    const double e = ns_max(past, 0), some = ns_max(d_n, 1e-9);
    const double squared = ns_notch_area(b[i], d, some, x[i], slope);
    const double sloped = ns_notch_area_at_bearing(b[i], d, some, e);
    const bool near = (left | right) & (e <= d_n);
    const double plain = in_tension | !near ? b[i] * d_n : sloped;
    const double flat = near ? 2 : 3, face = tapered ? 4 : 1;
    o->d_n[i] = d_n;
    o->e[i] = NS_NOTCH_FRACTURE & in_tension ? x[i] : e;
    o->part[i] = in_tension & !tapered ? squared : plain;
    o->slope[i] = slope;
    o->branch[i] = in_tension ? face : flat;
  }
}

#if NS_NOTCH_FRACTURE
/* The value that a notch in tension tears at, its factors, K_N; branch 1. */
NS_INLINE void note_fracture(struct ns_work *w, struct ns_check *k) {
  for (int c = 0; c < w->standard->combos; c++) {
    const struct ns_factors *f = &w->Ff[c];
    for (int i = 0; i < NS_LANES; i++) {
      if (k->combo[i] != c || k->branch[i] != 1) continue;
      k->rec[NS_R_h_mm][i] = w->depth[i] * 25.4;
      k->rec[NS_R_alpha][i] = k->rec[NS_R_d_n][i] / w->depth[i];
      k->rec[NS_R_CM][i] = f->CM[i];
      k->rec[NS_R_CF][i] = f->CF[i];
      k->rec[NS_R_F_a][i] = f->value[i];
      k->rec[NS_R_F][i] = f->value[i] / (f->CD[i] * f->CM[i] * f->CF[i] *
                                         f->Ci[i] * f->Cr[i] * f->K[i]);
      k->rec[NS_R_k_n][i] = ns_notch_factor(
          k->rec[NS_R_d][i], k->rec[NS_R_d_n][i], k->rec[NS_R_e][i]);
    }
  }
}
#endif

NS_INLINE void note_notch(struct ns_work *w, const struct ns_section *o,
                          const struct notch *n, struct ns_check *k) {
  note_section(k, o);
  note_shear(w, k);
  ns_copy(k->rec[NS_R_d], w->depth);
  ns_copy(k->rec[NS_R_d_n], n->d_n);
  ns_copy(k->rec[NS_R_e], n->e);
#if NS_NOTCH_BY_PLACE == 1
  ns_copy(k->rec[NS_R_x], n->x);
  LANES(i) {
    const double whole = ns_shear_strength(k->rec[NS_R_F_a][i], o->b[i],
                                           ns_max(n->d_n[i], 1e-9));
    k->rec[NS_R_i_s][i] = n->slope[i];
    k->rec[NS_R_alpha][i] = n->d_n[i] / w->depth[i];
    k->rec[NS_R_h_mm][i] = w->depth[i] * 25.4;
    k->rec[NS_R_k_v][i] = k->capacity[i] / whole;
    k->rec[NS_R_tau_d][i] *= k->rec[NS_R_k_v][i];
  }
#endif
#if NS_NOTCH_FRACTURE
  note_fracture(w, k);
#endif
}

NS_INLINE void notch_shear(struct ns_work *w, int c,
                           const struct ns_demand *q) {
  struct notch n;
  ns_lane on;
  LANES(i) {
    const bool notched = (q->below[i] != 0) | (q->above[i] != 0);
    const bool torn = !NS_NOTCH_FRACTURE | (q->tension_notch[i] != 0);
    on[i] = (q->leader[i] != 0) & notched & torn ? 1 : 0;
  }
  if (!ns_any(on)) return;
  struct ns_check *k = ns_add(w->out, NS_NOTCH_SHEAR, c, -1);
  notch_of(w, c, q, &n);
  for (int combo = 0; combo < w->standard->combos; combo++) {
    const double *restrict V = q->V[combo], *restrict at = q->V_at[combo];
    const double *restrict Fv = w->Fv[combo].value;
    const double *restrict Ff = w->Ff[combo].value;
    LANES(i) {
      const double cap =
          ns_notch_strength(Fv[i], Ff[i], n.part[i], n.branch[i] == 1);
      ns_offer_lane(k, i, on[i] != 0, V[i], cap, at[i], combo, 1);
    }
  }
  ns_copy(k->branch, n.branch);
  if (w->records) note_notch(w, &w->section[c], &n, k);
  nothing_left(k, q, on, 5);
}

/* What the chords read of M < 0: Fb' by the CL that, with the most of any
 * placing of live load at the cut, is the governing pattern's M / CL. */
NS_INLINE void cut_values(struct ns_work *w, int c, const struct ns_demand *q,
                          struct ns_factors *f) {
  const struct ns_hog *h = &w->hog_cut[c];
  for (int combo = 0; combo < w->standard->combos; combo++) {
    ns_copy(f[combo].CL, w->Fb[combo][1].CL);
    ns_copy(f[combo].value, w->Fb[combo][1].value);
    LANES(i) {
      const double M = q->M[combo][1][i], part = h->M[combo][i];
      const double used = part / h->CL[combo][i];
      const double CL = used > M ? M / used : 1;
      w->Fb[combo][1].CL[i] = CL;
      w->Fb[combo][1].value[i] = w->star[combo][i] * CL;
    }
  }
}

/* What a loss leaves by a bearing: branch 1 the tension face gone,
 * (a); 2 the compression face, (e), e its length past the face of the bearing;
 * 3 that where e is over d_n: d_n alone. */
NS_INLINE void worn_of(const struct ns_work *w, int c, int j, bool hogs,
                       struct notch *o) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  const struct ns_section *restrict n = &w->section[c];
  const double *restrict l_b = w->in.joist[NS_J_bearing + j];
  const double *restrict x = w->uncut.support[j], *restrict depth = w->depth;
  const double *restrict bottom = w->in.cut[c][NS_C_bottom];
  const double *restrict top = w->in.cut[c][NS_C_top];
  LANES(i) {
    const double d = depth[i], d_n = ns_max(n->H[i], 1e-9);
    const double right = g->x2[i] - (x[i] + l_b[i] / 2);
    const double left = x[i] - l_b[i] / 2 - g->x1[i];
    const double e = ns_max(ns_max(right, left), 0);
    const bool in_tension = hogs ? top[i] > 0 : bottom[i] > 0;
    const bool near = e <= d_n;
    const double sloped = ns_notch_area_at_bearing(n->b[i], d, d_n, e);
    const double flat = near ? sloped : n->b[i] * d_n;
    o->d_n[i] = d_n;
    o->e[i] = e;
    const double line = ns_max(g->x2[i] - x[i], x[i] - g->x1[i]);
    const double far = NS_NOTCH_BY_PLACE > 1 ? e : line;
    o->x[i] = far;
    o->part[i] = in_tension ? ns_notch_area(n->b[i], d, d_n, far, 0) : flat;
    o->branch[i] = in_tension ? 1 : near ? 2 : 3;
  }
}

/* A loss by a bearing is a notch there, V at the support in
 * full, each side of an inner one its own: beside a new member that of the
 * joist's own part. Where M < 0 over the bearing the
 * top is in tension. */
NS_INLINE void worn_shear(struct ns_work *w, int c, const struct ns_demand *q) {
  const struct ns_beam *s = q->s;
  const struct ns_table *t = q->t;
  struct notch n, now;
  if (!ns_hollow_end(w, c)) return;
  struct ns_check *k = ns_add(w->out, NS_NOTCH_SHEAR, c, -1);
  memset(&n, 0, sizeof n);
  for (int j = 0; j <= s->spans; j++) {
    const bool inner = (j > 0 || s->left) && (j < s->spans || s->right);
    const double *restrict near = w->near[c][j], *restrict x = s->support[j];
    worn_of(w, c, j, inner, &now);
    for (int combo = 0; combo < w->standard->combos; combo++) {
      const double gD = w->standard->g_D[combo], gL = w->standard->g_L[combo];
      const double *restrict Fv = w->Fv[combo].value;
      const double *restrict Ff = w->Ff[combo].value;
      for (int right = 0; right < 2; right++) {
        const double way = right ? 1 : -1;
        const double *restrict V_D = t->V_D[right][j];
        const double *restrict V_L = t->support[right][j].V[!right];
        LANES(i) {
          const double V = ns_max(way * (gD * V_D[i] + gL * V_L[i]), 0);
          const bool on = (near[i] != 0) & (q->leader[i] != 0);
          const double cap =
              ns_notch_strength(Fv[i], Ff[i], now.part[i], now.branch[i] == 1);
          const bool take =
              ns_offer_lane(k, i, on, V, cap, x[i], combo, (int)now.branch[i]);
          n.d_n[i] = take ? now.d_n[i] : n.d_n[i];
          n.e[i] = take ? now.e[i] : n.e[i];
          n.x[i] = take ? now.x[i] : n.x[i];
        }
      }
    }
  }
  if (w->records) note_notch(w, &w->section[c], &n, k);
}

NS_CLONES void ns_check_cut(struct ns_work *w, int c) {
  const struct ns_demand *q = &w->demand[c];
  const enum ns_kind kind = w->shape->cut[c].kind;
  const int first = w->out->checks;
  struct ns_factors own[NS_MAX_COMBOS];
  bool hogs = false;
  if (kind == NS_SEVER) return;
  net_bending(w, c, q);
  net_shear(w, c, q);
  if (kind == NS_LOSS) worn_shear(w, c, q);
  if (kind == NS_LOSS || kind == NS_SPLIT) return;
  notch_shear(w, c, q);
  for (int k = 0; k < w->standard->combos; k++) hogs |= q->hogs[k];
  if (hogs) cut_values(w, c, q, own);
  ns_check_chords(w, c, q, first);
  for (int k = 0; hogs && k < w->standard->combos; k++) {
    ns_copy(w->Fb[k][1].CL, own[k].CL);
    ns_copy(w->Fb[k][1].value, own[k].value);
  }
}

/* A cut that a strap bridges: its own shear, and under what was locked in its
 * bending. */
NS_CLONES void ns_check_strapped(struct ns_work *w, int c, bool locked) {
  if (w->shape->cut[c].kind == NS_SEVER) return;
  if (locked) net_bending(w, c, &w->demand[c]);
  net_shear(w, c, &w->demand[c]);
  notch_shear(w, c, &w->demand[c]);
}
