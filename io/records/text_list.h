// Many short texts, kept one behind the other.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace farwater::io {

// A text costs its bytes and four more. Precondition: fewer than 4 GB in all.
class TextList {
public:
    void add(std::string_view text) {
        bytes_ += text;
        ends_.push_back(static_cast<std::uint32_t>(bytes_.size()));
    }
    std::size_t size() const { return ends_.size(); }
    std::string_view operator[](std::size_t i) const {
        const std::uint32_t begin = i == 0 ? 0 : ends_[i - 1];
        return std::string_view(bytes_).substr(begin, ends_[i] - begin);
    }

private:
    std::string bytes_;
    std::vector<std::uint32_t> ends_;
};

}  // namespace farwater::io
