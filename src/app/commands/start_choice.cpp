// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/base/units.h>

#include "commands/start_arguments.h"

namespace tinwright::app {
namespace {

constexpr double kUsualInchGap = 0.02;

class ChoiceReader {
public:
    explicit ChoiceReader(const StartArguments& arguments)
        : arguments_(arguments), mm_per_unit_(arguments.units == "in" ? kMmPerInch : 1.0) {}

    Result<StartChoice> read() {
        choice_.shape = startShapeNamed(arguments_.shape).value_or(StartShape::kTray);
        choice_.name = arguments_.name;
        choice_.inches = arguments_.units == "in";
        choice_.material = arguments_.material;
        component();
        openings();
        shape();
        if (!issues_.empty()) return issues_;
        return choice_;
    }

private:
    [[nodiscard]] double mm(double value) const { return value * mm_per_unit_; }
    [[nodiscard]] std::optional<double> mm(const std::optional<double>& value) const {
        return value ? std::optional(mm(*value)) : std::nullopt;
    }
    [[nodiscard]] std::optional<FacePoint> point(const std::vector<double>& pair) const {
        return pair.empty() ? std::nullopt : std::optional(FacePoint{mm(pair[0]), mm(pair[1])});
    }
    void wrong(const char* option, std::string found, std::string expected) {
        issues_.push_back({"usage", "command line", option, std::move(found), std::move(expected), ""});
    }

    void component() {
        for (std::size_t axis = 0; axis < 3; ++axis) choice_.component_mm[axis] = mm(arguments_.component[axis]);
        const double gap = arguments_.units == "in" && !arguments_.gap_given ? kUsualInchGap : arguments_.gap;
        choice_.gap_mm = {mm(arguments_.gap_width.value_or(gap)), mm(arguments_.gap_depth.value_or(gap)),
                          mm(arguments_.gap_height.value_or(gap))};
        choice_.thickness_mm = mm(arguments_.thickness);
        choice_.inside_radius_mm = mm(arguments_.radius);
        choice_.k = arguments_.k;
    }

    void openings() {
        if (!arguments_.window.empty())
            choice_.window =
                StartWindow{mm(arguments_.window[0]), mm(arguments_.window[1]), point(arguments_.window_at)};
        else if (!arguments_.window_at.empty())
            wrong("--window-at", "a place and no window", "--window W H beside it");
        if (arguments_.boss)
            choice_.boss = StartBoss{mm(*arguments_.boss), point(arguments_.boss_at)};
        else if (!arguments_.boss_at.empty())
            wrong("--boss-at", "a place and no boss", "--boss DIAMETER beside it");
    }

    void shape() {
        if (arguments_.open) choice_.open = componentSideNamed(*arguments_.open);
        choice_.inside_height_mm = mm(arguments_.inside_height);
        if (arguments_.corners == "weld") choice_.corners = StartCorners::kWeld;
        fix();
        choice_.fixings = arguments_.fixings;
        choice_.tab_length_mm = mm(arguments_.tab_length);
        choice_.tab_width_mm = mm(arguments_.tab_width);
        choice_.screw_mm = mm(arguments_.screw);
        choice_.lip_mm = mm(arguments_.lip);
        choice_.foot_mm = mm(arguments_.foot);
        choice_.upright_mm = mm(arguments_.upright);
    }

    void fix() {
        if (arguments_.fix.empty()) return;
        choice_.fix.emplace();
        for (const std::string& word : arguments_.fix) {
            if (const auto side = componentSideNamed(word))
                choice_.fix->push_back(*side);
            else if (arguments_.fix.size() > 1)
                wrong("--fix", "\"none\" beside sides", "either sides or none");
        }
    }

    const StartArguments& arguments_;
    double mm_per_unit_;
    StartChoice choice_;
    Issues issues_;
};

}  // namespace

Result<StartChoice> startChoice(const StartArguments& arguments) { return ChoiceReader(arguments).read(); }

}  // namespace tinwright::app
