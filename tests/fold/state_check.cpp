// SPDX-License-Identifier: GPL-3.0-or-later
#include "state_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

namespace tinwright::oracle {

namespace {

using random_states::Dice;
using random_states::State;

constexpr double kDegree = std::numbers::pi / 180.0;
constexpr double kCoarse_rad = 1.0 * kDegree;
constexpr double kFine_rad = 0.02 * kDegree;
constexpr double kSliver_mm = 1e-3;  // along x a place is taken this much narrower: touching there is not contact
constexpr Forming kRolling{0};
constexpr Forming kUniform{1};

class StateCheck {
public:
    StateCheck(const AskedState& what, const AskedStroke& stroke, ContactCache& table, Dice& dice, Tally& tally)
        : what_(what), state_(what.state), stroke_(stroke), table_(table), dice_(dice), tally_(tally) {}

    void run() {
        ++tally_.states;
        formings_ = {kRolling, kUniform};
        if (dice_.chance(0.25)) formings_.push_back({dice_.between(0.1, 0.9)});
        const std::size_t own = table_.bodies().stripGroup(state_.bend);
        for (std::size_t group = 0; group < stroke_.pieces().size(); ++group) {
            if (group == own) continue;
            records_.push_back(table_.records().of(state_.bend, state_.hold, group, state_.formed));
            groups_.push_back(group);
            for (const Tool& tool : what_.tools) {
                if (stroke_.takes(tool)) againstTool(records_.back(), tool, stroke_.pieces()[group]);
            }
        }
        for (std::size_t a = 0; a < records_.size(); ++a) {
            for (std::size_t b = 0; b < records_.size(); ++b) againstHeld(a, b);
        }
        ownStrips();
    }

private:
    [[nodiscard]] double meets(const SheetPiece& sheet, const Tool& tool, Fit fit, Interval at, Forming forming,
                               double step) const {
        return stroke_.meets(sheet, tool, fit, toMm(at.lo) + kSliver_mm, toMm(at.hi) - kSliver_mm, forming, step);
    }

    void againstTool(std::uint32_t record, const Tool& tool, const SheetPiece& sheet) {
        const BodyContact& touch = table_.contacts().contact(record, tool.body);
        const GroupRecord& group = table_.records().laidOut(record);
        const Interval extent{micronFloor(group.x_lo_mm), micronCeil(group.x_hi_mm)};
        randomPlace(record, tool, sheet, touch, extent);
        const auto& items = touch.shadow.outer.items();
        if (items.empty()) return mustBeFree(record, tool, sheet, extent);
        // The sharpest questions: right beside what is called hit.
        const auto pick = static_cast<std::size_t>(dice_.below(static_cast<int>(items.size())));
        const Micron before = pick > 0 ? items[pick - 1].hi : extent.lo - 10'000;
        const Micron after = pick + 1 < items.size() ? items[pick + 1].lo : extent.hi + 10'000;
        if (items[pick].lo - before > 10) mustBeFree(record, tool, sheet, {before, items[pick].lo});
        if (after - items[pick].hi > 10) mustBeFree(record, tool, sheet, {items[pick].hi, after});
        witness(record, tool, sheet, touch.shadow.inner);
    }

    void randomPlace(std::uint32_t record, const Tool& tool, const SheetPiece& sheet, const BodyContact& touch,
                     Interval extent) {
        Interval at{extent.lo - 1000, extent.hi + 1000};
        if (!dice_.chance(0.3)) {
            at.lo = micronNearest(dice_.between(toMm(extent.lo) - 30, toMm(extent.hi)));
            at.hi = at.lo + micronNearest(dice_.between(5, 120));
        }
        ++tally_.placed;
        if (touch.shadow.outer.empty()) return;  // the whole extent is looked at
        if (!touch.shadow.outer.meets(at)) return mustBeFree(record, tool, sheet, at);
        ++tally_.called_impossible;
        for (const Forming forming : {kRolling, kUniform}) {
            if (meets(sheet, tool, Fit::kGrown, at, forming, kCoarse_rad) >= 0) return;
        }
        for (const Forming forming : {kRolling, kUniform}) {
            if (meets(sheet, tool, Fit::kGrown, at, forming, kFine_rad) >= 0) return;
        }
        ++tally_.clear_after_all;
        ++tally_.kinds[kindOf(table_.records().laidOut(record), tool, touch, sheet, at)];
    }

    // Why the kernel may be careful there.
    std::string kindOf(const GroupRecord& group, const Tool& tool, const BodyContact& touch, const SheetPiece& sheet,
                       Interval at) const {
        const Micron meeting = touch.shadow.outer.intersect(IntervalSet(at)).length();
        // Slices of arcs stand out a little, and so does what they witness.
        if (!sheet.is_arc && touch.shadow.inner.intersect(IntervalSet(at)).length() > 10)
            return "witnessed: the inner set is wrong";
        if (tool.face && stroke_.moves(sheet)) return "leaf drawn back as a whole";
        for (int i = 1; i < 8 && stroke_.moves(sheet); ++i) {
            if (meets(sheet, tool, Fit::kGrown, at, {i / 8.0}, kCoarse_rad) >= 0)
                return "a motion between the two extremes hits";
        }
        if (meeting < 700) return "edge of the shadow, under 0.7 mm of it";
        for (const Solid& solid : group.solids) {
            if (!solid.uniform() && solid.x_hi_mm() - solid.x_lo_mm() < 2.0) return "narrow body taken whole";
        }
        if (sheet.is_arc) return "arc: slices stand out by their sagitta";
        return "within the motion's spread";
    }

    void mustBeFree(std::uint32_t record, const Tool& tool, const SheetPiece& sheet, Interval at) {
        ++tally_.free_checked;
        for (const Forming forming : formings_) {
            if (!stroke_.moves(sheet) && forming.uniform_share > 0) break;
            const double angle = meets(sheet, tool, Fit::kShrunk, at, forming, kCoarse_rad);
            if (angle < 0) continue;
            tally_.dangerous.push_back(
                fmt::format("{}: group {} with body {} at x {} to {} um: hit at {:.3f} deg, uniform share {}", name(),
                            table_.at(record).group, toText(table_.machine().bodies()[tool.body].what), at.lo, at.hi,
                            angle / kDegree, forming.uniform_share));
            return;
        }
    }

    // A body that stands wholly within a witnessed stretch is hit under either motion.
    void witness(std::uint32_t record, const Tool& tool, const SheetPiece& sheet, const IntervalSet& inner) {
        if (inner.empty()) return;
        const auto& items = inner.items();
        const Interval item = items[static_cast<std::size_t>(dice_.below(static_cast<int>(items.size())))];
        const Micron width = std::max<Micron>(200, item.length() / 4);
        if (item.length() < width) return;
        const Micron lo = item.lo + micronFloor(dice_.between(0, toMm(item.length() - width)));
        ++tally_.witnesses_checked;
        for (const Forming forming : {kRolling, kUniform}) {
            // The kernel's slices of arcs are drawn round the arc and stand out by up to 0.02 mm.
            const Fit fit = sheet.is_arc ? Fit::kGrown : Fit::kPlain;
            if (meets(sheet, tool, fit, {lo, lo + width}, forming, kCoarse_rad) >= 0) continue;
            if (meets(sheet, tool, fit, {lo, lo + width}, forming, kFine_rad) >= 0) continue;
            tally_.unconfirmed.push_back(fmt::format(
                "{}: group {} with body {} at x {} to {} um, uniform share {}", name(), table_.at(record).group,
                toText(table_.machine().bodies()[tool.body].what), lo, lo + width, forming.uniform_share));
        }
    }

    void againstHeld(std::size_t a, std::size_t b) {
        const SheetPiece& moving = stroke_.pieces()[groups_[a]];
        const SheetPiece& held = stroke_.pieces()[groups_[b]];
        if (!moving.moving || held.moving) return;
        ++tally_.pairs;
        const PairVerdict verdict = table_.pairs().of(records_[a], records_[b], 0).verdict;
        for (const Forming forming : formings_) {
            if (!verdict.clear) break;
            const double angle = stroke_.meetsHeld(moving, true, held, forming, kCoarse_rad);
            if (angle < 0) continue;
            tally_.dangerous.push_back(fmt::format("{}: groups {} and {}: hit at {:.3f} deg, uniform share {}", name(),
                                                   groups_[a], groups_[b], angle / kDegree, forming.uniform_share));
        }
        if (verdict.clear) return;
        ++tally_.pairs_impossible;
        bool met = false;
        for (const Forming forming : {kRolling, kUniform}) {
            const double angle =
                stroke_.meetsHeld(moving, false, held, forming, verdict.hit ? 0.1 * kDegree : kCoarse_rad);
            met = met || angle >= 0;
            if (angle >= 0 || !verdict.hit) continue;
            tally_.unconfirmed.push_back(fmt::format("{}: groups {} and {}, uniform share {}, {} mm deep at {:.3f} deg",
                                                     name(), groups_[a], groups_[b], forming.uniform_share,
                                                     verdict.depth_mm, verdict.at_rad / kDegree));
        }
        if (!met) ++tally_.pairs_clear_after_all;
    }

    void ownStrips() {
        for (std::size_t b = 0; b < records_.size(); ++b) {
            const SheetPiece& piece = stroke_.pieces()[groups_[b]];
            if (table_.strips().contact(state_.bend, state_.hold, records_[b], 0) != StripContact::kClear ||
                !stroke_.meetsOwnStrip(piece))
                continue;
            tally_.dangerous.push_back(fmt::format("{}: own strip and group {}", name(), groups_[b]));
        }
    }

    [[nodiscard]] std::string name() const { return nameOf(what_); }

    const AskedState& what_;
    const State& state_;
    const AskedStroke& stroke_;
    ContactCache& table_;
    Dice& dice_;
    Tally& tally_;
    std::vector<Forming> formings_;
    std::vector<std::uint32_t> records_;
    std::vector<std::size_t> groups_;
};

}  // namespace

Tool toolOf(std::size_t body, const std::vector<Region>& regions) {
    Tool tool{body, {}, false, {}};
    for (const Fit fit : {Fit::kShrunk, Fit::kPlain, Fit::kGrown}) {
        for (const Region& region : regions) {
            for (Polygon& piece : fitted(region, fit)) tool.sections[static_cast<int>(fit)].push_back(std::move(piece));
        }
    }
    return tool;
}

std::string nameOf(const AskedState& what) {
    return fmt::format("{}({}), formed {:#x}, bend {}, hold {}", what.kind, what.seed, what.state.formed,
                       what.state.bend.value, static_cast<int>(what.state.hold));
}

void checkState(const AskedState& what, const AskedStroke& stroke, ContactCache& table, Dice& dice, Tally& tally) {
    StateCheck(what, stroke, table, dice, tally).run();
}

void Tally::add(const Tally& other) {
    states += other.states;
    free_checked += other.free_checked;
    witnesses_checked += other.witnesses_checked;
    placed += other.placed;
    called_impossible += other.called_impossible;
    clear_after_all += other.clear_after_all;
    pairs += other.pairs;
    pairs_impossible += other.pairs_impossible;
    pairs_clear_after_all += other.pairs_clear_after_all;
    for (const auto& [kind, count] : other.kinds) kinds[kind] += count;
    for (const auto& [what, count] : other.more) more[what] += count;
    dangerous.insert(dangerous.end(), other.dangerous.begin(), other.dangerous.end());
    unconfirmed.insert(unconfirmed.end(), other.unconfirmed.begin(), other.unconfirmed.end());
}

std::string Tally::text() const {
    std::string text = fmt::format(
        "{} states; {} places called free, {} of them hit; {} witnesses, {} unconfirmed; {} bodies placed at random, "
        "{} called impossible, {} of "
        "those clear; {} pairs, {} called impossible, {} of those clear\n",
        states, free_checked, dangerous.size(), witnesses_checked, unconfirmed.size(), placed, called_impossible,
        clear_after_all, pairs, pairs_impossible, pairs_clear_after_all);
    for (const auto& [kind, count] : kinds) text += fmt::format("  {:5} {}\n", count, kind);
    for (const auto& [what, count] : more) text += fmt::format("  {}: {}\n", what, count);
    for (const auto* list : {&dangerous, &unconfirmed}) {
        for (std::size_t i = 0; i < std::min<std::size_t>(list->size(), 10); ++i) {
            text += (list == &dangerous ? "  DANGEROUS " : "  UNCONFIRMED ") + (*list)[i] + "\n";
        }
    }
    return text;
}

}  // namespace tinwright::oracle
