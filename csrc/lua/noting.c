/* SPDX-License-Identifier: MIT
 * noting.c - what Lua does with columns, as steps. Equal steps are one. */
#include "lua/noting.h"

#include <string.h>

#include "lua/trace.h"

struct nsb_trace *nsb_noting(lua_State *L) {
  const struct nsb_recorder *r = nsb_recorder(L);
  struct nsb_trace *t = r ? r->open : NULL;
  lua_pop(L, 1);
  return t && !t->why ? t : NULL;
}

static void lose(struct nsb_trace *t, const char *why) {
  if (!t->why) t->why = why;
}

/* ---- values ---- */

static int new_value(lua_State *L, struct nsb_trace *t) {
  if (t->list[NSB_VALUES].n >= NSB_MOST_VALUES) lose(t, "too many numbers");
  struct nsb_value *v = nsb_add(L, t, NSB_VALUES, 1);
  v->row = v->last = -1;
  v->made = t->list[NSB_STEPS].n;
  return t->list[NSB_VALUES].n - 1;
}

/* A place in a table of NSB_HASH for some bytes. */
static unsigned place_of(const void *bytes, size_t n) {
  const unsigned char *b = bytes;
  uint32_t h = 2166136261u;
  for (size_t i = 0; i < n; i++) h = (h ^ b[i]) * 16777619u;
  return (h ^ h >> 16) % NSB_HASH;
}

/* The value that is one number for all. */
static int constant(lua_State *L, struct nsb_trace *t, double one) {
  unsigned p = place_of(&one, sizeof one);
  for (; t->of_value[p]; p = (p + 1) % NSB_HASH)
    if (memcmp(&nsb_value(t, t->of_value[p] - 1)->one, &one, sizeof one) == 0)
      return t->of_value[p] - 1;
  const int n = new_value(L, t);
  nsb_value(t, n)->constant = true;
  nsb_value(t, n)->one = one;
  if (t->list[NSB_VALUES].n < NSB_HASH / 2) t->of_value[p] = n + 1;
  return n;
}

/* The value of a side; one of a column that was not noted ends the noting. */
static int value_of(lua_State *L, struct nsb_trace *t, struct nsb_side s) {
  if (s.n == -2) return -1;
  if (s.n == -1) return constant(L, t, s.one);
  const int64_t n = s.id - t->first;
  if (s.id > 0 && n >= 0 && n < t->list[NSB_VALUES].n) return (int)n;
  lose(t, "a column that was not noted");
  return -1;
}

/* The number of a value's column. */
static int64_t id_of(const struct nsb_trace *t, int value) {
  return t->first + value;
}

/* ---- steps ---- */

/* The step that is the same as one, or a place for it. */
static int known(struct nsb_trace *t, const struct ns_step *s, unsigned *p) {
  const int key[] = {(int)s->kind, s->expected, s->a, s->b, s->c};
  for (*p = place_of(key, sizeof key); t->of_step[*p];
       *p = (*p + 1) % NSB_HASH) {
    const struct ns_step *o = nsb_step(t, t->of_step[*p] - 1);
    if (o->kind == s->kind && o->expected == s->expected && o->a == s->a &&
        o->b == s->b && o->c == s->c)
      return t->of_step[*p] - 1;
  }
  return -1;
}

static void keep(lua_State *L, struct nsb_trace *t, const struct ns_step *s) {
  struct ns_step *to = nsb_add(L, t, NSB_STEPS, 1);
  *to = *s;
}

/* A step, unless it is there. */
static int note(lua_State *L, struct nsb_trace *t, struct ns_step *s,
                bool gives) {
  unsigned p;
  const int old = known(t, s, &p);
  if (old >= 0) return nsb_step(t, old)->to;
  s->to = gives ? new_value(L, t) : -1;
  keep(L, t, s);
  if (t->list[NSB_STEPS].n < NSB_HASH / 2) t->of_step[p] = t->list[NSB_STEPS].n;
  return s->to;
}

void nsb_note(lua_State *L, enum ns_step_kind kind, struct nsb_side a,
              struct nsb_side b, struct nsb_side c, struct nsb_numbers *to) {
  struct nsb_trace *t = nsb_noting(L);
  if (!t) return;
  struct ns_step s = {.kind = kind, .more = -1};
  s.a = value_of(L, t, a);
  s.b = value_of(L, t, b);
  s.c = value_of(L, t, c);
  if (!t->why) to->id = id_of(t, note(L, t, &s, true));
}

void nsb_note_answer(lua_State *L, enum ns_step_kind kind, struct nsb_side a,
                     struct nsb_side b, bool answer) {
  struct nsb_trace *t = nsb_noting(L);
  if (!t) return;
  struct ns_step s = {.kind = kind, .more = -1, .c = -1, .expected = answer};
  s.a = value_of(L, t, a);
  s.b = value_of(L, t, b);
  if (!t->why) note(L, t, &s, false);
}

void nsb_note_item(lua_State *L, struct nsb_side item) {
  struct nsb_trace *t = nsb_noting(L);
  if (!t) return;
  const int v = value_of(L, t, item);
  int *to = nsb_add(L, t, NSB_ITEMS, 1);
  *to = v;
}

void nsb_note_list(lua_State *L, enum ns_step_kind kind, int count,
                   struct nsb_side a, struct nsb_numbers *to,
                   struct nsb_numbers *more) {
  struct nsb_trace *t = nsb_noting(L);
  if (!t) return;
  const int items = kind == NS_STEP_WORST ? 2 * count : count;
  struct ns_step s = {.kind = kind,
                      .b = -1,
                      .c = -1,
                      .more = -1,
                      .list = t->list[NSB_ITEMS].n - items,
                      .count = count};
  s.a = value_of(L, t, a);
  s.to = new_value(L, t);
  if (more) s.more = new_value(L, t);
  if (t->why) return;
  keep(L, t, &s);
  to->id = id_of(t, s.to);
  if (more) more->id = id_of(t, s.more);
}

void nsb_note_put(lua_State *L, const void *target, const void *places,
                  struct nsb_side v) {
  struct nsb_trace *t = nsb_noting(L);
  if (!t) return;
  int to = 0;
  while (to < t->targets && t->target[to] != target) to++;
  if (places != t->places || to == t->targets) lose(t, "put elsewhere");
  struct ns_step s = {
      .kind = NS_STEP_PUT, .to = to, .more = -1, .b = -1, .c = -1};
  s.a = value_of(L, t, v);
  if (!t->why) keep(L, t, &s);
}

void nsb_note_lost(lua_State *L, const char *why) {
  struct nsb_trace *t = nsb_noting(L);
  if (t) lose(t, why);
}

/* ---- reviews ---- */

/* Keeps a field of the table at 1 as long as the trace. */
static void anchor(lua_State *L, const char *name) {
  nsb_recorder(L);
  lua_getiuservalue(L, -1, 1);
  lua_getiuservalue(L, -1, NSB_LISTS + 1);
  nsb_get(L, 1, name);
  lua_rawseti(L, -2, (lua_Integer)lua_rawlen(L, -2) + 1);
  lua_pop(L, 3);
}

void nsb_note_review(lua_State *L, const struct nsb_packed *p,
                     const struct ns_rules *rules,
                     const struct ns_standard *standard) {
  struct nsb_trace *t = nsb_noting(L);
  if (!t) return;
  anchor(L, "rules");
  anchor(L, "standard");
  struct ns_step_review *v = nsb_add(L, t, NSB_REVIEWS, 1);
  memcpy(&v->shape, &p->shape, sizeof p->shape);
  v->rules = rules;
  v->standard = standard;
  v->column = t->list[NSB_COLUMNS].n;
  double *m = nsb_add(L, t, NSB_MODELS, 1);
  memcpy(m, p->row, sizeof p->row);
}

void nsb_note_column(lua_State *L, int row, const struct nsb_numbers *from) {
  struct nsb_trace *t = nsb_noting(L);
  if (!t) return;
  const int v = value_of(L, t, (struct nsb_side){.n = from->n, .id = from->id});
  struct ns_step_column *c = nsb_add(L, t, NSB_COLUMNS, 1);
  *c = (struct ns_step_column){row, v};
  const int n = t->list[NSB_REVIEWS].n - 1;
  nsb_review(t, n)->columns++;
  nsb_model_of(t, n)[row] = 0; /* of the first joist, not of all */
}

/* Whether review b is review a once more. */
static bool same_review(struct nsb_trace *t, int a, int b) {
  const struct ns_step_review *v = nsb_review(t, a), *w = nsb_review(t, b);
  const struct ns_step_column *c = t->list[NSB_COLUMNS].at;
  if (v->rules != w->rules || v->standard != w->standard ||
      v->columns != w->columns ||
      memcmp(&v->shape, &w->shape, sizeof v->shape) != 0 ||
      memcmp(nsb_model_of(t, a), nsb_model_of(t, b),
             sizeof(double) * NS_BLOCK_ROWS) != 0)
    return false;
  for (int k = 0; k < v->columns; k++)
    if (c[v->column + k].row != c[w->column + k].row ||
        c[v->column + k].from != c[w->column + k].from)
      return false;
  return true;
}

void nsb_note_reviewed(lua_State *L) {
  struct nsb_trace *t = nsb_noting(L);
  if (!t) return;
  const int last = t->list[NSB_REVIEWS].n - 1;
  t->again = false;
  t->review = last;
  for (int n = 0; n < last && !t->again; n++)
    if (same_review(t, n, last)) {
      t->again = true;
      t->review = n;
      t->cursor = nsb_review(t, n)->take;
      t->list[NSB_COLUMNS].n = nsb_review(t, last)->column;
      t->list[NSB_REVIEWS].n = t->list[NSB_MODELS].n = last;
      return;
    }
  struct ns_step_review *v = nsb_review(t, last);
  v->take = t->list[NSB_TAKES].n;
  v->slot[0] = v->slot[1] = t->list[NSB_SLOTS].n;
  keep(L, t,
       &(struct ns_step){.kind = NS_STEP_REVIEW,
                         .list = last,
                         .to = -1,
                         .more = -1,
                         .a = -1,
                         .b = -1,
                         .c = -1});
}

void nsb_note_slot(lua_State *L, int state, const struct ns_slot *slot) {
  struct nsb_trace *t = nsb_noting(L);
  if (!t || t->again) return;
  struct ns_step_review *v = nsb_review(t, t->review);
  if (v->slots[state] == 0) v->slot[state] = t->list[NSB_SLOTS].n;
  v->slots[state]++;
  struct ns_slot *to = nsb_add(L, t, NSB_SLOTS, 1);
  *to = *slot;
}

/* Whether two are about one kind of number. */
static bool alike(const struct ns_take *a, const struct ns_take *b) {
  return a->kind == b->kind && a->state == b->state && a->row == b->row &&
         a->offset == b->offset;
}

bool nsb_note_varies(lua_State *L, struct ns_take take) {
  struct nsb_trace *t = nsb_noting(L);
  if (!t) return false;
  const struct ns_take *w = t->list[NSB_WIDE].at;
  for (int k = 0; k < t->list[NSB_WIDE].n; k++)
    if (w[k].slot == t->review && alike(&w[k], &take)) return true;
  return false;
}

int64_t nsb_note_take(lua_State *L, struct ns_take take) {
  struct nsb_trace *t = nsb_noting(L);
  if (!t) return 0;
  if (t->again) {
    const struct ns_step_review *v = nsb_review(t, t->review);
    const struct ns_take *k =
        (struct ns_take *)t->list[NSB_TAKES].at + t->cursor++;
    if (t->cursor > v->take + v->takes) lose(t, "a review that was another");
    if (t->why) return 0;
    if (!alike(k, &take) || k->slot != take.slot || k->sure != take.sure)
      lose(t, "a review that was another");
    return k->sure ? 0 : id_of(t, k->to);
  }
  take.to = take.sure ? -1 : new_value(L, t);
  struct ns_take *k = nsb_add(L, t, NSB_TAKES, 1);
  *k = take;
  nsb_review(t, t->review)->takes++;
  return take.sure ? 0 : id_of(t, take.to);
}

/* ---- connections ---- */

/* A joint that is the same, its number; else -1. */
static int same_joint(const struct nsb_trace *t,
                      const struct ns_step_joint *j) {
  const struct ns_step_joint *k = t->list[NSB_JOINTS].at;
  for (int n = 0; n < t->list[NSB_JOINTS].n; n++)
    if (k[n].mode == j->mode && k[n].branch == j->branch &&
        k[n].demand == j->demand &&
        memcmp(k[n].from, j->from, sizeof j->from) == 0)
      return n;
  return -1;
}

void nsb_note_joint(lua_State *L, enum ns_mode mode, int branch,
                    struct nsb_side demand, const struct nsb_side *from,
                    struct nsb_numbers *const *to) {
  struct nsb_trace *t = nsb_noting(L);
  if (!t) return;
  struct ns_step_joint j = {.mode = mode, .branch = branch};
  j.demand = value_of(L, t, demand);
  for (int f = 0; f < NS_RECORDS; f++) {
    const bool none = from[f].n == -1 && from[f].one == 0;
    j.from[f] = none ? -1 : value_of(L, t, from[f]);
  }
  if (t->why) return;
  int n = same_joint(t, &j);
  if (n < 0) {
    for (int f = 0; f < 3; f++) j.to[f] = new_value(L, t);
    n = t->list[NSB_JOINTS].n;
    struct ns_step_joint *k = nsb_add(L, t, NSB_JOINTS, 1);
    *k = j;
    keep(L, t,
         &(struct ns_step){.kind = NS_STEP_JOINT,
                           .list = n,
                           .to = -1,
                           .more = -1,
                           .a = -1,
                           .b = -1,
                           .c = -1});
  }
  const struct ns_step_joint *k =
      (struct ns_step_joint *)t->list[NSB_JOINTS].at + n;
  for (int f = 0; f < 3; f++) to[f]->id = id_of(t, k->to[f]);
}
