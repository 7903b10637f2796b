// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <deque>
#include <map>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "exits/escape_plane.h"

namespace tinwright {

/// Stretches of y, or of tilt, from the start outwards: so many fine ones, as many twice as long, then coarse ones up
/// to the reach.
struct EscapeSteps {
    double fine = 0;
    int fine_count = 0;
    double coarse = 0;
    double reach = 0;
    /// How far from the start the nth one begins, n >= 0.
    [[nodiscard]] double at(int n) const {
        const int twice = std::clamp(n - fine_count, 0, fine_count);
        const int rest = std::max(0, n - 2 * fine_count);
        return (std::min(n, fine_count) + 2 * twice) * fine + rest * coarse;
    }
};

/// How finely y and tilt are looked at, and after how many rooms a search is given up.
struct EscapeGrid {
    EscapeSteps y_mm;
    EscapeSteps tilt_deg;
    std::size_t most_rooms = 0;
};

/// Where a body is on its way: its pivot from where that was at the start, its height over the upper row's rise, its
/// tilt.
struct EscapePlace {
    double y_mm = 0;
    double z_mm = 0;
    double w_mm = 0;  ///< z less the rise of the upper row
    double tilt_deg = 0;
    [[nodiscard]] double raised_mm() const { return z_mm - w_mm; }
};

/// Breadth first from room to room. A room belongs to one tilt and one stretch of y (a column); neighbours are rooms
/// beside it that share heights at the line between the columns, and rooms of the next tilt that are reached by turning
/// at the spot. The start's own y is a column without width, since a body may begin with no room beside it.
class EscapeSearch {
public:
    EscapeSearch(const std::vector<EscapePair>& pairs, const Vec2& pivot, const UpperTravel& travel,
                 const EscapeGrid& grid)
        : pairs_(pairs), pivot_(pivot), travel_(travel), grid_(grid) {}

    /// Straight from each place to the next is free, and from the last one straight forward or, if it may, up, by
    /// PlanarEscape::kOut_mm, which is told as the last place. None when no way was found.
    [[nodiscard]] std::optional<std::vector<EscapePlace>> wayOut(bool may_go_up);

private:
    using Cell = std::pair<int, int>;  // tilt, column
    struct Node {
        Cell cell;
        FreeRoom room;
        std::size_t from = 0;
        bool seen = false;
    };
    struct Exit {
        FreeRoom room;
        Vec2 by;
    };
    [[nodiscard]] Span columnOf(int column) const;
    [[nodiscard]] double tiltOf_deg(int tilt) const;
    [[nodiscard]] bool within(const Cell& cell) const;
    [[nodiscard]] const EscapePlane& plane(int half_tilts);
    [[nodiscard]] std::vector<FreeRoom> roomsAt(int half_tilts, int column);
    /// The same for a half tilt between two, kept: asked from both, and from every room there.
    const std::vector<FreeRoom>& turningAt(int half_tilts, int column);
    [[nodiscard]] const std::vector<std::size_t>& nodesOf(const Cell& cell);
    [[nodiscard]] std::optional<std::size_t> start();
    [[nodiscard]] std::optional<Exit> exitOf(const Node& node, bool may_go_up);
    void visitBeside(std::size_t here, int by);
    void visitTilted(std::size_t here, int by);
    void visit(std::size_t node, std::size_t from);
    [[nodiscard]] std::vector<EscapePlace> placesTo(std::size_t node, const Exit& exit);
    void passOn(const Node& from, const Node& to, std::vector<EscapePlace>& places);
    [[nodiscard]] EscapePlace into(const FreeRoom& room, EscapePlace place) const;

    const std::vector<EscapePair>& pairs_;
    Vec2 pivot_;
    UpperTravel travel_;
    EscapeGrid grid_;
    std::map<int, std::unique_ptr<EscapePlane>> planes_;  // by half steps of tilt: odd ones turn from one to the next
    std::map<Cell, std::vector<std::size_t>> cells_;
    std::map<Cell, std::vector<FreeRoom>> turning_;  // by half tilt and column
    std::deque<Node> nodes_;
    std::deque<std::size_t> open_;
    std::size_t rooms_seen_ = 0;
};

}  // namespace tinwright
