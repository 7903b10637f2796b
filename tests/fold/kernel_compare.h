// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Random states, asked of the kernel and of its oracle.

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace tinwright::oracle {

/// What was compared, and how it came out. "Impossible" means: the kernel's outer set says that a body standing there
/// may be hit, or the verdict of two groups is not clear.
struct Tally {
    long states = 0;
    long free_checked = 0;  ///< places called free, each looked at under several motions
    long witnesses_checked = 0;
    long placed = 0;             ///< bodies put at random, whatever the kernel says of it
    long called_impossible = 0;  ///< of those
    long clear_after_all = 0;    ///< of those: not even the grown body is hit
    long pairs = 0;
    long pairs_impossible = 0;
    long pairs_clear_after_all = 0;
    std::map<std::string, long> kinds;  ///< of clear_after_all
    std::map<std::string, long> more;   ///< counts of one kind of brake
    std::vector<std::string> dangerous;
    std::vector<std::string> unconfirmed;

    void add(const Tally& other);
    [[nodiscard]] std::string text() const;
};

/// Compares `states` random states of randomCase(seed).
void compareCase(std::uint64_t seed, int states, Tally& tally);
/// The same of randomPressCase(seed). Besides, of each state: whether punches and dies suit the bend, and the whole
/// stroke, with tools where the engine puts them.
void comparePressCase(std::uint64_t seed, int states, Tally& tally);

}  // namespace tinwright::oracle
