// Writes many sheets, keys, drawings and quiz.json, each kind into one file, so that programs that
// other compilers built, for other machines, can be compared. It has what makes and writes a quiz,
// and neither desk nor records, so that it can be built wherever a C++ compiler is.
//
// Usage: sheets BANK TEMPLATES FOLDER QUESTIONS
// At least so many questions, half of them in US units and English, half in SI units and Spanish
// with decimal commas: of these, half on sheets of the term test, which draws its items, half on
// sheets that ask every item of the bank. It fails where an item is not asked. The folder has to be
// there.

#include <algorithm>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <set>
#include <stdexcept>

#include "bank/read.hpp"
#include "quiz/maker.hpp"
#include "render/render.hpp"

namespace {

using namespace footroom;
using render::Face;

struct Kind {
  const char* name;
  notation::System system;
  notation::Style style;
  quiz::Paper paper;
};

const Kind kinds[] = {
    {"us-english", notation::System::us, {}, quiz::Paper::letter},
    {"si-spanish", notation::System::si, {engine::Language::spanish, ','}, quiz::Paper::a4},
};

class Written {
 public:
  Written(const std::filesystem::path& folder, const std::string& name)
      : folder_(folder), name_(name) {}

  void add(const std::string& ending, const std::string& text) {
    std::ofstream out(folder_ / (name_ + ending), std::ios::binary | std::ios::app);
    out << text;
    out.close();
    if (!out) throw std::runtime_error("cannot write " + (folder_ / (name_ + ending)).string());
  }

 private:
  std::filesystem::path folder_;
  std::string name_;
};

void write_face(Written& out, const render::Templates& templates, const quiz::Header& header,
                const quiz::Sheet& sheet, Face face) {
  const std::string which = face == Face::sheet ? "-sheets" : "-keys";
  out.add(which + ".md", render::markdown(templates, header, sheet, face));
  out.add(which + ".html", render::html_part(templates, header, sheet, face));
  for (const auto& question : sheet.questions)
    if (const auto& drawing = face == Face::sheet ? question.sheet_figure : question.key_figure)
      out.add(which + ".svg", render::svg_file(*drawing));
}

/// Sheets that have different items.
bank::Blueprint term_test(const bank::Bank& bank) {
  bank::Blueprint blueprint = bank.blueprints.at("term-test");
  blueprint.same_items = false;
  return blueprint;
}

/// Sheets that ask every item.
bank::Blueprint every_item(const bank::Bank& bank) {
  bank::Blueprint blueprint;
  blueprint.id = "every-item";
  blueprint.title = {"Every item", "Todas las preguntas", {}};
  blueprint.course = blueprint.title;
  for (const bank::Topic& topic : bank.topics) {
    bank::Section section;
    section.topic = topic.id;
    section.questions = static_cast<int>(
        std::count_if(bank.items.begin(), bank.items.end(),
                      [&](const bank::Item& item) { return item.topic == topic.id; }));
    blueprint.sections.push_back(section);
  }
  return blueprint;
}

/// Adds up what is asked.
class Asked {
 public:
  void add(const quiz::Sheet& sheet) {
    questions_ += static_cast<int>(sheet.questions.size());
    for (const auto& question : sheet.questions) items_.insert(question.item);
  }
  int questions() const { return questions_; }

  void require_every_item(const bank::Bank& bank, const std::string& where) const {
    for (const bank::Item& item : bank.items)
      if (!items_.contains(item.id))
        throw std::runtime_error("the item " + item.id + " is not asked in " + where);
  }

 private:
  int questions_ = 0;
  std::set<std::string> items_;
};

quiz::Settings settings_of(const Kind& kind) {
  quiz::Settings settings;
  settings.system = kind.system;
  settings.style = kind.style;
  settings.paper = kind.paper;
  settings.date = "2026-03-02";
  settings.program = "footroom";
  settings.sheets = 1000;
  settings.seed = 20260301;
  return settings;
}

/// Sheets of a quiz, until there are so many questions.
Asked write_quiz(Written& out, const render::Templates& templates, const quiz::Maker& maker,
                 int questions) {
  Asked asked;
  out.add(".json", render::json_start(maker.header()));
  for (int i = 0; asked.questions() < questions; ++i) {
    const quiz::Sheet sheet = maker.sheet(i);
    out.add(".json", render::json_sheet(sheet, i == 0));
    for (const Face face : {Face::sheet, Face::key})
      write_face(out, templates, maker.header(), sheet, face);
    asked.add(sheet);
  }
  out.add(".json", render::json_end());
  return asked;
}

int write(const bank::Bank& bank, const render::Templates& templates,
          const std::filesystem::path& folder, const Kind& kind, int questions) {
  const auto write_by = [&](const bank::Blueprint& blueprint, const std::string& name) {
    Written out(folder, name);
    const quiz::Maker maker(bank, blueprint, settings_of(kind));
    return write_quiz(out, templates, maker, questions / 2);
  };
  const std::string name = kind.name;
  const Asked drawn = write_by(term_test(bank), name + "-term-test");
  const Asked every = write_by(every_item(bank), name + "-every-item");
  every.require_every_item(bank, name);
  return drawn.questions() + every.questions();
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 5) {
    std::cerr << "Usage: sheets BANK TEMPLATES FOLDER QUESTIONS\n";
    return 2;
  }
  try {
    const bank::ReadBank read = bank::read_bank(arguments[1]);
    for (const auto& defect : read.defects) std::cerr << defect.text() << '\n';
    if (!read.defects.empty()) return 1;
    const render::Templates templates{std::filesystem::path(arguments[2])};
    int made = 0;
    for (const Kind& kind : kinds)
      made += write(read.bank, templates, arguments[3], kind, std::stoi(arguments[4]) / 2);
    std::cout << made << " questions\n";
    return 0;
  } catch (const std::exception& error) {
    std::cerr << error.what() << '\n';
    return 1;
  }
}
