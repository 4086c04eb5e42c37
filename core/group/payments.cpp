#include "group/payments.h"

#include <cmath>
#include <optional>

#include "journal/standing.h"
#include "quantity/number_text.h"

namespace wheyfield::group {
namespace {

using journal::Event;
using journal::text_in;

struct Amount {
  std::string unit;
  std::int64_t thousandths = 0;
};

Amount in_thousandths(double value, std::string unit) {
  return {std::move(unit), static_cast<std::int64_t>(std::llround(value * 1000.0))};
}

std::optional<Amount> measured(const std::string& text, const quantity::UnitTable& units) {
  const auto amount = units.amount(text);
  if (!amount) return std::nullopt;
  const double si = amount->number * amount->unit->factor;
  switch (amount->unit->dimension) {
    case quantity::Dimension::volume:
      return in_thousandths(si * 1000.0, "L");
    case quantity::Dimension::mass:
      return in_thousandths(si, "kg");
    case quantity::Dimension::length:
      return in_thousandths(si, "m");
    case quantity::Dimension::area:
      break;
  }
  return in_thousandths(amount->number, amount->unit->name);
}

// "20 L", "3 pieces"; a unit that nobody explained stays as it was written.
std::optional<Amount> read_amount(const std::string& text, const quantity::UnitTable& units) {
  if (auto amount = measured(text, units)) return amount;
  const auto parts = quantity::split_unit(text);
  const auto number = quantity::parse_number(parts.number);
  if (!number || !(std::fabs(*number) < 1e12)) return std::nullopt;
  const std::string unit(parts.unit);
  return in_thousandths(*number, unit == "pieces" ? "piece" : unit);
}

bool add(Paid& sum, const Event& event, const quantity::UnitTable& units) {
  const auto money = quantity::parse_money(text_in(event.body, "money"));
  const auto amount = read_amount(text_in(event.body, "amount"), units);
  if (money) sum.money += *money;
  if (amount) sum.kind[{text_in(event.body, "what"), amount->unit}] += amount->thousandths;
  return money || amount;
}

}  // namespace

Payments payments(const journal::Facts& facts, const quantity::UnitTable& units,
                  const Persons& persons, calendar::Date first, calendar::Date last) {
  Payments all;
  for (const char* kind : {"paid-in", "paid-out"}) {
    const auto side = std::string(kind) == "paid-in" ? &Balance::in : &Balance::out;
    for (const journal::Item& item : facts.of(kind))
      for (const Event* event : item.said) {
        if (event->on < first || event->on > last) continue;
        if (!add(all.all.*side, *event, units)) {
          all.unread.push_back(event);
          continue;
        }
        add(all.by_person[persons.of(text_in(event->body, "member"))].*side, *event, units);
      }
  }
  return all;
}

calendar::Date first_day() { return calendar::Date::from_civil(1900, 1, 1); }
calendar::Date last_day() { return calendar::Date::from_civil(2199, 12, 31); }

}  // namespace wheyfield::group
