// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/base/issue.h>

namespace tinwright {

std::string toText(const Issue& issue) {
    std::string text = issue.file.empty() ? std::string("input") : issue.file;
    if (!issue.place.empty()) text += ": " + issue.place;
    text += ": found " + issue.found + ", expected " + issue.expected;
    if (!issue.hint.empty()) text += " (" + issue.hint + ")";
    return text + " [" + issue.code + "]";
}

}  // namespace tinwright
