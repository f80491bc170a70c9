// Writing a district file line by line.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace farwater::io {

// "a text" with what TOML wants escaped, on one line; letters that nobody sees are escaped too, so
// that the file can be read again. Precondition: UTF-8.
std::string toml_text(std::string_view text);

// `key = "text"`.
std::string toml_pair(std::string_view key, std::string_view text);

// Lines of a district file, each without its end.
class TomlLines {
public:
    void add(std::string line) { lines_.push_back(std::move(line)); }
    void blank();  // one empty line, never two, none at the beginning
    // Wrapped at about 100 letters, "# " and the blanks of its beginning before each line. What
    // stands in it is made fit for one.
    void comment(std::string_view text);
    // A rule with words: "# --- words ---------".
    void heading(std::string_view words);
    // All lines of `other`; with "# " before each where they only suggest.
    void take(const TomlLines& other, bool as_comment);
    bool empty() const { return lines_.empty(); }
    std::string text() const;

private:
    std::vector<std::string> lines_;
};

}  // namespace farwater::io
