// SPDX-License-Identifier: GPL-3.0-or-later
#include "library_check.h"

#include <cmath>
#include <numbers>

#include <tinwright/brake/machines/brake_in_setup.h>

namespace tinwright::bench {

namespace {

using Object = std::unique_ptr<fcl::CollisionObject<double>>;

Object objectOf(const ConvexPoints& points) {
    auto corners = std::make_shared<const ConvexPoints>(points);
    auto shape = std::make_shared<fcl::Convex<double>>(corners, 0, std::make_shared<const std::vector<int>>());
    return std::make_unique<fcl::CollisionObject<double>>(shape);
}

struct Found {
    int contacts = 0;
    bool to_first = false;
};

bool onPair(fcl::CollisionObject<double>* a, fcl::CollisionObject<double>* b, void* data) {
    auto* found = static_cast<Found*>(data);
    fcl::CollisionRequest<double> request;
    fcl::CollisionResult<double> result;
    if (fcl::collide(a, b, request, result) > 0) ++found->contacts;
    return found->to_first && found->contacts > 0;
}

}  // namespace

struct LibraryCheck::Scene {
    std::vector<Object> moving, still, held, leaf;
    fcl::DynamicAABBTreeCollisionManager<double> movers, standers, holders, leaves;
    double set_rad = 0, setback_mm = 0, hinge_mm = 0;
    std::unique_ptr<oracle::LeafModel> stroke;
};

LibraryCheck::LibraryCheck(const Part& part, const oracle::Outlines& outlines, const BrakeInSetup& brake,
                           double overbend_deg, BendMask formed, BendId bend, Side hold)
    : scene_(std::make_shared<Scene>()) {
    Scene& scene = *scene_;
    scene.stroke = std::make_unique<oracle::LeafModel>(part, outlines, brake, overbend_deg, formed, bend, hold);
    scene.set_rad = scene.stroke->set_rad();
    scene.setback_mm = brake.setback_mm();
    scene.hinge_mm = brake->leaf().hinge_height_mm;
    const double t = part.thickness_mm;
    const auto add = [](std::vector<Object>& to, fcl::DynamicAABBTreeCollisionManager<double>& manager,
                        const ConvexPoints& points) {
        to.push_back(objectOf(points));
        manager.registerObject(to.back().get());
    };
    for (const oracle::SheetPiece& piece : scene.stroke->pieces()) {
        for (const ConvexPoints& points : piece.whole) {
            piece.moving ? add(scene.moving, scene.movers, points) : add(scene.held, scene.holders, points);
        }
    }
    const double from = scene.stroke->leastStrip_mm();
    const double length = part.bend(bend).spans.back().to_mm - part.bend(bend).spans.front().from_mm;
    const auto addTool = [&](const Region& region, double x0, double x1) {
        for (const Polygon& section : oracle::fitted(region, oracle::Fit::kShrunk))
            add(scene.still, scene.standers, fclPrism(section, x0, x1, fclAlongX()));
    };
    addTool(oracle::barSectionOf(brake->leaf().bars[0], t), from, from + length);
    addTool(oracle::bedSectionOf(brake), from - 300, from + 700);
    if (brake->leaf().beam) addTool(oracle::beamSectionOf(brake, t), from - 300, from + 700);
    const LeafFace& face = brake->leaf().leaf_faces[0];
    const Polygon leaf{Vec2(-face.reach_mm, -face.thickness_mm), Vec2(0, -face.thickness_mm),
                       Vec2(0, -oracle::kDeep_mm), Vec2(-face.reach_mm, -oracle::kDeep_mm)};
    add(scene.leaf, scene.leaves, fclPrism(leaf, from - 300, from + 700, fclAlongX()));
    for (auto* manager : {&scene.movers, &scene.standers, &scene.holders, &scene.leaves}) manager->setup();
}

int LibraryCheck::run(bool to_first) {
    Scene& scene = *scene_;
    Found found{0, to_first};
    scene.holders.collide(&scene.standers, &found, onPair);
    const int steps = static_cast<int>(std::ceil(scene.set_rad * 180.0 / std::numbers::pi));
    for (int i = 0; i <= steps; ++i) {
        const double angle = scene.set_rad * i / steps;
        const Eigen::Isometry3d pose = scene.stroke->swing(angle, {0.5});
        for (const Object& object : scene.moving) object->setTransform(pose), object->computeAABB();
        Eigen::Isometry3d turn = Eigen::Isometry3d::Identity();
        turn.linear() = pose.linear();
        turn.translation() = Vec3(0, -scene.setback_mm, scene.hinge_mm) + turn.linear() * Vec3(0, 0, -scene.hinge_mm);
        for (const Object& object : scene.leaf) object->setTransform(turn), object->computeAABB();
        scene.movers.update();
        scene.leaves.update();
        scene.movers.collide(&scene.standers, &found, onPair);
        scene.movers.collide(&scene.holders, &found, onPair);
        scene.leaves.collide(&scene.holders, &found, onPair);
        if (to_first && found.contacts > 0) break;
    }
    return found.contacts;
}

}  // namespace tinwright::bench
