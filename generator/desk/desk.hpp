#pragma once
// A whole week's work in a browser on the same machine. The desk adds no logic of its own: its
// rooms call the tasks that the commands call.

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "desk/gate.hpp"
#include "desk/request.hpp"

namespace footroom::desk {

struct Settings {
  std::filesystem::path folder;
  std::filesystem::path bank;
  std::filesystem::path templates;
  /// Where the core of the practice page is. Throws Failure where it is not.
  std::function<std::filesystem::path()> practice_core;
  int port = 0;                         ///< 0: the last one, else any free one
  std::function<std::string()> today;   ///< YYYY-MM-DD
  std::function<std::string()> random;  ///< 64 hexadecimal digits, anew at each call
  std::function<std::uint64_t()> seed;
  std::string program;
  Limits limits = {};
};

class Desk {
 public:
  /// Reads bank and templates, takes the folder and the port. Throws Failure.
  explicit Desk(Settings settings);
  ~Desk();
  Desk(const Desk&) = delete;
  Desk& operator=(const Desk&) = delete;

  /// With the key: whoever has it may use the desk.
  const std::string& address() const;
  /// Of all its rooms.
  std::vector<Address> addresses() const;
  /// Until close() is called, from another thread or a room.
  void serve();
  void close();

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace footroom::desk
