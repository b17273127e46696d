/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/job-model.h"

#include <gtk/gtk.h>

void lid_left_offer_show (GtkWidget *place, LidJobModel *model);
