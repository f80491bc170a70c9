// What reports/page/ holds, put into the program when it is built.
#pragma once

#include <string_view>

namespace farwater::reports {

std::string_view page_html();    // page.html, with {{name}} where something goes in
std::string_view page_style();   // style.css
std::string_view page_script();  // the .js files in the order of reports/page/embed.cmake

// SHA-256 of the last two, 64 hexadecimal digits each.
std::string_view page_style_sha256();
std::string_view page_script_sha256();

}  // namespace farwater::reports
