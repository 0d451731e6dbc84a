#include "desk/folder.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <fstream>
#include <nlohmann/json.hpp>
#include <regex>
#include <system_error>
#include <utility>

#include "grade/names.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/output_folder.hpp"
#include "tasks/roster.hpp"

namespace footroom::desk {
namespace {

namespace fs = std::filesystem;
using nlohmann::ordered_json;
using tasks::ExitCode;
using tasks::Failure;

constexpr int highest_number = 999'999;

std::string name_of(int number) {
  return fmt::format("{:04}", number);
}

/// The numbers of the folders in `folder` that are named as name_of() names them.
std::vector<int> numbers_in(const fs::path& folder) {
  std::vector<int> numbers;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(folder, error)) {
    const std::string name = entry.path().filename().string();
    if (name.size() > 6 || name.find_first_not_of("0123456789") != std::string::npos) continue;
    const int number = std::stoi(name);
    if (number > 0 && name == name_of(number)) numbers.push_back(number);
  }
  std::sort(numbers.begin(), numbers.end());
  return numbers;
}

/// A fresh folder with the next number. Two at once cannot get the same one.
int make_next(const fs::path& folder) {
  fs::create_directories(folder);
  const auto numbers = numbers_in(folder);
  for (int number = numbers.empty() ? 1 : numbers.back() + 1; number <= highest_number; ++number)
    if (fs::create_directory(folder / name_of(number))) return number;
  throw Failure(ExitCode::cannot_read_or_write, folder.string() + ": is full");
}

ordered_json read_json(const fs::path& file) {
  const auto json = ordered_json::parse(tasks::file_text(file), nullptr, false);
  if (json.is_discarded() || !json.is_object())
    throw Failure(ExitCode::input_faulty, file.string() + ": is no JSON object");
  return json;
}

std::string text_in(const ordered_json& json, const char* name, const std::string& otherwise) {
  const auto found = json.find(name);
  return found != json.end() && found->is_string() ? found->get<std::string>() : otherwise;
}

bool is_second(const ordered_json& json, const char* name, const std::vector<std::string>& names) {
  return text_in(json, name, names.at(0)) == names.at(1);
}

const std::vector<std::string>& paper_names() {
  static const std::vector<std::string> names{"letter", "a4"};
  return names;
}

std::string whole_text(const ordered_json& json) {
  return json.dump(2) + "\n";
}

}  // namespace

Folder::Folder(const fs::path& path) : path_(fs::absolute(path)) {
  std::error_code error;
  fs::create_directories(path_, error);
  if (error)
    throw Failure(ExitCode::cannot_read_or_write,
                  path_.string() + ": cannot make the folder: " + error.message());
  ::chmod(path_.c_str(), 0700);  // it names people
  lock_ = ::open((path_ / "desk.lock").c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
  if (lock_ < 0)
    throw Failure(ExitCode::cannot_read_or_write,
                  path_.string() + ": cannot write: " + std::generic_category().message(errno));
  if (::flock(lock_, LOCK_EX | LOCK_NB) != 0) {
    ::close(lock_);
    throw Failure(ExitCode::cannot_read_or_write,
                  path_.string() + ": another desk has this folder open");
  }
  remove_leftovers();
}

/// What a desk that was killed had begun to write, and nothing else.
void Folder::remove_leftovers() const {
  const auto clear = [](const fs::path& folder) {
    std::error_code error;
    for (const auto& entry : fs::directory_iterator(folder, error)) {
      const std::string name = entry.path().filename().string();
      static const std::regex begun(".+\\.partial-[A-Za-z0-9]{6}(-wal|-shm|-journal)?");
      if (std::regex_match(name, begun)) fs::remove_all(entry.path(), error);
    }
  };
  clear(path_);
  clear(path_ / "classes");
  for (const int number : numbers_in(path_ / "quizzes")) {
    std::error_code error;
    clear(quiz_folder(number));
    clear(quiz(number));
    fs::remove(quiz_folder(number), error);  // only where empty: nobody was told of it
  }
  for (const int number : numbers_in(path_ / "classes")) {
    std::error_code error;
    fs::remove(class_folder(number), error);
  }
}

Folder::~Folder() {
  std::error_code ignored;
  for (const auto& entry : fs::directory_iterator(path_, ignored))
    if (entry.path().filename().string().starts_with("download-"))
      fs::remove(entry.path(), ignored);
  fs::remove(path_ / "desk.address", ignored);
  ::close(lock_);
}

int Folder::port_before() const {
  int port = 0;
  std::ifstream(path_ / "desk.port") >> port;
  return port >= 1024 && port <= 65'535 ? port : 0;
}

void Folder::write_port(int port) const {
  tasks::write_whole_file(path_ / "desk.port", std::to_string(port) + "\n");
}

void Folder::write_address(const std::string& address) const {
  tasks::write_whole_file(path_ / "desk.address", address + "\n");
  ::chmod((path_ / "desk.address").c_str(), 0600);
}

std::optional<std::string> Folder::open_address(const fs::path& path) {
  const int lock = ::open((path / "desk.lock").c_str(), O_RDWR | O_CLOEXEC);
  if (lock < 0) return std::nullopt;
  const bool taken = ::flock(lock, LOCK_EX | LOCK_NB) != 0;
  ::close(lock);
  if (!taken || !fs::exists(path / "desk.address")) return std::nullopt;
  std::string address = tasks::file_text(path / "desk.address");
  address.erase(address.find_last_not_of('\n') + 1);
  return address;
}

std::optional<Preferences> Folder::preferences() const {
  const auto file = path_ / "preferences.json";
  if (!fs::exists(file)) return std::nullopt;
  const auto json = read_json(file);
  Preferences preferences;
  if (is_second(json, "language", grade::language_names()))
    preferences.style.language = engine::Language::spanish;
  if (is_second(json, "units", grade::system_names())) preferences.system = notation::System::si;
  if (is_second(json, "decimal-mark", grade::decimal_mark_names()))
    preferences.style.decimal_mark = ',';
  if (is_second(json, "paper", paper_names())) preferences.paper = quiz::Paper::a4;
  preferences.rules = text_in(json, "rules", preferences.rules);
  preferences.course = text_in(json, "course", preferences.course);
  return preferences;
}

void Folder::write(const Preferences& preferences) const {
  const auto pick = [](const std::vector<std::string>& names, bool second) {
    return names.at(second ? 1 : 0);
  };
  tasks::write_whole_file(
      path_ / "preferences.json",
      whole_text(
          {{"language",
            pick(grade::language_names(), preferences.style.language == engine::Language::spanish)},
           {"units", pick(grade::system_names(), preferences.system == notation::System::si)},
           {"decimal-mark",
            pick(grade::decimal_mark_names(), preferences.style.decimal_mark == ',')},
           {"paper", pick(paper_names(), preferences.paper == quiz::Paper::a4)},
           {"rules", preferences.rules},
           {"course", preferences.course}}));
}

fs::path Folder::class_folder(int number) const {
  return path_ / "classes" / name_of(number);
}

fs::path Folder::quiz_folder(int number) const {
  return path_ / "quizzes" / name_of(number);
}

std::vector<SchoolClass> Folder::classes() const {
  std::vector<SchoolClass> all;
  for (const int number : numbers_in(path_ / "classes"))
    if (auto one = school_class(number)) all.push_back(std::move(*one));
  return all;
}

std::optional<SchoolClass> Folder::school_class(int number) const {
  const auto folder = class_folder(number);
  if (number < 1 || number > highest_number || !fs::exists(folder / "class.json"))
    return std::nullopt;
  SchoolClass one{number, text_in(read_json(folder / "class.json"), "title", "")};
  try {
    auto roster = tasks::read_roster(folder / "roster.csv");
    one.names = std::move(roster.names);
    one.accommodations = std::move(roster.accommodations);
    one.faults = std::move(roster.defects);
    one.faults.insert(one.faults.end(), roster.notes.begin(), roster.notes.end());
  } catch (const tasks::FaultyRow& faulty) {
    one.faults = {faulty.fault};
  }
  return one;
}

int Folder::add(const SchoolClass& fresh) const {
  SchoolClass numbered = fresh;
  numbered.number = make_next(path_ / "classes");
  write(numbered);
  return numbered.number;
}

void Folder::write(const SchoolClass& changed) const {
  auto accommodations = changed.accommodations;
  accommodations.resize(changed.names.size());
  tasks::OutputFolder out(class_folder(changed.number), [](const std::string& name) {
    return name == "class.json" || name == "roster.csv";
  });
  out.write("class.json", whole_text({{"title", changed.title}}));
  out.write("roster.csv", tasks::roster_csv(changed.names, accommodations));
  out.publish();
}

std::vector<int> Folder::quizzes() const {
  std::vector<int> all = numbers_in(path_ / "quizzes");
  std::erase_if(all, [this](int number) { return !has_quiz(number); });
  std::reverse(all.begin(), all.end());
  return all;
}

bool Folder::has_quiz(int number) const {
  return number > 0 && number <= highest_number && fs::exists(quiz(number) / "quiz.json");
}

std::vector<int> Folder::unfinished_quizzes() const {
  std::vector<int> all = numbers_in(path_ / "quizzes");
  std::erase_if(all, [this](int number) { return !is_unfinished(number); });
  std::reverse(all.begin(), all.end());
  return all;
}

bool Folder::is_unfinished(int number) const {
  return number > 0 && number <= highest_number && !has_quiz(number) &&
         fs::exists(made_for_file(number));
}

int Folder::add_quiz(const MadeFor& made_for) const {
  const int number = make_next(path_ / "quizzes");
  write(number, made_for);
  return number;
}

void Folder::tell_failed(int number, const engine::Wording& why) const {
  MadeFor for_whom = made_for(number);
  for_whom.failed = why;
  write(number, for_whom);
}

void Folder::forget_unfinished(int number) const {
  if (!is_unfinished(number)) return;
  fs::remove(made_for_file(number));
  fs::remove(quiz_folder(number));
}

void Folder::write(int quiz, const MadeFor& made_for) const {
  ordered_json json{{"class", made_for.class_number}, {"date", made_for.date}};
  if (!made_for.failed.empty())
    json["failed"] = {{"en", made_for.failed.english}, {"es", made_for.failed.spanish}};
  tasks::write_whole_file(made_for_file(quiz), whole_text(json));
}

MadeFor Folder::made_for(int number) const {
  const auto json = read_json(made_for_file(number));
  MadeFor made_for;
  if (const auto found = json.find("class"); found != json.end() && found->is_number_integer())
    made_for.class_number = found->get<int>();
  made_for.date = text_in(json, "date", "");
  if (const auto found = json.find("failed"); found != json.end() && found->is_object())
    made_for.failed = {text_in(*found, "en", ""), text_in(*found, "es", "")};
  return made_for;
}

fs::path Folder::made_for_file(int number) const {
  return quiz_folder(number) / "made-for.json";
}

fs::path Folder::quiz(int number) const {
  return quiz_folder(number) / "quiz";
}

fs::path Folder::graded(int number) const {
  return quiz_folder(number) / "graded";
}

}  // namespace footroom::desk
