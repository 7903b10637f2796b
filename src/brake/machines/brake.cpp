// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/machines/brake.h>

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

namespace tinwright {

namespace {

std::size_t toolCountOf(const LeafBrake& leaf) { return leaf.bars.size(); }
std::size_t toolCountOf(const PressBrake& press) { return press.punches.size() + press.dies.size(); }

MachineKind machineKindOf(const LeafBrake& leaf) {
    return leaf.clamp == ClampKind::kLooseBars ? MachineKind::kLooseBarFolder : MachineKind::kBeamFolder;
}
MachineKind machineKindOf(const PressBrake&) { return MachineKind::kPressBrake; }

}  // namespace

bool sameSection(const Bar& a, const Bar& b) {
    return a.profile == b.profile && a.end_relief_mm == b.end_relief_mm &&
           a.end_relief_height_mm == b.end_relief_height_mm;
}

bool sameSection(const Punch& a, const Punch& b) { return a.profile == b.profile && a.horn == b.horn; }

bool sameSection(const Die& a, const Die& b) { return a.profile == b.profile && a.jaw == b.jaw; }

bool sameSection(const Brake& brake, ToolId a, ToolId b) {
    const Bar* bar = brake.bar(a);
    if (bar != nullptr) return sameSection(*bar, *brake.bar(b));
    if (brake.rowOf(a) != brake.rowOf(b)) return false;
    const Punch* punch = brake.punch(a);
    return punch != nullptr ? sameSection(*punch, *brake.punch(b)) : sameSection(*brake.die(a), *brake.die(b));
}

std::size_t Brake::toolCount() const {
    return std::visit([](const auto& of) { return toolCountOf(of); }, kind);
}

const Tool& Brake::tool(ToolId id) const {
    TINWRIGHT_REQUIRE(id.index() < toolCount(), "the tool is one of the brake's");
    if (const Bar* one = bar(id)) return *one;
    if (const Punch* one = punch(id)) return *one;
    return *die(id);
}

ToolRow Brake::rowOf(ToolId id) const { return die(id) != nullptr ? ToolRow::kLower : ToolRow::kUpper; }

const Bar* Brake::bar(ToolId id) const {
    const auto* of = std::get_if<LeafBrake>(&kind);
    return of != nullptr && id.index() < of->bars.size() ? &of->bars[id.index()] : nullptr;
}

const Punch* Brake::punch(ToolId id) const {
    const auto* of = std::get_if<PressBrake>(&kind);
    return of != nullptr && id.index() < of->punches.size() ? &of->punches[id.index()] : nullptr;
}

const Die* Brake::die(ToolId id) const {
    const auto* of = std::get_if<PressBrake>(&kind);
    if (of == nullptr || id.index() < of->punches.size()) return nullptr;
    const std::size_t index = id.index() - of->punches.size();
    return index < of->dies.size() ? &of->dies[index] : nullptr;
}

std::optional<ToolId> Brake::toolCalled(const std::string& id) const {
    for (std::size_t i = 0; i < toolCount(); ++i) {
        if (tool(idAt<ToolId>(i)).id == id) return idAt<ToolId>(i);
    }
    return std::nullopt;
}

Brake withPiece(Brake brake, ToolId like, std::string id, double width_mm) {
    const auto add = [&](auto tool, auto& tools) {
        tool.id = std::move(id);
        tool.width_mm = width_mm;
        tool.count = 1;
        tools.push_back(std::move(tool));
    };
    if (const Bar* bar = brake.bar(like)) {
        add(*bar, brake.leaf().bars);
    } else if (const Punch* punch = brake.punch(like)) {
        add(*punch, brake.press().punches);
    } else {
        add(*brake.die(like), brake.press().dies);
    }
    return brake;
}

MachineKind kindOf(const Brake& brake) {
    return std::visit([](const auto& of) { return machineKindOf(of); }, brake.kind);
}

std::vector<Vee> veesOf(const Brake& brake) {
    const auto* press = std::get_if<PressBrake>(&brake.kind);
    if (press == nullptr) return {};
    std::vector<Vee> vees;
    for (const Die& die : press->dies) vees.push_back(die.vee);
    const auto key = [](const Vee& vee) { return std::tuple(vee.opening_mm, vee.angle.rad(), vee.shoulder_radius_mm); };
    std::sort(vees.begin(), vees.end(), [&](const Vee& a, const Vee& b) { return key(a) < key(b); });
    vees.erase(std::unique(vees.begin(), vees.end()), vees.end());
    return vees;
}

bool isCalled(const Vee& vee, double opening_mm) {
    constexpr double kSame_mm = 0.05;
    return std::abs(vee.opening_mm - opening_mm) < kSame_mm;
}

double Overbend::of_deg(const std::string& material) const {
    const auto found = by_material_deg.find(material);
    return found == by_material_deg.end() ? default_deg : found->second;
}

}  // namespace tinwright
