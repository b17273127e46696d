/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "command.h"
#include "commands.h"
#include "failure.h"
#include "output.h"
#include "own-data.h"
#include "plan-report.h"
#include "stock-options.h"

#include "base/units-read.h"
#include "job/job-open.h"
#include "planner/plan-shelf.h"
#include "stock/stock-amount.h"

#include <glib/gi18n.h>
#include <string.h>

static char *capacity, *spend, *stock_path, *hands, *least_rate, *board_name, *out_path;
static gboolean rearrange, cheapest, listed_only, sure, sockets_free, all;
static int free_slots, take;

static const GOptionEntry entries[] = {
  { "capacity", 0, 0, G_OPTION_ARG_STRING, &capacity,
    N_ ("At least so much usable capacity; a bare number is GB"), N_ ("GB") },
  { "cheapest", 0, 0, G_OPTION_ARG_NONE, &cheapest,
    N_ ("With --capacity: only the cheapest, soon told even of a long shelf; of those that cost "
        "the "
        "same any one"),
    NULL },
  { "spend", 0, 0, G_OPTION_ARG_STRING, &spend,
    N_ ("The most for this sum, in the currency of the stock file"), N_ ("MONEY") },
  { "rearrange", 0, 0, G_OPTION_ARG_NONE, &rearrange,
    N_ ("Buy nothing and lose no capacity: only let modules change places"), NULL },
  { "stock", 0, 0, G_OPTION_ARG_FILENAME, &stock_path,
    N_ ("What can be taken from the shelf: see the command stock"), "CSV" },
  LID_STOCK_OPTION_ENTRIES,
  { "hands", 0, 0, G_OPTION_ARG_STRING, &hands,
    N_ ("How far hands may go: only fill empty slots; also move what is found (default); also pull "
        "it"),
    "stay|move|pull" },
  { "free-slots", 0, 0, G_OPTION_ARG_INT, &free_slots,
    N_ ("At least so many slots of fitted processors stay empty"), N_ ("N") },
  { "least-rate", 0, 0, G_OPTION_ARG_STRING, &least_rate, N_ ("Runs at no less"), N_ ("MTS") },
  { "listed-only", 0, 0, G_OPTION_ARG_NONE, &listed_only,
    N_ ("Nothing beyond what the board's documents list"), NULL },
  { "sure", 0, 0, G_OPTION_ARG_NONE, &sure, N_ ("Nothing that rests on a fact nobody told"), NULL },
  { "sockets-free", 0, 0, G_OPTION_ARG_NONE, &sockets_free,
    N_ ("Processors may be filled differently"), NULL },
  { "all", 0, 0, G_OPTION_ARG_NONE, &all,
    N_ ("Every option that none beats, not only the six to look at first"), NULL },
  { "take", 0, 0, G_OPTION_ARG_INT, &take,
    N_ ("Make option K the planned population, reserve what it takes from the shelf, and save with "
        "-o"),
    N_ ("K") },
  { "board", 0, 0, G_OPTION_ARG_STRING, &board_name, N_ ("Read inventories with this board"),
    N_ ("ID|FILE") },
  { "output", 'o', 0, G_OPTION_ARG_FILENAME, &out_path, N_ ("Where the job with the plan goes"),
    N_ ("JOB") },
  G_OPTION_ENTRY_NULL,
};

static gboolean
read_capacity (gint64 *mib)
{
  g_autoptr (GError) error = NULL;
  gboolean bare = strspn (capacity, "0123456789") == strlen (capacity);
  g_autofree char *text = g_strdup_printf (bare ? "%s GB" : "%s", capacity);

  if (lid_units_read_capacity (text, mib, &error))
    return TRUE;
  lid_complain ("--capacity: %s", error->message);
  return FALSE;
}

static gboolean
read_hands (LidWish *wish)
{
  static const char *const words[LID_N_HANDS] = { "stay", "move", "pull" };

  wish->hands = LID_HANDS_MOVE;
  for (guint i = 0; i < LID_N_HANDS && hands != NULL; i++)
    if (strcmp (hands, words[i]) == 0)
      {
        wish->hands = (LidReach)i;
        return TRUE;
      }
  if (hands != NULL)
    lid_complain (_ ("--hands takes stay, move or pull, not “%s”"), hands);
  return hands == NULL;
}

/* All of the wish but the sum of money, whose currency the stock file knows. */
static gboolean
read_wish (LidWish *wish)
{
  g_autoptr (GError) error = NULL;

  *wish = (LidWish){ .what = spend != NULL ? LID_WISH_SPEND : LID_WISH_CAPACITY,
                     .listed_only = listed_only,
                     .sure = sure,
                     .sockets_free = sockets_free };
  if ((capacity != NULL) + (spend != NULL) + rearrange != 1)
    {
      lid_complain ("%s", _ ("plan needs one wish: --capacity GB, --spend MONEY or --rearrange"));
      return FALSE;
    }
  if (cheapest && capacity == NULL)
    {
      lid_complain ("%s", _ ("--cheapest needs --capacity GB: it is the cheapest with at least so "
                             "much"));
      return FALSE;
    }
  if (cheapest)
    wish->what = LID_WISH_CHEAPEST;
  wish->any = cheapest;
  if (rearrange)
    wish->what = LID_WISH_REARRANGE;
  if (!read_hands (wish) || (capacity != NULL && !read_capacity (&wish->amount)))
    return FALSE;
  if (least_rate != NULL
      && !lid_units_read_rate (least_rate, LID_GENERATION_UNKNOWN, &wish->least_rate, &error))
    {
      lid_complain ("--least-rate: %s", error->message);
      return FALSE;
    }
  if (free_slots < 0 || take < 0 || (take > 0) != (out_path != NULL))
    {
      lid_complain ("%s", take > 0 || out_path != NULL
                              ? _ ("--take K and -o JOB go together: what is taken is saved")
                              : _ ("--free-slots and --take take a number from 0 on"));
      return FALSE;
    }
  wish->free_slots = (guint)free_slots;
  return TRUE;
}

static gboolean
read_money (const LidStockOptions *options, const LidStock *stock, LidWish *wish)
{
  LidStockMoney money = { .mark = options->decimal,
                          .digits = stock != NULL ? stock->digits : 2,
                          .currency = stock != NULL ? stock->currency : NULL };
  char implied = 0;

  if (spend == NULL)
    return TRUE;
  switch (lid_stock_amount_read (spend, &money, &wish->amount, &implied))
    {
    case LID_STOCK_AMOUNT_READ:
      return TRUE;
    case LID_STOCK_AMOUNT_AMBIGUOUS:
      lid_complain (_ ("--spend: “%s” can be read in two ways; tell --decimal comma or --decimal "
                       "point"),
                    spend);
      return FALSE;
    case LID_STOCK_AMOUNT_CURRENCY:
      lid_complain (_ ("--spend: “%s” is not in the currency of the stock file"), spend);
      return FALSE;
    case LID_STOCK_AMOUNT_EMPTY:
    case LID_STOCK_AMOUNT_FRACTION:
    case LID_STOCK_AMOUNT_LARGE:
    case LID_STOCK_AMOUNT_BAD:
    default:
      lid_complain (_ ("--spend: “%s” is no sum of money; write it like 250 or 249.50"), spend);
      return FALSE;
    }
}

static gboolean
reserve (LidEdits *edits,
         const LidPlanAsk *ask,
         const LidPlanOption *option,
         const LidStockOptions *options,
         GError **error)
{
  g_autoptr (GPtrArray) wanted = NULL;

  if (stock_path == NULL)
    return TRUE;
  wanted = lid_plan_shelf_wanted (ask, option);
  return lid_plan_shelf_reserve (edits, stock_path, options, wanted, error);
}

/* Takes option K: reserves, fills the planned population, saves. */
static LidExit
take_option (LidOpened *opened,
             const LidPlanAsk *ask,
             const GPtrArray *options,
             const LidStockOptions *stock_options)
{
  g_autoptr (LidEdits) edits = NULL;
  g_autoptr (GError) error = NULL;
  const LidPlanOption *option;

  if ((guint)take > options->len)
    {
      lid_complain (_ ("there is no option %d to take; there are %u"), take, options->len);
      return LID_EXIT_CALL;
    }
  option = options->pdata[take - 1];
  edits = lid_edits_new (g_steal_pointer (&opened->job));
  if (reserve (edits, ask, option, stock_options, &error) && lid_plan_take (edits, option, &error)
      && lid_output_job (lid_edits_job (edits), out_path, &error))
    return LID_EXIT_DONE;
  lid_complain ("%s", error->message);
  return LID_EXIT_CALL;
}

static void
report (const LidPlanReport *told, gboolean json)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (json)
    lid_plan_report_json (text, told);
  else
    lid_plan_report_text (text, told);
  if (take > 0 && strcmp (out_path, "-") == 0)
    lid_complain_raw (text->str);
  else
    lid_output (text->str, (gssize)text->len);
}

static LidExit
plan_job (const char *source,
          LidOpened *opened,
          const LidStock *stock,
          const LidStockOptions *stock_options,
          LidWish *wish,
          gboolean json)
{
  g_autoptr (LidPlanAsk) ask = lid_plan_ask_new (opened->job, stock);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidPlan) plan = lid_plan_new (&ask->question, wish, NULL, &error);
  const GPtrArray *options;

  if (plan == NULL)
    return lid_failure (source, error->message, NULL, json, LID_EXIT_CALL);
  options = all ? plan->front : plan->options;
  report (&(LidPlanReport){ source, opened->job, ask, wish, plan, options }, json);
  if (options->len == 0)
    return LID_EXIT_STOPS;
  return take > 0 ? take_option (opened, ask, options, stock_options) : LID_EXIT_DONE;
}

static LidExit
run (int n_arguments, char **arguments, gboolean json)
{
  g_autoptr (LidBoard) board = NULL;
  g_autoptr (LidStock) stock = NULL;
  g_autoptr (GError) error = NULL;
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  LidStockOptions stock_options;
  LidWish wish;

  if (n_arguments != 1)
    {
      lid_complain ("%s", _ ("plan needs one job or inventory: a file, a folder or -"));
      return LID_EXIT_CALL;
    }
  if (!read_wish (&wish) || !lid_stock_options_read (&stock_options)
      || !lid_own_board (board_name, &board))
    return LID_EXIT_CALL;
  if (!lid_job_open (arguments[0], board, lid_own_parts (), &opened, &error))
    return lid_failure (arguments[0], error->message, NULL, json, LID_EXIT_UNREAD);
  if (stock_path != NULL)
    {
      g_autofree char *name = lid_plan_shelf_job (opened.job);

      stock = lid_reserved_read_stock (stock_path, &stock_options, name, &error);
      if (stock == NULL)
        return lid_failure (arguments[0], error->message, NULL, json, LID_EXIT_UNREAD);
      lid_stock_options_complain (stock_path, stock);
    }
  if (!read_money (&stock_options, stock, &wish))
    return LID_EXIT_CALL;
  return plan_job (arguments[0], &opened, stock, &stock_options, &wish, json);
}

const LidCommand lid_command_plan = {
  .name = "plan",
  .arguments = N_ ("JOB|INPUT"),
  .summary = N_ ("Work out what to move, take and buy to get where the machine shall be"),
  .details = N_ (
      "Of all populations that nothing stops and that reach the wish, those are told that none "
      "beats: for a capacity in bandwidth, money and hands; for a sum in usable capacity, "
      "bandwidth and hands; for a rearrangement in bandwidth and hands. Six of them are shown "
      "first: cheapest, fastest, fewest hands, most room left, least unsure, and the cheapest with "
      "more capacity. With --cheapest only the cheapest is looked for. Modules found cost nothing, "
      "nor do those on the job's tray with a serial number or a bin. Processors are filled alike "
      "unless --sockets-free. Exit status 3 where no plan exists."),
  .entries = entries,
  .run = run,
};
