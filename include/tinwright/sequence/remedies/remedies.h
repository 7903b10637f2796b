// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/forming/rules/finding.h>
#include <tinwright/part/edges/split.h>
#include <tinwright/part/model/part.h>
#include <tinwright/sequence/remedies/suit.h>

/// What would lift it, when a part does not go on a brake, or only with trouble, tightly or with poor cover: remedies
/// of several kinds, side by side.
///
///     const Remedies remedies = findRemedies(part, tweaks, shop, brake, planOnBrake(part, shop, brake, {}), {});
///     for (const Remedy& remedy : remedies.list) ...
///
/// Each has been planned again as it is told.
namespace tinwright {

/// Under this share of a bend under bars its cover is called poor (common practice asks for most of it).
inline constexpr double kPoorCover = 0.75;

enum class RemedyKind {
    kOtherBrake,     ///< another brake of the shop
    kCutOut,         ///< what spoils is cured at its cut-out: moved, narrowed, bridged by tabs, or cut after folding
    kDimension,      ///< one dimension changed
    kTwoDimensions,  ///< two together, when no single one does it
    kOpenCorners,    ///< flanges cut back, or slanted at one end, where they are in the way of one another while they
                     ///< swing; the corners are welded
    kBar,            ///< bars that the shop lacks: bought, or milled from bar stock
    kWeldedBend,     ///< a flange cut as a piece of its own and welded on
};

/// A flange cut back at one end of its bend, or slanted there: by the least that goes.
struct OpenedCorner {
    BendId bend;
    SpanEnd end = SpanEnd::kFrom;
    PanelId beside;        ///< the panel at that corner
    double by_mm = 0;      ///< 0: slanted
    double slant_deg = 0;  ///< leaning in from square; 0: cut back
    double weld_mm = 0;    ///< length of the seam in the folded part
    double gap_mm = 0;     ///< widest there
};

/// Two flanges, one of which stands in the way of the other as it swings, or of the leaf that swings it.
struct MeetingFlanges {
    PanelId one, other;
};
/// None when the reason is another, or names a panel that is no flange.
[[nodiscard]] std::optional<MeetingFlanges> meetingFlanges(const Part& part, const Reason& reason);

/// One piece of a bar as it would have to be.
struct NewBar {
    std::string like;  ///< the bar of the brake whose nose it has
    double width_mm = 0;
    double depth_mm = 0;   ///< clamp depth, at most
    double height_mm = 0;  ///< at most
    bool milled = false;   ///< shallower or lower than that bar
};

/// A bend that is not made.
struct WeldedBend {
    BendId bend;
    double weld_mm = 0;
    std::size_t piece_bends = 0;  ///< that the piece which is cut off has itself; it was planned on the same brake
};

struct DimensionChangeTo {
    std::size_t dimension = 0;  ///< of TweakedPart
    double from_mm = 0;
    double to_mm = 0;
};

/// One remedy; what belongs to its kind is filled in.
struct Remedy {
    RemedyKind kind = RemedyKind::kDimension;
    Suitability result;     ///< what planning with it came to; of kWeldedBend: of the rest of the part
    std::size_t brake = 0;  ///< of the shop, on which it was planned
    std::vector<DimensionChangeTo> dimensions;
    std::vector<CutOutCure> cut_outs;
    std::vector<OpenedCorner> corners;
    std::vector<NewBar> bars;
    std::optional<WeldedBend> weld;
};

struct RemedyOptions {
    double step_mm = 0.1;              ///< values of dimensions are multiples of this
    std::uint64_t max_states = 2'000;  ///< of each plan
    std::uint64_t max_work = 32'000;   ///< planWork() of all plans together; 0: only what is known already is told
    std::size_t each = 3;              ///< remedies of one kind told at most
    BendMask formed = 0;
    bool robust = false;                    ///< as PlanOptions::robust
    const Material* material = nullptr;     ///< as PlanOptions::material
    std::vector<const BrakeResult*> known;  ///< by brake of the shop, what planning the part on it came to; nullptr or
                                            ///< missing: not known
};

struct Remedies {
    Suitability as_drawn;
    std::vector<Remedy> list;  ///< by kind, in the order above; within one the cheapest first: least changed, least to
                               ///< weld, least steel
    bool cut_short = false;    ///< max_work was spent before all kinds were looked into
    std::size_t plans_made = 0;
    std::uint64_t work = 0;
};

/// True for a result that asks for remedies: no order, a best one that spoils something or is tight, or one with poor
/// cover.
[[nodiscard]] bool wantsRemedy(const Suitability& drawn);
/// True when the second is better than the first in what asked for a remedy.
[[nodiscard]] bool lifts(const Suitability& drawn, const Suitability& changed);

/// Looks for remedies on one brake, in the set-up of the result. Corners and bends are welded only when no order works.
[[nodiscard]] Remedies findRemedies(const Part& part, const TweakedPart& tweaks, const Shop& shop, std::size_t brake,
                                    const BrakeResult& as_drawn, const RemedyOptions& options);

/// The brake with such bars besides, one piece of each. Precondition: `like` names one of its bars.
[[nodiscard]] Brake withBars(const Brake& brake, const std::vector<NewBar>& bars);

}  // namespace tinwright
