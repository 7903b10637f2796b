// SPDX-License-Identifier: GPL-3.0-or-later
#include "gltf/glb_part.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "words/wrap.h"

namespace tinwright::report {
namespace {

constexpr int kSlices = 8;  // of every strip

Slab box(const Vec2& start, const Vec2& u, const Vec2& along, const StripSpan& span, double u0, double u1,
         double thickness_mm) {
    Slab slab;
    for (const Vec2& p : {Vec2(start + span.from_mm * along + u0 * u), Vec2(start + span.to_mm * along + u0 * u),
                          Vec2(start + span.to_mm * along + u1 * u), Vec2(start + span.from_mm * along + u1 * u)}) {
        slab.lower.emplace_back(p.x(), p.y(), 0);
        slab.upper.emplace_back(p.x(), p.y(), thickness_mm);
    }
    return slab;
}

/// How a slice of a strip lies in the frame of the sheet where the strip's arc starts (see parentFromChild): at a
/// tangent line, or on a press brake in the middle, `from_middle_mm` along from it.
Rigid slicePose(const Bend& bend, double thickness_mm, double radius_mm, bool from_parent, double from_middle_mm,
                double u_mm, Angle angle) {
    Bend rolled = bend;
    rolled.toward_child = from_parent ? bend.toward_child : Vec2(-bend.toward_child);
    const Vec2 start = bend.origin + from_middle_mm * rolled.toward_child;
    rolled.allowance_mm = u_mm;
    rolled.origin = start + 0.5 * u_mm * rolled.toward_child;
    return parentFromChild(rolled, thickness_mm, angle, radius_mm);
}

}  // namespace

Rigid alongMachine(double x_mm) { return Rigid(Eigen::Translation3d(x_mm, 0, 0)); }

void GlbPart::addNodes(GlbWriter& writer, std::size_t colour, const std::vector<Rigid>& poses) {
    for (std::size_t i = 0; i < part_.panels.size(); ++i) {
        std::vector<Slab> slabs;
        for (const Polygon& piece : shapes_.panel_pieces[i]) {
            Slab slab;
            for (const Vec2& p : piece) {
                slab.lower.emplace_back(p.x(), p.y(), 0);
                slab.upper.emplace_back(p.x(), p.y(), part_.thickness_mm);
            }
            slabs.push_back(std::move(slab));
        }
        const std::size_t node = writer.addNode(printable(part_.panels[i].name), slabs, colour, poses[i]);
        if (i == 0) first_ = node;
    }
    for (std::size_t b = 0; b < part_.bends.size(); ++b) addStrip(writer, colour, b, poses);
}

void GlbPart::addStrip(GlbWriter& writer, std::size_t colour, std::size_t index,
                       const std::vector<Rigid>& poses) const {
    const Bend& bend = part_.bends[index];
    const Vec2 start = bend.origin - 0.5 * bend.allowance_mm * bend.toward_child;
    for (int k = 0; k < kSlices; ++k) {
        std::vector<Slab> slabs;
        for (const StripSpan& span : bend.spans) {
            slabs.push_back(box(start, bend.toward_child, bend.along, span, bend.allowance_mm * k / kSlices,
                                bend.allowance_mm * (k + 1) / kSlices, part_.thickness_mm));
        }
        const std::size_t at = part_.panels.size() + index * kSlices + static_cast<std::size_t>(k);
        writer.addNode(fmt::format("bend {} {}", printable(bend.name), k + 1), slabs, colour, poses[at]);
    }
}

std::vector<Rigid> GlbPart::posesOf(const FoldScene& scene, double part_x_mm, const std::vector<PartBody>& bodies,
                                    double angle_rad, double share) const {
    std::vector<Rigid> poses;
    for (const PartBody& body : bodies) {
        const Rigid pose = alongMachine(part_x_mm) * body.pose;
        if (!body.is_strip) {
            poses.push_back(pose);
            continue;
        }
        const Bend& bend = part_.bend(body.bend);
        const bool from_parent = body.panel == bend.parent;
        const bool formed = contains(scene.fold().formed, body.bend);
        if (formed && bend.hem && !body.is_new) {
            for (int k = 0; k < kSlices; ++k) poses.push_back(pose * sliceOfHem(bend, k));
            continue;
        }
        const double full = body.is_new ? angle_rad : formed ? bend.angle.rad() : 0.0;
        const double rolled = bend.allowance_mm * (body.is_new ? share : formed ? 1.0 : 0.0);
        for (int k = 0; k < kSlices; ++k) {
            if (body.is_new && scene.rollsFrom() == RollsFrom::kMiddle) {
                poses.push_back(pose * sliceFromMiddle(bend, k, 0.5 * angle_rad, 0.5 * rolled));
                continue;
            }
            const double from_start = from_parent ? k + 0.5 : kSlices - k - 0.5;
            const double u = std::min(bend.allowance_mm * from_start / kSlices, rolled);
            const Angle turn = Angle::radians(rolled > 0 ? full * u / rolled : 0.0);
            poses.push_back(pose * slicePose(bend, part_.thickness_mm, inside_radius_mm_, from_parent,
                                             -0.5 * bend.allowance_mm, u, turn));
        }
    }
    return poses;
}

/// Of a closed hem, in the parent's frame. On either side of its arc lies what the wider strip of the first fold took.
Rigid GlbPart::sliceOfHem(const Bend& bend, int slice) const {
    const Bend closed = finished(bend);
    const double at_mm = bend.allowance_mm * ((slice + 0.5) / kSlices - 0.5) + 0.5 * closed.allowance_mm;
    const double u = std::clamp(at_mm, 0.0, closed.allowance_mm);
    return slicePose(closed, part_.thickness_mm, closed.inside_radius_mm, true, -0.5 * closed.allowance_mm, u,
                     Angle::radians(closed.angle.rad() * u / closed.allowance_mm));
}

/// Of a strip that is being bent by a punch in its middle; half of what is bent.
Rigid GlbPart::sliceFromMiddle(const Bend& bend, int slice, double half_angle_rad, double half_rolled_mm) const {
    const double at_mm = bend.allowance_mm * ((slice + 0.5) / kSlices - 0.5);
    const double u = std::min(std::abs(at_mm), half_rolled_mm);
    const Angle turn = Angle::radians(half_rolled_mm > 0 ? half_angle_rad * u / half_rolled_mm : 0.0);
    return slicePose(bend, part_.thickness_mm, inside_radius_mm_, at_mm > 0, 0, u, turn);
}

void GlbPart::addTracks(std::vector<GlbTrack>& tracks, const std::vector<float>& times_s,
                        const std::vector<std::vector<Rigid>>& moments) const {
    for (std::size_t i = 0; i < moments.front().size(); ++i) {
        GlbTrack track{first_ + i, times_s, {}, {}};
        for (const std::vector<Rigid>& moment : moments) track.poses.push_back(moment[i]);
        tracks.push_back(std::move(track));
    }
}

}  // namespace tinwright::report
