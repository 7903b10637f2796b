// SPDX-License-Identifier: GPL-3.0-or-later
// Strings of punches that begin or end with a horn, against every string of small inventories.
#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

#include "random_states.h"
#include "setup/bar_strings.h"

using namespace tinwright;
using random_states::Dice;

namespace {

struct Question {
    Brake brake;
    Limits limits;
    std::vector<Interval> needs;
    HornedRequest request;
};

Interval around(const Interval& need, Micron least, Micron most, Dice& dice) {
    const auto grow = [&] { return least + 1000 * dice.below(static_cast<int>((most - least) / 1000)); };
    const Micron lo = need.lo - grow();
    return {lo, need.hi + grow()};
}

// Plain pieces first, then a left horn and a right one. What stands at the ends of the bend lets horns further out than
// plain pieces.
Question randomQuestion(Dice& dice) {
    Question question;
    question.brake.kind = PressBrake{};
    const int kinds = 1 + dice.below(2);
    for (int i = 0; i < kinds + 2; ++i) {
        Punch bar;
        bar.id = "p" + std::to_string(i);
        bar.width_mm = 8 + dice.below(50);
        bar.count = i < kinds ? 1 + dice.below(2) : 1;
        if (i >= kinds) bar.horn = Horn{5, 20, i == kinds};
        question.brake.press().punches.push_back(bar);
    }
    question.limits.bar_gap_mm = dice.below(5);
    question.limits.uncovered_end_mm = dice.below(6);
    const Interval need{0, 1000 * (30 + dice.below(90))};
    question.needs = {need};
    question.request.room = around(need, -6000, 8000, dice);
    if (dice.chance(0.7))
        question.request.left =
            HornedRequest::End{idAt<ToolId>(static_cast<std::size_t>(kinds)), around(need, -3000, 20'000, dice)};
    if (dice.chance(0.7) || !question.request.left) {
        question.request.right =
            HornedRequest::End{idAt<ToolId>(static_cast<std::size_t>(kinds) + 1), around(need, -3000, 20'000, dice)};
    }
    for (int i = 0; i < kinds + 2; ++i) question.request.allowed.push_back(i < kinds);
    question.request.needs = &question.needs;
    return question;
}

Interval roomOf(const Question& question, ToolId bar) {
    if (question.request.left && question.request.left->tool == bar) return question.request.left->room;
    if (question.request.right && question.request.right->tool == bar) return question.request.right->room;
    return question.request.room;
}

// Pieces in this order from left to right, packed so that they end as far to the left as they may; then, from the
// right, whether all are in reach of one another: each piece's leftmost place is as far as its room and its neighbour
// let it, the gap being at most the limit.
bool canStand(const Question& question, const std::vector<ToolId>& pieces) {
    const Micron gap = micronNearest(question.limits.bar_gap_mm);
    const Micron end = micronNearest(question.limits.uncovered_end_mm);
    const Interval need = question.needs.front();
    Interval starts{-kFar, need.lo + end};  // where the first may begin
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const Interval room = roomOf(question, pieces[i]);
        const Micron width = micronNearest(question.brake.press().punches[pieces[i].index()].width_mm);
        starts = {std::max(starts.lo, room.lo), std::min(starts.hi, room.hi - width)};
        if (starts.lo > starts.hi) return false;
        if (i + 1 == pieces.size()) return starts.hi + width >= need.hi - end;
        starts = {starts.lo + width, starts.hi + width + gap};
    }
    return false;
}

// Any string of up to three pieces.
bool anyStands(const Question& question) {
    std::vector<ToolId> plain;
    for (std::size_t i = 0; i < question.brake.press().punches.size(); ++i) {
        for (int k = 0; question.request.allowed[i] && k < question.brake.press().punches[i].count; ++k)
            plain.push_back(idAt<ToolId>(i));
    }
    const std::size_t horns = (question.request.left ? 1U : 0U) + (question.request.right ? 1U : 0U);
    for (std::size_t mask = 0; mask < std::size_t{1} << plain.size(); ++mask) {
        std::vector<ToolId> chosen;
        for (std::size_t i = 0; i < plain.size(); ++i) {
            if ((mask >> i & 1U) != 0) chosen.push_back(plain[i]);
        }
        if (chosen.size() + horns > 3) continue;
        std::sort(chosen.begin(), chosen.end());
        do {
            std::vector<ToolId> pieces = chosen;
            if (question.request.left) pieces.insert(pieces.begin(), question.request.left->tool);
            if (question.request.right) pieces.push_back(question.request.right->tool);
            if (canStand(question, pieces)) return true;
        } while (std::next_permutation(chosen.begin(), chosen.end()));
    }
    return false;
}

void checkString(const Question& question, const BarString& bars) {
    const Micron gap = micronNearest(question.limits.bar_gap_mm);
    const Micron end = micronNearest(question.limits.uncovered_end_mm);
    std::vector<int> used(question.brake.press().punches.size(), 0);
    for (std::size_t i = 0; i < bars.size(); ++i) {
        const Interval room = roomOf(question, bars[i].tool);
        CHECK(bars[i].at.lo >= room.lo);
        CHECK(bars[i].at.hi <= room.hi);
        CHECK(bars[i].at.length() == micronNearest(question.brake.press().punches[bars[i].tool.index()].width_mm));
        CHECK(++used[bars[i].tool.index()] <= question.brake.press().punches[bars[i].tool.index()].count);
        if (i > 0) CHECK(bars[i].at.lo >= bars[i - 1].at.hi);
        if (i > 0) CHECK(bars[i].at.lo - bars[i - 1].at.hi <= gap);
    }
    CHECK(bars.front().at.lo <= question.needs.front().lo + end);
    CHECK(bars.back().at.hi >= question.needs.front().hi - end);
    if (question.request.left) CHECK(bars.front().tool == question.request.left->tool);
    if (question.request.right) CHECK(bars.back().tool == question.request.right->tool);
}

}  // namespace

TEST_CASE("horned strings: what is offered stands in its rooms and covers the bend, and little that stands is missed") {
    int stands = 0;
    int found = 0;
    for (std::uint64_t seed = 0; seed < 4000; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        const Question asked = randomQuestion(dice);
        Question question = asked;
        question.request.needs = &question.needs;
        BarStrings strings(inVee(question.brake, Vee{}, 1), question.limits);
        bool offered = false;
        static_cast<void>(strings.chooseHorned(question.request, [&](const BarString& bars) {
            checkString(question, bars);
            offered = true;
            return false;
        }));
        if (!anyStands(question)) continue;
        ++stands;
        found += offered ? 1 : 0;
    }
    INFO(found << " of " << stands);
    CHECK(stands > 500);
    CHECK(found > stands * 97 / 100);
}
