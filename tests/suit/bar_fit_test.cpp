// SPDX-License-Identifier: GPL-3.0-or-later
// Strings of bars against exhaustive enumeration of every choice of pieces, on random inventories.
#include <catch2/catch.hpp>

#include <algorithm>

#include <cmath>
#include <random>
#include <set>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/tooling/bar_fit.h>

using namespace tinwright;

namespace {

Bar toolOf(std::string id, double width_mm, double depth_mm, double relief_mm, int count) {
    Bar bar;
    bar.id = std::move(id);
    bar.width_mm = width_mm;
    bar.clamp_depth_mm = depth_mm;
    bar.height_mm = 25;
    bar.profile = {Vec2(0, 0), Vec2(depth_mm, 0), Vec2(depth_mm, 25), Vec2(25, 25)};
    bar.end_relief_mm = relief_mm;
    bar.end_relief_height_mm = relief_mm > 0 ? 3 : 0;
    bar.count = count;
    return bar;
}

Brake randomBrake(std::mt19937& dice) {
    const auto roll = [&](int n) { return static_cast<int>(dice() % static_cast<unsigned>(n)); };
    Brake brake;
    brake.name = "random";
    brake.length_mm = 1000;
    brake.leaf().nose_radius_mm = 0.5 * roll(5);
    const int kinds = 1 + roll(5);
    for (int i = 0; i < kinds; ++i) {
        brake.leaf().bars.push_back(toolOf("B" + std::to_string(i), 12 + roll(60) + 0.25 * roll(4),
                                           roll(2) == 0 ? 50 : 100, roll(3) == 0 ? 2 : 0, 1 + roll(3)));
    }
    return brake;
}

struct Choice {
    ToolCounts counts;
    double sum_mm = 0;
    int pieces = 0;
};

void everyChoice(const Brake& brake, std::size_t bar, Choice choice, std::vector<Choice>& all) {
    if (bar == brake.leaf().bars.size()) {
        if (choice.pieces > 0 && choice.pieces <= BarSums::kMaxPieces) all.push_back(choice);
        return;
    }
    for (int k = 0; k <= brake.leaf().bars[bar].count; ++k) {
        Choice next = choice;
        next.counts.push_back(static_cast<std::uint16_t>(k));
        next.sum_mm += k * brake.leaf().bars[bar].width_mm;
        next.pieces += k;
        everyChoice(brake, bar + 1, next, all);
    }
}

// The room at each end of a string, told from its pieces: one kind of section has its own, a mixed one the largest of
// all kinds the brake has (as the header says).
double roomOf(const Brake& brake, const Choice& choice) {
    std::set<std::pair<double, double>> kinds;
    double own = 0;
    double largest = 0;
    for (std::size_t i = 0; i < brake.leaf().bars.size(); ++i) {
        const double room = touchingRoom_mm(brake, idAt<ToolId>(i), brake.leaf().nose_radius_mm);
        largest = std::max(largest, room);
        if (choice.counts[i] == 0) continue;
        kinds.insert({brake.leaf().bars[i].clamp_depth_mm, brake.leaf().bars[i].end_relief_mm});
        own = room;
    }
    return kinds.size() == 1 ? own : largest;
}

}  // namespace

TEST_CASE("a square corner stays a wall's inside radius away; relief as deep and as high takes that away") {
    CHECK(endRoom_mm(toolOf("square", 30, 50, 0, 1), 1.5) == 1.5);
    CHECK(endRoom_mm(toolOf("relieved", 30, 50, 2, 1), 1.5) == 0);
    CHECK(endRoom_mm(toolOf("a little", 30, 50, 1, 1), 1.5) == Approx(0.5));
    Bar low = toolOf("low relief", 30, 50, 2, 1);
    low.end_relief_height_mm = 0.5;  // over it the fillet is still r - sqrt(r^2 - (r - h)^2) from the wall
    CHECK(endRoom_mm(low, 1.5) == Approx(1.5 - std::sqrt(1.5 * 1.5 - 1.0)));
}

// On a fillet of radius r a corner is lifted by h at r - sqrt(r^2 - (r - h)^2) from the wall (geometry).
TEST_CASE("A corner that a wall's inside radius lifts by less than the contact tolerance touches it") {
    Brake brake;
    brake.leaf().bars = {toolOf("square", 30, 50, 0, 1), toolOf("relieved", 30, 50, 2, 1),
                         toolOf("little", 30, 50, 0.5, 1)};
    const auto room = [&](std::size_t bar) { return touchingRoom_mm(brake, idAt<ToolId>(bar), 1.5); };
    CHECK(room(0) == Approx(1.5 - std::sqrt(1.5 * 1.5 - 1.46 * 1.46)));
    CHECK(room(1) == 0);
    CHECK(room(2) == Approx(room(0) - 0.5));
}

TEST_CASE("strings under an inside width equal exhaustive enumeration") {
    std::mt19937 dice(7);
    int found = 0, none = 0;
    for (int round = 0; round < 400; ++round) {
        CAPTURE(round);
        const Brake brake = randomBrake(dice);
        Limits limits;
        limits.bar_gap_mm = static_cast<double>(dice() % 5);
        limits.uncovered_end_mm = 2.0 + static_cast<double>(dice() % 5);
        const double width_mm = 30 + 0.1 * static_cast<double>(dice() % 1500);
        std::vector<Choice> all;
        everyChoice(brake, 0, {}, all);
        std::set<double> sums;  // of strings that come under it, by width: one choice of each width is enough
        for (const Choice& choice : all) {
            const double bend_mm = width_mm - 2 * brake.leaf().nose_radius_mm;  // from one wall's strip to the other's
            const double missing = std::max(0.0, bend_mm - 2 * limits.uncovered_end_mm - choice.sum_mm);
            const bool covers = missing <= (choice.pieces - 1) * limits.bar_gap_mm + 1e-9;
            const bool under =
                choice.sum_mm + missing + 2 * roomOf(brake, choice) + limits.plus_side_mm <= width_mm + 1e-9;
            if (covers && under) sums.insert(1000 * choice.pieces + choice.sum_mm);
        }
        std::set<double> offered;
        for (const BarFit& fit : barFits(inSetup(brake, 1), limits, width_mm)) {
            offered.insert(1000 * fit.pieces + fit.width_mm);
            double sum = 0;
            for (std::size_t i = 0; i < fit.counts.size(); ++i) {
                CHECK(fit.counts[i] <= brake.leaf().bars[i].count);
                sum += fit.counts[i] * brake.leaf().bars[i].width_mm;
            }
            CHECK(sum == Approx(fit.width_mm));
            CHECK(fit.slack_mm >= limits.plus_side_mm - 1e-9);
        }
        CHECK(offered == sums);
        sums.empty() ? ++none : ++found;
    }
    CHECK(found > 50);
    CHECK(none > 50);
}

TEST_CASE("suited widths are those for which a string is offered comfortably") {
    std::mt19937 dice(8);
    for (int round = 0; round < 60; ++round) {
        CAPTURE(round);
        const Brake brake = randomBrake(dice);
        const Limits limits;
        const std::vector<WidthRange> ranges = suitedWidths(inSetup(brake, 1), limits, 20, 220);
        for (double width_mm = 20; width_mm <= 220; width_mm += 1.3) {
            const std::vector<BarFit> fits = barFits(inSetup(brake, 1), limits, width_mm);
            const bool comfortable = !fits.empty() && fits.front().comfortable;
            const bool in_range = std::any_of(ranges.begin(), ranges.end(), [&](const WidthRange& range) {
                return range.least_mm <= width_mm + 1e-6 && width_mm <= range.most_mm + 1e-6;
            });
            CAPTURE(width_mm);
            CHECK(comfortable == in_range);
        }
    }
}
