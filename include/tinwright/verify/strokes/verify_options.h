// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace tinwright {

/// How densely the replay looks.
struct VerifyOptions {
    double angle_step_deg = 0.25;
    double path_step_mm = 1.0;
};

}  // namespace tinwright
