// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <charconv>
#include <optional>

#include <tinwright/base/units.h>
#include <tinwright/forming/vee_choice.h>
#include <tinwright/report/bars_text.h>

#include "commands.h"
#include "complain.h"
#include "exit_code.h"
#include "output_file.h"
#include "shop_file.h"

namespace tinwright::app {
namespace {

constexpr double kWidest_mm = 20'000;

Result<double> widthOf_mm(const std::string& text) {
    double value = 0;
    const char* const end = text.data() + text.size();
    const auto [rest, error] = std::from_chars(text.data(), end, value);
    const std::string_view unit(rest, static_cast<std::size_t>(end - rest));
    const double width_mm = unit == "in" ? value * kMmPerInch : value;
    if (error != std::errc() || !(unit.empty() || unit == "mm" || unit == "in") || !(width_mm > 0 && width_mm <= kWidest_mm)) {
        return Issue{"bars.width", "command line", "WIDTH", '"' + text + '"', "a length over 0, up to 20000 mm, like 74, 74mm or 2.9in", ""};
    }
    return width_mm;
}

Issues writeAll(const CommandLine& line, const std::vector<BarsAnswer>& answers, const Limits& limits) {
    if (line.json && *line.json == "-") return writeStandardOutput(barsJson(answers));
    if (line.json) {
        Issues issues = writeFile(*line.json, barsJson(answers), {line.shop_path});
        if (!issues.empty()) return issues;
    }
    return writeStandardOutput(barsText(answers, limits));
}

/// A press brake in each of its Vs: what stands beside the walls is their inside radius, and that is the V's.
std::vector<Brake> usesOf(const Brake& brake) {
    if (!brake.isPress()) return {brake};
    std::vector<Brake> uses;
    for (const Vee& vee : veesOf(brake)) uses.push_back(usingVee(brake, vee));
    return uses;
}

}  // namespace

int runBars(const CommandLine& line) {
    const Result<double> width_mm = widthOf_mm(line.width);
    if (!width_mm) return complain(width_mm.issues());
    const Result<Shop> shop = readShopFile(line.shop_path);
    if (!shop) return complain(shop.issues());
    const auto brakes = chosenBrakes(line, shop.value());
    if (!brakes) return complain(brakes.issues());
    std::vector<BarsAnswer> answers;
    for (const std::size_t brake : brakes.value()) {
        for (const Brake& use : usesOf(shop.value().brakes[brake])) answers.push_back(barsAnswer(use, shop.value().limits, width_mm.value()));
    }
    const Issues issues = writeAll(line, answers, shop.value().limits);
    if (!issues.empty()) return complain(issues);
    const bool any = std::any_of(answers.begin(), answers.end(), [](const BarsAnswer& answer) { return !answer.fits.empty(); });
    return any ? kFeasibleExit : kInfeasibleExit;
}

}  // namespace tinwright::app
