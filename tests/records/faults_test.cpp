// Kills, full disks, damaged files, two writers, other versions: nothing acknowledged is lost, and
// the error says what is wrong.

#include <grp.h>
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstring>
#include <functional>
#include <random>

#include "records/database.hpp"
#include "records/stores.hpp"

namespace footroom::records {
namespace {

using namespace testing;

using Faults = EachStore;
INSTANTIATE_TEST_SUITE_P(On, Faults, ::testing::Values(Kind::file, Kind::server), kind_name);

/// Runs `act` in a process of its own, which ends with the code that it returns.
pid_t in_a_child(const std::function<int()>& act) {
  const pid_t child = ::fork();
  if (child != 0) return child;
  int code = 70;
  try {
    code = act();
  } catch (const std::exception& error) {
    std::fputs((std::string(error.what()) + "\n").c_str(), stderr);
  }
  ::_exit(code);
}

int code_of(pid_t child) {
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

Employer invented(Number number) {
  return {"Invented " + std::to_string(number), ""};
}

/// One entry or a few a Writing, forever; each head that commit() gave goes into `acknowledged`.
[[noreturn]] void write_forever(const std::string& location, int acknowledged) {
  const auto store = Store::open(location, counted_salts());
  Number number = store->head().number;
  for (;;) {
    const auto writing = store->write(day("2026-01-01"));
    for (Number last = number + 1 + number % 4; number < last; ++number)
      if (number % 2 == 0)
        writing->add(invented(number));
      else
        writing->add(Person{"Sample " + std::to_string(number), "", {}, {}});
    const Head head = writing->commit();
    const std::string line = head.text() + "\n";
    if (::write(acknowledged, line.data(), line.size()) != static_cast<ssize_t>(line.size()))
      ::_exit(71);
  }
}

/// What comes from a pipe: up to `lines` lines of it, or all.
std::string read_lines(int descriptor, std::size_t lines = ~std::size_t{0}) {
  std::string all;
  char byte = 0;
  while (lines > 0 && ::read(descriptor, &byte, 1) == 1) {
    all += byte;
    if (byte == '\n') --lines;
  }
  return all;
}

/// Kills writers at random moments: while they open the store, and after some heads were
/// acknowledged. The last one of these must still be in a store that verifies.
void kill_writers(const std::string& location, int kills, std::mt19937& random) {
  for (int i = 0; i < kills; ++i) {
    int ends[2];
    ASSERT_EQ(::pipe(ends), 0);
    const pid_t child = in_a_child([&]() -> int { write_forever(location, ends[1]); });
    ::close(ends[1]);
    std::string lines = read_lines(ends[0], random() % 4);
    ::usleep(static_cast<useconds_t>(random() % 10'000));
    ::kill(child, SIGKILL);
    ASSERT_EQ(code_of(child), -SIGKILL);
    lines += read_lines(ends[0]);
    ::close(ends[0]);
    lines.erase(lines.rfind('\n') + 1);
    std::optional<Head> last;
    for (std::size_t at = 0; at < lines.size(); at = lines.find('\n', at) + 1)
      last = read_head(std::string_view(lines).substr(at, lines.find('\n', at) - at));
    ASSERT_EQ(last.has_value(), !lines.empty());
    const auto bad = Store::open(location, counted_salts())->verify(last);
    ASSERT_EQ(bad ? std::to_string(bad->number) + ": " + bad->what : "", "");
  }
}

// 500 kills in all, in stores that do not grow too long to verify quickly.
class Kills : public ::testing::TestWithParam<int> {};
INSTANTIATE_TEST_SUITE_P(Seed, Kills, ::testing::Range(1, 11));

TEST_P(Kills, LoseNothingThatWasAcknowledged) {
  std::mt19937 random(static_cast<unsigned>(GetParam()));
  Place place(Kind::file);
  place.make();
  kill_writers(place.location, 50, random);
  EXPECT_GT(place.open()->head().number, 50);
}

TEST(KillsOnPostgreSQL, OfTheWriterLoseNothingThatWasAcknowledged) {
  std::mt19937 random(5);
  Place place(Kind::server);
  place.make();
  kill_writers(place.location, 40, random);
  EXPECT_GT(place.open()->head().number, 40);
}

TEST_P(Faults, WritersTakeTurns) {
  constexpr int writers = 4;
  constexpr int entries = 25;
  std::vector<pid_t> children;
  for (int writer = 0; writer < writers; ++writer)
    children.push_back(in_a_child([&] {
      const auto own = place.open();
      for (int i = 0; i < entries; ++i) {
        const auto writing = own->write(day("2026-01-01"));
        writing->add(invented(writer * 1000 + i));
        writing->commit();
      }
      return 0;
    }));
  for (const auto child : children) EXPECT_EQ(code_of(child), 0);
  EXPECT_EQ(store->head().number, writers * entries);
  EXPECT_EQ(store->employers().size(), static_cast<std::size_t>(writers * entries));
  EXPECT_EQ(store->verify({}), std::nullopt);
}

TEST_P(Faults, ReadersSeeOneStateWhileOthersWrite) {
  fill(*store);
  const auto other = place.open();
  int seen = 0;
  store->each_person([&](const auto&) {
    if (++seen > 1) return;
    const auto writing = other->write(day("2026-04-01"));
    for (int i = 0; i < 1000; ++i) writing->add(Person{"Late Sample", "", {}, {}});
    writing->commit();
  });
  EXPECT_EQ(seen, 3);
}

TEST_P(Faults, ABackupWhileOthersWriteIsOneStateAndCanBeRestoredAnywhere) {
  const Example e = fill(*store);
  {
    const auto writing = store->write(day("2026-04-01"));
    writing->erase(e.ben);
    writing->commit();
  }
  int ends[2];
  ASSERT_EQ(::pipe(ends), 0);
  const pid_t child = in_a_child([&]() -> int { write_forever(place.location, ends[1]); });
  ::close(ends[1]);
  char first = 0;
  ASSERT_EQ(::read(ends[0], &first, 1), 1);
  const std::string file = (place.folder.path / "backup.db").string();
  const Head head = store->backup(file);
  ::kill(child, SIGKILL);
  code_of(child);
  ::close(ends[0]);
  EXPECT_GT(head.number, 12);
  EXPECT_EQ(store->verify(head), std::nullopt);
  struct stat status {};
  ASSERT_EQ(::stat(file.c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 0777, 0600U);
  EXPECT_EQ(message([&] { store->backup(file); }), file + ": exists already; it was left as it is");

  for (const auto kind : {GetParam(), Kind::file}) {
    const Place again(kind);
    EXPECT_EQ(Store::restore(file, again.location), head);
    const auto restored = again.open();
    EXPECT_EQ(restored->head(), head);
    EXPECT_EQ(restored->verify(head), std::nullopt);
    EXPECT_EQ(due_list(*restored, "2027-03-03"), due_list(*store, "2027-03-03"));
    EXPECT_EQ(restored->report(e.ana).person.value.name, "Ana Ejemplo");
    EXPECT_TRUE(restored->report(e.ben).person.erased);
    EXPECT_NE(message([&] { Store::restore(file, again.location); }).find("; it was left as it is"),
              std::string::npos);
    const auto writing = restored->write(day("2026-05-01"));
    writing->add(Employer{"After the restore", ""});
    EXPECT_EQ(writing->commit().number, head.number + 1);
  }
}

TEST_P(Faults, ADamagedStoreIsNotCopied) {
  fill(*store);
  place.tamper("UPDATE entry SET day = '2026-01-01' WHERE number = 5");
  const std::string file = (place.folder.path / "backup.db").string();
  EXPECT_NE(message([&] { store->backup(file); })
                .find(": entry 5 is damaged: the digest is not that of its content and the entry "
                      "before; nothing was copied"),
            std::string::npos);
  EXPECT_FALSE(fs::exists(file));
}

TEST_P(Faults, ANewerVersionIsRefused) {
  fill(*store);
  place.tamper("UPDATE store_format SET version = 9");
  EXPECT_NE(message([&] {
              place.open();
            }).find(": was written by a newer version of the program (format 9, this one knows 1)"),
            std::string::npos);
  place.tamper("UPDATE store_format SET version = 1");
  EXPECT_EQ(place.open()->verify({}), std::nullopt);
}

TEST_P(Faults, AnOlderVersionIsMigratedWholeOrNotAtAll) {
  fill(*store);
  const Head head = store->head();
  store.reset();
  const auto database = [&] {
    return GetParam() == Kind::file ? Database::open_file(place.location, Database::Use::open)
                                    : Database::open_server(place.location);
  };
  auto steps = schema_steps();
  steps.push_back({{"CREATE TABLE later (number INTEGER)", "INSERT INTO later VALUES (1)",
                    "INSERT INTO no_such_table VALUES (1)"},
                   {"CREATE TABLE later (number BIGINT)", "INSERT INTO later VALUES (1)",
                    "INSERT INTO no_such_table VALUES (1)"}});
  EXPECT_NE(message([&] { database()->migrate(steps); }).find("no_such_table"), std::string::npos);
  EXPECT_EQ(database()->version(), 1);
  EXPECT_NE(message([&] { place.plain("SELECT * FROM later"); }), "nothing was thrown");
  steps.back().sqlite.pop_back();
  steps.back().postgresql.pop_back();
  database()->migrate(steps);
  database()->migrate(steps);  // nothing is left to do
  EXPECT_EQ(database()->version(), 2);
  EXPECT_EQ(database()->table("SELECT number FROM later", 1).size(), 1U);
  EXPECT_EQ(database()->table("SELECT digest FROM entry ORDER BY number DESC LIMIT 1", 1)[0][0],
            head.digest);
}

class File : public ::testing::Test {
 protected:
  File() : place(Kind::file), store(place.make()), example(fill(*store)) {
    head = store->head();
    store.reset();
  }
  /// What opening, a report, the due list, verify() and adding say of it; "" : all is well.
  std::string tried(const std::string& file) const {
    return message([&] {
      const auto opened = Store::open(file, counted_salts());
      opened->report(example.ana);
      due_list(*opened, "2030-01-01");
      const auto writing = opened->write(day("2026-05-01"));
      writing->add(Employer{"Another", ""});
      if (const auto bad = opened->verify(head))
        throw std::runtime_error(std::to_string(bad->number) + ": " + bad->what);
    });
  }
  Place place;
  std::unique_ptr<Store> store;
  Example example;
  Head head;
};

TEST_F(File, IsOneFileThatOnlyItsOwnerReads) {
  struct stat status {};
  ASSERT_EQ(::stat(place.location.c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 0777, 0600U);
  EXPECT_EQ(std::distance(fs::directory_iterator(place.folder.path), {}), 1);
  // While it is open, what stands beside it is no more readable.
  const auto open = place.open();
  const auto writing = open->write(day("2026-05-01"));
  writing->add(Employer{"Another", ""});
  writing->commit();
  int beside = 0;
  for (const auto& file : fs::directory_iterator(place.folder.path)) {
    ASSERT_EQ(::stat(file.path().c_str(), &status), 0);
    EXPECT_EQ(status.st_mode & 0777, 0600U) << file.path();
    ++beside;
  }
  EXPECT_EQ(beside, 3);
}

TEST_F(File, HoldsNothingOfAnErasedPersonAnywhere) {
  const auto open = place.open();
  const auto bytes_have = [&](const std::string& text) {
    bool found = false;
    for (const auto& file : fs::directory_iterator(place.folder.path))
      found |= contents(file.path()).find(text) != std::string::npos;
    return found;
  };
  ASSERT_TRUE(bytes_have("Ben Sample"));
  const auto writing = open->write(day("2026-05-01"));
  writing->erase(example.ben);
  writing->commit();
  EXPECT_FALSE(bytes_have("Ben Sample"));
  EXPECT_TRUE(bytes_have("Ana Ejemplo"));
}

TEST_F(File, CutShortAnywhereIsToldAndStaysAsItIs) {
  const std::string whole = contents(place.location);
  const std::string cut = (place.folder.path / "cut.db").string();
  for (std::size_t size = 0; size < whole.size(); size += size < 200 ? 40 : 4099) {
    put(cut, whole.substr(0, size));
    const std::string says = tried(cut);
    if (size < 72)
      EXPECT_EQ(says, cut + ": is no store of training records, or its beginning is damaged");
    else
      EXPECT_EQ(says, cut + ": is cut short: has " + std::to_string(size) + " bytes, expected " +
                          std::to_string(whole.size()) + "; restore a backup");
    EXPECT_EQ(contents(cut), whole.substr(0, size));
  }
}

TEST_F(File, FlippedBytesAreToldOrHarmless) {
  const std::string whole = contents(place.location);
  const std::string flipped = (place.folder.path / "flipped.db").string();
  std::mt19937 random(11);
  int told = 0;
  for (int i = 0; i < 300; ++i) {
    std::string bytes = whole;
    // Half of them where data is, the other half anywhere.
    std::size_t at = random() % bytes.size();
    if (i % 2 == 0)
      while (bytes[at] == '\0') at = (at + 1) % bytes.size();
    bytes[at] = static_cast<char>(bytes[at] ^ (1 << random() % 8));
    put(flipped, bytes);
    for (const auto* beside : {"-wal", "-shm"}) fs::remove(flipped + beside);
    const std::string says = tried(flipped);
    if (says == "nothing was thrown") {
      // Then every entry is what it was.
      const auto store_again = Store::open(flipped, counted_salts());
      EXPECT_EQ(store_again->head(), head) << at;
      EXPECT_EQ(store_again->report(example.ana).person.value.name, "Ana Ejemplo") << at;
    } else {
      ++told;
      EXPECT_EQ(says.find("basic_string"), std::string::npos) << says;
    }
  }
  EXPECT_GT(told, 100);
}

TEST_F(File, OfAnotherKindIsNotTaken) {
  const std::string other = (place.folder.path / "other.db").string();
  put(other, "name,identity\nAna,1\n");
  EXPECT_EQ(tried(other), other + ": is no store of training records, or its beginning is damaged");
  EXPECT_EQ(tried("/no/such/folder/records.db"),
            "/no/such/folder/records.db: cannot open: No such file or directory; record init makes "
            "a store");
  EXPECT_EQ(tried(place.folder.path.string()), place.folder.path.string() + ": is no file");
  {
    soci::session sql(soci::sqlite3, (place.folder.path / "sql.db").string());
    sql << "CREATE TABLE entry (number INTEGER)";
  }
  const std::string sql = (place.folder.path / "sql.db").string();
  EXPECT_EQ(tried(sql), sql + ": is no store of training records, or its beginning is damaged");
  EXPECT_EQ(message([&] { Store::create(place.location); }),
            place.location + ": exists already; it was left as it is");
  EXPECT_EQ(message([&] { Store::create("/no/such/folder/records.db"); }),
            "/no/such/folder/records.db: cannot write: No such file or directory");
}

TEST_F(File, MayHaveAnOddName) {
  for (const auto* name : {"with space.db", "a=b.db", "quote\".db", "ñandú'; DROP TABLE entry.db",
                           "file:x?mode=memory"}) {
    const std::string file = (place.folder.path / name).string();
    Store::create(file);
    EXPECT_TRUE(fs::exists(file)) << name;
    Store::open(file, counted_salts())->write(day("2026-01-01"))->commit();
  }
  EXPECT_EQ(message([&] { Store::create((place.folder.path / "a b=c").string()); }),
            (place.folder.path / "a b=c").string() +
                ": a path with = may hold neither spaces nor quotation marks");
}

TEST_F(File, ThatMayNotBeWrittenIsRefused) {
  // Root may write everything, so someone else tries.
  fs::permissions(place.folder.path, fs::perms(0755));
  fs::permissions(place.location, fs::perms(0444));
  const pid_t child = in_a_child([&] {
    if (::getuid() == 0 &&
        (::setgroups(0, nullptr) != 0 || ::setgid(65534) != 0 || ::setuid(65534) != 0))
      return 71;
    return tried(place.location) == place.location + ": cannot write: Permission denied" ? 0 : 1;
  });
  EXPECT_EQ(code_of(child), 0);
  fs::permissions(place.location, fs::perms(0600));
  EXPECT_EQ(place.open()->verify(head), std::nullopt);
}

TEST_F(File, InAFolderThatMayNotBeWrittenIsRefused) {
  fs::permissions(place.folder.path, fs::perms(0555));
  fs::permissions(place.location, fs::perms(0666));
  const pid_t child = in_a_child([&] {
    if (::getuid() == 0 &&
        (::setgroups(0, nullptr) != 0 || ::setgid(65534) != 0 || ::setuid(65534) != 0))
      return 71;
    return tried(place.location) ==
                   place.location + ": cannot write into its folder: Permission denied"
               ? 0
               : 1;
  });
  EXPECT_EQ(code_of(child), 0);
  fs::permissions(place.folder.path, fs::perms(0755));
  EXPECT_EQ(place.open()->verify(head), std::nullopt);
}

TEST_F(File, OnAFullDiskLosesNothing) {
  // A limit on the size of files stands for the disk: each write beyond it fails as on a full one.
  const auto size = fs::file_size(place.location);
  int refused = 0;
  Head last = head;
  for (const rlim_t more : {0, 1, 4096, 20'000, 40'000, 65'536, 100'000}) {
    int ends[2];
    ASSERT_EQ(::pipe(ends), 0);
    const pid_t child = in_a_child([&]() -> int {
      ::signal(SIGXFSZ, SIG_IGN);
      const rlimit limit{size + more, size + more};
      ::setrlimit(RLIMIT_FSIZE, &limit);
      try {
        write_forever(place.location, ends[1]);
      } catch (const Unavailable& error) {
        return std::strstr(error.what(), ": cannot read or write: ") ||
                       std::strstr(error.what(), ": cannot write: the disk is full")
                   ? 0
                   : (std::fputs(error.what(), stderr), 1);
      }
    });
    ::close(ends[1]);
    std::string lines = read_lines(ends[0]);
    ::close(ends[0]);
    refused += code_of(child) == 0;
    if (!lines.empty()) {
      lines.pop_back();
      last = read_head(std::string_view(lines).substr(lines.rfind('\n') + 1)).value();
    }
    EXPECT_EQ(place.open()->verify(last), std::nullopt);
  }
  EXPECT_EQ(refused, 7);
  EXPECT_GT(last.number, head.number);
}

TEST_F(File, ABackupOntoAFullDiskLeavesNothing) {
  const auto size = fs::file_size(place.location);
  const std::string file = (place.folder.path / "backup.db").string();
  const pid_t child = in_a_child([&] {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{size * 3 / 4, size * 3 / 4};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    return message([&] { place.open()->backup(file); }).find(": cannot") != std::string::npos ? 0
                                                                                              : 1;
  });
  EXPECT_EQ(code_of(child), 0);
  for (const auto& left : fs::directory_iterator(place.folder.path))
    EXPECT_EQ(left.path(), place.location);
  EXPECT_EQ(place.open()->verify(head), std::nullopt);
}

}  // namespace
}  // namespace footroom::records
