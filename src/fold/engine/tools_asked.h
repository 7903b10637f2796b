// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "engine/fold_engine_impl.h"

namespace tinwright {

/// The tools that a reason speaks of when a stroke finds none: sections (ToolFamily) that suit the bend and have pieces
/// enough to cover it if nothing stood in the way; when none has, all that suit it; when none suits it, all of their
/// row. What it tells is the same whatever the order of bars in the shop file.
class ToolsAsked {
public:
    /// Both outlive it.
    ToolsAsked(FoldEngine::Impl& engine, const StrokeScene& scene);

    /// Faces with which the leaf passes the beam, and on which tools of each row stand that would do; all of them when
    /// there are none such.
    [[nodiscard]] const std::vector<std::size_t>& faces() const { return faces_; }
    /// Sections of a row, by family: some, unless the brake has none. `faces`: some of faces(), on which the part has
    /// room.
    [[nodiscard]] std::vector<std::size_t> ofRow(ToolRow row, const std::vector<std::size_t>& faces) const;

    /// Where pieces of a section may stand over the middle of the bend.
    struct Room {
        std::size_t family = 0;
        std::optional<Interval> at;  ///< x of the fold; none: nowhere
        bool walled = true;          ///< something stands at both sides
    };
    /// Of these rows the one that has least, and of its sections the one that has most. `blocked`: of the scene.
    /// `upper`: of the upper row that section alone.
    [[nodiscard]] Room room(const std::vector<ToolRow>& rows, const Obstacles& blocked,
                            const std::vector<std::size_t>& faces,
                            std::optional<std::size_t> upper = std::nullopt) const;

    /// The section covers the bend by itself, where its row has others.
    [[nodiscard]] bool isOneOfSeveral(std::size_t family) const;
    /// The widest bar of a section, by which it is named; of equal ones the first by name.
    [[nodiscard]] ToolId named(std::size_t family) const;

private:
    [[nodiscard]] bool isOf(ToolId tool, std::size_t family) const;
    [[nodiscard]] bool suitsOn(std::size_t family, std::size_t face) const;
    [[nodiscard]] bool suits(std::size_t family, const std::vector<std::size_t>& faces) const;
    [[nodiscard]] bool wouldCover(std::size_t family) const;
    [[nodiscard]] Room roomOf(std::size_t family, const Obstacles& blocked) const;

    FoldEngine::Impl& engine_;
    const StrokeScene& scene_;
    std::vector<std::size_t> faces_;
};

}  // namespace tinwright
