#include "io/carried_columns.h"

#include <cmath>
#include <utility>

#include <ogrsf_frmts.h>

#include "io/pass_through.h"

namespace farwater::io {

namespace {

Carry carry_of(OGRFieldType type) {
    switch (type) {
        case OFTReal:
            return Carry::real;
        case OFTInteger:
        case OFTInteger64:
        case OFTString:
        case OFTBinary:
        case OFTDate:
        case OFTDateTime:
            return Carry::as_it_is;
        default:
            return Carry::as_text;
    }
}

OGRFieldSubType subtype_of(const OGRFieldDefn& column) {
    const OGRFieldSubType subtype = column.GetSubType();
    const bool kept = subtype == OFSTBoolean || subtype == OFSTInt16 || subtype == OFSTFloat32;
    return kept && carry_of(column.GetType()) != Carry::as_text ? subtype : OFSTNone;
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

void carry_values(OGRFeature& from, OGRFeature& to, const std::vector<Carry>& carries) {
    for (int i = 0; i < static_cast<int>(carries.size()); ++i) {
        const Carry carry = carries[static_cast<std::size_t>(i)];
        if (!from.IsFieldSetAndNotNull(i) ||
            (carry == Carry::real && !std::isfinite(from.GetFieldAsDouble(i)))) {
            to.SetFieldNull(i);
        } else if (carry == Carry::as_text) {
            to.SetField(i, from.GetFieldAsString(i));
        } else {
            std::swap(*from.GetRawFieldRef(i), *to.GetRawFieldRef(i));
        }
    }
}

}  // namespace farwater::io
