// SPDX-License-Identifier: GPL-3.0-or-later
#include "console/complain.h"

#include <cstdio>

#include <tinwright/base/words.h>

#include "console/exit_code.h"

namespace tinwright::app {

std::string didYouMean(std::string_view word, const std::vector<std::string>& known) {
    const std::string near = nearestWord(word, known);
    return near.empty() ? "" : "did you mean \"" + near + "\"?";
}

int complain(const Issues& issues) {
    for (const Issue& issue : issues) {
        const std::string line = toText(issue) + "\n";
        std::fwrite(line.data(), 1, line.size(), stderr);
    }
    return kBadInputExit;
}

}  // namespace tinwright::app
