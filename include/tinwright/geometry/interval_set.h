// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

namespace tinwright {

/// A length along the machine in integer micrometres: sums and merges are exact.
using Micron = std::int64_t;

inline constexpr Micron kMicronPerMm = 1000;
/// Further out than any machine or part, with room to add two of them.
inline constexpr Micron kFar = Micron{1} << 50;

/// Rounded down, up, or to nearest; |mm| is clamped to kFar.
[[nodiscard]] Micron micronFloor(double mm);
[[nodiscard]] Micron micronCeil(double mm);
[[nodiscard]] Micron micronNearest(double mm);
[[nodiscard]] constexpr double toMm(Micron micron) { return static_cast<double>(micron) / 1000.0; }

/// Open interval (lo, hi); empty unless lo < hi.
struct Interval {
    Micron lo = 0;
    Micron hi = 0;
    [[nodiscard]] constexpr bool empty() const { return lo >= hi; }
    [[nodiscard]] constexpr Micron length() const { return empty() ? 0 : hi - lo; }
    friend constexpr bool operator==(Interval, Interval) = default;
};

/// A union of disjoint open intervals in ascending order. Two that touch at one point are merged.
class IntervalSet {
public:
    IntervalSet() = default;
    explicit IntervalSet(Interval interval) { add(interval); }

    void add(Interval interval);
    void add(const IntervalSet& other) { addShifted(other, 0); }
    void addShifted(const IntervalSet& other, Micron by);
    void subtract(const IntervalSet& other);
    [[nodiscard]] IntervalSet intersect(const IntervalSet& other) const;
    /// What of `within` this set leaves free.
    [[nodiscard]] IntervalSet gapsIn(Interval within) const;
    /// Every interval made wider by `by` on both sides (narrower when negative; empty ones go).
    [[nodiscard]] IntervalSet grown(Micron by) const;
    [[nodiscard]] IntervalSet shifted(Micron by) const;
    [[nodiscard]] bool meets(Interval interval) const;
    [[nodiscard]] bool covers(Interval interval) const;
    [[nodiscard]] bool empty() const { return items_.empty(); }
    [[nodiscard]] Micron length() const;
    [[nodiscard]] const std::vector<Interval>& items() const& { return items_; }
    const std::vector<Interval>& items() && = delete;  // a loop over a temporary's items would dangle
    friend bool operator==(const IntervalSet&, const IntervalSet&) = default;

private:
    std::vector<Interval> items_;
};

}  // namespace tinwright
