/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/board-notes.h"

#include "checks/rule.h"
#include "drawing/board-note-lines.h"

#include <glib/gi18n-lib.h>

/* Worst first, notes get their room beside the slots they speak of. Many are folded by rule; what
 * finds no room is counted at the foot. */
#define TITLE_PX 14.0
#define TEXT_PX 13.0
#define SWATCH 16.0
#define GAP 14.0       /* between notes */
#define LINK 44.0      /* what a hand hits */
#define FOOT_LINE 56.0 /* from a processor to the note beside it */

typedef struct
{
  LidBoardGeometry *g;
  const LidMeasure *measure;
  double scale;
  double used[2]; /* of the left and right margin */
  gboolean foot_taken;
} Place;

static const char *
keep (Place *place, char *text)
{
  const char *kept = g_string_chunk_insert_const (place->g->texts, text);

  g_free (text);
  return kept;
}

/* A note fits either margin. */
static double
note_width (Place *place)
{
  double left = place->g->left.width, right = place->g->right.width;

  return left > 0 ? MIN (left, right) : right;
}

/* Lays a note out from its own top; lid_board_notes_place() moves it. */
static void
lay_out (Place *place, LidBoardNote *note, double width)
{
  double swatch = SWATCH * place->scale, y;

  note->title_type = lid_theme_px (TITLE_PX * place->scale, TRUE);
  note->text_type = lid_theme_px (TEXT_PX * place->scale, FALSE);
  note->swatch = (LidBox){ 0, 1, note->finding != NULL ? swatch : 0, swatch };
  note->title_box.x = note->finding != NULL ? swatch + 7 * place->scale : 0;
  note->title_box.width = width - note->title_box.x;
  note->title_box.height = MAX (
      lid_measure_height (place->measure, note->title_type, note->title, note->title_box.width),
      swatch);
  y = note->title_box.height + 2;
  note->text_box = (LidBox){ 0, y, width, 0 };
  if (note->text != NULL)
    note->text_box.height = lid_measure_height (place->measure, note->text_type, note->text, width);
  y += note->text_box.height;
  note->link = (LidBox){ 0, y, 0, 0 };
  if (note->remedy != NULL)
    {
      LidType bold = { note->text_type.pt, TRUE };

      note->link.width
          = MIN (width, MAX (LINK, lid_measure_width (place->measure, bold, note->remedy) + 2));
      note->link.height
          = MAX (LINK, lid_measure_height (place->measure, bold, note->remedy, width) + 8);
    }
  note->box = (LidBox){ 0, 0, width, y + note->link.height };
}

static void
add_note (Place *place, const LidFinding *finding, guint n)
{
  LidBoardNote note = { .finding = finding, .n_findings = n, .grade = finding->grade };
  const char *title = finding->rule != NULL ? lid_finding_rule_title (finding) : NULL;

  if (title == NULL)
    note.title = lid_grade_to_words (finding->grade);
  else if (n > 1)
    note.title = keep (
        place, g_strdup_printf (_ ("%s: %s (%u)"), lid_grade_to_words (finding->grade), title, n));
  else
    note.title
        = keep (place, g_strdup_printf (_ ("%s: %s"), lid_grade_to_words (finding->grade), title));
  note.text = keep (place, g_strdup (finding->text != NULL ? finding->text : ""));
  if (lid_finding_remedy (finding) != NULL && lid_finding_remedy (finding)->text != NULL)
    note.remedy = keep (place, g_strdup (lid_finding_remedy (finding)->text));
  else if (finding->fact != LID_NOWHERE)
    note.remedy = keep (place, g_strdup (_ ("Type the label")));
  lay_out (place, &note, note_width (place));
  g_array_append_val (place->g->notes, note);
}

static gboolean
same_rule (const LidFinding *a, const LidFinding *b)
{
  return a->rule != NULL && a->rule == b->rule && a->grade == b->grade;
}

static void
add_all (Place *place, const GPtrArray *findings, gboolean fold)
{
  for (guint f = 0; f < findings->len; f++)
    {
      guint n = 1;
      gboolean told = FALSE;

      for (guint k = 0; fold && k < f && !told; k++)
        told = same_rule (findings->pdata[k], findings->pdata[f]);
      for (guint k = f + 1; fold && k < findings->len; k++)
        n += same_rule (findings->pdata[k], findings->pdata[f]);
      if (!told)
        add_note (place, findings->pdata[f], n);
    }
}

static double
height_of_all (const LidBoardGeometry *g)
{
  double total = 0;

  for (guint i = 0; i < g->notes->len; i++)
    total += lid_board_geometry_note (g, i)->box.height + GAP;
  return total;
}

/* What speaks of the whole machine stands beside its processors, where they are drawn below. */
static void
find_place_of_machine (const LidBoardGeometry *g, double *x, double *y)
{
  *x = (g->left.x + g->left.width + g->right.x) / 2;
  *y = g->right.y;
  for (guint i = 0; i < g->leaves->len && !g->lid_off; i++)
    {
      const LidPlacedLeaf *leaf = lid_board_geometry_leaf (g, i);

      if (!leaf->list)
        *y = MAX (*y, leaf->box.y + leaf->box.height / 2);
    }
}

static gboolean
is_of_machine (const LidBoardGeometry *g, const LidFinding *finding)
{
  return finding->n_slots == 0 || finding->n_slots * 2 > g->n_slots + 1;
}

/* Middle of the slots a note speaks of. */
static void
find_middle (const LidBoardGeometry *g, const LidBoardNote *note, double *x, double *y)
{
  const LidFinding *finding = note->finding;

  if (is_of_machine (g, finding))
    {
      find_place_of_machine (g, x, y);
      return;
    }
  *x = *y = 0;
  for (guint s = 0; s < finding->n_slots; s++)
    {
      const LidBox *box = &g->slots[finding->slots[s]].box;

      *x += (box->x + box->width / 2) / finding->n_slots;
      *y += (box->y + box->height / 2) / finding->n_slots;
    }
}

/* Beside a lone processor there is room under the slots: a note of the machine stands there, with a
 * line to it. */
static gboolean
take_foot (Place *place, LidBoardNote *note)
{
  LidBoardGeometry *g = place->g;
  const LidPlacedLeaf *leaf = g->leaves->len == 1 ? lid_board_geometry_leaf (g, 0) : NULL;
  double top = 0, x;

  if (leaf == NULL || leaf->list || g->lid_off || place->foot_taken
      || !is_of_machine (g, note->finding))
    return FALSE;
  for (guint i = 0; i < g->n_slots; i++)
    top = MAX (top, g->slots[i].box.y + g->slots[i].box.height);
  x = leaf->box.x + leaf->box.width + FOOT_LINE;
  top = MAX (top + GAP, leaf->box.y);
  if (x + note->box.width > g->right.x - GAP
      || top + note->box.height > g->right.y + g->right.height + GAP)
    return FALSE;
  note->box.x = x;
  note->box.y = top;
  note->lines[0] = (LidNoteLine){ x - 6, top + 1 + SWATCH * place->scale / 2,
                                  leaf->box.x + leaf->box.width, 0 };
  note->lines[0].y1
      = CLAMP (note->lines[0].y0, leaf->box.y + 8, leaf->box.y + leaf->box.height - 8);
  note->n_lines = 1;
  place->foot_taken = TRUE;
  return TRUE;
}

/* Moves a note to its margin; its y stays the one wished for. */
static gboolean
take_side (Place *place, LidBoardNote *note)
{
  LidBox *left = &place->g->left, *right = &place->g->right;
  double x, y, middle = (left->x + left->width + right->x) / 2;
  guint side;

  find_middle (place->g, note, &x, &y);
  /* What belongs to neither side goes where there is more room. */
  if (ABS (x - middle) < 0.06 * (right->x - left->x))
    x = middle + (place->used[0] < place->used[1] ? -1 : 1);
  side = left->width > 0 && x < middle ? 0 : 1;
  for (guint turn = 0; turn < 2; turn++, side = 1 - side)
    {
      const LidBox *m = side == 0 ? &place->g->left : &place->g->right;
      double most = m->height - (side == 1 ? TITLE_PX * place->scale * 1.6 : 0);

      if (m->width <= 0 || place->used[side] + note->box.height > most)
        continue;
      place->used[side] += note->box.height + GAP;
      note->box.x = m->x;
      note->box.y = y - TITLE_PX * place->scale;
      return TRUE;
    }
  return FALSE;
}

static int
compare_tops (gconstpointer a, gconstpointer b)
{
  const LidBoardNote *x = *(LidBoardNote *const *)a, *y = *(LidBoardNote *const *)b;

  if (x->box.y != y->box.y)
    return x->box.y < y->box.y ? -1 : 1;
  return x < y ? -1 : x > y;
}

/* Down from the top so that none overlaps, then up from the foot so that all are inside. */
static void
spread (Place *place, guint side)
{
  g_autoptr (GPtrArray) notes = g_ptr_array_new ();
  const LidBox *m = side == 0 ? &place->g->left : &place->g->right;
  double at = m->y, foot = m->y + m->height - (side == 1 ? TITLE_PX * place->scale * 1.6 : 0);

  for (guint i = 0; i < place->g->notes->len; i++)
    if (m->width > 0 && lid_board_geometry_note (place->g, i)->box.x == m->x)
      g_ptr_array_add (notes, lid_board_geometry_note (place->g, i));
  g_ptr_array_sort (notes, compare_tops);
  for (guint i = 0; i < notes->len; i++)
    {
      LidBoardNote *note = notes->pdata[i];

      note->box.y = MAX (note->box.y, at);
      at = note->box.y + note->box.height + GAP;
    }
  for (guint i = notes->len; i > 0; i--)
    {
      LidBoardNote *note = notes->pdata[i - 1];

      note->box.y = MIN (note->box.y, foot - note->box.height);
      foot = note->box.y - GAP;
    }
}

static void
move (LidBox *box, double x, double y)
{
  box->x += x;
  box->y += y;
}

static void
add_more (Place *place, guint n)
{
  LidBox m = place->g->right;
  LidBoardNote note = { .n_findings = n, .grade = LID_GRADE_NOTE };

  note.title = keep (place, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "and %u more finding",
                                                          "and %u more findings", n),
                                             n));
  lay_out (place, &note, m.width);
  note.box.height = TITLE_PX * place->scale * 1.5;
  note.box.x = m.x;
  note.box.y = m.y + m.height - note.box.height;
  g_array_append_val (place->g->notes, note);
}

/* "stops: 1 · loses: 3" */
static char *
count_grades (const GPtrArray *findings)
{
  GString *text = g_string_new (NULL);

  for (int grade = LID_GRADE_STOPS; grade >= LID_GRADE_NOTE; grade--)
    {
      guint n = 0;

      for (guint i = 0; i < findings->len; i++)
        n += ((const LidFinding *)findings->pdata[i])->grade == (LidGrade)grade;
      if (n > 0 && text->len > 0)
        g_string_append (text, " \302\267 ");
      if (n > 0)
        /* Translators: a grade, and how many findings have it: "loses: 3". */
        g_string_append_printf (text, _ ("%s: %u"), lid_grade_to_words ((LidGrade)grade), n);
    }
  return g_string_free (text, FALSE);
}

/* In a narrow window all findings are one line at the foot, which opens. */
static void
add_foot (Place *place, const GPtrArray *findings)
{
  LidBox foot = place->g->foot;
  LidBoardNote note = { .n_findings = findings->len };

  if (findings->len == 0 || foot.width <= 0)
    return;
  note.grade = ((const LidFinding *)findings->pdata[0])->grade;
  note.title = keep (place, count_grades (findings));
  lay_out (place, &note, foot.width);
  note.swatch.width = note.swatch.height;
  note.title_box.x = note.swatch.width + 7 * place->scale;
  note.box = foot;
  note.box.width
      = MIN (foot.width, note.title_box.x + 8
                             + lid_measure_width (place->measure, note.title_type, note.title));
  note.title_box.width = note.box.width - note.title_box.x;
  g_array_append_val (place->g->notes, note);
}

/* Each to its side, the worst first; what finds no room is counted. */
static void
fill_margins (Place *place, const GPtrArray *findings)
{
  LidBoardGeometry *g = place->g;
  double room = (g->left.width > 0 ? g->left.height : 0) + g->right.height;
  guint more = 0;

  add_all (place, findings, FALSE);
  if (height_of_all (g) > room * 0.75)
    {
      g_array_set_size (g->notes, 0);
      add_all (place, findings, TRUE);
    }
  for (guint i = 0; i < g->notes->len;)
    if (more == 0
        && (take_foot (place, lid_board_geometry_note (g, i))
            || take_side (place, lid_board_geometry_note (g, i))))
      i++;
    else
      {
        more += lid_board_geometry_note (g, i)->n_findings;
        g_array_remove_index (g->notes, i);
      }
  for (guint side = 0; side < 2; side++)
    spread (place, side);
  if (more > 0)
    add_more (place, more);
}

/**
 * lid_board_notes_place:
 * @geometry: its slots are placed
 * @assessment: (nullable): whose findings stand in the margin
 *
 * Fills the notes: never over the board, never over each other; their lines over no slot.
 */
void
lid_board_notes_place (LidBoardGeometry *geometry,
                       const LidAssessment *assessment,
                       const LidMeasure *measure,
                       double text_scale)
{
  Place place = { geometry, measure, text_scale, { 0, 0 }, FALSE };

  if (assessment == NULL || geometry->n_slots == 0)
    return;
  if (geometry->right.width > 0)
    fill_margins (&place, assessment->findings);
  else
    add_foot (&place, assessment->findings);
  for (guint i = 0; i < geometry->notes->len; i++)
    {
      LidBoardNote *note = lid_board_geometry_note (geometry, i);

      move (&note->swatch, note->box.x, note->box.y);
      move (&note->title_box, note->box.x, note->box.y);
      move (&note->text_box, note->box.x, note->box.y);
      move (&note->link, note->box.x, note->box.y);
      lid_board_note_lines_place (geometry, note);
    }
}
