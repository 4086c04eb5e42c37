#include "fermentation/reading.h"

#include <cmath>

#include "fermentation/normal.h"

namespace wheyfield::fermentation {
namespace {

constexpr double fine_step = 0.3 + 1e-9;

double within_step(const Reading& reading, double expected, double error) {
  return normal_below((reading.value + reading.step / 2 - expected) / error) -
         normal_below((reading.value - reading.step / 2 - expected) / error);
}

}  // namespace

ReadingErrors::ReadingErrors(const ParameterTable& table)
    : strip_coarse(table.row("strip-error-coarse").value),
      strip_fine(table.row("strip-error-fine").value),
      meter(table.row("meter-error").value),
      bias(table.row("reading-bias")),
      misread(table.row("misread").value),
      scale(table.row("scale-width").value),
      set_ph(table.row("set-ph").value),
      set_error(table.row("set-ph").spread),
      thermometer(table.row("thermometer-error").value) {}

double log_likelihood(const Reading& reading, double ph, double celsius, double bias,
                      const ReadingErrors& errors) {
  const auto with_floor = [&](double any, double share) {
    return std::log(errors.misread * any + (1.0 - errors.misread) * share);
  };
  const auto stepped = [&](double error) {
    return with_floor(reading.step / errors.scale, within_step(reading, ph + bias, error));
  };
  switch (reading.kind) {
    case Reading::Kind::strip:
      return stepped(reading.step <= fine_step ? errors.strip_fine : errors.strip_coarse);
    case Reading::Kind::meter:
      return stepped(errors.meter);
    case Reading::Kind::set: {
      const double sign = reading.value != 0.0 ? 1.0 : -1.0;
      return with_floor(0.5, normal_below(sign * (errors.set_ph - ph) / errors.set_error));
    }
    case Reading::Kind::thermometer:
      break;
  }
  const double off = (reading.value - celsius) / errors.thermometer;
  return -0.5 * off * off;
}

}  // namespace wheyfield::fermentation
