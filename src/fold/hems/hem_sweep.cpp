// SPDX-License-Identifier: GPL-3.0-or-later
#include "hems/hem_sweep.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

#include "machine/machine_sections.h"

namespace tinwright {

namespace {

constexpr double kBand_mm = 1.0;
constexpr int kMostBands = 60;
constexpr int kTurns = 12;  // steps in which the return turns on its way

class Sweeper {
public:
    Sweeper(const ContactCache& table, BendId id)
        : table_(table),
          part_(table.bodies().part()),
          bend_(part_.bend(id)),
          closed_(finished(bend_)),
          frame_(table.geometry().bendFrame(id, Side::kChild)),
          first_pose_(frame_ * parentFromChild(bend_, part_.thickness_mm, bend_.angle, bend_.inside_radius_mm)),
          closed_pose_(frame_ * parentFromChild(closed_, part_.thickness_mm, closed_.angle, closed_.inside_radius_mm)) {
    }

    HemSweep run() {
        const Group& child = table_.bodies().groups()[bend_.child.index()];
        for (const PrismRings& rings : child.flat) {
            sweep_.first.emplace_back(rings, first_pose_);
            sweep_.closed.emplace_back(rings, closed_pose_);
        }
        for (const Solid& solid : sweep_.first) {
            for (const Vec3& corner : solid.corners()) sweep_.stands_mm = std::max(sweep_.stands_mm, corner.z());
        }
        for (const Polygon& piece : convexPieces(part_.panel(bend_.child).region)) addBands(piece);
        addStrip();
        return std::move(sweep_);
    }

private:
    // Along the bend and out from its line, on the blank.
    [[nodiscard]] Vec2 told(const Vec2& p) const {
        return Vec2((p - bend_.origin).dot(bend_.along), (p - bend_.origin).dot(bend_.toward_child));
    }
    [[nodiscard]] Vec3 blank(double along, double out, double z) const {
        const Vec2 p = bend_.origin + along * bend_.along + out * bend_.toward_child;
        return Vec3(p.x(), p.y(), z);
    }

    void addBands(const Polygon& piece) {
        Polygon there;
        for (const Vec2& p : piece) there.push_back(told(p));
        if (signedArea_mm2(there) < 0) std::reverse(there.begin(), there.end());
        double near_mm = std::numeric_limits<double>::infinity();
        double far_mm = -near_mm;
        for (const Vec2& p : there) {
            near_mm = std::min(near_mm, p.y());
            far_mm = std::max(far_mm, p.y());
        }
        const int bands = std::clamp(static_cast<int>(std::ceil((far_mm - near_mm) / kBand_mm)), 1, kMostBands);
        for (int i = 0; i < bands; ++i) {
            const double from = near_mm + (far_mm - near_mm) * i / bands;
            const double to = near_mm + (far_mm - near_mm) * (i + 1) / bands;
            for (const Polygon& band : between(there, from, to)) addBand(band, from, to);
        }
    }

    void addBand(const Polygon& band, double from_mm, double to_mm) {
        double lo = std::numeric_limits<double>::infinity();
        double hi = -lo;
        for (const Vec2& p : band) {
            lo = std::min(lo, p.x());
            hi = std::max(hi, p.x());
        }
        std::vector<Vec2> seen;
        for (int step = 0; step <= kTurns; ++step) addTurned(step, from_mm, to_mm, seen);
        addPrism(seen, lo, hi);
    }

    // The band at one angle between first fold and closed, its near edge where it begins and where it ends.
    void addTurned(int step, double from_mm, double to_mm, std::vector<Vec2>& seen) const {
        const double begin = bend_.angle.rad();
        const double turn = (std::numbers::pi - begin) / kTurns;
        const double angle = begin + turn * step;
        const double outward = 1 / std::cos(0.5 * turn);  // chords between the steps stay inside
        const double edge_mm = 0.5 * bend_.allowance_mm;  // where the return begins
        for (const Rigid* pose : {&first_pose_, &closed_pose_}) {
            const Vec3 edge = *pose * blank(0, edge_mm, inner());
            const Vec2 along(std::cos(angle), std::sin(angle));  // the return, from its near edge on: flat it lies
                                                                 // along y
            const Vec2 across(along.y(), -along.x());            // from its inside face to its outside face
            // Near to the edge also as it is: beside a mitre the band before is not as wide.
            for (const double out : {from_mm - edge_mm, outward * (from_mm - edge_mm), outward * (to_mm - edge_mm)}) {
                for (const double deep : {0.0, part_.thickness_mm, outward * part_.thickness_mm}) {
                    seen.push_back(Vec2(edge.y(), edge.z()) + out * along + deep * across);
                }
            }
        }
    }

    // z of the face that comes to lie inside, on the blank.
    [[nodiscard]] double inner() const { return bend_.up ? part_.thickness_mm : 0.0; }

    // All that the arc may fill, from the end of the parent to the outside of either fold.
    void addStrip() {
        const Vec3 line = frame_ * blank(0, 0, 0);
        const double wide_mm = 0.5 * std::max(bend_.allowance_mm, closed_.allowance_mm);
        const double first_mm = -0.5 * bend_.allowance_mm + bend_.inside_radius_mm + part_.thickness_mm;
        const double closed_mm = -0.5 * closed_.allowance_mm + closed_.inside_radius_mm + part_.thickness_mm;
        const double back = line.y() + std::max(first_mm, closed_mm);
        const double high = 2 * (part_.thickness_mm + std::max(bend_.inside_radius_mm, closed_.inside_radius_mm));
        for (const StripSpan& span : bend_.spans) {
            addPrism({{line.y() - wide_mm, 0}, {back, 0}, {back, high}, {line.y() - wide_mm, high}}, span.from_mm,
                     span.to_mm);
        }
    }

    void addPrism(const std::vector<Vec2>& seen, double from_mm, double to_mm) {
        double lo = (frame_ * blank(from_mm, 0, 0)).x();
        double hi = (frame_ * blank(to_mm, 0, 0)).x();
        if (lo > hi) std::swap(lo, hi);
        PrismRings rings;
        for (const Vec2& p : hullOf(seen)) {
            rings.bottom.emplace_back(lo, p.x(), p.y());
            rings.top.emplace_back(hi, p.x(), p.y());
        }
        sweep_.swept.emplace_back(rings, Rigid::Identity());
    }

    const ContactCache& table_;
    const Part& part_;
    const Bend& bend_;
    const Bend closed_;
    const Rigid frame_;
    const Rigid first_pose_;
    const Rigid closed_pose_;
    HemSweep sweep_;
};

}  // namespace

HemSweep sweepOfHem(const ContactCache& table, BendId bend) { return Sweeper(table, bend).run(); }

}  // namespace tinwright
