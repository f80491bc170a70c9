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

TEST_CASE("letters that nobody sees are left out, and line ends are blanks") {
    const auto seen = [](std::string_view text) {
        const SeenLetters letters = seen_letters(text);
        return letters.text + (letters.left_out ? "|left out" : "");
    };
    CHECK(seen("Mill Road") == "Mill Road");
    CHECK(seen("H\u00f6he \U0001F692") == "H\u00f6he \U0001F692");
    CHECK(seen("\u202Edaor lliM\u202C") == "daor lliM|left out");
    CHECK(seen("T\u200B1\u200D\u2066\u2069\uFEFF\u00AD\u061C") == "T1|left out");
    CHECK(seen("a\x1B[31mb\x7F\u009B") == "a[31mb|left out");
    CHECK(seen("a\r\n\tb\u2028c") == "a b c");
    CHECK(seen("ab\n") == "ab");
    CHECK(seen("\U000E0041\U000E007F") == "|left out");
    CHECK(seen("\u2010\u2027\u202F\u2070\u00A0\u00AE") == "\u2010\u2027\u202F\u2070\u00A0\u00AE");
}

TEST_CASE("a text that goes over lines can keep them") {
    CHECK(without_hidden("a\r\n\tb\u202E\u200Bc\x1B") == "a\r\n\tbc");
    CHECK(without_hidden("H\u00f6he") == "H\u00f6he");
}

TEST_CASE("long texts end after whole letters") {
    CHECK(first_letters("abc", 3) == "abc");
    CHECK(first_letters("abcd", 3) == "abc ...");
    CHECK(first_letters("\u00e4\u00f6\u00fc", 2) == "\u00e4\u00f6 ...");
    CHECK(first_letters("", 2).empty());
}

TEST_CASE("what was seen once is seen the same again", "[property]") {
    const unsigned seed = 6;
    CAPTURE(seed);
    std::mt19937 random(seed);
    for (int i = 0; i < 20000; ++i) {
        std::string bytes(random() % 12, ' ');
        for (char& byte : bytes) {
            byte = static_cast<char>(random() % 256);
        }
        const SeenLetters once = seen_letters(as_utf8(bytes));
        CAPTURE(i, bytes);
        REQUIRE(is_utf8(once.text));
        REQUIRE(seen_letters(once.text).text == once.text);
        REQUIRE_FALSE(seen_letters(once.text).left_out);
        REQUIRE((!is_plain_ascii(bytes) || once.text == bytes));
    }
}
