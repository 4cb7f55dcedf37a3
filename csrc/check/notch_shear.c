/* SPDX-License-Identifier: MIT
 * notch_shear.c - shear at a notch, and at a loss by a bearing, which is one.
 */
#include "check/cut_check.h"
#include "cuts/cuts.h"

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

/* The numbers behind the check: the section, d_n, e, and what the family reads
 * of the notch besides. */
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

/* V <= V' of the area that counts (lb), V in full; branches of notch_of. */
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

/* A loss by its place at a bearing, a notch by its face; splits have none. */
NS_CHECK(notch_shear) {
  if (o->kind == NS_LOSS)
    worn_shear(w, o->at, o->q);
  else if (o->kind != NS_SPLIT)
    notch_shear(w, o->at, o->q);
}
