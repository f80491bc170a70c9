// What becomes of a document whose bytes find no room.
#include "reports/print/page_canvas.h"

#include <optional>
#include <stdexcept>
#include <string>

#include <catch2/catch.hpp>

using namespace farwater::reports;

namespace {

// What was said by the sink that takes no more than `room` bytes, and how often it was asked after.
struct Refused {
    std::string words;
    int asked_again = 0;
};

std::optional<Refused> pages_into(std::size_t room) {
    Refused refused;
    std::size_t taken = 0;
    bool full = false;
    PageCanvas canvas = PageCanvas::pdf({}, {}, [&](std::string_view bytes) {
        refused.asked_again += full ? 1 : 0;
        taken += bytes.size();
        if (taken > room) {
            full = true;
            throw std::runtime_error("the disk is full");
        }
    });
    try {
        for (int page = 0; page < 30; ++page) {
            const std::string text = "page " + std::to_string(page) + " of a document";
            canvas.text({10.0, 10.0}, text, {.size = 9.0});
            for (int i = 0; i < 200; ++i) {
                canvas.line({{0.0, i * 1.0}, {i * 7.0, page * 3.0}}, {});
            }
            canvas.end_page();
        }
        canvas.finish();
    } catch (const std::runtime_error& error) {
        refused.words = error.what();
        return refused;
    }
    return std::nullopt;
}

}  // namespace

TEST_CASE("a document that finds no room tells it and leaves nothing in the middle") {
    REQUIRE_FALSE(pages_into(10'000'000));
    for (const std::size_t room : {0U, 10U, 200U, 700U, 1'500U, 4'000U, 9'000U, 14'000U}) {
        CAPTURE(room);
        const std::optional<Refused> refused = pages_into(room);
        REQUIRE(refused);
        CHECK(refused->words == "the disk is full");
        CHECK(refused->asked_again == 0);
    }
}

TEST_CASE("a picture that finds no room tells it") {
    PageCanvas canvas = PageCanvas::picture(
        {}, 1.0, [](std::string_view) { throw std::runtime_error("the disk is full"); });
    CHECK_THROWS_WITH(canvas.finish(), "the disk is full");
}
