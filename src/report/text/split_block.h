// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "document/document.h"

namespace tinwright::report {

/// The plan over two brakes, fold by fold; or that none was found. Empty: nobody looked.
[[nodiscard]] std::string splitText(const PlanDocument& document);

/// What an independent replay said of a plan; empty when nobody asked.
[[nodiscard]] std::string replayText(const ReplayEntry& replay);

}  // namespace tinwright::report
