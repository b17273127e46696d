/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"

/* clang-format off: the name is no expression */
G_DEFINE_QUARK (lid-error-quark, lid_error)
