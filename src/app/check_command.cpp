// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <tinwright/forming/check.h>
#include <tinwright/forming/cut_plan.h>
#include <tinwright/io/materials_io.h>
#include <tinwright/io/shop_io.h>
#include <tinwright/report/check_report.h>

#include "commands.h"
#include "complain.h"
#include "exit_code.h"
#include "output_file.h"
#include "part_file.h"

namespace tinwright::app {
namespace {

/// A shop that may be absent, with the brakes asked about.
struct ShopAsked {
    Shop shop;
    std::vector<std::size_t> brakes;
};

Issue brakeWithoutShop() { return {"check.brake", "command line", "--brake", "no --shop", "--shop FILE, which has the brake", ""}; }

Result<ShopAsked> readAsked(const CommandLine& line) {
    if (line.shop_path.empty() && line.brake) return brakeWithoutShop();
    if (line.shop_path.empty()) return ShopAsked{};
    Result<Shop> shop = readShop(line.shop_path);
    if (!shop) return shop.issues();
    auto brakes = chosenBrakes(line, shop.value());
    if (!brakes) return brakes.issues();
    return ShopAsked{std::move(shop).value(), std::move(brakes).value()};
}

CheckReport reportOf(const Part& part, const Material* material, const ShopAsked& asked) {
    CheckReport report{.part = part, .shop = asked.shop.name, .brakes = {}, .clamps = {}, .findings = partFindings(part, material), .warnings = part.warnings};
    const auto add = [&](const std::vector<Finding>& more) { report.findings.insert(report.findings.end(), more.begin(), more.end()); };
    for (const std::size_t brake : asked.brakes) {
        report.brakes.push_back(asked.shop.brakes[brake].name);
        report.clamps.push_back(asked.shop.brakes[brake].clamp);
        add(brakeFindings(part, material, asked.shop, asked.shop.brakes[brake]));
    }
    if (asked.shop.cutting) add(cutPlan(part, *asked.shop.cutting).findings);
    if (asked.brakes.empty()) add(webFindings(part, material));
    sortFindings(report.findings);
    return report;
}

Issues writeAll(const CommandLine& line, const CheckReport& report) {
    if (line.json && *line.json == "-") return writeStandardOutput(checkJson(report));
    if (line.json) {
        Issues issues = writeFile(*line.json, checkJson(report), inputFiles(line));
        if (!issues.empty()) return issues;
    }
    return writeStandardOutput(checkText(report));
}

}  // namespace

int runCheck(const CommandLine& line) {
    const Result<Part> part = readPart(line);
    const Result<ShopAsked> asked = readAsked(line);
    const Result<Materials> materials = readShippedMaterials();
    Issues issues;
    if (!part) append(issues, part.issues());
    if (!asked) append(issues, asked.issues());
    if (!materials) append(issues, materials.issues());
    if (!issues.empty()) return complain(issues);
    const CheckReport report = reportOf(part.value(), materials.value().find(part.value().material), asked.value());
    const Issues written = writeAll(line, report);
    if (!written.empty()) return complain(written);
    const bool fault = std::any_of(report.findings.begin(), report.findings.end(), [](const Finding& finding) { return finding.gravity == Gravity::kFault; });
    return fault ? kInfeasibleExit : kFeasibleExit;
}

}  // namespace tinwright::app
