// SPDX-License-Identifier: GPL-3.0-or-later
#include "kernel_compare.h"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

namespace tinwright::oracle {

namespace {

using random_states::Case;
using random_states::Dice;
using random_states::State;

constexpr double kDegree = std::numbers::pi / 180.0;
constexpr double kCoarse_rad = 1.0 * kDegree;
constexpr double kFine_rad = 0.02 * kDegree;
constexpr double kSliver_mm = 1e-3;  // along x a place is taken this much narrower: touching there is not contact
constexpr Forming kRolling{0};
constexpr Forming kUniform{1};

// A tool as the oracle sees it, in three fits.
struct Tool {
    std::size_t body = 0;                  // of the machine
    const LeafFace* face = nullptr;        // of a leaf
    Section sections[3];
};

Tool toolOf(std::size_t body, const std::vector<Region>& regions) {
    Tool tool{body, nullptr, {}};
    for (const Fit fit : {Fit::kShrunk, Fit::kPlain, Fit::kGrown}) {
        for (const Region& region : regions) {
            for (Polygon& piece : fitted(region, fit)) tool.sections[static_cast<int>(fit)].push_back(std::move(piece));
        }
    }
    return tool;
}

std::vector<Tool> toolsOf(const Case& what, const Machine& machine) {
    const Brake& brake = what.brake();
    const double t = what.part.thickness_mm;
    std::vector<Tool> tools{toolOf(machine.bed(), {bedSectionOf(brake, t)})};
    if (brake.has_beam) tools.push_back(toolOf(static_cast<std::size_t>(machine.beam()), {beamSectionOf(brake, t)}));
    for (std::size_t i = 0; i < brake.leaf_faces.size(); ++i) tools.push_back({machine.leaf(i), &brake.leaf_faces[i], {}});
    const Region bar = barSectionOf(brake.bars[0], t);
    const BarFamily& family = machine.families()[0];
    const double far = 1000;
    const double at = family.low >= 0 ? t + brake.bars[0].end_relief_height_mm : -far;
    tools.push_back(toolOf(family.high, cut(bar, at, far)));
    // The kernel moves both parts in from where they are cut, too: the slot of a tenth between them is too narrow for sheet.
    if (family.low >= 0) tools.push_back(toolOf(static_cast<std::size_t>(family.low), cut(bar, -far, at)));
    return tools;
}

class StateCheck {
public:
    StateCheck(const Case& what, const Outlines& outlines, const std::vector<Tool>& tools, TouchTable& table, const State& state, std::uint64_t seed, Dice& dice, Tally& tally)
        : tools_(tools), table_(table), state_(state), seed_(seed), dice_(dice), tally_(tally),
          stroke_(what.part, outlines, what.brake(), what.shop.overbendFor_deg(what.part.material), state.formed, state.bend, state.hold) {}

    void run() {
        ++tally_.states;
        formings_ = {kRolling, kUniform};
        if (dice_.chance(0.25)) formings_.push_back({dice_.between(0.1, 0.9)});
        const std::size_t own = table_.bodies().stripGroup(state_.bend);
        for (std::size_t group = 0; group < stroke_.pieces().size(); ++group) {
            if (group == own) continue;
            records_.push_back(table_.record(state_.bend, state_.hold, group, state_.formed));
            groups_.push_back(group);
            for (const Tool& tool : tools_) againstTool(records_.back(), tool, stroke_.pieces()[group]);
        }
        for (std::size_t a = 0; a < records_.size(); ++a) {
            for (std::size_t b = 0; b < records_.size(); ++b) againstHeld(a, b);
        }
        ownStrips();
    }

private:
    [[nodiscard]] double meets(const SheetPiece& sheet, const Tool& tool, Fit fit, Interval at, Forming forming, double step) const {
        const double x0 = toMm(at.lo) + kSliver_mm;
        const double x1 = toMm(at.hi) - kSliver_mm;
        if (tool.face != nullptr) return stroke_.meetsLeaf(sheet, *tool.face, fit, x0, x1, forming, step);
        return stroke_.meetsStill(sheet, false, tool.sections[static_cast<int>(fit)], x0, x1, forming, step);
    }

    void againstTool(std::uint32_t record, const Tool& tool, const SheetPiece& sheet) {
        const BodyTouch& touch = table_.touch(record, tool.body);
        const GroupTouch& group = table_.laidOut(record);
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

    void randomPlace(std::uint32_t record, const Tool& tool, const SheetPiece& sheet, const BodyTouch& touch, Interval extent) {
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
        ++tally_.kinds[kindOf(table_.laidOut(record), tool, touch, sheet, at)];
    }

    // Why the kernel may be careful there.
    std::string kindOf(const GroupTouch& group, const Tool& tool, const BodyTouch& touch, const SheetPiece& sheet, Interval at) const {
        const Micron meeting = touch.shadow.outer.intersect(IntervalSet(at)).length();
        // Slices of arcs stand out a little, and so does what they witness.
        if (!sheet.is_arc && touch.shadow.inner.intersect(IntervalSet(at)).length() > 10) return "witnessed: the inner set is wrong";
        if (tool.face != nullptr && sheet.moving) return "leaf drawn back as a whole";
        for (int i = 1; i < 8 && sheet.moving; ++i) {
            if (meets(sheet, tool, Fit::kGrown, at, {i / 8.0}, kCoarse_rad) >= 0) return "a motion between the two extremes hits";
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
            if (!sheet.moving && forming.uniform_share > 0) break;
            const double angle = meets(sheet, tool, Fit::kShrunk, at, forming, kCoarse_rad);
            if (angle < 0) continue;
            tally_.dangerous.push_back(fmt::format("{}: group {} with body {} at x {} to {} um: hit at {:.3f} deg, uniform share {}", name(),
                                                   table_.at(record).group, table_.machine().bodies()[tool.body].name, at.lo, at.hi,
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
            tally_.unconfirmed.push_back(fmt::format("{}: group {} with body {} at x {} to {} um, uniform share {}", name(), table_.at(record).group,
                                                     table_.machine().bodies()[tool.body].name, lo, lo + width, forming.uniform_share));
        }
    }

    void againstHeld(std::size_t a, std::size_t b) {
        const SheetPiece& moving = stroke_.pieces()[groups_[a]];
        const SheetPiece& held = stroke_.pieces()[groups_[b]];
        if (!moving.moving || held.moving) return;
        ++tally_.pairs;
        const PairVerdict verdict = table_.pair(records_[a], records_[b], 0).verdict;
        for (const Forming forming : formings_) {
            if (!verdict.clear) break;
            const double angle = stroke_.meetsHeld(moving, true, held, forming, kCoarse_rad);
            if (angle < 0) continue;
            tally_.dangerous.push_back(fmt::format("{}: groups {} and {}: hit at {:.3f} deg, uniform share {}", name(), groups_[a], groups_[b],
                                                   angle / kDegree, forming.uniform_share));
        }
        if (verdict.clear) return;
        ++tally_.pairs_impossible;
        bool met = false;
        for (const Forming forming : {kRolling, kUniform}) {
            const double angle = stroke_.meetsHeld(moving, false, held, forming, verdict.hit ? 0.1 * kDegree : kCoarse_rad);
            met = met || angle >= 0;
            if (angle >= 0 || !verdict.hit) continue;
            tally_.unconfirmed.push_back(fmt::format("{}: groups {} and {}, uniform share {}, {} mm deep at {:.3f} deg", name(), groups_[a],
                                                     groups_[b], forming.uniform_share, verdict.depth_mm, verdict.at_rad / kDegree));
        }
        if (!met) ++tally_.pairs_clear_after_all;
    }

    void ownStrips() {
        for (std::size_t b = 0; b < records_.size(); ++b) {
            const SheetPiece& held = stroke_.pieces()[groups_[b]];
            if (held.moving || table_.ownStrip(state_.bend, state_.hold, records_[b], 0) != StripContact::kClear || !stroke_.meetsOwnStrip(held)) continue;
            tally_.dangerous.push_back(fmt::format("{}: own strip and group {}", name(), groups_[b]));
        }
    }

    [[nodiscard]] std::string name() const {
        return fmt::format("randomCase({}), formed {:#x}, bend {}, hold {}", seed_, state_.formed, state_.bend.value, state_.hold);
    }

    const std::vector<Tool>& tools_;
    TouchTable& table_;
    State state_;
    std::uint64_t seed_;
    Dice& dice_;
    Tally& tally_;
    Stroke stroke_;
    std::vector<Forming> formings_;
    std::vector<std::uint32_t> records_;
    std::vector<std::size_t> groups_;
};

}  // namespace

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
    dangerous.insert(dangerous.end(), other.dangerous.begin(), other.dangerous.end());
    unconfirmed.insert(unconfirmed.end(), other.unconfirmed.begin(), other.unconfirmed.end());
}

std::string Tally::text() const {
    std::string text = fmt::format(
        "{} states; {} places called free, {} of them hit; {} witnesses, {} unconfirmed; {} bodies placed at random, {} called impossible, {} of "
        "those clear; {} pairs, {} called impossible, {} of those clear\n",
        states, free_checked, dangerous.size(), witnesses_checked, unconfirmed.size(), placed, called_impossible, clear_after_all, pairs,
        pairs_impossible, pairs_clear_after_all);
    for (const auto& [kind, count] : kinds) text += fmt::format("  {:5} {}\n", count, kind);
    for (const auto* list : {&dangerous, &unconfirmed}) {
        for (std::size_t i = 0; i < std::min<std::size_t>(list->size(), 10); ++i) {
            text += (list == &dangerous ? "  DANGEROUS " : "  UNCONFIRMED ") + (*list)[i] + "\n";
        }
    }
    return text;
}

void compareCase(std::uint64_t seed, int states, Tally& tally) {
    const Case what = random_states::randomCase(seed);
    TouchTable table(what.part, what.shop, what.brake());
    const Outlines outlines(what.part);
    const std::vector<Tool> tools = toolsOf(what, table.machine());
    Dice dice(seed ^ 0x5deece66dULL);
    for (int i = 0; i < states; ++i) {
        StateCheck(what, outlines, tools, table, random_states::randomState(what.part, dice), seed, dice, tally).run();
    }
}

}  // namespace tinwright::oracle
