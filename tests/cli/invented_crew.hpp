#pragma once
// A store of training records with an invented crew: entries 1 to 6 are employer, course, policy,
// Ana, Ben and Theo, who trains.

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "cli/program_run.hpp"

namespace footroom::cli::testing {

class InventedCrew : public ::testing::Test {
 protected:
  InventedCrew() {
    record({"init"});
    add({"add-employer", "Invented Roofing", "--place", "Sampletown"});
    add({"add-course", "fall-protection", "--english", "Fall protection", "--spanish",
         "Protección contra caídas"});
    add({"set-policy", "--employer", "Invented Roofing", "--course", "fall-protection",
         "--refresher-months", "12"});
    add({"add-person", "Ana Ejemplo", "--identity", "A-1", "--employer", "Invented Roofing"});
    add({"add-person", "Ben Sample", "--identity", "A-2", "--employer", "Invented Roofing"});
    add({"add-person", "Theo Trainer"});
  }
  Ran run(std::vector<std::string> words) const { return run_in(scratch.path, words); }
  /// What it printed; it must end well.
  std::string done(const std::vector<std::string>& words) const {
    const auto ran = run(words);
    EXPECT_EQ(ran.err, "");
    EXPECT_EQ(ran.code, 0);
    return ran.out;
  }
  void refused(const std::vector<std::string>& words, int code, const std::string& says) const {
    const auto ran = run(words);
    EXPECT_EQ(ran.err, says + "\n");
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(ran.code, code);
  }
  /// Words of a record command, with the store.
  static std::vector<std::string> of_record(std::vector<std::string> words) {
    words.insert(words.begin(), "record");
    words.insert(words.end(), {"--store", "records.db"});
    return words;
  }
  std::string record(const std::vector<std::string>& words) const { return done(of_record(words)); }
  /// A record command that writes.
  std::string add(std::vector<std::string> words) const {
    words.insert(words.end(), {"--date", "2026-03-04"});
    return record(words);
  }
  Scratch scratch;
};

}  // namespace footroom::cli::testing
