/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "command.h"

LidExit lid_failure (const char *source,
                     const char *reason,
                     const char *const *nulls,
                     gboolean json,
                     LidExit status);
