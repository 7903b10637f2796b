// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <map>
#include <vector>

#include <tinwright/brake/machines/brake.h>
#include <tinwright/geometry/interval_set.h>

namespace tinwright {

/// Pieces taken of each tool of a brake, by ToolId.
using ToolCounts = std::vector<std::uint16_t>;

/// Every total width that strings of bars from an inventory can have: an exact subset sum, bounded by the number of
/// pieces.
class BarSums {
public:
    static constexpr int kMaxPieces = 12;            ///< of one string
    static constexpr std::size_t kMaxSums = 20'000;  ///< of one number of pieces; real inventories have a few hundred

    /// `available` pieces of each width; of strings of `most_pieces` at most.
    BarSums(const std::vector<Micron>& widths_um, const ToolCounts& available, int most_pieces = kMaxPieces);

    [[nodiscard]] int mostPieces() const { return static_cast<int>(sums_.size()) - 1; }
    /// Total widths of strings of so many pieces (0 to mostPieces()), each with one choice that has it.
    [[nodiscard]] const std::map<Micron, ToolCounts>& of(int pieces) const {
        return sums_[static_cast<std::size_t>(pieces)];
    }

private:
    std::vector<std::map<Micron, ToolCounts>> sums_;
};

/// Widths of the tools of a brake, by ToolId.
[[nodiscard]] std::vector<Micron> toolWidths_um(const Brake& brake);

}  // namespace tinwright
