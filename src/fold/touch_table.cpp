// SPDX-License-Identifier: GPL-3.0-or-later
#include "touch_table.h"

#include <algorithm>
#include <limits>
#include <numbers>
#include <numeric>

#include "planar_escape.h"
#include "way_out.h"

namespace tinwright {

namespace {

// A quick proof halves the stroke this often.
constexpr int kQuickDepth = 3;
constexpr double kFlat_mm = 1e-6;
constexpr double kPi = std::numbers::pi;

bool liesFlat(const std::vector<Solid>& solids, double thickness_mm) {
    return std::all_of(solids.begin(), solids.end(), [&](const Solid& solid) {
        return std::all_of(solid.corners().begin(), solid.corners().end(), [&](const Vec3& corner) {
            return corner.z() > -kFlat_mm && corner.z() < thickness_mm + kFlat_mm;
        });
    });
}

// Slices of arcs stand out by their sagitta.
bool risesFromSheet(const std::vector<Solid>& solids) {
    return std::all_of(solids.begin(), solids.end(), [](const Solid& solid) {
        return std::all_of(solid.corners().begin(), solid.corners().end(), [](const Vec3& corner) { return corner.z() > -kArcSagitta_mm - kFlat_mm; });
    });
}

bool comeWithin(double margin_mm, const std::vector<Solid>& a, const std::vector<Solid>& b) {
    return std::any_of(a.begin(), a.end(), [&](const Solid& one) {
        return std::any_of(b.begin(), b.end(), [&](const Solid& other) { return !liesBeyond(one, other, margin_mm); });
    });
}

// Proofs are tried at few margins, so that a proof serves many caps.
double proofMargin_mm(double cap_mm) {
    for (const double margin_mm : {0.5, 1.0, 2.0}) {
        if (cap_mm <= margin_mm) return margin_mm;
    }
    return std::max(cap_mm, kClearanceCap_mm);
}

template <class Beyond, class Least>
std::optional<LeastGap> knownUnder(double cap_mm, KnownGap& known, Beyond beyond, Least least) {
    if (!known.gap && known.beyond_mm < cap_mm) {
        const double margin_mm = proofMargin_mm(cap_mm);
        if (beyond(margin_mm)) {
            known.beyond_mm = margin_mm;
        } else {
            known.gap = least();
        }
    }
    return known.gap && known.gap->gap_mm < cap_mm ? known.gap : std::nullopt;
}

}  // namespace

Rigid swungBy(const BendMotions& motions, double angle_rad) {
    // At the end of the stroke the whole strip is on the arc, and so it stays when the part springs back.
    const SinCos turn = sinCos(Angle::radians(angle_rad));
    const Vec3 centre(0, motions.swing.centre().x(), motions.swing.centre().y());
    Rigid pose = Rigid::Identity();
    pose.linear() << 1, 0, 0, 0, turn.cos, turn.sin, 0, -turn.sin, turn.cos;
    pose.translation() = centre + pose.linear() * (Vec3(0, motions.swing.allowance_mm(), 0) - centre);
    return pose;
}

BendMotions::BendMotions(const LeafMachine& machine, double allowance_mm, double set_rad)
    : swing(machine.brake().nose_radius_mm, machine.thickness_mm(), allowance_mm, set_rad), still(Motion::still()),
      moving(Motion::swing(swing)), held_from_leaf(Motion::heldFromLeaf(machine.hinge(), set_rad)),
      moving_from_leaf(Motion::movingFromLeaf(swing, machine.hinge())),
      standing_from_leaf(Motion::standingFromLeaf(swing, machine.hinge())) {}

TouchTable::TouchTable(const Part& part, const Shop& shop, const LeafBrake& brake)
    : bodies_(part, brake.nose_radius_mm), machine_(brake, part.thickness_mm), limits_(&shop.limits) {
    for (const Bend& bend : part.bends) {
        // An angle past the leaf's limit is refused before its motion is asked for; the cap keeps spans under half a turn.
        const double set_rad = std::min(bend.angle.rad() + shop.overbendFor_deg(part.material) * kPi / 180.0, kPi - 1e-3);
        motions_.push_back(std::make_unique<BendMotions>(machine_, bend.allowance_mm, set_rad));
    }
    index_.resize(part.bends.size() * 2 * bodies_.groups().size());
    own_strips_.resize(part.bends.size() * 2);
    lands_.resize(part.bends.size() * 2);
    const BendMask all = allFormed(part);
    for (const Group& group : bodies_.groups()) {
        std::vector<Solid> solids;
        const Rigid pose = bodies_.pose(idAt<PanelId>(0), group.frame, all);
        for (const PrismRings& rings : group.is_strip ? group.formed : group.flat) solids.emplace_back(rings, pose);
        finished_.push_back(std::move(solids));
    }
}

std::uint32_t TouchTable::record(BendId bend, int hold, std::size_t group, BendMask formed) {
    const Group& what = bodies_.groups()[group];
    const Bend& line = bodies_.part().bend(bend);
    BendMask path = bodies_.path(heldPanel(line, hold), what.frame);
    if (what.is_strip) path |= bit(what.bend);
    const std::size_t slot = (bend.index() * 2 + static_cast<std::size_t>(hold)) * bodies_.groups().size() + group;
    const auto [entry, is_new] = index_[slot].try_emplace(formed & path & ~bit(bend), 0);
    if (is_new) entry->second = makeRecord(bend, hold, group, formed);
    return entry->second;
}

std::uint32_t TouchTable::makeRecord(BendId bend, int hold, std::size_t group, BendMask formed) {
    auto touch = std::make_unique<GroupTouch>();
    touch->group = group;
    placeSolids(*touch, bend, hold, formed);
    prepareViews(*touch, motions(bend));
    touch->bodies.resize(machine_.bodies().size());
    records_.push_back(std::move(touch));
    bend_of_record_.push_back(bend);
    return static_cast<std::uint32_t>(records_.size() - 1);
}

void TouchTable::placeSolids(GroupTouch& touch, BendId bend, int hold, BendMask formed) const {
    const Group& group = bodies_.groups()[touch.group];
    const Bend& line = bodies_.part().bend(bend);
    const PanelId held = heldPanel(line, hold);
    touch.moving = contains(bodies_.path(held, group.frame), bend);
    const PanelId anchor = touch.moving ? movingPanel(line, hold) : held;
    const Rigid frame = foldFromBlank(line, hold, bodies_.part().thickness_mm, bodies_.nose_radius_mm());
    const Rigid pose = frame * bodies_.pose(anchor, group.frame, formed);
    const bool is_arc = group.is_strip && contains(formed, group.bend);
    touch.is_arc = is_arc;
    for (const PrismRings& rings : is_arc ? group.formed : group.flat) touch.solids.emplace_back(rings, pose);
    touch.lies_flat = liesFlat(touch.solids, bodies_.part().thickness_mm);
    touch.rises = risesFromSheet(touch.solids);
    if (!touch.moving) return;
    const Rigid swung = swungBy(motions(bend), line.angle.rad());
    for (const PrismRings& rings : is_arc ? group.formed : group.flat) touch.after.emplace_back(rings, swung * pose);
}

void TouchTable::prepareViews(GroupTouch& touch, const BendMotions& motions) const {
    touch.x_lo_mm = std::numeric_limits<double>::infinity();
    touch.x_hi_mm = -touch.x_lo_mm;
    touch.ring = {touch.x_lo_mm, 0};
    touch.seen.reserve(touch.solids.size());
    std::vector<Vec2> sections;
    for (const Solid& solid : touch.solids) {
        touch.x_lo_mm = std::min(touch.x_lo_mm, solid.x_lo_mm());
        touch.x_hi_mm = std::max(touch.x_hi_mm, solid.x_hi_mm());
        const std::vector<Vec2>& section = solid.section().points();
        const RadiusRange ring = radiusRange(section, motions.swing.centre());
        touch.ring = {std::min(touch.ring.least_mm, ring.least_mm), std::max(touch.ring.most_mm, ring.most_mm)};
        touch.seen.emplace_back(solid, touch.moving ? motions.moving : motions.still);
        sections.insert(sections.end(), section.begin(), section.end());
    }
    if (touch.solids.size() > 1) touch.hull = Convex2(sections);
    prepareLeafViews(touch, motions);
}

// Views from the leaf are left out where they tell nothing: of what lies on it, and of what it never comes near.
void TouchTable::prepareLeafViews(GroupTouch& touch, const BendMotions& motions) const {
    if (touch.moving && touch.rises) return;
    if (!touch.moving) {
        double leaf = 0;
        for (std::size_t face = 0; face < machine_.brake().leaf_faces.size(); ++face) {
            for (const ToolPiece& piece : machine_.bodies()[machine_.leaf(face)].strict) leaf = std::max(leaf, piece.ring.most_mm);
        }
        const double reach = leaf + (machine_.hinge() - motions.swing.centre()).norm() + kClearanceCap_mm + limits_->clearance_mm;
        if (touch.ring.least_mm > reach) return;
    }
    touch.from_leaf.reserve(touch.solids.size());
    for (const Solid& solid : touch.solids) touch.from_leaf.emplace_back(solid, touch.moving ? motions.moving_from_leaf : motions.held_from_leaf);
}

const BodyTouch& TouchTable::touch(std::uint32_t record, std::size_t body) {
    BodyTouch& result = records_[record]->bodies[body];
    if (!result.known) result = computeTouch(*records_[record], motions(bend_of_record_[record]), body);
    return result;
}

TouchTable::View TouchTable::viewOf(const GroupTouch& touch, const BendMotions& motions, std::size_t body, bool strict) const {
    const Body& tool = machine_.bodies()[body];
    const ToolPieces* pieces = strict ? &tool.strict : &tool.pieces;
    if (tool.kind == BodyKind::kLeaf) return {&touch.from_leaf, touch.moving ? &motions.moving_from_leaf : &motions.held_from_leaf, pieces};
    return {&touch.seen, touch.moving ? &motions.moving : &motions.still, pieces};
}

// Pieces of a tool that the group, taken as one, is not proven to keep away from; most keep away from most.
ToolPieces TouchTable::piecesWithin(const GroupTouch& touch, const View& view, double margin_mm) {
    if (touch.hull.empty()) return *view.pieces;
    ToolPieces result;
    const SeenSection whole(touch.hull, *view.motion);
    for (const ToolPiece& piece : *view.pieces) {
        if (!staysClear(whole, *view.motion, piece.section, piece.ring, margin_mm, kQuickDepth)) result.push_back(piece);
    }
    return result;
}

BodyTouch TouchTable::computeTouch(const GroupTouch& touch, const BendMotions& motions, std::size_t body) const {
    const BodyKind kind = machine_.bodies()[body].kind;
    BodyTouch result;
    result.known = true;
    // The sheet on the bed lies under the bars, and what swings with it starts on the leaf, beside the bed, at the nose;
    // arcs that rise from it touch the bed or the leaf where they begin.
    const bool bar = kind == BodyKind::kBarLow || kind == BodyKind::kBarHigh;
    const bool starts_on_bed = touch.moving ? touch.lies_flat || (touch.is_arc && touch.rises) : touch.rises;
    result.intended = (bar && touch.lies_flat) || (kind == BodyKind::kBed && starts_on_bed);
    // The leaf's face gives way until the sheet that lies on it only touches (motion.cpp): what is above that is clear.
    if (touch.rises && touch.moving && kind == BodyKind::kLeaf) {
        result.intended = true;
        return result;
    }
    const std::vector<SeenSolid>& solids = kind == BodyKind::kLeaf ? touch.from_leaf : touch.seen;
    std::vector<std::size_t> close;  // solids that may touch
    if (result.intended) {
        close.resize(solids.size());
        std::iota(close.begin(), close.end(), std::size_t{0});
    } else {
        const double margin_mm = limits_->clearance_mm + 2 * kStrictInset_mm;
        const View view = viewOf(touch, motions, body, true);
        const ToolPieces pieces = piecesWithin(touch, view, margin_mm);
        Shadow near;
        for (std::size_t i = 0; i < solids.size(); ++i) {
            bool is_close = false;
            for (const ToolPiece& piece : pieces) is_close = castShadow(solids[i], *view.motion, piece, margin_mm, near) || is_close;
            if (is_close) close.push_back(i);
        }
        result.near = std::move(near.outer);
    }
    if (close.empty()) return result;
    const View view = viewOf(touch, motions, body, bar && touch.is_arc);
    const ToolPieces pieces = piecesWithin(touch, view, 0);
    for (const std::size_t i : close) {
        for (const ToolPiece& piece : pieces) castShadow(solids[i], *view.motion, piece, 0, result.shadow);
    }
    if (!result.intended) result.near.add(result.shadow.outer);
    return result;
}

bool TouchTable::groupBeyond(double cap_mm, std::uint32_t record, std::size_t body) const {
    const GroupTouch& touch = *records_[record];
    if (touch.hull.empty()) return false;
    return piecesWithin(touch, viewOf(touch, motions(bend_of_record_[record]), body, true), cap_mm + 2 * kStrictInset_mm).empty();
}

std::optional<LeastGap> TouchTable::gapUnder(double cap_mm, std::uint32_t record, std::size_t body, std::size_t solid) {
    touch(record, body);
    GroupTouch& group = *records_[record];
    const View view = viewOf(group, motions(bend_of_record_[record]), body, true);
    if (solid >= view.solids->size()) return std::nullopt;  // the leaf is never near
    group.bodies[body].gaps.resize(view.solids->size());
    const SeenSolid& seen = (*view.solids)[solid];
    const double inset_mm = 2 * kStrictInset_mm;  // corners are moved in by more than edges
    const auto beyond = [&](double margin_mm) {
        return std::all_of(view.pieces->begin(), view.pieces->end(), [&](const ToolPiece& piece) {
            return staysClear(seen, *view.motion, piece.section, piece.ring, margin_mm + inset_mm, kQuickDepth);
        });
    };
    return knownUnder(cap_mm, group.bodies[body].gaps[solid], beyond, [&] {
        LeastGap least{kClearanceCap_mm, 0};
        for (const ToolPiece& piece : *view.pieces) {
            LeastGap gap = leastGap(seen, *view.motion, piece, least.gap_mm);
            gap.gap_mm -= inset_mm;
            if (gap.gap_mm < least.gap_mm) least = gap;
        }
        return least;
    });
}

const IntervalSet& TouchTable::nearerThan(std::uint32_t record, std::size_t body, double margin_mm) {
    auto& known = records_[record]->bodies[body].nearer;
    for (const auto& [margin, where] : known) {
        if (margin == margin_mm) return where;
    }
    const View view = viewOf(*records_[record], motions(bend_of_record_[record]), body, true);
    Shadow near;
    for (const SeenSolid& seen : *view.solids) {
        for (const ToolPiece& piece : *view.pieces) castShadow(seen, *view.motion, piece, margin_mm + 2 * kStrictInset_mm, near);
    }
    return known.emplace_back(margin_mm, std::move(near.outer)).second;
}

double TouchTable::firstContact_rad(std::uint32_t record, std::size_t body, double& depth_mm) const {
    const View view = viewOf(*records_[record], motions(bend_of_record_[record]), body, false);
    double first = -1;
    for (const SeenSolid& seen : *view.solids) {
        for (const ToolPiece& piece : *view.pieces) {
            const double angle = tinwright::firstContact_rad(seen, *view.motion, piece, depth_mm);
            if (angle >= 0 && (first < 0 || angle < first)) first = angle;
        }
    }
    return first;
}

const PlainExit& TouchTable::plainExit(std::uint32_t record, Phase phase) {
    GroupTouch& touch = *records_[record];
    auto& slot = touch.exits[touch.moving && phase == Phase::kAfter ? 1 : 0];
    if (!slot) slot = std::make_unique<PlainExit>(computeExit(touch.lying(phase)));
    return *slot;
}

PlainExit TouchTable::computeExit(const std::vector<Solid>& solids) const {
    const std::vector<LyingGroup> part{{&solids, 0, false}};
    PlainExit exit;
    for (std::size_t family = 0; family < machine_.families().size(); ++family) {
        exit.bars.push_back(plainBarShadow(machine_, family, part));
    }
    exit.bodies = plainBodyShadow(machine_, part);
    return exit;
}

bool TouchTable::familyFits(BendId bend, int hold, std::size_t family, std::size_t leaf_face) {
    const BarFamily& bars = machine_.families()[family];
    const auto [entry, is_new] = fits_.try_emplace({bend.index(), static_cast<std::size_t>(hold), bars.high, leaf_face}, true);
    if (!is_new) return entry->second;
    std::vector<std::size_t> parts{bars.high};
    if (bars.low >= 0) parts.push_back(static_cast<std::size_t>(bars.low));
    for (const std::size_t part : parts) {
        for (const Solid& slice : ownStrip(bend, hold)) {
            for (const Convex2& piece : machine_.bodies()[part].section) {
                if (!apart(slice.section(), piece)) return entry->second = false;
            }
        }
        if (!machine_.leafClears(machine_.leaf(leaf_face), part, motions(bend).standing_from_leaf)) return entry->second = false;
    }
    return true;
}

bool TouchTable::leafClearsBeam(BendId bend, std::size_t leaf_face) {
    if (machine_.beam() < 0) return true;
    const auto beam = static_cast<std::size_t>(machine_.beam());
    const auto [entry, is_new] = fits_.try_emplace({bend.index(), 0, beam, leaf_face}, true);
    if (is_new) entry->second = machine_.leafClears(machine_.leaf(leaf_face), beam, motions(bend).standing_from_leaf);
    return entry->second;
}

bool TouchTable::ownStripClear(BendId bend, int hold, std::uint32_t held, Micron shift_um) {
    const GroupTouch& touch = *records_[held];
    // The strip stays within this distance of the nose centre.
    const double reach = motions(bend).swing.centre().y() + kRounding_mm;
    if (touch.ring.least_mm > reach) return true;
    const auto [entry, is_new] = own_strip_clear_.try_emplace({bend.value * 2 + static_cast<std::uint32_t>(hold), held, shift_um}, true);
    if (!is_new) return entry->second;
    for (const Solid& slice : shifted(ownStrip(bend, hold), shift_um)) {
        for (const Solid& solid : touch.solids) {
            if (!liesBeyond(slice, solid, -kContactTolerance_mm)) return entry->second = false;
        }
    }
    return true;
}

std::vector<Solid> TouchTable::shifted(const std::vector<Solid>& solids, Micron shift_um) {
    std::vector<Solid> result;
    for (const Solid& solid : solids) result.push_back(shift_um == 0 ? solid : solid.movedAlongX(toMm(shift_um)));
    return result;
}

const PairTouch& TouchTable::pair(std::uint32_t moving, std::uint32_t held, Micron shift_um) {
    const auto [entry, is_new] = pairs_.try_emplace({moving, held, shift_um});
    if (is_new) entry->second = computePair(*records_[moving], *records_[held], bend_of_record_[moving], shift_um);
    return entry->second;
}

bool TouchTable::groupsBeyond(double cap_mm, const GroupTouch& moving, const GroupTouch& held, const Motion& motion) const {
    const Convex2& one = moving.hull.empty() ? moving.solids.front().section() : moving.hull;
    const Convex2& other = held.hull.empty() ? held.solids.front().section() : held.hull;
    return staysClear(SeenSection(one, motion), motion, other, radiusRange(other.points(), motion.centre()), cap_mm, kQuickDepth);
}

PairTouch TouchTable::computePair(const GroupTouch& moving, const GroupTouch& held, BendId bend, Micron shift_um) {
    PairTouch result;
    const Motion& motion = motions(bend).moving;
    const double wanted = limits_->clearance_mm;
    if (groupsBeyond(wanted, moving, held, motion)) return result;
    for (const Solid& solid : shifted(held.solids, -shift_um)) {
        for (const SeenSolid& seen : moving.seen) {
            if (staysBeyond(seen, solid, motion, wanted)) continue;
            result.near = true;
            const PairVerdict verdict = sweepPair(seen, solid, motion);
            if (verdict.clear) continue;
            if (result.verdict.clear || verdict.hit) result.verdict = verdict;
            if (verdict.hit) return result;
        }
    }
    result.near = result.near && !drawnClose(moving.group, held.group);
    return result;
}

std::optional<LeastGap> TouchTable::pairGapUnder(double cap_mm, std::uint32_t moving, std::uint32_t held, Micron shift_um) {
    pair(moving, held, shift_um);
    PairTouch& touch = pairs_.at({moving, held, shift_um});
    const Motion& motion = motions(bend_of_record_[moving]).moving;
    const std::vector<SeenSolid>& moving_solids = records_[moving]->seen;
    const auto beyond = [&](double margin_mm) {
        if (groupsBeyond(margin_mm, *records_[moving], *records_[held], motion)) return true;
        const std::vector<Solid> held_solids = shifted(records_[held]->solids, -shift_um);
        return std::all_of(moving_solids.begin(), moving_solids.end(), [&](const SeenSolid& seen) {
            return std::all_of(held_solids.begin(), held_solids.end(), [&](const Solid& solid) { return staysBeyond(seen, solid, motion, margin_mm); });
        });
    };
    return knownUnder(cap_mm, touch.gap, beyond, [&] {
        LeastGap least{kClearanceCap_mm, 0};
        for (const Solid& solid : shifted(records_[held]->solids, -shift_um)) {
            for (const SeenSolid& seen : moving_solids) {
                const LeastGap gap = leastPairGap(seen, solid, motion, least.gap_mm);
                if (gap.gap_mm < least.gap_mm) least = gap;
            }
        }
        return least;
    });
}

bool TouchTable::drawnClose(std::size_t a, std::size_t b) {
    if (a > b) std::swap(a, b);
    const auto [entry, is_new] = drawn_close_.try_emplace((std::uint64_t{a} << 32) | b, false);
    if (is_new) entry->second = comeWithin(limits_->clearance_mm, finished_[a], finished_[b]);
    return entry->second;
}

const std::vector<Solid>& TouchTable::ownStrip(BendId bend, int hold) {
    auto& slot = own_strips_[bend.index() * 2 + static_cast<std::size_t>(hold)];
    if (slot) return *slot;
    slot = std::make_unique<std::vector<Solid>>();
    const Bend& line = bodies_.part().bend(bend);
    const Angle set = Angle::radians(set_rad(bend));
    Rigid pose = foldFromBlank(line, hold, bodies_.part().thickness_mm, bodies_.nose_radius_mm());
    if (hold == 1) pose = pose * parentFromChild(line, bodies_.part().thickness_mm, set, bodies_.nose_radius_mm()).inverse();
    for (const PrismRings& rings : bodies_.arcOf(bend, set)) slot->emplace_back(rings, pose);
    return *slot;
}

const IntervalSet& TouchTable::land(BendId bend, int hold) {
    auto& slot = lands_[bend.index() * 2 + static_cast<std::size_t>(hold)];
    if (slot) return *slot;
    const Bend& line = bodies_.part().bend(bend);
    const Vec2 back = hold == 0 ? Vec2(-line.toward_child) : line.toward_child;
    const Vec2 start = line.origin + 0.5 * line.allowance_mm * back;
    const double depth = std::max(0.01, limits_->clamped_land_mm - bodies_.nose_radius_mm());
    const Rigid frame = foldFromBlank(line, hold, bodies_.part().thickness_mm, bodies_.nose_radius_mm());
    IntervalSet missing;
    IntervalSet spans;
    for (const StripSpan& span : line.spans) {
        const auto corner = [&](double along, double behind) -> Vec2 { return start + along * line.along + behind * back; };
        Polygon band{corner(span.from_mm, 0), corner(span.to_mm, 0), corner(span.to_mm, depth), corner(span.from_mm, depth)};
        if (signedArea_mm2(band) < 0) std::reverse(band.begin(), band.end());
        const auto xOf = [&](const Vec2& p) { return (frame * Vec3(p.x(), p.y(), 0)).x(); };
        const auto extent = [&](const Polygon& polygon) {
            double lo = std::numeric_limits<double>::infinity();
            double hi = -lo;
            for (const Vec2& p : polygon) lo = std::min(lo, xOf(p)), hi = std::max(hi, xOf(p));
            return std::pair(lo, hi);
        };
        const auto [lo, hi] = extent(band);
        spans.add(Interval{micronCeil(lo), micronFloor(hi)});
        std::vector<Polygon> sheet;
        const Panel& panel = bodies_.part().panel(heldPanel(line, hold));
        for (const Region& piece : difference(Region{band, {}}, convexPieces(panel.region))) {
            if (area_mm2(piece) < 1e-3) continue;
            const auto [from, to] = extent(piece.outline);
            missing.add(Interval{micronFloor(from), micronCeil(to)});
        }
    }
    spans.subtract(missing);
    slot = std::make_unique<IntervalSet>(std::move(spans));
    return *slot;
}

}  // namespace tinwright
