// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "paper/drawing.h"

namespace tinwright::report {

/// Where a point of a plane of the model (mm, second axis up) comes on paper.
struct PaperView {
    Vec2 model = Vec2::Zero();  ///< this point of the model ...
    Vec2 paper = Vec2::Zero();  ///< ... comes here
    double scale = 1;
    bool mirrored = false;  ///< left and right exchanged: the sheet seen from its other face

    [[nodiscard]] Vec2 operator()(const Vec2& point) const {
        const Vec2 d = scale * (point - model);
        return paper + Vec2(mirrored ? -d.x() : d.x(), -d.y());
    }
    [[nodiscard]] Polygon operator()(const Polygon& ring) const;
    [[nodiscard]] Region operator()(const Region& region) const;
    /// The same turned to paper as a direction.
    [[nodiscard]] Vec2 direction(const Vec2& d) const { return {mirrored ? -d.x() : d.x(), -d.y()}; }
};

/// The largest drawing scale of a short list at which a thing of this size fits into the room.
[[nodiscard]] double usualScale(const Vec2& size_mm, const Vec2& room_mm);
/// "1:2", "2:1".
[[nodiscard]] std::string scaleText(double scale);

/// The box round points; an empty list gives a point at the origin.
[[nodiscard]] Box boxAround(const std::vector<Vec2>& points);

/// A view that puts the middle of `model` into the middle of `paper`.
[[nodiscard]] PaperView centredView(const Box& model, const Box& paper, double scale, bool mirrored = false);

}  // namespace tinwright::report
