#include "analyzer/planning/worth_a_look.h"

#include <algorithm>
#include <queue>
#include <utility>

#include "analyzer/geometry/point_index.h"
#include "analyzer/planning/number_words.h"

namespace farwater::planning {
namespace {

Box around(Point place, double reach) {
    Box box;
    box.include({place.x - reach, place.y - reach});
    box.include({place.x + reach, place.y + reach});
    return box;
}

bool any_within(std::span<const Point> points, Point place, double reach) {
    return std::ranges::any_of(
        points, [&](Point p) { return distance_squared(p, place) <= reach * reach; });
}

std::vector<Point> houses_of(const District& district) {
    std::vector<Point> houses;
    houses.reserve(district.parcels.size());
    for (const Parcel& parcel : district.parcels) {
        houses.push_back(parcel.house);
    }
    return houses;
}

// Places asked with what they had missing near them when they were asked last: never less than now.
class Thinning {
public:
    Thinning(const District& district, const CisternNeeds& needs)
        : needs_(needs),
          houses_(houses_of(district)),
          index_(houses_),
          missing_(needs.missing.begin(), needs.missing.end()),
          reach_(in_metres(district.assumptions.new_cistern_serves)),
          apart_(in_metres(district.assumptions.new_cistern_apart)),
          most_(static_cast<std::size_t>(district.assumptions.most_new_cisterns)) {}

    std::vector<PassedOver> result() {
        std::vector<PassedOver> passed(needs_.places.size(), PassedOver::beyond_the_most);
        for (std::uint32_t i = 0; i < passed.size(); ++i) {
            if (any_within(needs_.as_strong, needs_.places[i].place, apart_)) {
                passed[i] = PassedOver::strong_source_near;
            } else {
                ask(i, passed[i]);
            }
        }
        while (!asked_.empty() && taken_.size() < most_) {
            take_or_ask_again(passed);
        }
        return passed;
    }

private:
    struct Asked {
        Gain missing = 0;
        std::uint32_t place = 0;
        std::size_t taken = 0;  // places by then

        friend bool operator<(const Asked& a, const Asked& b) {
            return std::pair(a.missing, b.place) < std::pair(b.missing, a.place);
        }
    };

    template <class Visit>
    void visit_near(Point place, Visit visit) const {
        for (const std::uint32_t parcel : index_.inside(around(place, reach_))) {
            if (missing_[parcel] > 0 &&
                distance_squared(houses_[parcel], place) <= reach_ * reach_) {
                visit(parcel);
            }
        }
    }

    void ask(std::uint32_t place, PassedOver& passed) {
        Gain sum = 0;
        visit_near(needs_.places[place].place,
                   [&](std::uint32_t parcel) { sum += missing_[parcel]; });
        if (sum > 0) {
            asked_.push({sum, place, taken_.size()});
        } else {
            passed = PassedOver::nothing_missing_near;
        }
    }

    void take_or_ask_again(std::vector<PassedOver>& passed) {
        const Asked best = asked_.top();
        asked_.pop();
        const Point place = needs_.places[best.place].place;
        if (any_within(taken_, place, apart_)) {
            passed[best.place] = PassedOver::place_near;
        } else if (best.taken < taken_.size()) {
            ask(best.place, passed[best.place]);
        } else {
            passed[best.place] = PassedOver::no;
            taken_.push_back(place);
            visit_near(place, [this](std::uint32_t parcel) { missing_[parcel] = 0; });
        }
    }

    const CisternNeeds& needs_;
    std::vector<Point> houses_;  // per parcel
    PointIndex index_;
    std::vector<Gain> missing_;  // per parcel: near none of the places taken
    double reach_, apart_;       // metres
    std::size_t most_;
    std::priority_queue<Asked> asked_;
    std::vector<Point> taken_;
};

std::string in_ft(Length length) { return whole_words(in_feet(length)) + " ft"; }

}  // namespace

std::vector<PassedOver> passed_over(const District& district, const CisternNeeds& needs) {
    return Thinning(district, needs).result();
}

std::string reason_of(PassedOver passed, const Assumptions& assumptions) {
    switch (passed) {
        case PassedOver::no:
            break;
        case PassedOver::strong_source_near:
            return "a source or an idea of your own that is no weaker lies within " +
                   in_ft(assumptions.new_cistern_apart) + " (new_cistern_apart_ft)";
        case PassedOver::nothing_missing_near:
            return "no flow is missing within " + in_ft(assumptions.new_cistern_serves) +
                   " that no place of a cistern before it has near (new_cistern_serves_ft)";
        case PassedOver::place_near:
            return "within " + in_ft(assumptions.new_cistern_apart) +
                   " of a place with more missing near it (new_cistern_apart_ft)";
        case PassedOver::beyond_the_most:
            return "not among the " + std::to_string(assumptions.most_new_cisterns) +
                   " with most flow missing near them (most_new_cisterns)";
    }
    return {};
}

}  // namespace farwater::planning
