// SPDX-License-Identifier: GPL-3.0-or-later
#include "stroke.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "inset.h"
#include "steps.h"
#include "tools.h"

namespace tinwright::replay {

namespace {

std::vector<Solid> shrunkLeaf(const Scene& scene, const Motion& motion, double angle_rad) {
    const double back = leafBack_mm(scene.setting.stroke, motion, angle_rad);
    std::vector<Solid> solids;
    for (const Prism& prism : leafPrisms(*scene.brake, *scene.step, scene.setting, back, kShrink_mm)) {
        solids.push_back(toSolid(prism));
    }
    return solids;
}

SolidAtStep leafUnderSheet(const Scene& scene, const Motion& motion, const Steps& steps) {
    SolidAtStep solids;
    for (std::size_t i = 0; i <= steps.last; ++i) solids.push_back(shrunkLeaf(scene, motion, steps.rad(i)));
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
        wrong_->push_back(fmt::format("{} meets {} at {:.2f}° ({})", a.name, b.name,
                                      steps_.deg(*step), how));
    }

private:
    std::vector<std::string>* wrong_;
    Steps steps_;
    std::vector<std::pair<std::string, std::string>> seen_;
};

void heldSide(const Scene& scene, const Steps& steps, Report& report) {
    const Track leaf = leafTrack(scene, steps);
    for (const Body& held : scene.part.held) {
        for (const auto* tools : {&scene.machine.bars, &scene.machine.standing}) {
            for (const Body& tool : *tools) report.add(held, tool, firstOf(held.whole, still(), tool.shrunk, still(), 0), "held");
        }
        report.add(held, scene.machine.leaf, firstOf(held.whole, still(), scene.machine.leaf.shrunk, leaf, steps.last), "held");
    }
}

void movingSide(const Scene& scene, const Motion& motion, const Steps& steps, Report& report) {
    const Track track = movingTrack(scene, motion, steps);
    const Track leaf_track = leafTrack(scene, steps);
    const SolidAtStep leaf = leafUnderSheet(scene, motion, steps);
    for (const Body& body : scene.part.moving) {
        for (const auto* tools : {&scene.machine.bars, &scene.machine.standing}) {
            for (const Body& tool : *tools) {
                report.add(body, tool, firstOf(body.whole, track, tool.shrunk, still(), steps.last), motion.name);
            }
        }
        for (const Body& held : scene.part.held) {
            report.add(body, held, firstOf(body.shrunk, track, held.whole, still(), steps.last), motion.name);
        }
        report.add(body, scene.machine.leaf,
                   firstOf(body.whole, track, scene.machine.leaf.whole, leaf_track, steps.last, &leaf), motion.name);
    }
    // Not only the sheet: where there is none between them the leaf itself must clear bars and beam.
    for (const auto* tools : {&scene.machine.bars, &scene.machine.standing}) {
        for (const Body& tool : *tools) {
            if (tool.kind != BodyKind::kBar && tool.kind != BodyKind::kBeam) continue;
            report.add(scene.machine.leaf, tool,
                       firstOf(tool.whole, still(), scene.machine.leaf.whole, leaf_track, steps.last, &leaf), motion.name);
        }
    }
}

// This fold's strips once they are formed; how they look before is not known. All motions end alike.
void ownStripsAtEnd(const Scene& scene, const Steps& steps, Report& report) {
    const Stroke& stroke = scene.setting.stroke;
    const Track moving{{movingAt(stroke, kMotions[0], stroke.set_rad)}, 0, 0, 0, 0};
    const Track leaf_track{{leafTrack(scene, steps).poses.back()}, 0, 0, 0, 0};
    const std::vector<Solid> leaf = shrunkLeaf(scene, kMotions[0], stroke.set_rad);
    const auto atEnd = [&](const Body& a, const Body& b, const std::optional<std::size_t>& met) {
        if (met) report.add(a, b, steps.last, "strip at the set angle");
    };
    for (const Body& strip : scene.part.own) {
        for (const auto* tools : {&scene.machine.bars, &scene.machine.standing}) {
            for (const Body& tool : *tools) atEnd(strip, tool, firstOf(strip.whole, still(), tool.shrunk, still(), 0));
        }
        for (const Body& held : scene.part.held) atEnd(strip, held, firstOf(strip.shrunk, still(), held.whole, still(), 0));
        for (const Body& body : scene.part.moving) atEnd(strip, body, firstOf(strip.shrunk, still(), body.whole, moving, 0));
        atEnd(strip, scene.machine.leaf, firstOf(strip.whole, still(), leaf, leaf_track, 0));
    }
}

// Sprung back to the target with the leaf at rest: the part against itself. (Bars and the rest are met again at
// the start of the way out.)
void sprungBack(const Scene& scene, const Steps& steps, Report& report) {
    const Track track{{sprungTo(scene.setting.stroke, scene.step->angle.rad())}, 0, 0, 0, 0};
    const auto at = static_cast<std::size_t>(std::lround(scene.step->angle.rad() / steps.step_rad));
    for (const Body& body : scene.part.moving) {
        for (const Body& held : scene.part.held) {
            if (firstOf(body.shrunk, track, held.whole, still(), 0)) report.add(body, held, at, "sprung back");
        }
    }
}

}  // namespace

MachineBodies machineBodies(const Brake& brake, const FoldStep& step, const Setting& setting) {
    const double thickness = setting.stroke.thickness_mm;
    MachineBodies bodies{barBodies(brake, step, thickness), {bedBody(brake, step, thickness)}, leafBody(brake, step, setting)};
    if (brake.has_beam) bodies.standing.push_back(beamBody(brake, step, thickness));
    for (Body& frame : frameBodies(brake, step)) bodies.standing.push_back(std::move(frame));
    return bodies;
}

void checkStroke(const Scene& scene, std::vector<std::string>& wrong) {
    const Steps steps(scene);
    Report report(wrong, steps);
    heldSide(scene, steps, report);
    for (const Motion& motion : kMotions) movingSide(scene, motion, steps, report);
    ownStripsAtEnd(scene, steps, report);
    sprungBack(scene, steps, report);
}

}  // namespace tinwright::replay
