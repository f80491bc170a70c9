# Writes the page's HTML, style and script as one .cpp, for reports/page/page_text.h.
#   cmake -D folder=reports/page -D out=FILE.cpp -P reports/page/embed.cmake
cmake_minimum_required(VERSION 3.25)

# One script: each file makes one constant of its own and uses those above it.
set(scripts packed.js words.js parcels.js next_source.js patterns.js questions.js grid.js glyphs.js view.js painter.js map.js
    legend.js more.js sheet.js finder.js charts.js tables.js proposals.js page.js)

set(script "(() => {\n\"use strict\";\n")
foreach(name IN LISTS scripts)
    file(READ ${folder}/${name} text)
    string(APPEND script "// --- ${name}\n${text}")
endforeach()
string(APPEND script "})();\n")
file(READ ${folder}/style.css style)
file(READ ${folder}/page.html html)

# A browser hashes what stands between the tags, and template.html puts nothing else there.
string(SHA256 script_sha256 "${script}")
string(SHA256 style_sha256 "${style}")

set(mark "farwater_page")  # ends a raw string; stands in none of the files
set(cpp "// Written by reports/page/embed.cmake.\n#include \"reports/page/page_text.h\"\n\n")
string(APPEND cpp "namespace farwater::reports {\n\n")
foreach(part IN ITEMS html style script)
    string(APPEND cpp "std::string_view page_${part}() {\n    return R\"${mark}(${${part}})${mark}\";\n}\n")
endforeach()
foreach(part IN ITEMS style script)
    string(APPEND cpp "std::string_view page_${part}_sha256() {\n    return \"${${part}_sha256}\";\n}\n")
endforeach()
string(APPEND cpp "\n}  // namespace farwater::reports\n")
file(WRITE ${out} "${cpp}")
