// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include <tinwright/base/words.h>

#include "recipe/recipe_tree.h"

namespace tinwright {

namespace {

using Limits = RecipeLimits;

bool isPlainName(const std::string& name) {
    return !name.empty() && name.size() <= 64 && name.front() != '-' &&
           std::all_of(name.begin(), name.end(), [](char c) {
               return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
                      c == '-';
           });
}

class Checker {
public:
    explicit Checker(const Recipe& recipe) : recipe_(recipe) {}

    Issues run() {
        sheet();
        names();
        base();
        for (const Flange& flange : recipe_.flanges) check(flange);
        for (const Corner& corner : recipe_.corners) check(corner);
        for (const CutOut& cut : recipe_.cut_outs) check(cut);
        if (issues_.empty()) shape();
        return std::move(issues_);
    }

private:
    void report(const std::string& place, const char* what, std::string found, std::string expected,
                std::string hint = {}) {
        issues_.push_back({std::string("recipe.") + what, recipe_.file, place, std::move(found), std::move(expected),
                           std::move(hint)});
    }
    void range(const std::string& place, const char* what, double value, double least, double most, const char* unit) {
        if (value >= least && value <= most) return;  // false for NaN
        report(place, what, fmt::format("{} {}", value, unit), fmt::format("{} to {} {}", least, most, unit));
    }
    void length(const Dimension& dimension, const std::string& place, const char* field, bool zero_too = false) {
        const std::string at = dimension.place.empty() ? place + "/" + field : dimension.place;
        if (!dimension.given) return report(at, "missing", "nothing", "a length");
        const bool fits =
            (zero_too ? dimension.value_mm >= 0 : dimension.value_mm > 0) && dimension.value_mm <= Limits::kLongest_mm;
        if (!fits) {
            report(at, "range", fmt::format("{} mm", dimension.value_mm),
                   fmt::format("{} 0 and up to {} mm", zero_too ? "from" : "over", Limits::kLongest_mm));
        }
    }
    void optionalLength(const Dimension& dimension, bool zero_too = true) {
        if (dimension.given) length(dimension, "", "", zero_too);
    }
    bool said(const Dimension& dimension, Measured panel) const {
        return dimension.measured != Measured::kUnsaid || panel != Measured::kUnsaid ||
               recipe_.measured != Measured::kUnsaid;
    }
    void measured(const Dimension& dimension, Measured panel) {
        if (!dimension.given || said(dimension, panel)) return;
        report(dimension.place, "measured", "a length that does not say how it is measured",
               "\"measured\": \"inside\", \"outside\" or \"flat\" at it, at its panel or at the top of the file");
    }

    void sheet();
    void names();
    void base();
    void outline();
    void check(const Flange& flange);
    void hem(const Flange& flange);
    void check(const Corner& corner);
    void check(const CutOut& cut);
    void cutOutSize(const CutOut& cut);
    void check(const CutOut& cut, std::size_t panel, const CutOutPlace& at);
    void shape();
    void cornerShape(const Corner& corner, std::set<std::pair<std::string, bool>>& used);

    const Recipe& recipe_;
    Issues issues_;
};

void Checker::sheet() {
    const std::string at = recipe_.sheet.place;
    range(at + "/thickness", "range", recipe_.sheet.thickness_mm, Limits::kThinnest_mm, Limits::kThickest_mm, "mm");
    range("/inside_radius", "range", recipe_.inside_radius_mm, 0, Limits::kLargestRadius_mm, "mm");
    const AllowanceChoice& allowance = recipe_.allowance;
    if (allowance.rule == AllowanceRule::kKFactor || allowance.fallback == AllowanceRule::kKFactor)
        range("/allowance/k", "range", recipe_.allowance.k, 0, 1, "");
}

void Checker::names() {
    std::set<std::string> seen;
    for (std::size_t panel = 0; panel <= recipe_.flanges.size(); ++panel) {
        const std::string& name = panelName(recipe_, panel);
        const std::string at = (panel == kBasePanel ? recipe_.base.place : recipe_.flanges[panel - 1].place) + "/name";
        if (!isPlainName(name)) report(at, "name", "\"" + name + "\"", "a name of 1 to 64 letters, digits, _ or -");
        if (!seen.insert(name).second)
            report(at, "name.duplicate", "a second panel named \"" + name + "\"", "each name once");
    }
    if (recipe_.flanges.size() > Limits::kFlanges) {
        report("/flanges", "count", fmt::format("{} flanges", recipe_.flanges.size()),
               fmt::format("at most {}", Limits::kFlanges));
    }
}

void Checker::base() {
    const BasePanel& base = recipe_.base;
    if (!base.is_rectangle) return outline();
    length(base.width, base.place, "width");
    length(base.depth, base.place, "depth");
    if (recipe_.flanges.empty()) return;
    measured(base.width, base.measured);
    measured(base.depth, base.measured);
}

void Checker::outline() {
    const auto& outline = recipe_.base.outline;
    const std::string at = recipe_.base.place + "/outline";
    if (outline.size() < 3 || outline.size() > Limits::kOutlinePoints) {
        report(at, "count", fmt::format("{} points", outline.size()),
               fmt::format("3 to {} points", Limits::kOutlinePoints));
    }
    std::set<std::string> seen;
    for (const std::string& name : edgeNames(recipe_, kBasePanel)) {
        if (!isPlainName(name))
            report(at, "name", "an edge named \"" + name + "\"", "a name of 1 to 64 letters, digits, _ or -");
        if (!seen.insert(name).second)
            report(at, "name.duplicate", "a second edge named \"" + name + "\"", "each name once");
    }
    for (const OutlinePoint& point : outline) {
        if (!point.x.given || !point.y.given) report(point.place, "missing", "a point without x or y", "both");
    }
    if (!recipe_.flanges.empty() && recipe_.base.measured == Measured::kUnsaid &&
        recipe_.measured == Measured::kUnsaid) {
        report(at, "measured", "an outline that does not say how it is measured",
               "\"measured\" at the base or at the top of the file");
    }
}

void Checker::check(const Flange& flange) {
    const std::string& at = flange.place;
    if (const auto edge = findEdge(recipe_, flange.on); !edge) {
        const std::string panel = flange.on.substr(0, flange.on.find('.'));
        const auto known = findPanel(recipe_, panel);
        report(at + "/on", "flange.on", "\"" + flange.on + "\"", "PANEL.EDGE of this recipe",
               known ? "edges of " + panel + ": " + joined(edgeNames(recipe_, *known), ", ")
                     : "there is no panel named \"" + panel + "\"");
    } else if (edge->panel != kBasePanel && edge->edge == kNearEdge) {
        report(at + "/on", "flange.on", "\"" + flange.on + "\", which is the bend of that panel",
               "its edge left, far or right");
    }
    length(flange.length, at, "length");
    measured(flange.length, flange.measured);
    range(at + "/angle", "range", flange.angle_deg, 0.1, 179.9, "degrees");
    if (flange.hem_gap_mm) hem(flange);
    if (flange.inside_radius_mm >= 0)
        range(at + "/inside_radius", "range", flange.inside_radius_mm, 0, Limits::kLargestRadius_mm, "mm");
    range(at + "/left_mitre", "range", flange.left_mitre_deg, -75, 75, "degrees");
    range(at + "/right_mitre", "range", flange.right_mitre_deg, -75, 75, "degrees");
    optionalLength(flange.from_left);
    optionalLength(flange.from_right);
    optionalLength(flange.width, false);
    if (flange.width.given && flange.from_left.given && flange.from_right.given) {
        report(flange.width.place, "flange.position", "width, from_left and from_right", "at most two of the three");
    }
}

void Checker::hem(const Flange& flange) {
    range(flange.place + "/hem/gap", "range", *flange.hem_gap_mm, 0, Limits::kLargestHemGap_mm, "mm");
    const auto carried = std::find_if(recipe_.flanges.begin(), recipe_.flanges.end(), [&](const Flange& other) {
        return other.on.substr(0, other.on.find('.')) == flange.name;
    });
    if (carried != recipe_.flanges.end()) {
        report(carried->place + "/on", "flange.on", "\"" + carried->on + "\", an edge of a hem",
               "an edge of a panel that is not folded flat on another");
    }
}

void Checker::check(const Corner& corner) {
    for (const std::string& name : corner.flange) {
        const auto panel = findPanel(recipe_, name);
        if (!panel || *panel == kBasePanel)
            report(corner.place + "/between", "corner.flange", "\"" + name + "\"", "the name of a flange");
    }
    if (corner.type == CornerType::kOverlap && corner.over != corner.flange[0] && corner.over != corner.flange[1]) {
        report(corner.place + "/over", "corner.over", "\"" + corner.over + "\"",
               "the one of its two flanges that laps the other");
    }
    if (corner.type == CornerType::kOpen)
        length(corner.gap, corner.place, "gap");
    else
        optionalLength(corner.gap);
    if (corner.relief != ReliefShape::kNone) length(corner.relief_size, corner.place + "/relief", "size");
}

void Checker::cutOutSize(const CutOut& cut) {
    switch (cut.shape) {
        case CutOutShape::kCircle: length(cut.diameter, cut.place, "diameter"); break;
        case CutOutShape::kRectangle:
        case CutOutShape::kSlot:
            length(cut.width, cut.place, "width");
            length(cut.height, cut.place, "height");
            if (cut.shape == CutOutShape::kSlot && cut.width.value_mm <= cut.height.value_mm) {
                report(cut.place + "/width", "cut-out.slot",
                       fmt::format("{} mm long, {} mm wide", cut.width.value_mm, cut.height.value_mm),
                       "a slot longer than it is wide", "turn it by 90 degrees instead");
            }
            break;
        case CutOutShape::kPolygon:
            if (cut.points.size() < 3 || cut.points.size() > Limits::kCutOutPoints) {
                report(cut.place + "/points", "count", fmt::format("{} points", cut.points.size()),
                       fmt::format("3 to {} points", Limits::kCutOutPoints));
            }
            break;
    }
}

void Checker::check(const CutOut& cut) {
    cutOutSize(cut);
    range(cut.place + "/turn", "range", cut.turn_deg, -360, 360, "degrees");
    const auto panel = findPanel(recipe_, cut.on);
    if (!panel)
        return report(cut.place + "/on", "cut-out.on", "\"" + cut.on + "\"", "the name of a panel of this recipe");
    for (const CutOutPlace& at : cut.at) check(cut, *panel, at);
}

void Checker::check(const CutOut& cut, std::size_t panel, const CutOutPlace& at) {
    const std::string place = at.place.empty() ? cut.place + "/at" : at.place;
    if (!findEdge(recipe_, panel, at.edge)) {
        report(place + "/from", "cut-out.from", "\"" + at.edge + "\"",
               "an edge of " + cut.on + ": " + joined(edgeNames(recipe_, panel), ", "));
    }
    if (!at.distance.given) report(place + "/distance", "missing", "nothing", "a length");
}

// Only now do all references lead somewhere.
void Checker::shape() {
    const RecipeTree tree = makeTree(recipe_);
    for (std::size_t i = 0; i < recipe_.flanges.size() && !tree.is_tree; ++i) {
        if (std::find(tree.order.begin(), tree.order.end(), i) != tree.order.end()) continue;
        report(recipe_.flanges[i].place + "/on", "flange.cycle", "a flange that hangs on itself",
               "a chain of flanges that ends at the base",
               "a closed ring of panels has a seam: say where, by leaving one bend out");
    }
    std::set<std::pair<std::string, bool>> used;
    for (const Corner& corner : recipe_.corners) cornerShape(corner, used);
    if (recipe_.cut_outs.size() > Limits::kCutOuts) {
        report("/cut_outs", "count", fmt::format("{} cut-outs", recipe_.cut_outs.size()),
               fmt::format("at most {}", Limits::kCutOuts));
    }
    std::size_t points = 0;
    for (const CutOut& cut : recipe_.cut_outs) points += cut.points.size();
    if (points > Limits::kCutOutPointsTogether) {
        report("/cut_outs", "count", fmt::format("{} points", points),
               fmt::format("at most {} points together", Limits::kCutOutPointsTogether));
    }
}

void Checker::cornerShape(const Corner& corner, std::set<std::pair<std::string, bool>>& used) {
    const EdgeRef a = *findEdge(recipe_, recipe_.flanges[*findPanel(recipe_, corner.flange[0]) - 1].on);
    const EdgeRef b = *findEdge(recipe_, recipe_.flanges[*findPanel(recipe_, corner.flange[1]) - 1].on);
    const std::size_t count = edgeNames(recipe_, a.panel).size();
    const bool a_first = (a.edge + 1) % count == b.edge;
    if (a.panel != b.panel || (!a_first && (b.edge + 1) % count != a.edge)) {
        return report(corner.place + "/between", "corner.adjacent", corner.flange[0] + " and " + corner.flange[1],
                      "two flanges on edges of one panel that follow one another");
    }
    for (const bool end : {true, false}) {  // true: the end of the edge that comes first round the outline
        const std::string& name = corner.flange[end == a_first ? 0 : 1];
        if (!used.insert({name, end}).second) {
            report(corner.place + "/between", "corner.duplicate", "a second corner at the same end of " + name,
                   "one corner at each end of a flange");
        }
    }
}

}  // namespace

Issues checkRecipe(const Recipe& recipe) { return Checker(recipe).run(); }

}  // namespace tinwright
