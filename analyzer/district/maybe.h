// A value or none in the room of the value, where std::optional takes twice as much: for what there
// is a million of.
#pragma once

#include <cmath>
#include <limits>
#include <optional>

#include "analyzer/district/units.h"

namespace farwater {

// Which value of a type stands for none; nothing else may have it.
template <class Value>
struct NoneOf;

template <>
struct NoneOf<float> {
    static float none() { return std::numeric_limits<float>::quiet_NaN(); }
    static bool is_none(float value) { return std::isnan(value); }
};

template <>
struct NoneOf<double> {
    static double none() { return std::numeric_limits<double>::quiet_NaN(); }
    static bool is_none(double value) { return std::isnan(value); }
};

template <class Dimension>
struct NoneOf<Quantity<Dimension>> {
    static Quantity<Dimension> none() {
        return Quantity<Dimension>::from_base(std::numeric_limits<double>::quiet_NaN());
    }
    static bool is_none(Quantity<Dimension> value) { return std::isnan(value.in_base()); }
};

// Read and written like a std::optional, which it becomes wherever one is asked for.
template <class Value>
class Maybe {
public:
    Maybe() = default;
    // NOLINTBEGIN(google-explicit-constructor): each stands for the same
    Maybe(std::nullopt_t) {}
    Maybe(Value value) : value_(value) {}
    Maybe(std::optional<Value> value) : value_(value ? *value : NoneOf<Value>::none()) {}
    operator std::optional<Value>() const {
        return has_value() ? std::optional<Value>(value_) : std::nullopt;
    }
    // NOLINTEND(google-explicit-constructor)

    bool has_value() const { return !NoneOf<Value>::is_none(value_); }
    explicit operator bool() const { return has_value(); }
    const Value& operator*() const { return value_; }  // precondition: has_value()
    const Value* operator->() const { return &value_; }
    Value value_or(Value other) const { return has_value() ? value_ : other; }
    void reset() { *this = Maybe(); }

    friend bool operator==(const Maybe& a, const Maybe& b) {
        return a.has_value() == b.has_value() && (!a.has_value() || a.value_ == b.value_);
    }

private:
    Value value_ = NoneOf<Value>::none();
};

}  // namespace farwater
