#pragma once
// A desk on a fresh folder, a client as a browser is one, and a bare socket as a hostile one is.

#include <arpa/inet.h>
#include <httplib.h>
#include <sys/socket.h>
#include <unistd.h>

#include <atomic>
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

class OpenDesk {
 public:
  explicit OpenDesk(const std::filesystem::path& folder, Limits limits = {})
      : desk_(settings_for(folder, limits)), serving_([this] { desk_.serve(); }) {
    static const std::regex parts("http://127\\.0\\.0\\.1:([0-9]+)(/open\\?key=[0-9a-f]+)");
    std::smatch match;
    const std::string address = desk_.address();
    if (!std::regex_match(address, match, parts)) throw std::runtime_error(address);
    port = std::stoi(match[1]);
    key_path = match[2];
  }
  ~OpenDesk() {
    desk_.close();
    serving_.join();
  }
  int port = 0;
  std::string key_path;

 private:
  Desk desk_;
  std::thread serving_;
};

/// What a browser does: it keeps the cookie, and sends forms that it was given.
class Visitor {
 public:
  explicit Visitor(const OpenDesk& desk)
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
