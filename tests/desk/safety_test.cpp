// What others on the network, in other pages and in other programs may try.

#include <gtest/gtest.h>

#include "desk/multipart.hpp"
#include "desk/open_desk.hpp"
#include "tasks/failure.hpp"

namespace footroom::desk::testing {
namespace {

class Safety : public ::testing::Test {
 protected:
  Scratch scratch;
  Limits limits = quick();
  OpenDesk desk{scratch.path / "desk", limits};
  Visitor visitor{desk};
  std::string host = "Host: 127.0.0.1:" + std::to_string(desk.port) + "\r\n";

  static Limits quick() {
    Limits limits;
    limits.head_time = std::chrono::milliseconds(700);
    limits.body_time = std::chrono::milliseconds(700);
    limits.body = 200'000;
    return limits;
  }
  std::string with_cookie() const { return "Cookie: " + visitor.cookie + "\r\n"; }
  int status(const std::string& request) const { return status_for(desk.port, request); }
  std::string folder_listing() const {
    std::string all;
    for (const auto& [name, bytes] : cli::testing::contents_below(scratch.path / "desk"))
      all += name + "\n";
    return all;
  }
};

TEST_F(Safety, LetsNobodyInWithoutTheCookie) {
  EXPECT_EQ(status("GET / HTTP/1.1\r\n" + host + "\r\n"), 403);
  EXPECT_EQ(status("GET /classes HTTP/1.1\r\n" + host + "\r\n"), 403);
  EXPECT_EQ(status("GET / HTTP/1.1\r\n" + host + "Cookie: desk-1=x\r\n\r\n"), 403);
  EXPECT_EQ(status("GET / HTTP/1.1\r\n" + host + with_cookie() + "\r\n"), 200);
}

TEST_F(Safety, ExchangesTheKeyForACookieThatScriptsAndOtherSitesDoNotGet) {
  Wire wire(desk.port);
  wire.send("GET " + desk.key_path + " HTTP/1.1\r\n" + host + "\r\n");
  const std::string answer = wire.rest();
  EXPECT_EQ(status_of(answer), 303);
  EXPECT_NE(answer.find("HttpOnly"), std::string::npos);
  EXPECT_NE(answer.find("SameSite=Strict"), std::string::npos);
  EXPECT_NE(answer.find("Location: /\r\n"), std::string::npos);
  EXPECT_EQ(status("GET /open?key=" + std::string(64, '0') + " HTTP/1.1\r\n" + host + "\r\n"), 403);
  EXPECT_EQ(status("GET /open HTTP/1.1\r\n" + host + "\r\n"), 403);
}

TEST_F(Safety, RefusesNamesThatWereMadeToPointHere) {
  const std::string port = std::to_string(desk.port);
  for (const std::string& name :
       {"evil.example:" + port, std::string("127.0.0.1"), std::string("127.0.0.1:1"),
        "[::1]:" + port, "127.0.0.1.:" + port})
    EXPECT_EQ(status("GET / HTTP/1.1\r\nHost: " + name + "\r\n" + with_cookie() + "\r\n"), 421)
        << name;
  EXPECT_EQ(status("GET / HTTP/1.1\r\n" + with_cookie() + "\r\n"), 400);
  EXPECT_EQ(status("GET / HTTP/1.1\r\n" + host + host + with_cookie() + "\r\n"), 400);
}

TEST_F(Safety, RefusesFormsOfOtherSites) {
  const auto page = visitor.get("/classes");
  ASSERT_TRUE(page);
  const auto fields =
      Visitor::with_hidden(page->body, "/classes", {{"title", "Mine"}, {"names", "Ana"}});
  const std::string before = folder_listing();
  const std::string body = [&] {
    std::string text;
    for (const auto& [name, value] : fields) text += (text.empty() ? "" : "&") + name + "=" + value;
    return text;
  }();
  const auto sent = [&](const std::string& headers) {
    return status("POST /classes HTTP/1.1\r\n" + host + with_cookie() + headers +
                  "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: " +
                  std::to_string(body.size()) + "\r\n\r\n" + body);
  };
  EXPECT_EQ(sent("Origin: http://evil.example\r\n"), 403);
  EXPECT_EQ(sent("Origin: null\r\n"), 403);
  EXPECT_EQ(sent("Origin: http://127.0.0.1:1\r\n"), 403);
  EXPECT_EQ(sent("Sec-Fetch-Site: cross-site\r\n"), 403);
  EXPECT_EQ(sent("Sec-Fetch-Site: same-site\r\n"), 403);
  EXPECT_EQ(folder_listing(), before);
  EXPECT_EQ(sent("Origin: http://127.0.0.1:" + std::to_string(desk.port) +
                 "\r\nSec-Fetch-Site: same-origin\r\n"),
            303);
  EXPECT_NE(folder_listing(), before);
}

TEST_F(Safety, RefusesFormsWithoutTheToken) {
  const auto refused = visitor.post("/classes", {{"title", "Mine"}, {"names", "Ana"}});
  ASSERT_TRUE(refused);
  EXPECT_EQ(refused->status, 403);
  const auto wrong = visitor.post(
      "/classes", {{"title", "Mine"}, {"names", "Ana"}, {"token", std::string(64, '0')}});
  ASSERT_TRUE(wrong);
  EXPECT_EQ(wrong->status, 403);
}

TEST_F(Safety, ChangesNothingByGet) {
  const std::string before = folder_listing();
  for (const char* path : {"/classes?title=Mine&names=Ana", "/preferences?language=es",
                           "/quizzes/new?class=1&made-of=weekly"})
    EXPECT_EQ(visitor.get(path)->status, 200) << path;
  EXPECT_EQ(folder_listing(), before);
  EXPECT_EQ(status("GET /quizzes/1/grade HTTP/1.1\r\n" + host + with_cookie() + "\r\n"), 405);
  EXPECT_EQ(status("PUT /classes HTTP/1.1\r\n" + host + with_cookie() + "\r\n"), 405);
  EXPECT_EQ(status("DELETE /classes/1 HTTP/1.1\r\n" + host + with_cookie() + "\r\n"), 405);
}

TEST_F(Safety, NeverTakesAPathFromTheRequest) {
  for (const char* path :
       {"/../../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "/quizzes/1/figures/../../quiz.json",
        "/quizzes/..%2f..%2f", "/quizzes/1%00/sheets", "/classes/1/roster.csv", "/desk.lock",
        "/preferences.json", "/quizzes/1/feedback/..%2fresults", "//etc/passwd", "/%0d%0aX:y",
        "/quizzes/0/sheets", "/quizzes/-1", "/quizzes/9999999"})
    EXPECT_EQ(status("GET " + std::string(path) + " HTTP/1.1\r\n" + host + with_cookie() + "\r\n"),
              404)
        << path;
}

TEST_F(Safety, ReadsAHeadOfOneLineAsOne) {
  const auto answer_to = [&](const std::string& request) {
    Wire wire(desk.port);
    wire.send(request);
    return wire.rest();
  };
  EXPECT_TRUE(answer_to("\r\n\r\n").starts_with("HTTP/1.1 400 no request"));
  EXPECT_TRUE(answer_to("GET / HTTP/1.1\r\n\r\n").starts_with("HTTP/1.1 400 no Host"));
}

TEST_F(Safety, SendsThePolicyWithEveryAnswer) {
  for (const char* path : {"/", "/nothing-here", "/%0a", "/%0d", "/classes%0a"}) {
    const auto page = visitor.get(path);
    ASSERT_TRUE(page) << path;
    EXPECT_NE(page->get_header_value("Content-Security-Policy"), "") << path;
  }
}

TEST_F(Safety, SendsWhatKeepsABrowserFromLoadingAnythingElse) {
  const auto page = visitor.get("/");
  ASSERT_TRUE(page);
  const std::string policy = page->get_header_value("Content-Security-Policy");
  EXPECT_NE(policy.find("default-src 'none'"), std::string::npos);
  EXPECT_NE(policy.find("frame-ancestors 'none'"), std::string::npos);
  EXPECT_EQ(policy.find("unsafe"), std::string::npos);
  EXPECT_EQ(page->get_header_value("X-Content-Type-Options"), "nosniff");
  EXPECT_EQ(page->get_header_value("Referrer-Policy"), "same-origin");
  EXPECT_EQ(page->get_header_value("Cache-Control"), "no-store");
}

TEST_F(Safety, EscapesWhatWasTyped) {
  const std::string evil = "<script>alert(1)</script>\" onload='x' &amp;";
  const auto sent =
      visitor.send("/classes", "/classes", {{"title", evil}, {"names", "<img src=x>\nBen"}});
  ASSERT_TRUE(sent);
  ASSERT_EQ(sent->status, 303);
  for (const std::string& path : {std::string("/classes"), sent->get_header_value("Location")}) {
    const auto page = visitor.get(path);
    EXPECT_EQ(page->body.find("<script>alert"), std::string::npos) << path;
    EXPECT_EQ(page->body.find("<img src=x>"), std::string::npos) << path;
    EXPECT_NE(page->body.find("&lt;script&gt;alert(1)&lt;/script&gt;"), std::string::npos) << path;
  }
}

TEST_F(Safety, RefusesWhatIsTooLarge) {
  EXPECT_EQ(status("GET /" + std::string(3'000, 'a') + " HTTP/1.1\r\n" + host + "\r\n"), 414);
  EXPECT_EQ(status("GET / HTTP/1.1\r\n" + host + "X: " + std::string(20'000, 'a') + "\r\n\r\n"),
            431);
  std::string many;
  for (int i = 0; i < 100; ++i) many += "X-" + std::to_string(i) + ": y\r\n";
  EXPECT_EQ(status("GET / HTTP/1.1\r\n" + host + many + "\r\n"), 431);
  const auto posting = [&](const std::string& headers) {
    return "POST /classes HTTP/1.1\r\n" + host + with_cookie() + headers + "\r\n";
  };
  EXPECT_EQ(status(posting("Content-Length: 999999999\r\n")), 413);
  EXPECT_EQ(status(posting("Content-Length: 99999999999999999999\r\n")), 400);
  EXPECT_EQ(status(posting("Content-Length: -1\r\n")), 400);
  EXPECT_EQ(status(posting("Content-Length: 1\r\nContent-Length: 2\r\n")), 400);
  EXPECT_EQ(status(posting("")), 411);
  EXPECT_EQ(status(posting("Transfer-Encoding: chunked\r\n")), 501);
  EXPECT_EQ(status(posting("Content-Encoding: gzip\r\nContent-Length: 1\r\n") + "x"), 415);
  EXPECT_EQ(status(posting("Expect: 100-continue\r\nContent-Length: 1\r\n")), 417);
  EXPECT_EQ(visitor.get("/")->status, 200);
}

TEST_F(Safety, IsNotMovedByWhatTheLibraryWouldDoWithRanges) {
  std::string ranges = "Range: bytes=0-99999999999999999999";
  for (int i = 0; i < 500; ++i) ranges += ",0-";
  Wire wire(desk.port);
  wire.send("GET / HTTP/1.1\r\n" + host + with_cookie() + ranges + "\r\n\r\n");
  const std::string answer = wire.rest();
  EXPECT_EQ(status_of(answer), 200);
  EXPECT_EQ(answer.find("Content-Range"), std::string::npos);
}

TEST_F(Safety, EndsRequestsThatComeTooSlowly) {
  Wire slow(desk.port);
  ASSERT_TRUE(slow.send("GET / HTTP/1.1\r\n"));
  EXPECT_EQ(status_of(slow.rest()), 408);
  Wire body(desk.port);
  ASSERT_TRUE(body.send("POST /classes HTTP/1.1\r\n" + host + "Content-Length: 100\r\n\r\nabc"));
  EXPECT_EQ(status_of(body.rest()), 408);
}

TEST_F(Safety, AnswersWhileManyAreSlow) {
  std::vector<std::unique_ptr<Wire>> slow;
  for (int i = 0; i < 100; ++i) {
    slow.push_back(std::make_unique<Wire>(desk.port));
    slow.back()->send("GET / HT");
  }
  EXPECT_EQ(visitor.get("/")->status, 200);
}

TEST_F(Safety, AnswersTwoHundredAtOnce) {
  std::atomic<int> answered = 0;
  std::vector<std::thread> clients;
  for (int i = 0; i < 200; ++i)
    clients.emplace_back([&] {
      if (status("GET /classes HTTP/1.1\r\n" + host + with_cookie() + "\r\n") == 200) ++answered;
    });
  for (auto& client : clients) client.join();
  EXPECT_EQ(answered, 200);
}

TEST_F(Safety, DoesAFormThatIsSentTwiceOnce) {
  const auto page = visitor.get("/classes");
  const auto fields =
      Visitor::with_hidden(page->body, "/classes", {{"title", "Twice"}, {"names", "Ana"}});
  const auto first = visitor.post("/classes", fields);
  const auto second = visitor.post("/classes", fields);
  EXPECT_EQ(first->status, 303);
  EXPECT_EQ(second->status, 303);
  EXPECT_EQ(first->get_header_value("Location"), second->get_header_value("Location"));
  EXPECT_FALSE(std::filesystem::exists(scratch.path / "desk/classes/0002"));
}

TEST_F(Safety, ComesBackAtItsPortWhereThatIsFree) {
  const auto port_of = [](const Settings& settings) { return OpenDesk(settings).port; };
  Scratch other;
  const int before = port_of(settings_for(other.path / "desk"));
  EXPECT_EQ(port_of(settings_for(other.path / "desk")), before);

  Scratch third;
  auto there = settings_for(third.path / "desk");
  there.port = before;
  const OpenDesk in_the_way(there);
  EXPECT_NE(port_of(settings_for(other.path / "desk")), before);
}

TEST_F(Safety, HoldsTheFolderForOneDesk) {
  EXPECT_THROW(Desk(settings_for(scratch.path / "desk")), tasks::Failure);
  const auto address = scratch.path / "desk" / "desk.address";
  EXPECT_EQ(std::filesystem::status(address).permissions(),
            std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
}

TEST(ReadForm, ReadsFieldsAsBrowsersSendThem) {
  const std::string body =
      "--X\r\nContent-Disposition: form-data; name=\"a\"\r\n\r\none\r\ntwo\r\n"
      "--X\r\nContent-Disposition: form-data; name=\"f\"; filename=\"../../x.csv\"\r\n"
      "Content-Type: text/csv\r\n\r\n\r\n--X--\r\n";
  const auto fields = read_form("multipart/form-data; boundary=X", body);
  ASSERT_TRUE(fields);
  EXPECT_EQ(first_of(*fields, "a"), "one\r\ntwo");
  EXPECT_EQ(first_of(*fields, "f"), "");
  EXPECT_EQ(fields->size(), 2u);
  const auto encoded = read_form("application/x-www-form-urlencoded", "a=1+2&b=%C3%B1&c");
  ASSERT_TRUE(encoded);
  EXPECT_EQ(first_of(*encoded, "a"), "1 2");
  EXPECT_EQ(first_of(*encoded, "b"), "ñ");
}

TEST(ReadForm, RefusesWhatBreaksTheFormat) {
  const std::string type = "multipart/form-data; boundary=X";
  for (const std::string& body :
       {std::string(), std::string("--X"), std::string("--X\r\n"), std::string("--Y--"),
        std::string("--X\r\nContent-Disposition: form-data; name=\"a\r\n\r\nx\r\n--X--"),
        std::string("--X\r\nContent-Disposition: form-data; name=\"a\"\r\n\r\nno end"),
        "--X\r\n" + std::string(100'000, 'h') + "\r\n\r\nx\r\n--X--"})
    EXPECT_FALSE(read_form(type, body)) << body.substr(0, 60);
  EXPECT_FALSE(read_form("text/plain", "a=1"));
  EXPECT_FALSE(read_form("multipart/form-data", "--\r\n"));
  EXPECT_FALSE(read_form("application/x-www-form-urlencoded", "a=%zz"));
  std::string many;
  for (std::size_t i = 0; i <= most_fields; ++i) many += "a=1&";
  EXPECT_FALSE(read_form("application/x-www-form-urlencoded", many));
}

}  // namespace
}  // namespace footroom::desk::testing
