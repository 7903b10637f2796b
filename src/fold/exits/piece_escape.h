// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <deque>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include <tinwright/brake/plan/plan.h>

#include "exits/rest_shadows.h"
#include "setup/bar_strings.h"

namespace tinwright {

/// Ways of one loose piece through the free space round the part and the pieces that still stand, without turning it:
/// back or forward, up or down, along the machine, in any order. Along the machine all places are known without steps;
/// y and z are those at which a piece of its section just clears another one or something of the part, which do not
/// hang on where others stand.
class PieceEscape {
public:
    /// `others` stand still, `machine_x` is where pieces may be along x. Nothing may stand over the pieces.
    PieceEscape(const Machine& machine, RestShadows& part, const StandingTool& piece, BarString others,
                Interval machine_x);

    /// Waypoints from where it stands, the last far up or back; none when no way was found. To be asked once.
    [[nodiscard]] std::optional<std::vector<ExitMove::Point>> wayOut();

private:
    using Cell = std::pair<std::size_t, std::size_t>;  // which y, which z
    struct Node {
        Cell cell;
        Interval gap;  // of x
        std::size_t from = 0;
        Interval through;  // of the step that led here
        bool seen = false;
    };
    struct Exit {
        Interval gap;
        Vec2 by;
    };
    [[nodiscard]] Vec2 at(const Cell& cell) const { return Vec2(back_mm_[cell.first], up_mm_[cell.second]); }
    [[nodiscard]] std::vector<Interval> gaps(Vec2 from, Vec2 to);
    [[nodiscard]] std::optional<Exit> exitOf(const Node& node);
    const std::vector<std::size_t>& nodesOf(const Cell& cell);
    void step(std::size_t here, const Cell& to);
    [[nodiscard]] bool meetsOther(std::size_t family, const Vec2& from, const Vec2& to);
    [[nodiscard]] bool sweepsOver(std::size_t family, const Vec2& from, const Vec2& to) const;
    [[nodiscard]] std::vector<ExitMove::Point> pathTo(std::size_t node, const Exit& exit) const;

    const Machine& machine_;
    RestShadows& part_;
    std::size_t family_;
    Interval piece_;
    BarString others_;
    Interval machine_x_;
    std::vector<std::vector<Convex2>> sections_;  // by family
    std::vector<double> back_mm_;                 // ascending, 0 among them
    std::vector<double> up_mm_;
    std::vector<Node> nodes_;
    std::map<Cell, std::vector<std::size_t>> cells_;
    std::deque<std::size_t> open_;
};

}  // namespace tinwright
