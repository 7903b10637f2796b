// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <cstdint>
#include <string>

#include <tinwright/sequence/search/search.h>

namespace tinwright::app {

/// A line on a terminal that says how far planning has come; shown only on a terminal, and only once planning has taken
/// a second. Wiped when it goes out of scope.
class Progress {
public:
    explicit Progress(std::string what);
    ~Progress();
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;

    void show(const SearchProgress& search);

private:
    using Clock = std::chrono::steady_clock;
    std::string what_;
    bool on_terminal_;
    bool shown_ = false;
    Clock::time_point start_ = Clock::now();
    Clock::time_point next_ = start_ + std::chrono::seconds(1);
};

}  // namespace tinwright::app
