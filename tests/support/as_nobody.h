// Rights of somebody who may read and search what all may, for tests that root runs too.
#pragma once

#include <filesystem>
#include <stdexcept>

#include <unistd.h>

namespace farwater::support {

// While it lives, root's tests have the rights of a user who owns nothing. Others stay who they
// are: files that nobody may read are closed to their owner too.
class AsNobody {
public:
    AsNobody() : was_root_(::geteuid() == 0) {
        constexpr uid_t nobody = 65534;
        if (was_root_ && ::seteuid(nobody) != 0) {
            throw std::runtime_error("cannot take the rights of nobody");
        }
    }
    ~AsNobody() {
        if (was_root_ && ::seteuid(0) != 0) {
            std::terminate();
        }
    }
    AsNobody(const AsNobody&) = delete;
    AsNobody& operator=(const AsNobody&) = delete;

private:
    bool was_root_;
};

// A folder that everybody may read and write in.
inline void open_to_all(const std::filesystem::path& folder) {
    std::filesystem::permissions(folder, std::filesystem::perms::all);
}

}  // namespace farwater::support
