// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/forming/metal/press_bend.h>

#include "checks/checks.h"
#include "metal/press_vee.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

constexpr double kNear = 0.8;
constexpr double kRounding = 1e-9;
constexpr double kLeastPunchCover = 0.01;

/// What one stroke asks of a press.
struct PressLoad {
    std::vector<BendId> bends;
    double length_mm = 0;  ///< of sheet along them
    Vee vee;
    PressForce force;

    [[nodiscard]] double kn() const { return force.n_per_mm * length_mm / 1000; }
    [[nodiscard]] double kn_per_m() const { return force.n_per_mm; }
};

bool isNear(double share) { return share > kNear + kRounding; }
bool isOver(double share) { return share > 1 + kRounding; }
Severity severityOf(double share) { return isOver(share) ? Severity::kOverload : Severity::kWarning; }

std::string modeWords(const PressBrake& press) {
    return press.mode == PressMode::kBottoming
               ? fmt::format(", bottoming with {:g} times the force of an air bend", press.bottoming_factor)
               : "";
}

std::string upTo(const PressLoad& load) { return load.force.is_least ? "at least " : "up to "; }

/// Ways that leave nothing to warn of (`share` is what is asked of what there is): an air bend, the narrowest V of the
/// shop that will do.
std::vector<std::string> lighterWays(const Part& part, const Material* material, const BrakeInSetup& brake,
                                     const PressLoad& load, double share) {
    std::vector<std::string> ways;
    const double wanted = kNear * load.force.n_per_mm / share;
    const auto isLight = [&](const PressBrake& press, const Vee& vee) {
        return pressForce(press, vee, material, part.thickness_mm)->n_per_mm <= wanted + kRounding;
    };
    PressBrake air = brake->press();
    air.mode = PressMode::kAirBending;
    const bool bottoming = brake->press().mode == PressMode::kBottoming;
    if (bottoming && isLight(air, load.vee)) ways.push_back("an air bend instead of bottoming");
    if (const auto wider = widerVee(*brake, load.vee, part.thickness_mm,
                                    [&](const Vee& vee) { return isLight(brake->press(), vee); })) {
        ways.push_back(fmt::format("a V of {}{}", millimetres(wider->opening_mm),
                                   bottoming ? "" : ": the bend gets rounder and wants a longer flange"));
    }
    ways.push_back("a thinner sheet");
    return ways;
}

std::string asks(const Part& part, const PressBrake& press, const PressLoad& load) {
    return fmt::format("{} mm of {} mm {} in a V of {} ask {}{:.0f} kN{}", millimetres(load.length_mm),
                       millimetres(part.thickness_mm), part.material, millimetres(load.vee.opening_mm), upTo(load),
                       load.kn(), modeWords(press));
}

void addOverPress(const Part& part, const Material* material, const BrakeInSetup& brake, const PressLoad& load,
                  std::vector<Finding>& findings) {
    const double most_kn = brake->press().force_kn;
    const double share = load.kn() / most_kn;
    if (!isNear(share)) return;
    Finding finding = startFinding("force.press", severityOf(share), bendNames(part, load.bends), load.bends);
    finding.words = asks(part, brake->press(), load);
    finding.words += isOver(share) ? fmt::format(", more than the {:g} kN of the press", most_kn)
                                   : fmt::format(", near the {:g} kN of the press", most_kn);
    finding.remedies = lighterWays(part, material, brake, load, share);
    if (load.bends.size() > 1) finding.remedies.insert(finding.remedies.begin(), "a stroke for each bend");
    finding.remedies.push_back("another press; what this one may take off its middle is in its manual");
    finding.figures = {
        {"force_kn", load.kn(), most_kn}, {"force_kn_per_m", load.kn_per_m(), {}}, {"vee_mm", load.vee.opening_mm, {}}};
    findings.push_back(std::move(finding));
}

std::string toolWord(ToolRow row) { return row == ToolRow::kLower ? "die" : "punch"; }

/// What a metre of tools may take, and what they are called.
struct ToolLimit {
    double kn_per_m = 0;
    ToolRow row = ToolRow::kUpper;
    std::string tool;
};

bool isLess(const ToolLimit& limit, const std::optional<ToolLimit>& than) {
    return !than || limit.kn_per_m < than->kn_per_m;
}

/// Of the strongest punch and the strongest die there are, the one that takes less; a row in which one does not say
/// counts for nothing.
std::optional<ToolLimit> strongestThere(const BrakeInSetup& brake) {
    std::optional<ToolLimit> least;
    for (const ToolRow row : {ToolRow::kUpper, ToolRow::kLower}) {
        ToolLimit strongest{0, row, "the strongest " + toolWord(row)};
        bool all_say = true;
        for (const ToolId tool : brake.tools(row)) {
            const double kn_per_m = most_kn_per_m(*brake, tool);
            all_say = all_say && kn_per_m > 0;
            strongest.kn_per_m = std::max(strongest.kn_per_m, kn_per_m);
        }
        if (all_say && strongest.kn_per_m > 0 && isLess(strongest, least)) least = strongest;
    }
    return least;
}

/// Of the tools that stand, the one that takes least.
std::optional<ToolLimit> weakestStanding(const BrakeInSetup& brake, const std::vector<PlacedTool>& bars) {
    std::optional<ToolLimit> weakest;
    for (const PlacedTool& placed : bars) {
        const ToolRow row = brake->rowOf(placed.tool);
        const ToolLimit limit{most_kn_per_m(*brake, placed.tool), row,
                              toolWord(row) + " " + brake->tool(placed.tool).id};
        if (limit.kn_per_m > 0 && isLess(limit, weakest)) weakest = limit;
    }
    return weakest;
}

void addOverTool(const Part& part, const Material* material, const BrakeInSetup& brake, const PressLoad& load,
                 double kn_per_m, const ToolLimit& limit, std::vector<Finding>& findings) {
    const double share = kn_per_m / limit.kn_per_m;
    if (!isNear(share)) return;
    Finding finding = startFinding("force.tool", severityOf(share), bendsFeature(part, load.bends), load.bends);
    finding.words = fmt::format("{} mm {} in a V of {} asks {}{:.0f} kN on each metre of the tools{}; {} {} {:g} kN/m",
                                millimetres(part.thickness_mm), part.material, millimetres(load.vee.opening_mm),
                                upTo(load), kn_per_m, modeWords(brake->press()), limit.tool,
                                isOver(share) ? "may take no more than" : "may take", limit.kn_per_m);
    finding.remedies = lighterWays(part, material, brake, load, share);
    const auto isStronger = [&](ToolId tool) {
        const double most = most_kn_per_m(*brake, tool);
        return most > 0 && !isNear(kn_per_m / most);
    };
    const std::vector<ToolId> row = brake.tools(limit.row);
    const auto stronger = std::find_if(row.begin(), row.end(), isStronger);
    if (stronger != row.end()) {
        finding.remedies.insert(finding.remedies.begin(),
                                fmt::format("a {} that may take {:g} kN/m, as {}, where it fits", toolWord(limit.row),
                                            most_kn_per_m(*brake, *stronger), brake->tool(*stronger).id));
    }
    finding.figures = {{"force_kn_per_m", kn_per_m, limit.kn_per_m},
                       {"force_kn", load.kn(), brake->press().force_kn},
                       {"vee_mm", load.vee.opening_mm, {}}};
    findings.push_back(std::move(finding));
}

void addLong(const Part& part, const BrakeInSetup& brake, BendId bend, std::vector<Finding>& findings) {
    const double extent = stripExtent_mm(part.bend(bend));
    if (extent <= brake->length_mm + kRounding) return;
    Finding finding = startFinding("force.length", Severity::kFault, part.bend(bend).name, {bend});
    finding.words = fmt::format("bend {} is {} mm long, longer than the {} mm of ram and bed", part.bend(bend).name,
                                millimetres(extent), millimetres(brake->length_mm));
    finding.remedies = {"a longer press"};
    finding.figures = {{"length_mm", extent, brake->length_mm}};
    findings.push_back(std::move(finding));
}

/// The heaviest bend, so that a person knows what to expect at the gauge.
void addHeaviest(const Part& part, const BrakeInSetup& brake, const PressLoad& load, std::vector<Finding>& findings) {
    Finding finding = startFinding("force.stroke", Severity::kNote, part.bend(load.bends.front()).name, load.bends);
    const double share = load.kn() / brake->press().force_kn;
    finding.words = fmt::format(
        "the heaviest bend asks {}{:.0f} kN in a V of {}, {:.0f} kN on each metre and {:.0f} % of the press{}",
        upTo(load), load.kn(), millimetres(load.vee.opening_mm), load.kn_per_m(), 100 * share,
        modeWords(brake->press()));
    finding.figures = {{"force_kn", load.kn(), brake->press().force_kn}, {"force_kn_per_m", load.kn_per_m(), {}}};
    findings.push_back(std::move(finding));
}

void addUnknown(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings) {
    const auto thinner = [&](const Rating& rating) { return part.thickness_mm > rating.thickness_mm + kRounding; };
    const bool is_thicker =
        !brake->ratings.empty() && std::all_of(brake->ratings.begin(), brake->ratings.end(), thinner);
    Finding finding = startFinding("force.unknown", is_thicker ? Severity::kWarning : Severity::kNote, part.material);
    finding.words = fmt::format(
        "the strength of {} is not known, so the force on press and tools is not checked: see the machine's manual",
        part.material);
    if (is_thicker) {
        finding.words +=
            fmt::format("; {} mm is thicker than anything that the press is rated for", millimetres(part.thickness_mm));
        finding.remedies = {"name a material of tooling/materials.json that is near to it"};
    }
    findings.push_back(std::move(finding));
}

}  // namespace

void addPressForce(const Part& part, const Material* material, const BrakeInSetup& brake,
                   std::vector<Finding>& findings) {
    const Vee* const vee = brake.vee();
    if (!vee || part.bends.empty()) return;
    for (std::size_t i = 0; i < part.bends.size(); ++i) addLong(part, brake, idAt<BendId>(i), findings);
    const std::optional<PressForce> force = pressForce(brake->press(), *vee, material, part.thickness_mm);
    if (!force) return addUnknown(part, brake, findings);
    const std::size_t before = findings.size();
    PressLoad all{{}, 0, *vee, *force};
    PressLoad heaviest = all;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const PressLoad load{{idAt<BendId>(i)}, stripLength_mm(part.bends[i]), *vee, *force};
        all.bends.push_back(idAt<BendId>(i));
        addOverPress(part, material, brake, load, findings);
        if (load.length_mm > heaviest.length_mm) heaviest = load;
    }
    if (const auto limit = strongestThere(brake))
        addOverTool(part, material, brake, all, all.kn_per_m(), *limit, findings);
    if (findings.size() == before) addHeaviest(part, brake, heaviest, findings);
}

namespace {

/// Of one stroke; nothing when its force is not known, which is said for the brake.
std::optional<PressLoad> loadOf(const FoldAsked& asked) {
    const Vee* const vee = asked.brake.vee();
    if (!vee) return std::nullopt;
    const auto force = pressForce(asked.brake->press(), *vee, asked.material, asked.part.thickness_mm);
    if (!force) return std::nullopt;
    PressLoad load{asked.step.bends(), 0, *vee, *force};
    for (const BendId bend : load.bends) load.length_mm += stripLength_mm(asked.part.bend(bend));
    return load;
}

double onTools_kn_per_m(const FoldAsked& asked, const PressLoad& load) {
    return load.kn_per_m() / std::clamp(asked.step.covered_share, kLeastPunchCover, 1.0);
}

}  // namespace

void addStrokeForce(const FoldAsked& asked, std::vector<Finding>& findings) {
    const std::optional<PressLoad> load = loadOf(asked);
    if (!load) return;
    const BrakeInSetup& brake = asked.brake;
    // What is only near for one bend is said for the brake.
    if (load->bends.size() > 1 || isOver(load->kn() / brake->press().force_kn))
        addOverPress(asked.part, asked.material, brake, *load, findings);
    const double kn_per_m = onTools_kn_per_m(asked, *load);
    const std::optional<ToolLimit> weakest = weakestStanding(brake, asked.step.tools);
    if (!weakest) return;
    const std::optional<ToolLimit> strongest = strongestThere(brake);
    const bool is_over = isOver(kn_per_m / weakest->kn_per_m);
    if (!is_over && strongest && isNear(load->kn_per_m() / strongest->kn_per_m)) return;  // said for the brake
    addOverTool(asked.part, asked.material, brake, *load, kn_per_m, *weakest, findings);
}

Spoils forceSpoils(const FoldAsked& asked) {
    const std::optional<PressLoad> load = loadOf(asked);
    if (!load) return {};
    const int bends = static_cast<int>(load->bends.size());
    Spoils spoils;
    if (isOver(load->kn() / asked.brake->press().force_kn)) spoils.surely += bends;
    const std::optional<ToolLimit> weakest = weakestStanding(asked.brake, asked.step.tools);
    if (weakest && isOver(onTools_kn_per_m(asked, *load) / weakest->kn_per_m)) spoils.surely += bends;
    return spoils;
}

Spoils leastForceSpoils(const Part& part, BendId bend, const BrakeInSetup& brake, const Material* material) {
    const Vee* const vee = brake.vee();
    const auto force = vee ? pressForce(brake->press(), *vee, material, part.thickness_mm) : std::nullopt;
    if (!force) return {};
    const PressLoad load{{bend}, stripLength_mm(part.bend(bend)), *vee, *force};
    Spoils spoils;
    if (isOver(load.kn() / brake->press().force_kn)) ++spoils.surely;
    const std::optional<ToolLimit> strongest = strongestThere(brake);
    if (strongest && isOver(load.kn_per_m() / strongest->kn_per_m)) ++spoils.surely;
    return spoils;
}

}  // namespace tinwright::forming
