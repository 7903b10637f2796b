// SPDX-License-Identifier: GPL-3.0-or-later
#include "console/complain.h"

#include <cstdio>

#include "console/exit_code.h"

namespace tinwright::app {

int complain(const Issues& issues) {
    for (const Issue& issue : issues) {
        const std::string line = toText(issue) + "\n";
        std::fwrite(line.data(), 1, line.size(), stderr);
    }
    return kBadInputExit;
}

}  // namespace tinwright::app
