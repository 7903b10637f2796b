// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <sstream>

#include <tinwright/report/text/text.h>

#include "sample.h"
#include "words/wrap.h"

using namespace tinwright;

namespace {

/// The text without its line breaks and indents, so that a test does not depend on where a line is broken.
std::string flowing(const std::string& text) {
    std::string out;
    std::istringstream words(text);
    for (std::string word; words >> word;) out += (out.empty() ? "" : " ") + word;
    return out;
}

bool has(const std::string& text, const std::string& part) { return flowing(text).find(part) != std::string::npos; }

std::size_t longestLine(const std::string& text) {
    std::size_t longest = 0;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) longest = std::max(longest, report::columns(line));
    return longest;
}

struct Sample {
    Part part = sample::channel();
    Shop shop = sample::shop();
};

}  // namespace

TEST_CASE_METHOD(Sample, "a feasible plan says verdict, orders, bars, sight line, angles and clearance") {
    const std::string text = planText(sample::feasible(part, shop));
    CAPTURE(text);
    CHECK(text.starts_with("FEASIBLE: channel can be folded on bench magnet."));
    CHECK(has(text, "2 of 2 orders work"));
    CHECK(has(text, "Fold 2 of 2: back-bend"));
    CHECK(has(text, "base under the bars, drawn face up; turn it 180°"));
    CHECK(
        has(text,
            "B60 0 to 60 | B40 60 to 100 mm to the right of edge base.left, which is flush with the bend's left end"));
    CHECK(has(text, "28.2 mm from edge front.edge"));
    CHECK(has(text, "set 93° for 90°"));
    CHECK(has(text, "at least 1.2 mm, front to bar B60"));
    CHECK_FALSE(has(text, "Way out"));  // everything lifts straight off
    CHECK(longestLine(text) <= kReportColumns);
}

TEST_CASE_METHOD(Sample, "the way out is told when it is not plain") {
    PlanReport report = sample::feasible(part, shop);
    std::vector<ExitMove>& way = report.brakes[0].result.plans[0].folds[1].way_out;
    way[0].kind = ExitMove::Kind::kPieceAlong;
    way[0].path = {{-20, 0, 0, 0}, {-20, 0, 60, 0}};
    const std::string text = planText(report);
    CAPTURE(text);
    CHECK(has(text, "bar B60 (1 from left): slide 20 mm to the left, then lift out"));
}

TEST_CASE_METHOD(Sample, "a clearance under what the shop wants is marked tight") {
    PlanReport report = sample::feasible(part, shop);
    report.brakes[0].result.plans[0].tight = true;
    CHECK(has(planText(report), "TIGHT: the shop wants 0.5 mm"));
}

TEST_CASE_METHOD(Sample, "next best orders take a line and say what differs") {
    PlanReport report = sample::feasible(part, shop);
    std::vector<Plan>& plans = report.brakes[0].result.plans;
    plans.push_back(plans[0]);
    plans[1].rank = 2;
    std::swap(plans[1].folds[0], plans[1].folds[1]);
    plans.push_back(plans[0]);
    plans[2].rank = 3;
    plans[2].folds[1].stroke.hold = Side::kChild;
    const std::string text = planText(report);
    CAPTURE(text);
    CHECK(has(text, "2. 2 min 10 s, clearance 1.2 mm: back-bend, front-bend 3."));
    CHECK(has(text, "3. 2 min 10 s, clearance 1.2 mm: same order, but fold 2 holds back Safety"));
}

TEST_CASE_METHOD(Sample, "none: the reason for either side held, and what was looked at") {
    const std::string text = planText(sample::infeasible(part, shop));
    CAPTURE(text);
    CHECK(text.starts_with("INFEASIBLE: channel cannot be folded on finger: no order works."));
    CHECK(has(text, "back-bend, holding base: front hits the bar at about 66° and would go 2.5 mm into it"));
    CHECK(has(text, "back-bend, holding back: back gives less than"));
    CHECK(has(text, "rigid flat panels, one stroke a bend"));
    CHECK(longestLine(text) <= kReportColumns);
}

TEST_CASE_METHOD(Sample, "a plan that fails its replay is called not verified, at the top and where it stands") {
    PlanReport report = sample::feasible(part, shop);
    report.verdict = Verdict::kUndecided;
    report.brakes[0].result.verdict = Verdict::kUndecided;
    report.brakes[0].checks = {{true, {"fold 2: front meets bar B60 at 66°"}}};
    const std::string text = planText(report);
    CAPTURE(text);
    CHECK(has(text, "FAILED its independent replay"));
    CHECK(has(text, "NOT VERIFIED"));
    CHECK(has(text, "fold 2: front meets bar B60 at 66°"));
    CHECK_FALSE(has(text, "FEASIBLE: channel"));
}

TEST_CASE_METHOD(Sample, "cautions suit the kind of brake and put the machine's manual first") {
    const std::string magnetic = planText(sample::feasible(part, shop));
    const std::string finger = planText(sample::infeasible(part, shop));
    CHECK(has(magnetic, "energised bed"));
    CHECK_FALSE(has(magnetic, "tighten every piece"));
    CHECK(has(finger, "tighten every piece"));
    CHECK_FALSE(has(finger, "pacemaker"));
    for (const std::string& text : {magnetic, finger}) CHECK(has(text, "licensed practice come first"));
}

TEST_CASE_METHOD(Sample, "long names keep to the columns and cannot move the cursor") {
    part.name = std::string(150, 'n') + "\x1b[2J";
    part.panels[0].name = std::string(64, 'p');
    part.edges[0].name = std::string(130, 'e');
    part.bends[0].name = std::string(64, 'b');
    const std::string text = planText(sample::feasible(part, shop));
    CHECK(longestLine(text) <= kReportColumns);
    CHECK_FALSE(has(text, "\x1b"));
}

TEST_CASE("one feasible brake makes the whole feasible, one open brake keeps it open") {
    const auto with = [](std::vector<Verdict> verdicts) {
        std::vector<BrakeReport> brakes(verdicts.size());
        for (std::size_t i = 0; i < verdicts.size(); ++i) brakes[i].result.verdict = verdicts[i];
        return overallVerdict(brakes);
    };
    CHECK(with({Verdict::kInfeasible, Verdict::kFeasible, Verdict::kUndecided}) == Verdict::kFeasible);
    CHECK(with({Verdict::kInfeasible, Verdict::kUndecided}) == Verdict::kUndecided);
    CHECK(with({Verdict::kInfeasible, Verdict::kInfeasible}) == Verdict::kInfeasible);
    CHECK(with({}) == Verdict::kInfeasible);
}
