// SPDX-License-Identifier: GPL-3.0-or-later
// Instructive cross-sections of shop practice on the generic machines: parts by their flat lengths, 1.5 mm sheet,
// square bends. Source of the expected counts: a crude two-dimensional check with sharp bends (common practice, worked
// by hand); machines M100, M50 magnetic folder by bar depth, B finger brake, L plain leaf brake. Here bends have the
// machine's nose radius of 1 mm and a strip of their own, the bed is 50 mm deep at its front, and the corners of bars
// are round. Where the counts differ, the note says why.
#include <catch2/catch.hpp>

#include <tinwright/part/edges/section.h>

#include "plan_support.h"

namespace tinwright::test {

namespace {

struct Expected {
    const char* brake;
    Verdict verdict;
    const char* orders;
};

void check(const char* name, std::vector<double> flats_mm, std::vector<double> angles_deg,
           const std::vector<Expected>& expected) {
    Section section;
    section.name = name;
    section.flats_mm = std::move(flats_mm);
    section.angles_deg = std::move(angles_deg);
    section.length_mm = 200;
    section.inside_radius_mm = 1;
    const Part part = sectionPart(section);
    const Shop& shop = shippedShop();
    for (const Expected& one : expected) {
        CAPTURE(name, one.brake);
        const BrakeResult result = planVerified(part, shop, brakeNamed(shop, one.brake));
        CAPTURE(codesOf(result.reasons));
        CHECK(toText(result.verdict) == std::string(toText(one.verdict)));
        CHECK(result.orders_feasible == one.orders);
        if (result.verdict == Verdict::kInfeasible) CHECK_FALSE(result.reasons.empty());
    }
}

constexpr Verdict kYes = Verdict::kFeasible;
constexpr Verdict kNo = Verdict::kInfeasible;

}  // namespace

TEST_CASE("practice 2: a U 30/40/30 goes in any order") {
    check("U 30/40/30", {30, 40, 30}, {90, 90},
          {{"M100", kYes, "2"}, {"M50", kYes, "2"}, {"B", kYes, "2"}, {"L", kYes, "2"}});
}

TEST_CASE("practice 3: a U 70/40/70 goes where nothing stands over the bar, and nowhere else") {
    check("U 70/40/70", {70, 40, 70}, {90, 90},
          {{"M100", kYes, "2"}, {"M50", kYes, "2"}, {"B", kNo, "0"}, {"L", kNo, "0"}});
}

TEST_CASE("practice 4: a J 15/30/80 wants its lip first where a beam stands over the bar") {
    check("J 15/30/80", {15, 30, 80}, {90, 90},
          {{"M100", kYes, "2"}, {"M50", kYes, "2"}, {"B", kYes, "1"}, {"L", kYes, "1"}});
}

// Crude check: 24 of 24 on the magnetic folder. With bars 100 deep the web of 120 leaves the first leg no room behind
// them in the orders that fold both legs before the second lip, and the lip then meets the bed: 12 remain.
TEST_CASE("practice 5: a C 15/50/120/50/15 wants each lip before its own leg") {
    check("C 15/50/120/50/15", {15, 50, 120, 50, 15}, {90, 90, 90, 90},
          {{"M100", kYes, "12"}, {"M50", kYes, "24"}, {"B", kYes, "6"}, {"L", kNo, "0"}});
}

TEST_CASE("practice 6: a C 12/40/60/40/12 only goes with shallow bars") {
    check("C 12/40/60/40/12", {12, 40, 60, 40, 12}, {90, 90, 90, 90},
          {{"M100", kNo, "0"}, {"M50", kYes, "12"}, {"B", kNo, "0"}, {"L", kNo, "0"}});
}

// Crude check: 4 of 24, straight across, on L, B and M100: it draws the part straight out. On the plain brake 8 orders
// more end with a leg behind the bar that comes out under the raised beam when the part is tilted by 20 degrees. On the
// others the feet that hang down pass under a bed that is 50 deep, as the crude check's bed does not let them: more
// orders remain.
TEST_CASE("practice 7: a hat 20/40/60/40/20 is worked straight across") {
    check("hat 20/40/60/40/20", {20, 40, 60, 40, 20}, {-90, 90, 90, -90},
          {{"L", kYes, "12"}, {"M100", kYes, "8"}, {"B", kYes, "20"}});
}

TEST_CASE("practice 8: a hat 20/40/25/40/20 goes on no folder: the leg is longer than the web") {
    check("hat 20/40/25/40/20", {20, 40, 25, 40, 20}, {-90, 90, 90, -90},
          {{"M100", kNo, "0"}, {"M50", kNo, "0"}, {"B", kNo, "0"}, {"L", kNo, "0"}});
}

TEST_CASE("practice 9: the step of a Z must reach over the leaf") {
    check("Z 30/12/30", {30, 12, 30}, {90, -90}, {{"B", kYes, "2"}, {"L", kYes, "2"}});
    check("Z 30/16/30", {30, 16, 30}, {90, -90},
          {{"M100", kYes, "2"}, {"M50", kYes, "2"}, {"B", kYes, "2"}, {"L", kYes, "2"}});
    check("Z 30/6/30", {30, 6, 30}, {90, -90},
          {{"M100", kNo, "0"}, {"M50", kNo, "0"}, {"B", kNo, "0"}, {"L", kNo, "0"}});
}

TEST_CASE("practice 10: a spiral 12/25/50/90 is folded smallest first") {
    check("spiral 12/25/50/90", {12, 25, 50, 90}, {90, 90, 90},
          {{"M100", kYes, "1"}, {"B", kYes, "1"}, {"L", kYes, "1"}});
}

TEST_CASE(
    "practice 11: a tray 200 x 150 x 50 goes on the finger brake and on the folder, opposite walls and then across") {
    const Part part = partFrom(trayRecipe(200, 150, 50, 0));
    const Shop& shop = shippedShop();
    for (const char* brake : {"M50", "B"}) {
        const BrakeResult result = planVerified(part, shop, brakeNamed(shop, brake));
        CAPTURE(brake, codesOf(result.reasons));
        CHECK(result.verdict == Verdict::kFeasible);
    }
}

TEST_CASE(
    "practice 11b: the same with walls of 120 goes on the magnetic folder only; on the finger brake they hit the "
    "beam") {
    const Part part = partFrom(trayRecipe(200, 150, 120, 0));
    const Shop& shop = shippedShop();
    CHECK(planVerified(part, shop, brakeNamed(shop, "M50")).verdict == Verdict::kFeasible);
    const BrakeResult fingers = planVerified(part, shop, brakeNamed(shop, "B"));
    CHECK(fingers.verdict == Verdict::kInfeasible);
    CHECK(std::any_of(fingers.reasons.begin(), fingers.reasons.end(),
                      [](const Reason& reason) { return reason.body == BodyRef::Kind::kBeam; }));
}

// The seam is drawn 1 mm open: at 93° a seam of no gap runs into itself.
TEST_CASE("practice 12: a square duct goes on the magnetic folder, off its end, and meets the beam elsewhere") {
    check("duct 120", {59, 120, 120, 120, 60}, {90, 90, 90, 90}, {{"B", kNo, "0"}, {"L", kNo, "0"}});
    Section section;
    section.flats_mm = {59, 120, 120, 120, 60};
    section.angles_deg = {90, 90, 90, 90};
    section.length_mm = 200;
    section.inside_radius_mm = 1;
    const Shop& shop = shippedShop();
    const BrakeResult result = planVerified(sectionPart(section), shop, brakeNamed(shop, "M100"));
    CHECK(result.verdict == Verdict::kFeasible);
    REQUIRE_FALSE(result.plans.empty());
    // the bars end enclosed: they cannot lift, they slide out along the machine
    const FoldStep& last = result.plans.front().folds.back();
    CHECK(std::any_of(last.way_out.begin(), last.way_out.end(),
                      [](const ExitMove& move) { return move.kind == ExitMove::Kind::kPieceAlong; }));
}

}  // namespace tinwright::test
