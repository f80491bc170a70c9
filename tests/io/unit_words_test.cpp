#include "io/records/unit_words.h"

#include <catch2/catch.hpp>

#include "analyzer/district/assumptions.h"
#include "analyzer/district/units.h"
#include "io/settings/schema.h"

using namespace farwater;
using namespace farwater::io;

TEST_CASE("units convert by their exact factors") {
    CHECK(unit_factor("m", "ft").value() == Approx(1.0 / 0.3048).epsilon(1e-15));
    CHECK(unit_factor("km/h", "mph").value() == Approx(0.621371192237334).epsilon(1e-14));
    CHECK(unit_factor("tonne", "lb").value() == Approx(2204.62262184878).epsilon(1e-14));
    CHECK(unit_factor("short_ton", "lb") == 2000.0);
    CHECK(unit_factor("kw", "hp").value() == Approx(1.0 / 0.745699871582270).epsilon(1e-12));
    CHECK(unit_factor("l", "gal").value() == Approx(1.0 / 3.785411784).epsilon(1e-15));
    CHECK(unit_factor("l/s", "gpm").value() == Approx(15.850323141489).epsilon(1e-13));
    CHECK(unit_factor("mi", "ft") == 5280.0);
    CHECK(unit_factor("gpm", "gpm") == 1.0);
    CHECK(unit_factor("mm", "in").value() == Approx(1.0 / 25.4).epsilon(1e-14));
    CHECK(unit_factor("bar", "psi").value() == Approx(14.503773773).epsilon(1e-10));
    CHECK(unit_factor("kpa", "psi").value() == Approx(0.14503773773).epsilon(1e-10));
    CHECK(unit_factor("ha", "acre").value() == Approx(2.471053814671653).epsilon(1e-14));
    CHECK(unit_factor("sqft", "acre").value() == Approx(1.0 / 43560.0).epsilon(1e-14));
}

TEST_CASE("units of different things do not convert") {
    CHECK_FALSE(unit_factor("m", "gal"));
    CHECK_FALSE(unit_factor("tonne", "ft"));
    CHECK_FALSE(unit_factor("furlong", "ft"));
    CHECK_FALSE(unit_factor("ft", ""));
}

TEST_CASE("a name says its unit in its last part") {
    CHECK(unit_of_name("usable_gal") == "gal");
    CHECK(unit_of_name("hose_2_5in_ft") == "ft");
    CHECK(unit_of_name("suction_test_valid_months").empty());
    CHECK(unit_of_name("name").empty());
    CHECK(unit_of_name("supply_line_pressure_psi") == "psi");
    CHECK(unit_of_name("pipe_diameter_in") == "in");
    CHECK(unit_of_name("drought_area_acre") == "acre");
}

TEST_CASE("every field with a unit takes at least one other unit") {
    for (const SectionRow& section : section_rows()) {
        for (const FieldRow& field : section.fields) {
            CAPTURE(section.name, field.name);
            CHECK((unit_of_name(field.name).empty() ||
                   units_like(unit_of_name(field.name)).size() > 1));
        }
    }
}
