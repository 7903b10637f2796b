// SPDX-License-Identifier: GPL-3.0-or-later
#include "strokes/steps.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "solids/motion.h"

namespace tinwright::replay {

namespace {

Course courseAt(const Bending& stroke, const Rigid& moving, double angle_rad) {
    const double rise_mm = stroke.isPress() ? dieRise_mm(stroke, kMotions[0], angle_rad) : 0;
    return {still(heldBeside(stroke, moving)), still(moving), still(), still(raised(rise_mm))};
}

}  // namespace

Steps::Steps(const Scene& scene) {
    const double set = scene.setting.stroke.set_rad;
    const double wanted = std::max(0.01, scene.options.angle_step_deg) * std::numbers::pi / 180.0;
    last = static_cast<std::size_t>(std::ceil(set / wanted));
    step_rad = set / static_cast<double>(last);
}

double Steps::deg(std::size_t i) const { return rad(i) * 180.0 / std::numbers::pi; }

Track movingTrack(const Scene& scene, const Motion& motion, const Steps& steps) {
    const Bending& stroke = scene.setting.stroke;
    Track track{
        {}, stroke.centre().x(), stroke.centre().y(), steps.step_rad, steps.step_rad * movingRate_mm(stroke, 0)};
    for (std::size_t i = 0; i <= steps.last; ++i) track.poses.push_back(movingAt(stroke, motion, steps.rad(i)));
    return track;
}

Track leafTrack(const Scene& scene, const Steps& steps) {
    const Vec2 hinge(-scene.setting.stroke.setback_mm, scene.setting.stroke.hinge_height_mm);
    Track track{{}, hinge.x(), hinge.y(), steps.step_rad, 0};
    for (std::size_t i = 0; i <= steps.last; ++i) track.poses.push_back(turnUp(hinge, steps.rad(i)));
    return track;
}

Course courseOf(const Scene& scene, const Motion& motion, const Steps& steps) {
    const Bending& stroke = scene.setting.stroke;
    Course course{still(), movingTrack(scene, motion, steps), still(), still()};
    if (!stroke.isPress()) return course;
    course.held = course.moving;  // as fast, and about the same centre
    for (Rigid& pose : course.held.poses) pose = heldBeside(stroke, pose);
    course.lower.poses.clear();
    double before_mm = 0;
    for (std::size_t i = 0; i <= steps.last; ++i) {
        const double rise_mm = dieRise_mm(stroke, motion, steps.rad(i));
        course.lower.poses.push_back(raised(rise_mm));
        course.lower.constant_mm = std::max(course.lower.constant_mm, std::abs(rise_mm - before_mm));
        before_mm = rise_mm;
    }
    return course;
}

Course courseAtEnd(const Scene& scene) {
    const Bending& stroke = scene.setting.stroke;
    return courseAt(stroke, movingAt(stroke, kMotions[0], stroke.set_rad), stroke.set_rad);
}

Course courseSprung(const Scene& scene) {
    const Bending& stroke = scene.setting.stroke;
    return courseAt(stroke, sprungTo(stroke, scene.step->angle.rad()), scene.step->angle.rad());
}

std::optional<std::size_t> firstOf(const std::vector<Solid>& a, const Track& track_a, const std::vector<Solid>& b,
                                   const Track& track_b, std::size_t last, const SolidAtStep* inside_b) {
    if (track_a.poses.size() == 1 && track_b.poses.size() == 1) last = 0;
    std::optional<std::size_t> first;
    for (const Solid& one : a) {
        for (const Solid& other : b) {
            const auto met = firstMeeting(one, track_a, other, track_b, first.value_or(last), inside_b);
            if (met && (!first || *met < *first)) first = met;
            if (first == std::size_t{0}) return first;
        }
    }
    return first;
}

}  // namespace tinwright::replay
