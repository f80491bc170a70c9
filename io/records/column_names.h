// Finding a column by its name, as people write names.
#pragma once

#include <string>
#include <string_view>
#include <vector>

class OGRLayer;

namespace farwater::io {

// The name in lower case, with one _ for whatever stands between letters and figures: "Rate (GPM) "
// is rate_gpm. Letters beyond ASCII stay.
std::string plain_column_name(std::string_view name);

// The names of a layer's columns as people see them: UTF-8, without letters that nobody sees.
std::vector<std::string> column_names(OGRLayer& layer);

// The places of the columns that the name means, in order: those written the same, else those in
// other upper and lower case, else those of the same plain name. More than one: it cannot be told
// which; empty: there is none.
std::vector<int> columns_called(std::string_view name, const std::vector<std::string>& names);

}  // namespace farwater::io
