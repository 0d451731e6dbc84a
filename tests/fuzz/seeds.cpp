// Usage: fuzz_seeds TARGET FOLDER
// Writes inputs of a target to begin with: from the project's own files, and what the program
// makes.

#include <set>

#include "fuzz/bank_files.hpp"
#include "fuzz/page_core.hpp"
#include "fuzz/pages.hpp"
#include "tasks/csv_rows.hpp"
#include "tasks/examples.hpp"

namespace footroom::fuzz {
namespace {

namespace fs = std::filesystem;

std::vector<std::string> texts_of(const fs::path& folder) {
  std::vector<std::string> texts;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file()) texts.push_back(file_text(entry.path()));
  return texts;
}

std::vector<std::string> formulas() {
  std::set<std::string> all;
  for (const auto& item : the_bank().items) {
    for (const auto& derivation : item.derivations) {
      if (derivation.let) all.insert(derivation.let->value.text);
      if (derivation.calculation)
        for (const auto& argument : derivation.calculation->arguments)
          all.insert(argument.value.text);
    }
    for (const auto& keep : item.keeps) all.insert(keep.text);
    for (const auto& option : item.options) all.insert(option.right.text);
    for (const auto& mistake : item.mistakes)
      if (mistake.value) all.insert(mistake.value->text);
  }
  for (const auto* calculation : engine::catalogue())
    for (const auto& step : calculation->steps) {
      all.emplace(step.formula);
      all.emplace(step.when);
    }
  return {all.begin(), all.end()};
}

std::vector<std::string> typed_answers() {
  std::vector<std::string> all;
  for (const auto& row : tasks::read_csv(file_text(project() / "tests/grade/typed_answers.csv")))
    if (row.fields.size() > 2) all.push_back(row.fields[2]);
  return all;
}

/// One question each, so that inputs stay small.
std::vector<std::string> quizzes() {
  std::vector<std::string> all;
  for (const auto& question : the_quiz().sheets.front().questions) {
    auto quiz = the_quiz();
    quiz.sheets.resize(1);
    quiz.sheets.front().questions = {question};
    all.push_back(json_text(quiz));
  }
  return all;
}

std::vector<std::string> calculations() {
  std::vector<std::string> all;
  for (const auto* calculation : engine::catalogue())
    for (const auto system : {notation::System::us, notation::System::si}) {
      std::string one(calculation->id);
      for (const auto& word : tasks::example_words(calculation->id, system)) one += "\n" + word;
      all.push_back(one);
    }
  return all;
}

/// A student's way through the page; `progress` afterwards, and the result that was saved.
struct Way {
  std::string requests;
  std::string progress;
  std::string result;
};
Way way_through_the_page(std::uint64_t seed) {
  const std::vector<std::string> asked{
      R"({"ask": "question", "seed": ")" + std::to_string(seed) + R"("})", R"({"ask": "step"})",
      R"({"ask": "mark", "typed": "12 ft 6 in"})", R"({"ask": "mark", "typed": "B, A"})",
      R"({"ask": "result", "name": "Ana Ejemplo", "date": "2026-03-02"})"};
  Way way;
  for (const auto& text : asked) {
    auto request = nlohmann::json::parse(text);
    request["language"] = seed % 2 ? "es" : "en";
    request["units"] = seed % 3 ? "us" : "si";
    way.requests += request.dump() + "\n";
    request["progress"] = way.progress;
    const auto reply = nlohmann::json::parse(the_core().ask(request.dump()));
    if (reply.contains("progress")) way.progress = reply.at("progress").get<std::string>();
    if (reply.contains("json")) way.result = reply.at("json").get<std::string>();
  }
  return way;
}

std::vector<std::string> page_requests() {
  std::vector<std::string> all;
  for (std::uint64_t seed = 0; seed < 12; ++seed)
    all.push_back(way_through_the_page(seed).requests);
  for (const char* ask : {"words", "topics", "current", "reading", "forget", "new-sitting"})
    all.push_back(R"({"language": "en", "units": "us", "ask": ")" + std::string(ask) + "\"}\n");
  all.push_back(
      R"({"language": "en", "units": "us", "ask": "bench", "values": {"slack": 4, "offset": 6}})");
  all.push_back(R"({"language": "es", "units": "si", "decimal-mark": "comma", "ask": "bench", )"
                R"("values": {"slack": 4}, "values-units": "us"})");
  return all;
}

std::vector<std::string> practices() {
  std::vector<std::string> all;
  for (std::uint64_t seed = 0; seed < 6; ++seed) {
    const Way way = way_through_the_page(seed);
    all.push_back(way.progress);
    all.push_back(way.result);
  }
  return all;
}

std::vector<std::string> bank_files() {
  std::vector<std::string> all;
  for (const char* place : {"blueprints", "courses", "rules", "pools"})
    for (const auto& text : texts_of(project() / "questionbank" / place))
      all.push_back(std::string(place) + "/file.xml\n" + text);
  for (const char* place : {"topics.xml", "trade-terms.xml"})
    all.push_back(std::string(place) + "\n" + file_text(project() / "questionbank" / place));
  return all;
}

std::vector<std::string> inputs_of(const std::string& target) {
  if (target == "item") return texts_of(project() / "questionbank/items");
  if (target == "formula") return formulas();
  if (target == "quantity") return typed_answers();
  if (target == "quiz") return quizzes();
  if (target == "calculation") return calculations();
  if (target == "page") return page_requests();
  if (target == "practice") return practices();
  if (target == "bank") return bank_files();
  if (target == "responses")
    return {file_text(project() / "tests/golden/us-english/responses.csv"),
            "puesto;nombre;1;2;3\r\nA;Ana Ejemplo;12,5 pies;B;\"A, C\"\r\nB;;6 M;;2\r\n",
            "seat,code,1,2,9\nA,wrong,\"12' 6\"\"\",about 3 m,x\nA,,1,2,\nZ,,,,\n",
            "seat,name,code,1,2,3,4,5\r\nB,'=1+2,T3NJE-B,-7.5 ft,C,B,\"1 B, 2 A\",yes\r\n"};
  if (target == "roster")
    return {file_text(project() / "questionbank/demo/invented-class.csv"),
            "Nombre;Idioma;Letra grande;Sin figuras;Tiempo extra\n"
            "Ana Ejemplo;español;sí;no;25%\n",
            "\xef\xbb\xbf"
            "crew,name,extra time\r\n1,\"O'Sample, \"\"Kit\"\"\",15 min\r\n2,=1+2,x\r\n"};
  if (target == "code")
    return {"T3NJE-A", "t3nje-b", "2026-11-26", "2.75", "12:" + std::string(64, '0')};
  if (target == "records")
    return {
        "people csv\nidentity,name,employer,left\r\nA-1,Ana Ejemplo,Invented Roofing,\r\n"
        "A-2,\"Sample, Ben\",,2026-01-31\r\n",
        "people json\n[{\"identity\": \"A-1\", \"name\": \"Ana Ejemplo\"}]",
        "results csv\nidentity,name,employer,quiz,date,occasion,topics,missed\r\n"
        "A-1,,,R8WD3,2026-11-25,test,clearance=2.5/3 swing=1/1,fall-over-the-rake\r\n",
        "results json\n[{\"identity\": \"A-1\", \"quiz\": \"R8WD3\", \"date\": "
        "\"2026-11-25\", \"occasion\": \"practice\", \"topics\": \"swing=0/2\"}]"};
  const std::string parts =
      "--invented\r\nContent-Disposition: form-data; name=\"names\"; filename=\"class.csv\"\r\n"
      "Content-Type: text/csv\r\n\r\nname\r\nAna Ejemplo\r\n\r\n--invented--\r\n";
  if (target == "form")
    return {"application/x-www-form-urlencoded\nname=Ana+Ejemplo&date=2026-11-26&week=%34",
            "multipart/form-data; boundary=invented\n" + parts};
  if (target == "gate")
    return {
        "GET /quizzes?week=4 HTTP/1.1\r\nHost: 127.0.0.1:8640\r\nCookie: desk=0\r\n"
        "Accept-Language: es\r\nAccept-Encoding: gzip\r\n\r\n",
        "POST /classes HTTP/1.1\r\nHost: 127.0.0.1:8640\r\nOrigin: http://127.0.0.1:8640\r\n"
        "Content-Type: multipart/form-data; boundary=invented\r\nContent-Length: " +
            std::to_string(parts.size()) + "\r\n\r\n" + parts,
        "POST / HTTP/1.0\r\nHost: desk\r\nContent-Type: application/x-www-form-urlencoded\r\n"
        "Content-Length: 3\r\n\r\na=1",
        "GET /%0a HTTP/1.1\r\nHost: desk\r\n\r\n",
        "HEAD / HTTP/1.1\r\nhost: x\r\nRange: bytes=0-1\r\nTransfer-Encoding: chunked\r\n\r\n"};
  throw std::runtime_error(target + " is no target");
}

}  // namespace
}  // namespace footroom::fuzz

int main(int count, char** words) {
  if (count != 3) return 2;
  const std::filesystem::path folder = words[2];
  std::filesystem::create_directories(folder);
  int number = 0;
  for (const auto& input : footroom::fuzz::inputs_of(words[1]))
    std::ofstream(folder / ("seed-" + std::to_string(++number)), std::ios::binary) << input;
  return 0;
}
