/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/generation.h"
#include "base/rate.h"
#include "facts/fact.h"
#include "facts/module-kind.h"

/* One module. Shared and counted: a population holds references, so copying one is cheap. Build it
 * with the setters before sharing it; after that treat it as read-only. */
typedef struct _LidModule LidModule;
struct _LidModule
{
  int ref_count; /* atomic: the window plans on a thread of its own */
  char *id;      /* unique in its job, nullable outside one */
  char *label;   /* the label's text in normal form, nullable */
  char *part;    /* part number without padding, nullable */
  char *serial;  /* nullable; stays in jobs */
  char *maker;   /* as told, nullable */
  char *bin;     /* where on the shelf, nullable */
  gint32 value[LID_N_FACTS];
  guint8 basis[LID_N_FACTS]; /* LidBasis; LID_BASIS_NONE: value is meaningless */
  guint8 persistent;         /* keeps data without power, not DRAM to the machine */
};

LidModule *lid_module_new (void);
LidModule *lid_module_copy (const LidModule *module);
LidModule *lid_module_ref (LidModule *module);
void lid_module_unref (LidModule *module);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidModule, lid_module_unref)

void lid_module_set (LidModule *module, LidFact fact, gint32 value, LidBasis basis);
void lid_module_set_text (char **field, const char *text);
gboolean lid_module_knows (const LidModule *module, LidFact fact);
gint32 lid_module_get (const LidModule *module, LidFact fact, gint32 if_unknown);
guint32 lid_module_missing_facts (const LidModule *module);
gboolean lid_module_same (const LidModule *a, const LidModule *b);
char *lid_module_describe (const LidModule *module);

/* The everyday readings; 0 or the _UNKNOWN value stands for "not known". */
static inline gint64
lid_module_capacity (const LidModule *module)
{
  return module->basis[LID_FACT_CAPACITY] ? module->value[LID_FACT_CAPACITY] : 0;
}

static inline LidRate
lid_module_rated (const LidModule *module)
{
  return module->basis[LID_FACT_RATED] ? (LidRate)module->value[LID_FACT_RATED] : LID_RATE_UNKNOWN;
}

static inline LidKind
lid_module_kind (const LidModule *module)
{
  return module->basis[LID_FACT_KIND] ? (LidKind)module->value[LID_FACT_KIND] : LID_KIND_UNKNOWN;
}

static inline LidGeneration
lid_module_generation (const LidModule *module)
{
  return module->basis[LID_FACT_GENERATION] ? (LidGeneration)module->value[LID_FACT_GENERATION]
                                            : LID_GENERATION_UNKNOWN;
}
