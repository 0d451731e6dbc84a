// What holds in every room, those that are yet to come too: the table of addresses is walked.

#include <gtest/gtest.h>

#include "desk/open_desk.hpp"

namespace footroom::desk::testing {
namespace {

/// A desk with a class, a quiz, results and training records, so that addresses have something to
/// show.
class EveryRoom : public ::testing::Test {
 protected:
  static inline std::unique_ptr<Scratch> scratch;
  static inline std::unique_ptr<OpenDesk> desk;
  static inline std::unique_ptr<Visitor> visitor;

  static void SetUpTestSuite() {
    scratch = std::make_unique<Scratch>();
    Limits limits;
    limits.body = 50'000;
    limits.head_time = std::chrono::milliseconds(700);
    limits.body_time = std::chrono::milliseconds(700);
    desk = std::make_unique<OpenDesk>(scratch->path / "desk", limits);
    visitor = std::make_unique<Visitor>(*desk);
    const auto done = [](const httplib::Result& result) {
      if (!result || result->status != 303) throw std::runtime_error("not prepared");
    };
    done(visitor->send("/classes", "/classes",
                       {{"title", "Monday"}, {"names", "Ana Ejemplo\nBen Sample\n"}}));
    done(visitor->send("/quizzes/new?class=1", "/quizzes/new",
                       {{"class", "1"},
                        {"made-of", "weekly"},
                        {"date", "2026-11-23"},
                        {"language", "en"},
                        {"units", "us"}}));
    wait_for("/quizzes/1/work");
    done(visitor->send("/quizzes/1/answers/A", "/quizzes/1/answers/A", {{"answer-1", "12"}}));
    done(visitor->send("/quizzes/1/answers", "/quizzes/1/grade", {}));
    done(visitor->send("/courses", "/courses",
                       {{"code", "fall"}, {"english", "Fall"}, {"spanish", "Caída"}}));
    done(visitor->send("/courses", "/employers", {{"name", "Invented Roofing"}}));
    done(visitor->send("/sessions/new?from=class-1", "/sessions/new",
                       {{"from", "class-1"},
                        {"course", "1"},
                        {"day", "2026-11-02"},
                        {"new-trainer", "Theo Trainer"},
                        {"place", "Yard"},
                        {"employer", "2"},
                        {"name-1-is", "new"},
                        {"name-1", "came"},
                        {"name-1", "completed"},
                        {"name-2-is", "new"},
                        {"name-2", "came"}}));
    done(visitor->send("/sessions/6", "/sessions/6/certificates", {}));
    done(visitor->send("/records", "/records/make/backup", {}));
    wait_for("/records/work/backup");
  }
  static void wait_for(const std::string& work) {
    while (visitor->get(work)->body.find("\"running\":true") != std::string::npos)
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
  static void TearDownTestSuite() {
    visitor.reset();
    desk.reset();
    scratch.reset();
  }

  /// Addresses of a method with `number` and `word` put in.
  static std::vector<std::string> addresses(const std::string& method,
                                            const std::string& number = "1",
                                            const std::string& word = "A") {
    std::vector<std::string> all;
    for (const auto& [of, pattern] : desk->desk().addresses()) {
      if (of != method) continue;
      const std::string path = std::regex_replace(pattern, std::regex("\\{number\\}"), number);
      all.push_back(std::regex_replace(path, std::regex("\\{word\\}"), word));
    }
    return all;
  }
  /// Each file by name and what its bytes come to, but for what SQLite has beside an open store.
  static std::map<std::string, std::size_t> everything() {
    namespace fs = std::filesystem;
    std::map<std::string, std::size_t> all;
    for (const auto& entry : fs::recursive_directory_iterator(scratch->path / "desk")) {
      const std::string name = entry.path().string();
      if (name.ends_with("-shm") || name.ends_with("-wal") || entry.is_directory()) continue;
      all[name] = std::hash<std::string>{}(cli::testing::contents(entry.path()));
    }
    return all;
  }
  static std::string host() { return "127.0.0.1:" + std::to_string(desk->port); }
  static std::string form_of(const std::string& page, const std::string& action) {
    std::string body;
    for (const auto& [name, value] :
         Visitor::with_hidden(visitor->get(page)->body, action, {{"title", "x"}}))
      body += (body.empty() ? "" : "&") + name + "=" + value;
    return body;
  }
  static int post(const std::string& path, const std::string& body, const std::string& headers,
                  const std::string& named = host()) {
    return status_for(desk->port, "POST " + path + " HTTP/1.1\r\nHost: " + named + "\r\n" +
                                      headers +
                                      "Content-Type: application/x-www-form-urlencoded\r\n"
                                      "Content-Length: " +
                                      std::to_string(body.size()) + "\r\n\r\n" + body);
  }
  static std::string cookie() { return "Cookie: " + visitor->cookie + "\r\n"; }
};

TEST_F(EveryRoom, IsInTheTable) {
  EXPECT_GT(addresses("GET").size(), 15u);
  EXPECT_GT(addresses("POST").size(), 8u);
}

TEST_F(EveryRoom, ChangesNothingByGet) {
  const auto before = everything();
  const auto patterns = addresses("GET", "{number}", "{word}");
  std::set<std::string> paths;
  std::set<std::string> shown;  // of the patterns
  for (const char* number : {"1", "2", "3", "6"})
    for (const char* word : {"A", "backup"}) {
      const auto all = addresses("GET", number, word);
      for (std::size_t i = 0; i < all.size(); ++i) {
        if (!paths.insert(all[i]).second) continue;
        const auto page = visitor->get(all[i]);
        ASSERT_TRUE(page) << all[i];
        if (page->status == 200) shown.insert(patterns[i]);
        ASSERT_TRUE(visitor->get(
            all[i] +
            "?told=saved&from=1&class=1&title=x&names=y&seat=A&number=1&typed=2&session=6"))
            << all[i];
      }
      EXPECT_EQ(everything(), before) << number << " " << word;
    }
  EXPECT_GT(4 * shown.size(), 3 * patterns.size()) << "too few pages had something to show";
}

TEST_F(EveryRoom, TakesNoFormWithoutItsToken) {
  const auto before = everything();
  for (const auto& path : addresses("POST")) {
    for (const std::string& body :
         {std::string("title=x"), "title=x&token=" + std::string(64, '0'), std::string("token=")})
      EXPECT_EQ(post(path, body, cookie() + "Origin: http://" + host() + "\r\n"), 403) << path;
  }
  EXPECT_EQ(everything(), before);
}

TEST_F(EveryRoom, TakesNoFormOfAnotherSite) {
  const auto before = everything();
  const std::string body = form_of("/classes", "/classes");  // with a token that is right
  for (const auto& path : addresses("POST")) {
    for (const std::string& from :
         {std::string("Origin: http://evil.example\r\n"), std::string("Origin: null\r\n"),
          std::string("Origin: http://127.0.0.1:1\r\n"),
          "Origin: http://localhost:" + std::to_string(desk->port) + "\r\n",
          std::string("Sec-Fetch-Site: cross-site\r\n"),
          std::string("Sec-Fetch-Site: same-site\r\n")})
      EXPECT_EQ(post(path, body, cookie() + from), 403) << path << " " << from;
    EXPECT_EQ(post(path, body, "Origin: http://" + host() + "\r\n"), 403) << path;
    EXPECT_EQ(post(path, body, cookie(), "evil.example:" + std::to_string(desk->port)), 421)
        << path;
  }
  EXPECT_EQ(everything(), before);
}

TEST_F(EveryRoom, LetsNobodyInWithoutTheCookieOrByAnotherName) {
  for (const auto& path : addresses("GET")) {
    EXPECT_EQ(status_for(desk->port, "GET " + path + " HTTP/1.1\r\nHost: " + host() + "\r\n\r\n"),
              403)
        << path;
    EXPECT_EQ(status_for(desk->port,
                         "GET " + path + " HTTP/1.1\r\nHost: evil.example\r\n" + cookie() + "\r\n"),
              421)
        << path;
  }
}

TEST_F(EveryRoom, TakesNoFormThatIsTooLargeOrTooSlow) {
  const auto before = everything();
  for (const auto& path : addresses("POST")) {
    const std::string head = "POST " + path + " HTTP/1.1\r\nHost: " + host() + "\r\n" + cookie();
    EXPECT_EQ(status_for(desk->port, head + "Content-Length: 50001\r\n\r\n"), 413) << path;
    EXPECT_EQ(status_for(desk->port, head + "Transfer-Encoding: chunked\r\n\r\n"), 501) << path;
  }
  std::vector<std::unique_ptr<Wire>> slow;  // all at once, since each takes its time
  for (const auto& path : addresses("POST")) {
    slow.push_back(std::make_unique<Wire>(desk->port));
    slow.back()->send("POST " + path + " HTTP/1.1\r\nHost: " + host() + "\r\n" + cookie() +
                      "Content-Length: 100\r\n\r\nabc");
  }
  for (const auto& wire : slow) EXPECT_EQ(status_of(wire->rest()), 408);
  EXPECT_EQ(everything(), before);
}

TEST_F(EveryRoom, TakesNoPathFromTheRequest) {
  const auto before = everything();
  for (const std::string& method : {std::string("GET"), std::string("POST")})
    for (const auto& [of, pattern] : desk->desk().addresses()) {
      if (of != method || pattern.find('{') == std::string::npos) continue;
      for (const char* evil :
           {"..", "%2e%2e", "..%2f..%2fetc", "%2fetc%2fpasswd", "1%00", "-1", "%ff", "a.b"}) {
        // A dot, a slash, a sign or a byte outside ASCII is in no number and no word.
        const std::string path =
            std::regex_replace(pattern, std::regex("\\{(number|word)\\}"), std::string(evil));
        const bool a_word = std::string_view(evil) == "-1";
        if (a_word && pattern.find("{number}") == std::string::npos) continue;
        const int status =
            method == "POST"
                ? post(path, "title=x", cookie())
                : status_for(desk->port, "GET " + path + " HTTP/1.1\r\nHost: " + host() + "\r\n" +
                                             cookie() + "\r\n");
        EXPECT_TRUE(status == 404 || status == 400) << method << " " << path << " " << status;
      }
    }
  EXPECT_EQ(everything(), before);
}

TEST_F(EveryRoom, AnswersTwoHundredFormsAtOnce) {
  const auto before = everything();
  const auto paths = addresses("POST");
  std::atomic<int> refused = 0;
  std::vector<std::thread> clients;
  for (std::size_t i = 0; i < 200; ++i)
    clients.emplace_back([&, i] {
      if (post(paths[i % paths.size()], "title=x",
               cookie() + "Origin: http://" + host() + "\r\n") == 403)
        ++refused;
    });
  for (auto& client : clients) client.join();
  EXPECT_EQ(refused, 200);
  EXPECT_EQ(everything(), before);
}

}  // namespace
}  // namespace footroom::desk::testing
