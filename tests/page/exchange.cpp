// Practises with the native core, for a comparison with the WebAssembly.
//
// Usage: page_exchange BANK TEMPLATES DATA-FILE QUESTIONS SEED
// Writes the page's data into DATA-FILE, and for each request that a student's page would send two
// lines to standard output: the request, and the SHA-256 of the reply. Languages, units and decimal
// marks take turns; answers are right, empty, wrong and unreadable in turn.
//
// Usage: page_exchange --ask DATA-FILE
// Writes the reply to each request of standard input, a line each.

#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "bank/digest.hpp"
#include "bank/read.hpp"
#include "page/core.hpp"
#include "page/page_data.hpp"
#include "render/practice_view.hpp"
#include "render/templates.hpp"

namespace {

using namespace footroom;
using Json = nlohmann::ordered_json;

std::string file_text(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

class Student {
 public:
  Student(const page::Core& core, std::uint64_t seed) : core_(core), seed_(seed) {}

  void practise(int questions) {
    for (int i = 0; i < questions; ++i) {
      face_ = i % 8;
      // Now and then all is forgotten, so that progress stays short and every seed is used.
      if (i % 40 == 0) progress_.clear();
      const Json question = ask({{"ask", "question"}, {"seed", std::to_string(seed_ + i)}});
      if (i % 5 == 0) {
        while (ask({{"ask", "step"}}).at("left") > 0) {
        }
      }
      const std::string typed = typed_for(question.at("question"), i);
      if (i % 7 == 0) ask({{"ask", "reading"}, {"typed", typed}});
      ask({{"ask", "mark"}, {"typed", typed}});
      if (i % 20 == 0) ask({{"ask", "topics"}});
      if (i % 20 == 1) ask({{"ask", "current"}});
    }
    ask({{"ask", "words"}});
    ask({{"ask", "result"}, {"name", "Ana \"Ejemplo\" <A-1>"}, {"date", "2026-03-02"}});
  }

 private:
  Json ask(Json request) {
    request["language"] = face_ & 1 ? "es" : "en";
    request["units"] = face_ & 2 ? "si" : "us";
    request["decimal-mark"] = face_ & 4 ? "comma" : "point";
    request["progress"] = progress_;
    const std::string text = request.dump();
    const std::string reply = core_.ask(text);
    std::cout << text << '\n' << bank::sha256(reply) << '\n';
    Json read = Json::parse(reply);
    if (read.contains("error") || read.contains("fault")) throw std::runtime_error(reply);
    if (read.contains("progress")) progress_ = read.at("progress").get<std::string>();
    return read;
  }

  static std::string typed_for(const Json& question, int i) {
    const bool number = question.at("kind") == "number";
    switch (i % 4) {
      case 0:
        return "";
      case 1:
        return number ? "12 1/2" : "B A C D";
      case 2:
        return number ? std::to_string(i % 50) + " ft" : "A";
      default:
        return number ? "12,5 m" : "A, B";
    }
  }

  const page::Core& core_;
  std::uint64_t seed_;
  std::string progress_;
  int face_ = 0;
};

}  // namespace

int main(int count, char** words) {
  const std::vector<std::string> arguments(words + 1, words + count);
  if (arguments.size() == 2 && arguments[0] == "--ask") {
    const page::Core core(file_text(arguments[1]));
    for (std::string line; std::getline(std::cin, line);) std::cout << core.ask(line) << '\n';
    return 0;
  }
  if (arguments.size() != 5) return 2;
  const bank::Bank bank = bank::read_bank(arguments[0]).bank;
  const std::string& templates = arguments[1];
  render::Labels labels = render::read_labels(templates + "/practice/labels.xml", {});
  const auto shared = render::read_labels(templates + "/labels.xml", render::labels_of_practice());
  for (const std::string& id : render::labels_of_practice())
    labels.add(id, shared.at(id, engine::Language::english),
               shared.at(id, engine::Language::spanish));
  const std::string data =
      page::page_data(bank, labels, {"us-construction", {}, {}, {}, {}, "test"});
  std::ofstream(arguments[2], std::ios::binary) << data;
  const page::Core core(data);
  Student(core, std::stoull(arguments[4])).practise(std::stoi(arguments[3]));
  return 0;
}
