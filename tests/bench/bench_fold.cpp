// SPDX-License-Identifier: GPL-3.0-or-later
// Single fold checks of a box with lips and tabs, and the same by a general collision library in the same run.

#include <benchmark/benchmark.h>

#include <chrono>
#include <memory>
#include <utility>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/fold/engine/fold_engine.h>

#include "contact/contact_cache.h"
#include "instances.h"
#include "library_check.h"

using namespace tinwright;

namespace {

struct Fold {
    BendMask formed = 0;
    BendId bend;
    Side hold = Side::kParent;
    [[nodiscard]] Stroke stroke() const { return {bit(bend), hold}; }
};

// Every bend either way round in states on the way from flat to formed: tabs, then lips, then walls.
std::vector<Fold> folds(const Part& part) {
    std::vector<Fold> result;
    BendMask formed = 0;
    for (std::size_t i = part.bends.size(); i-- > 0;) {
        for (std::size_t k = 0; k <= i; ++k) {
            for (const Side hold : kBothSides) result.push_back({formed, idAt<BendId>(k), hold});
        }
        formed |= bit(idAt<BendId>(i));
    }
    return result;
}

struct Instance {
    Part part = bench::enclosure();
    Shop shop = bench::enclosureShop();
    oracle::Outlines outlines{part};
    std::vector<Fold> list = folds(part);
    [[nodiscard]] BrakeInSetup brake() const { return inSetup(shop.brakes[0], part.thickness_mm); }
    [[nodiscard]] double overbend_deg() const { return shop.overbendFor_deg(part.material, shop.brakes[0]); }
};

const Instance& instance() {
    static const Instance the;
    return the;
}

void checkAll(FoldEngine& engine) {
    for (const Fold& fold : instance().list) benchmark::DoNotOptimize(engine.check(fold.formed, fold.stroke()));
}

void countWork(benchmark::State& state, const FoldEngine& engine) {
    const FoldEngine::Work work = engine.work();
    state.counters["records"] = static_cast<double>(work.records);
    state.counters["pairs"] = static_cast<double>(work.pairs);
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(instance().list.size()));
    state.counters["per_check"] =
        benchmark::Counter(static_cast<double>(state.iterations() * static_cast<std::int64_t>(instance().list.size())),
                           benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}

// A new engine for every pass: all shadows are cast, once each.
void freshChecks(benchmark::State& state) {
    std::unique_ptr<FoldEngine> engine;
    for (auto _ : state) {
        engine = std::make_unique<FoldEngine>(instance().part, instance().shop, instance().brake());
        checkAll(*engine);
    }
    countWork(state, *engine);
}
BENCHMARK(freshChecks)->Unit(benchmark::kMillisecond);

// Shadows known: what remains is where the part and the bars can be put, and the ways in and out.
void warmChecks(benchmark::State& state) {
    FoldEngine engine(instance().part, instance().shop, instance().brake());
    checkAll(engine);
    for (auto _ : state) checkAll(engine);
    countWork(state, engine);
}
BENCHMARK(warmChecks)->Unit(benchmark::kMillisecond);

// Swing alone, against bar, bed and leaf, and panel against panel: what the library's check does too.
class SwingChecks {
public:
    SwingChecks()
        : folded_(partOnBrake(instance().part, instance().shop, instance().brake())),
          table_(std::make_unique<ContactCache>(folded_, instance().shop, instance().brake())) {}
    int run(const Fold& fold) {
        const std::size_t bodies[] = {table_->machine().bed(), table_->machine().driven(0),
                                      table_->machine().families()[0].high};
        std::vector<std::uint32_t> moving, held;
        int met = 0;
        for (std::size_t group = 0; group < table_->bodies().groups().size(); ++group) {
            if (group == table_->bodies().stripGroup(fold.bend)) continue;
            const std::uint32_t record = table_->records().of(fold.bend, fold.hold, group, fold.formed);
            for (const std::size_t body : bodies)
                met += table_->contacts().contact(record, body).shadow.outer.empty() ? 0 : 1;
            (table_->at(record).moving ? moving : held).push_back(record);
        }
        for (const std::uint32_t a : moving) {
            for (const std::uint32_t b : held) met += table_->pairs().of(a, b, 0).verdict.clear ? 0 : 1;
        }
        return met;
    }

private:
    PartOnBrake folded_;
    std::unique_ptr<ContactCache> table_;
};

double seconds(const auto& what) {
    const auto start = std::chrono::steady_clock::now();
    what();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

// Both do every fold of the list in the same pass; the library's bodies and trees are made outside the clock.
void againstLibrary(benchmark::State& state) {
    std::vector<bench::LibraryCheck> library;
    for (const Fold& fold : instance().list) {
        library.emplace_back(instance().part, instance().outlines, instance().brake(), instance().overbend_deg(),
                             fold.formed, fold.bend, fold.hold);
    }
    const bool to_first = state.range(0) != 0;
    double fresh_s = 0, known_s = 0, library_s = 0;
    for (auto _ : state) {
        SwingChecks swings;
        int met = 0;
        fresh_s += seconds([&] {
            for (const Fold& fold : instance().list) met += swings.run(fold);
        });
        known_s += seconds([&] {
            for (const Fold& fold : instance().list) met += swings.run(fold);
        });
        library_s += seconds([&] {
            for (bench::LibraryCheck& check : library) met += check.run(to_first);
        });
        benchmark::DoNotOptimize(met);
    }
    const double count = static_cast<double>(state.iterations()) * static_cast<double>(instance().list.size());
    state.counters["kernel_fresh_us"] = 1e6 * fresh_s / count;
    state.counters["kernel_known_us"] = 1e6 * known_s / count;
    state.counters["library_us"] = 1e6 * library_s / count;
    state.counters["ratio_fresh"] = library_s / fresh_s;
    state.counters["ratio_known"] = library_s / known_s;
}
BENCHMARK(againstLibrary)->ArgName("to_first")->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

void oneShadow(benchmark::State& state) {
    const Instance& the = instance();
    const auto model = makeMachine(the.brake(), the.part.thickness_mm);
    const Machine& machine = *model;
    const Bend& bend = the.part.bends[0];
    const BendMotions motions(machine, bend.allowance_mm, bend.angle.rad() + 0.05);
    const double turn = 0.01 * static_cast<double>(state.range(0));  // 0: a prism along the bend
    Rigid pose = Rigid::Identity();
    pose.translation() = Vec3(0, -60, 0);
    pose.linear() = Eigen::AngleAxisd(turn, Vec3::UnitZ()).toRotationMatrix();
    const Solid solid(prismOf({Vec2(0, 0), Vec2(80, 0), Vec2(80, 55), Vec2(0, 55)}, 0, 1.2), pose);
    const SeenSolid seen(solid, motions.moving);
    const ToolPieces& bar = machine.bodies()[machine.families()[0].high].pieces;
    for (auto _ : state) {
        Shadow shadow;
        for (const ToolPiece& piece : bar) castShadow(seen, motions.moving, piece, 0, shadow);
        benchmark::DoNotOptimize(shadow.outer.empty());
    }
}
BENCHMARK(oneShadow)->ArgName("turn_crad")->Arg(0)->Arg(30);

}  // namespace
