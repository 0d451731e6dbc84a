#include "bank/digest.hpp"

#include <gtest/gtest.h>

namespace footroom::bank {
namespace {

// FIPS 180-4 examples, as published by NIST (from memory, confirmed with coreutils' sha256sum).
TEST(Sha256, GivesThePublishedDigests) {
  EXPECT_EQ(sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST(DigestOfFiles, DoesNotDependOnTheOrderFilesAreFound) {
  EXPECT_EQ(digest_of_files({{"a", "1"}, {"b", "2"}}), digest_of_files({{"b", "2"}, {"a", "1"}}));
}

TEST(DigestOfFiles, ChangesWithANameAByteAndWhereAFileEnds) {
  const std::string digest = digest_of_files({{"a", "12"}, {"b", "3"}});
  EXPECT_NE(digest, digest_of_files({{"c", "12"}, {"b", "3"}}));
  EXPECT_NE(digest, digest_of_files({{"a", "12"}, {"b", "4"}}));
  EXPECT_NE(digest, digest_of_files({{"a", "1"}, {"b", "23"}}));
  EXPECT_NE(digest, digest_of_files({{"a", "12"}, {"b", "3"}, {"c", ""}}));
}

}  // namespace
}  // namespace footroom::bank
