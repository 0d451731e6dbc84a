#pragma once
// A desk on a fresh folder, a client as a browser is one, and a bare socket as a hostile one is.

#include <arpa/inet.h>
#include <fcntl.h>
#include <httplib.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <csignal>
#include <regex>
#include <string>
#include <thread>

#include "cli/program_run.hpp"
#include "desk/desk.hpp"
#include "tasks/failure.hpp"

namespace footroom::desk::testing {

using cli::testing::Scratch;

/// Random enough for a test, and the same at each run.
inline std::string next_text() {
  static std::atomic<unsigned> count = 0;
  std::string digits = std::to_string(++count);
  return std::string(64 - digits.size(), '0') + digits;
}

inline Settings settings_for(const std::filesystem::path& folder, Limits limits = {}) {
  Settings settings;
  settings.folder = folder;
  settings.bank = FOOTROOM_SOURCE_DIR "/questionbank";
  settings.templates = FOOTROOM_SOURCE_DIR "/templates";
  settings.practice_core = []() -> std::filesystem::path {
    throw tasks::Failure(tasks::ExitCode::cannot_read_or_write, "no core for the tests");
  };
  settings.today = [] { return std::string("2026-11-23"); };
  settings.random = next_text;
  settings.seed = [] { return std::uint64_t{42}; };
  settings.program = "footroom test";
  settings.limits = limits;
  return settings;
}

/// Where a desk is reached.
struct Door {
  int port = 0;
  std::string key_path;

  static Door in(const std::string& address) {
    static const std::regex parts("http://127\\.0\\.0\\.1:([0-9]+)(/open\\?key=[0-9a-f]+)\n?");
    std::smatch match;
    if (!std::regex_match(address, match, parts)) throw std::runtime_error(address);
    return {std::stoi(match[1]), match[2]};
  }
};

/// A desk in this process.
class OpenDesk : public Door {
 public:
  explicit OpenDesk(const std::filesystem::path& folder, Limits limits = {})
      : OpenDesk(settings_for(folder, limits)) {}
  explicit OpenDesk(const Settings& settings)
      : desk_(settings), serving_([this] { desk_.serve(); }) {
    static_cast<Door&>(*this) = Door::in(desk_.address());
  }
  ~OpenDesk() {
    desk_.close();
    serving_.join();
  }
  const Desk& desk() const { return desk_; }

 private:
  Desk desk_;
  std::thread serving_;
};

/// The program itself, so that it can be killed. `environment` is added, "NAME=value"; a file that
/// grows beyond `largest_file` bytes, if given, cannot be written.
class RunningDesk : public Door {
 public:
  explicit RunningDesk(const std::filesystem::path& folder,
                       const std::vector<std::string>& environment = {}, rlim_t largest_file = 0) {
    int said[2];
    if (::pipe2(said, O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
    child_ = ::fork();
    if (child_ == 0) {
      ::dup2(said[1], STDOUT_FILENO);
      for (const auto& one : environment) ::putenv(const_cast<char*>(one.c_str()));
      if (largest_file > 0) {
        const rlimit limit{largest_file, largest_file};
        ::setrlimit(RLIMIT_FSIZE, &limit);
        ::signal(SIGXFSZ, SIG_IGN);
      }
      ::execl(FOOTROOM_PROGRAM, FOOTROOM_PROGRAM, "desk", "--no-open", "--folder", folder.c_str(),
              nullptr);
      ::_exit(127);
    }
    ::close(said[1]);
    std::string line;
    for (char c = 0; c != '\n' && ::read(said[0], &c, 1) == 1;) line += c;
    ::close(said[0]);
    static_cast<Door&>(*this) = Door::in(line);
  }
  RunningDesk(const RunningDesk&) = delete;
  RunningDesk& operator=(const RunningDesk&) = delete;
  ~RunningDesk() {
    if (child_ > 0) end(SIGKILL);
  }
  /// Sends the signal and waits; as waitpid() tells it.
  int end(int signal) {
    ::kill(child_, signal);
    int status = 0;
    ::waitpid(std::exchange(child_, 0), &status, 0);
    return status;
  }

 private:
  pid_t child_ = 0;
};

/// What a browser does: it keeps the cookie, and sends forms that it was given.
class Visitor {
 public:
  explicit Visitor(const Door& desk)
      : host_("127.0.0.1:" + std::to_string(desk.port)), client_("127.0.0.1", desk.port) {
    client_.set_read_timeout(120);
    const auto opened = client_.Get(desk.key_path.c_str());
    if (!opened || opened->status != 303) throw std::runtime_error("the desk did not open");
    const std::string set = opened->get_header_value("Set-Cookie");
    cookie = set.substr(0, set.find(';'));
  }

  httplib::Result get(const std::string& path) {
    return client_.Get(path.c_str(), httplib::Headers{{"Cookie", cookie}});
  }

  using Fields = std::vector<std::pair<std::string, std::string>>;

  /// Sends the form with this action that stands on `page`.
  httplib::Result send(const std::string& page, const std::string& action, Fields fields) {
    const auto shown = get(page);
    if (!shown) throw std::runtime_error("no page " + page);
    return post(action, with_hidden(shown->body, action, std::move(fields)));
  }

  httplib::Result post(const std::string& action, const Fields& fields,
                       httplib::Headers headers = {}) {
    httplib::MultipartFormDataItems items;
    for (const auto& [name, value] : fields) items.push_back({name, value, "", ""});
    headers.emplace("Cookie", cookie);
    headers.emplace("Origin", "http://" + host_);
    return client_.Post(action.c_str(), headers, items);
  }

  /// The fields with the hidden ones of the form that has this action.
  static Fields with_hidden(const std::string& body, const std::string& action, Fields fields) {
    const auto form = body.find("action=\"" + action + "\"");
    if (form == std::string::npos) throw std::runtime_error("no form " + action);
    for (const char* name : {"token", "once"}) {
      const std::string start = std::string("name=\"") + name + "\" value=\"";
      const auto at = body.find(start, form) + start.size();
      fields.emplace_back(name, body.substr(at, body.find('"', at) - at));
    }
    return fields;
  }

  std::string cookie;

 private:
  std::string host_;
  httplib::Client client_;
};

/// Bytes to the desk as they are, and what came back until it closed.
class Wire {
 public:
  explicit Wire(int port) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in where{};
    where.sin_family = AF_INET;
    where.sin_port = htons(static_cast<std::uint16_t>(port));
    where.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    if (::connect(socket_, reinterpret_cast<const sockaddr*>(&where), sizeof where) != 0)
      throw std::runtime_error("cannot connect");
  }
  Wire(const Wire&) = delete;
  Wire& operator=(const Wire&) = delete;
  ~Wire() { ::close(socket_); }
  /// False where the other end has closed.
  bool send(const std::string& bytes) {
    std::size_t sent = 0;
    while (sent < bytes.size()) {
      const auto count = ::send(socket_, bytes.data() + sent, bytes.size() - sent, MSG_NOSIGNAL);
      if (count <= 0) return false;
      sent += static_cast<std::size_t>(count);
    }
    return true;
  }
  std::string rest() {
    std::string all;
    char block[4096];
    for (;;) {
      const auto count = ::recv(socket_, block, sizeof block, 0);
      if (count <= 0) return all;
      all.append(block, static_cast<std::size_t>(count));
    }
  }

 private:
  int socket_;
};

inline int status_of(const std::string& answer) {
  return answer.starts_with("HTTP/1.1 ") ? std::stoi(answer.substr(9, 3)) : 0;
}

inline int status_for(int port, const std::string& request) {
  Wire wire(port);
  wire.send(request);
  return status_of(wire.rest());
}

}  // namespace footroom::desk::testing
