#include "analyzer/supply/kept_choices.h"

#include <algorithm>
#include <bit>

namespace farwater::supply {
namespace {

constexpr std::size_t most_of_all = std::size_t{1} << 26;

}  // namespace

KeptChoices::KeptChoices(std::size_t most)
    : kept_(std::bit_ceil(std::clamp<std::size_t>(most, 1, most_of_all))) {}

std::optional<Choice> KeptChoices::find(const Fingerprint& of) const {
    const std::size_t place = place_of(of);
    const std::scoped_lock lock(guard_of(place));
    const Kept& kept = kept_[place];
    return kept.rest == of.rest() && kept.rest != 0 ? std::optional(kept.choice) : std::nullopt;
}

void KeptChoices::keep(const Fingerprint& of, const Choice& choice) {
    const std::size_t place = place_of(of);
    const std::scoped_lock lock(guard_of(place));
    kept_[place] = {of.rest(), choice};
}

}  // namespace farwater::supply
