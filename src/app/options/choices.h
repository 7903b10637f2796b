// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "options/option.h"

namespace tinwright::app {

/// What is said of a part that is a drawing.
struct DrawingChoice {
    std::optional<std::string> bends_path;  ///< none: beside the drawing
    std::optional<std::string> units;       ///< "mm" or "in"; none: as the drawing says
    std::vector<std::string> cut_layers;
    std::vector<std::string> bend_layers;
    std::vector<std::string> ignored_layers;
    std::vector<std::string> bend_line_types;
};

struct PartChoice {
    std::string path;
    DrawingChoice drawing;
};

struct ShopChoice {
    std::string path;                  ///< empty, where a command can do without: no shop
    std::optional<std::string> brake;  ///< none: every brake of the shop
};

/// What is to be folded where, of commands that work on folds. Names are as typed, not looked up yet.
struct JobChoice {
    PartChoice part;
    ShopChoice shop;
    std::string formed;                         ///< "a,b"
    std::vector<std::string> made_sizes = {};   ///< "a=35.2,b=20" each
    std::vector<std::string> made_angles = {};  ///< "a=88" each
};

/// What is settled beforehand, as typed.
struct PinChoice {
    std::vector<std::string> holds;    ///< "a=face,b=web"
    std::optional<std::string> first;  ///< "a,b+c"
    std::vector<std::string> before;   ///< "a,b,c"
    std::optional<double> vee_mm;
    std::vector<std::string> bars;  ///< "B30,B60"
    std::vector<std::string> without_bars;
    std::vector<std::string> punches;
};

/// How long to search. Commands offer some of these; the others keep their standard value.
struct EffortChoice {
    double plans = kPlansOption.standard;
    double threads = kThreadsOption.standard;
    double time_limit_s = kTimeLimitOption.standard;
    double work = kWorkOption.standard;
    double memory_mb = kMemoryOption.standard;
    bool robust = false;  ///< only folds that hold over the tolerances count
};

/// PART, the options for drawings, --log.
[[nodiscard]] std::vector<Option> partOptions(PartChoice& part);
/// --shop, which must be given, and --brake.
[[nodiscard]] std::vector<Option> shopOptions(ShopChoice& shop);
/// --shop, which may be given for what `meaning` says, and --brake.
[[nodiscard]] std::vector<Option> optionalShopOptions(ShopChoice& shop, const char* meaning);
/// --hold, and the tools to use. With `of_order` what comes first, too.
[[nodiscard]] std::vector<Option> pinOptions(PinChoice& pins, bool of_order);
/// Those of part and shop, and --formed.
[[nodiscard]] std::vector<Option> jobOptions(JobChoice& job);
/// --made and --made-angle, of commands that go on with a part that came out otherwise than drawn.
[[nodiscard]] std::vector<Option> madeOptions(JobChoice& job);

}  // namespace tinwright::app
