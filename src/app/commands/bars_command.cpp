// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <set>

#include <fmt/format.h>

#include <tinwright/base/units.h>
#include <tinwright/base/words.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/vee_choice.h>
#include <tinwright/report/text/bars_text.h>

#include "commands/commands.h"
#include "console/complain.h"
#include "console/exit_code.h"
#include "files/inputs.h"
#include "files/output_file.h"
#include "files/shop_file.h"

namespace tinwright::app {
namespace {

constexpr const char* kBarsHelp =
    "Examples:\n"
    "  tinwright bars 74 --shop shop.json\n"
    "  tinwright bars 2.9in --shop shop.json --brake finger\n"
    "  tinwright bars 74 --shop shop.json --brake press --vee 10\n"
    "      punches; walls that were bent in another V have another inside radius\n"
    "Exit codes: 0 a string comes under it on some brake, 1 none does, 2 bad input or usage.\n";

struct BarsArguments {
    std::string width;  ///< "74", "74mm", "2.9in"
    ShopChoice shop;
    std::optional<double> vee_mm;     ///< opening of the only V asked about
    std::optional<std::string> json;  ///< file, or "-"
};

std::vector<Option> barsOptions(BarsArguments& arguments) {
    std::vector<Option> options{{.name = "WIDTH",
                                 .target = &arguments.width,
                                 .meaning = "the inside width: 74, 74mm or 2.9in",
                                 .required = true}};
    append(options, shopOptions(arguments.shop));
    append(options, {numberOption(kVeeOption, arguments.vee_mm), jsonOption("answer", arguments.json)});
    return options;
}

constexpr double kWidest_mm = 20'000;

Result<double> widthOf_mm(const std::string& text) {
    double value = 0;
    const char* const end = text.data() + text.size();
    const auto [rest, error] = std::from_chars(text.data(), end, value);
    const std::string_view unit(rest, static_cast<std::size_t>(end - rest));
    const double width_mm = unit == "in" ? value * kMmPerInch : value;
    if (error != std::errc() || !(unit.empty() || unit == "mm" || unit == "in") ||
        !(width_mm > 0 && width_mm <= kWidest_mm)) {
        return Issue{"bars.width",
                     "command line",
                     "WIDTH",
                     '"' + text + '"',
                     "a length over 0, up to 20000 mm, like 74, 74mm or 2.9in",
                     ""};
    }
    return width_mm;
}

/// Of no sheet: widths alone are asked about.
std::vector<BrakeInSetup> usesOfKind(const LeafBrake&, const Brake& brake, const std::optional<double>& /*vee_mm*/) {
    return {inSetup(brake, 0)};
}

/// In each V: what stands beside the walls is their inside radius, and that is the V's.
std::vector<BrakeInSetup> usesOfKind(const PressBrake&, const Brake& brake, const std::optional<double>& vee_mm) {
    std::vector<BrakeInSetup> uses;
    for (const Vee& vee : veesOf(brake)) {
        if (!vee_mm || isCalled(vee, *vee_mm)) uses.push_back(usingVee(brake, vee));
    }
    return uses;
}

std::vector<BrakeInSetup> usesOf(const Brake& brake, const std::optional<double>& vee_mm) {
    return std::visit([&](const auto& kind) { return usesOfKind(kind, brake, vee_mm); }, brake.kind);
}

/// No press brake that is asked about has a V of that opening.
Issues checkVee(const std::optional<double>& vee_mm, const Shop& shop, const std::vector<std::size_t>& brakes) {
    if (!vee_mm) return {};
    std::set<double> openings_mm;
    bool found = false;
    for (const std::size_t brake : brakes) {
        for (const Vee& vee : veesOf(shop.brakes[brake])) {
            openings_mm.insert(vee.opening_mm);
            found = found || isCalled(vee, *vee_mm);
        }
    }
    if (found) return {};
    const std::string known =
        joined(openings_mm, ", ", [](double opening_mm) { return fmt::format("{:.4g}", opening_mm); });
    return {{"bars.vee", "command line", "--vee", fmt::format("{:.4g}", *vee_mm),
             known.empty() ? "a press brake among the brakes asked about" : "one of the Vs that there are: " + known,
             ""}};
}

int runBars(const BarsArguments& arguments) {
    const Result<double> width_mm = widthOf_mm(arguments.width);
    if (!width_mm) return complain(width_mm.issues());
    const Result<Shop> shop = readShopFile(arguments.shop.path);
    if (!shop) return complain(shop.issues());
    const auto brakes = chosenBrakes(arguments.shop, shop.value());
    if (!brakes) return complain(brakes.issues());
    if (const Issues issues = checkVee(arguments.vee_mm, shop.value(), brakes.value()); !issues.empty())
        return complain(issues);
    std::vector<BarsAnswer> answers;
    for (const std::size_t brake : brakes.value()) {
        for (const BrakeInSetup& use : usesOf(shop.value().brakes[brake], arguments.vee_mm))
            answers.push_back(barsAnswer(use, shop.value().limits, width_mm.value()));
    }
    const Issues issues = writeAnswer(
        arguments.json, {arguments.shop.path}, [&] { return barsJson(answers); },
        [&] { return barsText(answers, shop.value().limits); });
    if (!issues.empty()) return complain(issues);
    const bool any =
        std::any_of(answers.begin(), answers.end(), [](const BarsAnswer& answer) { return !answer.fits.empty(); });
    return any ? kFeasibleExit : kInfeasibleExit;
}

}  // namespace

Command barsCommand() {
    return makeCommand(
        "bars",
        "Which strings of bars, or of punches, come under an inside width, and which widths next to it suit them.",
        kBarsHelp, barsOptions, runBars);
}

}  // namespace tinwright::app
