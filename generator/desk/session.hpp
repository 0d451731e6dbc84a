#pragma once
#include <functional>
#include <map>
#include <optional>
#include <string>

#include "desk/request.hpp"

namespace footroom::desk {

/// Who may use the desk: whoever has the address that was printed, which carries a key. The key is
/// exchanged for a cookie, and each form carries a token beside it.
class Session {
 public:
  /// `random` gives long random texts of hexadecimal digits, anew at each call.
  Session(int port, const std::function<std::string()>& random);

  /// "http://127.0.0.1:8640/open?key=..."
  std::string address() const;
  /// The value of Set-Cookie where `key` is right. SameSite=Strict: no other site's link or form
  /// carries it; HttpOnly: no script reads it.
  std::optional<std::string> cookie_for(const std::string& key) const;

  /// Host names this desk: else a name that someone made point here would do.
  bool is_ours(const Request& request) const;
  bool has_cookie(const Request& request) const;
  /// A form that one of our own pages sent. `Origin: null` is not taken.
  bool is_own_form(const Request& request) const;
  const std::string& form_token() const { return form_token_; }

 private:
  int port_;
  std::string key_;
  std::string cookie_;
  std::string form_token_;
};

/// Which forms were sent already, so that a second click does nothing a second time.
class Submissions {
 public:
  /// Where the first sending of this form led to.
  std::optional<std::string> find(const std::string& once) const;
  void add(const std::string& once, const std::string& location);

 private:
  std::map<std::string, std::string, std::less<>> done_;
};

}  // namespace footroom::desk
