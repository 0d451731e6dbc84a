#include "tasks/earlier_quiz.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string_view>

#include "tasks/failure.hpp"

namespace footroom::tasks {
namespace {

using Json = nlohmann::json;

/// Follows where in the document a value stands, and takes what is needed.
class Taker : public nlohmann::json_sax<Json> {
 public:
  quiz::EarlierQuiz quiz;
  std::string wrong;  ///< the first thing that is

  bool null() override { return other(); }
  bool boolean(bool) override { return other(); }
  bool number_integer(number_integer_t number) override { return whole(number == 1); }
  bool number_unsigned(number_unsigned_t number) override { return whole(number == 1); }
  bool number_float(number_float_t number, const string_t&) override { return whole(number == 1); }
  bool binary(binary_t&) override { return other(); }

  bool string(string_t& text) override {
    if (at(format_path)) return other();
    if (at({"", "code"})) quiz.code = text;
    if (at({"", "date"})) quiz.date = text;
    if (at(item_path)) quiz.items.insert(text);
    return value_ended();
  }

  bool start_object(std::size_t) override { return open(false); }
  bool end_object() override { return close(); }
  bool start_array(std::size_t) override { return open(true); }
  bool end_array() override { return close(); }
  bool key(string_t& name) override {
    if (depth_ <= deepest) path_[depth_ - 1] = name;
    return true;
  }

  bool parse_error(std::size_t byte, const std::string&, const Json::exception&) override {
    return refuse("not well-formed JSON at byte " + std::to_string(byte) +
                  ", expected a whole quiz.json");
  }

  /// After the document: whether anything is missing.
  void finish() {
    if (!wrong.empty()) return;
    if (!has_format_)
      refuse("has no \"format\", expected the quiz.json of a quiz");
    else if (quiz.items.empty())
      refuse("names no item, expected sheets with questions");
  }

 private:
  using Path = std::vector<std::string_view>;
  static constexpr std::size_t deepest = 6;
  inline static const Path format_path{"", "format"};
  inline static const Path item_path{"", "sheets", "[", "questions", "[", "item"};

  /// Each level of nesting has its name in the level around it: the key, or "[" in an array; the
  /// document's own is empty.
  bool at(const Path& path) const {
    if (depth_ + 1 != path.size()) return false;
    for (std::size_t i = 0; i + 1 < path.size(); ++i)
      if (path_[i] != path[i + 1]) return false;
    return true;
  }

  bool refuse(std::string why) {
    if (wrong.empty()) wrong = std::move(why);
    return false;
  }

  bool whole(bool is_one) {
    if (!at(format_path)) return other();
    has_format_ = true;
    return is_one ||
           refuse("\"format\" is not 1, expected the quiz.json of this or an earlier version");
  }

  /// A value of a type that is not expected where something is taken.
  bool other() {
    if (at(format_path)) return refuse("\"format\" is no number, expected 1");
    if (at(item_path)) return refuse("an \"item\" is no text, expected the id of an item");
    if (at({"", "code"}) || at({"", "date"}))
      return refuse("\"code\" or \"date\" is no text, expected a text");
    return value_ended();
  }

  bool value_ended() {
    return depth_ > 0 || refuse("is one value, expected the quiz.json of a quiz");
  }

  bool open(bool array) {
    if (depth_ == 0 && array) return refuse("is a list, expected the quiz.json of a quiz");
    if (at(format_path) || at(item_path) || at({"", "code"}) || at({"", "date"})) return other();
    ++depth_;
    if (depth_ <= deepest) path_[depth_ - 1] = array ? "[" : "";
    return true;
  }

  bool close() {
    --depth_;
    return true;
  }

  std::size_t depth_ = 0;
  std::array<std::string, deepest> path_;
  bool has_format_ = false;
};

}  // namespace

quiz::EarlierQuiz read_earlier_quiz(std::istream& in, const std::string& file) {
  Taker taker;
  Json::sax_parse(in, &taker);
  taker.finish();
  if (!taker.wrong.empty()) throw Failure(ExitCode::input_faulty, file + ": " + taker.wrong);
  return std::move(taker.quiz);
}

quiz::EarlierQuiz read_earlier_quiz(const std::filesystem::path& file) {
  const auto cannot = [&file](int error) {
    return system_failure(file.string(), {"cannot read", "no se puede leer"}, error);
  };
  if (std::filesystem::is_directory(file)) throw cannot(EISDIR);
  std::ifstream in(file, std::ios::binary);
  if (!in) throw cannot(errno);
  return read_earlier_quiz(in, file.string());
}

std::vector<quiz::EarlierQuiz> read_earlier_quizzes(const std::vector<std::string>& files) {
  std::vector<quiz::EarlierQuiz> quizzes;
  for (auto file = files.rbegin(); file != files.rend(); ++file) {
    quiz::EarlierQuiz quiz = read_earlier_quiz(std::filesystem::path(*file));
    const bool known = std::any_of(quizzes.begin(), quizzes.end(), [&](const auto& other) {
      return other.code == quiz.code && other.date == quiz.date && other.items == quiz.items;
    });
    if (!known) quizzes.push_back(std::move(quiz));
  }
  const bool dated = std::none_of(quizzes.begin(), quizzes.end(),
                                  [](const auto& quiz) { return quiz.date.empty(); });
  if (dated)
    std::stable_sort(quizzes.begin(), quizzes.end(),
                     [](const auto& a, const auto& b) { return a.date > b.date; });
  return quizzes;
}

}  // namespace footroom::tasks
