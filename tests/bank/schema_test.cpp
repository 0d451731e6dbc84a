// Every file of the bank against bank.xsd, with xmllint (libxml2), and that it refuses what is
// wrong.

#include <gtest/gtest.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "bank/item_text.hpp"

namespace footroom::bank {
namespace {

namespace fs = std::filesystem;

const fs::path bank_folder = fs::path(FOOTROOM_SOURCE_DIR) / "questionbank";

struct Validation {
  int status;
  std::string output;
};

Validation validate(const std::vector<fs::path>& files) {
  std::string command =
      "xmllint --nonet --noout --schema '" + (bank_folder / "bank.xsd").string() + "'";
  for (const fs::path& file : files) command += " '" + file.string() + "'";
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  Validation made{};
  std::array<char, 4096> part{};
  while (const std::size_t size = std::fread(part.data(), 1, part.size(), pipe))
    made.output.append(part.data(), size);
  made.status = pclose(pipe);
  return made;
}

TEST(Schema, HoldsForEveryFileOfTheBank) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(bank_folder))
    if (entry.path().extension() == ".xml") files.push_back(entry.path());
  ASSERT_GE(files.size(), 5u);
  const Validation made = validate(files);
  EXPECT_EQ(made.status, 0) << made.output;
}

class Planted : public testing::TestWithParam<std::pair<const char*, const char*>> {};

TEST_P(Planted, FileIsRefused) {
  const auto [was, by] = GetParam();
  // A name of its own: the tests run side by side.
  const fs::path file =
      fs::path(testing::TempDir()) / ("footroom-planted-" + std::to_string(getpid()) + ".xml");
  std::ofstream(file) << tests::replaced(tests::small_item(), was, by);
  EXPECT_NE(validate({file}).status, 0) << was << " -> " << by;
  std::ofstream(file) << tests::small_item();
  const Validation sound = validate({file});
  EXPECT_EQ(sound.status, 0) << sound.output;
  fs::remove(file);
}

INSTANTIATE_TEST_SUITE_P(Schema, Planted,
                         testing::Values(std::pair("level=\"2\"", "level=\"5\""),
                                         std::pair("kind=\"number\"", "kind=\"x\""),
                                         std::pair("<es>Suma</es>", ""),
                                         std::pair("<es>Suma</es>", "<es> </es>"),
                                         std::pair("<step of", "<stpe of"),
                                         std::pair("name=\"whole\"", "name=\"part\""),
                                         std::pair("name=\"whole\"", "name=\"Whole\""),
                                         std::pair("from=\"1\"", "from=\"one\""),
                                         std::pair("places=\"1\"", "places=\"1\" plcaes=\"1\"")),
                         [](const auto& planted) { return std::to_string(planted.index); });

}  // namespace
}  // namespace footroom::bank
