/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/hands.h"

#include "app/slot-words.h"

#include <glib/gi18n.h>

struct _LidHands
{
  GObject parent_instance;

  LidJobModel *model; /* owned */
  LidModule *module;  /* owned, nullable: what is in hand; any of those that are alike */
  int last;           /* the slot filled last by hand, LID_NOWHERE: none */
  LidBoard *board;    /* owned: whose slots are counted */
};

enum
{
  CHANGED,    /* another module in hand, or none */
  COMPLAINED, /* (const char *sentence) */
  LOOKED_AT,  /* (guint slot): named with empty hands: where the focus goes */
  WENT_TO,    /* (guint slot): where the eye should follow */
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (LidHands, lid_hands, G_TYPE_OBJECT)

static LidEdits *
edits_of (LidHands *self)
{
  return lid_job_model_get_edits (self->model);
}

static LidOf
of (LidHands *self)
{
  return lid_job_model_get_of (self->model);
}

static const LidBoard *
board_of (LidHands *self)
{
  return lid_edits_job (edits_of (self))->board;
}

static LidModule *
module_in (LidHands *self, guint slot)
{
  const LidPopulation *population = lid_edits_population (edits_of (self), of (self));

  return population != NULL && slot < population->n_slots ? population->slots[slot].module : NULL;
}

static gboolean
complain (LidHands *self, const char *sentence)
{
  g_signal_emit (self, signals[COMPLAINED], 0, sentence);
  return FALSE;
}

/* Tells everybody of an edit that was made, or why it was not. @error by its address: the edit that
 * sets it is an argument of the same call, and arguments are evaluated in any order. */
static gboolean
done (LidHands *self, gboolean ok, GError *const *error)
{
  if (!ok)
    return complain (self, (*error)->message);
  lid_job_model_edited (self->model);
  return TRUE;
}

static void
went_to (LidHands *self, guint slot)
{
  g_signal_emit (self, signals[WENT_TO], 0, slot);
}

/* The first module of the tray that is like @module; NULL: none is left. */
static LidModule *
one_like (LidHands *self, const LidModule *module)
{
  g_autoptr (GPtrArray) tray = lid_edits_tray (edits_of (self), of (self));

  for (guint i = 0; i < tray->len; i++)
    {
      const LidTrayGroup *group = tray->pdata[i];

      if (lid_tray_alike (group->module, module))
        return group->module;
    }
  return NULL;
}

/**
 * lid_hands_pick_up:
 * @module: (nullable): a module of the tray; NULL: lay down what is in hand
 */
void
lid_hands_pick_up (LidHands *self, LidModule *module)
{
  LidModule *old = self->module;

  self->module = module != NULL ? lid_module_ref (module) : NULL;
  self->last = LID_NOWHERE;
  if (old != module)
    g_signal_emit (self, signals[CHANGED], 0);
  lid_module_unref (old);
}

/**
 * lid_hands_get_module:
 *
 * Returns: (transfer none) (nullable): what is in hand
 */
LidModule *
lid_hands_get_module (LidHands *self)
{
  return self->module;
}

/**
 * lid_hands_get_next:
 *
 * Returns: the slot that comes next in the board's order, LID_NOWHERE when nothing is in hand or
 * every slot is filled
 */
int
lid_hands_get_next (LidHands *self)
{
  return self->module != NULL ? lid_edits_next_slot (edits_of (self), of (self)) : LID_NOWHERE;
}

LidJobModel *
lid_hands_get_model (LidHands *self)
{
  return self->model;
}

/**
 * lid_hands_fill_with:
 * @slot: a slot
 * @module: a module of the tray; one of those alike will do
 */
gboolean
lid_hands_fill_with (LidHands *self, guint slot, LidModule *module)
{
  g_autoptr (GError) error = NULL;
  LidModule *one = one_like (self, module);

  if (one == NULL)
    return complain (self, _ ("No more of these lie in the tray: type or scan another label."));
  if (!done (self, lid_edits_fill (edits_of (self), of (self), slot, one->id, &error), &error))
    return FALSE;
  self->last = (int)slot;
  went_to (self, slot);
  return TRUE;
}

/**
 * lid_hands_fill:
 * @slot: a slot
 *
 * Fills @slot with what is in hand. Run on: a second time on the same slot means the next one in
 * the order of fitting, so that a hand that stays where it is fills the board.
 */
gboolean
lid_hands_fill (LidHands *self, guint slot)
{
  LidModule *sits = module_in (self, slot);

  if (self->module == NULL)
    return complain (self, _ ("Nothing in hand: click a module in the tray first, or type a "
                              "label."));
  if (self->last == (int)slot && sits != NULL && lid_tray_alike (sits, self->module))
    return lid_hands_fill_next (self);
  return lid_hands_fill_with (self, slot, self->module);
}

gboolean
lid_hands_fill_next (LidHands *self)
{
  int slot = lid_hands_get_next (self);

  if (self->module == NULL)
    return complain (self, _ ("Nothing in hand: click a module in the tray first, or type a "
                              "label."));
  if (slot == LID_NOWHERE)
    return complain (self, _ ("Every slot is filled."));
  return lid_hands_fill_with (self, (guint)slot, self->module);
}

gboolean
lid_hands_empty (LidHands *self, guint slot)
{
  g_autoptr (GError) error = NULL;

  self->last = LID_NOWHERE;
  return done (self, lid_edits_take (edits_of (self), of (self), slot, &error), &error);
}

/**
 * lid_hands_move:
 * @from: a filled slot
 * @to: where it goes; what sits there comes back to @from
 */
gboolean
lid_hands_move (LidHands *self, guint from, guint to)
{
  g_autoptr (GError) error = NULL;

  self->last = LID_NOWHERE;
  if (!done (self, lid_edits_move (edits_of (self), of (self), from, to, &error), &error))
    return FALSE;
  went_to (self, to);
  return TRUE;
}

gboolean
lid_hands_fill_first_slots (LidHands *self)
{
  g_autoptr (GError) error = NULL;

  if (self->module == NULL)
    return complain (self, _ ("Nothing in hand: click a module in the tray first, or type a "
                              "label."));
  return done (self,
               lid_edits_fill_first_slots (edits_of (self), of (self), self->module->id, &error),
               &error);
}

/* What a command on a slot fills others with: what is in hand, else what sits in the slot. */
static LidModule *
pattern_for (LidHands *self, guint slot)
{
  LidModule *module = self->module != NULL ? self->module : module_in (self, slot);

  if (module == NULL)
    complain (self, _ ("Nothing in hand, and the slot is empty: fill it first, or click a module "
                       "in the tray."));
  return module;
}

gboolean
lid_hands_fill_channel (LidHands *self, guint slot)
{
  g_autoptr (GError) error = NULL;
  LidModule *module = pattern_for (self, slot);
  int channel = board_of (self)->slots[slot].channel;

  if (module == NULL)
    return FALSE;
  if (channel == LID_NOWHERE)
    return complain (self, _ ("The channel of this slot is not told: teach the board first."));
  return done (
      self, lid_edits_fill_channel (edits_of (self), of (self), (guint)channel, module->id, &error),
      &error);
}

gboolean
lid_hands_fill_alike (LidHands *self, guint slot)
{
  g_autoptr (GError) error = NULL;
  LidModule *module = pattern_for (self, slot);

  if (module == NULL)
    return FALSE;
  return done (self, lid_edits_fill_alike (edits_of (self), of (self), module->id, &error), &error);
}

gboolean
lid_hands_apply (LidHands *self, const LidRemedy *remedy)
{
  g_autoptr (GError) error = NULL;

  self->last = LID_NOWHERE;
  return done (self, lid_edits_apply_remedy (edits_of (self), of (self), remedy, &error), &error);
}

/**
 * lid_hands_drop:
 * @module: a module of the tray
 * @most: how many of those alike go
 */
gboolean
lid_hands_drop (LidHands *self, LidModule *module, guint most)
{
  g_autoptr (GError) error = NULL;

  return done (self, lid_edits_drop (edits_of (self), module->id, most, &error), &error);
}

/**
 * lid_hands_add:
 * @text: a label as typed or scanned, with a quantity in front where there is one
 *
 * New modules lie in the tray, and one of them is in hand.
 */
gboolean
lid_hands_add (LidHands *self, const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *id = NULL;
  gboolean ok = lid_edits_add_from_text (edits_of (self), text,
                                         lid_job_model_get_parts (self->model), &id, &error);

  if (!done (self, ok, &error))
    return FALSE;
  lid_hands_pick_up (self, lid_job_find_module (lid_edits_job (edits_of (self)), id));
  return TRUE;
}

/**
 * lid_hands_name_slot:
 * @text: what was typed
 *
 * Fills the slot of that name with what is in hand; with nothing in hand the eye goes there.
 *
 * Returns: whether @text is the name of a slot, or of no other than one by its number
 */
gboolean
lid_hands_name_slot (LidHands *self, const char *text)
{
  int slot = lid_slot_words_find (board_of (self), text);

  if (slot == LID_NOWHERE)
    return FALSE;
  if (self->module != NULL)
    lid_hands_fill_with (self, (guint)slot, self->module);
  else
    g_signal_emit (self, signals[LOOKED_AT], 0, (guint)slot);
  return TRUE;
}

/* Undone, redone or emptied: what is in hand must still lie in the tray. Another board counts its
 * slots in another order. */
static void
follow_model (LidHands *self)
{
  if (self->board != board_of (self))
    {
      lid_board_unref (self->board);
      self->board = lid_board_ref (lid_edits_job (edits_of (self))->board);
      self->last = LID_NOWHERE;
    }
  if (self->module != NULL && one_like (self, self->module) == NULL)
    lid_hands_pick_up (self, NULL);
}

static void
lid_hands_dispose (GObject *object)
{
  LidHands *self = LID_HANDS (object);

  g_clear_pointer (&self->module, lid_module_unref);
  g_clear_pointer (&self->board, lid_board_unref);
  g_clear_object (&self->model);
  G_OBJECT_CLASS (lid_hands_parent_class)->dispose (object);
}

static void
lid_hands_class_init (LidHandsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = lid_hands_dispose;
  signals[CHANGED] = g_signal_new ("changed", LID_TYPE_HANDS, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
  signals[COMPLAINED] = g_signal_new ("complained", LID_TYPE_HANDS, G_SIGNAL_RUN_LAST, 0, NULL,
                                      NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[LOOKED_AT] = g_signal_new ("looked-at", LID_TYPE_HANDS, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                     NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[WENT_TO] = g_signal_new ("went-to", LID_TYPE_HANDS, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
}

static void
lid_hands_init (LidHands *self)
{
  self->last = LID_NOWHERE;
}

/**
 * lid_hands_new:
 * @model: (transfer none): the job they work on
 *
 * Returns: (transfer full): empty hands
 */
LidHands *
lid_hands_new (LidJobModel *model)
{
  LidHands *self = g_object_new (LID_TYPE_HANDS, NULL);

  self->model = g_object_ref (model);
  self->board = lid_board_ref (lid_job_model_get_job (model)->board);
  g_signal_connect_object (model, "changed", G_CALLBACK (follow_model), self, G_CONNECT_SWAPPED);
  return self;
}
