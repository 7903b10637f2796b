// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

/// What a plan spoils by the program's own checks, and what it takes to keep a fold from spoiling anything.
namespace tinwright {

/// What is spoilt, a finding counted once for each bend that it concerns. Fewer that surely spoil come first, then
/// fewer that may.
struct Spoils {
    int surely = 0;  ///< faults and overloads
    int maybe = 0;   ///< warnings that mean the same when they come true

    [[nodiscard]] constexpr bool any() const { return surely > 0 || maybe > 0; }
    Spoils& operator+=(const Spoils& other) {
        surely += other.surely;
        maybe += other.maybe;
        return *this;
    }
    friend Spoils operator+(Spoils a, const Spoils& b) { return a += b; }
    friend bool operator==(const Spoils&, const Spoils&) = default;
    friend bool operator<(const Spoils& a, const Spoils& b) {
        return a.surely != b.surely ? a.surely < b.surely : a.maybe < b.maybe;
    }
    friend bool operator>(const Spoils& a, const Spoils& b) { return b < a; }
    friend bool operator<=(const Spoils& a, const Spoils& b) { return !(b < a); }
    friend bool operator>=(const Spoils& a, const Spoils& b) { return !(a < b); }
};

/// What has to be done for a fold besides folding it.
struct Care {
    bool bars_packed = false;  ///< an offcut of the sheet under the back of loose bars: less sheet lies under them than
                               ///< they are deep, and they would tip
    bool bars_clamped = false;  ///< a clamp at each end of loose bars: by themselves they would lift or slide back
    bool in_tongs = false;      ///< what is held in front of a press brake: hands would come near to the tools

    [[nodiscard]] bool any() const { return bars_packed || bars_clamped || in_tongs; }
    friend bool operator==(const Care&, const Care&) = default;
};

}  // namespace tinwright
