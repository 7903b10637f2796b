// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/fold/engine/fold_engine.h>

#include "kernel_compare.h"
#include "oracle_press.h"
#include "press_again.h"
#include "solids/inset.h"
#include "state_check.h"

namespace tinwright::oracle {

namespace {

using random_states::Case;
using random_states::Dice;
using random_states::State;

constexpr double kAgainStep_rad = 0.005;
constexpr double kPlaceStep_rad = 0.01;
constexpr double kSliver_mm = 1e-3;
constexpr double kHollow_mm2 = 20;  // of a section: what a tip that is rounded lacks is less

Tool rising(Tool tool) {
    tool.rises = true;
    return tool;
}

// Punches and dies of one section and horn: of a punch with a horn the tip, then the body.
struct Kind {
    std::size_t family = 0;
    std::vector<Tool> tools;
    bool is_die = false;
    Section filled;  // a punch without its hollow, shrunk; empty: it has none
    std::optional<Horn> horn;
    // Where the body is of a piece that stands somewhere, in mm.
    [[nodiscard]] std::pair<double, double> body(double x0, double x1) const {
        if (!horn) return {x0, x1};
        return horn->at_left ? std::pair(x0 + horn->reach_mm, x1) : std::pair(x0, x1 - horn->reach_mm);
    }
};

class PressTools {
public:
    PressTools(const Case& what, const Machine& machine)
        : brake_(what.brake()), machine_(machine), thickness_mm_(what.part.thickness_mm) {
        for (std::size_t i = 0; i < machine.families().size(); ++i) kinds.push_back(kindOf(i));
        for (std::size_t face = 0; face < machine.faceCount(); ++face) addFace(face);
        if (machine.frames() >= 0)
            all.push_back(toolOf(static_cast<std::size_t>(machine.frames()), {frameSectionOf(brake_)}));
        for (const Kind& kind : kinds) all.insert(all.end(), kind.tools.begin(), kind.tools.end());
    }
    std::vector<Kind> kinds;
    std::vector<Tool> all;

private:
    Kind kindOf(std::size_t index) const {
        const ToolFamily& family = machine_.families()[index];
        const ToolId tool = machine_.toolOf(index);
        const tinwright::Tool& bar = brake_->tool(tool);
        const Punch* punch = brake_->punch(tool);
        if (punch == nullptr)
            return {index, {rising(toolOf(family.high, {movedBy(bar.profile, Vec2::Zero())}))}, true, {}, {}};
        const Region region = barSectionOf(bar, thickness_mm_);
        Kind kind{index, {}, false, {}, punch->horn};
        const Region filled{replay::hull(region.outline), {}};
        if (area_mm2(filled) > area_mm2(region) + kHollow_mm2) kind.filled = fitted(filled, Fit::kShrunk);
        const double far = 3000;
        const double level = punch->horn ? thickness_mm_ + punch->horn->height_mm : far;
        kind.tools.push_back(toolOf(family.high, cut(region, -far, level)));
        if (punch->horn) kind.tools.push_back(toolOf(static_cast<std::size_t>(family.low), cut(region, level, far)));
        return kind;
    }

    // Ram and bed as they stand with punches and dies of a face.
    void addFace(std::size_t face) {
        double punch_mm = 0, die_mm = 0;
        for (const Kind& kind : kinds) {
            if (machine_.standsOn(kind.family, face))
                (kind.is_die ? die_mm : punch_mm) = brake_->tool(machine_.toolOf(kind.family)).height_mm;
        }
        for (const std::size_t body : machine_.over(face))
            all.push_back(toolOf(body, {ramSectionOf(brake_, thickness_mm_, punch_mm)}));
        for (const std::size_t body : machine_.under(face))
            all.push_back(rising(toolOf(body, {pressBedSectionOf(brake_, die_mm)})));
    }

    BrakeInSetup brake_;
    const Machine& machine_;
    double thickness_mm_;
};

class AirBend : public AskedStroke {
public:
    AirBend(const PressModel& stroke, bool vee_takes_it) : stroke_(stroke), vee_takes_it_(vee_takes_it) {}

    [[nodiscard]] const std::vector<SheetPiece>& pieces() const override { return stroke_.pieces(); }
    [[nodiscard]] bool moves(const SheetPiece& /*sheet*/) const override { return true; }
    // What a V that is refused would meet is not asked.
    [[nodiscard]] bool takes(const Tool& tool) const override { return !tool.rises || vee_takes_it_; }
    [[nodiscard]] double meets(const SheetPiece& sheet, const Tool& tool, Fit fit, double x0, double x1,
                               Forming forming, double step_rad) const override {
        return whole(stroke_.meets(sheet, tool.section(fit), tool.rises, x0, x1, forming, 0.5 * step_rad));
    }
    [[nodiscard]] double meetsHeld(const SheetPiece& moving, bool shrunk, const SheetPiece& held, Forming forming,
                                   double step_rad) const override {
        return whole(stroke_.meetsBack(moving, shrunk, held, forming, 0.5 * step_rad));
    }
    [[nodiscard]] bool meetsOwnStrip(const SheetPiece& sheet) const override { return stroke_.stripMeets(sheet); }

private:
    static double whole(double h_rad) { return h_rad < 0 ? -1 : 2 * h_rad; }
    const PressModel& stroke_;
    bool vee_takes_it_;
};

class PressCheck {
public:
    PressCheck(const Case& what, const PressTools& tools, ContactCache& table, FoldEngine& engine, Tally& tally)
        : what_(what),
          tools_(tools),
          table_(table),
          engine_(engine),
          tally_(tally),
          outlines_(what.part),
          vee_(*what.brake().vee()) {}

    void run(std::uint64_t seed, const State& state, Dice& dice) {
        const PressModel stroke(what_.part, outlines_, what_.brake(), vee_,
                                what_.shop.overbendFor_deg(what_.part.material, *what_.brake()), state.formed,
                                state.bend, state.hold);
        const bool vee_takes_it = stroke.veeTakesIt();
        const AskedState asked{"randomPressCase", seed, state, tools_.all};
        if (!vee_takes_it) ++tally_.more["bends that the V does not take"];
        checkState(asked, AirBend(stroke, vee_takes_it), table_, dice, tally_);
        for (const Kind& kind : tools_.kinds) {
            fits(asked, stroke, vee_takes_it, kind);
            if (!kind.is_die) standing(asked, stroke, kind, dice);
        }
        wholeStroke(asked, stroke);
    }

private:
    // The strip alone with a punch or die, and punches with dies.
    void fits(const AskedState& asked, const PressModel& stroke, bool vee_takes_it, const Kind& kind) {
        const char* name = kind.is_die ? "dies" : "punches";
        bool fits = false;
        for (std::size_t face = 0; face < table_.machine().faceCount() && !fits; ++face) {
            fits = table_.machine().standsOn(kind.family, face) &&
                   table_.tools().fits(asked.state.bend, asked.state.hold, kind.family, face);
        }
        if (fits) ++tally_.more[fmt::format("{} that suit the bend", name)];
        const std::string fault = misfit(stroke, vee_takes_it, kind, fits ? Fit::kShrunk : Fit::kGrown);
        if (fits && !fault.empty())
            tally_.dangerous.push_back(
                fmt::format("{}: family {} suits the bend, but {}", nameOf(asked), kind.family, fault));
        if (fits) return;
        ++tally_.more[fmt::format("{} that do not suit the bend", name)];
        if (fault.empty())
            ++tally_.more[fmt::format("{} that do not suit the bend, though the library finds nothing", name)];
    }

    [[nodiscard]] std::string misfit(const PressModel& stroke, bool vee_takes_it, const Kind& kind, Fit fit) const {
        if (kind.is_die && !vee_takes_it) return "the V does not take it";
        for (const Tool& tool : kind.tools) {
            if (stroke.stripMeets(tool.section(fit), kind.is_die, -1000, 1000)) return "the strip meets it";
            if (kind.is_die || !vee_takes_it) continue;
            for (const Kind& other : tools_.kinds) {
                if (other.is_die && stroke.punchMeetsDie(tool.section(fit), other.tools[0].section(fit)))
                    return "it meets a die";
            }
        }
        return {};
    }

    // A piece beside one group, where the kernel lets it stand with its horn and its hollow.
    void standing(const AskedState& asked, const PressModel& stroke, const Kind& kind, Dice& dice) {
        if (!kind.horn && kind.filled.empty()) return;
        const ToolFamily& family = table_.machine().families()[kind.family];
        for (std::size_t group = 0; group < stroke.pieces().size(); ++group) {
            if (group == table_.bodies().stripGroup(asked.state.bend)) continue;
            const std::uint32_t record =
                table_.records().of(asked.state.bend, asked.state.hold, group, asked.state.formed);
            IntervalSet barred = table_.contacts().contact(record, family.high).shadow.outer;
            if (family.low >= 0) {
                const IntervalSet& body =
                    table_.contacts().contact(record, static_cast<std::size_t>(family.low)).shadow.outer;
                if (!body.empty()) barred.add(withRelief(body, family.relief, barred));
            }
            standsBeside(asked, stroke, kind, group, barred, dice);
        }
    }

    void standsBeside(const AskedState& asked, const PressModel& stroke, const Kind& kind, std::size_t group,
                      const IntervalSet& barred, Dice& dice) {
        const GroupRecord& touch =
            table_.at(table_.records().of(asked.state.bend, asked.state.hold, group, asked.state.formed));
        const Micron width = micronNearest(dice.between(40, 120));
        Interval at{micronNearest(dice.between(touch.x_lo_mm - toMm(width), touch.x_hi_mm)), 0};
        if (!barred.empty() && dice.chance(0.7))
            at.lo = dice.chance(0.5) ? barred.items().front().lo - width : barred.items().back().hi;
        at.hi = at.lo + width;
        if (barred.meets(at)) return;
        ++tally_.more["pieces with a horn or a hollow called free"];
        const SheetPiece& sheet = stroke.pieces()[group];
        const std::pair whole(toMm(at.lo) + kSliver_mm, toMm(at.hi) - kSliver_mm);
        const auto hit = [&](const Section& section, const std::pair<double, double>& x, double share) {
            return stroke.meets(sheet, section, false, x.first, x.second, {share}, kPlaceStep_rad) >= 0;
        };
        for (std::size_t i = 0; i < kind.tools.size(); ++i) {
            for (const double share : {0.0, 1.0, 0.5}) {
                if (!hit(kind.tools[i].section(Fit::kShrunk), i == 0 ? whole : kind.body(whole.first, whole.second),
                         share))
                    continue;
                return tally_.dangerous.push_back(
                    fmt::format("{}: family {} at x {} to {} um, part {}, hit by group {}, uniform share {}",
                                nameOf(asked), kind.family, at.lo, at.hi, i, group, share));
            }
        }
        if (kind.horn && hit(kind.tools[1].section(Fit::kShrunk), whole, 0))
            ++tally_.more["pieces free for their horn"];
        if (!kind.filled.empty() && hit(kind.filled, whole, 0)) ++tally_.more["pieces free for their hollow"];
    }

    void wholeStroke(const AskedState& asked, const PressModel& stroke) {
        const StrokeResult result = engine_.check(asked.state.formed, {bit(asked.state.bend), asked.state.hold});
        if (result.answer != StrokeAnswer::kPossible) {
            const char* answer = result.answer == StrokeAnswer::kImpossible ? "impossible" : "undecided";
            ++tally_.more[fmt::format("whole strokes {}: {}", answer, result.code ? toText(*result.code) : "")];
            return;
        }
        ++tally_.more["whole strokes possible"];
        PressAgain again{what_.part, what_.brake(), stroke, result, {{0}, {1}, {0.5}}, kAgainStep_rad};
        const std::string hit = firstHit(again);
        if (!hit.empty()) return tally_.dangerous.push_back(fmt::format("{}: whole stroke: {}", nameOf(asked), hit));
        const auto stands = [&](const auto& which) {
            return std::any_of(result.setup.pieces.begin(), result.setup.pieces.end(), [&](const SetupPiece& piece) {
                return std::any_of(tools_.kinds.begin(), tools_.kinds.end(), [&](const Kind& kind) {
                    return kind.family == table_.machine().familyOf(piece.tool) && which(kind);
                });
            });
        };
        again.pretend = Pretend::kNoHorns;
        if (stands([](const Kind& kind) { return kind.horn.has_value(); }) && !firstHit(again).empty())
            ++tally_.more["whole strokes possible for a horn"];
        again.pretend = Pretend::kNoHollows;
        if (stands([](const Kind& kind) { return !kind.filled.empty(); }) && !firstHit(again).empty())
            ++tally_.more["whole strokes possible for a hollow"];
    }

    const Case& what_;
    const PressTools& tools_;
    ContactCache& table_;
    FoldEngine& engine_;
    Tally& tally_;
    Outlines outlines_;
    Vee vee_;
};

}  // namespace

void comparePressCase(std::uint64_t seed, int states, Tally& tally) {
    const Case what = random_states::randomPressCase(seed);
    const PartOnBrake folded = partOnBrake(what.part, what.shop, what.brake());
    ContactCache table(folded, what.shop, what.brake());
    const PressTools tools(what, table.machine());
    FoldEngine engine(what.part, what.shop, what.brake());
    PressCheck check(what, tools, table, engine, tally);
    Dice dice(seed ^ 0x5deece66dULL);
    for (int i = 0; i < states; ++i) check.run(seed, random_states::randomState(what.part, dice), dice);
}

}  // namespace tinwright::oracle
