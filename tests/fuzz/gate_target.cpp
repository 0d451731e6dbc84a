// What a stranger sends to the desk's socket, over a real one: the gate answers with a status it
// knows, and hands on only requests that keep its bounds.

#include <arpa/inet.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <thread>

#include "desk/gate.hpp"
#include "fuzz/target.hpp"

namespace footroom::fuzz {
namespace {

desk::Response answer(const desk::Request& request) {
  require(request.method == "GET" || request.method == "HEAD" || request.method == "POST",
          "the method is one of three");
  require(request.path.starts_with('/'), "the path begins with a slash");
  require(request.method == "POST" || request.form.empty(), "only a POST has a form");
  for (const auto* text :
       {&request.host, &request.origin, &request.fetch_site, &request.cookies, &request.languages})
    for (const char c : *text) require(c < 0 || c >= ' ' || c == '\t', "no header holds a break");
  desk::Response response;
  response.body = "answered\n";
  return response;
}

/// A gate that stays open until the process ends.
int the_port() {
  static const int port = [] {
    desk::Limits limits;
    limits.threads = 2;
    static desk::Gate gate(answer, limits);
    const int opened = gate.open(0, 0);
    static std::thread serving([] { gate.serve(); });
    std::atexit([] {
      gate.close();
      serving.join();
    });
    return opened;
  }();
  return port;
}

/// Sends the bytes and says that no more come; what comes back.
std::string reply_to(std::string_view bytes) {
  const int wire = ::socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in where{};
  where.sin_family = AF_INET;
  where.sin_port = htons(static_cast<std::uint16_t>(the_port()));
  where.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  require(::connect(wire, reinterpret_cast<const sockaddr*>(&where), sizeof where) == 0,
          "the gate is open");
  while (!bytes.empty()) {
    const auto sent = ::send(wire, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent <= 0) break;
    bytes.remove_prefix(static_cast<std::size_t>(sent));
  }
  ::shutdown(wire, SHUT_WR);
  std::string all;
  std::array<char, 4096> block;
  for (;;) {
    const auto count = ::recv(wire, block.data(), block.size(), 0);
    if (count <= 0) break;
    all.append(block.data(), static_cast<std::size_t>(count));
  }
  ::close(wire);
  return all;
}

}  // namespace

void try_input(std::string_view input) {
  const std::string reply = reply_to(input);
  constexpr std::array statuses{"200", "400", "405", "408", "411", "413",
                                "414", "415", "417", "431", "501", "505"};
  const bool known = std::any_of(statuses.begin(), statuses.end(), [&](const char* status) {
    return reply.starts_with(std::string("HTTP/1.1 ") + status + " ");
  });
  require(known, "the gate answers with a status it knows: " + reply.substr(0, 60));
  const bool handed_on = reply.starts_with("HTTP/1.1 200 ");
  require(!handed_on || reply.find("Content-Security-Policy: ") != std::string::npos,
          "an answer carries its policy");
}

}  // namespace footroom::fuzz
