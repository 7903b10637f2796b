// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/base/contract.h>

#include <cstdio>
#include <cstdlib>

namespace tinwright {

void contractBroken(const char* condition, const char* meaning, const char* file, int line) {
    std::fprintf(stderr, "tinwright: contract broken at %s:%d: %s (%s)\n", file, line, meaning, condition);
    std::abort();
}

}  // namespace tinwright
