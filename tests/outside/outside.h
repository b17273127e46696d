/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <json-glib/json-glib.h>

/* The kinds of checks a file of tests/outside may hold; its README says how each is written. */
void outside_population (JsonObject *group, JsonObject *one);
void outside_ways (JsonObject *one);
void outside_label (JsonObject *one);
void outside_rate (JsonObject *one);
void outside_smbios (JsonObject *one);
void outside_power (JsonObject *one);
void outside_caution (JsonObject *one);
