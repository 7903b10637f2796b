// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <vector>

#include <tinwright/base/ids.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/tooling/bar_sums.h>
#include <tinwright/brake/tooling/cover_rules.h>
#include <tinwright/geometry/interval_set.h>

namespace tinwright {

/// A piece and where it stands, in micrometres of fold x.
struct StandingTool {
    ToolId tool;
    Interval at;
    friend bool operator==(const StandingTool&, const StandingTool&) = default;
};
using BarString = std::vector<StandingTool>;

/// Where bars are wanted, and where they may stand.
struct BarRequest {
    std::vector<Interval> needs;  ///< stretches of bend to be covered; ascending, disjoint
    IntervalSet free;             ///< for all the kinds of bar in `allowed`
    std::vector<bool> allowed;    ///< by bar of the brake
};

/// A string that has a punch with a horn at one end or at both: the others are plain pieces.
struct HornedRequest {
    struct End {
        ToolId tool;
        Interval room;  ///< where it may stand
    };
    const std::vector<Interval>* needs;  ///< ascending, disjoint; one string covers them all
    std::optional<End> left, right;      ///< with a horn to the left, and to the right
    Interval room;                       ///< for plain pieces
    std::vector<bool> allowed;           ///< plain pieces, by bar of the brake
};

/// Chooses pieces for stretches of bend: an exact bounded subset sum over the inventory, fewest pieces first.
class BarStrings {
public:
    BarStrings(const BrakeInSetup& brake, const Limits& limits);
    BarStrings(const BarStrings&) = delete;
    BarStrings& operator=(const BarStrings&) = delete;

    /// Calls `accept` on candidate strings, fewest pieces first, until it says yes or `kMaxCandidates` were offered.
    /// True when one was accepted. `offered` counts candidates; `cut_short` is set when more would have followed.
    bool choose(const BarRequest& request, const std::function<bool(const BarString&)>& accept, int& offered,
                bool& cut_short);

    /// The same of strings with horns. Which are tried hangs on the needs alone: less room only takes some of them
    /// away.
    bool chooseHorned(const HornedRequest& request, const std::function<bool(const BarString&)>& accept);

    /// True when bars at these places cover every need within the gap and end limits.
    [[nodiscard]] bool covers(const std::vector<Interval>& needs, const BarString& bars) const;

    static constexpr int kMaxPieces = BarSums::kMaxPieces;
    static constexpr int kMaxCandidates = 60;

private:
    using Counts = ToolCounts;

    /// Of strings of so many pieces at least.
    const BarSums& sumsFor(const Counts& available, int pieces);
    /// Choices worth trying for one stretch alone, best first.
    [[nodiscard]] std::vector<Counts> picks(const BarSums& strings, int pieces, Interval need, Interval free) const;
    /// Every choice, for stretches that share the inventory: what is best for one may leave nothing for another.
    [[nodiscard]] std::vector<Counts> allPicks(const Counts& available, int pieces, Interval need, Interval free,
                                               bool& cut_short) const;
    [[nodiscard]] BarString place(const Counts& counts, Interval need, Interval free) const;  ///< empty: does not fit

    [[nodiscard]] std::vector<Counts> plainPicks(const BarSums& strings, int pieces, Micron ends_um, int horns,
                                                 Interval need) const;
    [[nodiscard]] BarString placeHorned(const HornedRequest& request, const Counts& counts) const;  ///< empty: does not
                                                                                                    ///< fit

    struct Choosing;
    bool chooseNeed(Choosing& choosing, std::size_t stretch, int pieces_left);

    BrakeInSetup brake_;
    CoverRules cover_;
    std::vector<Micron> width_um_;
    std::map<Counts, BarSums> sums_;
    std::map<Counts, BarSums>::iterator last_sums_ = sums_.end();  // asked for last: often again
};

}  // namespace tinwright
