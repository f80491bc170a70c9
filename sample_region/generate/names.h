// Invented names: roads, ponds, farms. Every name is handed out once.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sample_region/generate/random.h"

namespace farwater::sample {

class Names {
public:
    explicit Names(std::uint64_t seed);
    // A fresh base word such as "Hollow"; numbered once all are used up.
    std::string word();
    std::string road(const char* suffix) { return word() + " " + suffix; }

private:
    std::vector<std::string> left_;
    Random random_;
    int used_up_ = 0;
};

}  // namespace farwater::sample
