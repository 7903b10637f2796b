// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "contact/stroke_scene.h"
#include "exits/way_out.h"
#include "hems/hem_closer.h"
#include "setup/bar_strings.h"
#include "setup/placed.h"
#include "stations/along_machine.h"
#include "tolerances/tolerance_check.h"

namespace tinwright {

/// Ways out that are looked for.
enum class WaysTried { kStraight, kPlanarToo };

/// Why nothing could be put.
enum class NoPlace { kNone, kNowhere, kNoBars, kTooLittleClamped, kTrapped, kNotClosed };

/// Places part and bars for a stroke: x is solved on intervals, not on a grid.
class Placer {
public:
    Placer(ContactCache& table, BarStrings& strings)
        : table_(table), strings_(strings), along_(table, strings), groups_(table.machine()) {}

    /// From here on only what holds over the tolerances (null: whatever goes) is placed.
    void demand(ToleranceCheck* tolerances) { tolerances_ = tolerances; }

    /// From here on what makes hems has to close them too (null: it need not).
    void closing(HemCloser* closer) { closer_ = closer; }
    [[nodiscard]] HemCloser* closer() const { return closer_; }

    /// Whether narrow obstacles under an end relief keep a point that no bar may span. Without, more of the part can
    /// only add to what is in the way.
    void keepPoints(bool keep) { keeps_points_ = keep; }

    [[nodiscard]] Obstacles obstacles(const StrokeScene& scene, Certainty certainty, std::size_t leaf_face);
    /// The first placement that passes, or none and why. `cut_short`: more candidates existed than were tried.
    [[nodiscard]] std::optional<Placed> place(const StrokeScene& scene, Certainty certainty, NoPlace& why,
                                              bool& cut_short, WaysTried tried = WaysTried::kPlanarToo);
    /// The same with bars that stand already, at machine x; the part may be put anywhere.
    [[nodiscard]] std::optional<Placed> placeAt(const StrokeScene& scene, Certainty certainty, const Setup& setup);

    [[nodiscard]] const AlongMachine& along() const { return along_; }

    [[nodiscard]] bool enoughClamped(const StrokeScene& scene) const;

    /// The part as it lies in a phase, for wayOut.
    [[nodiscard]] RestShadows atRest(const StrokeScene& scene, Phase phase);
    [[nodiscard]] WayOut wayOut(RestShadows& part, const Placed& placed, bool straight_only) const;

private:
    struct Ways {  // of one scene, over all the strings that are tried; made when first needed
        std::optional<RestShadows> before;
        std::optional<RestShadows> after;
        TolerantWays tolerant;
        bool straight_only = true;
    };
    [[nodiscard]] bool leafClearsBeam(const StrokeScene& scene, std::size_t face);
    std::optional<Placed> placeWithFace(const StrokeScene& scene, Certainty certainty, std::size_t face, Ways& ways,
                                        NoPlace& why, bool& cut_short);
    std::optional<Placed> placeBars(const StrokeScene& scene, Certainty certainty, const Obstacles& obstacles,
                                    Micron part_x, std::size_t face, Ways& ways, NoPlace& why, bool& cut_short);
    /// Offers strings of one row's pieces until one is accepted and `found`.
    void chooseRow(const StrokeScene& scene, const Obstacles& obstacles, ToolRow row, Micron part_x, std::size_t face,
                   const bool& found, bool& cut_short, const std::function<bool(const BarString&)>& accept);
    /// The same of a press brake's punches, for strings that begin or end with a horn.
    void chooseHorned(const StrokeScene& scene, const Obstacles& obstacles, Micron part_x, std::size_t face,
                      bool& cut_short, const std::function<bool(const BarString&)>& accept);
    [[nodiscard]] std::vector<ToolId> hornedLike(std::size_t plain, bool at_left, std::size_t face) const;
    [[nodiscard]] bool foldsHems(const StrokeScene& scene) const;
    [[nodiscard]] bool closesHems(const StrokeScene& scene, Certainty certainty, const Placed& placed) const;
    bool waysFree(const StrokeScene& scene, Ways& ways, Placed& placed);
    bool pressWaysFree(const StrokeScene& scene, Ways& ways, Placed& placed);
    bool waysHold(const StrokeScene& scene, Ways& ways, Placed& placed);
    bool familyFits(const StrokeScene& scene, std::size_t family, std::size_t leaf_face);
    bool plainWay(const StrokeScene& scene, const Placed& placed, Phase phase);
    [[nodiscard]] std::vector<Micron> partPlaces(const StrokeScene& scene, const IntervalSet& room) const;

    ContactCache& table_;
    BarStrings& strings_;
    AlongMachine along_;
    GroupShadows groups_;
    EscapeMemo escapes_;
    ToleranceCheck* tolerances_ = nullptr;
    HemCloser* closer_ = nullptr;
    bool keeps_points_ = true;
};

/// While it lives, hems are not asked to be closed: what is placed is the first fold alone.
class FirstFoldAlone {
public:
    explicit FirstFoldAlone(Placer& placer) : placer_(placer), after_(placer.closer()) { placer_.closing(nullptr); }
    ~FirstFoldAlone() { placer_.closing(after_); }
    FirstFoldAlone(const FirstFoldAlone&) = delete;
    FirstFoldAlone& operator=(const FirstFoldAlone&) = delete;

private:
    Placer& placer_;
    HemCloser* after_;
};

/// While it lives, what is in the way is no less with more of the part.
class Growing {
public:
    explicit Growing(Placer& placer) : placer_(placer), alone_(placer) { placer_.keepPoints(false); }
    ~Growing() { placer_.keepPoints(true); }
    Growing(const Growing&) = delete;
    Growing& operator=(const Growing&) = delete;

private:
    Placer& placer_;
    FirstFoldAlone alone_;
};

/// While it lives, what is placed need not hold over the tolerances.
class AsDrawn {
public:
    AsDrawn(Placer& placer, ToleranceCheck* after) : placer_(placer), after_(after) { placer_.demand(nullptr); }
    ~AsDrawn() { placer_.demand(after_); }
    AsDrawn(const AsDrawn&) = delete;
    AsDrawn& operator=(const AsDrawn&) = delete;

private:
    Placer& placer_;
    ToleranceCheck* after_;
};

/// Least share of the bend that must lie before enough clamped land.
inline constexpr double kLeastClampedShare = 0.5;

}  // namespace tinwright
