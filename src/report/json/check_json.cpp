// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/data/check_report.h>

#include "json/finding_json.h"

namespace tinwright {

using namespace report;

std::string checkJson(const CheckReport& report) {
    const Json document{{"format", "tinwright-check/1"},
                        {"part", report.part.name},
                        {"shop", textOrNull(report.shop)},
                        {"brakes", report.brakes},
                        {"findings", findingsJson(report.part, report.findings)},
                        {"warnings", report.warnings}};
    return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace tinwright
