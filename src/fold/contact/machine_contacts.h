// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include <tinwright/geometry/interval_set.h>

#include "contact/group_records.h"
#include "contact/known_gap.h"

namespace tinwright {

/// The first witnessed contact of a stroke; a negative angle when there is none.
struct FirstContact {
    double at_rad = -1;
    double depth_mm = 0;
};

/// What one group meets of one body during a stroke.
struct BodyContact {
    bool known = false;
    bool near_known = false;
    double beyond_mm = -1;  ///< the group as a whole is proven to stay further than this
    double not_beyond_mm = std::numeric_limits<double>::infinity();  ///< and not proven to stay further than this
    bool intended = false;  ///< contact is part of the job: no clearance is asked
    Shadow shadow;          ///< contact
    IntervalSet near;       ///< nearer than the wanted clearance (a superset of shadow.outer); empty when intended, and
                            ///< until asked for
    std::optional<FirstContact> first;                   ///< once asked for
    std::vector<KnownGap> gaps;                          ///< by solid, in (y, z)
    std::vector<std::pair<double, IntervalSet>> nearer;  ///< by margin, as asked for
};

/// What each group of the part meets of each body of the machine during a stroke, each computed once.
class MachineContacts {
public:
    MachineContacts(const StrokeGeometry& geometry, GroupRecords& records) : geometry_(geometry), records_(records) {}

    /// Contact alone.
    const BodyContact& contact(std::uint32_t record, std::size_t body);
    /// And where the group comes nearer than wanted.
    const BodyContact& contactAndNear(std::uint32_t record, std::size_t body);
    /// Families of tools whose contactAndNear() (`wanted`) or contact() with the record is not empty: few.
    const std::vector<std::uint32_t>& familiesMet(std::uint32_t record, bool wanted);
    /// True when contact of the two is part of the job.
    [[nodiscard]] bool isIntended(std::uint32_t record, std::size_t body) const {
        return isIntended(records_.at(record), geometry_.machine().bodies()[body]);
    }
    const FirstContact& firstContact(std::uint32_t record, std::size_t body);

    // ---- clearances ----
    /// In (y, z), of a solid of the record; none when it is proven to be at least `cap_mm`. What comes back does not
    /// depend on the cap.
    std::optional<GapBound> gapUnder(double cap_mm, std::uint32_t record, std::size_t body, std::size_t solid);
    /// True when no solid of the record comes nearer than `cap_mm` in (y, z), as far as a quick proof tells.
    [[nodiscard]] bool groupBeyond(double cap_mm, std::uint32_t record, std::size_t body);
    /// The contact shadow at another margin: where the group comes within `margin_mm` of the body.
    const IntervalSet& nearerThan(std::uint32_t record, std::size_t body, double margin_mm);

private:
    struct OfRecord {
        std::vector<BodyContact> bodies;                          // empty until one is asked for
        std::optional<std::vector<std::uint32_t>> families_met;   // tools that it touches,
        std::optional<std::vector<std::uint32_t>> families_near;  // or comes nearer to than wanted
    };
    OfRecord& ofRecord(std::uint32_t record);
    BodyContact& known(std::uint32_t record, std::size_t body);
    struct View {  // a record as a body sees it
        const Motion* motion;
        const ToolPieces* pieces;
    };
    [[nodiscard]] View viewOf(const GroupRecord& group, std::size_t body, bool strict) const;
    /// The solids that a body sees: none where what is driven does not see them.
    const std::vector<SeenSolid>& seenBy(std::uint32_t record, std::size_t body);
    [[nodiscard]] static std::vector<const ToolPiece*> piecesWithin(const GroupRecord& group, const View& view,
                                                                    double margin_mm);
    [[nodiscard]] bool isIntended(const GroupRecord& group, const Body& tool) const;
    [[nodiscard]] bool liesOnPacked(const GroupRecord& group, const Body& tool) const;
    /// False where what is driven is never near the group, or bears on it.
    [[nodiscard]] bool sees(const Body& tool, const GroupRecord& group) const;
    [[nodiscard]] bool isLate(const GroupRecord& group, const Body& tool) const;
    void castContact(std::uint32_t record, std::size_t body, const std::vector<std::size_t>& close,
                     BodyContact& result);
    void witnessOnFront(std::uint32_t record, std::size_t body, Shadow& shadow);
    [[nodiscard]] std::vector<std::size_t> castNear(std::uint32_t record, std::size_t body, BodyContact& result);

    const StrokeGeometry& geometry_;
    GroupRecords& records_;
    std::vector<std::unique_ptr<OfRecord>> of_record_;  // by record; references to it are handed out
};

}  // namespace tinwright
