// SPDX-License-Identifier: GPL-3.0-or-later
#include "contact/stroke_scene.h"

#include <tinwright/base/contract.h>
#include <tinwright/base/hash.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <numeric>

namespace tinwright {

namespace {

constexpr double kOnLine_mm = 1e-3;
constexpr double kSameDirection = 1e-6;

// What no state changes. Hems are pressed together with hems alone, which are closed together too.
std::optional<KeptApart::Why> unlike(const Bend& a, const Bend& b) {
    if (a.hem.has_value() != b.hem.has_value()) return KeptApart::Why::kHem;
    if (std::abs(a.angle.rad() - b.angle.rad()) > kSameDirection) return KeptApart::Why::kAngles;
    if (a.hem && a.hem->gap_mm != b.hem->gap_mm) return KeptApart::Why::kHemGaps;
    return std::nullopt;
}

// Stretches of a bend's strip in its own frame.
std::vector<Interval> spansOf(const ContactCache& table, BendId id, Side hold) {
    const Bend& bend = table.bodies().part().bend(id);
    const Rigid frame = table.geometry().bendFrame(id, hold);
    std::vector<Interval> spans;
    for (const StripSpan& span : bend.spans) {
        const auto xAt = [&](double along) {
            const Vec2 p = bend.origin + along * bend.along;
            return (frame * Vec3(p.x(), p.y(), 0)).x();
        };
        const auto [lo, hi] = std::minmax({xAt(span.from_mm), xAt(span.to_mm)});
        spans.push_back({micronNearest(lo), micronNearest(hi)});
    }
    return spans;
}

}  // namespace

SceneBuilder::Relation SceneBuilder::relation(BendId bend, Side hold, BendId other, BendMask formed) {
    const Part& part = table_.bodies().part();
    const Bend& line = part.bend(bend);
    const Bend& second = part.bend(other);
    const BendMask path = table_.bodies().path(line.parent, second.parent);
    const auto [entry, is_new] = relations_.try_emplace({bend, hold, other, formed & path});
    Relation& result = entry->second;
    if (!is_new || unlike(line, second)) return result;
    const Rigid here = table_.geometry().bendFrame(bend, hold);
    for (const Side other_hold : kBothSides) {
        if (result.on_line) break;
        const Rigid there = table_.geometry().bendFrame(other, other_hold);
        const Rigid step =
            here * table_.bodies().pose(heldPanel(line, hold), heldPanel(second, other_hold), formed) * there.inverse();
        const bool turned = (step.linear() - Eigen::Matrix3d::Identity()).cwiseAbs().maxCoeff() > kSameDirection;
        if (turned || std::abs(step.translation().y()) > kOnLine_mm || std::abs(step.translation().z()) > kOnLine_mm)
            continue;
        result = {true, other_hold, step.translation().x()};
    }
    return result;
}

std::vector<BendMask> SceneBuilder::lines(BendMask formed) {
    const std::size_t count = table_.bodies().part().bends.size();
    std::vector<BendMask> lines;
    BendMask done = formed;
    for (std::size_t i = 0; i < count; ++i) {
        const auto bend = idAt<BendId>(i);
        if (contains(done, bend)) continue;
        BendMask line = bit(bend);
        for (std::size_t k = i + 1; k < count; ++k) {
            const auto other = idAt<BendId>(k);
            if (!contains(done, other) && relation(bend, Side::kParent, other, formed).on_line) line |= bit(other);
        }
        // Bends that cannot be pressed together (a panel would be held and moved at once) are lines of their own.
        if (!std::has_single_bit(line) && arrange(formed, {line, Side::kParent}).empty()) line = bit(bend);
        done |= line;
        lines.push_back(line);
    }
    return lines;
}

bool SceneBuilder::mayShareStroke(BendId a, BendId b) {
    const Part& part = table_.bodies().part();
    if (unlike(part.bend(a), part.bend(b))) return false;
    const BendMask path = table_.bodies().path(part.bend(a).parent, part.bend(b).parent);
    if (std::popcount(path) > kPathsUpTo) return true;
    for (BendMask formed = path;; formed = (formed - 1) & path) {  // every subset of the path, the empty one last
        if (!contains(formed, a) && !contains(formed, b) && relation(a, Side::kParent, b, formed).on_line) return true;
        if (formed == 0) return false;
    }
}

Side SceneBuilder::holdOf(BendMask formed, const Stroke& stroke, BendId bend) {
    if (bend == stroke.first()) return stroke.hold;
    const Relation other = relation(stroke.first(), stroke.hold, bend, formed);
    TINWRIGHT_REQUIRE(other.on_line, "a stroke's bends lie on one line");
    return other.hold;
}

std::vector<BendMask> SceneBuilder::subsets(BendMask line, BendMask formed, bool& all) {
    std::vector<BendMask> result;
    if (countBends(line) <= kAllSubsetsUpTo) {
        for (BendMask subset = line; subset != 0; subset = (subset - 1) & line) result.push_back(subset);
        return result;
    }
    all = false;
    std::vector<StrokeBend> along = arrange(formed, {line, Side::kParent});
    std::sort(along.begin(), along.end(),
              [](const StrokeBend& a, const StrokeBend& b) { return a.shift_um < b.shift_um; });
    for (std::size_t from = 0; from < along.size(); ++from) {
        BendMask run = 0;
        for (std::size_t to = from; to < along.size(); ++to) {
            run |= bit(along[to].bend);
            result.push_back(run);
        }
    }
    return result;
}

std::vector<ListedStroke> SceneBuilder::strokes(BendMask formed, bool& all) {
    std::vector<ListedStroke> strokes;
    all = true;
    for (const BendMask line : lines(formed)) {
        for (const BendMask subset : subsets(line, formed, all)) {
            for (const Side hold : kBothSides) {
                if (!std::has_single_bit(subset) && arrange(formed, {subset, hold}).empty()) continue;
                strokes.push_back({{subset, hold}, subset == line});
            }
        }
    }
    std::sort(strokes.begin(), strokes.end(),
              [](const ListedStroke& a, const ListedStroke& b) { return a.stroke < b.stroke; });
    return strokes;
}

std::vector<int> SceneBuilder::components(BendMask without) const {
    const Part& part = table_.bodies().part();
    std::vector<int> component(part.panels.size());
    std::iota(component.begin(), component.end(), 0);
    for (std::size_t i = 0; i < part.bends.size(); ++i) {  // parents come first, so one pass is enough
        if (contains(without, idAt<BendId>(i))) continue;
        component[part.bends[i].child.index()] = component[part.bends[i].parent.index()];
    }
    return component;
}

std::vector<StrokeBend> SceneBuilder::arrange(BendMask formed, const Stroke& stroke) {
    std::vector<StrokeBend> bends = alongLine(formed, stroke);
    if (heldAndMoved(bends, stroke.bends)) bends.clear();
    return bends;
}

std::vector<StrokeBend> SceneBuilder::alongLine(BendMask formed, const Stroke& stroke) {
    std::vector<StrokeBend> result{{stroke.first(), stroke.hold, 0}};
    for (const BendId bend : bendsIn(stroke.bends & ~bit(stroke.first()))) {
        const Relation other = relation(stroke.first(), stroke.hold, bend, formed);
        if (!other.on_line) return {};
        result.push_back({bend, other.hold, micronNearest(other.shift_mm)});
    }
    return result;
}

std::optional<KeptApart> SceneBuilder::heldAndMoved(const std::vector<StrokeBend>& bends, BendMask pressed) const {
    const Part& part = table_.bodies().part();
    const std::vector<int> component = components(pressed);
    for (const StrokeBend& one : bends) {
        const PanelId held = heldPanel(part.bend(one.bend), one.hold);
        for (const StrokeBend& other : bends) {
            if (component[movingPanel(part.bend(other.bend), other.hold).index()] == component[held.index()])
                return KeptApart{KeptApart::Why::kHeldAndMoved, one.bend, other.bend, held};
        }
    }
    return std::nullopt;
}

BendMask SceneBuilder::between(BendMask bends) const {
    const Part& part = table_.bodies().part();
    const PanelId first = part.bend(firstBend(bends)).parent;
    BendMask mask = 0;
    for (const BendId bend : bendsIn(bends)) mask |= table_.bodies().path(first, part.bend(bend).parent);
    return mask & ~bends;
}

std::optional<SceneBuilder::Apart> SceneBuilder::keptApart(BendMask formed, const Stroke& stroke) {
    const Part& part = table_.bodies().part();
    const BendId first = stroke.first();
    for (const BendId bend : bendsIn(stroke.bends)) {
        if (bend != first && !relation(first, Side::kParent, bend, formed).on_line) {
            const KeptApart::Why why = unlike(part.bend(first), part.bend(bend)).value_or(KeptApart::Why::kNotOnLine);
            return Apart{{why, first, bend, {}}, between(bit(first) | bit(bend)) & ~stroke.bends};
        }
    }
    if (std::has_single_bit(stroke.bends)) return std::nullopt;
    if (const auto moved = heldAndMoved(alongLine(formed, stroke), stroke.bends))
        return Apart{*moved, between(stroke.bends)};
    return std::nullopt;
}

std::shared_ptr<const StrokeScene> SceneBuilder::scene(BendMask formed, const Stroke& stroke) {
    const std::uint64_t hash = hashed(hashed(formed, stroke.bends), static_cast<std::uint64_t>(stroke.hold));
    KeptScene& kept = kept_[(hash >> 32) % kKeptScenes];
    if (!kept.scene || kept.formed != formed || kept.stroke != stroke) {
        kept = {formed, stroke, std::make_shared<const StrokeScene>(layOut(formed, stroke, ~BendMask{0}))};
    }
    return kept.scene;
}

StrokeScene SceneBuilder::layOut(BendMask formed, const Stroke& stroke, BendMask known) {
    const Part& part = table_.bodies().part();
    StrokeScene scene;
    scene.formed = formed;
    scene.bends = arrange(formed, stroke);
    TINWRIGHT_REQUIRE(!scene.bends.empty(), "a stroke's bends lie on one line");
    Micron least = std::numeric_limits<Micron>::max();
    for (const StrokeBend& bend : scene.bends) {
        for (const Interval& span : spansOf(table_, bend.bend, bend.hold))
            least = std::min(least, span.lo + bend.shift_um);
    }
    const std::vector<int> component = components(stroke.bends);
    std::vector<const StrokeBend*> anchor(part.panels.size(), nullptr);  // by component
    for (StrokeBend& bend : scene.bends) {
        bend.shift_um -= least;
        for (const Interval& span : spansOf(table_, bend.bend, bend.hold)) {
            scene.needs.push_back({span.lo + bend.shift_um, span.hi + bend.shift_um});
        }
        scene.clamped.addShifted(table_.clamped().of(bend.bend, bend.hold), bend.shift_um);
        const std::optional<IntervalSet>& swung = table_.clamped().swung(bend.bend, bend.hold);
        for (const Interval& span : spansOf(table_, bend.bend, bend.hold)) {
            if (!swung) scene.swung.add({span.lo + bend.shift_um, span.hi + bend.shift_um});
        }
        if (swung) scene.swung.addShifted(*swung, bend.shift_um);
        const Bend& line = part.bend(bend.bend);
        for (const PanelId side : {line.parent, line.child}) {
            const StrokeBend*& slot = anchor[static_cast<std::size_t>(component[side.index()])];
            if (slot == nullptr) slot = &bend;
        }
    }
    std::sort(scene.needs.begin(), scene.needs.end(), [](Interval a, Interval b) { return a.lo < b.lo; });
    scene.extent = {std::numeric_limits<Micron>::max(), std::numeric_limits<Micron>::min()};
    const std::vector<Group>& groups = table_.bodies().groups();
    for (std::size_t g = 0; g < groups.size(); ++g) {
        if (groups[g].is_strip && contains(stroke.bends, groups[g].bend)) continue;
        const StrokeBend& bend = *anchor[static_cast<std::size_t>(component[groups[g].frame.index()])];
        if (known != ~BendMask{0}) {
            BendMask path = table_.bodies().path(heldPanel(part.bend(bend.bend), bend.hold), groups[g].frame);
            if (groups[g].is_strip) path |= bit(groups[g].bend);
            if ((path & ~known & ~stroke.bends) != 0) continue;
        }
        const std::uint32_t record = table_.records().of(bend.bend, bend.hold, g, formed);
        const GroupRecord& contact = table_.at(record);
        scene.uses.push_back({record, bend.shift_um, contact.moving});
        scene.extent.lo = std::min(scene.extent.lo, micronFloor(contact.x_lo_mm) + bend.shift_um);
        scene.extent.hi = std::max(scene.extent.hi, micronCeil(contact.x_hi_mm) + bend.shift_um);
    }
    for (const Interval& need : scene.needs) {
        scene.extent = {std::min(scene.extent.lo, need.lo), std::max(scene.extent.hi, need.hi)};
    }
    return scene;
}

}  // namespace tinwright
