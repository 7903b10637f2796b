// SPDX-License-Identifier: GPL-3.0-or-later
#include "shop/machine_habits.h"

#include <variant>

namespace tinwright {

namespace {

MachineHabits habitsOfKind(const LeafBrake&) { return {false, true, false}; }
MachineHabits habitsOfKind(const PressBrake& press) { return {true, false, press.gauge.has_value()}; }

}  // namespace

MachineHabits habitsOf(const Brake& brake) {
    return std::visit([](const auto& kind) { return habitsOfKind(kind); }, brake.kind);
}

}  // namespace tinwright
