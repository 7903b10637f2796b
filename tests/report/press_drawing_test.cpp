// SPDX-License-Identifier: GPL-3.0-or-later
// A fold on a press brake as it is drawn: the sheet bears on the shoulders of a V that stands still, and under the
// punch's tip. What is expected is worked out here from the V and the sheet alone (tangent circles and lines), not from
// the model's formula.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/part/model/bend_frame.h>

#include "fold_drawings/fold_drawings.h"
#include "scene/fold_view.h"
#include "scene/press_tools.h"
#include "sheet_cases.h"

using namespace tinwright;
using namespace tinwright::report;

namespace {

struct SidePlane {
    Vec3 normal;       ///< of the sheet, out of its lower face
    double offset_mm;  ///< normal . p on the lower face
};

/// The panel of one side of a bend, at one moment; the lower face is the one away from the punch.
SidePlane planeOf(const FoldScene& scene, const std::vector<PartBody>& bodies, const Bend& bend, PanelId panel) {
    const auto body =
        std::find_if(bodies.begin(), bodies.end(), [&](const PartBody& b) { return !b.is_strip && b.panel == panel; });
    REQUIRE(body != bodies.end());
    const Vec3 normal = body->pose.linear() * Vec3(0, 0, bend.up ? -1 : 1);
    return {normal,
            normal.dot(body->pose * Vec3(bend.origin.x(), bend.origin.y(), bend.up ? 0 : scene.thickness_mm()))};
}

/// Half of the V's width at the centres of its shoulders: a circle that touches the top (z = 0) and the flank from the
/// opening's corner down.
Vec2 shoulderCentre(const Vee& vee) {
    const double half = 0.5 * vee.angle.rad();
    const Vec2 corner(0.5 * vee.opening_mm, 0);
    const Vec2 out_of_flank(-std::cos(half), std::sin(half));  // into the V
    // (c, -s) with out_of_flank . ((c, -s) - corner) = -s
    const double s = vee.shoulder_radius_mm;
    const double c = corner.x() + (-s + s * out_of_flank.y()) / out_of_flank.x();
    return {c, -s};
}

bool hasLabel(const Drawing& drawing, const std::string& text) {
    return std::any_of(drawing.labels().begin(), drawing.labels().end(),
                       [&](const PlacedLabel& label) { return label.text == text; });
}

}  // namespace

TEST_CASE("on a press brake both sides rise by half and bear on the shoulders of a die that stands still") {
    const Shop shop = sample::pressShop();
    const BrakeInSetup brake = sample::inUse(shop.brakes[0]);
    const Vec2 shoulder = shoulderCentre(*brake.vee());
    for (unsigned seed = 1; seed <= 40; ++seed) {
        CAPTURE(seed);
        const Part part = sample::randomPart(seed);
        const PartOnBrake folded = partOnBrake(part, shop, sample::inUse(shop.brakes[0], part.thickness_mm));
        const PartShapes shapes(folded);
        BendMask formed = 0;
        for (const FoldStep& step : sample::anyPlan(part, shop.brakes[0]).folds) {
            const Bend& bend = part.bend(step.bends()[0]);
            const FoldScene scene(shapes, brake, {formed, step.stroke, step.set_angle});
            const PanelId back = heldPanel(bend, step.stroke.hold);
            const PanelId front = movingPanel(bend, step.stroke.hold);
            for (const double share : {0.0, 0.2, 0.6, 1.0}) {
                const Angle angle = Angle::radians(share * step.set_angle.rad());
                const std::vector<PartBody> bodies = scene.at(angle);
                for (const double y : {1.0, -1.0}) {
                    const SidePlane side = planeOf(scene, bodies, bend, y > 0 ? back : front);
                    const double half = 0.5 * angle.rad();
                    CHECK((side.normal - Vec3(0, y * std::sin(half), -std::cos(half))).norm() < 1e-9);
                    const double from_centre =
                        side.offset_mm - side.normal.dot(Vec3(0, y * shoulder.x(), shoulder.y()));
                    CHECK(std::abs(std::abs(from_centre) - brake.vee()->shoulder_radius_mm) < 1e-9);
                }
                // The strip's upper face lies under the tip, level, in the middle.
                const double tip = tipHeight_mm(scene, scene.punchDown_mm(angle));
                double nearest = 1e9;
                for (const PartBody& body : bodies) {
                    if (!body.is_new) continue;
                    for (const Slab& slab : body.slabs) {
                        for (const auto* ring : {&slab.lower, &slab.upper}) {
                            for (const Vec3& p : *ring)
                                nearest = std::min(nearest, (Vec2(p.y(), p.z()) - Vec2(0, tip)).norm());
                        }
                    }
                }
                CHECK(nearest < 1e-9);
            }
            formed |= bit(step.bends()[0]);
        }
    }
}

TEST_CASE(
    "the section of a fold on a press brake names its punch, die, ram, bed and back gauge; from above both rows are "
    "told") {
    const Shop shop = sample::pressShop();
    const Part part = sample::randomPart(3);
    const PartOnBrake folded = partOnBrake(part, shop, sample::inUse(shop.brakes[0], part.thickness_mm));
    const PartShapes shapes(folded);
    const ToolShapes tools(sample::inUse(shop.brakes[0]));
    const FoldStep step = sample::anyPlan(part, shop.brakes[0]).folds[0];
    const FoldScene scene(shapes, sample::inUse(shop.brakes[0], part.thickness_mm), {0, step.stroke, step.set_angle});
    const FoldView view = viewOf(scene, tools, step);
    const Drawing section = drawingsFor(*view.scene.brake()).section(view, "section");
    for (const char* words : {"die V12-100", "ram", "bed", "back gauge"}) {
        INFO(words);
        CHECK(hasLabel(section, words));
    }
    CHECK((hasLabel(section, "punch P100") || hasLabel(section, "punch P100L")));
    CHECK_FALSE(hasLabel(section, "leaf"));
    const Drawing top = drawingsFor(*view.scene.brake()).fromAbove(view, std::nullopt, "top");
    for (const char* words : {"punches", "dies", "P100L", "V12-100", "bend line", "back gauge"}) {
        INFO(words);
        CHECK(hasLabel(top, words));
    }
}

TEST_CASE("a punch with a horn is full wide under the horn's height alone") {
    const Shop shop = sample::pressShop();
    const ToolShapes tools(sample::inUse(shop.brakes[0]));
    const auto spanAt = [&](double z_mm) {
        double least = 1e9;
        double most = -1e9;
        for (const Slab& slab : tools.piece(ToolId{3}, Vec2(0, 0), 10, 110)) {
            const auto [low, high] = std::minmax_element(slab.lower.begin(), slab.lower.end(),
                                                         [](const Vec3& a, const Vec3& b) { return a.z() < b.z(); });
            if (low->z() > z_mm || high->z() < z_mm) continue;
            least = std::min(least, slab.lower.front().x());
            most = std::max(most, slab.upper.front().x());
        }
        return Vec2(least, most);
    };
    CHECK(spanAt(14.9).isApprox(Vec2(10, 110)));
    CHECK(spanAt(15.1).isApprox(Vec2(40, 110)));
}
