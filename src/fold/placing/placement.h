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

/// Where are part and bars put for a stroke? All that the answer hangs on.
struct PlaceQuestion {
    const StrokeScene& scene;
    Certainty certainty = Certainty::kOuter;
    WaysTried ways = WaysTried::kPlanarToo;
    /// Only what holds over these is placed; null: what goes as drawn will do.
    ToleranceCheck* tolerances = nullptr;
    /// Closes the hems that the stroke makes; null: what is placed is their first fold alone.
    HemCloser* hems = nullptr;
    /// Narrow obstacles under an end relief keep a point that no bar may span. Without, more of the part can only add
    /// to what is in the way.
    bool keep_points = true;
    /// A family: upper tools of its section alone.
    std::optional<std::size_t> section = std::nullopt;
};

struct PlaceAnswer {
    std::optional<Placed> placed;
    NoPlace why = NoPlace::kNone;  ///< of what was tried it got furthest, when nothing passed
    bool cut_short = false;        ///< more candidates existed than were tried
};

/// Places part and bars for a stroke: x is solved on intervals, not on a grid. What it keeps are facts alone, so that a
/// question has one answer whatever was asked before.
class Placer {
public:
    Placer(ContactCache& table, BarStrings& strings)
        : table_(table), strings_(strings), along_(table, strings), groups_(table.machine()) {}

    [[nodiscard]] Obstacles obstacles(const PlaceQuestion& question, std::size_t face);
    /// The same of what is as long as the machine, and of side frames: where the part may stand hangs on these alone.
    [[nodiscard]] Obstacles longObstacles(const PlaceQuestion& question, std::size_t face);
    /// False for packing that does not lie under the stroke, and for leaves that do not swing its bends.
    [[nodiscard]] bool faceServes(const StrokeScene& scene, std::size_t face);
    /// The first placement that passes, or none and why.
    [[nodiscard]] PlaceAnswer place(const PlaceQuestion& question);
    /// The same with bars that stand already, at machine x; the part may be put anywhere, and packed up.
    [[nodiscard]] std::optional<Placed> placeAt(const PlaceQuestion& question, const Setup& setup);

    [[nodiscard]] const AlongMachine& along() const { return along_; }

    /// The part as it lies in a phase, for wayOut. `keep_points`: as in PlaceQuestion.
    [[nodiscard]] RestShadows atRest(const StrokeScene& scene, Phase phase, bool keep_points = true);
    [[nodiscard]] WayOut wayOut(RestShadows& part, const Placed& placed, bool straight_only) const;

private:
    /// A question, and what is worked out on the way to its answer.
    struct Trial {
        const PlaceQuestion& question;
        std::optional<RestShadows> before;  // over all the strings that are tried; made when first needed
        std::optional<RestShadows> after;
        TolerantWays tolerant;
        bool straight_only = true;
        bool cut_short = false;
        [[nodiscard]] const StrokeScene& scene() const { return question.scene; }
    };
    /// Where the part lies for strings that are tried.
    struct Site {
        const Obstacles& obstacles;
        Micron part_x = 0;
        std::size_t face = 0;
    };
    [[nodiscard]] std::optional<RestShadows>& atRest(Trial& trial, Phase phase);
    [[nodiscard]] bool drivenClearsBeam(const PlaceQuestion& question, std::size_t face);
    /// Whether the face makes the stroke at all, wherever part and pieces stand.
    [[nodiscard]] bool serves(const PlaceQuestion& question, std::size_t face);
    /// Whether upper tools of a family are asked about.
    [[nodiscard]] bool isAsked(const PlaceQuestion& question, std::size_t family) const;
    std::optional<Placed> placeWithFace(Trial& trial, std::size_t face, NoPlace& why);
    std::optional<Placed> placeAtWith(const PlaceQuestion& question, const Setup& setup, std::size_t face);
    std::optional<Placed> placeBars(Trial& trial, const Site& site, NoPlace& why);
    /// Offers strings of one row's pieces until one is accepted and `found`.
    void chooseRow(Trial& trial, const Site& site, ToolRow row, const bool& found,
                   const std::function<bool(const BarString&)>& accept);
    /// The same of a press brake's punches, for strings that begin or end with a horn.
    void chooseHorned(Trial& trial, const Site& site, const std::function<bool(const BarString&)>& accept);
    [[nodiscard]] std::vector<ToolId> hornedLike(std::size_t plain, bool at_left, std::size_t face) const;
    [[nodiscard]] bool foldsHems(const StrokeScene& scene) const;
    [[nodiscard]] bool closesHems(const PlaceQuestion& question, const Placed& placed) const;
    bool waysFree(Trial& trial, Placed& placed);
    bool longWaysFree(Trial& trial, Placed& placed);
    bool waysHold(Trial& trial, Placed& placed);
    bool familyFits(const PlaceQuestion& question, std::size_t family, std::size_t face);
    bool plainWay(const StrokeScene& scene, const Placed& placed, Phase phase);
    [[nodiscard]] std::vector<Micron> partPlaces(const StrokeScene& scene, const IntervalSet& room) const;
    [[nodiscard]] Micron marginOf(Certainty certainty) const;

    ContactCache& table_;
    BarStrings& strings_;
    AlongMachine along_;
    GroupShadows groups_;
    EscapeMemo escapes_;
};

/// Least share of the bend that must lie before enough clamped width, and beside enough for what swings the sheet.
inline constexpr double kLeastClampedShare = 0.5;
[[nodiscard]] bool enoughSwung(const StrokeScene& scene);
/// Both.
[[nodiscard]] bool enoughSheet(const StrokeScene& scene);

}  // namespace tinwright
