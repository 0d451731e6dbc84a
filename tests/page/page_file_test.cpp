#include "page/page_file.hpp"

#include <gtest/gtest.h>

namespace footroom::page {
namespace {

PageParts sample() {
  return {"<head><!--policy--><!--style--></head><body><!--core--><!--script--></body>",
          "p { margin: 0 }",
          "start();",
          "var core;",
          std::string("\0asm", 4),
          "Copyright",
          "{}"};
}

// Computed with: printf 'start();' | openssl dgst -sha256 -binary | base64
TEST(PageFile, LetsNothingInButItsOwnScriptsAndStyle) {
  const std::string page = page_file(sample());
  EXPECT_NE(page.find("default-src 'none'"), std::string::npos);
  EXPECT_NE(page.find("'sha256-E6jQvrT2ZivWG9GJ4AAEZf4MhI7l3QkLroW4hgvUT4c='"), std::string::npos);
  EXPECT_NE(page.find("style-src 'sha256-7IWhgxoOGTB5NQzjGk9OPt0FwhVeBvZGoWgF9xLLh8c='"),
            std::string::npos);
  EXPECT_NE(page.find("'wasm-unsafe-eval'"), std::string::npos);
  EXPECT_EQ(page.find("unsafe-inline"), std::string::npos);
  EXPECT_EQ(page.find("'unsafe-eval'"), std::string::npos);
  EXPECT_EQ(page.find("<!--"), std::string::npos);
  EXPECT_LT(page.find("Content-Security-Policy"), page.find("<style>"));
}

TEST(PageFile, RefusesPlacesThatAreMissingOrTwice) {
  PageParts parts = sample();
  parts.html = "<!--policy--><!--style--><!--core-->";
  EXPECT_THROW(page_file(parts), std::runtime_error);
  parts.html = sample().html + "<!--core-->";
  EXPECT_THROW(page_file(parts), std::runtime_error);
}

TEST(PageFile, RefusesWhatWouldEndItsElementEarly) {
  for (const char* text : {"a</script>b", "<!-- b <script"}) {
    PageParts parts = sample();
    parts.script = text;
    EXPECT_THROW(page_file(parts), std::runtime_error);
  }
  PageParts parts = sample();
  parts.css = "</style>";
  EXPECT_THROW(page_file(parts), std::runtime_error);
}

}  // namespace
}  // namespace footroom::page
