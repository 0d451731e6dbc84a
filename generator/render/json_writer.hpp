#pragma once
// Writes JSON as it comes, without a tree in memory, byte for byte as nlohmann-json prints it with
// an indentation of one blank. Numbers and texts are the library's.

#include <string>
#include <string_view>
#include <vector>

namespace footroom::render {

class JsonWriter {
 public:
  JsonWriter() { out_.reserve(1 << 17); }

  void begin_object() { begin('{'); }
  void end_object() { end('}'); }
  void begin_array() { begin('['); }
  void end_array() { end(']'); }
  /// Within an object, before each value.
  void name(std::string_view name);

  void text(std::string_view text);
  void number(double number);
  void number(int number);
  void truth(bool is);

  void text(std::string_view under, std::string_view value) { name(under), text(value); }
  void number(std::string_view under, double value) { name(under), number(value); }
  void number(std::string_view under, int value) { name(under), number(value); }
  void truth(std::string_view under, bool is) { name(under), truth(is); }

  /// All that was written.
  std::string taken() { return std::move(out_); }

 private:
  void begin(char bracket);
  void end(char bracket);
  void before_value();
  void new_line(std::size_t depth);
  void quoted(std::string_view text);

  std::string out_;
  std::vector<char> empty_;  ///< whether nothing is in it yet, by open bracket
  bool named_ = false;
};

}  // namespace footroom::render
