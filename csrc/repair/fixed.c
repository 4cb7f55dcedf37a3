/* SPDX-License-Identifier: MIT
 * fixed.c - the joist with its repair, as beams.
 *
 * Load comes in two parts. What the joist carried while the repair was
 * fastened stays in it alone: 'locked' is the cut joist under that load - its
 * dead load, or that and the prop which held it. Everything later - live
 * load, a prop taken away, dead load lifted off before - acts on joist and
 * repair together: 'fixed', where a member beside the joist is tied to it at
 * its fasteners, or a strap bridges a cut by a spring. Both parts are added.
 *
 * By stiffness alone ('pair') both bend alike along their whole length, so
 * that each has the part of M that its EI is of both: the usual way for a
 * sister that bears on the same supports. */
#include "check/check.h"
#include "cuts/cuts.h"
#include "repair/repair.h"

/* The first cut that parts the joist, or -1. */
static int severing(const struct ns_shape *s) {
  for (int c = 0; c < s->cuts; c++)
    if (s->cut[c].kind == NS_SEVER) return c;
  return -1;
}

/* Supports, breaks and loads of a beam as those of another. */
static void same_places(const struct ns_beam *from, struct ns_beam *to) {
  to->spans = from->spans;
  to->breaks = from->breaks;
  to->left = from->left;
  to->right = from->right;
  to->hinges = to->stations = to->only = 0;
  to->gap = to->severed = to->by_spans = to->by_units = false;
  to->sprung = false;
  memcpy(to->support, from->support, sizeof to->support);
  memcpy(to->x, from->x, sizeof(ns_lane) * (size_t)from->breaks);
}

/* What start_beam adds at most to the breaks of a joist: ends of the member,
 * the joist's own end at a gap, stations; or three at a strap; and a prop. */
_Static_assert(3 + NS_MAX_STATIONS + 1 <= NS_FIX_BREAKS &&
                   3 + 1 <= NS_FIX_BREAKS &&
                   NS_JOIST_BREAKS + NS_FIX_BREAKS <= NS_MAX_BREAKS,
               "a repair has more breaks than there is room for");

/* A further break. */
static double *add_break(struct ns_beam *m, const double *at) {
  double *x = m->x[m->breaks++];
  ns_copy(x, at);
  return x;
}

/* The beam of a repaired joist before it is tied: breaks of both. */
static void start_beam(const struct ns_work *w, struct ns_beam *m) {
  const struct ns_shape *s = w->shape;
  same_places(&w->after, m);
  const double(*v)[NS_LANES] = (const double(*)[NS_LANES])w->in.fix;
  if (s->fix.kind == NS_BESIDE) {
    add_break(m, v[NS_F_from]);
    add_break(m, v[NS_F_to]);
    /* Once more, so that the joist's own end there is looked at as well. */
    if (severing(s) >= 0) add_break(m, w->on_new[0]);
    for (int l = 0; l < s->fix.stations; l++) add_break(m, v[NS_F_station + l]);
  } else {
    /* No place past the tips: no load stands there. */
    const struct ns_cut_geometry *g = &w->cut[s->fix.cut];
    ns_lane at[3];
    LANES(i) {
      at[0][i] = ns_min(ns_max(g->g1[i], w->tip[0][i]), w->tip[1][i]);
      at[1][i] = ns_min(ns_max(g->g2[i], w->tip[0][i]), w->tip[1][i]);
      at[2][i] = (g->g1[i] + g->g2[i]) / 2;
      at[2][i] = ns_min(ns_max(at[2][i], w->tip[0][i]), w->tip[1][i]);
    }
    for (int k = 0; k < 3; k++) add_break(m, at[k]);
  }
  if (s->fix.lift == NS_PROP) add_break(m, v[NS_F_prop_at]);
  ns_beam_sort(m);
}

/* Faces of the gap, and where load stands on the new member. */
NS_INLINE void find_gap(struct ns_work *w, int sever) {
  const struct ns_shape *s = w->shape;
  for (int e = 0; e < 2; e++) {
    ns_fill(w->gap[e], 0);
    if (sever >= 0) ns_copy(w->gap[e], e ? w->cut[sever].x2 : w->cut[sever].x1);
    ns_copy(w->on_new[e], w->gap[e]);
  }
  if (sever < 0 || !s->fix.between) return;
  LANES(i) {
    w->on_new[0][i] = w->in.fix[NS_F_from][i];
    w->on_new[1][i] = w->in.fix[NS_F_to][i];
  }
  for (int l = 0; l < s->fix.stations; l++) {
    const double *x = w->in.fix[NS_F_station + l];
    LANES(i) {
      const bool left = x[i] <= w->gap[0][i];
      w->on_new[0][i] = left ? ns_max(w->on_new[0][i], x[i]) : w->on_new[0][i];
      w->on_new[1][i] = left ? w->on_new[1][i] : ns_min(w->on_new[1][i], x[i]);
    }
  }
}

/* EI of the new member; lb-in2. */
NS_INLINE double new_EI(const struct ns_work *w, int i) {
  const double(*v)[NS_LANES] = (const double(*)[NS_LANES])w->in.fix;
  const double d = v[NS_F_d][i];
  return v[NS_F_E][i] * v[NS_F_b][i] * d * d * d / 12;
}

/* First and last break where each station is, in any lane. */
static void find_rows(struct ns_work *w, const struct ns_beam *m) {
  for (int l = 0; l < m->stations; l++) {
    int *row = w->row_of[l];
    row[0] = m->breaks;
    row[1] = -1;
    for (int k = 0; k < m->breaks; k++) {
      ns_lane here;
      LANES(i) here[i] = m->x[k][i] == m->station[l][i] ? 1 : 0;
      if (!ns_any(here)) continue;
      if (row[1] < 0) row[0] = k;
      row[1] = k;
    }
  }
}

/* Ties a member beside the joist: stations, gap, what stands on which. */
NS_INLINE void tie_beside(struct ns_work *w, struct ns_beam *m, int sever) {
  const struct ns_shape *s = w->shape;
  double(*v)[NS_LANES] = w->in.fix;
  m->stations = s->fix.stations;
  for (int l = 0; l < m->stations; l++)
    LANES(i) {
      m->station[l][i] = v[NS_F_station + l][i];
      m->station_k[l][i] = v[NS_F_stiff][i] * v[NS_F_count + l][i];
    }
  find_rows(w, m);
  LANES(i) {
    m->second[0][i] = v[NS_F_from][i];
    m->second[1][i] = v[NS_F_to][i];
    m->second_EI[i] = new_EI(w, i);
  }
  m->bears[0] = s->fix.bears[0];
  m->bears[1] = s->fix.bears[1];
  m->gap = sever >= 0;
  if (m->gap) {
    ns_copy(m->slide, w->cut[sever].xc);
    ns_copy(m->hinge[0], w->cut[sever].xc);
    ns_fill(m->hinge_k[0], 0);
    m->hinges = 1;
    m->sprung = false;
  }
  for (int k = 0; k < m->breaks; k++)
    LANES(i) {
      const double x = m->x[k][i];
      const double mid = (x + m->x[k + 1 < m->breaks ? k + 1 : k][i]) / 2;
      const bool on = (mid > w->on_new[0][i]) & (mid < w->on_new[1][i]);
      m->on_new[k][i] = on ? 1 : 0;
    }
}

/* A strap under the cut with no wood in tension: equilibrium of the cracked
 * section. Where the zone in compression would be deeper than the wood above
 * the cut, all of that wood is pressed, the upper edge most. */
NS_INLINE void crack(struct ns_work *w) {
  const int cut = w->shape->fix.cut;
  const struct ns_section *o = &w->section[cut];
  double(*v)[NS_LANES] = w->in.fix;
  struct ns_fix_result *f = &w->out->fix;
  LANES(i) {
    const double d_r = ns_max(o->h_t[i], 1e-3);
    const double b = o->b[i], d_s = w->depth[i] + v[NS_F_below][i];
    const double m_E = v[NS_F_E][i] / w->E.value[i];
    const double nA = m_E * v[NS_F_A_s][i];
    const double shallow = (sqrt(nA * nA + 2 * b * nA * d_s) - nA) / b;
    const bool all = shallow > d_r;
    const double whole = (nA * d_s + b * d_r * d_r / 2) / (nA + b * d_r);
    const double c = all ? whole : shallow;
    const double area = all ? c * d_r - d_r * d_r / 2 : c * c / 2;
    const double first =
        all ? c * d_r * d_r / 2 - d_r * d_r * d_r / 3 : c * c * c / 6;
    const double z = d_s - first / area;
    f->c[i] = c;
    f->z[i] = z;
    f->f_c[i] = c / (b * area); /* for a unit of T */
    w->steel[0][i] = all ? 1 : 0;
    w->steel[1][i] = d_r;
    const double n_k = v[NS_F_stiff][i] * v[NS_F_count][i];
    const double len = w->cut[cut].g2[i] - w->cut[cut].g1[i];
    const double bare = ns_max(v[NS_F_free][i] - len, 0);
    const double give =
        2 / ns_max(n_k, 1e-9) + bare / (v[NS_F_E][i] * v[NS_F_A_s][i]);
    f->turn_k[i] = z * z / give;
  }
}

/* Second moment of the cracked section, in wood, over the cut's length. */
NS_INLINE double cracked_I(const struct ns_work *w, int i) {
  const int cut = w->shape->fix.cut;
  const double(*v)[NS_LANES] = (const double(*)[NS_LANES])w->in.fix;
  const double b = w->section[cut].b[i], c = w->out->fix.c[i];
  const double d_s = w->depth[i] + v[NS_F_below][i];
  const double under = ns_max(c - w->steel[1][i], 0);
  const double wood = b * (c * c * c - under * under * under) / 3;
  const double nA = v[NS_F_E][i] / w->E.value[i] * v[NS_F_A_s][i];
  return wood + nA * (d_s - c) * (d_s - c);
}

/* The cut bends as the cracked section with the slip of its fasteners, or as
 * the wood does by itself where that is stiffer: steel never softens it. */
NS_INLINE void strap_under(struct ns_work *w, struct ns_beam *m) {
  const int cut = w->shape->fix.cut;
  const struct ns_cut_geometry *g = &w->cut[cut];
  const struct ns_fix_result *f = &w->out->fix;
  const bool sever = w->shape->cut[cut].kind == NS_SEVER;
  ns_lane slips;
  LANES(i) {
    const double E = w->E.value[i], len = g->g2[i] - g->g1[i];
    const double wood = ns_max(w->section[cut].I[i], 1e-9);
    const double give = len / (E * cracked_I(w, i)) + 1 / f->turn_k[i];
    slips[i] = sever | (give < len / (E * wood)) ? 1 : 0;
  }
  for (int k = 0; k < m->breaks - 1; k++)
    LANES(i) {
      const double mid = (m->x[k][i] + m->x[k + 1][i]) / 2;
      const bool in = (mid > g->g1[i]) & (mid < g->g2[i]) & (slips[i] != 0);
      m->EI[k][i] = in ? w->E.value[i] * cracked_I(w, i) : m->EI[k][i];
    }
  m->hinges = 1;
  m->sprung = true;
  LANES(i) {
    m->hinge[0][i] = (g->g1[i] + g->g2[i]) / 2;
    m->hinge_k[0][i] = slips[i] != 0 ? f->turn_k[i] : 1e15;
  }
}

/* Puts a load where the prop stands: up while the joist is alone, and the
 * same down on both when it is taken away. */
NS_INLINE void set_prop(const struct ns_work *w, struct ns_beam *m,
                        double way) {
  const double *at = w->in.fix[NS_F_prop_at], *P = w->in.fix[NS_F_prop];
  for (int k = 0; k < m->breaks; k++)
    LANES(i) {
      const bool here = (m->x[k][i] == at[i]) & ns_new_place(m, k, i);
      m->P[0][k][i] += here ? way * P[i] : 0;
    }
}

/* Takes off all load of a kind. */
static void no_load(struct ns_beam *m, int kind) {
  const size_t rows = sizeof(ns_lane) * (size_t)m->breaks;
  memset(m->w[kind], 0, rows);
  memset(m->dw[kind], 0, rows);
  memset(m->P[kind], 0, rows);
}

/* Dead load of what acts composite, and of the joist alone. */
static void part_loads(const struct ns_work *w, struct ns_beam *composite,
                       struct ns_beam *alone) {
  const enum ns_lift lift = w->shape->fix.lift;
  if (lift != NS_UNLOADED) no_load(composite, 0);
  if (lift == NS_PROP) set_prop(w, composite, 1);
  if (!alone) return;
  if (lift == NS_UNLOADED) no_load(alone, 0);
  if (lift == NS_PROP) set_prop(w, alone, -1);
  no_load(alone, 1);
}

/* Adds rows to rows. */
NS_INLINE void add_rows(ns_lane *to, const ns_lane *from, int n) {
  for (int k = 0; k < n; k++) {
    double *restrict row = to[k];
    const double *restrict more = from[k];
    LANES(i) row[i] += more[i];
  }
}

/* Adds what is locked in to the dead case of a beam with the same EI. */
NS_CLONES static void add_locked(const struct ns_work *w, struct ns_beam *m) {
  const struct ns_beam *a = &w->locked;
  const int n = m->breaks;
  add_rows(m->M[0], a->M[0], n);
  add_rows(m->VL[0], a->VL[0], n);
  add_rows(m->VR[0], a->VR[0], n);
  add_rows(m->slope[0], a->slope[0], n);
  add_rows(m->sag[0], a->sag[0], n);
  add_rows(m->w[0], a->w[0], n);
  add_rows(m->dw[0], a->dw[0], n);
  for (int j = 0; j <= m->spans; j++) {
    double *restrict R = m->R[0][j];
    const double *restrict more = a->R[0][j];
    LANES(i) R[i] += more[i];
  }
}

/* The joist's share of each segment where both bend alike. */
NS_INLINE void find_shares(struct ns_work *w) {
  struct ns_beam *p = &w->pair;
  double(*v)[NS_LANES] = w->in.fix;
  const bool all_new = w->shape->fix.share == NS_ALL_NEW;
  LANES(i) {
    const double d = w->depth[i], b = w->width[i], EI = new_EI(w, i);
    const double I = b * (d * d * d / 12);
    w->q_whole[i] = all_new ? 0 : w->E.value[i] * I / (w->E.value[i] * I + EI);
    w->out->fix.share[i] = 1 - w->q_whole[i];
  }
  for (int k = 0; k < p->breaks; k++)
    LANES(i) {
      const double next = p->x[k + 1 < p->breaks ? k + 1 : k][i];
      const double mid = (p->x[k][i] + next) / 2, EI = new_EI(w, i);
      const bool in = (mid >= v[NS_F_from][i]) & (mid <= v[NS_F_to][i]);
      const double old = p->EI[k][i];
      const double both = all_new ? EI : old + EI;
      w->q[k][i] = !in ? 1 : all_new ? 0 : old / both;
      p->EI[k][i] = in ? both : old;
    }
}

/* Deflection of both together over what was there before: moments locked in
 * bent the joist alone, so they count by how much stiffer the pair is. */
static void locked_in_pair(struct ns_work *w) {
  struct ns_beam *p = &w->view[0];
  const struct ns_beam *a = &w->locked;
  for (int k = 0; k < p->breaks; k++)
    LANES(i) {
      const double r = p->EI[k][i] / a->EI[k][i];
      p->M[0][k][i] += r * a->M[0][k][i];
      p->VL[0][k][i] += r * a->VL[0][k][i];
      p->VR[0][k][i] += r * a->VR[0][k][i];
      p->w[0][k][i] += r * a->w[0][k][i];
      p->dw[0][k][i] += r * a->dw[0][k][i];
      p->slope[0][k][i] += a->slope[0][k][i];
      p->sag[0][k][i] += a->sag[0][k][i];
    }
}

/* Takes over EI, loads and forces of a beam as it was solved. */
static void copy_cases(const struct ns_beam *from, struct ns_beam *to) {
  const size_t rows = sizeof(ns_lane) * (size_t)from->breaks;
  same_places(from, to);
  to->unknowns = 0;
  memcpy(to->EI, from->EI, rows);
  memcpy(to->region, from->region, rows);
  memcpy(to->A, from->A, rows);
  memcpy(to->B, from->B, rows);
  for (int c = 0; c < 2; c++) {
    memcpy(to->w[c], from->w[c], rows);
    memcpy(to->dw[c], from->dw[c], rows);
    memcpy(to->P[c], from->P[c], rows);
  }
  for (int c = 0; c < 3; c++) {
    memcpy(to->M[c], from->M[c], rows);
    memcpy(to->VL[c], from->VL[c], rows);
    memcpy(to->VR[c], from->VR[c], rows);
    memcpy(to->slope[c], from->slope[c], rows);
    memcpy(to->sag[c], from->sag[c], rows);
  }
  memcpy(to->R, from->R, sizeof to->R);
}

/* A row of the joist, of the member where the floor lies on it. */
NS_INLINE void floor_row(const double *restrict on,
                         const double *restrict joist,
                         const double *restrict member, double *restrict to) {
  LANES(i) to[i] = on[i] != 0 ? member[i] : joist[i];
}

/* What sags: over the gap the floor lies on the new member. Where the geometry
 * of the two is as it was only forces and loads are others. */
NS_CLONES static void floor_view(const struct ns_beam *f, bool stays,
                                 struct ns_beam *to) {
  if (!stays) copy_cases(f, to);
  for (int k = 0; k < f->breaks; k++) {
    const double *on = f->on_new[k];
    floor_row(on, f->EI[k], f->second_EI, to->EI[k]);
    for (int c = 0; c < 3; c++) {
      floor_row(on, f->M[c][k], f->second_M[c][k], to->M[c][k]);
      floor_row(on, f->VR[c][k], f->second_VR[c][k], to->VR[c][k]);
      floor_row(on, f->slope[c][k], f->second_slope[c][k], to->slope[c][k]);
      floor_row(on, f->sag[c][k], f->second_sag[c][k], to->sag[c][k]);
    }
    for (int c = 0; c < 2 && stays; c++) ns_copy(to->w[c][k], f->w[c][k]);
  }
}

/* A member's part: 'q' of what both carry, or the rest of it, and 'own' times
 * what is locked in the joist. Where the share steps M is another before a
 * break than after it: with 'right' the rows hold M after each break, and the
 * peaks between; else M before it alone. */
NS_INLINE void part_of(const struct ns_work *w, ns_lane *q, bool rest,
                       double own, bool right, struct ns_beam *to,
                       struct ns_table *t) {
  const struct ns_beam *p = &w->pair, *a = &w->locked;
  const struct ns_table *all = &w->as_one;
  ns_lane ends[NS_MAX_BREAKS];
  copy_cases(p, to);
  for (int k = 0; k < p->breaks; k++) {
    const double *before = q[k > 0 ? k - 1 : 0], *after = q[k];
    for (int n = 0; n < 2; n++)
      LANES(i) {
        const double l = rest ? 1 - before[i] : before[i];
        const double r = rest ? 1 - after[i] : after[i];
        const double m = right ? r : l;
        const struct ns_envelope *L = &all->side[0][k], *R = &all->side[1][k];
        t->side[0][k].V[n][i] = l * L->V[n][i];
        t->side[0][k].M[n][i] = l * L->M[n][i];
        t->side[0][k].Vc[n][i] = l * L->Vc[n][i];
        t->side[1][k].V[n][i] = r * R->V[n][i];
        t->side[1][k].M[n][i] = m * R->M[n][i];
        t->side[1][k].Vc[n][i] = r * R->Vc[n][i];
        to->M[0][k][i] = m * p->M[0][k][i] + own * a->M[0][k][i];
        ends[k][i] = l * p->M[0][k][i] + own * a->M[0][k][i];
        to->VL[0][k][i] = l * p->VL[0][k][i] + own * a->VL[0][k][i];
        to->VR[0][k][i] = r * p->VR[0][k][i] + own * a->VR[0][k][i];
      }
  }
  for (int k = 0; k < p->breaks; k++)
    LANES(i) {
      const double r = rest ? 1 - q[k][i] : q[k][i];
      for (int n = 0; n < 2; n++) {
        const double lock = n == 0 ? own : 0;
        to->w[n][k][i] = r * p->w[n][k][i] + lock * a->w[0][k][i];
        to->dw[n][k][i] = r * p->dw[n][k][i] + lock * a->dw[0][k][i];
        to->P[n][k][i] = r * p->P[n][k][i] + lock * a->P[0][k][i];
      }
    }
  ns_complete(to, w->standard, (const ns_lane *)ends, t);
  for (int c = 0; c < w->standard->combos && !right; c++)
    for (int sign = 0; sign < 2; sign++)
      memset(t->has_peak[c][sign], 0, sizeof(ns_lane) * (size_t)p->breaks);
}

/* One share for every segment that both are in. */
static void constant_share(const struct ns_work *w, const double *q,
                           ns_lane *rows) {
  for (int k = 0; k < w->pair.breaks; k++)
    LANES(i) rows[k][i] = w->q[k][i] == 1 ? 1 : q[i];
}

/* Whether a severed joist and its member are worked by unit loads: those of the
 * floor are all there are, and no prop's force. */
static bool halves_by_units(const struct ns_shape *s, int sever) {
  return sever >= 0 && s->fix.kind == NS_BESIDE && s->fix.stations > 0 &&
         s->spans == 1 && !s->left && !s->right && !s->fix.bears[0] &&
         !s->fix.bears[1] && s->fix.lift != NS_PROP && ns_even_loads(s);
}

/* Even loads of both, lb/in: dead on both and on the joist alone, live. */
NS_INLINE void unit_loads(const struct ns_work *w, ns_lane *dead,
                          double *restrict live) {
  const double(*J)[NS_LANES] = (const double(*)[NS_LANES])w->in.joist;
  const bool lifted = w->shape->fix.lift == NS_UNLOADED;
  LANES(i) {
    const double q = J[NS_J_dead][i] * J[NS_J_spacing][i] / 144;
    const double there = J[NS_J_dead_off][i] == 2 ? 0 : q;
    dead[0][i] = lifted ? there : 0;
    dead[1][i] = lifted ? 0 : there;
    live[i] = J[NS_J_live][i] * J[NS_J_spacing][i] / 144;
  }
}

/* Whether a load is upward, or a factor on one negative. */
static bool some_upward(const struct ns_standard *s, const ns_lane *dead,
                        const double *live) {
  ns_lane up;
  LANES(i) up[i] = (dead[0][i] < 0) | (dead[1][i] < 0) | (live[i] < 0) ? 1 : 0;
  bool some = ns_any(up);
  for (int c = 0; c < s->combos; c++) some |= s->g_D[c] < 0 || s->g_L[c] < 0;
  return some;
}

/* Joist and member from what they are under unit loads, which stays where all
 * but loads is as it was. */
static void solve_unit_loads(struct ns_work *w, int sever) {
  struct ns_beam *f = &w->fixed, *a = &w->locked;
  struct ns_unit_severed *u = &w->unit_fixed;
  ns_lane dead[2], live;
  unit_loads(w, dead, live);
  u->upward = some_upward(w->standard, (const ns_lane *)dead, live);
  u->fresh = !w->kept.fixed || u->full || u->upward;
  w->kept.fixed = false;
  if (u->fresh) {
    start_beam(w, f);
    same_places(f, a);
    ns_refit(w, f);
    ns_refit(w, a);
    tie_beside(w, f, sever);
    ns_severed_unit_solve(&w->influence, u, f, a);
  }
  ns_severed_unit_forces(u, (const ns_lane *)dead, live, f, a);
  w->kept.fixed = true;
}

/* Joist and member tied, and the joist alone under what it carried before. */
static void solve_composite(struct ns_work *w, int sever) {
  struct ns_beam *f = &w->fixed, *a = &w->locked;
  if (halves_by_units(w->shape, sever)) {
    solve_unit_loads(w, sever);
    return;
  }
  start_beam(w, f);
  same_places(f, a);
  ns_refit(w, f);
  ns_refit(w, a);
  if (w->shape->fix.kind == NS_BESIDE) {
    tie_beside(w, f, sever);
  } else {
    crack(w);
    strap_under(w, f);
  }
  part_loads(w, f, a);
  if (ns_severed(f))
    ns_severed_solve(&w->influence, f);
  else
    ns_beam_solve(f);
  ns_beam_solve(a);
}

/* Both as one beam that shares by stiffness. */
static void solve_pair(struct ns_work *w) {
  struct ns_beam *p = &w->pair;
  same_places(&w->fixed, p);
  ns_refit(w, p);
  find_shares(w);
  part_loads(w, p, NULL);
  ns_beam_solve(p);
  if (p->unknowns > 0) ns_influence_lay(&w->influence, p);
  ns_tabulate(&w->influence, p, false, w->standard, &w->as_one);
  for (int j = 0; j <= p->spans; j++)
    LANES(i) p->R[0][j][i] += w->locked.R[0][j][i];
}

/* Dead-load sag that the joist had before the repair; in. */
static void dead_sag(const struct ns_work *w) {
  struct ns_fix_result *f = &w->out->fix;
  const struct ns_beam *u = &w->after;
  ns_fill(f->sag_D, 0);
  for (int k = 0; k < u->breaks; k++)
    LANES(i) f->sag_D[i] = ns_max(f->sag_D[i], u->sag[0][k][i]);
}

/* Whether a beam may have M < 0. */
static bool hogging(const struct ns_beam *s) {
  return s->spans > 1 || s->left || s->right;
}

/* The rows of the joist or of the member beside it, for its checks. */
static struct ns_part member_of(const struct ns_beam *s, bool second,
                                const struct ns_table *t) {
  return (struct ns_part){.s = s,
                          .M = second ? s->second_M[0] : s->M[0],
                          .VL = second ? s->second_VL[0] : s->VL[0],
                          .VR = second ? s->second_VR[0] : s->VR[0],
                          .table = t};
}

/* The table of the joist or of the member beside it, their lines laid. */
static void slip_table(struct ns_work *w, bool second, struct ns_table *t) {
  struct ns_beam *f = &w->fixed;
  if (f->by_units)
    ns_severed_unit_table(&w->influence, &w->unit_fixed, f, second, w->standard,
                          t);
  else
    ns_tabulate(&w->influence, f, second, w->standard, t);
}

/* The joist and the member beside it, as their fasteners slip. */
static void by_slip(struct ns_work *w, const double *Cr) {
  struct ns_beam *f = &w->fixed, *sag = &w->view[0];
  const struct ns_shape *s = w->shape;
  ns_influence_lay(&w->influence, f);
  slip_table(w, true, &w->beside);
  add_locked(w, f);
  slip_table(w, false, &w->host);
  floor_view(f, f->by_units && !w->unit_fixed.fresh, sag);
  const struct ns_host host = {f, &w->host, f, &w->host, NULL, sag, NULL, NULL};
  ns_check_host(w, &host, Cr, &w->out->fixed);
  for (int c = 0; c < s->cuts; c++) {
    ns_cut_demand(w, f, &w->host, c, &w->demand[c]);
    ns_check_cut(w, c);
  }
  const struct ns_part first = member_of(f, false, &w->host);
  ns_check_between(w, &first);
  const struct ns_part second = member_of(f, true, &w->beside);
  ns_check_new(w, &second, Cr);
  ns_check_stations(w, &first, &second);
}

/* Of checks made twice, on either side of every place where the share steps,
 * the worse counts. */
static void keep_worse(struct ns_work *w, int first, int n) {
  for (int k = first; k < first + n; k++) {
    struct ns_check *a = &w->out->check[k], *b = &w->out->check[k + n];
    LANES(i) {
      const bool second = b->ratio[i] > a->ratio[i];
      a->on[i] = second ? 0 : a->on[i];
      b->on[i] = second ? b->on[i] : 0;
    }
  }
}

/* The repaired joist by stiffness: members by their share, fasteners by their
 * slip. */
static void by_share(struct ns_work *w, const double *Cr) {
  struct ns_beam *part = &w->view[1];
  const struct ns_shape *s = w->shape;
  ns_lane rows[NS_MAX_BREAKS];
  solve_pair(w);
  copy_cases(&w->pair, &w->view[0]);
  locked_in_pair(w);
  /* At a cut the joist keeps the share that it has beside whole wood: over a
   * few inches between two rows of fasteners it sheds nothing. */
  const double counted = s->fix.share == NS_ALL_NEW ? 0 : 1;
  constant_share(w, w->q_whole, rows);
  part_of(w, rows, false, counted, true, part, &w->part[0]);
  const double *own = hogging(part) ? NULL : w->q_whole;
  const struct ns_host host = {part, &w->part[0], &w->pair, &w->as_one,
                               rows, &w->view[0], own,      &w->locked};
  ns_check_host(w, &host, Cr, &w->out->fixed);
  for (int c = 0; c < s->cuts && counted > 0; c++) {
    ns_cut_demand(w, part, &w->part[0], c, &w->demand[c]);
    ns_check_cut(w, c);
  }
  const bool whole = s->fix.share != NS_BY_STIFFNESS;
  for (int k = 0; k < w->pair.breaks; k++)
    LANES(i) rows[k][i] = whole ? (w->q[k][i] == 1 ? 1 : 0) : w->q[k][i];
  const int first = w->out->checks;
  for (int right = 0; right < 2; right++) {
    part_of(w, rows, true, whole, right, part, &w->part[right]);
    const struct ns_part o = member_of(part, false, &w->part[right]);
    ns_check_new(w, &o, Cr);
  }
  keep_worse(w, first, (w->out->checks - first) / 2);
  if (s->fix.stations > 0) ns_influence_lay(&w->influence, &w->fixed);
  ns_check_stations(w, NULL, NULL);
}

/* A strap: what came after it was fastened is on it, the rest is not. */
static void by_strap(struct ns_work *w, const double *Cr) {
  struct ns_beam *f = &w->fixed;
  const struct ns_shape *s = w->shape;
  struct ns_demand strap, locked;
  if (f->unknowns > 0) ns_influence_lay(&w->influence, f);
  ns_tabulate(&w->influence, f, false, w->standard, &w->host);
  ns_cut_demand(w, f, &w->host, s->fix.cut, &strap);
  ns_no_live(&w->locked, &w->part[0]);
  ns_complete(&w->locked, w->standard, NULL, &w->part[0]);
  ns_cut_demand(w, &w->locked, &w->part[0], s->fix.cut, &locked);
  add_locked(w, f);
  ns_tabulate(&w->influence, f, false, w->standard, &w->host);
  copy_cases(f, &w->view[0]);
  const struct ns_host host = {f,    &w->host,    f,    &w->host,
                               NULL, &w->view[0], NULL, NULL};
  ns_check_host(w, &host, Cr, &w->out->fixed);
  for (int c = 0; c < s->cuts; c++) {
    ns_cut_demand(w, f, &w->host, c, &w->demand[c]);
    if (c != s->fix.cut) ns_check_cut(w, c);
  }
  struct ns_demand *q = &w->demand[s->fix.cut];
  for (int combo = 0; combo < w->standard->combos; combo++)
    for (int sign = 0; sign < 2; sign++)
      ns_copy(q->M[combo][sign], locked.M[combo][sign]);
  memcpy(q->hogs, locked.hogs, sizeof q->hogs);
  ns_no_hogging(&w->hog_cut[s->fix.cut], w->standard->combos);
  ns_check_strapped(w, s->fix.cut, s->fix.lift != NS_UNLOADED);
  ns_check_strap(w, &strap, &locked);
}

/* A member beside a joist that is cut through reaches over the gap, and holds
 * nothing in it. */
static void bridges(struct ns_work *w) {
  const double(*v)[NS_LANES] = (const double(*)[NS_LANES])w->in.fix;
  for (int i = 0; i < NS_LANES; i++) {
    int field = -1;
    for (int l = 0; l < w->shape->fix.stations; l++) {
      const double x = v[NS_F_station + l][i];
      if (x > w->gap[0][i] && x < w->gap[1][i]) field = NS_F_station + l;
    }
    if (v[NS_F_to][i] <= w->gap[1][i]) field = NS_F_to;
    if (v[NS_F_from][i] >= w->gap[0][i]) field = NS_F_from;
    if (field < 0 || w->out->status[i] != NS_OK) continue;
    w->out->status[i] = NS_OUT_OF_RANGE;
    w->out->repair_fails[i] = 1;
    w->out->bad_part[i] = 301;
    w->out->bad_field[i] = field;
  }
}

/* The fixed state. Comes last: the workspace's demands and bending values are
 * its own then, and those of the cut state are kept for drawings. */
void ns_fix(struct ns_work *w, const double *Cr) {
  const struct ns_shape *s = w->shape;
  const int sever = severing(s);
  memcpy(w->Fb_cut, w->Fb, sizeof w->Fb_cut);
  memset(&w->out->fix, 0, sizeof w->out->fix);
  memset(&w->out->fixed, 0, sizeof w->out->fixed);
  if (s->fix.kind == NS_NO_FIX) return;
  dead_sag(w);
  find_gap(w, sever);
  if (sever >= 0 && s->fix.kind == NS_BESIDE) bridges(w);
  ns_fill(w->severed, 0);
  solve_composite(w, sever);
  LANES(i)
    if (w->fixed.unstable[i] != 0 && w->out->status[i] == NS_OK) {
      w->out->status[i] = NS_UNSTABLE;
      w->out->repair_fails[i] = 1;
    }
  if (s->fix.kind == NS_UNDER)
    by_strap(w, Cr);
  else if (s->fix.share == NS_BY_SLIP || sever >= 0)
    by_slip(w, Cr);
  else
    by_share(w, Cr);
  const bool hogs = hogging(&w->fixed) || s->fix.lift == NS_PROP;
  ns_close_state(w, hogs, &w->out->fixed);
}
