// Going through the records of a layer.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>

#include "analyzer/parallel/work.h"
#include "io/records/layer_rows.h"
#include "io/records/layer_source.h"

namespace farwater::io {

class Record;

// How many records there are, where the format tells without counting; else 0.
std::size_t expected_records(const LayerSource& source);

// What `read` did with a record.
enum class Taken : std::uint8_t {
    no,
    yes,
    left_out,  // rightly: it is none of what is read here
};

// Calls `read` for every record in order, rows counted from 0, and keeps the problems that it
// raised. Rows of a CSV file with more cells than columns are set aside unread. Rows with nothing
// in them are passed over, and texts are UTF-8 by then; a problem of each kind tells how many rows.
// A record that it did not take or left out counts as set aside, one with a problem of severity
// `repaired` as repaired. Throws InputError when GDAL fails half way, when a required section has
// no record, or when more than 90 % of those not left out were set aside. Stops early when `work`
// is stopped.
LayerLog for_each_record(const LayerSource& source, const Work& work,
                         const std::function<Taken(Record& record)>& read);

// Throws InputError when more than 90 % of the records were set aside, with the first reason in it.
void check_mostly_usable(const LayerSpec& spec, const LayerLog& log);

}  // namespace farwater::io
