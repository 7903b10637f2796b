// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/report/text/text.h>

#include "sample.h"

using namespace tinwright;

namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TryReport tried(const Part& part, const Shop& shop) {
    TryReport report{part, shop, 0, {{BendId{0}}, {BendId{1}}}, {BrakeTry{}}, {}};
    TriedStep first;
    first.bends = {BendId{0}};
    first.possible = true;
    first.step = sample::channelPlan().folds[0];
    report.brakes[0].result.brake = inSetup(shop.brakes[0], part.thickness_mm);
    report.brakes[0].result.steps = {first};
    return report;
}

TriedStep failing(bool undecided) {
    TriedStep step;
    step.bends = {BendId{1}};
    step.undecided = undecided;
    step.reasons = {sample::frontHitsBar()};
    return step;
}

}  // namespace

TEST_CASE("an order that stops says where, what hits, and what was not looked at") {
    const Part part = sample::channel();
    const Shop shop = sample::shop();
    TryReport report = tried(part, shop);
    report.order.push_back({BendId{0}});
    report.brakes[0].result.steps.push_back(failing(false));
    const std::string text = tryText(report);
    CAPTURE(text);
    CHECK(text.starts_with("THIS ORDER DOES NOT WORK: channel on bench magnet stops at fold 2 of 3."));
    CHECK(has(text, "Fold 1 of 3: front-bend"));
    CHECK(has(text, "Fold 2 of 3: back-bend cannot be made"));
    CHECK(has(text, "back-bend, holding base: front hits the bar at about 66° and would go 2.5 mm into it"));
    CHECK(has(text, "Not looked at, since the order stops before: front-bend"));
}

TEST_CASE("an order that works says so, and names what is still flat") {
    const Part part = sample::channel();
    const Shop shop = sample::shop();
    TryReport report = tried(part, shop);
    report.order.pop_back();
    report.brakes[0].result.verdict = Verdict::kFeasible;
    const std::string text = tryText(report);
    CAPTURE(text);
    CHECK(text.starts_with("THIS ORDER WORKS: channel on bench magnet, 1 fold."));
    CHECK(has(text, "Still flat after it: back-bend"));
}

TEST_CASE("an order that could not be decided is not called a failure") {
    const Part part = sample::channel();
    const Shop shop = sample::shop();
    TryReport report = tried(part, shop);
    report.brakes[0].result.verdict = Verdict::kUndecided;
    report.brakes[0].result.steps.push_back(failing(true));
    const std::string text = tryText(report);
    CAPTURE(text);
    CHECK(text.starts_with("UNDECIDED: channel on bench magnet stops at fold 2 of 2."));
    CHECK(has(text, "back-bend could not be decided"));
}
