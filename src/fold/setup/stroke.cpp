// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/fold/setup/stroke.h>

namespace tinwright {

BendMask Stroke::mask() const { return maskOf(bends); }

}  // namespace tinwright
