// A text that many things have, such as the name of a road that is drawn in a hundred pieces: kept
// once, by whoever makes them.
#pragma once

#include <memory>
#include <set>
#include <string>
#include <string_view>
#include <utility>

namespace farwater {

class SharedText {
public:
    SharedText() = default;  // empty
    // NOLINTBEGIN(google-explicit-constructor): it stands for a text
    SharedText(std::string text)
        : text_(text.empty() ? nullptr : std::make_shared<const std::string>(std::move(text))) {}
    SharedText(const char* text) : SharedText(std::string(text)) {}
    operator const std::string&() const { return text(); }
    operator std::string_view() const { return text(); }
    // NOLINTEND(google-explicit-constructor)

    // As long as the text stands.
    const std::string& text() const {
        static const std::string none;
        return text_ ? *text_ : none;
    }
    bool empty() const { return !text_; }

    friend bool operator==(const SharedText& a, const SharedText& b) {
        return a.text_ == b.text_ || a.text() == b.text();
    }
    friend bool operator==(const SharedText& a, std::string_view b) { return a.text() == b; }
    friend bool operator==(const SharedText& a, const std::string& b) { return a.text() == b; }
    friend bool operator==(const SharedText& a, const char* b) { return a.text() == b; }

private:
    std::shared_ptr<const std::string> text_;  // null: empty
};

// Makes texts, equal ones once. O(log texts).
class SharedTexts {
public:
    SharedText of(std::string_view text) {
        const auto known = texts_.lower_bound(text);
        if (known != texts_.end() && known->text() == text) {
            return *known;
        }
        return *texts_.emplace_hint(known, std::string(text));
    }

private:
    struct Less {
        // NOLINTNEXTLINE(readability-identifier-naming): the name that std::set asks for
        using is_transparent = void;
        bool operator()(std::string_view a, std::string_view b) const { return a < b; }
    };
    std::set<SharedText, Less> texts_;
};

}  // namespace farwater
