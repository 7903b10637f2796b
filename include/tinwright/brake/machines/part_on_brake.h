// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <utility>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// A part as one brake in its set-up folds it, which is not the part as drawn: hems have the angle, the inside radius
/// and the allowance of their first fold, with the strip about the same line, and panels give or take what the strips
/// differ by. What becomes of a bend of it is finished() of that bend, which is the bend as drawn: the finished part
/// and the drawn one are the same. Made by partOnBrake() alone, once for a part and a brake.
class PartOnBrake {
public:
    [[nodiscard]] const Part& part() const { return part_; }
    [[nodiscard]] const Bend& bend(BendId id) const { return part_.bend(id); }

private:
    friend PartOnBrake partOnBrake(const Part& drawn, const Shop& shop, const BrakeInSetup& brake);
    explicit PartOnBrake(Part part) : part_(std::move(part)) {}
    Part part_;
};

/// First folds have the inside radius of the brake in its set-up and take sheet by the rule of their bend. A return
/// that the wider strip would swallow keeps its panel (whyNoHem).
[[nodiscard]] PartOnBrake partOnBrake(const Part& drawn, const Shop& shop, const BrakeInSetup& brake);

}  // namespace tinwright
