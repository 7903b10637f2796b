// SPDX-License-Identifier: GPL-3.0-or-later
#include "shop/shop_process.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/part/allowance/allowance.h>
#include <tinwright/part/recipe/recipe.h>

namespace tinwright {

namespace {

constexpr std::size_t kMostBends = 1000;
constexpr std::size_t kMostKerfs = 100;
constexpr Range kThickness_mm{RecipeLimits::kThinnest_mm, RecipeLimits::kThickest_mm};
constexpr Range kRadius_mm{0, RecipeLimits::kLargestRadius_mm};
constexpr Range kK{0, 1};
constexpr double kRounded_mm = 1e-4;

// A deduction is kept as the k-factor it means. One that puts the neutral fibre outside the sheet is a slip of the pen.
void readDeduction(const JsonCursor& at, MeasuredBend& bend) {
    const std::optional<double> deduction_mm = at.length_mm({-1000, 1000});
    if (!deduction_mm) return;
    const double allowance_mm =
        2 * setback_mm(Face::kOutside, bend.angle, bend.inside_radius_mm, bend.thickness_mm) - *deduction_mm;
    bend.k = (neutralRadius_mm(bend.angle, allowance_mm) - bend.inside_radius_mm) / bend.thickness_mm;
    // Written to a ten-thousandth, a deduction may mean a k-factor that is over the end by so much.
    const double rounding = kRounded_mm / (bend.angle.rad() * bend.thickness_mm);
    if (bend.k >= -rounding && bend.k <= 1 + rounding) bend.k = std::clamp(bend.k, 0.0, 1.0);
    if (!kK.holds(bend.k)) {
        at.wrong("deduction", fmt::format("a deduction that means a k-factor of 0 to 1, not {:.3f}", bend.k),
                 "sum of the legs over their outside faces, less the flat length");
    }
}

MeasuredBend readMeasuredBend(const JsonCursor& at) {
    MeasuredBend bend;
    if (!at.object({"material", "thickness", "inside_radius", "angle_deg", "deduction", "k", "tool", "spread", "strips",
                    "date", "note"}))
        return bend;
    const std::size_t before = at.context().issues.size();
    bend.material = needName(at, "material");
    bend.thickness_mm = needLength_mm(at, "thickness", kThickness_mm);
    bend.inside_radius_mm = needLength_mm(at, "inside_radius", kRadius_mm);
    bend.angle = Angle::degrees(needNumber(at, "angle_deg", {0.1, 179.9}, "degrees"));
    const bool placed = at.context().issues.size() == before;
    if (at.has("deduction") == at.has("k")) at.wrong("measured", "either \"deduction\" or \"k\"");
    bend.k = numberOr(at, "k", kK, 0.44);
    if (const auto deduction = at.get("deduction"); deduction && placed) readDeduction(*deduction, bend);
    if (const auto tool = at.get("tool")) bend.tool = tool->name().value_or("");
    if (const auto spread = at.get("spread")) bend.spread_mm = spread->length_mm({0, 100});
    bend.strips = integerOr(at, "strips", 1, 1000, 1);
    bend.date = textOr(at, "date", "");
    static_cast<void>(textOr(at, "note", ""));
    return bend;
}

std::vector<Kerf> readKerfs(const JsonCursor& list) {
    std::vector<Kerf> kerfs;
    for (const JsonCursor& item : list.items(1, kMostKerfs)) {
        if (!item.object({"thickness", "kerf", "amperage", "note"})) continue;
        Kerf kerf{
            needLength_mm(item, "thickness", kThickness_mm), needLength_mm(item, "kerf", {0, 20, true, false}), {}};
        if (const auto current = item.get("amperage")) kerf.current_a = current->number({0, 1000, true, false}, "A");
        static_cast<void>(textOr(item, "note", ""));
        const bool twice = std::any_of(kerfs.begin(), kerfs.end(), [&](const Kerf& other) {
            return std::abs(other.thickness_mm - kerf.thickness_mm) < 1e-6;
        });
        if (twice) item.wrong("repeated", "a thickness that no other kerf has");
        kerfs.push_back(kerf);
    }
    std::sort(kerfs.begin(), kerfs.end(), [](const Kerf& a, const Kerf& b) { return a.thickness_mm < b.thickness_mm; });
    return kerfs;
}

void readLeast(const JsonCursor& cutting, std::string_view key, LeastSize& into) {
    const auto at = cutting.get(key);
    if (!at || !at->object({"times_thickness", "at_least"})) return;
    into.times_thickness = numberOr(*at, "times_thickness", {0, 100}, into.times_thickness);
    into.at_least_mm = lengthOr_mm(*at, "at_least", {0, 1000}, into.at_least_mm);
}

void readPilot(const JsonCursor& at, Cutting& cutting) {
    const auto pilot = at.get("pilot");
    if (!pilot || !pilot->object({"drill", "cut_under"})) return;
    cutting.pilot_drill_mm = lengthOr_mm(*pilot, "drill", {0, 50, true, false}, cutting.pilot_drill_mm);
    if (const auto under = pilot->get("cut_under")) {
        cutting.cut_under_mm = under->length_mm({0, 50, true, false});
        if (cutting.process == CutProcess::kShearAndDrill)
            under->wrong("cutting", "no \"cut_under\" where every hole is drilled");
    }
}

}  // namespace

MeasuredBends readMeasuredBends(const JsonCursor& shop) {
    MeasuredBends table;
    const auto list = shop.get("measured_bends");
    if (!list) return table;
    for (const JsonCursor& item : list->items(0, kMostBends)) table.bends.push_back(readMeasuredBend(item));
    return table;
}

std::optional<Cutting> readCutting(const JsonCursor& shop) {
    const auto at = shop.get("cutting");
    if (!at ||
        !at->object({"process", "kerfs", "smallest_hole", "inside_radius", "least_web", "pilot", "dross", "note"}))
        return std::nullopt;
    const auto process = at->need("process", "\"plasma\", \"laser\" or \"shear-and-drill\"");
    const auto which = process ? process->choice({"plasma", "laser", "shear-and-drill"}) : std::nullopt;
    Cutting cutting = cuttingOf(static_cast<CutProcess>(which.value_or(0)));
    if (const auto kerfs = at->get("kerfs")) cutting.kerfs = readKerfs(*kerfs);
    readLeast(*at, "smallest_hole", cutting.smallest_hole);
    cutting.inside_radius_mm = lengthOr_mm(*at, "inside_radius", {0, 100}, cutting.inside_radius_mm);
    readLeast(*at, "least_web", cutting.least_web);
    readPilot(*at, cutting);
    if (const auto dross = at->get("dross")) {
        if (const auto face = dross->choice({"back-face", "drawn-face", "none"}))
            cutting.dross = static_cast<Dross>(*face);
    }
    static_cast<void>(textOr(*at, "note", ""));
    return cutting;
}

}  // namespace tinwright
