// SPDX-License-Identifier: GPL-3.0-or-later
#include "strokes/course.h"

#include <algorithm>
#include <cmath>

#include "solids/motion.h"

namespace tinwright::replay {

namespace {

Course courseAt(const Scene& scene, const Rigid& moving, double angle_rad) {
    const double rise_mm = scene.setting.machine->lowerRise_mm(kMotions[0], angle_rad);
    return {still(heldBeside(scene.setting.stroke(), moving)), still(moving), still(), still(raised(rise_mm))};
}

Track movingTrack(const Bending& stroke, const Motion& motion, const Steps& steps) {
    Track track{
        {}, stroke.centre().x(), stroke.centre().y(), steps.step_rad, steps.step_rad * movingRate_mm(stroke, 0)};
    for (std::size_t i = 0; i <= steps.last; ++i) track.poses.push_back(movingAt(stroke, motion, steps.rad(i)));
    return track;
}

}  // namespace

Steps stepsOf(const Scene& scene) { return {scene.setting.stroke().set_rad, scene.options.angle_step_deg}; }

Course courseOf(const Scene& scene, const Motion& motion, const Steps& steps) {
    const Bending& stroke = scene.setting.stroke();
    Course course{still(), movingTrack(stroke, motion, steps), still(), still()};
    if (!stroke.both_sides_move) return course;
    course.held = course.moving;  // as fast, and about the same centre
    for (Rigid& pose : course.held.poses) pose = heldBeside(stroke, pose);
    course.lower.poses.clear();
    double before_mm = 0;
    for (std::size_t i = 0; i <= steps.last; ++i) {
        const double rise_mm = scene.setting.machine->lowerRise_mm(motion, steps.rad(i));
        course.lower.poses.push_back(raised(rise_mm));
        course.lower.constant_mm = std::max(course.lower.constant_mm, std::abs(rise_mm - before_mm));
        before_mm = rise_mm;
    }
    return course;
}

Course courseAtEnd(const Scene& scene) {
    const Bending& stroke = scene.setting.stroke();
    return courseAt(scene, movingAt(stroke, kMotions[0], stroke.set_rad), stroke.set_rad);
}

Course courseSprung(const Scene& scene) {
    const Bending& stroke = scene.setting.stroke();
    return courseAt(scene, sprungTo(stroke, scene.step->angle.rad()), scene.step->angle.rad());
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
