// SPDX-License-Identifier: GPL-3.0-or-later
#include "setup/bar_strings.h"

#include <algorithm>

#include <tinwright/base/contract.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

namespace tinwright {

namespace {

constexpr std::size_t kMaxPicks = 500;  // for one of several stretches
constexpr int kFewPieces = 4;           // of most strings: longer ones have many more sums

}  // namespace

// Needs that fall into one free stretch are spanned by one string.
struct BarStrings::Choosing {
    const BarRequest* request;
    const std::function<bool(const BarString&)>* accept;
    std::vector<std::pair<Interval, Interval>> stretches;  // need, free
    Counts available;
    BarString bars;
    int offered = 0;
    bool cut_short = false;
};

BarStrings::BarStrings(const BrakeInSetup& brake, const Limits& limits)
    : brake_(brake), cover_(limits), width_um_(toolWidths_um(*brake)) {}

const BarSums& BarStrings::sumsFor(const Counts& available, int pieces) {
    if (last_sums_ == sums_.end() || last_sums_->first != available) last_sums_ = sums_.find(available);
    if (last_sums_ == sums_.end() || last_sums_->second.mostPieces() < pieces) {
        const int most_pieces = pieces <= kFewPieces ? kFewPieces : kMaxPieces;
        last_sums_ = sums_.insert_or_assign(available, BarSums(width_um_, available, most_pieces)).first;
    }
    return last_sums_->second;
}

std::vector<BarStrings::Counts> BarStrings::picks(const BarSums& strings, int pieces, Interval need,
                                                  Interval free) const {
    const auto& sums = strings.of(pieces);
    const Micron least = cover_.leastSum_um(pieces, need.length());
    const Micron most = free.length();
    std::vector<Counts> result;
    const auto full = sums.lower_bound(need.length());  // the shortest that covers all
    if (full != sums.end() && full->first <= most) result.push_back(full->second);
    auto longest = sums.upper_bound(std::min(most, need.length() - 1));
    for (int k = 0; k < 2 && longest != sums.begin(); ++k) {
        --longest;
        if (longest->first >= least) result.push_back(longest->second);
    }
    return result;
}

std::vector<BarStrings::Counts> BarStrings::allPicks(const Counts& available, int pieces, Interval need, Interval free,
                                                     bool& cut_short) const {
    std::vector<std::pair<Micron, Counts>> found;
    Counts counts(width_um_.size(), 0);
    const auto extend = [&](const auto& self, std::size_t bar, int left, Micron sum) -> void {
        if (sum > free.length() || found.size() >= kMaxPicks) return;
        if (left == 0) {
            if (sum >= cover_.leastSum_um(pieces, need.length())) found.emplace_back(sum, counts);
            return;
        }
        if (bar == width_um_.size()) return;
        for (int k = std::min<int>(left, available[bar]); k >= 0; --k) {
            counts[bar] = static_cast<std::uint16_t>(k);
            self(self, bar + 1, left - k, sum + k * width_um_[bar]);
        }
        counts[bar] = 0;
    };
    extend(extend, 0, pieces, 0);
    cut_short = cut_short || found.size() >= kMaxPicks;
    // what covers all first, shortest first; then the longest
    std::stable_sort(found.begin(), found.end(), [&](const auto& a, const auto& b) {
        const bool full_a = a.first >= need.length();
        const bool full_b = b.first >= need.length();
        if (full_a != full_b) return full_a;
        return full_a ? a.first < b.first : a.first > b.first;
    });
    std::vector<Counts> result;
    for (auto& [sum, choice] : found) result.push_back(std::move(choice));
    return result;
}

BarString BarStrings::place(const Counts& counts, Interval need, Interval free) const {
    BarString bars;
    Micron width = 0;
    for (std::size_t bar = 0; bar < counts.size(); ++bar) {
        for (int k = 0; k < counts[bar]; ++k) bars.push_back({idAt<ToolId>(bar), {}}), width += width_um_[bar];
    }
    // Widest first: a fixed order, and the short ones, which are the easiest to take out, end up side by side.
    std::stable_sort(bars.begin(), bars.end(), [&](const StandingTool& a, const StandingTool& b) {
        return width_um_[a.tool.index()] > width_um_[b.tool.index()];
    });
    const Micron between = static_cast<Micron>(bars.size()) - 1;
    const Micron missing = cover_.missing_um(need.length(), width);
    const Micron gap = between > 0 ? (missing + between - 1) / between : 0;
    const Micron total = width + gap * between;
    if (total > free.length()) return {};
    // Centred on the need, or in the free stretch when that holds it closely; always within both rules.
    const bool close = free.length() - need.length() < 40 * kMicronPerMm;
    Micron start = close ? (free.lo + free.hi - total) / 2 : (need.lo + need.hi - total) / 2;
    start = std::clamp(start, std::min(need.hi - cover_.end_um - total, need.lo + cover_.end_um),
                       std::max(need.hi - cover_.end_um - total, need.lo + cover_.end_um));
    start = std::clamp(start, free.lo, std::max(free.lo, free.hi - total));
    for (StandingTool& bar : bars) {
        bar.at = {start, start + width_um_[bar.tool.index()]};
        start = bar.at.hi + gap;
    }
    return bars;
}

bool BarStrings::covers(const std::vector<Interval>& needs, const BarString& bars) const {
    IntervalSet closed;  // bars, with allowed gaps between them closed up
    for (std::size_t i = 0; i < bars.size(); ++i) {
        closed.add(bars[i].at);
        if (i > 0 && bars[i].at.lo - bars[i - 1].at.hi <= cover_.gap_um)
            closed.add(Interval{bars[i - 1].at.lo, bars[i].at.hi});
    }
    return std::all_of(needs.begin(), needs.end(), [&](const Interval& need) {
        if (need.length() <= 2 * cover_.end_um) return closed.meets(need);
        return closed.covers(Interval{need.lo + cover_.end_um, need.hi - cover_.end_um});
    });
}

bool BarStrings::chooseNeed(Choosing& choosing, std::size_t stretch, int pieces_left) {
    if (stretch == choosing.stretches.size()) {
        if (pieces_left != 0) return false;  // met at a smaller number of pieces already
        if (!covers(choosing.request->needs, choosing.bars)) return false;
        TINWRIGHT_REQUIRE(std::all_of(choosing.bars.begin(), choosing.bars.end(),
                                      [&](const StandingTool& bar) { return choosing.request->free.covers(bar.at); }),
                          "bars stand where they are free");
        if (choosing.offered >= kMaxCandidates) {
            choosing.cut_short = true;
            return true;
        }
        ++choosing.offered;
        return (*choosing.accept)(choosing.bars);
    }
    const auto [need, free] = choosing.stretches[stretch];
    const int rest = static_cast<int>(choosing.stretches.size() - stretch) - 1;
    for (int pieces = 1; pieces + rest <= pieces_left; ++pieces) {
        const std::vector<Counts> choices = choosing.stretches.size() == 1
                                                ? picks(sumsFor(choosing.available, pieces), pieces, need, free)
                                                : allPicks(choosing.available, pieces, need, free, choosing.cut_short);
        for (const Counts& counts : choices) {
            const BarString placed = place(counts, need, free);
            if (placed.empty()) continue;
            const std::size_t before = choosing.bars.size();
            choosing.bars.insert(choosing.bars.end(), placed.begin(), placed.end());
            for (std::size_t i = 0; i < counts.size(); ++i)
                choosing.available[i] = static_cast<std::uint16_t>(choosing.available[i] - counts[i]);
            const bool stop = chooseNeed(choosing, stretch + 1, pieces_left - pieces);
            if (stop) return true;
            choosing.bars.resize(before);
            for (std::size_t i = 0; i < counts.size(); ++i)
                choosing.available[i] = static_cast<std::uint16_t>(choosing.available[i] + counts[i]);
        }
    }
    return false;
}

bool BarStrings::choose(const BarRequest& request, const std::function<bool(const BarString&)>& accept, int& offered,
                        bool& cut_short) {
    Choosing choosing{&request, &accept, {}, Counts(width_um_.size(), 0), {}, 0, false};
    for (std::size_t i = 0; i < width_um_.size(); ++i) {
        if (request.allowed[i])
            choosing.available[i] =
                static_cast<std::uint16_t>(std::clamp(brake_->tool(idAt<ToolId>(i)).count, 0, kMaxPieces));
    }
    for (const Interval& need : request.needs) {
        const Micron middle = (need.lo + need.hi) / 2;
        const auto home = std::find_if(request.free.items().begin(), request.free.items().end(),
                                       [&](const Interval& free) { return free.lo < middle && middle < free.hi; });
        if (home == request.free.items().end()) return false;
        if (!choosing.stretches.empty() && choosing.stretches.back().second == *home) {
            choosing.stretches.back().first.hi = need.hi;
        } else {
            choosing.stretches.emplace_back(need, *home);
        }
    }
    bool accepted = false;
    for (int pieces = static_cast<int>(choosing.stretches.size()); pieces <= kMaxPieces && !accepted; ++pieces) {
        accepted = chooseNeed(choosing, 0, pieces);
    }
    offered += choosing.offered;
    cut_short = cut_short || choosing.cut_short;
    return accepted && !choosing.cut_short;
}

}  // namespace tinwright
