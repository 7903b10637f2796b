// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cstddef>

#include <oneapi/tbb/global_control.h>
#include <oneapi/tbb/info.h>
#include <oneapi/tbb/parallel_for.h>
#include <oneapi/tbb/task_arena.h>

namespace tinwright::app {

/// Calls `work(i)` for 0 <= i < count on so many threads (0: as many as the machine has). What one call does must not
/// hang on the others.
template <class Work>
void forEach(std::size_t count, int threads, const Work& work) {
    // What is asked for, though it be more than the machine has.
    const oneapi::tbb::global_control allowed(
        oneapi::tbb::global_control::max_allowed_parallelism,
        std::max<std::size_t>(static_cast<std::size_t>(threads), oneapi::tbb::info::default_concurrency()));
    oneapi::tbb::task_arena arena(threads == 0 ? oneapi::tbb::task_arena::automatic : threads);
    arena.execute(
        [&] { oneapi::tbb::parallel_for(std::size_t{0}, count, std::size_t{1}, [&](std::size_t i) { work(i); }); });
}

}  // namespace tinwright::app
