// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <string>

#include <tinwright/io/start/start_part.h>

namespace tinwright {

/// Edges of a rectangular base as a recipe names them, round its drawn face.
enum BaseEdge : std::size_t { kFrontEdge, kRightEdge, kBackEdge, kLeftEdge };
inline constexpr std::array<const char*, 4> kBaseEdges{"front", "right", "back", "left"};

/// How the base lies on the component: its drawn face is the inside, so it is seen from the open side.
struct BaseView {
    ComponentSide base;                ///< side of the component that it covers
    std::array<ComponentSide, 4> at;   ///< side of the component at each of its edges
    std::size_t width, depth, height;  ///< which of the component's sizes run along x, along y and up the walls
    std::size_t left, lower;           ///< edges that places of openings are measured from (FacePoint)
};

[[nodiscard]] BaseView baseView(ComponentSide open);

/// The side that stays open: what was chosen, else the shape's usual one.
[[nodiscard]] ComponentSide openSide(const StartChoice& choice);

/// "wall_left": the wall at that side.
[[nodiscard]] std::string wallName(ComponentSide side);

/// Shapes with four walls round a base.
[[nodiscard]] bool isBox(StartShape shape);
/// Those of them that may have tabs.
[[nodiscard]] bool mayHaveTabs(StartShape shape);

}  // namespace tinwright
