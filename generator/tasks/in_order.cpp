#include "tasks/in_order.hpp"

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace footroom::tasks {
namespace {

/// Ends the work early where `finished` throws, so that no thread outlives what it works on.
class Workers {
 public:
  Workers(std::size_t count, const std::function<void(std::size_t)>& work)
      : work_(work), done_(count), thrown_(count) {}
  Workers(const Workers&) = delete;
  Workers& operator=(const Workers&) = delete;
  ~Workers() {
    next_ = done_.size();
    for (std::thread& thread : threads_) thread.join();
  }

  void start(std::size_t jobs) {
    for (std::size_t i = 0; i < std::min(jobs, done_.size()); ++i)
      threads_.emplace_back([this] { take_turns(); });
  }

  void wait_for(std::size_t i) {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [&] { return done_[i]; });
    if (thrown_[i]) std::rethrow_exception(thrown_[i]);
  }

 private:
  void take_turns() {
    for (std::size_t i = next_++; i < done_.size(); i = next_++) {
      std::exception_ptr thrown;
      try {
        work_(i);
      } catch (...) {
        thrown = std::current_exception();
      }
      const std::lock_guard lock(mutex_);
      thrown_[i] = thrown;
      done_[i] = true;
      changed_.notify_one();
    }
  }

  const std::function<void(std::size_t)>& work_;
  std::atomic<std::size_t> next_ = 0;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::vector<bool> done_;  // these two under the mutex
  std::vector<std::exception_ptr> thrown_;
  std::vector<std::thread> threads_;
};

}  // namespace

void work_in_order(std::size_t count, std::size_t jobs,
                   const std::function<void(std::size_t)>& work,
                   const std::function<void(std::size_t)>& finished) {
  Workers workers(count, work);
  workers.start(std::max<std::size_t>(jobs, 1));
  for (std::size_t i = 0; i < count; ++i) {
    workers.wait_for(i);
    finished(i);
  }
}

std::size_t processors() {
  return std::max(std::thread::hardware_concurrency(), 1u);
}

}  // namespace footroom::tasks
