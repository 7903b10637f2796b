// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace tinwright::app {

/// What a number on the command line may be.
struct NumberRange {
    double least;
    double most;
    bool whole = false;  ///< whole numbers only
};

/// An option that takes a number: everything there is to know about it, in one place.
struct NumberOption {
    const char* name;
    double standard;  ///< when it is not given; 0 where the meaning says what
                      ///< happens then
    NumberRange range;
    const char* meaning;
};

inline constexpr NumberOption kPlansOption{"--plans", 3, {1, 100, true}, "how many orders to rank"};
inline constexpr NumberOption kThreadsOption{
    "--threads",
    0,
    {0, 64, true},
    "how many threads plan brakes, look for remedies and replay plans; 0: as many as the machine has; the plans are "
    "the same for any number, unless a time limit ends one"};
inline constexpr NumberOption kTimeLimitOption{
    "--time-limit", 60, {0, 86'400}, "seconds to spend on a brake before it is left undecided; 0: no limit"};
inline constexpr NumberOption kWorkOption{
    "--work",
    12'000,
    {100, 1e9, true},
    "states and partial orders to look at on a brake before the best so far is told"};
inline constexpr NumberOption kMemoryOption{
    "--memory",
    1024,
    {16, 1e6, true},
    "megabytes to keep them in, roughly, for each brake, before the best so far is told"};

inline constexpr NumberOption kReachOption{
    "--reach", 0, {0.1, 500}, "mm by which a dimension may change (default: a quarter of it, 3 to 25)"};
inline constexpr NumberOption kTakeOption{
    "--take", 0, {1, 1000, true}, "number of the suggestion to write to the output"};
inline constexpr NumberOption kVeeOption{"--vee", 0, {0.5, 500}, "of press brakes the V of this opening alone, in mm"};
inline constexpr NumberOption kUseVeeOption{"--use-vee", 0, {0.5, 500}, "fold in the V of this opening alone, in mm"};
inline constexpr NumberOption kPickOption{
    "--pick",
    0,
    {1, 100, true},
    "show this one of the ranked orders instead of the best, in text, sheet, drawings, 3-D file and JSON; as many are "
    "ranked as it takes"};
inline constexpr NumberOption kKerfWidthOption{
    "--kerf-width", 0, {0.01, 20}, "move outlines by half a kerf of this many mm"};

inline constexpr NumberRange kMadeSize_mm{0.01, 20'000};
inline constexpr NumberRange kMadeAngle_deg{0.1, 179.9};

// Lengths of `start` and of `calibrate` are in the units of the file to be written, or of the strip: their help says
// them in words, and many share a range.
inline constexpr NumberRange kStartLength{0, 20'000};
inline constexpr NumberRange kStartFactor{0, 1};
inline constexpr NumberRange kStartFixings{1, 12, true};
inline constexpr NumberRange kStripThickness{0.001, 25};
inline constexpr NumberRange kStripRadius{0, 500};
inline constexpr NumberRange kStripLength{0.001, 20'000};
inline constexpr NumberRange kStripAngle_deg{0.1, 179.9};
inline constexpr NumberRange kStripError{0, 10};

/// "found \"0\", expected a whole number from 1 to 100"; empty when the text is a number in range.
[[nodiscard]] std::string numberComplaint(const NumberRange& range, const std::string& text);

}  // namespace tinwright::app
