// SPDX-License-Identifier: GPL-3.0-or-later
// Strings of bars against every subset of small inventories.

#include <catch2/catch.hpp>

#include <algorithm>
#include <bit>
#include <optional>
#include <string>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

#include "machine/machine.h"
#include "random_states.h"
#include "setup/bar_strings.h"

using namespace tinwright;
using random_states::Dice;

namespace {

struct Question {
    Brake brake;
    Limits limits;
    std::vector<std::pair<Interval, Interval>> stretches;  // need, and the free stretch it lies in
    [[nodiscard]] BarRequest request() const {
        BarRequest request;
        for (const auto& [need, free] : stretches) request.needs.push_back(need), request.free.add(free);
        request.allowed.assign(brake.leaf().bars.size(), true);
        return request;
    }
};

Interval randomFree(const Interval& need, Dice& dice) {
    return {need.lo - 1000 * (dice.below(20) - 4), need.hi + 1000 * (dice.below(20) - 4)};
}

Question randomQuestion(int stretches, Dice& dice) {
    Question question;
    const int kinds = 1 + dice.below(3);
    for (int i = 0; i < kinds; ++i) {
        Bar bar;
        bar.id = "b" + std::to_string(i);
        bar.width_mm = 5 + dice.below(40);
        bar.count = 1 + dice.below(3);
        question.brake.leaf().bars.push_back(bar);
    }
    question.limits.bar_gap_mm = dice.below(5);
    question.limits.uncovered_end_mm = dice.below(6);
    for (int i = 0; i < stretches; ++i) {
        const Micron lo = i * 1'000'000;
        const Interval need{lo, lo + 1000 * (15 + dice.below(100))};
        question.stretches.emplace_back(need, randomFree(need, dice));
    }
    return question;
}

// Whether n pieces of this width together, with gaps of up to the limit between them, can stand in the free stretch and
// leave no more open at either end of the need than is allowed.
bool canStand(const Question& question, std::size_t stretch, Micron width, int pieces) {
    const auto& [need, free] = question.stretches[stretch];
    const Micron gap = micronNearest(question.limits.bar_gap_mm);
    const Micron end = micronNearest(question.limits.uncovered_end_mm);
    const Micron from = need.lo + end;
    const Micron to = need.hi - end;
    if (pieces == 0 || width > free.length() || free.lo > from || free.hi < to) return false;
    return width + gap * (pieces - 1) >= to - from;
}

// Least number of pieces over every way to deal the inventory to the stretches; none when nothing will do.
std::optional<int> fewest(const Question& question) {
    std::vector<Micron> pieces;
    for (const Bar& bar : question.brake.leaf().bars) {
        for (int k = 0; k < bar.count; ++k) pieces.push_back(micronNearest(bar.width_mm));
    }
    const std::size_t stretches = question.stretches.size();
    std::vector<std::size_t> deal(pieces.size(), 0);  // 0: left in the box, else stretch + 1
    std::optional<int> best;
    for (;;) {
        std::vector<Micron> width(stretches, 0);
        std::vector<int> count(stretches, 0);
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            if (deal[i] > 0) width[deal[i] - 1] += pieces[i], ++count[deal[i] - 1];
        }
        int all = 0;
        bool stands = true;
        for (std::size_t s = 0; s < stretches; ++s)
            stands = stands && canStand(question, s, width[s], count[s]), all += count[s];
        if (stands && (!best || all < *best)) best = all;
        std::size_t digit = 0;
        while (digit < deal.size() && ++deal[digit] > stretches) deal[digit++] = 0;
        if (digit == deal.size()) return best;
    }
}

// The rules, looked at micrometre places only where something begins or ends.
void requireSound(const Question& question, const BarString& bars) {
    const Micron gap = micronNearest(question.limits.bar_gap_mm);
    const Micron end = micronNearest(question.limits.uncovered_end_mm);
    std::vector<int> used(question.brake.leaf().bars.size(), 0);
    for (const StandingTool& bar : bars) {
        ++used[bar.tool.index()];
        REQUIRE(bar.at.length() == micronNearest(question.brake.leaf().bars[bar.tool.index()].width_mm));
        REQUIRE(std::any_of(question.stretches.begin(), question.stretches.end(), [&](const auto& stretch) {
            return stretch.second.lo <= bar.at.lo && bar.at.hi <= stretch.second.hi;
        }));
    }
    for (std::size_t i = 0; i < used.size(); ++i) REQUIRE(used[i] <= question.brake.leaf().bars[i].count);
    for (const auto& stretch : question.stretches) {
        std::vector<Interval> here;
        for (const StandingTool& bar : bars) {
            if (stretch.second.lo <= bar.at.lo && bar.at.hi <= stretch.second.hi) here.push_back(bar.at);
        }
        std::sort(here.begin(), here.end(), [](Interval a, Interval b) { return a.lo < b.lo; });
        REQUIRE_FALSE(here.empty());
        REQUIRE(here.front().lo <= stretch.first.lo + end);
        REQUIRE(here.back().hi >= stretch.first.hi - end);
        for (std::size_t i = 1; i < here.size(); ++i) {
            REQUIRE(here[i].lo >= here[i - 1].hi);
            REQUIRE(here[i].lo - here[i - 1].hi <= gap);
        }
    }
}

std::string told(const Question& question) {
    std::string text = "gap " + std::to_string(question.limits.bar_gap_mm) + " end " +
                       std::to_string(question.limits.uncovered_end_mm);
    for (const Bar& bar : question.brake.leaf().bars)
        text += "; " + std::to_string(bar.count) + " x " + std::to_string(bar.width_mm);
    for (const auto& [need, free] : question.stretches) {
        text += "; need " + std::to_string(need.lo) + ".." + std::to_string(need.hi) + " in " +
                std::to_string(free.lo) + ".." + std::to_string(free.hi);
    }
    return text;
}

void compare(int stretches, int rounds, std::uint64_t seed) {
    Dice dice(seed);
    int possible = 0;
    for (int round = 0; round < rounds; ++round) {
        const Question question = randomQuestion(stretches, dice);
        INFO("seed " << seed << " round " << round << ": " << told(question));
        BarStrings strings(inSetup(question.brake, 1), question.limits);
        BarString chosen;
        int offered = 0;
        bool cut_short = false;
        const bool found = strings.choose(
            question.request(), [&](const BarString& bars) { return chosen = bars, true; }, offered, cut_short);
        const std::optional<int> least = fewest(question);
        REQUIRE(found == least.has_value());
        if (!found) continue;
        ++possible;
        requireSound(question, chosen);
        REQUIRE(static_cast<int>(chosen.size()) == *least);
    }
    CHECK(possible > rounds / 20);
}

}  // namespace

TEST_CASE("A string of bars has the fewest pieces that any subset of the inventory allows") { compare(1, 1500, 11); }

TEST_CASE("Two strings that share an inventory have the fewest pieces that any deal allows") { compare(2, 300, 12); }

namespace {

Question ask(const std::vector<std::pair<double, int>>& bars, double gap_mm, double end_mm,
             std::vector<std::pair<Interval, Interval>> stretches) {
    Question question;
    for (const auto& [width_mm, count] : bars) {
        Bar bar;
        bar.width_mm = width_mm;
        bar.count = count;
        question.brake.leaf().bars.push_back(bar);
    }
    question.limits.bar_gap_mm = gap_mm;
    question.limits.uncovered_end_mm = end_mm;
    question.stretches = std::move(stretches);
    return question;
}

bool found(const Question& question, BarString& chosen) {
    BarStrings strings(inSetup(question.brake, 1), question.limits);
    int offered = 0;
    bool cut_short = false;
    return strings.choose(
        question.request(), [&](const BarString& bars) { return chosen = bars, true; }, offered, cut_short);
}

}  // namespace

TEST_CASE("Bars never stand outside the free stretch: gaps that cover the bend may not fit between the walls") {
    // 2 x 45 with a gap of 3 cover a bend of 93, but the free stretch is 90 long.
    const Question question = ask({{45, 2}}, 3, 0, {{{0, 93'000}, {0, 90'000}}});
    BarString chosen;
    CHECK_FALSE(found(question, chosen));
    for (const StandingTool& bar : chosen) CHECK(IntervalSet(Interval{0, 90'000}).covers(bar.at));
}

TEST_CASE("A stretch takes a wider bar than it needs when another stretch needs the narrow one") {
    // The second bend is covered by 30 + 20 alone, so the first must take the other 30 though 20 would do there.
    const Question question = ask({{20, 1}, {30, 2}}, 0, 0,
                                  {{{0, 20'000}, {-20'000, 40'000}}, {{1'000'000, 1'050'000}, {1'000'000, 1'050'000}}});
    BarString chosen;
    CHECK(found(question, chosen));
}

// The point that is kept of a narrow obstacle moves when another one joins it; without, what is in the way only grows.
TEST_CASE("inside an end relief more obstacles are never less in the way") {
    IntervalSet one;
    one.add({0, 10});
    IntervalSet both = one;
    both.add({10, 20});
    CHECK(withRelief(one, {8, 8}, {}).meets({5, 6}));
    CHECK_FALSE(withRelief(both, {8, 8}, {}).meets({5, 6}));
    random_states::Dice dice(61);
    for (int i = 0; i < 500; ++i) {
        IntervalSet some;
        IntervalSet more;
        for (int k = 0; k < 6; ++k) {
            const Micron lo = dice.below(100);
            const Interval item{lo, lo + 1 + dice.below(25)};
            if (k < 3) some.add(item);
            more.add(item);
        }
        const Micron relief = dice.below(12);
        const IntervalSet inside_more = insideRelief(more, {relief, relief});
        const IntervalSet inside_some = insideRelief(some, {relief, relief});
        for (const Interval& item : inside_some.items()) CHECK(inside_more.covers(item));
    }
}
