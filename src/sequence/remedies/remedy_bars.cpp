// SPDX-License-Identifier: GPL-3.0-or-later
// Bars that the shop lacks. A bar of less depth and height meets less, so the thinnest that can be made are tried
// first: when they do not do it, none do. Then those that are not needed are left out again, and what is left is made
// as deep and as high as it may be.
#include <algorithm>
#include <cmath>
#include <tuple>

#include <tinwright/base/contract.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/tooling/bar_fit.h>
#include <tinwright/brake/tooling/bar_profile.h>

#include "remedies/bar_measures.h"
#include "remedies/remedy_trials.h"

namespace tinwright {

namespace {

constexpr double kWidthStep_mm = 0.5;  // what a person cuts a bar to
constexpr double kSizeStep_mm = 1;
constexpr double kThinnestDepth_mm = 15;  // less than this is no bar to clamp with
constexpr double kThinnestHeight_mm = 12;
constexpr std::size_t kMostWidthsTried = 12;
constexpr std::size_t kMostBars = 2;  // to be bought or made

ToolId called(const Brake& brake, const std::string& id) {
    const std::optional<ToolId> found = brake.toolCalled(id);
    TINWRIGHT_REQUIRE(found, "the new piece is like one of the brake's");
    return *found;
}

// Fingers hang on their beam: their height is given. Punches are not milled.
NewBar sized(const Brake& brake, NewBar piece, double depth_mm, double height_mm) {
    const ToolId id = called(brake, piece.like);
    const Bar* like = brake.bar(id);
    if (like == nullptr) {
        piece.height_mm = brake.tool(id).height_mm;
        return piece;
    }
    piece.depth_mm = std::min(depth_mm, like->clamp_depth_mm);
    piece.height_mm = brake.leaf().clamp == ClampKind::kOnBeam ? like->height_mm : std::min(height_mm, like->height_mm);
    piece.milled = piece.depth_mm < like->clamp_depth_mm || piece.height_mm < like->height_mm;
    return piece;
}

double clampDepth_mm(const Brake& brake, ToolId tool) {
    const Bar* bar = brake.bar(tool);
    return bar != nullptr ? bar->clamp_depth_mm : 0;
}

class BarSearch {
public:
    explicit BarSearch(RemedyTrials& trials) : trials_(trials) {}

    std::vector<Remedy> run() {
        std::vector<Remedy> found;
        for (const ToolId like : sections()) {
            if (auto remedy = withSectionOf(like)) found.push_back(std::move(*remedy));
        }
        std::stable_sort(found.begin(), found.end(),
                         [](const Remedy& a, const Remedy& b) { return steel_mm3(a) < steel_mm3(b); });
        return found;
    }

private:
    static double steel_mm3(const Remedy& remedy) {
        double sum = 0;
        for (const NewBar& bar : remedy.bars) sum += bar.width_mm * bar.depth_mm * bar.height_mm;
        return sum;
    }

    // One tool of each section.
    [[nodiscard]] std::vector<ToolId> sections() const {
        const Brake& brake = *trials_.brake();
        std::vector<ToolId> result;
        for (const ToolId tool : trials_.brake().tools(ToolRow::kUpper)) {
            if (std::none_of(result.begin(), result.end(),
                             [&](ToolId other) { return sameSection(brake, tool, other); }))
                result.push_back(tool);
        }
        return result;
    }

    std::optional<Remedy> withSectionOf(ToolId like) {
        std::vector<NewBar> bars;
        for (const double width_mm : widths(like))
            bars.push_back(sized(*trials_.brake(), {trials_.brake()->tool(like).id, width_mm, 0, 0, false},
                                 kThinnestDepth_mm, kThinnestHeight_mm));
        if (bars.empty() || !goes(bars)) return std::nullopt;
        for (std::size_t i = bars.size(); i-- > 0 && bars.size() > 1;) {  // wide ones go first
            std::vector<NewBar> fewer = bars;
            fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
            if (goes(fewer)) bars = std::move(fewer);
        }
        if (bars.size() > kMostBars) return std::nullopt;
        grow(bars, like);
        if (!goes(bars)) return std::nullopt;
        Remedy remedy;
        remedy.kind = RemedyKind::kBar;
        remedy.brake = trials_.brakeIndex();
        remedy.bars = std::move(bars);
        remedy.result = result_;
        return remedy;
    }

    // The whole section if it goes; else as deep as it may be, then as high.
    void grow(std::vector<NewBar>& bars, ToolId id) {
        const double most_depth_mm = clampDepth_mm(*trials_.brake(), id);
        const double most_height_mm = trials_.brake()->tool(id).height_mm;
        if (goes(atSize(bars, most_depth_mm, most_height_mm))) {
            bars = atSize(bars, most_depth_mm, most_height_mm);
            return;
        }
        const double depth_mm = largest(bars[0].depth_mm, most_depth_mm,
                                        [&](double depth) { return goes(atSize(bars, depth, kThinnestHeight_mm)); });
        const double height_mm = largest(bars[0].height_mm, most_height_mm,
                                         [&](double height) { return goes(atSize(bars, depth_mm, height)); });
        bars = atSize(bars, depth_mm, height_mm);
    }

    [[nodiscard]] std::vector<NewBar> atSize(std::vector<NewBar> bars, double depth_mm, double height_mm) const {
        for (NewBar& bar : bars) bar = sized(*trials_.brake(), bar, depth_mm, height_mm);
        return bars;
    }

    // In steps from `good_mm`, which does; `most_mm` included.
    template <class Does>
    static double largest(double good_mm, double most_mm, Does does) {
        if (most_mm <= good_mm || does(most_mm)) return std::max(good_mm, most_mm);
        double bad_mm = most_mm;
        while (bad_mm - good_mm > kSizeStep_mm) {
            const double middle_mm = std::floor(0.5 * (good_mm + bad_mm) / kSizeStep_mm) * kSizeStep_mm;
            if (middle_mm <= good_mm) break;
            (does(middle_mm) ? good_mm : bad_mm) = middle_mm;
        }
        return good_mm;
    }

    // Ascending: as wide as can stand between two walls, or as a bend is long.
    [[nodiscard]] std::vector<double> widths(ToolId like) const {
        const Limits& limits = trials_.shop().limits;
        const double radius_mm = trials_.brake().inside_radius_mm();
        const double room_mm =
            2 * endRoom_mm(*trials_.brake(), like, radius_mm) + std::max(limits.plus_side_mm, 2 * limits.clearance_mm);
        std::vector<double> widths;
        for (const BarMeasure& measure : barMeasures(trials_.part(), radius_mm)) {
            const double most_mm = measure.kind == BarMeasure::Kind::kBetweenWalls ? measure.mm - room_mm : measure.mm;
            const double width_mm = std::floor(most_mm / kWidthStep_mm + 1e-6) * kWidthStep_mm;
            if (width_mm > 0 && width_mm <= trials_.brake()->length_mm) widths.push_back(width_mm);
        }
        std::sort(widths.begin(), widths.end());
        widths.erase(std::unique(widths.begin(), widths.end()), widths.end());
        if (widths.size() > kMostWidthsTried) widths.resize(kMostWidthsTried);
        return widths;
    }

    bool goes(const std::vector<NewBar>& bars) {
        const Brake& brake = *trials_.brake();
        for (const NewBar& piece : bars) {
            const Bar* like = brake.bar(called(brake, piece.like));
            if (like != nullptr &&
                !milledSection(like->profile, brake.leaf().nose_radius_mm, piece.depth_mm, piece.height_mm))
                return false;
        }
        const Suitability now =
            trials_.plan(trials_.part(), {trials_.brake().with(withBars(brake, bars))}, trials_.options().formed);
        if (!lifts(trials_.asDrawn(), now)) return false;
        result_ = now;
        return true;
    }

    RemedyTrials& trials_;
    Suitability result_;  // of the last that went
};

}  // namespace

Brake withBars(const Brake& brake, const std::vector<NewBar>& bars) {
    Brake result = brake;
    for (std::size_t i = 0; i < bars.size(); ++i) {
        result =
            withPiece(std::move(result), called(brake, bars[i].like), "new" + std::to_string(i + 1), bars[i].width_mm);
        if (!bars[i].milled) continue;
        Bar& bar = result.leaf().bars.back();
        bar.profile = *milledSection(bar.profile, brake.leaf().nose_radius_mm, bars[i].depth_mm, bars[i].height_mm);
        bar.clamp_depth_mm = clampDepth_mm(bar.profile);
        bar.height_mm = height_mm(bar.profile);
        bar.end_relief_height_mm = std::min(bar.end_relief_height_mm, bar.height_mm);
    }
    return result;
}

std::vector<Remedy> barRemedies(RemedyTrials& trials) { return BarSearch(trials).run(); }

}  // namespace tinwright
