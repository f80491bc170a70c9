#include "io/out_folder.h"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>

#include <fcntl.h>
#include <unistd.h>

#include "io/files/disk.h"
#include "io/files/out_folder_lock.h"

namespace farwater::io {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view new_suffix = ".new-";
constexpr std::string_view old_suffix = ".old-";
constexpr int most_links = 40;

// The folder itself, not a link to it: what stands beside it must be on the same disk.
fs::path resolved(const fs::path& dir) {
    std::error_code error;
    fs::path path = fs::absolute(dir, error).lexically_normal();
    for (int i = 0; i < most_links; ++i) {
        path = path.has_filename() ? path : path.parent_path();
        if (!fs::is_symlink(path, error)) {
            break;
        }
        path = (path.parent_path() / fs::read_symlink(path, error)).lexically_normal();
    }
    if (!path.has_filename()) {
        throw OutputError(dir.string() + ": cannot be a result folder. Give another with --out.");
    }
    return fs::weakly_canonical(path.parent_path(), error) / path.filename();
}

fs::path beside(const fs::path& dir, std::string_view suffix, std::string_view name) {
    return dir.string().append(suffix).append(name);
}

// DIR.new-17, DIR.new-4711 ...: what runs made beside DIR, ours or empty, sorted.
std::vector<fs::path> leftovers(const fs::path& dir, std::string_view suffix) {
    std::vector<fs::path> found;
    std::error_code error;
    const std::string begin = dir.filename().string().append(suffix);
    for (auto entry = fs::directory_iterator(dir.parent_path(), error);
         !error && entry != fs::directory_iterator(); entry.increment(error)) {
        const std::string name = entry->path().filename().string();
        const bool numbered =
            name.size() > begin.size() && name.starts_with(begin) &&
            name.find_first_not_of("0123456789", begin.size()) == std::string::npos;
        std::error_code ignored;
        if (numbered && fs::is_directory(entry->symlink_status(ignored)) &&
            (is_barely_begun(entry->path()) || read_mark(entry->path()))) {
            found.push_back(entry->path());
        }
    }
    std::ranges::sort(found);
    return found;
}

void remove_folder(const fs::path& folder) noexcept {
    std::error_code error;
    fs::remove_all(folder, error);
}

void rename_folder(const fs::path& from, const fs::path& to) {
    if (::rename(from.c_str(), to.c_str()) != 0) {
        throw disk_error(to, "put the result in its place");
    }
}

// Also while another thread still writes into it by its name. `aside`: another name that the next
// run clears too.
void remove_folder_in_use(const fs::path& folder, const fs::path& aside) noexcept {
    remove_folder(::rename(folder.c_str(), aside.c_str()) == 0 ? aside : folder);
}

// A run was killed between its two renames: the new result is whole and steps in; without one the
// old result comes back.
void finish_or_undo(const fs::path& dir) {
    const std::vector<fs::path> old = leftovers(dir, old_suffix);
    if (stands(dir) || old.empty()) {
        return;
    }
    for (const fs::path& made : leftovers(dir, new_suffix)) {
        const auto mark = read_mark(made);
        if (mark && mark->complete) {
            rename_folder(made, dir);
            sync_to_disk(dir.parent_path());
            return;
        }
    }
    rename_folder(old.back(), dir);
    sync_to_disk(dir.parent_path());
}

// Precondition: the lock is held, so nobody works on any of it.
void clear_leftovers(const fs::path& dir) {
    finish_or_undo(dir);
    for (const std::string_view suffix : {new_suffix, old_suffix}) {
        for (const fs::path& folder : leftovers(dir, suffix)) {
            remove_folder(folder);
        }
    }
}

void require_no_input_inside(const fs::path& dir, const std::vector<fs::path>& inputs) {
    std::error_code error;
    for (const fs::path& input : inputs) {
        const fs::path inside = fs::weakly_canonical(fs::absolute(input, error), error);
        const auto [end, rest] = std::ranges::mismatch(dir, inside);
        if (end == dir.end()) {
            throw OutputError(input.string() +
                              ": is an input of this run and lies in the result "
                              "folder " +
                              dir.string() +
                              ", which is replaced as a whole. Give another folder with --out. "
                              "Nothing was changed.");
        }
    }
}

// False where the file system knows no exchange.
bool exchange(const fs::path& made, const fs::path& dir) {
    const unsigned flags = stands(dir) ? RENAME_EXCHANGE : RENAME_NOREPLACE;
    if (::renameat2(AT_FDCWD, made.c_str(), AT_FDCWD, dir.c_str(), flags) == 0) {
        return true;
    }
    if (errno == EINVAL || errno == ENOSYS || errno == EOPNOTSUPP) {
        return false;
    }
    throw disk_error(dir, "put the new result in its place (the old one is untouched)");
}

// `aside`: where the old one waits.
void rename_twice(const fs::path& made, const fs::path& dir, const fs::path& aside) {
    if (!stands(dir)) {
        rename_folder(made, dir);
        return;
    }
    rename_folder(dir, aside);
    if (::rename(made.c_str(), dir.c_str()) != 0) {
        const int reason = errno;
        rename_folder(aside, dir);
        throw disk_error(dir, "put the new result in its place (the old one is untouched)", reason);
    }
}

// Whoever could read the old folder can read the new one.
void keep_rights(const fs::path& dir, const fs::path& made) {
    std::error_code error;
    const fs::file_status old = fs::status(dir, error);
    if (fs::is_directory(old)) {
        fs::permissions(made, old.permissions(), error);
    }
}

}  // namespace

struct OutFolder::State {
    fs::path dir;
    fs::path made;     // DIR.new-PID
    fs::path aside;    // DIR.old-PID
    fs::path refused;  // DIR.new-PID0
    std::optional<FolderLock> lock;
    std::mutex deciding;  // between commit and abandon
    bool decided = false;
};

OutFolder::OutFolder(std::unique_ptr<State> state) : state_(std::move(state)) {}
OutFolder::OutFolder(OutFolder&&) noexcept = default;
OutFolder& OutFolder::operator=(OutFolder&& other) noexcept {
    std::swap(state_, other.state_);
    return *this;
}

OutFolder::~OutFolder() {
    if (state_) {
        abandon();
    }
}

const fs::path& OutFolder::folder() const { return state_->made; }

OutFolder OutFolder::begin(const fs::path& dir, const std::vector<fs::path>& inputs) {
    auto state = std::make_unique<State>();
    state->dir = resolved(dir);
    std::error_code error;
    fs::create_directories(state->dir.parent_path(), error);
    if (error) {
        throw disk_error(state->dir.parent_path(), "make it", error.value());
    }
    state->lock = FolderLock::take(state->dir);
    if (!state->lock) {
        throw OutputError(state->dir.string() + ": another run is writing there (it holds " +
                          state->dir.string() +
                          ".lock). Wait for it, or give another folder with "
                          "--out. Nothing was changed.");
    }
    clear_leftovers(state->dir);
    require_no_input_inside(state->dir, inputs);
    require_replaceable(state->dir);

    const std::string pid = std::to_string(::getpid());
    state->aside = beside(state->dir, old_suffix, pid);
    const fs::path made = beside(state->dir, new_suffix, pid);
    if (!fs::create_directory(made, error) || error) {
        throw error ? disk_error(made, "make it", error.value())
                    : OutputError(made.string() + ": is in the way and is not ours. Move it away.");
    }
    state->made = made;
    state->refused = made.string() + "0";
    OutFolder folder(std::move(state));
    mark_unfinished(folder.folder());
    return folder;
}

void OutFolder::commit(Swap swap) {
    mark_complete(state_->made);
    sync_tree_to_disk(state_->made);

    const std::lock_guard lock(state_->deciding);
    if (state_->decided) {
        throw OutputError(state_->dir.string() +
                          ": the run was stopped. The old result is untouched.");
    }
    require_replaceable(state_->dir);
    keep_rights(state_->dir, state_->made);
    if (swap != Swap::exchange || !exchange(state_->made, state_->dir)) {
        rename_twice(state_->made, state_->dir, state_->aside);
    }
    state_->decided = true;
    sync_to_disk(state_->dir.parent_path());
    remove_folder(state_->made);  // the old result, after an exchange
    remove_folder(state_->aside);
    state_->lock.reset();
}

void OutFolder::abandon() noexcept {
    const std::lock_guard lock(state_->deciding);
    if (!state_->decided) {
        state_->decided = true;
        remove_folder_in_use(state_->made, state_->refused);
        state_->lock.reset();
    }
}

void settle_out_folder(const fs::path& dir) {
    const fs::path target = resolved(dir);
    if (stands(target) || leftovers(target, old_suffix).empty()) {
        return;
    }
    if (const auto lock = FolderLock::take(target)) {
        clear_leftovers(target);
    }
}

}  // namespace farwater::io
