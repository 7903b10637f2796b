// SPDX-License-Identifier: GPL-3.0-or-later
#include "gauging/gauge_faces.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numbers>

#include <tinwright/geometry/cross.h>
#include <tinwright/geometry/polygons.h>

namespace tinwright {

namespace {

constexpr double kSquareFace = 1e-6;  // sine of what still counts as square
constexpr double kSamePlace_mm = 1e-6;
constexpr double kBendHalf_mm = 1;  // over and under where a bend reaches furthest back: fingers have to cover that
                                    // much

// What of 0 to `length_mm` along an edge is beside no strip. A panel's outline runs along the strips that were taken
// out of it.
IntervalSet freeStretches(const Part& part, PanelId panel, const Vec2& from, const Vec2& along, double length_mm) {
    IntervalSet strips;
    for (const Bend& bend : part.bends) {
        if (bend.parent != panel && bend.child != panel) continue;
        const double side = bend.parent == panel ? -0.5 : 0.5;
        const Vec2 tangent = bend.origin + side * bend.allowance_mm * bend.toward_child;
        if (std::abs(cross(along, bend.along)) > kSquareFace ||
            std::abs(cross(bend.along, from - tangent)) > kSamePlace_mm)
            continue;
        for (const StripSpan& span : bend.spans) {
            const double to_line = along.dot(tangent - from);
            const double turn = along.dot(bend.along);
            const auto [lo, hi] = std::minmax({to_line + span.from_mm * turn, to_line + span.to_mm * turn});
            strips.add({micronFloor(lo), micronCeil(hi)});
        }
    }
    return strips.gapsIn({0, micronFloor(length_mm)});
}

std::string nameOf(const Part& part, PanelId panel, const Vec2& from, const Vec2& to) {
    const Vec2 along = (to - from).normalized();
    for (const NamedEdge& edge : part.edges) {
        if (edge.panel != panel) continue;
        const double a = along.dot(edge.from - from);
        const double b = along.dot(edge.to - from);
        const bool on_line =
            std::abs(cross(along, edge.from - from)) < 1e-3 && std::abs(cross(along, edge.to - from)) < 1e-3;
        if (on_line && std::min(std::max(a, b), (to - from).norm()) - std::max(std::min(a, b), 0.0) > kSamePlace_mm)
            return edge.name;
    }
    return {};
}

// x at which the rings are crossed at a height, ascending: sheet lies between the first and the second, the third and
// the fourth, ...
IntervalSet sheetAt(const std::vector<Polygon>& rings, double z_mm) {
    std::vector<double> crossings;
    for (const Polygon& ring : rings) {
        for (std::size_t i = 0; i < ring.size(); ++i) {
            const Vec2& a = ring[i];
            const Vec2& b = ring[(i + 1) % ring.size()];
            if ((a.y() <= z_mm) == (b.y() <= z_mm)) continue;
            crossings.push_back(a.x() + (z_mm - a.y()) / (b.y() - a.y()) * (b.x() - a.x()));
        }
    }
    std::sort(crossings.begin(), crossings.end());
    IntervalSet sheet;
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2)
        sheet.add({micronCeil(crossings[i]), micronFloor(crossings[i + 1])});
    return sheet;
}

}  // namespace

IntervalSet GaugeFace::between(double z_lo_mm, double z_hi_mm) const {
    IntervalSet where;
    for (const Stretch& stretch : stretches) where.add(stretch.at);
    if (touch != GaugeStop::Touch::kFace) return where;
    const double inset = std::min(kSamePlace_mm, 0.25 * (z_hi_mm - z_lo_mm));  // off corners that lie at these very
                                                                               // heights
    where = sheetAt(rings, z_lo_mm + inset);
    for (const double z_mm : {0.5 * (z_lo_mm + z_hi_mm), z_hi_mm - inset})
        where = where.intersect(sheetAt(rings, z_mm));
    return where;
}

std::string GaugeFace::edgeAt(Interval at) const {
    for (const Stretch& stretch : stretches) {
        if (stretch.at.lo < at.hi && at.lo < stretch.at.hi && !stretch.edge.empty()) return stretch.edge;
    }
    return {};
}

GaugeFaces::GaugeFaces(const Part& part) : part_(&part), edges_(part.panels.size()) {
    for (std::size_t i = 0; i < part.panels.size(); ++i) {
        const Polygon& outline = part.panels[i].region.outline;
        for (std::size_t k = 0; k < outline.size(); ++k)
            addEdge(idAt<PanelId>(i), outline[k], outline[(k + 1) % outline.size()]);
    }
}

void GaugeFaces::addEdge(PanelId panel, const Vec2& from, const Vec2& to) {
    const double length_mm = (to - from).norm();
    if (length_mm < kSamePlace_mm) return;
    const Vec2 along = (to - from) / length_mm;
    const IntervalSet free = freeStretches(*part_, panel, from, along, length_mm);
    for (const Interval& stretch : free.items()) {
        const Vec2 a = from + toMm(stretch.lo) * along;
        const Vec2 b = from + toMm(stretch.hi) * along;
        edges_[panel.index()].push_back({a, b, nameOf(*part_, panel, a, b)});
    }
}

// Of a panel that lies level: edges that face back, those on one line together.
void GaugeFaces::addEdges(const GroupRecord& touch, const GaugeFace& like, std::vector<GaugeFace>& faces) const {
    std::vector<GaugeFace> found;
    for (const FreeEdge& edge : edges_[like.panel.index()]) {
        const Vec2 along = (edge.to - edge.from).normalized();
        const Vec3 outward = touch.pose.linear() * Vec3(along.y(), -along.x(), 0);
        const Vec3 a = touch.pose * lifted(edge.from, 0);
        const Vec3 b = touch.pose * lifted(edge.to, 0);
        if (outward.y() < 0 || std::hypot(outward.x(), outward.z()) > kSquareFace || a.y() <= 0) continue;
        const Interval at{micronCeil(std::min(a.x(), b.x())), micronFloor(std::max(a.x(), b.x()))};
        const GaugeFace::Stretch stretch{{at.lo + like.shift_um, at.hi + like.shift_um}, edge.name};
        const auto same = std::find_if(found.begin(), found.end(), [&](const GaugeFace& face) {
            return std::abs(face.y_mm - a.y()) < kSamePlace_mm;
        });
        if (same != found.end()) {
            same->stretches.push_back(stretch);
            continue;
        }
        GaugeFace face = like;
        face.y_mm = a.y();
        face.on_edge = edge.from;
        face.outward = Vec2(along.y(), -along.x());
        const double other_z = (touch.pose * lifted(edge.from, part_->thickness_mm)).z();
        face.z_lo_mm = std::min(a.z(), other_z);
        face.z_hi_mm = std::max(a.z(), other_z);
        face.stretches.push_back(stretch);
        found.push_back(std::move(face));
    }
    std::move(found.begin(), found.end(), std::back_inserter(faces));
}

// Of a panel that stands square to the sheet and along the bend: whichever of its faces is further back.
void GaugeFaces::addFace(const GroupRecord& touch, GaugeFace face, std::vector<GaugeFace>& faces) const {
    const Region& region = part_->panel(face.panel).region;
    const double z_face = touch.pose.linear()(1, 2) > 0 ? part_->thickness_mm : 0;
    const double shift_mm = toMm(face.shift_um);
    const auto placed = [&](const Polygon& ring) {
        Polygon result;
        for (const Vec2& corner : ring) {
            const Vec3 p = touch.pose * lifted(corner, z_face);
            result.emplace_back(p.x() + shift_mm, p.z());
        }
        return result;
    };
    face.touch = GaugeStop::Touch::kFace;
    face.y_mm = (touch.pose * lifted(region.outline.front(), z_face)).y();
    face.rings.push_back(placed(region.outline));
    for (const Polygon& hole : region.holes) face.rings.push_back(placed(hole));
    const auto [low, high] = std::minmax_element(face.rings[0].begin(), face.rings[0].end(),
                                                 [](const Vec2& a, const Vec2& b) { return a.y() < b.y(); });
    face.z_lo_mm = low->y();
    face.z_hi_mm = high->y();
    if (face.y_mm > 0) faces.push_back(std::move(face));
}

// The outside of a formed strip, radius r + t about the arc's centre (pose.h), where its normal points back: within the
// arc, not at its ends, which are the faces of its panels.
void GaugeFaces::addBend(const ContactCache& table, const GroupRecord& touch, GaugeFace face,
                         std::vector<GaugeFace>& faces) const {
    const BendId id = table.bodies().groups()[touch.group].bend;
    const Bend bend = finished(part_->bend(id));
    const double radius_mm = table.bodies().formedRadius_mm(id);
    const Vec2 tangent = bend.origin - 0.5 * bend.allowance_mm * bend.toward_child;
    const Vec3 centre = touch.pose * lifted(tangent, bend.up ? part_->thickness_mm + radius_mm : -radius_mm);
    const Vec3 start = touch.pose.linear() * Vec3(0, 0, bend.up ? -1 : 1);
    const Vec3 onward = touch.pose.linear() * lifted(bend.toward_child, 0);
    const Vec3 along = touch.pose.linear() * lifted(bend.along, 0);
    if (std::hypot(along.y(), along.z()) > kSquareFace) return;
    const double back_rad = std::atan2(onward.y(), start.y());
    if (back_rad < kSquareFace || back_rad > bend.angle.rad() - kSquareFace) return;
    face.touch = GaugeStop::Touch::kBend;
    face.panel = bend.child;
    const double outside_mm = radius_mm + part_->thickness_mm;
    const double half_mm = std::min(kBendHalf_mm, outside_mm);
    face.y_mm = centre.y() + outside_mm;
    face.z_lo_mm = centre.z() - half_mm;
    face.z_hi_mm = centre.z() + half_mm;
    for (const StripSpan& span : bend.spans) {
        const auto xAt = [&](double at) { return (touch.pose * lifted(tangent + at * bend.along, 0)).x(); };
        const auto [lo, hi] = std::minmax({xAt(span.from_mm), xAt(span.to_mm)});
        face.stretches.push_back({{micronCeil(lo) + face.shift_um, micronFloor(hi) + face.shift_um}, {}});
    }
    if (face.y_mm > 0) faces.push_back(std::move(face));
}

std::vector<GaugeFace> GaugeFaces::behind(const ContactCache& table, const StrokeScene& scene) const {
    std::vector<GaugeFace> faces;
    for (const GroupUse& use : scene.uses) {
        if (use.moving) continue;
        const GroupRecord& touch = table.at(use.record);
        GaugeFace face;
        face.panel = table.bodies().groups()[touch.group].frame;
        face.record = use.record;
        face.shift_um = use.shift_um;
        face.bends_between = std::popcount(touch.formed);
        if (table.bodies().groups()[touch.group].is_strip) {
            if (touch.is_arc) addBend(table, touch, face, faces);
            continue;
        }
        const Vec3 normal = touch.pose.linear().col(2);
        if (std::hypot(normal.x(), normal.y()) < kSquareFace) addEdges(touch, face, faces);
        if (std::hypot(normal.x(), normal.z()) < kSquareFace) addFace(touch, face, faces);
    }
    return faces;
}

}  // namespace tinwright
