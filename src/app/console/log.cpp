// SPDX-License-Identifier: GPL-3.0-or-later
#include "console/log.h"

#include <spdlog/sinks/stdout_sinks.h>
#include <spdlog/spdlog.h>

namespace tinwright::app {

void setUpLog() {
    spdlog::set_default_logger(spdlog::stderr_logger_st("tinwright"));
    spdlog::set_pattern("tinwright %l: %v");
    setLogLevel("warn");
}

void setLogLevel(const std::string& level) { spdlog::set_level(spdlog::level::from_str(level)); }

void logInfo(const std::string& line) { spdlog::info("{}", line); }
void logWarning(const std::string& line) { spdlog::warn("{}", line); }
void logError(const std::string& line) { spdlog::error("{}", line); }

}  // namespace tinwright::app
