// SPDX-License-Identifier: GPL-3.0-or-later
// From loops to the one sheet.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "dxf/dxf_loops.h"

namespace tinwright {

namespace {

constexpr std::size_t kMostSheetIssues = 20;
constexpr double kNothing_mm2 = 1e-3;

std::string placeOf(const Polygon& loop) {
    Vec2 low = loop.front(), high = loop.front();
    for (const Vec2& p : loop) {
        low = low.cwiseMin(p);
        high = high.cwiseMax(p);
    }
    return fmt::format("loop from ({:.3f}, {:.3f}) to ({:.3f}, {:.3f}) mm", low.x(), low.y(), high.x(), high.y());
}

// Of a loop against another that is larger: wholly inside, wholly outside, or across.
enum class Lies { kInside, kOutside, kAcross };

Lies liesIn(const Polygon& outer, const Polygon& loop) {
    double inside = 0;
    for (const Region& piece : intersection({outer, {}}, loop)) inside += area_mm2(piece);
    const double whole = std::abs(signedArea_mm2(loop));
    if (inside > whole - kNothing_mm2) return Lies::kInside;
    return inside < kNothing_mm2 ? Lies::kOutside : Lies::kAcross;
}

// Said only when the sheet is found to be wrong: which loop it is.
Issues whatIsWrong(const Polygon& outline, const std::vector<Polygon>& holes, const std::string& file,
                   const std::string& why) {
    Issues issues;
    const auto report = [&](const char* code, const Polygon& loop, std::string found, std::string expected,
                            std::string hint = {}) {
        if (issues.size() < kMostSheetIssues)
            issues.push_back({code, file, placeOf(loop), std::move(found), std::move(expected), std::move(hint)});
    };
    if (!isValid({outline, {}})) report("dxf.crossing", outline, "an outline that crosses itself", "a simple outline");
    for (std::size_t i = 0; i < holes.size() && issues.empty(); ++i) {
        if (!isValid({holes[i], {}}))
            report("dxf.crossing", holes[i], "a cut-out that crosses itself", "a simple cut-out");
    }
    if (!issues.empty()) return issues;
    for (std::size_t i = 0; i < holes.size() && issues.size() < kMostSheetIssues; ++i) {
        const Lies lies = liesIn(outline, holes[i]);
        if (lies == Lies::kOutside)
            report("dxf.outline", holes[i], "a second outline beside the first", "one outline: one part in a drawing",
                   "name the layers that are not cut, or save the other part in a file of its own");
        if (lies == Lies::kAcross)
            report("dxf.crossing", holes[i], "a loop that crosses the outline", "cut-outs that lie inside it");
    }
    for (std::size_t i = 0; i < holes.size() && issues.empty(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            const Lies lies = liesIn(holes[j], holes[i]);
            if (lies == Lies::kInside)
                report("dxf.loose", holes[i], "a loop inside a cut-out: a loose piece", "one piece of sheet");
            if (lies == Lies::kAcross)
                report("dxf.crossing", holes[i], "cut-outs that cross one another", "cut-outs apart from one another");
        }
    }
    if (issues.empty()) report("dxf.crossing", outline, why, "one outline with cut-outs inside it");
    return issues;
}

}  // namespace

Result<Region> sheetOf(const std::vector<Polygon>& loops, const std::string& file) {
    if (loops.empty())
        return Issue{
            "dxf.outline", file, "", "no closed cut line", "an outline of the blank", "name its layer as a cut layer"};
    // By size: a cut-out comes after what it may lie in.
    std::vector<Polygon> sorted = loops;
    std::stable_sort(sorted.begin(), sorted.end(),
                     [](const Polygon& a, const Polygon& b) { return signedArea_mm2(a) > signedArea_mm2(b); });
    Region sheet{sorted.front(), {sorted.begin() + 1, sorted.end()}};
    std::string why;
    if (!isValid(sheet, &why)) return whatIsWrong(sheet.outline, sheet.holes, file, why);
    return sheet;
}

}  // namespace tinwright
