// How sour does so much lactic acid make the milk? A balance of charges, no titration table.
//
// Milk is a sum of weak-acid groups (van Slyke) of amounts C_j and constants pK_j, diluted to
// `strength`. From its pH0 down to pH it takes up strong acid [mmol/L]
//   B(pH) = strength sum C_j [1/(1 + 10^(pK_j - pH0)) - 1/(1 + 10^(pK_j - pH))]
//           + 1000 (10^-pH - 10^-pH0)
// and of lactic acid, which gives up only a part of its protons,
//   P(pH) = B(pH) (1 + 10^(pKa - pH)).
// P rises strictly as the pH falls, so the pH of a total P is one number. Data: the rows
// acid-group-* and lactic-pka-milk of data/fermentation.toml. Not for serum after straining: that
// lacks the casein.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace wheyfield::fermentation {

struct AcidGroup {
  double pk;
  double amount;  // [mmol/L] in undiluted milk
};

struct MilkBuffer {
  std::vector<AcidGroup> groups;
  double strength = 1.0;  // 1 whole milk, 10/11 with a tenth of rice water, > 0
  double ph0 = 6.6;       // before any acid is made
  double lactic_pka = 3.71;
};

double strong_acid(const MilkBuffer& buffer, double ph);  // B [mmol/L], pH <= pH0
double lactic_acid(const MilkBuffer& buffer, double ph);  // P [mmol/L], pH <= pH0

// pH(P) read from a table of 97 points between pH0 and `lowest`, joined by cubics that keep each
// slope of the balance where the curve stays monotone with it (Fritsch and Carlson 1980): the pH
// never rises with P, and lies within 0.0001 of the balance.
class AcidCurve {
 public:
  static constexpr double lowest = 2.6;

  explicit AcidCurve(const MilkBuffer& buffer);
  // P >= 0 [mmol/L]; beyond the table's end the pH stays at `lowest`.
  double ph(double lactic) const;
  // Acid that moves the pH by one, on average from the start down to `above` [mmol/L], with
  // lowest < above < pH0.
  double acid_per_ph(double above) const;

 private:
  static constexpr int points = 97;
  static constexpr std::size_t marks = 512;
  std::array<double, points> acid_{};         // rising
  std::array<double, points> ph_{};           // falling
  std::array<double, points> slope_{};        // of the pH over the acid, <= 0
  std::array<std::uint8_t, marks> before_{};  // last point at or before each of evenly spaced acids
  double marks_per_acid_ = 0.0;
};

}  // namespace wheyfield::fermentation
