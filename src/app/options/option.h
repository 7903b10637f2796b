// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "options/option_table.h"

namespace tinwright::app {

/// Where the value of an option goes; for a bool the option is a flag, and a function is handed the text.
using OptionTarget = std::variant<bool*, std::string*, std::optional<std::string>*, std::vector<std::string>*, double*,
                                  std::optional<double>*, std::vector<double>*, std::optional<int>*,
                                  std::function<void(const std::string&)>>;

/// How an option is given that takes more than one text.
enum class ListStyle {
    kOpen,    ///< --name a b c
    kCommas,  ///< --name a,b,c
    kEach,    ///< --name a --name b
};

/// An option of a command, as a value. Only parse.cpp sees the command-line library, which takes long to compile.
struct Option {
    std::string name;  ///< "--json", "-o,--output"; without dashes, as "PART":
                       ///< known by its place
    OptionTarget target = static_cast<bool*>(nullptr);
    std::string meaning;
    const char* type = "";                ///< what the help calls its value
    const char* group = nullptr;          ///< heading of the help; null: among the general ones
    std::vector<std::string> words = {};  ///< the only texts it takes; empty: any
    const NumberRange* range = nullptr;   ///< of its number, or of each of them
    int numbers = 0;                      ///< so many of them at once; 0: one
    ListStyle style = ListStyle::kOpen;
    bool required = false;
    bool last_counts = false;  ///< given twice the last one holds; otherwise that is an error
    bool* given = nullptr;     ///< set when it is given, though with its standard value
};

void append(std::vector<Option>& options, std::vector<Option> more);

/// A number of the option table, with default and range in its help.
[[nodiscard]] Option numberOption(const NumberOption& option, double& value);
/// The same with no default.
[[nodiscard]] Option numberOption(const NumberOption& option, std::optional<double>& value);

/// "--json": `what` is what is written.
[[nodiscard]] Option jsonOption(const char* what, std::optional<std::string>& file);

/// "--log": takes hold as it is read.
[[nodiscard]] Option logOption();

}  // namespace tinwright::app
