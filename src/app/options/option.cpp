// SPDX-License-Identifier: GPL-3.0-or-later
#include "options/option.h"

#include <iterator>

#include <fmt/format.h>

#include "console/log.h"

namespace tinwright::app {
namespace {

Option inTable(const NumberOption& option, OptionTarget target, const std::string& standard) {
    return {.name = option.name,
            .target = std::move(target),
            .meaning = fmt::format("{} ({}{} to {}{})", option.meaning, option.range.whole ? "whole number " : "",
                                   option.range.least, option.range.most, standard),
            .type = "N",
            .range = &option.range,
            .last_counts = true};
}

}  // namespace

Option numberOption(const NumberOption& option, double& value) {
    return inTable(option, &value, fmt::format(", default {}", option.standard));
}

Option numberOption(const NumberOption& option, std::optional<double>& value) { return inTable(option, &value, ""); }

Option jsonOption(const char* what, std::optional<std::string>& file) {
    return {.name = "--json",
            .target = &file,
            .meaning = fmt::format("write the {} as JSON; - is standard output, instead of the text", what),
            .type = "FILE"};
}

Option logOption() {
    return {.name = "--log",
            .target = setLogLevel,
            .meaning = "what to tell on standard error (default warn)",
            .type = "LEVEL",
            .words = {"trace", "debug", "info", "warn", "error", "off"}};
}

void append(std::vector<Option>& options, std::vector<Option> more) {
    options.insert(options.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

}  // namespace tinwright::app
