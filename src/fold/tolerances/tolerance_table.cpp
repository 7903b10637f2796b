// SPDX-License-Identifier: GPL-3.0-or-later
#include "tolerances/tolerance_table.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace tinwright {

namespace {

constexpr double kLongestSwing_rad = std::numbers::pi - 1e-3;  // spans stay under half a turn
constexpr double kNoMargin_mm = 1e-6;                          // asks for no witnesses
constexpr int kCloseDepth = 8;                                 // so often a stroke is halved for a proof of one solid

}  // namespace

// What rolls and what bends evenly: the strip by A' over S' where it was to be by A over S (NOTES.md has the bounds).
ToleranceTable::SwingBounds::SwingBounds(const Machine& machine, const Bend& bend, double set_rad,
                                         const ToleranceBox& box)
    : motions(machine, bend.allowance_mm, std::min(set_rad + box.bend_angle.rad(), kLongestSwing_rad)) {
    const double swing_rad = motions.swing.set_rad();
    const double strip_mm = stripDeviation_mm(bend, machine.thickness_mm(), box);
    motion_mm = strip_mm * std::max(1.0, 0.5 * swing_rad) + 2 * bend.allowance_mm * box.bend_angle.rad() / swing_rad;
    flat_motion_mm = motion_mm * (1 + (swing_rad - std::sin(swing_rad)) / (1 - std::cos(swing_rad)));
    bed_mm = 2 * std::sin(0.5 * swing_rad) * box.thickness_mm;
    leaf_mm = 4 * box.thickness_mm + 1.5 * motion_mm;
}

ToleranceTable::ToleranceTable(ContactCache& table, const ToleranceBox& box)
    : table_(table), box_(box), swings_(table.bodies().part().bends.size()) {
    for (const Convex2& piece : table.machine().bodies()[table.machine().bed()].section) {
        for (const Vec2& corner : piece.points())
            bed_back_mm_ = std::max(bed_back_mm_, corner.x() + 2 * box.thickness_mm);
    }
}

ToleranceTable::Kept& ToleranceTable::kept(std::uint32_t record) {
    if (record >= records_.size()) records_.resize(record + 1);
    auto& slot = records_[record];
    if (!slot) {
        slot = std::make_unique<Kept>();
        slot->shadows.resize(table_.machine().bodies().size());
    }
    return *slot;
}

const ToleranceTable::SwingBounds& ToleranceTable::swingBounds(BendId bend) {
    auto& slot = swings_[bend.index()];
    if (!slot)
        slot = std::make_unique<SwingBounds>(table_.machine(), table_.bodies().part().bend(bend),
                                             table_.geometry().set_rad(bend), box_);
    return *slot;
}

const Deviation& ToleranceTable::deviation(std::uint32_t record, Phase phase) {
    const GroupRecord& contact = table_.at(record);
    const bool after = phase == Phase::kAfter && contact.moving;
    auto& slot = kept(record).deviation[after ? 1 : 0];
    if (!slot) {
        const BendMask formed = after ? contact.formed | bit(contact.bend) : contact.formed;
        slot = std::make_unique<Deviation>(table_.bodies(), box_, DeviationState{contact.bend, contact.hold, formed},
                                           contact.group);
    }
    return *slot;
}

double ToleranceTable::most_mm(std::uint32_t record, Phase phase) {
    const GroupRecord& contact = table_.at(record);
    const bool after = phase == Phase::kAfter && contact.moving;
    double& most = kept(record).most_mm[after ? 1 : 0];
    if (most >= 0) return most;
    const Deviation& how = deviation(record, phase);
    const Rigid pose = table_.records().poseIn(record, phase);
    most = 0;
    if (contact.is_arc) {
        for (const PrismRings& slice : table_.records().ringsOf(contact)) {
            for (const auto* ring : {&slice.bottom, &slice.top}) {
                for (const Vec3& corner : *ring) most = std::max(most, how.most_mm(pose * corner));
            }
        }
    } else {
        for (const Vec2& corner : outlineOf(contact.group)) {
            for (const double z : {0.0, table_.bodies().part().thickness_mm})
                most = std::max(most, how.most_mm(pose * Vec3(corner.x(), corner.y(), z)));
        }
    }
    if (contact.moving && !after) most += std::sqrt(2.0) * swingBounds(contact.bend).flat_motion_mm;
    return most;
}

const Polygon& ToleranceTable::outlineOf(std::size_t group) {
    if (outlines_.empty()) outlines_.resize(table_.bodies().groups().size());
    Polygon& outline = outlines_[group];
    if (!outline.empty()) return outline;
    std::vector<Vec2> corners;
    for (const PrismRings& prism : table_.bodies().groups()[group].flat) {
        for (const Vec3& corner : prism.bottom) corners.emplace_back(corner.x(), corner.y());
    }
    return outline = hullOf(std::move(corners));
}

std::vector<PrismRings> ToleranceTable::inflatedRings(std::uint32_t record, Phase phase, const Swelling& how) {
    const GroupRecord& contact = table_.at(record);
    const Deviation& by = deviation(record, phase);
    const Rigid pose = table_.records().poseIn(record, phase);
    const auto& rings = table_.records().ringsOf(contact);
    if (!contact.is_arc) return inflatedSheet(rings, outlineOf(contact.group), pose, by, how);
    return inflatedArc(rings, table_.bodies().part().bend(table_.bodies().groups()[contact.group].bend), pose, by, how);
}

ToleranceTable::Inflated& ToleranceTable::inflated(std::uint32_t record, SeenFrom from, bool cut) {
    auto& slot = kept(record).inflated[from == SeenFrom::kBars ? 1 : 0][cut ? 1 : 0];
    if (slot) return *slot;
    const GroupRecord& contact = table_.at(record);
    const SwingBounds& by_stroke = swingBounds(contact.bend);
    const Swelling how{from, cut, contact.moving ? by_stroke.motion_mm : 0.0,
                       contact.moving ? by_stroke.flat_motion_mm : 0.0};
    auto made = std::make_unique<Inflated>();
    made->rings = inflatedRings(record, Phase::kBefore, how);
    made->z_lo_mm = std::numeric_limits<double>::infinity();
    for (const PrismRings& one : made->rings) {
        made->solids.emplace_back(one, contact.pose);
        for (const Vec3& corner : made->solids.back().corners()) made->z_lo_mm = std::min(made->z_lo_mm, corner.z());
    }
    const BendMotions& motions = swingBounds(contact.bend).motions;
    for (const Solid& solid : made->solids)
        made->seen.emplace_back(solid, contact.moving ? motions.moving : motions.held);
    return *(slot = std::move(made));
}

ToleranceTable::View ToleranceTable::viewOf(std::uint32_t record, std::size_t body) {
    const GroupRecord& contact = table_.at(record);
    const SwingBounds& how = swingBounds(contact.bend);
    const Body& tool = table_.machine().bodies()[body];
    const Motion* motion = contact.moving ? &how.motions.moving : &how.motions.held;
    switch (tool.kind) {
        case BodyKind::kLeaf:
            if (contact.moving)
                return {&how.motions.from_driven.front().moving, &tool.pieces, SeenFrom::kBed, how.leaf_mm};
            return {&how.motions.from_driven.front().held, &tool.pieces, SeenFrom::kBed, 0};
        case BodyKind::kBed: return {motion, &tool.pieces, SeenFrom::kBed, contact.moving ? how.bed_mm : 0.0};
        case BodyKind::kBarLow:
        case BodyKind::kBarHigh:
        case BodyKind::kBeam:
        case BodyKind::kDie:
        case BodyKind::kJaw:
        case BodyKind::kFrame: break;  // press brakes are not looked at over tolerances (ToleranceCheck::judge)
    }
    return {motion, &tool.pieces, SeenFrom::kBars, 0};
}

const std::vector<SeenSolid>& ToleranceTable::seenBy(std::uint32_t record, const View& view, std::size_t body) {
    Inflated& group = inflated(record, view.from, true);
    if (table_.machine().bodies()[body].kind != BodyKind::kLeaf) return group.seen;
    if (group.from_driven.empty()) {
        for (const Solid& solid : group.solids) group.from_driven.emplace_back(solid, *view.motion);
    }
    return group.from_driven;
}

bool ToleranceTable::apartByDesign(std::uint32_t record, std::size_t body) {
    const GroupRecord& contact = table_.at(record);
    const int formed = deviation(record, Phase::kBefore).formedBends();
    switch (table_.machine().bodies()[body].kind) {
        case BodyKind::kBarLow:
        case BodyKind::kBarHigh:
        case BodyKind::kBeam:
        case BodyKind::kDie:
        case BodyKind::kJaw:
        case BodyKind::kFrame: return !contact.moving && formed == 0;
        case BodyKind::kLeaf:
            return contact.moving && contact.rises &&
                   (formed <= 1 || inflated(record, SeenFrom::kBed, true).z_lo_mm > -kFlat_mm);
        case BodyKind::kBed: break;
    }
    if (!contact.rises) return false;
    if (!contact.moving) return formed <= 1 || inflated(record, SeenFrom::kBed, true).z_lo_mm > -kFlat_mm;
    return overBedLack_mm(record) == 0.0;
}

const IntervalSet& ToleranceTable::shadow(std::uint32_t record, std::size_t body) {
    auto& slot = kept(record).shadows[body];
    if (!slot) slot = apartByDesign(record, body) ? IntervalSet() : castShadows(record, body);
    return *slot;
}

ToolPieces ToleranceTable::piecesWithin(std::uint32_t record, const View& view) {
    const SeenSection whole(*table_.at(record).hull, *view.motion);
    const double reach_mm = most_mm(record, Phase::kBefore) + view.margin_mm;
    ToolPieces pieces;
    for (const ToolPiece& piece : *view.pieces) {
        if (!staysClear(whole, *view.motion, piece.section, piece.ring, reach_mm, kQuickDepth)) pieces.push_back(piece);
    }
    return pieces;
}

IntervalSet ToleranceTable::castShadows(std::uint32_t record, std::size_t body) {
    const View view = viewOf(record, body);
    const ToolPieces pieces = piecesWithin(record, view);
    Shadow cast;
    if (pieces.empty()) return {};
    for (const SeenSolid& seen : seenBy(record, view, body)) {
        for (const ToolPiece& piece : pieces)
            castShadow(seen, *view.motion, piece, std::max(view.margin_mm, kNoMargin_mm), cast);
    }
    return cast.outer;
}

bool ToleranceTable::staysAway(std::uint32_t record, std::size_t body, Interval at) {
    if (kept(record).shadows[body]) return !kept(record).shadows[body]->meets(at);
    const GroupRecord& contact = table_.at(record);
    const double reach_mm = most_mm(record, Phase::kBefore);
    if (contact.x_lo_mm - reach_mm >= toMm(at.hi) || contact.x_hi_mm + reach_mm <= toMm(at.lo) ||
        apartByDesign(record, body))
        return true;
    const View view = viewOf(record, body);
    const ToolPieces pieces = piecesWithin(record, view);
    if (pieces.empty()) return true;
    const std::vector<SeenSolid>& solids = seenBy(record, view, body);
    return std::all_of(solids.begin(), solids.end(), [&](const SeenSolid& seen) {
        if (seen.solid->x_lo_mm() >= toMm(at.hi) || seen.solid->x_hi_mm() <= toMm(at.lo)) return true;
        return std::all_of(pieces.begin(), pieces.end(), [&](const ToolPiece& piece) {
            return staysClear(seen, *view.motion, piece.section, piece.ring, view.margin_mm, kCloseDepth);
        });
    });
}

double ToleranceTable::lack_mm(std::uint32_t record, std::size_t body, Interval at) {
    if (staysAway(record, body, at)) return 0;
    const IntervalSet& where = shadow(record, body);
    if (!where.meets(at)) return 0;
    Micron along = 0;
    for (const Interval& item : where.items()) {
        if (item.lo < at.hi && at.lo < item.hi) along = std::max(along, std::min(item.hi - at.lo, at.hi - item.lo));
    }
    const View view = viewOf(record, body);
    double gap_mm = 0;
    for (const SeenSolid& seen : seenBy(record, view, body)) {
        if (seen.solid->x_hi_mm() <= toMm(at.lo) || seen.solid->x_lo_mm() >= toMm(at.hi)) continue;
        for (const ToolPiece& piece : *view.pieces)
            gap_mm = std::min(gap_mm, leastGap(seen, *view.motion, piece, view.margin_mm).gap_mm - view.margin_mm);
    }
    const double lack_mm = std::min(toMm(along), -gap_mm);
    const std::optional<double> over_bed =
        table_.machine().bodies()[body].kind == BodyKind::kBed ? overBedLack_mm(record) : std::nullopt;
    return over_bed ? std::min(*over_bed, lack_mm) : lack_mm;
}

bool ToleranceTable::familyFits(BendId bend, Side hold, std::size_t family, std::size_t face) {
    const ToolFamily& bars = table_.machine().families()[family];
    const auto [entry, is_new] =
        fits_.try_emplace({bend.index(), static_cast<std::size_t>(hold), bars.high, face}, true);
    if (!is_new) return entry->second;
    const SwingBounds& how = swingBounds(bend);
    const std::vector<Solid> slices =
        table_.geometry().slicesAt(bend, hold, Angle::radians(how.motions.swing.set_rad()), 0);
    std::vector<std::size_t> parts{bars.high};
    if (bars.low >= 0) parts.push_back(static_cast<std::size_t>(bars.low));
    for (const std::size_t part : parts) {
        for (const Convex2& piece : table_.machine().bodies()[part].section) {
            const bool clear = std::all_of(slices.begin(), slices.end(),
                                           [&](const Solid& slice) { return apart(slice.section(), piece); });
            if (!clear) return entry->second = false;
        }
        if (!table_.machine().drivenClears(table_.machine().driven(face), part,
                                           how.motions.from_driven.front().standing, how.leaf_mm))
            return entry->second = false;
    }
    return true;
}

bool ToleranceTable::drivenClearsBeam(BendId bend, std::size_t face) {
    const Machine& machine = table_.machine();
    if (machine.beam() < 0) return true;
    const auto beam = static_cast<std::size_t>(machine.beam());
    const auto [entry, is_new] = fits_.try_emplace({bend.index(), 0, beam, face}, true);
    const SwingBounds& how = swingBounds(bend);
    if (is_new)
        entry->second =
            machine.drivenClears(machine.driven(face), beam, how.motions.from_driven.front().standing, how.leaf_mm);
    return entry->second;
}

}  // namespace tinwright
