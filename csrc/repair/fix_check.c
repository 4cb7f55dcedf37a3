/* SPDX-License-Identifier: MIT
 * fix_check.c - the checks of what a repair adds: the new member, its groups
 * of fasteners, the wood they press on, a strap and the wood above it. */
#include "check/check.h"
#include "nds/fasteners.h"
#include "nds/joint.h"
#include "repair/repair.h"

/* The standard of a review. */
static const struct ns_standard *standard(const struct ns_work *w) {
  return w->standard;
}

/* The worst of a row of offers, with the place it stands at. */
struct worst {
  ns_lane demand, ratio, at, combo, which;
};

/* Nothing offered yet. */
NS_INLINE void no_worst(struct worst *o) {
  memset(o, 0, sizeof *o);
  ns_fill(o->ratio, -1);
}

/* Whether what is offered may be the worst in any lane: no need to divide
 * where it is less by more than rounding. */
NS_INLINE bool may_be_worst(const struct worst *o,
                            const double *restrict demand,
                            const double *restrict cap) {
  const double *restrict ratio = o->ratio;
  ns_lane may;
  LANES(i) {
    const double least = ratio[i] * cap[i];
    const bool more = demand[i] > least - 1e-15 * ns_abs(least);
    may[i] = more | !(cap[i] > 0) ? 1 : 0;
  }
  return ns_any(may);
}

/* Keeps the worst of what is offered; of places that differ by rounding alone
 * the first. */
NS_INLINE void take(struct worst *o, const double *demand, const double *cap,
                    const double *at, int combo, int which) {
  if (!may_be_worst(o, demand, cap)) return;
  LANES(i) {
    const bool some = cap[i] > 0;
    const double none = demand[i] > 0 ? NS_NO_CAPACITY : 0;
    const double q = some ? demand[i] / (some ? cap[i] : 1) : none;
    const bool more = q > o->ratio[i] * (1 + 1e-12);
    o->ratio[i] = more ? q : o->ratio[i];
    o->demand[i] = more ? demand[i] : o->demand[i];
    o->at[i] = more ? at[i] : o->at[i];
    o->combo[i] = more ? combo : o->combo[i];
    o->which[i] = more ? which : o->which[i];
  }
}

/* Duration of load in a combination: of a connection no more than it counts. */
NS_INLINE double duration_of(const struct ns_work *w, enum ns_mode mode,
                             int combo) {
  const struct ns_standard *s = standard(w);
  const bool joint = mode == NS_FASTENERS || mode == NS_WITHDRAWAL;
  return joint ? ns_min(s->CD[combo], s->joint_time) : s->CD[combo];
}

/* A check of a repair from the worst that was found. */
static struct ns_check *start(struct ns_work *w, enum ns_mode mode,
                              enum ns_member member, const struct worst *o) {
  struct ns_check *k = ns_add(w->out, mode, -1, -1);
  k->member = member;
  ns_fill(k->on, 1);
  ns_copy(k->demand, o->demand);
  ns_copy(k->at, o->at);
  ns_copy(k->combo, o->combo);
  ns_fill(k->branch, 1);
  LANES(i) k->rec[NS_R_CD][i] = duration_of(w, mode, (int)o->combo[i]);
  return k;
}

/* Adjusted values of the new member's wood; it is held upright by the joist,
 * and takes the joist's Cr. */
NS_INLINE void new_values(struct ns_work *w, const double *Cr) {
  for (int c = 0; c < standard(w)->combos; c++) {
    struct ns_factors *f = &w->new_Fb[c];
    ns_adjust(w->in.other, w->standard, NS_FB, c, f);
    LANES(i) {
      f->Cr[i] = Cr[i];
      f->value[i] *= Cr[i];
    }
    ns_adjust(w->in.other, w->standard, NS_FV, c, &w->new_Fv[c]);
  }
  ns_adjust(w->in.other, w->standard, NS_FC_PERP, 0, &w->new_perp);
}

/* The stretch between rows that a place x of a plate is on, looked at from one
 * side, and how its moment falls off there: to nothing at the outermost row
 * where no load lies between, else taken as even. */
NS_INLINE bool between_rows(const struct ns_work *w, int i, double x,
                            bool right, double *l_b, double *C_m) {
  const double(*v)[NS_LANES] = (const double(*)[NS_LANES])w->in.fix;
  double a = -1e9, b = 1e9, first = 1e9, last = -1e9;
  for (int l = 0; l < w->shape->fix.stations; l++) {
    const double s = v[NS_F_station + l][i];
    const bool before = right ? s <= x + 1e-9 : s < x - 1e-9;
    first = ns_min(first, s);
    last = ns_max(last, s);
    if (before) a = ns_max(a, s);
    if (!before) b = ns_min(b, s);
  }
  if (a < first || b > last) return false;
  const double from = w->on_new[0][i], to = w->on_new[1][i];
  const bool loaded = (to > from) & (a < to) & (b > from);
  *l_b = b - a;
  *C_m = !loaded && (a <= first) != (b >= last) ? NS_MOMENT_TO_NOTHING : 1;
  return true;
}

/* Bending stress that a steel plate reaches at x before it yields or buckles
 * between its rows, the lesser of both sides. */
NS_INLINE double plate_stress(const struct ns_work *w, int i, double x,
                              double *l_b, double *C_m) {
  const double(*v)[NS_LANES] = (const double(*)[NS_LANES])w->in.fix;
  const double Fy = v[NS_F_Fy][i], E = v[NS_F_E][i], d = v[NS_F_d][i];
  const double t = v[NS_F_t][i] > 0 ? v[NS_F_t][i] : v[NS_F_b][i];
  double F = ns_plate_on_edge(Fy, E, t, d, 0, 1);
  *l_b = 0;
  *C_m = 1;
  for (int right = 0; right < 2; right++) {
    double l, C;
    if (!between_rows(w, i, x, right, &l, &C)) continue;
    const double here = ns_plate_on_edge(Fy, E, t, d, l, C);
    if (here < F || *l_b == 0) F = ns_min(F, here), *l_b = l, *C_m = C;
  }
  return F;
}

/* Capacity at a place: of wood the same everywhere, of steel by its rows, in
 * 'cap'. */
NS_INLINE const double *moment_capacity(const struct ns_work *w,
                                        const double *x, const double *wood,
                                        double *restrict cap) {
  const double(*v)[NS_LANES] = (const double(*)[NS_LANES])w->in.fix;
  if (!w->shape->fix.steel) return wood;
  LANES(i) {
    double l_b, C_m;
    const double S = v[NS_F_b][i] * v[NS_F_d][i] * v[NS_F_d][i] / 6;
    cap[i] = ns_plate_bending(plate_stress(w, i, x[i], &l_b, &C_m), S);
  }
  return cap;
}

/* Largest moment, either sign, at the breaks and at the peaks between. */
NS_INLINE void new_moment(const struct ns_work *w, const struct ns_part *o,
                          int combo, const double *wood, struct worst *best) {
  const double g_D = standard(w)->g_D[combo], g_L = standard(w)->g_L[combo];
  const struct ns_beam *s = o->s;
  for (int k = 0; k < s->breaks; k++)
    for (int sign = 0; sign < 2; sign++) {
      const double way = sign ? -1 : 1;
      const bool right = k < s->breaks - 1;
      ns_lane M, own;
      const double *cap = moment_capacity(w, s->x[k], wood, own);
      LANES(i)
        M[i] = ns_max(way * (g_D * o->M[k][i] +
                             g_L * o->table->side[right][k].M[sign][i]),
                      0);
      take(best, M, cap, s->x[k], combo, sign);
      if (!right || !o->table->peaks[combo][sign][k]) continue;
      const double *restrict has = o->table->has_peak[combo][sign][k];
      const double *restrict peak = o->table->peak[combo][sign][k];
      LANES(i) {
        const double here = has[i] != 0 ? way * peak[i] : 0;
        M[i] = ns_max(here, 0);
      }
      cap = moment_capacity(w, o->table->peak_at[combo][sign][k], wood, own);
      take(best, M, cap, o->table->peak_at[combo][sign][k], combo, sign);
    }
}

/* Worst shear of a member at break k: both sides, live load both ways. */
NS_INLINE void largest_shear(const struct ns_part *o, double g_D, double g_L,
                             int k, double *restrict V) {
  const struct ns_envelope *l = &o->table->side[0][k];
  const struct ns_envelope *r = &o->table->side[1][k];
  const double *restrict DL = o->VL[k], *restrict DR = o->VR[k];
  const double *restrict l0 = l->V[0], *restrict l1 = l->V[1];
  const double *restrict r0 = r->V[0], *restrict r1 = r->V[1];
  LANES(i) {
    const double a = g_D * DL[i], b = g_D * DR[i];
    const double left =
        ns_max(ns_abs(a + g_L * l0[i]), ns_abs(a + g_L * l1[i]));
    const double right =
        ns_max(ns_abs(b + g_L * r0[i]), ns_abs(b + g_L * r1[i]));
    V[i] = ns_max(left, right);
  }
}

/* Worst shear of the new member in a combination. */
NS_INLINE void new_shear(const struct ns_work *w, const struct ns_part *o,
                         int combo, const double *cap, struct worst *best) {
  const double g_D = standard(w)->g_D[combo], g_L = standard(w)->g_L[combo];
  for (int k = 0; k < o->s->breaks; k++) {
    ns_lane V;
    largest_shear(o, g_D, g_L, k, V);
    take(best, V, cap, o->s->x[k], combo, 0);
  }
}

/* Numbers of the new member behind a check. */
NS_INLINE void note_new(struct ns_work *w, struct ns_check *k) {
  double(*v)[NS_LANES] = w->in.fix;
  LANES(i) {
    const double b = v[NS_F_b][i], d = v[NS_F_d][i];
    k->rec[NS_R_b][i] = b;
    k->rec[NS_R_d][i] = d;
    k->rec[NS_R_S][i] = b * d * d / 6;
    k->rec[NS_R_A][i] = b * d;
    k->rec[NS_R_F_y][i] = v[NS_F_Fy][i];
    k->rec[NS_R_M][i] = k->rec[NS_R_V][i] = k->demand[i];
  }
}

/* Numbers of a plate that may buckle. */
NS_INLINE void note_buckling(struct ns_work *w, struct ns_check *k) {
  double(*v)[NS_LANES] = w->in.fix;
  LANES(i) {
    k->rec[NS_R_t][i] = v[NS_F_t][i] > 0 ? v[NS_F_t][i] : v[NS_F_b][i];
    k->rec[NS_R_F_a][i] = plate_stress(w, i, k->at[i], &k->rec[NS_R_l_u][i],
                                       &k->rec[NS_R_C_m][i]);
  }
}

/* The new member as a beam: M <= F_b' S, V <= 2/3 F_v' b d, the reaction in
 * full; of a steel plate on its edge M <= F_n S/Omega, V <= 0.6 F_y A/Omega. */
NS_INLINE void new_stress(struct ns_work *w, const struct ns_part *o,
                          bool bend) {
  const enum ns_member member = w->shape->fix.member;
  double(*v)[NS_LANES] = w->in.fix;
  const bool metal = w->shape->fix.steel;
  struct worst best;
  no_worst(&best);
  for (int c = 0; c < standard(w)->combos; c++) {
    ns_lane cap;
    LANES(i) {
      const double b = v[NS_F_b][i], d = v[NS_F_d][i], Fy = v[NS_F_Fy][i];
      const double S = b * d * d / 6;
      const double F_b = w->new_Fb[c].value[i], F_v = w->new_Fv[c].value[i];
      const double wood =
          bend ? ns_bending_strength(F_b, S) : ns_shear_strength(F_v, b, d);
      const double plate =
          bend ? ns_plate_bending(Fy, S) : ns_plate_shear(Fy, b, d);
      cap[i] = metal ? plate : wood;
    }
    if (bend)
      new_moment(w, o, c, cap, &best);
    else
      new_shear(w, o, c, cap, &best);
  }
  const enum ns_mode mode = metal ? NS_STEEL : bend ? NS_BENDING : NS_SHEAR;
  struct ns_check *k = start(w, mode, member, &best);
  note_new(w, k);
  if (metal) {
    ns_fill(k->branch, bend ? 2 : 3);
    if (bend) note_buckling(w, k);
    ns_joint(k);
    return;
  }
  ns_record_factors(k, bend ? w->new_Fb : w->new_Fv, 1, standard(w)->combos,
                    NULL);
  const int row = bend ? NS_J_Fb : NS_J_Fv;
  LANES(i) {
    const double b = v[NS_F_b][i], d = v[NS_F_d][i], S = b * d * d / 6;
    k->branch[i] = bend ? 1 : 2;
    k->rec[NS_R_F][i] = w->in.other[row][i];
    k->rec[NS_R_f_b][i] = k->demand[i] / S;
    k->capacity[i] = bend ? ns_bending_strength(k->rec[NS_R_F_a][i], S)
                          : ns_shear_strength(k->rec[NS_R_F_a][i], b, d);
    k->ratio[i] = ns_min(best.ratio[i], NS_NO_CAPACITY);
  }
}

/* Own reaction of a new member that bears on the support at its end: most and
 * least of all combinations, and the one of the most; of two with one answer
 * the later counts. */
NS_INLINE void new_reaction(const struct ns_work *w, const struct ns_part *o,
                            int end, double *restrict most,
                            double *restrict least, double *restrict most_in) {
  const struct ns_standard *std = standard(w);
  const double *x = w->in.fix[end ? NS_F_to : NS_F_from];
  ns_fill(most, 0);
  ns_fill(least, 0);
  ns_fill(most_in, std->all);
  for (int k = 0; k < o->s->breaks; k++)
    for (int c = 0; c < std->combos; c++) {
      const double g_D = std->g_D[c], g_L = std->g_L[c];
      const struct ns_envelope *e = &o->table->side[!end][k];
      LANES(i) {
        const double D = end ? -o->VL[k][i] : o->VR[k][i];
        const double hi = g_D * D + g_L * (end ? -e->V[1][i] : e->V[0][i]);
        const double lo = g_D * D + g_L * (end ? -e->V[0][i] : e->V[1][i]);
        const bool here = o->s->x[k][i] == x[i];
        const bool on = here & (!end | ns_new_place(o->s, k, i));
        const bool more = on & ((c == 0) | (hi >= most[i]));
        most[i] = more ? hi : most[i];
        most_in[i] = more ? c : most_in[i];
        least[i] = on & ((c == 0) | (lo < least[i])) ? lo : least[i];
      }
    }
}

/* The bearing length is that of the joist's support at that end. */
NS_INLINE void new_bearing(struct ns_work *w, const struct ns_part *o,
                           int end) {
  struct ns_fix_result *f = &w->out->fix;
  const double *x = w->in.fix[end ? NS_F_to : NS_F_from];
  ns_lane l_b, cap, on, Cb, R, most_in;
  new_reaction(w, o, end, f->R[end][0], f->R[end][1], most_in);
  ns_fill(l_b, 0);
  for (int j = 0; j <= o->s->spans; j++)
    LANES(i) {
      const bool here = o->s->support[j][i] == x[i];
      l_b[i] = here ? w->in.joist[NS_J_bearing + j][i] : l_b[i];
    }
  struct ns_check *k = ns_add(w->out, NS_BEARING, -1, -1);
  k->member = w->shape->fix.member;
  LANES(i) {
    Cb[i] = 1;
    cap[i] = ns_bearing_strength(w->new_perp.value[i], 1, w->in.fix[NS_F_b][i],
                                 l_b[i]);
    on[i] = w->in.other[NS_J_Fc_perp][i] > 0 ? 1 : 0;
    R[i] = ns_max(f->R[end][0][i], 0);
  }
  ns_offer(k, on, R, cap, x, 0, 1);
  ns_copy(k->combo, most_in);
  ns_record_factors(k, &w->new_perp, 0, standard(w)->combos, NULL);
  LANES(i) {
    k->rec[NS_R_R][i] = k->demand[i];
    k->rec[NS_R_l_b][i] = l_b[i];
    k->rec[NS_R_Cb][i] = Cb[i];
    k->rec[NS_R_b][i] = w->in.fix[NS_F_b][i];
    k->rec[NS_R_F][i] = w->in.other[NS_J_Fc_perp][i];
  }
}

/* What must hold the new member's end down: shown, as for the joist. */
NS_INLINE void new_uplift(struct ns_work *w, int end) {
  const struct ns_fix_result *f = &w->out->fix;
  struct ns_check *k = ns_add(w->out, NS_UPLIFT, -1, -1);
  k->member = w->shape->fix.member;
  LANES(i) {
    const double R = f->R[end][1][i];
    k->on[i] = R < -1e-6 ? 1 : 0;
    k->demand[i] = k->on[i] != 0 ? -R : 0;
    k->at[i] = w->in.fix[end ? NS_F_to : NS_F_from][i];
    k->combo[i] = standard(w)->all;
    k->branch[i] = 1;
    k->rec[NS_R_R][i] = k->demand[i];
  }
}

/* Bending, shear and bearing of the new member. */
NS_CLONES void ns_check_new(struct ns_work *w, const struct ns_part *o,
                            const double *Cr) {
  new_values(w, Cr);
  new_stress(w, o, true);
  new_stress(w, o, false);
  for (int end = 0; end < 2; end++)
    if (w->shape->fix.bears[end]) {
      new_bearing(w, o, end);
      new_uplift(w, end);
    }
}

/* Shear of the joist over b x d, no load left out. */
NS_INLINE void host_shear(struct ns_work *w, const struct worst *o, int cut,
                          const double *b, const double *d) {
  struct ns_check *k = start(w, NS_HOST_SHEAR, NS_HOST, o);
  k->cut = cut;
  ns_record_factors(k, w->Fv, 1, standard(w)->combos, NULL);
  LANES(i) {
    k->branch[i] = 2;
    k->rec[NS_R_V][i] = k->demand[i];
    k->rec[NS_R_b][i] = b[i];
    k->rec[NS_R_d][i] = d[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fv][i];
  }
  ns_joint(k);
}

/* Whether break k is at a place, in any lane. */
NS_INLINE bool stands_at(const struct ns_beam *s, int k, const double *at,
                         double *restrict here) {
  LANES(i) here[i] = s->x[k][i] == at[i] ? 1 : 0;
  return ns_any(here);
}

/* Shear of the joist where the new member's fasteners push it about: away from
 * the bearings it can be larger than at them. In full, no load left out. */
NS_CLONES void ns_check_between(struct ns_work *w, const struct ns_part *o) {
  double(*v)[NS_LANES] = w->in.fix;
  struct worst best;
  no_worst(&best);
  for (int c = 0; c < standard(w)->combos; c++) {
    const double g_D = standard(w)->g_D[c], g_L = standard(w)->g_L[c];
    ns_lane cap;
    LANES(i)
      cap[i] = ns_shear_strength(w->Fv[c].value[i], w->width[i], w->depth[i]);
    for (int l = 0; l < w->shape->fix.stations; l++) {
      for (int k = w->row_of[l][0]; k <= w->row_of[l][1]; k++) {
        ns_lane here;
        if (!stands_at(o->s, k, v[NS_F_station + l], here)) continue;
        ns_lane V;
        largest_shear(o, g_D, g_L, k, V);
        LANES(i) V[i] = here[i] != 0 ? V[i] : 0;
        take(&best, V, cap, v[NS_F_station + l], c, l);
      }
    }
  }
  host_shear(w, &best, -1, w->width, w->depth);
}

/* Force of station l one way, whether it has one in any lane. */
NS_INLINE bool pushed(const struct ns_work *w, int l, int way, int c,
                      double *restrict G) {
  const struct ns_fix_result *f = &w->out->fix;
  const double g_D = standard(w)->g_D[c], g_L = standard(w)->g_L[c];
  const double *restrict tie = w->fixed.tie[0][l], *restrict hi = f->G[l][0];
  const double *restrict lo = f->G[l][1];
  ns_lane some;
  LANES(i) {
    const double D = tie[i];
    const double most = g_L * hi[i] - g_D * D, least = g_L * lo[i] - g_D * D;
    const double one = way ? -least : most;
    G[i] = ns_max(one, 0);
    some[i] = one > 0 ? 1 : 0;
  }
  return ns_any(some);
}

/* Where it has one, the shear V of the member on either side of it: several
 * columns near each other are one connection. */
NS_INLINE void beside(const double *restrict V, double *restrict G) {
  LANES(i) {
    const double more = ns_max(G[i], V[i]);
    G[i] = G[i] > 1e-6 ? more : G[i];
  }
}

/* Shear of a member beside station l, the worst of both sides. */
NS_INLINE void shear_beside(const struct ns_work *w, const struct ns_part *o,
                            int l, int c, double *restrict most) {
  const double g_D = standard(w)->g_D[c], g_L = standard(w)->g_L[c];
  ns_fill(most, 0);
  if (!o) return;
  for (int k = w->row_of[l][0]; k <= w->row_of[l][1]; k++) {
    ns_lane here;
    if (!stands_at(o->s, k, w->in.fix[NS_F_station + l], here)) continue;
    for (int n = 0; n < 4; n++) {
      const struct ns_envelope *e = &o->table->side[n > 1][k];
      const double *restrict D = n > 1 ? o->VR[k] : o->VL[k];
      const double *restrict L = e->V[n & 1];
      LANES(i) {
        const double V = ns_abs(g_D * D[i] + g_L * L[i]);
        const double beside = here[i] != 0 ? V : 0;
        most[i] = ns_max(most[i], beside);
      }
    }
  }
}

/* Thickness of the joist that its fasteners reach: a ply that none goes
 * through takes nothing across the grain there. */
NS_INLINE double reached(const struct ns_work *w, int i) {
  const double most = w->in.fix[NS_F_reached][i], all = w->width[i];
  return most > 0 ? ns_min(most, all) : all;
}

/* What a connection leaves: d_e from the loaded edge to the far fastener, of
 * the joist the wood that is there (edge of a notch, openings out), and whether
 * an end of the member, a face of the gap too, is within 5d. */
struct crossing {
  ns_lane x, d_e, near, capacity;
};

/* What the connection at station l leaves of a member, loaded one way. */
NS_CLONES static void find_crossing(const struct ns_work *w, int c, int l,
                                    int way, bool second, struct crossing *o) {
  const double(*v)[NS_LANES] = (const double(*)[NS_LANES])w->in.fix;
  static const ns_lane none = {0};
  /* way 0: down on the new member, up on the joist. */
  const bool down = (way == 0) == second;
  const double *restrict rise = second ? v[NS_F_rise] : none;
  const double *restrict d = second ? v[NS_F_d] : w->depth;
  const double *restrict b = second ? v[NS_F_b] : w->width;
  const double *restrict most = second ? none : v[NS_F_reached];
  const double *restrict edge = down ? v[NS_F_high + l] : v[NS_F_low + l];
  const double *restrict wood =
      second ? none : v[(down ? NS_F_bottom : NS_F_top) + l];
  const double *restrict lost = second ? none : v[NS_F_lost + l];
  const double *restrict x = v[NS_F_station + l];
  const double *restrict a0 = second ? v[NS_F_from] : w->start;
  const double *restrict a1 = second ? v[NS_F_to] : w->end;
  const double *restrict face0 = w->gap[0], *restrict face1 = w->gap[1];
  const double *restrict Fv = second ? w->new_Fv[c].value : w->Fv[c].value;
  const double off = w->fixed.gap && !second ? 0 : 1e9;
  const double turned = down ? 1 : -1, whole = second && !down ? 1 : 0;
  double *restrict to_x = o->x, *restrict to_d = o->d_e;
  double *restrict to_near = o->near, *restrict cap = o->capacity;
  LANES(i) {
    const double reach =
        ns_min(ns_min(x[i] - a0[i], a1[i] - x[i]),
               ns_min(ns_abs(x[i] - face0[i]), ns_abs(x[i] - face1[i])) + off);
    const double from = wood[i] + whole * d[i];
    const double reached = turned * (edge[i] - rise[i] - from) - lost[i];
    const double d_e = ns_min(ns_max(reached, 0), d[i]);
    const bool near = ns_near_end(reach, d[i]), part = most[i] > 0;
    const double thick = part & (most[i] < b[i]) ? most[i] : b[i];
    to_x[i] = x[i];
    to_d[i] = d_e;
    to_near[i] = near ? 1 : 0;
    cap[i] = ns_connection_shear(Fv[i], thick, d[i], d_e, near);
  }
}

/* Shear across the grain of the joist or of the new member, V <= 2/3 F_v' b d_e
 * (d_e/d)^2 or without the square: the worst connection. */
NS_INLINE void across_grain(struct ns_work *w, const struct ns_part *o,
                            bool second) {
  const struct ns_shape *s = w->shape;
  double(*v)[NS_LANES] = w->in.fix;
  struct worst best;
  struct crossing at, worst = {0};
  no_worst(&best);
  for (int c = 0; c < standard(w)->combos; c++)
    for (int l = 0; l < s->fix.stations; l++) {
      ns_lane V;
      bool known = false;
      for (int way = 0; way < 2; way++) {
        ns_lane G, was;
        const bool some = pushed(w, l, way, c, G);
        if (!some && c + l + way > 0) continue; /* nil is no more than any */
        if (!known) shear_beside(w, o, l, c, V);
        known = true;
        beside(V, G);
        find_crossing(w, c, l, way, second, &at);
        ns_copy(was, best.ratio);
        take(&best, G, at.capacity, at.x, c, l);
        LANES(i) {
          const bool took = best.ratio[i] != was[i];
          worst.d_e[i] = took ? at.d_e[i] : worst.d_e[i];
          worst.near[i] = took ? at.near[i] : worst.near[i];
        }
      }
    }
  struct ns_check *k =
      start(w, NS_CONNECTION_SHEAR, second ? s->fix.member : NS_HOST, &best);
  ns_record_factors(k, second ? w->new_Fv : w->Fv, 1, standard(w)->combos,
                    NULL);
  LANES(i) {
    k->branch[i] = worst.near[i] != 0 ? 1 : 2;
    k->rec[NS_R_G][i] = k->demand[i];
    k->rec[NS_R_d_e][i] = worst.d_e[i];
    k->rec[NS_R_d][i] = second ? v[NS_F_d][i] : w->depth[i];
    k->rec[NS_R_b][i] = second ? v[NS_F_b][i] : reached(w, i);
    k->rec[NS_R_F][i] =
        second ? w->in.other[NS_J_Fv][i] : w->in.joist[NS_J_Fv][i];
  }
  ns_joint(k);
}

/* Forces of the stations: live load where it hurts, in full, dead apart. */
NS_INLINE void station_forces(struct ns_work *w) {
  const struct ns_beam *m = &w->fixed;
  struct ns_fix_result *f = &w->out->fix;
  for (int l = 0; l < m->stations; l++) {
    ns_lane most, least;
    if (m->by_units)
      LANES(i) {
        const struct ns_unit_severed *u = &w->unit_fixed;
        most[i] = u->G[l][0][i] * u->live[i] + 0.0;
        least[i] = u->G[l][1][i] * u->live[i] + 0.0;
      }
    else if (m->severed)
      ns_severed_range(&w->influence, l, most, least);
    else
      ns_influence_range(&w->influence, &w->influence.station[l], most, least);
    LANES(i) {
      f->G[l][0][i] = -least[i];
      f->G[l][1][i] = -most[i];
      f->G[l][2][i] = -(m->tie[1][l][i] + m->tie[2][l][i]);
    }
  }
}

/* What is reported of them: the combination with all loads. */
NS_INLINE void all_loads(struct ns_work *w) {
  const int c = standard(w)->all;
  const double g_D = standard(w)->g_D[c], g_L = standard(w)->g_L[c];
  struct ns_fix_result *f = &w->out->fix;
  for (int l = 0; l < w->fixed.stations; l++)
    for (int n = 0; n < 3; n++)
      LANES(i)
        f->G[l][n][i] = g_L * f->G[l][n][i] - g_D * w->fixed.tie[0][l][i];
}

/* Force of the worst group against its fasteners, G <= n Z'; lb. */
NS_INLINE void group_strength(struct ns_work *w) {
  const struct ns_shape *s = w->shape;
  double(*v)[NS_LANES] = w->in.fix;
  const struct ns_fix_result *f = &w->out->fix;
  struct worst best;
  no_worst(&best);
  for (int c = 0; c < standard(w)->combos; c++) {
    const double g_D = standard(w)->g_D[c], g_L = standard(w)->g_L[c];
    const double CD = ns_min(standard(w)->CD[c], standard(w)->joint_time);
    for (int l = 0; l < s->fix.stations; l++) {
      ns_lane G, cap;
      LANES(i) {
        const double D = -w->fixed.tie[0][l][i] * g_D;
        const double hi = ns_abs(D + g_L * f->G[l][0][i]);
        const double lo = ns_abs(D + g_L * f->G[l][1][i]);
        const bool rated = v[NS_F_rated][i] != 0;
        const double Z = v[NS_F_Z][i], C = v[NS_F_C_z][i];
        const double one = rated ? Z : ns_connection_strength(Z, CD, C);
        G[i] = ns_max(hi, lo);
        cap[i] = v[NS_F_count + l][i] * one;
      }
      take(&best, G, cap, v[NS_F_station + l], c, l);
    }
  }
  struct ns_check *k = start(w, NS_FASTENERS, s->fix.member, &best);
  LANES(i) {
    k->branch[i] = v[NS_F_rated][i] != 0 ? 2 : 1;
    k->rec[NS_R_G][i] = k->demand[i];
    k->rec[NS_R_Z][i] = v[NS_F_Z][i];
    k->rec[NS_R_C_z][i] = v[NS_F_C_z][i];
    k->rec[NS_R_n_f][i] = v[NS_F_count + (int)best.which[i]][i];
  }
  ns_joint(k);
}

/* The lines on the workspace are those of the two tied.
 * 'host' and 'new' as their fasteners slip, or null where they share by
 * stiffness. */
NS_CLONES void ns_check_stations(struct ns_work *w, const struct ns_part *host,
                                 const struct ns_part *new_) {
  if (w->shape->fix.stations == 0) return;
  station_forces(w);
  group_strength(w);
  across_grain(w, host, false);
  if (w->shape->fix.member == NS_SISTER) across_grain(w, new_, true);
  all_loads(w);
}

/* Stress of the wood above the cut: what is locked in by its own net section,
 * what the strap balances on top. Held to the lesser of Fb' with Cr = 1 and
 * Fc' (short: held by the deck). Branch 6 a zone shallower than that wood, 7
 * all of it pressed. */
NS_INLINE void pressed(struct ns_work *w, const struct ns_demand *q,
                       const struct ns_demand *locked) {
  const int cut = w->shape->fix.cut;
  const struct ns_fix_result *f = &w->out->fix;
  struct worst best;
  no_worst(&best);
  for (int c = 0; c < standard(w)->combos; c++) {
    ns_lane stress, cap, at;
    LANES(i) {
      const struct ns_factors *Fb = &w->Fb[c][0];
      const double T = q->M[c][0][i] / f->z[i];
      const double S = ns_max(w->section[cut].least[i], 1e-9);
      const double alone = locked->M[c][0][i] > 0 ? locked->M[c][0][i] / S : 0;
      const double Fc = w->Fc[c].value[i];
      const double one = Fb->value[i] / Fb->Cr[i];
      stress[i] = T * f->f_c[i] + alone;
      cap[i] = Fc > 0 ? ns_min(one, Fc) : one;
      at[i] = (q->a[i] + q->b[i]) / 2;
    }
    take(&best, stress, cap, at, c, 0);
  }
  struct ns_check *k = start(w, NS_WOOD_COMPRESSION, NS_HOST, &best);
  k->cut = cut;
  LANES(i) {
    const int c = (int)best.combo[i];
    const struct ns_factors *Fb = &w->Fb[c][0];
    const double Fc = w->Fc[c].value[i], one = Fb->value[i] / Fb->Cr[i];
    const double S = ns_max(w->section[cut].least[i], 1e-9);
    k->branch[i] = w->steel[0][i] != 0 ? 7 : 6;
    k->rec[NS_R_M][i] = q->M[c][0][i];
    k->rec[NS_R_T][i] = q->M[c][0][i] / f->z[i];
    k->rec[NS_R_z][i] = f->z[i];
    k->rec[NS_R_c][i] = f->c[i];
    k->rec[NS_R_b][i] = w->section[cut].b[i];
    k->rec[NS_R_d_r][i] = w->steel[1][i];
    k->rec[NS_R_f_b][i] = locked->M[c][0][i] > 0 ? locked->M[c][0][i] / S : 0;
    k->rec[NS_R_f_c][i] = k->demand[i];
    k->rec[NS_R_F_a][i] = Fc > 0 ? ns_min(one, Fc) : one;
  }
  ns_joint(k);
}

/* Shear in the wood above the cut alone. */
NS_INLINE void shear_above(struct ns_work *w) {
  const int cut = w->shape->fix.cut;
  const struct ns_demand *q = &w->demand[cut];
  struct worst best;
  no_worst(&best);
  for (int c = 0; c < standard(w)->combos; c++) {
    ns_lane cap;
    LANES(i)
      cap[i] = ns_shear_strength(w->Fv[c].value[i], w->section[cut].b[i],
                                 w->steel[1][i]);
    take(&best, q->V[c], cap, q->V_at[c], c, 0);
  }
  host_shear(w, &best, cut, w->section[cut].b, w->steel[1]);
}

/* T = M / z; steel and one side's fasteners each take all of it. */
NS_CLONES void ns_check_strap(struct ns_work *w, const struct ns_demand *q,
                              const struct ns_demand *locked) {
  struct ns_fix_result *f = &w->out->fix;
  double(*v)[NS_LANES] = w->in.fix;
  const int cut = w->shape->fix.cut, combos = standard(w)->combos;
  struct worst steel, group;
  no_worst(&steel);
  no_worst(&group);
  for (int c = 0; c < combos; c++) {
    const double CD = ns_min(standard(w)->CD[c], standard(w)->joint_time);
    ns_lane T, cap;
    LANES(i) T[i] = q->M[c][0][i] / f->z[i];
    take(&steel, T, v[NS_F_P_s], q->M_at[c][0], c, 0);
    LANES(i) {
      const double Z = v[NS_F_Z][i], C = v[NS_F_C_z][i];
      const double one =
          v[NS_F_rated][i] != 0 ? Z : ns_connection_strength(Z, CD, C);
      cap[i] = v[NS_F_count][i] * one;
    }
    take(&group, T, cap, q->M_at[c][0], c, 0);
  }
  LANES(i) f->T[i] = q->M[standard(w)->all][0][i] / f->z[i];
  struct ns_check *k = start(w, NS_STEEL, NS_STRAP, &steel);
  k->cut = cut;
  LANES(i) {
    k->rec[NS_R_T][i] = k->demand[i];
    k->rec[NS_R_P_s][i] = v[NS_F_P_s][i];
  }
  ns_joint(k);
  k = start(w, NS_FASTENERS, NS_STRAP, &group);
  k->cut = cut;
  LANES(i) {
    k->branch[i] = v[NS_F_rated][i] != 0 ? 2 : 1;
    k->rec[NS_R_G][i] = k->demand[i];
    k->rec[NS_R_Z][i] = v[NS_F_Z][i];
    k->rec[NS_R_C_z][i] = v[NS_F_C_z][i];
    k->rec[NS_R_n_f][i] = v[NS_F_count][i];
  }
  ns_joint(k);
  pressed(w, q, locked);
  if (w->shape->cut[cut].kind != NS_SEVER) shear_above(w);
  LANES(i) f->f_c[i] *= f->T[i];
}
