// SPDX-License-Identifier: GPL-3.0-or-later
#include "strokes/stroke.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "solids/inset.h"
#include "strokes/course.h"

namespace tinwright::replay {

namespace {

std::vector<Solid> shrunkLeaf(const SwungLeaf& leaf, const Motion& motion, double angle_rad) {
    std::vector<Solid> solids;
    for (const Prism& prism : leaf.pushedBack(motion, angle_rad, kShrink_mm)) solids.push_back(toSolid(prism));
    return solids;
}

SolidAtStep leafUnderSheet(const SwungLeaf& leaf, const Motion& motion, const Steps& steps) {
    SolidAtStep solids;
    for (std::size_t i = 0; i <= steps.last; ++i) solids.push_back(shrunkLeaf(leaf, motion, steps.rad(i)));
    return solids;
}

// Collects what was found, each pair of names once.
class Report {
public:
    Report(std::vector<std::string>& wrong, const Steps& steps) : wrong_(&wrong), steps_(steps) {}
    void add(const Body& a, const Body& b, std::optional<std::size_t> step, const char* how) {
        if (!step) return;
        const auto pair = std::pair(a.name, b.name);
        if (std::find(seen_.begin(), seen_.end(), pair) != seen_.end()) return;
        seen_.push_back(pair);
        wrong_->push_back(fmt::format("{} meets {} at {:.2f}° ({})", a.name, b.name, steps_.deg(*step), how));
    }

private:
    std::vector<std::string>* wrong_;
    Steps steps_;
    std::vector<std::pair<std::string, std::string>> seen_;
};

// One side of the sheet against all tools but the leaf.
void sideAgainstTools(const Scene& scene, const Body& side, const Track& track, const Course& course,
                      const Steps& steps, const char* how, Report& report) {
    for (const Body* tool : scene.machine.tools()) {
        report.add(side, *tool, firstOf(side.whole, track, tool->shrunk, course.of(*tool), steps.last), how);
    }
}

void heldSide(const Scene& scene, const Course& course, const Steps& steps, const char* how, Report& report) {
    for (const Body& held : scene.part.held) {
        sideAgainstTools(scene, held, course.held, course, steps, how, report);
        if (!scene.machine.leaf) continue;
        const Body& leaf = scene.machine.leaf->body();
        const Track track = scene.machine.leaf->track(steps);
        report.add(held, leaf, firstOf(held.whole, course.held, leaf.shrunk, track, steps.last), how);
    }
}

void movingSide(const Scene& scene, const Motion& motion, const Course& course, const Steps& steps, Report& report) {
    for (const Body& body : scene.part.moving) {
        sideAgainstTools(scene, body, course.moving, course, steps, motion.name, report);
        for (const Body& held : scene.part.held) {
            report.add(body, held, firstOf(body.shrunk, course.moving, held.whole, course.held, steps.last),
                       motion.name);
        }
    }
}

// The leaf as it bears on the moving side: it must clear that and, where no sheet is between them, bars and beam.
void leafItself(const Scene& scene, const Motion& motion, const Course& course, const Steps& steps, Report& report) {
    const Body& leaf = scene.machine.leaf->body();
    const Track track = scene.machine.leaf->track(steps);
    const SolidAtStep solids = leafUnderSheet(*scene.machine.leaf, motion, steps);
    for (const Body& body : scene.part.moving) {
        report.add(body, leaf, firstOf(body.whole, course.moving, leaf.whole, track, steps.last, &solids), motion.name);
    }
    for (const Body* tool : scene.machine.tools()) {
        if (tool->carrier != Carrier::kUpper) continue;
        report.add(leaf, *tool, firstOf(tool->whole, course.of(*tool), leaf.whole, track, steps.last, &solids),
                   motion.name);
    }
}

// What comes up under the sheet against what stands over it.
void lowerAgainstUpper(const Scene& scene, const Motion& motion, const Course& course, const Steps& steps,
                       Report& report) {
    for (const Body* upper : scene.machine.tools()) {
        if (upper->carrier != Carrier::kUpper) continue;
        for (const Body* lower : scene.machine.tools()) {
            if (lower->carrier != Carrier::kLower) continue;
            report.add(*upper, *lower,
                       firstOf(upper->whole, course.of(*upper), lower->shrunk, course.of(*lower), steps.last),
                       motion.name);
        }
    }
}

// This fold's strips once they are formed; how they look before is not known. All motions end alike.
void ownStripsAtEnd(const Scene& scene, const Steps& steps, Report& report) {
    const Course end = courseAtEnd(scene);
    const auto atEnd = [&](const Body& a, const Body& b, const std::optional<std::size_t>& met) {
        if (met) report.add(a, b, steps.last, "strip at the set angle");
    };
    for (const Body& strip : scene.part.own) {
        for (const Body* tool : scene.machine.tools())
            atEnd(strip, *tool, firstOf(strip.whole, end.held, tool->shrunk, end.of(*tool), 0));
        for (const Body& held : scene.part.held)
            atEnd(strip, held, firstOf(strip.shrunk, end.held, held.whole, end.held, 0));
        for (const Body& body : scene.part.moving)
            atEnd(strip, body, firstOf(strip.shrunk, end.held, body.whole, end.moving, 0));
        if (!scene.machine.leaf) continue;
        const SwungLeaf& leaf = *scene.machine.leaf;
        atEnd(strip, leaf.body(),
              firstOf(strip.whole, end.held, shrunkLeaf(leaf, kMotions[0], scene.setting.stroke().set_rad),
                      still(leaf.track(steps).poses.back()), 0));
    }
}

// Sprung back to the target: the part against itself. (The tools are met again at the start of the way out.)
void sprungBack(const Scene& scene, const Steps& steps, Report& report) {
    const Course sprung = courseSprung(scene);
    const auto at = static_cast<std::size_t>(std::lround(scene.step->angle.rad() / steps.step_rad));
    for (const Body& body : scene.part.moving) {
        for (const Body& held : scene.part.held) {
            if (firstOf(body.shrunk, sprung.moving, held.whole, sprung.held, 0))
                report.add(body, held, at, "sprung back");
        }
    }
}

}  // namespace

void checkStroke(const Scene& scene, std::vector<std::string>& wrong) {
    const Steps steps = stepsOf(scene);
    Report report(wrong, steps);
    const bool held_moves = scene.setting.stroke().both_sides_move;
    if (!held_moves) heldSide(scene, courseOf(scene, kMotions[0], steps), steps, "held", report);
    for (const Motion& motion : kMotions) {
        const Course course = courseOf(scene, motion, steps);
        if (held_moves) heldSide(scene, course, steps, motion.name, report);
        movingSide(scene, motion, course, steps, report);
        lowerAgainstUpper(scene, motion, course, steps, report);
        if (scene.machine.leaf) leafItself(scene, motion, course, steps, report);
    }
    ownStripsAtEnd(scene, steps, report);
    sprungBack(scene, steps, report);
}

}  // namespace tinwright::replay
