#include "io/fingerprint.h"

#include <fstream>

#include <catch2/catch.hpp>

using namespace farwater::io;

TEST_CASE("sha256 gives the digests of FIPS 180-4") {
    CHECK(sha256_of_text("abc") ==
          "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(sha256_of_text("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("a file's sha256 is that of its bytes, in any number of blocks") {
    const auto folder = std::filesystem::temp_directory_path() / "farwater_fingerprint_test";
    std::filesystem::create_directories(folder);
    const std::string big(3U << 20U, 'x');
    std::ofstream(folder / "big", std::ios::binary) << big;
    std::ofstream(folder / "abc", std::ios::binary) << "abc";
    CHECK(sha256_of_file(folder / "big") == sha256_of_text(big));
    CHECK(sha256_of_files({folder / "abc"}) == sha256_of_text("abc"));
    CHECK(sha256_of_files({folder / "big", folder / "abc"}) ==
          sha256_of_text("abc " + sha256_of_text("abc") + "\nbig " + sha256_of_text(big) + "\n"));
    CHECK(sha256_of_file(folder / "none").empty());
    CHECK(sha256_of_file(folder).empty());
    std::filesystem::create_symlink("round", folder / "round");  // leads to itself
    CHECK(sha256_of_file(folder / "round").empty());
    CHECK(sha256_of_files({}).empty());
    std::filesystem::remove_all(folder);
}
