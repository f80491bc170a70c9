#include "tests/support/sheet_text.h"

#include <regex>

namespace farwater::support {
namespace {

std::string without(std::string text, const std::string& element) {
    for (std::size_t begin = text.find("<" + element); begin != std::string::npos;
         begin = text.find("<" + element, begin)) {
        const std::string closing = "</" + element + ">";
        const std::size_t end = text.find(closing, begin);
        if (end == std::string::npos) {
            break;
        }
        text.erase(begin, end + closing.size() - begin);
    }
    return text;
}

}  // namespace

std::string with_hashes_hidden(const std::string& text) {
    return std::regex_replace(text, std::regex("[0-9a-f]{16,}"), "(hash)");
}

std::string seen_text(const std::string& html) {
    const std::string shown = without(without(html, "svg"), "style");
    std::string text;
    bool in_tag = false;
    for (const char c : shown) {
        if (c == '<') {
            in_tag = true;
        }
        if (!in_tag && (c != '\n' || (!text.empty() && text.back() != '\n'))) {
            text.push_back(c);
        }
        if (c == '>') {
            in_tag = false;
            text += text.empty() || text.back() == '\n' ? "" : "\n";
        }
    }
    return with_hashes_hidden(text);
}

std::string ill_formed(const std::string& html) {
    std::vector<std::string> open;
    for (std::size_t at = 0; at < html.size(); ++at) {
        if (html[at] == '&') {
            const std::size_t end = html.find(';', at);
            if (end == std::string::npos || end - at > 8) {
                return "a bare & at " + std::to_string(at);
            }
        }
        if (html[at] != '<' || html.compare(at, 2, "<!") == 0) {
            continue;
        }
        const std::size_t end = html.find('>', at);
        if (end == std::string::npos) {
            return "an open tag at " + std::to_string(at);
        }
        const std::string tag = html.substr(at + 1, end - at - 1);
        const std::string name = tag.substr(0, tag.find_first_of(" \n/", 1));
        if (tag.front() == '/') {
            if (open.empty() || open.back() != tag.substr(1)) {
                return "</" + tag.substr(1) + "> closes nothing at " + std::to_string(at);
            }
            open.pop_back();
        } else if (tag.back() != '/') {
            open.push_back(name);
        }
        at = end;
    }
    return open.empty() ? "" : "<" + open.back() + "> is not closed";
}

}  // namespace farwater::support
