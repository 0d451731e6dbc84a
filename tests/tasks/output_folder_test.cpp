#include "tasks/output_folder.hpp"

#include <gtest/gtest.h>

#include "cli/program_run.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"

namespace footroom::tasks {
namespace {

using cli::testing::contents_below;
using cli::testing::put;
using cli::testing::Scratch;
using Files = std::map<std::string, std::string>;

bool is_ours(const std::string& path) {
  return path.ends_with(".txt");
}

std::vector<std::string> names_in(const std::filesystem::path& folder) {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

void write_two(OutputFolder& out) {
  out.folder("inner");
  out.write("a.txt", "new");
  out.write("inner/b.txt", "new");
}

TEST(OutputFolder, AppearsAsAWhole) {
  const Scratch scratch;
  const auto target = scratch.path / "x" / "out";
  OutputFolder out(target, is_ours);
  write_two(out);
  EXPECT_FALSE(std::filesystem::exists(target));
  out.publish();
  EXPECT_EQ(contents_below(target), (Files{{"a.txt", "new"}, {"inner/b.txt", "new"}}));
  EXPECT_EQ(names_in(scratch.path / "x"), (std::vector<std::string>{"out"}));
}

TEST(OutputFolder, LeavesNoTraceWhenItIsNotPublished) {
  const Scratch scratch;
  {
    OutputFolder out(scratch.path / "x" / "y" / "out", is_ours);
    write_two(out);
  }
  EXPECT_TRUE(names_in(scratch.path).empty());
}

TEST(OutputFolder, ReplacesAnEarlierRun) {
  const Scratch scratch;
  const auto target = scratch.path / "out";
  put(target / "a.txt", "old");
  put(target / "stale.txt", "old");
  OutputFolder out(target, is_ours);
  write_two(out);
  EXPECT_EQ(contents_below(target), (Files{{"a.txt", "old"}, {"stale.txt", "old"}}));
  out.publish();
  EXPECT_EQ(contents_below(target), (Files{{"a.txt", "new"}, {"inner/b.txt", "new"}}));
  EXPECT_EQ(names_in(scratch.path), (std::vector<std::string>{"out"}));
}

TEST(OutputFolder, KeepsFilesOfOthers) {
  const Scratch scratch;
  const auto target = scratch.path / "out";
  put(target / "a.txt", "old");
  put(target / "stale.txt", "old");
  put(target / "inner" / "photo.jpg", "mine");
  OutputFolder out(target, is_ours);
  write_two(out);
  out.publish();
  EXPECT_EQ(contents_below(target),
            (Files{{"a.txt", "new"}, {"inner/b.txt", "new"}, {"inner/photo.jpg", "mine"}}));
  EXPECT_EQ(names_in(scratch.path), (std::vector<std::string>{"out"}));
}

TEST(OutputFolder, PutsEverythingBackWhenAFileCannotTakeItsPlace) {
  const Scratch scratch;
  const auto target = scratch.path / "out";
  put(target / "a.txt", "old");
  put(target / "inner" / "b.txt" / "photo.jpg", "mine");
  const auto before = contents_below(target);
  std::string told;
  {
    OutputFolder out(target, is_ours);
    write_two(out);
    try {
      out.publish();
    } catch (const Failure& failure) {
      EXPECT_EQ(failure.code, ExitCode::cannot_read_or_write);
      told = failure.what();
    }
  }
  EXPECT_EQ(told,
            (target / "inner/b.txt").string() + ": is in the way, expected a file or nothing");
  EXPECT_EQ(contents_below(target), before);
  EXPECT_EQ(names_in(scratch.path), (std::vector<std::string>{"out"}));
}

TEST(OutputFolder, FollowsALinkAndKeepsThePermissions) {
  const Scratch scratch;
  const auto target = scratch.path / "out";
  put(target / "a.txt", "old");
  std::filesystem::permissions(target, std::filesystem::perms::owner_all);
  std::filesystem::create_directory_symlink(target, scratch.path / "link");
  OutputFolder out(scratch.path / "link" / "", is_ours);
  write_two(out);
  out.publish();
  EXPECT_TRUE(std::filesystem::is_symlink(scratch.path / "link"));
  EXPECT_EQ(contents_below(target), (Files{{"a.txt", "new"}, {"inner/b.txt", "new"}}));
  EXPECT_EQ(std::filesystem::status(target).permissions(), std::filesystem::perms::owner_all);
}

TEST(WholeFile, ReplacesOneFileAndLooksAtNoOther) {
  const Scratch scratch;
  put(scratch.path / "note", "old");
  std::filesystem::create_symlink("nowhere", scratch.path / "broken");
  write_whole_file(scratch.path / "note", "new");
  write_whole_file(scratch.path / "x" / "note", "fresh");
  EXPECT_EQ(names_in(scratch.path), (std::vector<std::string>{"broken", "note", "x"}));
  EXPECT_EQ(contents_below(scratch.path / "x"), (Files{{"note", "fresh"}}));
  EXPECT_EQ(file_text(scratch.path / "note"), "new");
  using std::filesystem::perms;
  const auto mode = std::filesystem::status(scratch.path / "note").permissions();
  EXPECT_EQ(mode & perms::owner_all, perms::owner_read | perms::owner_write);
}

TEST(WholeFile, RefusesAFolderAndLeavesNoTrace) {
  const Scratch scratch;
  std::filesystem::create_directory(scratch.path / "inner");
  try {
    write_whole_file(scratch.path / "inner", "new");
    FAIL();
  } catch (const Failure& failure) {
    EXPECT_EQ(failure.code, ExitCode::cannot_read_or_write);
    EXPECT_EQ(std::string(failure.what()),
              (scratch.path / "inner").string() + ": is a folder, expected a file");
  }
  EXPECT_EQ(names_in(scratch.path), (std::vector<std::string>{"inner"}));
}

}  // namespace
}  // namespace footroom::tasks
