// SPDX-License-Identifier: GPL-3.0-or-later
#include "files/pinned_inputs.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include <tinwright/base/words.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/report/words/brake_warnings.h>

#include "console/complain.h"
#include "options/order_list.h"
#include "options/pin_list.h"

namespace tinwright::app {
namespace {

/// What tools of one kind are called on the brakes asked about.
struct Rack {
    const char* noun;
    std::vector<std::string> ids;
    void add(const Tool& tool) {
        if (std::find(ids.begin(), ids.end(), tool.id) == ids.end()) ids.push_back(tool.id);
    }
};

void fill(const LeafBrake& leaf, Rack& bars, Rack& /*punches*/) {
    for (const Bar& bar : leaf.bars) bars.add(bar);
}
void fill(const PressBrake& press, Rack& /*bars*/, Rack& punches) {
    for (const Punch& punch : press.punches) punches.add(punch);
}

Issues lookUp(const std::vector<std::string>& texts, const char* option, const Rack& rack,
              std::vector<std::string>& ids) {
    Issues issues;
    for (const std::string& text : texts) {
        for (const std::string& id : splitAtCommas(text)) {
            if (std::find(rack.ids.begin(), rack.ids.end(), id) != rack.ids.end()) {
                ids.push_back(id);
                continue;
            }
            const std::string there = joined(rack.ids, " ");
            issues.push_back({"pin.tool", "command line", option, '"' + id + '"',
                              rack.ids.empty() ? fmt::format("{} on a brake asked about", rack.noun)
                                               : fmt::format("{} that there are: {}", rack.noun, there),
                              didYouMean(id, rack.ids)});
        }
    }
    return issues;
}

Issues lookUpVee(const std::optional<double>& vee_mm, const Inputs& inputs) {
    if (!vee_mm) return {};
    std::set<double> openings_mm;
    for (const std::size_t brake : inputs.brakes) {
        for (const Vee& vee : veesOf(inputs.shop.brakes[brake])) {
            if (isCalled(vee, *vee_mm)) return {};
            openings_mm.insert(vee.opening_mm);
        }
    }
    const std::string there = joined(openings_mm, ", ", [](double mm) { return fmt::format("{:.4g}", mm); });
    return {{"pin.vee", "command line", "--use-vee", fmt::format("{:.4g}", *vee_mm),
             there.empty() ? "a press brake among the brakes asked about" : "one of the Vs that there are: " + there,
             ""}};
}

/// Brakes that are left without tools are not asked about.
Issues leaveOut(Inputs& inputs) {
    std::vector<std::size_t> left;
    std::vector<std::string> without;
    for (const std::size_t brake : inputs.brakes) {
        if (hasTools(withTools(inputs.shop.brakes[brake], inputs.pins.tools))) {
            left.push_back(brake);
        } else {
            without.push_back(inputs.shop.brakes[brake].name);
            for (const std::string& warning : brakeWarnings(inputs.shop.brakes[brake], hasHems(inputs.part)))
                std::erase(inputs.warnings, warning);
        }
    }
    if (left.empty())
        return {{"pin.none", "command line", "the tools to use", "nothing left to fold with on " + listed(without),
                 "tools that one brake has", ""}};
    inputs.brakes = std::move(left);
    if (!without.empty())
        inputs.warnings.push_back("left out, since the tools pinned leave nothing to fold with: " + listed(without));
    return {};
}

}  // namespace

Issues pinInputs(const PinChoice& choice, Inputs& inputs) {
    Rack bars{"bars", {}};
    Rack punches{"punches", {}};
    for (const std::size_t brake : inputs.brakes)
        std::visit([&](const auto& kind) { fill(kind, bars, punches); }, inputs.shop.brakes[brake].kind);
    ToolPins& tools = inputs.pins.tools;
    tools.vee_mm = choice.vee_mm;
    Issues issues = addOrderPins(choice, inputs.part, inputs.formed, inputs.pins);
    append(issues, lookUp(choice.bars, "--use-bar", bars, tools.bars));
    append(issues, lookUp(choice.without_bars, "--avoid-bar", bars, tools.without_bars));
    append(issues, lookUp(choice.punches, "--use-punch", punches, tools.punches));
    append(issues, lookUpVee(choice.vee_mm, inputs));
    if (!issues.empty() || !tools.any()) return issues;
    return leaveOut(inputs);
}

}  // namespace tinwright::app
