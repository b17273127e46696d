/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/recent-jobs.h"

#include <glib/gi18n.h>

#define APPLICATION "Lidleaf"
#define MOST_IN_MENU 10u

static void
recent_job_free (gpointer data)
{
  LidRecentJob *job = data;

  g_free (job->uri);
  g_free (job->title);
  g_free (job->folder);
  g_free (job);
}

static int
latest_first (gconstpointer a, gconstpointer b)
{
  GtkRecentInfo *left = *(GtkRecentInfo *const *)a, *right = *(GtkRecentInfo *const *)b;

  return g_date_time_compare (gtk_recent_info_get_modified (right),
                              gtk_recent_info_get_modified (left));
}

/* The user's own folder is written "~", as everybody does. */
static char *
folder_of (const char *uri)
{
  g_autoptr (GFile) file = g_file_new_for_uri (uri);
  g_autoptr (GFile) parent = g_file_get_parent (file);
  g_autofree char *name = parent != NULL ? g_file_get_parse_name (parent) : g_strdup (uri);
  const char *home = g_get_home_dir ();
  gsize n = strlen (home);

  if (g_str_has_prefix (name, home) && (name[n] == '/' || name[n] == 0))
    return g_strconcat ("~", name + n, NULL);
  return g_steal_pointer (&name);
}

/**
 * lid_recent_jobs_list:
 * @most: how many at most
 *
 * Whether they are still there is not looked up: a folder may be on a slow machine elsewhere.
 *
 * Returns: (transfer full) (element-type LidRecentJob): the latest first
 */
GPtrArray *
lid_recent_jobs_list (guint most)
{
  GPtrArray *jobs = g_ptr_array_new_with_free_func (recent_job_free);
  GList *items = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());
  g_autoptr (GPtrArray) ours
      = g_ptr_array_new_with_free_func ((GDestroyNotify)gtk_recent_info_unref);

  for (GList *item = items; item != NULL; item = item->next)
    if (gtk_recent_info_has_application (item->data, APPLICATION)
        && gtk_recent_info_get_modified (item->data) != NULL)
      g_ptr_array_add (ours, item->data);
    else
      gtk_recent_info_unref (item->data);
  g_list_free (items);
  g_ptr_array_sort (ours, latest_first);
  for (guint i = 0; i < MIN (ours->len, most); i++)
    {
      LidRecentJob *job = g_new0 (LidRecentJob, 1);

      job->uri = g_strdup (gtk_recent_info_get_uri (ours->pdata[i]));
      job->title = g_strdup (gtk_recent_info_get_display_name (ours->pdata[i]));
      job->folder = folder_of (job->uri);
      g_ptr_array_add (jobs, job);
    }
  return jobs;
}

/**
 * lid_recent_jobs_add:
 * @file: a job that was opened or saved
 * @title: the machine, as the job calls it
 */
void
lid_recent_jobs_add (GFile *file, const char *title)
{
  g_autofree char *uri = g_file_get_uri (file);
  GtkRecentData data = { .display_name = (char *)title,
                         .mime_type = (char *)"application/x-lidleaf-job",
                         .app_name = (char *)APPLICATION,
                         .app_exec = (char *)"lidleaf %u" };

  gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

void
lid_recent_jobs_drop (GFile *file)
{
  g_autofree char *uri = g_file_get_uri (file);

  gtk_recent_manager_remove_item (gtk_recent_manager_get_default (), uri, NULL);
}

/**
 * lid_recent_jobs_menu:
 *
 * Returns: (transfer full) (nullable): the jobs as a menu; NULL: there are none
 */
GMenuModel *
lid_recent_jobs_menu (void)
{
  g_autoptr (GPtrArray) jobs = lid_recent_jobs_list (MOST_IN_MENU);
  GMenu *menu = jobs->len > 0 ? g_menu_new () : NULL;

  for (guint i = 0; i < jobs->len; i++)
    {
      const LidRecentJob *job = jobs->pdata[i];
      g_autoptr (GMenuItem) item = NULL;
      g_autofree char *words = NULL;

      /* Translators: a machine, and the folder its job lies in. */
      words = g_strdup_printf (_ ("%s, in %s"), job->title, job->folder);
      item = g_menu_item_new (words, NULL);
      g_menu_item_set_action_and_target (item, "win.open-recent", "s", job->uri);
      g_menu_append_item (menu, item);
    }
  return menu != NULL ? G_MENU_MODEL (menu) : NULL;
}
