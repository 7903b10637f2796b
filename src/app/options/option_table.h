// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace tinwright::app {

/// An option that takes a number: everything there is to know about it, in one place.
struct NumberOption {
    const char* name;
    double standard;  ///< when it is not given
    double least;
    double most;
    bool whole;  ///< whole numbers only
    const char* meaning;
};

inline constexpr NumberOption kPlansOption{"--plans", 3, 1, 100, true, "how many orders to rank"};
inline constexpr NumberOption kThreadsOption{
    "--threads",
    0,
    0,
    64,
    true,
    "how many threads plan brakes, look for remedies and replay plans; 0: as many as the machine has; the plans are "
    "the same for any number, unless a time limit ends one"};
inline constexpr NumberOption kTimeLimitOption{
    "--time-limit", 60, 0, 86'400, false, "seconds to spend on a brake before it is left undecided; 0: no limit"};

inline constexpr NumberOption kWorkOption{
    "--work", 12'000, 100, 1e9, true, "states and partial orders to look at on a brake before the best so far is told"};
inline constexpr NumberOption kMemoryOption{
    "--memory", 1024, 16,
    1e6,        true, "megabytes to keep them in, roughly, for each brake, before the best so far is told"};

inline constexpr NumberOption kReachOption{
    "--reach", 0, 0.1, 500, false, "mm by which a dimension may change (default: a quarter of it, 3 to 25)"};
inline constexpr NumberOption kTakeOption{"--take", 0,    1,
                                          1000,     true, "number of the suggestion to write to the output"};

inline constexpr NumberOption kVeeOption{"--vee", 0,     0.5,
                                         500,     false, "of press brakes the V of this opening alone, in mm"};

inline constexpr NumberOption kKerfWidthOption{
    "--kerf-width", 0, 0.01, 20, false, "move outlines by half a kerf of this many mm"};

/// "found \"0\", expected a whole number from 1 to 100"; empty when the text is a number in range.
[[nodiscard]] std::string numberComplaint(const NumberOption& option, const std::string& text);

}  // namespace tinwright::app
