/* SPDX-License-Identifier: GPL-3.0-or-later */

/* bench-empty.c: does nothing, linked with what lidleaf-cli is linked with: what a process costs
 * before its first line of ours. */
int
main (void)
{
  return 0;
}
