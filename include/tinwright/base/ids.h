// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>

namespace tinwright {

/// An index that cannot be mistaken for an index into another list.
/// `Tag` is only a name. Ids count from 0 in the order of their list.
template <class Tag>
struct Id {
    std::uint32_t value = 0;
    [[nodiscard]] constexpr std::size_t index() const { return value; }
    friend constexpr auto operator<=>(Id, Id) = default;  // NOLINT(modernize-use-nullptr): taken for a comparison with
                                                          // 0
};

using PanelId = Id<struct PanelTag>;  ///< into Part::panels
using BendId = Id<struct BendTag>;    ///< into Part::bends
using ToolId = Id<struct ToolTag>;    ///< of a Brake: a kind of bar, punch or die, not one piece

/// Makes an id from a list position.
template <class IdType>
[[nodiscard]] constexpr IdType idAt(std::size_t index) {
    return IdType{static_cast<std::uint32_t>(index)};
}

/// A set of bends of one part, bit i standing for BendId{i}. A part has at most 64 bends.
using BendMask = std::uint64_t;
inline constexpr std::size_t kMaxBends = 64;

[[nodiscard]] constexpr BendMask bit(BendId bend) { return BendMask{1} << bend.value; }
[[nodiscard]] constexpr bool contains(BendMask mask, BendId bend) { return (mask & bit(bend)) != 0; }

/// The set of the bends in a list.
template <class Bends>
[[nodiscard]] constexpr BendMask maskOf(const Bends& bends) {
    BendMask mask = 0;
    for (const BendId bend : bends) mask |= bit(bend);
    return mask;
}

}  // namespace tinwright
