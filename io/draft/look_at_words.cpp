#include "io/draft/look_at_words.h"

#include <algorithm>
#include <set>
#include <string>

#include <cpl_string.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include "io/draft/look_at_data.h"
#include "io/draft/values_of_column.h"
#include "io/files/letters.h"
#include "io/records/dataset.h"
#include "io/records/parse_cell.h"

namespace farwater::io {
namespace {

constexpr std::size_t records_between_looks = 4096;  // whether to stop

bool wants_all_values(const ColumnMatch& match) {
    return takes_words(*match.field) || match.field->name == "period" ||
           match.field->name == "weight_limit_lb";
}

// The different values of one column. Most are met again, so the cell is asked for as it stands.
class DifferentValues {
public:
    void add(const char* cell) {
        if (*cell == '\0' || met_.contains(std::string_view(cell)) || full_) {
            return;
        }
        full_ = met_.size() >= most_words_kept;
        if (!full_) {
            met_.emplace(cell);
            std::string text(trimmed(seen_letters(as_utf8(cell)).text));
            if (!text.empty() && std::ranges::find(values_, text) == values_.end()) {
                values_.push_back(std::move(text));
            }
        }
    }
    void put_into(ColumnLook& column, std::size_t records) {
        column.values = std::move(values_);
        column.looked = records;
        column.more_values = full_;
        column.filled = std::max(column.filled, column.values.size());
    }

private:
    std::set<std::string, std::less<>> met_;  // as the data have them
    std::vector<std::string> values_;
    bool full_ = false;
};

// Nothing but these columns is read.
void ignore_others(OGRLayer& layer, const std::vector<std::size_t>& columns) {
    CPLStringList ignored;
    ignored.AddString("OGR_GEOMETRY");
    ignored.AddString("OGR_STYLE");
    OGRFeatureDefn& all = *layer.GetLayerDefn();
    for (int i = 0; i < all.GetFieldCount(); ++i) {
        if (std::ranges::find(columns, static_cast<std::size_t>(i)) == columns.end()) {
            ignored.AddString(all.GetFieldDefn(i)->GetNameRef());
        }
    }
    layer.SetIgnoredFields(const_cast<const char**>(ignored.List()));
}

void look_through(OGRLayer& layer, const std::vector<std::size_t>& columns, LayerLook& look,
                  const Work& work) {
    std::vector<DifferentValues> values(columns.size());
    std::size_t records = 0;
    layer.ResetReading();
    while (const OGRFeatureUniquePtr feature{layer.GetNextFeature()}) {
        for (std::size_t i = 0; i < columns.size(); ++i) {
            const int field = static_cast<int>(columns[i]);
            if (feature->IsFieldSetAndNotNull(field) != 0) {
                values[i].add(feature->GetFieldAsString(field));
            }
        }
        if (++records % records_between_looks == 0 && work.stopped()) {
            return;
        }
    }
    for (std::size_t i = 0; i < columns.size() && records >= look.sampled; ++i) {
        values[i].put_into(look.columns[columns[i]], records);
    }
}

OGRLayer* layer_called(GDALDataset& dataset, const LayerLook& look) {
    if (!look.layer.empty()) {
        return dataset.GetLayerByName(look.layer.c_str());
    }
    const std::vector<OGRLayer*> layers = layers_to_look_at(dataset);
    return layers.size() == 1 ? layers.front() : nullptr;
}

void look_again(const std::filesystem::path& folder, const std::vector<std::size_t>& columns,
                LayerLook& look, const Work& work) {
    const GdalMessages messages;
    const auto dataset = opened_to_look(folder / look.file, GDAL_OF_VECTOR);
    OGRLayer* layer = dataset ? layer_called(*dataset, look) : nullptr;
    if (layer == nullptr ||
        layer->GetLayerDefn()->GetFieldCount() != static_cast<int>(look.columns.size())) {
        return;
    }
    take_only_row_for_names(*dataset, *layer);
    ignore_others(*layer, columns);
    look_through(*layer, columns, look, work);
}

}  // namespace

std::vector<WordColumn> columns_of_words(const Recognised& found,
                                         const std::vector<LayerLook>& layers) {
    std::vector<WordColumn> columns;
    for (const auto& [section, candidates] : found.sections) {
        if (candidates.empty() || candidates.front().look->is_osm) {
            continue;
        }
        const Candidate& best = candidates.front();
        const auto layer = static_cast<std::size_t>(best.look - layers.data());
        for (const auto* matches : {&best.match.sure, &best.match.likely}) {
            for (const ColumnMatch& match : *matches) {
                if (wants_all_values(match)) {
                    columns.push_back({layer, static_cast<std::size_t>(match.column -
                                                                       best.look->columns.data())});
                }
            }
        }
    }
    std::ranges::sort(columns);
    columns.erase(std::unique(columns.begin(), columns.end()), columns.end());
    return columns;
}

void look_at_words(const std::filesystem::path& folder, const std::vector<WordColumn>& columns,
                   std::vector<LayerLook>& layers, const Work& work) {
    for (std::size_t i = 0; i < columns.size() && !work.stopped();) {
        const std::size_t layer = columns[i].layer;
        std::vector<std::size_t> of_layer;
        for (; i < columns.size() && columns[i].layer == layer; ++i) {
            of_layer.push_back(columns[i].column);
        }
        if (!layers[layer].records || *layers[layer].records > layers[layer].sampled) {
            look_again(folder, of_layer, layers[layer], work);
        }
    }
}

}  // namespace farwater::io
