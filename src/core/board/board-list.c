/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-list.h"

#include "base/error.h"
#include "board/board-file.h"
#include "board/board-index.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>

#define MOST_KEPT 64u

/* What was found out once: folders, their indexes, boards by path. */
static struct
{
  char *platforms, *user;
  char *platforms_index, *user_index;
  GHashTable *kept; /* path → LidBoard */
} state;

static void
forget (void)
{
  g_clear_pointer (&state.platforms_index, g_free);
  g_clear_pointer (&state.user_index, g_free);
  g_clear_pointer (&state.kept, g_hash_table_unref);
}

/**
 * lid_board_list_set_folders:
 * @platforms: (nullable): the program's own boards; NULL: look for them
 * @user: (nullable): the user's; NULL: below the user's data folder
 *
 * For tests and for programs installed in an odd place. Forgets everything known so far.
 */
void
lid_board_list_set_folders (const char *platforms, const char *user)
{
  g_free (state.platforms);
  g_free (state.user);
  state.platforms = g_strdup (platforms);
  state.user = g_strdup (user);
  forget ();
}

static char *
folder_with_index (const char *base, const char *path)
{
  g_autofree char *beside = g_build_filename (path, "platforms", NULL);
  g_autofree char *folder = g_canonicalize_filename (beside, base);
  g_autofree char *index = g_build_filename (folder, LID_BOARD_INDEX_FILE, NULL);

  return g_access (index, R_OK) == 0 ? g_steal_pointer (&folder) : NULL;
}

/* LIDLEAF_PLATFORMS; else beside the program: two folders up in the build tree (src/cli,
 * tests/core), share/lidleaf where it is installed; else where it was configured to be. */
static const char *
platforms_folder (void)
{
  const char *told = g_getenv ("LIDLEAF_PLATFORMS");
  g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *base = program != NULL ? g_path_get_dirname (program) : NULL;

  if (state.platforms != NULL)
    return state.platforms;
  if (told != NULL && *told != 0)
    state.platforms = g_strdup (told);
  if (state.platforms == NULL && base != NULL)
    state.platforms = folder_with_index (base, "../..");
  if (state.platforms == NULL && base != NULL)
    state.platforms = folder_with_index (base, "../share/lidleaf");
  if (state.platforms == NULL)
    state.platforms = g_strdup (LID_PLATFORMS_DIR);
  return state.platforms;
}

/**
 * lid_board_list_user_folder:
 *
 * Returns: (transfer full): where the user's boards lie, whether it exists or not
 */
char *
lid_board_list_user_folder (void)
{
  return state.user != NULL ? g_strdup (state.user)
                            : g_build_filename (g_get_user_data_dir (), "lidleaf", "boards", NULL);
}

/* The program's own index is made when it is built; a folder without one (a checkout named by
 * LIDLEAF_PLATFORMS) is read through. */
static const char *
platforms_index (void)
{
  g_autofree char *path = NULL;

  if (state.platforms_index != NULL)
    return state.platforms_index;
  path = g_build_filename (platforms_folder (), LID_BOARD_INDEX_FILE, NULL);
  if (!g_file_get_contents (path, &state.platforms_index, NULL, NULL))
    state.platforms_index = lid_board_index_make (platforms_folder (), NULL);
  return state.platforms_index;
}

/* The user's index is made anew when a file came, went or changed. That it cannot be written is no
 * harm: it is made again next time. */
static const char *
user_index (void)
{
  g_autofree char *folder = NULL, *path = NULL;

  if (state.user_index != NULL)
    return state.user_index;
  folder = lid_board_list_user_folder ();
  if (!g_file_test (folder, G_FILE_TEST_IS_DIR))
    return state.user_index = g_strdup ("");
  path = g_build_filename (folder, LID_BOARD_INDEX_FILE, NULL);
  if (g_file_get_contents (path, &state.user_index, NULL, NULL)
      && lid_board_index_is_fresh (state.user_index, folder))
    return state.user_index;
  g_free (state.user_index);
  state.user_index = lid_board_index_make (folder, NULL);
  g_file_set_contents (path, state.user_index, -1, NULL);
  return state.user_index;
}

static void
entry_free (gpointer data)
{
  LidBoardEntry *entry = data;

  g_free (entry->id);
  g_free (entry->path);
  g_free (entry);
}

static void
add_entries (
    GPtrArray *entries, const char *index, gboolean users, const char *kind, const char *key)
{
  g_autoptr (GPtrArray) files = lid_board_index_find (index, kind, key);
  g_autofree char *folder = users ? lid_board_list_user_folder () : g_strdup (platforms_folder ());

  for (guint i = 0; i < files->len; i++)
    {
      LidBoardEntry *entry = g_new0 (LidBoardEntry, 1);

      entry->path = g_build_filename (folder, files->pdata[i], NULL);
      entry->users = users;
      g_ptr_array_add (entries, entry);
    }
}

static GPtrArray *
find (const char *kind, const char *key)
{
  GPtrArray *entries = g_ptr_array_new_with_free_func (entry_free);

  add_entries (entries, user_index (), TRUE, kind, key);
  add_entries (entries, platforms_index (), FALSE, kind, key);
  return entries;
}

/**
 * lid_board_list_find_names:
 * @names_hash: hash of a machine's slot names, banks included (board-names.h)
 *
 * Returns: (transfer full) (element-type LidBoardEntry): boards with a fingerprint of that hash,
 * the user's first; their ids are not filled in
 */
GPtrArray *
lid_board_list_find_names (const char *names_hash)
{
  return find ("names", names_hash);
}

/**
 * lid_board_list_find_locators:
 * @locators_hash: hash of a machine's locators alone
 *
 * Returns: (transfer full) (element-type LidBoardEntry): boards whose locators are those, the
 * user's first; their ids are not filled in
 */
GPtrArray *
lid_board_list_find_locators (const char *locators_hash)
{
  return find ("locators", locators_hash);
}

static LidBoard *
load_kept (const char *path, GError **error)
{
  LidBoard *board;

  if (state.kept == NULL)
    state.kept
        = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify)lid_board_unref);
  board = g_hash_table_lookup (state.kept, path);
  if (board != NULL)
    return lid_board_ref (board);
  board = lid_board_file_load (path, error);
  if (board == NULL)
    return NULL;
  if (g_hash_table_size (state.kept) >= MOST_KEPT)
    g_hash_table_remove_all (state.kept);
  g_hash_table_insert (state.kept, g_strdup (path), lid_board_ref (board));
  return board;
}

/**
 * lid_board_list_all:
 *
 * Returns: (transfer full) (element-type LidBoardEntry): every board file, the user's first, each
 * folder in the order of names; the id is NULL where the file is no board (load it to hear why)
 */
GPtrArray *
lid_board_list_all (void)
{
  GPtrArray *entries = find ("board", NULL);

  for (guint i = 0; i < entries->len; i++)
    {
      LidBoardEntry *entry = entries->pdata[i];
      g_autoptr (LidBoard) board = load_kept (entry->path, NULL);

      entry->id = board != NULL ? g_strdup (board->id) : NULL;
    }
  return entries;
}

/**
 * lid_board_list_load:
 * @id_or_path: a board's id, the user's before the program's own; or a file
 * @error: LID_ERROR_NOT_FOUND, or what is wrong with the file
 *
 * A text with a slash, or ending in ".json", is a file.
 *
 * Returns: (transfer full) (nullable): the board
 */
LidBoard *
lid_board_list_load (const char *id_or_path, GError **error)
{
  g_autoptr (GPtrArray) entries = NULL;

  if (strchr (id_or_path, '/') != NULL || g_str_has_suffix (id_or_path, ".json"))
    return load_kept (id_or_path, error);
  entries = find ("board", id_or_path);
  if (entries->len > 0)
    return load_kept (((LidBoardEntry *)entries->pdata[0])->path, error);
  g_set_error (error, LID_ERROR, LID_ERROR_NOT_FOUND,
               _ ("there is no board “%s”; “lidleaf-cli boards” lists them"), id_or_path);
  return NULL;
}

/**
 * lid_board_list_save_user:
 * @board: a board; kept as ID.json in the user's folder
 *
 * Returns: whether it was written
 */
gboolean
lid_board_list_save_user (const LidBoard *board, GError **error)
{
  g_autofree char *folder = lid_board_list_user_folder ();
  g_autofree char *name = g_strdup_printf ("%s.json", board->id);
  g_autofree char *path = g_build_filename (folder, name, NULL);

  if (g_mkdir_with_parents (folder, 0755) != 0)
    {
      g_set_error (error, G_FILE_ERROR, G_FILE_ERROR_FAILED, _ ("%s: the folder cannot be made"),
                   folder);
      return FALSE;
    }
  forget ();
  return lid_board_file_save (board, path, error);
}

/**
 * lid_board_list_drop_user:
 * @board: a board kept by lid_board_list_save_user()
 *
 * Teaching undone: the next machine of this kind must not meet it. A file that somebody changed or
 * replaced since stays.
 *
 * Returns: whether it was there and is gone
 */
gboolean
lid_board_list_drop_user (const LidBoard *board)
{
  g_autofree char *folder = lid_board_list_user_folder ();
  g_autofree char *name = g_strdup_printf ("%s.json", board->id);
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (LidBoard) kept = NULL;

  forget ();
  kept = lid_board_file_load (path, NULL);
  if (kept == NULL || g_strcmp0 (kept->hash, board->hash) != 0)
    return FALSE;
  return g_unlink (path) == 0;
}
