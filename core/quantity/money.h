// Money of one season: 64-bit thousandths of one currency, so that sums are exact on every machine.
// There is no conversion between currencies and no product with a double except `Money::times`,
// which rounds half away from zero to a thousandth.
#pragma once

#include <cstdint>

namespace wheyfield::quantity {

class Money {
 public:
  constexpr Money() = default;
  static constexpr Money from_thousandths(std::int64_t value) { return Money(value); }
  // `amount` in whole currency, rounded half away from zero to a thousandth.
  // Valid range |amount| < 9e15 thousandths.
  static Money from_amount(double amount);
  constexpr std::int64_t thousandths() const { return thousandths_; }
  double amount() const { return static_cast<double>(thousandths_) / 1000.0; }
  // Whole currency units, half away from zero: how money is printed.
  std::int64_t whole() const;
  Money times(double factor) const;

  constexpr Money& operator+=(Money other) { return thousandths_ += other.thousandths_, *this; }
  friend constexpr Money operator+(Money a, Money b) {
    return Money(a.thousandths_ + b.thousandths_);
  }
  friend constexpr Money operator-(Money a, Money b) {
    return Money(a.thousandths_ - b.thousandths_);
  }
  friend constexpr Money operator*(Money a, std::int64_t count) {
    return Money(a.thousandths_ * count);
  }
  friend constexpr bool operator==(Money a, Money b) { return a.thousandths_ == b.thousandths_; }
  friend constexpr bool operator<(Money a, Money b) { return a.thousandths_ < b.thousandths_; }

 private:
  explicit constexpr Money(std::int64_t thousandths) : thousandths_(thousandths) {}
  std::int64_t thousandths_ = 0;
};

}  // namespace wheyfield::quantity
