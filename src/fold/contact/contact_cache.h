// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <vector>

#include "bodies/stroke_geometry.h"
#include "contact/clamped_widths.h"
#include "contact/drawn_gaps.h"
#include "contact/group_records.h"
#include "contact/machine_contacts.h"
#include "contact/own_strips.h"
#include "contact/pair_contacts.h"
#include "contact/plain_ways.h"
#include "contact/tool_fits.h"

namespace tinwright {

/// Everything geometric that folds of one part on one brake depend on, each computed once when it is first asked for.
/// No answer depends on what was asked before.
class ContactCache {
public:
    /// Refers to the part and the shop, which must stay where they are.
    ContactCache(const PartOnBrake& part, const Shop& shop, std::unique_ptr<const Machine> machine,
                 const std::vector<double>& radii_mm = {})
        : geometry_(part, shop, std::move(machine), radii_mm) {}
    ContactCache(const PartOnBrake& part, const Shop& shop, const BrakeInSetup& brake,
                 const std::vector<double>& radii_mm = {})
        : ContactCache(part, shop, makeMachine(brake, part.part().thickness_mm), radii_mm) {}
    ContactCache(const ContactCache&) = delete;
    ContactCache& operator=(const ContactCache&) = delete;

    [[nodiscard]] const StrokeGeometry& geometry() const { return geometry_; }
    [[nodiscard]] const PartBodies& bodies() const { return geometry_.bodies(); }
    [[nodiscard]] const Machine& machine() const { return geometry_.machine(); }
    [[nodiscard]] const Limits& limits() const { return geometry_.limits(); }

    [[nodiscard]] GroupRecords& records() { return records_; }
    [[nodiscard]] const GroupRecords& records() const { return records_; }
    [[nodiscard]] const GroupRecord& at(std::uint32_t record) const { return records_.at(record); }
    [[nodiscard]] MachineContacts& contacts() { return contacts_; }
    [[nodiscard]] PairContacts& pairs() { return pairs_; }
    [[nodiscard]] const PairContacts& pairs() const { return pairs_; }
    [[nodiscard]] DrawnGaps& drawn() { return drawn_; }
    [[nodiscard]] OwnStrips& strips() { return strips_; }
    [[nodiscard]] ToolFits& tools() { return tools_; }
    [[nodiscard]] PlainWays& ways() { return ways_; }
    [[nodiscard]] ClampedWidths& clamped() { return clamped_; }

private:
    StrokeGeometry geometry_;
    GroupRecords records_{geometry_};
    MachineContacts contacts_{geometry_, records_};
    PairContacts pairs_{geometry_, records_};
    DrawnGaps drawn_{geometry_};
    OwnStrips strips_{geometry_, records_};
    ToolFits tools_{geometry_, strips_};
    PlainWays ways_{geometry_, records_};
    ClampedWidths clamped_{geometry_};
};

}  // namespace tinwright
