// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>

#include <tinwright/base/contract.h>
#include <tinwright/geometry/box.h>
#include <tinwright/part/flat/flat_blank.h>
#include <tinwright/part/model/finished.h>
#include <tinwright/part/model/round_hole.h>

#include "flat/flat_edges.h"
#include "flat/flat_inside.h"
#include "flat/flat_split.h"

namespace tinwright {

namespace {

constexpr double kSameCorner_mm = 1e-3;

std::vector<FlatStrip> stripsOf(const std::vector<FlatJoint>& joints, const std::vector<FlatBend>& bends) {
    std::vector<FlatStrip> strips;
    for (std::size_t i = 0; i < joints.size(); ++i) {
        for (const StripSpan& span : joints[i].spans) {
            strips.push_back(
                {joints[i].origin, joints[i].along, span, 0.5 * bends[i].allowance_mm, i, joints[i].place});
        }
    }
    return strips;
}

bool isInside(const Region& region, const Vec2& point) {
    return isWithin(region.outline, point) && std::none_of(region.holes.begin(), region.holes.end(),
                                                           [&](const Polygon& hole) { return isWithin(hole, point); });
}

class FlatPartMaker {
public:
    FlatPartMaker(const Region& sheet, const std::vector<FlatJoint>& joints, const std::vector<FlatBend>& bends,
                  const FlatPart& whole)
        : sheet_(sheet),
          joints_(joints),
          bends_(bends),
          whole_(whole),
          split_(splitSheet(sheet, stripsOf(joints, bends), issues_)) {}
    Result<Part> run();

private:
    void report(const char* code, std::string place, std::string found, std::string expected, std::string hint = {}) {
        issues_.push_back({code, "", std::move(place), std::move(found), std::move(expected), std::move(hint)});
    }
    std::optional<std::size_t> basePanel();
    void findSides();
    void hangPanels(std::size_t base);
    void addBend(std::size_t joint, bool child_is_left);
    std::string nextName();
    std::vector<StripSpan> spansOf(std::size_t joint, const Bend& bend) const;
    void addCutOuts();
    PanelId mostlyOn(const Polygon& hole) const;
    void checkPanels();

    const Region& sheet_;
    const std::vector<FlatJoint>& joints_;
    const std::vector<FlatBend>& bends_;
    const FlatPart& whole_;
    Issues issues_;
    FlatSplit split_;
    std::vector<FlatSplit::Sides> sides_;        // by joint
    std::vector<std::optional<PanelId>> id_of_;  // by panel of split_
    std::set<std::string> names_;
    std::size_t number_ = 0;
    Part part_;
};

void FlatPartMaker::findSides() {
    sides_.resize(joints_.size());
    std::vector<bool> known(joints_.size(), false);
    for (std::size_t i = 0; i < split_.strips.size(); ++i) {
        const std::size_t joint = split_.strips[i].joint;
        const FlatSplit::Sides& sides = split_.sides[i];
        if (known[joint] && (sides.left != sides_[joint].left || sides.right != sides_[joint].right)) {
            report("bend.panels", joints_[joint].place,
                   "stretches of one bend between different panels once strips are taken out", "one pair of panels");
        }
        sides_[joint] = sides;
        known[joint] = true;
    }
}

std::optional<std::size_t> FlatPartMaker::basePanel() {
    if (split_.panels.empty()) {
        report("base", "", "no sheet left between the bends", "panels between the bends");
        return std::nullopt;
    }
    if (!whole_.base_at) {
        // A hair's breadth of area decides nothing: the first of equals.
        std::size_t best = 0;
        for (std::size_t i = 1; i < split_.panels.size(); ++i) {
            if (area_mm2(split_.panels[i]) > area_mm2(split_.panels[best]) * (1 + 1e-9)) best = i;
        }
        return best;
    }
    for (std::size_t i = 0; i < split_.panels.size(); ++i) {
        if (isInside(split_.panels[i], *whole_.base_at)) return i;
    }
    report("base", "",
           fmt::format("({:.3f}, {:.3f}) mm, which lies on no panel", whole_.base_at->x(), whole_.base_at->y()),
           "a point inside the base panel");
    return std::nullopt;
}

std::string FlatPartMaker::nextName() {
    std::string name;
    do name = fmt::format("b{}", ++number_);
    while (names_.contains(name));
    return name;
}

std::vector<StripSpan> FlatPartMaker::spansOf(std::size_t joint, const Bend& bend) const {
    std::vector<StripSpan> spans;
    for (const FlatStrip& strip : split_.strips) {
        if (strip.joint != joint) continue;
        const double a = bend.along.dot(strip.origin + strip.span.from_mm * strip.along - bend.origin);
        const double b = bend.along.dot(strip.origin + strip.span.to_mm * strip.along - bend.origin);
        spans.push_back({std::min(a, b), std::max(a, b)});
    }
    std::sort(spans.begin(), spans.end(), [](const StripSpan& a, const StripSpan& b) { return a.from_mm < b.from_mm; });
    std::vector<StripSpan> merged;
    for (const StripSpan& span : spans) {
        if (!merged.empty() && span.from_mm <= merged.back().to_mm + 1e-2)
            merged.back().to_mm = std::max(merged.back().to_mm, span.to_mm);
        else
            merged.push_back(span);
    }
    return merged;
}

void FlatPartMaker::addBend(std::size_t joint, bool child_is_left) {
    const FlatBend& from = bends_[joint];
    const FlatJoint& line = joints_[joint];
    const std::size_t parent = child_is_left ? sides_[joint].right : sides_[joint].left;
    const std::size_t child = child_is_left ? sides_[joint].left : sides_[joint].right;
    Bend bend;
    bend.name = from.name.empty() ? nextName() : from.name;
    bend.parent = *id_of_[parent];
    bend.child = idAt<PanelId>(part_.panels.size());
    bend.along = child_is_left ? line.along : Vec2(-line.along);
    bend.toward_child = Vec2(-bend.along.y(), bend.along.x());
    bend.origin = line.at(child_is_left ? line.spans.front().from_mm : line.spans.back().to_mm);
    bend.angle = from.angle;
    bend.up = from.up;
    bend.inside_radius_mm = from.inside_radius_mm;
    bend.allowance_mm = from.allowance_mm;
    bend.rule = from.rule;
    bend.rule_value = from.rule_value;
    bend.rule_source = from.rule_source;
    if (from.angle.deg() > 180 - 1e-9) bend.hem = Hem{2 * from.inside_radius_mm, from.allowance_mm};
    bend.spans = spansOf(joint, bend);
    id_of_[child] = bend.child;
    part_.panels.push_back({bend.name, split_.panels[child]});
    part_.bends.push_back(std::move(bend));
}

// The first joint, in their order, that has one panel hung already, until none is left.
void FlatPartMaker::hangPanels(std::size_t base) {
    id_of_.resize(split_.panels.size());
    id_of_[base] = PanelId{0};
    part_.panels.push_back({whole_.base_name, split_.panels[base]});
    std::vector<bool> done(joints_.size(), false);
    for (std::size_t hung = 0; hung < joints_.size(); ++hung) {
        std::size_t next = joints_.size();
        for (std::size_t i = 0; i < joints_.size() && next == joints_.size(); ++i) {
            if (!done[i] && (id_of_[sides_[i].left] || id_of_[sides_[i].right])) next = i;
        }
        if (next == joints_.size())
            return report("base", "", "panels that no bend joins to the base", "one piece of sheet");
        done[next] = true;
        if (id_of_[sides_[next].left] && id_of_[sides_[next].right]) {
            return report("bend.ring", joints_[next].place, "a bend that closes a ring of panels",
                          "panels that hang on one another as a tree",
                          "a closed ring cannot be folded from one sheet: cut it at a seam that is welded afterwards");
        }
        addBend(next, !id_of_[sides_[next].left]);
    }
}

// Holes of the sheet from left to right, then bottom to top, by their middles.
void FlatPartMaker::addCutOuts() {
    std::vector<std::pair<Vec2, const Polygon*>> holes;
    for (const Polygon& hole : sheet_.holes) holes.emplace_back(boxOf(hole).center(), &hole);
    std::sort(holes.begin(), holes.end(), [](const auto& a, const auto& b) {
        return std::pair(a.first.x(), a.first.y()) < std::pair(b.first.x(), b.first.y());
    });
    for (const auto& [middle, hole] : holes) {
        part_.cut_outs.push_back(
            {fmt::format("cut-out {}", part_.cut_outs.size() + 1), mostlyOn(*hole), *hole, roundHole(*hole), false});
    }
}

// The panel that most of a hole's corners lie on; a window across a bend has corners in common with the outlines of its
// panels.
PanelId FlatPartMaker::mostlyOn(const Polygon& hole) const {
    PanelId best{0};
    std::ptrdiff_t most = 0;
    for (std::size_t panel = 0; panel < part_.panels.size(); ++panel) {
        const Polygon& outline = part_.panels[panel].region.outline;
        const auto count = std::count_if(hole.begin(), hole.end(), [&](const Vec2& corner) {
            return isWithin(outline, corner) || std::any_of(outline.begin(), outline.end(), [&](const Vec2& p) {
                       return (p - corner).norm() < kSameCorner_mm;
                   });
        });
        if (count <= most) continue;
        most = count;
        best = idAt<PanelId>(panel);
    }
    return best;
}

void FlatPartMaker::checkPanels() {
    for (const Panel& panel : part_.panels) {
        std::string why;
        if (!isValid(panel.region, &why))
            report("panel", "", "panel " + panel.name + " with an outline that is not simple: " + why,
                   "a simple outline");
    }
    if (!issues_.empty()) return;
    for (const PanelCollision& collision : finishedCollisions(part_)) {
        report("finished.collide", "",
               fmt::format("panels {} and {} are {:.2f} mm inside one another when all is folded",
                           part_.panel(collision.a).name, part_.panel(collision.b).name, collision.depth_mm),
               "a finished part that can exist",
               "cut the corner back, or check angle, direction and inside radius of the bends between");
    }
}

Result<Part> FlatPartMaker::run() {
    if (!issues_.empty()) return std::move(issues_);
    findSides();
    names_.insert(whole_.base_name);
    for (std::size_t i = 0; i < bends_.size(); ++i) {
        if (!bends_[i].name.empty() && !names_.insert(bends_[i].name).second) {
            report("bend.name", joints_[i].place, "a second bend or panel named " + bends_[i].name,
                   "a name of its own for every bend");
        }
    }
    const std::optional<std::size_t> base = basePanel();
    if (!issues_.empty()) return std::move(issues_);
    part_.name = whole_.name;
    part_.material = whole_.material;
    part_.thickness_mm = whole_.thickness_mm;
    part_.grain_deg = whole_.grain_deg;
    part_.film = whole_.film;
    part_.warnings = whole_.warnings;
    part_.blank = sheet_;
    hangPanels(*base);
    if (issues_.empty() && part_.panels.size() != split_.panels.size())
        report("base", "", "panels that no bend joins to the base", "one piece of sheet");
    if (!issues_.empty()) return std::move(issues_);
    checkPanels();
    if (!issues_.empty()) return std::move(issues_);
    addCutOuts();
    addFlatEdges(part_);
    return std::move(part_);
}

}  // namespace

Result<Part> partFromFlat(const Region& sheet, const std::vector<FlatJoint>& joints, const std::vector<FlatBend>& bends,
                          const FlatPart& whole) {
    TINWRIGHT_REQUIRE(joints.size() == bends.size(), "one bend for each joint");
    return FlatPartMaker(sheet, joints, bends, whole).run();
}

}  // namespace tinwright
