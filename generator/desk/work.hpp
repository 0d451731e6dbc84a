#pragma once
#include <condition_variable>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "engine/wording.hpp"

namespace footroom::desk {

/// Work that takes a while, one piece after another, each about one thing ("quiz 3").
class Work {
 public:
  using Tell = std::function<void(int done, int of)>;

  struct State {
    bool running = false;
    int done = 0;
    int of = 0;
    engine::Wording failed;  ///< why it could not be done; empty: it was
  };

  Work() = default;
  /// Waits for what is under way: it is whole or not there.
  ~Work();
  Work(const Work&) = delete;
  Work& operator=(const Work&) = delete;

  /// Begins, and waits a moment: most is done by then. False where something about the same thing
  /// is running.
  bool begin(const std::string& about, std::function<void(const Tell&)> work);
  /// What is or was done about it; nothing if never.
  std::optional<State> state(const std::string& about) const;

 private:
  void run(const std::string& about, const std::function<void(const Tell&)>& work);

  mutable std::mutex mutex_;
  mutable std::condition_variable changed_;
  std::map<std::string, State, std::less<>> states_;
  std::map<std::string, std::thread, std::less<>> threads_;
};

}  // namespace footroom::desk
