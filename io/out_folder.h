// The folder of a result: the old one stays until the new one is whole, then both change places in
// one step. Whatever kills a run, DIR holds one whole result afterwards (or the next begin() or
// settle_out_folder() puts it there).
//
//   DIR           the result; `.farwater-results` in it says that it is ours and lists its files
//   DIR.new-PID   the result in the making; removed by the next run where a run was killed
//   DIR.old-PID   the old one for a moment, only where the file system cannot exchange two folders
//   DIR.lock      held while a run works; a leftover does no harm
#pragma once

#include <filesystem>
#include <memory>
#include <vector>

namespace farwater::io {

// How the folders change places. `exchange` falls back to `two_renames` by itself.
enum class Swap { exchange, two_renames };

class OutFolder {
public:
    // Locks DIR, clears what a killed run left, makes the folder to write into. DIR may be absent,
    // empty or an older result. Throws OutputError, leaving everything as it is: another run is at
    // work; DIR holds files that are not ours; it holds one of `inputs` (files or folders, also the
    // district file); a GeoPackage in it is open in another program (a -wal, -shm or -journal
    // beside it); no right to write.
    static OutFolder begin(const std::filesystem::path& dir,
                           const std::vector<std::filesystem::path>& inputs);

    OutFolder(const OutFolder&) = delete;
    OutFolder& operator=(const OutFolder&) = delete;
    OutFolder(OutFolder&&) noexcept;
    OutFolder& operator=(OutFolder&&) noexcept;
    ~OutFolder();  // not committed: as abandon()

    // Where the run writes its files, under their final names.
    const std::filesystem::path& folder() const;

    // Everything to the disk, then the exchange, then the old result is removed. Throws OutputError
    // when something fails before the exchange: the old result is untouched.
    void commit(Swap swap = Swap::exchange);

    // Removes the unfinished folder and gives the lock back; the old result stays. For any thread
    // (Interrupt calls it while others still write); nothing happens after commit().
    void abandon() noexcept;

private:
    struct State;
    explicit OutFolder(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

// For commands that read a result: finishes or undoes what a run killed between two renames left.
// Does nothing while a run is at work or where there is nothing to mend. Throws OutputError.
void settle_out_folder(const std::filesystem::path& dir);

}  // namespace farwater::io
