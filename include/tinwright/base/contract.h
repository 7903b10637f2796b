// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace tinwright {

/// Says which contract was broken and where, then aborts: a programmer's error, never a user's.
[[noreturn]] void contractBroken(const char* condition, const char* meaning, const char* file, int line);

}  // namespace tinwright

/// Checked in every build.
#define TINWRIGHT_REQUIRE(condition, meaning) \
    ((condition) ? static_cast<void>(0) : ::tinwright::contractBroken(#condition, meaning, __FILE__, __LINE__))
