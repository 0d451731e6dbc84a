#pragma once
// The socket of the desk: on this machine alone, and every request bounded in size and time before
// anything looks at it.

#include <chrono>
#include <functional>
#include <memory>

#include "desk/request.hpp"

namespace footroom::desk {

struct Limits {
  std::size_t head = 16'384;  ///< bytes of a request line and its headers
  std::size_t lines = 64;     ///< headers
  std::size_t target = 2'048;
  std::size_t body = std::size_t{4} << 20;
  std::chrono::milliseconds head_time{5'000};  ///< until the last header has come
  std::chrono::milliseconds body_time{20'000};
  std::chrono::milliseconds write_time{20'000};
  std::size_t threads = 64;
};

class Gate {
 public:
  /// Called from many threads at once; must not throw.
  using Answer = std::function<Response(const Request&)>;

  explicit Gate(Answer answer, Limits limits = {});
  ~Gate();
  Gate(const Gate&) = delete;
  Gate& operator=(const Gate&) = delete;

  /// Takes a port of 127.0.0.1 and gives it; for 0 the one of `before` if it is free (0: none was),
  /// else any. Throws Failure.
  int open(int port, int before);
  /// Answers until close(); requests under way are finished.
  void serve();
  /// From any thread.
  void close();

 private:
  class Server;
  std::unique_ptr<Server> server_;
};

}  // namespace footroom::desk
