/* SPDX-License-Identifier: MIT
 * section.c - what is left of a rectangle when a band of it is gone.
 *
 * Plane sections stay plane across an opening: two rectangles about their
 * own centroid, both edges checked. Three rules go on top.
 *
 * Thin lip. Wood thinner than max(1 in, d/8) below or above an opening does
 * not count: the opening is then a notch from its far edge. An opening that is
 * smaller than its lip does not lose it.
 *
 * Least. A modulus can rise while an opening grows, because removing wood
 * within the kern lightens an edge more than it weakens the section. Nobody
 * gains strength with a drill, so the modulus of an opening is the least of
 * all openings within it. With lower piece s, upper piece u, A, Q and J the
 * area, first and second moment about the bottom of a strip one inch wide,
 * S_bottom = J A / Q - Q. Its derivatives vanish
 *   - where the opening's top reaches the centroid: s + h = H + s - sqrt(2 s H)
 *   - where its bottom reaches the kern: s Q = J, a cubic in s with one root,
 * so the least lies at one of these, at the full opening, or at none of it;
 * for the top edge the same holds upside down.
 *
 * Chord shear. The wood above and below a long opening shares V by h^3, and the
 * deeper chord may give out before the net area does; a short one still leaves
 * one net area, as tests of round holes and plane stress show. */
#include "joist/lanes.h"
#include "section/section.h"

/* S at the bottom edge of a strip one inch wide: s below, u above, H deep. */
NS_INLINE double S_bottom(double s, double u, double H) {
  const double A = s + u, Q = s * s / 2 + u * (H - u / 2);
  const double v = H - u;
  const double J = (s * s * s + H * H * H - v * v * v) / 3;
  return Q > 0 ? J * A / Q - Q : 0;
}

/* Where growing an opening downward from u stops helping the bottom edge:
 * s^3 + 6 Q_u s = 6 J_u, convex and rising, so Newton from above descends. */
NS_INLINE double kern_step(double s, double Q, double J) {
  return s - (s * s * s + Q * s - J) / (3 * s * s + Q + 1e-300);
}

/* Root of the cubic of a kern, by six steps of Newton. */
NS_INLINE double kern_root(double u, double H) {
  const double v = H - u, Q = 6 * u * (H - u / 2);
  const double J = 2 * (H * H * H - v * v * v);
  const double two = kern_step(kern_step(v, Q, J), Q, J);
  const double four = kern_step(kern_step(two, Q, J), Q, J);
  return kern_step(kern_step(four, Q, J), Q, J);
}

/* Least S at the bottom edge over the openings within s..H-u. */
NS_INLINE double least_bottom(double s, double u, double H) {
  const double top = H - u; /* upper edge of the opening */
  const double k = kern_root(u, H);
  const double gross = H * H / 6, full = S_bottom(s, u, H);
  const double t = s + H - sqrt(2 * s * H);
  const double grown = S_bottom(s, H - t, H);
  const double kern = S_bottom(k, u, H);
  double least = ns_min(gross, full);
  least = (t > s) & (t < top) ? ns_min(least, grown) : least;
  least = (k > s) & (k < top) ? ns_min(least, kern) : least;
  return least;
}

/* The section in which a lip of h feels most of the moment, per inch of
 * width: at the full opening, or where its far edge is at the centroid if
 * that is within. Its mean stress is M (y - h/2) / I. */
NS_INLINE void lip_section(double h, double u, double H, double *y, double *I) {
  const double t = h + H - sqrt(2 * h * H);
  const double u2 = (t > h) & (t < H - u) ? H - t : u;
  const double A = h + u2, Q = h * h / 2 + u2 * (H - u2 / 2), v = H - u2;
  const double J = (h * h * h + H * H * H - v * v * v) / 3;
  *y = A > 0 ? Q / A : 0;
  *I = J - Q * *y;
}

/* Wood that counts is this deep, beside an opening of a size. */
NS_INLINE double lip_limit(double d, double size) {
  return ns_min(ns_max(1, d / 8), size);
}

/* A second opening over or under the first: both come out, and the chords
 * are three. A lip too thin to count goes with its opening. */
NS_INLINE void second_band(struct ns_section *o) {
  LANES(i) {
    const double b = o->b[i], H = o->H[i];
    const double far = lip_limit(o->d[i], o->size[1][i]) - 1e-9;
    const double lip = ns_min(lip_limit(o->d[i], o->size[0][i]) - 1e-9, far);
    const bool two = o->z2[i] > o->z1[i], over = o->z1[i] >= o->y2[i];
    const double z1 = !over & (o->z1[i] < far) ? 0 : o->z1[i];
    const double z2 = over & (H - o->z2[i] < far) ? H : o->z2[i];
    const double h1 = over ? o->h_b[i] : z1;
    const double h3 = over ? H - z2 : o->h_t[i];
    const double between = over ? z1 - o->y2[i] : o->y1[i] - z2;
    const double h2 = between < lip ? 0 : between;
    const double c1 = h1 / 2;
    const double c2 = over ? (z1 + o->y2[i]) / 2 : (o->y1[i] + z2) / 2;
    const double c3 = H - h3 / 2, A = h1 + h2 + h3;
    const double Q = h1 * c1 + h2 * c2 + h3 * c3;
    const double y = A > 0 ? Q / A : 0;
    const double own = h1 * h1 * h1 + h2 * h2 * h2 + h3 * h3 * h3;
    const double I = own / 12 + h1 * (y - c1) * (y - c1) +
                     h2 * (y - c2) * (y - c2) + h3 * (y - c3) * (y - c3);
    const double low = h1 > 0 ? 0 : h2 > 0 ? c2 - h2 / 2 : H - h3;
    const double high = h3 > 0 ? H : h2 > 0 ? c2 + h2 / 2 : h1;
    const double Sb = A > 0 ? I / (y - low) : 0;
    const double St = A > 0 ? I / (high - y) : 0;
    const double big = ns_max(h1, ns_max(h2, h3));
    o->A[i] = two ? b * A : o->A[i];
    o->y_b[i] = two ? y : o->y_b[i];
    o->I[i] = two ? b * I : o->I[i];
    o->S_b[i] = two ? b * Sb : o->S_b[i];
    o->S_t[i] = two ? b * St : o->S_t[i];
    o->least[i] = two ? ns_min(o->least[i], b * ns_min(Sb, St)) : o->least[i];
    /* The chords now, from the lowest. */
    const double outer_b = h1 > 0 ? h1 : over ? 0 : h2;
    const double outer_t = h3 > 0 ? h3 : over ? h2 : 0;
    const double c_m = (over ? h3 : h1) > 0 ? h2 : 0;
    const bool both = (outer_b > 0) & (outer_t > 0);
    const double c_b = both ? outer_b : 0, c_t = both ? outer_t : 0;
    const double pull_b = I > 0 ? (y - c_b / 2) / (b * I) : 0;
    const double pull_t = I > 0 ? (H - y - c_t / 2) / (b * I) : 0;
    const double was_b = (o->lip_y[0][i] - c_b / 2) / o->lip_I[0][i];
    const double was_t = (o->lip_y[1][i] - c_t / 2) / o->lip_I[1][i];
    const bool worse_b = two & both & (pull_b > was_b);
    const bool worse_t = two & both & (pull_t > was_t);
    o->lip_y[0][i] = worse_b ? y : o->lip_y[0][i];
    o->lip_I[0][i] = worse_b ? b * I : o->lip_I[0][i];
    o->lip_y[1][i] = worse_t ? H - y : o->lip_y[1][i];
    o->lip_I[1][i] = worse_t ? b * I : o->lip_I[1][i];
    o->c_b[i] = two ? c_b : o->c_b[i];
    o->c_t[i] = two ? c_t : o->c_t[i];
    o->c_m[i] = two & both ? c_m : 0;
    o->gone_b[i] = two & !over ? (outer_b > 0 ? 0 : 1) : o->gone_b[i];
    o->gone_t[i] = two & over ? (outer_t > 0 ? 0 : 1) : o->gone_t[i];
    o->h_b[i] = two ? h1 : o->h_b[i];
    o->h_t[i] = two ? h3 : o->h_t[i];
    o->h_m[i] = two ? h2 : 0;
    /* V over three chords, or over the two of the first band alone. */
    const double three = big > 0 ? b * own / (big * big) : 0;
    const bool fewer = two & (three < o->A_v[i]);
    o->A_v[i] = fewer ? three : o->A_v[i];
    o->part[i] = fewer ? 0 : o->part[i];
    o->h_v[i] = fewer ? big : o->h_v[i];
    o->h3[i] = two ? own : o->h3[i];
  }
}

/* Pieces under and over the band of a strip one inch wide once thin lips are
 * off: their area, its first moment and the second about the bottom edge. */
struct pieces {
  bool none; /* there is no band */
  double s, u, hb, ht, A, Q, J, y, I;
};

/* What a band leaves of the depth, lips too thin to count left out. */
NS_INLINE struct pieces pieces_of(double H, double d, double size, double low,
                                  double high) {
  struct pieces p;
  const double lip = lip_limit(d, size);
  const double y1 = ns_max(low, 0), y2 = ns_min(high, H);
  p.none = y2 <= y1;
  p.s = p.none ? H / 2 : y1;
  p.u = p.none ? H / 2 : H - y2;
  p.hb = p.s < lip - 1e-9 ? 0 : p.s;
  p.ht = p.u < lip - 1e-9 ? 0 : p.u;
  p.A = p.hb + p.ht;
  const double v = H - p.ht;
  p.Q = p.hb * p.hb / 2 + p.ht * (H - p.ht / 2);
  p.J = (p.hb * p.hb * p.hb + H * H * H - v * v * v) / 3;
  p.y = p.A > 0 ? p.Q / (p.A > 0 ? p.A : 1) : 0;
  p.I = p.none ? H * H * H / 12 : p.J - p.Q * p.y;
  return p;
}

/* What is left: area, centroid, I, both edges. */
NS_INLINE void net_section(struct ns_section *restrict o, double *restrict s_in,
                           double *restrict u_in) {
  LANES(i) {
    const double b = o->b[i], H = o->H[i], d = o->d[i], size = o->size[0][i];
    const double lip = lip_limit(d, size);
    const struct pieces p = pieces_of(H, d, size, o->y1[i], o->y2[i]);
    const bool some = p.A > 0;
    const double bottom = p.hb > 0 ? 0 : H - p.ht;
    const double top = p.ht > 0 ? H : p.hb;
    const double Sb = some ? p.I / (some ? p.y - bottom : 1) : 0;
    const double St = some ? p.I / (some ? top - p.y : 1) : 0;
    const double lost_b = (p.hb == 0) & (p.s > 0) ? 1 : 0;
    const double lost_t = (p.ht == 0) & (p.u > 0) ? 2 : 0;
    o->h_b[i] = p.hb;
    o->h_t[i] = p.ht;
    o->lost[i] = lost_b + lost_t;
    o->A[i] = b * p.A;
    o->y_b[i] = p.y;
    o->I[i] = b * p.I;
    o->S_b[i] = b * Sb;
    o->S_t[i] = b * St;
    o->least[i] = b * ns_min(Sb, St);
    o->gone_b[i] = p.hb > 0 ? 0 : 1;
    o->gone_t[i] = p.ht > 0 ? 0 : 1;
    o->c_m[i] = 0;
    /* The largest opening within that keeps both its lips. */
    const double s2 = ns_max(p.s, lip), u2 = ns_max(p.u, lip);
    const bool opening = (s2 + u2 < H) & !p.none;
    const bool both = opening & (p.hb > 0) & (p.ht > 0);
    s_in[i] = opening ? s2 : H / 2;
    u_in[i] = opening ? u2 : H / 2;
    o->c_b[i] = both ? p.hb : 0;
    o->c_t[i] = both ? p.ht : 0;
  }
}

/* Area that V is spread over. Shared by h^3 the deeper chord B has V B^3 /
 * (m^3 + B^3), hence A_h = b (B + m^3 / B^2), which is least where B is the
 * cube root of 2 times m: an opening within this one may be worse, and B is
 * that of the worst. 1/A_v goes from 1/A to 1/A_h as the opening grows to twice
 * the length of the shallower chord's depth. */
NS_INLINE void chord_shear(struct ns_section *o) {
  const double k = 1.2599210498948732; /* cube root of 2 */
  LANES(i) {
    const double hb = o->h_b[i], ht = o->h_t[i], b = o->b[i], A = o->A[i];
    const double big = ns_max(hb, ht), m = ns_min(hb, ht);
    const bool gone = ns_min(o->y2[i], o->H[i]) > ns_max(o->y1[i], 0);
    const double worst = ns_min(k * m, o->H[i] - m);
    const double B = big >= k * m ? big : worst, B2 = B > 0 ? B * B : 1;
    const double A_h = ns_min(A, b * (B + m * m * m / B2));
    const double long_ = o->L[i] / (2 * (m > 0 ? m : 1));
    const double part = ns_min(ns_max(long_, 0), 1);
    const bool chord = (m > 0) & gone & (part > 0) & (A_h < A);
    const double some = chord ? A_h : 1, all = chord ? A : 1;
    const double both = 1 / ((1 - part) / all + part / some);
    o->A_v[i] = chord ? both : A;
    o->A_h[i] = A_h;
    o->part[i] = chord ? part : 0;
    o->h_v[i] = chord ? B : 0;
    o->h_s[i] = m;
    o->h3[i] = B * B * B + m * m * m;
    o->h_m[i] = 0;
  }
}

/* Net section: areas, moduli, centroids and chords. */
NS_CLONES void ns_section_of(struct ns_section *o) {
  ns_lane s, u, more;
  net_section(o, s, u);
  chord_shear(o);
  LANES(i) more[i] = s[i] + u[i] < o->H[i] ? 1 : 0;
  if (ns_any(more)) {
    LANES(i) {
      const double b = o->b[i], H = o->H[i];
      const double low = least_bottom(s[i], u[i], H);
      const double high = least_bottom(u[i], s[i], H);
      const double least = b * ns_min(low, high);
      o->least[i] = more[i] != 0 ? ns_min(o->least[i], least) : o->least[i];
    }
  }
  LANES(i) {
    double y_b, I_b, y_t, I_t;
    lip_section(s[i], u[i], o->H[i], &y_b, &I_b);
    lip_section(u[i], s[i], o->H[i], &y_t, &I_t);
    o->lip_y[0][i] = y_b;
    o->lip_y[1][i] = y_t;
    o->lip_I[0][i] = o->b[i] * I_b;
    o->lip_I[1][i] = o->b[i] * I_t;
  }
  LANES(i) more[i] = o->z2[i] > o->z1[i] ? 1 : 0;
  if (ns_any(more)) second_band(o);
}

/* I alone, by the same sums. */
NS_CLONES void ns_section_I(struct ns_section *o) {
  ns_lane s, u, more;
  LANES(i) more[i] = o->z2[i] > o->z1[i] ? 1 : 0;
  if (ns_any(more)) {
    net_section(o, s, u);
    second_band(o);
    return;
  }
  LANES(i) {
    const struct pieces p =
        pieces_of(o->H[i], o->d[i], o->size[0][i], o->y1[i], o->y2[i]);
    o->I[i] = o->b[i] * p.I;
  }
}
