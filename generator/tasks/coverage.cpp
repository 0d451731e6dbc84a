#include "tasks/coverage.hpp"

#include <algorithm>
#include <array>
#include <functional>

#include "grade/names.hpp"

namespace footroom::tasks {
namespace {

using Row = std::vector<std::string>;

/// 29 CFR 1926.503(a)(2)(i)-(viii), in short.
struct TrainingTopic {
  std::string_view id;
  engine::Text title;
};
constexpr std::array<TrainingTopic, 8> training_topics{{
    {"i", {"fall hazards in the work area", "los peligros de caída en el área de trabajo"}},
    {"ii",
     {"erecting, maintaining, disassembling and inspecting the systems",
      "armar, mantener, desarmar e inspeccionar los sistemas"}},
    {"iii",
     {"use and operation of the protection systems",
      "uso y funcionamiento de los sistemas de protección"}},
    {"iv",
     {"each worker's role in the safety monitoring system",
      "el papel de cada trabajador en el sistema de monitoreo de seguridad"}},
    {"v",
     {"limits on mechanical equipment on low-slope roofs",
      "los límites del equipo mecánico en techos de poca pendiente"}},
    {"vi",
     {"handling and storage of equipment and materials, overhead protection",
      "manejo y almacenamiento de equipo y materiales, protección superior"}},
    {"vii",
     {"workers' role in fall protection plans",
      "el papel de los trabajadores en los planes de protección contra caídas"}},
    {"viii", {"the standards of Subpart M", "las normas de la Subparte M"}},
}};

std::string count(const bank::Bank& bank, const std::function<bool(const bank::Item&)>& counts) {
  const auto found = std::count_if(bank.items.begin(), bank.items.end(), counts);
  return found == 0 ? "." : std::to_string(found);
}

std::string markdown_table(const std::vector<Row>& rows) {
  std::string all;
  const auto add = [&](const Row& row) {
    for (const std::string& cell : row) all += "| " + cell + " ";
    all += "|\n";
  };
  add(rows.front());
  add(Row(rows.front().size(), "---"));
  std::for_each(rows.begin() + 1, rows.end(), add);
  return all;
}

}  // namespace

std::string_view kind_name(bank::Kind kind) {
  return grade::kind_names().at(static_cast<std::size_t>(kind));
}

Coverage coverage_of(const bank::Bank& bank, engine::Language language) {
  const bool english = language == engine::Language::english;
  Coverage made;
  Row head{english ? "topic" : "tema", english ? "level" : "nivel"};
  const auto& kinds = grade::kind_names();
  head.insert(head.end(), kinds.begin(), kinds.end());
  head.emplace_back(english ? "all" : "todas");
  made.by_topic.push_back(std::move(head));
  for (const bank::Topic& topic : bank.topics)
    for (int level = 1; level <= 4; ++level) {
      const auto here = [&](const bank::Item& item) {
        return item.topic == topic.id && item.level == level;
      };
      Row row{topic.id, std::to_string(level)};
      for (const std::string& kind : kinds)
        row.push_back(count(bank, [&](const bank::Item& item) {
          return here(item) && kind_name(item.kind) == kind;
        }));
      row.push_back(count(bank, here));
      made.by_topic.push_back(std::move(row));
    }
  made.by_training.push_back({"(a)(2)",
                              english ? "training topic, 29 CFR 1926.503(a)(2)"
                                      : "tema de capacitación, 29 CFR 1926.503(a)(2)",
                              english ? "items" : "preguntas"});
  for (const TrainingTopic& topic : training_topics)
    made.by_training.push_back(
        {std::string(topic.id), std::string(topic.title.in(language)),
         count(bank, [&](const bank::Item& item) { return item.training == topic.id; })});
  return made;
}

std::string to_markdown(const Coverage& coverage) {
  return markdown_table(coverage.by_topic) + "\n" + markdown_table(coverage.by_training);
}

}  // namespace footroom::tasks
