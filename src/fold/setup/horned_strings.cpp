// SPDX-License-Identifier: GPL-3.0-or-later
// Strings of punches with a horn at one end or at both: BarStrings::chooseHorned.
#include <algorithm>

#include "setup/bar_strings.h"

namespace tinwright {

// For a number of plain pieces: the shortest string that covers all, the two next shorter, and the two shortest that
// will do.
std::vector<BarStrings::Counts> BarStrings::plainPicks(const BarSums& strings, int pieces, Micron ends_um, int horns,
                                                       Interval need) const {
    const auto& sums = strings.of(pieces);
    const auto first = sums.lower_bound(cover_.leastSum_um(pieces + horns, need.length()) - ends_um);
    const auto full = sums.lower_bound(need.length() - ends_um);
    std::vector<Counts> result;
    if (full != sums.end()) result.push_back(full->second);
    const auto shorter = std::distance(first, full);
    for (std::ptrdiff_t k = 1; k <= shorter; ++k) {
        if (k <= 2 || k > shorter - 2) result.push_back(std::prev(full, k)->second);
    }
    return result;
}

// With the gap that the need asks for, every piece keeps its string from starting too far to the left and to the right.
BarString BarStrings::placeHorned(const HornedRequest& request, const Counts& counts) const {
    struct Piece {
        ToolId tool;
        Interval room;
    };
    std::vector<Piece> pieces;
    for (std::size_t bar = 0; bar < counts.size(); ++bar)
        pieces.insert(pieces.end(), counts[bar], Piece{idAt<ToolId>(bar), request.room});
    const auto width = [&](const Piece& piece) { return width_um_[piece.tool.index()]; };
    std::stable_sort(pieces.begin(), pieces.end(), [&](const Piece& a, const Piece& b) { return width(a) > width(b); });
    if (request.left) pieces.insert(pieces.begin(), Piece{request.left->tool, request.left->room});
    if (request.right) pieces.push_back({request.right->tool, request.right->room});

    const Interval need{request.needs->front().lo, request.needs->back().hi};
    Micron total = 0;
    for (const Piece& piece : pieces) total += width(piece);
    const auto between = static_cast<Micron>(pieces.size()) - 1;
    const Micron missing = cover_.missing_um(need.length(), total);
    const Micron gap = between > 0 ? (missing + between - 1) / between : 0;
    total += gap * between;
    Interval start{need.hi - cover_.end_um - total, need.lo + cover_.end_um};
    Micron offset = 0;
    for (const Piece& piece : pieces) {
        start.lo = std::max(start.lo, piece.room.lo - offset);
        start.hi = std::min(start.hi, piece.room.hi - offset - width(piece));
        offset += width(piece) + gap;
    }
    if (start.lo > start.hi) return {};
    BarString bars;
    Micron at = std::clamp((need.lo + need.hi - total) / 2, start.lo, start.hi);
    for (const Piece& piece : pieces) {
        bars.push_back({piece.tool, {at, at + width(piece)}});
        at += width(piece) + gap;
    }
    return bars;
}

bool BarStrings::chooseHorned(const HornedRequest& request, const std::function<bool(const BarString&)>& accept) {
    const Interval need{request.needs->front().lo, request.needs->back().hi};
    Counts available(width_um_.size(), 0);
    for (std::size_t i = 0; i < width_um_.size(); ++i) {
        if (request.allowed[i])
            available[i] = static_cast<std::uint16_t>(std::clamp(brake_->tool(idAt<ToolId>(i)).count, 0, kMaxPieces));
    }
    const int horns = (request.left ? 1 : 0) + (request.right ? 1 : 0);
    const Micron ends_um = (request.left ? width_um_[request.left->tool.index()] : 0) +
                           (request.right ? width_um_[request.right->tool.index()] : 0);
    for (int pieces = 0; pieces + horns <= kMaxPieces; ++pieces) {
        for (const Counts& counts : plainPicks(sumsFor(available, pieces), pieces, ends_um, horns, need)) {
            const BarString bars = placeHorned(request, counts);
            if (!bars.empty() && covers(*request.needs, bars) && accept(bars)) return true;
        }
    }
    return false;
}

}  // namespace tinwright
