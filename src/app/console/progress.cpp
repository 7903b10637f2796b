// SPDX-License-Identifier: GPL-3.0-or-later
#include "console/progress.h"

#include <unistd.h>

#include <cstdio>

#include <fmt/format.h>

namespace tinwright::app {

Progress::Progress(std::string what) : what_(std::move(what)), on_terminal_(isatty(STDERR_FILENO) == 1) {}

Progress::~Progress() {
    if (shown_) std::fputs("\r\x1b[K", stderr);
}

void Progress::show(const SearchProgress& search) {
    const Clock::time_point now = Clock::now();
    if (!on_terminal_ || now < next_) return;
    next_ = now + std::chrono::milliseconds(250);
    shown_ = true;
    const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(now - start_).count();
    std::string line = fmt::format("\r{}: {} states looked at, {} s", what_, search.states, seconds);
    if (search.best_ms) line += fmt::format(", best so far {} s", *search.best_ms / 1000);
    if (search.least_ms) line += fmt::format(", none under {} s", *search.least_ms / 1000);
    line += "\x1b[K";
    std::fputs(line.c_str(), stderr);
    std::fflush(stderr);
}

}  // namespace tinwright::app
