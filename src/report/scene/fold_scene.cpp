// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/fold_scene.h"

#include <algorithm>
#include <limits>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/geometry/polygons.h>
#include <tinwright/part/model/bend_frame.h>

#include "scene/strip_slabs.h"

namespace tinwright::report {
namespace {

Slab prism(const Polygon& ring, double thickness_mm, const Rigid& pose) {
    Slab slab;
    for (const Vec2& point : ring) {
        slab.lower.push_back(pose * lifted(point));
        slab.upper.push_back(pose * lifted(point, thickness_mm));
    }
    return slab;
}

}  // namespace

FoldScene::FoldScene(const PartShapes& shapes, const BrakeInSetup& brake, FoldCase fold)
    : shapes_(shapes),
      brake_(brake),
      fold_(std::move(fold)),
      moving_(shapes.part.panels.size(), false),
      motion_(sheetMotion(brake, thickness_mm(), part().bend(fold_.stroke.first()).allowance_mm)) {
    findSides();
    findFrame();
}

bool FoldScene::isNew(BendId bend) const { return contains(fold_.stroke.bends, bend); }

void FoldScene::findSides() {
    // From the base outwards each bend of the stroke changes the side; then all is turned so that the held panel is
    // held.
    for (std::size_t i = 0; i < part().bends.size(); ++i) {
        const Bend& bend = part().bends[i];
        moving_[bend.child.index()] = moving_[bend.parent.index()] != isNew(idAt<BendId>(i));
    }
    const Bend& first = part().bend(fold_.stroke.first());
    const PanelId held = heldPanel(first, fold_.stroke.hold);
    if (moving_[held.index()]) moving_.flip();
}

void FoldScene::findFrame() {
    const Bend& first = part().bend(fold_.stroke.first());
    const PanelId held = heldPanel(first, fold_.stroke.hold);
    poses_ = baseFromPanels(part(), fold_.formed, brake_.inside_radius_mm());
    Rigid fold_from_base =
        foldFromBlank(first, fold_.stroke.hold, thickness_mm(), brake_.stripBack_mm(first.allowance_mm)) *
        poses_[held.index()].inverse();
    double least = std::numeric_limits<double>::infinity();
    double most = -least;
    for (const BendId id : bendsIn(fold_.stroke.bends)) {
        const Bend& bend = part().bend(id);
        for (const StripSpan& span : bend.spans) {
            for (const double along : {span.from_mm, span.to_mm}) {
                const double x =
                    (fold_from_base * (poses_[bend.parent.index()] * lifted(bend.origin + along * bend.along))).x();
                least = std::min(least, x);
                most = std::max(most, x);
            }
        }
    }
    if (!(least <= most)) least = most = 0;
    fold_from_base.pretranslate(Vec3(-least, 0, 0));
    length_mm_ = most - least;
    for (Rigid& pose : poses_) pose = fold_from_base * pose;
}

std::vector<PartBody> FoldScene::at(Angle angle) const {
    const double set = fold_.set_angle.rad();
    const double now = std::clamp(angle.rad(), 0.0, set);
    return bodies(motion_->at(now, set > 0 ? now / set : 0.0));
}

std::vector<PartBody> FoldScene::after() const {
    return bodies(motion_->at(part().bend(fold_.stroke.first()).angle.rad(), 1));
}

std::vector<PartBody> FoldScene::bodies(const SheetMoment& moment) const {
    std::vector<PartBody> all;
    for (std::size_t i = 0; i < part().panels.size(); ++i) all.push_back(panelBody(i, moment));
    for (std::size_t i = 0; i < part().bends.size(); ++i) all.push_back(stripBody(i, moment));
    return all;
}

PartBody FoldScene::panelBody(std::size_t panel, const SheetMoment& moment) const {
    PartBody body;
    body.moving = moving_[panel];
    body.panel = idAt<PanelId>(panel);
    body.pose = (body.moving ? moment.swing : moment.held) * poses_[panel];
    for (const Polygon& piece : shapes_.panel_pieces[panel])
        body.slabs.push_back(prism(piece, thickness_mm(), body.pose));
    return body;
}

PartBody FoldScene::stripBody(std::size_t index, const SheetMoment& moment) const {
    const BendId id = idAt<BendId>(index);
    const Bend& bend = part().bends[index];
    PartBody body;
    body.is_strip = true;
    body.bend = id;
    body.is_new = isNew(id);
    const bool parent_held = !moving_[bend.parent.index()];
    // A new strip grows out of its held side.
    body.panel = body.is_new && !parent_held ? bend.child : bend.parent;
    body.moving = moving_[body.panel.index()];
    body.pose = (body.moving ? moment.swing : moment.held) * poses_[body.panel.index()];
    if (!body.is_new) {
        const bool formed = contains(fold_.formed, id);
        const double angle = formed ? bend.angle.rad() : 0.0;
        body.slabs = formed && bend.hem ? closedHemSlabs(bend, thickness_mm())
                                        : stripSlabs(bend, thickness_mm(), brake_.inside_radius_mm(),
                                                     {angle, formed ? 1.0 : 0.0, true});
    } else {
        body.pose = moment.strips * poses_[body.panel.index()];
        body.slabs = newStripSlabs(bend, thickness_mm(), brake_.inside_radius_mm(),
                                   {moment.angle_rad, moment.share, parent_held}, motion_->rollsFrom());
    }
    for (Slab& slab : body.slabs) {
        for (Vec3& point : slab.lower) point = body.pose * point;
        for (Vec3& point : slab.upper) point = body.pose * point;
    }
    return body;
}

}  // namespace tinwright::report
