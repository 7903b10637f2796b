// SPDX-License-Identifier: GPL-3.0-or-later
#include "gauging/gauging.h"

#include <algorithm>
#include <cmath>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/geometry/cross.h>

#include "exits/planar_escape.h"
#include "tolerances/deviation.h"

namespace tinwright {

namespace {

constexpr double kFar_mm = 20'000;        // further back than any part reaches
constexpr double kLeastFace_mm = 4;       // of a face's height that a finger touches
constexpr double kParallel = 1e-6;        // sine of what still counts as parallel
constexpr Micron kLeastEdge_um = 10'000;  // of an edge that is narrower than a finger

// Heights at which the fingers' underside may be, best first. Faces are touched as near the sheet as may be, so that
// the angle counts for least; edges in the middle of the fingers, or with the fingers on the die's top where that is in
// the way.
std::vector<double> heights_mm(const GaugeFace& face, double finger_mm, double lowest_mm, double highest_mm) {
    const double touched_mm = std::min({finger_mm, face.z_hi_mm - face.z_lo_mm, kLeastFace_mm});
    const double lo = std::max(lowest_mm, face.z_lo_mm + touched_mm - finger_mm);
    const double hi = std::min(highest_mm, face.z_hi_mm - touched_mm);
    if (lo > hi + 1e-9) return {};
    const double middle = 0.5 * (face.z_lo_mm + face.z_hi_mm - finger_mm);
    const double wanted = face.touch == GaugeStop::Touch::kFace ? -0.5 * finger_mm : middle;
    std::vector<double> heights;
    for (const double z : {wanted, 0.0, lo, hi}) {
        const double within = std::max(lo, std::min(z, hi));
        if (std::find(heights.begin(), heights.end(), within) == heights.end()) heights.push_back(within);
    }
    return heights;
}

// Where a finger's left end may be for it to touch all along its width, or all of what is narrower.
struct Starts {
    std::vector<Interval> ranges;  // closed
    bool narrow = false;
};

Starts startsOn(const IntervalSet& touched, const IntervalSet& barred, Interval within, Micron width) {
    Starts wide;
    Starts narrow{{}, true};
    for (const Interval& stretch : touched.items()) {
        if (stretch.length() >= width) {
            const IntervalSet free = barred.gapsIn({std::max(stretch.lo, within.lo), std::min(stretch.hi, within.hi)});
            for (const Interval& gap : free.items()) {
                if (gap.length() >= width) wide.ranges.push_back({gap.lo, gap.hi - width});
            }
        } else if (stretch.length() >= kLeastEdge_um) {
            const Micron start = (stretch.lo + stretch.hi - width) / 2;
            const Interval finger{start, start + width};
            if (start >= within.lo && finger.hi <= within.hi && !barred.meets(finger))
                narrow.ranges.push_back({start, start});
        }
    }
    return wide.ranges.empty() ? narrow : wide;
}

// Two as far apart as may be; else one in the middle of the longest range.
std::vector<Interval> fingersOn(const Starts& starts, Micron width) {
    if (starts.ranges.empty()) return {};
    const Micron first = starts.ranges.front().lo;
    const Micron last = starts.ranges.back().hi;
    if (last - first >= width) return {{first, first + width}, {last, last + width}};
    const auto longest = std::max_element(starts.ranges.begin(), starts.ranges.end(),
                                          [](Interval a, Interval b) { return a.hi - a.lo < b.hi - b.lo; });
    const Micron middle = longest->lo + (longest->hi - longest->lo) / 2;
    return {{middle, middle + width}};
}

double dieHeight_mm(const Machine& machine, const Placed& placed) {
    for (const StandingTool& bar : placed.bars) {
        if (const Die* die = machine.brake()->die(bar.tool)) return die->height_mm;
    }
    return 0;
}

// The size to which a touched edge is cut: from the line of the last bend that is formed between, else from the line
// that is gauged.
double cutWidth_mm(const Part& part, const GaugeFace& edge, BendMask formed) {
    double width_mm = edge.y_mm;
    bool is_told = false;
    for (const BendId id : bendsIn(formed)) {
        const Bend& bend = part.bend(id);
        if (std::abs(cross(bend.toward_child, edge.outward)) > kParallel) continue;
        const double from_line_mm = std::abs((edge.on_edge - bend.origin).dot(edge.outward));
        width_mm = is_told ? std::min(width_mm, from_line_mm) : from_line_mm;
        is_told = true;
    }
    return width_mm;
}

bool meets(const Body& body, const Convex2& room) {
    return std::any_of(body.section.begin(), body.section.end(),
                       [&](const Convex2& piece) { return !apart(piece, room); });
}

}  // namespace

void Gauging::barTools(const Polygon& room, const Placed& placed, IntervalSet& barred) const {
    const Machine& machine = table_.machine();
    const Convex2 fingers(room);
    const Interval everywhere{-kFar, kFar};
    for (const std::size_t body : machine.longBodies(placed.face)) {
        if (meets(machine.bodies()[body], fingers)) barred.add(everywhere);
    }
    for (const StandingTool& bar : placed.bars) {
        const ToolFamily& family = machine.families()[machine.familyOf(bar.tool)];
        if (meets(machine.bodies()[family.high], fingers)) barred.add(bar.at);
        if (family.low >= 0 && meets(machine.bodies()[static_cast<std::size_t>(family.low)], fingers))
            barred.add(bar.at);
    }
}

void Gauging::barPart(const Polygon& room, const StrokeScene& scene, IntervalSet& barred) {
    const Convex2 fingers(room);
    const ClipWindow window = fingers.window();
    for (const GroupUse& use : scene.uses) {
        if (const GroupRecord& touch = table_.at(use.record); touch.hull && apart(*touch.hull, fingers)) continue;
        for (const Solid& solid : table_.records().laidOut(use.record).solids) {
            const Interval whole{micronFloor(solid.x_lo_mm()) + use.shift_um,
                                 micronCeil(solid.x_hi_mm()) + use.shift_um};
            if (barred.covers(whole) || apart(solid.section(), fingers)) continue;
            if (solid.uniform()) {
                barred.add(whole);
                continue;
            }
            const auto range = solid.xRangeIn(window, solid.faces());
            if (range) barred.add({micronFloor(range->first) + use.shift_um, micronCeil(range->second) + use.shift_um});
        }
    }
}

const IntervalSet& Gauging::barredByPart(const Polygon& room, const StrokeScene& scene) {
    BendMask bends = 0;
    for (const StrokeBend& bend : scene.bends) bends |= bit(bend.bend);
    const Vec2& corner = room.front();
    const auto [entry, is_new] =
        by_part_.try_emplace({scene.formed, bends, scene.bends.front().hold, corner.x(), corner.y()});
    if (is_new) barPart(room, scene, entry->second);
    return entry->second;
}

// What stands where a finger would, or behind it, whence it comes.
IntervalSet Gauging::barred(const GaugeFace& face, double z_mm, const StrokeScene& scene, const Placed& placed) {
    const double front = face.y_mm + kContactTolerance_mm;
    const double lo = z_mm + kContactTolerance_mm;
    const double hi = z_mm + gauge().finger_height_mm - kContactTolerance_mm;
    const Polygon room{Vec2(front, lo), Vec2(kFar_mm, lo), Vec2(kFar_mm, hi), Vec2(front, hi)};
    IntervalSet barred;
    if (hi <= lo) return barred;
    barTools(room, placed, barred);
    if (barred.gapsIn(scene.extent).empty()) return barred;
    barred.add(barredByPart(room, scene));
    return barred;
}

std::optional<Gauging::Stand> Gauging::standAt(const GaugeFace& face, const StrokeScene& scene, const Placed& placed) {
    const BrakeInSetup& brake = table_.machine().brake();
    const double die_mm = dieHeight_mm(table_.machine(), placed);
    const Micron width = micronNearest(gauge().finger_width_mm);
    // They hang between the side frames, or else over the bed's length.
    const Machine& machine = table_.machine();
    const Interval all = machine.frames() >= 0 ? machine.betweenFrames() : Interval{0, micronFloor(brake->length_mm)};
    const Interval within{all.lo - placed.part_x_um, all.hi - placed.part_x_um};
    for (const double z_mm :
         heights_mm(face, gauge().finger_height_mm, gauge().lowest_mm - die_mm, gauge().highest_mm - die_mm)) {
        const IntervalSet touched =
            face.between(std::max(z_mm, face.z_lo_mm), std::min(z_mm + gauge().finger_height_mm, face.z_hi_mm));
        if (touched.empty()) continue;
        std::vector<Interval> at =
            fingersOn(startsOn(touched, barred(face, z_mm, scene, placed), within, width), width);
        if (!at.empty()) return Stand{z_mm, std::move(at)};
    }
    return std::nullopt;
}

// By how much what is touched may be nearer to the bend line or further from it, or the line be set off: `Deviation`
// tells both, in a frame in which the flat strip ends a nose radius behind the line, and the cut or the bent strip
// comes on top. It is told at the corners of what is touched.
double Gauging::tolerance_mm(const GaugeFace& face, const Stand& stand, const StrokeScene& scene,
                             const ToleranceBox& box) const {
    const GroupRecord& touch = table_.at(face.record);
    const PartBodies& bodies = table_.bodies();
    const Deviation deviation(bodies, box, {touch.bend, touch.hold, scene.formed}, touch.group);
    const double strip_mm = table_.machine().stripBack_mm(bodies.part().bend(touch.bend).allowance_mm);
    const Vec3 back = Vec3::UnitY();
    double most = 0;
    for (const double z :
         {std::max(stand.z_mm, face.z_lo_mm), std::min(stand.z_mm + gauge().finger_height_mm, face.z_hi_mm)}) {
        for (const Micron x : {stand.at.front().lo, stand.at.back().hi}) {
            most = std::max(most, deviation.along_mm(back, Vec3(toMm(x - face.shift_um),
                                                                face.y_mm - strip_mm + bodies.inside_radius_mm(), z)));
        }
    }
    switch (face.touch) {
        case GaugeStop::Touch::kEdge:
            most += box.cut.over_mm(cutWidth_mm(bodies.part(), face, touch.formed));
            return most + std::max(deviation.ofThickness_mm(back, false, SeenFrom::kBed),
                                   deviation.ofThickness_mm(back, true, SeenFrom::kBed));
        case GaugeStop::Touch::kFace:
            return most + deviation.ofThickness_mm(back, touch.pose.linear()(1, 2) > 0, SeenFrom::kBed);
        case GaugeStop::Touch::kBend: break;
    }
    // Its line, from there round to where it reaches furthest back, and the sheet's outside there.
    const BendId own = bodies.groups()[touch.group].bend;
    const Bend bend = finished(bodies.part().bend(own));
    return most + box.formedLine_mm(own) + stripDeviation_mm(bend, bodies.part().thickness_mm, box) + box.thickness_mm;
}

GaugeStop Gauging::stopOf(const GaugeFace& face, const Stand& stand, const StrokeScene& scene,
                          const ToleranceBox& box) const {
    GaugeStop stop;
    stop.touch = face.touch;
    stop.panel = face.panel;
    stop.edge = face.edgeAt(stand.at.front());
    stop.bends_between = face.bends_between;
    stop.distance_mm = face.y_mm;
    stop.fingers_z_mm = stand.z_mm;
    for (const Interval& finger : stand.at) stop.fingers.push_back({toMm(finger.lo), toMm(finger.hi)});
    stop.tolerance_mm = tolerance_mm(face, stand, scene, box);
    return stop;
}

// Fewest bends between, then two fingers before one, then the nearest.
GaugeChoice Gauging::choose(const StrokeScene& scene, const Placed& placed, const ToleranceBox& box) {
    if (table_.machine().gauge() == nullptr) return {std::nullopt, GaugeTrouble::kNoGauge};
    std::vector<GaugeFace> faces = faces_.behind(table_, scene);
    const auto out = [&](const GaugeFace& face) {
        return face.y_mm < gauge().nearest_mm || face.y_mm > gauge().furthest_mm;
    };
    faces.erase(std::remove_if(faces.begin(), faces.end(), out), faces.end());
    if (faces.empty()) return {std::nullopt, GaugeTrouble::kNoEdge};
    std::stable_sort(faces.begin(), faces.end(), [](const GaugeFace& a, const GaugeFace& b) {
        return a.bends_between != b.bends_between ? a.bends_between < b.bends_between : a.y_mm < b.y_mm - 1e-6;
    });
    const GaugeFace* best = nullptr;
    std::optional<Stand> best_stand;
    for (const GaugeFace& face : faces) {
        if (best != nullptr && (face.bends_between > best->bends_between || best_stand->at.size() > 1)) break;
        std::optional<Stand> stand = standAt(face, scene, placed);
        if (!stand || (best != nullptr && stand->at.size() < 2)) continue;
        best = &face;
        best_stand = std::move(stand);
    }
    if (best == nullptr) return {std::nullopt, GaugeTrouble::kOutOfReach};
    return {stopOf(*best, *best_stand, scene, box), std::nullopt};
}

}  // namespace tinwright
