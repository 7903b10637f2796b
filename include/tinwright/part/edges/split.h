// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include <tinwright/part/model/part.h>

/// What becomes of a part when a bend is not made, or a flange does not reach into a corner: the seam is welded then.
namespace tinwright {

/// A part cut in two along a bend. Both keep their place in the blank's coordinates and their names.
struct SplitPart {
    Part rest;                       ///< keeps the strip of the bend, flat: the seam lies about on the outer mould line
    Part piece;                      ///< what hung on the bend; its base is the bend's child
    std::vector<BendId> rest_bends;  ///< of the part, by bend of the rest
    std::vector<BendId> piece_bends;  ///< of the part, by bend of the piece
};
[[nodiscard]] SplitPart splitAt(const Part& part, BendId bend);

enum class SpanEnd { kFrom, kTo };  ///< of a bend line, along it

/// A flange, with all that hangs on it, cut off square to its bend, so much from where it ends. None when a bend on it
/// lies across the cut, or when a panel would vanish or fall apart.
[[nodiscard]] std::optional<Part> withEndCutBack(const Part& part, BendId bend, SpanEnd end, double by_mm);
/// The same, cut off at a slant that leans in from where the flange starts and ends; its own bend keeps its length.
[[nodiscard]] std::optional<Part> withEndSlanted(const Part& part, BendId bend, SpanEnd end, Angle slant);

}  // namespace tinwright
