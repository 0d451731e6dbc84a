#include "desk/session.hpp"

namespace footroom::desk {
namespace {

constexpr std::size_t most_remembered = 10'000;

/// Takes as long for a near miss as for any other text.
bool same(const std::string& one, const std::string& other) {
  if (one.size() != other.size()) return false;
  unsigned differs = 0;
  for (std::size_t i = 0; i < one.size(); ++i)
    differs |= static_cast<unsigned char>(one[i]) ^ static_cast<unsigned char>(other[i]);
  return differs == 0;
}

}  // namespace

Session::Session(int port, const std::function<std::string()>& random)
    : port_(port), key_(random()), cookie_(random()), form_token_(random()) {}

std::string Session::address() const {
  return "http://127.0.0.1:" + std::to_string(port_) + "/open?key=" + key_;
}

std::optional<std::string> Session::cookie_for(const std::string& key) const {
  if (!same(key, key_)) return std::nullopt;
  return "desk-" + std::to_string(port_) + "=" + cookie_ + "; Path=/; HttpOnly; SameSite=Strict";
}

bool Session::is_ours(const Request& request) const {
  const std::string port = ":" + std::to_string(port_);
  return request.host == "127.0.0.1" + port || request.host == "localhost" + port;
}

bool Session::has_cookie(const Request& request) const {
  // Cookies do not tell ports apart, so the name does.
  const std::string name = "desk-" + std::to_string(port_) + "=";
  std::string_view rest = request.cookies;
  while (!rest.empty()) {
    const auto end = rest.find(';');
    std::string_view one = rest.substr(0, end);
    rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
    while (one.starts_with(' ')) one.remove_prefix(1);
    if (one.starts_with(name) && same(std::string(one.substr(name.size())), cookie_)) return true;
  }
  return false;
}

bool Session::is_own_form(const Request& request) const {
  const bool origin = request.origin.empty()
                          ? request.fetch_site == "same-origin" || request.fetch_site.empty()
                          : request.origin == "http://" + request.host;
  const bool site = request.fetch_site.empty() || request.fetch_site == "same-origin";
  return origin && site && same(first_of(request.form, "token"), form_token_);
}

std::optional<std::string> Submissions::find(const std::string& once) const {
  const auto found = done_.find(once);
  return found == done_.end() ? std::nullopt : std::optional(found->second);
}

void Submissions::add(const std::string& once, const std::string& location) {
  if (once.empty()) return;
  if (done_.size() >= most_remembered) done_.clear();
  done_[once] = location;
}

}  // namespace footroom::desk
