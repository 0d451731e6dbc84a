#include "tasks/practice_page.hpp"

#include <algorithm>
#include <stdexcept>

#include "page/page_file.hpp"
#include "render/practice_view.hpp"
#include "render/templates.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"

namespace footroom::tasks {
namespace {

namespace fs = std::filesystem;

/// The words of the page: its own, and those that the core says.
render::Labels practice_labels(const fs::path& templates) {
  try {
    const render::Labels shared =
        render::read_labels(templates / "labels.xml", render::labels_of_practice());
    render::Labels labels = render::read_labels(templates / "practice" / "labels.xml", {});
    for (const std::string& id : render::labels_of_practice())
      if (!labels.add(id, shared.at(id, engine::Language::english),
                      shared.at(id, engine::Language::spanish)))
        throw std::runtime_error((templates / "practice" / "labels.xml").string() + ": label \"" +
                                 id + "\" stands in labels.xml too");
    return labels;
  } catch (const std::runtime_error& fault) {
    throw Failure(ExitCode::cannot_read_or_write, fault.what());
  }
}

}  // namespace

bool add_course(const bank::Course& course, page::PageSettings& settings) {
  settings.course = course.title;
  std::vector<std::string> taught;
  for (const bank::Week& week : course.weeks) {
    for (const bank::NewTopic& topic : week.topics)
      if (settings.topics.empty() || std::find(settings.topics.begin(), settings.topics.end(),
                                               topic.topic) != settings.topics.end())
        taught.push_back(topic.topic);
    if (!taught.empty()) settings.weeks.push_back({week.number, taught});
  }
  settings.topics = taught;
  return !taught.empty();
}

std::string practice_page(const bank::Bank& bank, const fs::path& templates, const fs::path& core,
                          const page::PageSettings& settings) {
  const fs::path own = templates / "practice";
  const std::string data = page::page_data(bank, practice_labels(templates), settings);
  try {
    return page::page_file({file_text(own / "page.html"), file_text(own / "page.css"),
                            file_text(own / "page.js"), file_text(core / "core.js"),
                            file_text(core / "core.wasm"), file_text(core / "notices.txt"), data});
  } catch (const std::runtime_error& fault) {
    if (dynamic_cast<const Failure*>(&fault)) throw;
    throw Failure(ExitCode::cannot_read_or_write, own.string() + ": " + fault.what());
  }
}

}  // namespace footroom::tasks
