// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/made/put_right.h>

#include <algorithm>
#include <cmath>

#include <tinwright/part/made/move_bend.h>

namespace tinwright {

namespace {

constexpr double kSameMove_mm = 1e-6;

struct End {
    BendId bend;
    Side side;  // of the panel
};

std::vector<End> endsOf(const Part& part, const FinishedSize& size) {
    std::vector<End> ends{{size.bend, size.side}};
    if (size.end.bend)
        ends.push_back(
            {*size.end.bend, part.bend(*size.end.bend).child == size.end.beyond ? Side::kParent : Side::kChild});
    return ends;
}

}  // namespace

std::vector<LineMove> linesToMove(const Part& drawn, const Part& now, const std::vector<SizeChange>& changes,
                                  BendMask formed, double inside_radius_mm) {
    std::vector<LineMove> moves;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        for (const End& end : endsOf(now, changes[i].now)) {
            if (contains(formed, end.bend) || !isWorthMoving(changes[i])) continue;
            // Away from the panel the line makes it longer.
            const double by_mm = end.side == Side::kParent ? -changes[i].by_mm() : changes[i].by_mm();
            const auto known = std::find_if(moves.begin(), moves.end(), [&](const LineMove& move) {
                return move.bend == end.bend && std::abs(move.toward_child_mm - by_mm) < kSameMove_mm;
            });
            if (known != moves.end()) {
                known->puts_right.push_back(i);
                continue;
            }
            Result<Part> moved = withBendMoved(now, lineMove(now, end.bend, by_mm));
            if (!moved) continue;
            LineMove move{{i}, end.bend, by_mm, std::move(moved).value(), {}};
            move.left = sizeChanges(drawn, move.part, inside_radius_mm);
            moves.push_back(std::move(move));
        }
    }
    return moves;
}

}  // namespace tinwright
