// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/tooling/die_profile.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tinwright/base/contract.h>

#include "tooling/arc_corners.h"

namespace tinwright {

namespace {

constexpr double kThinnestDie_mm = 0.01;  // less is a slip of the pen
constexpr double kLeastOpening_mm = 0.5;
constexpr double kLeastFloor_mm = 1.0;

double halfAngle_rad(const Vee& vee) { return vee.angle.rad() / 2; }

// From where flank and top would meet to where the arc touches either: the turn between them is 90° less half the V's
// angle.
double tangent_mm(const Vee& vee) {
    return vee.shoulder_radius_mm * std::tan((std::numbers::pi / 2 - halfAngle_rad(vee)) / 2);
}

// Under the top, where the flanks are this far from the middle.
double flankDepth_mm(const Vee& vee, double out_mm) {
    return (vee.opening_mm / 2 - out_mm) / std::tan(halfAngle_rad(vee));
}

double flankEnd_mm(const VeeCut& cut) {
    return cut.slot ? flankDepth_mm(cut.vee, cut.slot->width_mm / 2) : veeDepth_mm(cut.vee);
}

double depth_mm(const VeeCut& cut) { return cut.slot ? cut.slot->depth_mm : veeDepth_mm(cut.vee); }

// The right half of what is cut out, from the top's edge down to the middle; V's middle at y = 0.
Polygon rightHalf(const VeeCut& cut) {
    const Vee& vee = cut.vee;
    Polygon half;
    if (vee.shoulder_radius_mm > 0) {
        const Vec2 centre(shoulderOut_mm(vee), -vee.shoulder_radius_mm);
        half =
            arcCorners(centre, vee.shoulder_radius_mm, std::numbers::pi / 2, std::numbers::pi / 2 - halfAngle_rad(vee));
        half.front().y() = 0;  // exactly on the top
    } else {
        half.emplace_back(vee.opening_mm / 2, 0);
    }
    if (cut.slot) {
        half.emplace_back(cut.slot->width_mm / 2, -flankEnd_mm(cut));
        half.emplace_back(cut.slot->width_mm / 2, -cut.slot->depth_mm);
    } else {
        half.emplace_back(0, -veeDepth_mm(vee));
    }
    return half;
}

// From the right shoulder down and up to the left one.
Polygon veeCorners(const VeeCut& cut) {
    Polygon corners = rightHalf(cut);
    for (std::size_t i = corners.size(); i-- > 0;) {
        if (corners[i].x() != 0) corners.emplace_back(-corners[i].x(), corners[i].y());
    }
    return corners;
}

// A flank as long as from where it would meet the top down to `end_mm` under the top.
std::string whyNoFlank(const Vee& vee, double end_mm) {
    const double flank_mm = end_mm / std::cos(halfAngle_rad(vee));
    if (tangent_mm(vee) <= flank_mm - kThinnestDie_mm) return {};
    return fmt::format("a shoulder radius that leaves some of the flank, under {:.2f} mm",
                       vee.shoulder_radius_mm * flank_mm / tangent_mm(vee));
}

std::string whyNoSlot(const VeeCut& cut) {
    if (!cut.slot) return {};
    const auto [width_mm, depth_mm] = *cut.slot;
    if (!std::isfinite(width_mm) || !std::isfinite(depth_mm)) return "finite numbers";
    if (width_mm < kThinnestDie_mm || width_mm > cut.vee.opening_mm - kThinnestDie_mm)
        return fmt::format("a slot narrower than the V's opening, {:g} mm", cut.vee.opening_mm);
    if (depth_mm < flankEnd_mm(cut) + kThinnestDie_mm)
        return fmt::format("a slot deeper than where the flanks are as near as it is wide, {:.2f} mm",
                           flankEnd_mm(cut));
    return whyNoFlank(cut.vee, flankEnd_mm(cut));
}

std::string whyNoCut(const VeeCut& cut, double height_mm) {
    std::string why = whyNoVee(cut.vee);
    if (why.empty()) why = whyNoSlot(cut);
    if (!why.empty()) return why;
    if (!std::isfinite(cut.offset_mm)) return "finite numbers";
    if (height_mm >= depth_mm(cut) + kLeastFloor_mm) return {};
    return fmt::format("a height of {:.2f} mm or more: the V of {:g} mm is {:.2f} mm deep",
                       depth_mm(cut) + kLeastFloor_mm, cut.vee.opening_mm, depth_mm(cut));
}

std::vector<VeeCut> fromTheBack(std::vector<VeeCut> cuts) {
    std::stable_sort(cuts.begin(), cuts.end(),
                     [](const VeeCut& a, const VeeCut& b) { return a.offset_mm > b.offset_mm; });
    return cuts;
}

std::string whyNoRoom(const DieSection& die) {
    const double face_mm = die.body_width_mm / 2;
    const VeeCut* behind = nullptr;
    const std::vector<VeeCut> cuts = fromTheBack(die.cuts);
    for (const VeeCut& cut : cuts) {
        const double out_mm = shoulderOut_mm(cut.vee);
        if (std::abs(cut.offset_mm) + out_mm > face_mm - kThinnestDie_mm) {
            return fmt::format(
                "a body that the V of {:g} mm with its shoulders, {:.2f} mm in all, has room on ({:g} mm wide, the V "
                "{:g} mm behind its middle)",
                cut.vee.opening_mm, 2 * out_mm, die.body_width_mm, cut.offset_mm);
        }
        if (behind != nullptr &&
            cut.offset_mm + out_mm > behind->offset_mm - shoulderOut_mm(behind->vee) - kThinnestDie_mm) {
            return fmt::format(
                "{:.2f} mm or more between the middles of the V of {:g} mm and of that of {:g} mm, so that their "
                "shoulders do not meet, not {:g} mm",
                out_mm + shoulderOut_mm(behind->vee) + kThinnestDie_mm, cut.vee.opening_mm, behind->vee.opening_mm,
                behind->offset_mm - cut.offset_mm);
        }
        behind = &cut;
    }
    return {};
}

// How much is compared of a section that was given by its points: the shoulders and half of the V.
Polygon comparedWindow(const Vee& vee) {
    const double out_mm = shoulderOut_mm(vee);
    const double down_mm = std::max(veeDepth_mm(vee) / 2, tangent_mm(vee) * std::cos(halfAngle_rad(vee)));
    return {Vec2(-out_mm, -down_mm), Vec2(out_mm, -down_mm), Vec2(out_mm, 1), Vec2(-out_mm, 1)};
}

// A place where `a` has what `b` has not, unless it is but a thin strip.
std::optional<Vec2> onlyIn(const std::vector<Region>& a, const std::vector<Region>& b, double tolerance_mm) {
    std::vector<Polygon> less;
    for (const Region& piece : b) less.push_back(piece.outline);
    for (const Region& piece : a) {
        for (const Region& left : difference(piece, less)) {
            const std::vector<Region> thick = grown(left, -tolerance_mm);
            if (!thick.empty()) return thick.front().outline.front();
        }
    }
    return std::nullopt;
}

std::string whyOtherVee(const Polygon& section, const Vee& vee, double tolerance_mm) {
    const Polygon window = comparedWindow(vee);
    DieSection ideal{{{vee, 0, {}}}, veeDepth_mm(vee) + 2 * kLeastFloor_mm, 2 * shoulderOut_mm(vee) + 2};
    const std::vector<Region> wanted = intersection(Region{dieSection(ideal, 0), {}}, window);
    const std::vector<Region> found = intersection(Region{section, {}}, window);
    const auto wrongAt = [&](const Vec2& at, const char* amount) {
        return fmt::format(
            "the V that is said (opening {:g}, {:g} degrees, shoulders {:g}) at y = 0; at ({:.2f}, {:.2f}) there is "
            "too {} steel",
            vee.opening_mm, vee.angle.deg(), vee.shoulder_radius_mm, at.x(), at.y(), amount);
    };
    if (const auto at = onlyIn(found, wanted, tolerance_mm)) return wrongAt(*at, "much");
    if (const auto at = onlyIn(wanted, found, tolerance_mm)) return wrongAt(*at, "little");
    return {};
}

}  // namespace

double veeDepth_mm(const Vee& vee) { return flankDepth_mm(vee, 0); }

double freeDepth_mm(const Polygon& section, const Vee& vee, double tolerance_mm) {
    const double half_mm = vee.opening_mm / 2;
    double top_mm = -veeDepth_mm(vee);
    for (const Region& within :
         grown(Region{{Vec2(-half_mm, 0), Vec2(0, top_mm), Vec2(half_mm, 0)}, {}}, -tolerance_mm)) {
        for (const Region& steel : intersection(Region{section, {}}, within.outline)) {
            for (const Vec2& point : steel.outline) top_mm = std::max(top_mm, point.y());
        }
    }
    return -top_mm;
}

double shoulderOut_mm(const Vee& vee) { return vee.opening_mm / 2 + tangent_mm(vee); }

std::string whyNoVee(const Vee& vee) {
    if (!std::isfinite(vee.opening_mm) || !std::isfinite(vee.angle.rad()) || !std::isfinite(vee.shoulder_radius_mm))
        return "finite numbers";
    if (vee.angle.deg() < 5 || vee.angle.deg() > 170) return "an angle of the V of 5 to 170 degrees";
    if (vee.opening_mm < kLeastOpening_mm) return fmt::format("an opening of {:g} mm or more", kLeastOpening_mm);
    if (vee.shoulder_radius_mm != 0 && vee.shoulder_radius_mm < kThinnestDie_mm)
        return fmt::format("a shoulder radius of 0, or of {:g} mm or more", kThinnestDie_mm);
    return whyNoFlank(vee, veeDepth_mm(vee));
}

std::string whyNoDieSection(const DieSection& die) {
    if (die.cuts.empty()) return "at least one V";
    if (!std::isfinite(die.height_mm) || !std::isfinite(die.body_width_mm)) return "finite numbers";
    for (const VeeCut& cut : die.cuts) {
        std::string why = whyNoCut(cut, die.height_mm);
        if (!why.empty()) return why;
    }
    return whyNoRoom(die);
}

Polygon dieSection(const DieSection& die, std::size_t used) {
    TINWRIGHT_REQUIRE(used < die.cuts.size() && whyNoDieSection(die).empty(), "a section can be made of these numbers");
    const double half_mm = die.body_width_mm / 2;
    Polygon section{Vec2(-half_mm, -die.height_mm), Vec2(half_mm, -die.height_mm), Vec2(half_mm, 0)};
    for (const VeeCut& cut : fromTheBack(die.cuts)) {
        for (const Vec2& corner : veeCorners(cut)) section.push_back(corner + Vec2(cut.offset_mm, 0));
    }
    section.emplace_back(-half_mm, 0);
    for (Vec2& point : section) point.x() -= die.cuts[used].offset_mm;
    return section;
}

std::string whyNoDie(const Polygon& section, const Vee& vee, double tolerance_mm) {
    std::string why;
    if (!isValid(Region{section, {}}, &why)) return "a polygon that does not cross itself (" + why + ")";
    double top_mm = -HUGE_VAL;
    for (const Vec2& point : section) top_mm = std::max(top_mm, point.y());
    if (std::abs(top_mm) > tolerance_mm) return fmt::format("a top at z = 0, not at {:.3f} mm", top_mm);
    return whyOtherVee(section, vee, tolerance_mm);
}

}  // namespace tinwright
