// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <bit>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <vector>

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

/// The bend of a set that comes first. Precondition: the set is not empty.
[[nodiscard]] constexpr BendId firstBend(BendMask mask) {
    return BendId{static_cast<std::uint32_t>(std::countr_zero(mask))};
}

[[nodiscard]] constexpr std::size_t countBends(BendMask mask) { return static_cast<std::size_t>(std::popcount(mask)); }

/// The bends of a set, ascending, for a range-based loop: `for (const BendId bend : bendsIn(mask))`.
class BendsIn {
public:
    class Iterator {
    public:
        // Names that the standard library asks for.
        using value_type = BendId;               // NOLINT(readability-identifier-naming)
        using difference_type = std::ptrdiff_t;  // NOLINT(readability-identifier-naming)
        constexpr Iterator() = default;
        constexpr explicit Iterator(BendMask rest) : rest_(rest) {}
        constexpr BendId operator*() const { return firstBend(rest_); }
        constexpr Iterator& operator++() {
            rest_ &= rest_ - 1;
            return *this;
        }
        constexpr Iterator operator++(int) {
            const Iterator before = *this;
            ++*this;
            return before;
        }
        friend constexpr bool operator==(Iterator, Iterator) = default;

    private:
        BendMask rest_ = 0;
    };
    constexpr explicit BendsIn(BendMask mask) : mask_(mask) {}
    [[nodiscard]] constexpr Iterator begin() const { return Iterator(mask_); }
    [[nodiscard]] constexpr Iterator end() const { return Iterator(); }

private:
    BendMask mask_;
};
[[nodiscard]] constexpr BendsIn bendsIn(BendMask mask) { return BendsIn(mask); }

/// The same as a list.
[[nodiscard]] inline std::vector<BendId> bendList(BendMask mask) {
    std::vector<BendId> list;
    list.reserve(countBends(mask));
    for (const BendId bend : bendsIn(mask)) list.push_back(bend);
    return list;
}

}  // namespace tinwright
