#pragma once
// A request and a response as the rooms of the desk see them, apart from any library.

#include <map>
#include <string>
#include <string_view>

namespace footroom::desk {

/// What a form or a query holds: a name may stand several times.
using Fields = std::multimap<std::string, std::string, std::less<>>;

/// The first value under a name, or nothing.
std::string first_of(const Fields& fields, std::string_view name);

struct Request {
  std::string method;  ///< GET, HEAD or POST
  std::string path;    ///< decoded; nothing on the disk is ever looked up by it
  Fields query;
  Fields form;  ///< of a POST; a file's bytes stand under the name of its field
  std::string host;
  std::string origin;
  std::string fetch_site;  ///< Sec-Fetch-Site
  std::string cookies;
  std::string languages;  ///< Accept-Language
};

/// Where a room answers: "/quizzes/{number}/answers/{word}".
struct Address {
  std::string method;  ///< GET or POST
  std::string pattern;
};

/// What a page may load: a room only our own style and script; a printed page brings its style with
/// it and has no script; the practice page brings both.
enum class Policy { room, printed, practice };

struct Response {
  int status = 200;
  std::string type = "text/html; charset=utf-8";
  std::string body = {};
  std::string location = {};   ///< not empty: go there (303)
  std::string cookie = {};     ///< the value of Set-Cookie; may be empty
  std::string file_name = {};  ///< not empty: to be saved under this name, which is ours
  Policy policy = Policy::room;
};

/// "Go there": after a POST, so that going back or reloading does nothing twice.
Response see_other(std::string location);

}  // namespace footroom::desk
