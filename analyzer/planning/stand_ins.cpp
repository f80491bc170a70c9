#include "analyzer/planning/stand_ins.h"

#include <algorithm>

namespace farwater::planning {
namespace {

// The first of those that stand in for each other.
std::size_t head_of(const std::vector<Candidate>& places, std::size_t place) {
    return places[place].stands_in_for.value_or(place);
}

// Per place: some of its group is of that ruling.
std::vector<char> groups_with(Ruling ruling, const std::vector<Candidate>& places,
                              const std::vector<Ruling>& rulings) {
    std::vector<char> any(places.size(), 0);
    for (std::size_t i = 0; i < places.size(); ++i) {
        if (rulings[i] == ruling) {
            any[head_of(places, i)] = 1;
        }
    }
    return any;
}

}  // namespace

void tell_stand_ins(std::vector<Candidate>& places, std::size_t first, Length within) {
    std::vector<std::size_t> own;
    for (std::size_t i = first; i < places.size(); ++i) {
        const auto near = std::ranges::find_if(own, [&](std::size_t other) {
            return distance(places[other].source.place, places[i].source.place) < within;
        });
        if (near != own.end()) {
            places[i].stands_in_for = *near;
            continue;
        }
        if (!own.empty()) {
            places[i].caution += (places[i].caution.empty() ? "" : "; ") +
                                 ("it draws on the water of " + places[first].source.id +
                                  ": what is sounded must do for both");
        }
        own.push_back(i);
    }
}

std::vector<std::uint32_t> let_stand_by(const std::vector<Candidate>& places,
                                        std::vector<Ruling>& rulings) {
    // Somebody of the group stands already.
    std::vector<char> taken = groups_with(Ruling::planned, places, rulings);
    std::vector<std::uint32_t> standing_by;
    for (std::uint32_t i = 0; i < places.size(); ++i) {
        if (rulings[i] != Ruling::open) {
            continue;
        }
        char& of_group = taken[head_of(places, i)];
        if (of_group != 0) {
            rulings[i] = Ruling::ruled_out;
            standing_by.push_back(i);
        }
        of_group = 1;
    }
    return standing_by;
}

std::vector<std::uint32_t> stand_ins_of(const std::vector<Candidate>& places, std::size_t place) {
    std::vector<std::uint32_t> others;
    const std::size_t head = head_of(places, place);
    for (std::uint32_t i = 0; i < places.size(); ++i) {
        if (i != place && head_of(places, i) == head) {
            others.push_back(i);
        }
    }
    return others;
}

}  // namespace farwater::planning
