// Makes a large store of invented people and measures what has to be quick on it. See README.md.

#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "records/store.hpp"

namespace {

using namespace footroom::records;
using Clock = std::chrono::steady_clock;

double milliseconds_since(Clock::time_point start) {
  return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

long peak_megabytes() {
  rusage usage{};
  ::getrusage(RUSAGE_SELF, &usage);
  return usage.ru_maxrss / 1024;
}

std::string count_salt() {
  static long count = 0;
  const std::string digits = std::to_string(++count);
  return std::string(64 - digits.size(), '0') + digits;
}

void measure(const char* what, int times, const std::function<void(int)>& act) {
  std::vector<double> taken;
  for (int i = 0; i < times; ++i) {
    const auto start = Clock::now();
    act(i);
    taken.push_back(milliseconds_since(start));
  }
  std::sort(taken.begin(), taken.end());
  std::printf("%-44s median %8.2f ms, longest %8.2f ms, peak memory %4ld MB\n", what,
              taken[taken.size() / 2], taken.back(), peak_megabytes());
  std::fflush(stdout);
}

}  // namespace

int main(int count, char** words) {
  if (count != 4) {
    std::fputs("Use: records_benchmark NEW-STORE PEOPLE RESULTS-A-PERSON\n", stderr);
    return 2;
  }
  const std::string location = words[1];
  const int people = std::atoi(words[2]);
  const int results = std::atoi(words[3]);
  const Date start = *read_date("2024-01-01");
  const auto day = [start](int number) {
    return Date(std::chrono::sys_days(start) + std::chrono::days(number));
  };

  Store::create(location);
  const auto store = Store::open(location, count_salt);
  const auto began = Clock::now();
  std::vector<Number> everyone;
  std::vector<Number> employers;
  Number course = 0;
  for (int site = 0; site < 200; ++site) {
    const auto writing = store->write(start);
    if (site == 0) course = writing->add(Course{"fall-protection", "Fall protection", ""});
    const Number employer = writing->add(Employer{"Invented Roofing " + std::to_string(site), ""});
    employers.push_back(employer);
    writing->add(Policy{employer, course, 12});
    for (int i = 0; i < people / 200; ++i) {
      const std::string name = std::to_string(site) + "-" + std::to_string(i);
      everyone.push_back(writing->add(Person{"Sample " + name, name, employer, {}}));
      // Training on days spread over two years, so that each day a few are due.
      if (i % 30 == 0) {
        const Number session = writing->add(Session{course, {day((site * 7 + i) % 730)}, {}, ""});
        for (int j = std::max(0, i - 29); j <= i; ++j)
          writing->add(Attendance{session, everyone[everyone.size() - 1 - (i - j)], true});
      }
      for (int j = 0; j < results; ++j) {
        Result result;
        result.person = everyone.back();
        result.quiz = "Q" + std::to_string(site) + "-" + std::to_string(j);
        result.day = day((site + j * 60) % 730);
        result.topics = {{"clearance", (i * 37 + j) % 301, 300}, {"swing", 100, 100}};
        if (i % 3 == 0) result.missed = {"clearance-below-d-ring"};
        writing->add(result);
      }
    }
    writing->commit();
  }
  std::printf("%d people, %ld results, %lld entries in %.0f s, %.0f MB, peak memory %ld MB\n",
              people, static_cast<long>(everyone.size()) * results,
              static_cast<long long>(store->head().number), milliseconds_since(began) / 1000,
              location.find("://") == std::string::npos
                  ? static_cast<double>(std::filesystem::file_size(location)) / 1e6
                  : 0.0,
              peak_megabytes());

  std::size_t due = 0;
  measure("open", 20, [&](int) { Store::open(location, count_salt); });
  measure("due list of one employer", 20, [&](int) {
    due = 0;
    store->each_due(day(500), employers[77], [&due](const Due&) { ++due; });
  });
  std::printf("  rows of it: %zu\n", due);
  measure("due list of all, first 1,000 rows", 20, [&](int) {
    struct Enough {};
    due = 0;
    try {
      store->each_due(day(900), {}, [&due](const Due&) {
        if (++due == 1000) throw Enough{};
      });
    } catch (const Enough&) {
    }
  });
  // A day on which about one in a hundred is due.
  measure("due list of all on an early day", 20, [&](int) {
    due = 0;
    store->each_due(day(373), {}, [&due](const Due&) { ++due; });
  });
  std::printf("  rows of it: %zu\n", due);
  measure("due list of all, everybody due", 1, [&](int) {
    due = 0;
    store->each_due(day(3000), {}, [&due](const Due&) { ++due; });
  });
  std::printf("  rows of it: %zu\n", due);
  measure("report of a person", 200, [&](int i) {
    store->report(everyone[(static_cast<std::size_t>(i) * 7919) % everyone.size()]);
  });
  measure("find a person by identity", 200,
          [&](int i) { store->find_people(std::to_string(i) + "-5"); });
  measure("add a session of 30 with 30 results", 50, [&](int i) {
    const auto writing = store->write(day(800));
    const Number session = writing->add(Session{course, {day(800)}, {}, ""});
    for (int j = 0; j < 30; ++j) {
      const auto person = everyone[(static_cast<std::size_t>(i) * 30 + j) % everyone.size()];
      writing->add(Attendance{session, person, true});
      Result result;
      result.person = person;
      result.quiz = "class-" + std::to_string(i);
      result.day = day(800);
      result.topics = {{"clearance", 100, 300}};
      writing->add(result);
    }
    writing->commit();
  });
  measure("verify everything", 1, [&](int) {
    if (const auto bad = store->verify({})) std::printf("BAD %s\n", bad->what.c_str());
  });
  measure("backup", 1, [&](int) { store->backup(location + ".backup"); });
  return 0;
}
