// SPDX-License-Identifier: GPL-3.0-or-later
#include "random_states.h"

#include <algorithm>
#include <string>

#include <tinwright/part/allowance/allowance.h>

#include <tinwright/brake/tooling/bar_profile.h>
#include <tinwright/brake/tooling/die_profile.h>
#include <tinwright/brake/tooling/punch_profile.h>

namespace tinwright::random_states {

namespace {

constexpr double kShortestBend_mm = 8;
constexpr const char* kBoxy = "boxy";  // small base, flanges mostly up: its panels get in each other's way

bool isConvex(const Polygon& polygon) {
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Vec2 a = polygon[(i + 1) % polygon.size()] - polygon[i];
        const Vec2 b = polygon[(i + 2) % polygon.size()] - polygon[(i + 1) % polygon.size()];
        if (a.x() * b.y() - a.y() * b.x() <= 1e-3 * a.norm() * b.norm() || a.norm() < 2) return false;
    }
    return true;
}

Polygon randomBase(bool boxy, Dice& dice) {
    const double w = boxy ? dice.between(25, 80) : dice.between(40, 220);
    const double d = boxy ? dice.between(25, 80) : dice.between(30, 160);
    Polygon corners{Vec2(0, 0), Vec2(w, 0), Vec2(w, d), Vec2(0, d)};
    if (dice.chance(0.5)) return corners;
    const double most = 0.2 * std::min(w, d);
    for (Vec2& corner : corners) corner += Vec2(dice.between(-most, most), dice.between(-most, most));
    return corners;
}

// A window or notch-like hole: the panel drawn smaller about its middle.
Region withHole(const Polygon& outline, Dice& dice) {
    Region region{outline, {}};
    if (!dice.chance(0.3)) return region;
    Vec2 middle = Vec2::Zero();
    for (const Vec2& corner : outline) middle += corner / static_cast<double>(outline.size());
    const double share = dice.between(0.2, 0.7);
    Polygon hole;
    for (const Vec2& corner : outline) hole.push_back(middle + share * (corner - middle));
    region.holes.push_back(hole);
    return region;
}

std::vector<StripSpan> spansBetween(double lo, double hi, Dice& dice) {
    if (hi - lo < 30 || !dice.chance(0.15)) return {{lo, hi}};
    const double from = dice.between(lo + 8, hi - 14);
    return {{lo, from}, {from + 6, hi}};
}

Bend bendOn(const Part& part, PanelId parent, const Vec2& a, const Vec2& b, double nose_mm, Dice& dice) {
    Bend bend;
    bend.name = "b" + std::to_string(part.bends.size());
    bend.parent = parent;
    bend.child = idAt<PanelId>(part.panels.size());
    bend.along = (b - a).normalized();
    bend.toward_child = Vec2(bend.along.y(), -bend.along.x());
    bend.angle = Angle::degrees(dice.chance(0.4) ? 90.0 : dice.between(20, 135));
    bend.up = dice.chance(part.name == kBoxy ? 0.9 : 0.6);
    bend.inside_radius_mm = nose_mm;
    bend.allowance_mm = bend.angle.rad() * (nose_mm + dice.between(0.3, 0.5) * part.thickness_mm);
    bend.origin = a + 0.5 * bend.allowance_mm * bend.toward_child;
    return bend;
}

// The flange beyond the strip, from lo to hi along the edge: a rectangle, or mitred and with a skewed far edge.
Polygon flangeOutline(const Bend& bend, double lo, double hi, Dice& dice) {
    const double height = dice.chance(0.3) ? dice.between(5, 15) : dice.between(10, 90);
    const auto at = [&](double along, double out) -> Vec2 {
        return bend.origin + along * bend.along + (0.5 * bend.allowance_mm + out) * bend.toward_child;
    };
    const Polygon square{at(lo, 0), at(lo, height), at(hi, height), at(hi, 0)};
    if (dice.chance(0.5)) return square;
    const double left = height * dice.between(-0.3, 1.0);
    const double right = height * dice.between(-0.3, 1.0);
    const double skew = dice.chance(0.5) ? 0 : height * dice.between(-0.3, 0.3);
    Polygon mitred{at(lo, 0), at(lo + left, height), at(hi - right, height + skew), at(hi, 0)};
    return isConvex(mitred) ? mitred : square;
}

struct Edge {
    PanelId panel;
    Vec2 a;
    Vec2 b;
};

// The new flange's far edge, on which a lip may follow.
Edge addFlange(Part& part, const Edge& edge, double nose_mm, Dice& dice) {
    Bend bend = bendOn(part, edge.panel, edge.a, edge.b, nose_mm, dice);
    const double length = (edge.b - edge.a).norm();
    const double lo = dice.chance(0.4) ? length * dice.between(0, 0.3) : 0;
    const double hi = length - (dice.chance(0.4) ? length * dice.between(0, 0.3) : 0);
    bend.spans = spansBetween(lo, hi, dice);
    const Polygon outline = flangeOutline(bend, lo, hi, dice);
    const Edge far{bend.child, outline[1], outline[2]};
    part.panels.push_back({"p" + std::to_string(part.panels.size()), withHole(outline, dice)});
    part.bends.push_back(std::move(bend));
    return far;
}

// A sheet without panels.
Part randomSheet(Dice& dice) {
    Part part;
    part.name = dice.chance(0.5) ? kBoxy : "random";
    part.material = "mild-steel";
    part.thickness_mm = dice.between(0.8, 3.0);
    return part;
}

void addPanels(Part& part, double nose_mm, Dice& dice) {
    const bool boxy = part.name == kBoxy;
    const Polygon base = randomBase(boxy, dice);
    part.panels.push_back({"base", withHole(base, dice)});
    std::vector<Edge> open;
    for (std::size_t i = 0; i < base.size(); ++i)
        open.push_back({idAt<PanelId>(0), base[i], base[(i + 1) % base.size()]});
    const auto wanted = static_cast<std::size_t>((boxy ? 3 : 1) + dice.below(boxy ? 3 : 5));
    while (part.bends.size() < wanted && !open.empty()) {
        const auto pick = static_cast<std::size_t>(dice.below(static_cast<int>(open.size())));
        const Edge edge = open[pick];
        open.erase(open.begin() + static_cast<std::ptrdiff_t>(pick));
        if ((edge.b - edge.a).norm() < kShortestBend_mm) continue;
        open.push_back(addFlange(part, edge, nose_mm, dice));
    }
    part.blank = part.panels[0].region;
}

Polygon randomBarSection(double nose_mm, bool finger, Dice& dice) {
    for (;;) {
        NoseSection nose;
        nose.nose_angle = Angle::degrees(dice.between(25, 90));
        nose.radius_mm = nose_mm;
        nose.clamp_depth_mm = dice.between(15, 80);
        nose.height_mm = dice.between(8, 60);
        if (finger && dice.chance(0.7)) {
            nose.toe_height_mm = nose.height_mm * dice.between(0.2, 0.8);
            nose.shank_front_mm = nose.clamp_depth_mm * dice.between(0.1, 0.8);
        }
        if (whyNoSection(nose).empty()) return barSection(nose);
    }
}

std::vector<Bar> randomBars(double nose_mm, bool finger, Dice& dice) {
    Bar bar;
    bar.profile = randomBarSection(nose_mm, finger, dice);
    bar.clamp_depth_mm = clampDepth_mm(bar.profile);
    bar.height_mm = height_mm(bar.profile);
    if (dice.chance(finger ? 0.6 : 0.2)) {
        bar.end_relief_mm = dice.between(1, 8);
        bar.end_relief_height_mm = bar.height_mm * dice.between(0.2, 0.7);
    }
    std::vector<Bar> bars;
    for (const double width_mm : {20.0, 25.0, 30.0, 40.0, 60.0, 100.0}) {
        bar.id = "w" + std::to_string(static_cast<int>(width_mm));
        bar.width_mm = width_mm;
        bar.count = 2;
        bars.push_back(bar);
    }
    return bars;
}

Brake randomBrake(Dice& dice) {
    Brake brake;
    brake.name = "random";
    brake.length_mm = dice.between(250, 700);
    LeafBrake leaf;
    leaf.max_leaf_angle = Angle::degrees(170);
    leaf.nose_radius_mm = dice.between(0.3, 3.0);
    leaf.setback_mm = dice.chance(0.5) ? -1 : dice.between(0.8, 5);
    leaf.hinge_height_mm = dice.chance(0.5) ? 0 : dice.between(0, 1);
    const int faces = 1 + dice.below(2);
    for (int i = 0; i < faces; ++i) leaf.leaf_faces.push_back({"face", dice.between(8, 90), dice.between(4, 25)});
    const double back = dice.between(60, 200);
    leaf.bed = dice.chance(0.5) ? Polygon{Vec2(0, -60), Vec2(back, -60), Vec2(back, 0), Vec2(0, 0)}
                                : Polygon{Vec2(0, -8), Vec2(30, -60), Vec2(back, -60), Vec2(back, 0), Vec2(0, 0)};
    const bool finger = dice.chance(0.5);
    const Beam beam{dice.between(15, 90), dice.between(-5, 60)};
    if (finger) leaf.beam = beam;
    leaf.clamp = finger ? ClampKind::kOnBeam : ClampKind::kLooseBars;
    leaf.opening_mm = finger ? dice.between(20, 90) : 0;
    leaf.bars = randomBars(leaf.nose_radius_mm, finger, dice);
    brake.kind = leaf;
    return brake;
}

PunchSection randomPunch(double height_mm, double tip_radius_mm, bool hollow, Dice& dice) {
    for (;;) {
        PunchSection punch;
        punch.tip_angle = Angle::degrees(dice.between(20, 90));
        punch.tip_radius_mm = tip_radius_mm;
        punch.height_mm = height_mm;
        punch.body_width_mm = dice.between(6, 30);
        if (hollow) {
            PunchThroat throat;
            throat.from_mm = dice.between(6, 0.5 * height_mm);
            throat.to_mm = dice.between(throat.from_mm + 10, height_mm);
            throat.depth_mm = dice.between(3, 45);
            throat.neck_mm = dice.between(6, 20);
            if (dice.chance(0.5)) {
                throat.deepest_from_mm = dice.between(throat.from_mm, throat.to_mm);
                throat.deepest_to_mm = dice.between(*throat.deepest_from_mm, throat.to_mm);
            }
            punch.throat = throat;
        }
        if (whyNoPunchSection(punch).empty()) return punch;
    }
}

// A punch that stands the other way round.
Polygon turnedRound(Polygon section) {
    for (Vec2& point : section) point.x() = -point.x();
    std::reverse(section.begin(), section.end());
    return section;
}

// One section in many widths, some with a horn.
void addPunches(PressBrake& press, double height_mm, double tip_radius_mm, Dice& dice) {
    const bool hollow = dice.chance(0.5);
    Punch punch;
    punch.profile = punchSection(randomPunch(height_mm, tip_radius_mm, hollow, dice));
    if (hollow && dice.chance(0.2)) punch.profile = turnedRound(punch.profile);
    punch.height_mm = height_mm;
    punch.tip_radius_mm = tip_radius_mm;
    punch.count = 2;
    for (const double width_mm : {10.0, 15.0, 20.0, 30.0, 40.0, 50.0, 100.0, 200.0}) {
        punch.id = "P" + std::to_string(press.punches.size());
        punch.width_mm = width_mm;
        press.punches.push_back(punch);
    }
    const double horn_height_mm = dice.between(8, 0.5 * height_mm);
    for (const bool at_left : {true, false}) {
        if (dice.chance(0.4)) continue;
        punch.horn = Horn{dice.between(6, 35), horn_height_mm, at_left};
        for (const double width_mm : {60.0, 100.0}) {
            punch.id = "H" + std::to_string(press.punches.size());
            punch.width_mm = width_mm;
            press.punches.push_back(punch);
        }
    }
}

DieSection randomDie(const Vee& vee, double height_mm, Dice& dice) {
    for (int tries = 1;; ++tries) {
        DieSection die;
        die.height_mm = height_mm;
        die.body_width_mm = vee.opening_mm + dice.between(3, 6 + tries);
        VeeCut vee_cut{
            vee, dice.chance(0.3) ? dice.between(-0.3, 0.3) * (die.body_width_mm - vee.opening_mm) : 0.0, {}};
        if (dice.chance(0.2)) vee_cut.slot = VeeSlot{0.3 * vee.opening_mm, dice.between(0.3, 1.2) * veeDepth_mm(vee)};
        die.cuts.push_back(vee_cut);
        if (whyNoDieSection(die).empty()) return die;
    }
}

void addDies(PressBrake& press, const Vee& vee, double height_mm, Dice& dice) {
    Die die;
    die.profile = dieSection(randomDie(vee, height_mm, dice), 0);
    die.height_mm = height_mm;
    die.vee = vee;
    die.count = 2;
    for (const double width_mm : {10.0, 15.0, 20.0, 30.0, 40.0, 50.0, 100.0, 200.0}) {
        die.id = "D" + std::to_string(press.punches.size() + press.dies.size());
        die.width_mm = width_mm;
        press.dies.push_back(die);
    }
}

Polygon block(double front_mm, double back_mm, double z_lo_mm, double z_hi_mm) {
    return {Vec2(front_mm, z_lo_mm), Vec2(back_mm, z_lo_mm), Vec2(back_mm, z_hi_mm), Vec2(front_mm, z_hi_mm)};
}

// A plain block, or one with a narrower foot at its seat.
Polygon randomRam(Dice& dice) {
    const double front = -dice.between(15, 60);
    const double back = dice.between(15, 80);
    if (dice.chance(0.5)) return block(front, back, 0, 600);
    const double foot = dice.between(15, 80);
    return {Vec2(0.4 * front, 0), Vec2(0.5 * back, 0), Vec2(0.5 * back, foot), Vec2(back, foot),
            Vec2(back, 600),      Vec2(front, 600),    Vec2(front, foot),      Vec2(0.4 * front, foot)};
}

Polygon randomPressBed(Dice& dice) {
    const double front = -dice.between(15, 60);
    const double back = dice.between(15, 80);
    if (dice.chance(0.5)) return block(front, back, -600, 0);
    const double rail = -dice.between(10, 60);
    return {Vec2(front, -600),   Vec2(back, -600),     Vec2(back, rail),        Vec2(0.6 * back, rail),
            Vec2(0.6 * back, 0), Vec2(0.6 * front, 0), Vec2(0.6 * front, rail), Vec2(front, rail)};
}

// A V that most bends can be made in, deep enough for its die.
Vee randomVee(double thickness_mm, Dice& dice) {
    for (;;) {
        const Vee vee{thickness_mm * dice.between(6, 12),
                      Angle::degrees(dice.chance(0.5) ? dice.between(26, 45) : dice.between(45, 88)),
                      dice.between(0.4, 2.5)};
        if (whyNoVee(vee).empty()) return vee;
    }
}

// As it is used in one V: the radius that bends take follows from it.
void addRandomPress(Case& to, Dice& dice) {
    const double thickness_mm = to.part.thickness_mm;
    Brake brake;
    brake.name = "random press";
    brake.length_mm = dice.between(300, 900);
    PressBrake press;
    const Vee vee = randomVee(thickness_mm, dice);
    const double punch_mm = dice.between(40, 160);
    const double die_mm = veeDepth_mm(vee) + dice.between(10, 60);
    addPunches(press, punch_mm, dice.between(0.2, 2.5), dice);
    if (dice.chance(0.25))
        addPunches(press, dice.chance(0.5) ? punch_mm : dice.between(40, 160), dice.between(0.2, 5), dice);
    if (dice.chance(0.2)) {  // not used
        const Vee other = randomVee(thickness_mm, dice);
        addDies(press, other, veeDepth_mm(other) + 20, dice);
    }
    addDies(press, vee, die_mm, dice);
    if (dice.chance(0.25)) addDies(press, vee, dice.chance(0.5) ? die_mm : die_mm + dice.between(5, 30), dice);
    press.bed = randomPressBed(dice);
    press.ram = randomRam(dice);
    press.open_height_mm = 160 + die_mm + 30 + dice.between(20, 250);
    press.stroke_mm = 500;
    if (dice.chance(0.7)) {
        press.throat_mm = dice.between(20, 250);
        press.frames_left_mm = dice.between(0, 0.2) * brake.length_mm;
        press.frames_right_mm = dice.between(0.8, 1.0) * brake.length_mm;
    }
    brake.kind = press;
    to.shop.brakes.push_back(brake);
    to.vee = vee;
    to.radius_mm = 0.16 * vee.opening_mm * dice.between(0.8, 1.3);
}

}  // namespace

Case randomCase(std::uint64_t seed) {
    Dice dice(seed);
    Case result;
    result.shop.name = "random";
    result.shop.brakes.push_back(randomBrake(dice));
    result.part = randomSheet(dice);
    addPanels(result.part, result.brake().inside_radius_mm(), dice);
    return result;
}

Case randomPressCase(std::uint64_t seed) {
    Dice dice(seed);
    Case result;
    result.shop.name = "random";
    result.part = randomSheet(dice);
    addRandomPress(result, dice);
    addPanels(result.part, result.brake().inside_radius_mm(), dice);
    return result;
}

State randomState(const Part& part, Dice& dice) {
    const int count = static_cast<int>(part.bends.size());
    State state;
    state.bend = idAt<BendId>(static_cast<std::size_t>(dice.below(count)));
    state.hold = kBothSides[static_cast<std::size_t>(dice.below(2))];
    for (int i = 0; i < count; ++i) {
        const auto other = idAt<BendId>(static_cast<std::size_t>(i));
        if (other != state.bend && dice.chance(0.5)) state.formed |= bit(other);
    }
    return state;
}

std::optional<BendId> makeHem(Part& part, Dice& dice) {
    std::vector<BendId> leaves;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        bool carries = false;
        for (const Bend& other : part.bends) carries = carries || other.parent == part.bends[i].child;
        if (!carries) leaves.push_back(idAt<BendId>(i));
    }
    const BendId id = leaves[static_cast<std::size_t>(dice.below(static_cast<int>(leaves.size())))];
    Bend& bend = part.bends[id.index()];
    const double gap_mm = dice.chance(0.6) ? 0 : dice.between(0.3, 4);
    bend.angle = Angle::degrees(180);
    bend.inside_radius_mm = 0.5 * gap_mm;
    const double old_mm = bend.allowance_mm;
    bend.allowance_mm = kFactorAllowance_mm(bend.angle, bend.inside_radius_mm, part.thickness_mm, 0.5);
    bend.rule = AllowanceRule::kKFactor;
    bend.rule_value = 0.44;
    bend.hem = Hem{gap_mm, bend.allowance_mm};
    const double depth_mm = dice.between(4, 14) * std::max(1.0, part.thickness_mm);
    constexpr double kWide_mm = 1e4;
    const auto at = [&](double along, double out) -> Vec2 {
        return bend.origin + along * bend.along + out * bend.toward_child;
    };
    Polygon window{at(-kWide_mm, 0.5 * old_mm), at(-kWide_mm, 0.5 * old_mm + depth_mm),
                   at(kWide_mm, 0.5 * old_mm + depth_mm), at(kWide_mm, 0.5 * old_mm)};
    if (signedArea_mm2(window) < 0) std::reverse(window.begin(), window.end());
    Region& region = part.panels[bend.child.index()].region;
    const std::vector<Region> cut = intersection(region, window);
    if (cut.size() != 1) return std::nullopt;
    region = cut.front();
    return id;
}

void letCloseHems(Brake& brake) {
    LeafBrake& leaf = brake.leaf();
    leaf.hem_thickness_mm = 25;
    leaf.max_leaf_angle = Angle::degrees(150);
    if (leaf.clamp == ClampKind::kLooseBars) leaf.beam.reset();
}

}  // namespace tinwright::random_states
