/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* The one error domain of the core. Every message is one sentence that names the place and, where
 * there is one, the remedy; the caller prefixes the file name. */
#define LID_ERROR (lid_error_quark ())

typedef enum
{
  LID_ERROR_BAD_FORMAT, /* the input is not what it claims to be */
  LID_ERROR_TOO_LARGE,  /* over a limit of size, depth or count */
  LID_ERROR_CUT,        /* the input ends inside something */
  LID_ERROR_NOT_FOUND,  /* a name that does not exist */
  LID_ERROR_NEWER,      /* written by a later version: may be read, must not be written */
  LID_ERROR_BAD_CALL,   /* the caller asked for something that cannot be done */
} LidError;

GQuark lid_error_quark (void);
