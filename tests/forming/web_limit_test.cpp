// SPDX-License-Identifier: GPL-3.0-or-later
// The web check against a numeric limit analysis that shares nothing with it (plate_limit.h). All webs are wide, so
// that both take the same plastic moment for a mm of hinge. The programme may use any mechanism on its grid, the check
// only straight lines: it can come out safer than the programme by what such mechanisms save, and never more than the
// mesh and the bearing inset the other way round.
#include <catch2/catch.hpp>

#include <cmath>

#include "legs.h"
#include "plate_limit.h"

using namespace tinwright;
using namespace tinwright::forming;
using namespace tinwright::test;

namespace {

constexpr double kThin_mm = 0.2;  // every web is wider than 8 thicknesses
constexpr double kHardening = 1.1;
constexpr double kCell_mm = 2.5;
constexpr int kColumns = 40;  // 100 mm
constexpr int kRows = 10;     // 25 mm, as deep as the leaf reaches

Polygon asPolygon(const CellWindow& w) {
    return box(w.left * kCell_mm, w.low * kCell_mm, w.right * kCell_mm, w.high * kCell_mm);
}

double checkedRatio(const std::vector<CellWindow>& windows) {
    std::vector<Polygon> polygons;
    for (const CellWindow& window : windows) polygons.push_back(asPolygon(window));
    const Leg leg = legWith(kColumns * kCell_mm, kRows * kCell_mm, polygons);
    const auto section = worstSection(leg, {kRows * kCell_mm, kHardening, kThin_mm});
    return section ? section->ratio() : 0;
}

double programmeRatio(const std::vector<CellWindow>& windows) {
    return 1 / collapseFactor({kColumns, kRows, kCell_mm, kHardening, 1.0, windows});
}

}  // namespace

TEST_CASE("limit analysis: without windows the bend line goes first, and the programme finds the plate's own load") {
    CHECK(collapseFactor({kColumns, kRows, kCell_mm, 1.0, 1.2, {}}) == Approx(1).epsilon(1e-6));
    CHECK(collapseFactor({kColumns, kRows, kCell_mm, 1.2, 1.0, {}}) ==
          Approx((1 / 1.2) / (1 - 1.0 / kRows)).epsilon(1e-6));  // along the first line of the grid
}

TEST_CASE("limit analysis: the check and the programme agree on trend and threshold as a window widens") {
    double before = 0;
    for (const int half : {6, 8, 10, 12, 14, 16, 18}) {
        const std::vector<CellWindow> windows{{kColumns / 2 - half, kColumns / 2 + half, 4, 7}};
        const double checked = checkedRatio(windows);
        const double programme = programmeRatio(windows);
        CAPTURE(half, checked, programme);
        CHECK(checked > before);
        before = checked;
        if (checked > 1.02) CHECK(programme > 1);          // both say that it folds at the window
        if (checked < 0.85) CHECK(programme <= 1 + 1e-6);  // both say that it does not
        if (checked > 1) CHECK(std::abs(programme / checked - 1) < 0.15);
    }
}
