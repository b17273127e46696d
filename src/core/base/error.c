/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"

G_DEFINE_QUARK (lid - error - quark, lid_error)
