// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/part_on_brake.h>
#include <tinwright/brake/plan/body_ref.h>
#include <tinwright/part/model/part.h>

namespace tinwright::report {

/// A convex prism with corners in rings that match; in any frame.
struct Slab {
    std::vector<Vec3> lower;
    std::vector<Vec3> upper;
};

/// The prism of a section in (y, z) between two x; and of sections that are moved first.
[[nodiscard]] Slab extruded(const Polygon& section, double from_mm, double to_mm);
[[nodiscard]] std::vector<Slab> extruded(const std::vector<Polygon>& sections, const Vec2& by, double from_mm,
                                         double to_mm);

/// The flat geometry of a part that every drawing starts from, worked out once.
struct PartShapes {
    explicit PartShapes(const PartOnBrake& folded);
    const PartOnBrake& on_brake;
    const Part& part;                                ///< of it
    std::vector<std::vector<Polygon>> panel_pieces;  ///< convex, by panel
};

/// The same of a brake's tools: convex pieces of sections in (y, z), as the brake gives them.
struct ToolShapes {
    explicit ToolShapes(const BrakeInSetup& brake);
    BrakeInSetup brake;
    std::vector<std::vector<Polygon>> bar_pieces;  ///< by kind of bar
    /// Of a body of the machine itself, bed or ram; none where it has no section.
    [[nodiscard]] const std::vector<Polygon>& bodyPieces(BodyRef::Kind body) const;

    /// A piece of tooling where it stands, moved in (y, z); of a punch with a horn what is over the horn is shorter.
    [[nodiscard]] std::vector<Slab> piece(ToolId bar, const Vec2& by, double from_mm, double to_mm) const;

private:
    struct Cut {
        std::vector<Polygon> horn;
        std::vector<Polygon> over_horn;
    };
    std::map<std::size_t, Cut> horned_;  ///< by kind of bar
    std::map<BodyRef::Kind, std::vector<Polygon>> bodies_;
};

}  // namespace tinwright::report
