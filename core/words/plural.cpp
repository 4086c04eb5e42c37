#include "words/plural.h"

#include <cmath>

namespace wheyfield::words {
namespace {

std::string_view arabic(double n) {
  if (n != std::floor(n)) return "other";
  if (n == 0) return "zero";
  if (n == 1) return "one";
  if (n == 2) return "two";
  const double hundredths = std::fmod(n, 100.0);
  if (hundredths >= 3 && hundredths <= 10) return "few";
  if (hundredths >= 11 && hundredths <= 99) return "many";
  return "other";
}

}  // namespace

std::string_view plural_category(std::string_view family, double n) {
  n = std::fabs(n);
  if (family == "one-other") return n == 1 ? "one" : "other";
  if (family == "french") {
    if (n != 0 && std::fmod(n, 1e6) == 0) return "many";
    return n < 2 ? "one" : "other";
  }
  if (family == "zero-one") return n <= 1 ? "one" : "other";
  if (family == "zero-and-one") return n == 0 || n == 1 ? "one" : "other";
  if (family == "arabic") return arabic(n);
  return "other";
}

}  // namespace wheyfield::words
