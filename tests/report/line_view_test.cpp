// SPDX-License-Identifier: GPL-3.0-or-later
// Hidden lines, checked by asking of points along every edge whether some face lies between them and the viewer.
#include <catch2/catch.hpp>

#include <cmath>

#include "drawings/line_view.h"
#include "drawings/piece_outline.h"
#include "scene/fold_scene.h"
#include "sheet_cases.h"

using namespace tinwright;
using namespace tinwright::report;

namespace {

Face3 square(const Vec3& centre, const Vec3& a, const Vec3& b) {
    return {{centre - a - b, centre + a - b, centre + a + b, centre - a + b}};
}

double lengthOf(const std::vector<FlatEdge>& edges) {
    double sum = 0;
    for (const FlatEdge& edge : edges) sum += (edge.to - edge.from).norm();
    return sum;
}

/// How far a ray from the point to the viewer goes until it meets a face's inside; infinity when it meets none. Moeller
/// and Trumbore's test on the fan of triangles.
bool isHidden(const Vec3& point, const std::vector<Face3>& faces, const Vec3& toward, double least_mm) {
    for (const Face3& face : faces) {
        for (std::size_t i = 2; i < face.ring.size(); ++i) {
            const Vec3 e1 = face.ring[i - 1] - face.ring[0];
            const Vec3 e2 = face.ring[i] - face.ring[0];
            const Vec3 p = toward.cross(e2);
            const double det = e1.dot(p);
            if (std::abs(det) < 1e-9) continue;
            const Vec3 s = point - face.ring[0];
            const double u = s.dot(p) / det;
            const Vec3 q = s.cross(e1);
            const double v = toward.dot(q) / det;
            const double t = e2.dot(q) / det;
            if (u > 1e-6 && v > 1e-6 && u + v < 1 - 1e-6 && t > least_mm) return true;
        }
    }
    return false;
}

}  // namespace

TEST_CASE("three panels that overlap in a ring hide one another in part, which no order of painting shows") {
    // Each bar of the ring runs over the next one: a painter could begin with none of them.
    PartLines lines;
    const double turn = 2 * 3.14159265358979 / 3;
    for (int i = 0; i < 3; ++i) {
        const Vec3 along(std::cos(i * turn), std::sin(i * turn), 0);
        const Vec3 across(-along.y(), along.x(), 0);
        const Vec3 tilted = (along + Vec3(0, 0, 0.2)).normalized();
        const Face3 bar = square(3 * across, 10 * tilted, 1 * across);
        lines.faces.push_back(bar);
        for (std::size_t k = 0; k < 4; ++k) lines.edges.push_back({bar.ring[k], bar.ring[(k + 1) % 4], 0});
    }
    const std::vector<FlatEdge> seen = visibleEdges(lines, fromAbove());
    double whole = 0;
    for (const Edge3& edge : lines.edges) whole += (fromAbove().flat(edge.to) - fromAbove().flat(edge.from)).norm();
    // Every bar loses two stretches of edge, both long sides where it dives under: by symmetry a multiple of three.
    CHECK(lengthOf(seen) < whole - 6);
    CHECK(std::fmod((whole - lengthOf(seen)) / 3.0, 1e6) > 2);
    for (int bar = 0; bar < 3; ++bar) {
        std::vector<FlatEdge> of_bar;
        PartLines one{{lines.edges.begin() + 4 * bar, lines.edges.begin() + 4 * bar + 4}, lines.faces};
        CHECK(lengthOf(visibleEdges(one, fromAbove())) == Approx(lengthOf(seen) / 3).margin(0.02));
    }
}

TEST_CASE("what is shown of random parts is what rays to the viewer say") {
    const Shop shop = sample::smallShop();
    const Sight sight = fromFront(Angle::degrees(38), Angle::degrees(32));
    long asked = 0;
    long differing = 0;
    for (unsigned seed = 1; seed <= 25; ++seed) {
        const Part part = sample::randomPart(seed);
        const PartOnBrake folded = partOnBrake(part, shop, sample::inUse(shop.brakes[0], part.thickness_mm));
        const PartShapes shapes(folded);
        const BendMask all = allFormed(part);
        const BendId last = idAt<BendId>(part.bends.size() - 1);
        const FoldScene scene(shapes, sample::inUse(shop.brakes[0], part.thickness_mm),
                              {all & ~bit(last), {bit(last), Side::kParent}, part.bend(last).angle});
        const PartLines lines = partLines(scene, scene.after());
        for (const Edge3& edge : lines.edges) {
            const std::vector<FlatEdge> seen = visibleEdges({{edge}, lines.faces}, sight);
            const Vec2 from = sight.flat(edge.from);
            const Vec2 way = sight.flat(edge.to) - from;
            if (way.norm() < 0.5) continue;
            for (const double at : {0.21, 0.53, 0.87}) {
                const auto covers = [&](const FlatEdge& s) {
                    const double a = (s.from - from).dot(way) / way.squaredNorm();
                    const double b = (s.to - from).dot(way) / way.squaredNorm();
                    return a <= at && at <= b;
                };
                const bool shown = std::any_of(seen.begin(), seen.end(), covers);
                ++asked;
                if (shown == isHidden(edge.from + at * (edge.to - edge.from), lines.faces, sight.toward, 0.05))
                    ++differing;
            }
        }
    }
    CHECK(asked > 5000);
    INFO(differing << " of " << asked << " points differ");
    // At the rim of a face the two may differ by a hair.
    CHECK(differing < asked / 100);
}

TEST_CASE("the scene of a fold ends where the part's poses have it") {
    const Shop shop = sample::smallShop();
    for (unsigned seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        const Part part = sample::randomPart(seed);
        const PartOnBrake folded = partOnBrake(part, shop, sample::inUse(shop.brakes[0], part.thickness_mm));
        const PartShapes shapes(folded);
        BendMask formed = 0;
        for (std::size_t i = 0; i < part.bends.size(); ++i) {
            const BendId id = idAt<BendId>(i);
            const Side hold = i % 2 == 0 ? Side::kParent : Side::kChild;
            const FoldScene scene(shapes, sample::inUse(shop.brakes[0], part.thickness_mm),
                                  {formed, {bit(id), hold}, part.bend(id).angle + Angle::degrees(3)});
            const std::vector<PartBody> before = scene.at(Angle());
            const std::vector<PartBody> after = scene.after();
            const std::vector<Rigid> flat = baseFromPanels(part, formed, 1);
            formed |= bit(id);
            const std::vector<Rigid> bent = baseFromPanels(part, formed, 1);
            for (std::size_t p = 0; p < part.panels.size(); ++p) {
                CHECK((before[0].pose.inverse() * before[p].pose).isApprox(flat[p], 1e-9));
                CHECK((after[0].pose.inverse() * after[p].pose).isApprox(bent[p], 1e-9));
            }
            // The held side lies on the bed.
            const PanelId held = hold == Side::kParent ? part.bend(id).parent : part.bend(id).child;
            for (const Vec2& point : part.panel(held).region.outline) {
                const double z0 = (after[held.index()].pose * Vec3(point.x(), point.y(), 0)).z();
                const double z1 = (after[held.index()].pose * Vec3(point.x(), point.y(), part.thickness_mm)).z();
                CHECK(std::min(z0, z1) == Approx(0).margin(1e-9));
                CHECK(std::max(z0, z1) == Approx(part.thickness_mm).margin(1e-9));
            }
        }
    }
}

TEST_CASE("the border of pieces is that of their union") {
    const auto box = [](double x0, double y0, double x1, double y1) {
        return Polygon{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
    };
    const auto length = [](const PieceOutline& outline) {
        double sum = 0;
        for (const auto& [from, to] : outline.border) sum += (to - from).norm();
        return sum;
    };
    CHECK(length(outlineOf({box(0, 0, 2, 1)})) == Approx(6));
    CHECK(length(outlineOf({box(0, 0, 1, 1), box(1, 0, 2, 1)})) == Approx(6).margin(0.001));   // back to back
    CHECK(length(outlineOf({box(0, 0, 2, 1), box(0, 0, 2, 1)})) == Approx(6).margin(0.001));   // one on the other
    CHECK(length(outlineOf({box(0, 0, 2, 2), box(1, 1, 3, 3)})) == Approx(12).margin(0.001));  // overlapping corners
    CHECK(length(outlineOf({box(0, 0, 4, 4), box(1, 1, 2, 2)})) == Approx(16).margin(0.001));  // one inside the other
    CHECK(length(outlineOf({box(0, 0, 2, 1), box(0, 0, 1, 3)})) == Approx(10).margin(0.001));  // an L, in part along
                                                                                               // one line
}
