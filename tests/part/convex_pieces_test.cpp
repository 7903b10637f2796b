// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <cmath>

#include <tinwright/geometry/planar.h>

using namespace tinwright;

namespace {

bool isConvexRing(const Polygon& p) {
    for (std::size_t i = 0; i < p.size(); ++i) {
        const Vec2 in = p[(i + 1) % p.size()] - p[i], out = p[(i + 2) % p.size()] - p[(i + 1) % p.size()];
        if (in.x() * out.y() - in.y() * out.x() < -1e-9 * in.norm() * out.norm()) return false;
    }
    return true;
}

// A plate with a grid of round holes of 16 corners each.
Region perforated(int holes_a_side) {
    const double side = 20.0 * holes_a_side;
    Region region{{{0, 0}, {side, 0}, {side, side}, {0, side}}, {}};
    for (int i = 0; i < holes_a_side * holes_a_side; ++i) {
        Polygon hole;
        for (int k = 0; k < 16; ++k) {
            const double at = 2 * 3.14159265358979 * k / 16;
            hole.push_back(
                {10 + 20.0 * (i % holes_a_side) + 7 * std::cos(at), 10 + 20.0 * (i / holes_a_side) + 7 * std::sin(at)});
        }
        region.holes.push_back(hole);
    }
    return region;
}

}  // namespace

TEST_CASE("convex pieces cover a perforated plate without overlap, each of them convex") {
    for (const int n : {1, 3, 12}) {  // 12: minutes when merging is cubic in the number of pieces
        const Region region = perforated(n);
        double area = 0;
        const auto pieces = convexPieces(region);
        for (const Polygon& piece : pieces) {
            CHECK(isConvexRing(piece));
            area += signedArea_mm2(piece);
        }
        CHECK(area == Approx(area_mm2(region)).epsilon(1e-9));
        CHECK(pieces.size() < static_cast<std::size_t>(16 * n * n + 8));  // at most about one a reflex corner
        double twice = 0;
        for (std::size_t a = 0; n < 12 && a < pieces.size(); ++a) {
            for (std::size_t b = a + 1; b < pieces.size(); ++b) {
                for (const Region& shared : intersection({pieces[a], {}}, pieces[b])) twice += area_mm2(shared);
            }
        }
        CHECK(twice == Approx(0).margin(1e-6));
    }
}
