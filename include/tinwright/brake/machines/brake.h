// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <tinwright/base/contract.h>
#include <tinwright/base/ids.h>
#include <tinwright/brake/machines/leaf_brake.h>
#include <tinwright/brake/machines/press_brake.h>

namespace tinwright {

/// Greatest sheet the brake is rated for.
struct Rating {
    std::string material;
    double thickness_mm = 0;
    double length_mm = 0;
};

/// How far bends are swung or pressed past their angle, for springback.
struct Overbend {
    double default_deg = 3.0;                       ///< FAA leaf-brake figure: set 93° to get 90°
    std::map<std::string, double> by_material_deg;  ///< by material id, for any target angle
    [[nodiscard]] double of_deg(const std::string& material) const;
};

/// A machine that folds: what all of them have, and what its kind has. Does not change once made. How it is used for
/// one part is a BrakeInSetup (brake_in_setup.h).
struct Brake {
    std::string name;
    std::string description;
    double length_mm = 0;  ///< of bed and leaf, or bed and ram, along the machine
    std::vector<Rating> ratings;
    bool overhang_left = true;  ///< a part may hang past this end (no end frame)
    bool overhang_right = true;
    std::optional<Overbend> overbend;  ///< of this machine; none: the shop's
    /// Figures that the shop file says nobody has measured, as JSON pointers into the brake with tools named by id
    /// ("/opening", "/bars/B30/height"; "/bars/*/height" when it is so for every bar; a press brake has "/punches/..."
    /// and
    /// "/dies/..."). In the file's order.
    std::vector<std::string> uncertain;
    std::variant<LeafBrake, PressBrake> kind;

    [[nodiscard]] bool isPress() const { return std::holds_alternative<PressBrake>(kind); }
    /// What its kind has. Precondition: it is of that kind.
    [[nodiscard]] const LeafBrake& leaf() const { return *ofKind(std::get_if<LeafBrake>(&kind)); }
    [[nodiscard]] LeafBrake& leaf() { return *ofKind(std::get_if<LeafBrake>(&kind)); }
    [[nodiscard]] const PressBrake& press() const { return *ofKind(std::get_if<PressBrake>(&kind)); }
    [[nodiscard]] PressBrake& press() { return *ofKind(std::get_if<PressBrake>(&kind)); }

    /// Tools of either kind by one id: bars; or punches, then dies.
    [[nodiscard]] std::size_t toolCount() const;
    [[nodiscard]] const Tool& tool(ToolId id) const;
    [[nodiscard]] ToolRow rowOf(ToolId id) const;
    /// The tool as what it is; nullptr when it is something else.
    [[nodiscard]] const Bar* bar(ToolId id) const;
    [[nodiscard]] const Punch* punch(ToolId id) const;
    [[nodiscard]] const Die* die(ToolId id) const;
    /// None: no tool is called so.
    [[nodiscard]] std::optional<ToolId> toolCalled(const std::string& id) const;

private:
    template <class Kind>
    static Kind* ofKind(Kind* kind) {
        TINWRIGHT_REQUIRE(kind != nullptr, "the brake is of that kind");
        return kind;
    }
};

/// Tools of one kind, row and section: they differ in nothing but their width.
[[nodiscard]] bool sameSection(const Brake& brake, ToolId a, ToolId b);

/// The brake with one piece more, with the section of one that it has.
[[nodiscard]] Brake withPiece(Brake brake, ToolId like, std::string id, double width_mm);

/// The Vs of its dies, by opening, then angle, then shoulder; a machine without dies has none.
[[nodiscard]] std::vector<Vee> veesOf(const Brake& brake);
/// The V that is called by this opening: one in inches is told to a tenth of a millimetre.
[[nodiscard]] bool isCalled(const Vee& vee, double opening_mm);

/// Machines that hurt in different ways.
enum class MachineKind {
    kLooseBarFolder,  ///< bars lie on the bed, held by magnets
    kBeamFolder,      ///< bars or fingers hang on a beam
    kPressBrake,
};
[[nodiscard]] MachineKind kindOf(const Brake& brake);

}  // namespace tinwright
