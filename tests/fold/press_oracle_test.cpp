// SPDX-License-Identifier: GPL-3.0-or-later
// The kernel against libfcl for press brakes: random states, and those that once were found wrong in long runs.

#include <catch2/catch.hpp>

#include <cstdlib>

#include "kernel_compare.h"

using tinwright::oracle::Tally;

namespace {

constexpr int kCases = 50;
constexpr int kStates = 5;  // of each case
// Of what the kernel calls impossible at a random place, how much the library may find clear.
constexpr double kCarefulShare = 0.03;

long counted(const Tally& tally, const char* what) {
    const auto found = tally.more.find(what);
    return found == tally.more.end() ? 0 : found->second;
}

}  // namespace

TEST_CASE("The kernel agrees with libfcl on random states of press brakes") {
    Tally tally;
    for (int i = 0; i < kCases; ++i)
        tinwright::oracle::comparePressCase(600'000 + static_cast<std::uint64_t>(i), kStates, tally);
    INFO(tally.text());
    if (std::getenv("TINWRIGHT_TALLY") != nullptr) WARN(tally.text());
    CHECK(tally.states == kCases * kStates);
    CHECK(tally.dangerous.empty());
    CHECK(tally.unconfirmed.empty());
    CHECK(static_cast<double>(tally.clear_after_all) <= kCarefulShare * static_cast<double>(tally.called_impossible));
    CHECK(tally.pairs_clear_after_all == 0);
    // The states must ask something: places of both kinds, witnesses, pairs, tools that suit the bend and such as do
    // not, and pieces that stand where they do for their horn or their hollow alone.
    CHECK(tally.free_checked > 10'000);
    CHECK(tally.called_impossible > 1000);
    CHECK(tally.witnesses_checked > 1000);
    CHECK(tally.pairs_impossible > 5);
    CHECK(counted(tally, "dies that suit the bend") > 100);
    CHECK(counted(tally, "dies that do not suit the bend") > 5);
    CHECK(counted(tally, "punches that do not suit the bend") > 0);
    CHECK(counted(tally, "pieces free for their horn") > 30);
    CHECK(counted(tally, "pieces free for their hollow") > 30);
    CHECK(counted(tally, "whole strokes possible") > 50);
}

// Found here first: a wall near the strip, bent past a right angle, leans over the other side and comes down on the die
// where no sheet lies beside the strip.
TEST_CASE("The kernel agrees with libfcl: a wall that leans over the other shoulder of the V") {
    Tally tally;
    for (const std::uint64_t seed : {85, 99, 110, 131, 158}) tinwright::oracle::comparePressCase(seed, kStates, tally);
    INFO(tally.text());
    CHECK(tally.dangerous.empty());
    CHECK(tally.unconfirmed.empty());
}
