// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include <tinwright/base/angle.h>
#include <tinwright/base/ids.h>
#include <tinwright/base/stroke.h>
#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/machines/tool.h>
#include <tinwright/brake/plan/body_ref.h>
#include <tinwright/brake/plan/holding.h>

namespace tinwright {

enum class ReasonCode : std::uint8_t {
    kHit,               ///< the part meets something of the machine
    kLeafLiftsHeld,     ///< the swinging leaf meets the held side
    kPanelHit,          ///< the moving side meets the held one, or the strip that is bent what lies beside it
    kNoBars,            ///< no string of tools covers the bend
    kTooLittleClamped,  ///< too little sheet under the bar, or before the shoulders of the V
    kTrapped,           ///< tools or part would be locked in
    kLeafShort,         ///< what swings does not reach far enough onto the leaf
    kLeafJams,          ///< the setback is less than the sheet, and the leaf would press into it
    kLeafAngle,         ///< the leaf does not swing so far
    kVeeAngle,          ///< the sheet would lie on the flanks of the V
    kNoTools,           ///< no punch or no die suits the bend, wherever it stands
    kNowhere,           ///< the part cannot stand anywhere along the machine
    kNoHem,             ///< the brake makes no such hem
    kNotClosed,         ///< a hem is folded first and then not closed
    kNotOneStroke,      ///< the bends cannot be made in one stroke, whatever stands on the machine
    kNotHeld,           ///< it goes as drawn, and is not shown to hold over the tolerances
    kUndecided,         ///< neither proven clear nor proven to hit
};

/// As it is written in plan files: "hit", "leaf-lifts-held", "panel-hit", "no-bars", ...
[[nodiscard]] const char* toText(ReasonCode code);

/// Why a hem that is folded first is not closed by the pieces that made it.
struct ClosingTrouble {
    enum class Why {
        kNoPieces,    ///< none close it
        kMeets,       ///< the return meets something on its way down
        kTooDeep,     ///< for the flats: they are level over has_mm, the hem is needs_mm deep
        kStandsHigh,  ///< the return stands needs_mm high, the flats open to has_mm
        kNoJaw,       ///< of a die for this sheet
        kJawsDiffer,
        kJawLow,        ///< closed the hem is needs_mm high, the jaw opens to has_mm
        kRamReach,      ///< the ram does not close the jaw, or does not open over it
        kRestInTheWay,  ///< of the part
    };
    Why why = Why::kNoPieces;
    std::array<BodyRef, 2> between;  ///< kMeets
    double has_mm = 0;
    double needs_mm = 0;
    std::optional<ToolId> die;  ///< kNoJaw
};

/// Why two bends are not made in one stroke.
struct KeptApart {
    enum class Why {
        kAngles,        ///< they are bent by different angles
        kHem,           ///< one is a hem, the other is not
        kHemGaps,       ///< hems with different gaps
        kNotOnLine,     ///< as the part lies then
        kHeldAndMoved,  ///< `panel` would have to be held for `one` and move for `other`
    };
    Why why = Why::kNotOnLine;
    BendId one;
    BendId other;
    PanelId panel;  ///< of kHeldAndMoved
    friend bool operator==(const KeptApart&, const KeptApart&) = default;
};

/// A bend that no string of tools covers.
struct Uncovered {
    double bend_mm = 0;
    std::optional<double> free_mm;  ///< between what stands to both sides; none: there is room
    std::optional<ToolRow> lacks;   ///< of a press brake: the row with too few pieces whatever is free
    std::optional<ToolId> like;     ///< a piece of the section that is spoken of, where its row has others
};

/// Why the sheet is not packed up over what hangs under it.
struct NotPacked {
    double height_mm = 0;   ///< that it would take
    double presses_mm = 0;  ///< so deep the leaf would press into the sheet then; 0: strips have no room
};

/// Why one fold cannot be made, as data; its sentence is reasonWords() of the report.
struct Reason {
    ReasonCode code = ReasonCode::kHit;
    BendMask formed = 0;  ///< bends that are folded before it
    /// When it holds in many states: bends that are still flat; `formed` then has those alone that matter, and the rest
    /// may be either.
    std::optional<BendMask> flat;
    Stroke stroke;
    BodyRef panel;               ///< what meets: a panel or a strip
    BodyRef body;                ///< what it meets
    std::optional<ToolId> tool;  ///< one of the section that it meets, when that is a tool; where others were tried
                                 ///< (`also`) that with which it is so
    /// Where heights of tools settle where ram and bed are: a tool of each row with the heights that this is told for.
    std::vector<ToolId> heights_of;
    Angle angle;          ///< that the bends are to have after the stroke: of hems that of their first fold
    Angle set_angle;      ///< to which leaf or punch would be set for it
    double at_deg = 0;    ///< of the bend; of kLeafAngle and kVeeAngle how far it goes
    double depth_mm = 0;  ///< by how much at least, 0 when unknown
    std::optional<std::array<double, 2>> room_mm;  ///< kNoBars: x of the fold between which bars might stand, when both
                                                   ///< ends are known
    std::optional<Uncovered> uncovered;            ///< kNoBars
    std::optional<double> setback_mm;              ///< kLeafShort, kLeafJams: one that would do; none: none would
    std::optional<NotPacked> not_packed;           ///< kHit, kLeafLiftsHeld: of a hem on bed or leaf
    std::optional<NoHem> no_hem;                   ///< kNoHem
    std::optional<ClosingTrouble> closing;         ///< kNotClosed; kUndecided, when that is all that is open
    std::optional<KeptApart> apart;                ///< kNotOneStroke, whichever side is held
    std::optional<Holding> holding;                ///< kNotHeld
    /// The same fold with the other kinds of tools that were tried, each named by its `tool`: it takes one of them, or
    /// that of this reason, to be lifted.
    std::vector<Reason> also;
    [[nodiscard]] std::vector<BendId> bends() const { return bendList(stroke.bends); }
};

}  // namespace tinwright
