// Dimensioned numbers: a volume is not an area, and the compiler says so.
//
// Values are held in SI (m, m2, m3, kg); units appear only at the border, in the named factories
// (`litres(20)`) and getters (`in_litres(v)`). Use plain `double` only for ratios.
// `Quantity<L, M>` has dimension length^L x mass^M. Products and quotients get the right dimension:
// Volume / Area is a Length (mix per area: 1 L/m2 = 1 mm).
// No range is enforced here; readers check signs and limits where the meaning is known.
#pragma once

namespace wheyfield::quantity {

template <int L, int M>
class Quantity {
 public:
  constexpr Quantity() = default;
  static constexpr Quantity from_si(double value) { return Quantity(value); }
  constexpr double si() const { return si_; }

  constexpr Quantity& operator+=(Quantity other) { return si_ += other.si_, *this; }
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.si_ + b.si_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.si_ - b.si_); }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.si_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(a.si_ * k); }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.si_ / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.si_ / b.si_; }
  friend constexpr bool operator==(Quantity a, Quantity b) { return a.si_ == b.si_; }
  friend constexpr bool operator<(Quantity a, Quantity b) { return a.si_ < b.si_; }
  friend constexpr bool operator>(Quantity a, Quantity b) { return b < a; }
  friend constexpr bool operator<=(Quantity a, Quantity b) { return !(b < a); }
  friend constexpr bool operator>=(Quantity a, Quantity b) { return !(a < b); }

 private:
  explicit constexpr Quantity(double si) : si_(si) {}
  double si_ = 0.0;
};

template <int L1, int M1, int L2, int M2>
constexpr Quantity<L1 + L2, M1 + M2> operator*(Quantity<L1, M1> a, Quantity<L2, M2> b) {
  return Quantity<L1 + L2, M1 + M2>::from_si(a.si() * b.si());
}
template <int L1, int M1, int L2, int M2>
constexpr Quantity<L1 - L2, M1 - M2> operator/(Quantity<L1, M1> a, Quantity<L2, M2> b) {
  return Quantity<L1 - L2, M1 - M2>::from_si(a.si() / b.si());
}

using Length = Quantity<1, 0>;    // [m]; also mix per area [m3/m2]
using Area = Quantity<2, 0>;      // [m2]
using Volume = Quantity<3, 0>;    // [m3]
using Mass = Quantity<0, 1>;      // [kg]
using Density = Quantity<-3, 1>;  // [kg/m3]

constexpr Length metres(double v) { return Length::from_si(v); }
constexpr Area square_metres(double v) { return Area::from_si(v); }
constexpr Area hectares(double v) { return Area::from_si(v * 1e4); }
// The international acre, 4046.8564224 m2 (0.3048 m x 66 x 0.3048 m x 660, exact).
constexpr Area acres(double v) { return Area::from_si(v * 4046.8564224); }
constexpr Volume litres(double v) { return Volume::from_si(v / 1e3); }
constexpr Volume millilitres(double v) { return Volume::from_si(v / 1e6); }
constexpr Mass kilograms(double v) { return Mass::from_si(v); }

constexpr double in_metres(Length v) { return v.si(); }
constexpr double in_square_metres(Area v) { return v.si(); }
constexpr double in_hectares(Area v) { return v.si() / 1e4; }
constexpr double in_acres(Area v) { return v.si() / 4046.8564224; }
constexpr double in_litres(Volume v) { return v.si() * 1e3; }
constexpr double in_millilitres(Volume v) { return v.si() * 1e6; }
constexpr double in_kilograms(Mass v) { return v.si(); }

// Rounded to whole millilitres, half away from zero: the grid on which serum is planned.
long long whole_millilitres(Volume v);

// Rounded to `places` decimals, half away from zero; never a negative zero.
double rounded(double value, int places);

}  // namespace wheyfield::quantity
