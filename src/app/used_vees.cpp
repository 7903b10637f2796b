// SPDX-License-Identifier: GPL-3.0-or-later
#include "used_vees.h"

#include <tinwright/forming/vee_choice.h>

namespace tinwright::app {

void useVee(Inputs& inputs, std::size_t brake, const std::optional<Vee>& vee) {
    Brake& used = inputs.shop.brakes[brake];
    if (vee && used.isPress() && !used.press->vee) used = usingVee(used, *vee);
}

void useUsualVees(Inputs& inputs) {
    for (const std::size_t brake : inputs.brakes) {
        Brake& used = inputs.shop.brakes[brake];
        if (used.isPress()) used = inEachVee(inputs.part, used).front();
    }
}

}  // namespace tinwright::app
