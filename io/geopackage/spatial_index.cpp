#include "io/geopackage/spatial_index.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <numeric>
#include <span>

#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/error.h"
#include "io/geopackage/sqlite_rows.h"
#include "io/records/dataset.h"

namespace farwater::io {

namespace {

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
    return std::accumulate(boxes.begin() + 1, boxes.end(), boxes.front(),
                           [](const IndexBox& a, const IndexBox& b) { return cover(a, b); });
}

std::uint32_t cell(float low, float high, float origin, float extent) {
    const double middle = (static_cast<double>(low) + static_cast<double>(high)) / 2.0;
    const double share =
        extent > 0.0F ? (middle - static_cast<double>(origin)) / static_cast<double>(extent) : 0.0;
    // A box that is not a number lies at the origin.
    return share > 0.0 ? static_cast<std::uint32_t>(std::min(share, 1.0) * 65535.0) : 0;
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
          parents_(file, index + "_parent", 2),
          leaves_(file, index + "_rowid", 2) {}

    // False when the table's nodes are not of the documented kind.
    bool usable() const { return node_size_ >= header_bytes + 2 * cell_bytes; }

    void write(const std::vector<IndexBox>& boxes);

private:
    std::vector<IndexBox> write_level(std::span<const IndexBox> cells, std::size_t depth);

    std::size_t node_size_;
    SqliteStatement add_node_;
    SqliteRows parents_;  // of nodes
    SqliteRows leaves_;   // of features
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
        leaves_.add(boxes[i].fid);
        leaves_.add(leaf_of[i]);
    }
    leaves_.finish();
    for (std::size_t depth = 1; above.size() > 1; ++depth) {
        cells = std::move(above);
        above = write_level(cells, depth);
        for (std::size_t node = 0, i = 0; node < ends_.size(); ++node) {
            for (; i < ends_[node]; ++i) {
                parents_.add(cells[i].fid);
                parents_.add(above[node].fid);
            }
        }
    }
    parents_.finish();
}

// rtreecheck also counts: as many features as cells in the leaves.
bool index_is_right(const SqliteFile& file, const std::string& index, std::size_t boxes) {
    return file.integer("SELECT count(*) FROM " + sql_name(index + "_rowid")) ==
               static_cast<std::int64_t>(boxes) &&
           file.text("SELECT rtreecheck(" + sql_text(index) + ")") == "ok";
}

// False when what it did must be taken back.
bool fill(SqliteFile& file, const std::string& index, const std::vector<IndexBox>& boxes) {
    if (boxes.empty()) {
        return true;
    }
    TreeWriter tree(file, index);
    if (!tree.usable()) {
        return false;
    }
    tree.write(boxes);
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
    file.run("SAVEPOINT index_filling");
    bool right = false;
    try {
        right = fill(file, "rtree_" + table + "_geom", boxes);
    } catch (const OutputError&) {
        if (!file.in_transaction()) {
            throw;
        }
    }
    file.run(right ? "RELEASE index_filling" : "ROLLBACK TO index_filling; RELEASE index_filling");
    return right;
}

void build_index_by_gdal(const std::filesystem::path& file, const std::string& table) {
    const GdalMessages messages;
    const GDALDatasetUniquePtr dataset(
        GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR | GDAL_OF_UPDATE));
    const auto done = [&](const std::string& what) {
        const std::string sql = "SELECT " + what + "SpatialIndex(" + sql_text(table) + ", 'geom')";
        OGRLayer* answer = dataset ? dataset->ExecuteSQL(sql.c_str(), nullptr, nullptr) : nullptr;
        if (answer == nullptr) {
            return false;
        }
        const OGRFeatureUniquePtr row(answer->GetNextFeature());
        const bool yes = row && row->GetFieldAsInteger(0) == 1;
        dataset->ReleaseResultSet(answer);
        return yes;
    };
    done("Disable");
    if (!done("Create")) {
        throw OutputError(file.string() + ": the spatial index of " + table +
                          " cannot be built: " + messages.text() + ".");
    }
}

}  // namespace farwater::io
