#pragma once
#include <cstddef>
#include <functional>
#include <limits>

namespace footroom::tasks {

/// Calls work(0) ... work(count - 1) on `jobs` threads, each as soon as a thread is free, and
/// finished(i) on the calling thread, in the order of i, as soon as all before it are finished.
/// With one job all of it happens on the calling thread. No more than `ahead` pieces are worked on
/// or wait for finished() at a time, so that what they hold stays small. What `work` throws is
/// thrown here, the lowest i first, where finished(i) would stand.
void work_in_order(std::size_t count, std::size_t jobs,
                   const std::function<void(std::size_t)>& work,
                   const std::function<void(std::size_t)>& finished,
                   std::size_t ahead = std::numeric_limits<std::size_t>::max());

/// As many as the machine's processors; 1 where that is not known.
std::size_t processors();

}  // namespace footroom::tasks
