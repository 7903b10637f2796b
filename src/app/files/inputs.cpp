// SPDX-License-Identifier: GPL-3.0-or-later
#include "files/inputs.h"

#include <algorithm>

#include <fmt/format.h>

#include <tinwright/base/words.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/report/words/brake_warnings.h>

#include "console/complain.h"
#include "console/log.h"
#include "files/made_input.h"
#include "files/material_of.h"
#include "files/part_file.h"
#include "files/shop_file.h"
#include "options/made_list.h"
#include "options/order_list.h"

namespace tinwright::app {
namespace {

Issue unknownBrake(const ShopChoice& choice, const Shop& shop) {
    std::vector<std::string> names;
    std::string expected = "a brake of " + choice.path + ":";
    for (const Brake& brake : shop.brakes) {
        names.push_back(brake.name);
        expected += (names.size() == 1 ? " \"" : ", \"") + brake.name + '"';
    }
    return {
        "brake.name", "command line", "--brake", '"' + *choice.brake + '"', expected, didYouMean(*choice.brake, names)};
}

/// Names of bends on the command line mean something only once the part is known.
Issues lookUpBends(const JobChoice& job, const std::string* order_text, Inputs& inputs, std::vector<MadeBend>& made) {
    Result<BendMask> formed = parseFormed(inputs.part, job.formed);
    if (!formed) return formed.issues();
    inputs.formed = formed.value();
    Result<std::vector<MadeBend>> measured = parseMade(inputs.part, job.made_sizes, job.made_angles);
    if (!measured) return measured.issues();
    made = std::move(measured).value();
    for (const MadeBend& one : made) inputs.formed |= bit(one.bend);
    if (order_text == nullptr) return {};
    Result<HeldOrder> order = parseHeldOrder(inputs.part, *order_text, "--order", inputs.formed);
    if (!order) return order.issues();
    inputs.order = std::move(order.value().strokes);
    inputs.pins.holds = std::move(order.value().holds);
    return {};
}

std::vector<std::string> warningsOf(const Inputs& inputs) {
    std::vector<std::string> warnings = inputs.part.warnings;
    for (const std::size_t brake : inputs.brakes) {
        for (std::string& warning : brakeWarnings(inputs.shop.brakes[brake], hasHems(inputs.part)))
            warnings.push_back(std::move(warning));
    }
    return warnings;
}

// What a part wants of a shop that could not be read is not its fault.
Issues withoutMeasured(Issues issues) {
    issues.erase(std::remove_if(issues.begin(), issues.end(),
                                [](const Issue& issue) { return issue.code.ends_with("allowance.measured"); }),
                 issues.end());
    return issues;
}

Result<Inputs> readPartAlone(const JobChoice& job) {
    if (job.shop.brake)
        return Issue{"usage", "command line", "--brake", "a brake and no shop", "--shop FILE beside it", ""};
    Result<Part> part = readPart(job.part);
    if (!part) return part.issues();
    Inputs inputs;
    inputs.part = std::move(part).value();
    inputs.material = materialOf(inputs.part);
    inputs.warnings = inputs.part.warnings;
    return inputs;
}

}  // namespace

Result<std::vector<std::size_t>> chosenBrakes(const ShopChoice& choice, const Shop& shop) {
    std::vector<std::size_t> chosen;
    for (std::size_t i = 0; i < shop.brakes.size(); ++i) {
        if (!choice.brake || shop.brakes[i].name == *choice.brake) chosen.push_back(i);
    }
    if (chosen.empty()) return unknownBrake(choice, shop);
    return chosen;
}

Result<Inputs> readInputs(const JobChoice& job, const std::string* order) {
    if (job.shop.path.empty()) return readPartAlone(job);
    Result<Shop> shop = readShopFile(job.shop.path);
    Issues issues;
    Inputs inputs;
    std::vector<MadeBend> made;
    const bool has_shop = shop.ok();
    const Issues of_shop = has_shop ? Issues{} : shop.issues();
    if (has_shop) {
        inputs.shop = std::move(shop).value();
        inputs.measured = std::make_shared<const MeasuredBends>(inputs.shop.measured_bends);
    }
    Result<Part> part = readPart(job.part, inputs.measured);
    if (part) {
        inputs.part = std::move(part).value();
        append(issues, lookUpBends(job, order, inputs, made));
    } else {
        append(issues, has_shop ? part.issues() : withoutMeasured(part.issues()));
    }
    if (has_shop) {
        Result<std::vector<std::size_t>> brakes = chosenBrakes(job.shop, inputs.shop);
        if (brakes) {
            inputs.brakes = std::move(brakes).value();
        } else {
            append(issues, brakes.issues());
        }
    } else {
        append(issues, of_shop);
    }
    if (issues.empty()) issues = takeMade(std::move(made), inputs);
    if (!issues.empty()) return issues;
    inputs.material = materialOf(inputs.part);
    inputs.warnings = warningsOf(inputs);
    logInfo(fmt::format("read {} ({} bends) and {} ({} brakes)", job.part.path, inputs.part.bends.size(), job.shop.path,
                        inputs.shop.brakes.size()));
    return inputs;
}

}  // namespace tinwright::app
