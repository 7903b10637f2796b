// SPDX-License-Identifier: GPL-3.0-or-later
// The part's bodies in a fold's frame, and how each lies to the plane of the clamped sheet.
#include <algorithm>
#include <cmath>

#include "solids/shapes.h"
#include "strokes/stroke.h"

namespace tinwright::replay {

namespace {

bool inPlane(const Rigid& fold_from_blank, double thickness_mm) {
    const double up = fold_from_blank.linear()(2, 2);
    if (std::abs(std::abs(up) - 1.0) > 1e-9) return false;
    const double lowest = fold_from_blank.translation().z() - (up < 0 ? thickness_mm : 0.0);
    return std::abs(lowest) < 1e-3;
}

Lie lieOfRolledStrip(const Bend& bend, const Rigid& fold_from_parent, const Rigid& fold_from_child,
                     double thickness_mm) {
    for (const Rigid& side : {fold_from_parent, fold_from_child}) {
        if (!inPlane(side, thickness_mm)) continue;
        return (side.linear()(2, 2) > 0) == bend.up ? Lie::kLeavesUpward : Lie::kLeavesDownward;
    }
    return Lie::kApart;
}

Body stripBody(const Sheet& sheet, BendId id, const Setting& setting) {
    const Part& part = sheet.part();
    const Bend& bend = part.bend(id);
    const Rigid parent = setting.fold_from_space * sheet.spaceFromBlank(bend.parent);
    const Rigid child = setting.fold_from_space * sheet.spaceFromBlank(bend.child);
    const bool rolled = sheet.formed(id);
    const Shape shape =
        rolled ? rolledStrip(part, bend, bend.angle, sheet.radius_mm(id), false) : flatStrip(part, bend);
    Body body = makeBody("bend " + bend.name, BodyKind::kStrip, moved(shape, parent));
    body.lie = rolled ? lieOfRolledStrip(bend, parent, child, part.thickness_mm)
                      : (inPlane(parent, part.thickness_mm) ? Lie::kInPlane : Lie::kApart);
    body.member = part.panels.size() + id.index();
    return body;
}

}  // namespace

std::vector<Body> ownStrips(const Sheet& sheet, const FoldStep& step, const Setting& setting, Angle angle) {
    const Part& part = sheet.part();
    std::vector<Body> bodies;
    for (const BendId id : bendsIn(step.stroke.bends)) {
        const Bend& bend = part.bend(id);
        const bool child_held = setting.moving[bend.parent.index()];
        const Rigid held = setting.fold_from_space * sheet.spaceFromBlank(child_held ? bend.child : bend.parent);
        const Shape shape = rolledStrip(part, bend, angle, sheet.radius_mm(id), child_held);
        bodies.push_back(makeBody("bend " + bend.name, BodyKind::kStrip, moved(shape, held)));
    }
    return bodies;
}

PartBodies partBodies(const Sheet& sheet, const std::vector<Shape>& panels, const FoldStep& step,
                      const Setting& setting) {
    const Part& part = sheet.part();
    PartBodies bodies;
    for (std::size_t i = 0; i < panels.size(); ++i) {
        const Rigid fold_from_blank = setting.fold_from_space * sheet.spaceFromBlank(idAt<PanelId>(i));
        Body body = makeBody("panel " + part.panels[i].name, BodyKind::kPanel, moved(panels[i], fold_from_blank));
        body.lie = inPlane(fold_from_blank, part.thickness_mm) ? Lie::kInPlane : Lie::kApart;
        body.member = i;
        (setting.moving[i] ? bodies.moving : bodies.held).push_back(std::move(body));
    }
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const auto id = idAt<BendId>(i);
        if (contains(step.stroke.bends, id)) continue;
        const bool moves = setting.moving[part.bends[i].parent.index()];
        (moves ? bodies.moving : bodies.held).push_back(stripBody(sheet, id, setting));
    }
    bodies.own = ownStrips(sheet, step, setting, step.set_angle);
    return bodies;
}

}  // namespace tinwright::replay
