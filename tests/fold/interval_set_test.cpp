// SPDX-License-Identifier: GPL-3.0-or-later
// Interval sets against a map of single cells.

#include <catch2/catch.hpp>

#include <array>

#include <tinwright/geometry/interval_set.h>

#include "random_states.h"

using namespace tinwright;
using random_states::Dice;

namespace {

constexpr int kCells = 64;
constexpr int kOffset = 16;  // cell 0 is the interval (-16, -15)
using Cells = std::array<bool, kCells>;

Interval cell(int i) { return {i - kOffset, i - kOffset + 1}; }

// Open intervals that touch are merged, so a set is the cells within it.
Cells cellsOf(const IntervalSet& set) {
    Cells cells{};
    for (const Interval& item : set.items()) {
        for (int i = 0; i < kCells; ++i)
            cells[static_cast<std::size_t>(i)] |= item.lo <= cell(i).lo && cell(i).hi <= item.hi;
    }
    return cells;
}

Interval randomInterval(Dice& dice) {
    const int lo = dice.below(30);
    return {lo, lo + dice.below(6) - 1};  // some are empty
}

void requireOrdered(const IntervalSet& set) {
    for (std::size_t i = 0; i < set.items().size(); ++i) {
        REQUIRE_FALSE(set.items()[i].empty());
        if (i > 0) REQUIRE(set.items()[i - 1].hi < set.items()[i].lo);
    }
}

struct Twin {
    IntervalSet set;
    Cells cells{};
    void add(Interval interval) {
        set.add(interval);
        for (int i = 0; i < kCells; ++i)
            cells[static_cast<std::size_t>(i)] |= interval.lo <= cell(i).lo && cell(i).hi <= interval.hi;
    }
};

Twin randomTwin(Dice& dice) {
    Twin congruent;
    for (int k = dice.below(7); k > 0; --k) congruent.add(randomInterval(dice));
    return congruent;
}

template <class Rule>
Cells combined(const Cells& a, const Cells& b, Rule rule) {
    Cells result{};
    for (std::size_t i = 0; i < a.size(); ++i) result[i] = rule(a[i], b[i]);
    return result;
}

bool at(const Cells& cells, int i) { return i >= 0 && i < kCells && cells[static_cast<std::size_t>(i)]; }

}  // namespace

TEST_CASE("Interval sets do what cells do: unions and differences and overlaps") {
    Dice dice(1);
    for (int round = 0; round < 5000; ++round) {
        CAPTURE(round);
        const Twin a = randomTwin(dice);
        const Twin b = randomTwin(dice);
        requireOrdered(a.set);
        REQUIRE(cellsOf(a.set) == a.cells);
        IntervalSet sum = a.set;
        sum.add(b.set);
        IntervalSet rest = a.set;
        rest.subtract(b.set);
        requireOrdered(sum);
        requireOrdered(rest);
        CHECK(cellsOf(sum) == combined(a.cells, b.cells, [](bool x, bool y) { return x || y; }));
        CHECK(cellsOf(rest) == combined(a.cells, b.cells, [](bool x, bool y) { return x && !y; }));
        CHECK(cellsOf(a.set.intersect(b.set)) == combined(a.cells, b.cells, [](bool x, bool y) { return x && y; }));
        Micron length = 0;
        for (const bool is_in : a.cells) length += is_in ? 1 : 0;
        CHECK(a.set.length() == length);
    }
}

TEST_CASE("Interval sets do what cells do: questions about one interval") {
    Dice dice(2);
    for (int round = 0; round < 5000; ++round) {
        CAPTURE(round);
        const Twin a = randomTwin(dice);
        Interval one = randomInterval(dice);
        if (one.empty()) one.hi = one.lo + 1;
        Twin within;
        within.add(one);
        const Cells common = combined(a.cells, within.cells, [](bool x, bool y) { return x && y; });
        const Cells missing = combined(a.cells, within.cells, [](bool x, bool y) { return !x && y; });
        CHECK(a.set.meets(one) == (common != Cells{}));
        CHECK(a.set.covers(one) == (missing == Cells{}));
        CHECK(cellsOf(a.set.gapsIn(one)) == missing);
    }
}

TEST_CASE("Interval sets do what cells do: growing and shrinking and shifting") {
    Dice dice(3);
    for (int round = 0; round < 5000; ++round) {
        CAPTURE(round);
        const Twin a = randomTwin(dice);
        const int by = dice.below(5);
        Cells grown{}, shrunk{}, shifted{};
        for (int i = 0; i < kCells; ++i) {
            bool any = false, all = true;
            for (int k = -by; k <= by; ++k) any = any || at(a.cells, i + k), all = all && at(a.cells, i + k);
            grown[static_cast<std::size_t>(i)] = any;
            shrunk[static_cast<std::size_t>(i)] = all;
            shifted[static_cast<std::size_t>(i)] = at(a.cells, i - by);
        }
        requireOrdered(a.set.grown(by));
        CHECK(cellsOf(a.set.grown(by)) == grown);
        CHECK(cellsOf(a.set.grown(-by)) == shrunk);
        CHECK(cellsOf(a.set.shifted(by)) == shifted);
    }
}
