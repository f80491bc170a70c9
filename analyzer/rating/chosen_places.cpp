#include "analyzer/rating/chosen_places.h"

#include <algorithm>
#include <functional>
#include <string_view>

namespace farwater::rating {
namespace {

using Fits = std::function<bool(const PlaceRating&)>;
using Number = std::function<double(const PlaceRating&)>;

class Choosing {
public:
    explicit Choosing(std::span<const PlaceRating> places) : places_(places) {}

    // Of those that fit by a number, ties by row.
    enum class Which : std::uint8_t { first, middle, last };
    void add(std::string_view why, Which which, const Fits& fits, const Number& number) {
        std::vector<std::size_t> rows;
        for (std::size_t row = 0; row < places_.size(); ++row) {
            if (places_[row].category != Category::no_building && fits(places_[row])) {
                rows.push_back(row);
            }
        }
        if (rows.empty()) {
            return;
        }
        std::ranges::stable_sort(rows, {}, [&](std::size_t row) { return number(places_[row]); });
        take(why, which == Which::first    ? rows.front()
                  : which == Which::middle ? rows[rows.size() / 2]
                                           : rows.back());
    }
    std::vector<ChosenPlace> chosen() && { return std::move(chosen_); }

private:
    void take(std::string_view why, std::size_t row) {
        const auto again = std::ranges::find(chosen_, row, &ChosenPlace::row);
        if (again == chosen_.end()) {
            chosen_.push_back({std::string(why), row});
        } else {
            again->why += "; " + std::string(why);
        }
    }

    std::span<const PlaceRating> places_;
    std::vector<ChosenPlace> chosen_;
};

}  // namespace

std::vector<ChosenPlace> chosen_places(std::span<const PlaceRating> parcels) {
    using enum Choosing::Which;
    const Fits near_with_water = [](const PlaceRating& place) {
        return place.category == Category::near_with_water;
    };
    const Fits brought = [](const PlaceRating& place) { return place.start.has_value(); };
    const Fits by_road = [](const PlaceRating& place) { return place.station_mi.has_value(); };
    const Fits not_held = [](const PlaceRating& place) { return place.fails == Fails::flow; };
    const Number credit = [](const PlaceRating& place) {
        return static_cast<double>(in_tenths(place.credited));
    };
    const Number start = [](const PlaceRating& place) {
        return static_cast<double>(supply::in_tenths(*place.start));
    };
    const Number distance = [](const PlaceRating& place) {
        return static_cast<double>(*place.station_mi);
    };
    const Number in_order = [](const PlaceRating&) { return 0.0; };
    Choosing choosing(parcels);
    choosing.add("least credited of those with water", first, near_with_water, credit);
    choosing.add("usual among those with water", middle, near_with_water, credit);
    choosing.add("earliest brought water", first, brought, start);
    choosing.add("usual start of brought water", middle, brought, start);
    choosing.add("latest brought water", last, brought, start);
    choosing.add("farthest from a station", last, by_road, distance);
    choosing.add("a place where the minimum flow is not held", first, not_held, in_order);
    return std::move(choosing).chosen();
}

}  // namespace farwater::rating
