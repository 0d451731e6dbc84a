// The stages of a sheet, one by one, beside the floor. See README.md.

#include <benchmark/benchmark.h>
#include <cmark.h>

#include <cstdlib>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "bank/read.hpp"
#include "quiz/compiled_item.hpp"
#include "quiz/maker.hpp"
#include "render/render.hpp"
#include "tasks/output_folder.hpp"

namespace {

using namespace footroom;
namespace fs = std::filesystem;

/// Invented seats of the weekly quiz, made once.
struct Sample {
  static constexpr int seats = 40;

  Sample() : bank(bank::read_bank(FOOTROOM_SOURCE_DIR "/questionbank").bank) {
    blueprint = bank.blueprints.at("weekly");
    settings.seed = 1;
    settings.sheets = seats;
    settings.date = "2026-01-05";
    maker.emplace(bank, blueprint, settings);
    for (int i = 0; i < seats; ++i) sheets.push_back(maker->sheet(i));
    for (const auto& question : sheets.front().questions)
      for (const auto& item : bank.items)
        if (item.id == question.item)
          items.push_back(std::make_unique<quiz::CompiledItem>(bank, item, settings));
  }

  bank::Bank bank;
  bank::Blueprint blueprint;
  quiz::Settings settings;
  std::optional<quiz::Maker> maker;
  std::vector<quiz::Sheet> sheets;
  std::vector<std::unique_ptr<quiz::CompiledItem>> items;
  render::Templates templates{FOOTROOM_SOURCE_DIR "/templates"};
};

const Sample& sample() {
  static const Sample made;
  return made;
}

/// Calls `act` with one seat after the other; an iteration is a seat.
template <class Act>
void each_seat(benchmark::State& state, Act act) {
  const Sample& from = sample();
  int seat = 0;
  for (auto _ : state) {
    act(from, seat);
    seat = (seat + 1) % Sample::seats;
  }
  state.SetItemsProcessed(state.iterations());
}

void draw_and_instantiate(benchmark::State& state) {
  each_seat(state, [](const Sample& from, int seat) {
    for (std::uint32_t position = 0; position < from.items.size(); ++position)
      benchmark::DoNotOptimize(from.items[position]->make(
          {1, static_cast<std::uint32_t>(seat), position, 0}, nullptr, quiz::Figures::left_out));
  });
}
BENCHMARK(draw_and_instantiate);

void draw_instantiate_and_figures(benchmark::State& state) {
  each_seat(state, [](const Sample& from, int seat) {
    benchmark::DoNotOptimize(from.maker->sheet(seat));
  });
}
BENCHMARK(draw_instantiate_and_figures);

void figures_as_svg(benchmark::State& state) {
  each_seat(state, [](const Sample& from, int seat) {
    for (const auto& question : from.sheets[static_cast<std::size_t>(seat)].questions)
      for (const auto* drawing : {&question.sheet_figure, &question.key_figure})
        if (*drawing) benchmark::DoNotOptimize(render::svg_file(**drawing));
  });
}
BENCHMARK(figures_as_svg);

template <class Write>
void both_faces(benchmark::State& state, Write write) {
  each_seat(state, [&](const Sample& from, int seat) {
    const quiz::Sheet& sheet = from.sheets[static_cast<std::size_t>(seat)];
    for (const auto face : {render::Face::sheet, render::Face::key})
      benchmark::DoNotOptimize(write(from.templates, from.maker->header(), sheet, face));
  });
}

void markdown(benchmark::State& state) {
  both_faces(state, render::markdown);
}
BENCHMARK(markdown);

void html(benchmark::State& state) {
  both_faces(state, render::html_page);
}
BENCHMARK(html);

void all_pages_at_once(benchmark::State& state) {
  both_faces(state, render::face_pages);
}
BENCHMARK(all_pages_at_once);

void quiz_json(benchmark::State& state) {
  each_seat(state, [](const Sample& from, int seat) {
    benchmark::DoNotOptimize(
        render::json_sheet(from.sheets[static_cast<std::size_t>(seat)], false));
  });
}
BENCHMARK(quiz_json);

/// The pages of a seat under the names that they have.
std::vector<std::pair<std::string, std::string>> files_of(const Sample& from, int seat) {
  const quiz::Sheet& sheet = from.sheets[static_cast<std::size_t>(seat)];
  std::vector<std::pair<std::string, std::string>> files;
  for (const auto face : {render::Face::sheet, render::Face::key}) {
    const std::string name = face == render::Face::sheet ? "sheet-" : "key-";
    auto pages = render::face_pages(from.templates, from.maker->header(), sheet, face);
    files.emplace_back(name + sheet.seat + ".md", std::move(pages.markdown));
    files.emplace_back(name + sheet.seat + ".html", std::move(pages.html_page));
    for (auto& figure : pages.figures)
      files.emplace_back("figures/" + name + sheet.seat + std::to_string(figure.question) + ".svg",
                         std::move(figure.svg));
  }
  return files;
}

void writing(benchmark::State& state) {
  const auto files = files_of(sample(), 0);
  const fs::path target = fs::temp_directory_path() / "footroom-benchmark";
  const tasks::OutputFolder out(target, [](const std::string&) { return true; });
  out.folder("figures");
  for (auto _ : state)
    for (const auto& [name, bytes] : files) out.write(name, bytes);
  state.SetItemsProcessed(state.iterations());
}
BENCHMARK(writing);

void floor_markdown_by_cmark(benchmark::State& state) {
  std::vector<std::string> pages;
  for (int seat = 0; seat < Sample::seats; ++seat)
    for (const auto face : {render::Face::sheet, render::Face::key})
      pages.push_back(render::markdown(sample().templates, sample().maker->header(),
                                       sample().sheets[static_cast<std::size_t>(seat)], face));
  std::size_t next = 0;
  for (auto _ : state)
    for (int face = 0; face < 2; ++face) {
      const std::string& page = pages[next];
      next = (next + 1) % pages.size();
      char* html = cmark_markdown_to_html(page.data(), page.size(), CMARK_OPT_SAFE);
      benchmark::DoNotOptimize(html);
      std::free(html);
    }
  state.SetItemsProcessed(state.iterations());
}
BENCHMARK(floor_markdown_by_cmark);

}  // namespace

BENCHMARK_MAIN();
