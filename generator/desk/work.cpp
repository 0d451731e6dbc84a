#include "desk/work.hpp"

#include <chrono>
#include <exception>
#include <utility>

namespace footroom::desk {

Work::~Work() {
  for (auto& [about, thread] : threads_)
    if (thread.joinable()) thread.join();
}

bool Work::begin(const std::string& about, std::function<void(const Tell&)> work) {
  std::unique_lock lock(mutex_);
  if (states_[about].running) return false;
  if (threads_[about].joinable()) threads_[about].join();
  states_[about] = {true, 0, 0, {}};
  threads_[about] = std::thread([this, about, work = std::move(work)] { this->run(about, work); });
  changed_.wait_for(lock, std::chrono::seconds(2), [&] { return !states_[about].running; });
  return true;
}

void Work::run(const std::string& about, const std::function<void(const Tell&)>& work) {
  engine::Wording failed;
  try {
    work([&](int done, int of) {
      const std::lock_guard lock(mutex_);
      states_[about].done = done;
      states_[about].of = of;
    });
  } catch (const std::exception& error) {
    failed = engine::wording_of(error);
    if (failed.empty()) failed = {"?", "?"};
  }
  const std::lock_guard lock(mutex_);
  states_[about].running = false;
  states_[about].failed = failed;
  changed_.notify_all();
}

std::optional<Work::State> Work::state(const std::string& about) const {
  const std::lock_guard lock(mutex_);
  const auto found = states_.find(about);
  return found == states_.end() ? std::nullopt : std::optional(found->second);
}

}  // namespace footroom::desk
