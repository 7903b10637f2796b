// SPDX-License-Identifier: GPL-3.0-or-later
// The kernel against libfcl as in kernel_oracle_test.cpp, for as long as one likes:
//     long_run STATES FIRST_SEED [MINUTES] [press]
// Random parts are made from FIRST_SEED on, one seed each, until there are STATES states or the minutes are over. The
// last line of the summary tells the seed that comes next, so that a run can be split. Ends with 1 when the two
// disagree in a way that must not be: a place called free is hit, or a witnessed contact is not there. `press`: states
// of press brakes instead of leaf brakes.

#include <charconv>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <cstring>

#include "kernel_compare.h"

namespace {

constexpr int kStates = 5;  // of each part

template <class T>
bool readNumber(const char* text, T least, T& to) {
    const char* end = text + std::strlen(text);
    const auto [rest, error] = std::from_chars(text, end, to);
    return error == std::errc() && rest == end && to >= least;
}

class LongRun {
public:
    LongRun(long states, std::uint64_t first_seed, int minutes, bool press)
        : states_(states),
          first_seed_(first_seed),
          seed_(first_seed),
          minutes_(minutes),
          compare_(press ? tinwright::oracle::comparePressCase : tinwright::oracle::compareCase) {}

    bool run() {
        while (tally_.states < states_ && !outOfTime()) {
            compare_(seed_++, kStates, tally_);
            if (tally_.states >= next_told_) tell();
        }
        std::printf("seeds %llu to %llu: %s", number(first_seed_), number(seed_ - 1), tally_.text().c_str());
        std::printf("%ld states, %zu dangerous, %zu witnesses unconfirmed; next seed %llu\n", tally_.states,
                    tally_.dangerous.size(), tally_.unconfirmed.size(), number(seed_));
        return tally_.dangerous.empty() && tally_.unconfirmed.empty();
    }

private:
    static unsigned long long number(std::uint64_t seed) { return seed; }
    [[nodiscard]] bool outOfTime() const {
        return minutes_ > 0 && std::chrono::steady_clock::now() - start_ >= std::chrono::minutes(minutes_);
    }
    // What must not be is told at once: a long run may not live to its end.
    void tell() {
        next_told_ += 10'000;
        std::fprintf(stderr, "seed %llu: %ld states, %zu dangerous, %zu unconfirmed\n", number(seed_), tally_.states,
                     tally_.dangerous.size(), tally_.unconfirmed.size());
        for (; dangerous_told_ < tally_.dangerous.size(); ++dangerous_told_) {
            std::fprintf(stderr, "DANGEROUS %s\n", tally_.dangerous[dangerous_told_].c_str());
        }
    }

    long states_;
    std::uint64_t first_seed_;
    std::uint64_t seed_;
    int minutes_;
    void (*compare_)(std::uint64_t, int, tinwright::oracle::Tally&);
    long next_told_ = 10'000;
    std::size_t dangerous_told_ = 0;
    std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
    tinwright::oracle::Tally tally_;
};

}  // namespace

int main(int argc, char** argv) {
    long states = 0;
    std::uint64_t first_seed = 0;
    int minutes = 0;
    const bool press = argc > 3 && std::strcmp(argv[argc - 1], "press") == 0;
    argc -= press ? 1 : 0;
    const bool good = (argc == 3 || argc == 4) && readNumber(argv[1], 1L, states) &&
                      readNumber(argv[2], std::uint64_t{0}, first_seed) &&
                      (argc == 3 || readNumber(argv[3], 1, minutes));
    if (!good) {
        std::fprintf(stderr, "usage: long_run STATES FIRST_SEED [MINUTES] [press]\n");
        return 2;
    }
    return LongRun(states, first_seed, minutes, press).run() ? 0 : 1;
}
