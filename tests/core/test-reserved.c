/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "stock/reserved.h"
#include "support.h"

#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#define RDIMM "32GB 2Rx4 PC4-3200AA-RB2-12"
#define STOCK                                                                                      \
  "part,label,quantity,price EUR,bin\nTP-1," RDIMM ",3,10,A\nTP-1," RDIMM ",2,12,B\n"              \
  "," RDIMM ",4,9,C\n"

typedef struct
{
  char *folder;
  char *stock;
  char *reserved;
} Place;

static void
set_up (Place *place, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  place->folder = g_dir_make_tmp ("lidleaf-reserved-XXXXXX", &error);
  g_assert_no_error (error);
  place->stock = g_build_filename (place->folder, "shelf.csv", NULL);
  place->reserved = lid_reserved_path (place->stock);
  g_assert_true (g_file_set_contents (place->stock, STOCK, -1, NULL));
}

static void
tear_down (Place *place, gconstpointer data)
{
  g_autofree char *after = support_read_file (place->stock, NULL);

  g_assert_cmpstr (after, ==, STOCK); /* the stock file is never written */
  g_unlink (place->stock);
  g_unlink (place->reserved);
  g_assert_cmpint (g_rmdir (place->folder), ==, 0); /* and nothing else lies about */
  g_free (place->folder);
  g_free (place->stock);
  g_free (place->reserved);
}

static LidStock *
shelf (const Place *place, const char *but_for)
{
  g_autoptr (GError) error = NULL;
  LidStock *stock = lid_reserved_read_stock (place->stock, NULL, but_for, &error);

  g_assert_no_error (error);
  return stock;
}

static void
check_reserved (const Place *place, const char *but_for, guint a, guint b, guint c)
{
  g_autoptr (LidStock) stock = shelf (place, but_for);
  const guint expected[] = { a, b, c };

  for (guint i = 0; i < 3; i++)
    g_assert_cmpuint (((LidStockRow *)stock->rows->pdata[i])->reserved, ==, expected[i]);
}

static gboolean
take (const Place *place, const char *job, guint row, guint count, GError **error)
{
  g_autoptr (LidStock) stock = shelf (place, NULL);
  g_autoptr (GPtrArray) wanted
      = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_reservation_free);

  g_ptr_array_add (wanted, lid_reservation_new (stock->rows->pdata[row], count));
  return lid_reserved_take (place->stock, NULL, job, wanted, error);
}

static void
test_take_and_release (Place *place, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  guint n;

  check_reserved (place, NULL, 0, 0, 0);
  g_assert_true (take (place, "118", 1, 2, &error));
  check_reserved (place, NULL, 0, 2, 0);
  g_assert_true (take (place, "119", 1, 2, &error)); /* bin B is spoken for: bin A gives */
  check_reserved (place, NULL, 2, 2, 0);
  check_reserved (place, "119", 0, 2, 0); /* its own do not count against a job */
  g_assert_false (take (place, "120", 0, 2, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_NOT_FOUND);
  g_assert_nonnull (strstr (error->message, "1 of the 2 modules of “TP-1”"));
  g_clear_error (&error);
  check_reserved (place, NULL, 2, 2, 0);
  g_assert_true (
      take (place, "118", 2, 4, &error)); /* a new plan gives back what the old one had */
  check_reserved (place, NULL, 0, 2, 4);
  g_assert_true (lid_reserved_release (place->stock, "119", &n, &error));
  g_assert_cmpuint (n, ==, 2);
  g_assert_true (lid_reserved_release (place->stock, "119", &n, &error));
  g_assert_cmpuint (n, ==, 0);
  g_assert_true (lid_reserved_release (place->stock, "118", &n, &error));
  g_assert_no_error (error);
  g_assert_false (g_file_test (place->reserved, G_FILE_TEST_EXISTS));
}

/* Eight programs at once want one of TP-1 each; there are five. */
static void
test_many_programs (Place *place, gconstpointer data)
{
  pid_t children[8];
  guint n_taken = 0;

  for (guint i = 0; i < G_N_ELEMENTS (children); i++)
    {
      children[i] = fork ();
      g_assert_cmpint (children[i], >=, 0);
      if (children[i] == 0)
        {
          g_autofree char *job = g_strdup_printf ("%u", i);
          _exit (take (place, job, 0, 1, NULL) ? 7 : 8);
        }
    }
  for (guint i = 0; i < G_N_ELEMENTS (children); i++)
    {
      int status = 0;

      g_assert_cmpint (waitpid (children[i], &status, 0), ==, children[i]);
      g_assert_true (WIFEXITED (status) && WEXITSTATUS (status) >= 7);
      n_taken += WEXITSTATUS (status) == 7;
    }
  g_assert_cmpuint (n_taken, ==, 5);
  check_reserved (place, NULL, 3, 2, 0);
}

/* Takes and gives back for ever. */
static G_NORETURN void
be_busy (const Place *place, guint who)
{
  for (guint i = 0;; i++)
    {
      g_autofree char *job = g_strdup_printf ("%u-%u", who, i % 2);
      guint n;

      take (place, job, 0, 1 + i % 2, NULL);
      if (i % 3 == 0)
        lid_reserved_release (place->stock, job, &n, NULL);
    }
}

static guint
count_begun (const Place *place)
{
  g_autoptr (GDir) dir = g_dir_open (place->folder, 0, NULL);
  const char *name;
  guint n = 0;

  while ((name = g_dir_read_name (dir)) != NULL)
    n += g_str_has_prefix (name, "shelf.csv.reserved.");
  return n;
}

/* Whoever is killed in the middle of writing leaves the file whole, and the lock free. What was
 * begun beside it is swept away by the next who writes. */
static void
test_killed (Place *place, gconstpointer data)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);

  for (guint round = 0; round < 30; round++)
    {
      pid_t children[2];
      guint sum = 0;

      for (guint i = 0; i < G_N_ELEMENTS (children); i++)
        {
          children[i] = fork ();
          g_assert_cmpint (children[i], >=, 0);
          if (children[i] == 0)
            be_busy (place, i);
        }
      g_usleep ((gulong)g_rand_int_range (rand, 500, 9000));
      for (guint i = 0; i < G_N_ELEMENTS (children); i++)
        {
          kill (children[i], SIGKILL);
          g_assert_cmpint (waitpid (children[i], NULL, 0), ==, children[i]);
        }
      {
        g_autoptr (GError) error = NULL;
        g_autoptr (LidReserved) reserved = lid_reserved_load (place->stock, &error);

        g_assert_no_error (error);
        for (guint i = 0; i < reserved->entries->len; i++)
          sum += ((LidReservation *)reserved->entries->pdata[i])->count;
        g_assert_cmpuint (sum, <=, 5);
      }
    }
  g_test_message ("%u files begun", count_begun (place));
  g_assert_true (take (place, "after", 0, 0, NULL));
  g_assert_cmpuint (count_begun (place), ==, 0);
}

static void
put_beside (const Place *place, const char *ending, gboolean is_there)
{
  g_autofree char *path = g_strconcat (place->reserved, ending, NULL);

  if (is_there)
    g_assert_true (g_file_set_contents (path, "{", -1, NULL));
  else
    g_assert_cmpint (g_unlink (path), ==, 0);
}

/* Taking sweeps and so does giving back, what was begun and nothing else. */
static void
test_swept (Place *place, gconstpointer data)
{
  guint n;

  put_beside (place, ".mine", TRUE);
  put_beside (place, ".backup", TRUE);
  put_beside (place, ".AB12CD", TRUE);
  g_assert_true (take (place, "118", 0, 1, NULL));
  g_assert_cmpuint (count_begun (place), ==, 2);
  put_beside (place, ".EF34GH", TRUE);
  g_assert_true (lid_reserved_release (place->stock, "118", &n, NULL));
  g_assert_cmpuint (count_begun (place), ==, 2);
  put_beside (place, ".mine", FALSE);
  put_beside (place, ".backup", FALSE);
}

/* The shelf was sold empty in the meantime: nothing goes below zero. */
static void
test_shrunk (Place *place, gconstpointer data)
{
  g_assert_true (take (place, "118", 0, 5, NULL));
  g_assert_true (
      g_file_set_contents (place->stock, "part,quantity,label\nTP-1,1," RDIMM "\n", -1, NULL));
  {
    g_autoptr (LidStock) stock = shelf (place, NULL);
    g_assert_cmpuint (((LidStockRow *)stock->rows->pdata[0])->reserved, ==, 1);
    g_assert_cmpuint (lid_stock_row_free_count (stock->rows->pdata[0]), ==, 0);
  }
  g_assert_true (g_file_set_contents (place->stock, STOCK, -1, NULL));
}

static void
test_broken (Place *place, gconstpointer data)
{
  static const struct
  {
    const char *text;
    const char *complaint;
  } cases[] = {
    { "{", "ends too early" },
    { "[]", "must be an object" },
    { "{\"reserved\": []}", "format" },
    { "{\"format\": 1, \"reserved\": [{\"part\": \"A\", \"count\": 1}]}", "reserved[0].job" },
    { "{\"format\": 1, \"reserved\": [{\"job\": \"A\", \"count\": 1}]}", "reserved[0].part" },
    { "{\"format\": 1, \"reserved\": [{\"job\": \"A\", \"part\": \"B\", \"count\": 0}]}",
      "reserved[0].count" },
    { "{\"format\": 2, \"reserved\": [{\"job\": \"A\", \"part\": \"TP-1\", \"count\": 2}, 7]}",
      "newer version" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) none = g_ptr_array_new ();
      g_autofree char *after = NULL;

      g_assert_true (g_file_set_contents (place->reserved, cases[i].text, -1, NULL));
      g_assert_false (lid_reserved_take (place->stock, NULL, "1", none, &error));
      if (strstr (error->message, cases[i].complaint) == NULL)
        g_error ("%s: no “%s” in it", error->message, cases[i].complaint);
      after = support_read_file (place->reserved, NULL);
      g_assert_cmpstr (after, ==, cases[i].text);
    }
  check_reserved (place, NULL, 2, 0, 0); /* a newer file still counts */
}

#define ADD(name, test) g_test_add ("/reserved/" name, Place, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("take-and-release", test_take_and_release);
  ADD ("many-programs", test_many_programs);
  ADD ("killed", test_killed);
  ADD ("swept", test_swept);
  ADD ("shrunk", test_shrunk);
  ADD ("broken", test_broken);
  return g_test_run ();
}
