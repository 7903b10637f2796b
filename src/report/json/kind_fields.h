// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>

#include "data/json_values.h"

namespace tinwright::report {

/// What a fold's JSON has on some kinds of brake alone. A kind overrides what it has.
class KindFields {
public:
    virtual ~KindFields() = default;

    /// The row of a piece; null: not written.
    [[nodiscard]] virtual Json row(ToolRow /*row*/) const { return nullptr; }
    /// How far it is pressed; null where it is not.
    [[nodiscard]] virtual Json depth_mm(const FoldStep& /*step*/) const { return nullptr; }
    /// The angle between the sides of a bend that is turned so far, where the control of the brake has that; null: not
    /// written.
    [[nodiscard]] virtual Json included_deg(double /*turned_deg*/) const { return nullptr; }
    /// The stop that it is set by; null: not written.
    [[nodiscard]] virtual Json gauge(const Part& /*part*/, const BrakeInSetup& /*brake*/,
                                     const FoldStep& /*step*/) const {
        return nullptr;
    }
};

[[nodiscard]] const KindFields& fieldsFor(const Brake& brake);
[[nodiscard]] const KindFields& fieldsOfKind(const LeafBrake& kind);
[[nodiscard]] const KindFields& fieldsOfKind(const PressBrake& kind);

}  // namespace tinwright::report
