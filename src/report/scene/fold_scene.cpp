// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/fold_scene.h"

#include <algorithm>
#include <cmath>
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

/// Turns the front (-y) up by an angle, in (y, z).
Vec2 turnedUp(const Vec2& p, Angle angle) {
    const SinCos turn = sinCos(angle);
    return {p.x() * turn.cos + p.y() * turn.sin, -p.x() * turn.sin + p.y() * turn.cos};
}

/// Front and back exchanged.
Rigid mirrored(const Rigid& pose) {
    const Vec3 mirror(1, -1, 1);
    Rigid other = Rigid::Identity();
    other.linear() = mirror.asDiagonal() * pose.linear() * mirror.asDiagonal();
    other.translation() = mirror.cwiseProduct(pose.translation());
    return other;
}

/// What of a section lies between two heights, as convex pieces.
std::vector<Polygon> piecesBetween(const Polygon& profile, double least_mm, double most_mm) {
    constexpr double kAll_mm = 1e5;
    std::vector<Polygon> pieces;
    for (const Region& region : intersection({profile, {}}, {Vec2(-kAll_mm, least_mm), Vec2(kAll_mm, least_mm),
                                                             Vec2(kAll_mm, most_mm), Vec2(-kAll_mm, most_mm)})) {
        const std::vector<Polygon> convex = convexPieces(region);
        pieces.insert(pieces.end(), convex.begin(), convex.end());
    }
    return pieces;
}

}  // namespace

Slab extruded(const Polygon& section, double from_mm, double to_mm) {
    Slab slab;
    for (const Vec2& p : section) {
        slab.lower.emplace_back(from_mm, p.x(), p.y());
        slab.upper.emplace_back(to_mm, p.x(), p.y());
    }
    return slab;
}

std::vector<Slab> extruded(const std::vector<Polygon>& sections, const Vec2& by, double from_mm, double to_mm) {
    std::vector<Slab> slabs;
    for (Polygon section : sections) {
        for (Vec2& point : section) point += by;
        slabs.push_back(extruded(section, from_mm, to_mm));
    }
    return slabs;
}

PartShapes::PartShapes(const PartOnBrake& folded) : on_brake(folded), part(folded.part()) {
    for (const Panel& panel : part.panels)
        panel_pieces.push_back(panel.region.outline.empty() ? std::vector<Polygon>{} : convexPieces(panel.region));
}

ToolShapes::ToolShapes(const BrakeInSetup& machine) : brake(machine) {
    const Polygon* before = nullptr;  // most bars of a brake share one section
    for (std::size_t i = 0; i < brake->toolCount(); ++i) {
        const Polygon& profile = brake->tool(idAt<ToolId>(i)).profile;
        const bool as_before = before != nullptr && profile == *before;
        before = &profile;
        bar_pieces.push_back(as_before         ? bar_pieces.back()
                             : profile.empty() ? std::vector<Polygon>{}
                                               : convexPieces({profile, {}}));
    }
    const Polygon& bed = brake->isPress() ? brake->press().bed : brake->leaf().bed;
    if (!bed.empty()) bed_pieces = convexPieces({bed, {}});
    if (brake->isPress() && !brake->press().ram.empty()) ram_pieces = convexPieces({brake->press().ram, {}});
    constexpr double kFar_mm = 1e5;
    for (std::size_t i = 0; i < brake->toolCount(); ++i) {
        const Punch* punch = brake->punch(idAt<ToolId>(i));
        if (punch == nullptr || !punch->horn || punch->profile.empty()) continue;
        horned_[i] = {piecesBetween(punch->profile, -kFar_mm, punch->horn->height_mm),
                      piecesBetween(punch->profile, punch->horn->height_mm, kFar_mm)};
    }
}

std::vector<Slab> ToolShapes::piece(ToolId bar, const Vec2& by, double from_mm, double to_mm) const {
    const auto cut = horned_.find(bar.index());
    if (cut == horned_.end()) return extruded(bar_pieces[bar.index()], by, from_mm, to_mm);
    const Horn& horn = *brake->punch(bar)->horn;
    std::vector<Slab> slabs = extruded(cut->second.horn, by, from_mm, to_mm);
    const std::vector<Slab> body = extruded(cut->second.over_horn, by, from_mm + (horn.at_left ? horn.reach_mm : 0),
                                            to_mm - (horn.at_left ? 0 : horn.reach_mm));
    slabs.insert(slabs.end(), body.begin(), body.end());
    return slabs;
}

FoldScene::FoldScene(const PartShapes& shapes, const BrakeInSetup& brake, FoldCase fold)
    : shapes_(shapes), brake_(brake), fold_(std::move(fold)), moving_(shapes.part.panels.size(), false) {
    std::sort(fold_.bends.begin() + (fold_.bends.empty() ? 0 : 1), fold_.bends.end());
    if (brake.vee() != nullptr) bearing_.emplace(*brake.vee(), thickness_mm() + brake.inside_radius_mm());
    findSides();
    findFrame();
}

bool FoldScene::isNew(BendId bend) const {
    return std::find(fold_.bends.begin(), fold_.bends.end(), bend) != fold_.bends.end();
}

void FoldScene::findSides() {
    // From the base outwards each bend of the stroke changes the side; then all is turned so that the held panel is
    // held.
    for (std::size_t i = 0; i < part().bends.size(); ++i) {
        const Bend& bend = part().bends[i];
        moving_[bend.child.index()] = moving_[bend.parent.index()] != isNew(idAt<BendId>(i));
    }
    const Bend& first = part().bend(fold_.bends.front());
    const PanelId held = heldPanel(first, fold_.hold);
    if (moving_[held.index()]) moving_.flip();
}

void FoldScene::findFrame() {
    const Bend& first = part().bend(fold_.bends.front());
    const PanelId held = heldPanel(first, fold_.hold);
    poses_ = baseFromPanels(part(), fold_.formed, brake_.inside_radius_mm());
    Rigid fold_from_base = foldFromBlank(first, fold_.hold, thickness_mm(), brake_.stripBack_mm(first.allowance_mm)) *
                           poses_[held.index()].inverse();
    double least = std::numeric_limits<double>::infinity();
    double most = -least;
    for (const BendId id : fold_.bends) {
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

double FoldScene::punchDown_mm(Angle angle) const {
    if (!bearing_) return 0;
    const SinCos half = sinCos(Angle::radians(0.5 * angle.rad()));
    return bearing_->rise(half.cos, half.sin, 0).middle_mm;
}

/// Where the moving side is; on a press brake it takes half of the angle and half of the strip.
Rigid FoldScene::swing(double angle_rad, double share) const {
    const Bend& bend = part().bend(fold_.bends.front());
    const bool press = brake_->isPress();
    const Vec3 centre(0, press ? 0.0 : brake_.inside_radius_mm(), thickness_mm() + brake_.inside_radius_mm());
    Rigid pose = Rigid::Identity();
    pose.linear() = frontUp(Angle::radians(press ? 0.5 * angle_rad : angle_rad));
    pose.translation() =
        centre + pose.linear() * (Vec3(0, (press ? 0.5 : 1.0) * bend.allowance_mm * share, 0) - centre);
    return pose;
}

FoldScene::Moment FoldScene::moment(double angle_rad, double share) const {
    if (brake_->isPress()) return pressMoment(angle_rad, share);
    return {swing(angle_rad, share), Rigid::Identity(), Rigid::Identity(), angle_rad, share};
}

/// The model's punch stands still and the die comes up; all is moved so that it is the other way round.
FoldScene::Moment FoldScene::pressMoment(double angle_rad, double share) const {
    const Rigid down(Eigen::Translation3d(0, 0, -punchDown_mm(Angle::radians(angle_rad))));
    const Rigid front = swing(angle_rad, share);
    return {down * front, down * mirrored(front), down, angle_rad, share};
}

std::vector<PartBody> FoldScene::at(Angle angle) const {
    const double set = fold_.set_angle.rad();
    const double now = std::clamp(angle.rad(), 0.0, set);
    return bodies(moment(now, set > 0 ? now / set : 0.0));
}

std::vector<PartBody> FoldScene::after() const {
    return bodies(moment(part().bend(fold_.bends.front()).angle.rad(), 1));
}

std::vector<PartBody> FoldScene::bodies(const Moment& moment) const {
    std::vector<PartBody> all;
    for (std::size_t i = 0; i < part().panels.size(); ++i) all.push_back(panelBody(i, moment));
    for (std::size_t i = 0; i < part().bends.size(); ++i) all.push_back(stripBody(i, moment));
    return all;
}

PartBody FoldScene::panelBody(std::size_t panel, const Moment& moment) const {
    PartBody body;
    body.moving = moving_[panel];
    body.panel = idAt<PanelId>(panel);
    body.pose = (body.moving ? moment.swing : moment.held) * poses_[panel];
    for (const Polygon& piece : shapes_.panel_pieces[panel])
        body.slabs.push_back(prism(piece, thickness_mm(), body.pose));
    return body;
}

PartBody FoldScene::stripBody(std::size_t index, const Moment& moment) const {
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
        if (brake_->isPress()) body.pose = moment.middle * poses_[body.panel.index()];
        body.slabs = newStrip(bend, parent_held, moment);
    }
    for (Slab& slab : body.slabs) {
        for (Vec3& point : slab.lower) point = body.pose * point;
        for (Vec3& point : slab.upper) point = body.pose * point;
    }
    return body;
}

/// On a press brake both halves grow out of the middle, each as the strip of a bend half as wide.
std::vector<Slab> FoldScene::newStrip(const Bend& bend, bool parent_held, const Moment& moment) const {
    const double radius = brake_.inside_radius_mm();
    if (!brake_->isPress())
        return stripSlabs(bend, thickness_mm(), radius, {moment.angle_rad, moment.share, parent_held});
    std::vector<Slab> slabs;
    for (const bool to_child : {false, true}) {
        Bend half = bend;
        half.allowance_mm = 0.5 * bend.allowance_mm;
        half.origin = bend.origin + (to_child ? 0.25 : -0.25) * bend.allowance_mm * bend.toward_child;
        const std::vector<Slab> side =
            stripSlabs(half, thickness_mm(), radius, {0.5 * moment.angle_rad, moment.share, to_child});
        slabs.insert(slabs.end(), side.begin(), side.end());
    }
    return slabs;
}

Polygon FoldScene::leafSection(const LeafFace& face, Angle angle) const {
    const double setback = brake_.setback_mm();
    const double hinge = brake_->leaf().hinge_height_mm;
    const double radius = brake_.inside_radius_mm();
    const SinCos turn = sinCos(angle);
    // Past square the leaf would press into the sheet it bears on; it is drawn back along its normal (NOTES.md,
    // Motion).
    const double under = thickness_mm() + radius;
    const double back = std::max(0.0, under - hinge - (radius + setback) * turn.sin - (under - hinge) * turn.cos);
    const Vec2 pivot(-setback, hinge);
    Polygon section;
    for (const Vec2& corner :
         {Vec2(-face.reach_mm, -face.thickness_mm), Vec2(0, -face.thickness_mm), Vec2(0, 0), Vec2(-face.reach_mm, 0)}) {
        section.push_back(pivot + turnedUp(Vec2(corner.x(), corner.y() - hinge - back), angle));
    }
    return section;
}

Polygon FoldScene::bedSection() const { return shifted(brake_->leaf().bed, Vec2(-brake_.setback_mm(), 0)); }

Polygon FoldScene::barSection(const Tool& bar) const { return shifted(bar.profile, Vec2(0, thickness_mm())); }

Polygon FoldScene::beamSection(double reach_mm) const {
    const double front = brake_->leaf().beam->front_y_mm;
    const double under = brake_->leaf().beam->height_mm + thickness_mm();
    return {{front, under}, {front + reach_mm, under}, {front + reach_mm, under + reach_mm}, {front, under + reach_mm}};
}

}  // namespace tinwright::report
