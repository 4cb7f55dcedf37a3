/* SPDX-License-Identifier: MIT
 * kept.c - what a block leaves in the work room for the next one.
 *
 * Places of cuts, net sections, breaks, stiffness and what a beam does under
 * unit loads rest on the standard, the shape, and all rows of a block but those
 * of its loads. Where these are what they were in the block before, bit by bit
 * and in all lanes, the same functions would give the same again, and what they
 * gave stays: in a sweep whose loads are inside, most blocks. A block with a
 * lane that cannot be worked is taken afresh. */
#include "work/work.h"

/* Rows that the geometry does not read; in order. */
static const int load_rows[] = {
    NS_J_spacing,     NS_J_dead,     NS_J_live,      NS_J_limit_live,
    NS_J_limit_total, NS_J_dead_off, NS_J_roof_live, NS_J_snow};
#define LOAD_ROWS ((int)(sizeof load_rows / sizeof *load_rows))

/* Whether n rows are the same, to the bit. */
static bool same_rows(const double (*a)[NS_LANES], const double (*b)[NS_LANES],
                      int n) {
  return n <= 0 || memcmp(a, b, sizeof(ns_lane) * (size_t)n) == 0;
}

/* The joist's own rows, between those of its loads. */
static bool same_joist(const struct ns_block *a, const struct ns_block *b) {
  int from = 0;
  for (int n = 0; n <= LOAD_ROWS; n++) {
    const int to = n < LOAD_ROWS ? load_rows[n] : NS_JOIST_ROWS;
    if (!same_rows(a->joist + from, b->joist + from, to - from)) return false;
    from = to + 1;
  }
  return true;
}

/* Cuts, and where loads stand. */
static bool same_cuts(const struct ns_shape *s, const struct ns_block *a,
                      const struct ns_block *b) {
  for (int c = 0; c < s->cuts; c++)
    if (!same_rows(a->cut[c], b->cut[c], NS_CUT_ROWS)) return false;
  for (int l = 0; l < s->lines; l++)
    if (!same_rows(a->line[l] + NS_L_from, b->line[l] + NS_L_from, 1) ||
        !same_rows(a->line[l] + NS_L_to, b->line[l] + NS_L_to, 1))
      return false;
  for (int p = 0; p < s->points; p++)
    if (!same_rows(a->point[p] + NS_P_at, b->point[p] + NS_P_at, 1))
      return false;
  return true;
}

/* The repair: of what each station has a row for, as many as there are. */
static bool same_repair(const struct ns_shape *s, const struct ns_block *a,
                        const struct ns_block *b) {
  if (s->fix.kind == NS_NO_FIX) return true;
  int row = 0;
  for (const struct ns_field *f = ns_fix_fields; f->name; f++) {
    const int used = f->rows == NS_MAX_STATIONS ? s->fix.stations : f->rows;
    if (!same_rows(a->fix + row, b->fix + row, used)) return false;
    row += f->rows;
  }
  return same_rows(a->other, b->other, NS_JOIST_ROWS);
}

/* Work room that may hold anything. */
void ns_forget(struct ns_work *w) { w->kept.made = w->kept.fixed = false; }

/* Whether a block has the geometry that is in the work room. */
bool ns_geometry_stays(const struct ns_work *w, const struct ns_block *b) {
  const struct ns_kept *k = &w->kept;
  return k->made && memcmp(&k->shape, w->shape, sizeof k->shape) == 0 &&
         memcmp(&k->standard, w->standard, sizeof k->standard) == 0 &&
         same_joist(&w->in, b) && same_cuts(w->shape, &w->in, b) &&
         same_repair(w->shape, &w->in, b);
}

/* All rows of a block into the work room. */
void ns_take_block(struct ns_work *w, const struct ns_block *b) {
  const struct ns_shape *s = w->shape;
  ns_forget(w);
  memcpy(w->in.joist, b->joist, sizeof b->joist);
  memcpy(w->in.cut, b->cut, sizeof b->cut[0] * (size_t)s->cuts);
  memcpy(w->in.line, b->line, sizeof b->line[0] * (size_t)s->lines);
  memcpy(w->in.point, b->point, sizeof b->point[0] * (size_t)s->points);
  if (s->fix.kind == NS_NO_FIX) return;
  memcpy(w->in.fix, b->fix, sizeof b->fix);
  memcpy(w->in.other, b->other, sizeof b->other);
}

/* Those of its loads, where the others are there. */
void ns_take_loads(struct ns_work *w, const struct ns_block *b) {
  const struct ns_shape *s = w->shape;
  for (int n = 0; n < LOAD_ROWS; n++)
    ns_copy(w->in.joist[load_rows[n]], b->joist[load_rows[n]]);
  memcpy(w->in.line, b->line, sizeof b->line[0] * (size_t)s->lines);
  memcpy(w->in.point, b->point, sizeof b->point[0] * (size_t)s->points);
}

/* What the work room's rows are of, once all geometry is made. */
void ns_keep_geometry(struct ns_work *w) {
  struct ns_kept *k = &w->kept;
  memcpy(&k->shape, w->shape, sizeof k->shape);
  memcpy(&k->standard, w->standard, sizeof k->standard);
  k->made = true;
}
