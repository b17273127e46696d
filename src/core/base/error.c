/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"

/* The name is no expression. */
/* clang-format off */
G_DEFINE_QUARK (lid-error-quark, lid_error)
