// SPDX-License-Identifier: GPL-3.0-or-later
// Bars that the shop lacks. A bar of less depth and height meets less, so the thinnest that can be made are tried
// first: when they do not do it, none do. Then those that are not needed are left out again, and what is left is made
// as deep and as high as it may be.
#include <algorithm>
#include <cmath>
#include <tuple>

#include <tinwright/base/contract.h>
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

const Bar& barCalled(const Brake& brake, const std::string& id) {
    const auto found = std::find_if(brake.bars.begin(), brake.bars.end(), [&](const Bar& bar) { return bar.id == id; });
    TINWRIGHT_REQUIRE(found != brake.bars.end(), "the new bar is like one of the brake's");
    return *found;
}

// Fingers hang on their beam: their height is given. Punches are not milled.
NewBar sized(const Brake& brake, NewBar bar, double depth_mm, double height_mm) {
    const Bar& like = barCalled(brake, bar.like);
    if (brake.isPress()) {
        bar.height_mm = like.height_mm;
        return bar;
    }
    bar.depth_mm = std::min(depth_mm, like.clamp_depth_mm);
    bar.height_mm = brake.clamp == ClampKind::kOnBeam ? like.height_mm : std::min(height_mm, like.height_mm);
    bar.milled = bar.depth_mm < like.clamp_depth_mm || bar.height_mm < like.height_mm;
    return bar;
}

class BarSearch {
public:
    explicit BarSearch(RemedyTrials& trials) : trials_(trials) {}

    std::vector<Remedy> run() {
        std::vector<Remedy> found;
        for (const Bar& like : sections()) {
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

    // One bar of each section.
    [[nodiscard]] std::vector<Bar> sections() const {
        std::vector<Bar> result;
        for (const Bar& bar : trials_.brake().bars) {
            if (bar.row == ToolRow::kDie || bar.count <= 0) continue;
            if (std::none_of(result.begin(), result.end(), [&](const Bar& other) { return sameSection(bar, other); }))
                result.push_back(bar);
        }
        return result;
    }

    std::optional<Remedy> withSectionOf(const Bar& like) {
        std::vector<NewBar> bars;
        for (const double width_mm : widths(like))
            bars.push_back(
                sized(trials_.brake(), {like.id, width_mm, 0, 0, false}, kThinnestDepth_mm, kThinnestHeight_mm));
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
    void grow(std::vector<NewBar>& bars, const Bar& like) {
        if (goes(atSize(bars, like.clamp_depth_mm, like.height_mm))) {
            bars = atSize(bars, like.clamp_depth_mm, like.height_mm);
            return;
        }
        const double depth_mm = largest(bars[0].depth_mm, like.clamp_depth_mm,
                                        [&](double depth) { return goes(atSize(bars, depth, kThinnestHeight_mm)); });
        const double height_mm = largest(bars[0].height_mm, like.height_mm,
                                         [&](double height) { return goes(atSize(bars, depth_mm, height)); });
        bars = atSize(bars, depth_mm, height_mm);
    }

    [[nodiscard]] std::vector<NewBar> atSize(std::vector<NewBar> bars, double depth_mm, double height_mm) const {
        for (NewBar& bar : bars) bar = sized(trials_.brake(), bar, depth_mm, height_mm);
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
    [[nodiscard]] std::vector<double> widths(const Bar& like) const {
        const Limits& limits = trials_.shop().limits;
        const double radius_mm = trials_.brake().nose_radius_mm;
        const double room_mm = 2 * endRoom_mm(like, radius_mm) + std::max(limits.plus_side_mm, 2 * limits.clearance_mm);
        std::vector<double> widths;
        for (const BarMeasure& measure : barMeasures(trials_.part(), radius_mm)) {
            const double most_mm = measure.kind == BarMeasure::Kind::kBetweenWalls ? measure.mm - room_mm : measure.mm;
            const double width_mm = std::floor(most_mm / kWidthStep_mm + 1e-6) * kWidthStep_mm;
            if (width_mm > 0 && width_mm <= trials_.brake().length_mm) widths.push_back(width_mm);
        }
        std::sort(widths.begin(), widths.end());
        widths.erase(std::unique(widths.begin(), widths.end()), widths.end());
        if (widths.size() > kMostWidthsTried) widths.resize(kMostWidthsTried);
        return widths;
    }

    bool goes(const std::vector<NewBar>& bars) {
        for (const NewBar& bar : bars) {
            if (!trials_.brake().isPress() &&
                !milledSection(barCalled(trials_.brake(), bar.like).profile, trials_.brake().nose_radius_mm,
                               bar.depth_mm, bar.height_mm))
                return false;
        }
        Shop shop = trials_.shop();
        shop.brakes[trials_.brakeIndex()] = withBars(trials_.brake(), bars);
        const Suitability now = trials_.plan(trials_.part(), shop, trials_.brakeIndex(), trials_.options().formed);
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
        Bar bar = barCalled(brake, bars[i].like);
        bar.id = "new" + std::to_string(i + 1);
        bar.width_mm = bars[i].width_mm;
        bar.count = 1;
        if (bars[i].milled) {
            bar.profile = *milledSection(bar.profile, brake.nose_radius_mm, bars[i].depth_mm, bars[i].height_mm);
            bar.clamp_depth_mm = clampDepth_mm(bar.profile);
            bar.height_mm = height_mm(bar.profile);
            bar.end_relief_height_mm = std::min(bar.end_relief_height_mm, bar.height_mm);
        }
        result.bars.push_back(std::move(bar));
    }
    return result;
}

std::vector<Remedy> barRemedies(RemedyTrials& trials) { return BarSearch(trials).run(); }

}  // namespace tinwright
