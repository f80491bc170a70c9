// Choices of tankers at one fill site that were searched for, kept for whoever asks the same: other
// parcels and lays, a further engine, a further source somewhere else. No answer depends on what is
// kept, only its time does.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <mutex>
#include <optional>
#include <vector>

#include "analyzer/supply/filling/fingerprint.h"
#include "analyzer/supply/filling/tanker_choice.h"

namespace farwater::supply {

// May be asked by several threads.
class KeptChoices {
public:
    // Room for `most` choices or twice as many (at most 2^26), 40 bytes each; a fingerprint's first
    // bits say where, and there a further one takes the place of the one before. Told apart by that
    // place and 64 other bits: a billion questions are mistaken once in 10^10 times.
    explicit KeptChoices(std::size_t most);

    std::optional<Choice> find(const Fingerprint& of) const;
    void keep(const Fingerprint& of, const Choice& choice);

private:
    struct Kept {
        std::uint64_t rest = 0;  // of the fingerprint; 0: nothing
        Choice choice;
    };
    std::size_t place_of(const Fingerprint& of) const { return of.place() & (kept_.size() - 1); }
    std::mutex& guard_of(std::size_t place) const { return guards_[place % guards_.size()]; }

    std::vector<Kept> kept_;
    mutable std::array<std::mutex, 64> guards_;
};

}  // namespace farwater::supply
