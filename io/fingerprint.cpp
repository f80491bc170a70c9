#include "io/fingerprint.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <memory>

#include <openssl/evp.h>

namespace farwater::io {
namespace {

// One running sha256.
class Sha256 {
public:
    Sha256() : context_(EVP_MD_CTX_new(), &EVP_MD_CTX_free) {
        EVP_DigestInit_ex(context_.get(), EVP_sha256(), nullptr);
    }

    void add(std::string_view bytes) {
        EVP_DigestUpdate(context_.get(), bytes.data(), bytes.size());
    }

    std::string hex() {
        std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
        unsigned size = 0;
        EVP_DigestFinal_ex(context_.get(), digest.data(), &size);
        constexpr std::string_view digits = "0123456789abcdef";
        std::string text;
        for (unsigned i = 0; i < size; ++i) {
            text += digits[digest[i] >> 4U];
            text += digits[digest[i] & 15U];
        }
        return text;
    }

private:
    std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> context_;
};

}  // namespace

std::string sha256_of_file(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    std::error_code error;
    if (!std::filesystem::is_regular_file(file, error) || !stream.is_open()) {
        return {};
    }
    constexpr std::size_t block_size = 1U << 20U;
    const auto block = std::make_unique<std::array<char, block_size>>();
    Sha256 sha;
    while (stream) {
        stream.read(block->data(), block_size);
        sha.add({block->data(), static_cast<std::size_t>(stream.gcount())});
    }
    return stream.bad() ? std::string() : sha.hex();
}

std::string sha256_of_text(std::string_view text) {
    Sha256 sha;
    sha.add(text);
    return sha.hex();
}

std::string sha256_of_files(std::vector<std::filesystem::path> files) {
    if (files.empty()) {
        return {};
    }
    if (files.size() == 1) {
        return sha256_of_file(files.front());
    }
    std::sort(files.begin(), files.end(),
              [](const auto& a, const auto& b) { return a.filename() < b.filename(); });
    std::string lines;
    for (const std::filesystem::path& file : files) {
        lines += file.filename().string() + " " + sha256_of_file(file) + "\n";
    }
    return sha256_of_text(lines);
}

}  // namespace farwater::io
