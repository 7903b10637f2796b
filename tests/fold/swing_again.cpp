// SPDX-License-Identifier: GPL-3.0-or-later
#include "swing_again.h"

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>

namespace tinwright::oracle {

namespace {

constexpr double kSliver_mm = 2e-3;  // fold x is rounded to micrometres

struct Standing {
    Section section;
    double x0, x1;
};

Section shrunk(const std::vector<Region>& regions) {
    Section section;
    for (const Region& region : regions) {
        for (Polygon& piece : fitted(region, Fit::kShrunk)) section.push_back(std::move(piece));
    }
    return section;
}

// Everything that stands still, in the frame of the bend.
std::vector<Standing> standing(const SwingAgain& again, double bend_x_mm) {
    const BrakeInSetup& brake = again.brake;
    const double t = again.part.thickness_mm;
    const double end = brake->length_mm + bend_x_mm;
    std::vector<Standing> bodies{{shrunk({bedSectionOf(brake)}), bend_x_mm, end}};
    if (brake->leaf().beam) bodies.push_back({shrunk({beamSectionOf(brake, t)}), bend_x_mm, end});
    for (const SetupPiece& piece : again.result.setup.pieces) {
        const Bar& bar = *brake->bar(piece.tool);
        const Region region = barSectionOf(bar, t);
        const double level = t + (bar.end_relief_mm > 0 ? bar.end_relief_height_mm : -1000.0);
        const double x0 = toMm(piece.at.lo) + bend_x_mm;
        const double x1 = toMm(piece.at.hi) + bend_x_mm;
        bodies.push_back({shrunk(cut(region, level, 1000)), x0, x1});
        if (bar.end_relief_mm <= 0) continue;
        bodies.push_back({shrunk(cut(region, -1000, level)), x0 + bar.end_relief_mm, x1 - bar.end_relief_mm});
    }
    return bodies;
}

}  // namespace

std::string firstHit(const SwingAgain& again) {
    const double bend_x_mm = again.least_strip_mm - toMm(again.result.part_x_um);  // machine x = 0 in the frame of the
                                                                                   // bend
    const std::vector<Standing> bodies = standing(again, bend_x_mm);
    const LeafFace& face = again.brake->leaf().leaf_faces[again.result.setup.face];
    const LeafModel& stroke = again.stroke;
    const auto& pieces = stroke.pieces();
    for (const Forming forming : again.formings) {
        for (std::size_t g = 0; g < pieces.size(); ++g) {
            for (std::size_t b = 0; b < bodies.size(); ++b) {
                if (stroke.meetsStill(pieces[g], false, bodies[b].section, bodies[b].x0 + kSliver_mm,
                                      bodies[b].x1 - kSliver_mm, forming, again.step_rad) >= 0) {
                    return fmt::format("group {} hits body {}, uniform share {}", g, b, forming.uniform_share);
                }
            }
            const double x0 = bend_x_mm + kSliver_mm;
            if (stroke.meetsLeaf(pieces[g], face, Fit::kShrunk, x0, x0 + again.brake->length_mm - 2 * kSliver_mm,
                                 forming, again.step_rad) >= 0) {
                return fmt::format("group {} hits the leaf, uniform share {}", g, forming.uniform_share);
            }
            for (std::size_t h = 0; h < pieces.size(); ++h) {
                if (!pieces[g].moving || pieces[h].moving || (again.skip && again.skip(g, h))) continue;
                if (stroke.meetsHeld(pieces[g], true, pieces[h], forming, again.step_rad) >= 0)
                    return fmt::format("group {} hits group {}", g, h);
            }
        }
    }
    return {};
}

}  // namespace tinwright::oracle
