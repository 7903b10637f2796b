// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

#include <tinwright/base/ids.h>
#include <tinwright/geometry/interval_set.h>

namespace tinwright {

/// A piece standing on the machine, in micrometres of machine x.
struct SetupPiece {
    ToolId tool;
    Interval at;
    friend bool operator==(const SetupPiece&, const SetupPiece&) = default;
};

/// Pieces to put in, to take out and to shift, from what stands to what is to stand. What stays where it is counts for
/// nothing; a piece that is only shifted counts once.
[[nodiscard]] std::size_t piecesHandled(const std::vector<SetupPiece>& from, const std::vector<SetupPiece>& to);

}  // namespace tinwright
