# Writes the ctest listing of one test program; run after each link of it.
#   cmake -D program= -D room= -D sources= -D listing= -D folder= -D together= -P discover_tests.cmake
#
# `together` is how many quick tests one line of ctest runs, in one process: 1, or more for programs
# that take long to start.
#
# A test's label comes from a tag ([map], [property], [twin], [golden], [open-data]) or from its
# file (*_property_test.cpp and so on); the first of `kinds` that fits; `unit` otherwise. A test that
# measures seconds carries [alone] as well: ctest then runs nothing beside it.
cmake_minimum_required(VERSION 3.25)

set(kinds open-data golden twin property map)

# The names that the program's own filter lists for these tags.
function(list_names result_variable)
    list(JOIN ARGN "," filter)
    execute_process(COMMAND ${program} ${filter} --filenames-as-tags --list-test-names-only
        WORKING_DIRECTORY ${folder} OUTPUT_VARIABLE output RESULT_VARIABLE count)
    if(NOT count MATCHES "^[0-9]+$")  # Catch2 v2 returns the number of tests here
        message(FATAL_ERROR "${program} cannot list its tests: ${count}\n${output}")
    endif()
    string(REGEX REPLACE "[\r\n]+$" "" output "${output}")
    if(output MATCHES "[;]")
        message(FATAL_ERROR "A test name in ${program} holds a semicolon, which CMake lists cannot.")
    endif()
    string(REPLACE "\n" ";" output "${output}")
    set(${result_variable} "${output}" PARENT_SCOPE)
endfunction()

function(tags_of kind result_variable)
    set(tags "[${kind}]")
    string(REPLACE "-" "_" suffix ${kind})
    foreach(source IN LISTS sources)
        get_filename_component(stem ${source} NAME_WE)
        if(stem MATCHES "_${suffix}_test$")
            string(APPEND tags ",[#${stem}]")
        endif()
    endforeach()
    set(${result_variable} ${tags} PARENT_SCOPE)
endfunction()

# A test that runs nothing fails (--warn NoTests). Only open-data, reference and browser tests may be skipped,
# by a plain sentence: in SKIP_REGULAR_EXPRESSION a pattern with a bracket is silently lost.
set(skipped_data "SKIPPED: FARWATER_OPEN_DATA is not set")
set(skipped_packages "SKIPPED: the packages of tests/npm are not installed")
set(skipped_scipy "SKIPPED: SciPy is not installed")
set(skipped_browser "SKIPPED: Chromium or the packages of tests/browser are not installed")
# A line of ctest that runs the tests of these names.
function(add_line title kind)
    string(REGEX REPLACE "([][,\\\\])" "\\\\\\1" filters "${ARGN}")
    list(JOIN filters "," filter)
    set(skip "")
    if(kind STREQUAL "open-data" OR room STREQUAL "reference")
        set(skip "SKIP_REGULAR_EXPRESSION [==[${skipped_data};${skipped_packages};${skipped_scipy}]==]")
    elseif(room STREQUAL "browser")
        set(skip "SKIP_REGULAR_EXPRESSION [==[${skipped_browser}]==]")
    endif()
    set(alone FALSE)
    if("${ARGN}" IN_LIST alone_names)
        set(alone TRUE)
    endif()
    file(APPEND ${listing} "add_test([==[${title}]==] [==[${program}]==] [==[${filter}]==] --warn NoTests)\n"
        "set_tests_properties([==[${title}]==] PROPERTIES LABELS ${kind} TIMEOUT 900\n"
        "    RUN_SERIAL ${alone} WORKING_DIRECTORY [==[${folder}]==] ${skip})\n")
endfunction()

# Those that are quick and never skipped, `together` of them a line; the others by themselves.
function(add_lines kind)
    set(single TRUE)
    if(together GREATER 1 AND kind MATCHES "unit|map|property" AND NOT room MATCHES "browser|reference")
        set(single FALSE)
    endif()
    set(batch "")
    set(begun 0)
    foreach(name IN LISTS ARGN)
        if(single OR "${name}" IN_LIST alone_names)
            add_line("${kind} ${room}: ${name}" ${kind} "${name}")
            continue()
        endif()
        list(APPEND batch "${name}")
        list(LENGTH batch count)
        if(count EQUAL together)
            add_batch(${kind} ${begun} ${batch})
            math(EXPR begun "${begun} + ${count}")
            set(batch "")
        endif()
    endforeach()
    if(batch)
        add_batch(${kind} ${begun} ${batch})
    endif()
endfunction()
function(add_batch kind begun)
    list(LENGTH ARGN count)
    math(EXPR first "${begun} + 1")
    math(EXPR last "${begun} + ${count}")
    add_line("${kind} ${room}: tests ${first} to ${last}" ${kind} ${ARGN})
endfunction()

file(WRITE ${listing} "")
list_names(alone_names "[alone]")
set(listed "")
foreach(kind IN LISTS kinds)
    tags_of(${kind} tags)
    list_names(names ${tags})
    list(REMOVE_ITEM names ${listed})
    add_lines(${kind} ${names})
    list(APPEND listed ${names})
endforeach()
list_names(names "*")
list(REMOVE_ITEM names ${listed})
add_lines(unit ${names})
