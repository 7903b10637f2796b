// SPDX-License-Identifier: GPL-3.0-or-later
#include "deviating_part.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tinwright::deviating {

namespace {

class Draw {
public:
    Draw(random_states::Dice& dice, bool extreme) : dice_(dice), extreme_(extreme) {}
    double operator()(double most) {
        if (extreme_) return dice_.chance(0.5) ? most : -most;
        return dice_.between(-most, most);
    }

private:
    random_states::Dice& dice_;
    bool extreme_;
};

// The strip follows the neutral line: its radius grows with the thickness by the share at which it lies, its length
// with the angle.
double stripOf(const Bend& bend, double thickness_mm, double thickness_more_mm, double angle_more_rad) {
    const double neutral_mm = bend.allowance_mm / bend.angle.rad();
    const double share = (neutral_mm - bend.inside_radius_mm) / thickness_mm;
    return (neutral_mm + share * thickness_more_mm) * (bend.angle.rad() + angle_more_rad);
}

void jitter(Polygon& outline, double most_mm, random_states::Dice& dice) {
    for (Vec2& corner : outline) {
        const double turn = dice.between(0, 2 * std::numbers::pi);
        corner += most_mm * dice.between(0, 1) * Vec2(std::cos(turn), std::sin(turn));
    }
}

}  // namespace

ToleranceBox randomBox(const Part& part, const Most& most, random_states::Dice& dice) {
    ToleranceBox box;
    box.thickness_mm = dice.between(0, most.thickness_share) * part.thickness_mm;
    box.bend_line_mm = dice.between(0, most.bend_line_mm);
    box.bend_angle = Angle::degrees(dice.between(0, most.angle_deg));
    for (std::size_t i = 0; i < part.panels.size(); ++i) box.cutting_mm.push_back(dice.between(0, most.cutting_mm));
    return box;
}

Sample sampleOf(const Part& part, const ToleranceBox& box, BendId bend, Side hold, bool after, bool extreme,
                random_states::Dice& dice) {
    Draw draw(dice, extreme);
    Sample sample{part, draw(box.thickness_mm), draw(box.bend_line_mm), 0};
    Part& other = sample.part;
    other.thickness_mm += sample.thickness_more_mm;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const Bend& drawn = part.bends[i];
        Bend& made = other.bends[i];
        const bool in_hand = idAt<BendId>(i) == bend;
        const double angle_more_rad = draw(box.bend_angle.rad());
        const double strip_more_mm =
            stripOf(drawn, part.thickness_mm, sample.thickness_more_mm, angle_more_rad) - drawn.allowance_mm;
        made.allowance_mm += strip_more_mm;
        if (!in_hand || after) {
            made.angle = Angle::radians(drawn.angle.rad() + angle_more_rad);
        } else {
            sample.overbend_more_deg = angle_more_rad * 180 / std::numbers::pi;
        }
        // Whichever side was held: the tangent line of that side was set off by the line's tolerance, the strip went on
        // from it.
        const Side held = in_hand ? hold : kBothSides[static_cast<std::size_t>(dice.below(2))];
        const double line_mm = in_hand ? sample.line_off_mm : draw(box.formedLine_mm(idAt<BendId>(i)));
        made.origin += (held == Side::kParent ? 1.0 : -1.0) * (line_mm + 0.5 * strip_more_mm) * drawn.toward_child;
        const double cut_mm = box.cutting_mm[drawn.parent.index()];
        for (StripSpan& span : made.spans) {
            span.from_mm += draw(cut_mm);
            span.to_mm += draw(cut_mm);
        }
    }
    for (std::size_t i = 0; i < part.panels.size(); ++i) {
        jitter(other.panels[i].region.outline, box.cutting_mm[i], dice);
        for (Polygon& hole : other.panels[i].region.holes) jitter(hole, box.cutting_mm[i], dice);
    }
    return sample;
}

}  // namespace tinwright::deviating
