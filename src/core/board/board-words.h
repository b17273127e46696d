/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The words a board file has for its enumerations, each list in the order of its enumeration and
 * NULL-terminated: one source for the loader, the writer and what people are shown. */
extern const char *const lid_board_words_grades[];  /* LidGrade */
extern const char *const lid_board_words_stops[];   /* LidStops */
extern const char *const lid_board_words_scopes[];  /* LidScope */
extern const char *const lid_board_words_mixes[];   /* LidMix */
extern const char *const lid_board_words_whats[];   /* LidLimitWhat */
extern const char *const lid_board_words_bases[];   /* LidLimitBasis */
extern const char *const lid_board_words_counts[];  /* LidRankCount */
extern const char *const lid_board_words_regions[]; /* LidRegionModel */
extern const char *const lid_board_words_own[];     /* LidOwnMemory */
extern const char *const lid_board_words_stacks[];  /* LidStack */
extern const char *const lid_board_words_modes[];   /* LidMode, less plain; product.md 6 */
extern const char *const lid_board_words_alike[];   /* LidAlike, less not told */
extern const char *const lid_board_words_not_with[];
/* a NUMA split, then LidMode from 1 */
