// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <tuple>
#include <utility>
#include <vector>

#include <tinwright/sequence/states/oracle.h>

namespace tinwright::test {

/// An order found by trying all sequences; written from the header of the search, not from its code.
struct BruteOrder {
    Spoils spoils;
    bool tight = false;
    std::int64_t time_ms = 0;
    std::int64_t larger_behind = 0;
    std::int64_t pieces = 0;
    std::int64_t clearance_um = 0;
    std::vector<Stroke> sequence;
    bool uses_undecided = false;

    [[nodiscard]] auto key() const {
        return std::tuple(spoils, tight, time_ms, larger_behind, pieces, -clearance_um, sequence);
    }
};

/// All orders, best first; with undecided folds taken as possible when asked.
[[nodiscard]] std::vector<BruteOrder> allOrders(FoldOracle& oracle, BendMask formed, bool with_undecided);
/// Of a sorted list the first of each likeness: orders whose steps fold bends of the same kinds, held the same way.
[[nodiscard]] std::vector<BruteOrder> firstOfEachLike(const FoldOracle& oracle, const std::vector<BruteOrder>& orders);
/// Whether an order is left when nothing is forbidden but what these facts say of strokes.
[[nodiscard]] bool bruteAdmits(FoldOracle& oracle, BendMask formed,
                               const std::vector<ForbiddenStroke>& forbidden_strokes);
/// Sequences of countable steps, walked one by one. Undecided counts as impossible.
[[nodiscard]] std::uint64_t bruteFeasibleCount(FoldOracle& oracle, BendMask formed);
[[nodiscard]] std::uint64_t bruteTotalCount(FoldOracle& oracle, BendMask formed);
[[nodiscard]] BendMask bruteDeepestDeadEnd(FoldOracle& oracle, BendMask formed);

}  // namespace tinwright::test
