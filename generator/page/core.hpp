#pragma once
// What the practice page asks of the program: one request in JSON, one reply in JSON. The page
// itself knows nothing about questions. Runs in the page as WebAssembly and natively in tests.
//
// Every request has "ask", "language", "units" and, may be, "decimal-mark" and "progress": the text
// of the last reply that had one. A reply is an object. Where what came in is refused it holds
// "error", a text for the student, in the language of the request unless "error-language" names
// another; where the program itself fails it holds "fault", a text for us. Members whose names end
// in "-html" are safe markup.

#include <memory>
#include <string>

namespace footroom::page {

class Core {
 public:
  /// `data` is what page_data() wrote. Throws nlohmann::json::exception where it is not.
  explicit Core(const std::string& data);
  ~Core();
  Core(Core&&) noexcept;

  /// Never throws for a request, whatever it holds.
  std::string ask(const std::string& request) const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace footroom::page
