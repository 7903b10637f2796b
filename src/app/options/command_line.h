// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "options/calibrate_options.h"
#include "options/option_table.h"
#include "options/start_options.h"

namespace tinwright::app {

enum class Command { kPlan, kTry, kBlank, kBars, kSuit, kStart, kCalibrate, kCheck, kExplain, kScreen };

/// What is said of a part that is a drawing.
struct DrawingChoice {
    std::optional<std::string> bends_path;  ///< none: beside the drawing
    std::optional<std::string> units;       ///< "mm" or "in"; none: as the drawing says
    std::vector<std::string> cut_layers;
    std::vector<std::string> bend_layers;
    std::vector<std::string> ignored_layers;
    std::vector<std::string> bend_line_types;
};

/// What `suit` may change, and which suggestion to write.
struct SuitChoice {
    std::vector<std::string> only;  ///< names; empty: every one that is not locked
    std::vector<std::string> keep;
    std::optional<double> reach_mm;  ///< none: a quarter of the dimension, 3 mm at least and 25 mm at most
    std::optional<double> take;      ///< number of a suggestion
};

/// What was asked for, as it was typed; names are not looked up yet.
struct CommandLine {
    Command command = Command::kPlan;
    std::string part_path;
    std::vector<std::string> part_paths;  ///< for `screen`
    DrawingChoice drawing;
    std::string shop_path;
    std::optional<std::string> brake;  ///< none: every brake of the shop
    std::string formed;                ///< "a,b"
    std::string order;                 ///< "a,b+c,d", for `try`
    std::optional<std::string> json;   ///< file, or "-"
    std::optional<std::string> sheet;  ///< file for the bench sheet
    std::optional<std::string> svg;    ///< folder for its drawings
    std::optional<std::string> glb;    ///< file for the folds as moving bodies
    double plans = kPlansOption.standard;
    double threads = kThreadsOption.standard;
    double time_limit_s = kTimeLimitOption.standard;
    double work = kWorkOption.standard;
    double memory_mb = kMemoryOption.standard;
    bool verify = false;
    std::optional<std::string> constraints;  ///< for `plan`: file for the order problem
    bool robust = false;                     ///< for `plan`: only folds that hold over the tolerances count
    bool no_remedies = false;                ///< for `plan`: do not look for what would lift an infeasible verdict
    std::string out_path;                    ///< for `blank`, `suit` and `start`
    std::string width;                       ///< for `bars`: "74", "74mm", "2.9in"
    std::optional<double> vee_mm;            ///< for `bars`: opening of the only V asked about
    std::string rule;                        ///< for `explain`: id of a finding; empty: all of them
    SuitChoice suit;
    std::optional<std::string> bends_out;
    bool bend_lines = false;
    bool bend_marks = false;              ///< for `blank`: bend lines, whatever the shop
    bool kerf = false;                    ///< for `blank`: move outlines by half the shop's kerf
    std::optional<double> kerf_width_mm;  ///< or by half of this one
    CalibrateOptions calibrate;
    StartOptions start;
    std::string log_level = "warn";
};

/// Either a command to carry out, or the exit code of a program that has nothing more to do: help and version were
/// printed, or the complaint about what was typed was.
struct ParsedCommandLine {
    std::optional<CommandLine> command;
    int exit_code = 0;
};

[[nodiscard]] ParsedCommandLine parseCommandLine(int argc, const char* const* argv);

}  // namespace tinwright::app
