// SPDX-License-Identifier: GPL-3.0-or-later
// What lies against the fingers of a back gauge, on random parts: measured again in their folded pose, by the part
// floor's kinematics and a sight along the fingers' faces; and parts that came out otherwise.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <optional>

#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/geometry/polygons.h>
#include <tinwright/part/model/pose.h>

#include "bodies/part_bodies.h"
#include "deviating_part.h"
#include "random_states.h"

using namespace tinwright;
using random_states::Dice;

namespace {

bool inside(const Polygon& ring, const Vec2& p) {
    bool in = false;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2& a = ring[i];
        const Vec2& b = ring[(i + 1) % ring.size()];
        if ((a.y() <= p.y()) != (b.y() <= p.y()) && p.x() < a.x() + (p.y() - a.y()) / (b.y() - a.y()) * (b.x() - a.x()))
            in = !in;
    }
    return in;
}

// The part as it lies before the stroke of one bend: x from the bend's left end, y back from the bend line, z over the
// die.
struct AtRest {
    const Part& part;
    double radius_mm;
    std::vector<Rigid> place_from_panel;

    AtRest(const Part& whole, const random_states::State& state, double radius) : part(whole), radius_mm(radius) {
        const Bend& bend = part.bend(state.bend);
        const std::vector<Rigid> base_from = baseFromPanels(part, state.formed, radius_mm);
        const Vec2 back = state.hold == Side::kParent ? Vec2(-bend.toward_child) : bend.toward_child;
        const Vec3 y(back.x(), back.y(), 0);
        const Vec3 z(0, 0, bend.up ? 1 : -1);
        const Vec3 x = y.cross(z);
        double left = 1e9;
        for (const StripSpan& span : bend.spans) {
            for (const double at : {span.from_mm, span.to_mm}) {
                const Vec2 p = bend.origin + at * bend.along;
                left = std::min(left, x.dot(Vec3(p.x(), p.y(), 0)));
            }
        }
        Rigid place = Rigid::Identity();
        place.linear().row(0) = x.transpose();
        place.linear().row(1) = y.transpose();
        place.linear().row(2) = z.transpose();
        const double over = bend.up ? 0 : part.thickness_mm;
        place.translation() = Vec3(-left, -back.dot(bend.origin), over);
        const PanelId held = state.hold == Side::kParent ? bend.parent : bend.child;
        for (const Rigid& panel : base_from)
            place_from_panel.push_back(place * base_from[held.index()].inverse() * panel);
    }

    [[nodiscard]] bool inPanel(std::size_t panel, const Vec3& point) const {
        const Vec3 p = place_from_panel[panel].inverse() * point;
        if (p.z() < 0 || p.z() > part.thickness_mm) return false;
        const Region& region = part.panels[panel].region;
        const Vec2 flat(p.x(), p.y());
        return inside(region.outline, flat) && std::none_of(region.holes.begin(), region.holes.end(),
                                                            [&](const Polygon& hole) { return inside(hole, flat); });
    }
    // In the bent strip: between the radii about the arc's centre, within its angle.
    [[nodiscard]] bool inArc(const Bend& bend, const Vec3& point) const {
        const Vec3 p = place_from_panel[bend.parent.index()].inverse() * point;
        const Vec2 tangent = bend.origin - 0.5 * bend.allowance_mm * bend.toward_child;
        const Vec2 off = Vec2(p.x(), p.y()) - tangent;
        const double along = off.dot(bend.along);
        const bool in_span = std::any_of(bend.spans.begin(), bend.spans.end(), [&](const StripSpan& span) {
            return along >= span.from_mm && along <= span.to_mm;
        });
        const double inner_mm = bend.hem ? 0.5 * bend.hem->gap_mm : radius_mm;
        const double u = off.dot(bend.toward_child);
        const double w = bend.up ? part.thickness_mm + inner_mm - p.z() : p.z() + inner_mm;
        const double angle = std::atan2(u, w);
        const double reach = std::hypot(u, w);
        return in_span && angle >= 0 && angle <= bend.angle.rad() && reach >= inner_mm &&
               reach <= inner_mm + part.thickness_mm;
    }
};

struct Drawn {
    random_states::Case what;
    random_states::State state;
};

Drawn drawn(std::uint64_t seed) {
    Dice dice(seed);
    Drawn result{random_states::randomPressCase(seed), {}};
    PressBrake& press = result.what.shop.brakes[0].press();
    press.gauge = BackGauge{dice.between(0, 10), dice.between(100, 400), dice.between(8, 40),
                            dice.between(5, 30), -dice.between(0, 60),   dice.between(60, 200)};
    press.throat_mm = 0;
    result.state = random_states::randomState(result.what.part, dice);
    return result;
}

StrokeResult standing(const Drawn& drawn, FoldEngine& engine, BendMask formed) {
    const StrokeResult result = engine.check(formed, {bit(drawn.state.bend), drawn.state.hold});
    if (result.answer == StrokeAnswer::kPossible) return result;
    StrokeResult alone;  // what stands before a stroke that is not possible: nothing
    alone.part_x_um = micronNearest(0.5 * drawn.what.brake()->length_mm);
    return alone;
}

struct Tally {
    int stops = 0;
    int formed = 0;
    int faces = 0;
    int bends = 0;
    int hems = 0;
    int none = 0;
    void count(const Part& part, const GaugeStop& stop) {
        ++stops;
        formed += stop.isFlat() ? 0 : 1;
        faces += stop.touch == GaugeStop::Touch::kFace ? 1 : 0;
        if (stop.touch != GaugeStop::Touch::kBend) return;
        ++bends;
        for (const Bend& bend : part.bends) hems += bend.child == stop.panel && bend.hem ? 1 : 0;
    }
};

int arcsAt(const Drawn& one, const AtRest& at_rest, const Vec3& point) {
    int arcs = 0;
    for (const Bend& bend : one.what.part.bends) {
        const auto id = idAt<BendId>(static_cast<std::size_t>(&bend - one.what.part.bends.data()));
        arcs += contains(one.state.formed, id) && at_rest.inArc(bend, point) ? 1 : 0;
    }
    return arcs;
}

// Nothing of the part is in a finger or behind it, and something is right in front of it.
void measureAgain(const Drawn& one, std::uint64_t seed, Tally& tally) {
    const Part& part = one.what.part;
    FoldEngine engine(part, one.what.shop, one.what.brake());
    const GaugeChoice choice =
        engine.gauge(one.state.formed, {bit(one.state.bend), one.state.hold}, standing(one, engine, one.state.formed));
    if (!choice.stop) {
        ++tally.none;
        CHECK(choice.trouble);
        return;
    }
    const GaugeStop& stop = *choice.stop;
    const BackGauge gauge = *one.what.brake()->press().gauge;
    tally.count(part, stop);
    CHECK(stop.distance_mm >= gauge.nearest_mm);
    CHECK(stop.distance_mm <= gauge.furthest_mm);
    const AtRest at_rest(part, one.state, one.what.brake().inside_radius_mm());
    Dice dice(seed + 77);
    for (const PlacedFinger& finger : stop.fingers) {
        CHECK(finger.to_mm - finger.from_mm == Approx(gauge.finger_width_mm).margin(0.002));
        int touched = 0;
        int at_back = 0;
        for (int i = 0; i < 60; ++i) {
            const double x = dice.between(finger.from_mm + 0.01, finger.to_mm - 0.01);
            const double z = stop.fingers_z_mm + dice.between(0.06, gauge.finger_height_mm - 0.06);
            const Vec3 in_finger(
                x, stop.distance_mm + (dice.chance(0.5) ? 0.06 + dice.between(0, 1) : dice.between(0.06, 150)), z);
            for (std::size_t p = 0; p < part.panels.size(); ++p) at_back += at_rest.inPanel(p, in_finger) ? 1 : 0;
            at_back += arcsAt(one, at_rest, in_finger);
        }
        for (int i = 0; i < 400; ++i) {  // just in front of the finger's face
            const double z = stop.fingers_z_mm + dice.between(0, gauge.finger_height_mm);
            const Vec3 before(dice.between(finger.from_mm, finger.to_mm), stop.distance_mm - 0.01, z);
            const bool on_bend = stop.touch == GaugeStop::Touch::kBend;
            touched += on_bend ? arcsAt(one, at_rest, before) : at_rest.inPanel(stop.panel.index(), before) ? 1 : 0;
        }
        CHECK(at_back == 0);
        CHECK(touched > 0);
    }
}

}  // namespace

TEST_CASE("The stop is where the folded part, measured again, ends against the fingers") {
    Tally tally;
    for (std::uint64_t seed = 1; seed <= 750; ++seed) {
        CAPTURE(seed);
        measureAgain(drawn(seed), seed, tally);
    }
    INFO(tally.stops << " stops, " << tally.formed << " formed, " << tally.faces << " faces, " << tally.bends
                     << " bends, " << tally.none << " none");
    CHECK(tally.stops > 250);
    CHECK(tally.formed > 15);
    CHECK(tally.faces > 2);
    CHECK(tally.bends > 2);
    CHECK(tally.none > 25);
}

TEST_CASE("A hem's folded edge is where the part with its hem closed, measured again, ends against the fingers") {
    Tally tally;
    for (std::uint64_t seed = 5001; seed <= 5800; ++seed) {
        CAPTURE(seed);
        Drawn one = drawn(seed);
        Dice dice(seed);
        const std::optional<BendId> hem = random_states::makeHem(one.what.part, dice);
        if (!hem || *hem == one.state.bend) continue;
        one.state.formed |= bit(*hem);
        measureAgain(one, seed, tally);
    }
    INFO(tally.stops << " stops, " << tally.bends << " bends, " << tally.hems << " hems, " << tally.none << " none");
    CHECK(tally.stops > 100);
    CHECK(tally.hems > 10);
}

// What is in front of the bend line is not at the back: whether it is formed or not, the stop is the same.
TEST_CASE("Bends on the other side of the bend line do not change the stop") {
    int asked = 0;
    for (std::uint64_t seed = 2001; seed <= 2800; ++seed) {
        CAPTURE(seed);
        const Drawn one = drawn(seed);
        const Part& part = one.what.part;
        const Bend& line = part.bend(one.state.bend);
        // Bends whose child hangs on the child of the line, or all others.
        BendMask beyond = 0;
        std::vector<bool> hangs(part.panels.size(), false);
        hangs[line.child.index()] = true;
        for (std::size_t b = 0; b < part.bends.size(); ++b) {
            if (!hangs[part.bends[b].parent.index()]) continue;
            hangs[part.bends[b].child.index()] = true;
            beyond |= bit(idAt<BendId>(b));
        }
        const BendMask front =
            one.state.hold == Side::kParent ? beyond : allFormed(part) & ~beyond & ~bit(one.state.bend);
        if (front == 0) continue;
        FoldEngine engine(part, one.what.shop, one.what.brake());
        const Stroke stroke{bit(one.state.bend), one.state.hold};
        const StrokeResult where = standing(one, engine, one.state.formed);
        const GaugeChoice a = engine.gauge(one.state.formed & ~front, stroke, where);
        const GaugeChoice b = engine.gauge(one.state.formed | front, stroke, where);
        // But a wall that leans over to the back may be in the fingers' way.
        const double nearest = std::min(a.stop ? a.stop->distance_mm : 1e9, b.stop ? b.stop->distance_mm : 1e9);
        const bool base_in_front = one.state.hold == Side::kChild;
        const AtRest at_rest(part, {one.state.formed | front, one.state.bend, one.state.hold},
                             one.what.brake().inside_radius_mm());
        bool leans_over = false;
        for (std::size_t p = 0; p < part.panels.size(); ++p) {
            if (hangs[p] == base_in_front) continue;
            for (const Vec2& corner : part.panels[p].region.outline) {
                leans_over =
                    leans_over ||
                    (at_rest.place_from_panel[p] * Vec3(corner.x(), corner.y(), 0.5 * part.thickness_mm)).y() > nearest;
            }
        }
        if (leans_over) continue;
        ++asked;
        CHECK(a.stop.has_value() == b.stop.has_value());
        if (!a.stop || !b.stop) continue;
        CHECK(a.stop->panel == b.stop->panel);
        CHECK(a.stop->touch == b.stop->touch);
        CHECK(a.stop->bends_between == b.stop->bends_between);
        CHECK(a.stop->distance_mm == b.stop->distance_mm);
        CHECK(a.stop->tolerance_mm == b.stop->tolerance_mm);
    }
    CHECK(asked > 200);
}

// Parts that came out otherwise, made without the linear terms of `Deviation`: where what is touched then lies is
// within the tolerance told.
namespace {

// A part that came out otherwise, as it lies before the stroke. A closed hem is flat whatever its first fold came to.
struct OtherAtRest {
    const Part& drawn;
    Part part;
    PartOnBrake on_brake;
    PartBodies bodies;
    Rigid fold_from_held;
    PanelId held;
    BendMask formed;

    static Part closed(Part part) {
        for (Bend& bend : part.bends) {
            if (bend.hem) bend.hem->allowance_mm = bend.allowance_mm;
        }
        return part;
    }
    OtherAtRest(const Drawn& one, const deviating::Sample& sample)
        : drawn(one.what.part),
          part(closed(sample.part)),
          on_brake(partOnBrake(part, one.what.shop, one.what.brake())),
          bodies(on_brake, one.what.brake().inside_radius_mm()),
          held(heldPanel(drawn.bend(one.state.bend), one.state.hold)),
          formed(one.state.formed) {
        const Bend& line = drawn.bend(one.state.bend);
        fold_from_held = foldFromBlank(line, one.state.hold, part.thickness_mm, 0.5 * line.allowance_mm);
        fold_from_held.pretranslate(Vec3(0, sample.line_off_mm, 0));
    }
    [[nodiscard]] Rigid place(PanelId panel) const { return fold_from_held * bodies.pose(held, panel, formed); }

    // The plane of a face, at a height.
    [[nodiscard]] double faceAt(PanelId panel, bool upper, double z) const {
        const Rigid at = place(panel);
        const Vec3 normal = at.linear().col(2);
        const Vec3 through = at * Vec3(0, 0, upper ? part.thickness_mm : 0);
        return through.y() - normal.z() / normal.y() * (z - through.z());
    }
    // The outside of the bend of a panel, where it reaches furthest back.
    [[nodiscard]] double bendOf(PanelId child) const {
        for (const Bend& bend : part.bends) {
            if (bend.child != child) continue;
            const Bend made = finished(bend);
            const double radius_mm = bend.hem ? made.inside_radius_mm : bodies.inside_radius_mm();
            const Vec2 tangent = made.origin - 0.5 * made.allowance_mm * made.toward_child;
            const double centre_z = made.up ? part.thickness_mm + radius_mm : -radius_mm;
            return (place(bend.parent) * lifted(tangent, centre_z)).y() + radius_mm + part.thickness_mm;
        }
        return 0;
    }
};

// y of what the fingers of a stop touch.
std::vector<double> touchedBy(const Drawn& one, const GaugeStop& stop, const OtherAtRest& other, Dice& dice) {
    if (stop.touch == GaugeStop::Touch::kBend) return {other.bendOf(stop.panel)};
    const AtRest nominal(one.what.part, one.state, one.what.brake().inside_radius_mm());
    const Rigid was = nominal.place_from_panel[stop.panel.index()];
    const Polygon& drawn_ring = one.what.part.panel(stop.panel).region.outline;
    if (stop.touch == GaugeStop::Touch::kFace) {
        double low = 1e9;
        double high = -1e9;
        for (const Vec2& p : drawn_ring) {
            low = std::min(low, (was * Vec3(p.x(), p.y(), 0)).z());
            high = std::max(high, (was * Vec3(p.x(), p.y(), 0)).z());
        }
        const double top = stop.fingers_z_mm + one.what.brake()->press().gauge->finger_height_mm;
        const double z = dice.between(std::max(low, stop.fingers_z_mm), std::min(high, top));
        return {other.faceAt(stop.panel, was.linear()(1, 2) > 0, z)};
    }
    std::vector<double> found;
    const Polygon& ring = other.part.panel(stop.panel).region.outline;
    for (std::size_t k = 0; k < ring.size(); ++k) {
        const std::size_t next = (k + 1) % ring.size();
        const Vec3 a = was * Vec3(drawn_ring[k].x(), drawn_ring[k].y(), 0);
        const Vec3 b = was * Vec3(drawn_ring[next].x(), drawn_ring[next].y(), 0);
        if (std::abs(a.y() - stop.distance_mm) > 1e-6 || std::abs(b.y() - stop.distance_mm) > 1e-6) continue;
        for (const PlacedFinger& finger : stop.fingers) {
            const double t = (dice.between(finger.from_mm, finger.to_mm) - a.x()) / (b.x() - a.x());
            if (t < 0 || t > 1) continue;
            const Vec2 p = (1 - t) * ring[k] + t * ring[next];
            const Vec3 in_edge(p.x(), p.y(), dice.between(0, other.part.thickness_mm));
            found.push_back((other.place(stop.panel) * in_edge).y());
        }
    }
    return found;
}

}  // namespace

TEST_CASE("The tolerance of a stop holds what parts within the shop's tolerances come to") {
    int asked = 0;
    int bends = 0;
    double nearest_share = 0;
    for (std::uint64_t seed = 3001; seed <= 3800; ++seed) {
        CAPTURE(seed);
        Drawn one = drawn(seed);
        Dice dice(seed + 99);
        if (seed % 2 == 0) {
            const std::optional<BendId> hem = random_states::makeHem(one.what.part, dice);
            if (!hem || *hem == one.state.bend) continue;
            one.state.formed |= bit(*hem);
        }
        one.what.shop.tolerances.cutting_mm = dice.between(0.1, 0.6);  // of every edge, whatever the width
        const Part& part = one.what.part;
        std::vector<double> lines_mm;
        for (std::size_t b = 0; b < part.bends.size(); ++b) lines_mm.push_back(dice.between(0.1, 0.8));
        FoldEngine engine(part, one.what.shop, one.what.brake());
        const GaugeChoice choice = engine.gauge(one.state.formed, {bit(one.state.bend), one.state.hold},
                                                standing(one, engine, one.state.formed), lines_mm);
        if (!choice.stop) continue;
        const GaugeStop& stop = *choice.stop;
        bends += stop.touch == GaugeStop::Touch::kBend ? 1 : 0;
        ToleranceBox box = one.what.shop.tolerancesFor(part);
        box.formed_lines_mm = lines_mm;
        for (int i = 0; i < 6; ++i) {
            const deviating::Sample sample =
                deviating::sampleOf(part, box, one.state.bend, one.state.hold, false, dice.chance(0.5), dice);
            for (const double y : touchedBy(one, stop, OtherAtRest(one, sample), dice)) {
                ++asked;
                CHECK(std::abs(y - stop.distance_mm) <= stop.tolerance_mm + 1e-6);
                nearest_share = std::max(nearest_share, std::abs(y - stop.distance_mm) / stop.tolerance_mm);
            }
        }
    }
    INFO(asked << " asked, " << bends << " bends, " << nearest_share << " of the tolerance at most");
    CHECK(asked > 1000);
    CHECK(bends > 10);
    CHECK(nearest_share > 0.9);
}
