// SPDX-License-Identifier: GPL-3.0-or-later
#include <filesystem>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <tinwright/base/units.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/start/start_part.h>
#include <tinwright/sequence/remedies/suit.h>

#include "commands/commands.h"
#include "console/complain.h"
#include "console/exit_code.h"
#include "files/output_file.h"
#include "files/shop_file.h"
#include "work/used_setup.h"

namespace tinwright::app {
namespace {

constexpr double kUsualInchGap = 0.02;

class ChoiceReader {
public:
    explicit ChoiceReader(const StartOptions& options)
        : options_(options), mm_per_unit_(options.units == "in" ? kMmPerInch : 1.0) {}

    Result<StartChoice> read() {
        choice_.shape = startShapeNamed(options_.shape).value_or(StartShape::kTray);
        choice_.name = options_.name;
        choice_.inches = options_.units == "in";
        choice_.material = options_.material;
        component();
        openings();
        shape();
        if (!issues_.empty()) return issues_;
        return choice_;
    }

private:
    [[nodiscard]] double mm(double value) const { return value * mm_per_unit_; }
    [[nodiscard]] std::optional<double> mm(const std::optional<double>& value) const {
        return value ? std::optional(mm(*value)) : std::nullopt;
    }
    [[nodiscard]] std::optional<FacePoint> point(const std::vector<double>& pair) const {
        return pair.empty() ? std::nullopt : std::optional(FacePoint{mm(pair[0]), mm(pair[1])});
    }
    void wrong(const char* option, std::string found, std::string expected) {
        issues_.push_back({"usage", "command line", option, std::move(found), std::move(expected), ""});
    }

    void component() {
        for (std::size_t axis = 0; axis < 3; ++axis) choice_.component_mm[axis] = mm(options_.component[axis]);
        const double gap = options_.units == "in" && !options_.gap_given ? kUsualInchGap : options_.gap;
        choice_.gap_mm = {mm(options_.gap_width.value_or(gap)), mm(options_.gap_depth.value_or(gap)),
                          mm(options_.gap_height.value_or(gap))};
        choice_.thickness_mm = mm(options_.thickness);
        choice_.inside_radius_mm = mm(options_.radius);
        choice_.k = options_.k;
    }

    void openings() {
        if (!options_.window.empty())
            choice_.window = StartWindow{mm(options_.window[0]), mm(options_.window[1]), point(options_.window_at)};
        else if (!options_.window_at.empty())
            wrong("--window-at", "a place and no window", "--window W H beside it");
        if (options_.boss)
            choice_.boss = StartBoss{mm(*options_.boss), point(options_.boss_at)};
        else if (!options_.boss_at.empty())
            wrong("--boss-at", "a place and no boss", "--boss DIAMETER beside it");
    }

    void shape() {
        if (options_.open) choice_.open = componentSideNamed(*options_.open);
        choice_.inside_height_mm = mm(options_.inside_height);
        fix();
        choice_.fixings = options_.fixings;
        choice_.tab_length_mm = mm(options_.tab_length);
        choice_.tab_width_mm = mm(options_.tab_width);
        choice_.screw_mm = mm(options_.screw);
        choice_.lip_mm = mm(options_.lip);
        choice_.foot_mm = mm(options_.foot);
        choice_.upright_mm = mm(options_.upright);
    }

    void fix() {
        if (options_.fix.empty()) return;
        choice_.fix.emplace();
        for (const std::string& word : options_.fix) {
            if (const auto side = componentSideNamed(word))
                choice_.fix->push_back(*side);
            else if (options_.fix.size() > 1)
                wrong("--fix", "\"none\" beside sides", "either sides or none");
        }
    }

    const StartOptions& options_;
    double mm_per_unit_;
    StartChoice choice_;
    Issues issues_;
};

/// What the library says of a choice, in the words of the command line.
Issues asOptions(Issues issues) {
    for (Issue& issue : issues) {
        const bool is_word = issue.place.find('/') == std::string::npos;
        issue.file = is_word ? "command line" : "the recipe that follows";
        if (is_word) issue.place = "--" + issue.place;
    }
    return issues;
}

Issues refuseExisting(const CommandLine& line) {
    std::error_code none;
    if (line.start.force || !std::filesystem::exists(line.out_path, none)) return {};
    return {
        {"output.exists", line.out_path, "", "a file that is there already", "a new name", "--force writes over it"}};
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
    std::string words;  // what the shop's bars make of it
};

/// The component must go in, so a gap may only grow: the least growth with which an order works on some brake.
Result<Started> suited(const StartChoice& choice, const CommandLine& line) {
    const Result<Shop> shop = readShopFile(line.shop_path);
    if (!shop) return shop.issues();
    const auto brakes = chosenBrakes(line, shop.value());
    if (!brakes) return brakes.issues();
    const Result<Part> part = partOf(choice);
    if (!part) return part.issues();
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
    for (const std::size_t brake : brakes.value()) {
        const std::string& name = shop.value().brakes[brake].name;
        const BrakeInSetup used = setupAsDrawn(part.value(), shop.value(), brake, PlanOptions{});
        const SuitResult found = suit(part.value(), tweaks, shop.value(), used, SuitOptions{});
        if (found.as_drawn.level() > 0) return Started{choice, fmt::format("It can be folded on {} as it is.", name)};
        if (found.suggestions.empty()) continue;
        const Suggestion& best = found.suggestions.front();
        return Started{
            widened({{best.dimension, best.to_mm}}),
            fmt::format("The {} is {:.1f} mm instead of {:.1f} mm on each side: then it can be folded on {}{}.",
                        kGapNames[best.dimension], best.to_mm, best.from_mm, name,
                        best.result.tight ? ", tightly" : "")};
    }
    return Started{choice, "No brake of the shop folds it, with gaps of up to 15 mm more; tinwright plan says why."};
}

std::string textFor(const CommandLine& line, const std::string& recipe, const std::string& words) {
    const nlohmann::json file = nlohmann::json::parse(recipe);
    const std::string shop = line.shop_path.empty() ? "SHOP" : line.shop_path;
    return fmt::format("{} -> {}\n{}\n{}Next: tinwright plan {} --shop {}\n", line.start.shape, line.out_path,
                       file.at("notes").get<std::string>(), words.empty() ? "" : words + "\n", line.out_path, shop);
}

}  // namespace

int runStart(const CommandLine& line) {
    const Result<StartChoice> choice = ChoiceReader(line.start).read();
    if (!choice) return complain(choice.issues());
    Result<std::string> recipe = startPart(choice.value());
    if (!recipe) return complain(asOptions(recipe.issues()));
    Issues issues = refuseExisting(line);
    if (!issues.empty()) return complain(issues);
    std::string words;
    if (!line.shop_path.empty()) {
        const Result<Started> started = suited(choice.value(), line);
        if (!started) return complain(started.issues());
        words = started.value().words;
        recipe = startPart(started.value().choice);
        if (!recipe) return complain(asOptions(recipe.issues()));
    }
    issues = writeFile(line.out_path, recipe.value(), {});
    if (issues.empty()) issues = writeStandardOutput(textFor(line, recipe.value(), words));
    return issues.empty() ? static_cast<int>(kFeasibleExit) : complain(issues);
}

}  // namespace tinwright::app
