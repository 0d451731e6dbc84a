#include "tasks/in_order.hpp"

#include <algorithm>
#include <condition_variable>
#include <exception>
#include <map>
#include <mutex>
#include <thread>
#include <vector>

namespace footroom::tasks {
namespace {

/// Ends the work early where `finished` throws, so that no thread outlives what it works on.
class Workers {
 public:
  Workers(std::size_t count, std::size_t ahead, const std::function<void(std::size_t)>& work)
      : count_(count), ahead_(ahead), work_(work) {}
  Workers(const Workers&) = delete;
  Workers& operator=(const Workers&) = delete;
  ~Workers() {
    {
      const std::lock_guard lock(mutex_);
      next_ = count_;
    }
    may_go_on_.notify_all();
    for (std::thread& thread : threads_) thread.join();
  }

  void start(std::size_t jobs) {
    for (std::size_t i = 0; i < std::min(jobs, count_); ++i)
      threads_.emplace_back([this] { take_turns(); });
  }

  void wait_for(std::size_t i) {
    std::unique_lock lock(mutex_);
    is_done_.wait(lock, [&] { return done_.count(i) > 0; });
    const std::exception_ptr thrown = done_.extract(i).mapped();
    if (thrown) std::rethrow_exception(thrown);
  }

  /// As many pieces are finished.
  void have_finished(std::size_t pieces) {
    {
      const std::lock_guard lock(mutex_);
      finished_ = pieces;
    }
    may_go_on_.notify_all();
  }

 private:
  void take_turns() {
    while (true) {
      std::size_t i = 0;
      {
        std::unique_lock lock(mutex_);
        may_go_on_.wait(lock, [&] { return next_ >= count_ || next_ - finished_ < ahead_; });
        if (next_ >= count_) return;
        i = next_++;
      }
      std::exception_ptr thrown;
      try {
        work_(i);
      } catch (...) {
        thrown = std::current_exception();
      }
      {
        const std::lock_guard lock(mutex_);
        done_.emplace(i, thrown);
      }
      is_done_.notify_one();
    }
  }

  const std::size_t count_;
  const std::size_t ahead_;
  const std::function<void(std::size_t)>& work_;
  std::mutex mutex_;
  std::condition_variable is_done_;
  std::condition_variable may_go_on_;
  std::size_t next_ = 0;  // these three under the mutex
  std::size_t finished_ = 0;
  std::map<std::size_t, std::exception_ptr> done_;
  std::vector<std::thread> threads_;
};

}  // namespace

void work_in_order(std::size_t count, std::size_t jobs,
                   const std::function<void(std::size_t)>& work,
                   const std::function<void(std::size_t)>& finished, std::size_t ahead) {
  if (jobs <= 1) {
    for (std::size_t i = 0; i < count; ++i) {
      work(i);
      finished(i);
    }
    return;
  }
  Workers workers(count, std::max<std::size_t>(ahead, 1), work);
  workers.start(jobs);
  for (std::size_t i = 0; i < count; ++i) {
    workers.wait_for(i);
    finished(i);
    workers.have_finished(i + 1);
  }
}

std::size_t processors() {
  return std::max(std::thread::hardware_concurrency(), 1u);
}

}  // namespace footroom::tasks
