// SPDX-License-Identifier: GPL-3.0-or-later
#include <filesystem>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <tinwright/base/words.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/drawn_radius.h>
#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/start/start_part.h>
#include <tinwright/sequence/remedies/suit.h>

#include "commands/commands.h"
#include "commands/start_arguments.h"
#include "console/complain.h"
#include "console/exit_code.h"
#include "files/inputs.h"
#include "files/output_file.h"
#include "files/shop_file.h"
#include "work/used_setup.h"

namespace tinwright::app {
namespace {

constexpr const char* kStartHelp =
    "Examples:\n"
    "  tinwright start housing --component 60 40 25 --fix left,right -o housing.json\n"
    "      a cover with four walls, tabs turned out on two of them\n"
    "  tinwright start tray --component 120 80 30 --gap 1 -o tray.json\n"
    "      a floor and four walls, open at the top\n"
    "  tinwright start channel --component 50 200 30 --lip 10 -o channel.json\n"
    "      web and two legs as long as the component is deep, lips turned in over it\n"
    "  tinwright start hat --component 50 120 20 --fixings 3 -o hat.json\n"
    "      a web over the component, two feet with three holes each\n"
    "  tinwright start bracket --component 40 40 30 --boss 22 -o bracket.json\n"
    "      a seat with the hole of a boss, and an upright behind\n"
    "  tinwright start window-face --component 72 57 20 --window 38 22 --window-at 14 20 -o face.json\n"
    "      a face with a window and four walls behind it\n"
    "Inside dimensions that mate with the component are named and locked; wall heights, tabs and corner gaps are named "
    "and\n"
    "may be changed. The file's notes say what each came from, and which side of the component lies where.\n"
    "Left and lower are as seen from outside, the component's front (of an upright face: its bottom) towards you.\n";

/// What the library says of a choice, in the words of the command line.
Issues asOptions(Issues issues) {
    for (Issue& issue : issues) {
        const bool is_word = issue.place.find('/') == std::string::npos;
        issue.file = is_word ? "command line" : "the recipe that follows";
        if (is_word) issue.place = "--" + issue.place;
    }
    return issues;
}

Issues refuseExisting(const StartArguments& arguments) {
    std::error_code none;
    if (arguments.force || !std::filesystem::exists(arguments.out_path, none)) return {};
    return {{"output.exists", arguments.out_path, "", "a file that is there already", "a new name",
             "--force writes over it"}};
}

// Gaps of the sides across and of front and back: what may grow so that bars come between the walls.
constexpr const char* kGapNames[] = {"gap in width", "gap in depth"};
constexpr double kGapReach_mm = 15;

Result<Part> partOf(const StartChoice& choice) {
    const Result<std::string> text = startPart(choice);
    if (!text) return text.issues();
    const Result<Recipe> recipe = readRecipe(text.value(), "the recipe");
    if (!recipe) return recipe.issues();
    return develop(recipe.value());
}

struct Started {
    StartChoice choice;
    std::string words;  // which radius the shop's brake gives, and what its bars make of it
};

/// The choice as one brake makes it: with the inside radius that it gives, unless one was asked for.
struct OnBrake {
    StartChoice choice;
    Part part;
    BrakeInSetup used;
    std::string radius_words;
};

Result<OnBrake> onBrake(StartChoice choice, const Shop& shop, std::size_t brake) {
    // The V that the part goes in may hang on the radius, and makes it.
    constexpr int kRounds = 3;
    const bool asked = choice.inside_radius_mm.has_value();
    for (int round = 0;; ++round) {
        Result<Part> part = partOf(choice);
        if (!part) return part.issues();
        const BrakeInSetup used = setupAsDrawn(part.value(), shop, brake, PlanOptions{});
        const double gets_mm = used.inside_radius_mm();
        const std::string giver = fmt::format("{} ({})", radiusGiver(used), used->name);
        const bool fits = drawnOtherwise(part.value(), gets_mm).empty();
        if (asked || round == kRounds || (fits && !choice.radius_from.empty())) {
            const std::string gets = trimmedNumber(gets_mm, 2);
            std::string words =
                fits ? fmt::format("Its inside radius, {} mm, is what {} gives. ", gets, giver)
                     : fmt::format("Bends get an inside radius of {} mm from {}, not the one asked for. ", gets, giver);
            return OnBrake{std::move(choice), std::move(part).value(), used, std::move(words)};
        }
        choice.inside_radius_mm = gets_mm;
        choice.radius_from = giver;
    }
}

/// The component must go in, so a gap may only grow: the least growth with which an order works on the brake.
std::optional<Started> suitedOn(const OnBrake& on, const Shop& shop) {
    const StartChoice& choice = on.choice;
    TweakedPart tweaks;
    for (std::size_t axis = 0; axis < 2; ++axis)
        tweaks.dimensions.push_back(
            {kGapNames[axis], choice.gap_mm[axis], choice.gap_mm[axis], choice.gap_mm[axis] + kGapReach_mm});
    const auto widened = [&choice](const std::vector<DimensionValue>& gaps) {
        StartChoice wider = choice;
        for (const DimensionValue& gap : gaps) wider.gap_mm[gap.dimension] = gap.value_mm;
        return wider;
    };
    tweaks.with = [&](const std::vector<DimensionValue>& gaps) { return partOf(widened(gaps)); };
    const SuitResult found = suit(on.part, tweaks, shop, on.used, SuitOptions{});
    if (found.as_drawn.works())
        return Started{choice, on.radius_words + fmt::format("It can be folded on {} as it is.", on.used->name)};
    if (found.suggestions.empty()) return std::nullopt;
    const Suggestion& best = found.suggestions.front();
    return Started{
        widened({{best.dimension, best.to_mm}}),
        on.radius_words + fmt::format("The {} is {:.1f} mm instead of {:.1f} mm on each side: then it can be "
                                      "folded on {}{}.",
                                      kGapNames[best.dimension], best.to_mm, best.from_mm, on.used->name,
                                      best.result.tight ? ", tightly" : "")};
}

Result<Started> suited(const StartChoice& choice, const StartArguments& arguments) {
    const Result<Shop> shop = readShopFile(arguments.shop.path);
    if (!shop) return shop.issues();
    const auto brakes = chosenBrakes(arguments.shop, shop.value());
    if (!brakes) return brakes.issues();
    std::optional<Started> first;
    for (const std::size_t brake : brakes.value()) {
        const Result<OnBrake> on = onBrake(choice, shop.value(), brake);
        if (!on) return on.issues();
        if (auto started = suitedOn(on.value(), shop.value())) return std::move(*started);
        if (!first) first = Started{on.value().choice, on.value().radius_words};
    }
    first->words += "No brake of the shop folds it, with gaps of up to 15 mm more; tinwright plan says why.";
    return std::move(*first);
}

std::string textFor(const StartArguments& arguments, const std::string& recipe, const std::string& words) {
    const nlohmann::json file = nlohmann::json::parse(recipe);
    const std::string shop = arguments.shop.path.empty() ? "SHOP" : arguments.shop.path;
    return fmt::format("{} -> {}\n{}\n{}Next: tinwright plan {} --shop {}\n", arguments.shape, arguments.out_path,
                       file.at("notes").get<std::string>(), words.empty() ? "" : words + "\n", arguments.out_path,
                       shop);
}

int runStart(const StartArguments& arguments) {
    const Result<StartChoice> choice = startChoice(arguments);
    if (!choice) return complain(choice.issues());
    Result<std::string> recipe = startPart(choice.value());
    if (!recipe) return complain(asOptions(recipe.issues()));
    Issues issues = refuseExisting(arguments);
    if (!issues.empty()) return complain(issues);
    std::string words;
    if (!arguments.shop.path.empty()) {
        const Result<Started> started = suited(choice.value(), arguments);
        if (!started) return complain(started.issues());
        words = started.value().words;
        recipe = startPart(started.value().choice);
        if (!recipe) return complain(asOptions(recipe.issues()));
    }
    issues = writeFile(arguments.out_path, recipe.value(), {});
    if (issues.empty()) issues = writeStandardOutput(textFor(arguments, recipe.value(), words));
    return issues.empty() ? static_cast<int>(kFeasibleExit) : complain(issues);
}

}  // namespace

Command startCommand() {
    return makeCommand("start", "Write the recipe of a part that holds a component.",
                       std::string(kStartHelp) + kWrittenExitCodes, startOptions, runStart);
}

}  // namespace tinwright::app
