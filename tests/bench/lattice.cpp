// SPDX-License-Identifier: GPL-3.0-or-later
// Every fold of every state of a part, one bend at a time with either side held, decided by a general collision library
// and by our engine in one run: time, ratio, and whether they agree.
//     lattice [--share PERCENT] [--seed N] [--step DEGREES] [FAMILY BENDS]...
// What the library is asked is said in library_lattice.h. It is asked in all states, or in a seeded sample of them.
// Angles 5 degrees apart are the default: the fewest with which it gives the verdicts that it gives with many. Times
// are of the processor, of one thread; filling the tables is done nine times anew, and the median told.

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstring>
#include <ctime>
#include <map>
#include <random>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/fold/engine/fold_engine.h>

#include "families.h"
#include "instances.h"
#include "library_lattice.h"
#include "swing_tables.h"

using namespace tinwright;

namespace {

using bench::LibraryLattice;
using bench::Question;
using bench::SwingTables;

constexpr std::size_t kFillings = 9;
constexpr std::size_t kForgetfulStates = 40;  // states that an engine is made anew for

struct Settings {
    double share = 1;
    std::uint64_t seed = 1;
    double step_deg = 5;
};

double processor_s() {
    std::timespec now{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

template <class What>
double seconds(const What& what) {
    const double start = processor_s();
    what();
    return processor_s() - start;
}

// Filling takes milliseconds, in which one look at a shared machine tells little.
template <class Timed>
double median(const Timed& timed) {
    std::vector<double> times(kFillings);
    for (double& time : times) time = timed();
    std::nth_element(times.begin(), times.begin() + kFillings / 2, times.end());
    return times[kFillings / 2];
}

template <class Take>
void eachFold(BendMask formed, std::size_t bends, Take take) {
    for (std::size_t i = 0; i < bends; ++i) {
        const auto bend = idAt<BendId>(i);
        if (contains(formed, bend)) continue;
        for (const Side hold : kBothSides) take(Question{formed, bend, hold});
    }
}

// Seeded, the same on every machine; ascending.
std::vector<BendMask> statesOf(std::size_t bends, double share, std::uint64_t seed) {
    const BendMask all = (BendMask{1} << bends) - 1;  // the finished part has no folds
    std::mt19937_64 dice(seed);
    std::vector<BendMask> states;
    for (BendMask formed = 0; formed < all; ++formed) {
        if (share >= 1 || static_cast<double>(dice() >> 11) * 0x1p-53 < share) states.push_back(formed);
    }
    return states;
}

// Not one motion for all: the strip rolls round the nose, forms with uniform curvature, or between the two.
oracle::Forming formingOf(const Question& question) {
    return {0.5 *
            static_cast<double>((question.formed + question.bend.value + static_cast<unsigned>(question.hold)) % 3)};
}

class PartRun {
public:
    PartRun(std::string name, const Part& part, const Shop& shop, const Settings& settings)
        : name_(std::move(name)),
          part_(part),
          shop_(shop),
          brake_(inSetup(shop.brakes[0], part.thickness_mm)),
          settings_(settings),
          states_(statesOf(part.bends.size(), settings.share, settings.seed)),
          library_(part, brake_, shop.overbendFor_deg(part.material, *brake_), settings.step_deg) {
        for (const BendMask formed : states_)
            eachFold(formed, part.bends.size(), [&](const Question& question) { questions_.push_back(question); });
    }

    void run() {
        fmt::print("{}: {} bends, {} states; asked in {} of them ({}), {} folds\n", name_, part_.bends.size(),
                   std::size_t{1} << part_.bends.size(), states_.size(),
                   settings_.share >= 1
                       ? "all"
                       : fmt::format("a sample of {:g} %, seed {}", 100 * settings_.share, settings_.seed),
                   questions_.size());
        swings();
        wholeFolds();
        forgetful();
    }

private:
    // One bar over the bend: the same question to both.
    void swings() {
        std::vector<bool> met(questions_.size());
        const LibraryLattice::Work before = library_.work();
        const double library_s = seconds([&] {
            for (std::size_t i = 0; i < questions_.size(); ++i) {
                const Question& question = questions_[i];
                met[i] = library_.collides(question, library_.barOverBend(question.bend, question.hold),
                                           formingOf(question));
            }
        });
        std::unique_ptr<SwingTables> tables;
        const double fill_s = median([&] {
            tables.reset();
            return seconds([&] { tables = std::make_unique<SwingTables>(part_, shop_, brake_); });
        });
        std::size_t hits = 0;
        const double lattice_s = seconds([&] {
            for (BendMask formed = 0; formed + 1 < BendMask{1} << part_.bends.size(); ++formed) {
                eachFold(formed, part_.bends.size(), [&](const Question& question) {
                    hits += tables->answer(question) == SwingTables::Answer::kHit ? 1 : 0;
                });
            }
        });
        const double whole_library_s = library_s * wholeShare();
        const std::size_t folds = part_.bends.size() << part_.bends.size();
        fmt::print(
            " the swing alone, one bar over the bend: the same question to both, {} folds in the whole lattice\n",
            folds);
        fmt::print(
            "  library   {:9.3f} s for the whole lattice{}, {:.1f} us a fold ({:.0f} box tests, {:.1f} convex tests "
            "each)\n",
            whole_library_s, settings_.share >= 1 ? "" : " (from the sample)", 1e6 * library_s / asked(),
            each(library_.work().box_tests - before.box_tests),
            each(library_.work().convex_tests - before.convex_tests));
        fmt::print(
            "  tables    {:9.4f} s to fill ({} records, {} pairs of groups; {} patterns), {:.4f} s for the whole "
            "lattice, {:.4f} us a fold\n",
            fill_s, tables->records(), tables->pairs(), tables->patterns(), lattice_s,
            1e6 * lattice_s / static_cast<double>(folds));
        fmt::print("  ratio     {:9.0f} with filling, {:.0f} when filled\n", whole_library_s / (fill_s + lattice_s),
                   whole_library_s / lattice_s);
        tellSwings(*tables, met);
    }

    void tellSwings(const SwingTables& tables, const std::vector<bool>& met) {
        std::map<std::pair<SwingTables::Answer, bool>, std::size_t> count;
        std::size_t seen_closer = 0;
        for (std::size_t i = 0; i < questions_.size(); ++i) {
            const SwingTables::Answer answer = tables.answer(questions_[i]);
            ++count[{answer, met[i]}];
            if (answer == SwingTables::Answer::kHit && !met[i])
                seen_closer +=
                    meetsLookedAtCloser(questions_[i], library_.barOverBend(questions_[i].bend, questions_[i].hold));
        }
        using enum SwingTables::Answer;
        fmt::print("  verdicts  clear for both {}, hit for both {}, dangerous (clear, but the library hits) {}\n",
                   count[{kClear, false}], count[{kHit, true}], count[{kClear, true}]);
        fmt::print(
            "            hit, but clear to the library {}, of which {} meet when looked at closer; not decided {} "
            "(library hits {})\n",
            count[{kHit, false}], seen_closer, count[{kUnclear, false}] + count[{kUnclear, true}],
            count[{kUnclear, true}]);
    }

    // The engine chooses bars and a place for the part and proves ways in and out; the library only tries what was
    // chosen.
    void wholeFolds() {
        std::vector<StrokeResult> results;
        FoldEngine::Work work;
        const double engine_s = seconds([&] {
            FoldEngine engine(part_, shop_, brake_);
            for (const Question& question : questions_)
                results.push_back(engine.check(question.formed, {bit(question.bend), question.hold}));
            work = engine.work();
        });
        std::vector<bool> met(questions_.size());
        const double library_s = seconds([&] {
            for (std::size_t i = 0; i < questions_.size(); ++i)
                met[i] =
                    library_.collides(questions_[i], standingOf(questions_[i], results[i]), formingOf(questions_[i]));
        });
        engine_us_ = 1e6 * engine_s / asked();
        fmt::print(
            " whole checks: bars chosen, the part placed, ways in and out proven; the library tries what was chosen, "
            "or one bar over the bend\n");
        fmt::print("  library   {:9.3f} s, {:.1f} us a fold\n", library_s, 1e6 * library_s / asked());
        fmt::print("  engine    {:9.3f} s, {:.1f} us a fold, made anew ({} records, {} pairs of groups)\n", engine_s,
                   engine_us_, work.records, work.pairs);
        fmt::print("  ratio     {:9.1f}\n", library_s / engine_s);
        tellWhole(results, met);
    }

    void tellWhole(const std::vector<StrokeResult>& results, const std::vector<bool>& met) {
        std::size_t possible = 0, dangerous = 0;
        struct Kind {
            std::size_t folds = 0, clear = 0;
        };
        std::map<std::string, Kind> kinds;
        for (std::size_t i = 0; i < results.size(); ++i) {
            if (results[i].answer == StrokeAnswer::kPossible) {
                ++possible;
                if (met[i]) ++dangerous, tellDangerous(questions_[i]);
                continue;
            }
            const StrokeResult& result = results[i];
            const bool undecided = result.answer == StrokeAnswer::kUndecided;
            Kind& kind = kinds[undecided ? "undecided" : (result.code ? toText(*result.code) : "")];
            ++kind.folds;
            kind.clear += met[i] ? 0 : 1;
        }
        fmt::print("  verdicts  possible {}, dangerous (of those the library hits) {}\n", possible, dangerous);
        for (const auto& [code, kind] : kinds)
            fmt::print("            {:<10} {:9}, one bar over the bend is clear to the library in {}\n", code,
                       kind.folds, kind.clear);
    }

    void tellDangerous(const Question& question) const {
        fmt::print("  DANGEROUS {}, formed {:#x}, bend {}, hold {}\n", name_, question.formed, question.bend.value,
                   static_cast<int>(question.hold));
    }

    // The same checks with nothing remembered from one state to the next.
    void forgetful() {
        std::mt19937_64 dice(settings_.seed);
        std::size_t folds = 0;
        const double forgetful_s = seconds([&] {
            for (std::size_t i = 0; i < kForgetfulStates; ++i) {
                FoldEngine engine(part_, shop_, brake_);
                eachFold(states_[dice() % states_.size()], part_.bends.size(), [&](const Question& question) {
                    static_cast<void>(engine.check(question.formed, {bit(question.bend), question.hold}));
                    ++folds;
                });
            }
        });
        const double each_us = 1e6 * forgetful_s / static_cast<double>(folds);
        fmt::print(
            " nothing remembered: an engine anew for each of {} states, {:.1f} us a fold: {:.1f} times as long\n\n",
            kForgetfulStates, each_us, each_us / engine_us_);
    }

    [[nodiscard]] std::size_t meetsLookedAtCloser(const Question& question, const bench::MachineState& machine_state) {
        return std::any_of(std::begin(kShares), std::end(kShares),
                           [&](double share) { return library_.meetsLookedAtCloser(question, machine_state, {share}); })
                   ? 1
                   : 0;
    }

    [[nodiscard]] bench::MachineState standingOf(const Question& question, const StrokeResult& result) const {
        bench::MachineState machine_state = library_.barOverBend(question.bend, question.hold);
        if (result.answer != StrokeAnswer::kPossible) return machine_state;
        // Fold x = 0 is the left end of the bend.
        const double shift_mm = machine_state.bars[0].from_mm - toMm(result.part_x_um);
        machine_state.bars.clear();
        for (const SetupPiece& piece : result.setup.pieces)
            machine_state.bars.push_back(
                {piece.tool.index(), toMm(piece.at.lo) + shift_mm, toMm(piece.at.hi) + shift_mm});
        machine_state.face = result.setup.face;
        machine_state.machine_from_mm = shift_mm;
        machine_state.machine_to_mm = brake_->length_mm + shift_mm;
        return machine_state;
    }

    [[nodiscard]] double asked() const { return static_cast<double>(questions_.size()); }
    [[nodiscard]] double each(std::uint64_t count) const { return static_cast<double>(count) / asked(); }
    [[nodiscard]] double wholeShare() const {
        return static_cast<double>(part_.bends.size() << part_.bends.size()) / asked();
    }

    static constexpr double kShares[] = {0, 0.5, 1};
    std::string name_;
    const Part& part_;
    const Shop& shop_;
    BrakeInSetup brake_;
    const Settings& settings_;
    std::vector<BendMask> states_;
    LibraryLattice library_;
    std::vector<Question> questions_;
    double engine_us_ = 0;
};

template <class T>
bool readNumber(const char* text, T& to) {
    const char* end = text + std::strlen(text);
    const auto [rest, error] = std::from_chars(text, end, to);
    return error == std::errc() && rest == end;
}

struct Asked {
    std::string family;
    std::size_t bends = 0;
};

bool readArguments(int argc, char** argv, Settings& settings, std::vector<Asked>& parts) {
    for (int i = 1; i < argc; i += 2) {
        const std::string word = argv[i];
        if (i + 1 == argc) return false;
        const char* value = argv[i + 1];
        if (word == "--share") {
            if (!readNumber(value, settings.share) || !(settings.share > 0 && settings.share <= 100)) return false;
            settings.share /= 100;
        } else if (word == "--seed") {
            if (!readNumber(value, settings.seed)) return false;
        } else if (word == "--step") {
            if (!readNumber(value, settings.step_deg) || !(settings.step_deg >= 0.01 && settings.step_deg <= 45))
                return false;
        } else {
            Asked asked{word, 0};
            const bool known = word == "box" || word == "comb" || word == "ladder";
            if (!known || !readNumber(value, asked.bends) || asked.bends < 8 || asked.bends > 24 ||
                asked.bends % 2 != 0)
                return false;
            parts.push_back(asked);
        }
    }
    if (parts.empty()) parts.push_back({"box", 8});
    return true;
}

}  // namespace

int main(int argc, char** argv) {
    Settings settings;
    std::vector<Asked> parts;
    if (!readArguments(argc, argv, settings, parts)) {
        fmt::print(stderr,
                   "usage: lattice [--share PERCENT] [--seed N] [--step DEGREES] [box|comb|ladder BENDS]... (8 to 24 "
                   "bends, even; default: box 8)\n");
        return 2;
    }
    const Shop shop = bench::enclosureShop();
    for (const Asked& asked : parts) {
        const Part part = bench::familyPart(asked.family, asked.bends);
        PartRun(fmt::format("{} {}", asked.family, asked.bends), part, shop, settings).run();
        std::fflush(stdout);
    }
}
