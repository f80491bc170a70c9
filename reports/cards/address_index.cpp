#include "reports/cards/address_index.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include <fmt/format.h>

#include "reports/cards/card_words.h"

namespace farwater::reports {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string in_capitals(std::string_view text) {
    std::string capitals(text);
    for (char& c : capitals) {
        c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    }
    return capitals;
}

// A house as it stands in the index.
struct House {
    std::string road, number;
    long value = 0;  // of the number; none is 0
    std::size_t row = 0;
    std::string shown;

    auto key() const { return std::tuple(in_capitals(road), value, in_capitals(number), row); }
};

long value_of_number(std::string_view number) {
    long value = 0;
    for (std::size_t i = 0; i < number.size() && is_digit(number[i]) && i < 9; ++i) {
        value = value * 10 + (number[i] - '0');
    }
    return value;
}

// The road that the drive begins at, where the address names none.
std::string road_of_access(const CardBook& book, std::size_t row) {
    const AccessPoint& access = book.findings.access[row];
    const std::string name =
        access.road.valid() ? name_words(at(book.district().roads, access.road).name) : "";
    return name.empty() ? "(road without a name)" : name;
}

House house_of(const CardBook& book, std::size_t row) {
    const Parcel& parcel = book.district().parcels[row];
    HouseAddress address = house_address(name_words(book.address(row)));
    House house{.road = address.road.empty() ? road_of_access(book, row) : address.road,
                .number = address.number,
                .value = value_of_number(address.number),
                .row = row,
                .shown = address.number};
    if (house.shown.empty()) {
        house.shown = "parcel " + name_words(parcel.id);
    }
    return house;
}

// Two houses with one number are told apart by their parcels.
void tell_apart(const CardBook& book, std::vector<House>& houses) {
    const auto same = [](const House& a, const House& b) {
        return a.value == b.value && in_capitals(a.number) == in_capitals(b.number) &&
               in_capitals(a.road) == in_capitals(b.road);
    };
    for (std::size_t begin = 0; begin < houses.size();) {
        std::size_t end = begin + 1;
        while (end < houses.size() && same(houses[begin], houses[end])) {
            ++end;
        }
        for (std::size_t i = begin; end - begin > 1 && i < end; ++i) {
            if (!houses[i].number.empty()) {
                const Parcel& parcel = book.district().parcels[houses[i].row];
                houses[i].shown =
                    fmt::format("{} (parcel {})", houses[i].number, name_words(parcel.id));
            }
        }
        begin = end;
    }
}

std::string instead_of_card(const CardBook& book, std::size_t row) {
    const supply::ParcelSupply& supply = book.findings.supply(row);
    if (supply.dump_site.valid()) {
        return "no card printed";
    }
    if (supply.mode == SupplyMode::direct || supply.mode == SupplyMode::relay) {
        return fmt::format("{} from {}", supply.mode == SupplyMode::direct ? "hose" : "relay",
                           supply.fill_source.valid()
                               ? name_words(at(book.district().sources, supply.fill_source).id)
                               : "a source");
    }
    return fmt::format("none: {}", supply.state == SupplyState::unknown
                                       ? "not known"
                                       : std::string(limit_sentence(supply.limit)));
}

void add_entry(const CardBook& book, IndexRoad& road, std::string shown, std::size_t row,
               std::optional<std::uint32_t> card) {
    std::string instead = card ? "" : instead_of_card(book, row);
    if (road.entries.empty() || road.entries.back().card != card ||
        road.entries.back().instead != instead) {
        road.entries.push_back({{}, card, std::move(instead)});
    }
    road.entries.back().houses.push_back(std::move(shown));
}

}  // namespace

HouseAddress house_address(std::string_view text) {
    const auto trimmed = [](std::string_view part) {
        const auto first = part.find_first_not_of(" ,");
        const auto last = part.find_last_not_of(" ,");
        return first == std::string_view::npos ? std::string_view{}
                                               : part.substr(first, last - first + 1);
    };
    std::string_view rest = trimmed(text);
    std::size_t end = 0;
    while (end < rest.size() && is_digit(rest[end])) {
        const std::size_t gap = std::min(rest.find_first_of(" ,", end), rest.size());
        end = gap;
        // "12 1/2" is one number, "12 1st Street" is not.
        const std::size_t next = std::min(rest.find_first_not_of(" ,", gap), rest.size());
        const std::size_t next_end = std::min(rest.find_first_of(" ,", next), rest.size());
        const std::string_view word = rest.substr(next, next_end - next);
        const bool fraction = word.find('/') != std::string_view::npos &&
                              word.find_first_not_of("0123456789/") == std::string_view::npos;
        if (!fraction) {
            break;
        }
        end = next;
    }
    const std::string_view number = trimmed(rest.substr(0, end));
    const std::string_view road = trimmed(rest.substr(end));
    // A number alone names no road; "1st Street" is a road.
    const bool ordinal = !number.empty() && number.back() >= 'a' && number.size() > 2 &&
                         value_of_number(number) > 0 &&
                         number.find_first_of("snrt") != std::string_view::npos;
    if (ordinal) {
        return {"", std::string(trimmed(text))};
    }
    return {std::string(number), std::string(road)};
}

std::vector<IndexRoad> address_index(const CardBook& book) {
    const auto cards = card_of_rows(book);
    const Findings& findings = book.findings;
    std::vector<House> houses;
    for (std::size_t row = 0; row < findings.parcels(); ++row) {
        if (findings.supply(row).state != SupplyState::no_building) {
            houses.push_back(house_of(book, row));
        }
    }
    std::ranges::sort(houses, {}, &House::key);
    tell_apart(book, houses);
    std::vector<IndexRoad> roads;
    for (House& house : houses) {
        if (roads.empty() || in_capitals(roads.back().name) != in_capitals(house.road)) {
            roads.push_back({house.road, {}});
        }
        add_entry(book, roads.back(), std::move(house.shown), house.row, cards[house.row]);
    }
    if (!findings.district.targets.empty()) {
        roads.push_back({"Other places", {}});
    }
    for (std::size_t row = findings.parcels(); row < cards.size(); ++row) {
        add_entry(book, roads.back(), book.place_name(row), row, cards[row]);
    }
    return roads;
}

}  // namespace farwater::reports
