/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"

#include <gio/gio.h>

/* The planner: from what a machine has to what it needs, with what is at hand.
 * Definitions: product.md 8 and settled reading 11; how it is done, and why the
 * answer is exact: search.c. */

/* A price that is not told. */
#define LID_PLAN_NO_PRICE (-1)
/* How far the hands may go (not LidHands: that is a type of src/app), and what
 * is wished. */
typedef enum
{
  LID_HANDS_STAY, /* only empty slots are filled */
  LID_HANDS_MOVE, /* what is found may change places, none of it leaves */
  LID_HANDS_PULL, /* what is found may leave */
  LID_N_HANDS
} LidReach;

typedef enum
{
  LID_WISH_CAPACITY,  /* at least so much usable capacity */
  LID_WISH_SPEND,     /* the most for a sum */
  LID_WISH_REARRANGE, /* buy nothing, lose nothing */
  LID_WISH_CHEAPEST,  /* one option: the cheapest with at least so much */
} LidWishWhat;

/* When the means for long searches (node-mixes.c) are used; the answer is the same. */
typedef enum
{
  LID_HASTE_USUAL, /* where a search was long already */
  LID_HASTE_WHOLE, /* at once, for every capacity together … */
  LID_HASTE_EACH   /* … or for each by itself */
} LidHaste;

typedef struct
{
  LidWishWhat what;
  gint64 amount; /* MiB, or minor units of the stock's currency */
  LidReach hands;
  guint free_slots;   /* of fitted sockets, at least so many stay empty */
  LidRate least_rate; /* LID_RATE_UNKNOWN: any */
  gboolean listed_only;
  gboolean sure; /* nothing that rests on a fact the job does not hold */
  gboolean sockets_free;
  gboolean any;   /* of plans that are equal any one will do: ties are not looked for */
  guint64 budget; /* steps of the search before it gives up proving; 0: the usual */
  LidHaste haste; /* of tests */
} LidWish;

/* One line of what can be bought or taken from the shelf. */
typedef struct
{
  LidModule *module; /* borrowed: the facts */
  const char *part;  /* borrowed, nullable; likewise the next two */
  const char *label;
  const char *bin;
  guint count;
  gint64 price_minor; /* of one; LID_PLAN_NO_PRICE */
} LidGood;

/* All of it is borrowed while the planner works. */
typedef struct
{
  const LidBoard *board;
  const LidPopulation *as_found; /* nullable: an empty machine */
  /* Processors, firmware, memory mode, setup of the plan; NULL: as found. */
  const LidPopulation *settings;
  LidModule *const *tray; /* modules at hand that sit in no slot as found; they
                             cost nothing */
  guint n_tray;
  const LidGood *goods;
  guint n_goods;
} LidPlanQuestion;

/* One module a plan uses or pulls. */
typedef struct
{
  LidModule *module; /* owned; one that is found or on the tray is the job's own */
  int from_slot;     /* where it was found; LID_NOWHERE: nowhere */
  int to_slot;       /* LID_NOWHERE: pulled */
  int good;          /* index into the goods; LID_NOWHERE: at hand */
} LidPlanModule;

typedef struct
{
  guint good;
  guint count;
} LidPlanBuy;

/* Why an option is among the six; bits. */
typedef enum
{
  LID_PICK_CHEAPEST = 1 << 0,
  LID_PICK_FASTEST = 1 << 1,
  LID_PICK_FEWEST_HANDS = 1 << 2,
  LID_PICK_MOST_ROOM = 1 << 3,
  LID_PICK_LEAST_UNSURE = 1 << 4,
  LID_PICK_MORE = 1 << 5,     /* the cheapest above the cheapest one's usable capacity */
  LID_PICK_AS_FOUND = 1 << 6, /* nothing is done */
  LID_PICK_MOST = 1 << 7,     /* the most usable capacity, where a sum is wished */
} LidPick;

typedef struct
{
  LidPopulation *population;
  GArray *modules; /* LidPlanModule: those that sit in slots by slot, then the
                      pulled ones */
  GArray *buys;    /* LidPlanBuy, in the order of the goods */
  gint64 capacity_mib, usable_mib;
  LidRatio whole_mbs; /* unknown where the rate is */
  LidRatio speed;     /* what options are compared by: see front.h */
  gboolean rated;     /* the rate is known */
  LidRate running;
  gint64 cost_minor; /* LID_PLAN_NO_PRICE: a module without a price is bought */
  guint hands, loses, unsure, staying, bins;
  guint empty_slots; /* of fitted sockets */
  guint picks;       /* LidPick, bits */
  char *why;         /* one sentence; nullable */
} LidPlanOption;

typedef struct
{
  GPtrArray *front;   /* LidPlanOption: the whole front, the cheapest first */
  GPtrArray *options; /* LidPlanOption, borrowed from the front or from @more:
                         at most six */
  GPtrArray *more;    /* LidPlanOption not on the front but among the six */
  gboolean proved;    /* the front is whole: no population beats or adds to it */
  gboolean ties_open; /* more populations equal one of the front than were asked
                         about, so that the one shown may not be the first by
                         the ties */
  gboolean uneven;    /* no plan fills the sockets alike; these do not */
  char *reason;       /* why there is no option, or only as found; nullable */
  guint64 steps;      /* of the search, for benches */
} LidPlan;

/* What the caller hears while the planner works; all nullable. */
typedef struct
{
  GCancellable *cancellable;
  void (*progress) (double share, gpointer data);              /* 0 to 1, never falling */
  void (*option) (const LidPlanOption *option, gpointer data); /* found; may be beaten later */
  gpointer data;
} LidPlanWatch;

LidPlan *lid_plan_new (const LidPlanQuestion *question,
                       const LidWish *wish,
                       const LidPlanWatch *watch,
                       GError **error);
void lid_plan_free (LidPlan *plan);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidPlan, lid_plan_free)
void lid_plan_option_free (LidPlanOption *option);
