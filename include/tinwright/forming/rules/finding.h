// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include <tinwright/base/stroke.h>
#include <tinwright/brake/plan/trouble.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// How much a finding matters.
enum class Severity {
    kNote,      ///< worth knowing at the bench
    kWarning,   ///< may spoil the part: look at it before metal is cut
    kFault,     ///< as drawn the part will be spoilt
    kOverload,  ///< more is asked of machine or tools than they are rated for
};
[[nodiscard]] const char* toText(Severity severity);  ///< "note", "warning", "fault", "overload"

/// What follows from a finding for a plan.
enum class Consequence {
    kNote,
    kNeedsCare,  ///< the fold goes well with something done besides (Care)
    kSpoils,     ///< part or machine suffers: orders are ranked by it first, and the verdict says so
};
[[nodiscard]] const char* toText(Consequence consequence);  ///< "note", "needs care", "spoils"

/// A number behind a finding. The name carries the unit ("web_mm", "moment_ratio").
struct Figure {
    std::string name;
    double value = 0;
    std::optional<double> limit;  ///< that it is held against, when there is one
};

/// A change of one cut-out that keeps the sheet beside it from giving way when a bend is folded.
struct CutOutCure {
    enum class Kind {
        kMoved,     ///< by_mm away from the bend
        kNarrowed,  ///< by_mm less wide along the bend, about its middle
        kBridged,   ///< `tabs` of by_mm left across it, cut out after folding
        kCutAfter,  ///< it is cut after folding
    };
    Kind kind = Kind::kCutAfter;
    std::size_t cut_out = 0;  ///< into Part::cut_outs
    BendId bend;
    Side side = Side::kParent;  ///< of the bend, on which it lies
    double by_mm = 0;
    int tabs = 0;
    friend bool operator==(const CutOutCure&, const CutOutCure&) = default;
};

/// What one check has to say about one feature of the part. Values only; text and drawings are made of it.
struct Finding {
    std::string id;  ///< of its rule (rules.h): stable, lower case, "group.name"
    Severity severity = Severity::kWarning;
    std::string feature;                 ///< what it is about: bend, cut-out, panel or corner by its name
    std::string brake;                   ///< empty: whatever the brake
    std::vector<BendId> bends;           ///< whose folding it concerns, ascending; empty: the part as a whole
    std::string words;                   ///< one sentence for the bench, with the numbers that matter
    std::vector<std::string> remedies;   ///< what cures it, smallest change first; each was computed again
    std::vector<CutOutCure> cures = {};  ///< those of them that change a cut-out
    std::vector<Figure> figures;
    std::optional<std::array<Vec2, 2>> section;  ///< on the blank: the line along which it fails
};

/// Faults and overloads spoil; so do warnings of webs that give way. Warnings of how a fold is held want care.
[[nodiscard]] Consequence consequenceOf(const Finding& finding);
/// Counted once for each bend that it concerns, of a part as a whole once.
[[nodiscard]] Spoils spoilsOf(const Finding& finding);

}  // namespace tinwright
