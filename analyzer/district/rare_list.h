// A list that is empty nearly everywhere, where there are a million of it: 8 bytes while it is.
#pragma once

#include <cstddef>
#include <memory>
#include <utility>
#include <vector>

namespace farwater {

template <class Item>
class RareList {
public:
    RareList() = default;
    RareList(std::vector<Item> items)     // NOLINT(google-explicit-constructor): it stands for one
        : items_(items.empty() ? nullptr  // no room for nothing
                               : std::make_unique<std::vector<Item>>(std::move(items))) {}
    RareList(const RareList& other) : RareList(other.items()) {}
    RareList(RareList&&) noexcept = default;
    RareList& operator=(const RareList& other) { return *this = RareList(other); }
    RareList& operator=(RareList&&) noexcept = default;
    ~RareList() = default;

    // As long as the list stands and is not changed.
    const std::vector<Item>& items() const {
        static const std::vector<Item> none;
        return items_ ? *items_ : none;
    }
    operator const std::vector<Item>&() const {  // NOLINT(google-explicit-constructor): likewise
        return items();
    }
    bool empty() const { return items().empty(); }
    std::size_t size() const { return items().size(); }
    auto begin() const { return items().begin(); }
    auto end() const { return items().end(); }
    const Item& front() const { return items().front(); }  // precondition: not empty
    const Item& back() const { return items().back(); }    // likewise
    const Item& operator[](std::size_t i) const { return items()[i]; }

    friend bool operator==(const RareList& a, const RareList& b) { return a.items() == b.items(); }

private:
    std::unique_ptr<std::vector<Item>> items_;  // null: empty
};

}  // namespace farwater
