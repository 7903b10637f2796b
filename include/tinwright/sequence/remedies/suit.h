// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/tooling/bar_fit.h>
#include <tinwright/sequence/plan/planner.h>

namespace tinwright {

/// A dimension that may be changed.
struct Tweakable {
    std::string name;
    double value_mm = 0;
    double least_mm = 0;  ///< how far it may go; both ends included
    double most_mm = 0;
};

struct DimensionValue {
    std::size_t dimension = 0;  ///< of TweakedPart
    double value_mm = 0;
};

/// A part and its changed versions. The part keeps its panels and bends whatever the values.
struct TweakedPart {
    std::vector<Tweakable> dimensions;
    std::function<Result<Part>(const std::vector<DimensionValue>& values)> with;  ///< issues: it cannot be made like
                                                                                  ///< that
};

/// How well a part goes, the better the greater.
enum class SuitLevel { kNoOrder, kWithTrouble, kTightly, kComfortably };

/// What planning a version of the part came to, as far as suiting it needs.
struct Suitability {
    Verdict verdict = Verdict::kUndecided;
    Spoils spoils;  ///< by the best order
    bool tight = false;
    std::size_t bars = 0;    ///< pieces standing, added up over the folds of the best order
    double least_cover = 0;  ///< of any fold of it, 0..1
    double worst_clearance_mm = 0;
    std::optional<long long> cost_ms;  ///< of the best order, when it is known to be the best
    std::string orders_feasible;       ///< decimal; empty: unknown
    std::string orders_total;
    std::vector<Reason> reasons;  ///< when no order works

    [[nodiscard]] SuitLevel level() const {
        if (!goes(verdict)) return SuitLevel::kNoOrder;
        if (verdict == Verdict::kWithTrouble) return SuitLevel::kWithTrouble;
        return tight ? SuitLevel::kTightly : SuitLevel::kComfortably;
    }
    [[nodiscard]] bool works() const { return level() != SuitLevel::kNoOrder; }
};
[[nodiscard]] Suitability suitabilityOf(const BrakeResult& result);

enum class Gain {
    kGoes,         ///< an order works, where none did
    kCleanly,      ///< and spoils nothing, where it did or did not go
    kComfortable,  ///< and with the wanted clearance, where it was tight or did not go
    kFewerBars,    ///< fewer pieces over all folds
    kBetterCover,  ///< the least cover of any fold grows by kCoverStep at least
};

/// A change of one dimension that was planned and found to help: on its side of what is drawn, the nearest value on the
/// grid with one of its gains.
struct Suggestion {
    std::size_t dimension = 0;  ///< of TweakedPart
    double from_mm = 0;
    double to_mm = 0;
    std::vector<Gain> gains;
    Suitability result;
};

/// A bar that the shop lacks, with which the part goes as it is; planned with it before it is told.
struct WantedBar {
    double width_mm = 0;
    std::string like;  ///< the bar whose section it has
    double clamp_depth_mm = 0;
    double between_mm = 0;  ///< the inside width that it is for
    Suitability result;
};

struct SuitOptions {
    double step_mm = 0.1;      ///< values are multiples of this
    double time_limit_s = 60;  ///< for each plan
    std::uint64_t max_states = 12'000;
    BendMask formed = 0;
    bool robust = false;                  ///< as PlanOptions::robust
    const Material* material = nullptr;   ///< as PlanOptions::material
    std::optional<Suitability> as_drawn;  ///< when it is known already
    bool verdict_only = false;   ///< whether a version goes is all that is asked: bars and cover are of an order found
                                 ///< quickly
    bool past_limits = true;     ///< when nothing within them helps: the nearest past them, and a bar more
    std::uint64_t max_work = 0;  ///< planWork() of all plans together; 0: no limit. Past it what was found is told
};

/// What a plan took, in one number: folds placed, places of panels and strips looked at, and pairs of those.
[[nodiscard]] std::uint64_t planWork(const SearchWork& work);

struct SuitResult {
    Suitability as_drawn;
    std::vector<Suggestion> suggestions;  ///< by gain, then by how little changes
    std::optional<Suggestion> beyond;     ///< none within the limits of change: the nearest past them
    std::optional<WantedBar> bar;         ///< looked for when no suggestion makes it go
    /// Values within the limits with which it still does not go, but for other reasons than as drawn: what a second
    /// change may help.
    std::vector<Suggestion> other_reasons;
    std::size_t plans_made = 0;
    std::uint64_t work = 0;
    bool cut_short = false;  ///< max_work was spent
};

/// Growth of the least cover that counts as a gain.
inline constexpr double kCoverStep = 0.05;

/// Looks for dimensions that make the part suit the bars of one brake, up and down from what is drawn. Values at which
/// a string just comes between two walls, or just covers a bend, are planned one by one from the nearest on; from the
/// first that gains the way back is searched for the nearest value that still does.
[[nodiscard]] SuitResult suit(const Part& part, const TweakedPart& tweaks, const Shop& shop, const BrakeInSetup& brake,
                              const SuitOptions& options);

}  // namespace tinwright
