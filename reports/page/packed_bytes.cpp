#include "reports/page/packed_bytes.h"

#include "reports/text/plain_text.h"

namespace farwater::reports {

void append_count(std::string& bytes, std::uint64_t number) {
    for (; number >= 0x80; number >>= 7U) {
        bytes.push_back(static_cast<char>((number & 0x7FU) | 0x80U));
    }
    bytes.push_back(static_cast<char>(number));
}

void append_signed(std::string& bytes, std::int64_t number) {
    const auto twice = static_cast<std::uint64_t>(number) << 1U;
    append_count(bytes, number < 0 ? ~twice : twice);
}

void append_text(std::string& bytes, std::string_view text) {
    const std::string safe = mended(text);
    append_count(bytes, safe.size());
    bytes += safe;
}

std::string base64(std::string_view bytes) {
    constexpr std::string_view letters =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        std::uint32_t three = 0;
        for (std::size_t k = 0; k < 3; ++k) {
            const auto byte = i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0U;
            three = (three << 8U) | byte;
        }
        for (std::size_t k = 0; k < 4; ++k) {
            const bool filled = i + k <= bytes.size();
            text += filled ? letters[(three >> (18U - 6U * k)) & 63U] : '=';
        }
    }
    return text;
}

}  // namespace farwater::reports
