/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "help/glossary.h"

#include "base/text.h"

#include <glib/gi18n-lib.h>

static const LidWord words[] = {
  { "fitted", N_ ("fitted"),
    N_ ("All memory that sits in slots of fitted processors or is soldered, whether the machine "
        "can use it or not. Persistent modules are not counted. 1 GB is 1024 MB."),
    LID_WORDS_FIGURES },
  { "usable", N_ ("can be used"),
    N_ ("What is left of the fitted memory after findings that stop slots, and after what the "
        "memory mode keeps for itself."),
    LID_WORDS_FIGURES },
  { "runs-at", N_ ("runs at"),
    N_ ("The running rate: the least of the modules' ratings and of what the board's rate table, "
        "processor, board, firmware and setup allow. The limit that binds is named beside it. "
        "MT/s are transfers in a second, in millions; setup may call it MHz."),
    LID_WORDS_FIGURES },
  { "bandwidth", N_ ("GB/s"),
    N_ ("What memory carries when all of it is read once, by a model: region by region, channels "
        "× rate × 8 bytes × the share of the peak that a streaming read reaches. 1 GB/s is "
        "1,000,000,000 bytes in a second."),
    LID_WORDS_FIGURES },
  { "range", N_ ("from … to … GB/s"),
    N_ ("Where memory is uneven, some regions are slower than others: the worst region and the "
        "best one. A measurement falls anywhere between them."),
    LID_WORDS_FIGURES },
  { "channels-in-use", N_ ("channels in use"),
    N_ ("How many channels of the fitted processors have a module that can be used, of all they "
        "have. The others carry nothing."),
    LID_WORDS_FIGURES },
  { "even-share", N_ ("even share"),
    N_ ("What this population carries when all of it is read once, divided by what all channels of "
        "the fitted processors would carry at the same rate. It is 100 % only if memory is even."),
    LID_WORDS_FIGURES },
  { "peak", N_ ("peak"),
    N_ ("Rate × 8 bytes × channels in use: what the wires could carry at most. Check bits do not "
        "count."),
    LID_WORDS_FIGURES },
  { "region", N_ ("region"),
    N_ ("A part of memory that is spread over the same channels. Uneven memory falls into several, "
        "and each has a bandwidth of its own."),
    LID_WORDS_FIGURES },
  { "ways", N_ ("ways"),
    N_ ("Over how many channels a region is spread, and so read at the same time. Boards know some "
        "numbers of ways only."),
    LID_WORDS_FIGURES },
  { "interleave", N_ ("interleave"),
    N_ ("To spread neighbouring pieces of memory over channels, so that they are read at the same "
        "time."),
    LID_WORDS_FIGURES },
  { "node", N_ ("node"),
    N_ ("A processor with the memory on its own channels, or a part of both where setup cuts it "
        "into several. Each node is read by its own cores."),
    LID_WORDS_FIGURES },
  { "power", N_ ("power"),
    N_ ("What the modules draw when they are busy, and give off as heat. Nobody prints it on a "
        "module: it is a range, half to one and a half of what was published of modules like them, "
        "to hold against what the supplies and the fans have left."),
    LID_WORDS_FIGURES },
  { "room", N_ ("room to grow"),
    N_ ("The empty slots, and the largest capacity reachable without pulling anything."),
    LID_WORDS_FIGURES },

  { "stops", N_ ("stops"),
    N_ ("By the rules the machine does not start, or what sits in these slots is not seen. Of a "
        "machine that was found running this is not said: there it is unsure."),
    LID_WORDS_FINDINGS },
  { "loses", N_ ("loses"), N_ ("It runs, but it loses rate, capacity or balance."),
    LID_WORDS_FINDINGS },
  { "unsure", N_ ("unsure"),
    N_ ("It depends on something the job does not hold. The finding says on what, and where that "
        "is printed."),
    LID_WORDS_FINDINGS },
  { "note", N_ ("note"), N_ ("Nothing is wrong; it is good to know, or to think of at the bench."),
    LID_WORDS_FINDINGS },
  { "finding", N_ ("finding"),
    N_ ("What the checker says of a population: stops, loses, unsure or note, with the slots it is "
        "about, why, from where that is known, and what clears it."),
    LID_WORDS_FINDINGS },
  { "remedy", N_ ("remedy"),
    N_ ("What clears a finding. Where that is moving modules, one click does it, and undo takes "
        "it back."),
    LID_WORDS_FINDINGS },
  { "basis", N_ ("basis"),
    N_ ("Where a fact or a limit comes from. Of a limit: listed, bench-proven or assumed; of a "
        "module: its label, its SPD, the inventory, stock, told, or remembered."),
    LID_WORDS_FINDINGS },
  { "listed", N_ ("listed"), N_ ("The maker's documents say so."), LID_WORDS_FINDINGS },
  { "bench-proven", N_ ("bench-proven"),
    N_ ("Somebody saw it work: who, when, and with which firmware level. It is kept apart from "
        "what is listed."),
    LID_WORDS_FINDINGS },
  { "assumed", N_ ("assumed"), N_ ("Nobody says so; it is taken for granted, and told."),
    LID_WORDS_FINDINGS },
  { "not-told", N_ ("not told"),
    N_ ("Nobody said it yet, and the program does not guess. Where it matters, a finding asks for "
        "it."),
    LID_WORDS_FINDINGS },

  { "job", N_ ("job"), N_ ("One machine, one visit: the document that is saved."), LID_WORDS_JOB },
  { "population", N_ ("population"),
    N_ ("Which processors are fitted and which module sits in which slot. A job has three: as "
        "found, planned, as left."),
    LID_WORDS_JOB },
  { "as-found", N_ ("as found"), N_ ("How the machine was when it came, before any hand."),
    LID_WORDS_JOB },
  { "planned", N_ ("planned"),
    N_ ("What the machine shall become. It begins as a copy of as found."), LID_WORDS_JOB },
  { "as-left", N_ ("as left"),
    N_ ("How the machine was when it went. It begins as a copy of what was planned."),
    LID_WORDS_JOB },
  { "tray", N_ ("tray"),
    N_ ("The modules at hand for this job: pulled, from stock, or to be bought."), LID_WORDS_JOB },
  { "stock", N_ ("stock"),
    N_ ("The shelf: a CSV file that lists its modules. It is read, never written."),
    LID_WORDS_JOB },
  { "bin", N_ ("bin"), N_ ("Where on the shelf a module lies."), LID_WORDS_JOB },
  { "reserved", N_ ("reserved"),
    N_ ("Put by for a job, in a file beside the stock, so that no other job takes the same "
        "modules."),
    LID_WORDS_JOB },
  { "bench-sheet", N_ ("bench sheet"),
    N_ ("The page to work by: what to pull, what to fit and where, cautions, and what to expect at "
        "power-on."),
    LID_WORDS_JOB },
  { "lid-sheet", N_ ("lid sheet"),
    N_ ("The page that stays inside the lid: what sits where, and what fits next."),
    LID_WORDS_JOB },
  { "balance-page", N_ ("balance page"),
    N_ ("The page that explains before and after to the owner."), LID_WORDS_JOB },
  { "prove", N_ ("prove"),
    N_ ("To hold what is seen after power-on against the planned population."), LID_WORDS_JOB },
  { "trace", N_ ("trace"),
    N_ ("To find out whether a fault follows the module or stays with the slot, or was seating, "
        "processor or margin."),
    LID_WORDS_JOB },
  { "change-over", N_ ("change-over"), N_ ("The steps from as found to planned, in order."),
    LID_WORDS_JOB },
  { "mat", N_ ("mat"),
    N_ ("Where pulled modules lie on the bench, each at a numbered place, until they are fitted "
        "again or bagged."),
    LID_WORDS_JOB },
  { "hands", N_ ("hands"),
    N_ ("How many modules are touched: each one that is pulled, fitted or moved, once. Modules "
        "that "
        "are the same stand for each other."),
    LID_WORDS_JOB },
  { "stage", N_ ("stage"),
    N_ ("One visit of a plan that takes more than one, such as tonight and later, when part of the "
        "order is missing. Nothing stops the machine after any of them."),
    LID_WORDS_JOB },
  { "pick-list", N_ ("pick list"), N_ ("What to fetch from the shelf for a plan, bin by bin."),
    LID_WORDS_JOB },

  { "board", N_ ("board"), N_ ("The definition of a machine's slots, channels, rules and limits."),
    LID_WORDS_BOARD },
  { "derived", N_ ("derived"),
    N_ ("A board made from what the machine reports alone. It is silent where it knows nothing."),
    LID_WORDS_BOARD },
  { "teach", N_ ("teach"),
    N_ ("To tell how a machine's slots are numbered, where their names do not tell their channels. "
        "It is kept for the next machine of this kind."),
    LID_WORDS_BOARD },
  { "processor", N_ ("processor"),
    N_ ("It holds the memory controllers: slots of a processor that is not fitted do nothing."),
    LID_WORDS_BOARD },
  { "socket", N_ ("socket"), N_ ("The place of a processor on the board."), LID_WORDS_BOARD },
  { "controller", N_ ("memory controller"),
    N_ ("The part of a processor that drives one or more channels."), LID_WORDS_BOARD },
  { "channel", N_ ("channel"),
    N_ ("One set of data wires from the processor to one or more slots. Channels work at the same "
        "time; the modules on one channel take turns."),
    LID_WORDS_BOARD },
  { "slot", N_ ("slot"), N_ ("Where one module goes in."), LID_WORDS_BOARD },
  { "first-slot", N_ ("first slot"),
    N_ ("The slot of a channel that is filled first: at the far end of the line. Boards mark it by "
        "colour."),
    LID_WORDS_BOARD },
  { "order", N_ ("order of fitting"), N_ ("In which order a board wants its slots filled."),
    LID_WORDS_BOARD },
  { "latch", N_ ("latch"),
    N_ ("The lever at the end of a slot that holds the module; it is drawn in the colour you see."),
    LID_WORDS_BOARD },
  { "by-channel", N_ ("by channel"),
    N_ ("The drawing that explains: processor, channels, and the slots on each. A channel is drawn "
        "as thick as what it carries."),
    LID_WORDS_BOARD },
  { "lid-off", N_ ("lid off"), N_ ("The drawing to fit by: where the slots lie on the board."),
    LID_WORDS_BOARD },
  { "firmware", N_ ("firmware level"),
    N_ ("Which firmware the machine runs; setup shows it on its first page. It decides which "
        "modules are known."),
    LID_WORDS_BOARD },
  { "setup", N_ ("setup"),
    N_ ("The machine's own screen of settings, reached at power-on. A rate set there holds the "
        "running rate down."),
    LID_WORDS_BOARD },

  { "module", N_ ("module"), N_ ("One stick of memory, with its facts and where each is from."),
    LID_WORDS_MODULE },
  { "rank", N_ ("rank"), N_ ("A set of chips that answer together; 2R on a label means two."),
    LID_WORDS_MODULE },
  { "chip-width", N_ ("chip width"),
    N_ ("How many bits one chip hands over at a time: x4, x8 or x16 on a label."),
    LID_WORDS_MODULE },
  { "unbuffered", N_ ("unbuffered"),
    N_ ("A module whose chips hang directly on the wires of the channel."), LID_WORDS_MODULE },
  { "registered", N_ ("registered"),
    N_ ("A module with a chip that passes commands and addresses on, so that a channel bears more "
        "of them."),
    LID_WORDS_MODULE },
  { "load-reduced", N_ ("load-reduced"),
    N_ ("A registered module that passes the data on as well; many ranks then count as one load."),
    LID_WORDS_MODULE },
  { "3ds", N_ ("3DS"),
    N_ ("A module whose chips are stacks of several dies, one of which drives the wires for all of "
        "them."),
    LID_WORDS_MODULE },
  { "ecc", N_ ("ECC"),
    N_ ("Check bits beside the data, on wires of their own: wrong bits are found, and single ones "
        "corrected. What DDR5 chips mend inside themselves is not that."),
    LID_WORDS_MODULE },
  { "rating", N_ ("rated rate"),
    N_ ("What the module's maker says it can run at; the machine may run it slower."),
    LID_WORDS_MODULE },
  { "spd", N_ ("SPD"), N_ ("What a module stores about itself, in a small chip."),
    LID_WORDS_MODULE },
  { "persistent", N_ ("persistent"),
    N_ ("A module that keeps data while the machine is off. It is pulled only with the owner's "
        "written release."),
    LID_WORDS_MODULE },
  { "soldered", N_ ("soldered"), N_ ("Memory that is part of the board and cannot be pulled."),
    LID_WORDS_MODULE },
  { "not-seen", N_ ("not seen"),
    N_ ("A module sits there, and the machine does not use it or does not know of it."),
    LID_WORDS_MODULE },

  { "mode", N_ ("memory mode"),
    N_ ("How the machine uses its memory: plain, or with some of it kept for protection against "
        "faults."),
    LID_WORDS_MODES },
  { "plain", N_ ("plain"), N_ ("All memory holds data once."), LID_WORDS_MODES },
  { "mirrored", N_ ("mirrored"),
    N_ ("Everything is kept twice, on two channels: half of the capacity, and a fault on one side "
        "is survived."),
    LID_WORDS_MODES },
  { "partly-mirrored", N_ ("partly mirrored"),
    N_ ("A part of memory is kept twice, at most half of it."), LID_WORDS_MODES },
  { "spared", N_ ("spared"),
    N_ ("Ranks of each channel are kept empty and take over from one that fails."),
    LID_WORDS_MODES },
  { "paired", N_ ("paired"),
    N_ ("Two channels work as one (lockstep): stronger correction, about half of the bandwidth."),
    LID_WORDS_MODES },
};

static const char *const groups[LID_N_WORD_GROUPS] = {
  [LID_WORDS_FIGURES] = N_ ("Figures"), [LID_WORDS_FINDINGS] = N_ ("Findings"),
  [LID_WORDS_JOB] = N_ ("Job"),         [LID_WORDS_BOARD] = N_ ("Board"),
  [LID_WORDS_MODULE] = N_ ("Modules"),  [LID_WORDS_MODES] = N_ ("Memory modes"),
};

/**
 * lid_glossary_all:
 * @n: (out): how many
 *
 * Returns: (transfer none): the words, by group
 */
const LidWord *
lid_glossary_all (guint *n)
{
  *n = G_N_ELEMENTS (words);
  return words;
}

/**
 * lid_glossary_find:
 * @word: an id, or the word itself in English or in the reader's language, in any case
 *
 * Returns: (transfer none) (nullable): the word
 */
const LidWord *
lid_glossary_find (const char *word)
{
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (lid_text_equal_folded (words[i].id, word) || lid_text_equal_folded (words[i].word, word)
        || lid_text_equal_folded (_ (words[i].word), word))
      return &words[i];
  return NULL;
}

/**
 * lid_glossary_group:
 *
 * Returns: (transfer none): the heading of that group, in the reader's language
 */
const char *
lid_glossary_group (LidWordGroup group)
{
  g_return_val_if_fail (group < LID_N_WORD_GROUPS, NULL);
  return _ (groups[group]);
}
