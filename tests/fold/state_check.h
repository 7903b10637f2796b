// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// A random state asked of the kernel and of its oracle, whatever the kind of brake.

#include <optional>
#include <string>
#include <vector>

#include "contact/contact_cache.h"
#include "kernel_compare.h"
#include "oracle_sheet.h"
#include "random_states.h"

namespace tinwright::oracle {

/// A tool as the oracle sees it, in three fits.
struct Tool {
    std::size_t body = 0;          ///< of the machine
    std::optional<LeafFace> face;  ///< of a leaf
    bool rises = false;            ///< dies and bed of a press brake
    Section sections[3];           ///< by Fit
    [[nodiscard]] const Section& section(Fit fit) const { return sections[static_cast<int>(fit)]; }
};
[[nodiscard]] Tool toolOf(std::size_t body, const std::vector<Region>& regions);

/// A stroke as the oracle knows it. Angles are those of the bend.
class AskedStroke {
public:
    virtual ~AskedStroke() = default;
    [[nodiscard]] virtual const std::vector<SheetPiece>& pieces() const = 0;
    [[nodiscard]] virtual bool moves(const SheetPiece& sheet) const = 0;
    /// False for a tool that the stroke cannot be made with.
    [[nodiscard]] virtual bool takes(const Tool& tool) const = 0;
    [[nodiscard]] virtual double meets(const SheetPiece& sheet, const Tool& tool, Fit fit, double x0, double x1,
                                       Forming forming, double step_rad) const = 0;
    [[nodiscard]] virtual double meetsHeld(const SheetPiece& moving, bool shrunk, const SheetPiece& held,
                                           Forming forming, double step_rad) const = 0;
    [[nodiscard]] virtual bool meetsOwnStrip(const SheetPiece& sheet) const = 0;
};

struct AskedState {
    const char* kind;  ///< what makes the case of the seed
    std::uint64_t seed;
    random_states::State state;
    const std::vector<Tool>& tools;
};
[[nodiscard]] std::string nameOf(const AskedState& what);

/// Adds to the tally what comes of every group with every tool, and of every two groups.
void checkState(const AskedState& what, const AskedStroke& stroke, ContactCache& table, random_states::Dice& dice,
                Tally& tally);

}  // namespace tinwright::oracle
