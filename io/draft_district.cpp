#include "io/draft_district.h"

#include <algorithm>
#include <system_error>
#include <utility>

#include <fmt/format.h>
#include <unistd.h>

#include "io/draft/compose_draft.h"
#include "io/draft/department_workbook.h"
#include "io/draft/find_data.h"
#include "io/draft/look_at_data.h"
#include "io/draft/look_at_words.h"
#include "io/error.h"
#include "io/files/disk.h"
#include "io/whole_file.h"

namespace farwater::io {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_data_sets = 1000;
constexpr std::string_view district_file_name = "district.toml";

// What all data sets of a folder show.
struct FolderLook {
    std::vector<LayerLook> layers;
    std::vector<RasterLook> rasters;
    std::vector<PassedOver> left_out;
};

bool has_column(const LayerLook& look, std::string_view name) {
    return std::ranges::find(look.columns, name, &ColumnLook::name) != look.columns.end();
}

// The areas of an OpenStreetMap file are several things in one layer.
std::vector<LayerLook> parts_of(LayerLook look) {
    std::vector<LayerLook> parts;
    const auto part = [&](std::string_view column, std::string where, std::string called) {
        if (look.is_osm && look.shape == LookShape::area && has_column(look, column)) {
            LayerLook one = look;
            one.where = std::move(where);
            one.called = std::move(called);
            one.printed += fmt::format(" ({})", one.called);
            parts.push_back(std::move(one));
        }
    };
    part("building", "building IS NOT NULL", "buildings");
    part("natural", "\"natural\" = 'water'", "water");
    if (parts.empty()) {
        parts.push_back(std::move(look));
    }
    return parts;
}

FolderLook look_at_folder(const fs::path& folder, const DataFound& found, const Work& work) {
    FolderLook all;
    all.left_out = found.left_out;
    for (std::size_t i = 0; i < found.sets.size() && !work.stopped(); ++i) {
        work.step("looking at data", i, found.sets.size());
        DataLook look = look_at_data(folder, found.sets[i]);
        for (LayerLook& layer : look.layers) {
            std::ranges::move(parts_of(std::move(layer)), std::back_inserter(all.layers));
        }
        std::ranges::move(look.rasters, std::back_inserter(all.rasters));
        std::ranges::move(look.left_out, std::back_inserter(all.left_out));
    }
    return all;
}

std::string district_name(const fs::path& folder) {
    std::error_code error;
    fs::path whole = fs::weakly_canonical(folder, error);
    whole = whole.has_filename() ? whole : whole.parent_path();
    const std::string name = as_printed(whole.filename().string());
    return name.empty() || name == "/" ? "District" : name;
}

void require_no_file(const fs::path& file) {
    if (stands(file)) {
        throw OutputError(
            file.string() +
            ": is there already and is not written over; move it away to begin anew.");
    }
}

[[noreturn]] void fail_on_nothing(const fs::path& folder, std::size_t sets,
                                  const std::vector<DraftLeftOut>& left_out) {
    std::string seen;
    for (std::size_t i = 0; i < left_out.size() && i < 5; ++i) {
        seen += fmt::format("{}{} ({})", i == 0 ? "; passed over: " : ", ", left_out[i].source,
                            left_out[i].why);
    }
    throw InputError(fmt::format(
        "{}: {} there is told to be parcels, roads or another table; put the county's layers into "
        "it{}.",
        folder.string(), sets == 0 ? "no data" : "nothing", seen));
}

// A file that was made beside and is removed unless it was kept.
class MadeBeside {
public:
    explicit MadeBeside(fs::path file) : file_(std::move(file)) {}
    ~MadeBeside() {
        std::error_code ignored;
        if (!file_.empty()) {
            fs::remove(file_, ignored);
        }
    }
    MadeBeside(const MadeBeside&) = delete;
    MadeBeside& operator=(const MadeBeside&) = delete;
    const fs::path& path() const { return file_; }
    void moved_to(fs::path file) { file_ = std::move(file); }
    void keep() { file_.clear(); }

private:
    fs::path file_;
};

}  // namespace

Draft draft_district(const std::filesystem::path& folder, const Work& work) {
    Draft draft;
    draft.folder = folder;
    const DataFound found = find_data(folder, most_data_sets);
    require_no_file(folder / district_file_name);
    FolderLook look = look_at_folder(folder, found, work);
    // Told by samples; then the words of what was told from all records.
    look_at_words(folder, columns_of_words(recognise(look.layers, look.rasters), look.layers),
                  look.layers, work);
    if (work.stopped()) {
        return draft;
    }
    const Recognised recognised = recognise(look.layers, look.rasters);
    draft.files = found.sets.size();
    draft.other_files = found.others;
    for (const auto* list : {&std::as_const(look.left_out), &recognised.left_out}) {
        for (const PassedOver& one : *list) {
            draft.left_out.push_back({one.source, one.why});
        }
    }
    std::ranges::stable_sort(draft.left_out, {}, &DraftLeftOut::source);
    const std::vector<std::string> sheets = sheets_needed(recognised);
    draft.tables = tables_told(recognised, sheets);
    const bool some = std::ranges::any_of(recognised.sections,
                                          [](const auto& list) { return !list.second.empty(); });
    if (draft.tables.empty() && !some) {
        fail_on_nothing(folder, draft.files, draft.left_out);
    }
    draft.sheets = sheets;
    if (!sheets.empty()) {
        require_no_file(folder / workbook_name);
    }
    draft.missing = missing_told(recognised, sheets);
    draft.district_file = compose_district_file(recognised, sheets, district_name(folder));
    return draft;
}

std::vector<std::filesystem::path> write_draft(const Draft& draft) {
    const fs::path district = draft.folder / district_file_name;
    const fs::path workbook = draft.folder / workbook_name;
    require_no_file(district);
    std::vector<fs::path> written{district};
    MadeBeside made(draft.sheets.empty()
                        ? fs::path()
                        : fs::path(workbook.string() + ".new-" + std::to_string(::getpid())));
    WholeFile file(district);
    file.write(draft.district_file);
    if (!draft.sheets.empty()) {
        write_department_workbook(made.path(), {draft.sheets.begin(), draft.sheets.end()});
        sync_to_disk(made.path());
        require_no_file(workbook);
        std::error_code error;
        fs::rename(made.path(), workbook, error);
        if (error) {
            throw disk_error(workbook, "put the new file in its place", error.value());
        }
        made.moved_to(workbook);
        written.push_back(workbook);
    }
    file.finish();
    sync_to_disk(district);
    made.keep();
    return written;
}

}  // namespace farwater::io
