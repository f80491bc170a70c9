# Which room may include what: reads every #include line and fails on a forbidden arrow.
#   cmake [-D root=FOLDER] -P tests/check_arrows.cmake
cmake_minimum_required(VERSION 3.25)

if(NOT DEFINED root)
    get_filename_component(root ${CMAKE_CURRENT_LIST_DIR} DIRECTORY)
endif()

# --- the table ----------------------------------------------------------------------------------

# Third parties by the look of their headers. `system` is whatever is left between < and > that is
# not the standard library; `outside` are standard headers that reach files, terminals or the date.
set(party_names cairo gdal geos boost coin xlsxwriter toml json cli11 tbb catch2 rapidcheck benchmark fmt sqlite openssl proj outside threads system)
set(pattern_cairo "^(cairo|pango)")
set(pattern_gdal "^(gdal|ogr|cpl_|vrt)[a-z_]*\\.h")
set(pattern_geos "^geos")
set(pattern_boost "^boost/")
set(pattern_coin "^coin/")
set(pattern_xlsxwriter "^xlsxwriter")
set(pattern_toml "^toml")
set(pattern_json "^nlohmann/")
set(pattern_cli11 "^CLI/")
set(pattern_tbb "^(tbb|oneapi)/")
set(pattern_catch2 "^catch2/")
set(pattern_rapidcheck "^rapidcheck")
set(pattern_benchmark "^benchmark/")
set(pattern_fmt "^fmt/")
set(pattern_sqlite "^sqlite3")
set(pattern_openssl "^openssl/")
set(pattern_proj "^proj")
set(pattern_outside "^(fstream|iostream|filesystem|cstdio|ctime)$")
set(pattern_threads "^(thread|future|execution)$")
set(pattern_system "[./]")

# These make every file slow that includes them: nowhere in a header, tests' own headers included,
# but in the room's folder of that name.
set(never_in_headers cairo gdal geos boost coin xlsxwriter toml json cli11 tbb catch2)
# Each of these compiles for many seconds, or is best known by one file only: in one .cpp of a room
# at most, or in the room's folder of that name and nowhere else.
set(once_in_a_room toml json cli11 cairo)

# room(FOLDER [MAY prefix...] [PARTIES name...]): files below FOLDER may include it, the prefixes,
# the parties and the standard library. The longest FOLDER that fits a file counts. ALL = no limit.
# What lies in a room's sub-folders is its inside: other rooms see the headers in FOLDER itself,
# and of the inside only what their row names in full.
set(rooms_of_the_house "")
macro(room folder)
    cmake_parse_arguments(row "" "" "MAY;PARTIES" ${ARGN})
    list(APPEND rooms_of_the_house ${folder})
    set("may ${folder}" ${row_MAY})
    set("parties ${folder}" ${row_PARTIES})
endmacro()

room(analyzer/district)
room(analyzer/parallel PARTIES tbb threads)
room(analyzer/geometry MAY analyzer/district/ PARTIES geos)
room(analyzer/hydraulics MAY analyzer/district/)
room(analyzer/demand MAY analyzer/district/ analyzer/geometry/)
room(analyzer/supply MAY analyzer/district/ analyzer/hydraulics/ analyzer/parallel/ PARTIES coin)
room(analyzer/planning MAY analyzer/district/ analyzer/geometry/ analyzer/supply/ PARTIES coin)
room(analyzer/rating MAY analyzer/district/ analyzer/supply/)
# Routing's one third party is Boost.Graph, with the property maps that belong to it.
room(routing MAY analyzer/district/ analyzer/geometry/ analyzer/parallel/ PARTIES boost)
# io needs `parallel` because long reads and writes report progress and can be stopped.
room(io MAY analyzer/district/ analyzer/geometry/ analyzer/parallel/
    PARTIES gdal proj sqlite openssl toml fmt xlsxwriter outside threads system)
room(reports MAY analyzer/district/ analyzer/parallel/ analyzer/geometry/ analyzer/hydraulics/
    analyzer/demand/ analyzer/supply/ analyzer/planning/ analyzer/rating/ io/feature_table.h PARTIES cairo fmt json)
room(analyzer/app MAY analyzer/ routing/ io/ reports/ reports/atlas/atlas.h reports/cards/card_book.h
    reports/comparison/comparison_page.h reports/comparison/comparison_results.h reports/explain/explanation.h
    reports/gains/gain_pages.h reports/public/public_page.h reports/public/public_tables.h reports/rating/rating_documents.h
    reports/rating/rating_tables.h PARTIES cli11 fmt outside threads system)
room(sample_region/generate MAY ALL PARTIES ALL)
# Twins must not lean on what they check.
room(tests/support MAY analyzer/district/ PARTIES ALL)
room(tests MAY ALL PARTIES ALL)

# --- the check ----------------------------------------------------------------------------------

set(faults "")
function(fault file text)
    list(APPEND faults "${file}: ${text}")
    set(faults "${faults}" PARENT_SCOPE)
endfunction()

function(find_room file result_variable)
    set(best "")
    foreach(folder IN LISTS rooms_of_the_house)
        string(FIND "${file}" "${folder}/" at)
        string(LENGTH "${folder}" length)
        string(LENGTH "${best}" best_length)
        if(at EQUAL 0 AND length GREATER best_length)
            set(best ${folder})
        endif()
    endforeach()
    set(${result_variable} "${best}" PARENT_SCOPE)
endfunction()

function(find_party header result_variable)
    set(${result_variable} "" PARENT_SCOPE)
    foreach(name IN LISTS party_names)
        if(header MATCHES "${pattern_${name}}")
            set(${result_variable} ${name} PARENT_SCOPE)
            return()
        endif()
    endforeach()
endfunction()

# An include between quotes: one of our own headers, by its path from the root.
macro(check_own file folder header)
    set(allowed FALSE)
    set(named FALSE)
    find_room("${header}" target)
    get_filename_component(front "${header}" DIRECTORY)
    foreach(prefix IN ITEMS ${folder}/ LISTS "may ${folder}")
        string(FIND "${header}" "${prefix}" at)
        if(at EQUAL 0 OR (prefix STREQUAL "ALL" AND target))
            set(allowed TRUE)
        endif()
        if(prefix STREQUAL "${header}" OR prefix STREQUAL "ALL")
            set(named TRUE)
        endif()
    endforeach()
    if(NOT target)
        fault(${file} "includes \"${header}\", which is no path from the root into a room")
    elseif(NOT allowed)
        list(JOIN "may ${folder}" " " readable)
        fault(${file} "includes \"${header}\". Besides itself ${folder} may include: ${readable}")
    elseif(NOT target STREQUAL folder AND NOT front STREQUAL target AND NOT named)
        fault(${file} "includes \"${header}\" from the inside of ${target}. Others see the headers in ${target} itself")
    endif()
endmacro()

# An include between angle brackets: the standard library or a third party.
macro(check_party file folder header)
    find_party("${header}" party)
    if(party)
        # In the room's folder of its name a party is at home: all of that counts as one.
        set(place ${file})
        if(file MATCHES "^${folder}/${party}/")
            set(place ${folder}/${party})
        elseif(file MATCHES "\\.h$" AND party IN_LIST never_in_headers)
            fault(${file} "is a header and includes <${header}>. ${party} belongs in .cpp files only")
        endif()
        if(NOT "${party}" IN_LIST "parties ${folder}" AND NOT "ALL" IN_LIST "parties ${folder}")
            fault(${file} "includes <${header}>. ${party} has no place in ${folder}")
        elseif(party IN_LIST once_in_a_room AND NOT "ALL" IN_LIST "parties ${folder}")
            list(APPEND "files ${party} ${folder}" ${place})
            list(REMOVE_DUPLICATES "files ${party} ${folder}")
            list(LENGTH "files ${party} ${folder}" count)
            if(count GREATER 1)
                fault(${file} "includes <${header}>, and so does another file. ${folder} has one place for ${party}")
            endif()
        endif()
    endif()
endmacro()

file(GLOB_RECURSE files RELATIVE ${root}
    ${root}/analyzer/*.h ${root}/analyzer/*.cpp ${root}/routing/*.h ${root}/routing/*.cpp
    ${root}/io/*.h ${root}/io/*.cpp ${root}/reports/*.h ${root}/reports/*.cpp
    ${root}/sample_region/*.h ${root}/sample_region/*.cpp ${root}/tests/*.h ${root}/tests/*.cpp)
list(LENGTH files file_count)
if(file_count EQUAL 0)
    message(FATAL_ERROR "No sources below ${root}")
endif()
foreach(file IN LISTS files)
    find_room(${file} folder)
    if(NOT folder)
        fault(${file} "lies in no room. Give its folder a row in tests/check_arrows.cmake")
        continue()
    endif()
    file(STRINGS ${root}/${file} lines REGEX "^[ \t]*#[ \t]*include")
    foreach(line IN LISTS lines)
        if(line MATCHES "include[ \t]*\"([^\"]*)\"")
            check_own(${file} ${folder} "${CMAKE_MATCH_1}")
        elseif(line MATCHES "include[ \t]*<([^>]*)>")
            check_party(${file} ${folder} "${CMAKE_MATCH_1}")
        else()
            fault(${file} "has an include that cannot be read: ${line}")
        endif()
    endforeach()
endforeach()

list(LENGTH faults fault_count)
if(fault_count GREATER 0)
    list(JOIN faults "\n" readable)
    message(FATAL_ERROR "Forbidden arrows: ${fault_count}\n${readable}")
endif()
message(STATUS "${file_count} files keep to the arrows")
