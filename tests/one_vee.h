// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/vee_choice.h>

namespace tinwright::test {

/// The press brake with the dies of one V alone: then it has one set-up.
inline Brake onlyVee(Brake brake, const Vee& vee) {
    std::erase_if(brake.press().dies, [&](const Die& die) { return die.vee != vee; });
    return brake;
}

/// The brake in the set-up that comes first for the part; a leaf brake has one.
inline BrakeInSetup inUse(const Part& part, const Brake& brake) { return setupsFor(part, brake).front(); }

/// Two brakes of a shop, each so.
inline std::array<BrakeInSetup, 2> inUse(const Part& part, const Shop& shop) {
    return {inUse(part, shop.brakes[0]), inUse(part, shop.brakes[1])};
}

}  // namespace tinwright::test
