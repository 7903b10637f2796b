// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstddef>
#include <span>

#include <tinwright/brake/machines/tool.h>

namespace tinwright::report {

/// What stands on a brake.
struct ToolTerms {
    struct Row {
        ToolRow row;
        const char* label;  ///< "Punches"
    };
    const char* upper_one;       ///< "bar": what the sheet is folded under or by
    const char* upper;           ///< "bars"
    const char* upper_label;     ///< "Bars"
    const char* all;             ///< "punches and dies"
    const char* all_label;       ///< "Punches and dies"
    std::span<const Row> rows;   ///< as they are told
    const char* as_before;       ///< they stand as for the fold before
    const char* held_otherwise;  ///< ends "same order": sides and tools differ
    std::size_t strings_shown;   ///< in the answer to "which of them cover this width", for each set-up
    const char* strings_are;     ///< what is to be known of that answer; empty: nothing
    const char* none_more;       ///< that would make a part go as drawn
};

/// How lines of a fold begin.
struct FoldLabels {
    const char* hold;         ///< "Hold": how the part lies
    const char* gauging;      ///< "Sight line", "Back gauge"
    const char* stroke;       ///< "Swing"
    const char* stroke_card;  ///< the same on its card of the bench sheet, where it is the figure to set
};

/// How hems are closed.
struct ClosingTerms {
    const char* closer;     ///< "a clamp": what does it
    ToolRow along;          ///< the row by which the place along the machine is told
    const char* piece;      ///< "bar": one of that row
    const char* pushed_in;  ///< "under the bars"
    const char* close;      ///< "clamp"
    const char* hands_off;  ///< the last sentence
};

/// The bench sheet.
struct SheetTerms {
    std::array<const char*, 3> set_up_heads;  ///< of the columns that setUpCells() fills
    const char* film_off;                     ///< where film is peeled
    const char* lines_marked;                 ///< which lines are marked with a pen
    bool has_sight_lines;                     ///< marked on the blank: bends are set by them
    const char* blank_lines;                  ///< which lines the blank has
    const char* room;                         ///< drawing: what would stand in the room that is free
    const char* seen_from_above;              ///< drawing: what it has
    const char* leaves_plainly;               ///< the way out that needs no more words
    const char* legend;                       ///< of the drawings of a fold
};

/// What things are called on a kind of brake, where no more than the word differs.
struct BrakeTerms {
    ToolTerms tools;
    FoldLabels fold;
    ClosingTerms closing;
    SheetTerms sheet;
    /// Of a fold that goes or fails alike whichever side is held: said instead of the side. Empty: it matters always.
    const char* either_side;
    const char* set_up_label;     ///< of what is set up for a sheet; empty: nothing is
    const char* nowhere_besides;  ///< what else keeps a part from standing anywhere; empty: nothing
};

}  // namespace tinwright::report
