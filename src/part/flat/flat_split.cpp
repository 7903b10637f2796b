// SPDX-License-Identifier: GPL-3.0-or-later
#include "flat/flat_split.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>

#include <tinwright/geometry/box.h>

#include "flat/flat_inside.h"
#include "flat/flat_tidy.h"

namespace tinwright {

namespace {

// Strips reach this far past their ends, so that rounding leaves no thread of sheet there.
constexpr double kPastEnd_mm = 1e-4;
// Sheet within a strip is looked for this far inside it: a panel's edge that lies on its border by rounding is none of
// it.
constexpr double kInside_mm = 1e-4;
constexpr double kSliver_mm2 = 1e-2;
constexpr double kTouching_mm = 1e-2;
// Where panels beside a strip are looked for: this far off, over this depth.
constexpr double kOff_mm = 0.01;
constexpr double kDepth_mm = 0.02;
// A panel with less of a strip's side than this share only touches it at a corner.
constexpr double kLeastShare = 0.1;
// Strips as thin as this are lines: nothing is left beside them.
constexpr double kLine_mm = 0.01;

std::vector<Region> less(const Region& region, const std::vector<Polygon>& cuts) {
    const Eigen::AlignedBox2d box = boxOf(region.outline);
    std::vector<Polygon> near;
    for (const Polygon& cut : cuts) {
        if (!box.intersection(boxOf(cut)).isEmpty()) near.push_back(cut);
    }
    return near.empty() ? std::vector<Region>{region} : difference(region, near);
}

class Splitter {
public:
    Splitter(const Region& sheet, std::vector<FlatStrip> strips, Issues& issues) : issues_(issues) {
        split_.strips = std::move(strips);
        sheet_.outline = sheet.outline;
        for (const Polygon& hole : sheet.holes) (isNearStrip(hole) ? sheet_.holes : apart_).push_back(hole);
        for (const FlatStrip& strip : split_.strips) {
            cuts_.push_back(strip.band(strip.span.from_mm - kPastEnd_mm, strip.span.to_mm + kPastEnd_mm, -strip.half_mm,
                                       strip.half_mm));
        }
    }
    FlatSplit run();

private:
    [[nodiscard]] bool isNearStrip(const Polygon& hole) const;
    void addLeftovers(std::size_t strip);
    bool belongs(std::size_t strip, const StripSpan& rest) const;
    void makePanels();
    std::optional<std::size_t> panelBeside(const FlatStrip& strip, bool left);
    void findSides();
    void tidyPanels();
    void putBackHoles();

    Region sheet_;                // without the holes that no strip comes near: overlays need not carry them
    std::vector<Polygon> apart_;  // those holes
    Issues& issues_;
    FlatSplit split_;
    std::vector<Polygon> cuts_;
    std::vector<Polygon> leftovers_;
    double size_mm_ = 0;
};

bool Splitter::isNearStrip(const Polygon& hole) const {
    const Eigen::AlignedBox2d box = boxOf(hole);
    return std::any_of(split_.strips.begin(), split_.strips.end(), [&](const FlatStrip& strip) {
        const double reach = 0.5 * box.sizes().dot(strip.left().cwiseAbs()) + strip.half_mm + kOff_mm + kDepth_mm;
        return std::abs(strip.left().dot(box.center() - strip.origin)) <= reach;
    });
}

// A hole apart from all strips lies in one panel whole.
void Splitter::putBackHoles() {
    std::vector<Eigen::AlignedBox2d> boxes;
    for (const Region& panel : split_.panels) boxes.push_back(boxOf(panel.outline));
    for (Polygon& hole : apart_) {
        for (std::size_t i = 0; i < boxes.size(); ++i) {
            if (!boxes[i].contains(hole.front()) || !isWithin(split_.panels[i].outline, hole.front())) continue;
            split_.panels[i].holes.push_back(std::move(hole));
            break;
        }
    }
}

// What a relief or a hole leaves of a strip beyond the ends of its line, or between two of its stretches.
bool Splitter::belongs(std::size_t index, const StripSpan& rest) const {
    const FlatStrip& strip = split_.strips[index];
    const bool after = std::abs(rest.from_mm - strip.span.to_mm) < kTouching_mm;
    const bool before = std::abs(rest.to_mm - strip.span.from_mm) < kTouching_mm;
    if (!after && !before) return false;
    if (rest.to_mm - rest.from_mm <= 2 * strip.half_mm + kTouching_mm) return true;
    return after && std::any_of(split_.strips.begin(), split_.strips.end(), [&](const FlatStrip& other) {
               return other.joint == strip.joint && std::abs(other.span.from_mm - rest.to_mm) < kTouching_mm;
           });
}

void Splitter::addLeftovers(std::size_t index) {
    FlatStrip& strip = split_.strips[index];
    if (strip.half_mm < kLine_mm) return;
    const double within = strip.half_mm - kInside_mm;
    const Polygon window = strip.band(strip.span.from_mm - size_mm_, strip.span.to_mm + size_mm_, -within, within);
    StripSpan wider = strip.span;
    for (const Region& piece : intersection(sheet_, window)) {
        for (const Region& rest : less(piece, cuts_)) {
            const StripSpan span = extentAlong(rest.outline, strip.origin, strip.along);
            if (area_mm2(rest) < kInside_mm || !belongs(index, span)) continue;
            leftovers_.push_back(rest.outline);
            wider = {std::min(wider.from_mm, span.from_mm), std::max(wider.to_mm, span.to_mm)};
        }
    }
    strip.span = wider;
}

Vec2 lowestLeft(const Region& region) {
    return *std::min_element(region.outline.begin(), region.outline.end(), [](const Vec2& a, const Vec2& b) {
        return std::tuple(a.x(), a.y()) < std::tuple(b.x(), b.y());
    });
}

void Splitter::makePanels() {
    std::vector<Polygon> all = cuts_;
    all.insert(all.end(), leftovers_.begin(), leftovers_.end());
    for (Region& piece : less(sheet_, all)) {
        if (area_mm2(piece) > kSliver_mm2) split_.panels.push_back(std::move(piece));
    }
    std::sort(split_.panels.begin(), split_.panels.end(), [](const Region& a, const Region& b) {
        const Vec2 p = lowestLeft(a), q = lowestLeft(b);
        return std::tuple(p.x(), p.y()) < std::tuple(q.x(), q.y());
    });
}

std::optional<std::size_t> Splitter::panelBeside(const FlatStrip& strip, bool left) {
    const double near = strip.half_mm + kOff_mm, far = near + kDepth_mm;
    const Polygon window = strip.band(strip.span.from_mm, strip.span.to_mm, left ? near : -far, left ? far : -near);
    std::vector<double> shared(split_.panels.size(), 0.0);
    double together = 0;
    for (std::size_t i = 0; i < shared.size(); ++i) {
        for (const Region& piece : intersection(split_.panels[i], window)) shared[i] += area_mm2(piece);
        together += shared[i];
    }
    std::vector<std::size_t> beside;
    for (std::size_t i = 0; i < shared.size(); ++i) {
        if (shared[i] > kLeastShare * together) beside.push_back(i);
    }
    if (beside.size() == 1) return beside.front();
    issues_.push_back(
        {"bend.panels", "", strip.place,
         beside.empty() ? "no sheet left beside the bend's strip" : "several panels on one side of one bend",
         "one panel on each side of a bend",
         beside.empty() ? "bends nearer to one another, or to an edge, than their strips are wide"
                        : "end the slit between them past the bend's strip"});
    return std::nullopt;
}

void Splitter::findSides() {
    for (const FlatStrip& strip : split_.strips) {
        const auto left = panelBeside(strip, true);
        const auto right = left ? panelBeside(strip, false) : std::nullopt;
        if (left && right && *left == *right) {
            issues_.push_back({"bend.panels", "", strip.place, "the same panel on both sides of a bend",
                               "a bend that parts the sheet", "cut the sheet from the bend's ends to an edge"});
        }
        split_.sides.push_back({left.value_or(0), right.value_or(0)});
    }
}

void Splitter::tidyPanels() {
    for (std::size_t panel = 0; panel < split_.panels.size(); ++panel) {
        std::vector<TidyLine> lines;
        for (std::size_t i = 0; i < split_.strips.size(); ++i) {
            const FlatStrip& strip = split_.strips[i];
            const double middle = strip.left().dot(strip.origin);
            if (split_.sides[i].left == panel) lines.push_back({strip.left(), middle + strip.half_mm});
            if (split_.sides[i].right == panel) lines.push_back({strip.left(), middle - strip.half_mm});
        }
        tidy(split_.panels[panel], lines);
    }
}

FlatSplit Splitter::run() {
    size_mm_ = boxOf(sheet_.outline).diagonal().norm();
    for (std::size_t i = 0; i < split_.strips.size(); ++i) addLeftovers(i);
    makePanels();
    findSides();
    if (issues_.empty()) tidyPanels();
    putBackHoles();
    return std::move(split_);
}

}  // namespace

Polygon FlatStrip::band(double from, double to, double low, double high) const {
    const auto at = [&](double u, double v) { return Vec2(origin + u * along + v * left()); };
    return {at(from, low), at(to, low), at(to, high), at(from, high)};
}

FlatSplit splitSheet(const Region& sheet, std::vector<FlatStrip> strips, Issues& issues) {
    return Splitter(sheet, std::move(strips), issues).run();
}

}  // namespace tinwright
