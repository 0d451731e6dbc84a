#include "page/core.hpp"

#include <nlohmann/json.hpp>
#include <optional>
#include <vector>

#include "grade/characters.hpp"
#include "grade/json_reader.hpp"
#include "grade/marking.hpp"
#include "grade/names.hpp"
#include "practice/packed_bank.hpp"
#include "practice/result_file.hpp"
#include "practice/sitting.hpp"
#include "quiz/reference_box.hpp"
#include "render/practice_view.hpp"

namespace footroom::page {
namespace {

using Json = nlohmann::ordered_json;
using grade::JsonReader;
using practice::Face;
using practice::Progress;

/// A value in both languages, of the page's data.
std::string in_language(const Json& both, notation::Style style) {
  return both.at(static_cast<std::size_t>(style.language)).get<std::string>();
}

render::Labels labels_in(const Json& json) {
  render::Labels labels;
  for (const auto& [id, both] : json.items())
    labels.add(id, both.at(0).get<std::string>(), both.at(1).get<std::string>());
  return labels;
}

std::vector<std::string> words_in(const JsonReader& request, const std::string& name) {
  std::vector<std::string> words;
  if (request.has(name))
    for (const JsonReader& one : request.member(name).elements()) words.push_back(one.text());
  return words;
}

std::vector<int> levels_in(const JsonReader& request) {
  std::vector<int> levels;
  if (request.has("levels"))
    for (const JsonReader& one : request.member("levels").elements())
      levels.push_back(one.whole(1, 4));
  return levels;
}

std::uint64_t seed_in(const JsonReader& request) {
  // A number as text, since readers of JSON differ in how far they carry numbers.
  const std::string digits = request.text("seed");
  std::uint64_t seed = 0;
  for (const char digit : digits) {
    if (!grade::is_digit(digit)) request.refuse("has a seed that is no number");
    seed = 10 * seed + static_cast<std::uint64_t>(digit - '0');
    if (seed > practice::greatest_seed) request.refuse("has too great a seed");
  }
  return seed;
}

Face face_in(const JsonReader& request) {
  Face face;
  face.system = static_cast<notation::System>(request.choice("units", grade::system_names()));
  face.style.language =
      static_cast<engine::Language>(request.choice("language", grade::language_names()));
  if (request.has("decimal-mark"))
    face.style.decimal_mark =
        request.choice("decimal-mark", grade::decimal_mark_names()) == 0 ? '.' : ',';
  return face;
}

}  // namespace

struct Core::Parts {
  explicit Parts(const Json& data)
      : settings(data),
        bank(practice::unpacked(data.at("bank"))),
        labels(labels_in(data.at("labels"))),
        sitting(bank, bank.rules.begin()->first) {
    settings.erase("bank");
    settings.erase("labels");
  }

  Json settings;  ///< the rest of the page's data
  bank::Bank bank;
  render::Labels labels;
  practice::Sitting sitting;
};

namespace {

/// One request.
class Answering {
 public:
  Answering(const Json& settings, const render::Labels& labels, const practice::Sitting& sitting,
            const JsonReader& request)
      : settings_(settings),
        labels_(labels),
        sitting_(sitting),
        request_(request),
        face_(face_in(request)),
        progress_(sitting.begin()) {
    read_progress();
  }

  Json answer() {
    const std::string what = request_.text("ask");
    Json reply;
    if (what == "words")
      reply = words();
    else if (what == "topics")
      reply = topics();
    else if (what == "question")
      reply = question();
    else if (what == "current")
      reply = current();
    else if (what == "reading")
      reply = reading();
    else if (what == "mark")
      reply = mark();
    else if (what == "step")
      reply = step();
    else if (what == "bench")
      reply = bench();
    else if (what == "result")
      reply = result();
    else if (what == "forget")
      reply = {{"progress", ""}};
    else if (what == "new-sitting")
      reply = new_sitting();
    else
      request_.refuse("asks for the unknown " + what);
    if (dropped_) reply["progress-note"] = label("practice-dropped");
    return reply;
  }

 private:
  const std::string& label(std::string_view id) const {
    return labels_.at(id, face_.style.language);
  }

  void read_progress() {
    const std::string text = request_.text_or("progress", {});
    if (text.empty()) return;
    if (auto read = practice::read_progress(text, sitting_.bank(), sitting_.rules()))
      progress_ = std::move(*read);
    else
      dropped_ = true;
  }

  const practice::Open& open() const {
    if (!progress_.open) request_.refuse("no question stands open");
    return *progress_.open;
  }

  Json words() const {
    Json words = Json::object();
    for (const std::string& id : labels_.ids()) words[id] = label(id);
    return {{"words", std::move(words)},
            {"title", in_language(settings_.at("title"), face_.style)},
            {"caution-text", label("caution")},
            {"rules-title", in_language(settings_.at("rules-title"), face_.style)},
            {"course-title", in_language(settings_.at("course-title"), face_.style)},
            {"program", settings_.at("program")},
            {"languages", grade::language_names()},
            {"units", grade::system_names()},
            {"default-language", settings_.at("language")},
            {"default-units", settings_.at("units")},
            {"default-decimal-mark", settings_.at("decimal-mark")}};
  }

  Json sitting_counts() const {
    return {{"questions", progress_.sitting.size()}, {"right", progress_.right}};
  }

  Json topics() const {
    Json list = Json::array();
    int asked = 0;
    int right = 0;
    int returning = 0;
    for (const practice::TopicCount& topic : sitting_.topics(progress_, face_)) {
      asked += topic.asked;
      right += topic.right;
      returning += topic.returning;
      list.push_back({{"id", topic.id},
                      {"title", topic.title},
                      {"questions", topic.families},
                      {"asked", topic.asked},
                      {"right", topic.right},
                      {"due", topic.returning}});
    }
    Json levels = Json::array();
    const auto by_level = sitting_.levels(face_);
    for (std::size_t i = 0; i < by_level.size(); ++i)
      levels.push_back({{"level", i + 1},
                        {"title", label("level") + " " + std::to_string(i + 1)},
                        {"questions", by_level[i]}});
    return {{"topics", std::move(list)},
            {"levels", std::move(levels)},
            {"asked", asked},
            {"right", right},
            {"due", returning},
            {"asked-text", render::label_with(labels_, "practice-so-far", face_.style,
                                              std::to_string(asked), std::to_string(right))},
            {"sitting", sitting_counts()},
            {"can-save", !progress_.sitting.empty()},
            {"weeks", settings_.at("weeks")}};
  }

  Json question() {
    practice::Choice choice{words_in(request_, "topics"), levels_in(request_)};
    sitting_.next(progress_, choice, face_, seed_in(request_));
    Json shown = open_question();
    return {{"question", std::move(shown)}, {"progress", text_of(progress_)}};
  }

  Json open_question() const {
    const quiz::Made made = sitting_.open_question(progress_, face_.style);
    quiz::Settings settings;
    settings.system = open().asked.face.system;
    settings.style = face_.style;
    settings.rules = sitting_.rules();
    return render::practice_question(labels_, made.question,
                                     quiz::make_reference_box({made}, settings), open().returned,
                                     face_.style);
  }

  Json current() {
    if (!progress_.open) return {{"question", nullptr}, {"sitting", sitting_counts()}};
    Json reply{{"question", open_question()}, {"answered", open().answered}};
    Json steps = Json::array();
    const quiz::Question made =
        sitting_.open_question(progress_, face_.style, quiz::Figures::left_out).question;
    for (int i = 0; i < open().shown && i < static_cast<int>(made.steps.size()); ++i)
      steps.push_back(render::practice_step(made, static_cast<std::size_t>(i)));
    reply["steps"] = std::move(steps);
    if (open().answered)
      reply["feedback"] = render::practice_feedback(
          labels_, sitting_.mark(progress_, open().asked.typed, face_.style), face_.style);
    reply["sitting"] = sitting_counts();
    return reply;
  }

  Json reading() const {
    open();
    const quiz::Question made =
        sitting_.open_question(progress_, face_.style, quiz::Figures::left_out).question;
    return render::practice_reading(grade::mark(made, request_.text("typed"), {}, face_.style));
  }

  Json mark() {
    open();
    const auto marked = sitting_.mark(progress_, request_.text("typed"), face_.style);
    return {{"feedback", render::practice_feedback(labels_, marked, face_.style)},
            {"counted", marked.counted},
            {"sitting", sitting_counts()},
            {"progress", text_of(progress_)}};
  }

  Json step() {
    open();
    const quiz::Question made =
        sitting_.open_question(progress_, face_.style, quiz::Figures::left_out).question;
    Json shown;
    if (open().shown < static_cast<int>(made.steps.size()))
      shown = render::practice_step(made, sitting_.show_step(progress_, made, face_.style));
    return {{"step", std::move(shown)},
            {"left", static_cast<int>(made.steps.size()) - open().shown},
            {"progress", text_of(progress_)}};
  }

  static practice::BenchValues bench_values(const JsonReader& at) {
    practice::BenchValues values;
    for (const auto& [id, value] : at.members()) values.emplace(id, value.number());
    return values;
  }

  Json bench() const {
    practice::BenchValues values;
    if (request_.has("values")) values = bench_values(request_.member("values"));
    if (request_.has("values-units")) {
      const auto from =
          static_cast<notation::System>(request_.choice("values-units", grade::system_names()));
      if (from != face_.system) values = practice::bench_values_in(face_.system, values, from);
    }
    return render::practice_bench(
        labels_, practice::make_bench(sitting_.bank(), sitting_.rules(), face_, values),
        face_.style);
  }

  Json result() const {
    const practice::ResultFile file{progress_, request_.text_or("name", {}), request_.text("date"),
                                    settings_.at("program").get<std::string>()};
    return {{"file-name", "practice.json"},
            {"json", practice::result_json(file)},
            {"questions", progress_.sitting.size()}};
  }

  Json new_sitting() {
    sitting_.begin_anew(progress_);
    return {{"progress", text_of(progress_)}};
  }

  const Json& settings_;
  const render::Labels& labels_;
  const practice::Sitting& sitting_;
  const JsonReader& request_;
  Face face_;
  Progress progress_;
  bool dropped_ = false;
};

/// A refusal whose text is there in English only.
Json refused_in_english(const std::exception& refusal) {
  return {{"error", refusal.what()}, {"error-language", "en"}};
}

std::string text_of_reply(const Json& reply) {
  return reply.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

Core::Core(const std::string& data) : parts_(std::make_unique<Parts>(Json::parse(data))) {}
Core::~Core() = default;
Core::Core(Core&&) noexcept = default;

std::string Core::ask(const std::string& request) const {
  try {
    const nlohmann::json json = grade::parse_json(request, "request");
    const JsonReader reader(json, "request");
    return text_of_reply(
        Answering(parts_->settings, parts_->labels, parts_->sitting, reader).answer());
  } catch (const practice::CannotAsk& refusal) {
    return text_of_reply({{"error", refusal.what()}});
  } catch (const grade::FaultyFile& refusal) {
    return text_of_reply(refused_in_english(refusal));
  } catch (const quiz::CannotMake& refusal) {
    return text_of_reply(refused_in_english(refusal));
  } catch (const std::exception& fault) {
    return text_of_reply({{"fault", fault.what()}});
  }
}

}  // namespace footroom::page
