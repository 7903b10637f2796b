// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

#include <nlohmann/json.hpp>

#include <tinwright/report/json/plan_json.h>

#include "../schema/schema_check.h"
#include "sample.h"

using namespace tinwright;

namespace {

nlohmann::json written(const PlanReport& report) { return nlohmann::json::parse(planJson(report)); }

}  // namespace

TEST_CASE("a plan holds to the published schema") {
    const Part part = sample::channel();
    const Shop shop = sample::shop();
    CHECK(test::schemaComplaints(written(sample::feasible(part, shop)), "plan").empty());
    CHECK(test::schemaComplaints(written(sample::infeasible(part, shop)), "plan").empty());
}

TEST_CASE("the schema is not one that accepts anything") {
    const Part part = sample::channel();
    const Shop shop = sample::shop();
    const nlohmann::json good = written(sample::feasible(part, shop));
    for (const char* field : {"verdict", "brakes", "format", "warnings"}) {
        nlohmann::json bad = good;
        bad.erase(field);
        INFO(field);
        CHECK_FALSE(test::schemaComplaints(bad, "plan").empty());
    }
    nlohmann::json bad = good;
    bad["brakes"][0]["plans"][0]["folds"][0]["face_up"] = "left";
    CHECK_FALSE(test::schemaComplaints(bad, "plan").empty());
    bad = good;
    bad["brakes"][0]["plans"][0]["folds"][0]["more"] = 1;
    CHECK_FALSE(test::schemaComplaints(bad, "plan").empty());
}

TEST_CASE("fields say what the plan says") {
    const Part part = sample::channel();
    const Shop shop = sample::shop();
    const nlohmann::json json = written(sample::feasible(part, shop));
    CHECK(json["format"] == "tinwright-plan/1");
    const nlohmann::json& plan = json["brakes"][0]["plans"][0];
    CHECK(plan["cost_s"] == 130.0);
    CHECK(plan["worst_clearance_mm"] == 1.235);  // rounded to 0.001 mm
    CHECK(plan["verified"].is_null());
    const nlohmann::json& fold = plan["folds"][1];
    CHECK(fold["bends"] == nlohmann::json{"back-bend"});
    CHECK(fold["held"] == nlohmann::json{"base"});
    CHECK(fold["face_up"] == "drawn");
    CHECK(fold["bars"][1] == nlohmann::json{{"id", "B40"}, {"from_mm", 60.0}, {"to_mm", 100.0}});
    CHECK(fold["bars_edge"]["edge"] == "base.right");
    CHECK(fold["set_angle_deg"] == 93.0);
    CHECK(fold["way_out"][2]["move"] == "part-up");
    CHECK(fold["way_out"][2]["bar"].is_null());
}

TEST_CASE("reasons name the fold, the side held and the words; unknown counts are null") {
    const Part part = sample::channel();
    const Shop shop = sample::shop();
    PlanReport report = sample::infeasible(part, shop);
    report.brakes[0].result.orders_total.clear();
    const nlohmann::json brake = written(report)["brakes"][0];
    CHECK(brake["orders_feasible"] == "0");
    CHECK(brake["orders_total"].is_null());
    CHECK(brake["model"] == "rigid flat panels, one stroke a bend");
    CHECK(brake["reasons"][0]["held"] == "base");
    CHECK(brake["reasons"][1]["held"] == "back");
    CHECK(brake["reasons"][1]["panel"] == "back");
    CHECK(brake["reasons"][1]["body"].is_null());
    CHECK(brake["reasons"][1]["code"] == "no-land");
}

TEST_CASE("a plan that fails its replay says so") {
    const Part part = sample::channel();
    const Shop shop = sample::shop();
    PlanReport report = sample::feasible(part, shop);
    report.brakes[0].checks = {{true, {"fold 2: front meets bar B60 at 66°"}}};
    const nlohmann::json plan = written(report)["brakes"][0]["plans"][0];
    CHECK(plan["verified"] == false);
    CHECK(plan["findings"].size() == 1);
}

TEST_CASE("what is not finite is null and no zero is negative") {
    const Part part = sample::channel();
    const Shop shop = sample::shop();
    PlanReport report = sample::feasible(part, shop);
    FoldStep& step = report.brakes[0].result.plans[0].folds[0];
    step.clearance_mm = std::numeric_limits<double>::infinity();
    step.overhang_mm = -1e-9;
    const std::string text = planJson(report);
    CHECK(text.find("nan") == std::string::npos);
    CHECK(text.find("inf,") == std::string::npos);
    CHECK(text.find("-0.0") == std::string::npos);
    CHECK(nlohmann::json::parse(text)["brakes"][0]["plans"][0]["folds"][0]["clearance_mm"].is_null());
    CHECK(test::schemaComplaints(nlohmann::json::parse(text), "plan").empty());
}

TEST_CASE("bytes that are not UTF-8 do not stop the writing") {
    const Part part = sample::channel();
    const Shop shop = sample::shop();
    PlanReport report = sample::feasible(part, shop);
    report.warnings = {"file \xFF"};
    CHECK_NOTHROW(nlohmann::json::parse(planJson(report)));
}
