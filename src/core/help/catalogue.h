/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/rule.h"
#include "help/explain.h"

/* The catalogue of rules, made from the rules themselves: what each declares, and its example as
 * the checker judges it now. Nothing in it is written twice, so nothing in it can go stale. */
LidExplanation *lid_catalogue_rule (const LidRule *rule);
char *lid_catalogue_html (void);
