#include "io/records/column_names.h"

#include <catch2/catch.hpp>

using namespace farwater::io;

using Names = std::vector<std::string>;
using Places = std::vector<int>;

TEST_CASE("what stands between letters and figures in a column's name is one underscore") {
    CHECK(plain_column_name(" Rate (GPM) ") == "rate_gpm");
    CHECK(plain_column_name("RATE-GPM") == "rate_gpm");
    CHECK(plain_column_name("rate\n[gpm]") == "rate_gpm");
    CHECK(plain_column_name("rate\u00a0gpm") == "rate_gpm");
    CHECK(plain_column_name("\ufeffrate_gpm\u200b") == "rate_gpm");
    CHECK(plain_column_name("RateGPM") == "rategpm");
    CHECK(plain_column_name("débit") == "débit");
    CHECK(plain_column_name(" - ").empty());
}

TEST_CASE("the column that is written the same goes before others that can be meant") {
    CHECK(columns_called("rate_gpm", Names{"Rate GPM", "RATE_GPM", "rate_gpm"}) == Places{2});
    CHECK(columns_called("rate_gpm", Names{"Rate GPM", "RATE_GPM"}) == Places{1});
    CHECK(columns_called("rate_gpm", Names{"x", "Rate (GPM)"}) == Places{1});
    CHECK(columns_called("rate_gpm", Names{"Rate GPM", "Rate (GPM)"}) == Places{0, 1});
    CHECK(columns_called("kind", Names{"kind", "id", "kind"}) == Places{0, 2});
    CHECK(columns_called("one_way", Names{"ONEWAY", "rate", "-", ""}).empty());
}
