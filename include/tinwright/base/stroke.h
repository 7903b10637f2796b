// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>

#include <tinwright/base/ids.h>

namespace tinwright {

/// A side of a bend: the panel nearer to the base of the part, and the one further from it. Of a stroke: which of them
/// is held, under the bar, or at the back of a press brake, towards the gauge.
enum class Side : std::uint8_t { kParent, kChild };
inline constexpr std::array<Side, 2> kBothSides{Side::kParent, Side::kChild};

[[nodiscard]] constexpr Side opposite(Side side) { return side == Side::kParent ? Side::kChild : Side::kParent; }

/// A place in tables that have one for each side of each bend.
[[nodiscard]] constexpr std::size_t slotOf(BendId bend, Side side) {
    return 2 * bend.index() + static_cast<std::size_t>(side);
}

/// One motion of the machine in one state: bends that lie on one line there, pressed together, and how they are held.
struct Stroke {
    BendMask bends = 0;         ///< never empty
    Side hold = Side::kParent;  ///< of the first bend; the state then settles it for the others
    [[nodiscard]] constexpr BendId first() const { return firstBend(bends); }
    /// By bends, then by the side held.
    friend constexpr auto operator<=>(const Stroke&, const Stroke&) = default;
};

enum class StrokeAnswer : std::uint8_t { kPossible, kImpossible, kUndecided };

}  // namespace tinwright
