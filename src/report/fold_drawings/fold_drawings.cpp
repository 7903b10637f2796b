// SPDX-License-Identifier: GPL-3.0-or-later
#include "fold_drawings/fold_drawings.h"

#include <variant>

namespace tinwright::report {

const FoldDrawings& drawingsFor(const Brake& brake) {
    return std::visit([](const auto& kind) -> const FoldDrawings& { return drawingsOfKind(kind); }, brake.kind);
}

}  // namespace tinwright::report
