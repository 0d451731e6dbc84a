#include "engine/word_list.hpp"

#include <gtest/gtest.h>

namespace footroom::engine {
namespace {

TEST(WordList, IsPartedBySpacesAndCommas) {
  EXPECT_EQ(split_words("1-over-2, 2-over-1,cut"), (Words{{"1-over-2"}, {"2-over-1"}, {"cut"}}));
  EXPECT_EQ(split_words(" ,  a ,, b, "), (Words{{"a"}, {"b"}}));
  EXPECT_EQ(split_words("a;b"), Words{{"a;b"}});
  EXPECT_TRUE(split_words("").empty());
  EXPECT_TRUE(split_words(" , ").empty());
}

}  // namespace
}  // namespace footroom::engine
