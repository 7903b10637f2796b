// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <compare>
#include <cstdint>

#include <tinwright/base/ids.h>

namespace tinwright {

/// A body that may meet another: of the part, or of the machine. Its name is made in the report (bodyName).
struct BodyRef {
    enum class Kind : std::uint8_t {
        kNone,
        kPanel,
        kStrip,  ///< the sheet in a bend
        kBar,    ///< of a leaf brake
        kPunch,
        kDie,
        kJaw,  ///< of a die
        kBed,
        kLeaf,
        kBeam,
        kRam,
        kFrame,  ///< beside a press brake's bed
    };
    static constexpr std::uint32_t kAny = ~std::uint32_t{0};

    Kind kind = Kind::kNone;
    std::uint32_t id = kAny;  ///< PanelId, BendId or ToolId; kAny: any piece of its kind, and what a machine has one of

    BodyRef() = default;
    BodyRef(Kind one_or_any) : kind(one_or_any) {}  // NOLINT(google-explicit-constructor): a leaf is the leaf
    BodyRef(PanelId panel) : kind(Kind::kPanel), id(panel.value) {}  // NOLINT(google-explicit-constructor)
    BodyRef(BendId strip) : kind(Kind::kStrip), id(strip.value) {}   // NOLINT(google-explicit-constructor)
    /// Precondition: kBar, kPunch or kDie.
    BodyRef(Kind tool, ToolId bar) : kind(tool), id(bar.value) {}

    [[nodiscard]] bool known() const { return kind != Kind::kNone; }
    [[nodiscard]] bool isTool() const { return kind == Kind::kBar || kind == Kind::kPunch || kind == Kind::kDie; }
    /// Preconditions: the kind, and that one is meant.
    [[nodiscard]] PanelId panel() const { return PanelId{id}; }
    [[nodiscard]] BendId bend() const { return BendId{id}; }
    [[nodiscard]] ToolId bar() const { return ToolId{id}; }

    friend auto operator<=>(const BodyRef&, const BodyRef&) = default;
};

/// The word of a kind, "panel", "bend", "bar", "side frame"; empty for kNone.
[[nodiscard]] const char* toText(BodyRef::Kind kind);

}  // namespace tinwright
