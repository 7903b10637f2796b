// SPDX-License-Identifier: GPL-3.0-or-later
// The replay folds the sheet in space, bend after bend; the part floor composes poses down the tree. Two routes
// to the same numbers, whatever the order of folding.
#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

#include <tinwright/part/model/pose.h>

#include "hand_made.h"
#include "machine/leaf_motion.h"
#include "solids/motion.h"
#include "solids/sheet.h"

using namespace tinwright;
using namespace tinwright::hand_made;

namespace {

double uniform(std::mt19937& random, double lo, double hi) {
    return lo + (hi - lo) * (static_cast<double>(random()) / 4294967296.0);
}

Part randomPart(std::mt19937& random) {
    Part part = sheetPart(rectangle(0, 0, uniform(random, 20, 200), uniform(random, 20, 200)));
    part.thickness_mm = uniform(random, 0.5, 3);
    const auto bends = static_cast<int>(uniform(random, 1, 12));
    for (int i = 0; i < bends; ++i) {
        const auto parent = static_cast<std::uint32_t>(random() % part.panels.size());
        const Polygon outline = part.panels[parent].region.outline;
        const std::size_t edge = random() % outline.size();
        addFlange(part, parent, "f" + std::to_string(i), outline[edge], outline[(edge + 1) % outline.size()],
                  uniform(random, 5, 80), random() % 2 == 0, uniform(random, 5, 175), uniform(random, -5, 5),
                  uniform(random, -5, 5));
    }
    return part;
}

}  // namespace

TEST_CASE("folding in space agrees with poses down the tree to 1e-9 mm") {
    const std::uint32_t seed = 20240917;
    INFO("seed " << seed);
    std::mt19937 random(seed);
    double worst = 0;
    for (int round = 0; round < 300; ++round) {
        const Part part = randomPart(random);
        const double nose = uniform(random, 0, 4);
        std::vector<std::size_t> order(part.bends.size());
        for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
        for (std::size_t i = order.size(); i > 1; --i) std::swap(order[i - 1], order[random() % i]);
        order.resize(random() % (order.size() + 1));
        replay::Sheet sheet(part, std::vector<double>(part.bends.size(), nose));
        BendMask formed = 0;
        for (const std::size_t i : order) {
            sheet.form(idAt<BendId>(i), part.bends[i].angle);
            formed |= bit(idAt<BendId>(i));
        }
        const std::vector<Rigid> tree = baseFromPanels(part, formed, nose);
        for (std::size_t p = 0; p < part.panels.size(); ++p) {
            for (const Vec2& corner : part.panels[p].region.outline) {
                const Vec3 point(corner.x(), corner.y(), part.thickness_mm);
                worst = std::max(worst, (tree[p] * point - sheet.spaceFromBlank(idAt<PanelId>(p)) * point).norm());
            }
        }
    }
    INFO("worst difference " << worst);
    CHECK(worst < 1e-9);
}

TEST_CASE("both motions start flat and end where the bend ends") {
    const replay::Bending stroke{1.5, 1.0, 3.0, 1.6};
    for (const replay::Motion& motion : replay::kMotions) {
        CHECK(replay::movingAt(stroke, motion, 0).matrix().isApprox(Eigen::Matrix4d::Identity(), 1e-12));
        CHECK(replay::movingAt(stroke, motion, 1e-9).matrix().isApprox(Eigen::Matrix4d::Identity(), 1e-8));
        CHECK(replay::movingAt(stroke, motion, 1.6).matrix().isApprox(replay::sprungTo(stroke, 1.6).matrix(), 1e-12));
    }
}

TEST_CASE("no point of the moving side is faster than its bound") {
    const replay::Bending stroke{1.5, 1.0, 3.0, 0.4};
    for (const replay::Motion& motion : replay::kMotions) {
        for (double a = 0; a < stroke.set_rad; a += 0.001) {
            for (const Vec3& point : {Vec3(0, -30, 4), Vec3(0, 0, 1), Vec3(0, -3, 60)}) {
                const double radius = std::hypot(point.y() - stroke.centre().x(), point.z() - stroke.centre().y());
                const double moved =
                    (replay::movingAt(stroke, motion, a + 0.001) * point - replay::movingAt(stroke, motion, a) * point)
                        .norm();
                CHECK(moved <= 0.001 * replay::movingRate_mm(stroke, radius));
            }
        }
    }
}

TEST_CASE("the leaf bears on the sheet without entering it") {
    // With the hinge where the sheet bends the ideal leaf would press into it past 90°, whatever the height.
    const replay::Bending stroke{1.5, 1.0, 3.0, 2.2};
    for (const replay::Hinge& hinge : {replay::Hinge{0.5, -2.0, -2.0}, replay::Hinge{0.5, 0.0, 0.0},
                                       replay::Hinge{0.5, 2.0, 2.0}, replay::Hinge{1.5, -1.0, 0.0}}) {
        for (const replay::Motion& motion : replay::kMotions) {
            for (double a = 0; a <= stroke.set_rad; a += 0.01) {
                const Vec3 sheet = replay::movingAt(stroke, motion, a) * Vec3(0, -20, 0);
                const replay::Rigid leaf = replay::turnUp(hinge.place(), a);
                const double face_mm = hinge.height_mm - hinge.over_leaf_mm;  // z, at rest
                const double over_face =
                    (leaf.inverse() * sheet).z() - face_mm + replay::leafBack_mm(stroke, hinge, motion, a);
                CHECK(over_face > -1e-9);
            }
        }
    }
}
