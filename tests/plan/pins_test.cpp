// SPDX-License-Identifier: GPL-3.0-or-later
// What a person pins, orders keep; what is left open is planned as ever. Against all orders of the part that happen to
// keep the pins, on random parts; and by name what each pin means.
#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <tuple>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/io/shop/shop_io.h>
#include <tinwright/part/model/bend_frame.h>
#include <tinwright/sequence/plan/split_plan.h>
#include <tinwright/sequence/search/search.h>
#include <tinwright/verify/replay/verify.h>

#include "../bench/families.h"
#include "../one_vee.h"
#include "brute_force.h"
#include "plan/pinned_oracle.h"
#include "plan_support.h"
#include "random_states.h"
#include "shop/shop_oracle.h"

namespace tinwright::test {

namespace {

using random_states::Dice;

/// Panels on either side of a bend, walked from panel to panel.
std::set<std::uint32_t> panelsBeyond(const Part& part, BendId cut, Side side) {
    const Bend& bend = part.bend(cut);
    std::set<std::uint32_t> reached{(side == Side::kParent ? bend.parent : bend.child).value};
    for (bool grown = true; grown;) {
        grown = false;
        for (std::size_t i = 0; i < part.bends.size(); ++i) {
            if (idAt<BendId>(i) == cut) continue;
            const Bend& other = part.bends[i];
            if (reached.contains(other.parent.value) == reached.contains(other.child.value)) continue;
            reached.insert(other.parent.value);
            reached.insert(other.child.value);
            grown = true;
        }
    }
    return reached;
}

/// Written from what the options say, not from the oracle: every stroke of an order, each with the panels that lie
/// clamped.
struct FoldedStroke {
    BendMask bends = 0;
    std::vector<PanelId> held;
};

/// Of an order or the beginning of one.
bool keeps(const Part& part, const Pins& pins, const std::vector<FoldedStroke>& order) {
    for (std::size_t i = 0; i < std::min(order.size(), pins.first.size()); ++i) {
        if (order[i].bends != pins.first[i]) return false;
    }
    const auto place = [&](BendId bend) {
        return std::find_if(order.begin(), order.end(),
                            [&](const FoldedStroke& stroke) { return contains(stroke.bends, bend); }) -
               order.begin();
    };
    for (const BeforePin& pin : pins.before) {
        if (place(pin.first) > place(pin.then)) return false;
    }
    for (const HoldPin& pin : pins.holds) {
        const auto at = static_cast<std::size_t>(place(pin.bend));
        if (at == order.size()) continue;
        const std::vector<PanelId>& held = order[at].held;
        const Bend& bend = part.bend(pin.bend);
        const bool parent_has_it = panelsBeyond(part, pin.bend, Side::kParent).contains(pin.panel.value);
        if (std::find(held.begin(), held.end(), parent_has_it ? bend.parent : bend.child) == held.end()) return false;
    }
    return true;
}

std::vector<FoldedStroke> folded(const Plan& plan) {
    std::vector<FoldedStroke> order;
    for (const FoldStep& fold : plan.folds) order.push_back({fold.stroke.bends, fold.held});
    return order;
}

/// All orders that keep the pins, found by trying every stroke of the part as it is without them.
class KeptOrders {
public:
    KeptOrders(const Part& part, ShopOracle& oracle, const Pins& pins) : part_(part), oracle_(oracle), pins_(pins) {}

    std::vector<BruteOrder> bestFirst() {
        BruteOrder nothing;
        nothing.clearance_um = std::numeric_limits<std::int64_t>::max();
        from(0, kNothingSetUp, nothing);
        const auto rank = [](const BruteOrder& order) {
            return std::tuple(order.tight, order.time_ms, order.larger_behind, order.pieces, -order.clearance_um);
        };
        std::stable_sort(found_.begin(), found_.end(),
                         [&](const BruteOrder& a, const BruteOrder& b) { return rank(a) < rank(b); });
        return std::move(found_);
    }

private:
    void from(BendMask formed, MachineState machine_state, const BruteOrder& so_far) {
        if (formed == allFormed(part_)) return found_.push_back(so_far);
        for (const CandidateStroke& candidate : oracle_.candidates(formed)) {
            if (candidate.answer != StrokeAnswer::kPossible) continue;
            begun_.push_back({candidate.bends, held(formed, candidate)});
            if (keeps(part_, pins_, begun_)) {
                for (const StepCost& cost : oracle_.costs(formed, machine_state, candidate, kNever_ms)) {
                    BruteOrder next = so_far;
                    next.tight |= cost.tight;
                    next.time_ms += cost.time_ms;
                    next.larger_behind += cost.larger_behind;
                    next.pieces += cost.pieces;
                    next.clearance_um = std::min(next.clearance_um, cost.clearance_um);
                    next.sequence.push_back(candidate);
                    from(formed | candidate.bends, cost.after, next);
                }
            }
            begun_.pop_back();
        }
    }

    /// Of several bends the engine says which panels lie clamped.
    const std::vector<PanelId>& held(BendMask formed, const Stroke& stroke) {
        const auto [entry, is_new] = held_.try_emplace({formed, stroke.bends, stroke.hold});
        if (!is_new) return entry->second;
        if (countBends(stroke.bends) == 1) {
            entry->second = {heldPanel(part_.bend(stroke.first()), stroke.hold)};
        } else {
            FoldEngine& engine = oracle_.engine();
            entry->second = engine.describe(formed, stroke, engine.check(formed, stroke)).held;
        }
        return entry->second;
    }

    const Part& part_;
    ShopOracle& oracle_;
    const Pins& pins_;
    std::vector<FoldedStroke> begun_;
    std::map<std::tuple<BendMask, BendMask, Side>, std::vector<PanelId>> held_;
    std::vector<BruteOrder> found_;
};

/// Of bends on one line the first is held by a panel, the others as the state has it.
HoldPin anyHold(const Part& part, Dice& dice) {
    const auto bend = idAt<BendId>(static_cast<std::size_t>(dice.below(static_cast<int>(part.bends.size()))));
    const auto panel = idAt<PanelId>(static_cast<std::size_t>(dice.below(static_cast<int>(part.panels.size()))));
    return holdOn(part, bit(bend), panel);
}

std::vector<BendId> shuffled(const Part& part, Dice& dice) {
    std::vector<BendId> bends = bendList(allFormed(part));
    for (std::size_t i = bends.size(); i > 1; --i)
        std::swap(bends[i - 1], bends[static_cast<std::size_t>(dice.below(static_cast<int>(i)))]);
    return bends;
}

/// Up to two holds, two first strokes and two pairs, none of which contradicts another by itself.
Pins anyPins(const Part& part, Dice& dice) {
    Pins pins;
    for (int i = dice.below(3); i > 0; --i) {
        const HoldPin pin = anyHold(part, dice);
        const bool known = std::any_of(pins.holds.begin(), pins.holds.end(),
                                       [&](const HoldPin& other) { return other.bend == pin.bend; });
        if (!known) pins.holds.push_back(pin);
    }
    const std::vector<BendId> order = shuffled(part, dice);
    std::size_t at = 0;
    for (int i = dice.below(3); i > 0 && at < order.size(); --i) {
        BendMask stroke = bit(order[at++]);
        if (dice.chance(0.3) && at < order.size()) stroke |= bit(order[at++]);
        pins.first.push_back(stroke);
    }
    for (int i = dice.below(3); i > 0 && at + 1 < order.size(); --i, ++at)
        pins.before.push_back({order[at], order[at + 1]});
    return pins;
}

struct Tally {
    std::size_t pinned = 0;
    std::size_t found = 0;
    std::size_t none = 0;      // as pinned, though some work without
    std::size_t together = 0;  // best orders with a stroke of several bends
    std::size_t facts = 0;     // that forbid a stroke in several states
};

bool admitsOrder(ShopOracle& oracle, BendMask formed) {
    SearchOptions options;
    options.verdict_only = true;
    return searchOrders(oracle, formed, options).end == SearchEnd::kFound;
}

/// The search as pinned against all orders of the part, of which those are left that keep the pins.
void compare(const Part& part, const Shop& shop, const BrakeInSetup& brake, const Pins& pins, Tally& tally) {
    ShopOracle searched(part, shop, brake);
    PinnedOracle pinned(searched, searched.engine(), pins);
    SearchOptions options;
    options.plans = 4;
    const SearchResult result = searchOrders(pinned, 0, options);

    ShopOracle walked(part, shop, brake);
    walked.prices().share(searched.prices().shared());
    const std::vector<BruteOrder> best = firstOfEachLike(walked, KeptOrders(part, walked, pins).bestFirst());
    CHECK((result.end == SearchEnd::kFound) == !best.empty());
    REQUIRE(result.orders.size() == std::min<std::size_t>(4, best.size()));
    for (std::size_t i = 0; i < result.orders.size(); ++i) {
        const Order& order = result.orders[i];
        CHECK(order.tight == best[i].tight);
        CHECK(order.time_ms == best[i].time_ms);
        CHECK(order.larger_behind == best[i].larger_behind);
        CHECK(order.pieces == best[i].pieces);
        CHECK(order.clearance_um == best[i].clearance_um);
    }
    PinnedOracle counted(walked, walked.engine(), pins);
    if (!result.orders_feasible.empty())
        CHECK(result.orders_feasible == std::to_string(bruteFeasibleCount(counted, 0)));
    CHECK(result.orders_total == std::to_string(bruteTotalCount(walked, 0)));
    ++tally.pinned;
    tally.found += best.empty() ? 0 : 1;
    if (best.empty()) tally.none += admitsOrder(walked, 0) ? 1 : 0;
    if (!result.orders.empty() && result.orders.front().steps.size() < part.bends.size()) ++tally.together;
}

/// What is told of a stroke that a pin forbids holds in every state that agrees on the bends it names.
void checkFacts(const Part& part, const Shop& shop, const BrakeInSetup& brake, const Pins& pins, Tally& tally) {
    ShopOracle real(part, shop, brake);
    PinnedOracle pinned(real, real.engine(), pins);
    const BendMask all = allFormed(part);
    for (BendMask formed = 0; formed < all; ++formed) {
        for (const CandidateStroke& stroke : real.strokes(formed)) {
            if (pinned.allows(formed, stroke)) continue;
            const ForbiddenStroke told = pinned.why(formed, stroke);
            CAPTURE(formed, stroke.bends, static_cast<int>(stroke.hold), told.mask, told.formed, told.any_company);
            REQUIRE(told.forbids(formed, stroke));
            for (BendMask other = 0; other < all; ++other) {
                if ((other & stroke.bends) != 0 || !told.holdsIn(other)) continue;
                const auto strokes = real.strokes(other);
                const bool is_stroke = std::any_of(strokes.begin(), strokes.end(),
                                                   [&](const CandidateStroke& one) { return one == stroke; });
                if (is_stroke) REQUIRE_FALSE(pinned.allows(other, stroke));
                tally.facts += is_stroke && other != formed ? 1 : 0;
            }
        }
    }
}

// A floor with three tabs in front on one line and walls on the other sides.
Part tabbedPlate() {
    return partFrom(
        R"({"format":"tinwright-part/1","units":"mm","name":"tabs","sheet":{"material":"mild-steel","thickness":1.5},)"
        R"("allowance":{"rule":"k-factor","k":0.44},"inside_radius":1,"measured":"outside",)"
        R"("base":{"name":"plate","width":200,"depth":120},"flanges":[)"
        R"({"name":"t1","on":"plate.front","length":25,"width":30,"from_left":10},)"
        R"({"name":"t2","on":"plate.front","length":25,"width":30,"from_left":85},)"
        R"({"name":"t3","on":"plate.front","length":25,"width":30,"from_left":160},)"
        R"({"name":"back","on":"plate.back","length":30},{"name":"left","on":"plate.left","length":30},)"
        R"({"name":"right","on":"plate.right","length":30}],)"
        R"("corners":[{"between":["right","back"],"type":"open","gap":4},{"between":["back","left"],"type":"open","gap":4}]})");
}

PanelId panelNamed(const Part& part, const std::string& name) {
    for (std::size_t i = 0; i < part.panels.size(); ++i) {
        if (part.panels[i].name == name) return idAt<PanelId>(i);
    }
    FAIL("no panel " << name);
    return {};
}

HoldPin hold(const Part& part, const std::string& bend, const std::string& panel) {
    return holdOn(part, bit(bendNamed(part, bend)), panelNamed(part, panel));
}

BendMask stroke(const Part& part, const std::vector<std::string>& names) {
    BendMask bends = 0;
    for (const std::string& name : names) bends |= bit(bendNamed(part, name));
    return bends;
}

BrakeResult planPinned(const Part& part, const Shop& shop, std::size_t brake, const Pins& pins, BendMask formed = 0) {
    PlanOptions options;
    options.pins = pins;
    options.formed = formed;
    BrakeResult result = planOnBrake(part, shop, brake, options);
    for (const Plan& plan : result.plans) {
        const std::vector<ReplayFinding> findings = verifyPlan(part, shop, result.brake, plan, formed);
        for (const ReplayFinding& finding : findings) FAIL_CHECK("fold " << finding.fold << ": " << finding.words);
        CHECK(keeps(part, pins, folded(plan)));
    }
    return result;
}

Shop press() {
    const Result<Shop> read = readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/tests/plan/data/press-straight.json");
    REQUIRE(read);
    return read.value();
}

}  // namespace

TEST_CASE("pins: on random parts the ranked orders are those of all orders that keep them, best first") {
    Tally tally;
    for (std::uint64_t seed = 9000; seed < 9300; ++seed) {
        CAPTURE(seed);
        const random_states::Case one =
            seed % 3 == 0 ? random_states::randomPressCase(seed) : random_states::randomCase(seed);
        Dice dice(seed);
        compare(one.part, one.shop, one.brake(), anyPins(one.part, dice), tally);
    }
    INFO(tally.pinned << " pinned, " << tally.found << " found, " << tally.none << " none as pinned alone");
    CHECK(tally.found > 50);
    CHECK(tally.none > 10);
}

TEST_CASE("pins: the same of a plate of six bends with tabs on one line, on a folder and on a press brake") {
    Tally tally;
    const Part part = tabbedPlate();
    Shop shop = press();
    const BrakeInSetup folder = test::inUse(part, shippedShop().brakes[brakeNamed(shippedShop(), "M50")]);
    const BrakeInSetup in_vee = test::inUse(part, shop.brakes[0]);
    // So much is pinned that the orders that are left can all be walked.
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        Pins pins = anyPins(part, dice);
        pins.before.clear();
        if (seed % 2 == 0) pins.first = {stroke(part, {"t1", "t2", "t3"})};
        if (seed % 2 == 1) pins.before = {{bendNamed(part, "back"), bendNamed(part, "t2")}};
        if (seed % 2 == 1) pins.first = {stroke(part, {"right"}), stroke(part, {"back"})};
        pins.holds.clear();
        for (const char* name : {"t2", "back", "left", "right"})
            pins.holds.push_back(hold(part, name, dice.chance(0.8) ? "plate" : name));
        compare(part, shippedShop(), folder, pins, tally);
        if (seed <= 2) compare(part, shop, in_vee, pins, tally);
    }
    CHECK(tally.found > 3);
    CHECK(tally.together > 3);
}

TEST_CASE("pins: what they forbid they forbid in every state that is named, on random parts and on bends of one line") {
    Tally tally;
    for (std::uint64_t seed = 9200; seed < 9260; ++seed) {
        CAPTURE(seed);
        const random_states::Case one = random_states::randomCase(seed);
        Dice dice(seed);
        checkFacts(one.part, one.shop, one.brake(), anyPins(one.part, dice), tally);
    }
    const Part part = tabbedPlate();
    const BrakeInSetup folder = test::inUse(part, shippedShop().brakes[brakeNamed(shippedShop(), "M50")]);
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        Pins pins = anyPins(part, dice);
        pins.holds.push_back(hold(part, "t3", "t3"));
        checkFacts(part, shippedShop(), folder, pins, tally);
    }
    CHECK(tally.facts > 1000);
}

TEST_CASE("A bend whose side is pinned is made only so, whatever panel of that side is named") {
    const Part part = partFrom(trayRecipe(160, 120, 40, 12));
    // The floor, and what hangs on it, lie on one side of the front wall's bend; the wall and its lip on the other.
    for (const char* panel : {"floor", "wall_back", "lip_left"})
        CHECK(hold(part, "wall_front", panel).hold == Side::kParent);
    for (const char* panel : {"wall_front", "lip_front"}) CHECK(hold(part, "wall_front", panel).hold == Side::kChild);
    const Shop& shop = shippedShop();
    const std::size_t brake = brakeNamed(shop, "M50");
    Pins pins;
    pins.holds = {hold(part, "lip_front", "floor"), hold(part, "lip_back", "lip_back")};
    const BrakeResult result = planPinned(part, shop, brake, pins);
    CHECK(result.as_pinned);
    REQUIRE_FALSE(result.plans.empty());
    for (const FoldStep& fold : result.plans.front().folds) {
        if (fold.stroke.bends == stroke(part, {"lip_front"})) CHECK(part.panel(fold.held[0]).name == "wall_front");
        if (fold.stroke.bends == stroke(part, {"lip_back"})) CHECK(part.panel(fold.held[0]).name == "lip_back");
    }
}

TEST_CASE("What is pinned to come first comes first, each stroke as it is said") {
    const Part part = tabbedPlate();
    const Shop& shop = shippedShop();
    const std::size_t brake = brakeNamed(shop, "M50");
    Pins pins;
    pins.first = {stroke(part, {"right"}), stroke(part, {"t1", "t2", "t3"})};
    const BrakeResult result = planPinned(part, shop, brake, pins);
    REQUIRE_FALSE(result.plans.empty());
    for (const Plan& plan : result.plans) {
        CHECK(plan.folds[0].stroke.bends == pins.first[0]);
        CHECK(plan.folds[1].stroke.bends == pins.first[1]);
    }
    // t2 lies flat on the line of the others: it is not taken along unasked, and is in the leaf's way.
    pins.first = {stroke(part, {"t1", "t3"})};
    const BrakeResult without_t2 = planPinned(part, shop, brake, pins);
    CHECK(without_t2.verdict == Verdict::kInfeasible);
    CHECK(without_t2.without_pins == Verdict::kFeasible);
    REQUIRE_FALSE(without_t2.reasons.empty());
    for (const Reason& reason : without_t2.reasons) CHECK(reason.stroke.bends == pins.first[0]);
}

TEST_CASE("What only pins force is not told as what every order must do") {
    const Part part = partFrom(trayRecipe(160, 120, 40, 12));
    const Shop& shop = shippedShop();
    const std::size_t brake = brakeNamed(shop, "M50");
    Pins pins;
    pins.before = {{bendNamed(part, "wall_right"), bendNamed(part, "wall_left")}};
    const BrakeResult free = planOnBrake(part, shop, brake, {});
    const BrakeResult pinned = planPinned(part, shop, brake, pins);
    REQUIRE_FALSE(pinned.plans.empty());
    const auto pairs = [](const BrakeResult& result) {
        std::vector<std::pair<BendId, BendId>> list;
        for (const ForcedOrder& one : result.forced) list.emplace_back(one.first, one.then);
        return list;
    };
    CHECK(pairs(pinned) == pairs(free));
    CHECK(pinned.orders_total == free.orders_total);
    CHECK(std::stoul(pinned.orders_feasible) < std::stoul(free.orders_feasible));
}

TEST_CASE("When no order works as pinned it is said whether one works without") {
    const Shop& shop = shippedShop();
    std::size_t lifted = 0;
    std::size_t neither = 0;
    for (const double leg_mm : {12.0, 60.0, 120.0}) {
        const Part part = partFrom(fmt::format(
            R"({{"format":"tinwright-part/1","units":"mm","name":"channel","sheet":{{"material":"mild-steel","thickness":1.5}},)"
            R"("allowance":{{"rule":"k-factor","k":0.42}},"inside_radius":1,"measured":"outside",)"
            R"("base":{{"name":"web","width":200,"depth":40}},"flanges":[)"
            R"({{"name":"left","on":"web.front","length":{}}},{{"name":"right","on":"web.back","length":60}}]}})",
            leg_mm));
        for (std::size_t brake = 0; brake < shop.brakes.size(); ++brake) {
            const BrakeResult free = planOnBrake(part, shop, brake, {});
            for (const char* side : {"web", "left"}) {
                CAPTURE(leg_mm, shop.brakes[brake].name, side);
                Pins pins;
                pins.holds = {hold(part, "left", side), hold(part, "right", "web")};
                pins.first = {stroke(part, {"right"})};
                const BrakeResult result = planPinned(part, shop, brake, pins);
                CHECK(result.without_pins.has_value() == (result.verdict == Verdict::kInfeasible));
                if (result.verdict != Verdict::kInfeasible) continue;
                CHECK(*result.without_pins == free.verdict);
                ++(free.verdict == Verdict::kFeasible ? lifted : neither);
                CHECK_FALSE(result.reasons.empty());
                for (const Cause& cause : result.causes) CHECK_FALSE(cause.reasons.empty());
            }
        }
    }
    CHECK(lifted > 0);
    CHECK(neither > 0);
}

TEST_CASE("A stroke that is pinned and cannot be one is told with its reason") {
    const Part part = partFrom(trayRecipe(160, 120, 40, 0));
    const Shop& shop = shippedShop();
    Pins pins;
    pins.first = {stroke(part, {"wall_front", "wall_back"})};
    const BrakeResult result = planPinned(part, shop, brakeNamed(shop, "M50"), pins);
    CHECK(result.verdict == Verdict::kInfeasible);
    CHECK(result.without_pins == Verdict::kFeasible);
    CHECK(result.causes.empty());
    CHECK(hasReason(result, ReasonCode::kNotOneStroke));
}

TEST_CASE("Strings are made of the bars alone that are pinned, and without those that stay in the rack") {
    const Part part = partFrom(trayRecipe(160, 120, 40, 0));
    const Shop& shop = shippedShop();
    const std::size_t brake = brakeNamed(shop, "M50");
    const auto used = [](const BrakeResult& result) {
        std::set<std::string> ids;
        for (const Plan& plan : result.plans) {
            for (const FoldStep& fold : plan.folds) {
                for (const PlacedTool& tool : fold.tools) ids.insert(result.brake->tool(tool.tool).id);
            }
        }
        return ids;
    };
    const std::set<std::string> free = used(planOnBrake(part, shop, brake, {}));
    REQUIRE_FALSE(free.empty());
    Pins without;
    without.tools.without_bars = {*free.begin()};
    const BrakeResult other = planPinned(part, shop, brake, without);
    CHECK_FALSE(used(other).contains(*free.begin()));
    Pins only;
    only.tools.bars.assign(free.begin(), free.end());
    const BrakeResult same = planPinned(part, shop, brake, only);
    REQUIRE_FALSE(same.plans.empty());
    const std::set<std::string> left = used(same);
    CHECK(std::includes(free.begin(), free.end(), left.begin(), left.end()));
    CHECK(hasTools(withTools(shop.brakes[brake], only.tools)));
    only.tools.without_bars = only.tools.bars;
    CHECK_FALSE(hasTools(withTools(shop.brakes[brake], only.tools)));
}

TEST_CASE("A V that is pinned is the only one, though it lies past the usual range; punches likewise") {
    const Part part = partFrom(trayRecipe(160, 120, 40, 0));
    const Shop shop = press();
    for (const Vee& vee : veesOf(shop.brakes[0])) {
        Pins pins;
        pins.tools.vee_mm = vee.opening_mm;
        const BrakeResult result = planPinned(part, shop, 0, pins);
        REQUIRE(result.brake.vee() != nullptr);
        CHECK(result.brake.vee()->opening_mm == vee.opening_mm);
    }
    const std::string one = shop.brakes[0].press().punches.front().id;
    Pins pins;
    pins.tools.punches = {one};
    const BrakeResult result = planPinned(part, shop, 0, pins);
    for (const ToolId tool : result.brake.tools(ToolRow::kUpper)) CHECK(result.brake->tool(tool).id == one);
    // Of a leaf brake they say nothing.
    CHECK(withTools(shippedShop().brakes[0], pins.tools).leaf().bars.size() ==
          shippedShop().brakes[0].leaf().bars.size());
}

// A shelf with a hook, short enough for either brake: several orders work.
TEST_CASE("What is pinned is kept over two brakes as well") {
    const Result<Shop> read = readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/tests/plan/data/folder-and-press.json");
    REQUIRE(read);
    const Part part = partFrom(
        R"({"format":"tinwright-part/1","units":"mm","name":"shelf","sheet":{"material":"mild-steel","thickness":1.5},)"
        R"("allowance":{"rule":"k-factor","k":0.44},"inside_radius":1.6,"measured":"outside",)"
        R"("base":{"name":"shelf","width":900,"depth":100},"flanges":[{"name":"edge","on":"shelf.front","length":25},)"
        R"({"name":"web","on":"shelf.back","length":60,"from_left":350,"width":200},{"name":"leg","on":"web.far","length":120}]})");
    const std::array<BrakeInSetup, 2> on = test::inUse(part, read.value());
    std::set<std::vector<BendMask>> orders;
    for (const char* name : {"edge", "leg", "web"}) {
        PlanOptions options;
        options.pins.first = {stroke(part, {name})};
        const std::optional<SplitPlan> split = planOnTwo(part, read.value(), {0, 1}, on, options);
        CAPTURE(name);
        if (!split) continue;
        CHECK(keeps(part, options.pins, folded(split->plan)));
        std::vector<BendMask> bends;
        for (const FoldStep& fold : split->plan.folds) bends.push_back(fold.stroke.bends);
        orders.insert(bends);
    }
    CHECK(orders.size() > 1);
}

TEST_CASE("An order tried by hand holds what is said, and stops where that does not go") {
    const Part part = tabbedPlate();
    const Shop& shop = shippedShop();
    const std::size_t brake = brakeNamed(shop, "M50");
    const std::vector<std::vector<BendId>> order{{bendNamed(part, "t1"), bendNamed(part, "t2"), bendNamed(part, "t3")},
                                                 {bendNamed(part, "back")},
                                                 {bendNamed(part, "left")},
                                                 {bendNamed(part, "right")}};
    REQUIRE(tryOrder(part, shop, brake, order, 0).verdict == Verdict::kFeasible);
    for (const char* name : {"plate", "t2", "left"}) {
        Pins pins;
        pins.holds = {holdOn(part, maskOf(order[0]), panelNamed(part, name))};
        const TryResult result = tryOrder(part, shop, brake, order, 0, pins);
        CAPTURE(name);
        if (std::string(name) == "t2") {
            CHECK(pins.holds[0] == HoldPin{bendNamed(part, "t2"), Side::kChild, panelNamed(part, "t2")});
        } else {
            CHECK(pins.holds[0].hold == Side::kParent);
            REQUIRE(result.verdict == Verdict::kFeasible);
        }
        if (result.steps[0].possible) {
            CHECK(keeps(part, pins, folded(result.plan)));
        } else {
            CHECK_FALSE(result.steps[0].reasons.empty());
            for (const Reason& reason : result.steps[0].reasons) CHECK(reason.stroke.hold == Side::kChild);
        }
    }
}

}  // namespace tinwright::test
