#include "io/files/letters.h"

#include <random>
#include <string>

#include <catch2/catch.hpp>

using namespace farwater::io;

TEST_CASE("UTF-8 stays as it is") {
    for (const char* text :
         {"", "plain", "Höhe", "\u20AC", "\U0001F692", "\xF4\x8F\xBF\xBF", "\xEF\xBF\xBD"}) {
        CAPTURE(text);
        CHECK(is_utf8(text));
        CHECK(as_utf8(text) == text);
    }
}

TEST_CASE("what is no UTF-8 is read as Windows-1252") {
    CHECK(as_utf8("Caf\xE9 \x93Mill\x94 \x80") == "Café \u201CMill\u201D \u20AC");
    CHECK(as_utf8("\xFF\x81") == "\u00FF\uFFFD");
    // Cut off, overlong, a surrogate, beyond the last letter.
    for (const char* text : {"\xC3", "\xE2\x82", "\xC0\xAF", "\xE0\x80\xAF", "\xED\xA0\x80",
                             "\xF4\x90\x80\x80", "\x80"}) {
        CAPTURE(text);
        CHECK_FALSE(is_utf8(text));
    }
}

TEST_CASE("whatever the bytes, text comes out that stays as it is", "[property]") {
    const unsigned seed = 5;
    CAPTURE(seed);
    std::mt19937 random(seed);
    for (int i = 0; i < 20000; ++i) {
        std::string text(random() % 6, ' ');
        for (char& byte : text) {
            byte = static_cast<char>(random() % 4 == 0 ? random() % 128 : 0x80 + random() % 128);
        }
        const std::string once = as_utf8(text);
        CAPTURE(i, text);
        REQUIRE(is_utf8(once));
        REQUIRE(as_utf8(once) == once);
    }
}
