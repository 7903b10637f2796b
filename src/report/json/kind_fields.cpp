// SPDX-License-Identifier: GPL-3.0-or-later
#include "json/kind_fields.h"

#include <variant>

namespace tinwright::report {

const KindFields& fieldsFor(const Brake& brake) {
    return std::visit([](const auto& kind) -> const KindFields& { return fieldsOfKind(kind); }, brake.kind);
}

/// All of its fields are those of every kind.
const KindFields& fieldsOfKind(const LeafBrake& /*kind*/) {
    static const KindFields kFields;
    return kFields;
}

}  // namespace tinwright::report
