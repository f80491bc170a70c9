#include "io/geopackage/carried_columns.h"

#include <cmath>
#include <ctime>
#include <string_view>

#include <cpl_time.h>
#include <fmt/format.h>
#include <ogrsf_frmts.h>

#include "io/pass_through.h"

namespace farwater::io {

namespace {

Carry carry_of(OGRFieldType type) {
    switch (type) {
        case OFTReal:
            return Carry::real;
        case OFTInteger:
            return Carry::integer;
        case OFTInteger64:
            return Carry::integer64;
        case OFTString:
            return Carry::text;
        case OFTBinary:
            return Carry::bytes;
        case OFTDate:
            return Carry::date;
        case OFTDateTime:
            return Carry::time;
        default:
            return Carry::as_text;
    }
}

OGRFieldSubType subtype_of(const OGRFieldDefn& column) {
    const OGRFieldSubType subtype = column.GetSubType();
    const bool kept = subtype == OFSTBoolean || subtype == OFSTInt16 || subtype == OFSTFloat32;
    return kept && carry_of(column.GetType()) != Carry::as_text ? subtype : OFSTNone;
}

std::string date_of(const OGRField& field) {
    return fmt::format("{:04}-{:02}-{:02}", field.Date.Year, field.Date.Month, field.Date.Day);
}

// In UTC, to the millisecond. A time without a zone, or in one that is not known, counts as UTC;
// else GDAL's zone counts quarters of an hour from 100. GDAL 3.6 itself would move a time west of
// Greenwich the wrong way.
std::string time_of(const OGRField& field) {
    tm whole{};
    whole.tm_year = field.Date.Year - 1900;
    whole.tm_mon = field.Date.Month - 1;
    whole.tm_mday = field.Date.Day;
    whole.tm_hour = field.Date.Hour;
    whole.tm_min = field.Date.Minute;
    if (field.Date.TZFlag > 1 && field.Date.TZFlag != 100) {
        const GIntBig zone_s = GIntBig{field.Date.TZFlag - 100} * 15 * 60;
        CPLUnixTimeToYMDHMS(CPLYMDHMSToUnixTime(&whole) - zone_s, &whole);
    }
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:06.3f}Z", whole.tm_year + 1900,
                       whole.tm_mon + 1, whole.tm_mday, whole.tm_hour, whole.tm_min,
                       static_cast<double>(field.Date.Second));
}

// Precondition: the cell is set and not NULL.
void add_cell(OGRFeature& from, int column, Carry carry, SqliteRows& cells) {
    const OGRField& field = *from.GetRawFieldRef(column);
    switch (carry) {
        case Carry::integer:
            return cells.add(std::int64_t{field.Integer});
        case Carry::integer64:
            return cells.add(std::int64_t{field.Integer64});
        case Carry::real:
            return std::isfinite(field.Real) ? cells.add(field.Real) : cells.add_null();
        case Carry::text:
            return cells.add(std::string_view(field.String));
        case Carry::bytes:
            return cells.add(
                std::span(field.Binary.paData, static_cast<std::size_t>(field.Binary.nCount)));
        case Carry::date:
            return cells.add(date_of(field));
        case Carry::time:
            return cells.add(time_of(field));
        case Carry::as_text:
            return cells.add(std::string_view(from.GetFieldAsString(column)));
    }
}

}  // namespace

std::vector<std::string> names_of(const OGRFeatureDefn& columns) {
    std::vector<std::string> names;
    names.reserve(static_cast<std::size_t>(columns.GetFieldCount()));
    for (int i = 0; i < columns.GetFieldCount(); ++i) {
        names.emplace_back(columns.GetFieldDefn(i)->GetNameRef());
    }
    return names;
}

std::vector<Carry> add_carried_columns(GeoPackageLayer& layer, const OGRFeatureDefn& columns,
                                       const std::vector<Column>& results) {
    std::vector<std::string> taken{"fid", "geom"};
    for (const Column& column : results) {
        taken.push_back(column.name);
    }
    const std::vector<std::string> names = names_of(columns);
    const std::vector<std::string> carried = carried_names(names, taken);
    std::vector<Carry> carries;
    for (int i = 0; i < columns.GetFieldCount(); ++i) {
        const OGRFieldDefn& column = *columns.GetFieldDefn(i);
        const auto place = static_cast<std::size_t>(i);
        const Carry carry = carry_of(column.GetType());
        OGRFieldDefn definition(carried[place].c_str(),
                                carry == Carry::as_text ? OFTString : column.GetType());
        definition.SetSubType(subtype_of(column));
        layer.add_column(definition,
                         carried[place] == names[place]
                             ? ""
                             : "Column " + names[place] + " of the input, as it stands there.");
        carries.push_back(carry);
    }
    return carries;
}

void add_carried_cells(OGRFeature& from, const std::vector<Carry>& carries, SqliteRows& cells) {
    int column = 0;
    for (const Carry carry : carries) {
        if (from.IsFieldSetAndNotNull(column)) {
            add_cell(from, column, carry, cells);
        } else {
            cells.add_null();
        }
        ++column;
    }
}

}  // namespace farwater::io
