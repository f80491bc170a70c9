# Plants every kind of forbidden include in a small house and sees check_arrows.cmake catch it.
#   cmake -D scratch=FOLDER -P tests/check_arrows_test.cmake
cmake_minimum_required(VERSION 3.25)

set(check ${CMAKE_CURRENT_LIST_DIR}/check_arrows.cmake)
set(house ${scratch}/house)
set(failures 0)

function(put file)
    list(TRANSFORM ARGN PREPEND "#include " OUTPUT_VARIABLE lines)
    list(JOIN lines "\n" text)
    file(WRITE ${house}/${file} "${text}\n")
endfunction()

function(run_check)
    execute_process(COMMAND ${CMAKE_COMMAND} -D root=${house} -P ${check}
        RESULT_VARIABLE result OUTPUT_VARIABLE output ERROR_VARIABLE errors)
    set(result ${result} PARENT_SCOPE)
    set(errors "${errors}" PARENT_SCOPE)
endfunction()

# caught(SENTENCE PART FILE include...): with these includes in FILE the check fails and says PART.
function(caught sentence part file)
    put(${file} ${ARGN})
    run_check()
    file(REMOVE ${house}/${file})
    # cmake wraps its messages and indents them
    string(REGEX REPLACE "[ \n]+" " " errors "${errors}")
    string(FIND "${errors}" "${part}" at)
    string(FIND "${errors}" "Forbidden arrows: 1 " one)
    if(result EQUAL 0 OR at EQUAL -1 OR one EQUAL -1 OR NOT errors MATCHES "${file}: ")
        message("NOT CAUGHT: ${sentence}\n  result ${result}: ${errors}")
        math(EXPR failures "${failures} + 1")
        set(failures ${failures} PARENT_SCOPE)
    else()
        message("caught: ${sentence}")
    endif()
endfunction()

# A house that keeps to every arrow, using each permission once.
file(REMOVE_RECURSE ${house})
put(analyzer/district/units.h <compare> <cstdint>)
put(analyzer/parallel/work.cpp "\"analyzer/parallel/work.h\"" <oneapi/tbb/parallel_for.h> <thread>)
put(analyzer/parallel/work.h <stop_token>)
put(analyzer/geometry/area.cpp "\"analyzer/geometry/area.h\"" <geos_c.h>)
put(analyzer/geometry/area.h "\"analyzer/district/units.h\"")
put(analyzer/hydraulics/pipe.h "\"analyzer/district/units.h\"")
put(analyzer/demand/needed.h "\"analyzer/geometry/area.h\"")
put(analyzer/supply/run.h "\"analyzer/hydraulics/pipe.h\"" "\"analyzer/parallel/work.h\"")
put(routing/network.cpp "\"routing/network.h\"" <boost/graph/dijkstra_shortest_paths.hpp>)
put(routing/network.h "\"analyzer/geometry/area.h\"" "\"analyzer/parallel/work.h\"")
put(io/reader.cpp "\"io/feature_table.h\"" <ogr_api.h> <sqlite3.h> <unistd.h> <fmt/format.h> <fstream>)
put(io/toml.cpp <toml++/toml.h>)
put(io/record.cpp <openssl/evp.h>)
put(io/feature_table.h "\"analyzer/district/units.h\"")
put(reports/layers.cpp "\"io/feature_table.h\"" "\"analyzer/supply/run.h\"")
put(reports/json/cells.h <nlohmann/json.hpp>)
put(reports/json/summary.cpp <nlohmann/json.hpp> "\"reports/json/cells.h\"")
put(analyzer/app/main.cpp <CLI/CLI.hpp> "\"routing/network.h\"" "\"reports/layers.h\"" "\"io/reader.h\"")
put(sample_region/generate/main.cpp <ogr_api.h> "\"analyzer/district/units.h\"")
put(tests/support/slow.h "\"analyzer/district/units.h\"" <rapidcheck.h>)
put(tests/io/reader_test.cpp <catch2/catch.hpp> <gdal.h> <nlohmann/json.hpp> "\"tests/support/slow.h\"")
run_check()
if(NOT result EQUAL 0)
    message(FATAL_ERROR "The house that keeps to every arrow is refused:\n${errors}")
endif()

caught("the vocabulary knows nobody" "analyzer/district may include"
    analyzer/district/x.h "\"analyzer/parallel/work.h\"")
caught("the core does not know routing" "analyzer/supply may include"
    analyzer/supply/x.cpp "\"routing/network.h\"")
caught("supply does not know demand" "analyzer/supply may include"
    analyzer/supply/x.h "\"analyzer/demand/needed.h\"")
caught("hydraulics does not know supply" "analyzer/hydraulics may include"
    analyzer/hydraulics/x.h "\"analyzer/supply/run.h\"")
caught("routing does not know supply" "routing may include"
    routing/x.h "\"analyzer/supply/run.h\"")
caught("io does not know supply" "io may include"
    io/x.cpp "\"analyzer/supply/run.h\"")
caught("reports know one header of io" "reports may include"
    reports/x.cpp "\"io/reader.h\"")
caught("the inside of a room is its own" "from the inside of io"
    analyzer/app/x.cpp "\"io/records/record.h\"")
caught("reports do not know the app" "reports may include"
    reports/x.cpp "\"analyzer/app/run.h\"")
caught("nobody knows the tests" "io may include"
    io/x.cpp "\"tests/support/slow.h\"")
caught("nobody knows the sample region" "analyzer/app may include"
    analyzer/app/x.cpp "\"sample_region/generate/town.h\"")
caught("twins know the vocabulary only" "tests/support may include"
    tests/support/x.cpp "\"analyzer/supply/run.h\"")
caught("a path not from the root" "no path from the root"
    analyzer/supply/x.cpp "\"run.h\"")
caught("a path upwards" "no path from the root"
    analyzer/supply/x.cpp "\"../supply/run.h\"")
caught("a new folder without a row" "lies in no room"
    analyzer/newroom/x.h <vector>)
caught("an include by macro" "cannot be read"
    io/x.cpp SOME_HEADER)

caught("GDAL only in io" "gdal has no place in routing" routing/x.cpp <gdal_priv.h>)
caught("OGR only in io" "gdal has no place in analyzer/app" analyzer/app/x.cpp <ogrsf_frmts.h>)
caught("GDAL's cpl only in io" "gdal has no place in reports" reports/x.cpp <cpl_conv.h>)
caught("SQLite only in io" "sqlite has no place in reports" reports/x.cpp <sqlite3.h>)
caught("TOML only in io" "toml has no place in analyzer/app" analyzer/app/x.cpp <toml++/toml.h>)
caught("OpenSSL only in io" "openssl has no place in reports" reports/x.cpp <openssl/evp.h>)
caught("GEOS only in geometry" "geos has no place in io" io/x.cpp <geos_c.h>)
caught("Boost only in routing" "boost has no place in analyzer/supply"
    analyzer/supply/x.cpp <boost/graph/adjacency_list.hpp>)
caught("TBB only in parallel" "tbb has no place in routing" routing/x.cpp <tbb/parallel_for.h>)
caught("threads not in the core" "threads has no place in analyzer/supply" analyzer/supply/x.cpp <thread>)
caught("CLI11 only in the app" "cli11 has no place in io" io/x.cpp <CLI/CLI.hpp>)
caught("JSON not in the core" "json has no place in analyzer/supply" analyzer/supply/x.cpp <nlohmann/json.hpp>)
caught("JSON not in io" "json has no place in io" io/x.cpp <nlohmann/json_fwd.hpp>)
caught("fmt not in the core" "fmt has no place in analyzer/district" analyzer/district/x.cpp <fmt/format.h>)
caught("Catch2 only in tests" "catch2 has no place in io" io/x.cpp <catch2/catch.hpp>)
caught("no files in the core" "outside has no place in routing" routing/x.cpp <fstream>)
caught("no system calls in the core" "system has no place in analyzer/supply" analyzer/supply/x.cpp <unistd.h>)
caught("one place for CLI11" "one place for cli11" analyzer/app/x.cpp <CLI/App.hpp>)
caught("one place for TOML" "one place for toml" io/x.cpp <toml.hpp>)
caught("one place for JSON in reports" "one place for json" reports/x.cpp <nlohmann/json.hpp>)

caught("GDAL in a header" "gdal belongs in .cpp" io/x.h <ogr_api.h>)
caught("GEOS in a header" "geos belongs in .cpp" analyzer/geometry/x.h <geos_c.h>)
caught("Boost.Graph in a header" "boost belongs in .cpp" routing/x.h <boost/graph/graph_traits.hpp>)
caught("TBB in a header" "tbb belongs in .cpp" analyzer/parallel/x.h <tbb/task_arena.h>)
caught("GDAL in a test's header" "gdal belongs in .cpp" tests/golden/x.h <gdal.h>)
caught("Catch2 in a test's header" "catch2 belongs in .cpp" tests/support/x.h <catch2/catch.hpp>)
file(REMOVE ${house}/io/toml.cpp ${house}/analyzer/app/main.cpp)
file(REMOVE_RECURSE ${house}/reports/json)
caught("TOML in a header" "toml belongs in .cpp" io/x.h <toml++/toml.h>)
caught("JSON in a header" "json belongs in .cpp" reports/x.h <nlohmann/json.hpp>)
caught("CLI11 in a header" "cli11 belongs in .cpp" analyzer/app/x.h <CLI/CLI.hpp>)

if(failures GREATER 0)
    message(FATAL_ERROR "${failures} planted includes were not caught")
endif()
