#include "io/spatial_index.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <limits>
#include <numeric>
#include <span>

#include <cpl_vsi.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/dataset.h"
#include "io/error.h"

namespace farwater::io {

namespace {

// --- what GDAL would write ---------------------------------------------------------------------

// The statements that make an empty index of the layer and keep it up to date.
struct Recipe {
    std::string create;                 // the virtual table
    std::vector<std::string> triggers;  // to be made after the filling
    std::string extension;              // the row of gpkg_extensions
};

std::vector<std::string> column_of(GDALDataset& dataset, const std::string& sql) {
    std::vector<std::string> texts;
    OGRLayer* rows = dataset.ExecuteSQL(sql.c_str(), nullptr, nullptr);
    if (rows == nullptr) {
        return texts;
    }
    for (const auto& row : *rows) {
        texts.emplace_back(row->GetFieldAsString(0));
    }
    dataset.ReleaseResultSet(rows);
    return texts;
}

std::string create_index_sql(const std::string& table) {
    return "SELECT CreateSpatialIndex(" + sql_text(table) + ", 'geom')";
}

// Read from an empty layer of the same name that GDAL makes in memory.
Recipe recipe_of(const std::string& table) {
    const GdalMessages messages;
    const std::string path = "/vsimem/farwater/index_recipe.gpkg";
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GPKG");
    Recipe recipe;
    {
        const GDALDatasetUniquePtr model(
            driver->Create(path.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
        if (!model || model->CreateLayer(table.c_str(), nullptr, wkbPoint) == nullptr) {
            throw OutputError("The recipe of a spatial index cannot be made: " + messages.text());
        }
        column_of(*model, create_index_sql(table));
        const std::string index = sql_text("rtree_" + table + "_geom");
        const auto create =
            column_of(*model, "SELECT sql FROM sqlite_master WHERE name = " + index);
        recipe.triggers = column_of(*model,
                                    "SELECT sql FROM sqlite_master WHERE type = 'trigger' AND "
                                    "substr(name, 1, length(" +
                                        index + ")) = " + index);
        const auto extension = column_of(
            *model,
            "SELECT 'INSERT INTO gpkg_extensions VALUES(' || quote(table_name) || ',' || "
            "quote(column_name) || ',' || quote(extension_name) || ',' || quote(definition) || ',' "
            "|| quote(scope) || ')' FROM gpkg_extensions WHERE extension_name = "
            "'gpkg_rtree_index'");
        if (create.size() != 1 || recipe.triggers.empty() || extension.size() != 1) {
            throw OutputError("The recipe of a spatial index cannot be read: " + messages.text());
        }
        recipe.create = create[0];
        recipe.extension = extension[0];
    }
    VSIUnlink(path.c_str());
    return recipe;
}

// --- the order of the boxes --------------------------------------------------------------------

// Distance along the Hilbert curve through the 2^16 x 2^16 cells of a square.
std::uint32_t along_hilbert_curve(std::uint32_t x, std::uint32_t y) {
    std::uint32_t distance = 0;
    for (std::uint32_t side = 1U << 15; side > 0; side >>= 1) {
        const std::uint32_t right = (x & side) != 0 ? 1 : 0;
        const std::uint32_t upper = (y & side) != 0 ? 1 : 0;
        distance += side * side * ((3 * right) ^ upper);
        if (upper == 0) {
            if (right == 1) {
                x = ~x;
                y = ~y;
            }
            std::swap(x, y);
        }
    }
    return distance;
}

IndexBox cover(const IndexBox& a, const IndexBox& b) {
    return {a.fid, std::min(a.min_x, b.min_x), std::max(a.max_x, b.max_x),
            std::min(a.min_y, b.min_y), std::max(a.max_y, b.max_y)};
}

IndexBox cover_all(std::span<const IndexBox> boxes) {
    return std::accumulate(boxes.begin() + 1, boxes.end(), boxes.front(), cover);
}

std::uint32_t cell(float low, float high, float origin, float extent) {
    const double middle = (static_cast<double>(low) + static_cast<double>(high)) / 2.0;
    const double share =
        extent > 0.0F ? (middle - static_cast<double>(origin)) / static_cast<double>(extent) : 0.0;
    return static_cast<std::uint32_t>(std::clamp(share, 0.0, 1.0) * 65535.0);
}

// Places of the boxes in the order along the curve; equal ones in their own order.
std::vector<std::uint32_t> curve_order(const std::vector<IndexBox>& boxes) {
    const IndexBox all = cover_all(boxes);
    const float extent = std::max(all.max_x - all.min_x, all.max_y - all.min_y);
    std::vector<std::uint64_t> keys(boxes.size());
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        const IndexBox& box = boxes[i];
        const std::uint64_t key =
            along_hilbert_curve(cell(box.min_x, box.max_x, all.min_x, extent),
                                cell(box.min_y, box.max_y, all.min_y, extent));
        keys[i] = key << 32 | i;
    }
    std::ranges::sort(keys);
    std::vector<std::uint32_t> order(boxes.size());
    std::ranges::transform(keys, order.begin(),
                           [](std::uint64_t key) { return static_cast<std::uint32_t>(key); });
    return order;
}

// --- the nodes ---------------------------------------------------------------------------------

constexpr std::size_t header_bytes = 4;  // depth of the tree (root only), number of cells
constexpr std::size_t cell_bytes = 24;   // 64 bit id, then min x, max x, min y, max y in 32 bits

template <typename Number>
void append_big_endian(std::vector<unsigned char>& bytes, Number number) {
    for (std::size_t i = sizeof(Number); i > 0; --i) {
        bytes.push_back(static_cast<unsigned char>(number >> (8 * (i - 1))));
    }
}

// `box.fid`: the feature in a leaf, the child node's number elsewhere.
void append_cell(std::vector<unsigned char>& bytes, const IndexBox& box) {
    append_big_endian(bytes, static_cast<std::uint64_t>(box.fid));
    for (const float side : {box.min_x, box.max_x, box.min_y, box.max_y}) {
        append_big_endian(bytes, std::bit_cast<std::uint32_t>(side));
    }
}

std::vector<unsigned char> node_bytes(std::size_t size, std::size_t depth,
                                      std::span<const IndexBox> cells) {
    std::vector<unsigned char> bytes;
    bytes.reserve(size);
    append_big_endian(bytes, static_cast<std::uint16_t>(depth));
    append_big_endian(bytes, static_cast<std::uint16_t>(cells.size()));
    for (const IndexBox& cell : cells) {
        append_cell(bytes, cell);
    }
    bytes.resize(size, 0);
    return bytes;
}

constexpr std::int64_t root = 1;

// Writes the tree level by level, leaves first; the root has the number 1 and was there before.
class TreeWriter {
public:
    TreeWriter(SqliteFile& file, const std::string& index)
        : node_size_(static_cast<std::size_t>(file.integer(
              "SELECT length(data) FROM " + sql_name(index + "_node") + " WHERE nodeno = 1"))),
          add_node_(file.prepare("REPLACE INTO " + sql_name(index + "_node") + " VALUES(?, ?)")),
          add_parent_(file.prepare("INSERT INTO " + sql_name(index + "_parent") + " VALUES(?, ?)")),
          add_feature_(
              file.prepare("INSERT INTO " + sql_name(index + "_rowid") + " VALUES(?, ?)")) {}

    // False when the table's nodes are not of the documented kind.
    bool usable() const { return node_size_ >= header_bytes + 2 * cell_bytes; }

    void write(const std::vector<IndexBox>& boxes);

private:
    std::vector<IndexBox> write_level(std::span<const IndexBox> cells, std::size_t depth);

    std::size_t node_size_;
    SqliteStatement add_node_;
    SqliteStatement add_parent_;
    SqliteStatement add_feature_;
    std::int64_t next_ = root + 1;
    std::vector<std::size_t> ends_;  // of the nodes of the level written last, in its cells
};

// The level's nodes, each evenly filled; comes back with one cell for each node.
std::vector<IndexBox> TreeWriter::write_level(std::span<const IndexBox> cells, std::size_t depth) {
    const std::size_t room = (node_size_ - header_bytes) / cell_bytes;
    const std::size_t nodes = (cells.size() + room - 1) / room;
    std::vector<IndexBox> above;
    above.reserve(nodes);
    ends_.clear();
    for (std::size_t i = 0; i < nodes; ++i) {
        const std::size_t begin = cells.size() * i / nodes;
        const std::size_t end = cells.size() * (i + 1) / nodes;
        const auto part = cells.subspan(begin, end - begin);
        const std::int64_t number = nodes == 1 ? root : next_++;
        add_node_.bind(1, number)
            .bind(2, node_bytes(node_size_, nodes == 1 ? depth : 0, part))
            .run();
        above.push_back(cover_all(part));
        above.back().fid = number;
        ends_.push_back(end);
    }
    return above;
}

void TreeWriter::write(const std::vector<IndexBox>& boxes) {
    const std::vector<std::uint32_t> order = curve_order(boxes);
    std::vector<IndexBox> cells(boxes.size());
    std::ranges::transform(order, cells.begin(), [&](std::uint32_t place) { return boxes[place]; });
    std::vector<IndexBox> above = write_level(cells, 0);

    std::vector<std::int64_t> leaf_of(boxes.size());
    for (std::size_t node = 0, i = 0; node < ends_.size(); ++node) {
        for (; i < ends_[node]; ++i) {
            leaf_of[order[i]] = above[node].fid;
        }
    }
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        add_feature_.bind(1, boxes[i].fid).bind(2, leaf_of[i]).run();
    }
    for (std::size_t depth = 1; above.size() > 1; ++depth) {
        cells = std::move(above);
        above = write_level(cells, depth);
        for (std::size_t node = 0, i = 0; node < ends_.size(); ++node) {
            for (; i < ends_[node]; ++i) {
                add_parent_.bind(1, cells[i].fid).bind(2, above[node].fid).run();
            }
        }
    }
}

bool index_is_right(const SqliteFile& file, const std::string& index, std::size_t boxes) {
    return file.text("SELECT rtreecheck(" + sql_text(index) + ")") == "ok" &&
           file.integer("SELECT count(*) FROM " + sql_name(index)) ==
               static_cast<std::int64_t>(boxes);
}

// Inside a transaction; false when it must be rolled back.
bool fill(SqliteFile& file, const std::string& index, const Recipe& recipe,
          const std::vector<IndexBox>& boxes) {
    file.run(recipe.create);
    if (!boxes.empty()) {
        TreeWriter tree(file, index);
        if (!tree.usable()) {
            return false;
        }
        tree.write(boxes);
    }
    for (const std::string& trigger : recipe.triggers) {
        file.run(trigger);
    }
    file.run(recipe.extension);
    return index_is_right(file, index, boxes.size());
}

}  // namespace

IndexBox index_box(std::int64_t fid, double min_x, double max_x, double min_y, double max_y) {
    const auto down = [](double side) {
        const auto near = static_cast<float>(side);
        return static_cast<double>(near) > side
                   ? std::nextafter(near, -std::numeric_limits<float>::infinity())
                   : near;
    };
    const auto up = [](double side) {
        const auto near = static_cast<float>(side);
        return static_cast<double>(near) < side
                   ? std::nextafter(near, std::numeric_limits<float>::infinity())
                   : near;
    };
    return {fid, down(min_x), up(max_x), down(min_y), up(max_y)};
}

bool fill_spatial_index(SqliteFile& file, const std::string& table,
                        const std::vector<IndexBox>& boxes) {
    const Recipe recipe = recipe_of(table);
    try {
        file.run("BEGIN");
        const bool right = fill(file, "rtree_" + table + "_geom", recipe, boxes);
        file.run(right ? "COMMIT" : "ROLLBACK");
        return right;
    } catch (const OutputError&) {  // GDAL's own attempt will name the reason, if it meets it too
        file.roll_back();
        return false;
    }
}

void build_index_by_gdal(const std::filesystem::path& file, const std::string& table) {
    const GdalMessages messages;
    const GDALDatasetUniquePtr dataset(
        GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR | GDAL_OF_UPDATE));
    const auto answer =
        dataset ? column_of(*dataset, create_index_sql(table)) : std::vector<std::string>();
    if (answer.empty() || answer[0] != "1") {
        throw OutputError(file.string() + ": the spatial index of " + table +
                          " cannot be built: " + messages.text() + ".");
    }
}

}  // namespace farwater::io
