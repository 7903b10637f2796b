// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include <tinwright/base/words.h>
#include <tinwright/part/recipe/recipe.h>

#include "start/start_sizes.h"

namespace tinwright {

namespace {

using Limits = RecipeLimits;
using Shapes = std::vector<StartShape>;

constexpr int kMostFixings = 12;
constexpr double kLeastFarEdge_mm = 5.0;

class StartChecker {
public:
    explicit StartChecker(const StartChoice& choice) : choice_(choice) {}

    Issues run() {
        unused();
        unusedTabs();
        ranges();
        fixedSides();
        if (!issues_.empty()) return std::move(issues_);
        sizes_ = startSizes(choice_);
        walls();
        turned();
        tabs();
        openings();
        return std::move(issues_);
    }

private:
    void report(const char* code, const std::string& word, std::string found, std::string expected,
                std::string hint = {}) {
        issues_.push_back(
            {std::string("start.") + code, "", word, std::move(found), std::move(expected), std::move(hint)});
    }
    // Lengths are told in the file's units, as they were given.
    [[nodiscard]] std::string said(double mm) const {
        return choice_.inches ? fmt::format("{:.4g} in", mm / kMmPerInch) : fmt::format("{:.6g} mm", mm);
    }
    void range(const char* word, double mm, double least_mm, double most_mm, bool above = false) {
        if ((above ? mm > least_mm : mm >= least_mm) && mm <= most_mm) return;  // false for NaN
        report("range", word, said(mm),
               fmt::format("{} {} and up to {}", above ? "over" : "from", said(least_mm), said(most_mm)));
    }
    void length(const char* word, const std::optional<double>& mm) {
        if (mm) range(word, *mm, 0, Limits::kLongest_mm, true);
    }
    void least(const char* word, double mm, double least_mm, const std::string& why) {
        if (mm < least_mm) report("room", word, said(mm), fmt::format("at least {}", said(least_mm)), why);
    }
    void only(bool given, const char* word, const Shapes& shapes) {
        if (!given || std::find(shapes.begin(), shapes.end(), choice_.shape) != shapes.end()) return;
        const std::string words = joined(shapes, ", ", [](StartShape shape) { return toText(shape); });
        report("unused", word, fmt::format("it given for a {}", toText(choice_.shape)),
               "it for one of these shapes only: " + words);
    }

    void unused();
    void unusedTabs();
    void ranges();
    void openingRanges();
    void fixedSides();
    void walls();
    void turned();
    void tabs();
    void openings();
    void openingSide(const StartOpening& opening, std::size_t edge, double distance_mm);

    const StartChoice& choice_;
    StartSizes sizes_{};
    Issues issues_;
};

void StartChecker::unused() {
    using enum StartShape;
    const Shapes boxes{kHousing, kTray, kWindowFace}, with_tabs{kHousing, kWindowFace},
        fixed{kHousing, kWindowFace, kHat, kBracket};
    only(choice_.open.has_value(), "open", boxes);
    only(choice_.corners != StartCorners::kOpen, "corners", boxes);
    only(choice_.inside_height_mm.has_value(), "inside-height", {kHousing, kTray, kChannel, kHat, kWindowFace});
    only(choice_.fix.has_value(), "fix", with_tabs);
    only(choice_.fixings.has_value(), "fixings", fixed);
    only(choice_.tab_length_mm.has_value(), "tab-length", with_tabs);
    only(choice_.tab_width_mm.has_value(), "tab-width", with_tabs);
    only(choice_.screw_mm.has_value(), "screw", fixed);
    only(choice_.lip_mm.has_value(), "lip", {kChannel});
    only(choice_.foot_mm.has_value(), "foot", {kHat});
    only(choice_.upright_mm.has_value(), "upright", {kBracket});
    if (choice_.shape == kWindowFace && !choice_.window && !choice_.boss)
        report("missing", "window", "no opening", "a window or a boss");
}

// Words about tabs, and no wall to have them.
void StartChecker::unusedTabs() {
    const bool no_walls = choice_.fix ? choice_.fix->empty() : choice_.shape == StartShape::kWindowFace;
    if (!mayHaveTabs(choice_.shape) || !no_walls) return;
    const auto without = [&](bool given, const char* word) {
        if (given)
            report("unused", word, "it given and no wall with tabs", "the walls that have them",
                   "for instance fix left,right");
    };
    without(choice_.fixings.has_value(), "fixings");
    without(choice_.tab_length_mm.has_value(), "tab-length");
    without(choice_.tab_width_mm.has_value(), "tab-width");
    without(choice_.screw_mm.has_value(), "screw");
}

void StartChecker::ranges() {
    for (const double size : choice_.component_mm) range("component", size, 0, Limits::kLongest_mm, true);
    for (const double gap : choice_.gap_mm) range("gap", gap, 0, Limits::kLongest_mm);
    if (choice_.thickness_mm) range("thickness", *choice_.thickness_mm, Limits::kThinnest_mm, Limits::kThickest_mm);
    if (choice_.inside_radius_mm) range("radius", *choice_.inside_radius_mm, 0, Limits::kLargestRadius_mm);
    if (choice_.k && !(*choice_.k >= 0 && *choice_.k <= 1))
        report("range", "k", fmt::format("{}", *choice_.k), "0 to 1");
    if (choice_.screw_mm) range("screw", *choice_.screw_mm, 0, Limits::kLongest_mm);
    if (choice_.fixings && (*choice_.fixings < 1 || *choice_.fixings > kMostFixings)) {
        report("range", "fixings", fmt::format("{}", *choice_.fixings), fmt::format("1 to {}", kMostFixings));
    }
    length("inside-height", choice_.inside_height_mm);
    length("tab-length", choice_.tab_length_mm);
    length("tab-width", choice_.tab_width_mm);
    length("lip", choice_.lip_mm);
    length("foot", choice_.foot_mm);
    length("upright", choice_.upright_mm);
    openingRanges();
}

void StartChecker::openingRanges() {
    const auto place = [&](const char* word, const std::optional<FacePoint>& at) {
        if (!at) return;
        range(word, at->from_left_mm, 0, Limits::kLongest_mm);
        range(word, at->from_lower_mm, 0, Limits::kLongest_mm);
    };
    if (choice_.window) {
        range("window", choice_.window->width_mm, 0, Limits::kLongest_mm, true);
        range("window", choice_.window->height_mm, 0, Limits::kLongest_mm, true);
        place("window-at", choice_.window->at);
    }
    if (choice_.boss) {
        range("boss", choice_.boss->diameter_mm, 0, Limits::kLongest_mm, true);
        place("boss-at", choice_.boss->at);
    }
}

void StartChecker::fixedSides() {
    if (!choice_.fix || !mayHaveTabs(choice_.shape)) return;
    const BaseView view = baseView(openSide(choice_));
    const std::string walls = joined(view.at, ", ", [](ComponentSide side) { return toText(side); });
    for (auto side = choice_.fix->begin(); side != choice_.fix->end(); ++side) {
        if (std::find(view.at.begin(), view.at.end(), *side) == view.at.end()) {
            report("fix", "fix", std::string(toText(*side)), "sides with a wall: " + walls,
                   fmt::format("{} is open", toText(openSide(choice_))));
        }
        if (std::find(choice_.fix->begin(), side, *side) != side)
            report("fix", "fix", std::string(toText(*side)) + " twice", "each side once");
    }
}

void StartChecker::walls() {
    const double t = sizes_.thickness_mm, r = sizes_.radius_mm;
    const bool bracket = choice_.shape == StartShape::kBracket;
    const char* const word = bracket ? "upright" : "inside-height";
    if (!bracket) least(word, sizes_.inside_height_mm, sizes_.least_height_mm, "the component and its gap");
    least(word, sizes_.inside_height_mm, sizes_.inside_height_mm - sizes_.wallFlat_mm() + t,
          "one sheet thickness of flat between the bends");
    least("component", sizes_.across_mm, sizes_.wallsAcross(0) * r + t,
          "one sheet thickness of flat between the bends of the base");
    least("component", sizes_.along_mm, sizes_.wallsAcross(1) * r + t,
          "one sheet thickness of flat between the bends of the base");
    if (!isBox(choice_.shape)) return;
    for (const std::size_t edge : {kFrontEdge, kRightEdge}) {
        const double far = sizes_.farEdge_mm(edge);
        if (far >= kLeastFarEdge_mm) continue;
        report("room", "component",
               fmt::format("walls {} high that are left {} wide at their ends", said(sizes_.inside_height_mm),
                           said(std::max(far, 0.0))),
               fmt::format("at least {} there", said(kLeastFarEdge_mm)),
               sizes_.mitre_deg > 0
                   ? fmt::format("they lean in by {} degrees at each end, so as not to meet when they are overbent",
                                 sizes_.mitre_deg)
                   : "");
    }
}

void StartChecker::turned() {
    const bool bracket = choice_.shape == StartShape::kBracket;
    if (bracket) least("upright", sizes_.inside_height_mm, leastTurned_mm(sizes_), "room for its holes and the bend");
    if (sizes_.far == FarEdge::kFree) return;
    const char* const word =
        sizes_.far == FarEdge::kTurnedIn ? "lip" : (choice_.shape == StartShape::kHat ? "foot" : "tab-length");
    const bool has_hole = sizes_.screw_mm > 0 && sizes_.far == FarEdge::kTurnedOut;
    least(word, sizes_.turned_mm, leastTurned_mm(sizes_),
          has_hole ? "room for the hole and the bend" : "room for the bend");
    if (sizes_.far != FarEdge::kTurnedIn) return;
    // Both legs lean in while they are overbent.
    const double most = 0.5 * sizes_.across_mm -
                        sizes_.inside_height_mm * std::tan(kWallMitre_deg * std::numbers::pi / 180) -
                        sizes_.thickness_mm;
    if (sizes_.turned_mm > most)
        report("room", "lip", said(sizes_.turned_mm), fmt::format("at most {}", said(std::max(most, 0.0))),
               "two lips that do not meet");
}

void StartChecker::tabs() {
    if (sizes_.fix.empty()) return;
    if (!isBox(choice_.shape)) {
        const double edge = choice_.shape == StartShape::kHat ? sizes_.along_mm : sizes_.across_mm;
        const double needed = sizes_.fixings * (sizes_.screw_mm + 2 * sizes_.thickness_mm);
        if (sizes_.screw_mm > 0)
            least("fixings", edge, needed, fmt::format("room for {} holes side by side", sizes_.fixings));
        return;
    }
    if (sizes_.screw_mm > 0)
        least("tab-width", sizes_.tab_width_mm, sizes_.screw_mm + 2 * sizes_.thickness_mm,
              "the hole and a sheet thickness on each side");
    for (std::size_t edge = 0; edge < 4; ++edge) {
        const ComponentSide side = sizes_.view.at[edge];
        if (std::find(sizes_.fix.begin(), sizes_.fix.end(), side) == sizes_.fix.end()) continue;
        const double ends = sizes_.fixings > 1 ? 2 * sizes_.tab_inset_mm : 0;
        const double needed =
            sizes_.fixings * sizes_.tab_width_mm + (sizes_.fixings - 1) * sizes_.thickness_mm * 2 + ends;
        if (needed <= sizes_.farEdge_mm(edge)) continue;
        report("room", "fix", fmt::format("{} tabs that need {} on {}", sizes_.fixings, said(needed), wallName(side)),
               fmt::format("no more than {} there", said(sizes_.farEdge_mm(edge))),
               "fewer or narrower tabs, or another side");
    }
}

void StartChecker::openingSide(const StartOpening& opening, std::size_t edge, double distance_mm) {
    const double least_mm = sizes_.thickness_mm + (sizes_.has_wall[edge] ? sizes_.radius_mm : 0);
    if (distance_mm >= least_mm - 1e-9) return;
    const char* const from = sizes_.has_wall[edge] ? "wall" : "edge";
    report("room", opening.word,
           fmt::format("its {} side {} from the {} of the part", toText(sizes_.view.at[edge]), said(distance_mm), from),
           fmt::format("at least {}", said(least_mm)),
           "it stays on the flat of the face, a sheet thickness from its bends and edges");
}

void StartChecker::openings() {
    const auto openings = startOpenings(choice_, sizes_);
    for (const StartOpening& o : openings) {
        openingSide(o, sizes_.view.left, o.left_mm);
        openingSide(o, sizes_.view.left == kLeftEdge ? kRightEdge : kLeftEdge,
                    sizes_.across_mm - o.left_mm - o.width_mm);
        openingSide(o, sizes_.view.lower, o.lower_mm);
        openingSide(o, sizes_.view.lower == kFrontEdge ? kBackEdge : kFrontEdge,
                    sizes_.along_mm - o.lower_mm - o.height_mm);
    }
    if (openings.size() < 2) return;
    const StartOpening &window = openings[0], &boss = openings[1];
    const double radius = 0.5 * boss.width_mm, x = boss.left_mm + radius, y = boss.lower_mm + radius;
    const double dx = x - std::clamp(x, window.left_mm, window.left_mm + window.width_mm);
    const double dy = y - std::clamp(y, window.lower_mm, window.lower_mm + window.height_mm);
    const double between = std::hypot(dx, dy) - radius;
    if (between >= sizes_.thickness_mm) return;
    report("room", "boss", fmt::format("its hole {} from the window", said(between)),
           fmt::format("at least {}", said(sizes_.thickness_mm)));
}

}  // namespace

Issues checkStart(const StartChoice& choice) { return StartChecker(choice).run(); }

}  // namespace tinwright
