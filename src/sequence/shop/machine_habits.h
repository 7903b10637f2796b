// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/machines/brake.h>

namespace tinwright {

/// How a kind of machine is worked at, as far as the search needs it.
struct MachineHabits {
    bool has_stations = false;  ///< tools of several strokes stand side by side
    bool has_faces = false;     ///< the leaf has faces of which one is put on
    bool is_gauged = false;     ///< the sheet is set by a back gauge, else by a sight line
};
[[nodiscard]] MachineHabits habitsOf(const Brake& brake);

}  // namespace tinwright
