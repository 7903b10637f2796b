// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/plan/setup_piece.h>

#include <algorithm>

namespace tinwright {

std::size_t piecesHandled(const std::vector<SetupPiece>& from, const std::vector<SetupPiece>& to) {
    std::vector<SetupPiece> gone = from;
    std::vector<SetupPiece> come;
    for (const SetupPiece& piece : to) {
        const auto same = std::find(gone.begin(), gone.end(), piece);
        same == gone.end() ? come.push_back(piece) : static_cast<void>(gone.erase(same));
    }
    std::size_t shifted = 0;
    for (auto piece = come.begin(); piece != come.end();) {
        const auto same =
            std::find_if(gone.begin(), gone.end(), [&](const SetupPiece& old) { return old.tool == piece->tool; });
        if (same == gone.end()) {
            ++piece;
            continue;
        }
        gone.erase(same);
        piece = come.erase(piece);
        ++shifted;
    }
    return gone.size() + come.size() + shifted;
}

}  // namespace tinwright
