/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-frame.h"

#include "board/slot-names.h"

#include <glib/gi18n-lib.h>

static double
grow (const LidSheet *sheet, double pt)
{
  return sheet->options.half ? pt * 0.8 : pt;
}

/* As large as half of the width allows: "2.2 TB (2304 GB)" on half a page has to be a little less.
 */
static LidType
type_of_total (const LidSheet *sheet, const LidMeasure *measure, const char *total, double room)
{
  LidType type = { grow (sheet, 27), TRUE };

  while (type.pt > 12.5 && lid_measure_width (measure, type, total) > room)
    type.pt -= 0.5;
  return type;
}

static void
put_stamp (LidPage *page, const LidMeasure *measure, double x, double y, const char *stamp)
{
  LidType type = { 10, TRUE };
  double width = lid_measure_width (measure, type, stamp), line = lid_measure_line (type);
  LidItem *frame
      = lid_sheet_add (page, LID_ITEM_FRAME, (LidBox){ x, y - 0.8, width + 5, line + 1.6 });

  frame->weight = 0.65;
  lid_sheet_line (page, (LidBox){ x + 2.5, y, width, line }, type, LID_ALIGN_LEFT, stamp);
}

/* Pages after the first say which machine they belong to, and no more. */
static double
put_short_head (LidSheet *sheet, LidPage *page, const LidSheetHead *head)
{
  LidType title = { grow (sheet, 13), TRUE }, sub = { MAX (grow (sheet, 9.5), 8), FALSE };
  double width = sheet->width - 2 * sheet->margin, y = sheet->margin;
  double line = lid_measure_line (title);

  lid_sheet_line (page, (LidBox){ sheet->margin, y, width * 0.6, line }, title, LID_ALIGN_LEFT,
                  sheet->title);
  lid_sheet_line (page, (LidBox){ sheet->margin + width * 0.62, y + 0.9, width * 0.38, line }, sub,
                  LID_ALIGN_RIGHT, head->left);
  lid_sheet_rule (page, sheet->margin, y + line + 1.2, width, 0.5);
  return y + line + 1.2 + 4;
}

/**
 * lid_sheet_frame_head:
 *
 * Returns: where the body begins, mm from the top
 */
double
lid_sheet_frame_head (LidSheet *sheet,
                      LidPage *page,
                      const LidMeasure *measure,
                      const LidSheetHead *head)
{
  double width = sheet->width - 2 * sheet->margin, x = sheet->margin, y = sheet->margin;
  LidType title = { grow (sheet, 20), TRUE }, sub = { MAX (grow (sheet, 10), 8), FALSE };
  LidType total = type_of_total (sheet, measure, head->total, width * 0.5 - 1);
  double high = lid_measure_line (total), line = lid_measure_line (sub);
  double right = MAX (lid_measure_width (measure, total, head->total),
                      lid_measure_width (measure, sub, head->right));
  double left, at;

  if (sheet->pages->len > 1)
    return put_short_head (sheet, page, head);
  right = MIN (right + 1, width * 0.5);
  left = width - right - 4;
  lid_sheet_line (page, (LidBox){ x + width - right, y - 1.5, right, high }, total, LID_ALIGN_RIGHT,
                  head->total);
  at = y + high - 1.5 - lid_measure_line (title);
  lid_sheet_line (page, (LidBox){ x, at, left, lid_measure_line (title) }, title, LID_ALIGN_LEFT,
                  sheet->title);
  y += high - 0.5;
  lid_sheet_line (page, (LidBox){ x + width - right, y, right, line }, sub, LID_ALIGN_RIGHT,
                  head->right);
  if (head->who[0] != 0)
    {
      lid_sheet_line (page, (LidBox){ x, y, left, line }, sub, LID_ALIGN_LEFT, head->who);
      y += line + 0.8;
    }
  lid_sheet_line (page, (LidBox){ x, y, left, line }, sub, LID_ALIGN_LEFT, head->left);
  if (head->stamp != NULL)
    {
      double stamp = lid_measure_width (measure, (LidType){ 10, TRUE }, head->stamp) + 5;

      put_stamp (page, measure, x + width - stamp, y + 0.6, head->stamp);
      y += 1.2;
    }
  y += line + 1.8;
  lid_sheet_rule (page, x, y, width, 0.65);
  return y + 4.5;
}

static const char *
foot_text (const LidSheet *sheet)
{
  if (sheet->options.what == LID_SHEET_LID)
    return _ ("Tape all four edges. Not over vents, fans, labels or the intrusion switch. The "
              "machine maker's service guide and local rules come first.");
  if (sheet->options.what == LID_SHEET_BALANCE)
    return _ ("What is marked as a model is reckoned, not measured.");
  return _ ("The machine maker's service guide and local rules come first.");
}

static LidBox
foot_box (const LidSheet *sheet, const LidMeasure *measure)
{
  LidType type = { 8, FALSE };
  double width = sheet->width - 2 * sheet->margin - 34;
  double height = lid_measure_height (measure, type, foot_text (sheet), width);

  return (LidBox){ sheet->margin, sheet->height - sheet->margin - height, width, height };
}

/**
 * lid_sheet_frame_foot_height:
 *
 * Returns: the room the foot takes above the margin, with the air over it
 */
double
lid_sheet_frame_foot_height (const LidSheet *sheet, const LidMeasure *measure)
{
  return foot_box (sheet, measure).height + 3;
}

/**
 * lid_sheet_frame_foot:
 *
 * Puts the foot on every page there is; called last, when their number is known.
 */
void
lid_sheet_frame_foot (LidSheet *sheet, const LidMeasure *measure, const LidSheetSource *source)
{
  LidBox box = foot_box (sheet, measure);
  LidType type = { 8, FALSE };

  for (guint i = 0; i < sheet->pages->len; i++)
    {
      LidPage *page = sheet->pages->pdata[i];
      const char *number
          = lid_sheet_keep (sheet, g_strdup_printf (_ ("page %u of %u"), i + 1, sheet->pages->len));

      lid_sheet_text (page, box, type, LID_ALIGN_LEFT, foot_text (sheet));
      lid_sheet_line (page,
                      (LidBox){ sheet->width - sheet->margin - 32,
                                sheet->height - sheet->margin - lid_measure_line (type), 32,
                                lid_measure_line (type) },
                      type, LID_ALIGN_RIGHT, number);
    }
}

/* A row of swatches under the drawing, broken where the width ends. */
typedef struct
{
  LidSheet *sheet;
  LidPage *page; /* NULL: only reckon */
  const LidMeasure *measure;
  LidBox area;
  double x, y;
} Key;

static const LidType key_type = { 8, FALSE };

static void
put_key (Key *key, LidItemKind kind, guint number, gboolean broken, double weight, const char *text)
{
  double line = lid_measure_line (key_type), swatch = kind == LID_ITEM_TEXT ? 0 : 6.2;
  double width = lid_measure_width (key->measure, key_type, text);
  LidItem *item;

  if (key->x > key->area.x && key->x + swatch + width > key->area.x + key->area.width)
    {
      key->x = key->area.x;
      key->y += line + 1.2;
    }
  width = MIN (width, key->area.width - swatch);
  if (key->page != NULL && kind != LID_ITEM_TEXT)
    {
      item = lid_sheet_add (
          key->page, kind,
          (LidBox){ key->x, key->y + (line - 3.3) / 2, kind == LID_ITEM_RING ? 3.3 : 4.8, 3.3 });
      item->number = number;
      item->broken = broken;
      item->weight = weight;
      item->type = (LidType){ 6.5, TRUE };
    }
  if (key->page != NULL)
    lid_sheet_line (key->page, (LidBox){ key->x + swatch, key->y, width, line }, key_type,
                    LID_ALIGN_LEFT, text);
  key->x += swatch + width + 5;
}

static void
put_findings_key (Key *key, const LidMachine *machine)
{
  static const LidGrade grades[] = { LID_GRADE_STOPS, LID_GRADE_LOSES };

  for (guint g = 0; g < G_N_ELEMENTS (grades); g++)
    for (guint i = 0; i < machine->sheet->n_slots; i++)
      if (machine->sheet->looks[i].finding == lid_theme_hatch (grades[g]))
        {
          put_key (key, LID_ITEM_PATTERN, lid_theme_hatch (grades[g]), FALSE, 0.3,
                   lid_grade_to_words (grades[g]));
          break;
        }
}

static void
put_latch_key (Key *key, const LidMachine *machine)
{
  g_autoptr (LidLatchKey) latches = lid_slot_look_latches (machine->board);

  for (guint l = 0; l < latches->n_latches; l++)
    put_key (
        key, LID_ITEM_PATTERN, lid_theme_latch (l, latches->n_latches), FALSE, 0.3,
        lid_sheet_keep (machine->sheet, g_strdup_printf (_ ("%s latch"), latches->latches[l])));
}

static void
put_mark_key (Key *key, const LidMachine *machine, LidMark mark)
{
  static const char *const words[] = { NULL,
                                       N_ ("new"),
                                       N_ ("from another slot"),
                                       N_ ("pull, stays empty"),
                                       N_ ("soldered"),
                                       N_ ("in the slot, not seen") };
  gboolean owner = machine->sheet->options.what == LID_SHEET_BALANCE;

  if (!machine->plain)
    put_key (key, LID_ITEM_MARK, mark, FALSE, 0.3,
             owner && mark == LID_MARK_LEAVES ? _ ("empty afterwards") : _ (words[mark]));
  else if (mark == LID_MARK_NEW || mark == LID_MARK_MOVED)
    put_key (key, LID_ITEM_PATTERN, mark == LID_MARK_NEW ? LID_HATCH_UPRIGHT : LID_HATCH_ACROSS,
             FALSE, 0.3, _ (words[mark]));
}

static void
put_outline_key (Key *key, const LidMachine *machine)
{
  gboolean heavy = FALSE, empty = FALSE, marks[LID_MARK_NOT_SEEN + 1] = { FALSE };
  gboolean owner = machine->sheet->options.what == LID_SHEET_BALANCE;

  for (guint i = 0; i < machine->sheet->n_slots; i++)
    {
      const LidSlotLook *look = &machine->sheet->looks[i];

      heavy |= look->heavy;
      empty |= look->empty;
      marks[look->mark] = TRUE;
    }
  if (machine->any_ring)
    put_key (key, LID_ITEM_RING, 1, FALSE, 0.3,
             machine->sheet->options.what == LID_SHEET_BENCH ? _ ("order of fitting")
                                                             : _ ("fill next, in this order"));
  for (guint m = LID_MARK_NEW; m <= LID_MARK_NOT_SEEN; m++)
    if (marks[m])
      put_mark_key (key, machine, (LidMark)m);
  if (machine->plain)
    put_key (key, LID_ITEM_PATTERN, LID_HATCH_SOLID, FALSE, 0.3, _ ("stays"));
  else if (heavy)
    put_key (key, LID_ITEM_FRAME, 0, FALSE, lid_theme_print ()->line,
             owner ? _ ("stays") : _ ("leave alone"));
  if (empty)
    put_key (key, LID_ITEM_FRAME, 0, TRUE, lid_theme_print ()->line, _ ("empty"));
}

/**
 * lid_sheet_frame_key:
 * @page: (nullable): NULL to learn the height only
 * @area: left, top and width count
 *
 * Returns: the height of the key, mm
 */
double
lid_sheet_frame_key (LidSheet *sheet,
                     LidPage *page,
                     const LidMeasure *measure,
                     const LidMachine *machine,
                     const LidSheetSource *source,
                     LidBox area)
{
  Key key = { sheet, page, measure, area, area.x, area.y };

  if (source->job->board->derived)
    put_key (&key, LID_ITEM_TEXT, 0, FALSE, 0,
             _ ("Names as the firmware reports them; compare with the print on the board."));
  if (lid_slot_names_caveat (source->job->board) != NULL)
    put_key (&key, LID_ITEM_TEXT, 0, FALSE, 0, lid_slot_names_caveat (source->job->board));
  put_outline_key (&key, machine);
  if (sheet->options.what != LID_SHEET_BALANCE)
    put_latch_key (&key, machine);
  put_findings_key (&key, machine);
  if (key.x == area.x && key.y == area.y)
    return 0;
  return key.y - area.y + lid_measure_line (key_type);
}

double
lid_sheet_frame_sign_height (const LidSheet *sheet)
{
  return sheet->options.what == LID_SHEET_BENCH ? 16 : 0;
}

/**
 * lid_sheet_frame_sign:
 * @bottom: lower edge of the block, mm from the top
 *
 * The lines a bench sheet is signed on; a lid sheet has none.
 */
void
lid_sheet_frame_sign (LidSheet *sheet, LidPage *page, double bottom)
{
  static const char *const lines[]
      = { N_ ("Fitted by"), N_ ("Date"), N_ ("Memory test passed"), N_ ("Checked by") };
  LidType type = { 8, FALSE };
  double line = lid_measure_line (type), gap = 6;
  double width = (sheet->width - 2 * sheet->margin - 3 * gap) / 4;

  if (sheet->options.what != LID_SHEET_BENCH)
    return;
  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      double x = sheet->margin + i * (width + gap);

      lid_sheet_rule (page, x, bottom - line - 1, width, 0.3);
      lid_sheet_line (page, (LidBox){ x, bottom - line, width, line }, type, LID_ALIGN_LEFT,
                      _ (lines[i]));
    }
}

/**
 * lid_sheet_frame_notes:
 * @area: what is left of the page
 *
 * Room to write: notes of the bench, or what the next ones change.
 */
void
lid_sheet_frame_notes (LidSheet *sheet, LidPage *page, LidBox area)
{
  LidType head = { sheet->options.half ? 10 : 11.5, TRUE };
  double line = lid_measure_line (head), pitch = 8.5;
  guint n = (guint)MAX (0, (area.height - line - 1) / pitch);

  if (n == 0)
    return;
  lid_sheet_line (page, (LidBox){ area.x, area.y, area.width, line }, head, LID_ALIGN_LEFT,
                  sheet->options.what == LID_SHEET_BENCH
                      ? _ ("Notes")
                      : _ ("Changed later: date, slot, what, who"));
  for (guint i = 1; i <= n; i++)
    lid_sheet_rule (page, area.x, area.y + line + i * pitch, area.width, lid_theme_print ()->thin);
}
