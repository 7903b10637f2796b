// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// The same fold check as a general collision library does it: bodies made once, its broad phase of boxes, then convex
// against convex, at steps of one degree.

#include <memory>

#include <fcl/broadphase/broadphase_dynamic_AABB_tree.h>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "oracle_model.h"

namespace tinwright::bench {

class LibraryCheck {
public:
    /// Bars fill the bend; the part is in the middle of the machine.
    LibraryCheck(const Part& part, const oracle::Outlines& outlines, const BrakeInSetup& brake, double overbend_deg,
                 BendMask formed, BendId bend, Side hold);
    /// The whole swing; stops at the first contact when `to_first` is set. Returns the number of contacts found.
    int run(bool to_first);

private:
    struct Scene;
    std::shared_ptr<Scene> scene_;
};

}  // namespace tinwright::bench
