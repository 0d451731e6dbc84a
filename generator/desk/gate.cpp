#include "desk/gate.hpp"

#include <httplib.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cerrno>
#include <optional>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "desk/multipart.hpp"
#include "tasks/failure.hpp"

namespace footroom::desk {
namespace {

using Clock = std::chrono::steady_clock;
using std::chrono::milliseconds;

constexpr const char* form_type = "form-type";
constexpr milliseconds between_looks{100};  ///< at whether the desk is closing

/// A connection with a time by which it must be done.
class Wire {
 public:
  Wire(int socket, const std::atomic<bool>& closing) : socket_(socket), closing_(closing) {}

  void allow(milliseconds time) { until_ = Clock::now() + time; }

  /// Bytes received; 0 where the other end is done or the time is over.
  std::size_t receive(char* to, std::size_t size) {
    while (wait(POLLIN)) {
      const auto count = ::recv(socket_, to, size, MSG_DONTWAIT);
      if (count >= 0) return static_cast<std::size_t>(count);
      if (errno != EAGAIN && errno != EWOULDBLOCK && errno != EINTR) return 0;
    }
    return 0;
  }

  bool send(std::string_view bytes) {
    while (!bytes.empty()) {
      if (!wait(POLLOUT)) return false;
      const auto count = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL | MSG_DONTWAIT);
      if (count >= 0)
        bytes.remove_prefix(static_cast<std::size_t>(count));
      else if (errno != EAGAIN && errno != EWOULDBLOCK && errno != EINTR)
        return false;
    }
    return true;
  }

  int socket() const { return socket_; }

 private:
  bool wait(short events) const {
    while (!closing_) {
      const auto left = std::chrono::duration_cast<milliseconds>(until_ - Clock::now());
      if (left.count() <= 0) return false;
      pollfd one{socket_, events, 0};
      const int ready = ::poll(&one, 1, static_cast<int>(std::min(left, between_looks).count()));
      if (ready > 0) return true;
      if (ready < 0 && errno != EINTR) return false;
    }
    return false;
  }

  int socket_;
  const std::atomic<bool>& closing_;
  Clock::time_point until_;
};

/// What the library reads and writes: a request that has come whole, and the wire.
class Exchange : public httplib::Stream {
 public:
  Exchange(std::string request, Wire& wire) : request_(std::move(request)), wire_(wire) {}
  bool is_readable() const override { return true; }
  bool is_writable() const override { return true; }
  ssize_t read(char* to, std::size_t size) override {
    const auto count = std::min(size, request_.size() - done_);
    std::copy_n(request_.data() + done_, count, to);
    done_ += count;
    return static_cast<ssize_t>(count);
  }
  ssize_t write(const char* bytes, std::size_t size) override {
    return wire_.send({bytes, size}) ? static_cast<ssize_t>(size) : -1;
  }
  void get_remote_ip_and_port(std::string&, int&) const override {}
  void get_local_ip_and_port(std::string&, int&) const override {}
  socket_t socket() const override { return wire_.socket(); }

 private:
  std::string request_;
  std::size_t done_ = 0;
  Wire& wire_;
};

struct Refusal {
  int status;
  const char* says;
};

bool is_token(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_';
  });
}

std::string lower_case(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

/// Takes the first line off a text.
std::string_view cut_line(std::string_view& text) {
  const auto end = std::min(text.find("\r\n"), text.size());
  const auto line = text.substr(0, end);
  text.remove_prefix(std::min(end + 2, text.size()));
  return line;
}

/// The head of a request, and what of it goes on to the library: nothing that makes it decompress,
/// wait, or answer in parts.
class Head {
 public:
  std::string forwarded;
  std::size_t length = 0;  ///< of the body

  std::optional<Refusal> read(std::string_view text, const Limits& limits) {
    if (const auto refusal = read_first(cut_line(text), limits)) return refusal;
    std::size_t lines = 0;
    while (!text.empty()) {
      const auto line = cut_line(text);
      if (++lines > limits.lines) return Refusal{431, "too many headers"};
      if (const auto refusal = read_line(line)) return refusal;
    }
    if (!has_host_) return Refusal{400, "no Host"};
    if (method_ == "POST" && !has_length_) return Refusal{411, "no Content-Length"};
    if (method_ != "POST" && length > 0) return Refusal{400, "a body where none belongs"};
    if (length > limits.body) return Refusal{413, "larger than the desk takes"};
    forwarded += "\r\n";
    return std::nullopt;
  }

 private:
  std::optional<Refusal> read_first(std::string_view line, const Limits& limits) {
    const auto space = line.find(' ');
    const auto last = line.rfind(' ');
    if (space == std::string_view::npos || last == space) return Refusal{400, "no request"};
    method_ = line.substr(0, space);
    const auto target = line.substr(space + 1, last - space - 1);
    const auto version = line.substr(last + 1);
    if (version != "HTTP/1.1" && version != "HTTP/1.0") return Refusal{505, "not HTTP/1.1"};
    if (method_ != "GET" && method_ != "HEAD" && method_ != "POST")
      return Refusal{405, "expected GET, HEAD or POST"};
    if (target.size() > limits.target) return Refusal{414, "the address is too long"};
    if (!target.starts_with('/') ||
        !std::all_of(target.begin(), target.end(), [](char c) { return c > ' ' && c < '\x7f'; }))
      return Refusal{400, "no address of the desk"};
    forwarded = std::string(method_) + " " + std::string(target) + " HTTP/1.1\r\n";
    return std::nullopt;
  }

  std::optional<Refusal> read_line(std::string_view line) {
    const auto colon = line.find(':');
    const auto name = line.substr(0, colon);
    if (colon == std::string_view::npos || !is_token(name)) return Refusal{400, "a broken header"};
    const auto value = trimmed(line.substr(colon + 1));
    if (std::any_of(value.begin(), value.end(),
                    [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == '\x7f'; }))
      return Refusal{400, "a broken header"};
    const std::string known = lower_case(name);
    if (known == "transfer-encoding") return Refusal{501, "expected a Content-Length"};
    if (known == "content-encoding") return Refusal{415, "expected a body as it is"};
    if (known == "expect") return Refusal{417, "expected the body at once"};
    if (known == "content-length") {
      if (std::exchange(has_length_, true) || value.empty() || value.size() > 12 ||
          value.find_first_not_of("0123456789") != std::string_view::npos)
        return Refusal{400, "a broken Content-Length"};
      length = std::stoull(std::string(value));
    }
    if (known == "host" && std::exchange(has_host_, true)) return Refusal{400, "two Hosts"};
    static const std::vector<std::string> kept{
        "host", "cookie", "origin", "content-length", "sec-fetch-site", "accept-language"};
    // Under its own name the library would read the form itself.
    if (known == "content-type")
      forwarded += std::string(form_type) + ": " + std::string(value) + "\r\n";
    if (std::find(kept.begin(), kept.end(), known) != kept.end())
      forwarded += known + ": " + std::string(value) + "\r\n";
    return std::nullopt;
  }

  std::string_view method_;
  bool has_host_ = false;
  bool has_length_ = false;
};

const char* policy_text(Policy policy) {
  constexpr const char* room =
      "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; "
      "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";
  constexpr const char* printed =
      "default-src 'none'; style-src 'unsafe-inline'; img-src data:; form-action 'none'; "
      "base-uri 'none'; frame-ancestors 'none'";
  constexpr const char* practice =
      "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline' "
      "'wasm-unsafe-eval'; img-src data:; form-action 'none'; base-uri 'none'; "
      "frame-ancestors 'none'";
  return policy == Policy::room ? room : policy == Policy::printed ? printed : practice;
}

void put(const Response& from, httplib::Response& to) {
  to.status = from.location.empty() ? from.status : 303;
  if (!from.location.empty()) to.set_header("Location", from.location);
  if (!from.cookie.empty()) to.set_header("Set-Cookie", from.cookie);
  if (!from.file_name.empty())
    to.set_header("Content-Disposition", "attachment; filename=\"" + from.file_name + "\"");
  to.set_header("Content-Security-Policy", policy_text(from.policy));
  to.set_header("X-Content-Type-Options", "nosniff");
  // "no-referrer" would have browsers send forms with "Origin: null".
  to.set_header("Referrer-Policy", "same-origin");
  to.set_header("Cross-Origin-Opener-Policy", "same-origin");
  to.set_header("Cross-Origin-Resource-Policy", "same-origin");
  to.set_header("Cache-Control", "no-store");
  to.set_content(from.body, from.type);
}

Request taken(const httplib::Request& from) {
  Request request;
  request.method = from.method;
  request.path = from.path;
  for (const auto& [name, value] : from.params) request.query.emplace(name, value);
  request.host = from.get_header_value("host");
  request.origin = from.get_header_value("origin");
  request.fetch_site = from.get_header_value("sec-fetch-site");
  request.cookies = from.get_header_value("cookie");
  request.languages = from.get_header_value("accept-language");
  return request;
}

}  // namespace

class Gate::Server : public httplib::Server {
 public:
  Server(Answer answer, Limits limits) : answer_(std::move(answer)), limits_(limits) {
    const std::size_t threads = limits_.threads;
    new_task_queue = [threads] { return new httplib::ThreadPool(threads); };
    // Without the library's SO_REUSEPORT: nobody else may listen beside us.
    set_socket_options([](socket_t socket) {
      const int yes = 1;
      ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    });
    set_payload_max_length(limits_.body);
    // Any path: in an expression of the library a dot is no line break, which may stand there
    // encoded.
    constexpr const char* any = R"([\s\S]*)";
    Get(any, [this](const httplib::Request& from, httplib::Response& to) {
      put(answer_(taken(from)), to);
    });
    Post(any, [this](const httplib::Request& from, httplib::Response& to,
                     const httplib::ContentReader& content) {
      std::string body;
      content([&body](const char* bytes, std::size_t size) {
        body.append(bytes, size);
        return true;
      });
      Request request = taken(from);
      auto form = read_form(from.get_header_value(form_type), body);
      if (!form) {
        Response refusal;
        refusal.status = 400;
        refusal.type = "text/plain; charset=utf-8";
        refusal.body = "This is no form of the desk.\n";
        put(refusal, to);
        return;
      }
      request.form = std::move(*form);
      put(answer_(request), to);
    });
  }

  /// The library closes its port only after it served.
  ~Server() override {
    if (svr_sock_ != INVALID_SOCKET) ::close(svr_sock_);
  }

  /// The library lets five connections wait; of 200 at once the others would be turned away.
  void let_many_wait() { ::listen(svr_sock_, SOMAXCONN); }

  void listen_until_closed() {
    if (!closing_) listen_after_bind();
    served_ = true;
  }

  void close() {
    closing_ = true;
    while (!is_running() && !served_) std::this_thread::sleep_for(milliseconds(5));
    if (!served_) stop();
  }

 private:
  bool process_and_close_socket(socket_t socket) override {
    Wire wire(socket, closing_);
    serve_one(wire);
    ::shutdown(socket, SHUT_RDWR);
    ::close(socket);
    return true;
  }

  void serve_one(Wire& wire) {
    std::string text;
    Head head;
    wire.allow(limits_.head_time);
    const auto refusal = read_head(wire, text, head);
    if (refusal) return refuse(wire, *refusal);
    wire.allow(limits_.body_time);
    std::string body = std::move(text);
    while (body.size() < head.length) {
      std::array<char, 65'536> block;
      const auto wanted = std::min(block.size(), head.length - body.size());
      const auto count = wire.receive(block.data(), wanted);
      if (count == 0) return refuse(wire, {408, "the rest did not come"});
      body.append(block.data(), count);
    }
    if (body.size() > head.length) return refuse(wire, {400, "more than was announced"});
    Exchange exchange(head.forwarded + body, wire);
    wire.allow(limits_.write_time);
    bool closed = true;
    process_request(exchange, true, closed, [](httplib::Request&) {});
  }

  /// Afterwards `text` is what has come of the body.
  std::optional<Refusal> read_head(Wire& wire, std::string& text, Head& head) const {
    for (;;) {
      std::array<char, 4'096> block;
      const auto count = wire.receive(block.data(), block.size());
      if (count == 0) return Refusal{408, "the request did not come"};
      const auto from = text.size() < 3 ? 0 : text.size() - 3;
      text.append(block.data(), count);
      const auto end = text.find("\r\n\r\n", from);
      if (end == std::string::npos && text.size() <= limits_.head) continue;
      if (end > limits_.head) return Refusal{431, "headers too long"};
      if (const auto refusal = head.read(std::string_view(text).substr(0, end), limits_))
        return refusal;
      text.erase(0, end + 4);
      return std::nullopt;
    }
  }

  /// Says why, and reads on for a moment: a connection that is closed on unread bytes loses the
  /// answer.
  static void refuse(Wire& wire, const Refusal& why) {
    const std::string says = std::string(why.says) + "\n";
    wire.allow(milliseconds(1'000));
    wire.send("HTTP/1.1 " + std::to_string(why.status) + " " + why.says +
              "\r\nContent-Type: text/plain; charset=utf-8\r\nContent-Length: " +
              std::to_string(says.size()) + "\r\nConnection: close\r\n\r\n" + says);
    ::shutdown(wire.socket(), SHUT_WR);
    std::array<char, 65'536> block;
    std::size_t drained = 0;
    while (drained < (std::size_t{8} << 20)) {
      const auto count = wire.receive(block.data(), block.size());
      if (count == 0) return;
      drained += count;
    }
  }

  Answer answer_;
  Limits limits_;
  std::atomic<bool> closing_ = false;
  std::atomic<bool> served_ = false;
};

Gate::Gate(Answer answer, Limits limits)
    : server_(std::make_unique<Server>(std::move(answer), limits)) {}

Gate::~Gate() = default;

int Gate::open(int port, int before) {
  constexpr const char* here = "127.0.0.1";
  const auto take = [&](int wanted) { return server_->bind_to_port(here, wanted) ? wanted : 0; };
  int taken = port != 0 ? take(port) : before != 0 ? take(before) : 0;
  if (taken == 0 && port == 0) taken = server_->bind_to_any_port(here);
  if (taken > 0) {
    server_->let_many_wait();
    return taken;
  }
  throw tasks::Failure(tasks::ExitCode::cannot_read_or_write,
                       "--port: " + std::to_string(port) +
                           " of 127.0.0.1 cannot be taken; another program may have it");
}

void Gate::serve() {
  server_->listen_until_closed();
}

void Gate::close() {
  server_->close();
}

}  // namespace footroom::desk
