// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

/// What the program says on the side, on standard error: "tinwright LEVEL: LINE". The one door to the log library.
namespace tinwright::app {

/// Says nothing below `level`: "trace", "debug", "info", "warning", "error", "critical" or "off".
void setUpLog(const std::string& level);

void logInfo(const std::string& line);
void logWarning(const std::string& line);
void logError(const std::string& line);

}  // namespace tinwright::app
