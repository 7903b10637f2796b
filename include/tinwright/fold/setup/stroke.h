// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include <tinwright/base/ids.h>
#include <tinwright/base/stroke.h>
#include <tinwright/brake/plan/reason.h>
#include <tinwright/brake/plan/setup_piece.h>
#include <tinwright/geometry/interval_set.h>

namespace tinwright {

/// A stroke of a state as it is listed.
struct ListedStroke {
    Stroke stroke;
    bool whole_line = true;  ///< it folds all unformed bends of the line
};

/// What stands on the machine.
struct Setup {
    std::size_t face = 0;            ///< of the machine, packed up or not
    std::vector<SetupPiece> pieces;  ///< ascending in x
    friend bool operator==(const Setup&, const Setup&) = default;
};

/// What one check came to.
struct StrokeResult {
    StrokeAnswer answer = StrokeAnswer::kImpossible;
    bool tight = false;  ///< possible, but nearer somewhere than the shop wants
    Setup setup;
    std::size_t packing = 0;         ///< under the sheet: Machine::packing
    Micron part_x_um = 0;            ///< machine x of the fold's x = 0
    bool plain_ways = true;          ///< FoldStep::plain_ways
    std::optional<ReasonCode> code;  ///< why not; none when it is possible
};

/// What any stroke that folds a bend takes at least.
struct StrokeLowerBound {
    bool possible = true;  ///< false: none is possible, nor undecided
    bool plain = true;     ///< false: loading or unloading is always something special
    int pieces = 1;        ///< bars, each no wider than `widest_um`, that stand over the bend
    Micron widest_um = 0;
};

/// What is asked of a stroke.
enum class Demand {
    kPossible,  ///< that the part as drawn can be folded
    kHolds,     ///< that every part within the shop's tolerances is shown to be (Holding)
};

}  // namespace tinwright
