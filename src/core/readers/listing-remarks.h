/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "readers/listing.h"

void lid_listing_remarks (LidListing *listing);
char *lid_listing_remarks_place (const gint32 *handles, guint n_handles);
