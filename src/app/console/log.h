// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

/// What the program says on the side, on standard error: "tinwright LEVEL: LINE". The one door to the log library.
namespace tinwright::app {

/// Messages go to standard error from now on, warnings and worse.
void setUpLog();

/// "trace", "debug", "info", "warn", "error" or "off".
void setLogLevel(const std::string& level);

void logInfo(const std::string& line);
void logWarning(const std::string& line);
void logError(const std::string& line);

}  // namespace tinwright::app
