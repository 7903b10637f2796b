// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/way_poses.h"

#include <algorithm>
#include <cmath>

namespace tinwright::report {
namespace {

constexpr double kTiltStep_deg = 10;

/// A tilt turns y towards z.
WayPose between(const ExitMove::Point& a, const ExitMove::Point& b, double share) {
    const auto mixed = [&](double from, double to) { return from + share * (to - from); };
    Rigid pose = Rigid::Identity();
    pose.linear() = frontUp(Angle::degrees(-mixed(a.tilt_deg, b.tilt_deg)));
    pose.translation() = Vec3(mixed(a.x_mm, b.x_mm), mixed(a.y_mm, b.y_mm), mixed(a.z_mm, b.z_mm));
    return {pose, mixed(a.ram_mm, b.ram_mm)};
}

}  // namespace

std::vector<WayPose> posesOnWayOut(const FoldStep& step) {
    std::vector<WayPose> poses;
    ExitMove::Point last;
    for (const ExitMove& move : step.way_out) {
        if (move.piece >= 0) continue;
        for (const ExitMove::Point& point : move.path) {
            const int count =
                std::max(1, static_cast<int>(std::ceil(std::abs(point.tilt_deg - last.tilt_deg) / kTiltStep_deg)));
            for (int i = 1; i <= count; ++i) poses.push_back(between(last, point, static_cast<double>(i) / count));
            last = point;
        }
    }
    return poses;
}

}  // namespace tinwright::report
