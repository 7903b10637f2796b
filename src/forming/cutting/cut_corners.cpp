// SPDX-License-Identifier: GPL-3.0-or-later
#include "cutting/cut_corners.h"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "cutting/cut_names.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

// A circle of twelve chords turns by 30 degrees at each.
constexpr double kSharp_rad = 40.0 * std::numbers::pi / 180.0;

/// Turn to the left at a corner, in radians.
double turnAt(const Polygon& polygon, std::size_t i) {
    const std::size_t n = polygon.size();
    const Vec2 in = polygon[i] - polygon[(i + n - 1) % n];
    const Vec2 out = polygon[(i + 1) % n] - polygon[i];
    return std::atan2(in.x() * out.y() - in.y() * out.x(), in.dot(out));
}

int sharpTurns(const Polygon& polygon, double side) {
    int count = 0;
    for (std::size_t i = 0; i < polygon.size(); ++i) count += side * turnAt(polygon, i) > kSharp_rad ? 1 : 0;
    return count;
}

}  // namespace

// The sheet lies to the left of the outline and outside a hole, both drawn counter-clockwise.
std::vector<Finding> cornerFindings(const Part& part, const Region& path, const Cutting& cutting, const CutPlan& plan) {
    std::vector<Finding> findings;
    if (!(cutting.inside_radius_mm > 0)) return findings;
    const auto add = [&](const std::string& name, int count) {
        if (count == 0) return;
        const std::string corners = count == 1 ? "An inside corner" : fmt::format("{} inside corners", count);
        Finding finding = startFinding("cut.corner", Severity::kNote, name);
        finding.words = fmt::format("{} of {} drawn sharp: {} leaves a radius of about {:.4g} mm.", corners, name,
                                    toText(cutting.process), cutting.inside_radius_mm);
        finding.remedies = {
            "file it sharp where something must fit in, or draw the corner with a radius or a drilled relief"};
        finding.figures = {{"corners", static_cast<double>(count), std::nullopt},
                           {"radius_mm", 0.0, cutting.inside_radius_mm}};
        findings.push_back(std::move(finding));
    };
    add(kOutlineName, sharpTurns(path.outline, -1));
    for (const NamedLoop& hole : namedHoles(part, path, plan)) add(hole.name, sharpTurns(*hole.polygon, 1));
    return findings;
}

}  // namespace tinwright::forming
